"""Near and far: the two crossings of a mismatch circle with a unit circle, and what is asked at both."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Slip, Work
from lessons.grammar.slips import branches_mixed
from lessons.grammar.strokes import Gesture, Stroke

NEAR = Branch("near", "near", "first", also=("nearer", "nearest"))
FAR = Branch("far", "far", "second", also=("farther", "further"))
BOTH = (NEAR, FAR)
FIRST_MET = "The near crossing is the first one met when walking clockwise from the load."


def other(branch: Branch) -> Branch:
    """Far for near, near for far."""
    return FAR if branch is NEAR else NEAR


def near_and_far(
    *,
    quantity: str,
    label: str,
    kind: Callable[[Work], Any],
    value: Callable[[Work, Branch], Any],
    slips: Callable[[Branch], tuple[Slip, ...]],
    strokes: Callable[[Work, Branch], Iterable[Stroke]] = lambda work, branch: (),
    gesture: Callable[[Work, Branch], Gesture | None] = lambda work, branch: None,
    routes: Callable[[Branch], tuple[Callable[[Work], Any], ...]] = lambda branch: (),
    mixable: bool = True,
    unmixed_by: tuple[str, ...] = (),
    **more: Any,
) -> tuple[Field, ...]:
    """The near and the far field of a step; `mixable` where giving one for the other is a slip.

    unmixed_by : quantities that, right in this branch, show that the branches are not mixed."""

    def one(branch: Branch) -> Field:
        mixed = branches_mixed(
            lambda work: value(work, other(branch)),
            branch,
            other(branch),
            FIRST_MET,
            ruled_out_by=tuple(f"{one}.{branch.key}" for one in unmixed_by),
        )
        return Field(
            quantity=quantity,
            label=label,
            kind=kind,
            value=lambda work: value(work, branch),
            branch=branch,
            slips=(*slips(branch), *((mixed,) if mixable else ())),
            strokes=lambda work: strokes(work, branch),
            gesture=lambda work: gesture(work, branch),
            routes=routes(branch),
            **more,
        )

    return tuple(map(one, BOTH))
