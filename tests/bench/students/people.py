"""What simulated students have in common: eyes that read a chart within its tolerance, mistakes, and how they write."""

from __future__ import annotations

from cmath import phase
from collections.abc import Callable
from dataclasses import dataclass
from math import atan, cos, degrees, inf, isfinite, pi, sin, tan
from random import Random
from typing import Any

from tests.bench.students.arithmetic import reflection

POINT, LENGTH = (
    0.02,
    0.005,
)  # what a reading from a chart may be off by: in the plane of reflection, in wavelengths
RELATIVE, ROUNDED = 0.005, 0.0075  # what a sum may be off by: half a percent, or two decimals of both parts


class Eye:
    """Reads a chart; this one reads it exactly."""

    def off(self) -> float:
        """An error as a part of the tolerance, from -1 to 1."""
        return 0.0

    def point(self, at: complex) -> complex:
        """A point of the chart, never outside of it."""
        size, way = abs(self.off()), pi * self.off()
        read = at + POINT * size * complex(cos(way), sin(way))
        return read / max(1.0, abs(read) / 0.9999)

    def size(self, of: float) -> float:
        """The radius of a circle about the centre."""
        return min(0.9999, max(0.0, of + POINT * self.off()))

    def part(self, at: float) -> float:
        """The imaginary part at a point of the unit circle, whose radius is 1/2, off by so much of the way along it."""
        return 2 * tan(max(-1.57, min(1.57, atan(at / 2) + POINT * self.off())))

    def scale(self, at: float) -> float:
        """The outer scale: two readings make a length, so each is off by half of what a length may be."""
        return at + LENGTH / 2 * self.off()


class Reader(Eye):
    """Errors spread evenly over the tolerance, or heaped about nothing and cut off there."""

    def __init__(self, chance: Random) -> None:
        self.chance, self.evenly = chance, chance.random() < 0.5

    def off(self) -> float:
        if self.evenly:
            return self.chance.uniform(-1, 1)
        while abs(error := self.chance.gauss(0, 0.4)) > 1:
            pass
        return error


class Worst(Eye):
    """Errors of the whole tolerance, one way or the other."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance

    def off(self) -> float:
        return self.chance.choice((-1, 1, 0.5))


@dataclass(frozen=True)
class Mistake:
    """A mistake in one field. key : what the lesson calls it; "" where the lesson does not know it.

    value : what somebody with these eyes would write, None where it cannot be made or changes nothing; may be one of
    several.  against : fields that, answered rightly, show that it is not made, if any one of them is; a quantity
    stands for its other branch."""

    key: str
    value: Callable[[Eye], Any]
    against: tuple[str, ...] = ()


@dataclass(frozen=True)
class Metric:
    """How far two values of a field are from each other, in tolerances, and how a student writes one."""

    distance: Callable[[Any, Any], float]
    write: Callable[[Any, int], str]
    anywhere: Callable[[Random, Any], Any]
    """Any value of the field's range."""


def _finite(value: Any) -> bool:
    return isinstance(value, str) or isfinite(abs(value))


def _on_chart(one: complex, other: complex) -> float:
    if not (_finite(one) and _finite(other)):
        return 0.0 if one == other else inf
    return abs(reflection(one) - reflection(other)) / POINT if -1 not in (one, other) else inf


def _sum(one: complex, other: complex) -> float:
    return abs(one - other) / max(RELATIVE * abs(other), ROUNDED)


def half_waves(one: float, other: float) -> float:
    """A length's distance from another where halves of a wavelength do not count, in wavelengths."""
    off = (one - other) % 0.5
    return min(off, 0.5 - off)


def complex_text(value: complex, decimals: int) -> str:
    """A complex number in rectangular form."""
    return f"{value.real:.{decimals}f}{value.imag:+.{decimals}f}j" if _finite(value) else "inf"


def polar_text(value: complex, decimals: int) -> str:
    """A complex number as size and degrees."""
    return f"{abs(value):.{decimals}f} < {degrees(phase(value)):.1f} deg"


def real_text(value: float, decimals: int) -> str:
    """A plain number."""
    return f"{value:.{decimals}f}"


def _anywhere_on_chart(chance: Random, right: Any) -> complex:
    while abs(point := complex(chance.uniform(-1, 1), chance.uniform(-1, 1))) > 0.98:
        pass
    return point


def _impedance_anywhere(chance: Random, right: Any) -> complex:
    point = _anywhere_on_chart(chance, right)
    return (1 + point) / (1 - point)


SUM = Metric(_sum, complex_text, _impedance_anywhere)
PART_SUM = Metric(_sum, real_text, lambda chance, right: chance.uniform(-3, 3))
IMMITTANCE = Metric(_on_chart, complex_text, _impedance_anywhere)
PART = Metric(
    lambda one, other: _on_chart(complex(1, one), complex(1, other)),
    real_text,
    lambda chance, right: chance.uniform(-3, 3),
)
REFLECTION = Metric(lambda one, other: abs(one - other) / POINT, polar_text, _anywhere_on_chart)
RATIO = Metric(
    lambda one, other: abs(2 / (one + 1) - 2 / (other + 1)) / POINT,
    real_text,
    lambda chance, right: chance.uniform(1, 8),
)
WAVELENGTHS = Metric(
    lambda one, other: half_waves(one, other) / LENGTH,
    lambda value, decimals: f"{value:.{max(decimals, 3)}f} wl",
    lambda chance, right: chance.uniform(0, 0.5),
)
CHOICE = Metric(
    lambda one, other: 0.0 if one == other else inf, lambda value, decimals: value, lambda c, right: right
)


def millimetres(wavelength: float) -> Metric:
    """Lengths on a line of this wavelength."""

    def distance(one: float, other: float) -> float:
        return abs(one - other) / wavelength / LENGTH

    return Metric(
        distance,
        lambda value, decimals: f"{value:.{1 if abs(value) >= 10 else 3}f}",
        lambda chance, right: chance.uniform(0, 0.5) * wavelength,
    )


def as_written(text: str, metric: Metric) -> Any:
    """The value that a text of a metric says."""
    if metric is CHOICE:
        return text
    if metric is REFLECTION:
        size, angle = text.removesuffix(" deg").split(" < ")
        turn = pi * float(angle) / 180
        return float(size) * complex(cos(turn), sin(turn))
    if metric.write is complex_text:
        return complex(text) if text != "inf" else complex(inf)
    for prefixed, sign in (("nH", 1), ("pF", -1)):
        if text.endswith(prefixed):
            return float(text.removesuffix(prefixed)) * sign
    return float(text.removesuffix(" wl"))
