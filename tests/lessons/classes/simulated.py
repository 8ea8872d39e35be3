"""Simulated students: they solve a set by the teaching names alone, with slips planted where a test wants them."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from lessons import KeptSheet, open_sheet
from lessons.classes.hand_in import hand_in_record
from lessons.problems.problem_sets import ProblemSet, SetProblem
from lessons.problems.texts import write_problem
from lessons.problems.variants import code_of
from lessons.working.marking import predicted_all

SAVED = datetime(2026, 11, 20, 10, 0, tzinfo=UTC)


def begun(one: ProblemSet, item: SetProblem, name: str) -> KeptSheet:
    """A clean sheet of a name's variant."""
    problem = one.variant(item, code_of(one.key, name))
    return open_sheet(item.lesson, write_problem(problem, item.lesson))


def solved(sheet: KeptSheet, slips: Collection[str] = (), upto: str = "") -> KeptSheet:
    """The sheet worked to its end, or up to a step; at each field first the first of these slips that can be made there
    and is known for what it is, then the right answer."""
    for step in sheet.steps:
        if step.key == upto:
            break
        for one in step.fields:
            wrong = _wrong(sheet, one.key, slips)
            if wrong is not None:
                sheet = wrong
            sheet = sheet.enter(one.key, sheet.work.write(one.key))
    return sheet


def _wrong(sheet: KeptSheet, key: str, slips: Collection[str]) -> KeptSheet | None:
    field = sheet.lesson.field(key)
    kind = field.kind(sheet.work)
    for slip in field.slips:
        for value in predicted_all(slip, sheet.work) if slip.key in slips else ():
            tried = sheet.enter(key, kind.write(value, sheet.notation))
            if tried.verdicts[key].slip == slip.key:
                return tried
    return None


def hand_in(one: ProblemSet, name: str, sheets: Mapping[str, Any], **changes: Any) -> dict[str, Any]:
    """A hand-in of these sheets, by the keys of their problems."""
    records = [(key, sheet.record() if hasattr(sheet, "record") else sheet) for key, sheet in sheets.items()]
    return {**hand_in_record(name, one.key, one.version, SAVED, records), **changes}


def write(folder: Path, file: str, content: object) -> Path:
    """A file with this content: bytes and texts as they are, all else as JSON."""
    path = folder / file
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(content, bytes):
        path.write_bytes(content)
    else:
        path.write_text(content if isinstance(content, str) else json.dumps(content), "utf-8")
    return path
