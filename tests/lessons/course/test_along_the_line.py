"""Along the line as a lesson: there and back, in every unit; what it refuses, withholds and understands.

Values from print stand in tests/reference; here the core's own line equation is the other way to each value.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import input_impedance
from lessons import BadGivens, check_lines, open_sheet
from lessons.course.along_the_line import LESSON
from lessons.grammar.given_lengths import Stated
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import Ray, Way
from lessons.working.achieved import closing
from lessons.working.construction import plans
from lessons.working.withheld import gives_away, millimetres_asked
from tests.lessons.solving import blank, random_problem, shipped_problems, solved
from tests.lessons.working.test_readings import NOTATIONS, difference, is_same, number

loads = st.builds(complex, st.floats(2, 400), st.floats(-300, 300)).filter(lambda z: abs(z - 50) > 2)
lengths = st.floats(0.001, 4.9)
FORWARD = {"load": "60-80j", "line": "50", "along": "0.3"}
BACK = {"input": "120-90j", "line": "75", "along": "0.62"}
METRIC = {"load": "75-60j", "line": "50", "along": "95 mm", "frequency": "434 MHz", "velocity": "0.66"}


def problem(**givens: object) -> Problem:
    """A problem of the lesson on a line of 50 ohm."""
    return LESSON.problem({"line": 50.0, **givens})


class TestAgainstTheCore:
    @for_all(load=loads, length=lengths)
    def test_at_the_input(self, load, length):
        """The impedance at the input is that of the line equation."""
        work = blank(problem(load=load, along=Stated(length, "wavelengths"))).truth

        assert pytest.approx(complex(input_impedance(load, 50.0, length)), rel=1e-6) == work["ohms"]

    @for_all(load=loads, length=lengths)
    def test_there_and_back(self, load, length):
        """Who walks to the input and back from what stands there is at the load again."""
        along = Stated(length, "wavelengths")
        there = blank(problem(load=load, along=along)).truth["ohms"]
        back = blank(problem(input=there, along=along)).truth["ohms"]

        assert pytest.approx(load, rel=1e-6, abs=1e-6) == back

    def test_in_every_unit(self):
        """0.3 wavelength, 108 degrees and 300 mm of a wave a metre long are one length."""
        units = [
            problem(load=60 - 80j, along=Stated(0.3, "wavelengths")),
            problem(load=60 - 80j, along=Stated(108.0, "degrees")),
            problem(load=60 - 80j, along=Stated(300.0, "millimetres"), frequency=299_792_458.0, velocity=1.0),
        ]

        assert pytest.approx([blank(units[0]).truth["ohms"]] * 3) == [
            blank(one).truth["ohms"] for one in units
        ]

    def test_half_waves_repeat(self):
        """Whole half wavelengths more change nothing at the input."""
        short, long = (
            blank(problem(load=60 - 80j, along=Stated(size, "wavelengths"))).truth["ohms"]
            for size in (0.1, 2.6)
        )

        assert pytest.approx(short) == long


@pytest.mark.parametrize("notation", NOTATIONS, ids=lambda n: f"{n.admittance}, {n.length}")
def test_readings_add_up(notation: Notation):
    """What stands at the walk is the difference of what stands at its ends, but for whole turns of the chart."""
    for given in (*shipped_problems(LESSON), *(random_problem(seed, LESSON) for seed in range(60))):
        work = blank(given, notation).truth
        strokes = [stroke for key in ("start", "end") for stroke in LESSON.field(key).strokes(work)]
        start, end = (number(stroke.value) for stroke in strokes if isinstance(stroke, Ray))
        (length,) = (number(stroke.value) for stroke in strokes if isinstance(stroke, Way))

        assert is_same(difference(start, end, length, notation), length, notation)
        assert number(notation.wavelengths(work["waves"])) == length


class TestWhichEndIsAsked:
    def test_texts(self):
        """Where the input is given, the way leads toward the load and the load is what is found."""
        sheet = open_sheet("along-the-line", BACK)
        said = {step.key: sheet.work.say(step.ask) for step in sheet.steps}

        assert "scale toward the load" in said["start"]
        assert "Z at the load" in said["ohms"]
        assert "counter-clockwise" in sheet.work.say(sheet.steps[4].rule)

    @pytest.mark.parametrize(
        ("changed", "sentence"),
        [
            ({"input": "30"}, "Both ends are given"),
            ({"along": "80 mm"}, "only with a frequency"),
            ({"along": "9 m", "frequency": "2.4 GHz"}, "more than 10 wavelengths"),
            ({"load": "50"}, "the line itself"),
            ({"load": "50j"}, "more resistance"),
        ],
    )
    def test_refused(self, changed, sentence):
        """What leaves nothing to find is refused in a sentence."""
        sheet = open_sheet("along-the-line", FORWARD | changed)

        assert sentence in sheet.lesson.refuses(sheet.problem)

    @pytest.mark.parametrize("along", ["0", "-0.1", "11", "4000°", "0.3 V"])
    def test_no_length(self, along):
        """A length that cannot be meant is refused with what can be written."""
        with pytest.raises(BadGivens, match=r"such as 0\.3|not a length"):
            open_sheet("along-the-line", FORWARD | {"along": along})

    @pytest.mark.parametrize("text", ["0.3", "108°", "86.5 mm"])
    def test_a_length_is_said_as_it_was_stated(self, text):
        """In its own unit, and written so that it comes back."""
        (kind,) = (one.kind for one in LESSON.givens if one.key == "along")
        value = kind.read(text)

        assert text == kind.write(value)
        assert text == kind.say(value, Notation()).removesuffix(" λ")


class TestWhatIsAsked:
    def test_no_reading_stands_elsewhere(self):
        """The reading beside the known point is told only after it was asked."""
        for texts in (FORWARD, BACK):
            sheet = open_sheet("along-the-line", texts)
            for key in ("normalise", "place", "mismatch"):
                sheet = sheet.enter(key, sheet.write(key))
            point = sheet.work["place"]

            assert gives_away(sheet, point, "reading")
            assert not gives_away(sheet.enter("start", sheet.write("start")), point, "reading")

    def test_no_scale_bar_in_millimetres(self):
        """While the wavelength is asked nothing is drawn in millimetres; nor is a length that is asked."""
        sheet = open_sheet("along-the-line", METRIC)
        (plan,) = plans(sheet)

        assert millimetres_asked(sheet)
        assert not plan.complete

    def test_no_load_before_it_is_found(self):
        """The line is drawn with its load where that is given, and where it is asked when it has been found."""
        assert 1 == len(plans(open_sheet("along-the-line", FORWARD)))
        assert () == plans(open_sheet("along-the-line", BACK))
        (plan,) = plans(solved(open_sheet("along-the-line", BACK).problem))
        assert pytest.approx(99.3 + 88.3j, abs=0.1) == plan.network.load_impedance


class TestCarriedOn:
    def test_a_wavelength_in_metres(self):
        """A wavelength that was carried in metres leads nowhere: what follows from it sends back to that step."""
        sheet = open_sheet("along-the-line", METRIC).enter("wave", "0.4559").carry("wave")
        verdict = sheet.enter("waves", "0.208").verdicts["waves"]

        assert ("impossible", "waves") == (verdict.judgement, verdict.back_to)
        assert "208 wavelengths long" in verdict.sentence


class TestEnding:
    @pytest.mark.parametrize(
        ("texts", "found"), [(FORWARD, "The input of the line shows 21.6"), (BACK, "The line ends in 99.3")]
    )
    def test_says_what_was_found(self, texts, found):
        """A finished sheet says what stands at the end that was asked."""
        sheet = solved(open_sheet("along-the-line", texts).problem)

        assert (True, True) == (sheet.finished, sheet.solved)
        assert closing(sheet.work).startswith(found)

    def test_of_a_wrong_value_says_no_more_than_that(self):
        """What follows from a value that was carried wrong is not said to be so."""
        sheet = open_sheet("along-the-line", FORWARD)
        for step in sheet.steps:
            for one in step.fields:
                text = "0.4" if one.key == "end" else sheet.work.write(one.key)
                sheet = sheet.enter(one.key, text)
                sheet = sheet if sheet.settled(one.key) else sheet.carry(one.key)

        assert (True, False) == (sheet.finished, sheet.solved)
        assert closing(sheet.work).startswith("By this sheet the input of the line shows ")


class TestDrawn:
    @pytest.mark.parametrize(("texts", "walked"), [(FORWARD, 0.3), (BACK, -0.12)])
    def test_the_walk(self, texts, walked):
        """A walk along the circle ends at the reading that is asked: whole turns more or less are one."""
        sheet = open_sheet("along-the-line", texts)

        assert "right" == sheet.draw("end", walked).verdicts["end"].judgement
        assert "wrong way" == sheet.draw("end", -walked).verdicts["end"].slip

    def test_on_a_circle_drawn_too_wide(self):
        """Who has opened the circle too wide reads z on that one, and is right for it."""
        sheet = open_sheet("along-the-line", FORWARD)
        sheet = sheet.enter("normalise", "1.2-1.6j").draw("mismatch", 0.68).carry("mismatch")
        end = 0.68 * np.exp(1j * (np.pi - 4 * np.pi * sheet.solution["end"]))
        verdict = sheet.draw("there", complex(end)).verdicts["there"]

        assert ("right", True) == (verdict.judgement, verdict.follows)


class TestPastTheEnd:
    def test_is_named(self):
        """A sum that was not taken back onto the scale is named; it would be right but for that."""
        verdict = open_sheet("along-the-line", FORWARD).enter("end", "0.615").verdicts["end"]

        assert ("slip", "past the scale's end") == (verdict.judgement, verdict.slip)
        assert "take 0.5 off" in verdict.sentence

    def test_before_its_start(self):
        """So is a difference that was left below zero."""
        verdict = open_sheet("along-the-line", BACK).enter("start", "-0.304").verdicts["start"]

        assert ("slip", "before the scale's start") == (verdict.judgement, verdict.slip)


@pytest.mark.parametrize(
    ("lines", "fields"),
    [
        ("z_in = 0.43 + j0.79\nZ_in = 21.6 + j39.3 Ω", ["there", "ohms"]),
        ("Z_in = 21.6 + j39.3 Ω\nz_in = 0.43 + j0.79", ["ohms", "there"]),
        ("zL = 1.2 - j1.6\nload reading = 0.315\ninput reading = 0.115", ["normalise", "start", "end"]),
        ("Zin = 21.6 + j39.3", ["ohms"]),
        ("Zin / Z0 = 0.43 + j0.79", ["there"]),
    ],
)
def test_lines_of_ones_own(lines, fields):
    """The small z and the large Z of one end are told apart by how they are written, and by what fits."""
    found = check_lines("along-the-line", FORWARD, lines)

    assert [(field, "right") for field in fields] == [
        (one.field, one.verdict.judgement) for one in found if one.verdict
    ]


def test_every_shipped_problem_is_solved():
    """With the solver's answers every problem of the set is solved, to three digits, in both directions."""
    found = shipped_problems(LESSON)

    assert len(found) >= 8
    assert {True} == {solved(one).solved for one in found}
    assert {"wavelengths", "degrees", "millimetres"} == {one["along"].unit for one in found}
    assert {True, False} == {one["load"] is None for one in found}
