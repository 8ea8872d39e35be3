"""Impedance and admittance as a lesson: its values by plain arithmetic, its mistakes, its texts."""

import pytest
from hypothesis import given as for_all
from hypothesis import strategies as st

from lessons.course.impedance_and_admittance import LESSON
from lessons.grammar.problem import Problem
from lessons.working.achieved import closing
from tests.lessons.solving import blank
from tests.lessons.solving import problem as any_problem

loads = st.builds(complex, st.floats(1, 500), st.floats(-500, 500)).filter(lambda z: abs(z - 50) > 1)


def problem(load: complex, line: float = 50.0, **others: object) -> Problem:
    """A problem of the lesson."""
    return any_problem(load, line, LESSON, **others)


class TestValues:
    @for_all(load=loads)
    def test_of_any_load(self, load):
        """y is one over z, Y one over Z, 1/z stands opposite z, and the resistor is |Z| squared over R."""
        work = blank(problem(load)).truth
        z = load / 50

        assert pytest.approx(1 / z) == work["admittance"]
        assert pytest.approx(1000 / load) == work["siemens"]
        assert pytest.approx((1 / z - 1) / (1 / z + 1)) == work["opposite"]
        assert pytest.approx(abs(load) ** 2 / load.real) == work["parallel.resistor"]

    @pytest.mark.parametrize(
        ("load", "part"), [(25 + 25j, "coil"), (25 - 25j, "capacitor"), (100 + 0j, "nothing")]
    )
    def test_the_other_part(self, load, part):
        """An inductive load has a coil beside its resistor, a capacitive one a capacitor, a real one nothing."""
        assert part == blank(problem(load)).truth["parallel.part"]

    @for_all(load=loads)
    def test_side_by_side(self, load):
        """Resistor and susceptance in parallel are the load again."""
        work = blank(problem(load)).truth

        assert pytest.approx(load) == 1 / (1 / work["parallel.resistor"] + 1j * work["siemens"].imag / 1000)


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
    """A load with nothing to find is refused in a sentence."""
    assert sentence in LESSON.refuses(problem(load))


# 25 - j35 ohm on 50 ohm
Z = 0.5 - 0.7j
Y = 1 / Z
NAMED = [
    ("opposite", "0.520 < -100.5 deg", "not moved"),
    ("opposite", "0.520 < 100.5 deg", "mirrored in the axis"),
    ("opposite", "0.520 < -79.5 deg", "mirrored across"),
    ("opposite", "0.520 < -10.5 deg", "right angle"),
    ("admittance", Z, "impedance kept"),
    ("admittance", Y.conjugate(), "sign of the susceptance lost"),
    ("siemens", Y * 50, "multiplied"),
    ("siemens", Y / 50, "power of ten"),
    ("siemens", Y, "normalised"),
    ("siemens", Z * 20, "impedance taken"),
    ("parallel.resistor", 25.0, "series resistance"),
    ("parallel.resistor", abs(25 - 35j), "size of admittance"),
    ("parallel.resistor", abs(25 - 35j) ** 2 / 35, "one over B"),
    ("parallel.resistor", 0.074, "milli forgotten"),
    ("parallel.resistor", 1 / Y.real, "normalised"),
    ("parallel.part", "coil", "sign of B"),
    ("parallel.part", "nothing", "left out"),
]


@pytest.mark.parametrize(("key", "value", "slip"), NAMED, ids=[f"{key}, {slip}" for key, _, slip in NAMED])
def test_slips_are_named(key, value, slip):
    """Whoever makes the mistake is told which it is."""
    text = value if isinstance(value, str) else f"{value:.5g}".strip("()")
    sheet = blank(problem(25 - 35j)).enter(key, text)

    assert ("slip", slip) == (sheet.verdicts[key].judgement, sheet.verdicts[key].slip)


def test_follow_through():
    """A wrong y carried on makes the siemens and the resistor that follow from it right for the student."""
    sheet = blank(problem(25 - 35j)).enter("admittance", "0.5-0.7j").carry("admittance")
    sheet = sheet.enter("siemens", "10 - 14j").enter("parallel.resistor", "100")

    assert [True, True] == [sheet.verdicts[key].follows for key in ("siemens", "parallel.resistor")]


def test_the_end_says_what_is_so():
    """The closing sentence is the solver's, also where a wrong value was carried on."""
    sheet = blank(problem(25 - 35j)).enter("siemens", "10 - 14j").carry("siemens")

    assert "74.00 Ω with a capacitor" in closing(sheet.work)


def test_steps():
    """The steps come in the order of the derivation."""
    agreed = ["normalise", "place", "opposite", "admittance", "siemens", "parallel"]

    assert agreed == [step.key for step in LESSON.steps]
