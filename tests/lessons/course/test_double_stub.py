"""The double stub as a lesson: its values against print and the core, its forbidden region, and its slips."""

from math import pi, sin

import numpy as np
import pytest
from hypothesis import assume, settings
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import double_stub
from core.forbidden import least_extra_line
from core.line import half_wave_difference
from lessons import open_sheet
from lessons.course.double_stub import LESSON
from lessons.course.double_stub_values import BOTH, is_forbidden
from lessons.grammar.lesson import Work
from lessons.grammar.problem import Problem
from lessons.working.achieved import achieved_ratio, closing
from lessons.working.sheet import Sheet

SIDES = tuple(one.key for one in BOTH)
POZAR = {"load": 60 - 80j, "line": 50.0, "first_end": "open", "second_end": "open"}
ENDS = st.sampled_from(("short", "open"))
loads = st.builds(complex, st.floats(5, 300), st.floats(-300, 300)).filter(lambda z: abs(z - 50) > 1)
heavy_loads = st.builds(complex, st.floats(3, 15), st.floats(-8, 8))


def truth(**givens: object) -> Work:
    """The solver's own answers."""
    return Work(LESSON, LESSON.problem(givens))


def solved(problem: Problem) -> Sheet:
    """The sheet with every answer as the solver writes it."""
    sheet = Sheet(LESSON, problem)
    for step in LESSON.steps_of(problem):
        for one in step.fields:
            sheet = sheet.enter(one.key, sheet.truth.write(one.key))
    return sheet


@pytest.mark.parametrize(
    ("field", "printed", "half_digit"),
    [
        ("admittance", 0.3 + 0.4j, 0.005),
        ("first_part.higher", 1.314, 0.0005),
        ("first_part.lower", -0.114, 0.0005),
        ("arriving.higher", 1 - 3.38j, 0.005),
        ("arriving.lower", 1 + 1.38j, 0.005),
        ("first_length.higher", 0.146, 0.0006),
        ("second_length.higher", 0.204, 0.0006),
        ("first_length.lower", 0.482, 0.0006),
        ("second_length.lower", 0.350, 0.0006),
    ],
)
def test_against_print(field, printed, half_digit):
    """60 − j80 ohm, open stubs an eighth apart: Pozar, 4th ed., example 5.4 (from memory)."""
    assert pytest.approx(printed, abs=half_digit) == truth(**POZAR)[field]


@pytest.mark.parametrize(("spacing", "largest"), [(1 / 8, 2.0), (3 / 8, 2.0), (1 / 4, 1.0)])
def test_limit_against_print(spacing, largest):
    """Stubs an eighth or three eighths apart match g up to 2, a quarter apart up to 1 (common practice, no source)."""
    assert pytest.approx(largest) == truth(load=60 - 80j, line=50.0, spacing=spacing)["limit"]


class TestAgainstTheCore:
    @settings(deadline=None)
    @for_all(
        load=loads,
        spacing=st.floats(0.05, 0.45),
        ends=st.tuples(ENDS, ENDS),
        stub=st.sampled_from((50.0, 75.0)),
    )
    def test_lengths(self, load, spacing, ends, stub):
        """The lengths are those of the core's designer, both solutions, and there are none where it has none."""
        assume(abs(sin(2 * pi * spacing)) > 0.1)
        found = double_stub(load, 50, spacing, ends=ends, stub_impedances=(stub, 50))
        work = truth(
            load=load,
            line=50.0,
            spacing=spacing,
            first_end=ends[0],
            second_end=ends[1],
            first_stub=stub,
            second_stub=50.0,
        )
        assert is_forbidden(work.problem) == (not found)
        if len(found) == 2:
            mine = [[work[f"{which}_length.{side}"] for which in ("first", "second")] for side in SIDES]
            theirs = [list(one.stub_lengths) for one in found]
            off = min(
                np.max(np.abs(half_wave_difference(np.array(mine), np.array(order))))
                for order in (theirs, theirs[::-1])
            )
            assert off < 1e-7

    @settings(deadline=None)
    @for_all(load=loads, spacing=st.floats(0.08, 0.42))
    def test_what_is_built(self, load, spacing):
        """What is built of either solution reflects nothing, by the evaluator alone."""
        work = truth(load=load, line=50.0, spacing=spacing)
        assume(not is_forbidden(work.problem) and abs(work["admittance"].real / work["limit"] - 1) > 1e-6)

        assert pytest.approx([1, 1], abs=1e-4) == [achieved_ratio(work, one) for one in BOTH]

    @settings(deadline=None)
    @for_all(load=heavy_loads, spacing=st.floats(0.12, 0.38))
    def test_way_out(self, load, spacing):
        """Where nothing matches, the least line that leads out is the core's."""
        work = truth(load=load, line=50.0, spacing=spacing)
        assume(is_forbidden(work.problem))

        assert pytest.approx(least_extra_line(load, 50, spacing), abs=1e-6) == work["way_out"]


