"""The scales around the rim: two of length, in the unit that a course measures lines in, and one of the angle.

A course measures lines in wavelengths or in degrees of line: half a wavelength is 180 degrees, and once around the
chart. Each mark and each number is major, medium or fine; a chart prints those that it has room for.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np

from app.parts.printed_chart.layouts import Layout
from app.parts.printed_chart.marks import Label, Tick, Weight, digits
from core.chart import rim_reflection

Unit = Literal["wavelengths", "degrees"]
Toward = Literal["generator", "load"]
UNITS: tuple[Unit, Unit] = ("wavelengths", "degrees")
TOWARD: tuple[Toward, Toward] = ("generator", "load")
Every = dict[int, Weight]


class Scale(NamedTuple):
    """A scale of length: ticks and numbers once around, and every how many of them is a heavier one."""

    ticks: int
    numbers: int
    heavier: Every


SCALES: dict[Unit, Scale] = {
    "wavelengths": Scale(500, 250, {25: "major", 5: "medium"}),  # a tick every 0.001, a number every 0.002
    "degrees": Scale(360, 180, {15: "major", 5: "medium"}),  # a tick every half degree, a number every degree
}
TICKS: Every = {10: "major", 2: "medium"}  # of every scale
DEGREES: Every = {30: "major", 10: "medium", 2: "fine"}  # numbers of the angle
LENGTHS: dict[Weight, float] = {"major": 1.0, "medium": 0.6, "fine": 0.35}


def ticks(layout: Layout, unit: Unit) -> tuple[Tick, ...]:
    """Marks on the rim, from it outward; both scales share them.

    layout : radii.  unit : "wavelengths" (every 0.001) or "degrees" of line (every half)."""
    return _ticks(SCALES[unit].ticks, 1.0, layout.tick)


def labels(layout: Layout, unit: Unit, toward: Toward) -> tuple[Label, ...]:
    """Readings of one scale: toward the generator clockwise from the short point, toward the load the other way.

    layout : radii.  unit : "wavelengths" or "degrees" of line."""
    radius, sense = (layout.generator, 1) if toward == "generator" else (layout.load, -1)
    _, count, heavier = SCALES[unit]
    return tuple(
        _around(_angle(sense * index / count), radius, _reading(index, unit), _weight(index, heavier))
        for index in range(count)
    )


def angle_ticks(layout: Layout) -> tuple[Tick, ...]:
    """Marks every 10, 2 and 1 degree on the circle of angles."""
    return _ticks(360, layout.angle_circle, layout.tick)


def angle_labels(layout: Layout) -> tuple[Label, ...]:
    """Readings of the angle of reflection in degrees, from -178 to 180."""
    return tuple(
        _around(float(np.radians(degree)), layout.angle, f"{digits(degree)}°", _weight(degree, DEGREES))
        for degree in range(-178, 181, 2)
    )


def _ticks(count: int, inner: float, length: float) -> tuple[Tick, ...]:
    weights = [(index, _weight(index, TICKS)) for index in range(count)]
    return tuple(
        Tick(_angle(index / count), inner, inner + length * LENGTHS[weight], weight)
        for index, weight in weights
    )


def _angle(turns: float) -> float:
    """The direction of a place on the rim, so many turns clockwise from the short point."""
    return float(np.angle(rim_reflection(turns / 2)))


def _weight(index: int, weights: Every) -> Weight:
    return next((weight for every, weight in weights.items() if index % every == 0), "fine")


def _reading(index: int, unit: Unit) -> str:
    """A degree, or a position in five-hundredths of a wavelength with as many decimals as its neighbours."""
    if unit == "degrees":
        return f"{index}°"
    return "0" if index == 0 else f"{index / 500:.{2 if index % 5 == 0 else 3}f}"


def _around(angle: float, radius: float, text: str, weight: Weight) -> Label:
    """A number along a circle about the centre; in the lower half turned so that it is not upside down."""
    turn = -np.pi / 2 if np.sin(angle) > -1e-9 else np.pi / 2
    return Label(angle, radius, text, float(angle + turn), weight)
