"""The numbers of the grids: which values have room for one, where it stands and how it is turned."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from app.parts.printed_chart.grids import ROUND, drawn_values
from app.parts.printed_chart.marks import Align, Label, Weight, digits, is_multiple
from core.chart import rim_position
from core.checks import Array
from core.line import reflection_coefficient

GAPS: dict[Weight, float] = {"major": 0.115, "medium": 0.066, "fine": 0.0175}
BESIDE_AXIS = 0.012  # how far a number of the axis stands off it
INSIDE_RIM, PAST_REACTANCES = 0.988, 0.9  # where numbers of x end, and those of b behind them
Places = Callable[[Array], Array]


def resistance_labels() -> tuple[Label, ...]:
    """Values of r on the axis, across it, each above the place where its circle crosses."""
    return tuple(_at_axis(value, weight, 1, "start") for value, weight in _spaced(_along_axis))


def reactance_labels() -> tuple[Label, ...]:
    """Values of x inside the rim, above zero in the upper half, each at the end of its arc."""
    return _at_rim(1, INSIDE_RIM)


def conductance_labels() -> tuple[Label, ...]:
    """Values of g under the axis, for the admittance grid laid over the impedance grid."""
    return tuple(_at_axis(value, weight, -1, "end") for value, weight in _spaced(_along_axis))


def susceptance_labels(radius: float = PAST_REACTANCES) -> tuple[Label, ...]:
    """Values of b at the end of their arcs, further in than those of x; above zero in the lower half."""
    return _at_rim(-1, radius)


def _at_axis(value: float, weight: Weight, sign: int, align: Align) -> Label:
    """A number beside the axis at the place of r, or with sign -1 under that of g, its baseline upright."""
    place = sign * (complex(reflection_coefficient(value, 1.0)) + 1j * BESIDE_AXIS)
    return Label(float(np.angle(place)), abs(place), digits(value), np.pi / 2, weight, align)


def _at_rim(sign: int, radius: float) -> tuple[Label, ...]:
    """Numbers along the ends of all arcs of x, or with sign -1 of b, their outer end at the radius."""
    return tuple(
        _along_ray(
            half * value,
            weight,
            float(np.angle(sign * reflection_coefficient(half * value * 1j, 1.0))),
            radius,
        )
        for value, weight in _spaced(_along_rim)
        for half in (1, -1)
    )


def _along_ray(value: float, weight: Weight, angle: float, radius: float) -> Label:
    """A number on a ray from the centre that ends at the radius, never upside down."""
    if np.cos(angle) > -1e-9:
        return Label(angle, radius, digits(value), angle, weight, "end")
    return Label(angle, radius, digits(value), angle + np.pi, weight, "start")


def _along_axis(values: Array) -> Array:
    """Where circles of constant r cross the axis."""
    return reflection_coefficient(values, 1.0).real


def _along_rim(values: Array) -> Array:
    """Where arcs of constant x reach the rim, along it from the short point, in radii."""
    return 4 * np.pi * rim_position(reflection_coefficient(1j * values, 1.0))


def _spaced(places: Places) -> Iterator[tuple[float, Weight]]:
    """Values worth a number, roundest first: at each weight those that keep its gap to all numbered before."""
    taken = list(places(np.array([0.0, 1e9])))
    for weight, gap in GAPS.items():
        values = _roundest_first(weight)
        for value, place in zip(values, places(np.array(values)), strict=True):
            if min(abs(place - other) for other in taken) >= gap:
                taken.append(place)
                yield value, weight


def _roundest_first(weight: Weight) -> list[float]:
    """Values drawn in this weight, those on coarse steps before those on fine ones; 1 comes first of all."""
    return sorted(sorted(drawn_values(weight)), key=lambda value: (value != 1, -_coarsest_step(value)))


def _coarsest_step(value: float) -> float:
    return max(step for step in ROUND if is_multiple(value, step))
