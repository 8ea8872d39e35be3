"""Matching with a section of line of another impedance: the quarter wave, and the section of general length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, Real, Text, plain, quotient
from core.chart import Circle, NotACircle
from core.checks import Array
from core.designs import cut_admittances, normalised_load, susceptance_of
from core.line import reflection_coefficient, wrap_half_wave
from core.network import ENDS, Element, MatchingNetwork, Section, Stub
from core.readable import told_apart
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.stubs import stub_length_for

MATCHED_ALREADY = "This load is matched already; the section shown adds nothing."
REAL_LOAD = (
    "This load is real, so a quarter wave alone matches it, with neither line nor stub before it; the second "
    "solution starts a quarter wave further on."
)
NO_SECTION = (
    "A single section matches a load only inside the unit-resistance circle (r above 1) or inside the "
    "unit-conductance circle (g above 1)."
)
OUTSIDE = "This load has r = {} and g = {}. Put a length of line before it, and it comes inside."


@dataclass(frozen=True)
class Transformer(MatchingNetwork):
    """A network whose last element is a section of line of another impedance.

    The impedance of that section has no meaning where its length is nan: there is no solution there."""

    @property
    def section(self) -> Section:
        """The transforming section itself."""
        return cast(Section, self.elements[-1])

    @property
    def load_admittance(self) -> Complex:
        """At the load, normalised to the line."""
        return cut_admittances(self)[0]

    @property
    def section_impedance(self) -> Real:
        """Characteristic impedance of the section, ohms; nan where there is no solution."""
        none = np.isnan(self.section.length)
        return plain(np.where(none, np.nan, self.section.impedance))

    @property
    def section_length(self) -> Real:
        """Length of the section, wavelengths."""
        return self.section.length


class Preceded(MatchingNetwork):
    """Sections in a row, and before them what brings the load to where they start."""

    @property
    def row(self) -> int:
        """How many sections there are in the row."""
        return 1

    @property
    def before(self) -> Element | None:
        """What brings the load there: a `Section`, a `Stub`, or None."""
        return self.elements[0] if len(self.elements) > self.row else None

    @property
    def distance(self) -> Real:
        """From the load to the row, wavelengths; 0 where there is no line between."""
        return self.before.length if isinstance(self.before, Section) else plain(0.0)

    @property
    def stub_length(self) -> Real | None:
        """From the stub's end to the load, wavelengths; None where there is no stub."""
        return self.before.length if isinstance(self.before, Stub) else None


@dataclass(frozen=True)
class QuarterWave(Preceded, Transformer):
    """A quarter wave, and before it nothing, a section of the line, or a shunt stub at the load."""

    made_of = ((Section,), (Section, Section), (Stub, Section))

    @property
    def stub_susceptance(self) -> Real | None:
        """Of the stub, normalised to the line; None where there is no stub."""
        return susceptance_of(self.before, self.line_impedance) if isinstance(self.before, Stub) else None

    @property
    def resistance(self) -> Real:
        """What the quarter wave is there to transform, ohms: the real impedance at its load side."""
        admittance = np.asarray(cut_admittances(self)[-2])
        return plain(quotient(self.line_impedance, admittance.real).real)

    @property
    def position(self) -> Text:
        """Where on a standing wave the quarter wave starts: "voltage maximum" or "voltage minimum".

        The resistance there is above or below that of the line. "none" where there is no solution."""
        resistance = np.asarray(self.resistance)
        found = np.where(resistance >= self.line_impedance, "voltage maximum", "voltage minimum")
        return plain(np.where(np.isnan(resistance), "none", found))


@dataclass(frozen=True)
class OneSection(Transformer):
    """One section of line, of the impedance and length that match the load by itself."""

    elements: tuple[Section]
    made_of = ((Section,),)

    @property
    def other_resistance(self) -> Real:
        """Where the section's circle meets the real axis again, ohms: its impedance squared over the line's."""
        return plain(np.asarray(self.section_impedance) ** 2 / np.asarray(self.line_impedance))

    @property
    def circle(self) -> Circle:
        """The circle that the section draws on the line's chart: through the load and the match point, its centre
        on the real axis. For a network of scalars."""
        reflection = reflection_coefficient(self.load_impedance, self.line_impedance)
        if np.ndim(reflection) or reflection.real == 0 != reflection:
            raise NotACircle(
                "A circle is drawn for one network that has a section.", value=self.load_impedance
            )
        if reflection == 0:
            return Circle(0j, 0.0)
        center = float(abs(reflection) ** 2 / (2 * reflection.real))
        return Circle(complex(center), abs(center))


