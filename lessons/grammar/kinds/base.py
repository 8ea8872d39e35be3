"""What every kind of answer can do: be read, written, measured, drawn, and found in a student's own lines.

`off_by` is the distance of an answer from another in units of the tolerance: up to 1 is right, up to 2 is close.
Readings from a chart may be off by 0.005 wavelength or by 0.02 in the plane of reflection; calculated ones by 0.001
wavelength or half a percent.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable

Accuracy = Literal["chart", "calculated"]
Value = Any  # complex, float or str, as the kind says
LENGTH_TOLERANCE: dict[Accuracy, float] = {"chart": 0.005, "calculated": 0.001}
REFLECTION_TOLERANCE, RELATIVE_TOLERANCE = 0.02, 0.005
CLOSE = 2.0  # tolerances within which a student may go on
TWO_DECIMALS = 0.0075  # a complex number rounded to two decimals in both parts is off by at most 0.0071


@dataclass(frozen=True)
class Said:
    """A value in someone's own words.

    name : as it stands before the value.  swapped : it names the inverse, as z where y is asked.
    wavelength_mm : of the line, where the problem has a frequency."""

    name: str
    value: str
    notation: Notation
    swapped: bool = False
    wavelength_mm: float | None = None


@dataclass(frozen=True)
class Reading:
    """One way to understand a value.

    text : as the field's box takes it.  said : what was done to it, in a sentence, or "".
    millimetres : for a metric length, which may have to be compared with a field of its own.
    fault : the sentence for a value that cannot be read."""

    text: str
    said: str = ""
    millimetres: float | None = None
    fault: str = ""

    def for_box(self, kind: Kind) -> str:
        """The text as the box of this kind takes it: a metric length in millimetres, where they are asked."""
        metric = self.millimetres is not None and kind.length_in == "millimetres"
        return f"{self.millimetres!r} mm" if metric else self.text


@dataclass(frozen=True)
class Oddity:
    """A value that no answer of the kind can have, whatever the problem; and the slip it betrays, if any."""

    sentence: str
    slip: str = ""
    doing: str = ""


class Kind:
    """A kind of answer; each of its classes is one."""

    example: str = ""
    names_a_choice = False  # whether it is answered by one of `options`, in words
    arithmetic: bool = False  # whether it is worked out, so that no chart excuses it
    stands_for = ""  # "impedance", "admittance", "reflection" or "reading" (or several of them), of a point
    comes_by_chance = True  # whether a value out of the blue may be near another: one number may, two hardly
    per: float = 0.0  # the ohms that it is normalised by, where it is
    length_in = ""  # "wavelengths" or "millimetres" where it is a length of line

    @property
    def options(self) -> Sequence[tuple[str, str]]:
        """The answers to choose from, each with its words; none where a value is asked."""
        return ()

    def read(self, text: str, notation: Notation) -> Value:
        """What a text says. Raises Unreadable."""
        raise NotImplementedError

    def write(self, value: Value, notation: Notation) -> str:
        """A value as the course writes it."""
        raise NotImplementedError

    def off_by(self, value: Value, other: Value, accuracy: Accuracy) -> float:
        """How far a value is from another, in tolerances."""
        raise NotImplementedError

    def off_as_written(self, value: Value, other: Value, accuracy: Accuracy) -> float:
        """The same to the number that a mistake gives, which nobody turns into an equal one."""
        return self.off_by(value, other, accuracy)

    def unit(self, notation: Notation) -> str:
        """The unit that stands behind the box, or ""."""
        return ""

    def drawn(self, answer: Any, read_as: str) -> Value:
        """The value of a finished drawing: a reflection (complex), the size of one or wavelengths walked (float), or
        the key of a point picked (str), read on the impedance or the admittance grid. Raises TypeError."""
        raise TypeError(f"{type(self).__name__} is not answered by a drawing.")

    def understood(self, said: Said) -> Iterator[Reading]:
        """Every way to understand a value in someone's own lines, likeliest first. Raises Unreadable."""
        yield Reading(said.value)

    def oddity(self, value: Value, expected: Value, accuracy: Accuracy) -> Oddity | None:
        """What is odd about a value whatever the problem is, where anything is."""
        return None

    def praise(self, value: Value, expected: Value) -> str:
        """What there is to say of a right answer."""
        return "Right."

    def where(self, value: Value, expected: Value, notation: Notation) -> str:
        """Where the right answer lies from a wrong one, roughly enough not to give it away; "" where that is moot."""
        return ""

    def is_inverse_named(self, letter: str) -> bool:
        """Whether a name that begins with this letter in place of its own means the inverse."""
        return False


def relative(value: complex, other: complex) -> float:
    """How far off in relative tolerances; two open circuits are one value, and nothing else is near one."""
    if value == other:
        return 0.0
    if np.isinf(value) or np.isinf(other):
        return float("inf")
    return abs(value - other) / (RELATIVE_TOLERANCE * max(abs(other), 1e-9))


def nearer(calculated: float, on_chart: float, accuracy: Accuracy) -> float:
    """What is right when calculated is right when read from a chart as well."""
    return calculated if accuracy == "calculated" else min(calculated, on_chart)


def by_arithmetic(value: complex, other: complex) -> float:
    """How far off a division or a change of sign is: half a percent, or what two decimals leave."""
    if np.isinf(value) or np.isinf(other):
        return 0.0 if value == other else float("inf")
    return abs(value - other) / max(RELATIVE_TOLERANCE * abs(other), TWO_DECIMALS)


def has_no_unit(text: str) -> bool:
    """Whether a text ends in a number."""
    return text.strip()[-1:].isdigit() or text.strip().endswith(".")


__all__ = [
    "CLOSE",
    "LENGTH_TOLERANCE",
    "REFLECTION_TOLERANCE",
    "Accuracy",
    "Kind",
    "Oddity",
    "Reading",
    "Said",
    "Unreadable",
    "Value",
    "by_arithmetic",
    "has_no_unit",
    "nearer",
    "relative",
]
