"""What a page must not show yet, because the sheet still asks it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from contextlib import suppress
from dataclasses import replace

from lessons.grammar.kinds import Kind
from lessons.grammar.lesson import Field, Impossible, Lesson
from lessons.working.marking import mark
from lessons.working.sheet import Sheet

DIGIT = re.compile(r"[1-9]")


def gives_away(sheet: Sheet, reflection: complex, what: str) -> bool:
    """Whether what is told of a point would be taken for the answer of an open field.

    what : "impedance", "admittance", "reflection" or "reading"."""
    return not sheet.lesson.refuses(sheet.problem) and any(
        _is_answer(sheet, one, kind.write(kind.drawn(reflection, what), sheet.notation))
        for one, kind in _open_fields(sheet)
        if what in kind.stands_for.split()
    )


def millimetres_asked(sheet: Sheet) -> bool:
    """Whether a length in millimetres is still to be given."""
    return any(kind.length_in == "millimetres" for _, kind in _open_fields(sheet))


def example_for(sheet: Sheet, one: Field) -> str:
    """An example of how a field is written that is none of its right answers."""
    example = sheet.work.say(_kind(sheet, one).example)
    if sheet.settled(one.key):
        return example
    for digit in DIGIT.finditer(example):
        if not _is_answer(sheet, one, example):
            break
        other = str(int(digit[0]) % 9 + 1)
        example = example[: digit.start()] + other + example[digit.end() :]
    return example


def _open_fields(sheet: Sheet) -> Iterator[tuple[Field, Kind]]:
    for step in sheet.steps:
        for one in step.fields:
            if one.key not in sheet.verdicts or not sheet.settled(one.key):
                yield one, _kind(sheet, one)


def _kind(sheet: Sheet, one: Field) -> Kind:
    """What a field's answer is, by the solver's values where the student's own do not tell it yet."""
    try:
        return one.kind(sheet.work)
    except Impossible:
        return one.kind(sheet.truth)


def _is_answer(sheet: Sheet, one: Field, text: str) -> bool:
    """Whether the text would be accepted, from the values of the student or of the solver."""
    unnamed = replace(one, slips=())  # which mistake it would be is of no interest here
    for work in (sheet.work, sheet.truth):
        with suppress(Impossible):
            if mark(unnamed, text, work, sheet.truth).accepted:
                return True
    return False


def waves_may_be_seen(sheet: Sheet) -> bool:
    """Whether the voltage along the line gives nothing away that is still to be found."""
    if sheet.finished or sheet.lesson.refuses(sheet.problem):
        return True
    still = {one.key for step in sheet.steps for one in step.fields if not sheet.settled(one.key)}
    return waves_give_nothing_away(sheet.lesson, still)


def waves_give_nothing_away(lesson: Lesson, still: Collection[str]) -> bool:
    """Whether they may be seen while these fields are still to be found."""
    return not still or (bool(lesson.waves_after) and lesson.waves_after not in still)
