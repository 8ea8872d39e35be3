"""The scales around the rim of the printed chart: where each tick and each number stands.

Positions are in the plane of reflection, where the rim has radius one; angles in radians, counter-clockwise from the
right. From the rim outward: ticks in wavelengths, readings toward the generator, a line for the names of these two
scales, readings toward the load; then a circle with ticks in degrees and the readings of the angle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.chart import rim_reflection

Weight = Literal["major", "medium", "fine"]
Align = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Tick:
    """A radial mark from one radius to another."""

    angle: float
    inner: float
    outer: float
    weight: Weight


@dataclass(frozen=True)
class Label:
    """A number at a place; `rotation` is that of its baseline, `align` the part of it that stands at the place."""

    angle: float
    radius: float
    text: str
    rotation: float
    weight: Weight
    align: Align = "middle"

    @property
    def at(self) -> complex:
        """The place as a point of the plane."""
        return complex(self.radius * np.exp(1j * self.angle))


@dataclass(frozen=True)
class Layout:
    """Radii of everything outside the rim, worked out from the height of a line of text (in radii of the chart)."""

    text: float

    @property
    def tick(self) -> float:
        """Length of the longest tick."""
        return 0.5 * self.text

    @property
    def generator(self) -> float:
        """Radius at which readings toward the generator are centred."""
        return 1 + self.tick + 0.65 * self.text

    @property
    def names(self) -> float:
        """Radius at which the names of the two scales of wavelengths are centred."""
        return self.generator + 0.95 * self.text

    @property
    def load(self) -> float:
        """Radius at which readings toward the load are centred."""
        return self.names + 0.95 * self.text

    @property
    def angle_circle(self) -> float:
        """Radius of the circle that bears the ticks of the angle."""
        return self.load + 0.7 * self.text

    @property
    def angle(self) -> float:
        """Radius at which readings of the angle are centred."""
        return self.angle_circle + self.tick + 0.65 * self.text

    @property
    def extent(self) -> float:
        """Radius outside of which nothing is printed."""
        return self.angle + 0.65 * self.text


REGULAR, COMPACT = Layout(text=0.044), Layout(text=0.072)


def wavelength_ticks(layout: Layout) -> tuple[Tick, ...]:
    """Marks on the rim every 0.01, 0.002 and 0.001 wavelength; both scales of wavelengths share them."""
    return _ticks(500, {10: "major", 2: "medium"}, 1.0, layout.tick)


def angle_ticks(layout: Layout) -> tuple[Tick, ...]:
    """Marks every 10, 2 and 1 degree on the circle of angles."""
    return _ticks(360, {10: "major", 2: "medium"}, layout.angle_circle, layout.tick)


def generator_labels(layout: Layout) -> tuple[Label, ...]:
    """Readings in wavelengths toward the generator: clockwise from the short point at the left."""
    return _wavelength_labels(layout.generator, +1)


def load_labels(layout: Layout) -> tuple[Label, ...]:
    """Readings in wavelengths toward the load: counter-clockwise from the short point at the left."""
    return _wavelength_labels(layout.load, -1)


def angle_labels(layout: Layout) -> tuple[Label, ...]:
    """Readings of the angle of reflection in degrees, from -170 to 180."""
    weights: dict[int, Weight] = {30: "major", 10: "medium", 2: "fine"}
    return tuple(
        _around(np.radians(degree), layout.angle, f"{number(degree)}°", _weight(degree, weights))
        for degree in range(-178, 181, 2)
    )


def number(value: float) -> str:
    """Plain digits with a true minus sign."""
    return f"{value:g}".replace("-", "−")


def _ticks(count: int, weights: dict[int, Weight], inner: float, length: float) -> tuple[Tick, ...]:
    lengths = {"major": length, "medium": 0.6 * length, "fine": 0.35 * length}
    marks = ((index, _weight(index, weights)) for index in range(count))
    return tuple(
        Tick(np.pi - 2 * np.pi * index / count, inner, inner + lengths[weight], weight)
        for index, weight in marks
    )


def _weight(index: int, weights: dict[int, Weight]) -> Weight:
    return next((weight for every, weight in weights.items() if index % every == 0), "fine")


def _wavelength_labels(radius: float, sense: int) -> tuple[Label, ...]:
    weights: dict[int, Weight] = {25: "major", 5: "medium"}
    return tuple(
        _around(
            float(np.angle(rim_reflection(sense * index / 500))),
            radius,
            _length(index),
            _weight(index, weights),
        )
        for index in range(250)
    )


def _length(index: int) -> str:
    """A position in five-hundredths of a wavelength, with as many decimals as its neighbours."""
    return "0" if index == 0 else f"{index / 500:.{2 if index % 5 == 0 else 3}f}"


def _around(angle: float, radius: float, text: str, weight: Weight) -> Label:
    """A label along a circle about the centre; in the lower half turned so that it is not upside down."""
    upper = np.sin(angle) > -1e-9
    return Label(float(angle), radius, text, float(angle + (-np.pi / 2 if upper else np.pi / 2)), weight)
