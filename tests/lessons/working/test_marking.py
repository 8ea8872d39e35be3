"""Verdicts: what is right, what is near enough, and what is said of the rest.

The tolerances and the wording are the project's own; that half-wave lengths are equal is common practice, no source.
"""

from random import Random
from typing import Any

import pytest

from core import single_stub
from lessons.grammar.kinds import Choice
from lessons.grammar.lesson import Field, Work
from lessons.working.marking import CLOSE, MISREAD, Verdict, mark, predicted
from tests.lessons.solving import (
    HALF_TURN,
    OVERLAY,
    blank,
    fields_of,
    problem,
    random_problem,
    shipped,
    shipped_problems,
    typed,
    unit_of,
)

WHIP = shipped("whip-over-float")
NEAR, FAR = single_stub(30 - 50j, 50)
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
    found = mark(field, typed(field.kind(work), value, 9) + unit_of(field.key), work, work)
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

    def test_up_to_four_times_is_a_reading_error(self, given, notation):
        """Between two and four tolerances, where no mistake gives the value, it is called a reading a little off."""
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
            assert "the method looks right and the reading is a little off" in found.sentence

        assert count > 15


def _suspected(field: Field, slip: Any, work: Work, value: Any) -> bool:
    expected = predicted(slip, work)
    return expected is not None and field.kind(work).off_by(value, expected, work.problem.accuracy) <= 1.01


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


class TestFarOff:
    def test_no_usual_slip(self):
        """A value that nothing explains is not explained away."""
        found = verdict("normalise", "7 + 3j")

        assert ("wrong", "") == (found.judgement, found.slip)
        assert "no usual slip gives it" in found.sentence


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
