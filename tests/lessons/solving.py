"""A student for the tests: types values into a sheet as people write them, not as the program does."""

from cmath import phase
from collections.abc import Mapping
from itertools import product
from math import degrees, isfinite
from typing import Any

from core import single_stub
from lessons.course.shunt_stub import LESSON
from lessons.grammar.kinds import Kind, Reflection
from lessons.grammar.lesson import Field, Problem, Work
from lessons.grammar.notation import Notation
from lessons.problems.seeds import DEFAULT, shipped_problems
from lessons.saved.records import notation_from
from lessons.working.sheet import Entry, Sheet

HALF_TURN, OVERLAY = Notation(admittance="half turn"), Notation(admittance="overlay")
CHOICES = {
    "admittance": ("half turn", "overlay"),
    "imaginary": ("j", "i"),
    "angle": ("degrees", "radians"),
    "length": ("wavelengths", "degrees"),
}
NOTATIONS = [
    notation_from(dict(zip(CHOICES, words, strict=True)) | {"d": "D", "l": "ℓ₂"})[0]
    for words in product(*CHOICES.values())
]


def problem(load: complex = DEFAULT.load_impedance, line: float = 50.0, **others: Any) -> Problem:
    """A problem, its stub like its line unless said otherwise."""
    return Problem(**{"load_impedance": load, "line_impedance": line, "stub_impedance": line} | others)


def shipped(key: str) -> Problem:
    """The shipped problem of that key."""
    return next(p for p in shipped_problems() if p.key == key)


def blank(given: Problem, notation: Notation = HALF_TURN) -> Sheet:
    """A clean sheet of the lesson."""
    return Sheet(LESSON, given, notation)


def fields_of(sheet: Sheet) -> list[Field]:
    """Every field the sheet asks for, in order."""
    return [one for step in sheet.steps for one in step.fields]


def typed(kind: Kind, value: Any, decimals: int = 3) -> str:
    """A value with so many decimals: lengths in wavelengths or millimetres, reflections as size and degrees."""
    if isinstance(value, str):
        return value
    if isinstance(value, complex) and not isfinite(abs(value)):
        return "inf"
    if isinstance(kind, Reflection):
        return f"{abs(value):.{decimals}f} < {degrees(phase(value)):.{decimals}f} deg"
    if isinstance(value, complex):
        return f"{value.real:.{decimals}f} {value.imag:+.{decimals}f}j"
    return f"{value:.{decimals}f}"


def answers(work: Work, sheet: Sheet, decimals: int = 3) -> dict[str, str]:
    """What a student with these values writes into every field; lengths carry their unit."""
    texts = {one.key: typed(one.kind(work), work[one.key], decimals) for one in fields_of(sheet)}
    return {key: text + unit_of(key) for key, text in texts.items()}


def unit_of(key: str) -> str:
    """The unit that a length is written with."""
    return " wl" if key.split(".")[0] in ("distance", "length") else ""


def filled(sheet: Sheet, texts: Mapping[str, str]) -> Sheet:
    """The sheet with all these texts in it at once."""
    entries = {key: Entry(text) for key, text in texts.items()}
    return Sheet(sheet.lesson, sheet.problem, sheet.notation, {**sheet.entries, **entries}, sheet.hints)


def solved(given: Problem, notation: Notation = HALF_TURN, decimals: int = 3) -> Sheet:
    """A sheet with the solver's own answers typed into it."""
    sheet = blank(given, notation)
    return filled(sheet, answers(sheet.truth, sheet, decimals))


def by_the_core(given: Problem) -> dict[str, float]:
    """Distances and stub lengths by the core's designer."""
    near, far = single_stub(
        given.load_impedance, given.line_impedance, given.stub_impedance, "shunt", given.end
    )
    return {
        "distance.near": near.distance,
        "length.near": near.stub_length,
        "distance.far": far.distance,
        "length.far": far.stub_length,
    }
