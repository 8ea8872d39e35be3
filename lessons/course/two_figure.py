"""The figure of two reactances: where the first part leads, and where the second can finish."""

from __future__ import annotations

import numpy as np

from core.chart import UNIT_CONDUCTANCE_CIRCLE, Circle, resistance_circle
from core.line import admittance_from_reflection, reflection_coefficient, swr
from lessons.grammar.figure import CHART, Dot, Figure, Mark, Pose, Trace
from lessons.grammar.notation import Notation

LOAD = 0.5 - 0.7j
"""Normalised, as in the other figures."""
LEAST, MOST, STEP = -0.3, 1.7, 0.05
MATCHED = 1e-9  # of g


def _points(values: object) -> tuple[complex, ...]:
    return tuple(np.asarray(values, dtype=complex).ravel().tolist())


def _along_r(first: float, last: float, many: int) -> tuple[complex, ...]:
    """The way along the load's circle of r, from one x to another."""
    return _points(reflection_coefficient(LOAD.real + 1j * np.linspace(first, last, many), 1.0))


def _along_g(admittance: complex) -> tuple[complex, ...]:
    """The way along a circle of g that the second part leads, up to where b is cancelled."""
    y = admittance.real + 1j * np.linspace(admittance.imag, 0.0, 33)
    return _points(reflection_coefficient(1 / y, 1.0))


def _two_walks(added: float, notation: Notation) -> Pose:
    z = LOAD + 1j * added
    point = complex(reflection_coefficient(z, 1.0))
    y = complex(admittance_from_reflection(point))
    way = _along_g(y)
    said = (
        f"The part in the line adds x = {notation.number(added, 2)}: z is {notation.rectangular(z, 2)}, so "
        f"y is {notation.rectangular(y, 2)}. A part across the line can cancel b, and "
    )
    if abs(y.real - 1) < MATCHED:
        said += "g is 1: that leads to the centre. Matched."
    else:
        left = notation.number(float(swr(way[-1])), 2)
        said += f"g = {notation.number(y.real, 2)} stays: that ends beside the centre, SWR {left}."
    return Pose(
        Dot("chart", point, "first", "z"),
        (
            Trace("chart", _along_r(LOAD.imag, z.imag, 41), "first", "", "arrow"),
            Trace("chart", way, "second", "", "arrow"),
        ),
        said,
    )


def _whole(circle: Circle) -> tuple[complex, ...]:
    return _points(circle.center + circle.radius * np.exp(2j * np.pi * np.linspace(0.0, 1.0, 73)))


def _circles(notation: Notation) -> tuple[Mark, ...]:
    return (
        Trace("chart", _whole(UNIT_CONDUCTANCE_CIRCLE), "unit", "g = 1"),
        Trace("chart", _whole(resistance_circle(LOAD.real)), "construction", "r = 0.5"),
        Dot("chart", complex(reflection_coefficient(LOAD, 1.0)), "load", "load"),
    )


FIRST_PART = Figure(
    title="Why the first part has to lead to g = 1",
    holds="x that the part in the line adds",
    panels=(CHART,),
    places=tuple((np.round(np.arange(LEAST, MOST + STEP / 2, STEP), 6) + 0.0).tolist()),
    pose=_two_walks,
    still=_circles,
    start=14,
)
