"""The chart's curves as plain geometry in the plane of reflection coefficient.

A point of the chart is a complex reflection. Circles and arcs are those of the *reflection that is plotted*:
of the impedance on the impedance grid, and on the admittance grid of the same point read the other way.
Angles in radians, counter-clockwise from the right; positions on the rim in wavelengths toward the generator,
from the short-circuit point at the left, clockwise. Source of the circles: Pozar, 4th ed., section 2.4,
eq. 2.56 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ROUNDING, plain
from core.checks import any_length, finite_reflection
from core.errors import NotACircle
from core.line import round_trip, wrap_half_wave


@dataclass(frozen=True)
class Circle:
    """A whole circle: centre in the plane of reflection, and radius."""

    center: complex
    radius: float

    def at(self, angle: ArrayLike) -> Any:
        """Points at these angles, seen from the circle's centre. Any shape."""
        return plain(self.center + self.radius * np.exp(1j * np.asarray(angle, dtype=float)))


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
    """All points of normalised reactance x: centre 1 + j/x, radius 1/|x|.

    Raises NotACircle for x = 0, whose curve is the straight axis."""
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
    """The points two circles share: two, one where they touch (but for rounding), none.

    The one to the left of the way from the first centre to the second comes first.
    Source: the common chord of two circles, any text on plane geometry. Half the chord is the height of the
    triangle of centres and crossing, by Heron's formula with its factors in the order that loses no digits in
    a flat triangle (W. Kahan, from memory)."""
    apart = second.center - first.center
    span = abs(apart)
    short, middle, long = sorted((span, first.radius, second.radius))
    slack = short - (long - middle)  # of the triangle: zero where the circles touch, negative where they miss
    if span == 0 or slack < -ROUNDING * long:
        return ()
    unit = apart / span
    foot = first.center + unit * _foot(span, first.radius, second.radius)
    if slack <= ROUNDING * long:
        return (foot,)
    area = np.sqrt((long + (middle + short)) * slack * (short + (long - middle)) * (long + (middle - short)))
    aside = 1j * unit * float(area) / (2 * span)
    return foot + aside, foot - aside


def rim_position(reflection: ArrayLike) -> Any:
    """Reading of the scale of wavelengths toward the generator beside a point, in [0, 0.5); zero at the left.

    reflection : complex, any shape.  Source: 720 degrees of the chart to a wavelength.
    Raises OutOfRange."""
    return wrap_half_wave(0.25 - np.angle(finite_reflection(reflection)) / (4 * np.pi))


def rim_reflection(position: ArrayLike) -> Any:
    """Point of the rim at a reading in wavelengths toward the generator: the inverse of `rim_position`.

    position : wavelengths of either sign, any shape; nan stays nan.  Raises NotALength."""
    return plain(SHORT_POINT * round_trip(any_length(position, "position"), 0.0, sense=-1))


def walk(reflection: complex, distance: float) -> Arc:
    """The way along a line from a reflection, `distance` wavelengths toward the generator (below zero, the load)."""
    return Arc(mismatch_circle(reflection), float(np.angle(reflection)), -4 * np.pi * distance)


def arc_between(circle: Circle, start: complex, end: complex, clockwise: bool) -> Arc:
    """The arc of a circle from `start` to `end`, two of its points, clockwise or counter-clockwise.

    No arc where they are one point, or only rounding keeps them apart."""
    first, last = np.angle(start - circle.center), np.angle(end - circle.center)
    sense = -1 if clockwise else 1
    sweep = 4 * np.pi * wrap_half_wave(sense * (last - first) / (4 * np.pi))
    return Arc(circle, float(first), sense * float(sweep))


def _foot(span: float, first: float, second: float) -> float:
    """From the first centre to the common chord: (span² + first² - second²) / (2 span), near ones paired."""
    if first > span:
        return (span**2 + (first - second) * (first + second)) / (2 * span)
    return ((span - second) * (span + second) + first**2) / (2 * span)


def _half_turned(circle: Circle) -> Circle:
    return Circle(-circle.center, circle.radius)
