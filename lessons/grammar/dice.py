"""Dice that fall alike on every machine: what random problems are drawn with."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

Option = TypeVar("Option")


class Dice:
    """A seeded source of choices. Only `random()` is promised to give the same numbers in every Python."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)

    def pick(self, options: Sequence[Option]) -> Option:
        """One of the options."""
        return options[int(self._random.random() * len(options))]

    def multiple(self, step: int, largest: int) -> int:
        """A multiple of `step` above zero, up to the largest."""
        return step * (1 + int(self._random.random() * (largest // step)))
