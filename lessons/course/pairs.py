"""Lessons with two solutions: what is asked of both, once for each."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Slip, Work
from lessons.grammar.slips import branches_mixed
from lessons.grammar.strokes import Gesture, Stroke


@dataclass(frozen=True)
class Pair:
    """The two solutions of a lesson. noun : what each is, as in "near crossing"; told_apart : how to tell which."""

    branches: tuple[Branch, Branch]
    noun: str
    told_apart: str

    def other(self, branch: Branch) -> Branch:
        """Far for near, near for far."""
        first, second = self.branches
        return second if branch is first else first

    def fields(
        self,
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
        """The field of each solution in a step; `mixable` where giving one for the other is a slip.

        unmixed_by : quantities that, right in this solution, show that the two are not mixed."""

        def one(branch: Branch) -> Field:
            mixed = branches_mixed(
                lambda work: value(work, self.other(branch)),
                branch,
                self.other(branch),
                self.noun,
                self.told_apart,
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

        return tuple(map(one, self.branches))
