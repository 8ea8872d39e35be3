"""Lines as students write them after many books, each with what it means: what a reader of homework is measured by.

No book's text stands here; a habit is described by its features, and the numbers are those of our own problems.
Behind `||` stands what a line says: quantity, branch and value, several after commas; `-` where it says nothing that
is marked (a heading, a given of the problem), `?` with some words of the sentence where it has to be asked about.
"""

from __future__ import annotations

import re
from cmath import rect
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import radians
from typing import Any

NEXT = "===="
"""Between two workings of one habit."""


@dataclass(frozen=True)
class Meaning:
    """What a line says: a quantity, the branch (or ""), and its value; millimetres where it is metric."""

    quantity: str
    branch: str
    value: complex | str
    metric: bool = False


@dataclass(frozen=True)
class Line:
    """A line with its meanings. asks : words of the sentence that has to ask about it."""

    text: str
    meanings: tuple[Meaning, ...] = ()
    asks: str = ""


@dataclass(frozen=True)
class Habit:
    """The lines of one book's habit, in workings of one problem. notation : symbols and units of the course."""

    name: str
    lesson: str
    givens: Mapping[str, Any]
    written: str
    notation: Mapping[str, str] = field(default_factory=dict)

    @property
    def workings(self) -> Iterator[tuple[Line, ...]]:
        """The lines of each working."""
        for part in self.written.strip().split(NEXT):
            yield tuple(_line(text) for text in part.strip().splitlines())


def _line(text: str) -> Line:
    written, _, meant = (part.strip() for part in text.rpartition("||"))
    if meant == "-":
        return Line(written)
    if meant.startswith("?"):
        return Line(written, asks=meant[1:].strip())
    return Line(written, tuple(_meaning(one.strip()) for one in meant.split(",")))


def _meaning(text: str) -> Meaning:
    name, _, value = text.partition(" ")
    quantity, _, branch = name.rpartition(".") if name.endswith((".near", ".far")) else (name, "", "")
    metric = value.endswith("mm")
    return Meaning(quantity, branch, _value(value.removesuffix("mm").strip()), metric)


def _value(text: str) -> complex | str:
    if found := re.fullmatch(r"([\d.]+)@([-\d.]+)", text):  # a size and degrees
        return rect(float(found[1]), radians(float(found[2])))
    try:
        return complex(text)
    except ValueError:
        return text
