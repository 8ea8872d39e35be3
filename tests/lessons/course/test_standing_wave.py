"""The standing wave as a lesson: its values by plain arithmetic, its mistakes, its texts."""

from math import sqrt

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core.elements import Section
from lessons.course.standing_wave import LESSON, POWER
from lessons.grammar.notation import STANDARD
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from lessons.working.construction import plans
from tests.lessons.solving import blank, random_problem, shipped_problems
from tests.lessons.solving import problem as any_problem

loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)
GIVEN = [*shipped_problems(LESSON), random_problem(7, LESSON)]


def problem(load: complex, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson."""
    return any_problem(load, line, LESSON, **others)


@for_all(load=loads)
def test_of_any_load(load):
    """At both places the load's power is made in the resistance, and highest over lowest voltage is the SWR."""
    work = blank(problem(load, power=8.0)).truth
    size = abs((load - 50) / (load + 50))
    forward = sqrt(2 * 8.0 * 50 / (1 - size**2))

    assert pytest.approx(forward * (1 + size)) == work["voltage.maximum"]
    assert pytest.approx(forward * (1 - size)) == work["voltage.minimum"]
    assert pytest.approx((1 + size) / (1 - size)) == work["ratio"]


@pytest.mark.parametrize(
    ("load", "sentence"),
    [
        (50 + 0j, "same everywhere"),
        (20j, "no power"),
        (complex("inf"), "no power"),
        (0.001 + 20j, "told from the rim"),
    ],
)
def test_refused(load, sentence):
    """A load with nothing to find is refused in a sentence."""
    assert sentence in LESSON.refuses(problem(load))


class TestPower:
    @pytest.mark.parametrize(
        ("text", "watts"), [("10", 10), ("10 W", 10), ("500 mW", 0.5), ("1.5kW", 1500), ("2,5 w", 2.5)]
    )
    def test_read(self, text, watts):
        """Watts are read with their unit or without, and milliwatts and kilowatts as well."""
        assert watts == pytest.approx(POWER.kind.read(text))

    @pytest.mark.parametrize("watts", [0.5, 10.0, 1 / 3, 1500.0])
    def test_written(self, watts):
        """What is written gives the same number back."""
        assert watts == POWER.kind.read(POWER.kind.write(watts))

    @pytest.mark.parametrize(("watts", "said"), [(0.5, "500 mW"), (12.5, "12.5 W")])
    def test_said(self, watts, said):
        """A sentence says less than a watt in milliwatts."""
        assert said == POWER.kind.say(watts, STANDARD)

    @pytest.mark.parametrize("text", ["0", "-3 W", "1e9 W"])
    def test_refused(self, text):
        """No power and too much of it are refused in a sentence."""
        with pytest.raises(Unreadable, match="from 1 nW to 1 MW, such as 10 W"):
            POWER.kind.read(text)


# 25 - j35 ohm on 50 ohm, 10 W
S = 3.1639
HIGH, LOW = sqrt(20 * 50 * S), sqrt(20 * 50 / S)
NAMED = [
    ("ends.highest", "left", "ends exchanged"),
    ("distance.minimum", 0.5 - 0.1104, "wrong way"),
    ("distance.minimum", 2 * 0.1104, "double angle"),
    ("distance.maximum", 0.1104, "branches mixed"),
    ("distance.maximum", 0.25, "end reading"),
    ("resistance.maximum", 1 / S, "branches mixed"),
    ("ohms.maximum", S, "not denormalised"),
    ("ohms.minimum", 1 / S / 50, "divided again"),
    ("ohms.minimum", 25.0, "load's resistance"),
    ("ohms.maximum", 43.01, "size of the load"),
    ("voltage.maximum", HIGH / sqrt(2), "rms"),
    ("voltage.maximum", 2 * HIGH, "peak to peak"),
    ("voltage.minimum", LOW / 2, "two below"),
    ("voltage.minimum", LOW**2, "no root"),
    ("voltage.maximum", sqrt(20 * S), "normalised resistance"),
    ("voltage.maximum", sqrt(1000), "matched line"),
    ("voltage.maximum", sqrt(500), "load's resistance"),
    ("voltage.maximum", sqrt(20 / 50 / S), "current"),
    ("voltage.maximum", sqrt(1000) * S, "whole ratio"),
    ("voltage.minimum", 0.0, "nothing left"),
    ("ratio", 1 / S, "upside down"),
    ("ratio", HIGH - LOW, "difference"),
    ("ratio", sqrt(S), "to the matched line"),
]


@pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
def test_slips_are_named(key, value, slip):
    """Whoever makes the mistake is told which it is."""
    text = value if isinstance(value, str) else f"{value:.5g}" + " wl" * key.startswith("distance")
    sheet = blank(problem(25 - 35j)).enter(key, text)

    assert ("slip", slip) == (sheet.verdicts[key].judgement, sheet.verdicts[key].slip)


@pytest.mark.parametrize(("made", "slip"), [("9.0", "ratio of the resistances"), ("9.54", "decibels")])
def test_slips_of_the_ratio(made, slip):
    """Where the ratio is 3, nine is that of the resistances, and nine and a half is in decibels."""
    sheet = blank(problem(30 - 40j, accuracy="calculated")).enter("ratio", made)

    assert slip == sheet.verdicts["ratio"].slip


def test_follow_through():
    """Volts from a wrong resistance that was carried on are right for the student, and so is their ratio."""
    sheet = blank(problem(25 - 35j)).enter("ohms.maximum", "200").carry("ohms.maximum")
    sheet = sheet.enter("voltage.maximum", "63.25").enter("ratio", "3.558")

    assert [True, True] == [sheet.verdicts[key].follows for key in ("voltage.maximum", "ratio")]


def test_nothing_at_the_minimum():
    """Who goes on from no voltage at the minimum is sent back there: nothing can be divided by it."""
    sheet = blank(problem(25 - 35j)).enter("voltage.minimum", "0").carry("voltage.minimum")
    verdict = sheet.enter("ratio", "3.164").verdicts["ratio"]

    assert ("impossible", "voltage") == (verdict.judgement, verdict.back_to)


def test_ends_exchanged_and_drawn():
    """Who has chosen the ends of the axis the wrong way round is followed in distances and resistances."""
    sheet = blank(problem(25 - 35j)).enter("ends.highest", "left").carry("ends.highest")
    sheet = sheet.enter("distance.maximum", "0.110 wl").enter("resistance.maximum", "0.316")

    assert [True, True] == [sheet.verdicts[key].follows for key in ("distance.maximum", "resistance.maximum")]


def test_the_end_says_what_is_so():
    """The closing sentence is the solver's also where a wrong value was carried on, and it warns of the voltage."""
    said = closing(blank(problem(25 - 35j)).enter("ohms.maximum", "200").carry("ohms.maximum").work)

    assert "between 17.78 V and 56.25 V" in said
    assert "switch off before you touch such a line" in said


def test_what_is_drawn():
    """The load on its line is drawn, and as soon as a distance is found the line up to that place."""
    sheet = blank(problem(25 - 35j))
    (bare,) = plans(sheet)
    (found,) = plans(sheet.enter("distance.minimum", "0.110 wl"))

    assert () == bare.network.elements
    assert [0.110] == [one.length for one in found.network.elements if isinstance(one, Section)]


def test_steps():
    """The steps come in the order of the derivation."""
    agreed = [
        "normalise", "place", "mismatch", "ends", "distance", "resistance", "ohms", "voltage", "ratio"
    ]  # fmt: skip

    assert agreed == [step.key for step in LESSON.steps]
