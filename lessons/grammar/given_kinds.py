"""Kinds of given: how what a problem gives is read from a text, written back exactly, and said in a sentence.

Whatever comes in is checked; a text that cannot be meant raises Unreadable (or an error of core) with one sentence.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from core.checks import passive_impedance
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import Unreadable, quoted, read_complex, read_real

SMALLEST_OHMS, LARGEST_OHMS = 1e-3, 1e6
LOWEST_HERTZ, HIGHEST_HERTZ = 1e3, 1e12
LEAST_WATTS, MOST_WATTS = 1e-9, 1e6
WATTS = {"kw": 1e3, "mw": 1e-3, "w": 1.0}
HERTZ = {"thz": 1e12, "ghz": 1e9, "mhz": 1e6, "khz": 1e3, "hz": 1.0}


class GivenKind:
    """What a given can do. Each class of kinds is one."""

    options: Sequence[tuple[str, str]] = ()

    def read(self, text: str) -> Any:
        """The value of a text. Raises Unreadable, CoreError."""
        raise NotImplementedError

    def write(self, value: Any) -> str:
        """The shortest text that gives exactly this value back."""
        raise NotImplementedError

    def say(self, value: Any, notation: Notation) -> str:
        """The value in a sentence of the course's."""
        raise NotImplementedError

    def words(self, key: str, value: Any, notation: Notation) -> Mapping[str, str]:
        """What stands for the given in texts, by the names that they use."""
        return {key: self.say(value, notation)}


@dataclass(frozen=True)
class Impedance(GivenKind):
    """A passive impedance in ohms; `inf` is an open circuit, None one that is not given."""

    name: str

    def read(self, text: str) -> complex:
        load = complex(passive_impedance(read_complex(text)))
        if np.isfinite(load) and max(load.real, abs(load.imag)) > LARGEST_OHMS:
            raise Unreadable(
                f"The {self.name} must be at most {LARGEST_OHMS:,.0f} ohms in each part; "
                "write inf for an open circuit."
            )
        return load

    def write(self, value: complex) -> str:
        return write_complex(value)

    def say(self, value: complex | None, notation: Notation) -> str:
        return "not given" if value is None else notation.ohms(value)


@dataclass(frozen=True)
class Load(Impedance):
    """The load, with which the first steps begin: in their texts {known} is the end of the line that they begin at,
    {ohms} the impedance there and {mark} the end's mark behind a symbol. A lesson that may begin elsewhere says so."""

    name: str = "load impedance"

    def words(self, key: str, value: complex | None, notation: Notation) -> Mapping[str, str]:
        said = self.say(value, notation)
        return {key: said, "known": "load", "ohms": said, "mark": "L"}


@dataclass(frozen=True)
class LineOhms(GivenKind):
    """The real impedance of a line, in ohms."""

    name: str = "line impedance"

    def read(self, text: str) -> float:
        ohms = read_real(text, "50")
        if not SMALLEST_OHMS <= ohms <= LARGEST_OHMS:
            raise Unreadable(
                f"The {self.name} must be from {SMALLEST_OHMS:g} to {LARGEST_OHMS:,.0f} ohms, "
                f"such as 50, not {ohms:g}."
            )
        return ohms

    def write(self, value: float) -> str:
        return write_number(value)

    def say(self, value: float, notation: Notation) -> str:
        return notation.ohms(value)


@dataclass(frozen=True)
class WantedReactance(GivenKind):
    """A reactance in ohms with its sign, None where none is given."""

    name: str = "reactance"

    def read(self, text: str) -> float:
        value = read_complex(text)
        if not np.isfinite(value) or (value.real and value.imag) or not 0 < abs(value) <= LARGEST_OHMS:
            raise Unreadable(
                f"The {self.name} must be one number of ohms with its sign, such as -35 or j60, and not zero."
            )
        return value.imag or value.real

    def write(self, value: float) -> str:
        return write_number(value)

    def say(self, value: float | None, notation: Notation) -> str:
        if value is None:
            return "not given"
        return f"{'−' if value < 0 else ''}{abs(value):g} Ω"


@dataclass(frozen=True)
class Frequency(GivenKind):
    """A frequency in hertz, or None where lengths stay in wavelengths."""

    def read(self, text: str) -> float:
        number, factor = _without_unit(text, HERTZ)
        hertz = read_real(number, "868 MHz") * factor
        if not LOWEST_HERTZ <= hertz <= HIGHEST_HERTZ:
            raise Unreadable(f"The frequency must be from 1 kHz to 1 THz, such as 868 MHz, not {hertz:g} Hz.")
        return hertz

    def write(self, value: float) -> str:
        """In the unit a person would choose, where that gives the same number back; in hertz otherwise."""
        for unit, words in (("ghz", "GHz"), ("mhz", "MHz"), ("khz", "kHz")):
            number = write_number(value / HERTZ[unit])
            if value >= HERTZ[unit] and float(number) * HERTZ[unit] == value:
                return f"{number} {words}"
        return write_number(value)

    def say(self, value: float | None, notation: Notation) -> str:
        return "no frequency" if value is None else f"{value / 1e6:g} MHz"


