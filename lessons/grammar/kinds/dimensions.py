"""Sizes in millimetres of what is cut and etched: no lengths of line, so that no half waves are taken off them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lessons.grammar.kinds.base import Accuracy, Kind, Oddity, Reading, Said, has_no_unit, relative
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import METRIC, Unreadable, read_length
from lessons.grammar.reckoning import reckon_real

NEVER_NEGATIVE = Oddity("No piece is shorter than nothing: check the sign.")


@dataclass(frozen=True)
class Dimension(Kind):
    """A size in millimetres, worked out: half a percent off at most.

    within_mm : how far off it may be in place of that, where it is above zero."""

    example: str = "23.40"
    decimals: int = 2
    within_mm: float = 0.0
    arithmetic: bool = True
    length_in = "millimetres"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "degrees" or (unit == "wavelengths" and not has_no_unit(text)):
            raise Unreadable(f"This is wanted in millimetres, such as {self.example}.")
        return value * METRIC.get(unit, 1.0)

    def write(self, value: float, notation: Notation) -> str:
        return f"{notation.number(value, self.decimals)} mm"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return abs(value - other) / self.within_mm if self.within_mm else relative(value, other)

    def unit(self, notation: Notation) -> str:
        return "mm"

    def oddity(self, value: float, expected: float, accuracy: Accuracy) -> Oddity | None:
        return NEVER_NEGATIVE if value < 0 else None

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return f"It is {'less' if value > expected else 'more'} than that."

    def understood(self, said: Said) -> Iterator[Reading]:
        """As it stands, or as a sum with or without its unit."""
        try:
            self.read(said.value, said.notation)
            yield Reading(said.value)
        except Unreadable:
            number, unit = reckon_real(said.value)
            if unit and unit not in METRIC:
                raise
            value = number * METRIC.get(unit, 1.0)
            yield Reading(repr(value), f"Worked out: {self.write(value, said.notation)}.")
