"""Real impedances, normalised or in ohms: what stands on the axis of a chart."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor, inf, log10
from typing import Any

from core.line import impedance_from_reflection
from lessons.grammar.kinds.base import Accuracy, Kind, Reading, Said, relative
from lessons.grammar.kinds.immittances import Immittance, number_of, unit_of
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, read_complex


@dataclass(frozen=True)
class Resistance(Kind):
    """A real impedance above zero, compared by where it stands on the axis of the chart.

    per : the ohms that stand at the chart's centre.  in_ohms : whether it is asked for in ohms.
    arithmetic : whether it is got by calculation, so that no chart excuses it."""

    per: float = 50.0
    in_ohms: bool = False
    example: str = "2.6"
    arithmetic: bool = False
    stands_for = "impedance admittance"  # a resistance here is a conductance a quarter wave away

    def read(self, text: str, notation: Notation) -> float:
        value = read_complex(text.strip().removesuffix("Ω"))
        if value.imag:
            raise Unreadable("What is asked for here is real: write one number, without an imaginary part.")
        if not 0 < value.real < inf:
            raise Unreadable(
                "A resistance on a line that takes power is above zero and no open circuit: check it."
            )
        return value.real

    def write(self, value: float, notation: Notation) -> str:
        usual = max(1, notation.decimals - 1) if self.in_ohms else notation.decimals
        small = -floor(log10(value)) - 1 if 0 < value < 1 else 0  # as many digits of what begins with zeros
        return notation.number(value, usual + small) + (" Ω" if self.in_ohms else "")

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        if self.arithmetic and accuracy == "chart":
            return relative(value, other)
        per = self.per if self.in_ohms else 1.0
        return Immittance().off_by(value / per, other / per, accuracy)

    def unit(self, notation: Notation) -> str:
        return "Ω" if self.in_ohms else ""

    def drawn(self, answer: Any, read_as: str) -> float:
        """Read on the axis above or below which the point was put."""
        on_axis = complex(answer).real * (-1 if read_as == "admittance" else 1)
        normalised = float(impedance_from_reflection(on_axis).real)
        return normalised * self.per if self.in_ohms else normalised

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return f"It is {'less' if value > expected else 'more'} than that."

    def understood(self, said: Said) -> Iterator[Reading]:
        plain, unit, scale = unit_of(said.value)
        number, reckoned = number_of(plain, said)
        if unit == "admittance":
            raise Unreadable("A resistance is wanted here, in ohms or normalised, and no conductance.")
        if unit and not self.in_ohms:
            yield self._normalised(number.real * scale, said)
            return
        if not self.in_ohms and said.name.startswith(("R", "Z")):
            yield self._normalised(number.real, said)
        written = repr(number.real * scale) if not number.imag else plain
        yield Reading(written, f"Worked out: {self.write(number.real, said.notation)}." if reckoned else "")

    def _normalised(self, ohms: float, said: Said) -> Reading:
        value = ohms / self.per
        told = f"Taken in ohms: normalised it is {said.notation.number(value)}."
        return Reading(repr(value), told)