@dataclass(frozen=True)
class Power(GivenKind):
    """A power in watts."""

    def read(self, text: str) -> float:
        number, factor = _without_unit(text, WATTS)
        watts = read_real(number, "10 W") * factor
        if not LEAST_WATTS <= watts <= MOST_WATTS:
            raise Unreadable(f"The power must be from 1 nW to 1 MW, such as 10 W, not {watts:g} W.")
        return watts

    def write(self, value: float) -> str:
        return f"{write_number(value)} W"

    def say(self, value: float, notation: Notation) -> str:
        return f"{value:g} W" if value >= 1 else f"{1e3 * value:g} mW"


@dataclass(frozen=True)
class Factor(GivenKind):
    """A number above `above` and at most `most`, such as a velocity factor."""

    name: str
    above: float
    most: float
    such_as: str

    def read(self, text: str) -> float:
        value = read_real(text, self.such_as)
        if not self.above < value <= self.most:
            raise Unreadable(
                f"The {self.name} must be above {self.above:g} and at most {self.most:g}, "
                f"such as {self.such_as}, not {value:g}."
            )
        return value

    def write(self, value: float) -> str:
        return write_number(value)

    def say(self, value: float, notation: Notation) -> str:
        return f"{value:g}"


@dataclass(frozen=True)
class Decibels(Factor):
    """A loss in decibels."""

    def read(self, text: str) -> float:
        return super().read(_without_unit(text, {"db": 1.0})[0])

    def write(self, value: float) -> str:
        return f"{super().write(value)} dB"

    def say(self, value: float, notation: Notation) -> str:
        return f"{super().say(value, notation)} dB"


@dataclass(frozen=True)
class Percent(GivenKind):
    """How much more or less something is than it should be, in percent: above zero for more.

    least, most : of its size."""

    name: str
    least: float
    most: float
    such_as: str

    def read(self, text: str) -> float:
        value = read_real(_without_unit(text, {"%": 1.0})[0], self.such_as)
        if not self.least <= abs(value) <= self.most:
            raise Unreadable(
                f"The {self.name} must be from {self.least:g} to {self.most:g} percent, one way or the other, such as "
                f"{self.such_as} or −{self.such_as}, not {value:g}."
            )
        return value

    def write(self, value: float) -> str:
        return write_number(value)

    def say(self, value: float, notation: Notation) -> str:
        """Its size; which way it is off is for the lesson's words."""
        return f"{abs(value):g} %"


@dataclass(frozen=True)
class Word(GivenKind):
    """One of a few words, each with what a form says for it. `{end}` gives the word, `{an_end}` "a short"."""

    name: str
    among: tuple[tuple[str, str], ...]

    @property
    def options(self) -> Sequence[tuple[str, str]]:  # type: ignore[override]
        return self.among

    def read(self, text: str) -> str:
        word, words = text.strip().lower(), [key for key, _ in self.among]
        if word not in words:
            raise Unreadable(f"The {self.name} must be {' or '.join(words)}, not {quoted(text)}.")
        return word

    def write(self, value: str) -> str:
        return value

    def say(self, value: str, notation: Notation) -> str:
        return value

    def words(self, key: str, value: str, notation: Notation) -> Mapping[str, str]:
        return {key: value, f"an_{key}": f"{'an' if value[0] in 'aeiou' else 'a'} {value}"}


def _without_unit(text: str, units: Mapping[str, float]) -> tuple[str, float]:
    """A text without the unit at its end, and what the unit is worth: 1 where none of these stands there."""
    number = text.strip()
    ending = next((one for one in units if number.lower().endswith(one)), "")
    return number.removesuffix(number[len(number) - len(ending) :]), units.get(ending, 1.0)


def write_number(value: float) -> str:
    """A number as short as it can be without changing."""
    return repr(float(value)).removesuffix(".0")


def write_complex(value: complex) -> str:
    """A complex number as short as it can be without changing."""
    if np.isinf(value):
        return "inf"
    value = complex(value)
    if value.imag == 0:
        return write_number(value.real)
    sign = "-" if value.imag < 0 else "+"
    return f"{write_number(value.real)}{sign}{write_number(abs(value.imag))}j"
