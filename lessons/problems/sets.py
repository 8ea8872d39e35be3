"""Problem sets: TOML files that a teacher can write, and the set that comes with the program.

    [[problem]]
    key = "whip-868"
    title = "A whip over a float"
    story = "What the student is told, in a sentence or two."
    load = "25 - j40"
    line = 50

and, where they differ from the usual ones, the other texts of `problem_texts.KEYS`; numbers may stand without quotes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from math import inf
from pathlib import Path
from typing import Any

from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Lesson, Problem
from lessons.problems.texts import KEYS, MUST_STAND, read_problem

SHIPPED = Path(__file__).parents[1] / "sets" / "aldermoor.toml"
WORDS = {"key": 40, "title": 120, "story": 600}
"""Texts that each problem of a set needs, and how many characters each may have."""
MOST_PROBLEMS, LONGEST_FILE, LARGEST_NUMBER = 200, 200_000, 1e15


class BadSet(ValueError):
    """A problem set with faults; the message names file, problem and field, then the fault, one a line."""


@cache
def shipped_problems() -> tuple[Problem, ...]:
    """The problems of the Aldermoor River Watch, from the easiest on."""
    return read_set(SHIPPED.read_text("utf-8"), SHIPPED.name)


def shipped_problem(key: str) -> Problem | None:
    """The one of that key, if there is one."""
    return next((problem for problem in shipped_problems() if problem.key == key), None)


def read_set(text: str, file: str, lesson: Lesson = LESSON) -> tuple[Problem, ...]:
    """The problems of a set in their order. Raises BadSet with every fault found in it."""
    tables = _tables(text, file)
    keys: list[object] = [table.get("key") for table in tables]
    faults = [
        _fault(file, f"{number} ({key:.40})" if isinstance(key, str) else f"{number}", field, fault)
        for number, (key, table) in enumerate(zip(keys, tables, strict=True), 1)
        for field, fault in _faults(table, lesson, keys[: number - 1])
    ]
    if faults:
        raise BadSet("\n\n".join(faults))
    return tuple(_problem(table, lesson) for table in tables)


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


def _faults(table: dict[str, Any], lesson: Lesson, earlier: list[object]) -> Iterator[tuple[str, str]]:
    """Each field at fault with what is wrong with it; `earlier` are the keys of the problems before."""
    for field, value in table.items():
        if fault := _fault_of(field, value):
            yield field, fault
    for field in (*WORDS, *MUST_STAND):
        if field not in table:
            yield field, "This field is missing."
    if "key" in table and table["key"] in earlier:
        yield "key", "An earlier problem has this key; each needs one of its own."
    reading = read_problem(_texts(table), lesson)
    yield from reading.faults.items()
    if not reading.faults and lesson.refuses(reading.problem):
        yield "load", lesson.refuses(reading.problem)


def _fault_of(field: str, value: object) -> str:
    if field in WORDS:
        fits = isinstance(value, str) and 0 < len(value.strip()) <= WORDS[field]
        return "" if fits else f"This must be a text of 1 to {WORDS[field]} characters."
    if field not in KEYS:
        return f"There is no such field; the fields are {', '.join((*WORDS, *KEYS))}."
    if _text(value) is None:
        return "This must be a number of ordinary size, or a text in quotation marks."
    return ""


def _problem(table: dict[str, Any], lesson: Lesson) -> Problem:
    words = {field: table[field].strip() for field in WORDS}
    return replace(read_problem(_texts(table), lesson).problem, **words)


def _texts(table: dict[str, Any]) -> dict[str, str]:
    texts = {key: _text(table[key]) for key in KEYS if key in table}
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
