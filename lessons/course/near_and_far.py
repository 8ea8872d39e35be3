"""Near and far: the two crossings of a mismatch circle with a unit circle, and what is asked at both."""

from __future__ import annotations

from typing import Any

from lessons.course.in_each import in_each
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field

NEAR = Branch("near", "near", "first", also=("nearer", "nearest"))
FAR = Branch("far", "far", "second", also=("farther", "further"))
BOTH = (NEAR, FAR)
FIRST_MET = "The near crossing is the first one met when walking clockwise from the load."


def other(branch: Branch) -> Branch:
    """Far for near, near for far."""
    return FAR if branch is NEAR else NEAR


def near_and_far(**asked: Any) -> tuple[Field, ...]:
    """The near and the far field of a step, as `in_each` makes them."""
    return in_each(BOTH, FIRST_MET, **asked)
