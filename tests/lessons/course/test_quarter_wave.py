"""The quarter wave as a lesson: its values against the core, its mistakes by plain arithmetic, its texts."""

from math import sqrt

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from core import quarter_wave, swr
from core.line import half_wave_difference
from core.transformers import QuarterWave
from lessons.course.maximum_and_minimum import MAXIMUM, MINIMUM
from lessons.course.quarter_wave import LESSON
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import HalfTurn
from lessons.working.construction import element_symbols, plans
from tests.lessons.course.test_shunt_stub import texts
from tests.lessons.solving import (
    blank,
    fields_of,
    shipped_problems,
    solved,
)
from tests.lessons.solving import problem as any_problem

BOTH = (MAXIMUM, MINIMUM)
loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)
real_loads = st.floats(1, 500).filter(lambda r: abs(r - 50) > 1).map(complex)


def problem(load: complex, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson."""
    return any_problem(load, line, LESSON, **others)


def by_place(load: complex, line: float = 50.0) -> dict[str, QuarterWave]:
    """The core's designs that have no stub, by where they start."""
    return {one.position.split()[1]: one for one in quarter_wave(load, line)[:2]}


class TestAgainstTheCore:
    @for_all(load=st.one_of(loads, real_loads))
    def test_distances_and_impedances(self, load):
        """The derivation arrives at the designer's distances and section impedances, at both places."""
        work, designs = blank(problem(load)).truth, by_place(load)

        for one in BOTH:
            assert abs(half_wave_difference(work.of("distance", one), designs[one.key].distance)) < 1e-9
            assert pytest.approx(designs[one.key].section_impedance) == work.of("section", one)

    @for_all(load=st.one_of(loads, real_loads))
    def test_what_is_built(self, load):
        """Each network reflects nothing, by the evaluator alone, and what the line sees is 1."""
        work = blank(problem(load)).truth
        designs = [LESSON.network(work, one, LESSON.fields) for one in BOTH]

        assert max(abs(design.input_reflection()) for design in designs if design) < 1e-9
        assert pytest.approx([1, 1]) == [work.of("total", one) for one in BOTH]

    @for_all(load=loads)
    def test_the_resistances(self, load):
        """At the maximum r is the standing-wave ratio, at the minimum one over it, a quarter wave apart."""
        work = blank(problem(load)).truth
        ratio = float(swr((load - 50) / (load + 50)))

        assert pytest.approx([ratio, 1 / ratio]) == [work.of("resistance", one) for one in BOTH]
        apart = half_wave_difference(work.of("distance", MINIMUM), work.of("distance", MAXIMUM))
        assert pytest.approx(0.25) == abs(apart)


class TestRealLoad:
    @pytest.mark.parametrize(("load", "at"), [(100, MAXIMUM), (20, MINIMUM)])
    def test_it_stands_there_already(self, load, at):
        """A real load is itself the maximum or the minimum: there the distance is zero, at the other a quarter wave."""
        work = blank(problem(complex(load))).truth
        distances = {one: work.of("distance", one) for one in BOTH}

        assert 0 == distances.pop(at)
        assert [pytest.approx(0.25)] == list(distances.values())
        assert pytest.approx(sqrt(load * 50)) == work.of("section", at)

    def test_the_hint_says_so(self):
        """The hint with numbers says that the load stands on the axis; of a complex load it does not."""
        step = next(one for one in LESSON.steps if one.key == "distance")

        assert "The load is real" in step.numbers(blank(problem(100 + 0j)).truth)
        assert "The load is real" not in step.numbers(blank(problem(100 + 1j)).truth)

    def test_it_is_solved(self):
        """A sheet of it can be finished, and matches."""
        sheet = solved(problem(100 + 0j, frequency=868e6))

        assert (True, True) == (sheet.finished, sheet.matched)


class TestRefused:
    @pytest.mark.parametrize(
        ("load", "sentence"), [(50 + 0j, "matched already"), (20j, "no power"), (complex("inf"), "no power")]
    )
    def test_nothing_to_transform(self, load, sentence):
        """A load that is matched, or takes no power, is refused in a sentence that speaks of no stub."""
        said = LESSON.refuses(problem(load))

        assert sentence in said
        assert "stub" not in said


# --- mistakes, by plain arithmetic: 25 - j35 ohm on 50 ohm ---

Z = 0.5 - 0.7j
SIZE = abs((Z - 1) / (Z + 1))
RATIO = (1 + SIZE) / (1 - SIZE)
R = 50 * RATIO
NAMED = [
    ("ends.where", "unit circle", "unit circle"),
    ("ends.highest", "left", "ends exchanged"),
    ("resistance.maximum", 1 / RATIO, "branches mixed"),
    ("resistance.maximum", abs(Z), "size of impedance"),
    ("resistance.maximum", R, "in ohms"),
    ("distance.minimum", 0.5 - 0.1102, "wrong way"),
    ("distance.maximum", 0.3602 / 2, "half angle"),
    ("section.maximum", (R + 50) / 2, "arithmetic mean"),
    ("section.maximum", sqrt(RATIO), "root alone"),
    ("section.maximum", sqrt(RATIO * 50), "mixed units"),
    ("section.maximum", R * 50, "no root"),
    ("section.minimum", 50 / RATIO, "resistance itself"),
    ("section.maximum", 50 * sqrt(abs(Z)), "size of the load"),
    ("section.minimum", 50 * sqrt(0.5), "load's resistance"),
    ("own.maximum", RATIO, "line's normalisation"),
    ("own.maximum", 1 / sqrt(RATIO), "upside down"),
    ("own.minimum", 1 / RATIO / (50 / sqrt(RATIO)), "normalised twice"),
    ("turned.maximum", sqrt(RATIO), "not walked"),
    ("turned.minimum", RATIO, "on the line's chart"),
    ("turned.maximum", 1.0, "to the centre"),
    ("total.maximum", 1 / sqrt(RATIO), "section's chart"),
    ("total.maximum", 1 / RATIO, "ratio inverted"),
    ("total.minimum", 50.0, "in ohms"),
    ("total.maximum", RATIO, "section left out"),
    ("millimetres.section", 1e-3 * 299_792_458e3 / 868e6 / 4 * 0.66, "metres"),
    ("millimetres.section", 299_792_458e3 / 868e6 / 4, "velocity ignored"),
]


class TestSlips:
    @pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{k}, {s}" for k, _, s in NAMED])
    def test_is_named(self, key, value, slip):
        """Whoever makes the mistake is told which it is."""
        text = value if isinstance(value, str) else f"{value:.5g}"
        sheet = blank(problem(25 - 35j, frequency=868e6, velocity=0.66)).enter(key, text)

        assert ("slip", slip) == (sheet.verdicts[key].judgement, sheet.verdicts[key].slip)

    def test_the_other_end_or_the_section_counted_in(self):
        """A distance a quarter wave off has two reasons, and both are asked about."""
        sheet = blank(problem(25 - 35j)).enter("distance.minimum", "0.360")
        verdict = sheet.verdicts["distance.minimum"]

        assert {"branches mixed", "quarter wave counted in"} == set(verdict.suspected)
        assert "where it ends?" in verdict.sentence

    def test_upside_down_or_the_other_place(self):
        """Once r is right, an impedance on the other side of the line's is a division where the root multiplies."""
        sheet = blank(problem(25 - 35j)).enter("section.maximum", f"{50 / sqrt(RATIO):.2f}")
        known = sheet.enter("resistance.maximum", f"{RATIO:.2f}")

        assert {"divided by the root", "branches mixed"} == set(sheet.verdicts["section.maximum"].suspected)
        assert "divided by the root" == known.verdicts["section.maximum"].slip

    def test_a_wrong_impedance_shows_at_the_check(self):
        """The arithmetic mean carried on does not give 1 at the check, and the sheet ends without a match."""
        sheet = blank(problem(25 - 35j))
        for one in fields_of(sheet):
            slips = one.key == "section.maximum"
            text = f"{(R + 50) / 2:.2f}" if slips else sheet.work.write(one.key)
            sheet = sheet.enter(one.key, text)
            sheet = sheet.carry(one.key) if slips else sheet

        assert pytest.approx(((RATIO + 1) / 2) ** 2 / RATIO, rel=1e-2) == sheet.work["total.maximum"]
        wrong = sheet.went_wrong
        assert (True, False) == (sheet.finished, sheet.matched)
        assert "section" == (wrong.key if wrong else "")

    def test_ends_exchanged_and_gone_on_from(self):
        """Who takes the left end for the maximum, and goes on, is right with what follows at that end."""
        sheet = blank(problem(25 - 35j)).enter("ends.highest", "left").carry("ends.highest")
        sheet = sheet.enter("resistance.maximum", f"{1 / RATIO:.3f}").enter("distance.maximum", "0.110")

        assert [True, True] == [
            sheet.verdicts[key].follows for key in ("resistance.maximum", "distance.maximum")
        ]

    @pytest.mark.parametrize("ratio", ["0.3", "1"])
    def test_no_standing_wave(self, ratio):
        """From a ratio of 1 or less nothing follows: the sheet leads back to it."""
        sheet = blank(problem(25 - 35j)).enter("mismatch", ratio).carry("mismatch")
        verdict = sheet.enter("resistance.maximum", "2").verdicts["resistance.maximum"]

        assert ("impossible", "mismatch") == (verdict.judgement, verdict.back_to)


class TestWhatIsDrawn:
    def test_no_impedance_before_it_is_found(self):
        """The drawing has no section until its impedance is settled: nothing that is asked stands in it."""
        sheet = blank(problem(25 - 35j)).enter("resistance.maximum", f"{RATIO:.3f}")
        (before,) = plans(sheet)
        (after,) = plans(sheet.enter("section.maximum", f"{50 * sqrt(RATIO):.2f}"))

        assert [1, 2] == [len(one.network.elements) for one in (before, after)]

    def test_the_symbol_of_an_impedance_is_no_length(self):
        """The distance bears its symbol in the drawing; the section's length does not bear its impedance's."""
        assert ("d",) == element_symbols(LESSON, MAXIMUM, Notation())

    def test_nothing_is_read_as_an_admittance(self):
        """All is drawn as impedances, in either way of showing admittance."""
        for given in shipped_problems(LESSON):
            sheet = blank(given)
            strokes = [stroke for one in fields_of(sheet) for stroke in one.strokes(sheet.truth)]
            assert not any(isinstance(stroke, HalfTurn) for stroke in strokes)
            assert {"impedance"} == {stroke.read_as for stroke in strokes if not isinstance(stroke, HalfTurn)}

    def test_the_end_picked(self):
        """Where the voltage is highest can be picked on the chart."""
        sheet = blank(problem(25 - 35j)).draw("ends.highest", "right")

        assert "right" == sheet.verdicts["ends.highest"].judgement

    def test_the_quarter_wave_drawn(self):
        """The walk on the section's own chart can be drawn: half a turn answers it."""
        sheet = blank(problem(25 - 35j))
        own = sheet.truth["own.maximum"]
        sheet = sheet.draw("turned.maximum", complex((1 - own) / (1 + own)))

        assert "right" == sheet.verdicts["turned.maximum"].judgement


def test_steps():
    """The steps come in the order of the derivation, and millimetres are asked where there is a frequency."""
    agreed = ["normalise", "place", "mismatch", "ends", "resistance", "distance", "section", "own", "turned", "total",
              "choose", "millimetres"]  # fmt: skip

    assert agreed == [step.key for step in LESSON.steps]
    assert "millimetres" not in [step.key for step in LESSON.steps_of(problem(25 - 35j))]


def test_symbols_of_the_course():
    """Distance and section impedance bear the course's symbols wherever they are asked for."""
    found = texts(problem(25 - 35j), Notation({"d": "s", "ZT": "Z₁"}))

    assert "give s." in found["distance: ask"]
    assert "Z₁ = √(R · Z₀)" in found["section: rule"]
    assert "ZT" not in " ".join(found.values())
