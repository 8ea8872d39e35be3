"""Strokes and gestures in the places where they are plotted, as plain dictionaries for the browser.

This is the only module that asks where something read as an admittance stands: with the half turn there is one grid,
and it stands at minus its reflection; with the overlay it stays, under a second, dotted grid.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import singledispatch
from typing import Any, TypeGuard

import numpy as np

from core.chart import Arc, Circle, rim_position
from core.line import admittance_from_reflection, impedance_from_reflection
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import (
    Curve,
    DragAlong,
    DragRadius,
    Gesture,
    HalfTurn,
    PickPoint,
    PlacePoint,
    Point,
    PointOnCircle,
    Ray,
    Reading,
    Region,
    Stroke,
    WalkCircle,
    Way,
    plotted_at,
)

Wire = dict[str, Any]
Told = Callable[[complex, str], bool]
"""Whether the "impedance", "admittance" or "reflection" of a point may be told; it is given the reflection."""
UNTOLD = "…"


@dataclass(frozen=True)
class Group:
    """The strokes of one step. The current step is drawn at full strength, earlier ones calm."""

    key: str
    strokes: tuple[Stroke, ...]
    current: bool = False


def plotted(strokes: Iterable[Stroke], admittance: str) -> list[Wire]:
    """Strokes as the browser draws them: coordinates of the chart, with role, label, value and spoken text.

    admittance : "half turn" or "overlay", as `Notation.admittance`."""
    return [
        {
            "role": one.role,
            "label": one.label,
            "value": one.value,
            "spoken": one.spoken,
            **_shape(one, admittance),
        }
        for one in strokes
    ]


def plotted_groups(groups: Iterable[Group], admittance: str) -> list[Wire]:
    """Groups of strokes as the browser draws them."""
    return [
        {"key": group.key, "current": group.current, "strokes": plotted(group.strokes, admittance)}
        for group in groups
    ]


def plotted_gesture(gesture: Gesture, admittance: str) -> Wire:
    """A gesture as the browser carries it out; `turned` says that points stand at minus their reflection."""
    turned = plotted_at(1 + 0j, gesture.read_as, admittance).real < 0
    return {"read_as": gesture.read_as, "turned": turned, **_task(gesture, admittance)}


Answer = complex | float | str


def drawn_answer(value: object, gesture: Gesture, admittance: str) -> Answer | None:
    """What a browser has drawn in answer to a gesture, or None where it is not an answer that this gesture can give.

    The reflection on the line (a complex number) for a point, |reflection| for a radius, wavelengths walked (above
    zero toward the generator) for a way, the key of a point picked.

    admittance : how admittance was plotted where it was drawn."""
    match gesture:
        case PlacePoint() | PointOnCircle() | WalkCircle():
            if isinstance(value, list) and len(value) == 2 and all(_is_number(part, 1.0) for part in value):
                point = complex(*value)
                return unplotted(point / max(abs(point), 1.0), gesture.read_as, admittance)
        case DragRadius():
            return value if _is_number(value, 1.0) and value >= 0 else None
        case DragAlong():
            return value if _is_number(value, 0.5) else None
        case PickPoint(points=points):
            return value if isinstance(value, str) and value in dict(points) else None
    return None


def _is_number(value: object, size: float) -> TypeGuard[float]:
    """Whether a number of at most this size came; nan is not at most anything."""
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= size + 1e-9


def unplotted(point: complex, read_as: Reading, admittance: str) -> complex:
    """Reflection on the line of a point of the chart: the inverse of where it is plotted."""
    return plotted_at(point, read_as, admittance)


def points_table(
    groups: Iterable[Group], notation: Notation, told: Told = lambda reflection, what: True
) -> list[list[str]]:
    """Rows of the table of points: name, z, y, |reflection|, angle, and the reading toward the generator beside it.

    What may not be told has an ellipsis in its place."""
    points = [one for group in groups for one in group.strokes if isinstance(one, Point)]
    return [_row(one, notation, told) for one in dict.fromkeys(points)]


def _row(point: Point, notation: Notation, told: Told) -> list[str]:
    at, reflection = plotted_at(point.reflection, point.read_as, notation.admittance), point.reflection
    place = [
        notation.number(abs(reflection)),
        notation.angle_of(float(np.angle(at))) if reflection else "",
        (notation.wavelengths(float(rim_position(at))) if told(at, "reading") else UNTOLD)
        if reflection
        else "",
    ]
    return [
        point.label.replace("_", " "),
        notation.rectangular(impedance_from_reflection(reflection))
        if told(reflection, "impedance")
        else UNTOLD,
        notation.rectangular(admittance_from_reflection(reflection))
        if told(reflection, "admittance")
        else UNTOLD,
        *(place if told(reflection, "reflection") else [UNTOLD] * len(place)),
    ]


@singledispatch
def _shape(stroke: Stroke, admittance: str) -> Wire:
    raise TypeError(f"There is no way to draw a {type(stroke).__name__}.")


@_shape.register
def _(stroke: Point, admittance: str) -> Wire:
    return {"kind": "point", "at": _pair(plotted_at(stroke.reflection, stroke.read_as, admittance))}


@_shape.register
def _(stroke: Curve, admittance: str) -> Wire:
    return {"kind": "curve", **_circle(stroke.circle, stroke.read_as, admittance)}


@_shape.register
def _(stroke: Way, admittance: str) -> Wire:
    return {"kind": "way", **_arc(stroke.arc, stroke.read_as, admittance)}


@_shape.register
def _(stroke: HalfTurn, admittance: str) -> Wire:
    start = plotted_at(stroke.reflection, "impedance", admittance)
    end = plotted_at(stroke.reflection, "admittance", admittance)
    return (
        {"kind": "ring", "at": _pair(end)}
        if start == end
        else {"kind": "cross", "from": _pair(start), "to": _pair(end)}
    )


@_shape.register
def _(stroke: Ray, admittance: str) -> Wire:
    return {"kind": "ray", "at": _pair(plotted_at(stroke.reflection, stroke.read_as, admittance))}


@_shape.register
def _(stroke: Region, admittance: str) -> Wire:
    return {"kind": "region", "inside": stroke.inside, **_circle(stroke.circle, stroke.read_as, admittance)}


@singledispatch
def _task(gesture: Gesture, admittance: str) -> Wire:
    raise TypeError(f"There is no way to carry out a {type(gesture).__name__}.")


@_task.register
def _(gesture: PlacePoint, admittance: str) -> Wire:
    return {"kind": "place"}


@_task.register
def _(gesture: PointOnCircle, admittance: str) -> Wire:
    return {"kind": "on circle", **_circle(gesture.circle, gesture.read_as, admittance)}


@_task.register
def _(gesture: DragRadius, admittance: str) -> Wire:
    return {"kind": "radius"}


@_task.register
def _(gesture: DragAlong, admittance: str) -> Wire:
    return {"kind": "along", "start": _pair(plotted_at(gesture.start, gesture.read_as, admittance))}


@_task.register
def _(gesture: WalkCircle, admittance: str) -> Wire:
    start = _pair(plotted_at(gesture.start, gesture.read_as, admittance))
    return {"kind": "along circle", "start": start, **_circle(gesture.circle, gesture.read_as, admittance)}


@_task.register
def _(gesture: PickPoint, admittance: str) -> Wire:
    return {
        "kind": "pick",
        "points": [
            [key, *_pair(plotted_at(point, gesture.read_as, admittance))] for key, point in gesture.points
        ],
    }


def _circle(circle: Circle, read_as: Reading, admittance: str) -> Wire:
    return {"center": _pair(plotted_at(circle.center, read_as, admittance)), "radius": float(circle.radius)}


def _arc(arc: Arc, read_as: Reading, admittance: str) -> Wire:
    """An arc in its place: a half turn about the centre of the chart turns its angles by as much."""
    turn = float(np.angle(plotted_at(1 + 0j, read_as, admittance)))
    return {**_circle(arc.circle, read_as, admittance), "start": arc.start + turn, "sweep": float(arc.sweep)}


def _pair(point: complex) -> list[float]:
    return [float(point.real), float(point.imag)]


__all__: Sequence[str] = (
    "Answer",
    "Group",
    "drawn_answer",
    "plotted",
    "plotted_gesture",
    "plotted_groups",
    "points_table",
    "unplotted",
)
