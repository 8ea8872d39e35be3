"""What follows from the choice among two reactances: values, preferred values, what they cost, and what is said."""

from math import pi, sqrt

import pytest

from lessons import open_sheet
from lessons.course.two_reactances import LESSON
from lessons.grammar.strokes import Point
from lessons.working.achieved import closing
from lessons.working.construction import plans, stroke_groups
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet
from tests.lessons.solving import blank, problem, solved

FOUR = {"load": "25-35j", "line": "50", "frequency": "434 MHz"}
INSIDE_R = {"load": "200-100j", "line": "100", "frequency": "500 MHz"}
SPEED = 2 * pi * 434e6


def judged(sheet: Sheet, key: str, text: str) -> Verdict:
    """What is said of a text in a field."""
    return sheet.enter(key, text).verdicts[key]


class TestSteps:
    def test_how_many(self):
        """With four solutions there are 14 steps, with two 11, and without a frequency those up to the choice."""
        counts = [
            len(blank(problem(load, 50.0, LESSON, frequency=hertz)).steps)
            for load in (25 - 35j, 140 - 70j)
            for hertz in (434e6, None)
        ]

        assert [14, 11, 11, 8] == counts

    @pytest.mark.parametrize(
        ("solution", "near", "far"),
        [
            ("shunt_high", 1e9 * 50 / (0.94595 - sqrt(0.6757 * 0.3243)) / SPEED, None),
            ("series_low", 1e9 * 0.2 * 50 / SPEED, 1e9 * 50 / SPEED),
            ("series_high", 1e9 * 1.2 * 50 / SPEED, -1e12 / 50 / SPEED),
        ],
    )
    def test_values_are_of_the_one_chosen(self, solution, near, far):
        """25 - j35 ohm on 50 ohm: z = 0.5 - j0.7, so the walk along r = 0.5 to x = ±0.5 adds 1.2 or -0.2 + 0.4."""
        sheet = open_sheet("two-reactances", FOUR).enter("choose.which", solution)

        assert near == pytest.approx(sheet.work["value.near"], rel=1e-3)
        if far is not None:
            assert far == pytest.approx(sheet.work["value.far"], rel=1e-9)

    def test_a_named_solution_is_not_chosen(self):
        """A problem of one solution alone asks for no choice, and its parts are that solution's."""
        sheet = blank(
            LESSON.problem({"load": 25 - 35j, "line": 50.0, "frequency": 434e6}, solution="series_low")
        )

        assert "choose" not in [step.key for step in sheet.steps]
        assert 1e9 * 0.2 * 50 / SPEED == pytest.approx(sheet.solution["value.near"], rel=1e-9)
        assert not any("solution that you chose" in sheet.truth.say(step.ask) for step in sheet.steps)

    def test_a_choice_that_is_not_asked(self):
        """Where the choice is switched off the question says which solution is meant."""
        sheet = blank(problem(25 - 35j, 50.0, LESSON, frequency=434e6, without=frozenset({"choose"})))
        ask = next(step.ask for step in sheet.steps if step.key == "value")

        assert "shunt-high solution" in sheet.truth.say(ask)


def with_coil(nanohenries: str, series: str) -> Sheet:
    """A sheet of two coils, 3.67 nH near and 18.3 nH far, on which the near one has another value, carried on."""
    sheet = open_sheet("two-reactances", {**FOUR, "e_series": series}).enter("choose.which", "series_low")
    return sheet.enter("value.near", f"{nanohenries} nH").carry("value.near")


class TestNearest:
    @pytest.mark.parametrize(
        ("value", "series", "right"),
        [
            ("11.3", "e12", {"12"}),
            ("10.7", "e12", {"10"}),
            ("10.97", "e12", {"10", "12"}),  # the root of 120 is 10.954, half of 22 is 11
            ("10.95", "e12", {"10", "12"}),
            ("11", "e12", {"10", "12"}),
            ("11", "e24", {"11"}),
            ("13.97", "e24", {"13", "15"}),  # the root of 195 is 13.964, half of 28 is 14
            ("93", "e12", {"100"}),
            ("0.91", "e12", {"0.82", "1"}),  # half of 1.82
            ("8.9", "e12", {"8.2"}),
        ],
    )
    def test_by_ratio_or_by_difference(self, value, series, right):
        """Nearest is by ratio or by difference; where the two part, or it is half way, both are right."""
        sheet = with_coil(value, series)
        digits = {"e12": "8.2 10 12 0.82 1 82 100", "e24": "10 11 12 13 15 16"}[series].split()

        assert right == {one for one in digits if judged(sheet, "preferred.near", f"{one} nH").accepted}

    def test_what_is_right_for_the_problem(self):
        """With a wrong value carried on, also what is nearest to the right one is right."""
        sheet = with_coil("22", "e12")

        assert judged(sheet, "preferred.near", "3.9 nH").accepted
        assert judged(sheet, "preferred.near", "22 nH").follows

    def test_almost_is_not_on_the_shelf(self):
        """What is no value of the series is not right, however near it is."""
        sheet = open_sheet("two-reactances", FOUR).enter("choose.which", "series_low")

        assert not judged(sheet, "preferred.near", "3.91 nH").accepted
        assert judged(sheet, "preferred.near", "0.0039 µH").accepted


