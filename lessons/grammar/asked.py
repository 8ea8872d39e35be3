"""What is asked of one solution alone: of the one that a problem names, and of the one that is picked."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any, TypeVar, cast

Step = TypeVar("Step")  # of `lesson.py`, which makes use of this


@cache
def narrowed(step: Step, solution: str) -> Step:
    """The step with its fields of that solution, and of none in particular; nothing where it is to choose one.

    Kept, as a step is known by what it is and not by what it says. solution : key of a branch, "" for all."""
    fields = cast(Any, step).fields
    asked = () if solution and any(one.picks_branch for one in fields) else fields
    kept = tuple(one for one in asked if one.branch is None or solution in ("", one.branch.key))
    return step if kept == fields else cast(Step, replace(cast(Any, step), fields=kept))


@cache
def of_the_pick(lesson: Any) -> frozenset[str]:
    """Keys of a lesson's fields about the branch that was picked: those of later steps that belong to no other."""
    after = False
    found: list[str] = []
    for step in lesson.steps:
        found += [one.key for one in step.fields if after and one.branch is None]
        after = after or lesson.picking_field in step.fields
    return frozenset(found)
