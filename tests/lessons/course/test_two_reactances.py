"""Two reactances as a lesson: which solutions there are, its mistakes by plain arithmetic, what it draws."""

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import l_network
from lessons import check_lines, open_sheet
from lessons.course.two_reactances import LESSON
from lessons.grammar.kinds import PartValue
from lessons.grammar.notation import STANDARD
from lessons.grammar.numbers import Unreadable
from lessons.grammar.plan import is_known
from lessons.working.construction import plans
from lessons.working.response import responses, why
from tests.lessons.solving import blank, problem, random_problem, shipped_problems, solved

loads = st.builds(complex, st.floats(2, 400), st.floats(-300, 300)).filter(
    lambda z: min(abs(z.real / 50 - 1), abs((50 / z).real - 1)) > 1e-2
)
FOUR = {"load": "25-35j", "line": "50", "frequency": "434 MHz"}
INSIDE_R = {"load": "200-100j", "line": "100", "frequency": "500 MHz"}


class TestWhichThereAre:
    @for_all(load=loads)
    def test_those_of_the_designer(self, load):
        """There are as many solutions as the designer finds, two or four, and each matches by the evaluator."""
        given = problem(load, 50.0, LESSON, frequency=434e6)
        found = LESSON.branches_of(given)
        work = blank(given).truth
        networks = [LESSON.network(work, one, LESSON.fields) for one in found]

        assert len(l_network(load, 50, 434e6)) == len(found)
        assert max(abs(one.input_reflection()) for one in networks if one) < 1e-9

    @pytest.mark.parametrize(
        ("load", "ways", "first"),
        [
            (90 + 60j, "shunt", {"shunt"}),
            (20 + 10j, "series", {"series"}),
            (25 - 35j, "either", {"shunt", "series"}),
        ],
    )
    def test_inside_and_outside(self, load, ways, first):
        """Inside r = 1 the shunt part comes first, inside g = 1 the series part; only what exists is asked."""
        sheet = blank(problem(load, 50.0, LESSON))
        asked = {step.key.split("_")[0] for step in sheet.steps} & {"shunt", "series"}

        assert ways == sheet.truth["ways"]
        assert first == asked

    def test_without_a_frequency(self):
        """Without a frequency reactances are asked, and neither henries nor farads; the sheet matches."""
        sheet = solved(problem(25 - 35j, 50.0, LESSON))

        assert not any("value" in step.key for step in sheet.steps)
        assert (True, True) == (sheet.finished, sheet.matched)


class TestRefused:
    @pytest.mark.parametrize(
        ("load", "sentence"),
        [
            (50 + 0j, "matched already"),
            (20j, "no power"),
            (50 + 30j, "on a unit circle"),
            (1 / (0.02 + 0.01j), "on a unit"),
        ],
    )
    def test_nothing_to_choose(self, load, sentence):
        """A load that is matched, takes no power or needs one part alone is refused in a sentence."""
        assert sentence in LESSON.refuses(problem(load, 50.0, LESSON))


# --- mistakes, by plain arithmetic: 200 - j100 ohm on 100 ohm at 500 MHz; g = 0.4, b = 0.2, root of 0.24 = 0.49 ---

ROOT, SPEED = sqrt(0.24), 2 * pi * 500e6
NEAR, X = ROOT - 0.2, ROOT / 0.4
NAMED = [
    ("ways", "series", "circles exchanged"),
    ("ways", "either", "circle overlooked"),
    ("ways", "none", "none seen"),
    ("shunt_meet.shunt_high", f"0.4-{ROOT:.3f}j", "branches mixed"),
    ("shunt_meet.shunt_high", f"1+{ROOT:.3f}j", "own unit circle"),
    ("shunt_meet.shunt_high", f"0.4+{sqrt(0.4):.3f}j", "square forgotten"),
    ("shunt_meet.shunt_low", "0.4", "axis"),
    ("shunt_near.shunt_high", f"{ROOT:.3f}", "all of it"),
    ("shunt_near.shunt_high", f"{ROOT + 0.2:.3f}", "added"),
    ("shunt_near.shunt_low", f"{ROOT + 0.2:.3f}", "sign not flipped"),
    ("shunt_turn.shunt_high", f"0.4+{ROOT:.3f}j", "not turned"),
    ("shunt_turn.shunt_high", f"2.5-{1 / ROOT:.3f}j", "parts inverted"),
    ("shunt_far.shunt_high", f"{NEAR:.3f}", "first part again"),
    ("value.near", f"{1e12 * NEAR / 100 / SPEED * 2 * pi:.4g} pF", "two pi forgotten"),
    ("value.near", f"{1e9 * 100 / NEAR / SPEED:.4g} nH", "coil and capacitor exchanged"),
    ("value.far", f"{1e9 * X / SPEED:.4g} nH", "not denormalised"),
    ("value.far", f"{1e12 * X * 100 / SPEED:.4g} nH", "power of ten"),
    ("value.far", f"{1e9 * 100 / X / SPEED:.4g} nH", "other side"),
]


