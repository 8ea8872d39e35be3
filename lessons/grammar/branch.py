"""A branch: one of the solutions that a lesson's derivation divides into."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Role = Literal[
    "load", "mismatch", "unit", "first", "second", "third", "fourth", "construction", "region", "slip"
]
"""What a stroke is on the chart; each has its own ink, dash and marker there."""


@dataclass(frozen=True)
class Branch:
    """A solution of a lesson: near and far, say.

    word : how texts and labels call it.  also : other words for it in students' own lines.
    role : how its strokes are drawn."""

    key: str
    word: str
    role: Role
    also: tuple[str, ...] = ()

    @property
    def words(self) -> tuple[str, ...]:
        """Every word that stands for it."""
        return (self.word, *self.also)
