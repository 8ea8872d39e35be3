"""The single series stub as a lesson: its values against the core, and its texts in every notation."""

import re
from itertools import product

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import swr
from core.line import half_wave_difference
from lessons.course.near_and_far import BOTH
from lessons.course.series_stub import LESSON
from lessons.course.shunt_stub import LESSON as SHUNT_LESSON
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import HalfTurn
from lessons.working.achieved import closing
from tests.lessons.course.test_shunt_stub import HALF_MADE, texts
from tests.lessons.solving import (
    NOTATIONS,
    SIDES,
    blank,
    by_the_core,
    fields_of,
    random_problem,
    shipped,
    shipped_problems,
    solved,
)
from tests.lessons.solving import problem as any_problem

loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)


def problem(load: complex, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson, its stub like its line unless said otherwise."""
    return any_problem(load, line, LESSON, **others)


@pytest.mark.parametrize(
    ("field", "value", "half_digit"),
    [
        pytest.param("normalise", 2 + 1.6j, 1e-12, id="z"),
        pytest.param("crossing.near", 1 - 1.33j, 0.005, id="z1"),
        pytest.param("crossing.far", 1 + 1.33j, 0.005, id="z2"),
    ],
)
def test_steps_against_print(field, value, half_digit):
    """The values on the way are those of Pozar, 4th ed., example 5.3 (from memory)."""
    work = blank(problem(100 + 80j, end="open")).truth

    assert pytest.approx(value, abs=half_digit) == work[field]


@pytest.mark.parametrize("end", ["short", "open"])
@pytest.mark.parametrize("stub", [50.0, 75.0, 100.0], ids=lambda z: f"stub of {z:g} ohm")
class TestAgainstTheCore:
    @for_all(load=loads)
    def test_lengths(self, load, stub, end):
        """The derivation arrives at the lengths of the core's designer of series stubs, in the same order."""
        given = problem(load, stub=stub, end=end)
        work = blank(given).truth

        assert {} == {
            key: (work[key], length)
            for key, length in by_the_core(given).items()
            if abs(half_wave_difference(work[key], length)) > 1e-9
        }

    @for_all(load=loads)
    def test_the_junction(self, load, stub, end):
        """At both junctions the total impedance is that of the line."""
        work = blank(problem(load, stub=stub, end=end)).truth

        assert pytest.approx([1, 1], abs=1e-6) == [work[f"total.{side}"] for side in SIDES]

    @for_all(load=loads)
    def test_the_circle(self, load, stub, end):
        """The standing-wave ratio is the core's, and the crossings lie on that circle and on r = 1."""
        work = blank(problem(load, stub=stub, end=end)).truth
        z = work["crossing.near"]

        assert pytest.approx(swr((load - 50) / (load + 50))) == work["mismatch"]
        assert pytest.approx(abs((load - 50) / (load + 50))) == abs((z - 1) / (z + 1))
        assert 1 == z.real

    @for_all(load=loads)
    def test_what_is_built(self, load, stub, end):
        """The network of each solution reflects nothing, by the evaluator alone."""
        work = blank(problem(load, stub=stub, end=end)).truth
        designs = [
            LESSON.network(work, branch, {f"distance.{branch.key}", f"length.{branch.key}"})
            for branch in BOTH
        ]

        assert all(design is not None and abs(design.input_reflection()) < 1e-6 for design in designs)


class TestDuality:
    """A series stub on z is a shunt stub on y: exchanging impedances and admittances, ends too, gives the same lengths.

    Common practice, no source."""

    @for_all(load=loads)
    @pytest.mark.parametrize(("end", "dual"), [("short", "open"), ("open", "short")])
    def test_same_lengths(self, load, end, dual):
        """The load whose admittance is this one's impedance has, with the other end, the same lengths."""
        series = blank(problem(load, end=end)).truth
        shunt = blank(any_problem(2500 / load, 50.0, SHUNT_LESSON, end=dual)).truth

        for key in (f"{what}.{side}" for what, side in product(("distance", "length"), SIDES)):
            assert abs(half_wave_difference(series[key], shunt[key])) < 1e-9


class TestSteps:
    def test_the_agreed_steps(self):
        """The steps are those of a shunt stub, without crossing to the admittance, and with the reactance read."""
        agreed = ["normalise", "place", "mismatch", "unit_circle", "crossing", "reactance", "distance", "needed", "own",
                  "start", "length", "total", "choose", "millimetres"]  # fmt: skip

        assert agreed == [step.key for step in LESSON.steps]

    def test_the_stubs_own_chart(self):
        """Reactances are multiplied by the line's impedance and divided by the stub's: the other way round from b."""
        work = blank(problem(30 + 35j, stub=100.0)).truth

        assert pytest.approx(work["needed.near"] * 50 / 100) == work["own.near"]

    @pytest.mark.parametrize(("end", "reactance"), [("short", 0.0), ("open", np.inf)])
    def test_where_the_stub_starts(self, end, reactance):
        """A short is z = 0 and an open z = ∞: the choices say so."""
        work = blank(problem(100 + 80j, end=end)).truth
        words = dict(LESSON.field("start.point").kind(work).options)[end]

        assert f"z = {'∞' if np.isinf(reactance) else 0}" in words

    def test_nothing_crosses_the_centre(self):
        """Nothing is drawn as an admittance, and no half turn: all is read on the impedance grid."""
        for given in shipped_problems(LESSON):
            sheet = blank(given)
            strokes = [stroke for one in fields_of(sheet) for stroke in one.strokes(sheet.truth)]
            assert not any(isinstance(stroke, HalfTurn) for stroke in strokes)
            assert {"impedance"} == {stroke.read_as for stroke in strokes if not isinstance(stroke, HalfTurn)}


SHUNT_WORDS = re.compile(
    r"admittance|susceptance|conductance|siemens|parallel|shunt|\bacross\b|\b[ygb]\b|dotted|half a turn|"
    r"(through|cross) the centre",
    re.IGNORECASE,
)
TRUE_ALL_THE_SAME = re.compile(
    r"unit_circle: (unit conductance|numbers|admittance kept, (doing|question))|"
    r"place: admittance place, doing|crossing.*: constant g, doing|distance.*: wrong start, (doing|question)"
)
"""A wrong choice on offer, what mistakes of taking the admittance are called, and where the unit circle goes."""
KINDS_OF_PROBLEM = [*shipped_problems(LESSON), random_problem(7, LESSON)]


def untrue(place: str, text: str) -> bool:
    """Whether a text speaks of what is done across a line, where that is not said of a mistake."""
    if TRUE_ALL_THE_SAME.fullmatch(place):
        return False
    plain = text.replace("not across and up", "")  # of a ruler on the grid
    return bool(SHUNT_WORDS.search(plain))


@pytest.mark.parametrize("given", KINDS_OF_PROBLEM, ids=lambda p: p.key)
class TestTexts:
    @pytest.mark.parametrize(
        "notation", NOTATIONS, ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.length}"
    )
    def test_every_text_is_whole(self, given, notation):
        """In every notation every text is filled in: no brace, no gap, nothing half made."""
        assert {} == {place: text for place, text in texts(given, notation).items()
                      if HALF_MADE.search(text) or not text.strip()}  # fmt: skip

    @pytest.mark.parametrize("shown", ["half turn", "overlay"])
    def test_no_word_of_a_shunt_stub(self, given, shown):
        """No text speaks of admittance, of what hangs across the line, or of crossing the centre, in either way."""
        found = texts(given, Notation(admittance=shown))

        assert {} == {place: text for place, text in found.items() if untrue(place, text)}

    def test_nothing_depends_on_how_admittance_is_shown(self, given):
        """Where no admittance is read, both ways of showing it have the same texts."""
        assert texts(given, Notation(admittance="half turn")) == texts(given, Notation(admittance="overlay"))


def test_the_words_looked_for_are_a_shunt_stubs():
    """The same search finds the texts of a shunt stub."""
    found = texts(shipped("whip-stub-75"), Notation())

    assert len([place for place, text in found.items() if untrue(place, text)]) > 40


def test_closing():
    """The sheet ends with what the lengths achieve: a match."""
    for given in shipped_problems(LESSON):
        ratios = re.findall(r"\d\.\d\d", closing(solved(given).work))
        assert max(map(float, ratios)) < 1.05


@pytest.mark.parametrize("given", shipped_problems(LESSON), ids=lambda p: p.key)
def test_shipped_problems_can_be_set(given):
    """No shipped problem is refused, and each belongs to the lesson."""
    assert ("series-stub", "") == (given.lesson, LESSON.refuses(given))
