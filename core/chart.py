"""The chart's curves as plain geometry in the plane of reflection coefficient.

A point of the chart is a complex reflection. Circles and arcs are those of the *reflection that is plotted*: of the
impedance on the impedance grid, and on the admittance grid of the same point read the other way. Angles in radians,
counter-clockwise from the right; positions on the rim in wavelengths toward the generator, from the short-circuit
point at the left, clockwise. Source of the circles: Pozar, 4th ed., section 2.4, eq. 2.56 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.errors import CoreError
from core.line import _plain, wrap_half_wave


class NotACircle(CoreError):
    """A value whose curve is a straight line or nothing, where a circle is wanted."""


@dataclass(frozen=True)
class Circle:
    """A whole circle: centre in the plane of reflection, and radius."""

    center: complex
    radius: float

    def at(self, angle: ArrayLike) -> Any:
        """Points at these angles, seen from the circle's centre. Any shape."""
        return _plain(self.center + self.radius * np.exp(1j * np.asarray(angle, dtype=float)))


@dataclass(frozen=True)
class Arc:
    """Part of a circle: from the angle `start` through `sweep` (counter-clockwise above zero)."""

    circle: Circle
    start: float
    sweep: float

    def points(self, count: int = 61) -> Any:
        """`count` points along the arc, in the order it is walked."""
        return self.circle.at(self.start + self.sweep * np.linspace(0.0, 1.0, count))

    @property
    def first(self) -> complex:
        """Where the arc starts."""
        return complex(self.circle.at(self.start))

    @property
    def last(self) -> complex:
        """Where the arc ends."""
        return complex(self.circle.at(self.start + self.sweep))


RIM = Circle(0j, 1.0)
UNIT_RESISTANCE_CIRCLE = Circle(0.5 + 0j, 0.5)
UNIT_CONDUCTANCE_CIRCLE = Circle(-0.5 + 0j, 0.5)
SHORT_POINT, OPEN_POINT, MATCH_POINT = -1 + 0j, 1 + 0j, 0j


def resistance_circle(resistance: float) -> Circle:
    """All points of normalised resistance r >= 0: centre r/(1+r), radius 1/(1+r). Raises NotACircle."""
    if not 0 <= resistance < np.inf:
        raise NotACircle(f"A circle of constant r needs r from 0 upward, not {resistance}.", value=resistance)
    return Circle(complex(resistance / (1 + resistance)), 1 / (1 + resistance))


def reactance_circle(reactance: float) -> Circle:
    """All points of normalised reactance x, not 0 (whose curve is the straight axis): centre 1 + j/x, radius 1/|x|."""
    if reactance == 0 or not np.isfinite(reactance):
        raise NotACircle(f"A circle of constant x needs x other than 0, not {reactance}.", value=reactance)
    return Circle(complex(1, 1 / reactance), 1 / abs(reactance))


def conductance_circle(conductance: float) -> Circle:
    """All points of normalised conductance g >= 0, a half turn of `resistance_circle`. Raises NotACircle."""
    return _half_turned(resistance_circle(conductance))


def susceptance_circle(susceptance: float) -> Circle:
    """All points of normalised susceptance b, a half turn of `reactance_circle`. Raises NotACircle."""
    return _half_turned(reactance_circle(susceptance))


def mismatch_circle(reflection: complex) -> Circle:
    """All points that one lossless line can show for this reflection: about the centre."""
    return Circle(0j, abs(reflection))


def crossings(first: Circle, second: Circle) -> tuple[complex, ...]:
    """The points two circles share: two, one where they touch, none. The one to the left of the way from the
    first centre to the second comes first.

    Source: the common chord of two circles, any text on plane geometry."""
    apart = second.center - first.center
    span = abs(apart)
    if span == 0 or span > first.radius + second.radius or span < abs(first.radius - second.radius):
        return ()
    along = (span**2 + first.radius**2 - second.radius**2) / (2 * span)
    aside = np.sqrt(max(first.radius**2 - along**2, 0.0))
    unit = apart / span
    foot = first.center + along * unit
    return (foot,) if aside == 0 else (foot + 1j * aside * unit, foot - 1j * aside * unit)


def rim_position(reflection: ArrayLike) -> Any:
    """Reading of the scale of wavelengths toward the generator beside a point, in [0, 0.5); zero at the left."""
    return _plain(wrap_half_wave(0.25 - np.angle(reflection) / (4 * np.pi)))


def rim_reflection(position: ArrayLike) -> Any:
    """Point of the rim at a reading in wavelengths toward the generator: the inverse of `rim_position`."""
    return _plain(-np.exp(-4j * np.pi * np.asarray(position, dtype=float)))


def walk(reflection: complex, distance: float) -> Arc:
    """The way along a line on the chart: `distance` wavelengths toward the generator (toward the load below zero)."""
    return Arc(mismatch_circle(reflection), float(np.angle(reflection)), -4 * np.pi * distance)


def arc_between(circle: Circle, start: complex, end: complex, clockwise: bool) -> Arc:
    """The arc of a circle from one of its points to another, in the given sense."""
    first, last = np.angle(start - circle.center), np.angle(end - circle.center)
    sweep = np.mod(last - first, 2 * np.pi)
    return Arc(circle, float(first), float(sweep - 2 * np.pi if clockwise and sweep else sweep))


def _half_turned(circle: Circle) -> Circle:
    return Circle(-circle.center, circle.radius)
