"""The single shunt stub as a lesson: its values against the core and against print, and its texts in every notation.

Published values are from memory, at the digits printed, and were read from a chart: the last digit may be off by one.
"""

import re
from math import inf
from typing import Any

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import swr
from core.line import half_wave_difference
from core.solutions import TAKES_NO_POWER
from lessons.course.shunt_stub import LESSON
from lessons.grammar.kinds import Choice
from lessons.grammar.notation import Notation
from lessons.grammar.plan import is_known
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from tests.lessons.solving import (
    NOTATIONS,
    SIDES,
    blank,
    by_the_core,
    problem,
    random_problem,
    shipped,
    shipped_problems,
    solved,
)

LINES = (50.0, 75.0, 100.0)

loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)


class TestStepsAgainstPrint:
    @pytest.mark.parametrize(
        ("load", "line", "field", "printed", "half_digit"),
        [
            pytest.param(
                40 + 70j, 100, "mismatch", 3.87, 0.005, id="Pozar, 4th ed., Ex 2.2: SWR (from memory)"
            ),
            pytest.param(
                100 + 50j, 50, "admittance", 0.4 - 0.2j, 0.05, id="Pozar, 4th ed., Ex 2.3: y (from memory)"
            ),
            pytest.param(
                60 - 80j, 50, "crossing.near", 1 + 1.47j, 0.005, id="Pozar, 4th ed., Ex 5.2: y1 (from memory)"
            ),
            pytest.param(
                60 - 80j, 50, "crossing.far", 1 - 1.47j, 0.005, id="Pozar, 4th ed., Ex 5.2: y2 (from memory)"
            ),
            pytest.param(
                25 + 50j, 50, "mismatch", 4.26, 0.01, id="Ulaby: SWR, printed truncated (from memory)"
            ),
        ],
    )
    def test_a_step(self, load, line, field, printed, half_digit):
        """A value on the way agrees with the printed one to its last digit."""
        assert pytest.approx(printed, abs=half_digit) == blank(problem(load, line)).truth[field]

    @pytest.mark.parametrize(
        ("load", "line", "size", "degrees"),
        [
            pytest.param(40 + 70j, 100, 0.59, 104, id="Pozar, 4th ed., Ex 2.2 (from memory)"),
            pytest.param(25 + 50j, 50, 0.62, 83, id="Ulaby (from memory)"),
        ],
    )
    def test_the_place_of_a_load(self, load, line, size, degrees):
        """The load stands on the chart where the book puts it."""
        place = blank(problem(load, line)).truth["place"]

        assert pytest.approx(size, abs=0.005) == abs(place)
        assert pytest.approx(degrees, abs=0.5) == np.degrees(np.angle(place))


@pytest.mark.parametrize("end", ["short", "open"])
@pytest.mark.parametrize("stub", LINES, ids=lambda z: f"stub of {z:g} ohm")
class TestAgainstTheCore:
    @for_all(load=loads)
    def test_lengths(self, load, stub, end):
        """The derivation arrives at the lengths of the core's designer, in the same order."""
        given = problem(load, 50.0, stub=stub, end=end)
        work = blank(given).truth

        assert {} == {
            key: (work[key], length)
            for key, length in by_the_core(given).items()
            if abs(half_wave_difference(work[key], length)) > 1e-9
        }

    @for_all(load=loads)
    def test_the_junction(self, load, stub, end):
        """At both junctions the total admittance is that of the line."""
        work = blank(problem(load, 50.0, stub=stub, end=end)).truth

        assert pytest.approx([1, 1], abs=1e-6) == [work[f"total.{side}"] for side in SIDES]

    @for_all(load=loads)
    def test_the_circle(self, load, stub, end):
        """The standing-wave ratio is the core's, and the crossings lie on that circle."""
        work = blank(problem(load, 50.0, stub=stub, end=end)).truth
        reflection = (load - 50) / (load + 50)
        y = work["crossing.near"]

        assert pytest.approx(swr(reflection)) == work["mismatch"]
        assert pytest.approx(abs(reflection)) == abs((1 - y) / (1 + y))


