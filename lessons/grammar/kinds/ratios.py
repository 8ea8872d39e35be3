"""Ratios of sizes: standing-wave ratios and plain numbers."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from core.line import swr
from lessons.grammar.kinds.base import (
    REFLECTION_TOLERANCE,
    TWO_DECIMALS,
    Accuracy,
    Kind,
    Reading,
    Said,
    nearer,
    relative,
)
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, read_real
from lessons.grammar.reckoning import reckon_real

_SUM = re.compile(r"\d\s*[-+/*)]|\d\s*\(")
_PART = re.compile(r"[01]?[.,]\d+")  # what may be meant as a part of one, and as percent
_MISREAD = 0.1  # of a number that a mistake gives, by which a reading of the chart may change it
THREE_DECIMALS = 0.00075  # half a unit of the last, and half as much again for what was rounded before
INFINITE = ("inf", "∞", "infinite")
_DECIBELS = re.compile(r"(.*\d)\s*dB", re.IGNORECASE)


@dataclass(frozen=True)
class StandingWaveRatio(Kind):
    """A standing-wave ratio; what is below 1 is read, so that the slip behind it can be named.

    arithmetic : whether it is calculated, so that no chart excuses it; it has a decimal more then, and may be
    infinite."""

    example: str = "2.6"
    arithmetic: bool = False

    def read(self, text: str, notation: Notation) -> float:
        if self.arithmetic and text.strip().lower() in INFINITE:
            return float("inf")
        value = read_real(text)
        if value < 0:
            raise Unreadable("A standing-wave ratio is a ratio of sizes: it is 1 or more, never negative.")
        return value

    def write(self, value: float, notation: Notation) -> str:
        return notation.number(value, 3 if self.arithmetic else 2)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        if self.arithmetic:
            return relative(value, other)
        between = abs(2 / (other + 1) - 2 / (value + 1))  # of the two |reflections|, also for infinite ratios
        return nearer(relative(value, other), between / REFLECTION_TOLERANCE, accuracy)

    def drawn(self, answer: Any, read_as: str) -> float:
        return float(swr(abs(answer)))

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return f"The ratio is {'smaller' if value > expected else 'larger'}."

    def understood(self, said: Said) -> Iterator[Reading]:
        if "|" in said.name:
            size = read_real(said.value, "0.59")
            if not 0 <= size < 1:
                raise Unreadable("The size of a reflection is 0 or more and, where power is taken, below 1.")
            ratio = float(swr(size))
            told = f"Given as |Γ|: as a standing-wave ratio it is {said.notation.number(ratio, 2)}."
            yield Reading(repr(ratio), told)
        elif found := _DECIBELS.fullmatch(said.value.strip()):
            ratio = 10 ** (min(read_real(found[1]), 400.0) / 20)
            told = f"Given in decibels: as a plain ratio it is {said.notation.number(ratio, 2)}."
            yield Reading(repr(ratio), told)
        elif _SUM.search(said.value):
            ratio, unit = reckon_real(said.value)
            if unit:
                raise Unreadable("A standing-wave ratio has no unit; write one number, such as 2.6.")
            yield Reading(repr(ratio), f"Worked out: {said.notation.number(ratio, 2)}.")
        else:
            yield Reading(said.value)


@dataclass(frozen=True)
class Number(Kind):
    """A plain number with a unit behind it: decibels, percent, degrees, volts.

    least, most : what it can be at all.  tolerance : how far off a reading from the chart may be, in the number's own
    unit; 0 where it is only calculated.  worked_out : whether it is, for all that so much may be off."""

    written_unit: str = ""
    example: str = "9.5"
    decimals: int = 2
    tolerance: float = 0.0
    least: float = float("-inf")
    most: float = float("inf")
    impossible: str = "That is more or less than this can be: check it."
    worked_out: bool = False

    @property
    def arithmetic(self) -> bool:  # type: ignore[override]
        return self.worked_out or not self.tolerance

    def read(self, text: str, notation: Notation) -> float:
        plain = text.strip()
        if self.written_unit and plain.lower().endswith(self.written_unit.lower()):
            plain = plain[: -len(self.written_unit)]
        value = read_real(plain, self.example)
        if not self.least <= value <= self.most:
            raise Unreadable(self.impossible)
        return value

    def write(self, value: float, notation: Notation) -> str:
        gap = "" if self.written_unit == "°" else " "
        unit = f"{gap}{self.written_unit}" if self.written_unit else ""
        return notation.number(value, self.decimals) + unit

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        read_off = abs(value - other) / self.tolerance if self.tolerance else float("inf")
        return nearer(relative(value, other), read_off, accuracy)

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return f"It is {'less' if value > expected else 'more'} than that."

    def unit(self, notation: Notation) -> str:
        return self.written_unit


@dataclass(frozen=True)
class OfSize(Number):
    """A number that says how large a reflection is: its return loss, or the share of the power that it takes back.

    size : |reflection| of a value. A reading from the chart is as far off as that is in the plane of reflection."""

    size: Callable[[float], float] = abs

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        read_off = abs(self.size(value) - self.size(other)) / REFLECTION_TOLERANCE
        return nearer(relative(value, other), read_off, accuracy)

    def off_as_written(self, value: float, other: float, accuracy: Accuracy) -> float:
        """On the chart few decibels all lie at the rim; the number that a mistake gives is as large as it is."""
        aside = abs(value - other) / max(_MISREAD * abs(other), TWO_DECIMALS) if value != other else 0.0
        return max(self.off_by(value, other, accuracy), aside)

    def understood(self, said: Said) -> Iterator[Reading]:
        """A share of the power with its unit, or, without one, as a part of one too."""
        if self.written_unit == "%" and _PART.fullmatch(said.value.strip()):
            share = 100 * read_real(said.value, self.example)
            yield Reading(repr(share), f"Taken as a part of one: {self.write(share, said.notation)}.")
        yield Reading(said.value)


@dataclass(frozen=True)
class ReflectionSize(Number):
    """|Γ|, from 0 to 1; it may be drawn as the radius of a circle about the centre."""

    example: str = "0.45"
    decimals: int = 3
    tolerance: float = REFLECTION_TOLERANCE
    stands_for = "reflection"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        """What three decimals leave is right, however small it is."""
        return min(super().off_by(value, other, accuracy), abs(value - other) / THREE_DECIMALS)

    def drawn(self, answer: Any, read_as: str) -> float:
        return float(abs(answer))
