"""The two grids: which curves are printed, how far each runs, and in what weight.

Under (z - 1)/(z + 1) equal divisions of z crowd toward the right (`local_scale`). Our rule against it: curves a `step`
apart are drawn where neither resistance nor the size of reactance exceeds a limit, the largest round number at which,
on the axis, neighbours still stand a chosen gap apart. Every curve then ends on a coarser one. Three gaps give three
weights; a finer weight continues the curves of the coarser ones and fills in between.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from app.parts.printed_chart.marks import Weight
from core.chart import (
    OPEN_POINT,
    SHORT_POINT,
    UNIT_RESISTANCE_CIRCLE,
    Arc,
    local_scale,
    reactance_arc,
    resistance_arc,
)

ROUND = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
GAPS: dict[Weight, float] = {"major": 0.055, "medium": 0.0222, "fine": 0.0045}
STEPS_OF: dict[Weight, tuple[float, ...]] = {
    "major": (0.1, 0.2, 0.5, 1.0, 5.0, 10.0),
    "medium": (0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0),
    "fine": (0.01, 0.05, 0.1, 0.5, 1.0, 5.0, 10.0, 50.0),
}  # so chosen that divisions only grow from left to right


@dataclass(frozen=True)
class GridArc:
    """Part of a curve of constant resistance or reactance, drawn in one weight."""

    kind: Literal["resistance", "reactance"]
    value: float
    weight: Weight
    arc: Arc


def impedance_grid() -> tuple[GridArc, ...]:
    """Every arc of constant r and x, without the rim and the axis; r = 1 runs whole, as the circle to match on."""
    arcs = [GridArc("resistance", 1.0, "major", UNIT_RESISTANCE_CIRCLE.whole)]
    for value, weight, near, far in _runs():
        if value != 1:
            arcs += [GridArc("resistance", value, weight, arc) for arc in _both_halves(value, near, far)]
        arcs += [
            GridArc("reactance", sign * value, weight, reactance_arc(sign * value, near, far))
            for sign in (1, -1)
        ]
    return tuple(arcs)


def admittance_grid() -> tuple[GridArc, ...]:
    """The impedance grid turned by half: r becomes g, x becomes b, each read on the impedance's own reflection."""
    return tuple(GridArc(one.kind, one.value, one.weight, one.arc.half_turned) for one in impedance_grid())


def axis() -> tuple[complex, complex]:
    """The straight curve of no reactance, from the short point to the open point."""
    return SHORT_POINT, OPEN_POINT


def grid_limit(step: float, gap: float) -> float:
    """Largest r, and largest size of x, up to which curves `step` apart are drawn for a `gap`; 0 where nowhere."""
    return max((limit for limit in ROUND if limit >= step and step * local_scale(limit) >= gap), default=0.0)


def drawn_values(weight: Weight) -> dict[float, float]:
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
        for value, limit in sorted(drawn_values(weight).items()):
            if limit > reached.get(value, 0.0):
                yield value, weight, reached.get(value, 0.0), limit
                reached[value] = limit


def _both_halves(resistance: float, near: float, far: float) -> Iterable[Arc]:
    """Of a circle of constant r what lies between two sizes of reactance: one arc through the axis, or two."""
    if near == 0:
        return (resistance_arc(resistance, far, -far),)
    return resistance_arc(resistance, near, far), resistance_arc(resistance, -near, -far)
