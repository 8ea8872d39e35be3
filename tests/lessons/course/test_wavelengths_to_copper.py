"""From wavelengths to copper as a lesson: its values against the core's layout, its mistakes, its texts."""

import pytest

from core import Microstrip, lay_out, single_stub
from core.elements import Section, Stub
from lessons.course.wavelengths_to_copper import LESSON
from lessons.grammar.kinds import Dimension, Said, StandingWaveRatio
from lessons.grammar.lesson import Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from lessons.working.construction import plans
from tests.lessons.course.test_shunt_stub import HALF_MADE
from tests.lessons.solving import blank, random_problem, shipped_problems
from tests.lessons.solving import problem as any_problem

SEEDS = range(1, 40)


def problem(load: complex = 25 + 45j, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson; an open stub on the usual board unless said otherwise."""
    return any_problem(load, line, LESSON, **{"end": "open", **others})


class TestValues:
    @pytest.mark.parametrize("seed", SEEDS)
    def test_as_the_core_lays_it_out(self, seed):
        """Widths, lengths as cut and what they cost are those of the core's layout of the same design."""
        given = random_problem(seed, LESSON)
        work = blank(given).truth
        found = single_stub(given["load"], given["line"], end=given["end"])
        design = found[("near", "far").index(given["design"])]
        board = Microstrip(given["permittivity"], given["height"], formulas="textbook")
        step = {"tenth": 0.1, "half": 0.5}[given["cutter"]]
        layout = lay_out(design, given["frequency"], board, step, open_end_correction=True)
        line, stub = layout.pieces

        assert pytest.approx(line.width_mm) == work["strip.width"]
        assert pytest.approx([line.exact_mm, stub.exact_mm]) == [work["metric.distance"], work["copper"]]
        assert pytest.approx([line.cut_mm, stub.cut_mm]) == [work["cut.distance"], work["cut.length"]]
        assert pytest.approx(layout.swr) == work["cost"]

    def test_a_shorted_end_adds_nothing(self):
        """The copper of a shorted stub is as long as the stub."""
        work = blank(problem(end="short")).truth

        assert (0.0, work["metric.length"]) == (work["end_effect"], work["copper"])

    def test_a_stub_shorter_than_its_end(self):
        """Where an open end adds more than the stub is long, the copper is half a wave longer."""
        work = blank(problem(52 - 2j, frequency=2.4e9, height=2.4, design="far")).truth
        stub = work["metric.length"] - work["end_effect"]

        assert stub < 0
        assert pytest.approx(stub + work["wave"] / 2) == work["copper"]

    def test_halfway_between_two_steps(self):
        """A length in the middle of two steps may be rounded up or down."""
        sheet = blank(problem(cutter="half")).enter("metric.distance", "56.25 mm").carry("metric.distance")
        said = [
            sheet.enter("cut.distance", text).verdicts["cut.distance"].judgement for text in ("56", "56.5")
        ]

        assert ["right", "right"] == said


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        (problem(50 + 0j), "matched already"),
        (problem(20j), "no power"),
        (problem(25 + 45j, 400.0), "no strip has 400"),
        (problem(frequency=10e9, height=3.2), "too high for the frequency"),
    ],
    ids=["matched", "no power", "no strip", "thick"],
)
def test_refused(given, sentence):
    """What has nothing to make, or nothing that these formulas are for, is refused in a sentence."""
    assert sentence in LESSON.refuses(given)
    assert not HALF_MADE.search(blank(given).truth.say(LESSON.task))


