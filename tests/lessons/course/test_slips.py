"""Recognisable mistakes. What a student who makes one would write is worked out here by plain arithmetic.

That these mistakes are usual is common practice, no source.
"""

from cmath import phase
from itertools import product
from math import log10, pi

import pytest

from core import single_stub
from lessons.course.shunt_stub import LESSON
from lessons.grammar import slips as made
from lessons.grammar.lesson import SIDES, Work
from lessons.problems.seeds import random_problem, shipped_problems
from lessons.working.marking import mark, predicted
from tests.lessons.solving import (
    HALF_TURN,
    OVERLAY,
    answers,
    blank,
    by_the_core,
    fields_of,
    problem,
    shipped,
    typed,
    unit_of,
)

WHIP = shipped("whip-over-float")  # 30 - j50 on 50 ohm, shorted stub of 50 ohm
OTHER_CABLE = shipped("whip-stub-75")  # 30 - j55 on 50 ohm, shorted stub of 75 ohm
Z = 0.6 - 1j
Y = 1 / Z
GAMMA = (Z - 1) / (Z + 1)
SWR = (1 + abs(GAMMA)) / (1 - abs(GAMMA))
NEAR, FAR = single_stub(30 - 50j, 50)
B = 2 * abs(GAMMA) / (1 - abs(GAMMA) ** 2) ** 0.5  # susceptance at the crossings, plus and minus
OTHER_Z = (30 - 55j) / 50
OTHER_GAMMA = abs((OTHER_Z - 1) / (OTHER_Z + 1))
OTHER_B = 2 * OTHER_GAMMA / (1 - OTHER_GAMMA**2) ** 0.5


def scale(y: complex) -> float:
    """Reading toward the generator where y is read on the chart of a half turn, zero at the left."""
    return (0.25 - phase((y - 1) / (y + 1)) / (4 * pi)) % 0.5


def shorted(b: float) -> float:
    """Length of a shorted stub that shows b: minus the cotangent of its angle is b."""
    return (phase(complex(-b, 1)) / (2 * pi)) % 0.5


def text(value: complex | float | str) -> str:
    """A value as a student types it."""
    return str(value).strip("()")


ON_WHIP, OVERLAID, ON_OTHER_CABLE = blank(WHIP), blank(WHIP, OVERLAY), blank(OTHER_CABLE)

