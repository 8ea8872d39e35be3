"""The printed chart as plain data: the two grids, the axis, and the scales around the rim.

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

from core.chart import Arc, Circle, reactance_circle, resistance_circle, rim_reflection
from core.checks import Array
from core.line import reflection_coefficient

Weight = Literal["major", "medium", "fine"]
Align = Literal["start", "middle", "end"]

STEPS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
GAPS: dict[Weight, float] = {"major": 0.08, "medium": 0.0222, "fine": 0.0076}
STEPS_OF: dict[Weight, tuple[float, ...]] = {"major": STEPS[3:10], "medium": STEPS[1:], "fine": STEPS}
LABEL_GAPS: dict[Weight, float] = {"major": 0.115, "medium": 0.066, "fine": 0.0175}
BESIDE_AXIS = 0.012  # how far a label of the axis stands off it


@dataclass(frozen=True)
class GridArc:
    """Part of a curve of constant resistance or reactance, drawn in one weight."""

    kind: Literal["resistance", "reactance"]
    value: float
    weight: Weight
    arc: Arc


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
    """Radii of everything outside the rim, worked out from the height of a line of text (in radii of the chart).

    From the rim outward: ticks in wavelengths, readings toward the generator, a line for the names of these two
    scales, readings toward the load; then a circle with ticks in degrees and the readings of the angle."""

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
        (limit for limit in STEPS if limit >= step and 2 * step >= gap * (1 + limit) ** 2), default=0.0
    )


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
        values, key=lambda value: (value != 1, -max(step for step in STEPS if _multiple(value, step)))
    )


def _multiple(value: float, step: float) -> bool:
    return abs(value / step - round(value / step)) < 1e-9


def number(value: float) -> str:
    """Plain digits with a true minus sign."""
    return f"{value:g}".replace("-", "−")
