"""What a class has not understood: its steps and its slips, the worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from lessons.classes.marks import ClassMarks, MarkedSheet, Student
from lessons.classes.replay import Made, StepMarks
from lessons.grammar.lesson import Lesson, Step

BEST = 3
SURE = ("You are", "This looks like", "This may be")
"""How the tutor opens what it says of a slip, the surest first."""
Outcome = Literal["first", "later", "helped", "carried", "open"]
OUTCOMES: tuple[Outcome, ...] = ("first", "later", "helped", "carried", "open")


@dataclass(frozen=True)
class StepTally:
    """A step of a lesson over all sheets on which it is asked. counts : how many of them came out how."""

    lesson: Lesson
    step: Step
    counts: Counter[Outcome]

    @property
    def sheets(self) -> int:
        """On how many it is asked."""
        return self.counts.total()

    @property
    def stumbled(self) -> int:
        """On how many it was not right at once."""
        return self.sheets - self.counts["first"]


@dataclass(frozen=True)
class Shown:
    """A sheet on which a slip is to be seen. times : how often it was made there."""

    student: Student
    sheet: MarkedSheet
    made: Made
    times: int


@dataclass(frozen=True)
class SlipTally:
    """A slip over the whole class. doing : what it is.  steps : where it was made.  best : what shows it best."""

    slip: str
    doing: str
    steps: tuple[str, ...]
    times: int
    students: int
    best: tuple[Shown, ...]


def outcome(marks: StepMarks) -> Outcome:
    """How a step came out: the one thing that an instructor wants to know of it."""
    if not marks.done:
        return "open"
    if marks.carried or not marks.right or marks.follows:
        return "carried"
    if marks.shown or marks.hints or marks.reveals:
        return "helped"
    return "later" if marks.first_time is False else "first"


def steps_of(marks: ClassMarks) -> tuple[StepTally, ...]:
    """The steps, those first at which most of their sheets were not right at once."""
    counts: dict[tuple[str, str], Counter[Outcome]] = {}
    known: dict[tuple[str, str], tuple[Lesson, Step]] = {}
    for _, sheet in _sheets(marks):
        lesson = sheet.replay.sheet.lesson
        for one in sheet.replay.steps:
            key = (lesson.key, one.step.key)
            known.setdefault(key, (lesson, one.step))
            counts.setdefault(key, Counter())[outcome(one)] += 1
    tallies = [StepTally(*known[key], counts[key]) for key in counts]
    return tuple(sorted(tallies, key=lambda one: (-one.stumbled / one.sheets, -one.stumbled)))


def slips_of(marks: ClassMarks) -> tuple[SlipTally, ...]:
    """The slips, those first that most students made, then those that were made most often."""
    found: dict[tuple[str, str], list[tuple[Student, MarkedSheet, Made]]] = {}
    for student, sheet in _sheets(marks):
        for step in sheet.replay.steps:
            for made in step.slips:
                found.setdefault((made.slip, made.method), []).append((student, sheet, made))
    tallies = [_tally(key[0], met) for key, met in found.items()]
    return tuple(sorted(tallies, key=lambda one: (-one.students, -one.times, one.slip)))


def _tally(slip: str, met: list[tuple[Student, MarkedSheet, Made]]) -> SlipTally:
    by_sheet: dict[int, list[tuple[Student, MarkedSheet, Made]]] = {}
    for one in met:
        by_sheet.setdefault(id(one[1]), []).append(one)
    shown = [
        Shown(student, sheet, made, len(by_sheet[id(sheet)]))
        for student, sheet, made in (min(each, key=lambda one: _doubt(one[2])) for each in by_sheet.values())
    ]
    ranked = sorted(shown, key=lambda one: (_doubt(one.made), -one.times, one.student.name.casefold()))
    return SlipTally(
        slip=slip,
        doing=met[0][2].doing,
        steps=tuple(dict.fromkeys(made.step.title for _, _, made in met)),
        times=len(met),
        students=len({student.file for student, _, _ in met}),
        best=tuple(_one_each(ranked))[:BEST],
    )


def _one_each(ranked: list[Shown]) -> Iterator[Shown]:
    """One sheet of each student first, so that three sheets show more than one hand; then the rest."""
    seen: set[str] = set()
    rest = []
    for one in ranked:
        if one.student.file in seen:
            rest.append(one)
        else:
            seen.add(one.student.file)
            yield one
    yield from rest


def _doubt(made: Made) -> int:
    """How unsure the tutor was that it is this slip."""
    return next((place for place, words in enumerate(SURE) if made.sentence.startswith(words)), len(SURE))


def _sheets(marks: ClassMarks) -> Iterator[tuple[Student, MarkedSheet]]:
    for student in marks.students:
        for sheet in student.sheets:
            yield student, sheet
