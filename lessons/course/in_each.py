"""What is asked in each of a lesson's two solutions: one field for either, and giving one for the other a slip."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Slip, Work
from lessons.grammar.slips import branches_mixed
from lessons.grammar.strokes import Gesture, Stroke


def in_each(
    branches: tuple[Branch, Branch],
    told_apart_by: str,
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
    """The two fields of a step; `mixable` where giving one for the other is a slip.

    told_apart_by : the sentence that says which solution is which.
    unmixed_by : quantities that, right in this branch, show that the branches are not mixed."""

    def one(branch: Branch, other: Branch) -> Field:
        mixed = branches_mixed(
            lambda work: value(work, other),
            branch,
            other,
            told_apart_by,
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

    first, second = branches
    return one(first, second), one(second, first)
