"""Where a student stands in the course: what is solid, what is due, and which steps keep going wrong."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson
from lessons.working.progress import Progress
from lessons.working.tally import Summary, Tried, tried

State = Literal["new", "begun", "solid", "due"]


@dataclass(frozen=True)
class Standing:
    """One lesson. begun, solved : problems of which a sheet is kept, drills left out.

    weak : its steps that went wrong in the last times, the one that did so most first."""

    lesson: Lesson
    progress: Progress
    state: State
    begun: int
    solved: int
    weak: tuple[Tried, ...]


def standings(
    catalogue: Catalogue,
    mastery: Mapping[str, Progress],
    sheets: Sequence[Summary],
    today: date | None = None,
) -> tuple[Standing, ...]:
    """Each lesson in the order of the course.

    mastery : by the key of the lesson.  sheets : the kept ones, oldest first: what goes wrong in a drill counts, what
    is solved in one does not."""
    weak = tried(sheets)
    return tuple(
        _standing(lesson, mastery.get(lesson.key, Progress()), sheets, weak, today) for lesson in catalogue
    )


def _standing(
    lesson: Lesson,
    progress: Progress,
    sheets: Iterable[Summary],
    weak: Iterable[Tried],
    today: date | None,
) -> Standing:
    own = [sheet for sheet in sheets if sheet.lesson is lesson and sheet.begun and not sheet.drilled]
    return Standing(
        lesson,
        progress,
        _state(progress, bool(own), today),
        len(own),
        sum(sheet.solved for sheet in own),
        tuple(one for one in weak if one.lesson is lesson),
    )


def _state(progress: Progress, begun: bool, today: date | None) -> State:
    if progress.mastered:
        return "due" if progress.review_is_due(today) else "solid"
    return "begun" if begun or progress.worked or progress.run else "new"
