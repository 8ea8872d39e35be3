"""A measured reflection seen in time: how a step comes back, and so where on a line a fault is.

A sweep over frequency in equal steps says what comes back within one over the step, and tells apart what is half
a wave of the highest frequency from each other. Distances are one way, in metres, at the velocity of the line.
Source: the Fourier transform; the sweep's edge is rounded by J. F. Kaiser's window, 1974 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array
from core.board import SPEED_OF_LIGHT
from core.checks import real_impedance
from core.errors import OutOfRange
from core.ranges import one_number, real_in_range
from core.readable import Readable, Rows, amount

FINER = 4
"""Samples in time for one that the sweep needs: enough to draw, and to find a peak between them."""
UNEVEN = 1e-6
"""By how much of a step the frequencies of an even sweep may be off it."""
FEWEST = 8
MOST = 1.1
"""|reflection| that an error of measurement may make of a whole one."""
SILENCE = 0.25
"""The part of the time known in which nothing has come back yet: the step is sent after it."""


@dataclass(frozen=True, eq=False)
class StepResponse(Readable):
    """What a step of one volt brings back from a line, over time. Arrays of shape (m,).

    time : seconds since the step was sent, from before zero.  distance_m : where a wave turned that is back then.
    reflection : volts that are back.  line_impedance : ohms of the line it was sent on.
    resolution_m : what is nearer together than this is seen as one.  unrest : largest volts that are back before
    the step is sent, where nothing can be; as much may be wrong anywhere."""

    time: Array
    distance_m: Array
    reflection: Array
    line_impedance: float
    resolution_m: float
    unrest: float

    @property
    def impedance(self) -> Array:
        """Ohms that the line shows at each time, Z0 (1 + r) / (1 - r): up to the second mismatch those of the
        line at that distance; inf where all has come back. Beyond, `core.faults` unravels the echoes."""
        known = np.clip(self.reflection, -1.0, 1.0)
        with np.errstate(divide="ignore"):
            return np.asarray(self.line_impedance * (1 + known) / (1 - known))

    def _rows(self) -> Rows:
        reach = ("reaches", amount(self.distance_m[-1], "m")), ("resolution", amount(self.resolution_m, "m"))
        return [("samples", str(self.time.size)), *reach]


def step_response(
    frequency: ArrayLike,
    reflection: ArrayLike,
    line_impedance: float = 50.0,
    velocity_factor: float = 1.0,
    kaiser: float = 6.0,
) -> StepResponse:
    """The step response of a measured reflection.

    frequency : hertz, shape (n,), n >= 8: whole multiples 1, 2, 3 ... n of the first, or the same from zero.
    reflection : complex, shape (n,).  line_impedance : ohms, to which it refers.  velocity_factor : of the line,
    above 0 up to 1. kaiser : how far the sweep's edge is rounded, 0 to 20; with 0 a step is sharpest and rings.
    Without a measurement at zero frequency its value is what keeps the response at nothing before the step is sent.
    For this the last quarter of the time that the sweep knows, 1 / (4 step), must be silent: the line's echoes have
    to die away within three quarters. Raises OutOfRange, NotAnImpedance.
    Source: the integral of the inverse Fourier transform, which is periodic, as the top of the module says.

    >>> sweep = 10e6 * np.arange(1, 201)
    >>> back = 0.5 * np.exp(-4j * np.pi * sweep * 3.0 / SPEED_OF_LIGHT)  # from 3 m away, in air
    >>> response = step_response(sweep, back)
    >>> abs(np.interp([2.0, 3.0, 4.0], response.distance_m, response.reflection)).round(2).tolist()
    [0.0, 0.25, 0.5]
    """
    hertz, gamma = _sweep(frequency, reflection)
    step = hertz[1] - hertz[0]
    line = one_number(real_impedance(line_impedance), "line impedance", "in ohms")
    speed, beta = _speed(velocity_factor), _kaiser(kaiser)
    first = hertz[0] / step
    if min(abs(first), abs(first - 1)) > UNEVEN * hertz.size:
        raise OutOfRange(
            "A step response needs a sweep of whole multiples of its first frequency, such as 1, 2, 3 ... 500 MHz; "
            "for any other, see `echoes`.",
            value=frequency,
        )
    at_zero = gamma[0].real if first < 0.5 else None
    waves = gamma[1:] if first < 0.5 else gamma
    time, back, unrest = _integrated(
        waves * np.kaiser(2 * waves.size + 1, beta)[waves.size + 1 :], step, at_zero
    )
    return StepResponse(time, speed / 2 * time, back, line, _resolution(speed, 2 * hertz[-1], beta), unrest)


@dataclass(frozen=True, eq=False)
class Echoes(Readable):
    """How much comes back from each distance, without saying whether impedance rises or falls. Shape (m,).

    distance_m : metres from the reference plane.  seen : |reflection| that comes back from there.  size : the same
    with the line's loss given back, which makes much of little from afar.
    resolution_m : what is nearer together than this is seen as one."""

    distance_m: Array
    seen: Array
    size: Array
    resolution_m: float

    def peaks(self, at_least: float = 0.02) -> list[tuple[float, float]]:
        """Distance in metres and size of each echo of which this much or more is seen, nearest first.

        Raises OutOfRange."""
        least = one_number(at_least, "smallest echo", "such as 0.02", above=0)
        around = np.concatenate([self.seen[-1:], self.seen, self.seen[:1]])  # the time known is a circle
        top = (self.seen >= least) & (around[:-2] < self.seen) & (self.seen >= around[2:])
        found = []
        for place in np.nonzero(top)[0]:
            shift, height = parabola_top(*around[place : place + 3])
            distance = self.distance_m[place] + shift * self.distance_m[1]
            found.append((float(max(0.0, distance)), height * float(self.size[place] / self.seen[place])))
        return found

    def _rows(self) -> Rows:
        reach = ("reaches", amount(self.distance_m[-1], "m")), ("resolution", amount(self.resolution_m, "m"))
        return [*reach, ("largest seen", amount(self.seen.max()))]


def echoes(
    frequency: ArrayLike,
    reflection: ArrayLike,
    velocity_factor: float = 1.0,
    db_per_m: float = 0.0,
    kaiser: float = 6.0,
) -> Echoes:
    """From where on a line waves come back, by a sweep over any band.

    frequency : hertz, shape (n,), n >= 8, in equal steps.  reflection : complex, shape (n,).
    velocity_factor : of the line, above 0 up to 1.  db_per_m : its loss in the middle of the band, decibels per
    metre >= 0, which is given back to echoes from afar; echoes that were reflected twice count as from afar.
    kaiser : how far both edges of the sweep are rounded, 0 to 20; with 0 echoes are sharpest, with false ones beside.
    Distances reach up to half a velocity over the step; what lies beyond appears nearer.  Raises OutOfRange.
    Source: the inverse Fourier transform, as the top of the module says.

    >>> sweep = np.linspace(400e6, 470e6, 101)
    >>> back = 0.3 * np.exp(-4j * np.pi * sweep * 20 / (0.66 * SPEED_OF_LIGHT))
    >>> [(round(far, 1), round(size, 2)) for far, size in echoes(sweep, back, 0.66).peaks()]
    [(20.0, 0.3)]
    """
    hertz, gamma = _sweep(frequency, reflection)
    loss = one_number(db_per_m, "loss", "decibels per metre", at_least=0, up_to=1e3)
    speed, beta = _speed(velocity_factor), _kaiser(kaiser)
    window = np.kaiser(gamma.size, beta)
    samples = 2 * FINER * gamma.size
    seen = np.abs(np.fft.ifft(gamma * window, samples)) * samples / window.sum()
    distance = speed / 2 * np.arange(samples) / samples / (hertz[1] - hertz[0])
    given_back = 10 ** np.minimum(2 * loss * distance / 20, 300.0)  # as much as a number holds
    return Echoes(distance, seen, seen * given_back, _resolution(speed, hertz[-1] - hertz[0], beta))


def parabola_top(left: float, middle: float, right: float) -> tuple[float, float]:
    """Where between its neighbours a sampled peak is highest, in samples from the middle, and how high."""
    bend = left - 2 * middle + right
    shift = 0.0 if bend == 0 else 0.5 * (left - right) / bend
    return float(shift), float(middle - 0.25 * (left - right) * shift)


def _integrated(waves: Array, step: float, at_zero: float | None) -> tuple[Array, Array, float]:
    """Time in seconds from before the step, and the volts that are back: the sum of all waves, each integrated.

    A constant and, without a measurement at zero frequency, a slope are what silence before the step says."""
    samples = 2 * FINER * waves.size
    order = np.arange(1, waves.size + 1)
    spectrum = np.concatenate([[0.0], waves / (2j * np.pi * order)])
    turned = np.fft.irfft(spectrum, samples) * samples
    before = int(SILENCE * samples)
    share = np.arange(-before, samples - before) / samples  # of the period
    back = np.roll(turned, before)
    silent = share < min(-SILENCE / 4, -3 / waves.size)
    columns = np.stack([share, np.ones(samples)], axis=-1)
    if at_zero is not None:
        back, columns = back + at_zero * share, columns[:, 1:]
    fitted = np.linalg.lstsq(columns[silent], back[silent], rcond=None)[0]
    back = back - columns @ fitted
    return share / step, back, float(np.abs(back[silent]).max())


def _sweep(frequency: ArrayLike, reflection: ArrayLike) -> tuple[Array, Array]:
    hertz = real_in_range(frequency, "frequency", "in hertz", at_least=0, up_to=1e15)
    try:
        gamma = np.asarray(reflection, dtype=complex)
    except (OverflowError, TypeError, ValueError) as fault:
        raise OutOfRange("The reflection must be complex numbers.", value=reflection) from fault
    if hertz.ndim != 1 or gamma.shape != hertz.shape or hertz.size < FEWEST:
        raise OutOfRange(
            f"A sweep needs {FEWEST} frequencies or more, and a reflection at each.", value=reflection
        )
    if not np.all(np.isfinite(gamma)):
        raise OutOfRange("The reflection must be finite numbers.", value=reflection)
    if np.any(np.abs(gamma) > MOST):
        where = hertz[np.argmax(np.abs(gamma))]
        raise OutOfRange(f"At {where:g} Hz more comes back than any passive line returns.", value=reflection)
    steps = np.diff(hertz)
    step = (hertz[-1] - hertz[0]) / (hertz.size - 1)
    if step <= 0 or np.any(np.abs(steps - step) > UNEVEN * hertz.size * step):
        raise OutOfRange("The frequencies of a sweep must rise in equal steps.", value=frequency)
    return hertz, gamma


def _resolution(speed: float, band: float, beta: float) -> float:
    """Metres between the half heights of an echo, to 6 %: 1.21 / band without window, wider with it."""
    return float(speed / 2 * 1.21 * np.hypot(1.0, beta / np.pi) ** 0.6 / band)


def _speed(velocity_factor: float) -> float:
    factor = one_number(velocity_factor, "velocity factor", "such as 0.66", at_least=1e-6, up_to=1)
    return SPEED_OF_LIGHT * factor


def _kaiser(beta: float) -> float:
    return one_number(beta, "window", "Kaiser's beta", at_least=0, up_to=20)
