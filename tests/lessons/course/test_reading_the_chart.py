"""Reading the chart as a lesson: its values by plain arithmetic, its mistakes, its texts."""

from math import log, log10, sqrt

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from lessons.course.reading_the_chart import LESSON
from lessons.grammar.kinds import Said
from lessons.grammar.notation import STANDARD
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from tests.lessons.solving import blank
from tests.lessons.solving import problem as any_problem

loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)


def problem(load: complex, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson."""
    return any_problem(load, line, LESSON, **others)


@for_all(load=loads)
def test_values(load):
    """Reflection, ratio, decibels and percent of any load are those of the definitions."""
    work = blank(problem(load)).truth
    back = (load - 50) / (load + 50)
    size = abs(back)

    assert pytest.approx(back) == work["place"]
    assert pytest.approx((1 + size) / (1 - size)) == work["mismatch"]
    assert pytest.approx(-20 * log10(size)) == work["loss"]
    assert pytest.approx(100 * size**2) == work["share"]


@pytest.mark.parametrize(
    ("load", "sentence"),
    [
        (50 + 0j, "line's own impedance"),
        (20j, "no power"),
        (complex("inf"), "no power"),
        (0.001 + 20j, "rim of the chart"),
    ],
)
def test_refused(load, sentence):
    """A load with nothing to read is refused in a sentence."""
    assert sentence in LESSON.refuses(problem(load))


# 25 - j35 ohm on 50 ohm
SIZE = abs((0.5 - 0.7j - 1) / (0.5 - 0.7j + 1))
LOSS = -20 * log10(SIZE)
NAMED = [
    ("place", "0.520 < 100.5 deg", "sign of the reactance lost"),
    ("mismatch", SIZE, "size of reflection"),
    ("loss", LOSS / 2, "ten times"),
    ("loss", -LOSS, "sign"),
    ("loss", 2 * LOSS, "squared twice"),
    ("loss", 20 * log10((1 + SIZE) / (1 - SIZE)), "standing-wave ratio"),
    ("loss", -10 * log10(1 - SIZE**2), "power that goes in"),
    ("loss", -20 * log(SIZE), "natural logarithm"),
    ("loss", SIZE, "size of reflection"),
    ("share", 100 * SIZE, "not squared"),
    ("share", 100 - 100 * SIZE**2, "what goes in"),
    ("share", 100 - 100 * SIZE, "what goes in, not squared"),
    ("share", SIZE**2, "part of one"),
    ("share", 100 * sqrt(SIZE), "root"),
    ("share", 50 * SIZE**2, "halved"),
]


@pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
def test_slips_are_named(key, value, slip):
    """Whoever makes the mistake is told which it is, or asked about it where another gives the same number."""
    text = value if isinstance(value, str) else f"{value:.5g}"
    verdict = blank(problem(25 - 35j)).enter(key, text).verdicts[key]

    assert "slip" == verdict.judgement
    assert slip in verdict.suspected


@pytest.mark.parametrize("circle", ["3.17", "3.30"])
def test_either_way_is_right(circle):
    """Decibels and percent may follow from the point that was placed, or from the ratio that was read."""
    size = (float(circle) - 1) / (float(circle) + 1)
    sheet = blank(problem(25 - 35j, accuracy="calculated")).enter("mismatch", circle).carry("mismatch")
    sheet = sheet.enter("loss", f"{-20 * log10(size):.3f}").enter("share", f"{100 * size**2:.3f}")

    assert ["right", "right"] == [sheet.verdicts[key].judgement for key in ("loss", "share")]


def test_as_exact_as_the_chart():
    """A return loss is as far off as its distance from the centre is: few decibels are to be read more exactly."""
    near_rim, near_centre = blank(problem(5 + 0j)), blank(problem(62 + 0j))

    assert "right" == near_centre.enter("loss", "20.5").verdicts["loss"].judgement  # 19.40 by the formula
    assert "wrong" == near_rim.enter("loss", "2.85").verdicts["loss"].judgement  # 1.74


def test_a_part_of_one_in_own_lines():
    """Who writes 0.27 for 27 % in lines of their own is understood."""
    kind = LESSON.field("share").kind(blank(problem(25 - 35j)).truth)

    assert ["27.0", "0.27"] == [
        one.text for one in kind.understood(Said("reflected power", "0.27", STANDARD))
    ]
    assert ["27 %"] == [one.text for one in kind.understood(Said("reflected power", "27 %", STANDARD))]


def test_the_end_says_what_is_so():
    """The closing sentence is the solver's, also where a wrong value was carried on."""
    sheet = blank(problem(25 - 35j)).enter("share", "52").carry("share")

    assert "27.0 % comes back and 73.0 % goes into the load" in closing(sheet.work)


def test_steps():
    """The steps come in the order of the derivation."""
    assert ["normalise", "place", "mismatch", "loss", "share"] == [step.key for step in LESSON.steps]
