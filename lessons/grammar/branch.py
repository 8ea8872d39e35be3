"""A solution of a lesson, where it has several: how it is called, and the part that it plays on the chart."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Branch:
    """One of a lesson's solutions.

    word : what it is called in sentences.  role : first, second, third or fourth, which gives its ink and its dash."""

    key: str
    word: str
    role: str
