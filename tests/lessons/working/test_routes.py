"""Follow-through on what was drawn: one wrong drawing costs one step, and what is read from it is right for it.

What a student reads from a wrong point, circle or end is worked out here by plain arithmetic.
"""

from cmath import phase, rect
from itertools import product
from math import pi, tan

import pytest

from core.line import half_wave_difference
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.kinds import CLOSE, LENGTH_TOLERANCE
from lessons.grammar.problem import Problem
from lessons.working.sheet import Sheet
from tests.lessons.solving import HALF_TURN, OVERLAY, PLACEMENTS, SIDES, STUBS, blank, shipped_problems

PROBLEMS = [given for lesson in STUBS for given in shipped_problems(lesson) if given.accuracy == "chart"]
SHUNT = [given for given in PROBLEMS if PLACEMENTS[given.lesson] == "shunt"]
TURNED = rect(
    0.93, 0.35
)  # a point put on the chart 20 degrees too far round, and a little too near the centre
WIDER = 1.3

every_problem = pytest.mark.parametrize("given", PROBLEMS, ids=lambda p: p.key)
every_shunt_problem = pytest.mark.parametrize("given", SHUNT, ids=lambda p: p.key)
both_notations = pytest.mark.parametrize("notation", [HALF_TURN, OVERLAY], ids=lambda n: n.admittance)


def reflection(given: Problem) -> complex:
    """The load's reflection on its line."""
    return (given["load"] - given["line"]) / (given["load"] + given["line"])


def on_line(given: Problem, at: complex) -> complex:
    """Where a reflection stands on the grid that the lesson reads: an admittance is read at its negative."""
    return -at if PLACEMENTS[given.lesson] == "shunt" else at


def crossing_parts(given: Problem, size: float, at: complex) -> tuple[float, float]:
    """Imaginary parts where the circle of this size of reflection meets the unit circle, the first clockwise first."""
    part = 2 * size / (1 - size**2) ** 0.5
    first, second = sorted((part, -part), key=lambda x: distance(given, at, x))
    return first, second


def distance(given: Problem, at: complex, part: float) -> float:
    """Wavelengths clockwise from a reflection to where 1 + jx stands."""
    there = 1j * part / (2 + 1j * part)
    return (phase(on_line(given, at)) - phase(there)) / (4 * pi) % 0.5


def placed(given: Problem, notation=HALF_TURN) -> tuple[Sheet, complex]:
    """A sheet with the load's point drawn in a wrong place and carried on, and that place."""
    wrong = reflection(given) * TURNED
    sheet = blank(given, notation)
    sheet = sheet.enter("normalise", sheet.write("normalise")).draw("place", wrong).carry("place")
    assert not sheet.verdicts["place"].accepted
    return sheet, wrong


def assert_follows(sheet: Sheet, key: str) -> None:
    """Right for the student's earlier values, said so, and not at fault."""
    verdict = sheet.verdicts[key]

    assert ("right", True) == (verdict.judgement, verdict.follows), (key, verdict.sentence)
    assert "this step is not at fault" in verdict.sentence


class TestFromTheOwnPoint:
    @every_shunt_problem
    @both_notations
    def test_the_half_turn(self, given, notation):
        """The admittance read across from the point that the student placed is right for it."""
        sheet, wrong = placed(given, notation)

        assert_follows(sheet.draw("admittance", wrong), "admittance")

    @every_shunt_problem
    def test_the_half_turn_in_writing(self, given):
        """So it is when typed: y = (1 - reflection) / (1 + reflection)."""
        sheet, wrong = placed(given)
        y = (1 - wrong) / (1 + wrong)

        assert_follows(sheet.enter("admittance", f"{y.real:.3f}{y.imag:+.3f}j"), "admittance")

    @every_problem
    def test_its_circle(self, given):
        """The ratio of the circle through the student's own point is right for it."""
        sheet, wrong = placed(given)
        ratio = (1 + abs(wrong)) / (1 - abs(wrong))
        verdict = sheet.enter("mismatch", f"{ratio:.3f}").verdicts["mismatch"]

        assert "right" == verdict.judgement

    @every_problem
    @pytest.mark.parametrize("side", SIDES)
    def test_the_distance(self, given, side):
        """Distances measured from the student's own point to the crossings are right for it."""
        sheet, wrong = placed(given)
        part = sheet.truth[f"crossing.{side}"].imag
        walked = distance(given, wrong, part)
        sheet = sheet.enter(f"crossing.{side}", sheet.write(f"crossing.{side}"))

        assert abs(walked - sheet.truth[f"distance.{side}"]) % 0.5 > 0.01
        assert_follows(sheet.enter(f"distance.{side}", f"{walked:.4f}"), f"distance.{side}")


