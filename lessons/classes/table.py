"""The marks as a table: a row for each student and step, in comma-separated values."""

from __future__ import annotations

from collections.abc import Iterator

from lessons.classes.marks import ClassMarks, MarkedSheet, Student
from lessons.classes.replay import StepMarks
from lessons.saved.spreadsheet import separated

COLUMNS = (
    "name", "file", "saved", "set version", "problem", "lesson", "step", "title", "done", "right", "right first time",
    "tries", "slips", "slip names", "wrong without a slip", "hints", "reveals", "shown", "carried", "follows", "points",
)  # fmt: skip


def marks_csv(marks: ClassMarks) -> str:
    """The whole table."""
    width = len(COLUMNS) if marks.set.points else len(COLUMNS) - 1
    return separated(row[:width] for row in (COLUMNS, *_rows(marks)))


def _rows(marks: ClassMarks) -> Iterator[tuple[str, ...]]:
    for student in marks.students:
        for sheet in student.sheets:
            for step in sheet.replay.steps:
                yield (*_who(student, sheet), *_what(step), _points(marks, step))


def _who(student: Student, sheet: MarkedSheet) -> tuple[str, ...]:
    saved = student.saved.isoformat().replace("+00:00", "Z") if student.saved else ""
    return (
        student.name,
        student.file,
        saved,
        str(student.version),
        sheet.item.problem.key,
        sheet.item.lesson.key,
    )


def _what(step: StepMarks) -> tuple[str, ...]:
    names = "; ".join(dict.fromkeys(one.slip for one in step.slips))
    return (
        step.step.key, step.step.title, _yes(step.done), _yes(step.right), _yes(step.first_time), str(step.tries),
        str(len(step.slips)), names, str(step.unnamed), str(step.hints), str(step.reveals), _yes(step.shown),
        str(step.carried), _yes(step.follows),
    )  # fmt: skip


def _points(marks: ClassMarks, step: StepMarks) -> str:
    return f"{step.points(marks.set.points):g}" if marks.set.points else ""


def _yes(value: bool | None) -> str:
    return "" if value is None else "yes" if value else "no"