OPEN, SHORT = problem(), problem(150 - 70j, 75.0, end="short", cutter="half", height=1.2, frequency=2.4e9)
# What a student writes is worked out by hand, from the formulas that the hints name.
# On 1.6 mm of 4.4 at 868 MHz 50 ohm are 1.912 heights, and a wave is 189.3 mm long; ε_eff is 3.330.
FREE = 299_792_458e3 / 868e6
NAMED = [
    (OPEN, "strip.ratio", 1 / 1.9120, "upside down"),
    (OPEN, "strip.ratio", 4.92, "permittivity left out"),
    (SHORT, "strip.ratio", 1.912, "50 ohm by habit"),
    (OPEN, "strip.ratio", 3.0592, "in millimetres"),
    (OPEN, "strip.width", 1.9120, "ratio again"),
    (OPEN, "strip.width", 1.195, "divided by the height"),
    (OPEN, "strip.width", 0.30592, "metres"),
    (OPEN, "effective", 4.4, "relative permittivity"),
    (OPEN, "effective", 2.7, "half in air"),
    (OPEN, "effective", 2.7 + 1.7 / (1 + 12 * 1.912) ** 0.5, "upside down"),
    (OPEN, "effective", 2.7 + 1.7 / (1 + 12 / 1.912), "root forgotten"),
    (OPEN, "effective", 1.8248, "root taken"),
    (OPEN, "wave", FREE, "free space"),
    (OPEN, "wave", FREE / 4.4**0.5, "relative permittivity"),
    (OPEN, "wave", FREE / 3.3299, "root forgotten"),
    (OPEN, "wave", FREE * 1.8248, "multiplied"),
    (OPEN, "wave", 18.927, "metres"),
    (OPEN, "wave", 94.63, "halved"),
    (OPEN, "metric.distance", 56.29 * 1.8248, "free space"),
    (OPEN, "metric.length", 65.44 * (3.3299 / 4.4) ** 0.5, "relative permittivity"),
    (OPEN, "metric.length", 56.29, "lengths exchanged"),
    (SHORT, "end_effect", 0.4033, "shorted end corrected"),
    (OPEN, "end_effect", 0, "not corrected"),
    (OPEN, "end_effect", 0.6249 / 1.6, "in heights"),
    (OPEN, "end_effect", 0.6249 * 1.912, "times the width"),
    (OPEN, "copper", 65.44 + 0.625, "added"),
    (OPEN, "copper", 65.44, "not taken off"),
    (OPEN, "copper", 65.44 - 2 * 0.625, "taken off twice"),
    (OPEN, "cut.length", 64.9, "wrong way"),
    (OPEN, "cut.length", 65.4, "before the correction"),
    (OPEN, "cut.distance", 56, "whole millimetres"),
    (SHORT, "cost", 0.018983, "size of reflection"),
]


