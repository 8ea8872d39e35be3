"""What a lesson draws, in ink on paper: each role by its colour, dash and marker, so that black ink tells as much.

Where an admittance is plotted was decided in app/chart.py; here plotted strokes become lines on a page.
"""

from __future__ import annotations

import cmath
from cmath import phase
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import atan2, ceil, copysign, cos, degrees, hypot, pi, sin, sqrt
from typing import Any

from app.parts.plotting import Group, plotted_groups
from app.parts.printed_chart.layouts import PRINT
from app.parts.vector import element, number, path, polyline
from app.parts.vector_chart import Place, arc_path, circle_path
from app.parts.vector_looks import MARKER, Spot, ink_of, line_look, marker_path
from core.chart import Arc, Circle

Wire = dict[str, Any]
ARROW = ((0, 0), (-2.9, -1.15), (-2.2, 0), (-2.9, 1.15))
SHORT_OF_POINT = 2.2  # from the tip of an arrow to the point that it leads to, so that both can be seen
ASIDE = 1.5  # from a circle to the first walk along it, and from walk to walk
AT_RIM = 0.97  # from this radius on a walk is one along the rim, and is drawn in the free lane of the scales
EDGE = 0.35  # of the lane's width, from its middle to a walk along the rim
BAR = 0.8  # half the length of the bar at which such a walk begins
RING = 3.2
HATCH = 2.2  # between the lines of a region
RIM_SPOTS = tuple(cmath.rect(0.85, turn * pi / 4) for turn in (3, 1, 5, 7, 2, 6, 4, 0))
BETWEEN_SAMPLES = 1.2


@dataclass(frozen=True)
class Drawn:
    """A stroke on the page: its line as pieces of a path, what stands on it, and how its label may stand to it.

    samples : places on the line, about a millimetre apart.  anchors : place, direction away from it and distance, for
    each way a label may stand, best first.  lane : instead, angles at which it may stand in the free lane of the
    scales, and on which side of the angle (0 is astride)."""

    wire: Wire
    line: tuple[str, ...] = ()
    arrow: tuple[Spot, float] | None = None
    marker: Spot | None = None
    samples: tuple[Spot, ...] = ()
    anchors: tuple[tuple[Spot, Spot, float], ...] = ()
    lane: tuple[tuple[float, int], ...] = ()


def drawn_groups(groups: Iterable[Group], admittance: str, place: Place) -> list[Drawn]:
    """Every stroke of the groups in its place on the page; a second walk along one circle keeps off the first."""
    walks: Counter[tuple[float, ...]] = Counter()
    found = []
    for group in plotted_groups(groups, admittance):
        for wire in group["strokes"]:
            if wire["kind"] == "way":
                circle = tuple(round(value, 6) for value in (*wire["center"], wire["radius"]))
                walks[circle] += 1
                wire = {**wire, "lane": walks[circle]}
            found.append(KINDS[wire["kind"]](wire, place))
    return found


def ink(drawings: Sequence[Drawn]) -> str:
    """Lines first, then markers, so that no line runs over a marker."""
    return element("g", *map(_lines, drawings), class_="lines") + element(
        "g", *map(_marker, drawings), class_="markers"
    )


def _lines(one: Drawn) -> str:
    role, kind = one.wire["role"], one.wire["kind"]
    drawn = path(*one.line, class_=f"{kind} {role}", **line_look(role, kind))
    return drawn if one.arrow is None else drawn + _arrowhead(*one.arrow, role)


def _arrowhead(at: Spot, direction: float, role: str) -> str:
    turn = f"translate({number(at[0])} {number(at[1])}) rotate({number(degrees(direction))})"
    return path(polyline(*ARROW) + "Z", transform=turn, fill=ink_of(role))


def _marker(one: Drawn) -> str:
    if one.marker is None:
        return ""
    role = one.wire["role"]
    filled = role in MARKER
    look = {"fill": ink_of(role) if filled else "#fff", "stroke": "#fff" if filled else ink_of(role)}
    return path(marker_path(role, one.marker), class_=f"marker {role}", stroke_width=0.35, **look)