class TestOnTheOwnCircle:
    @every_problem
    @pytest.mark.parametrize("side", SIDES)
    def test_the_crossings(self, given, side):
        """Crossings read on the circle that the student drew are right for it, and the distance to them as well."""
        sheet = blank(given)
        ratio = sheet.truth["mismatch"] * WIDER
        size = (ratio - 1) / (ratio + 1)
        part = crossing_parts(given, size, reflection(given))[SIDES.index(side)]
        sheet = sheet.draw("mismatch", size).carry("mismatch")
        sheet = sheet.draw(f"crossing.{side}", on_line(given, 1j * part / (2 + 1j * part)))

        assert not sheet.verdicts["mismatch"].accepted
        assert_follows(sheet, f"crossing.{side}")
        walked = sheet.enter(f"distance.{side}", f"{distance(given, reflection(given), part):.4f}")
        assert walked.verdicts[f"distance.{side}"].accepted

    @every_problem
    def test_what_is_left_there(self, given):
        """What the line leaves at the student's own crossing, and its opposite, are right for it."""
        size = (blank(given).truth["mismatch"] * WIDER - 1) / (blank(given).truth["mismatch"] * WIDER + 1)
        part, _ = crossing_parts(given, size, reflection(given))
        sheet = blank(given).draw("mismatch", size).carry("mismatch")
        sheet = sheet.enter("crossing.near", f"1{part:+.4f}j").enter("needed.near", f"{-part:.4f}")

        assert_follows(sheet, "needed.near")


OTHER_END = {"short": "open", "open": "short"}


def chosen(given: Problem, *, end: bool, sense: bool) -> Sheet:
    """A sheet on which the stub's other end, the other sense, or both were chosen and carried on."""
    sheet = blank(given)
    if end:
        sheet = sheet.enter("start.point", OTHER_END[given["end"]]).carry("start.point")
    return sheet.enter("start.sense", "counter-clockwise").carry("start.sense") if sense else sheet


class TestFromTheOwnEnd:
    @every_problem
    @pytest.mark.parametrize(
        ("end", "sense"), [(True, False), (False, True), (True, True)], ids=["end", "sense", "both"]
    )
    @pytest.mark.parametrize("side", SIDES)
    def test_the_length(self, given, end, sense, side):
        """From the other kind of end, or walked the other way, the length measured there is right for that choice."""
        sheet = chosen(given, end=end, sense=sense)
        right = sheet.truth[f"length.{side}"]
        measured = (right + 0.25 * end) % 0.5
        measured = (0.5 - measured) % 0.5 if sense else measured
        sheet = sheet.enter(f"length.{side}", f"{measured:.4f}")

        if (
            abs(half_wave_difference(measured, right)) < CLOSE * LENGTH_TOLERANCE["chart"]
        ):  # no difference to this stub
            assert sheet.verdicts[f"length.{side}"].accepted
        else:
            assert_follows(sheet, f"length.{side}")

    @every_problem
    def test_does_not_match(self, given):
        """A stub measured from the wrong end follows, and what it is part of matches nothing."""
        sheet = chosen(given, end=True, sense=False)
        for step, side in product(("length",), SIDES):
            sheet = sheet.enter(f"{step}.{side}", f"{(sheet.truth[f'{step}.{side}'] + 0.25) % 0.5:.4f}")
        for one in (one for step in sheet.steps for one in step.fields if one.key not in sheet.entries):
            sheet = sheet.enter(one.key, sheet.work.write(one.key))

        assert (True, False, False) == (sheet.finished, sheet.matched, sheet.solved)
        assert "start" == (sheet.went_wrong.key if sheet.went_wrong else "")


class TestAWrittenLength:
    @pytest.mark.parametrize(
        ("off", "judgement"),
        [(-0.00049, "right"), (0.00021, "right"), (0.00049, "right"), (0.004, "wrong"), (-0.004, "wrong")],
    )
    def test_the_total_of_what_was_drawn(self, off, judgement):
        """A drawn length is written to three decimals: the total for what was drawn is right, though steep there."""
        lesson = CATALOGUE.find("shunt-stub")
        assert lesson is not None
        given = lesson.problem({"load": 315 + 48j, "line": 50.0, "stub": 75.0, "end": "open"})
        needed = [("crossing.near", "1+6.465j"), ("needed.near", "-6.465"), ("own.near", "-9.70")]
        sheet = blank(given)
        for key, text in needed:
            sheet = sheet.enter(key, text).carry(key)
        sheet = sheet.draw("length.near", 0.267 + (off if abs(off) < 0.0005 else 0))
        total = 6.465 + tan(2 * pi * (0.267 + off)) * 50 / 75  # of an open stub: y = j tan, on its own line
        verdict = sheet.enter("total.near", f"1{total:+.3f}j").verdicts["total.near"]

        assert "0.267 λ" == sheet.entries["length.near"].text
        assert judgement == verdict.judgement


class TestNotCarried:
    @every_shunt_problem
    def test_a_point_put_right(self, given):
        """Once the point is put right, what was read from the wrong one is judged anew."""
        sheet, wrong = placed(given)
        sheet = sheet.draw("admittance", wrong).enter("place", sheet.write("place"))

        assert not sheet.verdicts["admittance"].accepted

    def test_only_in_order(self):
        """What was drawn rightly opens no second way: there every route leads to one value."""
        sheet = blank(PROBLEMS[0])
        sheet = sheet.enter("place", sheet.write("place")).enter("mismatch", sheet.write("mismatch"))
        verdict = sheet.enter("admittance", sheet.write("admittance")).verdicts["admittance"]

        assert ("right", False) == (verdict.judgement, verdict.follows)
