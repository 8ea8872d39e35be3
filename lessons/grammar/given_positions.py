"""Kinds of given: places on a scale, in centimetres."""

from __future__ import annotations

from dataclasses import dataclass

from lessons.grammar.given_kinds import GivenKind, write_number
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import METRIC, Unreadable, read_length


@dataclass(frozen=True)
class Position(GivenKind):
    """A place on a scale along a line, in centimetres."""

    name: str
    most: float = 1e5

    def read(self, text: str) -> float:
        value, unit = read_length(text)
        if unit in METRIC:
            value = value * METRIC[unit] / METRIC["centimetres"]
        elif not text.strip()[-1:].isdigit():
            raise Unreadable(f"The {self.name} is wanted in centimetres, such as 12.4.")
        if not 0 <= value <= self.most:
            raise Unreadable(f"The {self.name} must be from 0 to {self.most:,.0f} cm, not {value:g} cm.")
        return value

    def write(self, value: float) -> str:
        return f"{write_number(value)} cm"

    def say(self, value: float, notation: Notation) -> str:
        return f"{value:g} cm"