# --- each kind of stroke -------------------------------------------------------------------------------------------


def _point(wire: Wire, place: Place) -> Drawn:
    at = place.at(complex(*wire["at"]))
    return Drawn(wire, marker=at, samples=(at,), anchors=_all_round(at, 2.0))


def _ring(wire: Wire, place: Place) -> Drawn:
    x, y = place.at(complex(*wire["at"]))
    size = RING / place.radius
    return Drawn(
        wire,
        line=(circle_path(place, Circle(complex(*wire["at"]), size)),),
        anchors=_all_round((x, y), RING + 0.5),
    )


def _curve(wire: Wire, place: Place) -> Drawn:
    circle = Circle(complex(*wire["center"]), wire["radius"])
    turns = (135, 45, 225, 315, 110, 70, 250, 290, 160, 20, 200, 340)
    return Drawn(
        wire,
        line=(circle_path(place, circle),),
        samples=_samples(place, Arc(circle, 0.0, 2 * pi)),
        anchors=_beside(place, circle, (turn * pi / 180 for turn in turns)),
    )


def _way(wire: Wire, place: Place) -> Drawn:
    """A walk, drawn beside its circle like a measure: from the circle out, along, and an arrowhead at its end."""
    circle = Circle(complex(*wire["center"]), wire["radius"] + ASIDE * wire["lane"] / place.radius)
    if wire["radius"] > AT_RIM and abs(complex(*wire["center"])) < 1e-6:
        return _rim_way(wire, place)
    arc = Arc(circle, wire["start"], wire["sweep"])
    start = Circle(circle.center, wire["radius"]).at(arc.start)
    return replace(
        _walk(wire, place, arc, polyline(place.at(start), place.at(arc.first))),
        anchors=_beside(place, circle, _turns(arc, *PARTS)),
    )


def _rim_way(wire: Wire, place: Place) -> Drawn:
    """A walk along the rim, at one edge of the free lane, from a bar across its line; its length stands in the lane."""
    edge = EDGE * PRINT.lane * (-1 if wire["lane"] % 2 else 1)
    arc = Arc(Circle(0j, PRINT.names + edge), wire["start"], wire["sweep"])
    bar = (Circle(0j, arc.circle.radius + BAR * sense / place.radius).at(arc.start) for sense in (-1, 1))
    return replace(
        _walk(wire, place, arc, polyline(*map(place.at, bar))),
        lane=tuple((turn, 0) for turn in _turns(arc, *PARTS)),
    )


def _walk(wire: Wire, place: Place, arc: Arc, beginning: str) -> Drawn:
    """The line of a walk with its arrowhead, if there is room for one; the head lies along its own chord."""
    drawn = Drawn(wire, line=(beginning, arc_path(place, arc)), samples=_samples(place, arc))
    millimetres = arc.circle.radius * place.radius
    if millimetres * abs(arc.sweep) < 3:
        return drawn
    back = copysign(1.3 / millimetres, arc.sweep)
    direction = -(arc.start + arc.sweep - back) - copysign(pi / 2, arc.sweep)
    return replace(drawn, arrow=(place.at(arc.last), direction))


def _region(wire: Wire, place: Place) -> Drawn:
    """Slanting lines over all of it that is in the chart; the label stands inside, where there is room."""
    circle, inside = Circle(complex(*wire["center"]), wire["radius"]), wire["inside"]
    ways = [Circle(circle.center, circle.radius / 2).at(turn * pi / 4) for turn in range(8)]
    outside = [spot for spot in RIM_SPOTS if abs(spot - circle.center) > circle.radius]
    spots = [circle.center, *map(complex, ways)] if inside else outside
    return Drawn(
        wire,
        line=tuple(
            polyline(place.at(start), place.at(end))
            for start, end in hatched(circle, inside, HATCH / place.radius)
        ),
        anchors=tuple((place.at(spot), (0, 0), 0.0) for spot in spots if abs(spot) < 1),
    )


