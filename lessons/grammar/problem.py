"""What a problem gives, and a problem: the lesson's key and the values of its givens."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from lessons.grammar.dice import Dice
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.given_kinds import GivenKind
from lessons.grammar.kinds import Accuracy

Draw = Callable[[Dice, Mapping[str, Any]], Any]


@dataclass(frozen=True)
class Given:
    """Something that a problem of a lesson gives. Forms, links, set files, records and random problems are made of it.

    usual : its value where nothing is said, from those of the givens before it.  must_stand : whether an empty text is
    a fault and not the usual value.  draw : how it is drawn at random; without it, it has its usual value.
    example : what a form shows in the empty box.
    put : the value that a point put on the chart by hand stands for (a reflection, in this problem), where that can be
    done; the field that is named `stands_at` then says where it stands."""

    key: str
    label: str
    kind: GivenKind
    usual: Callable[[Mapping[str, Any]], Any]
    example: str = ""
    must_stand: bool = False
    draw: Draw | None = None
    put: Callable[[complex, Mapping[str, Any]], Any] | None = None
    stands_at: str = ""


@dataclass(frozen=True)
class Problem:
    """A problem of a lesson. givens : the value of each of its givens, by key.

    accuracy : whether answers are read from the chart or calculated.  without : steps that are switched off.
    solution : key of the only branch that is asked for, "" where all are.  key : of a problem of a set.
    difficulty : at which it was drawn; once it can be set, nothing follows from it."""

    lesson: str
    givens: Mapping[str, Any] = field(hash=False)
    accuracy: Accuracy = "chart"
    key: str = ""
    title: str = ""
    story: str = ""
    without: frozenset[str] = frozenset()
    solution: str = ""
    difficulty: Difficulty = field(default=ANY, compare=False)

    def __getitem__(self, given: str) -> Any:
        return self.givens[given]
