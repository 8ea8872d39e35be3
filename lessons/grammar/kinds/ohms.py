"""Impedances in ohms."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from lessons.grammar.kinds.base import TWO_DECIMALS, Accuracy, Kind, Reading, Said
from lessons.grammar.kinds.immittances import Immittance, complex_text, number_of, parts_off, unit_of
from lessons.grammar.notation import Notation

MISREAD = 0.1  # of an impedance's size, that a reading of the chart may be off by


@dataclass(frozen=True)
class Ohms(Kind):
    """An impedance in ohms, real or complex, compared by its size."""

    example: str = "36.5 − {j}61.1"
    per: float = 50.0

    def read(self, text: str, notation: Notation) -> complex:
        return Immittance(per=self.per).read(text, notation)

    def write(self, value: complex, notation: Notation) -> str:
        return notation.rectangular(complex(value), max(0, notation.decimals - 1)) + " Ω"

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        return Immittance().off_by(complex(value) / self.per, complex(other) / self.per, accuracy)

    def off_as_written(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        """On the chart all that is small lies beside zero; the number that a mistake gives is as large as it is."""
        aside = float("inf") if np.isinf(value) or np.isinf(other) else abs(value - other)
        return max(self.off_by(value, other, accuracy), aside / max(MISREAD * abs(other), TWO_DECIMALS))

    def unit(self, notation: Notation) -> str:
        return "Ω"

    def drawn(self, answer: Any, read_as: str) -> complex:
        return Immittance().drawn(answer, read_as) * self.per

    def where(self, value: complex, expected: complex, notation: Notation) -> str:
        return parts_off(complex(value), complex(expected))

    def understood(self, said: Said) -> Iterator[Reading]:
        """Ohms as they stand; behind a small z without a unit, what is normalised."""
        plain, unit, scale = unit_of(said.value)
        number, reckoned = number_of(plain, said)
        if not unit and said.name.startswith("z"):
            ohms = number * self.per
            yield Reading(
                complex_text(ohms), f"Taken as normalised: it is {self.write(ohms, said.notation)}."
            )
        worked_out = f"Worked out: {self.write(number * scale, said.notation)}." if reckoned else ""
        yield Reading(complex_text(number * scale), worked_out)
