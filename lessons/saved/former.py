"""What a record made for a former state of a lesson says to today's: fields that moved, and steps that became one.

A field that is now asked of the picked solution alone was once asked of each: the answer of the picked one moves to its
place of today, and those of the others are laid aside with the sheet, so that nothing is lost.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.working.attempts import Attempt, Entry
from lessons.working.sheet import Sheet


@dataclass(frozen=True)
class Moved:
    """Today's keys by the former ones: of fields with their answers, and of steps whose hints are those of today's."""

    fields: Mapping[str, str]
    steps: Mapping[str, str]

    def attempt(self, one: Attempt) -> Attempt:
        """The same done to what is there today."""
        at = (self.steps if one.doing == "hint" else self.fields).get(one.at, one.at)
        return Attempt(one.doing, at, one.text)


def former_fields(lesson: Lesson, problem: Problem) -> set[str]:
    """Every key that a field of this problem had."""
    return {old for step in lesson.steps_of(problem) for one in step.fields for old in one.formerly.values()}


def moved(lesson: Lesson, problem: Problem, entries: Mapping[str, Entry], hints: Mapping[str, int]) -> Moved:
    """What of these entries and hints has a place today; of steps that became one, the one with the most hints has."""
    picked, fields, steps = _picked(lesson, problem, entries), {}, {}
    for step in lesson.steps_of(problem):
        most = max((one for one in step.formerly if one in hints), key=lambda one: hints[one], default=None)
        if most is not None:
            steps[most] = step.key
        for one in step.fields:
            old = one.formerly.get(picked, "")
            if old in entries and one.key not in entries:
                fields[old] = one.key
    return Moved(fields, steps)


def _picked(lesson: Lesson, problem: Problem, entries: Mapping[str, Entry]) -> str:
    """Key of the solution that was picked, "" where none is known to be."""
    picking = lesson.picking_field
    if problem.solution or picking is None or picking.key not in entries:
        return problem.solution
    work = Work(lesson, problem)
    try:
        return str(picking.kind(work).read(entries[picking.key].text, work.notation))
    except Unreadable:
        return ""


def laid_aside(sheet: Sheet) -> str:
    """What is kept with a sheet though it is asked no longer, in a sentence; "" where nothing is."""
    said = "; ".join(_said(sheet))
    if not said:
        return ""
    return f"This sheet was begun when more was asked. Kept with it, though asked no longer: {said}."


def _said(sheet: Sheet) -> Iterator[str]:
    for step in sheet.steps:
        for one in step.fields:
            for key, old in one.formerly.items():
                branch = sheet.lesson.branch(key)
                if branch and old in sheet.aside and sheet.aside[old].text:
                    yield f"{branch.named('solution')}, {sheet.work.say(one.label).lower()}, {sheet.aside[old].text}"
