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

from core.arrays import OPEN_CIRCUIT, ROUNDING, Array, Complex, Real, plain, store
from core.checks import (
    LONGEST,
    any_length,
    finite_reflection,
    passive_impedance,
    single_complex,
    single_real,
    whole_number,
    yes_or_no,
)
from core.errors import NotACircle
from core.line import round_trip, wrap_half_wave
from core.ranges import one_number, real_in_range
from core.readable import shown


@dataclass(frozen=True)
class Circle:
    """A whole circle: centre in the plane of reflection, and radius."""

    center: complex
    radius: float

    def __post_init__(self) -> None:
        radius = single_real(self.radius)
        if not np.isfinite(single_complex(self.center)) or not 0 <= radius < np.inf:
            raise NotACircle(
                f"A circle has one centre and a radius from 0 upward, not {shown(self.center)} and "
                f"{shown(self.radius)}.",
                value=(self.center, self.radius),
            )
        store(self, center=single_complex(self.center), radius=radius)

    @property
    def whole(self) -> Arc:
        """The arc all round it."""
        return Arc(self, 0.0, 2 * np.pi)

    @property
    def half_turned(self) -> Circle:
        """The circle turned by half about the chart's centre: where the same curve of an admittance is."""
        return Circle(-self.center, self.radius)

    def at(self, angle: ArrayLike) -> Complex:
        """Points at these angles in radians, seen from the circle's centre. Any shape.  Raises OutOfRange."""
        turn = real_in_range(angle, "angle", "in radians")
        return plain(self.center + self.radius * np.exp(1j * turn))


@dataclass(frozen=True)
class Arc:
    """Part of a circle: from the angle `start` through `sweep` (counter-clockwise above zero)."""

    circle: Circle
    start: float
    sweep: float

    def __post_init__(self) -> None:
        _circle(self.circle)
        names, unit = ("start", "sweep"), "in radians"
        angles = {name: one_number(getattr(self, name), f"{name} of an arc", unit) for name in names}
        store(self, **angles)

    def points(self, count: int = 61) -> Array:
        """`count` points (1 or more) along the arc, in the order it is walked.  Raises OutOfRange."""
        count = whole_number(count, "number of points", at_least=1)
        return self.circle.at(self.start + self.sweep * np.linspace(0.0, 1.0, count))

    @property
    def half_turned(self) -> Arc:
        """The arc turned by half about the chart's centre: where the same curve of an admittance is."""
        return Arc(self.circle.half_turned, self.start + np.pi, self.sweep)

    @property
    def first(self) -> complex:
        """Where the arc starts."""
        return complex(self.circle.at(self.start))

    @property
    def last(self) -> complex:
        """Where the arc ends."""
        return complex(self.circle.at(self.start + self.sweep))


SMALLEST = 1 / OPEN_CIRCUIT
"""Reactance below which the circle's curve cannot be told from the straight axis."""
RIM = Circle(0j, 1.0)
UNIT_RESISTANCE_CIRCLE = Circle(0.5 + 0j, 0.5)
UNIT_CONDUCTANCE_CIRCLE = Circle(-0.5 + 0j, 0.5)
SHORT_POINT, OPEN_POINT, MATCH_POINT = -1 + 0j, 1 + 0j, 0j


def resistance_circle(resistance: float) -> Circle:
    """All points of normalised resistance r >= 0: centre r/(1+r), radius 1/(1+r).

    resistance : over that of the line, a single number.  Raises NotACircle.
    Source: Pozar, 4th ed., eq. 2.56 (from memory)."""
    r = single_real(resistance)
    if not 0 <= r < np.inf:
        raise NotACircle(
            f"A circle of constant r needs r from 0 upward, a single one, not {shown(resistance)}.",
            value=resistance,
        )
    return Circle(complex(r / (1 + r)), 1 / (1 + r))


def reactance_circle(reactance: float) -> Circle:
    """All points of normalised reactance x: centre 1 + j/x, radius 1/|x|.

    reactance : over the line's impedance, a single number.
    Raises NotACircle, also for x = 0, whose curve is the straight axis.
    Source: Pozar, 4th ed., eq. 2.56 (from memory)."""
    x = single_real(reactance)
    if not SMALLEST <= abs(x) < np.inf:
        raise NotACircle(
            f"A circle of constant x needs x other than 0, a single one, not {shown(reactance)}.",
            value=reactance,
        )
    return Circle(complex(1, 1 / x), 1 / abs(x))


def conductance_circle(conductance: float) -> Circle:
    """All points of normalised conductance g >= 0, a half turn of `resistance_circle`.

    conductance : over that of the line, a single number.  Raises NotACircle.
    Source: as `resistance_circle`, for the reflection's sign turned."""
    return resistance_circle(conductance).half_turned


def susceptance_circle(susceptance: float) -> Circle:
    """All points of normalised susceptance b, a half turn of `reactance_circle`.

    susceptance : over the line's admittance, a single number other than 0.  Raises NotACircle.
    Source: as `reactance_circle`, for the reflection's sign turned."""
    return reactance_circle(susceptance).half_turned


def resistance_arc(resistance: float, first_reactance: float, last_reactance: float) -> Arc:
    """The part of a circle of constant r from one reactance to another, away from the open point.

    resistance, first_reactance, last_reactance : over the line's impedance, single numbers.
    Raises NotACircle, OutOfRange.
    Source: seen from the circle's centre, r + jx stands at pi - 2 atan(x / (1 + r)): (z - 1)/(z + 1) less the
    centre."""
    circle = resistance_circle(resistance)
    ends = [
        one_number(value, "reactance at an end of an arc", "over the line's impedance")
        for value in (first_reactance, last_reactance)
    ]
    start, end = np.pi - 2 * np.arctan2(ends, 1 + single_real(resistance))
    return Arc(circle, float(start), float(end - start))


