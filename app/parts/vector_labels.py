"""Where the labels of drawn strokes stand on paper: each tries some places and takes the one that covers least.

Readings of the scales and lengths along the rim stand in the free lane of the scales, along it; all others stand on
the chart, upright, with a halo.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, degrees, pi, sin

import numpy as np

from app.parts.lettering import lettered, lettered_width
from app.parts.printed_chart.layouts import PRINT
from app.parts.printed_chart.marks import Label
from app.parts.vector import Look, element, number
from app.parts.vector_chart import DROP, INK, Place, turned
from app.parts.vector_looks import SIGNS, Spot, ink_of
from app.parts.vector_strokes import Drawn
from core.checks import Array

LETTERS = 2.75
HALO, PATCH_EDGE = 1.0, 0.22
COST = {"label": 1000.0, "edge": 2000.0, "marker": 300.0, "rim": 40.0, "line": 1.0}
MARKER_SIZE, LINE_SIZE = 3.0, 0.8
LANE_NAMES = (("to generator →", 135), ("to generator →", 45), ("to load →", 225), ("to load →", 315))
NAME_HALF = 0.14  # radians of the lane that half a name covers
INSIDE = 0.985  # labels keep off the numbers at the rim


Covered = tuple[float, float]  # angle, and half the angle that something covers of the lane


@dataclass(frozen=True)
class Box:
    """A rectangle on the page by its middle and its sides."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class Obstacles:
    """What a label should not cover: markers, and places on lines; one place a row."""

    markers: Array
    lines: Array


def labels(drawings: Sequence[Drawn], place: Place) -> str:
    """The labels of all strokes that have one, and in the lane, where there is room, which way each scale runs."""
    named = [one for one in drawings if label_of(one)]
    in_lane, taken = _in_lane([one for one in named if one.lane], place)
    written = element("g", *in_lane, *_on_chart(named, drawings, place), class_="labels") if named else ""
    return element("g", *_scale_names(place, taken), class_="names", fill=INK) + written


def label_of(one: Drawn) -> str:
    """The name of a stroke with its value, or whichever of the two it has; a walk bears the sign of its solution."""
    name, value, role = one.wire["label"], one.wire["value"], one.wire["role"]
    said = f"{name} = {value}" if name and value else name or value
    return f"{SIGNS[role]} {said}" if said and one.wire["kind"] == "way" and role in SIGNS else said


# --- in the free lane ----------------------------------------------------------------------------------------------


def _in_lane(named: Sequence[Drawn], place: Place) -> tuple[list[str], list[Covered]]:
    """Labels along the lane, rays first, as they can stand in few places; and what they cover of it."""
    taken: list[Covered] = []
    written = []
    for one in sorted(named, key=lambda one: len(one.lane)):
        width = lettered_width(label_of(one), LETTERS, bold=True) + 1.2
        half = width / 2 / (PRINT.names * place.radius)
        spots = [angle + side * (half + 0.01) for angle, side in one.lane]
        angle = min(spots, key=lambda spot: _crowd(spot, half, taken))
        taken.append((angle, half))
        written.append(_patched(one, place, angle, width))
    return written, taken


def _scale_names(place: Place, taken: Sequence[Covered]) -> list[str]:
    """Read from left to right, a name's arrow shows the way in which its scale is walked."""
    written = []
    for name, degree in LANE_NAMES:
        spots = [(degree + away * sense) * pi / 180 for away in range(0, 44, 4) for sense in (1, -1)]
        angle = min(spots, key=lambda spot: _crowd(spot, NAME_HALF, taken))
        rotation = angle + (-pi / 2 if degree < 180 else pi / 2)
        written.append(turned(place, Label(angle, PRINT.names, name, rotation, "major")))
    return written


def _crowd(angle: float, half: float, taken: Sequence[Covered]) -> int:
    return sum(_apart(angle, other) < half + width for other, width in taken)


def _apart(one: float, other: float) -> float:
    return abs((one - other + pi) % (2 * pi) - pi)


