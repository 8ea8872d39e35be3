"""A figure of a primer: a picture with one thing in it that a hand moves, and what follows from where it is held.

A figure says one thing. What follows is computed beforehand, by `core`, for every place the hand can be at: who shows
the figure turns from one pose to the next and knows no physics. Coordinates are complex numbers, in units of a panel.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from lessons.grammar.branch import Role
from lessons.grammar.notation import Notation


@dataclass(frozen=True)
class Panel:
    """A part of the picture. round : whether it is the reflection chart, with its rim, its axis and what `grid` names.

    left, right, bottom, top : what of the plane is seen.  across : what runs from left to right, in words, or ""."""

    key: str
    left: float
    right: float
    bottom: float
    top: float
    round: bool = False
    across: str = ""


CHART = Panel("chart", -1.2, 1.2, -1.2, 1.2, round=True)


@dataclass(frozen=True)
class Dot:
    """A point with its marker; the label stands beside it."""

    panel: str
    at: complex
    role: Role
    label: str = ""


@dataclass(frozen=True)
class Trace:
    """A line through points; the label stands beside its middle, or its end where it has an arrowhead."""

    panel: str
    points: tuple[complex, ...]
    role: Role
    label: str = ""
    ends: Literal["", "arrow", "area"] = ""


Mark = Dot | Trace


@dataclass(frozen=True)
class Pose:
    """The figure with the hand in one place. hand : what is held.  marks : what follows.  said : the same in words."""

    hand: Dot
    marks: tuple[Mark, ...]
    said: str


@dataclass(frozen=True)
class Figure:
    """title : what it shows, as a question or a sentence.  holds : what is moved, as a label.

    places : where the hand can be, in order.  start : index of the one where it is at first.
    still : what stays as it is.  pose : all that follows from a place."""

    title: str
    holds: str
    panels: tuple[Panel, ...]
    places: Sequence[float]
    pose: Callable[[float, Notation], Pose]
    still: Callable[[Notation], tuple[Mark, ...]] = lambda notation: ()
    start: int = 0
