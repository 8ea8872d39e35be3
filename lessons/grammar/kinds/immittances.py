"""Impedances and admittances, their imaginary parts, and reflections."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from core.line import admittance_from_reflection, impedance_from_reflection
from lessons.grammar.kinds.base import (
    REFLECTION_TOLERANCE,
    Accuracy,
    Kind,
    Reading,
    Said,
    by_arithmetic,
    nearer,
    relative,
)
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, quoted, read_complex
from lessons.grammar.reckoning import reckon_complex
from lessons.grammar.side import reflection_of

_UNIT = re.compile(r"(.*?)\s*(m?)(?:(S|siemens|mho|℧)|(Ω|Ω|ohms?))\s*", re.DOTALL | re.IGNORECASE)
_OHMS = re.compile(r"Ω|Ω|ohms?", re.IGNORECASE)
_SUM = re.compile(r"[/*(^π]|exp")  # what makes more of a number than two parts
_OTHER = {"impedance": "admittance", "admittance": "impedance"}
_LETTERS = {"impedance": "zx", "admittance": "yb"}


def inverse(normalised: complex) -> complex:
    """An admittance from its impedance, and back; infinite for zero."""
    return complex(np.inf) if normalised == 0 else 0j if np.isinf(normalised) else 1 / normalised


@dataclass(frozen=True)
class Immittance(Kind):
    """A normalised impedance or admittance, compared by where it stands on the chart.

    of : "impedance" or "admittance".  per : the ohms that it is normalised by.  arithmetic : whether it is got by a
    division, so that no chart excuses it."""

    comes_by_chance = False
    of: str = "impedance"
    per: float = 50.0
    example: str = "0.50 − {j}1.20"
    arithmetic: bool = False

    @property
    def stands_for(self) -> str:  # type: ignore[override]
        """What of a point it gives."""
        return self.of

    def read(self, text: str, notation: Notation) -> complex:
        value = read_complex(text, notation.angle)
        if value.real < 0:
            raise Unreadable(
                "No passive circuit has a real part below zero here: check its sign, and that an imaginary part has "
                f"its {notation.imaginary}."
            )
        return value

    def write(self, value: complex, notation: Notation) -> str:
        return notation.rectangular(value)

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        if self.arithmetic and accuracy == "chart":
            return by_arithmetic(value, other)
        return nearer(
            relative(value, other),
            abs(reflection_of(value) - reflection_of(other)) / REFLECTION_TOLERANCE,
            accuracy,
        )

    def drawn(self, answer: Any, read_as: str) -> complex:
        read = admittance_from_reflection if read_as == "admittance" else impedance_from_reflection
        return complex(read(complex(answer)))

    def where(self, value: complex, expected: complex, notation: Notation) -> str:
        return parts_off(value, expected)

    def understood(self, said: Said) -> Iterator[Reading]:
        return _Understanding(self, said).readings()

    def is_inverse_named(self, letter: str) -> bool:
        return letter in _LETTERS[_OTHER[self.of]][0]


@dataclass(frozen=True)
class ImaginaryPart(Kind):
    """A normalised susceptance or reactance. The real part `beside` it says on which circle of the chart it is read.

    of, per, arithmetic : as for an Immittance.  alone : whether nothing stands beside it, so that whoever reads the
    point on the rim has it."""

    of: str = "admittance"
    per: float = 50.0
    beside: float = 0.0
    example: str = "−1.47"
    arithmetic: bool = False
    alone: bool = False

    @property
    def stands_for(self) -> str:  # type: ignore[override]
        """What of a point gives it away."""
        return self.of if self.alone else ""

    @property
    def name(self) -> str:
        """What it is called."""
        return "susceptance" if self.of == "admittance" else "reactance"

    def read(self, text: str, notation: Notation) -> float:
        value = read_complex(text)
        if value.real and value.imag:
            raise Unreadable(
                f"A {self.name} is the imaginary part alone: write it as one number, such as −1.47."
            )
        return value.imag or value.real

    def write(self, value: float, notation: Notation) -> str:
        return notation.number(value)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        if self.arithmetic and accuracy == "chart":
            return by_arithmetic(value, other)
        return Immittance(self.of).off_by(complex(self.beside, value), complex(self.beside, other), accuracy)

    def drawn(self, answer: Any, read_as: str) -> float:
        return Immittance(self.of).drawn(answer, read_as).imag

    def where(self, value: float, expected: float, notation: Notation) -> str:
        if value * expected < 0:
            return "Its sign is the other one."
        return f"Its size is {'less' if abs(value) > abs(expected) else 'more'} than that."

    def understood(self, said: Said) -> Iterator[Reading]:
        return _Understanding(self, said).readings()

    def is_inverse_named(self, letter: str) -> bool:
        return letter in _LETTERS[_OTHER[self.of]]


@dataclass(frozen=True)
class Reflection(Kind):
    """A reflection coefficient, written as size and angle."""

    example: str = "0.45 ∠ −60°"
    comes_by_chance, stands_for = False, "reflection"

    def read(self, text: str, notation: Notation) -> complex:
        value = read_complex(text, notation.angle)
        if not abs(value) <= 1.0001:
            raise Unreadable("A passive load reflects at most all: the size of a reflection is 1 or less.")
        return value / max(1.0, abs(value))  # the last digit of a rounded size is no fault

    def write(self, value: complex, notation: Notation) -> str:
        return notation.polar(value)

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        return nearer(relative(value, other), abs(value - other) / REFLECTION_TOLERANCE, accuracy)

    def drawn(self, answer: Any, read_as: str) -> complex:
        return complex(answer)

    def where(self, value: complex, expected: complex, notation: Notation) -> str:
        size = "nearer to the centre" if abs(value) > abs(expected) else "farther from the centre"
        half = "upper" if expected.imag > 0 else "lower"
        return f"The point lies {size}, in the {half} half of the chart."

    def understood(self, said: Said) -> Iterator[Reading]:
        number, reckoned = number_of(said.value, said)
        yield Reading(complex_text(number)) if reckoned else Reading(said.value)


@dataclass(frozen=True)
class _Understanding:
    """Reads values of one kind, which asks for an impedance or an admittance, or for its imaginary part."""

    kind: Immittance | ImaginaryPart
    said: Said

    def readings(self) -> Iterator[Reading]:
        plain, unit, scale = unit_of(self.said.value)
        number, reckoned = number_of(plain, self.said)
        given = unit or self._named
        if unit:
            yield self._read(number * scale, given, in_units=True)
            return
        if self.said.name.startswith(tuple("ZYXB")):  # ohms and siemens in most books, but not in every hand
            yield self._read(number, given, in_units=True)
        if given == self.kind.of and not self._is_pure:
            yield (
                Reading(complex_text(number), _worked_out(number, self.said)) if reckoned else Reading(plain)
            )
        else:
            yield self._read(number, given, in_units=False)

    @property
    def _named(self) -> str:
        return _OTHER[self.kind.of] if self.said.swapped else self.kind.of

    @property
    def _is_pure(self) -> bool:
        return isinstance(self.kind, ImaginaryPart)

    def _read(self, number: complex, given: str, *, in_units: bool) -> Reading:
        said = []
        if self._is_pure:
            number = self._imaginary(number)
        if in_units:
            number = number / self.kind.per if given == "impedance" else number * self.kind.per
            unit = "ohms" if given == "impedance" else "siemens"
            said.append(f"Taken in {unit}: normalised it is {self._write(number)}.")
        if given != self.kind.of:
            number = inverse(number)
            said.append(f"Given as an {given}: as an {self.kind.of} it is {self._write(number)}.")
        return Reading(complex_text(number), " ".join(said))

    def _imaginary(self, number: complex) -> complex:
        """A susceptance or reactance as the imaginary number it stands for; an immittance must have its j.

        A number with both parts stays, for the field to say that this is none."""
        if abs(number.real) <= 1e-9 * abs(number.imag):
            return 1j * number.imag
        if number.imag:
            return number
        if self.said.name[:1].lower() in ("z", "y"):
            raise Unreadable(
                f"{quoted(self.said.value)} is real, and a stub's own value is not; say where the j is."
            )
        return 1j * number.real

    def _write(self, number: complex) -> str:
        return self.said.notation.rectangular(number)


def number_of(text: str, said: Said) -> tuple[complex, bool]:
    """A complex number, and whether it had to be worked out. Raises Unreadable."""
    try:
        return read_complex(text, said.notation.angle), False
    except Unreadable as fault:
        if not _SUM.search(text):
            raise fault
        return reckon_complex(text, said.notation.angle), True


def _worked_out(number: complex, said: Said) -> str:
    return f"Worked out: {said.notation.rectangular(number)}."


def parts_off(value: complex, expected: complex) -> str:
    """Which part of a complex value is off, and which way."""
    if np.isinf(value) or np.isinf(expected):
        return ""
    said = []
    if abs(value.real - expected.real) > 0.05 * abs(expected):
        said.append(f"the real part is too {'large' if value.real > expected.real else 'small'}")
    if value.imag * expected.imag < 0:
        said.append("the imaginary part has the other sign")
    elif abs(value.imag - expected.imag) > 0.05 * abs(expected):
        too = "large" if abs(value.imag) > abs(expected.imag) else "small"
        said.append(f"the imaginary part is too {too}")
    sentence = " and ".join(said)
    return f"{sentence[:1].upper()}{sentence[1:]}." if sentence else ""


def unit_of(value: str) -> tuple[str, str, float]:
    """A value without its unit, what the unit measures, and how many of the unit without prefix it is."""
    found = _UNIT.fullmatch(value)
    if not found or not found[1]:
        return value, "", 1.0
    number = _OHMS.sub("", found[1])  # "60 Ω − j80 Ω"
    return number, "admittance" if found[3] else "impedance", 1e-3 if found[2] else 1.0


def complex_text(number: complex) -> str:
    if np.isinf(number):
        return "inf"
    return f"{number.real!r}{number.imag:+}j" if number.real else f"{number.imag!r}j"