def reactance_arc(reactance: float, first_resistance: float, last_resistance: float) -> Arc:
    """The part of a circle of constant x from one resistance to another, inside the rim.

    reactance, first_resistance, last_resistance : over the line's impedance, single numbers, resistances >= 0.
    Raises NotACircle, also for x = 0, and OutOfRange.
    Source: as `resistance_arc`; r + jx stands at -pi/2 - 2 atan(x / (1 + r)), for x below zero at pi/2 less that."""
    circle = reactance_circle(reactance)
    ends = [
        one_number(value, "resistance at an end of an arc", "over the line's impedance", at_least=0)
        for value in (first_resistance, last_resistance)
    ]
    x = single_real(reactance)
    start, end = -np.copysign(np.pi / 2, x) - 2 * np.arctan2(x, 1 + np.array(ends))
    return Arc(circle, float(start), float(end - start))


def local_scale(impedance: ArrayLike) -> Real:
    """How many radii of the chart one unit of normalised impedance spans at a place: 2 / |1 + z|^2.

    impedance : complex, over that of the line, any shape; inf, where the chart has no room left, gives 0.
    Raises NotAnImpedance, NegativeResistance.  Source: the size of the derivative of (z - 1)/(z + 1)."""
    z = passive_impedance(impedance, "normalised impedance")
    return plain(2 / np.hypot(1 + z.real, z.imag) ** 2)


def mismatch_circle(reflection: complex) -> Circle:
    """All points that one lossless line can show for this reflection: about the centre.

    reflection : complex, a single number.  Raises NotACircle.
    Source: a lossless line turns the reflection and keeps its size, Pozar, 4th ed., eq. 2.42 (from memory)."""
    return Circle(0j, float(abs(single_complex(reflection))))


def crossings(first: Circle, second: Circle) -> tuple[complex, ...]:
    """The points two circles share: two, one where they touch (but for rounding), none.

    first, second : circles.  Returns complex points. The one to the left of the way from the first centre to
    the second comes first.
    Source: the common chord of two circles, any text on plane geometry. Half the chord is the height of the
    triangle of centres and crossing, by Heron's formula with its factors in the order that loses no digits in
    a flat triangle (W. Kahan, from memory).  Raises NotACircle."""
    first, second = _circle(first), _circle(second)
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


def rim_position(reflection: ArrayLike) -> Real:
    """Reading of the scale of wavelengths toward the generator beside a point, in [0, 0.5); zero at the left.

    reflection : complex, any shape.  Source: 720 degrees of the chart to a wavelength.
    Raises OutOfRange."""
    return wrap_half_wave(0.25 - np.angle(finite_reflection(reflection)) / (4 * np.pi))


def rim_reflection(position: ArrayLike) -> Complex:
    """Point of the rim at a reading in wavelengths toward the generator: the inverse of `rim_position`.

    position : wavelengths of either sign, any shape; nan stays nan.  Raises NotALength."""
    return plain(SHORT_POINT * round_trip(any_length(position, "position"), 0.0, sense=-1))


def walk(reflection: complex, distance: float) -> Arc:
    """The way along a line from a reflection, `distance` wavelengths toward the generator (below zero, the load).

    reflection : complex, a single number.  distance : wavelengths of either sign.  Raises NotACircle, OutOfRange.
    Source: 720 degrees of the chart to a wavelength, as `rim_position`."""
    circle = mismatch_circle(reflection)
    length = one_number(distance, "distance", "in wavelengths", at_least=-LONGEST, up_to=LONGEST)
    return Arc(circle, float(np.angle(single_complex(reflection))), -4 * np.pi * length)


def arc_between(circle: Circle, start: complex, end: complex, clockwise: bool) -> Arc:
    """The arc of a circle from `start` to `end`, two of its points, clockwise or counter-clockwise.

    circle : any.  start, end : complex points.  clockwise : True or False.
    No arc where they are one point, or only rounding keeps them apart.  Raises NotACircle, OutOfRange.
    Source: none needed beside the angles of the two points."""
    center, begin, finish = _circle(circle).center, single_complex(start), single_complex(end)
    if not np.isfinite(begin) or not np.isfinite(finish):
        raise NotACircle(
            f"An arc goes between two points, not {shown(start)} and {shown(end)}.",
            value=(start, end),
        )
    first, last = np.angle(begin - center), np.angle(finish - center)
    sense = -1 if yes_or_no(clockwise, "sense of the arc, clockwise,") else 1
    sweep = 4 * np.pi * wrap_half_wave(sense * (last - first) / (4 * np.pi))
    return Arc(circle, float(first), sense * float(sweep))


def _circle(circle: Any) -> Circle:
    if not isinstance(circle, Circle):
        raise NotACircle(f"A circle is wanted, such as Circle(0j, 0.5), not {shown(circle)}.", value=circle)
    return circle


def _foot(span: float, first: float, second: float) -> float:
    """From the first centre to the common chord: (span² + first² - second²) / (2 span), near ones paired."""
    if first > span:
        return (span**2 + (first - second) * (first + second)) / (2 * span)
    return ((span - second) * (span + second) + first**2) / (2 * span)
