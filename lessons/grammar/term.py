"""A term of the trade and what it means, for whoever meets it in a text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Term:
    """words : every way to write it, the usual one first.  meaning : in one sentence, true in every notation."""

    words: tuple[str, ...]
    meaning: str