def _patched(one: Drawn, place: Place, angle: float, width: float) -> str:
    """A label on a patch with a border, along the lane, its letters upright in either half."""
    x, y = place.at(PRINT.names * complex(cos(angle), sin(angle)))
    turn = 90 - degrees(angle) if sin(angle) > -1e-9 else -90 - degrees(angle)
    ink, height = ink_of(one.wire["role"]), 1.15 * LETTERS
    return element(
        "g",
        element(
            "rect",
            x=-width / 2,
            y=-height / 2,
            width=width,
            height=height,
            rx=0.6,
            fill="#fff",
            stroke=ink,
            stroke_width=PATCH_EDGE,
        ),
        lettered(
            0, DROP * LETTERS, label_of(one), LETTERS, fill=ink, text_anchor="middle", font_weight="600"
        ),
        transform=f"translate({number(x)} {number(y)}) rotate({number(turn)})",
    )


# --- on the chart --------------------------------------------------------------------------------------------------


def _on_chart(named: Sequence[Drawn], drawings: Sequence[Drawn], place: Place) -> list[str]:
    obstacles = Obstacles(
        np.array([one.marker for one in drawings if one.marker]).reshape(-1, 2),
        np.array([spot for one in drawings for spot in one.samples]).reshape(-1, 2),
    )
    taken: list[Box] = []
    written = []
    for one in named:
        if one.anchors:
            size = (lettered_width(label_of(one), LETTERS, bold=True) + 0.4, 1.3 * LETTERS)
            boxes = [_box(anchor, size) for anchor in one.anchors]
            box = min(boxes, key=lambda box: _cost(box, place, obstacles, taken))
            taken.append(box)
            written.append(_haloed(one, box))
    return written


def _box(anchor: tuple[Spot, Spot, float], size: Spot) -> Box:
    """The box that stands beside a place, off in a direction: by a corner or a side, or along a curve's normal."""
    (x, y), (right, down), distance = anchor
    width, height = size
    if {right, down} <= {-1, 0, 1}:
        return Box(x + right * (distance + width / 2), y + down * (distance + height / 2), width, height)
    off = distance + (abs(right) * width + abs(down) * height) / 2
    return Box(x + right * off, y + down * off, width, height)


def _cost(box: Box, place: Place, obstacles: Obstacles, taken: Sequence[Box]) -> float:
    others = np.array([(one.x, one.y) for one in taken]).reshape(-1, 2)
    sizes = np.array([(one.width, one.height) for one in taken]).reshape(-1, 2)
    return (
        COST["label"] * _covered(box, others, sizes)
        + COST["marker"] * _covered(box, obstacles.markers, MARKER_SIZE)
        + COST["line"] * _covered(box, obstacles.lines, LINE_SIZE)
        + COST["rim"] * _corners_outside(box, place)
        + COST["edge"] * (abs(box.x - place.x) + box.width / 2 > place.extent)
    )


def _covered(box: Box, spots: Array, size: Array | float) -> int:
    """How many boxes of a size about these places the box touches."""
    apart = np.abs(spots - (box.x, box.y))
    return int(np.sum(np.all(apart < (np.array((box.width, box.height)) + size) / 2, axis=1)))


def _corners_outside(box: Box, place: Place) -> int:
    right = box.x - place.x + np.array((-1, 1, -1, 1)) * box.width / 2
    down = box.y - place.y + np.array((-1, -1, 1, 1)) * box.height / 2
    return int(np.sum(np.hypot(right, down) > INSIDE * place.radius))


def _haloed(one: Drawn, box: Box) -> str:
    """The words twice, below in a broad white line, since not every program knows which to paint first."""
    look: Look = {"text_anchor": "middle", "font_weight": "600"}
    white: Look = {"fill": "#fff", "stroke": "#fff", "stroke_width": HALO, "stroke_linejoin": "round"}
    said, y = label_of(one), box.y + DROP * LETTERS
    halo = lettered(box.x, y, said, LETTERS, aria_hidden="true", **look, **white)
    return halo + lettered(box.x, y, said, LETTERS, fill=ink_of(one.wire["role"]), **look)
