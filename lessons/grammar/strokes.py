"""What a step draws, and what a student may draw to answer it: plain data with a role, no colours, no positions.

A stroke stores the reflection coefficient on the line (that of the impedance) and says whether the point is read as an
impedance or as an admittance. Where that is plotted depends on how the course shows admittance, and only the chart
decides it, by `plotted_at`: with the half turn, what is read as an admittance stands at minus its reflection; with the
overlay, it stays. The label names the thing; its value, where it is to be shown, stands behind it: "label = value".
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from core.chart import Arc, Circle, rim_position

Role = Literal["load", "mismatch", "unit", "near", "far", "construction"]
Reading = Literal["impedance", "admittance"]


@dataclass(frozen=True)
class Point:
    """A point with its marker; the label stands beside it."""

    reflection: complex
    role: Role
    read_as: Reading
    label: str
    spoken: str
    value: str = ""


@dataclass(frozen=True)
class Curve:
    """A whole circle, labelled on its line."""

    circle: Circle
    role: Role
    read_as: Reading
    label: str
    spoken: str
    value: str = ""


@dataclass(frozen=True)
class Way:
    """A walk along a circle, from its first point to its last with an arrowhead there; the label at its middle."""

    arc: Arc
    role: Role
    read_as: Reading
    label: str
    spoken: str
    value: str = ""


@dataclass(frozen=True)
class HalfTurn:
    """The move from an impedance to its admittance: across the centre, or a change of grid at the same point."""

    reflection: complex
    role: Role
    label: str
    spoken: str
    value: str = ""


@dataclass(frozen=True)
class Ray:
    """A line from the centre through a point to the scales at the rim; the label is the reading there."""

    reflection: complex
    role: Role
    read_as: Reading
    label: str
    spoken: str
    value: str = ""


def plotted_at(reflection: complex, read_as: Reading, admittance: str) -> complex:
    """Where a point stands on the chart of a course that shows admittance by "half turn" or by "overlay".

    It is its own inverse."""
    return -reflection if read_as == "admittance" and admittance == "half turn" else reflection


def scale_reading(reflection: complex, read_as: Reading, admittance: str) -> float:
    """Reading beside the point on the scale of wavelengths toward the generator."""
    return float(rim_position(plotted_at(reflection, read_as, admittance)))


Stroke = Point | Curve | Way | HalfTurn | Ray


@dataclass(frozen=True)
class PlacePoint:
    """Gesture: put a point anywhere on the chart. It answers with a reflection."""

    read_as: Reading


@dataclass(frozen=True)
class PointOnCircle:
    """Gesture: put a point on a given circle. It answers with a reflection."""

    circle: Circle
    read_as: Reading


@dataclass(frozen=True)
class DragRadius:
    """Gesture: open a circle about the centre. It answers with its radius, |reflection|."""

    read_as: Reading = "impedance"


@dataclass(frozen=True)
class DragAlong:
    """Gesture: walk along a circle about the centre from `start`, either way round.

    It answers with wavelengths walked, above zero toward the generator (clockwise)."""

    start: complex
    read_as: Reading


@dataclass(frozen=True)
class PickPoint:
    """Gesture: choose one of some named points of the chart. It answers with the point's key."""

    points: tuple[tuple[str, complex], ...]
    read_as: Reading


Gesture = PlacePoint | PointOnCircle | DragRadius | DragAlong | PickPoint
