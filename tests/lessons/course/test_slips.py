"""Recognisable mistakes. What a student who makes one would write is worked out here by plain arithmetic.

That these mistakes are usual is common practice, no source.
"""

from cmath import phase
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from math import atan, log10, pi, tan

import pytest

from core import single_stub
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar import slips as made
from lessons.grammar.lesson import Lesson, Slip, Work
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.problems.seeds import HARDLY_EVER
from lessons.working.marking import mark, predicted_all
from tests.lessons.solving import (
    HALF_TURN,
    OVERLAY,
    SIDES,
    answers,
    blank,
    by_the_core,
    fields_of,
    filled,
    problem,
    random_problem,
    shipped,
    shipped_problems,
    solved,
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
LOOP = shipped("loop-75-stub-50")  # 40 + j75 on 75 ohm, shorted stub of 50 ohm
LOOP_Z = (40 + 75j) / 75
LOOP_NEAR, _ = single_stub(40 + 75j, 75, 50)
PATCH = shipped("patch-100-open-50")  # 160 - j110 on 100 ohm, open stub of 50 ohm
PATCH_Z = 1.6 - 1.1j
PATCH_GAMMA = abs((PATCH_Z - 1) / (PATCH_Z + 1))
PATCH_B = 2 * PATCH_GAMMA / (1 - PATCH_GAMMA**2) ** 0.5
OTHER_NEAR, OTHER_FAR = single_stub(30 - 55j, 50, 75)
WAVE = (
    299_792_458 / 868e6 * 0.7 * 1e3
)  # millimetres, on the other cable; the speed of light is exact by definition


def scale(y: complex) -> float:
    """Reading toward the generator where y is read on the chart of a half turn, zero at the left."""
    return (0.25 - phase((y - 1) / (y + 1)) / (4 * pi)) % 0.5


def shorted(b: float) -> float:
    """Length of a shorted stub that shows b: minus the cotangent of its angle is b."""
    return (phase(complex(-b, 1)) / (2 * pi)) % 0.5


def opened(b: float) -> float:
    """Length of an open stub that shows b: the tangent of its angle is b."""
    return (atan(b) / (2 * pi)) % 0.5


def text(value: complex | float | str) -> str:
    """A value as a student types it."""
    return str(value).strip("()")


ON_WHIP, OVERLAID, ON_OTHER_CABLE = blank(WHIP), blank(WHIP, OVERLAY), blank(OTHER_CABLE)
ON_LOOP, ON_PATCH = blank(LOOP), blank(PATCH)
ON_GOLDEN = blank(problem(100 + 50j))  # its ratio is the square of the golden section, (3 + √5) / 2

NAMED = [
    pytest.param(ON_WHIP, "normalise", 30 - 50j, "not normalised", id="not normalised"),
    pytest.param(ON_WHIP, "normalise", Z.conjugate(), "sign of the reactance lost", id="sign of the reactance lost"),
    pytest.param(ON_WHIP, "normalise", 1 / Z, "upside down", id="line over load"),
    pytest.param(ON_OTHER_CABLE, "normalise", (30 - 55j) / 75, "stub's impedance", id="by the stub's impedance"),
    pytest.param(ON_WHIP, "place", GAMMA.conjugate(), "sign of the reactance lost", id="placed above the axis"),
    pytest.param(ON_WHIP, "place", -GAMMA, "admittance place", id="placed where y stands"),
    pytest.param(ON_WHIP, "mismatch", Z.real, "constant r", id="constant r followed in place of the mismatch circle"),
    pytest.param(ON_WHIP, "mismatch", 1 / SWR, "left side", id="circle read on the left"),
    pytest.param(ON_WHIP, "mismatch", abs(Z), "size of impedance", id="size of z for the ratio"),
    pytest.param(ON_WHIP, "mismatch", 20 * log10(SWR), "decibels", id="ratio in decibels"),
    pytest.param(ON_WHIP, "admittance", Z, "impedance kept", id="impedance where the admittance is needed"),
    pytest.param(ON_WHIP, "admittance", Y.conjugate(), "sign of the susceptance lost", id="sign of b lost"),
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
    pytest.param(ON_LOOP, "distance.near", LOOP_NEAR.distance / 2, "half angle", id="half angle"),
    pytest.param(ON_WHIP, "distance.near", NEAR.distance - 0.5, "negative length", id="negative difference left"),
    pytest.param(ON_OTHER_CABLE, "own.near", -OTHER_B, "ratio ignored", id="stub's own impedance ignored"),
    pytest.param(ON_OTHER_CABLE, "own.near", -OTHER_B * 50 / 75, "ratio inverted", id="ratio of impedances inverted"),
    pytest.param(ON_PATCH, "length.near", opened(-PATCH_B), "ratio ignored", id="length with the ratio ignored"),
    pytest.param(ON_WHIP, "start.point", "open", "wrong end", id="open point for a shorted stub"),
    pytest.param(ON_WHIP, "start.sense", "counter-clockwise", "wrong way", id="stub walked toward the load"),
    pytest.param(OVERLAID, "length.near", NEAR.stub_length + 0.25, "wrong end", id="stub from the open point"),
    pytest.param(ON_WHIP, "length.near", NEAR.stub_length / 2, "half angle", id="half angle on the rim"),
    pytest.param(ON_WHIP, "total.near", 1 + 2j * B, "added, not cancelled", id="sign of the susceptance not flipped"),
    pytest.param(ON_WHIP, "total.near", 1 + 1j * B, "stub left out", id="stub left out of the total"),
    pytest.param(ON_LOOP, "normalise", complex(LOOP_Z.imag, LOOP_Z.real), "parts exchanged", id="r and x exchanged"),
    pytest.param(ON_LOOP, "normalise", (40 + 75j) / 50, "50 ohm by habit", id="divided by 50 ohm on a line of 75"),
    pytest.param(ON_WHIP, "normalise", 0.6 - 50j, "one part divided", id="resistance divided, reactance not"),
    pytest.param(ON_WHIP, "normalise", 30 - 1j, "one part divided", id="reactance divided, resistance not"),
    pytest.param(ON_WHIP, "place", GAMMA**2 / abs(GAMMA), "angle doubled", id="angle of the reflection doubled"),
    pytest.param(ON_WHIP, "place", abs(GAMMA)**0.5 * GAMMA**0.5, "angle halved", id="angle of the reflection halved"),
    pytest.param(ON_WHIP, "mismatch", abs(GAMMA), "size of reflection", id="size of the reflection for the ratio"),
    pytest.param(ON_GOLDEN, "mismatch", (1 + 5**0.5) / 2, "less one", id="ratio less one"),
    pytest.param(ON_WHIP, "mismatch", 1 + abs(GAMMA), "numerator", id="ratio not divided"),
    pytest.param(ON_WHIP, "admittance", 1 / 0.6 - 1j, "parts inverted", id="1/r and 1/x"),
    pytest.param(ON_WHIP, "admittance", 1 / 0.6 + 1j, "parts inverted", id="1/r and -1/x"),
    pytest.param(ON_PATCH, "admittance", PATCH_Z.conjugate() / abs(PATCH_Z), "divided by the size",
                 id="divided by |z|, not |z|²"),
    pytest.param(ON_WHIP, "crossing.near", 1 + 1j * (1 / 0.6 - 1)**0.5, "constant r", id="circle of r followed"),
    pytest.param(ON_WHIP, "crossing.near", 1j * B, "only the imaginary part", id="crossing without its 1"),
    pytest.param(ON_WHIP, "crossing.near", B, "only the imaginary part", id="crossing without its 1 and without j"),
    pytest.param(ON_WHIP, "susceptance.near", Y.imag, "load susceptance", id="b of the load at the crossing"),
    pytest.param(ON_WHIP, "distance.near", scale(Y), "start reading", id="reading at the load"),
    pytest.param(ON_WHIP, "distance.near", 0.5 - scale(Y), "only to the mark", id="only to the mark"),
    pytest.param(ON_WHIP, "distance.far", FAR.distance - NEAR.distance, "from the near crossing",
                 id="far distance from the near crossing"),
    pytest.param(ON_WHIP, "distance.far", FAR.stub_length, "stub length", id="l for d"),
    pytest.param(ON_WHIP, "length.far", FAR.distance, "distance", id="d for l"),
    pytest.param(ON_WHIP, "length.near", 0.25 - NEAR.stub_length, "quarter less", id="l back from a quarter wave"),
    pytest.param(ON_WHIP, "total.near", 0, "conductance lost", id="total without its 1"),
    pytest.param(ON_OTHER_CABLE, "total.near", 1 + 1j * (OTHER_B - OTHER_B * 75 / 50), "stub's own chart",
                 id="stub's own b in the total"),
    pytest.param(ON_OTHER_CABLE, "millimetres.distance", OTHER_NEAR.distance * WAVE / 1000, "metres", id="metres"),
    pytest.param(ON_OTHER_CABLE, "millimetres.distance", OTHER_NEAR.distance * WAVE * 10, "metres", id="tenfold"),
    pytest.param(ON_OTHER_CABLE, "millimetres.length", OTHER_NEAR.stub_length * WAVE / 0.7**2, "velocity inverted",
                 id="divided by the velocity factor"),
    pytest.param(ON_OTHER_CABLE, "millimetres.distance", OTHER_FAR.distance * WAVE, "branches mixed",
                 id="millimetres of the other solution"),
]  # fmt: skip


@pytest.mark.parametrize(("sheet", "field", "value", "slip"), NAMED)
class TestNamed:
    def test_first_time_as_a_guess(self, sheet, field, value, slip):
        """The first time a mistake is named as a guess, with what to do about it."""
        verdict = sheet.enter(field, text(value)).verdicts[field]

        assert ("slip", slip) == (verdict.judgement, verdict.slip)
        assert verdict.sentence.startswith(("This looks like ", "This may be "))
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


class TestOpening:
    """How sure the tutor is of a mistake stands at the beginning of what it says."""

    @pytest.mark.parametrize(
        ("off", "opening"), [(0.0, "This looks like "), (0.003, "This looks like "), (0.03, "This may be ")]
    )
    def test_by_how_near_it_is(self, off, opening):
        """Both parts very near what the mistake predicts look like it; farther off, within an error, it may be it."""
        impedance = WHIP["load"] / WHIP["line"]
        verdict = blank(WHIP).enter("admittance", text(impedance + off)).verdicts["admittance"]

        assert "impedance kept" == verdict.slip
        assert verdict.sentence.startswith(opening)

    @pytest.mark.parametrize("off", [0.0, 0.001, 0.004])
    def test_one_number_may_be_chance(self, off):
        """A single number comes near what a mistake predicts by chance as well: it only may be the mistake."""
        verdict = (
            blank(WHIP).enter("distance.near", text(0.5 - NEAR.distance + off)).verdicts["distance.near"]
        )

        assert "wrong way" == verdict.slip
        assert verdict.sentence.startswith("This may be ")

    def test_near_the_right_answer(self):
        """Within eight tolerances of the right answer a misreading is put first, and the mistake only may be."""
        verdict = ON_OTHER_CABLE.enter("length.near", text(shorted(-OTHER_B))).verdicts["length.near"]

        assert "ratio ignored" == verdict.slip
        assert abs(shorted(-OTHER_B) - OTHER_NEAR.stub_length) < 8 * 0.005
        assert verdict.sentence.startswith("A little off: read it again. Or this may be using the line's")

    def test_a_doubled_reading_error(self):
        """A reading that is right to the tolerance and then doubled is off by twice that, and still named."""
        doubled = (2 * (NEAR.distance + 0.0045)) % 0.5
        verdict = blank(WHIP).enter("distance.near", text(doubled)).verdicts["distance.near"]

        assert ("double angle", True) == (verdict.slip, verdict.sentence.startswith("This may be "))

    def test_seen_before(self):
        """What this student has been told before is said outright, even beside the right answer."""
        wrong = text(shorted(-OTHER_B))
        sheet = ON_OTHER_CABLE.enter("own.near", text(-OTHER_B)).enter("length.near", wrong)

        assert sheet.verdicts["length.near"].sentence.startswith("You are using the line's normalisation")

    def test_another_mistake_of_a_like_name_is_new(self):
        """The stub walked from the other kind of end is not the line walked from z: told of one, the other is new."""
        from_z = text(NEAR.distance + 0.25)
        sheet = blank(WHIP, OVERLAY).enter("distance.near", from_z)
        verdict = sheet.enter("length.near", text(NEAR.stub_length + 0.25)).verdicts["length.near"]

        assert ("wrong start", "wrong end") == (sheet.verdicts["distance.near"].slip, verdict.slip)
        assert verdict.sentence.startswith("This may be ")


ONE_NUMBER = [
    pytest.param("needed.near", B, ["Did you flip the sign?", "Is this the near crossing, or the far one?"],
                 id="sign not flipped, or the other solution"),
    pytest.param("susceptance.far", B, ["Did you keep the sign", "Is this the far crossing, or the near one?"],
                 id="sign lost, or the other solution"),
    pytest.param("length.near", FAR.stub_length, ["Which way did you walk?", "Did you flip the sign of b?"],
                 id="wrong way, sign not flipped, l of the other solution, or the other scale"),
    pytest.param("distance.near", FAR.distance, ["Is this the near crossing", "On which of the two scales"],
                 id="d of the other solution, or the other scale"),
]  # fmt: skip
TWO = "Two mistakes give this number. "


class TestSeveralSlipsOfOneNumber:
    @pytest.mark.parametrize(("field", "value", "questions"), ONE_NUMBER)
    def test_neither_is_named(self, field, value, questions):
        """Where several mistakes give one number none is named; two questions separate the likeliest."""
        verdict = blank(WHIP).enter(field, text(value)).verdicts[field]

        assert ("slip", "") == (verdict.judgement, verdict.slip)
        assert verdict.sentence.startswith(TWO)
        assert len(verdict.suspected) >= 2
        assert [] == [question for question in questions if question not in verdict.sentence]

    @pytest.mark.parametrize(("field", "value", "questions"), ONE_NUMBER)
    def test_two_questions_each_with_its_remedy(self, field, value, questions):
        """At most two questions are asked, of the first two mistakes suspected, each followed by its remedy."""
        sheet = blank(WHIP)
        verdict = sheet.enter(field, text(value)).verdicts[field]
        slips = {slip.key: slip for slip in LESSON.field(field).slips}
        first, second = (slips[key] for key in verdict.suspected[:2])
        say = sheet.truth.say
        asked = f"{say(first.question)} {say(first.remedy)} {say(second.question)} {say(second.remedy)}"

        assert 2 == verdict.sentence.count("?")
        assert TWO + asked == verdict.sentence

    @pytest.mark.parametrize(("field", "value", "questions"), ONE_NUMBER)
    def test_likeliest_first(self, field, value, questions):
        """What happens in every class is asked about before what hardly ever does."""
        slips = {slip.key: slip for slip in LESSON.field(field).slips}
        suspected = blank(WHIP).enter(field, text(value)).verdicts[field].suspected
        usual = [slips[key].usual for key in suspected]

        assert usual == sorted(usual, reverse=True)

    def test_it_stays_a_question(self):
        """A mistake that could not be told the first time is not told the second time either."""
        sheet = (
            blank(WHIP).enter("needed.near", text(B)).enter("needed.near", "9").enter("needed.near", text(B))
        )

        assert sheet.verdicts["needed.near"].sentence.startswith(TWO)

    def test_no_question_is_asked_twice(self):
        """Two mistakes that one question finds out are asked about once."""
        question = "How many wavelengths is one full turn of the chart?"
        slips = (
            _slip("first", question, 0.3),
            _slip("second", question, 0.3),
            _slip("third", "Another?", 0.3),
        )
        field = replace(LESSON.field("distance.near"), slips=slips, routes=())
        verdict = mark(field, "0.3", ON_WHIP.truth, ON_WHIP.truth)

        assert 1 == verdict.sentence.count(question)
        assert ("first", "third") == verdict.suspected


class TestRuledOut:
    """What a student did rightly a step ago is not asked about."""

    RIGHT = answers(ON_WHIP.truth, ON_WHIP)

    def asked(self, *rightly: str, wrong: str = "length.near") -> tuple[str, ...]:
        """The mistakes suspected behind the far stub's length given for the near one, after right answers."""
        sheet = filled(blank(WHIP), {key: self.RIGHT[key] for key in rightly})
        return sheet.enter(wrong, text(FAR.stub_length)).verdicts[wrong].suspected

    def test_nothing_known(self):
        """On a clean sheet the way walked and the sign are the likeliest."""
        assert {"wrong way", "sign not flipped", "branches mixed"} <= set(self.asked())

    @pytest.mark.parametrize(
        ("rightly", "slip"), [("start.sense", "wrong way"), ("needed.near", "sign not flipped")]
    )
    def test_by_the_step_before(self, rightly, slip):
        """The sense chosen rightly rules out the wrong way, the sign flipped rightly the sign not flipped."""
        assert slip in self.asked()
        assert slip not in self.asked(rightly)

    def test_by_the_other_solution(self):
        """Whoever walked the far stub rightly is not asked which way they walked the near one."""
        assert "wrong way" not in self.asked("length.far")

    def test_not_by_what_the_tutor_did(self):
        """What the tutor filled in shows nothing of the student."""
        sheet = blank(WHIP).reveal_step("start").enter("length.near", text(FAR.stub_length))

        assert "wrong way" in sheet.verdicts["length.near"].suspected

    def test_never_all(self):
        """A mistake that fits alone is named although a right answer speaks against it."""
        sheet = filled(blank(WHIP), {"distance.far": self.RIGHT["distance.far"]})
        verdict = sheet.enter("distance.near", text(0.5 - NEAR.distance)).verdicts["distance.near"]

        assert "wrong way" == verdict.slip


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


class TestTotalTakenForGranted:
    """The match is right only where the student's own stub makes it."""

    @pytest.mark.parametrize("length", ["0.2", "0.45"])
    def test_with_a_wrong_stub(self, length):
        """With a wrong stub carried on the total is not 1, and whoever writes that has not added."""
        sheet = solved(WHIP).enter("length.near", length).carry("length.near").enter("total.near", "1")

        assert "total taken for granted" == sheet.verdicts["total.near"].slip
        assert sheet.verdicts["total.far"].accepted

    @pytest.mark.parametrize("off", [-0.004, 0.004, 0.009])
    def test_with_a_stub_read_well(self, off):
        """A stub read within the tolerance was made for the match: both 1 and what its length shows are right."""
        sheet = solved(WHIP).enter("length.near", text(NEAR.stub_length + off))
        shown = 1 + 1j * B - 1j / tan(2 * pi * (NEAR.stub_length + off))

        assert sheet.verdicts["length.near"].accepted
        for total in (1, shown):
            assert "right" == sheet.enter("total.near", text(total)).verdicts["total.near"].judgement


ALWAYS_TOGETHER = {
    "susceptance": [{"sign of the susceptance lost", "branches mixed"}],
    "reactance": [{"sign of the reactance lost", "branches mixed"}],
    "needed": [{"sign not flipped", "branches mixed"}],
    "own": [{"sign of the susceptance lost", "sign of the reactance lost", "branches mixed"}],
    "distance": [{"other scale", "branches mixed", "quarter wave counted in"}],
    "section": [{"divided by the root", "branches mixed"}],
    "there": [{"sign of the reactance lost", "mirrored reading", "other way round"}],
    "length": [{"wrong way", "sign not flipped", "branches mixed", "made positive"}],
    **{
        key: [{"wrong way", "sign not flipped", "made positive"}] for key in ("first_length", "second_length")
    },
}
FIRSTS = ("shunt", "series")
OF_LESSON: dict[tuple[str, str], list[set[str]]] = {
    ("stub-alone", "reactance"): [{"wrong way", "sign of the reactance lost"}],
    ("stub-alone", "length"): [],
    **{
        ("two-reactances", f"{first}_turn"): [{f"sign of the {part} lost", "branches mixed"}]
        for first, part in zip(FIRSTS, ("reactance", "susceptance"), strict=True)
    },
    **{("two-reactances", f"{first}_far"): [{"sign not flipped", "branches mixed"}] for first in FIRSTS},
}
"""Those of one lesson alone, in place of what holds for the others: both ends of a stub stand on
the axis, so that the walk the wrong way ends at minus x; and the crossings of two reactances are mirror images."""
NEVER_ALONE: dict[tuple[str, ...], str] = {
    ("reactance", "from zero"): "admittance read",
    ("stub-alone", "length", "made positive"): "wrong way",
    ("part", "named by the end"): "sign of the reactance",
    ("two-reactances", "value.far", "coil and capacitor exchanged"): "branches mixed",
    ("distance", "made positive"): "wrong way",
    **{(one, "end reading"): "wrong end" for one in ("length", "first_length", "second_length")},
}
"""What the line shows at the crossings is plus and minus one number, and the crossings are mirror images, so these give
one number on every problem; likewise, where the scale reads 0.25 at the stub's end, the end reading and the other kind
of end; and a difference whose minus sign was dropped is the walk the wrong way, too, though not every walk the wrong
way is such a difference. From the maximum to the minimum it is a quarter wave, and r at one is one over r at the
other."""
NEEDS_A_WRONG_STUB = "total taken for granted"


def every_slip() -> list[tuple[Lesson, str, str]]:
    """Lesson, field and slip of every mistake that is known."""
    return [
        (lesson, one.key, slip.key)
        for lesson in CATALOGUE
        for step in lesson.steps
        for one in step.fields
        for slip in one.slips
    ]


Said = tuple[str, str, tuple[str, ...]]


def said_of_every_slip(given: Problem, notation: Notation) -> Iterator[tuple[tuple[Lesson, str, Slip], Said]]:
    """What is said of every mistake that changes an answer, whichever solution is chosen."""
    sheet = blank(given, notation)
    sides = [branch.key for branch in sheet.lesson.branches_of(given)] or [""]
    for choice, one in product(sides, fields_of(sheet)):
        work = Work(sheet.lesson, given, notation, {"choose.which": choice})
        kind = one.kind(work)
        for slip in one.slips:
            for value in predicted_all(slip, work):
                if kind.off_by(value, work.following(one.key), given.accuracy) > 1e-6:
                    verdict = mark(one, typed(kind, value, 6) + unit_of(kind), work, work)
                    yield (
                        (sheet.lesson, one.key, slip),
                        (verdict.judgement, verdict.slip, verdict.suspected),
                    )


@pytest.fixture(scope="module")
def met() -> dict[tuple[str, str, str], set[Said]]:
    """What is said of every mistake on many problems, by lesson, field and slip."""
    found: dict[tuple[str, str, str], set[Said]] = {}
    for lesson in CATALOGUE:
        problems = (*shipped_problems(lesson), *(random_problem(seed, lesson) for seed in range(10)))
        for given, notation in product(problems, (HALF_TURN, OVERLAY)):
            for (_, field, slip), said in said_of_every_slip(given, notation):
                found.setdefault((lesson.key, field, slip.key), set()).add(said)
    return found


class TestEverySlipOfTheLessons:
    def test_none_is_taken_for_right(self, met):
        """On no shipped or random problem does a mistake give an answer that passes, but for those hardly ever made."""
        usual = {
            (lesson.key, one.key, slip.key)
            for lesson in CATALOGUE
            for one in lesson.fields.values()
            for slip in one.slips
            if slip.usual > HARDLY_EVER
        }
        passes = {
            name for name, said in met.items() if {"right", "close"} & {judgement for judgement, *_ in said}
        }

        assert set() == passes & usual

    @pytest.mark.parametrize(
        ("lesson", "field", "slip"), every_slip(), ids=[f"{a.key}: {b}: {c}" for a, b, c in every_slip()]
    )
    def test_named_or_asked_about(self, met, lesson, field, slip):
        """Every mistake is named by itself on some problem, or is one of those that always come together."""
        said = met.get((lesson.key, field, slip), set())
        quantity = field.split(".")[0]
        names = ((quantity, slip), (lesson.key, quantity, slip), (lesson.key, field, slip))
        here = {one.key for one in lesson.field(field).slips} - {slip}
        groups = OF_LESSON.get((lesson.key, quantity), ALWAYS_TOGETHER.get(quantity, []))
        companions = [group & here for group in groups if slip in group and group & here]
        companions += [{other} for key, other in NEVER_ALONE.items() if key in names]
        if slip == NEEDS_A_WRONG_STUB:
            assert set() == said
        elif companions:
            (others,) = companions
            assert said
            assert all(slip in suspected and others & set(suspected) for _, _, suspected in said)
        else:
            assert ("slip", slip) in {(judgement, named) for judgement, named, _ in said}


def _slip(key: str, question: str, value: float) -> Slip:
    """A mistake that gives one number."""
    return Slip(key, f"being {key}", question, f"Not {key}.", lambda work: value)


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