NAMED = [
    pytest.param(ON_WHIP, "normalise", 30 - 50j, "not normalised", id="not normalised"),
    pytest.param(ON_WHIP, "normalise", Z.conjugate(), "sign lost", id="sign of the reactance lost"),
    pytest.param(ON_WHIP, "normalise", 1 / Z, "upside down", id="line over load"),
    pytest.param(ON_OTHER_CABLE, "normalise", (30 - 55j) / 75, "stub's impedance", id="by the stub's impedance"),
    pytest.param(ON_WHIP, "place", GAMMA.conjugate(), "sign lost", id="placed above the axis"),
    pytest.param(ON_WHIP, "place", -GAMMA, "admittance place", id="placed where y stands"),
    pytest.param(ON_WHIP, "mismatch", Z.real, "constant r", id="constant r followed in place of the mismatch circle"),
    pytest.param(ON_WHIP, "mismatch", 1 / SWR, "left side", id="circle read on the left"),
    pytest.param(ON_WHIP, "mismatch", abs(Z), "size of impedance", id="size of z for the ratio"),
    pytest.param(ON_WHIP, "mismatch", 20 * log10(SWR), "decibels", id="ratio in decibels"),
    pytest.param(ON_WHIP, "admittance", Z, "impedance kept", id="impedance where the admittance is needed"),
    pytest.param(ON_WHIP, "admittance", Y.conjugate(), "sign lost", id="sign of the susceptance lost"),
    pytest.param(ON_WHIP, "admittance", Z.conjugate(), "mirrored", id="mirrored in the axis"),
    pytest.param(ON_WHIP, "admittance", 1 / (30 - 50j), "not normalised", id="ohms inverted"),
    pytest.param(ON_OTHER_CABLE, "admittance", 75 / (30 - 55j), "stub's impedance", id="y of the stub's impedance"),
    pytest.param(ON_WHIP, "unit_circle", "unit resistance", "impedance kept", id="r = 1 for a shunt stub"),
    pytest.param(ON_WHIP, "crossing.near", 1 - 1j * B, "branches mixed", id="far crossing taken for the near one"),
    pytest.param(ON_WHIP, "crossing.far", 1 + 1j * Y.imag, "constant b", id="load's arc of b followed"),
    pytest.param(ON_WHIP, "distance.near", 0.5 - NEAR.distance, "wrong way", id="rotated the wrong way"),
    pytest.param(ON_WHIP, "distance.near", scale(1 + 1j * B), "end reading", id="end reading taken for the distance"),
    pytest.param(ON_WHIP, "distance.near", NEAR.distance + 0.25, "wrong start", id="distance measured from z"),
    pytest.param(ON_WHIP, "distance.far", FAR.distance * 2, "double angle", id="double angle"),
    pytest.param(ON_WHIP, "distance.far", FAR.distance / 2, "half angle", id="half angle"),
    pytest.param(ON_WHIP, "distance.near", NEAR.distance - 0.5, "negative length", id="negative difference left"),
    pytest.param(ON_WHIP, "distance.near", FAR.distance, "branches mixed", id="d of the other solution"),
    pytest.param(ON_OTHER_CABLE, "own.near", -OTHER_B, "ratio ignored", id="stub's own impedance ignored"),
    pytest.param(ON_OTHER_CABLE, "own.near", -OTHER_B * 50 / 75, "ratio inverted", id="ratio of impedances inverted"),
    pytest.param(ON_OTHER_CABLE, "length.near", shorted(-OTHER_B), "ratio ignored", id="length with the ratio ignored"),
    pytest.param(ON_WHIP, "start.point", "open", "wrong start", id="open point for a shorted stub"),
    pytest.param(ON_WHIP, "start.sense", "counter-clockwise", "wrong way", id="stub walked toward the load"),
    pytest.param(OVERLAID, "length.near", NEAR.stub_length + 0.25, "wrong start", id="stub from the open point"),
    pytest.param(ON_WHIP, "length.near", NEAR.stub_length / 2, "half angle", id="half angle on the rim"),
    pytest.param(ON_WHIP, "total.near", 1 + 2j * B, "sign not flipped", id="sign of the susceptance not flipped"),
    pytest.param(ON_WHIP, "total.near", 1 + 1j * B, "stub left out", id="stub left out of the total"),
]  # fmt: skip


@pytest.mark.parametrize(("sheet", "field", "value", "slip"), NAMED)
class TestNamed:
    def test_first_time_as_a_guess(self, sheet, field, value, slip):
        """The first time a mistake is named as what it looks like, with what to do about it."""
        verdict = sheet.enter(field, text(value)).verdicts[field]

        assert ("slip", slip) == (verdict.judgement, verdict.slip)
        assert verdict.sentence.startswith("This looks like ")
        assert verdict.sentence.count(".") >= 2
        assert not verdict.accepted

    def test_second_time_as_a_statement(self, sheet, field, value, slip):
        """Made again after it was corrected, the same mistake is said outright."""
        right = answers(sheet.truth, sheet)[field]
        again = sheet.enter(field, text(value)).enter(field, right).enter(field, text(value)).verdicts[field]

        assert ("slip", slip) == (again.judgement, again.slip)
        assert again.sentence.startswith("You are ")


class TestFirmness:
    def test_carried_over_to_another_step(self):
        """Whoever walked the wrong way to the near crossing and does so to the far one is told outright."""
        sheet = blank(WHIP).enter("distance.near", text(0.5 - NEAR.distance))
        verdict = sheet.enter("distance.far", text(0.5 - FAR.distance)).verdicts["distance.far"]

        assert verdict.sentence.startswith("You are walking toward the load")

    def test_the_same_text_again_is_not_a_second_time(self):
        """Pressing the button twice is no second mistake."""
        sheet = blank(WHIP).enter("normalise", "30-50j").enter("normalise", " 30-50j ")

        assert sheet.verdicts["normalise"].sentence.startswith("This looks like ")

    def test_another_slip_is_a_first_time(self):
        """A new mistake in the same box is a guess again."""
        sheet = blank(WHIP).enter("normalise", "30-50j").enter("normalise", "0.6+1j")

        assert sheet.verdicts["normalise"].sentence.startswith("This looks like losing the sign")


