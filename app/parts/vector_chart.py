"""The printed chart as a vector drawing, on paper: grids, scales around it, radial scales under it.

What stands where comes from printed_chart/ and is only moved to its place on the page, in millimetres; upward there is
downward here.
What a lesson draws on it stands in vector_strokes.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain
from math import ceil, cos, degrees, pi, sin
from typing import TypeVar

from app.parts.printed_chart import grid_numbers, grids, rim_scales
from app.parts.printed_chart.grids import GAPS, GridArc
from app.parts.printed_chart.layouts import PRINT
from app.parts.printed_chart.marks import Label, Tick
from app.parts.printed_chart.radial_scales import RadialScale, radial_scales
from app.parts.printed_chart.rim_scales import Unit
from app.parts.vector import element, line, number, path, polyline, text, width_of
from core.chart import Arc, Circle

GRID_INK, SCALE_INK, INK, WHITE = "#767676", "#3d3d3d", "#000", "#fff"
GRID_WIDTH = {"major": 0.16, "medium": 0.1, "fine": 0.065}
UNDER_DOTS = "#8a8a8a"  # the solid grid, where a dotted one lies with it: so neither is lost in the other
DOTS_INK = "#474747"
DOTTED = {"major": ("1.5 0.8", 0.26), "medium": ("0.2 0.8", 0.19)}  # dash and width
OVER_EACH_OTHER = (UNDER_DOTS, DOTS_INK)  # of two grids the finest curves would be one grey
PAST_REACTANCES = (
    0.872  # from the rim inward, where numbers of x end, so that those of b do not run into them
)
Weighted = TypeVar("Weighted", Tick, Label)
TICK_WIDTH = {"major": 0.2, "medium": 0.13, "fine": 0.09}
LONGEST_PIECE = 2.0  # radians; an arc of nearly half a circle or more is not well told by its ends and radius
DROP = 0.36  # from the middle of a number to its baseline, in its sizes
RADIAL_GAP = 8.4  # from one radial scale to the next, in millimetres


@dataclass(frozen=True)
class Place:
    """Where a chart stands on a page: its centre and its radius, in millimetres."""

    x: float
    y: float
    radius: float

    def at(self, point: complex) -> tuple[float, float]:
        """A point of the plane of reflection on the page."""
        return self.x + self.radius * point.real, self.y - self.radius * point.imag

    @property
    def letters(self) -> float:
        """Size of the numbers on the scales."""
        return PRINT.text * self.radius

    @property
    def extent(self) -> float:
        """Half the side of the square that the chart takes with its scales."""
        return PRINT.extent * self.radius


@lru_cache(maxsize=16)
def printed_chart(place: Place, admittance: str, unit: Unit = "wavelengths") -> str:
    """Everything printed on a blank chart: one grid, or with admittance by "overlay" a dotted one of y with it.

    unit : of the scales of length, "wavelengths" or "degrees" of line."""
    overlaid = (
        (_grid(place, grids.admittance_grid(), "admittance", DOTS_INK),) if admittance == "overlay" else ()
    )
    start, end = grids.axis()
    return element(
        "g",
        _grid(place, grids.impedance_grid(), "impedance", UNDER_DOTS if overlaid else GRID_INK),
        *overlaid,
        path(polyline(place.at(start), place.at(end)), class_="axis", **_pen(GRID_INK, GRID_WIDTH["major"])),
        _circles(place),
        *_scales(place, unit),
        *_grid_numbers(place, admittance),
        class_="printed",
    )


@lru_cache(maxsize=16)
def printed_radial_scales(x: float, y: float, radius: float) -> str:
    """The radial scales under a chart centred at `x`, one below the other from `y` on, as long as its radius."""
    each = (_radial(one, x, y + RADIAL_GAP * row, radius) for row, one in enumerate(radial_scales()))
    return element("g", *each, class_="radial")


def arc_path(place: Place, arc: Arc) -> str:
    """The piece of a path along an arc, in parts short enough to be exact."""
    count = max(1, ceil(abs(arc.sweep) / LONGEST_PIECE))
    radius, turn = number(arc.circle.radius * place.radius), 0 if arc.sweep > 0 else 1
    (x, y), *others = (place.at(complex(point)) for point in arc.points(count + 1))
    way = (f"A{radius} {radius} 0 0 {turn} {number(right)} {number(down)}" for right, down in others)
    return f"M{number(x)} {number(y)}{''.join(way)}"


def circle_path(place: Place, circle: Circle) -> str:
    """The piece of a path all round a circle."""
    return arc_path(place, Arc(circle, 0.0, 2 * pi)) + "Z"


def curves(place: Place, arcs: Iterable[GridArc]) -> str:
    """The piece of a path along curves of a grid, one after the other."""
    return "".join(arc_path(place, one.arc) for one in arcs)


def marks(place: Place, ticks: Iterable[Tick]) -> str:
    """The piece of a path of ticks, one after the other."""
    ways = ((tick, complex(cos(tick.angle), sin(tick.angle))) for tick in ticks)
    return "".join(polyline(place.at(tick.inner * way), place.at(tick.outer * way)) for tick, way in ways)


def _pen(ink: str, width: float, dash: str | None = None) -> dict[str, float | str | None]:
    return {"fill": "none", "stroke": ink, "stroke_width": width, "stroke_dasharray": dash}


def _grid(place: Place, arcs: Sequence[GridArc], name: str, ink: str) -> str:
    """One path for each kind of curve and weight, the finest first; of the dotted grid only what can be told apart."""
    dotted = name == "admittance"
    kinds = {"resistance": "conductance", "reactance": "susceptance"} if dotted else {}
    return element(
        "g",
        *(
            path(
                curves(place, [one for one in arcs if (one.kind, one.weight) == (kind, weight)]),
                class_=f"{kinds.get(kind, kind)} {weight}",
                **_grid_pen(ink, weight, dotted),
            )
            for weight in reversed(GAPS)
            if ink not in OVER_EACH_OTHER or weight in DOTTED
            for kind in ("resistance", "reactance")
        ),
        class_=f"{name}-grid",
    )


def _grid_pen(ink: str, weight: str, dotted: bool) -> dict[str, float | str | None]:
    dash, width = DOTTED[weight] if dotted else (None, GRID_WIDTH[weight])
    return _pen(ink, width, dash)


def _circles(place: Place) -> str:
    radii = {"rim": 1.0, "outer": PRINT.angle_circle}
    drawn = (
        element("circle", cx=place.x, cy=place.y, r=radius * place.radius, class_=name, **_pen(INK, 0.22))
        for name, radius in radii.items()
    )
    return "".join(drawn)


def _scales(place: Place, unit: Unit) -> Iterable[str]:
    ticks = _with_room(rim_scales.ticks(PRINT, unit))
    inward = tuple(
        replace(one, inner=PRINT.angle_circle, outer=PRINT.angle_circle - (one.outer - 1)) for one in ticks
    )
    generator, load = (_with_room(rim_scales.labels(PRINT, unit, toward)) for toward in rim_scales.TOWARD)
    for name, marked, labels, look in (
        ("toward-generator", ticks, generator, {"fill": INK}),
        ("toward-load", inward, load, {"fill": SCALE_INK, "font_style": "italic"}),
        (
            "angle",
            rim_scales.angle_ticks(PRINT),
            _with_room(rim_scales.angle_labels(PRINT)),
            {"fill": SCALE_INK},
        ),
    ):
        numbers = (turned(place, label) for label in labels)
        yield element(
            "g", *_ticks(place, marked), element("g", *numbers, class_="numbers", **look), class_=name
        )


def _with_room(items: Sequence[Weighted]) -> tuple[Weighted, ...]:
    """Those of a scale that a pencil's line does not cover."""
    return tuple(one for one in items if one.weight != "fine")


