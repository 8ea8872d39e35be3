"""Matching with a stub at the load and a section of line behind it: a quarter wave, or one of any impedance."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, quotient
from core.checks import Array, choice, real_impedance
from core.designs import normalised_load
from core.line import wrap_half_wave
from core.mismatch import half_turn_of_real_part, imaginary_part, none_if_rounding
from core.network import ENDS, PLACEMENTS, Section, Stub
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.stubs import stub_length_for
from core.transformers import Transformer

MATCHED_ALREADY = "This load is matched already; what is shown adds nothing."
NEEDS_NO_STUB = "This load needs no stub: the one shown adds nothing."
OUT_OF_REACH = (
    "Behind a stub at the load a section of {ohms:.4g} ohm matches a {part} from {low:.4g} to {high:.4g} of the "
    "line's own; that of this load is {value:.4g}. Choose another impedance, or leave it out for a quarter wave."
)
SAME_LINE = (
    "A section of the line's own impedance matches nothing; only a load that a stub alone matches needs no "
    "more. Choose another impedance, or leave it out for a quarter wave."
)
NEEDS_NO_SECTION = "The stub alone matches this load; the section shown adds nothing."
SOME_OUT_OF_REACH = (
    "For some of these loads the section's impedance is not far enough from the line's, or on its other side: "
    "choose another, or leave it out for a quarter wave."
)


@dataclass(frozen=True)
class StubAndSection(Transformer):
    """A stub at the load, and a section of line of another impedance behind it."""

    elements: tuple[Stub, Section]
    made_of = ((Stub, Section),)

    @property
    def stub(self) -> Stub:
        """The stub itself."""
        return self.elements[0]

    @property
    def stub_length(self) -> Real:
        """From the stub's end to the load, wavelengths in [0, 0.5)."""
        return self.stub.length


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def stub_and_section(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    section_impedance: ArrayLike | None = None,
    stub_impedance: ArrayLike | None = None,
    placement: str = "shunt",
    end: str = "short",
) -> Solutions[StubAndSection]:
    """Every match of a load with a stub right at it and a section of another line behind that.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance, stub_impedance : positive real ohms, the stub's by default that of the line.
    section_impedance : positive real ohms; by default that of the quarter wave which the load needs once the
    stub has cancelled its susceptance (a shunt stub) or reactance (a series stub).  All broadcast.
    placement : "shunt" or "series".  end : "short" or "open".

    Returns `Solutions` of `StubAndSection`, lengths in wavelengths in [0, 0.5): of a section impedance given,
    two, the shorter section first, one where they coincide, none, with the reason in `.reason`, where the
    load's conductance (resistance for a series stub) is not between the line's own and what a quarter wave of
    that section makes of it; without one given, one, the quarter wave. None for a load that takes no power.
    For arrays always two, or one for the quarter wave, nan where there is no match.
    Raises NotAnImpedance, NegativeResistance, UnknownChoice.
    Source: the crossings of the load's circle of constant conductance with the circle of the line as the
    section sees it; the quarter wave Pozar, 4th ed., section 5.4 (from memory).

    >>> shorter, longer = stub_and_section(100 + 80j, 50, 100)
    >>> [round(length, 4) for length in (shorter.stub_length, shorter.section_length)]
    [0.3159, 0.1685]
    """
    shunt = choice(placement, PLACEMENTS, "placement") == "shunt"
    choice(end, ENDS, "end")
    load, line, z = normalised_load(load_impedance, line_impedance)
    stub = line if stub_impedance is None else real_impedance(stub_impedance, "stub impedance")
    quarter = section_impedance is None
    ohms = line if section_impedance is None else real_impedance(section_impedance, "section impedance")
    load, line, z, stub, ohms = broadcast(load, line, z, stub, ohms)
    w = quotient(np.ones_like(z), z) if shunt else z
    scale = 1 / np.sqrt(w.real) if quarter else (ohms / line if shunt else line / ohms)
    found = _crossings(w, scale)[: 1 if quarter else 2]
    networks = []
    for added, turn in found:
        none = np.isnan(added)
        length = np.where(none, np.nan, 0.25 if quarter else turn)
        own = np.where(none, line, line * scale if shunt else line / scale)
        side = stub_length_for(added * (stub / line if shunt else line / stub), placement, end)
        elements = (
            Stub(plain(np.where(none, np.nan, side)), plain(stub), placement, end),
            Section(plain(length), plain(own)),
        )
        networks.append(StubAndSection(plain(load), plain(line), elements))
    there = [~np.isnan(found[0][0])]
    there += [] if quarter else [there[0] & (found[0][0] != found[1][0])]
    reason = _reason(
        z,
        w,
        there,
        ohms,
        scale,
        (found[0][0], networks[0].section_length),
        "conductance" if shunt else "resistance",
    )
    return as_solutions(networks, there, reason)


def _crossings(w: Array, scale: Array) -> list[tuple[Array, Array]]:
    """What the stub adds, normalised to the line, and the section's length, shorter section first.

    scale : from values normalised to the line to those normalised to the section, where the line is `scale`
    itself: on the real axis, to the right of a match or to the left of it."""
    ratio = np.maximum(scale, 1 / scale)
    half, beside = half_turn_of_real_part(ratio, w.real * scale), imaginary_part(ratio, w.real * scale)
    found = []
    for side in (1, -1):
        wanted = side * beside / scale
        added = none_if_rounding(wanted - w.imag, wanted, w.imag)
        turn = side * 2 * half - np.where(scale < 1, np.pi, 0.0)
        found.append((added, np.asarray(wrap_half_wave(turn / (4 * np.pi)))))
    (one, first), (other, second) = found
    swap = second < first
    return [
        (np.where(swap, other, one), np.where(swap, second, first)),
        (np.where(swap, one, other), np.where(swap, first, second)),
    ]


def _reason(
    z: Array, w: Array, there: list[Array], ohms: Array, scale: Array, first: tuple[Array, Any], part: str
) -> str:
    (added, length), out = first, ~np.isnan(z) & ~there[0]
    found = [(TAKES_NO_POWER, np.isnan(z))]
    if z.ndim:
        return sentences([*found, (SOME_OUT_OF_REACH, out)])
    if out and scale == 1:
        return SAME_LINE
    if out:
        low, high = sorted((1.0, float(scale) ** -2))
        return OUT_OF_REACH.format(ohms=ohms, part=part, low=low, high=high, value=w.real)
    one = there[0] & ~np.any(there[1:])
    no_stub, no_section = one & (added == 0), one & (length == 0)
    matched = no_stub & (z == 1)
    told = (MATCHED_ALREADY, matched), (NEEDS_NO_STUB, no_stub & ~matched)
    return sentences([*found, *told, (NEEDS_NO_SECTION, no_section & ~matched)])
