"""Dice that fall alike on every machine: what random problems are drawn with."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

from lessons.grammar.difficulty import ANY, Difficulty

Option = TypeVar("Option")


class Dice:
    """A seeded source of choices. Only `random()` is promised to give the same numbers in every Python.

    difficulty : of the problem that is drawn. What a draw says for round or for hard ones takes the place of what is
    usual; where nothing is said all fall alike, and what is usual falls as it always did."""

    def __init__(self, seed: int, difficulty: Difficulty = ANY) -> None:
        self._random, self.difficulty = Random(seed), difficulty

    def pick(
        self,
        options: Sequence[Option],
        *,
        if_round: Sequence[Option] | None = None,
        if_hard: Sequence[Option] | None = None,
    ) -> Option:
        """One of the options."""
        there = self.difficulty.of(options, if_round=if_round, if_hard=if_hard)
        return there[int(self._random.random() * len(there))]

    def multiple(self, step: int, largest: int) -> int:
        """A multiple of `step` above zero, up to the largest."""
        return step * (1 + int(self._random.random() * (largest // step)))

    def between(self, step: int, largest: int) -> int:
        """A whole number above zero, up to the largest, that is no multiple of `step`: one that lies between lines."""
        beside = int(self._random.random() * (largest - largest // step))
        return beside + beside // (step - 1) + 1
