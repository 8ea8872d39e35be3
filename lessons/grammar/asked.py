"""What is asked where a problem asks for one solution alone."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any, TypeVar, cast

from lessons.grammar.branch import Branch
from lessons.grammar.problem import Problem

Step = TypeVar("Step")  # of `lesson.py`, which makes use of this


@cache
def narrowed(step: Step, solution: str) -> Step:
    """The step with its fields of that solution, and of none in particular; nothing where it is to choose one.

    Kept, as a step is known by what it is and not by what it says. solution : key of a branch, "" for all."""
    fields = cast(Any, step).fields
    asked = () if solution and any(one.picks_branch for one in fields) else fields
    kept = tuple(one for one in asked if one.branch is None or solution in ("", one.branch.key))
    return step if kept == fields else cast(Step, replace(cast(Any, step), fields=kept))


def branches_of(lesson: Any, problem: Problem) -> tuple[Branch, ...]:
    """The solutions of a lesson that a problem asks for."""
    return tuple(one for one in lesson.branches if problem.solution in ("", one.key))
