"""A stub alone as a lesson: both ways round, its mistakes by plain arithmetic, what it refuses and draws."""

from math import atan, pi, tan

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core.line import half_wave_difference
from lessons import check_lines, open_sheet
from lessons.course.stub_alone import LESSON
from lessons.grammar.given_lengths import Stated
from lessons.working.achieved import closing
from lessons.working.construction import plans
from tests.lessons.solving import blank, fields_of, random_problem, shipped_problems, solved

ENDS = st.sampled_from(["short", "open"])
FORWARD = {"line": "50", "along": "0.15", "end": "short"}
BACK = {"line": "75", "wanted": "-60", "end": "open", "frequency": "868 MHz", "velocity": "0.66"}


def cut(**givens: object):
    """A problem of the lesson."""
    return LESSON.problem({"line": 50.0, **givens})


class TestBothWays:
    @for_all(waves=st.floats(0.02, 0.48), end=ENDS)
    def test_what_it_shows(self, waves, end):
        """The reactance is Z0 tan(beta l) of a shorted stub and -Z0 cot(beta l) of an open one."""
        problem = cut(along=Stated(waves, "wavelengths"), end=end)
        if LESSON.refuses(problem):
            return
        angle = 2 * pi * waves

        expected = 50 * (tan(angle) if end == "short" else -1 / tan(angle))
        assert expected == pytest.approx(blank(problem).truth["ohms"], rel=1e-9)

    @for_all(part=st.floats(-40, 40).filter(lambda x: abs(x) > 0.03), end=ENDS)
    def test_there_and_back(self, part, end):
        """The length that is found shows the reactance that was wanted, by the evaluator."""
        problem = cut(wanted=part * 50, end=end)
        sheet = blank(problem)
        network = LESSON.network(sheet.truth, None, {"length"})
        assert network is not None
        back = complex(network.input_reflection())

        assert part == pytest.approx(((1 + back) / (1 - back)).imag, rel=1e-6)
        assert 1 == pytest.approx(abs(back))

    @for_all(waves=st.floats(0.03, 0.47), end=ENDS)
    def test_the_length_comes_back(self, waves, end):
        """Asked for what a stub shows, and then for the length that shows it: it is the same length."""
        problem = cut(along=Stated(waves, "wavelengths"), end=end)
        if LESSON.refuses(problem):
            return
        length = blank(cut(wanted=blank(problem).truth["ohms"], end=end)).truth["length"]

        assert abs(half_wave_difference(waves, length)) < 1e-9


class TestRefused:
    @pytest.mark.parametrize(
        ("givens", "sentence"),
        [
            ({"wanted": 60.0, "along": Stated(0.1, "wavelengths")}, "the other one is asked"),
            ({"wanted": None, "along": None}, "the other one is asked"),
            ({"along": Stated(0.25, "wavelengths")}, "as good as an open circuit"),
            ({"along": Stated(180.0, "degrees")}, "as good as a short circuit"),
            ({"along": Stated(0.25, "wavelengths"), "end": "open"}, "as good as a short circuit"),
            ({"along": Stated(50.0, "millimetres")}, "only with a frequency"),
            ({"along": Stated(9e6, "millimetres"), "frequency": 868e6}, "more than 10 wavelengths"),
        ],
    )
    def test_nothing_to_find(self, givens, sentence):
        """What cannot be read or is not stated is refused in a sentence."""
        assert sentence in LESSON.refuses(cut(**givens))


X = tan(2 * pi * 0.15)
NEEDED = -60 / 75
LENGTH = (atan(NEEDED) / (2 * pi) - 0.25) % 0.5
WAVE = 299_792_458e3 * 0.66 / 868e6
NAMED = [
    (FORWARD, "begin.point", "open", "wrong end"),
    (FORWARD, "begin.sense", "counter-clockwise", "wrong way"),
    (FORWARD, "start", "0.25", "other end of the axis"),
    (FORWARD, "reached", "0.35", "wrong way"),
    (FORWARD, "reached", "0.075", "half the length"),
    (FORWARD, "reached", "0.3", "double the length"),
    (FORWARD, "susceptance", f"{1 / X:.3f}", "sign not turned"),
    (FORWARD, "susceptance", f"{-X:.3f}", "not inverted"),
    (FORWARD, "reactance", f"{X * 50:.2f}", "in ohms"),
    (FORWARD, "ohms", f"{X:.3f}", "not denormalised"),
    (FORWARD, "ohms", f"{-50 / X:.2f}", "susceptance taken"),
    (FORWARD, "part.like", "capacitor", "sign of the reactance"),
    (FORWARD, "longer", f"{50 * X:.2f}", "not walked on"),
    (FORWARD, "longer", f"{50 * tan(2 * pi * 0.13):.2f}", "cut short"),
    (FORWARD, "longer", f"{50 * tan(2 * pi * 0.17) / 50:.3f}", "not denormalised"),
    (BACK, "needed", "-60", "not normalised"),
    (BACK, "needed", "-1.2", "50 ohm by habit"),
    (BACK, "needed", "0.8", "sign of the reactance lost"),
    (BACK, "rim", f"{(0.25 + atan(NEEDED) / (2 * pi)) % 0.5:.3f}", "admittance place"),
    (BACK, "length", f"{(LENGTH + 0.25) % 0.5:.3f}", "wrong end"),
    (BACK, "length", f"{0.5 - LENGTH:.3f}", "wrong way"),
    (BACK, "length", f"{LENGTH / 2:.3f}", "half angle"),
    (BACK, "millimetres", f"{LENGTH * WAVE / 0.66:.1f}", "velocity ignored"),
]


