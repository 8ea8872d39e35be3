"""Where on a line its impedance changes, and how: the steps in a step response, freed from one another's echoes.

The line is taken to be without loss and made of thin layers; what comes back first names the first layer, which
is taken away with all its echoes, and so on. Source: A. M. Bruckstein and T. Kailath, Inverse scattering for
discrete transmission-line models, SIAM Review 29, 1987 (from memory), who trace the method to Schur, 1917.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from core.arrays import Array
from core.checks import choice, of_kind
from core.errors import OutOfRange
from core.ranges import one_number
from core.readable import Readable, Rows, amount
from core.time_domain import StepResponse

END = 50.0
"""How many times the line's impedance, or what part of it, counts as the end of the line: nothing is beyond it."""
RESTLESS = 0.03
"""Volts back before the step is sent that are too many to go on with."""
TOTAL = 0.9
"""Reflection from which a change of impedance is told as an open end or a short circuit."""
KINDS = {
    "open end": "the line is open here, or broken",
    "short circuit": "the conductors touch here",
    "rise": "from here on the impedance is higher: another line, or the load at its end",
    "fall": "from here on the impedance is lower: another line, or the load at its end",
    "dip": "the impedance falls and comes back: something across the line, as water, a crush or a capacitance",
    "bump": "the impedance rises and comes back: something in the line, as a bad joint or an inductance",
}


@dataclass(frozen=True)
class Fault(Readable):
    """One change of impedance along a line.

    distance_m : metres.  kind : one of `KINDS`, which says what each means.  reflection : of the change alone,
    with respect to the impedance before it; for a dip or bump the larger of its two steps.
    impedance_after : ohms of the line that follows; inf and 0 at its end."""

    distance_m: float
    kind: str
    reflection: float
    impedance_after: float

    def __post_init__(self) -> None:
        choice(self.kind, tuple(KINDS), "kind of fault")

    @property
    def meaning(self) -> str:
        """What such a fault usually is."""
        return KINDS[self.kind]

    def _rows(self) -> Rows:
        after = amount(self.impedance_after, "ohm")
        return [(self.kind, f"at {amount(self.distance_m, 'm')}"), ("impedance after", after)]


def impedance_profile(response: StepResponse) -> tuple[Array, Array]:
    """Impedance along the line, freed from the echoes between its changes.

    response : from `step_response`.  Returns distances in metres from slightly before the line, where the first
    step begins to show, and ohms, both of shape (k,); nan beyond the end of the line.
    Loss is not taken out: a lossy line seems to rise slowly, and its far end to be less than an end.
    Raises OutOfRange for what no lossless line sends back, and where echoes have not died away.
    Source: the top of the module."""
    distance, logs = _layers(of_kind(response, StepResponse, "response", "that of step_response"))
    return distance, response.line_impedance * np.exp(logs)


def find_faults(response: StepResponse, at_least: float = 0.03) -> list[Fault]:
    """The changes of impedance along a line, nearest first.

    response : from `step_response`, of a sweep with its edge rounded: without, its ringing is told as changes; of
    one line, a single axis. Distances are in metres, impedances in ohms.
    at_least : smallest |reflection| of a change that is told, above 0 up to 1. As for `impedance_profile`, loss is
    not taken out: through much of it an open end is told as a rise and a short circuit as a fall.
    Returns a list of `Fault`, of any length, each with its distance in metres and the impedance after it in ohms.
    Raises OutOfRange.  Source: the top of the module; each change stands where half of it has come back.

    >>> from core.board import SPEED_OF_LIGHT
    >>> from core.time_domain import step_response
    >>> sweep = 10e6 * np.arange(1, 201)
    >>> step_response(sweep, np.exp(-4j * np.pi * sweep * 3.0 / SPEED_OF_LIGHT))  # open, 3 m away
    StepResponse(samples: 1600; reaches: 11.23 m; resolution: 0.07189 m)
    >>> find_faults(_)
    [Fault(open end: at 3.002 m; impedance after: open circuit)]
    """
    least = one_number(at_least, "smallest reflection", "such as 0.03", above=0, up_to=1)
    distance, logs = _layers(of_kind(response, StepResponse, "response", "that of step_response"))
    known = ~np.isnan(logs)
    distance, logs = distance[known], logs[known]
    changes = _changes(distance, logs, least)
    faults: list[Fault] = []
    before: tuple[float, float, float] | None = None
    for change in changes:
        if before and _comes_back(before, change, response.resolution_m):
            faults[-1] = _brief(before, change, response.line_impedance)
            before = None
        else:
            faults.append(_lasting(change, response.line_impedance))
            before = change
    return faults