class TestSlips:
    @pytest.mark.parametrize(("key", "text", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
    def test_is_named(self, key, text, slip):
        """Whoever makes the mistake is told which it is, or asked about it."""
        verdict = open_sheet("two-reactances", INSIDE_R).enter(key, text).verdicts[key]

        assert "slip" == verdict.judgement
        assert slip in (verdict.slip, *verdict.suspected[:2])

    def test_a_wrong_part_shows_at_the_end(self):
        """All of b taken for the difference and gone on from: the sheet ends unmatched, and says where it erred."""
        sheet = solved(problem(200 - 100j, 100.0, LESSON, frequency=500e6))
        wrong = sheet.enter("shunt_near.shunt_high", f"{ROOT:.3f}").carry("shunt_near.shunt_high")
        wrong = wrong.enter("value.near", f"{1e12 * ROOT / 100 / SPEED:.4g} pF")
        wrong = wrong.enter("choose.which", "shunt_high").enter("choose.why", "any would do")

        for which in ("near", "far"):
            wrong = wrong.reveal(f"preferred.{which}")
        wrong = wrong.reveal("cost")

        assert wrong.verdicts["value.near"].follows
        assert (True, False) == (wrong.finished, wrong.matched)
        assert wrong.went_wrong is not None
        assert "shunt_near" == wrong.went_wrong.key

    def test_a_circle_that_is_not_met(self):
        """From a conductance above 1 no walk leads to r = 1: the sheet leads back to the admittance."""
        sheet = open_sheet("two-reactances", INSIDE_R).enter("admittance", "1.4+0.2j").carry("admittance")
        verdict = sheet.enter("shunt_meet.shunt_high", "0.4+0.49j").verdicts["shunt_meet.shunt_high"]

        assert verdict.judgement in ("right", "impossible")  # right for the problem is right
        other = sheet.enter("shunt_meet.shunt_high", "0.9+0.2j").verdicts["shunt_meet.shunt_high"]
        assert ("impossible", "admittance") == (other.judgement, other.back_to)


class TestPartValue:
    @pytest.mark.parametrize(
        ("text", "value"),
        [("38.98 nH", 38.98), ("0.0389 µH", 38.9), ("0.92pF", -0.92), ("920 fF", -0.92), ("2.6 picofarad", -2.6),
         ("3,3 nH", 3.3), ("1e-9 F", -1000.0)],
    )  # fmt: skip
    def test_is_read(self, text, value):
        """Any usual prefix is read; the unit says coil or capacitor."""
        assert value == pytest.approx(PartValue().read(text, STANDARD))

    @pytest.mark.parametrize("text", ["38.98", "38 ohm", "", "-3 nH", "0 pF"])
    def test_is_refused(self, text):
        """Without a unit of a part, or not above zero, it is no value."""
        with pytest.raises(Unreadable, match=r"unit|above zero"):
            PartValue().read(text, STANDARD)

    def test_a_coil_is_no_capacitor(self):
        """However alike the numbers are, a coil is not near a capacitor; half a percent off it is still right."""
        kind = PartValue()

        assert np.inf == kind.off_by(2.6, -2.6, "chart")
        assert kind.off_by(38.9, 38.98, "chart") <= 1 < kind.off_by(38.5, 38.98, "chart")


class TestWhatIsDrawn:
    def test_no_part_before_it_is_found(self):
        """The drawing has two parts without a size from the crossing on, and each size as it is settled."""
        sheet = open_sheet("two-reactances", INSIDE_R)
        begun = sheet.enter("shunt_meet.shunt_high", f"0.4+{ROOT:.3f}j")
        known = begun.enter("shunt_near.shunt_high", f"{NEAR:.3f}")

        assert not plans(sheet)[0].network.elements
        sizes = [[not is_known(part) for part in plans(one)[0].network.elements] for one in (begun, known)]
        assert [[True, True], [False, True]] == sizes


class TestProblems:
    def test_shipped_ones_match(self):
        """Every shipped problem can be finished, and matches."""
        shipped = shipped_problems(LESSON)

        assert len(shipped) >= 7
        assert all(sheet.solved and sheet.matched for sheet in map(solved, shipped))
        assert {2, 4} == {len(LESSON.branches_of(one)) for one in shipped}

    def test_random_ones_match(self):
        """Random problems match as well, some with two solutions and some with four."""
        drawn = [random_problem(seed, LESSON) for seed in range(40)]

        assert {2, 4} == {len(LESSON.branches_of(one)) for one in drawn}
        assert all(sheet.solved for sheet in map(solved, drawn[:12]))


def test_a_working_is_read_line_for_line():
    """Lines of both arrangements are read, with the word of the solution or without one."""
    lines = "\n".join(
        [
            "shunt-high y between = 0.676 + 0.468j",
            "shunt-low y between = 0.676 - 0.468j",
            "z between = 0.5 + 0.5j",
            "z between = 0.5 - 0.5j",
            "series-low x nearer the load = 0.2",
            "x far = 0.693",
        ]
    )
    found = check_lines("two-reactances", FOUR, lines)

    assert ["right"] * 6 == [one.verdict.judgement if one.verdict else one.reason for one in found]


class TestWhatIsSaidOfTheBands:
    def test_of_parts_alone(self):
        """Of solutions made of parts alone nothing is said about line, and of four one is the widest."""
        sheet = solved(problem(25 - 35j, 50.0, LESSON, frequency=434e6))
        said = why(responses(sheet), 1.5, sheet.notation)

        assert "the shunt-high one has the widest band" in said
        assert "λ" not in said
        assert "line" not in said