class TestForbidden:
    def test_its_steps(self):
        """A load that two stubs cannot match is taken as far as the way out, and no stub is asked for."""
        steps = [one.key for one in LESSON.steps_of(LESSON.problem({"load": 20 + 0j, "line": 50.0}))]

        assert ["normalise", "place", "mismatch", "admittance", "region", "way_out"] == steps

    def test_nothing_is_said_to_match(self):
        """Its sheet ends solved, neither matched nor unmatched, and the closing says that nothing matches."""
        sheet = solved(LESSON.problem({"load": 20 + 0j, "line": 50.0}))

        assert sheet.solved
        assert sheet.matched is None
        assert "cannot match this load" in closing(sheet.work)

    def test_the_line_leads_out(self):
        """With a little more line than that before the stubs, they match the load."""
        extra = truth(load=20 + 0j, line=50.0)["way_out"]

        assert 0 == len(double_stub(20, 50, 1 / 8, first_distance=extra - 1e-3))
        assert 2 == len(double_stub(20, 50, 1 / 8, first_distance=extra + 1e-3))

    def test_on_the_boundary(self):
        """A load on the boundary is matched, both solutions being one."""
        work = truth(load=20 + 10j, line=50.0)

        assert not is_forbidden(work.problem)
        assert pytest.approx(work["first_length.higher"], abs=1e-6) == work["first_length.lower"]

    def test_half_a_wave_apart(self):
        """Stubs half a wavelength apart are refused, with the reason."""
        assert "act at one point" in LESSON.refuses(
            LESSON.problem({"load": 60 - 80j, "line": 50.0, "spacing": 0.5})
        )


@pytest.mark.parametrize("givens", [{}, {"first_stub": 75.0}, {"spacing": 0.375, "second_end": "open"}])
def test_solved_and_matched(givens):
    """The solver's own answers, as they are written, are all right, and the line is matched."""
    sheet = solved(LESSON.problem({"load": 60 - 80j, "line": 50.0, **givens}))

    assert {"right"} == {one.judgement for one in sheet.verdicts.values()}
    assert sheet.matched


@pytest.mark.parametrize(
    ("field", "text", "slip"),
    [
        ("limit", "1.414", "sine not squared"),
        ("limit", "0.5", "upside down"),
        ("region", "inside", "other side"),
        ("rotated", "toward generator", "turned the other way"),
        ("rotated", "unturned", "not turned"),
        ("after.higher", "0.3 - 0.286j", "turned the other way"),
        ("first_part.higher", "1.714", "all of it"),
        ("first_part.higher", "-1.314", "sign not flipped"),
        ("arriving.lower", "0.3 + 0.286j", "not walked"),
        ("second_part.lower", "1.38", "sign not flipped"),
        ("first_length.lower", "0.268", "wrong way"),
        ("first_length.higher", "0.146", "wrong end"),
        ("second_length.lower", "0.2", "double angle"),
    ],
)
def test_slips_are_named(field, text, slip):
    """What a student making each mistake would write is named as it, or it is one of two that are asked about."""
    sheet = open_sheet(LESSON, {"load": "60-80j", "line": "50"})
    for step in sheet.steps:
        for one in step.fields:
            if one.key == field:
                assert slip in sheet.enter(field, text).verdicts[field].suspected
                return
            sheet = sheet.enter(one.key, sheet.truth.write(one.key))
    raise AssertionError(f"no field {field}")
