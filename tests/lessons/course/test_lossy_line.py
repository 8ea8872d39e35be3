"""A line with loss as a lesson: its values, its mistakes, its spiral, its texts."""

from math import exp, log10

import numpy as np
import pytest

from core.elements import Section
from lessons.course.lossy_line import LESSON
from lessons.grammar.given_lengths import Stated
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import Point, Way
from lessons.working.achieved import closing
from lessons.working.construction import plans, stroke_groups
from tests.lessons.solving import blank, solved
from tests.lessons.solving import problem as any_problem


def problem(load: complex = 10 - 20j, along: float = 0.4, loss: float = 3.0, **others: object) -> Problem:
    """A problem of the lesson."""
    return any_problem(load, 50.0, LESSON, along=Stated(along, "wavelengths"), loss=loss, **others)


BACK = abs((0.2 - 0.4j - 1) / (0.2 - 0.4j + 1))
PART = 10**-0.3
SEEN = BACK * PART
ARRIVES = 100 * PART * (1 - BACK**2) / (1 - SEEN**2)
TOTAL = -10 * log10(ARRIVES / 100)
NAMED = [
    ("size", BACK * PART**0.5, "one way only"),
    ("size", BACK * PART**2, "power for voltage"),
    ("size", BACK, "not shrunk"),
    ("size", BACK / PART, "outward"),
    ("size", PART, "factor alone"),
    ("size", BACK * exp(-6), "nepers"),
    ("ratio", (1 + BACK) / (1 - BACK), "at the load"),
    ("ratio", PART * (1 + BACK) / (1 - BACK), "ratio shrunk"),
    ("ratio", SEEN, "size of reflection"),
    ("ratio", 1 + SEEN, "numerator"),
    ("ratio", (1 - SEEN) / (1 + SEEN), "left side"),
    ("share", 100 * PART, "as if matched"),
    ("share", 100 * (1 - BACK**2), "mismatch alone"),
    ("share", ARRIVES * (1 - SEEN**2), "not divided"),
    ("share", ARRIVES * (1 - SEEN**2) ** 2, "multiplied"),
    ("share", 100 - ARRIVES, "what is lost"),
    ("share", ARRIVES / 100, "part of one"),
    ("total", 2 * TOTAL, "twenty times"),
    ("total", -TOTAL, "sign"),
    ("total", -10 * log10(1 - ARRIVES / 100), "of what is lost"),
    ("extra", TOTAL, "nothing taken off"),
    ("extra", TOTAL + 3, "added"),
    ("extra", -10 * log10(1 - BACK**2), "turned round at the load"),
    ("extra", 3 - TOTAL, "negative"),
]


@pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
def test_slips_are_named(key, value, slip):
    """Whoever makes the mistake is told which it is, or asked about it where another gives the same number."""
    verdict = blank(problem()).enter(key, f"{value:.5g}").verdicts[key]

    assert ("slip", True) == (verdict.judgement, slip in verdict.suspected)


def test_without_a_mismatch_nothing_is_added():
    """The nearer the load is to the line's impedance, the nearer the loss is to the line's own."""
    work = blank(problem(51 + 0j)).truth

    assert 3 == pytest.approx(work["total"], abs=1e-3)
    assert 0 == pytest.approx(work["extra"], abs=1e-3)


@pytest.mark.parametrize(
    ("text", "sentence"), [("0", "above 0"), ("-1 dB", "above 0"), ("90 dB", "at most 20")]
)
def test_losses_that_cannot_be(text, sentence):
    """A line that loses nothing, or next to all, is refused in a sentence."""
    with pytest.raises(Unreadable, match=sentence):
        LESSON.givens[3].kind.read(text)


@pytest.mark.parametrize("along", [0.1, 0.4, 1.3, 7.9])
def test_the_spiral(along):
    """The spiral begins at the load and ends at the input, each piece farther in; a long one leaves half waves out."""
    sheet = solved(problem(along=along))
    strokes = dict(stroke_groups(sheet))["inward"]
    ways = [one.arc for one in strokes if isinstance(one, Way)]
    (end,) = [one.reflection for one in strokes if isinstance(one, Point)]

    assert sheet.truth["place"] == pytest.approx(ways[0].first, abs=0.01)
    assert end == pytest.approx(ways[-1].last, abs=0.002)
    assert all(abs(arc.last) < abs(arc.first) for arc in ways)
    turned = -sum(arc.sweep for arc in ways)
    whole = 2 * np.pi * np.round((turned - 4 * np.pi * along) / (2 * np.pi))
    assert turned == pytest.approx(4 * np.pi * along + whole, abs=0.2)
    assert len(ways) <= 12


def test_follow_through():
    """A wrong |Γ| at the input carried on makes the ratio, and the power, that follow from it right for the student."""
    sheet = blank(problem()).enter("size", "0.41").carry("size")
    sheet = sheet.enter("ratio", f"{1.41 / 0.59:.3f}").enter(
        "share", f"{100 * PART * (1 - BACK**2) / (1 - 0.41**2):.2f}"
    )

    assert [True, True] == [sheet.verdicts[key].accepted for key in ("ratio", "share")]


def test_more_than_all():
    """Sizes by which more would arrive than goes in lead back to where the input's was found."""
    sheet = blank(problem(100 + 0j, loss=0.5)).enter("size", "0.9").carry("size").enter("share", "120")

    assert ("impossible", "inward") == (sheet.verdicts["share"].judgement, sheet.verdicts["share"].back_to)


def test_the_end_says_what_is_so():
    """The closing sentence is the solver's, also where a wrong value was carried on."""
    sheet = blank(problem()).enter("extra", "9").carry("extra")

    assert f"the mismatch adds {TOTAL - 3:.2f} dB" in closing(sheet.work)


def test_what_is_drawn():
    """The drawing is the line with its loss behind the load."""
    (plan,) = plans(blank(problem()))
    (section,) = plan.network.elements

    assert isinstance(section, Section)
    assert (0.4, 50.0) == (section.length, section.impedance)
    assert 3 == pytest.approx(section.attenuation * section.length * 20 / np.log(10))


def test_steps():
    """The steps come in the order of the derivation."""
    agreed = ["normalise", "place", "mismatch", "waves", "start", "end", "inward", "arrives", "added"]

    assert agreed == [step.key for step in LESSON.steps]