class TestSpecialLoads:
    @pytest.mark.parametrize("load", [25 - 25j, 25 + 25j], ids=str)
    def test_on_the_unit_circle_already(self, load):
        """A load with g = 1 has its near solution at its own terminals."""
        assert pytest.approx(0, abs=1e-9) == blank(problem(load)).truth["distance.near"]

    @pytest.mark.parametrize("load", [20.0, 125.0])
    def test_real_load(self, load):
        """A real load lies on the axis, and its two solutions are mirror images: d and half a wave less d."""
        work = blank(problem(complex(load))).truth

        assert pytest.approx(0.5) == work["distance.near"] + work["distance.far"]
        assert pytest.approx(0.5) == work["length.near"] + work["length.far"]

    @pytest.mark.parametrize("load", [50j, 0j, complex(inf)], ids=["reactive", "short", "open"])
    def test_nothing_to_match(self, load):
        """A load that takes no power is refused in the core's own words."""
        assert TAKES_NO_POWER == LESSON.refuses(problem(load))

    def test_matched_already(self):
        """A matched load is refused: there is nothing to do."""
        assert "matched already" in LESSON.refuses(problem(50 + 0j))

    @pytest.mark.parametrize("given", shipped_problems(), ids=lambda p: p.key)
    def test_ordinary_loads_are_not_refused(self, given):
        """No problem of the shipped set is refused."""
        assert "" == LESSON.refuses(given)


class TestDesign:
    GIVEN = shipped("whip-stub-75")

    @pytest.mark.parametrize("side", SIDES)
    def test_as_far_as_the_sheet_goes(self, side):
        """The drawing grows with the sheet: nothing, the line up to the junction, then the stub as well."""
        work = blank(self.GIVEN).truth
        settled = [set(), {f"distance.{side}"}, {f"distance.{side}", f"length.{side}"}]
        designs = [LESSON.network(work, LESSON.branch(side), keys) for keys in settled]
        known = [sum(map(is_known, design.elements)) if design else 0 for design in designs]

        assert [0, 1, 2] == known

    @pytest.mark.parametrize("side", SIDES)
    def test_the_whole_design_is_matched(self, side):
        """The solver finds no reflection from the design that the right lengths describe."""
        work = blank(self.GIVEN).truth
        design = LESSON.network(work, LESSON.branch(side), {f"distance.{side}", f"length.{side}"})

        assert design is not None
        assert abs(design.input_reflection()) < 1e-9

    def test_closing_says_what_is_achieved(self):
        """At the end the sheet says what its lengths achieve, by the solver: three digits leave almost nothing."""
        ratios = re.findall(r"\d\.\d\d", closing(solved(self.GIVEN).work))

        assert 2 == len(ratios)
        assert max(map(float, ratios)) < 1.05

    def test_closing_is_honest(self):
        """A stub carried on with a wrong length does not match, and the closing says so."""
        sheet = solved(self.GIVEN).enter("length.near", "0.2").carry("length.near")
        near, far = map(float, re.findall(r"\d+\.\d\d", closing(sheet.work)))

        assert near > 2
        assert far < 1.05


KINDS_OF_PROBLEM = [
    shipped("whip-over-float"),
    shipped("mast-169-open"),
    shipped("whip-stub-75"),
    shipped("patch-100-open-50"),
    random_problem(7),
]
HALF_MADE = re.compile(r"[{}]|\bnan\b|\bNone\b|lambda|<function|\s{2}|\(\)")


def texts(given: Problem, notation: Notation) -> dict[str, str]:
    """Every text that a student may meet on the way through a problem, by where it stands."""
    sheet = blank(given, notation)
    work, lesson = sheet.truth, sheet.lesson
    found = {
        "title": lesson.title,
        "purpose": lesson.purpose,
        "task": work.say(lesson.task),
        "closing": closing(work),
    }
    for step in sheet.steps:
        parts = {
            "title": step.title,
            "ask": step.ask,
            "goal": step.goal,
            "rule": step.rule,
            "because": step.because,
        }
        found |= {f"{step.key}: {name}": work.say(text) for name, text in parts.items()}
        found[f"{step.key}: numbers"] = step.numbers(work)
        for one in step.fields:
            found |= {f"{one.key}: {name}": text for name, text in texts_of(one, work).items()}
    return found


