"""Verdicts: what is right, what is near enough, and what is said of the rest.

The tolerances and the wording are the project's own; that half-wave lengths are equal is common practice, no source.
"""

from math import tan, tau
from random import Random
from typing import Any

import pytest

from core import single_stub
from lessons.grammar.kinds import CLOSE, Choice
from lessons.grammar.lesson import Field, Slip, Work
from lessons.grammar.notation import Notation
from lessons.working.marking import MISREAD, ROUNDED, Verdict, mark, predicted_all
from tests.lessons.solving import (
    HALF_TURN,
    OVERLAY,
    blank,
    fields_of,
    problem,
    random_problem,
    shipped,
    shipped_problems,
    solved,
    typed,
    unit_of,
)

WHIP = shipped("whip-over-float")
NEAR, FAR = single_stub(30 - 50j, 50)
GAMMA = abs((0.6 - 1j - 1) / (0.6 - 1j + 1))
B = 2 * GAMMA / (1 - GAMMA**2) ** 0.5  # susceptance at the near crossing
PROBLEMS = [*shipped_problems(), *map(random_problem, range(12))]

every_problem = pytest.mark.parametrize("given", PROBLEMS, ids=lambda p: p.key)


def verdict(field: str, text: str, given: Any = WHIP) -> Verdict:
    """What is said of one entry on a clean sheet."""
    return blank(given).enter(field, text).verdicts[field]


def misread(field: Field, work: Work, off: float, dice: Random) -> Any:
    """A value so many tolerances from the right one, in a random direction; None where there is none such."""
    kind, right = field.kind(work), work[field.key]
    if isinstance(kind, Choice):
        return None
    way = (
        complex(dice.gauss(0, 1), dice.gauss(0, 1))
        if isinstance(right, complex)
        else dice.choice((1.0, -1.0))
    )
    low, high = 0.0, 1e-6
    while kind.off_by(right + high * way, right, work.problem.accuracy) < off:
        high *= 2
        if high > 1e6:
            return None
    for _ in range(80):
        middle = (low + high) / 2
        nearer = kind.off_by(right + middle * way, right, work.problem.accuracy) < off
        low, high = (middle, high) if nearer else (low, middle)
    value = right + high * way
    return value if _is_writable(value) else None


def _is_writable(value: Any) -> bool:
    return value.real >= 0 and abs(value) < 1e3 if isinstance(value, complex) else value == value


def said(field: Field, work: Work, value: Any) -> Verdict | None:
    """The verdict on a value typed with nine decimals; None where it cannot be an answer (a negative length)."""
    never_negative = ("distance", "length", "millimetres", "mismatch")
    if value is None or (field.key.startswith(never_negative) and value < 0):
        return None
    found = mark(field, typed(field.kind(work), value, 9) + unit_of(field.kind(work)), work, work)
    return found if found.judgement != "unreadable" else None


@every_problem
@pytest.mark.parametrize("notation", [HALF_TURN, OVERLAY], ids=lambda n: n.admittance)
class TestReadingErrors:
    def test_within_twice_the_tolerance_is_accepted(self, given, notation):
        """No reading within twice the tolerance is ever called a mistake: it is right up to once, close up to twice."""
        dice, count = Random(given.key), 0
        work = blank(given, notation).truth
        for field in fields_of(blank(given, notation)) * 3:
            off = dice.uniform(0.02, 0.98) * CLOSE
            found = said(field, work, misread(field, work, off, dice))
            if found:
                count += 1
                assert ("right" if off <= 1 else "close", "") == (found.judgement, found.slip), field.key

        assert count > 30

    def test_up_to_eight_times_is_a_reading_error(self, given, notation):
        """Between two and eight tolerances, where no mistake gives the value, it is called a reading a little off."""
        dice, count = Random(given.key), 0
        work = blank(given, notation).truth
        for field in fields_of(blank(given, notation)) * 3:
            off = dice.uniform(CLOSE + 0.02, MISREAD - 0.02)
            value = misread(field, work, off, dice)
            found = said(field, work, value)
            if not found or any(_suspected(field, slip, work, value) for slip in field.slips):
                continue
            count += 1
            assert ("wrong", "") == (found.judgement, found.slip), field.key
            assert MISREADINGS[_is_worked_out(field, work)] == found.sentence

        assert count > 15

    def test_no_mistake_of_method_is_claimed(self, given, notation):
        """Within eight tolerances whatever mistake is named only may be: a misreading is put first."""
        dice = Random(given.key)
        work = blank(given, notation).truth
        for field in fields_of(blank(given, notation)) * 3:
            found = said(field, work, misread(field, work, dice.uniform(CLOSE + 0.02, MISREAD - 0.02), dice))
            opening = A_LITTLE_OFF[_is_worked_out(field, work)]
            assert not found or not found.slip or found.sentence.startswith(opening), field.key