def quarter_wave(load_impedance: ArrayLike, line_impedance: ArrayLike) -> Solutions[QuarterWave]:
    """Every match of a load with a quarter wave: after a length of line, or with a stub at the load.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance : positive real ohms, broadcasts with the load; of the line and of the stub.

    Returns `Solutions` of `QuarterWave` networks. For a complex load four: after the line to the voltage
    maximum and to the minimum, smaller distance first; then with a shorted stub at the load, and with an
    open one, that cancels its susceptance. For a real load two: the quarter wave alone, and after a quarter
    wave of line. For a matched load one, of the line's own impedance; none, with the reason in `.reason`,
    for a load that takes no power. For arrays always the four, nan where there is no match.
    Raises NotAnImpedance, NegativeResistance.
    Source: Z1 = sqrt(Z0 R), Pozar, 4th ed., eq. 2.63 and section 5.4 (from memory), with R = Z0 SWR at the
    voltage maximum, Z0 / SWR at the minimum, and one over the load's conductance beside the stub.

    >>> alone, _ = quarter_wave(10, 50)
    >>> round(alone.section_impedance, 2)
    22.36
    >>> [network.position for network in quarter_wave(25 + 50j, 50)[:2]]
    ['voltage maximum', 'voltage minimum']
    """
    load, line, z = normalised_load(load_impedance, line_impedance)
    near, far = (_network(load, line, *found) for found in after_line(z, line))
    stubs = [_network(load, line, *beside_stub(quotient(np.ones_like(z), z), line, end)) for end in ENDS]
    exists, is_complex = ~np.isnan(z), z.imag != 0
    if not z.ndim and z.imag == 0:
        near = QuarterWave(near.load_impedance, near.line_impedance, near.elements[1:])
    reason = [(TAKES_NO_POWER, ~exists)]
    if not z.ndim:
        reason += [(MATCHED_ALREADY, z == 1), (REAL_LOAD, (z.imag == 0) & (z != 1))]
    there = [exists, exists & (z != 1), exists & is_complex, exists & is_complex]
    return as_solutions([near, far, *stubs], there, sentences(reason))


def one_section_transformer(load_impedance: ArrayLike, line_impedance: ArrayLike) -> Solutions[OneSection]:
    """The one section of line, of another impedance and some length, that matches a load by itself.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance : positive real ohms, broadcasts with the load.

    Returns `Solutions` of one `OneSection` (for a matched load, of no length), its length in wavelengths in
    (0, 0.5); or of none, with the reason in `.reason`: it exists just where the load is inside the unit-
    resistance circle or inside the unit-conductance circle. For arrays always one, nan where there is none.
    Raises NotAnImpedance, NegativeResistance, ShapesDiffer.
    Source: both parts of Z1 (ZL + j Z1 t) = Z0 (Z1 + j ZL t), the input of a line, Pozar, 4th ed., eq. 2.44
    (from memory); normalised, z1² = r + x² / (r - 1) and t = z1 (1 - r) / x.

    >>> one_section_transformer(100 + 50j, 50)
    Solutions(OneSection(load: 100+50j ohm; line: 0.3333 wavelengths of 86.6 ohm; matched to: 50 ohm))
    >>> len(one_section_transformer(40 + 30j, 50))
    0
    """
    load, line, z = normalised_load(load_impedance, line_impedance)
    matched, above = z == 1, z.real - 1
    square = z.real + z.imag**2 / np.where(above == 0, np.nan, above)
    square = np.where(matched, 1.0, np.where(square > 0, square, np.nan))
    length = wrap_half_wave(np.arctan2(-np.sqrt(square) * above, z.imag) / (2 * np.pi))
    network = OneSection(
        plain(load), plain(line), (_section(np.asarray(length), line * np.sqrt(square), line),)
    )
    return as_solutions([network], [~np.isnan(square)], _reason(z, np.isnan(square)))


def after_line(z: Array, line: Array) -> list[tuple[Element, Array]]:
    """The line to the voltage maximum and to the minimum, nearer first, each with the quarter wave's impedance.

    With sqrt(SWR) = (|z + 1| + |z - 1|) / (2 sqrt(r)), exact near a match and near the rim."""
    root = (np.abs(z + 1) + np.abs(z - 1)) / (2 * np.sqrt(z.real))
    size = np.abs(z)
    turn = np.arctan2(2 * z.imag / (size + 1), size - 1)  # the angle of the reflection
    maximum = np.asarray(wrap_half_wave(np.where(z == 1, 0.0, turn) / (4 * np.pi)))
    first = maximum < 0.25
    near = np.where(first, maximum, maximum - 0.25)
    ratios = np.where(first, root, 1 / root), np.where(first, 1 / root, root)
    ohms = plain(line)
    return [
        (Section(plain(near), ohms), line * ratios[0]),
        (Section(plain(near + 0.25), ohms), line * ratios[1]),
    ]


def beside_stub(y: Array, line: Array, end: str) -> tuple[Element, Array]:
    """The stub that cancels the load's susceptance, and the quarter wave's impedance, Z0 / sqrt(g)."""
    return Stub(stub_length_for(-y.imag, "shunt", end), plain(line), "shunt", end), line / np.sqrt(y.real)


def _network(load: Array, line: Array, before: Element, impedance: Array) -> QuarterWave:
    quarter = _section(np.where(np.isnan(impedance), np.nan, 0.25), impedance, line)
    return QuarterWave(plain(load), plain(line), (before, quarter))


def _section(length: Array, impedance: Array, line: Array) -> Section:
    """A section; of the line's impedance and no known length where there is no solution."""
    none = np.isnan(impedance)
    return Section(plain(np.where(none, np.nan, length)), plain(np.where(none, line, impedance)))


def _reason(z: Array, missing: Array) -> str:
    """Why the one section does not exist, or does nothing."""
    powerless, outside = np.isnan(z), missing & ~np.isnan(z)
    found = [(TAKES_NO_POWER, powerless), (NO_SECTION, outside)]
    if not z.ndim:
        values = OUTSIDE.format(*(told_apart(float(v), 1.0)[0] for v in (z.real, quotient(1.0, z).real)))
        found += [(values, outside), (MATCHED_ALREADY, z == 1)]
    return sentences(found)
