"""The printed chart as plain data: the two grids, the axis, and their numbers. The scales around it: core/scales.py.

Positions are in the plane of reflection, where the rim has radius one; angles in radians, counter-clockwise from the
right. Nothing here knows a screen: the live chart and a worksheet on paper both draw this.

**The grid.** Under (z - 1)/(z + 1) a division of z shrinks by 2/|1 + z|^2 (the size of the derivative), so equal
divisions crowd toward the right. Our rule against it: curves a `step` apart are drawn where neither resistance nor the
size of reactance exceeds a limit, the largest round number at which, on the axis, neighbours still stand a chosen gap
apart. Every curve then ends on a coarser one. Three gaps give three weights; a finer weight continues the curves of
the coarser ones and fills in between.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.chart import Arc, Circle, reactance_circle, resistance_circle
from core.checks import Array
from core.line import reflection_coefficient
from core.scales import Align, Label, Weight, number

ROUND = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
GAPS: dict[Weight, float] = {"major": 0.055, "medium": 0.0222, "fine": 0.0045}
STEPS_OF: dict[Weight, tuple[float, ...]] = {
    "major": (0.1, 0.2, 0.5, 1.0, 5.0, 10.0),
    "medium": (0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0),
    "fine": (0.01, 0.05, 0.1, 0.5, 1.0, 5.0, 10.0, 50.0),
}  # so chosen that divisions only grow from left to right
LABEL_GAPS: dict[Weight, float] = {"major": 0.115, "medium": 0.066, "fine": 0.0175}
BESIDE_AXIS = 0.012  # how far a label of the axis stands off it


@dataclass(frozen=True)
class GridArc:
    """Part of a curve of constant resistance or reactance, drawn in one weight."""

    kind: Literal["resistance", "reactance"]
    value: float
    weight: Weight
    arc: Arc


def impedance_grid() -> tuple[GridArc, ...]:
    """Every arc of constant r and x, without the rim and the axis; r = 1 runs whole, as the circle to match on."""
    arcs = [GridArc("resistance", 1.0, "major", Arc(resistance_circle(1.0), 0.0, 2 * np.pi))]
    for value, weight, near, far in _runs():
        if value != 1:
            arcs += [GridArc("resistance", value, weight, arc) for arc in _resistance_arcs(value, near, far)]
        arcs += [
            GridArc("reactance", sign * value, weight, _reactance_arc(sign * value, near, far))
            for sign in (1, -1)
        ]
    return tuple(arcs)


def admittance_grid() -> tuple[GridArc, ...]:
    """The impedance grid turned by half: r becomes g, x becomes b, each read on the impedance's own reflection."""
    return tuple(GridArc(one.kind, one.value, one.weight, _half_turned(one.arc)) for one in impedance_grid())


def axis() -> tuple[complex, complex]:
    """The straight curve of no reactance, from the short point to the open point."""
    return -1 + 0j, 1 + 0j


def grid_limit(step: float, gap: float) -> float:
    """Largest r, and largest size of x, up to which curves `step` apart are drawn for a `gap`; 0 where nowhere.

    Source: on the axis |d/dz (z - 1)/(z + 1)| = 2/(1 + r)^2, so neighbours stand 2 step/(1 + r)^2 apart."""
    return max(
        (limit for limit in ROUND if limit >= step and 2 * step >= gap * (1 + limit) ** 2), default=0.0
    )


def resistance_labels() -> tuple[Label, ...]:
    """Values of r on the axis, across it, each above the place where its circle crosses."""
    return tuple(
        _at(
            complex(reflection_coefficient(value, 1.0)) + 1j * BESIDE_AXIS,
            number(value),
            np.pi / 2,
            weight,
            "start",
        )
        for value, weight in _spaced(_axis_places)
    )


def reactance_labels() -> tuple[Label, ...]:
    """Values of x inside the rim, above zero in the upper half, each at the end of its arc."""
    return tuple(
        _inside_rim(complex(1j * sign * value), sign * value, weight, 0.988)
        for value, weight in _spaced(_rim_places)
        for sign in (1, -1)
    )


def conductance_labels() -> tuple[Label, ...]:
    """Values of g under the axis, for the admittance grid laid over the impedance grid."""
    return tuple(
        _at(
            complex(-reflection_coefficient(value, 1.0)) - 1j * BESIDE_AXIS,
            number(value),
            np.pi / 2,
            weight,
            "end",
        )
        for value, weight in _spaced(_axis_places)
    )