def _ticks(place: Place, ticks: Sequence[Tick]) -> Iterable[str]:
    for weight, width in TICK_WIDTH.items():
        drawn = marks(place, (tick for tick in ticks if tick.weight == weight))
        yield path(drawn, class_=weight, **_pen(SCALE_INK, width))


def turned(place: Place, label: Label) -> str:
    """A number of the chart, turned about its place; its middle stands there, or the end that it is aligned by."""
    x, y = place.at(label.at)
    return text(
        x,
        y + DROP * place.letters,
        label.text,
        place.letters,
        text_anchor=label.align,
        transform=f"rotate({number(-degrees(label.rotation))} {number(x)} {number(y)})",
    )


def _grid_numbers(place: Place, admittance: str) -> Iterable[str]:
    """Values of the curves, each on a patch of white as on a contour line."""
    upright = grid_numbers.resistance_labels() + grid_numbers.reactance_labels()
    slanted = (
        grid_numbers.conductance_labels() + grid_numbers.susceptance_labels(PAST_REACTANCES)
        if admittance == "overlay"
        else ()
    )
    upright, slanted = (tuple(one for one in labels if one.weight != "fine") for labels in (upright, slanted))
    yield path(*(_patch(place, one) for one in chain(upright, slanted)), class_="patches", fill=WHITE)
    for labels, style in ((upright, "normal"), (slanted, "italic")):
        if labels:
            numbers = (turned(place, one) for one in labels)
            yield element("g", *numbers, class_="grid-numbers", fill=INK, font_style=style)


def _patch(place: Place, label: Label) -> str:
    """The corners of the rectangle that a number covers."""
    along = complex(cos(label.rotation), sin(label.rotation))
    width = 0.92 * width_of(label.text, PRINT.text)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[label.align]
    across = 0.42 * PRINT.text
    corners = ((start, -across), (start + width, -across), (start + width, across), (start, across))
    return polyline(*(place.at(label.at + along * complex(*corner)) for corner in corners)) + "Z"


def _radial(scale: RadialScale, x: float, y: float, radius: float) -> str:
    """A scale on its line: marks upward, numbers under it, its name at the left of its beginning."""
    lengths, letters = {"major": 2.2, "medium": 1.6, "fine": 1.0}, PRINT.text * radius
    marks = (
        path(
            *(
                polyline((at, y), (at, y - lengths[weight]))
                for at in (x + radius * mark.position for mark in scale.marks if mark.weight == weight)
            ),
            class_=weight,
            **_pen(SCALE_INK, TICK_WIDTH[weight]),
        )
        for weight in TICK_WIDTH
    )
    numbers = (
        text(x + radius * mark.position, y + 1.15 * letters, mark.text, letters, text_anchor="middle")
        for mark in scale.marks
        if mark.text
    )
    edge = line(x, y, x + radius, y, **_pen(INK, 0.22))
    name = text(x - 4, y + DROP * letters - 0.9, scale.name, 1.15 * letters, text_anchor="end")
    return element("g", edge, *marks, *numbers, name, class_=scale.key.replace(" ", "-"))
