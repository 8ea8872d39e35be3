"""Values of coils and capacitors, with the prefixes that they are sold with."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from core.lumped import engineering
from lessons.grammar.kinds.base import RELATIVE_TOLERANCE, Accuracy, Kind, Reading, Said, relative
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, quoted, read_real

PREFIXES = {"f": 1e-15, "p": 1e-12, "n": 1e-9, "µ": 1e-6, "μ": 1e-6, "u": 1e-6, "m": 1e-3, "": 1.0}
NANOHENRIES, PICOFARADS = 1e9, 1e12
"""How many make one henry, and one farad."""
SMALLEST, LARGEST = 1e-24, 1e9  # henries or farads: far beyond what any problem can lead to
OF_A_SERIES = 1e-4  # relative: a preferred value has two digits, and is it or is not
_VALUE = re.compile(r"(.*?)\s*([fpnµμum]?)\s*(H|F|henry|henries|farads?)\s*", re.DOTALL)
_WORD = re.compile(r"\b(femto|pico|nano|micro|milli)(?=henr|farad)", re.IGNORECASE)


@dataclass(frozen=True)
class PartValue(Kind):
    """The value of a part: above zero an inductance in nanohenries, below zero minus a capacitance in picofarads.

    within : how far off it may be, relative."""

    example: str = "27.5 nH or 3.14 pF"
    arithmetic: bool = True
    within: float = RELATIVE_TOLERANCE

    def read(self, text: str, notation: Notation) -> float:
        found = _VALUE.fullmatch(_WORD.sub(lambda m: m[1][0].replace("M", "m"), text.strip()))
        if not found:
            raise Unreadable(
                f"{quoted(text)} has no unit of a coil or a capacitor: write a value such as 27.5 nH or 3.14 pF."
            )
        size = read_real(found[1], "27.5 nH") * PREFIXES[found[2]]
        if not 0 < size < inf:
            raise Unreadable(
                "The value of a part is above zero; its unit says whether it is a coil or a capacitor."
            )
        if not SMALLEST <= size <= LARGEST:
            raise Unreadable("No part has such a value: check its prefix.")
        return size * NANOHENRIES if found[3][0] in "Hh" else -size * PICOFARADS

    def write(self, value: float, notation: Notation) -> str:
        return engineering(value / NANOHENRIES, "H") if value > 0 else engineering(-value / PICOFARADS, "F")

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        if value * other <= 0:
            return 0.0 if value == other else inf
        return relative(value / abs(other), other / abs(other)) * RELATIVE_TOLERANCE / self.within

    def where(self, value: float, expected: float, notation: Notation) -> str:
        if value * expected < 0:
            return f"It is a {'coil' if expected > 0 else 'capacitor'}."
        return f"It is {'less' if abs(value) > abs(expected) else 'more'} than that."

    def understood(self, said: Said) -> Iterator[Reading]:
        self.read(said.value, said.notation)
        yield Reading(said.value)
