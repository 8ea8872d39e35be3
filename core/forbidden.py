"""What two stubs a fixed spacing apart cannot match, as geometry on the chart, and the way out of it.

The points that the spacing brings to the unit-conductance circle are that circle turned back toward the
load: the rotated unit circle. Stub 1 moves a point along its circle of constant conductance; where that
conductance is so large that its circle does not meet the rotated one, no first stub helps. Circles lie in
the plane of the reflection of the impedance, conductances are normalised to the line, lengths are in
wavelengths.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, quotient
from core.chart import UNIT_CONDUCTANCE_CIRCLE, Circle, NotACircle
from core.checks import Array, finite_length
from core.designs import normalised_load
from core.line import half_wave_difference

HALF_WAVE_APART = (
    "With no spacing, or one of whole half waves, the two stubs act at one point, as one stub, and a stub "
    "cannot change the conductance (where that is 1 already, a single stub matches). Choose another spacing, "
    "such as an eighth of a wavelength."
)
NO_SPACING = 1e-6  # wavelengths: no line is cut so exactly that a spacing this near a half wave is not one
BOUNDARY = 1e-12  # of the largest conductance: what is this near the boundary is on it


def conductance_limit(spacing: ArrayLike) -> Real:
    """Largest conductance that two stubs can match: 1/sin²(2π spacing); inf without spacing.

    spacing : wavelengths >= 0, any shape.  Raises NotALength.
    Source: Pozar, 4th ed., section 5.3, the condition for a real root of eq. 5.19 (from memory).

    >>> round(conductance_limit(1 / 8), 12)
    2.0
    """
    with np.errstate(divide="ignore", over="ignore"):
        return plain(np.sin(2 * np.pi * finite_length(spacing, "spacing")) ** -2.0)


def rotated_unit_circle(spacing: float) -> Circle:
    """The unit-conductance circle turned toward the load by the spacing.

    spacing : wavelengths >= 0, a single number.  Raises NotALength, NotACircle.
    Source: Pozar, 4th ed., section 5.3 (from memory)."""
    turn = np.exp(4j * np.pi * _one(finite_length(spacing, "spacing")))
    return Circle(complex(UNIT_CONDUCTANCE_CIRCLE.center * turn), UNIT_CONDUCTANCE_CIRCLE.radius)


def forbidden_circle(spacing: float, distance: float = 0.0) -> Circle:
    """Boundary of the forbidden region, which is the inside of this circle.

    spacing : wavelengths >= 0, a single number.  distance : wavelengths from where the region is drawn to
    the first stub.
    With 0 it is drawn at that stub, as the circle of the largest conductance; with the first distance, at
    the load.
    Raises NotALength, and NotACircle for a spacing of whole half waves.
    Source: the circle of constant conductance 1/sin²(2π spacing), Pozar, 4th ed., section 5.3 (from memory).

    >>> forbidden_circle(0.25)
    Circle(center=(-0.5+0j), radius=0.5)
    """
    apart, toward = _one(finite_length(spacing, "spacing")), _one(finite_length(distance, "distance"))
    if no_spacing(apart):
        raise NotACircle(f"{HALF_WAVE_APART} {apart:g} has no forbidden circle.", value=spacing)
    square = np.sin(2 * np.pi * apart) ** 2
    turn = np.exp(4j * np.pi * toward)
    return Circle(complex(-turn / (1 + square)), float(square / (1 + square)))


def least_extra_line(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    spacing: ArrayLike,
    first_distance: ArrayLike = 0.0,
) -> Real:
    """Least line to add before the first stub that takes a load out of the forbidden region, to its boundary.

    Arguments as `double_stub`, broadcast. Returns wavelengths in [0, 0.25): 0 where the load is not
    forbidden, nan where no line helps (no power taken, or a spacing of whole half waves). A little more
    line than this gives two solutions. Raises NotAnImpedance, NegativeResistance, NotALength, ShapesDiffer.
    Source: where the mismatch circle leaves the circle g = 1/sin², clockwise. With the SWR S and the sine
    s, its arc inside is an angle a to either side of the left axis, where tan²(a/2) = (s² - 1/S) / (S -
    s²).

    >>> round(least_extra_line(20, 50, 1 / 8), 4)
    0.035
    """
    z = normalised_load(load_impedance, line_impedance)[2]
    apart, distance = finite_length(spacing, "spacing"), finite_length(first_distance, "first distance")
    z, apart, distance = broadcast(z, apart, distance)
    conductance, susceptance = admittance_through(z, distance)
    helpless = np.isnan(conductance) | no_spacing(apart)
    forbidden = np.isnan(separation(conductance, apart)) & ~helpless
    size = np.hypot(conductance, susceptance)
    from_left = np.arctan2(2 * susceptance / (size + 1), size - 1)  # angle of the load on that arc
    extra = np.maximum(from_left + _half_arc(np.where(forbidden, z, 0.5), apart), 0.0) / (4 * np.pi)
    return plain(np.where(helpless, np.nan, np.where(forbidden, extra, 0.0)))


def _one(length: Array) -> float:
    if length.ndim:
        raise NotACircle("A circle is drawn for one network, and one spacing, at a time.", value=length)
    return float(length)


def admittance_through(normalised: Array, distance: Array) -> tuple[Array, Array]:
    """Conductance and susceptance of a normalised load seen through a length of line.

    From voltage and current, with g = r / |voltage|²: no digits are lost in a difference."""
    cosine, sine = np.cos(2 * np.pi * distance), np.sin(2 * np.pi * distance)
    voltage, current = normalised * cosine + 1j * sine, cosine + 1j * normalised * sine
    size = np.abs(voltage)
    return normalised.real / size / size, quotient(current, voltage).imag


def separation(conductance: Array, spacing: Array) -> Array:
    """sqrt(g - g² sin²), which sets the two solutions apart: 0 on the boundary, nan where there are none."""
    left = 1 - conductance * np.sin(2 * np.pi * spacing) ** 2
    left = np.where(np.abs(left) <= BOUNDARY, 0.0, left)
    return np.sqrt(np.where((left >= 0) & ~no_spacing(spacing), conductance * np.maximum(left, 0.0), np.nan))


def no_spacing(spacing: ArrayLike) -> Array:
    """Whether a spacing is a whole number of half waves, none included."""
    return np.asarray(np.abs(half_wave_difference(spacing, 0.0)) <= NO_SPACING)


def _half_arc(normalised: Array, spacing: Array) -> Array:
    """Half the angle of the mismatch circle's arc in the forbidden region; 0 where it does not reach in."""
    swr = (np.abs(normalised + 1) + np.abs(normalised - 1)) ** 2 / (4 * normalised.real)
    square = np.sin(2 * np.pi * spacing) ** 2
    return 2 * np.arctan(np.sqrt(np.maximum((square - 1 / swr) / (swr - square), 0.0)))
