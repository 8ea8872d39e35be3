"""Lengths of line, in wavelengths and in millimetres."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import floor, log10, tau
from typing import Any, Literal

from core.chart import rim_position
from core.line import half_wave_difference
from lessons.grammar.kinds.base import (
    LENGTH_TOLERANCE,
    Accuracy,
    Kind,
    Oddity,
    Reading,
    Said,
    has_no_unit,
    relative,
)
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import LENGTH_UNITS, METRIC, Unreadable, read_length
from lessons.grammar.reckoning import in_wavelengths, reckon_real

HALF_WAVE = 0.5  # wavelengths; one turn of the chart
MOST_WAVES = 10  # what is longer is not meant
LARGEST_LENGTH = 1.0  # wavelengths; a larger number without a unit is more likely degrees or millimetres
HALVES_REPEAT = (
    "Right: lengths repeat every half wavelength. The shorter one, without the extra halves, is usual."
)
NEGATIVE = Oddity("A length of line cannot be negative: measure it toward the generator.")
LEFT_NEGATIVE = Oddity(
    "The scale starts again after half a wavelength: add {half_wave} to it.",
    slip="negative length",
    doing="leaving a negative length",
)
NO_WAVE = Oddity("A wave is longer than nothing: check the number.")
BEFORE_THE_START = Oddity(
    "The scale has nothing below zero, since it starts again there: add {half_wave} to it.",
    slip="before the scale's start",
    doing="leaving a negative reading",
)
PAST_THE_END = Oddity(
    "The scale ends at {half_wave} and starts again: take {half_wave} off, as often as it fits.",
    slip="past the scale's end",
    doing="reading on past the end of the scale",
)
_PHASE = re.compile(r"(?:β|beta)", re.IGNORECASE)
_SUM = re.compile(r"[\dλa)°]\s*[-+/*(]|rad|[λa]\s*/|\(")
_GUIDE = re.compile(r"(λ|lambda)_?\{?g\}?$", re.IGNORECASE)


@dataclass(frozen=True)
class LengthOfLine(Kind):
    """A length of line in wavelengths. Lengths half a wavelength apart are equal on a lossless line.

    arithmetic : whether it is calculated, so that no chart excuses it; it has a decimal more then."""

    example: str = "0.172"
    arithmetic: bool = field(default=False, kw_only=True)
    length_in = "wavelengths"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "wavelengths" and notation.length == "degrees" and has_no_unit(text):
            unit = "degrees"
        if unit not in ("wavelengths", "degrees"):
            raise Unreadable("This length is wanted in wavelengths (or degrees of line), not in metres.")
        value = value / 360 if unit == "degrees" else value
        if abs(value) > MOST_WAVES:
            raise Unreadable("That is more than ten wavelengths; half a wavelength is all a chart can tell.")
        return value

    def write(self, value: float, notation: Notation) -> str:
        return notation.wavelengths(value, int(self.arithmetic))

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        tolerance = LENGTH_TOLERANCE["calculated" if self.arithmetic else accuracy]
        return float(abs(half_wave_difference(value, other))) / tolerance

    def unit(self, notation: Notation) -> str:
        return notation.length_unit

    def drawn(self, answer: Any, read_as: str) -> float:
        return abs(float(answer))  # a way is as long as it is, whichever way round; marking asks which it was

    def oddity(self, value: float, expected: float, accuracy: Accuracy) -> Oddity | None:
        if value >= 0:
            return None
        return LEFT_NEGATIVE if self.off_by(value, expected, accuracy) <= 1 else NEGATIVE

    def praise(self, value: float) -> str:
        return HALVES_REPEAT if value >= 0.5 and not self.arithmetic else "Right."

    def where(self, value: float, expected: float, notation: Notation) -> str:
        off, written = _roughly_off(value, expected, notation)
        return f"It is {written} too {'long' if off > 0 else 'short'}."

    def understood(self, said: Said) -> Iterator[Reading]:
        value = _GUIDE.sub("wl", said.value.strip())
        if _PHASE.match(said.name):
            yield from _as_phase(value, said)
            return
        try:
            number, unit = read_length(value)
            reckoned = False
        except Unreadable as fault:
            number, unit = _reckoned(value, fault)
            reckoned = True
        if unit in METRIC:
            yield _metric(number * METRIC[unit], said)
        elif reckoned:
            yield from _from_sum(number, unit or said.notation.length, said)
        else:
            yield Reading(value)
            if value[-1:].isdigit():
                yield from _without_unit(number, said)


@dataclass(frozen=True)
class ScaleReading(LengthOfLine):
    """A reading of a scale of wavelengths on the rim, which starts again after half a wavelength.

    start : the reading where a drawn walk begins.  toward : whose scale it is, "generator" or "load"."""

    start: float = 0.0
    toward: str = "generator"
    stands_for = "reading"

    def drawn(self, answer: Any, read_as: str) -> float:
        """Where a walk ends, or what stands beside a point."""
        beside = float(rim_position(answer)) if isinstance(answer, complex) else float(answer)
        start = 0.0 if isinstance(answer, complex) else self.start
        return (start + (beside if self.toward == "generator" else -beside)) % HALF_WAVE

    def oddity(self, value: float, expected: float, accuracy: Accuracy) -> Oddity | None:
        if 0 <= value <= HALF_WAVE or self.off_by(value, expected, accuracy) > 1:
            return None
        return BEFORE_THE_START if value < 0 else PAST_THE_END

    def where(self, value: float, expected: float, notation: Notation) -> str:
        off, written = _roughly_off(value, expected, notation)
        return f"It is {written} too {'large' if off > 0 else 'small'}."


@dataclass(frozen=True)
class Millimetres(Kind):
    """A length in millimetres of a line whose wavelength is known; equal where half a wavelength apart."""

    wavelength_mm: float
    example: str = "23.4"
    arithmetic: bool = True
    length_in = "millimetres"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "degrees" or (unit == "wavelengths" and not has_no_unit(text)):
            raise Unreadable("This length is wanted in millimetres.")
        return value * METRIC.get(unit, 1.0)

    def write(self, value: float, notation: Notation) -> str:
        fine_enough = max(1, 3 - floor(log10(self.wavelength_mm)))  # half a thousandth of a wave at most
        return f"{notation.number(value, fine_enough)} mm"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        waves = value / self.wavelength_mm, other / self.wavelength_mm
        if max(map(abs, waves)) > MOST_WAVES:  # no length with some halves more
            return self.off_as_written(value, other, accuracy)
        return LengthOfLine().off_by(*waves, accuracy)

    def off_as_written(self, value: float, other: float, accuracy: Accuracy) -> float:
        """A slip by powers of ten, say, gives one number and none that is half a wave away."""
        return abs(value - other) / self.wavelength_mm / LENGTH_TOLERANCE[accuracy]

    def unit(self, notation: Notation) -> str:
        return "mm"

    def oddity(self, value: float, expected: float, accuracy: Accuracy) -> Oddity | None:
        return NEGATIVE if value < 0 else None

    def praise(self, value: float) -> str:
        return HALVES_REPEAT if value >= 0.5 * self.wavelength_mm else "Right."

    def where(self, value: float, expected: float, notation: Notation) -> str:
        waves = value / self.wavelength_mm
        if waves > MOST_WAVES:
            return f"It is far too long: more than {MOST_WAVES} wavelengths."
        return LengthOfLine().where(waves, expected / self.wavelength_mm, notation)

    def understood(self, said: Said) -> Iterator[Reading]:
        yield _metric(self.read(said.value, said.notation), said)


@dataclass(frozen=True)
class Wavelength(Kind):
    """How long a wave is on a line, in millimetres or in centimetres. about : the size that its digits have to fit."""

    about: float
    example: str = "412.5"
    written_in: Literal["mm", "cm"] = "mm"
    arithmetic: bool = True
    length_in = "millimetres"

    def read(self, text: str, notation: Notation) -> float:
        value, unit = read_length(text)
        if unit == "degrees" or (unit == "wavelengths" and not has_no_unit(text)):
            name = {"mm": "millimetres", "cm": "centimetres"}[self.written_in]
            raise Unreadable(f"A wavelength is wanted in {name} here, such as {self.example}.")
        own = METRIC[LENGTH_UNITS[self.written_in]]
        return value * METRIC.get(unit, own) / own

    def write(self, value: float, notation: Notation) -> str:
        return Millimetres(self.about).write(value, notation).replace("mm", self.written_in)

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return relative(value, other)

    def unit(self, notation: Notation) -> str:
        return self.written_in

    def oddity(self, value: float, expected: float, accuracy: Accuracy) -> Oddity | None:
        return NO_WAVE if value <= 0 else None

    def where(self, value: float, expected: float, notation: Notation) -> str:
        return f"The wave is {'shorter' if value > expected else 'longer'} than that."


def _roughly_off(value: float, expected: float, notation: Notation) -> tuple[float, str]:
    """How far a length is off, and its size to a twentieth of a wavelength: a direction, not the answer."""
    off = float(half_wave_difference(value, expected))
    rough = round(abs(off) * 20) / 20
    if not rough:
        return off, "a little"
    return off, f"some {rough * 360:.0f}°" if notation.length == "degrees" else f"some {rough:.2f} wavelength"


def _without_unit(number: float, said: Said) -> Iterator[Reading]:
    """What else a bare number can mean: no chart shows 40 wavelengths, and nobody reads off 0.1 degree."""
    if abs(number) <= LARGEST_LENGTH:
        if said.notation.length == "degrees":
            yield Reading(f"{number!r} wl", "Taken in wavelengths, as no unit stands there.")
        return
    if said.notation.length != "degrees":
        yield Reading(f"{number!r} deg", "Taken in degrees of line, as no unit stands there.")
    if said.wavelength_mm:
        metric = _metric(number, said)
        yield Reading(metric.text, "Taken in millimetres, as no unit stands there.", metric.millimetres)


def _reckoned(value: str, fault: Unreadable) -> tuple[float, str]:
    """A length as a sum or a fraction; the fault of the plain length stands where it is neither. Raises Unreadable."""
    if not _SUM.search(value):
        raise fault
    return reckon_real(value)


def _from_sum(number: float, unit: str, said: Said) -> Iterator[Reading]:
    length = in_wavelengths(number, unit)
    written = said.notation.wavelengths(length)
    yield Reading(f"{length!r} wl", f"{'Radians of line' if unit == 'radians' else 'Worked out'}: {written}.")


def _as_phase(value: str, said: Said) -> Iterator[Reading]:
    """βd: a length as the angle that it turns a wave by; without a unit in radians, unless it is too large for that."""
    number, unit = reckon_real(value)
    if unit not in ("", "degrees", "radians"):
        raise Unreadable("A phase βd is an angle; write degrees such as 39.7°, or leave the β out.")
    bare = ("degrees",) if abs(number) > tau else ("radians", "degrees")
    for one in (unit,) if unit else bare:
        length = in_wavelengths(number, one)
        yield Reading(
            f"{length!r} wl", f"A phase in {one}: a length of line of {said.notation.wavelengths(length)}."
        )


def _metric(millimetres: float, said: Said) -> Reading:
    if not said.wavelength_mm:
        raise Unreadable(
            "Millimetres say something only with a frequency: add it to the problem, or give wavelengths."
        )
    return Reading(f"{millimetres / said.wavelength_mm!r} wl", millimetres=millimetres)
