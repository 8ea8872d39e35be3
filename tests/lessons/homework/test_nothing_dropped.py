"""Nothing on a line is dropped, and nothing is taken to say what it does not say."""

import re
from collections import Counter

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Work
from lessons.homework.lines import Lines, Said, Statement, Unread
from lessons.homework.names import Names
from lessons.homework.typeset import plain

FEEDER = {"load": 60 - 80j, "line": 50.0, "frequency": 868e6, "velocity": 0.66}
LESSONS = ("shunt-stub", "series-stub")
NAMES = (
    "d", "l", "y", "z", "SWR", "Γ", "d_1", "l_2", "y_{B1}", "βd", "Z_L/Z_0", "foo", "Z_0", "jB", "b_s", "near", "far",
    "d'", "total", "it", "y near", "Near", "d1, d2",
)  # fmt: skip
SIGNS = (" = ", ": ", " ≈ ", " ", "=", " is ", " -> ", " ⇒ ")
VALUES = (
    "0.110", "0.110λ", "1 + j1.47", "1.2-1.6j", "1 ± j1.47", "3.91", "0.593∠-46.8°", "39.7°", "25.2 mm", "60 80",
    "(60 - j80)/50", "0.176 - 0.065", "0.110 and 0.26", "0.260λ (= 59.2 mm)", "0,110", "7 apples", "(6 + j8) mS",
    "g = 1", "0.26 λ far",
)  # fmt: skip
BETWEEN = (", ", "; ", " and ", " ", " or ", " (see 4.2), ", ",", " = ", " at A, ", " from 0.065, ")
DIGITS = re.compile(r"\d+")
clauses = st.builds(
    "".join, st.tuples(st.sampled_from(NAMES), st.sampled_from(SIGNS), st.sampled_from(VALUES))
)
lines = st.builds(
    lambda first, others: first + "".join(f"{between}{clause}" for between, clause in others),
    clauses,
    st.lists(st.tuples(st.sampled_from(BETWEEN), clauses), max_size=3),
)


def read(text: str, lesson: str = "shunt-stub") -> tuple[Said, ...]:
    """What a text says, in the names of a lesson."""
    found = CATALOGUE.find(lesson)
    assert found is not None
    return Lines(Names(Work(found, found.problem(FEEDER)))).read(text)


def kept(said: Said) -> str:
    """All that is kept of a part of a line where a student can see it: as value, name, remark or sentence."""
    if isinstance(said, Unread):
        return said.written
    mark = str(said.mark + 1) if isinstance(said.mark, int) else ""
    return " ".join((said.name, mark, said.value, *said.beside))


@pytest.mark.parametrize("lesson", LESSONS)
@settings(max_examples=400, deadline=None)
@given(line=lines)
@example(line="d = 0.110λ, l = 0.095λ")
@example(line="y_1 = 1+j1.47, y_2 = 1-j1.47")
@example(line="near: d = 0.110, l = 0.095")
def test_every_digit_is_accounted_for(lesson: str, line: str):
    """Every number of a line stands in a statement, beside one, or in a sentence about what is not read."""
    there = Counter(DIGITS.findall(plain(line)))
    found = Counter(DIGITS.findall(plain(" ; ".join(kept(said) for said in read(line, lesson)))))

    assert {} == {digits: count for digits, count in there.items() if found[digits] < count}, line


@pytest.mark.parametrize(
    "line",
    [
        "2d = 0.220", "2 d = 0.220", "d² = 0.012", "d^2 = 0.012", "d**2 = 0.012", "y/2 = 1", "-d = 0.1", "d - 1 = 0.2",
        "√z = 1.1", "1/y = 2", "tan βd = 0.83", "Re y_1 = 1", "|y_1| = 1.78", "Δd = 0.01", "d·l = 0.01", "y* = 1 - j1",
        "total length = 0.205λ", "line length = 3λ", "∠Γ = -46.8°", "arg Γ = -46.8°", "y_1^* = 1 - j1.47",
    ],
)  # fmt: skip
def test_what_is_reckoned_of_a_quantity_is_not_the_quantity(line: str):
    """Twice a length, a square, a part or a sum of it is not taken for the length itself."""
    assert [] == [said for said in read(line) if isinstance(said, Statement)]


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("d = 0.110 ± 0.005 λ", "is not a length"), ("z = 1.2 - 1.6", "say where the j is"),
        ("d = 60 80", "as a space parts"),
        ("Z_s = 75 Ω", "say where the j is"), ("y = 1 ± 1.47", "is not a number"), ("l = 0.52 110", "as a space parts"),
        ("d = 0.110λ - 3°", "adds two units"), ("βd = 0.110λ", "is an angle"),
        ("z = (60 - 80)/50", "say where the j is"),
        ("d = 0.110, 0.260, 0.3", "more than one number"),
    ],
)  # fmt: skip
def test_is_asked_about(line: str, sentence: str):
    """A value that may be meant in two ways is not read in one of them: the student is asked."""
    faults = [
        option.reading.fault for said in read(line) if isinstance(said, Statement) for option in said.options
    ]

    assert faults
    assert all(faults)
    assert sentence in faults[0]


@pytest.mark.parametrize(
    ("line", "beside"),
    [
        ("z = (60-j80)/50 = 1.2-j1.6", ("(60-j80)/50",)), ("d = 0.172 (from 0.065)", ("from 0.065",)),
        ("yL = 0.3+j0.4 at 0.065λ", ("at 0.065λ",)), ("S = 3.91 (11.8 dB)", ("11.8 dB",)), ("d = 0.110 (near)", ()),
    ],
)  # fmt: skip
def test_is_kept_beside(line: str, beside: tuple[str, ...]):
    """What stands along with a value and is not marked is kept beside it."""
    (said,) = read(line)

    assert isinstance(said, Statement)
    assert beside == said.beside