class TestSlips:
    @pytest.mark.parametrize(
        ("givens", "key", "text", "slip"), NAMED, ids=[f"{key}, {slip}" for _, key, _, slip in NAMED]
    )
    def test_is_named(self, givens, key, text, slip):
        """Whoever makes the mistake is told which it is, or asked about it."""
        verdict = open_sheet("stub-alone", givens).enter(key, text).verdicts[key]

        assert "slip" == verdict.judgement
        assert slip in (verdict.slip, *verdict.suspected[:2])

    def test_no_stub_starts_at_the_centre(self):
        """From the match point nothing follows: the sheet leads back to the stub's start."""
        sheet = open_sheet("stub-alone", FORWARD).enter("begin.point", "match").carry("begin.point")
        verdict = sheet.enter("start", "0.1").verdicts["start"]

        assert ("impossible", "begin") == (verdict.judgement, verdict.back_to)

    def test_the_wrong_end_gone_on_from(self):
        """Who starts at the other end, and goes on rightly from there, loses one step alone."""
        sheet = open_sheet("stub-alone", FORWARD).enter("begin.point", "open").carry("begin.point")
        for key, text in {"start": "0.25", "reached": "0.4", "reactance": f"{-1 / X:.3f}"}.items():
            sheet = sheet.enter(key, text)
            assert sheet.verdicts[key].follows

    def test_a_wrong_value_is_not_said_to_be_so(self):
        """A sheet that ends on a wrong reactance says what it found by this sheet, and no more."""
        sheet = solved(cut(along=Stated(0.15, "wavelengths")))
        wrong = sheet.enter("ohms", "20").carry("ohms")

        assert "The stub shows" in closing(sheet.work)
        assert closing(wrong.work).startswith("By this sheet")


class TestWhatIsDrawn:
    def test_no_length_before_it_is_found(self):
        """Where the length is asked the drawing has none until it is settled."""
        sheet = open_sheet("stub-alone", BACK)
        before, after = (
            plans(one)[0].network.total_line for one in (sheet, sheet.enter("length", f"{LENGTH:.3f}"))
        )

        assert np.isnan(before)
        assert LENGTH == pytest.approx(after, abs=1e-3)


class TestProblems:
    def test_shipped_ones_are_solved(self):
        """Every shipped problem can be finished, right in every step."""
        shipped = shipped_problems(LESSON)

        assert len(shipped) >= 7
        assert all(sheet.finished and sheet.solved for sheet in map(solved, shipped))

    def test_random_ones_ask_both_ways(self):
        """Random problems ask for the reactance and for the length, with either end and in every unit."""
        drawn = [random_problem(seed, LESSON) for seed in range(60)]

        assert {True, False} == {one["wanted"] is None for one in drawn}
        assert {"short", "open"} == {one["end"] for one in drawn}
        units = {one["along"].unit for one in drawn if one["along"]}
        assert {"wavelengths", "degrees", "millimetres"} == units
        assert all(sheet.solved for sheet in map(solved, drawn[:20]))


def test_a_working_is_read_line_for_line():
    """Lines as a student writes them are read, and each is right."""
    lines = f"x = {NEEDED}\nstart = 0.25\nl = {LENGTH:.3f}\nb = {-1 / NEEDED:.3f}\nX longer = -45.9"
    found = check_lines("stub-alone", BACK, lines)

    assert 5 == len(found)
    assert ["right"] * 5 == [one.verdict.judgement if one.verdict else one.reason for one in found]


def test_every_step_of_a_sheet_has_its_fields():
    """Either way round asks what belongs to it, and nothing of the other."""
    forward, back = (fields_of(open_sheet("stub-alone", one)) for one in (FORWARD, BACK))

    assert {"reached", "reactance", "ohms"} == {f.key for f in forward} - {f.key for f in back}
    assert {"needed", "rim", "length", "millimetres"} == {f.key for f in back} - {f.key for f in forward}