def texts_of(one: Any, work: Any) -> dict[str, str]:
    """The texts of one field: its label, its choices, its slips, its strokes."""
    kind = one.kind(work)
    choices = dict(kind.options) if isinstance(kind, Choice) else {}
    slips = {f"{s.key}, {name}": work.say(text) for s in one.slips for name, text in (
        ("doing", s.doing), ("question", s.question), ("remedy", s.remedy))}  # fmt: skip
    strokes = {f"stroke {i}": stroke.spoken for i, stroke in enumerate(one.strokes(work))}
    return (
        {"label": work.say(one.label), "example": work.say(getattr(kind, "example", "") or "-")}
        | choices
        | slips
        | strokes
        | {"answer": work.write(one.key)}
    )


@pytest.mark.parametrize("given", KINDS_OF_PROBLEM, ids=lambda p: p.key)
@pytest.mark.parametrize(
    "notation", NOTATIONS, ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.angle}, {n.length}"
)
class TestTexts:
    def test_every_text_is_whole(self, given, notation):
        """In every notation every text is filled in: no brace, no gap, nothing half made."""
        assert {} == {place: text for place, text in texts(given, notation).items()
                      if HALF_MADE.search(text) or not text.strip()}  # fmt: skip

    def test_the_symbols_of_the_course(self, given, notation):
        """The course's own symbols for distance and stub length stand where these are asked for."""
        found = texts(given, notation)

        assert "give D." in found["distance: ask"]
        assert "Give ℓ₂ " in found["length: ask"]
        assert found["length.near: label"].endswith("ℓ₂")

    def test_the_units_of_the_course(self, given, notation):
        """Lengths stand in the course's unit, complex numbers with its imaginary unit."""
        found = texts(given, notation)

        assert found["distance.near: answer"].endswith("°" if notation.length == "degrees" else " λ")
        assert f" {notation.imaginary}" in found["normalise: answer"]


def test_no_other_imaginary_unit():
    """In a course that writes i no text writes j for it."""
    found = texts(shipped("whip-stub-75"), Notation(imaginary="i"))

    assert {} == {place: text for place, text in found.items() if re.search(r"\bj(?:b\b|\d|\b)", text)}


def test_something_speaks_for_either_solution():
    """Whichever solution a student chooses, one of the reasons on offer is true of it."""
    sheets = [blank(given).enter("choose.which", side) for given in shipped_problems() for side in SIDES]
    accepts = LESSON.field("choose.why").accepts

    assert accepts is not None
    assert [] == [sheet.problem.key for sheet in sheets if not accepts(sheet.work)]


def test_questions_and_instructions_end_as_such():
    """Every instruction, hint and remedy is a sentence, and every question a question."""
    work = blank(shipped("whip-stub-75")).truth
    for step in LESSON.steps:
        said = [work.say(text) for text in (step.ask, step.goal, step.rule, step.because)]
        assert [] == [
            text for text in said if text[-1] not in ".?" or not text.startswith(("z = ", text[0].upper()))
        ]
        for slip in (slip for one in step.fields for slip in one.slips):
            question, remedy, doing = map(work.say, (slip.question, slip.remedy, slip.doing))
            assert (question[-1], remedy[-1]) == ("?", ".")
            assert doing[0].islower()
            assert doing[-1] not in ".?"


def test_keys_are_unique():
    """No two steps, no two fields and no two slips of one field share a key."""
    fields = [one for step in LESSON.steps for one in step.fields]
    names = [[step.key for step in LESSON.steps], [one.key for one in fields]]
    names += [[slip.key for slip in one.slips] for one in fields]

    assert [] == [keys for keys in names if len(keys) != len(set(keys))]


def test_at_least_the_agreed_steps():
    """The lesson has a step for each construction that the method needs, in the order of the chart."""
    agreed = ["normalise", "place", "mismatch", "admittance", "unit_circle", "crossing", "susceptance", "distance",
              "needed", "start", "length", "total", "choose", "millimetres"]  # fmt: skip

    assert agreed == [step.key for step in LESSON.steps if step.key != "own"]


class TestStepsOfAProblem:
    def test_own_chart_only_for_another_stub(self):
        """The stub's own chart is a step only where the stub has an impedance of its own."""
        assert "own" in {step.key for step in LESSON.steps_of(shipped("whip-stub-75"))}
        assert "own" not in {step.key for step in LESSON.steps_of(shipped("whip-434"))}

    def test_millimetres_only_with_a_frequency(self):
        """Lengths in millimetres are asked for only where a frequency is given."""
        assert "millimetres" not in {step.key for step in LESSON.steps_of(shipped("whip-over-float"))}
        assert "millimetres" in {step.key for step in LESSON.steps_of(shipped("whip-434"))}