A_LITTLE_OFF = (
    "A little off: read it again. Or this may be",
    "A little off: work it out again. Or this may be",
)
MISREADINGS = (
    "Almost: the method looks right and the reading is a little off. Read it again.",
    "Almost: the method looks right and the arithmetic is a little off. Work it out again.",
)


def _is_worked_out(field: Field, work: Work) -> bool:
    """Whether no chart is read for a field: where all is to be calculated, or by what is asked."""
    of_itself = ("normalise", "needed", "own", "millimetres")
    return work.problem.accuracy == "calculated" or field.key.split(".")[0] in of_itself


def _suspected(field: Field, slip: Slip, work: Work, value: Any) -> bool:
    kind, accuracy = field.kind(work), work.problem.accuracy
    return any(
        kind.off_as_written(value, expected, accuracy) <= 1.01 * ROUNDED * slip.window(work)
        for expected in predicted_all(slip, work)
    )


class TestRight:
    @pytest.mark.parametrize("text", ["0.6-1j", "0.6 - j1", "0.6−1i", "1.1662 ∠ -59.04°"])
    def test_in_any_form(self, text):
        """A right answer is right however it is written."""
        assert ("right", "Right.") == (
            verdict("normalise", text).judgement,
            verdict("normalise", text).sentence,
        )

    @pytest.mark.parametrize("halves", [1, 2, 3])
    def test_longer_by_half_waves(self, halves):
        """A length longer by half waves is right, and the student hears which one is usual."""
        found = verdict("distance.near", f"{NEAR.distance + halves / 2:.4f}")

        assert found.accepted
        assert "lengths repeat every half wavelength" in found.sentence
        assert "The shorter one" in found.sentence

    def test_half_waves_in_millimetres(self):
        """Half a wave more is as good in millimetres as in wavelengths, and the shorter length is named as usual."""
        given = shipped("whip-434")
        right = blank(given).truth["millimetres.length"]

        assert verdict("millimetres.length", f"{right:.1f}", given).accepted
        longer = verdict("millimetres.length", f"{right + 0.5 * 455.9:.1f}", given)
        assert longer.accepted
        assert "The shorter one" in longer.sentence


class TestClose:
    def test_may_go_on(self):
        """A close answer is accepted and said to be close."""
        found = verdict("distance.near", f"{NEAR.distance + 0.008:.4f}")

        assert ("close", True) == (found.judgement, found.accepted)
        assert "you may go on" in found.sentence

    def test_calculated_is_stricter(self):
        """What is close on a chart is off when it was to be calculated."""
        text = f"{NEAR.distance + 0.008:.4f}"

        assert not verdict("distance.near", text, problem(30 - 50j, accuracy="calculated")).accepted


class TestNegativeLengths:
    def test_half_a_wave_missing(self):
        """A difference left negative is the right length half a wave back, and the remedy says so."""
        found = verdict("distance.far", f"{FAR.distance - 0.5:.4f}")

        assert ("slip", "negative length") == (found.judgement, found.slip)
        assert "add 0.5" in found.sentence

    @pytest.mark.parametrize("field", ["distance.near", "length.far", "millimetres.distance"])
    def test_any_other(self, field):
        """Any other length below zero is none, and the sentence says how one is measured."""
        found = verdict(field, "-0.2", shipped("whip-434"))

        assert ("wrong", "") == (found.judgement, found.slip)
        assert "cannot be negative" in found.sentence


