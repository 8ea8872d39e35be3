"""Matching a load to a source of any impedance with one stub.

The network shows the source the conjugate of its own impedance, so that the load takes all the source has.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import broadcast, plain, quotient
from core.checks import Array, choice, finite_length, real_impedance
from core.designs import normalised_load
from core.line import input_impedance, wrap_half_wave
from core.mismatch import (
    ON_THE_END,
    half_turn_of_real_part,
    imaginary_part,
    none_if_rounding,
    standing_wave_ratio,
    turn_of,
)
from core.network import PLACEMENTS, Section, Stub
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.source import ADDS_NOTHING, ConjugateMatch, source_of
from core.stubs import SingleStub, stub_length_for

OUT_OF_REACH = (
    "Where the stub is, this source asks for a {part} of {wanted:.4g} of the line's own; along the line the "
    "load shows {low:.4g} to {high:.4g} only. A length of line between stub and source changes what is asked "
    "for."
)
SOME_OUT_OF_REACH = (
    "Some of these sources ask, where the stub is, for a real part that the load shows nowhere on its line. A "
    "length of line between stub and source changes what is asked for."
)
TOUCHING = "The load shows what the source asks for at one place only, so the two solutions are one."


@dataclass(frozen=True)
class ConjugateSingleStub(ConjugateMatch, SingleStub):
    """A section of line from the load to the stub, the stub, and what line there is from it to the source."""

    elements: tuple[Section, Stub] | tuple[Section, Stub, Section]  # type: ignore[assignment]
    made_of: ClassVar[tuple[tuple[type, ...], ...]] = ((Section, Stub), (Section, Stub, Section))  # type: ignore[assignment]


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def conjugate_single_stub(
    load_impedance: ArrayLike,
    source_impedance: ArrayLike,
    line_impedance: ArrayLike,
    stub_impedance: ArrayLike | None = None,
    placement: str = "shunt",
    end: str = "short",
    source_distance: ArrayLike = 0.0,
) -> Solutions[ConjugateSingleStub]:
    """Every single-stub match of a load to a source of any impedance, smaller distance from the load first.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    source_impedance : complex ohms, resistance > 0.  line_impedance, stub_impedance : positive real ohms;
    the stub's is by default that of the line.  placement : "shunt" or "series".  end : "short" or "open".
    source_distance : line between the stub and the source, wavelengths >= 0.  All broadcast.

    Returns `Solutions` of `ConjugateSingleStub`, lengths in wavelengths in [0, 0.5): two for an ordinary
    load, one where they coincide; none, with the reason in `.reason`, for a load that takes no power and
    where the load's line never shows the real part that the source asks for. For arrays always two.
    Raises NotAnImpedance, NegativeResistance, NotALength, UnknownChoice, ShapesDiffer.
    Source: the crossings of |reflection| = constant with the circle of the source's own conductance (or
    resistance) at the stub; the case of a source equal to the line is Pozar, 4th ed., section 5.2 (from
    memory).

    >>> near, far = conjugate_single_stub(60 - 80j, 50 + 20j, 50)
    >>> round(near.distance, 4), round(near.stub_length, 4), abs(near.input_reflection()) < 1e-14
    (0.1021, 0.1238, True)
    """
    choice(placement, PLACEMENTS, "placement")
    load, line, z = normalised_load(load_impedance, line_impedance)
    to_source = finite_length(source_distance, "source distance")
    stub = line if stub_impedance is None else real_impedance(stub_impedance, "stub impedance")
    source = source_of(source_impedance)
    load, line, z, stub, source, to_source = broadcast(load, line, z, stub, source, to_source)
    wanted = np.conj(input_impedance(source, line, to_source)) / line
    shunt = placement == "shunt"
    w, aim = (quotient(np.ones_like(v), v) if shunt else v for v in (z, wanted))
    takes_power, networks = ~np.isnan(standing_wave_ratio(w)), []
    for distance, susceptance in _stub_places(w, aim):
        length = stub_length_for(susceptance * (stub / line if shunt else line / stub), placement, end)
        elements: list[Any] = [Section(plain(distance), plain(line))]
        elements += [Stub(plain(np.where(np.isnan(distance), np.nan, length)), plain(stub), placement, end)]
        elements += [Section(plain(to_source), plain(line))] if np.any(to_source) else []
        networks.append(ConjugateSingleStub(plain(load), plain(line), tuple(elements), plain(source)))
    near, far = (np.asarray(network.distance) for network in networks)
    there = ~np.isnan(near)
    distinct = there & ((near != far) | (imaginary_part(standing_wave_ratio(w), aim.real) > 0))
    reason = _stub_reason(w, aim, there, distinct, takes_power, "conductance" if shunt else "resistance")
    return as_solutions(networks, [there, distinct], reason)


def _stub_places(w: Array, aim: Array) -> list[tuple[Array, Array]]:
    """Distance to each place where the load's real part is the aim's, nearer first, and what the stub adds."""
    ratio = standing_wave_ratio(w)
    half, beside = half_turn_of_real_part(ratio, aim.real), imaginary_part(ratio, aim.real)
    places = []
    for sign in (1, -1):
        turn = none_if_rounding(turn_of(w) - sign * 2 * half, turn_of(w), 2 * half)
        added = none_if_rounding(aim.imag - sign * beside, aim.imag, beside)
        places.append((np.asarray(wrap_half_wave(turn / (4 * np.pi))), added))
    (first, one), (second, other) = places
    swap = second < first
    near = np.where(swap, second, first), np.where(swap, other, one)
    return [near, (np.where(swap, first, second), np.where(swap, one, other))]


def _stub_reason(w: Array, aim: Array, there: Array, distinct: Array, takes_power: Array, part: str) -> str:
    out = takes_power & ~there
    found = [(TAKES_NO_POWER, ~takes_power)]
    if w.ndim:
        return sentences([*found, (SOME_OUT_OF_REACH, out)])
    if out:
        ratio = standing_wave_ratio(w)
        return OUT_OF_REACH.format(part=part, wanted=aim.real, low=1 / ratio, high=ratio)
    one = there & ~distinct
    nothing = np.abs(w - aim) <= ON_THE_END * np.abs(w)
    return sentences([*found, (ADDS_NOTHING, one & nothing), (TOUCHING, one & ~nothing)])
