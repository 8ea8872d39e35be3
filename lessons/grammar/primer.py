"""What stands before a lesson: two to four short paragraphs, and at most one figure. One screen, never more."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from lessons.grammar.figure import Figure

MOST_PARAGRAPHS = 4
LONGEST_PARAGRAPH = 300
"""Characters: four of these and a figure are a screen."""


@dataclass(frozen=True, eq=False)
class Primer:
    """paragraphs : texts as in a step, symbols in braces; of no problem in particular, so that none is given away.

    Raises ValueError for more than a screen holds."""

    paragraphs: tuple[str | Callable[[Any], str], ...]
    figure: Figure | None = None

    def __post_init__(self) -> None:
        long = [one for one in self.paragraphs if isinstance(one, str) and len(one) > LONGEST_PARAGRAPH]
        if long or not 1 <= len(self.paragraphs) <= MOST_PARAGRAPHS:
            raise ValueError(
                f"A primer has 1 to {MOST_PARAGRAPHS} paragraphs of at most {LONGEST_PARAGRAPH} characters each."
            )
