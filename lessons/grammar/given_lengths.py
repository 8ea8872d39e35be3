"""Kinds of given: lengths of line, in wavelengths or in the unit that they are stated in."""

from __future__ import annotations

from dataclasses import dataclass

from lessons.grammar.given_kinds import GivenKind, write_number
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import METRIC, Unreadable, read_length


@dataclass(frozen=True)
class LineLength(GivenKind):
    """A length of line in wavelengths, at most `most`; degrees of line are read, too."""

    name: str = "length of the line"
    most: float = 10.0

    def read(self, text: str) -> float:
        value, unit = read_length(text)
        if unit not in ("wavelengths", "degrees"):
            raise Unreadable(
                f"The {self.name} is wanted in wavelengths, such as 0.3, or degrees, such as 108°."
            )
        value = value / 360 if unit == "degrees" else value
        if not 0 <= value <= self.most:
            raise Unreadable(f"The {self.name} must be from 0 to {self.most:g} wavelengths, not {value:g}.")
        return value

    def write(self, value: float) -> str:
        return write_number(value)

    def say(self, value: float, notation: Notation) -> str:
        return notation.wavelengths(value)


@dataclass(frozen=True)
class Stated:
    """A length as a problem states it. unit : "wavelengths", "degrees" of line or "millimetres"."""

    value: float
    unit: str

    def wavelengths(self, wavelength_mm: float | None) -> float:
        """The length in wavelengths; nan for millimetres of a line whose wavelength is not known."""
        in_a_wavelength = {"wavelengths": 1.0, "degrees": 360.0, "millimetres": wavelength_mm or float("nan")}
        return self.value / in_a_wavelength[self.unit]


@dataclass(frozen=True)
class StatedLength(GivenKind):
    """A length of line in wavelengths, degrees of line or millimetres, said in the unit in which it was stated."""

    name: str = "length of the line"
    most: float = 10.0
    most_mm: float = 1e7

    def read(self, text: str) -> Stated:
        value, unit = read_length(text)
        if unit in METRIC:
            value, unit = value * METRIC[unit], "millimetres"
        most = {"wavelengths": self.most, "degrees": 360 * self.most, "millimetres": self.most_mm}[unit]
        if not 0 < value <= most:
            raise Unreadable(
                f"The {self.name} must be above 0 and at most {self.most:g} wavelengths, such as 0.3, 108° or 86 mm."
            )
        return Stated(value, unit)

    def write(self, value: Stated) -> str:
        return (
            write_number(value.value) + {"wavelengths": "", "degrees": "°", "millimetres": " mm"}[value.unit]
        )

    def say(self, value: Stated | None, notation: Notation) -> str:
        if value is None:
            return "not given"
        if value.unit == "millimetres":
            return f"{value.value:.8g} mm"
        if value.unit == "degrees" or notation.length == "degrees":
            return f"{360 * value.wavelengths(None):.8g}°"
        return f"{value.value:.8g} λ"
