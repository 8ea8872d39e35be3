"""The teaching names, as a course's own grader uses them."""

import pytest

from lessons import BadGivens, catalogue, check_lines, open_sheet

GIVENS = {"load": "60-80j", "line": "50"}  # Pozar, Microwave Engineering, 4th ed., Ex 5.2, from memory
LINES = """zL = 1.2 - j1.6
y = 0.3 + j0.4
d near = 0.110
l near = 0.405
VSWR 3.9; foo = 3"""


def test_catalogue():
    """The lessons come in order, each with its key, title and givens."""
    keys = [lesson.key for lesson in catalogue()]

    assert ["shunt-stub", "series-stub"] == [key for key in keys if key in ("shunt-stub", "series-stub")]
    assert all(lesson.title and lesson.givens for lesson in catalogue())


def test_a_problem_with_a_slip_a_hint_and_a_drawing():
    """A student solves the book's problem: types, slips and is told so, takes a hint, draws an answer, is matched."""
    sheet = open_sheet("shunt-stub", GIVENS).enter("normalise", "60-80j")
    assert ("slip", "not normalised") == (
        sheet.verdicts["normalise"].judgement,
        sheet.verdicts["normalise"].slip,
    )

    sheet = sheet.enter("normalise", "1.2-1.6j").hint("place").draw("place", 0.406 - 0.432j)
    assert ("right", True) == (sheet.verdicts["place"].judgement, sheet.verdicts["place"].accepted)

    for step in sheet.steps[2:]:
        for field in step.fields:
            sheet = sheet.enter(field.key, sheet.write(field.key))
    assert (None, True, True) == (sheet.current, sheet.finished, sheet.matched)
    assert ["enter", "enter", "hint", "draw"] == [attempt.doing for attempt in sheet.attempts[:4]]
    assert 3 == sheet.record()["version"]


def test_solution():
    """The solver's values are those of the book."""
    sheet = open_sheet("shunt-stub", GIVENS)

    for key, printed in {
        "distance.near": 0.110,
        "length.near": 0.095,
        "distance.far": 0.260,
        "length.far": 0.405,
    }.items():
        assert pytest.approx(printed, abs=0.001) == sheet.solution[key]
    assert "0.110 λ" == sheet.write("distance.near")


def test_notation_as_in_a_link():
    """A course's habits are given as a link gives them."""
    sheet = open_sheet("shunt-stub", GIVENS, {"d": "s", "length": "degrees", "admittance": "overlay"})

    assert ("s", "39.8°") == (sheet.notation.symbol("d"), sheet.write("distance.near"))


def test_going_on_with_a_wrong_value():
    """A wrong value carried on makes later ones follow from it, and the finished sheet does not match the load."""
    sheet = open_sheet("shunt-stub", GIVENS)
    for step in sheet.steps:
        for field in step.fields:
            wrong = field.key == "distance.near"
            sheet = sheet.enter(field.key, "0.2" if wrong else sheet.work.write(field.key))
            sheet = sheet.carry(field.key) if not sheet.settled(field.key) else sheet

    assert (True, False, False) == (sheet.finished, sheet.matched, sheet.solved)
    assert "distance" == (sheet.went_wrong.key if sheet.went_wrong else "")


def test_five_lines():
    """Five pasted lines are marked, each value with its field; what names nothing gets a sentence."""
    found = check_lines("shunt-stub", GIVENS, LINES)

    assert ["normalise", "admittance", "distance.near", "length.near", "mismatch", ""] == [
        one.field for one in found
    ]
    assert ["right", "right", "right", "slip", "right", None] == [
        one.verdict.judgement if one.verdict else None for one in found
    ]
    assert [1, 2, 3, 4, 5, 5] == [one.line for one in found]
    assert "foo" in found[-1].reason


def test_bad_givens():
    """Texts that cannot be used are refused together, each with its sentence."""
    with pytest.raises(BadGivens, match="line impedance must be from") as refused:
        open_sheet("shunt-stub", {"load": "abc", "line": "-50", "spacing": "1/8"})

    assert {"load", "line", "spacing"} == set(refused.value.faults)


def test_an_unknown_lesson():
    """A lesson that there is not is named."""
    with pytest.raises(KeyError, match="no such lesson"):
        open_sheet("no such lesson", GIVENS)