def susceptance_labels(radius: float = 0.9) -> tuple[Label, ...]:
    """Values of b at the end of their arcs, further in than those of x; above zero in the lower half."""
    return tuple(
        _inside_rim(complex(-1j / (sign * value)), sign * value, weight, radius)
        for value, weight in _spaced(_rim_places)
        for sign in (1, -1)
    )


def _limits(weight: Weight) -> dict[float, float]:
    """Each value drawn in this weight, with the value of the crossing curve on which its curve ends."""
    limits: dict[float, float] = {}
    for step in STEPS_OF[weight]:
        limit = grid_limit(step, GAPS[weight])
        for count in range(1, int(limit / step + 1e-9) + 1):
            value = round(count * step, 2)
            limits[value] = max(limit, limits.get(value, 0.0))
    return limits


def _runs() -> Iterator[tuple[float, Weight, float, float]]:
    """Value, weight, and the stretch of the other quantity over which its curve has that weight."""
    reached: dict[float, float] = {}
    for weight in GAPS:
        for value, limit in sorted(_limits(weight).items()):
            if limit > reached.get(value, 0.0):
                yield value, weight, reached.get(value, 0.0), limit
                reached[value] = limit


def _resistance_arcs(value: float, near: float, far: float) -> Iterable[Arc]:
    """The parts of a circle of constant r between two sizes of reactance: one through the axis, or one on each side.

    Seen from the circle's centre, r + jx stands at pi - 2 atan(x / (1 + r)): (z - 1)/(z + 1) less the centre."""
    circle = resistance_circle(value)
    start, end = (np.pi - 2 * np.arctan2(x, 1 + value) for x in (near, far))
    if near == 0:
        return (Arc(circle, float(end), float(2 * (start - end))),)
    return (Arc(circle, float(start), float(end - start)), Arc(circle, float(-start), float(start - end)))


def _reactance_arc(value: float, near: float, far: float) -> Arc:
    """The part of a circle of constant x between two resistances; angles from the centre as for constant r."""
    foot = -np.pi / 2 if value > 0 else np.pi / 2
    start, end = (foot - 2 * np.arctan2(value, 1 + r) for r in (near, far))
    return Arc(reactance_circle(value), float(start), float(end - start))


def _half_turned(arc: Arc) -> Arc:
    return Arc(Circle(-arc.circle.center, arc.circle.radius), arc.start + np.pi, arc.sweep)


def _inside_rim(impedance: complex, value: float, weight: Weight, radius: float) -> Label:
    """A label along the end of an arc of constant x, its outer end at the radius, never upside down."""
    angle = float(np.angle(reflection_coefficient(impedance, 1.0)))
    right = np.cos(angle) > -1e-9
    return Label(
        angle, radius, number(value), angle if right else angle + np.pi, weight, "end" if right else "start"
    )


def _at(place: complex, text: str, rotation: float, weight: Weight, align: Align) -> Label:
    return Label(float(np.angle(place)), abs(place), text, rotation, weight, align)


def _axis_places(values: Array) -> Array:
    """Where circles of constant r cross the axis."""
    return (values - 1) / (values + 1)


def _rim_places(values: Array) -> Array:
    """Where arcs of constant x reach the rim, along it from the short point."""
    return 2 * np.arctan(values)


def _spaced(places: Callable[[Array], Array]) -> Iterator[tuple[float, Weight]]:
    """Values worth a label, roundest first: at each weight those that keep its gap to all labelled before."""
    taken = list(places(np.array([0.0, 1e9])))
    for weight, gap in LABEL_GAPS.items():
        values = _roundest_first(weight)
        for value, place in zip(values, places(np.array(values)), strict=True):
            if min(abs(place - other) for other in taken) >= gap:
                taken.append(place)
                yield value, weight


def _roundest_first(weight: Weight) -> list[float]:
    """Values drawn in this weight, those on coarse steps before those on fine ones; 1 comes first of all."""
    values = sorted(_limits(weight))
    return sorted(
        values, key=lambda value: (value != 1, -max(step for step in ROUND if _multiple(value, step)))
    )


def _multiple(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < 1e-9
