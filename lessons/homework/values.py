"""The value in a line of someone's own working, brought into the form that the lesson's field asks for.

Ohms and siemens are normalised, z is turned into y where y is asked, millimetres into wavelengths; whatever was done is
said. Where a value can be meant in two ways, both are given, the likelier first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import nan, tau

import numpy as np

from core.line import swr
from lessons.course.stub_values import inverse, wavelength_mm
from lessons.grammar.kinds import (
    Choice,
    Immittance,
    LengthOfLine,
    Millimetres,
    StandingWaveRatio,
    Susceptance,
)
from lessons.grammar.lesson import Work
from lessons.grammar.notation import Notation
from lessons.grammar.numbers import LONGEST, Unreadable, read_complex, read_length, read_real
from lessons.homework.names import Meaning, simplified

LARGEST_LENGTH = 1.0  # wavelengths; a larger number without a unit is more likely degrees or millimetres
_UNIT = re.compile(r"(.*?)\s*(m?)(?:(S|siemens|mho|℧)|(Ω|Ω|ohms?))\s*", re.DOTALL | re.IGNORECASE)
_OHMS = re.compile(r"Ω|Ω|ohms?", re.IGNORECASE)
_FRACTION = re.compile(r"(\d*\.?\d*)\s*\*?\s*(?:λ|lambda|wl)\s*/\s*(\d+\.?\d*)", re.IGNORECASE)
_RADIANS = re.compile(r"(.*\d)\s*rad(?:ians)?", re.IGNORECASE)
_GUIDE = re.compile(r"(λ|lambda)_?\{?g\}?$", re.IGNORECASE)
_DECIBELS = re.compile(r"(.*\d)\s*dB", re.IGNORECASE)
_AS_MEANT = str.maketrans("JIº˚", "ji°°")  # signs that look alike, or are typed for want of the right one
_METRIC = {"millimetres": 1.0, "centimetres": 10.0, "metres": 1000.0}
_OTHER = {"impedance": "admittance", "admittance": "impedance"}


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


def readings(meaning: Meaning, name: str, value: str, work: Work) -> tuple[Reading, ...]:
    """Every way to understand a value, likeliest first; a single one with a fault where there is none."""
    if len(value) > 2 * LONGEST:
        return (Reading(value),)  # the field itself says that this is too long
    kind = meaning.quantity.fields[0].kind(work)
    if not isinstance(kind, Choice):
        value = value.translate(_AS_MEANT)
    found, faults = [], []
    try:
        for reading in _readings(meaning, name.strip(), value, work):
            try:
                if reading.millimetres is None:  # a length in millimetres has been read already
                    kind.read(reading.text, work.notation)
                found.append(reading)
            except Unreadable as fault:
                faults.append(str(fault))
    except Unreadable as fault:
        faults.append(str(fault))
    metric = nan if isinstance(kind, Millimetres) else None
    return tuple(found) or (Reading(value, millimetres=metric, fault=faults[0]),)


def _readings(meaning: Meaning, name: str, value: str, work: Work) -> Iterator[Reading]:
    kind = meaning.quantity.fields[0].kind(work)
    match kind:
        case Immittance() | Susceptance():
            yield from _Immittances(meaning, name, work).readings(value)
        case LengthOfLine():
            yield from _lengths(value, work)
        case Millimetres():
            yield _metric(kind.read(value, work.notation), work)
        case StandingWaveRatio():
            yield _ratio(name, value, work.notation)
        case Choice():
            yield Reading(chosen(kind, value))
        case _:
            yield Reading(value)


# --- impedances and admittances -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Immittances:
    """Reads values of one field, which asks for an impedance or an admittance, or for its imaginary part."""

    meaning: Meaning
    name: str
    work: Work

    def readings(self, value: str) -> Iterator[Reading]:
        plain, unit, scale = _unit_of(value)
        number = read_complex(plain, self.work.notation.angle)
        given = unit or self._named
        if unit:
            yield self._read(number * scale, given, in_units=True)
            return
        if self.name.startswith(
            tuple("ZYXB")
        ):  # capitals are ohms and siemens in most books, but not in every hand
            yield self._read(number, given, in_units=True)
        if given == self._asked and not self._is_pure:
            yield Reading(plain)
        else:
            yield self._read(number, given, in_units=False)

    @property
    def _asked(self) -> str:
        return "impedance" if self.meaning.quantity.fields[0].names[0][0] in "zx" else "admittance"

    @property
    def _named(self) -> str:
        return _OTHER[self._asked] if self.meaning.swapped else self._asked

    @property
    def _is_pure(self) -> bool:
        return isinstance(self.meaning.quantity.fields[0].kind(self.work), Susceptance)

    def _read(self, number: complex, given: str, *, in_units: bool) -> Reading:
        said = []
        if self._is_pure:
            number = _imaginary(number)
        if in_units:
            number = self._normalised(number, given)
            said.append(
                f"Taken in {'ohms' if given == 'impedance' else 'siemens'}: normalised it is {self._write(number)}."
            )
        if given != self._asked:
            number = inverse(number)
            said.append(f"Given as an {given}: as an {self._asked} it is {self._write(number)}.")
        return Reading(_complex_text(number), " ".join(said))

    def _normalised(self, number: complex, given: str) -> complex:
        problem = self.work.problem
        field = self.meaning.quantity.fields[0]
        ohms = problem.stub_impedance if field.per == "stub" else problem.line_impedance
        return number / ohms if given == "impedance" else number * ohms

    def _write(self, number: complex) -> str:
        return self.work.notation.rectangular(number)


def _unit_of(value: str) -> tuple[str, str, float]:
    """A value without its unit, what the unit measures, and how many of the unit without prefix it is."""
    found = _UNIT.fullmatch(value)
    if not found or not found[1]:
        return value, "", 1.0
    number = _OHMS.sub("", found[1])  # "60 Ω − j80 Ω"
    return number, "admittance" if found[3] else "impedance", 1e-3 if found[2] else 1.0


def _imaginary(number: complex) -> complex:
    """A susceptance or reactance as the imaginary number it stands for, whether j is written or not.

    A number with both parts stays, for the field to say that this is none."""
    if abs(number.real) <= 1e-9 * abs(number.imag):
        return 1j * number.imag
    return number if number.imag else 1j * number.real


def _complex_text(number: complex) -> str:
    if np.isinf(number):
        return "inf"
    return f"{number.real!r}{number.imag:+}j" if number.real else f"{number.imag!r}j"


# --- lengths ------------------------------------------------------------------------------------------------------


def _lengths(value: str, work: Work) -> Iterator[Reading]:
    if found := _FRACTION.fullmatch(value.strip()):
        yield Reading(f"{read_real(found[1] or '1') / _divisor(found[2])!r} wl")
        return
    if found := _RADIANS.fullmatch(value.strip()):
        length = read_real(found[1]) / tau
        yield Reading(f"{length!r} wl", f"Radians of line: {work.notation.wavelengths(length)}.")
        return
    value = _GUIDE.sub("wl", value.strip())
    number, unit = read_length(value)
    if unit in _METRIC:
        yield _metric(number * _METRIC[unit], work)
        return
    yield Reading(value)
    if value[-1:].isdigit():
        yield from _without_unit(number, work)


def _without_unit(number: float, work: Work) -> Iterator[Reading]:
    """What else a bare number can mean: no chart shows 40 wavelengths, and nobody reads off 0.1 degree."""
    if abs(number) <= LARGEST_LENGTH:
        if work.notation.length == "degrees":
            yield Reading(f"{number!r} wl", "Taken in wavelengths, as no unit stands there.")
        return
    if work.notation.length != "degrees":
        yield Reading(f"{number!r} deg", "Taken in degrees of line, as no unit stands there.")
    if work.problem.frequency:
        metric = _metric(number, work)
        yield Reading(metric.text, "Taken in millimetres, as no unit stands there.", metric.millimetres)


def _divisor(text: str) -> float:
    if not (number := read_real(text)):
        raise Unreadable("A wavelength cannot be divided by zero; write a length such as λ/8.")
    return number


def _metric(millimetres: float, work: Work) -> Reading:
    if not work.problem.frequency:
        raise Unreadable(
            "Millimetres say something only with a frequency: add it to the problem, or give wavelengths."
        )
    return Reading(f"{millimetres / wavelength_mm(work)!r} wl", millimetres=millimetres)


# --- ratios and choices -------------------------------------------------------------------------------------------


def _ratio(name: str, value: str, notation: Notation) -> Reading:
    if "|" in name:
        size = read_real(value, "0.59")
        if not 0 <= size < 1:
            raise Unreadable("The size of a reflection is 0 or more and, where power is taken, below 1.")
        ratio = float(swr(size))
        said = f"Given as |Γ|: as a standing-wave ratio it is {notation.number(ratio, 2)}."
        return Reading(repr(ratio), said)
    if found := _DECIBELS.fullmatch(value.strip()):
        ratio = 10 ** (min(read_real(found[1]), 400.0) / 20)
        return Reading(repr(ratio), f"Given in decibels: as a plain ratio it is {notation.number(ratio, 2)}.")
    return Reading(value)


def chosen(kind: Choice, value: str) -> str:
    """The key of the option that these words mean, the value itself where they mean none or several."""
    wanted = _bare(value)
    said = [key for key, words in kind.options if wanted and wanted in _bare(words)]
    named = [key for key, _ in kind.options if _bare(key) in wanted]
    return begun(kind, value) or next((found[0] for found in (said, named) if len(found) == 1), value)


def begun(kind: Choice, value: str) -> str:
    """The key of the option that is named so or begins so, such as `g = 1`; "" where there is none, or several."""
    wanted = _bare(value)
    exact = [key for key, _ in kind.options if wanted == _bare(key)]
    begins = [key for key, words in kind.options if len(wanted) > 1 and _bare(words).startswith(wanted)]
    return next((found[0] for found in (exact, begins) if len(found) == 1), "")


def _bare(words: str) -> str:
    """Words without articles, spaces and signs."""
    return simplified(re.sub(r"\b(the|a|an)\b", " ", words, flags=re.IGNORECASE))
