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
    role : how its strokes are drawn.  where : what tells it apart behind a noun, where its word cannot stand before
    one: "at the maximum"."""

    key: str
    word: str
    role: Role
    also: tuple[str, ...] = ()
    where: str = ""

    def named(self, noun: str) -> str:
        """A noun with what tells the branch apart: "near one", or "one at the maximum"."""
        return f"{noun} {self.where}" if self.where else f"{self.word} {noun}"

    @property
    def words(self) -> tuple[str, ...]:
        """Every word that stands for it."""
        return (self.word, *self.also)
