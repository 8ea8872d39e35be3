"""Teaching, from a script or a notebook: a course's own grader, simulated students, a look at what is taught.

>>> from lessons import catalogue, check_lines, open_sheet
>>> lesson = catalogue().find("shunt-stub")
>>> lesson.key, [given.key for given in lesson.givens][:2]
('shunt-stub', ['load', 'line'])
>>> sheet = open_sheet(lesson, {"load": "60-80j", "line": "50"})
>>> sheet = sheet.enter("normalise", "1.2 - 1.6j")
>>> sheet.verdicts["normalise"].judgement
'right'
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from lessons.course.catalogue import CATALOGUE
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.homework.working import Working
from lessons.problems.texts import keys_of, read_problem
from lessons.saved.notations import notation_from
from lessons.saved.records import sheet_record
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet

__all__ = ["BadGivens", "CheckedLine", "KeptSheet", "catalogue", "check_lines", "open_sheet"]


class BadGivens(ValueError):
    """Givens or a notation with faults; the message has one sentence for each, `.faults` has them by key."""

    def __init__(self, faults: Mapping[str, str]) -> None:
        super().__init__(" ".join(f"{key}: {sentence}" for key, sentence in faults.items()))
        self.faults = dict(faults)


class KeptSheet(Sheet):
    """A sheet that can say all that is kept of it."""

    def record(self) -> dict[str, Any]:
        """The sheet as plain data for JSON: its problem, notation, entries, hints and every attempt."""
        return sheet_record(self)


@dataclass(frozen=True)
class CheckedLine:
    """A value in a line of someone's own working.

    line : number of the line, from 1.  written : the value's part of it.  field : key of the field it answers, "" where
    it names none.  value : what was read, None if nothing could be.  verdict : None where it names no field.
    reason : the sentence why it was not read, or ""."""

    line: int
    written: str
    field: str = ""
    value: Any = None
    verdict: Verdict | None = None
    reason: str = ""


def catalogue() -> Catalogue:
    """The lessons in the order of the course, each with `.key`, `.title` and `.givens`."""
    return CATALOGUE


def open_sheet(
    lesson: Lesson | str, givens: Mapping[str, str], notation: Mapping[str, str] | None = None
) -> KeptSheet:
    """A clean sheet of a problem.

    lesson : a lesson of the catalogue, or its key.  givens : texts as a form takes them; those left out have their
    usual values.  notation : texts as in a link, such as `{"admittance": "overlay"}`.
    Raises KeyError for an unknown lesson, BadGivens for texts that cannot be used."""
    found, problem, written = _opened(lesson, givens, notation)
    return KeptSheet(found, problem, written)


def check_lines(
    lesson: Lesson | str, givens: Mapping[str, str], text: str, notation: Mapping[str, str] | None = None
) -> list[CheckedLine]:
    """Every value in every line of someone's own working with its verdict, in the order of the lines.

    Arguments and errors as for `open_sheet`; raises TooLong for a text of more than 20,000 characters."""
    found, problem, written = _opened(lesson, givens, notation)
    working = Working(found, problem, written).written(text)
    read = [
        CheckedLine(
            line.statement.line,
            line.statement.written,
            line.key,
            line.verdict.value,
            line.verdict,
            line.verdict.sentence if line.unread else "",
        )
        for line in working.lines
    ]
    taken = {(line.line, line.written) for line in read}
    unread = [
        CheckedLine(one.line, one.written, reason=one.reason)
        for one in working.unread
        if (one.line, one.written) not in taken
    ]
    return sorted([*read, *unread], key=lambda one: one.line)


def _opened(
    lesson: Lesson | str, givens: Mapping[str, str], notation: Mapping[str, str] | None
) -> tuple[Lesson, Problem, Notation]:
    found = CATALOGUE.find(lesson) if isinstance(lesson, str) else lesson
    if found is None:
        raise KeyError(lesson)
    reading = read_problem(givens, found)
    written, wrong = notation_from(notation or {}, found.symbols)
    unknown = {
        key: f"The lesson has no such given; it has {', '.join(one.key for one in found.givens)}."
        for key in givens
        if key not in keys_of(found)
    }
    if faults := {**reading.faults, **wrong, **unknown}:
        raise BadGivens(faults)
    return found, reading.problem, written
