"""A problem that its lesson refuses: what can be shown of it all the same, up to where it ends."""

from __future__ import annotations

from dataclasses import replace

from lessons.grammar.lesson import Impossible, Lesson, Problem, Step, Work
from lessons.working.sheet import Sheet


def steps_before_the_end(lesson: Lesson, problem: Problem) -> tuple[Step, ...]:
    """The leading steps that have values and drawings before the derivation divides into its solutions."""
    work, found = Work(lesson, problem), []
    for step in lesson.steps_of(problem):
        if not _has_values(step, work):
            break
        found.append(step)
    return tuple(found)


def worked_to_the_end(sheet: Sheet) -> Sheet:
    """The sheet of a refused problem with those steps worked by the tutor; any other sheet as it is."""
    if not sheet.lesson.refuses(sheet.problem):
        return sheet
    steps = steps_before_the_end(sheet.lesson, sheet.problem)
    return replace(Sheet(sheet.lesson, sheet.problem, sheet.notation), shown=len(steps))


def _has_values(step: Step, work: Work) -> bool:
    try:
        for one in step.fields:
            work[one.key]
            tuple(one.strokes(work))
    except (Impossible, ArithmeticError, ValueError):
        return False
    return not any(one.branch for one in step.fields)