def hatched(circle: Circle, inside: bool, step: float) -> Iterator[tuple[complex, complex]]:
    """Lines at 45 degrees, `step` apart, over what of the chart lies inside or outside of a circle."""
    slant = cmath.rect(1, pi / 4)
    for index in range(-ceil(1 / step), ceil(1 / step) + 1):
        rim, own = (
            _chord(Circle(0j, 1.0), index * step),
            _chord(Circle(circle.center / slant, circle.radius), index * step),
        )
        if inside:
            parts = [(max(rim[0], own[0]), min(rim[1], own[1]))]
        else:
            parts = (
                [(rim[0], min(rim[1], own[0])), (max(rim[0], own[1]), rim[1])] if own[0] < own[1] else [rim]
            )
        for start, end in parts:
            if start < end:
                yield complex(start, index * step) * slant, complex(end, index * step) * slant


def _chord(circle: Circle, height: float) -> tuple[float, float]:
    """Between which places a level line lies in a circle; one place where it misses."""
    half = sqrt(max(0.0, circle.radius**2 - (height - circle.center.imag) ** 2))
    return circle.center.real - half, circle.center.real + half


def _cross(wire: Wire, place: Place) -> Drawn:
    (x0, y0), (x1, y1) = (place.at(complex(*wire[end])) for end in ("from", "to"))
    direction, length = atan2(y1 - y0, x1 - x0), hypot(x1 - x0, y1 - y0)
    tip = (x1 - SHORT_OF_POINT * cos(direction), y1 - SHORT_OF_POINT * sin(direction))
    along = [(x0 + (x1 - x0) * part, y0 + (y1 - y0) * part) for part in (0.75, 0.6, 0.9)]
    return Drawn(
        wire,
        line=(polyline((x0, y0), (x1, y1)),),
        arrow=(tip, direction) if length > 3 * SHORT_OF_POINT else None,
        samples=_straight((x0, y0), (x1, y1)),
        anchors=tuple(anchor for at in along for anchor in _all_round(at, 1.5)),
    )


def _ray(wire: Wire, place: Place) -> Drawn:
    """From the centre through the point to the scale at the rim; the reading stands in the free lane."""
    at = complex(*wire["at"])
    way = at / (abs(at) or 1)
    start, end = place.at(0), place.at(way * (PRINT.names - PRINT.lane / 2))
    return Drawn(
        wire,
        line=(polyline(start, end),),
        samples=_straight(start, end),
        lane=tuple((phase(at), side) for side in (0, 1, -1)),
    )


PARTS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
KINDS: dict[str, Callable[[Wire, Place], Drawn]] = {
    "point": _point,
    "ring": _ring,
    "curve": _curve,
    "way": _way,
    "region": _region,
    "cross": _cross,
    "ray": _ray,
}


def _turns(arc: Arc, *parts: float) -> Iterable[float]:
    return (arc.start + arc.sweep * part for part in parts)


def _all_round(at: Spot, distance: float) -> tuple[tuple[Spot, Spot, float], ...]:
    ways = ((1, -1), (1, 0), (1, 1), (-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1))
    return tuple((at, way, distance * (0.5 if way[0] and way[1] else 1)) for way in ways)


def _beside(place: Place, circle: Circle, angles: Iterable[float]) -> tuple[tuple[Spot, Spot, float], ...]:
    """Outside and inside of a circle at these angles."""
    return tuple(
        (place.at(circle.at(angle)), (sense * cos(angle), -sense * sin(angle)), 1.0)
        for angle in angles
        for sense in (1, -1)
    )


def _samples(place: Place, arc: Arc) -> tuple[Spot, ...]:
    count = max(2, ceil(abs(arc.sweep) * arc.circle.radius * place.radius / BETWEEN_SAMPLES))
    return tuple(place.at(complex(point)) for point in arc.points(count + 1))


def _straight(start: Spot, end: Spot) -> tuple[Spot, ...]:
    count = max(2, ceil(hypot(end[0] - start[0], end[1] - start[1]) / BETWEEN_SAMPLES))
    parts = (index / count for index in range(count + 1))
    return tuple(
        (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part) for part in parts
    )
