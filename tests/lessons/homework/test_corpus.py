"""Lines after many books' habits: nearly all are understood, and none is understood wrongly."""

from collections.abc import Iterator

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.homework.placing import Placed
from lessons.homework.working import Working
from lessons.saved.notations import notation_from
from tests.lessons.homework import corpus_names, corpus_series, corpus_signs
from tests.lessons.homework.corpus import Habit, Line, Meaning

HABITS = (*corpus_signs.HABITS, *corpus_names.HABITS, *corpus_series.HABITS)
LEAST_LINES, LEAST_HABITS, LEAST_SHARE = 300, 12, 0.97


def marked(habit: Habit) -> Iterator[tuple[Line, list[Meaning], str]]:
    """Each line of a habit, with what it was understood to say and the sentences about it."""
    lesson = CATALOGUE.find(habit.lesson)
    assert lesson is not None
    notation = notation_from(dict(habit.notation), lesson.symbols)[0]
    for lines in habit.workings:
        own = Working(lesson, lesson.problem(habit.givens), notation, "\n".join(line.text for line in lines))
        for number, line in enumerate(lines, 1):
            placed = [
                one for one in own.placed if one.statement.line == number and not one.option.reading.fault
            ]
            yield line, [said(one, own) for one in placed], _sentences(own, number)


def _sentences(own: Working, number: int) -> str:
    return " ".join(unread.sentence for unread in own.unread if unread.line == number)


def said(one: Placed, own: Working) -> Meaning:
    """What a statement was understood to say."""
    reading, quantity = one.option.reading, one.option.quantity.key
    branch = one.branch.key if one.branch else ""
    if reading.millimetres is not None:
        return Meaning(quantity, branch, reading.millimetres, metric=True)
    kind = one.option.meaning.quantity.fields[0].kind(own.sheet.truth)
    value = kind.read(reading.text, own.notation)
    if one.option.quantity.key in ("needed", "own", "susceptance", "reactance"):
        value = 1j * value
    return Meaning(quantity, branch, value)


def agrees(expected: Meaning, found: Meaning) -> bool:
    """Whether two meanings are one, to the digits that stand in the line."""
    if (expected.quantity, expected.branch, expected.metric) != (found.quantity, found.branch, found.metric):
        return False
    if isinstance(expected.value, str) or isinstance(found.value, str):
        return expected.value == found.value
    return abs(expected.value - found.value) <= 1e-3 * max(1.0, abs(expected.value))


def judged(line: Line, found: list[Meaning], sentences: str) -> str:
    """`understood`, `misread` where a line is taken to say what it does not, `unread` where something is missing."""
    wrong = [one for one in found if not any(agrees(meant, one) for meant in line.meanings)]
    if wrong:
        return "misread"
    missing = [meant for meant in line.meanings if not any(agrees(meant, one) for one in found)]
    return "unread" if missing or line.asks not in sentences else "understood"


@pytest.fixture(scope="module")
def judgements() -> dict[str, list[tuple[str, str]]]:
    """Of each habit, the lines with their judgement."""
    return {habit.name: [(judged(*one), one[0].text) for one in marked(habit)] for habit in HABITS}


def test_is_large_enough():
    """The corpus has three hundred lines and more, in a dozen habits and more, over both lessons."""
    lines = [line for habit in HABITS for working in habit.workings for line in working]

    assert LEAST_LINES <= len(lines)
    assert LEAST_HABITS <= len(HABITS)
    assert {"shunt-stub", "series-stub"} == {habit.lesson for habit in HABITS}


def test_none_is_misread(judgements):
    """No line is taken to say what it does not say."""
    assert [] == [line for lines in judgements.values() for verdict, line in lines if verdict == "misread"]


def test_nearly_all_are_understood(judgements):
    """At least 97 of 100 lines are understood; the share is printed by habit."""
    for name, lines in judgements.items():
        share = sum(verdict == "understood" for verdict, _ in lines) / len(lines)
        print(f"{share:5.0%} of {len(lines):2} lines: {name}")  # noqa: T201
    everything = [verdict for lines in judgements.values() for verdict, _ in lines]

    assert LEAST_SHARE <= everything.count("understood") / len(everything)
