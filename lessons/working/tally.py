"""What went wrong on sheets that are kept: entry by entry, and step by step over several sheets."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from lessons.grammar.lesson import Field, Impossible, Lesson, Step
from lessons.working.attempts import Attempt
from lessons.working.marking import mark
from lessons.working.sheet import RUNGS, Sheet

RECENT = 6
"""How many of the last times count, so that what was learnt since is not held against anybody."""
Outcome = Literal["right", "close", "not right", "not read", ""]


@dataclass(frozen=True)
class Judged:
    """Something done on a sheet, and what an entry was; "" of what is no entry, or can no longer be told."""

    attempt: Attempt
    step: Step | None
    field: Field | None
    outcome: Outcome


@dataclass(frozen=True)
class Tried:
    """A step over several sheets. times : of the last `RECENT`, those in which it was the student's to do.
    failed : in how many of them an entry was not right, or the answer had to be shown."""

    lesson: Lesson
    step: Step
    times: int
    failed: int


@dataclass(frozen=True)
class Summary:
    """What is to be known of one sheet that was kept. failed : as `failed_steps`.  begun : whether anything was done on
    it.  drilled : whether it is of a drill."""

    lesson: Lesson
    failed: Mapping[str, bool]
    begun: bool
    solved: bool
    drilled: bool


def summed_up(sheet: Sheet, drilled: bool) -> Summary:
    """The summary of a sheet."""
    return Summary(sheet.lesson, failed_steps(sheet), bool(sheet.attempts), sheet.solved, drilled)


def judged(sheet: Sheet) -> Iterator[Judged]:
    """All that was done on a sheet, in order.

    What was entered after a wrong value was carried on may have followed from values that have changed since: of it
    only what is right can be told."""
    fields = {one.key: (step, one) for step in sheet.steps for one in step.fields}
    steps, carried = {step.key: step for step in sheet.steps}, False
    for attempt in sheet.attempts:
        of_step = steps.get(attempt.at), None
        step, field = of_step if attempt.doing == "hint" else fields.get(attempt.at, of_step)
        outcome: Outcome = ""
        if field and attempt.doing in ("enter", "draw"):
            outcome = _outcome(sheet, field, attempt.text)
            if carried and outcome == "not right":
                outcome = ""
        carried = carried or attempt.doing == "carry"
        yield Judged(attempt, step, field, outcome)


def failed_steps(sheet: Sheet) -> Mapping[str, bool]:
    """Of each step that the student worked at, whether it went wrong: something entered was not right, or shown."""
    found: dict[str, bool] = {}
    for one in judged(sheet):
        if one.step and one.attempt.doing == "reveal":
            found[one.step.key] = True
        elif one.step and one.outcome not in ("", "not read"):
            found[one.step.key] = found.get(one.step.key, False) or one.outcome == "not right"
    for step in sheet.steps:
        entries = [sheet.entries[field.key] for field in step.fields if field.key in sheet.entries]
        if sheet.hints.get(step.key) == RUNGS or any(entry.slips or entry.revealed for entry in entries):
            found[step.key] = True
    return found


def tried(sheets: Iterable[Summary]) -> list[Tried]:
    """Every step that went wrong in one of the last times, the one that did so most first; oldest sheets first."""
    times: dict[tuple[Lesson, Step], list[bool]] = {}
    for sheet in sheets:
        for key, failed in sheet.failed.items():
            step = next(step for step in sheet.lesson.steps if step.key == key)
            times.setdefault((sheet.lesson, step), []).append(failed)
    recent = {known: of_it[-RECENT:] for known, of_it in times.items()}
    found = [Tried(*known, len(of_it), sum(of_it)) for known, of_it in recent.items() if any(of_it)]
    return sorted(found, key=lambda one: (-one.failed, -one.failed / one.times))


def _outcome(sheet: Sheet, field: Field, text: str) -> Outcome:
    unnamed = replace(field, slips=())  # which mistake it was is of no interest here
    verdict = None
    for work in (sheet.work, sheet.truth):
        try:
            verdict = mark(unnamed, text, work, sheet.truth)
        except Impossible:
            continue
        if verdict.accepted:
            return "close" if verdict.judgement == "close" else "right"
    told: dict[str, Outcome] = {"slip": "not right", "wrong": "not right", "unreadable": "not read"}
    return told.get(verdict.judgement, "") if verdict else ""
