"""The near and the far field of a step: the same question at the two crossings, whose answers are easily mixed up."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, Literal

from lessons.grammar.lesson import Field, Side, Slip, Work, other_side
from lessons.grammar.slips import branches_mixed
from lessons.grammar.strokes import Gesture, Stroke


def near_and_far(
    key: str,
    label: str,
    kind: Callable[[Work], Any],
    value: Callable[[Work, Side], Any],
    slips: Callable[[Side], tuple[Slip, ...]],
    strokes: Callable[[Work, Side], Iterable[Stroke]] = lambda work, side: (),
    gesture: Callable[[Work, Side], Gesture | None] = lambda work, side: None,
    names: tuple[str, ...] = (),
    per: Literal["line", "stub"] = "line",
    mixable: bool = True,
) -> tuple[Field, Field]:
    """The near and the far field of a step; `mixable` where giving one for the other is a slip."""

    def one(side: Side) -> Field:
        mixed = (branches_mixed(lambda work: value(work, other_side(side)), side),) if mixable else ()
        return Field(
            key=f"{key}.{side}",
            label=f"{side.capitalize()}: {label}",
            kind=kind,
            value=lambda work: value(work, side),
            slips=(*slips(side), *mixed),
            strokes=lambda work: strokes(work, side),
            gesture=lambda work: gesture(work, side),
            names=names,
            per=per,
        )

    return one("near"), one("far")
