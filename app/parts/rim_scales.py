"""The two scales of length around the rim, in the unit that a course measures lines in: wavelengths or degrees of line.

Half a wavelength is 180 degrees of line and once around the chart. Where everything stands is told by core's layouts.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from core import scales
from core.chart import rim_reflection
from core.scales import Label, Layout, Tick, Weight

Unit = Literal["wavelengths", "degrees"]
Toward = Literal["generator", "load"]
UNITS: tuple[Unit, Unit] = ("wavelengths", "degrees")
TOWARD: tuple[Toward, Toward] = ("generator", "load")
HALF_DEGREES = 360  # of line, once around
TICKS: dict[int, Weight] = {10: "major", 2: "medium"}  # every 5 and every 1 degree
NUMBERS: dict[int, Weight] = {15: "major", 5: "medium"}  # degrees
LENGTHS: dict[Weight, float] = {"major": 1.0, "medium": 0.6, "fine": 0.35}


def ticks(layout: Layout, unit: Unit) -> tuple[Tick, ...]:
    """Marks on the rim, from it outward; both scales share them.

    layout : radii.  unit : "wavelengths" (every 0.001) or "degrees" of line (every half)."""
    if unit == "wavelengths":
        return scales.wavelength_ticks(layout)
    weights = [(index, _weight(index, TICKS)) for index in range(HALF_DEGREES)]
    return tuple(
        Tick(_angle(index / 2, 1), 1.0, 1 + LENGTHS[weight] * layout.tick, weight)
        for index, weight in weights
    )


def labels(layout: Layout, unit: Unit, toward: Toward) -> tuple[Label, ...]:
    """Readings of one scale: toward the generator clockwise from the short point, toward the load the other way.

    layout : radii.  unit : "wavelengths" or "degrees" of line."""
    if unit == "wavelengths":
        return scales.generator_labels(layout) if toward == "generator" else scales.load_labels(layout)
    radius, sense = (layout.generator, 1) if toward == "generator" else (layout.load, -1)
    return tuple(_label(degree, radius, sense) for degree in range(180))


def _label(degree: int, radius: float, sense: int) -> Label:
    """A reading along the circle, in the lower half turned so that it is not upside down."""
    angle = _angle(degree, sense)
    turn = -np.pi / 2 if np.sin(angle) > -1e-9 else np.pi / 2
    return Label(angle, radius, f"{degree}°", float(angle + turn), _weight(degree, NUMBERS))


def _angle(degree: float, sense: int) -> float:
    return float(np.angle(rim_reflection(sense * degree / 360)))


def _weight(index: int, weights: dict[int, Weight]) -> Weight:
    return next((weight for every, weight in weights.items() if index % every == 0), "fine")
