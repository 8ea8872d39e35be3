"""Problem sets: TOML files that a teacher can write, and the set that comes with the program.

    [[problem]]
    key = "whip-868"
    title = "A whip over a float"
    story = "What the student is told, in a sentence or two."
    load = "25 - j40"
    line = 50

and, where they differ from the usual ones, `lesson` and the other texts that the lesson's problems may have; numbers
may stand without quotes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from math import inf
from pathlib import Path
from typing import Any

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson
from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Problem
from lessons.problems.texts import keys_of, read_problem, required

SHIPPED = Path(__file__).parents[1] / "sets"
WORDS = {"key": 40, "title": 120, "story": 600}
"""Texts that each problem of a set needs, and how many characters each may have."""
MOST_PROBLEMS, LONGEST_FILE, LARGEST_NUMBER = 200, 200_000, 1e15


class BadSet(ValueError):
    """A problem set with faults; the message names file, problem and field, then the fault, one a line."""


@cache
def shipped_problems(catalogue: Catalogue) -> tuple[Problem, ...]:
    """The problems of the Aldermoor River Watch, by lesson in the order of the course, from the easiest on."""
    found = [
        problem
        for file in sorted(SHIPPED.glob("*.toml"))
        for problem in read_set(file.read_text("utf-8"), file.name, catalogue, passing_over_unknown=True)
    ]
    order = [lesson.key for lesson in catalogue]
    return tuple(sorted(found, key=lambda problem: order.index(problem.lesson)))


def problems_of(lesson: Lesson, catalogue: Catalogue) -> tuple[Problem, ...]:
    """The shipped problems of one lesson; its usual problem where there is none."""
    found = tuple(one for one in shipped_problems(catalogue) if one.lesson == lesson.key)
    return found or (lesson.problem(key="usual", title=lesson.title),)


def shipped_problem(key: str, catalogue: Catalogue) -> Problem | None:
    """The one of that key, if there is one."""
    return next((problem for problem in shipped_problems(catalogue) if problem.key == key), None)


def read_set(
    text: str, file: str, catalogue: Catalogue, passing_over_unknown: bool = False
) -> tuple[Problem, ...]:
    """The problems of a set in their order. Raises BadSet with every fault found in it.

    passing_over_unknown : leave out problems of lessons that the catalogue does not have."""
    tables = [
        table
        for table in _tables(text, file)
        if not passing_over_unknown or _lesson(table, catalogue) is not None
    ]
    keys: list[object] = [table.get("key") for table in tables]
    faults = [
        _fault(file, f"{number} ({key:.40})" if isinstance(key, str) else f"{number}", field, fault)
        for number, (key, table) in enumerate(zip(keys, tables, strict=True), 1)
        for field, fault in _faults(table, catalogue, keys[: number - 1])
    ]
    if faults:
        raise BadSet("\n\n".join(faults))
    return tuple(_problem(table, lesson) for table in tables if (lesson := _lesson(table, catalogue)))


def _lesson(table: dict[str, Any], catalogue: Catalogue) -> Lesson | None:
    return catalogue.find(table.get("lesson", catalogue.unsaid))


def _tables(text: str, file: str) -> list[dict[str, Any]]:
    if len(text) > LONGEST_FILE:
        raise BadSet(
            _fault(file, "", "", f"The file is too long; a set has at most {LONGEST_FILE} characters.")
        )
    try:
        content = tomllib.loads(text)
    except RecursionError as fault:
        raise BadSet(_fault(file, "", "", "This is not TOML: its brackets are nested too deeply.")) from fault
    except ValueError as fault:  # not TOML, or a number of too many digits
        raise BadSet(_fault(file, "", "", f"This is not TOML: {fault}.")) from fault
    tables = content.get("problem")
    if (
        set(content) != {"problem"}
        or not isinstance(tables, list)
        or not all(isinstance(t, dict) for t in tables)
    ):
        raise BadSet(_fault(file, "", "", "A set is a list of [[problem]] tables and nothing else."))
    if len(tables) > MOST_PROBLEMS:
        raise BadSet(_fault(file, "", "", f"A set has at most {MOST_PROBLEMS} problems, not {len(tables)}."))
    return tables


def _faults(table: dict[str, Any], catalogue: Catalogue, earlier: list[object]) -> Iterator[tuple[str, str]]:
    """Each field at fault with what is wrong with it; `earlier` are the keys of the problems before."""
    lesson = _lesson(table, catalogue)
    if lesson is None:
        known = ", ".join(one.key for one in catalogue)
        yield "lesson", f"{quoted(str(table['lesson']))} is no lesson; those that there are: {known}."
        return
    for field, value in table.items():
        if fault := _fault_of(field, value, lesson):
            yield field, fault
    for field in (*WORDS, *required(lesson)):
        if field not in table:
            yield field, "This field is missing."
    if "key" in table and table["key"] in earlier:
        yield "key", "An earlier problem has this key; each needs one of its own."
    reading = read_problem(_texts(table, lesson), lesson)
    yield from reading.faults.items()
    if not reading.faults and lesson.refuses(reading.problem):
        yield lesson.givens[0].key, lesson.refuses(reading.problem)


def _fault_of(field: str, value: object, lesson: Lesson) -> str:
    if field in WORDS:
        fits = isinstance(value, str) and 0 < len(value.strip()) <= WORDS[field]
        return "" if fits else f"This must be a text of 1 to {WORDS[field]} characters."
    known = (*WORDS, "lesson", *keys_of(lesson))
    if field not in known:
        return f"There is no such field; the fields are {', '.join(known)}."
    if _text(value) is None:
        return "This must be a number of ordinary size, or a text in quotation marks."
    return ""


def _problem(table: dict[str, Any], lesson: Lesson) -> Problem:
    words = {field: table[field].strip() for field in WORDS}
    return replace(read_problem(_texts(table, lesson), lesson).problem, **words)


def _texts(table: dict[str, Any], lesson: Lesson) -> dict[str, str]:
    texts = {key: _text(table[key]) for key in keys_of(lesson) if key in table}
    return {key: text for key, text in texts.items() if text is not None}


def _text(value: object) -> str | None:
    """A text as it stands, a number as it would be typed, None for anything else."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return repr(value) if not abs(value) > LARGEST_NUMBER or value == inf else None


def _fault(file: str, problem: str, field: str, fault: str) -> str:
    where = [f"file: {file}", f"problem: {problem}" if problem else "", f"field: {field}" if field else ""]
    return "\n".join([*filter(None, where), fault])