# --- mistakes, by plain arithmetic: series-low of the four is 3.667 nH in the line and 18.34 nH across it ---

NEAR, FAR = 1e9 * 0.2 * 50 / SPEED, 1e9 * 50 / SPEED


def seen(near: float, far: float) -> float:
    """The ratio that the line sees with these coils, in nanohenries, by adding them up."""
    y = 1 / ((25 - 35j) / 50 + 1j * SPEED * near * 1e-9 / 50) + 50 / (1j * SPEED * far * 1e-9)
    size = abs((1 - y) / (1 + y))
    return (1 + size) / (1 - size)


NAMED = [
    ("value.near", f"{NEAR * 2 * pi:.4g} nH", "two pi forgotten"),
    ("value.near", f"{FAR:.4g} nH", "parts exchanged"),
    ("value.near", f"{NEAR * 1000:.4g} nH", "power of ten"),
    ("value.near", f"{1e9 * 1.2 * 50 / SPEED:.4g} nH", "branches mixed"),
    ("value.far", f"{FAR / 50:.4g} nH", "not denormalised"),
    ("preferred.near", "3.3 nH", "wrong way"),
    ("preferred.near", "3.6 nH", "wrong series"),
    ("preferred.near", f"{NEAR:.4g} nH", "not rounded"),
    ("preferred.near", "4 nH", "round number"),
    ("preferred.near", "3.7 nH", "round number"),
    ("preferred.near", "18 nH", "parts exchanged"),
    ("preferred.near", "39 nH", "power of ten"),
    ("preferred.far", "1.8 nH", "power of ten"),
    ("preferred.far", "22 nH", "wrong way"),
    ("cost", "1", "match taken for granted"),
    ("cost", f"{(seen(3.9, 18) - 1) / (seen(3.9, 18) + 1):.4f}", "size of reflection"),
]


class TestSlips:
    @pytest.mark.parametrize(("key", "text", "slip"), NAMED, ids=[f"{key}, {text}" for key, text, _ in NAMED])
    def test_is_named(self, key, text, slip):
        """Whoever makes the mistake is told which it is, or asked about it."""
        sheet = open_sheet("two-reactances", {**FOUR, "e_series": "e12"}).enter("choose.which", "series_low")
        verdict = judged(sheet, key, text)

        assert "slip" == verdict.judgement
        assert slip in (verdict.slip, *verdict.suspected[:2])

    def test_what_was_bought_is_gone_on_from(self):
        """The cost is that of the parts on the student's own sheet."""
        sheet = open_sheet("two-reactances", FOUR).enter("choose.which", "series_low")
        sheet = sheet.enter("preferred.near", "4.7 nH").carry("preferred.near")

        assert judged(sheet, "cost", f"{seen(4.7, 18):.3f}").follows


class TestWhatIsSaid:
    def test_matched_of_the_exact_values_alone(self):
        """The exact values match; what is bought for them is said beside it, with what it leaves."""
        sheet = solved(problem(25 - 35j, 50.0, LESSON, frequency=434e6))
        sheet = sheet.enter("choose.which", "series_low").enter("choose.why", "any would do")
        for key in ("value.near", "value.far", "preferred.near", "preferred.far", "cost"):
            sheet = sheet.enter(key, "").reveal(key)
        said, left = closing(sheet.work), f"{seen(3.9, 18):.3f}"

        assert (True, True) == (sheet.finished, sheet.matched)
        assert "Built with the exact values on this sheet" in said
        assert (
            f"Bought as 3.9 nH and 18 nH, the parts of the series-low one leave a standing-wave ratio of {left}"
            in said
        )

    def test_nothing_is_bought_without_a_frequency(self):
        """Without a frequency nothing is said of parts that are bought."""
        assert "Bought" not in closing(solved(problem(25 - 35j, 50.0, LESSON)).work)

    def test_no_value_before_it_is_asked(self):
        """Up to the values the drawing shows ohms, and no hint or reason at the choice tells henries or farads."""
        sheet = solved(problem(25 - 35j, 50.0, LESSON, frequency=434e6))
        for key in ("value.near", "value.far"):
            sheet = sheet.enter(key, "")
        choose = next(step for step in sheet.steps if step.key == "choose")

        parts = [part for plan in plans(sheet) for part in plan.network.elements]
        assert [None] * 8 == [getattr(part, "frequency", 0.0) for part in parts]
        assert not any(unit in sheet.numbers(choose) for unit in (" nH", " pF"))

    def test_the_point_as_built(self):
        """The chart has the point of the parts as bought, off the centre by what they cost."""
        sheet = solved(problem(25 - 35j, 50.0, LESSON, frequency=434e6))
        (point,) = dict(stroke_groups(sheet))["cost"]
        assert isinstance(point, Point)
        size = abs(point.reflection)

        assert sheet.work.following("cost") == pytest.approx((1 + size) / (1 - size), rel=1e-9)
