"""Admittances in millisiemens."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lessons.grammar.kinds.base import Accuracy, Kind, Reading, Said, by_arithmetic, relative
from lessons.grammar.kinds.immittances import Immittance, complex_text, number_of, parts_off, unit_of
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable

MILLI = 1e3


@dataclass(frozen=True)
class Siemens(Kind):
    """An admittance in millisiemens, got by a division. per : the ohms that a normalised one is divided by."""

    per: float = 50.0
    example: str = "12.0 + {j}8.0"
    arithmetic: bool = True

    def read(self, text: str, notation: Notation) -> complex:
        return Immittance("admittance", self.per).read(text.strip().removesuffix("mS"), notation)

    def write(self, value: complex, notation: Notation) -> str:
        return notation.rectangular(complex(value), max(0, notation.decimals - 1)) + " mS"

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        return by_arithmetic(value, other) if accuracy == "chart" else relative(value, other)

    def unit(self, notation: Notation) -> str:
        return "mS"

    def where(self, value: complex, expected: complex, notation: Notation) -> str:
        return parts_off(complex(value), complex(expected))

    def understood(self, said: Said) -> Iterator[Reading]:
        """Siemens with their unit; without one, millisiemens as they stand."""
        plain, unit, scale = unit_of(said.value)
        number, reckoned = number_of(plain, said)
        if unit == "impedance":
            raise Unreadable("An admittance is wanted here, in millisiemens.")
        value = number * scale * MILLI if unit else number
        yield Reading(
            complex_text(value), f"Worked out: {self.write(value, said.notation)}." if reckoned else ""
        )
