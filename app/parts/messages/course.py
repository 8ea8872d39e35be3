"""What is told of a course: primers and their figures, and where a student stands."""

from typing import TypedDict

from app.parts.messages.shared import Choice

Pair = tuple[float, float]


class PanelWords(TypedDict):
    """A part of a figure: what of the plane is seen, whether it is the chart, and what runs across."""

    key: str
    left: float
    right: float
    bottom: float
    top: float
    round: bool
    across: str


class MarkWords(TypedDict):
    """Something drawn in a panel: a point, or a line through points."""

    panel: str
    kind: str
    role: str
    label: str
    points: list[Pair]


class PoseWords(TypedDict):
    """A figure with the hand in one place: the point in hand, what follows from it, and the same in words."""

    hand: MarkWords
    marks: list[MarkWords]
    said: str


class FigureWords(TypedDict):
    """A figure with all its poses."""

    title: str
    holds: str
    panels: list[PanelWords]
    still: list[MarkWords]
    poses: list[PoseWords]
    start: int


class PrimerWords(TypedDict):
    """What stands before a lesson. `key` is that by which it was asked for."""

    key: str
    title: str
    paragraphs: list[str]
    figure: FigureWords | None


class WeakStep(TypedDict):
    """A step that went wrong: how often, in words, and the query that drills it."""

    lesson: str
    title: str
    said: str
    query: str


class LessonStanding(TypedDict):
    """Where a student stands in a lesson, and the queries that open it, or a fresh problem of it.

    `state` is new, begun, solid or due; `said` the same in a sentence."""

    key: str
    title: str
    purpose: str
    needs: list[Choice]
    state: str
    sign: str
    word: str
    said: str
    query: str
    fresh: str
    primer: str
    weak: list[WeakStep]


class CoursePage(TypedDict):
    """All that the course page shows: the lessons, the steps to drill first, and what could not be read."""

    lead: list[str]
    lessons: list[LessonStanding]
    weak: list[WeakStep]
    faults: list[str]
    known: bool
    caution: str


class TablePart(TypedDict):
    """Rows of the table of all that was done; `last` where no more come."""

    text: str
    last: bool