ONE_NUMBER = [
    pytest.param("needed.near", B, ["Did you flip the sign?", "Is this the near crossing, or the far one?"],
                 id="sign not flipped, or the other solution"),
    pytest.param("susceptance.far", B, ["Did you keep the sign", "Is this the far crossing, or the near one?"],
                 id="sign lost, or the other solution"),
    pytest.param("length.near", FAR.stub_length,
                 ["Which way did you walk?", "Did you flip the sign of b?", "Is this the near"],
                 id="wrong way, sign not flipped, or l of the other solution"),
]  # fmt: skip


class TestSeveralSlipsOfOneNumber:
    @pytest.mark.parametrize(("field", "value", "questions"), ONE_NUMBER)
    def test_neither_is_named(self, field, value, questions):
        """Where several mistakes give one number none is named; the questions that separate them are asked."""
        verdict = blank(WHIP).enter(field, text(value)).verdicts[field]

        assert ("slip", "") == (verdict.judgement, verdict.slip)
        assert verdict.sentence.startswith("More than one slip gives this number")
        assert [] == [question for question in questions if question not in verdict.sentence]

    def test_it_stays_a_question(self):
        """A mistake that could not be told the first time is not told the second time either."""
        sheet = (
            blank(WHIP).enter("needed.near", text(B)).enter("needed.near", "9").enter("needed.near", text(B))
        )

        assert sheet.verdicts["needed.near"].sentence.startswith("More than one slip")

    def test_no_question_is_asked_twice(self):
        """One question that separates two pairs of mistakes is asked once."""
        sentence = blank(WHIP).enter("length.near", text(FAR.stub_length)).verdicts["length.near"].sentence
        questions = [part.strip() for part in sentence.split(":", 1)[1].split("?") if part.strip()]

        assert len(questions) == len(set(questions))


class TestDroppedMinusSign:
    def test_asked_about(self):
        """Half a wave less d is also what a dropped minus sign gives, where the scale starts again on the way."""
        given = shipped("mast-169-open")
        start, end = scale(100 / (220 + 90j)), scale(blank(given).truth["crossing.near"])
        sentence = (
            blank(given).enter("distance.near", text(abs(end - start))).verdicts["distance.near"].sentence
        )

        assert end < start
        assert "Which way did you walk?" in sentence
        assert "Did the scale start again between your two readings?" in sentence


class TestFromTheStudentsOwnValues:
    def test_slip_after_an_error_carried_on(self):
        """A mistake is recognised from the student's own earlier values, not only from the solver's."""
        wrong = Y.conjugate()
        near, _ = single_stub(50 / wrong, 50)
        sheet = blank(WHIP, OVERLAY).enter("admittance", text(wrong)).carry("admittance")
        verdict = sheet.enter("distance.near", text(0.5 - near.distance)).verdicts["distance.near"]

        assert "wrong way" == verdict.slip


ALWAYS_TOGETHER = {
    "susceptance": {"sign lost", "branches mixed"},
    "needed": {"sign not flipped", "branches mixed"},
    "own": {"sign lost", "branches mixed"},
    "distance": {"made positive"},
    "length": {
        "wrong way",
        "sign not flipped",
        "branches mixed",
        "end reading",
        "wrong start",
        "made positive",
    },
}
"""b at the crossings is plus and minus one number, so these give one number on every problem; likewise, where the scale
reads 0.25 at the stub's end, the end reading and the start at the other end; and a difference whose minus sign was
dropped, with the walk the wrong way."""


def every_slip() -> list[tuple[str, str]]:
    """Field and slip of every mistake that the lesson knows."""
    return [(one.key, slip.key) for step in LESSON.steps for one in step.fields for slip in one.slips]