@pytest.mark.parametrize(
    ("given", "key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for _, key, _, slip in NAMED]
)
def test_slips_are_named(given, key, value, slip):
    """Whoever makes the mistake is told which it is."""
    verdict = blank(given).enter(key, f"{value:.5g}").verdicts[key]

    assert ("slip", slip) == (verdict.judgement, verdict.slip)


def ratio_left(work: Work) -> float:
    """The standing-wave ratio that the closing sentence tells."""
    return float(closing(work).rstrip(".").split(" ")[-1])


class TestFollowThrough:
    def test_the_wave_of_free_space(self):
        """With the wave of free space carried on, the lengths that follow from it are right for the student."""
        sheet = blank(OPEN).enter("wave", "345.4").carry("wave").enter("metric.distance", "102.7")

        assert sheet.verdicts["metric.distance"].follows

    def test_the_end_says_what_is_so(self):
        """The closing sentence reckons what was cut on the board as it is, not as the sheet has it."""
        sheet = blank(OPEN).enter("wave", "345.4").carry("wave")
        ratio = ratio_left(sheet.work)

        assert ratio > 2
        assert 1.01 > ratio_left(sheet.truth)

    def test_a_strip_of_another_impedance(self):
        """With another width the pieces are other lines: the end and the drawing reckon with their impedance."""
        sheet = blank(OPEN).enter("strip.width", "0.70").carry("strip.width")
        sheet = sheet.enter("cut.distance", "56.3").enter("cut.length", "64.8")
        line, stub = plans(sheet)[0].network.elements
        made = Microstrip(4.4, 1.6, formulas="textbook")

        assert isinstance(line, Section)
        assert isinstance(stub, Stub)
        assert [pytest.approx(made.impedance(0.7))] * 2 == [line.impedance, stub.impedance]
        assert (
            pytest.approx(56.3e-3 / made.guide_wavelength_m(868e6, line.impedance), rel=0.01) == line.length
        )
        assert ratio_left(sheet.work) > 2

    def test_a_wave_of_nothing(self):
        """A wave of no length leads back to its step."""
        sheet = blank(OPEN).enter("wave", "0").carry("wave").enter("cost", "1.1")

        assert ("impossible", "wave") == (sheet.verdicts["cost"].judgement, sheet.verdicts["cost"].back_to)
        assert "nothing can be cut" in closing(
            blank(OPEN).enter("strip.ratio", "900").carry("strip.ratio").work
        )


def test_what_is_drawn():
    """The drawing is the design, and then what is cut, as long as it acts: an open end has its correction again."""
    sheet = blank(OPEN)
    drawn = [sheet, sheet.enter("cut.distance", "56.3").enter("cut.length", "64.8")]
    lengths = [
        [one.length * sheet.truth["wave"] for one in plan.network.elements if isinstance(one, Section | Stub)]
        for plan in (plans(one)[0] for one in drawn)
    ]

    assert [
        pytest.approx([56.291, 65.443], abs=2e-3),
        pytest.approx([56.3, 64.8 + 0.625], abs=1e-3),
    ] == lengths


@pytest.mark.parametrize("given", [*shipped_problems(LESSON), random_problem(7, LESSON)], ids=lambda p: p.key)
class TestTexts:
    def test_a_class_that_measures_in_degrees(self, given):
        """The design stands in degrees of line where the course measures in them."""
        task = Work(LESSON, given, Notation(length="degrees")).say(LESSON.task)

        assert 2 == task.count("°")
        assert "λ" not in task


class TestDimension:
    @pytest.mark.parametrize(
        ("text", "value"), [("3.06", 3.06), ("0.306 cm", 3.06), ("3,06 mm", 3.06), ("0.01 m", 10)]
    )
    def test_read(self, text, value):
        """A size is read in any metric unit, in millimetres where none stands."""
        assert pytest.approx(value) == Dimension().read(text, STANDARD)

    @pytest.mark.parametrize("text", ["0.1 λ", "30°"])
    def test_no_length_of_line(self, text):
        """Wavelengths and degrees are no size."""
        with pytest.raises(Unreadable, match="wanted in millimetres"):
            Dimension().read(text, STANDARD)

    def test_half_waves_are_not_taken_off(self):
        """A size half a wave larger is another one."""
        assert Dimension().off_by(50.0 + 94.6, 50.0, "chart") > 100

    def test_below_nothing(self):
        """No piece has a length below zero."""
        odd = Dimension().oddity(-1.0, 1.0, "chart")

        assert odd is not None
        assert "shorter than nothing" in odd.sentence

    @pytest.mark.parametrize(
        ("value", "text"), [("0.11 * 90 mm", "9.9"), ("21.5 - 0.6", "20.9"), ("2.1 cm", "2.1 cm")]
    )
    def test_understood_as_a_sum(self, value, text):
        """In a student's own lines it may be a sum."""
        (reading,) = Dimension().understood(Said("l", value, STANDARD))

        assert pytest.approx(Dimension().read(text, STANDARD)) == Dimension().read(reading.text, STANDARD)


def test_a_calculated_ratio():
    """A calculated standing-wave ratio is half a percent off at most, has three decimals, and may be infinite."""
    kind = StandingWaveRatio(arithmetic=True)

    assert kind.off_by(1.03, 1.0, "chart") > 2 > 1 > StandingWaveRatio().off_by(1.03, 1.0, "chart")
    assert "1.036" == kind.write(1.0361, STANDARD)
    assert float("inf") == kind.read(kind.write(float("inf"), STANDARD), STANDARD)


def test_steps():
    """The steps come in the order of the derivation."""
    agreed = ["strip", "effective", "wave", "metric", "end_effect", "copper", "cut", "cost"]

    assert agreed == [step.key for step in LESSON.steps]
