"""Matching a load to a source of any impedance with sections of line: a quarter wave, or one by itself.

Each network shows the source the conjugate of its own impedance, so that the load takes all the source has.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import broadcast, plain, quotient
from core.checks import Array
from core.designs import normalised_load
from core.line import wrap_half_wave
from core.mismatch import ON_THE_END, none_if_rounding, standing_wave_ratio, turn_of
from core.network import ENDS, Element, Section, Stub
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.source import ADDS_NOTHING, ConjugateMatch, source_of
from core.stubs import stub_length_for
from core.transformers import OneSection, Preceded, Transformer

NO_ANGLE = (
    "Nowhere on its line does this load show the angle of the source's impedance, which a quarter wave needs; "
    "a stub at the load brings it there."
)
NO_SECTION = (
    "No single section leads from this load to this source: the square of its impedance would have to be "
    "below zero or infinite. A length of another line before it changes that."
)
ANY_IMPEDANCE = (
    "This load equals the source impedance, and a section of any impedance turns it into the conjugate; shown "
    "is the quarter wave."
)


@dataclass(frozen=True)
class ConjugateQuarterWave(ConjugateMatch, Preceded, Transformer):
    """A quarter wave at the source.

    Before it nothing, a section of the line, or a shunt stub at the load."""

    made_of = ((Section,), (Section, Section), (Stub, Section))


@dataclass(frozen=True)
class ConjugateSection(ConjugateMatch, OneSection):
    """One section of line, of the impedance and length that match the load to the source by itself."""


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def conjugate_quarter_wave(
    load_impedance: ArrayLike, source_impedance: ArrayLike, line_impedance: ArrayLike
) -> Solutions[ConjugateQuarterWave]:
    """Every quarter wave that matches a load to a source of any impedance, with line or a stub before it.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    source_impedance : complex ohms, resistance > 0.  line_impedance : positive real ohms, of the line or the
    stub before the quarter wave.  All broadcast.

    Returns `Solutions` of `ConjugateQuarterWave`: after a length of line that gives the load the angle of the
    source, the nearer place first (at most two, in [0, 0.5) wavelengths, and none where the load's mismatch
    is too small for that angle); then with a shorted and with an open shunt stub at the load. A load that has
    the angle already needs the quarter wave alone. None, with the reason in `.reason`, for a load that takes
    no power. For arrays always the four, nan where there is no match.
    Raises NotAnImpedance, NegativeResistance.
    Source: Z Z' = Z1² on a quarter wave, Pozar, 4th ed., eq. 2.62 (from memory): with Z' the source's
    conjugate, Z must have the source's angle, and Z1² = |Z| |Zs|.

    >>> for network in conjugate_quarter_wave(100 + 50j, 50 + 10j, 50):
    ...     print(round(network.section_impedance, 2), abs(network.input_reflection()) < 1e-14)
    80.62 True
    31.62 True
    79.06 True
    79.06 True
    """
    load, line, z = normalised_load(load_impedance, line_impedance)
    load, line, z, source = broadcast(load, line, z, source_of(source_impedance))
    found = [*_after_line(z, source, line), *(_beside_stub(z, source, line, end) for end in ENDS)]
    networks = [_quarter(load, line, source, *one) for one in found]
    there = [~np.isnan(impedance) for _, impedance in found]
    if z.ndim:
        missing = sentences([(TAKES_NO_POWER, np.isnan(z)), (NO_ANGLE, there[2] & ~there[0])])
        return as_solutions(networks, there, missing)
    if there[0] and networks[0].distance == 0:
        networks[0] = replace(networks[0], elements=networks[0].elements[1:])
        there[2] = there[3] = np.asarray(False)
    there[1] = there[1] & (z != 1) & (found[0][0] != found[1][0])
    nothing = there[0] & (load == line) & (load == source)
    reason = (TAKES_NO_POWER, np.isnan(z)), (NO_ANGLE, there[2] & ~there[0]), (ADDS_NOTHING, nothing)
    return as_solutions(networks, there, sentences(reason))


def _after_line(z: Array, source: Array, line: Array) -> list[tuple[Element, Array]]:
    """The line to each place with the source's angle, nearer first, and the quarter wave's impedance.

    On the circle of size rho, tan(angle of z) = 2 rho sin(turn) / (1 - rho²)."""
    ratio, tangent = standing_wave_ratio(z), source.imag / source.real
    reach = np.abs(z + 1) * np.abs(z - 1)
    sine = np.where(tangent == 0, 0.0, 2 * z.real * tangent / np.where(reach == 0, np.nan, reach))
    inside = np.abs(sine) <= 1 + ON_THE_END
    turn = np.arcsin(np.where(inside, np.clip(sine, -1, 1), np.nan))
    places = []
    for there in (turn, np.pi - turn):
        back = none_if_rounding(turn_of(z) - there, turn_of(z), there)
        square_cosine, square_sine = np.cos(there / 2) ** 2, np.sin(there / 2) ** 2
        size = (ratio**2 * square_cosine + square_sine) / (ratio**2 * square_sine + square_cosine)
        impedance = np.sqrt(np.sqrt(size) * line * np.abs(source))
        places.append(
            (np.asarray(wrap_half_wave(back / (4 * np.pi))), np.where(np.isnan(z), np.nan, impedance))
        )
    (one, first), (other, second) = places
    swap = other < one
    ordered = (
        (np.where(swap, other, one), np.where(swap, second, first)),
        (
            np.where(swap, one, other),
            np.where(swap, first, second),
        ),
    )
    return [(Section(plain(distance), plain(line)), impedance) for distance, impedance in ordered]


def _beside_stub(z: Array, source: Array, line: Array, end: str) -> tuple[Element, Array]:
    """The stub that gives the load the source's angle, and the quarter wave's impedance."""
    y = quotient(np.ones_like(z), z)
    wanted = -y.real * source.imag / source.real
    added = none_if_rounding(wanted - y.imag, wanted, y.imag)
    stub = Stub(stub_length_for(added, "shunt", end), plain(line), "shunt", end)
    return stub, np.sqrt(np.abs(source) * line / np.abs(y.real + 1j * wanted))


def _quarter(
    load: Array, line: Array, source: Array, before: Element, impedance: Array
) -> ConjugateQuarterWave:
    none = np.isnan(impedance)
    quarter = Section(plain(np.where(none, np.nan, 0.25)), plain(np.where(none, line, impedance)))
    return ConjugateQuarterWave(plain(load), plain(line), (before, quarter), plain(source))


@np.errstate(all="ignore")
def conjugate_section(load_impedance: ArrayLike, source_impedance: ArrayLike) -> Solutions[ConjugateSection]:
    """The one section of line that matches a load to a source of any impedance by itself.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    source_impedance : complex ohms, resistance > 0, broadcasts with the load.

    Returns `Solutions` of one `ConjugateSection`, its length in wavelengths in [0, 0.5); of none, with the
    reason in `.reason`, where none exists. Where the load equals the source impedance any section does, and
    the quarter wave is given. For arrays always one, nan where there is none.
    Raises NotAnImpedance, NegativeResistance, ShapesDiffer.
    Source: P. I. Day, Transmission line transformation between arbitrary impedances using the Smith chart,
    IEEE Trans. MTT 23 (1975) (from memory); both parts of the line equation, Pozar, 4th ed., eq. 2.44.

    >>> conjugate_section(100 + 50j, 50 + 10j)[0].elements
    (Section(line: 0.3037 wavelengths of 85.44 ohm),)
    """
    source = source_of(source_impedance)
    load, ohms, z = normalised_load(load_impedance, source.real)
    load, source, z, ohms = broadcast(load, source, z, ohms)
    matched, alike, square, length = _section(z, source.imag / ohms)
    none = np.isnan(square)
    section = Section(
        plain(np.where(none, np.nan, length)), plain(ohms * np.where(none, 1.0, np.sqrt(square)))
    )
    network = ConjugateSection(plain(load), plain(ohms), (section,), plain(source))
    reason = [(TAKES_NO_POWER, np.isnan(z)), (NO_SECTION, none & ~np.isnan(z)), (ANY_IMPEDANCE, alike)]
    return as_solutions(
        [network], [~none], sentences(reason if z.ndim else [*reason, (ADDS_NOTHING, matched)])
    )


def _section(z: Array, reactance: Array) -> tuple[Array, Array, Array, Array]:
    """Whether matched already, whether any section does; the square of the section's impedance and its
    length. Of source resistance one."""
    r, x, above = z.real, z.imag, z.real - 1
    matched = (above == 0) & (x == -reactance)
    alike = (above == 0) & (x == reactance) & ~matched
    square = r + (x * x - r * reactance**2) / np.where(above == 0, np.nan, above)
    square = np.select([matched, alike], [1.0, 1 + x * x], np.where(square > 0, square, np.nan))
    length = np.arctan2(np.sqrt(square) * above, r * reactance - x) / (2 * np.pi)
    return matched, alike, square, np.select([matched, alike], [0.0, 0.25], wrap_half_wave(length))
