"""A student for the tests: types values into a sheet as people write them, not as the program does."""

from cmath import phase
from collections.abc import Mapping
from dataclasses import replace
from itertools import product
from math import degrees, isfinite
from typing import Any

from core import single_stub
from lessons.course.catalogue import CATALOGUE
from lessons.course.near_and_far import BOTH
from lessons.course.series_stub import LESSON as SERIES_LESSON
from lessons.course.shunt_stub import LESSON
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.kinds import Kind, PartValue, Reflection
from lessons.grammar.lesson import Field, Lesson, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.problems import seeds, set_files, sets
from lessons.problems import texts as problem_texts
from lessons.saved import links, notations, records
from lessons.working.attempts import Entry
from lessons.working.sheet import Sheet

SIDES = tuple(branch.key for branch in BOTH)
DEFAULT = LESSON.problem()
KEYS = problem_texts.keys_of(LESSON)
HALF_TURN, OVERLAY = Notation(admittance="half turn"), Notation(admittance="overlay")
CHOICES = {
    "admittance": ("half turn", "overlay"),
    "imaginary": ("j", "i"),
    "angle": ("degrees", "radians"),
    "length": ("wavelengths", "degrees"),
}
NOTATIONS = [
    notations.notation_from(dict(zip(CHOICES, words, strict=True)) | {"d": "D", "l": "ℓ₂"}, LESSON.symbols)[0]
    for words in product(*CHOICES.values())
]


FACTS = ("accuracy", "key", "title", "story", "without")


STUBS = (LESSON, SERIES_LESSON)
"""The lessons of a single stub."""
PLACEMENTS = {LESSON.key: "shunt", SERIES_LESSON.key: "series"}


def problem(
    load: complex = DEFAULT["load"], line: float = 50.0, lesson: Lesson = LESSON, **others: Any
) -> Problem:
    """A problem, its stub like its line unless said otherwise."""
    facts = {name: others.pop(name) for name in FACTS if name in others}
    return lesson.problem({"load": load, "line": line, **others}, **facts)


def changed(given: Problem, **others: Any) -> Problem:
    """A problem with other givens."""
    facts = {name: others.pop(name) for name in FACTS if name in others}
    return replace(given, givens={**given.givens, **others}, **facts)


def shipped_problems(lesson: Lesson = LESSON) -> tuple[Problem, ...]:
    """The shipped problems of the lesson."""
    return sets.problems_of(lesson, CATALOGUE)


def shipped_problem(key: str) -> Problem | None:
    """The shipped problem of that key, if there is one."""
    return sets.shipped_problem(key, CATALOGUE)


def shipped(key: str) -> Problem:
    """The shipped problem of that key, of whatever lesson."""
    return next(p for lesson in CATALOGUE for p in shipped_problems(lesson) if p.key == key)


def random_problem(seed: int, lesson: Lesson = LESSON, difficulty: Difficulty = ANY) -> Problem:
    """A random problem of the lesson."""
    return seeds.random_problem(seed, lesson, difficulty=difficulty)


def ambiguities(given: Problem) -> tuple[str, ...]:
    """What could be taken for a right answer in a problem of the lesson."""
    return seeds.ambiguities(given, LESSON)


def read_problem(texts: Mapping[str, str]) -> problem_texts.Reading:
    """A problem of the lesson from texts."""
    return problem_texts.read_problem(texts, LESSON)


def write_problem(given: Problem) -> dict[str, str]:
    """A problem of the lesson as texts."""
    return problem_texts.write_problem(given, LESSON)


def read_set(text: str, file: str) -> tuple[Problem, ...]:
    """The problems of a set."""
    return set_files.read_set(text, file, CATALOGUE).problems


def notation_from(texts: Mapping[str, str]) -> tuple[Notation, dict[str, str]]:
    """A notation with the lesson's symbols."""
    return notations.notation_from(texts, LESSON.symbols)


def notation_texts(notation: Notation) -> dict[str, str]:
    """A notation with the lesson's symbols as texts."""
    return notations.notation_texts(notation, LESSON.symbols)


def sheet_from_record(record: object) -> Sheet:
    """A sheet of the catalogue that was saved."""
    return records.sheet_from_record(record, CATALOGUE)


def sheet_from_link(packed: str) -> Sheet:
    """A sheet of the catalogue from a link."""
    return links.sheet_from_link(packed, CATALOGUE)


def read_link(query: Mapping[str, str]) -> links.Linked:
    """What an address asks for."""
    return links.read_link(query, CATALOGUE)


def problem_link(sheet: Sheet) -> str:
    """The query that opens a sheet's problem."""
    return links.problem_query(sheet.problem, sheet.notation, CATALOGUE)


def blank(given: Problem, notation: Notation = HALF_TURN) -> Sheet:
    """A clean sheet of the problem's lesson."""
    lesson = CATALOGUE.find(given.lesson)
    assert lesson is not None
    return Sheet(lesson, given, notation)


def fields_of(sheet: Sheet) -> list[Field]:
    """Every field the sheet asks for, in order."""
    return [one for step in sheet.steps for one in step.fields]


def typed(kind: Kind, value: Any, decimals: int = 3) -> str:
    """A value with so many decimals: lengths in wavelengths or millimetres, reflections as size and degrees."""
    if isinstance(value, str):
        return value
    if isinstance(value, complex) and not isfinite(abs(value)):
        return "inf"
    if isinstance(kind, PartValue):
        return kind.write(value, STANDARD)
    if isinstance(kind, Reflection):
        return f"{abs(value):.{decimals}f} < {degrees(phase(value)):.{decimals}f} deg"
    if isinstance(value, complex):
        return f"{value.real:.{decimals}f} {value.imag:+.{decimals}f}j"
    return f"{value:.{decimals}f}"


def answers(work: Work, sheet: Sheet, decimals: int = 3) -> dict[str, str]:
    """What a student with these values writes into every field; lengths carry their unit."""
    return {
        one.key: typed(one.kind(work), work[one.key], decimals) + unit_of(one.kind(work))
        for one in fields_of(sheet)
    }


def unit_of(kind: Kind) -> str:
    """The unit that a length is written with."""
    return " wl" if kind.length_in == "wavelengths" else ""


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
    placement = PLACEMENTS[given.lesson]
    near, far = single_stub(given["load"], given["line"], given["stub"], placement, given["end"])
    return {
        "distance.near": near.distance,
        "length.near": near.stub_length,
        "distance.far": far.distance,
        "length.far": far.stub_length,
    }