WHERE = [
    pytest.param("normalise", "7 + 3j", "The real part is too large and the imaginary part has the other sign.",
                 id="both parts"),
    pytest.param("place", "0.2 < 10", "The point lies farther from the centre, in the lower half of the chart.",
                 id="a point"),
    pytest.param("mismatch", "7", "The ratio is smaller.", id="a ratio"),
    pytest.param("distance.near", "0.2", "It is some 0.15 wavelength too long.", id="too long"),
    pytest.param("distance.far", "0.12", "It is some 0.10 wavelength too short.", id="too short"),
    pytest.param("distance.near", "0.47", "It is some 0.10 wavelength too short.", id="short by way of half a wave"),
    pytest.param("susceptance.near", "4", "Its size is less than that.", id="a size"),
    pytest.param("susceptance.near", "-4", "Its sign is the other one.", id="a sign"),
]  # fmt: skip


class TestFarOff:
    @pytest.mark.parametrize(("field", "text", "where"), WHERE)
    def test_says_where_the_answer_lies(self, field, text, where):
        """A value that nothing explains is not explained away: it is said where the answer lies."""
        found = verdict(field, text)

        assert ("wrong", "", f"Not this value. {where}") == (found.judgement, found.slip, found.sentence)

    def test_in_the_units_of_the_course(self):
        """A course that measures lines in degrees hears in degrees how far off a length is."""
        sheet = blank(WHIP, Notation(length="degrees")).enter("distance.near", "72")

        assert "It is some 54° too long." in sheet.verdicts["distance.near"].sentence

    def test_in_millimetres(self):
        """A length in millimetres that is off is so by a part of the wavelength."""
        found = verdict(
            "millimetres.distance", f"{NEAR_434.distance * WAVE_434 + 70:.1f}", shipped("whip-434")
        )

        assert "It is some 0.15 wavelength too long." in found.sentence

    @every_problem
    def test_gives_nothing_away(self, given):
        """What is said of a value far off never holds the answer, and never that there is no such mistake."""
        dice, work = Random(given.key), blank(given).truth
        for field in fields_of(blank(given)):
            found = said(field, work, misread(field, work, dice.uniform(20, 40), dice))
            if found and found.judgement == "wrong":
                answer = work.write(field.key).removesuffix(" λ")
                assert answer not in found.sentence
                assert "no usual slip" not in found.sentence


class TestArithmetic:
    """A division or a change of sign is judged by arithmetic: half a percent, or what two decimals leave."""

    LARGE = problem(265 - 150j)  # z = 5.3 - j3

    @pytest.mark.parametrize(
        ("text", "judgement"),
        [
            ("5.3-3j", "right"),
            ("5.32-3j", "right"),
            ("5.25-3j", "close"),
            ("5-3j", "wrong"),
            ("5.3-2.8j", "wrong"),
        ],
    )
    def test_normalising(self, text, judgement):
        """No chart excuses 5 for 5.3, though both stand nearly in one place on it."""
        assert judgement == verdict("normalise", text, self.LARGE).judgement

    def test_two_decimals_are_enough(self):
        """Rounded to two decimals, a small z is right."""
        assert "right" == verdict("normalise", "0.08+0.06j", problem(3.78 + 2.78j)).judgement

    @pytest.mark.parametrize(("off", "judgement"), [(0.004, "right"), (0.03, "wrong")])
    def test_a_change_of_sign(self, off, judgement):
        """What the stub must show is what the line shows with the other sign, to the digits written."""
        sheet = blank(WHIP).enter("susceptance.near", "1.39").enter("needed.near", f"{-1.39 - off}")

        assert judgement == sheet.verdicts["needed.near"].judgement

    @pytest.mark.parametrize(("text", "judgement"), [("-2.267", "right"), ("-2.20", "wrong")])
    def test_the_ratio_of_impedances(self, text, judgement):
        """On the stub's own chart it is multiplied by 75 and divided by 50, and no reading of a chart comes in."""
        sheet = blank(shipped("whip-stub-75")).enter("needed.near", "-1.511")

        assert judgement == sheet.enter("own.near", text).verdicts["own.near"].judgement


