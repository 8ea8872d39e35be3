"""Problem sets: TOML files that a teacher can write, and the set that comes with the program.

    [[problem]]
    key = "whip-868"
    title = "A whip over a float"
    story = "What the student is told, in a sentence or two."
    load = "25 - j40"

and, where they differ from the usual ones, the other texts of `problem_texts.KEYS`; numbers may stand without quotes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from lessons.lesson import Lesson, Problem
from lessons.problem_texts import KEYS, read_problem
from lessons.shunt_stub import LESSON

SHIPPED = Path(__file__).parent / "sets" / "aldermoor.toml"
WORDS = {"key": 40, "title": 120, "story": 600}
"""Texts that each problem of a set needs, and how many characters each may have."""
MOST_PROBLEMS, LONGEST_FILE = 200, 200_000


class BadSet(ValueError):
    """A problem set with faults; the message names file, problem and field, then the fault, one a line."""


@cache
def shipped_problems() -> tuple[Problem, ...]:
    """The problems of the Aldermoor River Watch, from the easiest on."""
    return read_set(SHIPPED.read_text("utf-8"), SHIPPED.name)


def read_set(text: str, file: str, lesson: Lesson = LESSON) -> tuple[Problem, ...]:
    """The problems of a set in their order. Raises BadSet with every fault found in it."""
    tables = _tables(text, file)
    faults: list[str] = []
    problems: list[Problem] = []
    for number, table in enumerate(tables, 1):
        name = f"{number} ({table['key']})" if isinstance(table.get("key"), str) else str(number)
        found = [_fault(file, name, field, fault) for field, fault in _faults(table, lesson)]
        faults += found
        if not found:
            problems.append(_problem(table, lesson))
    keys = [problem.key for problem in problems]
    faults += [
        _fault(
            file, str(i + 1), "key", f"“{key}” is the key of an earlier problem; each needs one of its own."
        )
        for i, key in enumerate(keys)
        if key in keys[:i]
    ]
    if faults:
        raise BadSet("\n\n".join(faults))
    return tuple(problems)


def _tables(text: str, file: str) -> list[dict[str, Any]]:
    if len(text) > LONGEST_FILE:
        raise BadSet(
            _fault(file, "", "", f"The file is too long; a set has at most {LONGEST_FILE} characters.")
        )
    try:
        content = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as fault:
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


def _faults(table: dict[str, Any], lesson: Lesson) -> Iterator[tuple[str, str]]:
    """Each field at fault with what is wrong with it."""
    allowed = (*WORDS, *KEYS)
    for field, value in table.items():
        if field not in allowed:
            yield field, f"There is no such field; the fields are {', '.join(allowed)}."
        elif field in WORDS:
            if not isinstance(value, str) or not 0 < len(value.strip()) <= WORDS[field]:
                yield field, f"This must be a text of 1 to {WORDS[field]} characters."
        elif isinstance(value, bool) or not isinstance(value, str | int | float):
            yield field, "This must be a number, or a text in quotation marks."
    for field in (*WORDS, "load", "line"):
        if field not in table:
            yield field, "This field is missing."
    yield from read_problem(_texts(table), lesson).faults.items()
    if not (faults := read_problem(_texts(table), lesson)).faults and (
        refused := lesson.refuses(faults.problem)
    ):
        yield "load", refused


def _problem(table: dict[str, Any], lesson: Lesson) -> Problem:
    return replace(
        read_problem(_texts(table), lesson).problem, **{field: table[field].strip() for field in WORDS}
    )


def _texts(table: dict[str, Any]) -> dict[str, str]:
    return {key: str(table[key]) for key in KEYS if isinstance(table.get(key), str | int | float)}


def _fault(file: str, problem: str, field: str, fault: str) -> str:
    where = [f"file: {file}", f"problem: {problem}" if problem else "", f"field: {field}" if field else ""]
    return "\n".join([*filter(None, where), fault])