Change = tuple[float, float, float]
"""Distance, reflection with respect to the impedance before, and logarithm of the impedance after."""


def _layers(response: StepResponse) -> tuple[Array, Array]:
    """Distances, and the logarithm of the impedance over that of the first line; nan beyond the end."""
    if response.unrest > RESTLESS:
        raise OutOfRange(
            f"Echoes have not died away in the time that this sweep knows: {response.unrest:.2g} of what is sent seems "
            "to be back before it is sent. Take frequencies half as far apart.",
            value=response.unrest,
        )
    start = int(np.argmax(response.distance_m >= -1.5 * response.resolution_m))
    back = np.diff(response.reflection[start - 1 :])
    sent = np.zeros_like(back)
    sent[0] = 1.0
    logs, reached = np.full(back.size, np.nan), 0.0
    for layer in range(back.size):
        share = back[0] / sent[0]
        if not abs(share) < 1:
            raise OutOfRange(
                "No lossless line sends back what was measured; is it an amplifier's?", value=share
            )
        reached += 2 * np.arctanh(share)
        logs[layer] = reached
        if abs(reached) > np.log(END):
            break
        through = np.sqrt(1 - share**2)
        sent, back = ((sent - share * back) / through)[:-1], ((back - share * sent) / through)[1:]
    return response.distance_m[start:], logs


def _changes(distance: Array, logs: Array, least: float) -> list[Change]:
    """Every rise and fall by `least` or more, each with all that follows it up to the next: ripples beside a step
    belong to it, and a slow drift, as that of a lossy line, is none."""
    rising = np.abs(np.diff(logs, prepend=0.0))
    padded = np.concatenate([[0.0], rising, [0.0]])
    tops = np.nonzero((rising > padded[:-2]) & (rising >= padded[2:]))[0].tolist()
    sizes = [_change(distance, logs, *ends)[1] for ends in _spans(rising, tops)]
    large = [top for top, size in zip(tops, sizes, strict=True) if abs(size) >= least]
    return [_change(distance, logs, *ends) for ends in _spans(rising, large)]


def _spans(rising: Array, tops: list[int]) -> list[tuple[int, int]]:
    """Around each place where the impedance changes fastest, from and to where it changes least."""
    valleys = [first + int(np.argmin(rising[first : last + 1])) for first, last in pairwise(tops)]
    return list(pairwise([0, *valleys, rising.size - 1])) if tops else []


def _change(distance: Array, logs: Array, first: int, last: int) -> Change:
    start, end = logs[first] if first else 0.0, logs[last]
    reflection = float(np.tanh((end - start) / 2))
    if last == first or reflection == 0:
        return float(distance[first]), 0.0, float(end)
    grown = np.tanh((logs[first : last + 1] - start) / 2) / reflection
    half = 0.5 / abs(reflection) if abs(reflection) > TOTAL else 0.5
    return float(np.interp(half, grown, distance[first : last + 1])), reflection, float(end)


def _comes_back(first: Change, second: Change, resolution: float) -> bool:
    """Whether the second change undoes the first, so near that they are one thing."""
    undone = first[1] * second[1] < 0 and abs(first[1] + second[1]) < 0.3 * max(abs(first[1]), abs(second[1]))
    return undone and second[0] - first[0] < 2 * resolution


def _brief(first: Change, second: Change, line: float) -> Fault:
    larger = max(first[1], second[1], key=abs)
    kind = "dip" if first[1] < 0 else "bump"
    return Fault(
        (first[0] + second[0]) / 2,
        kind,
        larger if larger * first[1] > 0 else -larger,
        line * float(np.exp(second[2])),
    )


def _lasting(change: Change, line: float) -> Fault:
    distance, reflection, log = change
    if abs(log) > np.log(END) or abs(reflection) > TOTAL:
        return (
            Fault(distance, "open end", reflection, np.inf)
            if reflection > 0
            else Fault(distance, "short circuit", reflection, 0.0)
        )
    return Fault(distance, "rise" if reflection > 0 else "fall", reflection, line * float(np.exp(log)))
