"""Kinds of answer: how each is read, written, and measured against the solver's.

`off_by` is the distance of an answer from another in units of the tolerance: up to 1 is right, up to 2 is close.
Readings from a chart may be off by 0.005 wavelength or by 0.02 in the plane of reflection; calculated ones by 0.001
wavelength or half a percent.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10
from typing import Any, Literal

import numpy as np

from core.line import half_wave_difference
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, read_complex, read_length, read_real

Accuracy = Literal["chart", "calculated"]
LENGTH_TOLERANCE = {"chart": 0.005, "calculated": 0.001}
REFLECTION_TOLERANCE, RELATIVE_TOLERANCE = 0.02, 0.005


@dataclass(frozen=True)
class Immittance:
    """A normalised impedance or admittance, compared by where it stands on the chart."""

    example: str = "0.50 − {j}1.20"

    def read(self, text: str, notation: Notation) -> complex:
        value = read_complex(text, notation.angle)
        if value.real < 0:
            raise Unreadable("No passive circuit has a real part below zero here: check its sign.")
        return value

    def write(self, value: complex, notation: Notation) -> str:
        return notation.rectangular(value)

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        return _nearer(
            _relative(value, other),
            abs(reflection_of(value) - reflection_of(other)) / REFLECTION_TOLERANCE,
            accuracy,
        )


@dataclass(frozen=True)
class Reflection:
    """A reflection coefficient, written as size and angle."""

    example: str = "0.45 ∠ −60°"

    def read(self, text: str, notation: Notation) -> complex:
        value = read_complex(text, notation.angle)
        if not abs(value) <= 1.0001:
            raise Unreadable("A passive load reflects at most all: the size of a reflection is 1 or less.")
        return value

    def write(self, value: complex, notation: Notation) -> str:
        return notation.polar(value)

    def off_by(self, value: complex, other: complex, accuracy: Accuracy) -> float:
        return _nearer(_relative(value, other), abs(value - other) / REFLECTION_TOLERANCE, accuracy)


@dataclass(frozen=True)
class StandingWaveRatio:
    """A standing-wave ratio; what is below 1 is read, so that the slip behind it can be named."""

    example: str = "2.6"

    def read(self, text: str, notation: Notation) -> float:
        value = read_real(text)
        if value < 0:
            raise Unreadable("A standing-wave ratio is a ratio of sizes: it is 1 or more, never negative.")
        return value

    def write(self, value: float, notation: Notation) -> str:
        return notation.number(value, 2)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        on_axis = abs(
            2 / (other + 1) - 2 / (value + 1)
        )  # between the two |reflections|, also for infinite ratios
        return _nearer(_relative(value, other), on_axis / REFLECTION_TOLERANCE, accuracy)


@dataclass(frozen=True)
class Susceptance:
    """A normalised susceptance. A `conductance` beside it says on which circle of the chart it is read."""

    conductance: float = 0.0
    example: str = "−1.47"

    def read(self, text: str, notation: Notation) -> float:
        value = read_complex(text)
        if value.real and value.imag:
            raise Unreadable(
                "A susceptance is the imaginary part alone: write it as one number, such as −1.47."
            )
        return value.imag or value.real

    def write(self, value: float, notation: Notation) -> str:
        return notation.number(value)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return Immittance().off_by(
            complex(self.conductance, value), complex(self.conductance, other), accuracy
        )


@dataclass(frozen=True)
class LengthOfLine:
    """A length of line in wavelengths. Lengths half a wavelength apart are equal on a lossless line."""

    example: str = "0.172"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "wavelengths" and notation.length == "degrees" and _has_no_unit(text):
            unit = "degrees"
        if unit not in ("wavelengths", "degrees"):
            raise Unreadable("This length is wanted in wavelengths (or degrees of line), not in metres.")
        value = value / 360 if unit == "degrees" else value
        if abs(value) > 10:
            raise Unreadable("That is more than ten wavelengths; half a wavelength is all a chart can tell.")
        return value

    def write(self, value: float, notation: Notation) -> str:
        return notation.wavelengths(value)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return float(abs(half_wave_difference(value, other))) / LENGTH_TOLERANCE[accuracy]


@dataclass(frozen=True)
class Millimetres:
    """A length in millimetres of a line whose wavelength is known."""

    wavelength_mm: float
    example: str = "23.4"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "degrees" or (unit == "wavelengths" and not _has_no_unit(text)):
            raise Unreadable("This length is wanted in millimetres.")
        return value * {"centimetres": 10.0, "metres": 1000.0}.get(unit, 1.0)

    def write(self, value: float, notation: Notation) -> str:
        fine_enough = max(1, 3 - floor(log10(self.wavelength_mm)))  # half a thousandth of a wave at most
        return f"{notation.number(value, fine_enough)} mm"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return abs(value - other) / (LENGTH_TOLERANCE[accuracy] * self.wavelength_mm)


@dataclass(frozen=True)
class Choice:
    """One of a few named options, each with the words that stand on it."""

    options: tuple[tuple[str, str], ...]
    example: str = ""

    def read(self, text: str, notation: Notation) -> str:
        wanted = text.strip().lower()
        for key, words in self.options:
            if wanted in (key, words.lower()):
                return key
        raise Unreadable("Choose one of the answers shown.")

    def write(self, value: str, notation: Notation) -> str:
        return dict(self.options)[value]

    def off_by(self, value: str, other: str, accuracy: Accuracy) -> float:
        return 0.0 if value == other else float("inf")


Kind = Immittance | Reflection | StandingWaveRatio | Susceptance | LengthOfLine | Millimetres | Choice
Value = Any  # complex, float or str, as the kind says


def _relative(value: complex, other: complex) -> float:
    """How far off in relative tolerances; two open circuits are one value, and nothing else is near one."""
    if value == other:
        return 0.0
    if np.isinf(value) or np.isinf(other):
        return float("inf")
    return abs(value - other) / (RELATIVE_TOLERANCE * max(abs(other), 1e-9))


def _nearer(calculated: float, on_chart: float, accuracy: Accuracy) -> float:
    """What is right when calculated is right when read from a chart as well."""
    return calculated if accuracy == "calculated" else min(calculated, on_chart)


def reflection_of(normalised: complex) -> complex:
    """Where a normalised value stands; also for the impossible ones (negative r) that a slip can give."""
    if np.isinf(normalised):
        return 1 + 0j
    return (normalised - 1) / (normalised + 1) if normalised != -1 else complex(np.inf)


def _has_no_unit(text: str) -> bool:
    return text.strip()[-1:].isdigit() or text.strip().endswith(".")
