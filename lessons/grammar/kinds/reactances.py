"""Reactances in ohms: what stands on the rim of a chart, and its sign."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf
from typing import Any

from lessons.grammar.kinds.base import TWO_DECIMALS, Accuracy, Kind, Reading, Said
from lessons.grammar.kinds.immittances import ImaginaryPart, number_of, unit_of
from lessons.grammar.kinds.ohms import MISREAD
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, read_complex


@dataclass(frozen=True)
class Reactance(Kind):
    """A reactance in ohms with its sign, compared by where it stands on the rim.

    per : the ohms that stand beside 1 there.  arithmetic : whether it is got by calculation, so that no chart
    excuses it."""

    per: float = 50.0
    example: str = "−31.2"
    arithmetic: bool = False

    def read(self, text: str, notation: Notation) -> float:
        value = read_complex(text)
        if value.real and value.imag:
            raise Unreadable(
                "A reactance is the imaginary part alone: write it as one number, such as −31.2."
            )
        return value.imag or value.real

    def write(self, value: float, notation: Notation) -> str:
        return notation.number(value, max(1, notation.decimals - 1)) + " Ω"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        normalised = ImaginaryPart("impedance", arithmetic=self.arithmetic)
        return normalised.off_by(value / self.per, other / self.per, accuracy)

    def off_as_written(self, value: float, other: float, accuracy: Accuracy) -> float:
        """On the rim all that is large lies together; the number that a mistake gives is as large as it is."""
        aside = abs(value - other) if max(abs(value), abs(other)) < inf else inf
        return max(self.off_by(value, other, accuracy), aside / max(MISREAD * abs(other), TWO_DECIMALS))

    def unit(self, notation: Notation) -> str:
        return "Ω"

    def drawn(self, answer: Any, read_as: str) -> float:
        return ImaginaryPart("impedance").drawn(answer, read_as) * self.per

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return ImaginaryPart("impedance").where(value, expected, notation)

    def understood(self, said: Said) -> Iterator[Reading]:
        """Ohms as they stand; behind a small x or z without a unit, what is normalised."""
        plain, unit, scale = unit_of(said.value)
        number, reckoned = number_of(plain, said)
        if unit == "admittance":
            raise Unreadable("A reactance is wanted here, in ohms.")
        if number.real and number.imag:
            yield Reading(plain)
            return
        value = number.imag or number.real
        if not unit and said.name.startswith(("x", "z", "jx")):
            ohms = value * self.per
            yield Reading(repr(ohms), f"Taken as normalised: it is {self.write(ohms, said.notation)}.")
        ohms = value * scale
        yield Reading(repr(ohms), f"Worked out: {self.write(ohms, said.notation)}." if reckoned else "")
