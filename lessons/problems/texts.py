"""A problem as short texts: what a link carries, a form holds, and a problem set spells out.

Whatever comes in is checked. A text that cannot be meant gets one sentence, and the default takes its place, so that a
link with bad values still opens; a form asks again instead.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from core import CoreError
from core.checks import passive_impedance
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Lesson, Problem
from lessons.grammar.numbers import Unreadable, quoted, read_complex, read_real

DEFAULT = Problem(25 - 40j)
SMALLEST_OHMS, LARGEST_OHMS = 1e-3, 1e6
LOWEST_HERTZ, HIGHEST_HERTZ = 1e3, 1e12
HERTZ = {"thz": 1e12, "ghz": 1e9, "mhz": 1e6, "khz": 1e3, "hz": 1.0}
MUST_STAND = ("load", "line")  # an empty text means the default everywhere else


@dataclass(frozen=True)
class Reading:
    """A problem read from texts, with one sentence in `faults` for each text that could not be used."""

    problem: Problem
    faults: dict[str, str]


def read_problem(texts: Mapping[str, str], lesson: Lesson = LESSON) -> Reading:
    """The problem that these texts describe; keys are those of `READERS` and `without`, others are passed over.

    Never raises: what cannot be used is left at its default and named in `faults`. What the lesson itself refuses,
    such as a load that is matched already, is no fault of the texts."""
    found: dict[str, Any] = {}
    faults: dict[str, str] = {}
    readers = {**READERS, "without": ("without", lambda text: _read_without(text, lesson))}
    for key, (name, read) in readers.items():
        text = texts.get(key)
        if text is None or (key not in MUST_STAND and not text.strip()):
            continue
        try:
            found[name] = read(text)
        except (Unreadable, CoreError) as fault:
            faults[key] = str(fault)
    found.setdefault("stub_impedance", found.get("line_impedance", DEFAULT.line_impedance))
    return Reading(replace(DEFAULT, **found), faults)


def write_problem(problem: Problem) -> dict[str, str]:
    """The texts that give exactly this problem back: its load and line, and whatever else is not the default."""
    texts = {"load": _write_complex(problem.load_impedance), "line": _write_number(problem.line_impedance)}
    if problem.stub_impedance != problem.line_impedance:
        texts["stub"] = _write_number(problem.stub_impedance)
    if problem.end != DEFAULT.end:
        texts["end"] = problem.end
    if problem.frequency is not None:
        texts["frequency"] = _write_frequency(problem.frequency)
    if problem.velocity_factor != DEFAULT.velocity_factor:
        texts["velocity"] = _write_number(problem.velocity_factor)
    if problem.accuracy != DEFAULT.accuracy:
        texts["accuracy"] = problem.accuracy
    if problem.without:
        texts["without"] = ",".join(sorted(problem.without))
    return texts


# --- one reader for each text --------------------------------------------------------------------------------------


def _read_load(text: str) -> complex:
    load = complex(passive_impedance(read_complex(text)))
    if np.isfinite(load) and max(load.real, abs(load.imag)) > LARGEST_OHMS:
        raise Unreadable(
            f"The load impedance must be at most {LARGEST_OHMS:,.0f} ohms in each part; write inf for an open circuit."
        )
    return load


def _line_reader(name: str) -> Callable[[str], float]:
    def read(text: str) -> float:
        ohms = read_real(text, "50")
        if not SMALLEST_OHMS <= ohms <= LARGEST_OHMS:
            raise Unreadable(
                f"The {name} must be from {SMALLEST_OHMS:g} to {LARGEST_OHMS:,.0f} ohms, such as 50, not {ohms:g}."
            )
        return ohms

    return read


def _read_frequency(text: str) -> float:
    number, unit = text.strip(), "hz"
    for ending in HERTZ:
        if number.lower().endswith(ending):
            number, unit = number[: -len(ending)], ending
            break
    hertz = read_real(number, "868 MHz") * HERTZ[unit]
    if not LOWEST_HERTZ <= hertz <= HIGHEST_HERTZ:
        raise Unreadable(f"The frequency must be from 1 kHz to 1 THz, such as 868 MHz, not {hertz:g} Hz.")
    return hertz


def _read_velocity(text: str) -> float:
    value = read_real(text, "0.66")
    if not 0 < value <= 1:
        raise Unreadable(f"The velocity factor must be above 0 and at most 1, such as 0.66, not {value:g}.")
    return value


def _word_reader(name: str, *words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        word = text.strip().lower()
        if word not in words:
            raise Unreadable(f"The {name} must be {' or '.join(words)}, not {quoted(text)}.")
        return word

    return read


def _read_without(text: str, lesson: Lesson) -> frozenset[str]:
    known = [step.key for step in lesson.steps]
    named = {word.strip() for word in text.split(",")} - {""}
    if unknown := sorted(named - set(known)):
        raise Unreadable(
            f"{quoted(unknown[0])} is no step of this lesson; those that can be left out are {', '.join(known)}."
        )
    if named == set(known):
        raise Unreadable("With every step left out nothing would remain to do; leave at least one step in.")
    return frozenset(named)


READERS: dict[str, tuple[str, Callable[[str], Any]]] = {
    "load": ("load_impedance", _read_load),
    "line": ("line_impedance", _line_reader("line impedance")),
    "stub": ("stub_impedance", _line_reader("stub impedance")),
    "end": ("end", _word_reader("stub's end", "short", "open")),
    "frequency": ("frequency", _read_frequency),
    "velocity": ("velocity_factor", _read_velocity),
    "accuracy": ("accuracy", _word_reader("accuracy", "chart", "calculated")),
}
KEYS = (*READERS, "without")


# --- and the way back ----------------------------------------------------------------------------------------------


def _write_number(value: float) -> str:
    return repr(float(value)).removesuffix(".0")


def _write_complex(value: complex) -> str:
    if np.isinf(value):
        return "inf"
    value = complex(value)
    if value.imag == 0:
        return _write_number(value.real)
    sign = "-" if value.imag < 0 else "+"
    return f"{_write_number(value.real)}{sign}{_write_number(abs(value.imag))}j"


def _write_frequency(hertz: float) -> str:
    """In the unit a person would choose, where that gives the same number back; in hertz otherwise."""
    for unit, words in (("ghz", "GHz"), ("mhz", "MHz"), ("khz", "kHz")):
        number = _write_number(hertz / HERTZ[unit])
        if hertz >= HERTZ[unit] and float(number) * HERTZ[unit] == hertz:
            return f"{number} {words}"
    return _write_number(hertz)