class TestOnlyAsItFollows:
    """The junction's total is a check of the student's own values."""

    def test_the_solvers_is_not_enough(self):
        """The match that should come out is no right total for a stub that was carried on wrong."""
        sheet = blank(WHIP).enter("length.near", "0.2").carry("length.near").enter("total.near", "1")

        assert not sheet.verdicts["total.near"].accepted

    def test_follows_from_a_wrong_stub(self):
        """What the wrong stub adds up to is right for it, and said to follow."""
        sheet = blank(WHIP).enter("length.near", "0.2").carry("length.near")
        total = 1 + 1j * (B - 1 / tan(tau * 0.2))
        found = sheet.enter("total.near", f"1+{total.imag}j").verdicts["total.near"]

        assert ("right", True) == (found.judgement, found.follows)

    @pytest.mark.parametrize("key", ["total.near", "total.far", "choose.which", "choose.why"])
    @every_problem
    def test_nothing_follows_on_a_right_sheet(self, given, key):
        """On a sheet with the solver's answers no total and no choice is said to differ from the solver's."""
        found = solved(given).verdicts[key]

        assert ("right", False) == (found.judgement, found.follows)


class TestChoices:
    @pytest.mark.parametrize("side", ["near", "far"])
    def test_either_solution_is_right(self, side):
        """Both solutions match, so either may be chosen."""
        assert "right" == verdict("choose.which", side).judgement

    @pytest.mark.parametrize("side", ["near", "far"])
    def test_lengths_of_the_chosen_one(self, side):
        """The lengths in millimetres are those of the solution that was chosen, and of no other."""
        given = shipped("whip-434")
        sheet = blank(given).enter("choose.which", side)
        chosen, other = (NEAR_434, FAR_434) if side == "near" else (FAR_434, NEAR_434)
        mine = sheet.enter("millimetres.distance", f"{chosen.distance * WAVE_434:.2f}")
        theirs = sheet.enter("millimetres.distance", f"{other.distance * WAVE_434:.2f}")

        assert "right" == mine.verdicts["millimetres.distance"].judgement
        assert "branches mixed" == theirs.verdicts["millimetres.distance"].slip

    def test_an_untrue_reason(self):
        """A reason that holds only for the other solution is named as untrue."""
        sheet = (
            blank(shipped("loop-open-stub"))
            .enter("choose.which", "far")
            .enter("choose.why", "shorter distance")
        )
        found = sheet.verdicts["choose.why"]

        assert ("slip", "untrue shorter distance") == (found.judgement, found.slip)
        assert "only for the other solution" in found.sentence

    def test_a_true_reason(self):
        """A reason that the two designs bear out is right."""
        sheet = blank(WHIP).enter("choose.which", "near").enter("choose.why", "it stands nearer the load")

        assert "right" == sheet.verdicts["choose.why"].judgement


NEAR_434, FAR_434 = single_stub(40 - 45j, 50)
WAVE_434 = 299_792_458 / 434e6 * 0.66 * 1e3  # millimetres; the speed of light is exact by the SI's definition


class TestUnreadableAndImpossible:
    def test_unreadable(self):
        """What cannot be read gets the reader's sentence and no value."""
        found = verdict("normalise", "abc")

        assert ("unreadable", None) == (found.judgement, found.value)
        assert "“abc” is not a number" in found.sentence

    def test_impossible(self):
        """Where the carried value leaves nothing to find, the verdict names the step to go back to."""
        sheet = blank(WHIP).enter("admittance", "j0.5").carry("admittance")
        found = sheet.enter("crossing.near", "1+j1").verdicts["crossing.near"]

        assert ("impossible", "admittance", None) == (found.judgement, found.back_to, found.value)
        assert "does not cross" in found.sentence
        assert "go back to that step" in found.sentence
