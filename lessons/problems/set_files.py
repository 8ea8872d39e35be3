"""Reads a problem set from its TOML file, and says what is wrong with it by line and key.

    key = "week-3"
    title = "Stubs on the river"
    version = 1

    [[problem]]
    key = "whip-868"
    lesson = "..."
    title = "A whip over a float"
    story = "What the student is told, in a sentence or two."
    load = "25 - j40"
    line = 50

and, where they differ from the usual ones, the other texts that the lesson's problems may have; numbers may stand
without quotes. README's part for teachers shows all that a set may hold.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson
from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Draw, Problem
from lessons.problems.lines_of import Lines, lines_of
from lessons.problems.points import read_points
from lessons.problems.problem_sets import BadSet, ProblemSet, SetProblem
from lessons.problems.seeds import TooRare
from lessons.problems.set_values import WORDS, fault_of, fault_of_set, text_of
from lessons.problems.texts import keys_of, read_problem, required
from lessons.problems.variants import BadBounds, read_vary

MOST_PROBLEMS, LONGEST_FILE = 200, 200_000
Table = dict[str, Any]


def read_set_file(path: Path, catalogue: Catalogue) -> ProblemSet:
    """The set in a file. Raises BadSet with every fault found in it, also where it is no text or cannot be read."""
    try:
        with path.open("rb") as file:
            text = file.read(4 * LONGEST_FILE + 1).decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as fault:
        raise BadSet(_said(path.name, 0, "", "", "This is not a text file in UTF-8.")) from fault
    except OSError as fault:
        raise BadSet(
            _said(path.name, 0, "", "", f"The file cannot be read: {fault.strerror or fault}.")
        ) from fault
    return read_set(text, path.name, catalogue)


def read_set(text: str, file: str, catalogue: Catalogue, passing_over_unknown: bool = False) -> ProblemSet:
    """The set that a text describes. Raises BadSet with every fault found in it.

    file : its name, which gives the set's key and title where it states none.
    passing_over_unknown : leave out problems of lessons that the catalogue does not have."""
    content = _content(text, file)
    reading = _Reading(file, content, catalogue, lines_of(text))
    tables = content["problem"]
    if passing_over_unknown:
        tables = [table for table in tables if reading.lesson(table) is not None]
    faults = [*reading.faults_of_set(), *reading.faults_of_problems(tables)]
    if faults:
        raise BadSet("\n".join(faults))
    return reading.made(tables)


class _Reading:
    """One file under the eye of its checker."""

    def __init__(self, file: str, content: Table, catalogue: Catalogue, lines: Lines) -> None:
        self.file, self.content, self.catalogue, self.lines = file, content, catalogue, lines

    def lesson(self, table: Table) -> Lesson | None:
        """The lesson that a problem is of."""
        return self.catalogue.find(table.get("lesson", self.catalogue.unsaid))

    # --- faults ---

    def faults_of_set(self) -> Iterator[str]:
        """What is wrong before the first problem."""
        for key, value in self.content.items():
            if fault := fault_of_set(key, value):
                yield _said(self.file, self.lines.of(0, key), "", key, fault)
        for key, fault in read_points(self.content.get("points"), self._steps())[1].items():
            yield _said(self.file, self.lines.of(0, key), "", key, fault)

    def faults_of_problems(self, tables: list[Table]) -> Iterator[str]:
        """What is wrong with each problem, in order."""
        earlier: list[object] = []
        for number, table in enumerate(tables, 1):
            key = table.get("key")
            name = f"problem {number} ({key:.40})" if isinstance(key, str) else f"problem {number}"
            at = next(place for place, one in enumerate(self.content["problem"], 1) if one is table)
            for field, fault in self._faults(table, earlier):
                yield _said(self.file, self.lines.of(at, field), name, field, fault)
            earlier.append(key)

    def _faults(self, table: Table, earlier: list[object]) -> Iterator[tuple[str, str]]:
        """Each field at fault with what is wrong with it; `earlier` are the keys of the problems before."""
        lesson = self.lesson(table)
        if lesson is None:
            known = ", ".join(one.key for one in self.catalogue)
            yield "lesson", f"{quoted(str(table['lesson']))} is no lesson; those that there are: {known}."
            return
        yield from _faults_of_fields(table, lesson)
        if "key" in table and table["key"] in earlier:
            yield "key", "An earlier problem has this key; each needs one of its own."
        reading = read_problem(_texts(table, lesson), lesson)
        yield from reading.faults.items()
        if reading.faults:
            return
        if lesson.refuses(reading.problem):
            yield lesson.givens[0].key, lesson.refuses(reading.problem)
        elif not lesson.steps_of(reading.problem):
            yield "steps" if "steps" in table else "without", "With these steps nothing would remain to do."
        else:
            yield from self._faults_of_vary(table, lesson, reading.problem)

    def _faults_of_vary(self, table: Table, lesson: Lesson, problem: Problem) -> Iterator[tuple[str, str]]:
        vary, faults = _vary(table, lesson)
        yield from faults.items()
        if vary and not faults:
            item = SetProblem(problem, lesson, "", _stated(table, lesson), vary)
            try:
                ProblemSet("a", "A", 1, "", 0, None, (item,)).variant(item, "A")
            except TooRare:
                yield "vary", "Within these bounds no problem can be marked without doubt: widen them."

    def _steps(self) -> dict[str, str]:
        lessons = {lesson for table in self.content["problem"] if (lesson := self.lesson(table))}
        steps = [step for lesson in lessons for step in lesson.steps]
        formerly = {old: step.key for step in steps for old in step.formerly}
        return formerly | {step.key: step.key for step in steps}

    # --- what is made of it ---

    def made(self, tables: list[Table]) -> ProblemSet:
        """The set, once nothing is wrong with it."""
        content = self.content
        stem = "-".join(re.findall(r"[a-z0-9]+", Path(self.file).stem.lower()))[: WORDS["key"]]
        return ProblemSet(
            key=content.get("key") or stem.strip("-") or "set",
            title=content.get("title", Path(self.file).stem).strip(),
            version=content.get("version", 1),
            notes=content.get("notes", "").strip(),
            seed=content.get("seed", 0),
            points=read_points(content.get("points"), self._steps())[0],
            items=tuple(_item(table, lesson) for table in tables if (lesson := self.lesson(table))),
        )


def _content(text: str, file: str) -> Table:
    def refuse(fault: str, line: int = 0) -> BadSet:
        return BadSet(_said(file, line, "", "", fault))

    if len(text) > LONGEST_FILE:
        raise refuse(f"The file is too long; a set has at most {LONGEST_FILE} characters.")
    try:
        content = tomllib.loads(text)
    except RecursionError as fault:
        raise refuse("This is not TOML: its brackets are nested too deeply.") from fault
    except ValueError as fault:  # not TOML, or a number of too many digits
        where = re.search(r" \(at line (\d+), column \d+\)", str(fault))
        said = str(fault).replace(where[0], "") if where else str(fault)
        raise refuse(f"This is not TOML: {said[:200]}.", int(where[1]) if where else 0) from fault
    tables = content.get("problem")
    if not isinstance(tables, list) or not tables or not all(isinstance(one, dict) for one in tables):
        raise refuse("A set has its problems in [[problem]] tables, and this file has none.")
    if len(tables) > MOST_PROBLEMS:
        raise refuse(f"A set has at most {MOST_PROBLEMS} problems, not {len(tables)}.")
    return content


def _faults_of_fields(table: Table, lesson: Lesson) -> Iterator[tuple[str, str]]:
    """Each field of the wrong kind or size, each that is missing, and two that exclude one another."""
    for field, value in table.items():
        if fault := fault_of(field, value, lesson):
            yield field, fault
    for field in (*WORDS, *required(lesson)):
        if field not in table:
            yield field, "This field is missing."
    if "steps" in table and "without" in table:
        yield "without", "Write steps, which names those that are asked, or without, not both."


def _vary(table: Table, lesson: Lesson) -> tuple[dict[str, Draw], dict[str, str]]:
    """How each given that varies is drawn; and a sentence for each that cannot vary so."""
    found: dict[str, Draw] = {}
    faults: dict[str, str] = {}
    givens = {one.key: one for one in lesson.givens}
    asked = table.get("vary", {})
    for key, how in asked.items() if isinstance(asked, dict) else ():
        if key not in givens:
            faults[f"vary.{key}"] = (
                f"The lesson has no such given; those that may vary are {', '.join(givens)}."
            )
            continue
        try:
            found[key] = read_vary(givens[key], how, text_of)
        except BadBounds as fault:
            faults[f"vary.{key}"] = str(fault)
    return found, faults


def _item(table: Table, lesson: Lesson) -> SetProblem:
    words = {field: table[field].strip() for field in WORDS}
    problem = replace(read_problem(_texts(table, lesson), lesson).problem, **words)
    notes = table.get("notes", "").strip()
    return SetProblem(problem, lesson, notes, _stated(table, lesson), _vary(table, lesson)[0])


def _stated(table: Table, lesson: Lesson) -> tuple[str, ...]:
    return tuple(one.key for one in lesson.givens if one.key in table)


def _texts(table: Mapping[str, Any], lesson: Lesson) -> dict[str, str]:
    texts = {key: text_of(table[key]) for key in keys_of(lesson) if key in table}
    steps = table.get("steps")
    if isinstance(steps, list) and "without" not in table:
        left_out = [one.key for one in lesson.steps if not {one.key, *one.formerly} & set(steps)]
        texts["without"] = ",".join(left_out if len(left_out) < len(lesson.steps) else ())
    return {key: text for key, text in texts.items() if text is not None}


def _said(file: str, line: int, problem: str, field: str, fault: str) -> str:
    """A fault in a line: file, line, problem and key, then what is wrong."""
    where = ", ".join(filter(None, [file, f"line {line}" if line else "", problem, field]))
    return f"{where}: {fault}"
