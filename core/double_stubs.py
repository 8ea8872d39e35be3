"""Matching with two stubs a fixed spacing apart, for every load that they can match.

Stub 1 moves the point along its circle of constant conductance to the rotated unit circle (see
`core.forbidden`); the line between the stubs brings it from there to the unit-conductance circle; stub 2
cancels what susceptance is left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, Real, broadcast, plain
from core.chart import Circle
from core.checks import Array, choice, finite_length, real_impedance
from core.designs import cut_admittances, normalised_load, susceptance_of
from core.errors import NotAnImpedance, UnknownChoice
from core.forbidden import (
    HALF_WAVE_APART,
    admittance_through,
    conductance_limit,
    forbidden_circle,
    least_extra_line,
    no_spacing,
    rotated_unit_circle,
    separation,
)
from core.network import ENDS, MatchingNetwork, Section, Stub
from core.readable import shown, told_apart
from core.solutions import TAKES_NO_POWER, Solutions, as_solutions, sentences
from core.stubs import stub_length_for

FORBIDDEN_SOMEWHERE = (
    "Some of these loads show too large a conductance at the first stub, above 1/sin²(2π spacing): the "
    "forbidden region. More line before the first stub leads out of it."
)
FORBIDDEN = (
    "At the first stub this load shows a conductance of {}, above the limit of {} for this spacing: "
    "the forbidden region. {} wavelength more line before the first stub leads out of it."
)
ON_THE_BOUNDARY = "This load is on the boundary of the forbidden region, where the two solutions are one."
MATCHED_ALREADY = "This load is matched already; one of the solutions is a pair of stubs that add nothing."


@dataclass(frozen=True)
class TwoStubs(MatchingNetwork):
    """A section from the load to the first stub, that stub, a section to the second stub, and that stub."""

    elements: tuple[Section, Stub, Section, Stub]
    made_of = ((Section, Stub, Section, Stub),)

    @property
    def first_distance(self) -> Real:
        """From the load to the first stub, wavelengths."""
        return self.elements[0].length

    @property
    def spacing(self) -> Real:
        """From the first stub to the second, wavelengths."""
        return self.elements[2].length

    @property
    def stub_lengths(self) -> tuple[Real, Real]:
        """Of the first stub and the second, wavelengths in [0, 0.5), each from its end."""
        return self.elements[1].length, self.elements[3].length


@dataclass(frozen=True)
class DoubleStub(TwoStubs):
    """Two stubs across the line, a spacing apart.

    Admittances and susceptances are normalised to the line; the circles are for a network of scalars."""

    @property
    def stub_susceptances(self) -> tuple[Real, Real]:
        """Of the first stub and the second."""
        first, second = self.elements[1], self.elements[3]
        return susceptance_of(first, self.line_impedance), susceptance_of(second, self.line_impedance)

    @property
    def load_admittance(self) -> Complex:
        """At the load itself."""
        return cut_admittances(self)[0]

    @property
    def admittance_at_first_stub(self) -> Complex:
        """Of the load as seen at the first stub, that stub not counted."""
        return cut_admittances(self)[1]

    @property
    def admittance_after_first_stub(self) -> Complex:
        """At the first stub, that stub counted: a point of the rotated unit circle."""
        return cut_admittances(self)[2]

    @property
    def admittance_at_second_stub(self) -> Complex:
        """At the second stub, that stub not counted: a point of the unit-conductance circle."""
        return cut_admittances(self)[3]

    @property
    def conductance_limit(self) -> Real:
        """Largest conductance at the first stub that can be matched."""
        return conductance_limit(self.spacing)

    @property
    def rotated_unit_circle(self) -> Circle:
        """All points that the spacing brings to the unit-conductance circle."""
        return rotated_unit_circle(self.spacing)

    @property
    def forbidden_circle(self) -> Circle:
        """Boundary of what cannot be matched, drawn at the first stub."""
        return forbidden_circle(self.spacing)


def double_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    spacing: ArrayLike,
    first_distance: ArrayLike = 0.0,
    ends: Sequence[str] = ("short", "short"),
    stub_impedances: Sequence[ArrayLike] | Array | None = None,
) -> Solutions[DoubleStub]:
    """Both double-stub matches of a load, the one with the shorter first stub first.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance : positive real ohms.  spacing : between the stubs, wavelengths >= 0.
    first_distance : from the load to the first stub, wavelengths >= 0.  All broadcast with the load.
    ends : "short" or "open", of the first stub (nearer the load) and of the second.
    stub_impedances : positive real ohms, of the first stub and of the second; by default the line's.

    Returns `Solutions` of `DoubleStub` networks, stub lengths in wavelengths in [0, 0.5): two for an
    ordinary load, one on the boundary of the forbidden region; none, with the reason in `.reason`, in that
    region, for a spacing of whole half waves (to 1e-6 wavelength) and for a load that takes no power. For
    arrays always two, nan where there is no match and equal on the boundary.
    Raises NotAnImpedance, NegativeResistance, NotALength, ShapesDiffer, UnknownChoice.
    Source: Pozar, 4th ed., section 5.3, eq. 5.19 to 5.22 (from memory), written without tan(2π spacing).

    >>> first, second = double_stub(60 - 80j, 50, 1 / 8, ends=("open", "open"))
    >>> [round(length, 4) for length in first.stub_lengths + second.stub_lengths]
    [0.1465, 0.2042, 0.4819, 0.3498]
    """
    kinds = two_ends(ends)
    load, line, z = normalised_load(load_impedance, line_impedance)
    apart, distance = finite_length(spacing, "spacing"), finite_length(first_distance, "first distance")
    stubs = two_impedances(stub_impedances, line)
    load, line, z, apart, distance, *stubs = broadcast(load, line, z, apart, distance, *stubs)
    admittance = admittance_through(z, distance)
    root = separation(admittance[0], apart)
    pairs = [
        _stub_lengths(admittance, apart, q, [stub / line for stub in stubs], kinds) for q in (root, -root)
    ]
    networks = [_network(load, line, apart, distance, stubs, kinds, p) for p in _shorter_first(*pairs)]
    reason = _reason(load, line, apart, distance, admittance[0], root)
    return as_solutions(networks, [root >= 0, root > 0], reason)


def _stub_lengths(
    admittance: tuple[Array, Array], spacing: Array, q: Array, ratios: list[Array], ends: tuple[str, str]
) -> list[Array]:
    """Lengths of both stubs of one solution. `ratios` : stub over line impedance.

    With t the angle of the spacing, stub 1 brings the susceptance to (cos t + q) / sin t; the point then
    arrives at 1 - j (cos t + q/g) / sin t, for stub 2 to cancel."""
    conductance, susceptance = admittance
    cosine, sine = np.cos(2 * np.pi * spacing), np.sin(2 * np.pi * spacing)
    sine = np.where(no_spacing(spacing), 1.0, sine)
    wanted = (cosine + q) / sine - susceptance, (cosine + q / conductance) / sine
    return [
        np.asarray(stub_length_for(b * ratio, "shunt", end))
        for b, ratio, end in zip(wanted, ratios, ends, strict=True)
    ]


def _shorter_first(one: list[Array], other: list[Array]) -> list[list[Array]]:
    swap = other[0] < one[0]
    pairs = list(zip(one, other, strict=True))
    return [[np.where(swap, b, a) for a, b in pairs], [np.where(swap, a, b) for a, b in pairs]]


def _network(
    load: Array,
    line: Array,
    spacing: Array,
    distance: Array,
    stubs: list[Array],
    ends: tuple[str, str],
    lengths: list[Array],
) -> DoubleStub:
    ohms = plain(line)
    first, second = (
        Stub(plain(length), plain(stub), "shunt", end)
        for length, stub, end in zip(lengths, stubs, ends, strict=True)
    )
    to_first, between = Section(plain(distance), ohms), Section(plain(spacing), ohms)
    return DoubleStub(plain(load), ohms, (to_first, first, between, second))


def _reason(
    load: Array, line: Array, spacing: Array, distance: Array, conductance: Array, root: Array
) -> str:
    """Why there are not two solutions, and what to do about it."""
    powerless, together = np.isnan(conductance), no_spacing(spacing)
    forbidden = np.isnan(root) & ~powerless & ~together
    found = [(TAKES_NO_POWER, powerless), (HALF_WAVE_APART, together & ~powerless)]
    if root.ndim:
        return sentences([*found, (FORBIDDEN_SOMEWHERE, forbidden)])
    if forbidden:
        extra = least_extra_line(load, line, spacing, distance)
        told = told_apart(float(conductance), conductance_limit(spacing))
        return FORBIDDEN.format(*told, f"{extra:.4f}" if extra >= 1e-3 else f"{extra:.2g}")
    alike = (ON_THE_BOUNDARY, root == 0), (MATCHED_ALREADY, (load == line) & (root > 0))
    return sentences([*found, *alike])


def two_ends(ends: Sequence[str]) -> tuple[str, str]:
    """The ends of both stubs, first stub first.  Raises UnknownChoice."""
    if not _is_pair(ends):
        raise UnknownChoice(
            f'The ends must be two, first stub then second, such as ("short", "open"), not {shown(ends)}.',
            value=ends,
        )
    return choice(ends[0], ENDS, "end of the first stub"), choice(ends[1], ENDS, "end of the second stub")


def two_impedances(impedances: Sequence[ArrayLike] | Array | None, line: Array) -> list[Array]:
    """The impedances of both stubs, by default the line's.  Raises NotAnImpedance."""
    if impedances is None:
        return [line, line]
    if not _is_pair(impedances):
        raise NotAnImpedance(
            f"The stub impedances must be two, first stub then second, such as (50, 75), not {shown(impedances)}.",
            value=impedances,
        )
    names = "impedance of the first stub", "impedance of the second stub"
    return [real_impedance(ohms, name) for ohms, name in zip(impedances, names, strict=True)]


def _is_pair(value: Any) -> bool:
    return not isinstance(value, str) and hasattr(value, "__len__") and len(value) == 2