@pytest.fixture(scope="module")
def met() -> dict[tuple[str, str], set[tuple[str, str]]]:
    """What is said of every mistake on many problems: its judgement and the slip named, where it changes the answer."""
    found: dict[tuple[str, str], set[tuple[str, str]]] = {}
    for given, notation in product(
        (*shipped_problems(), *map(random_problem, range(20))), (HALF_TURN, OVERLAY)
    ):
        for choice, one in product(SIDES, fields_of(blank(given, notation))):
            work = Work(LESSON, given, notation, {"choose.which": choice})
            kind = one.kind(work)
            for slip in one.slips:
                value = predicted(slip, work)
                if value is None or kind.off_by(value, work.following(one.key), given.accuracy) < 1e-6:
                    continue
                verdict = mark(one, typed(kind, value, 6) + unit_of(one.key), work, work)
                found.setdefault((one.key, slip.key), set()).add((verdict.judgement, verdict.slip))
    return found


class TestEverySlipOfTheLesson:
    def test_none_is_taken_for_right(self, met):
        """On no shipped or random problem does a mistake give an answer that passes, unless it changes nothing."""
        passes = {name for name, verdicts in met.items() if {"right", "close"} & {v for v, _ in verdicts}}

        assert set() == passes

    @pytest.mark.parametrize(("field", "slip"), every_slip(), ids=[": ".join(pair) for pair in every_slip()])
    def test_named_or_asked_about(self, met, field, slip):
        """Every mistake is named by itself on some problem, or is one of those that always come together."""
        verdicts = met.get((field, slip), set())
        if (field.split(".")[0], slip) == ("total", "branches mixed"):
            assert set() == verdicts  # both totals are 1
        elif slip in ALWAYS_TOGETHER.get(field.split(".")[0], ()):
            assert {"slip"} == {v for v, _ in verdicts}
        else:
            assert ("slip", slip) in verdicts


class TestMakers:
    """The makers of slips, on a value that is plain to see."""

    WORK = blank(problem()).truth

    @pytest.mark.parametrize(
        ("slip", "expected"),
        [
            (made.wrong_way(lambda w: 0.11), 0.39),
            (made.double_angle(lambda w: 0.3), 0.1),
            (made.half_angle(lambda w: 0.3), 0.15),
            (made.sign_lost(lambda w: 1 - 2j, "reactance"), 1 + 2j),
            (made.sign_lost(lambda w: -1.5, "susceptance"), 1.5),
            (made.end_reading(lambda w: 0.11, lambda w: 0.4), 0.4),
            (made.start_off_by_quarter(lambda w: 0.3, "", "", ""), 0.05),
            (made.made_positive(lambda w: 0.4, lambda w: 0.1), 0.3),
        ],
        ids=lambda case: getattr(case, "key", str(case)),
    )
    def test_what_it_predicts(self, slip, expected):
        """Each mistake predicts the number that a student making it would write."""
        assert pytest.approx(expected) == slip.predict(self.WORK)

    @pytest.mark.parametrize(
        "slip",
        [
            made.wrong_way(lambda w: 0.25 + 1e-16),
            made.double_angle(lambda w: 0.0),
            made.sign_lost(lambda w: 2 + 0j, "reactance"),
            made.end_reading(lambda w: 0.11, lambda w: 0.11 + 1e-15),
            made.made_positive(lambda w: 0.1, lambda w: 0.4),
        ],
        ids=lambda slip: slip.key,
    )
    def test_nothing_to_go_wrong_by(self, slip):
        """A mistake that leaves the answer as it is predicts nothing."""
        assert slip.predict(self.WORK) is None


def test_the_arithmetic_here_agrees_with_the_core():
    """The plain arithmetic of this file is that of the core's designer."""
    found = by_the_core(WHIP)

    assert pytest.approx(shorted(-B)) == found["length.near"]
    assert pytest.approx((scale(1 + 1j * B) - scale(Y)) % 0.5) == found["distance.near"]
    assert SIDES == ("near", "far")
