"""A working that builds one of several solutions: which one is found out where no line says it."""

from dataclasses import replace

import pytest

from lessons import check_lines
from lessons.course.two_reactances import LESSON
from lessons.homework.working import Working
from tests.lessons.solving import problem

FOUR = {"load": "25-35j", "line": "50", "frequency": "434 MHz"}
COILS = "L1 = 3.667 nH\nL2 = 18.34 nH\nL1 = 3.9 nH\nL2 = 18 nH\nSWR = 1.03"
"""Of the series-low solution: calculated, as bought, and what they leave."""


def working(text: str) -> Working:
    """A working of the four solutions."""
    return Working(LESSON, problem(25 - 35j, 50.0, LESSON, frequency=434e6)).written(text)


def judged(text: str) -> list[tuple[str, str]]:
    """Each value's field and what is said of it."""
    found = check_lines("two-reactances", FOUR, text)
    return [(one.field, one.verdict.judgement if one.verdict else one.reason) for one in found]


PARTS = ["value.near", "value.far", "preferred.near", "preferred.far", "cost"]


class TestOneSolution:
    @pytest.mark.parametrize(
        "said",
        ["", "series-low x nearer the load = 0.2\nseries-low b of the part across the line = -1\n"],
        ids=["nothing", "its reactances"],
    )
    def test_is_found(self, said):
        """Henries that fit another solution than the solver would build are right, and so is all that follows."""
        assert [(key, "right") for key in PARTS] == judged(said + COILS)[-5:]
        assert any("as of the series-low solution" in one for one in working(said + COILS).remarks)

    def test_is_said(self):
        """Where a line says which is built nothing is guessed: parts of another solution are no parts of it."""
        found = judged("I would build: series-high\n" + COILS)

        assert ("choose.which", "right") == found[0]
        assert "right" != dict(found)["value.near"]
        assert () == working("I would build: series-high\n" + COILS).remarks

    def test_is_built(self):
        """Values alone make the design of their solution, which matches; those of another do not make it."""
        (key,) = working(COILS).designs
        design = working(COILS).designs[key]

        assert "series_low" == (design.branch.key if design.branch else "")
        assert abs(complex(design.network.input_reflection())) < 1e-3

    @pytest.mark.parametrize("wrong", ["L1 = 3.667 nH", "L2 = 18.34 nH", "L1 = 3.9 nH", "L2 = 18 nH"])
    def test_one_wrong_value(self, wrong):
        """One wrong value leaves the others right: it is taken for what nothing else stands for."""
        found = judged(COILS.replace(f"{wrong}\n", wrong.split(" = ")[0] + " = 61 nH\n"))

        assert set(PARTS) == {key for key, _ in found}
        assert 3 <= sum(judgement == "right" for _, judgement in found)
        assert 1 <= sum(judgement != "right" for _, judgement in found)

    def test_a_wrong_value_is_named(self):
        """A slip in a value of that solution is named as it would be on a sheet."""
        verdicts = [
            one.verdict for one in working("near part = 3.667 nH\nfar part = 115.2 nH\nL1 = 3.9 nH").lines
        ]

        assert "two pi forgotten" in [one.slip for one in verdicts]


class TestSeveralSolutions:
    TEXT = (
        "Series-low:\nL1 = 3.667 nH\nL2 = 18.34 nH\n"
        "Series-high:\nL = 22 nH\nC = 7.334 pF\nC bought = 6.8 pF\n"
        "Shunt-high:\nL1 = 38.37 nH\nL2 = 12.7 nH"
    )

    def test_each_is_judged_by_itself(self):
        """Parts under the names of several solutions are each right for their own."""
        found = judged(self.TEXT)

        assert {"right"} == {judgement for _, judgement in found}
        assert ["value.near.series_low", "value.far.series_low", "value.near.series_high"] == [
            key for key, _ in found[:3]
        ]

    def test_each_is_built(self):
        """Each of them is drawn and judged as a design."""
        assert {"series_low", "series_high", "shunt_high"} == {
            one.branch.key for one in working(self.TEXT).designs.values() if one.branch
        }

    def test_labels_say_which(self):
        """Each line is labelled with the solution that it is of."""
        labels = [line.label for line in working(self.TEXT).lines]

        assert "Series-high: Farther one, as bought" in labels

    def test_a_value_of_another_one(self):
        """A part of one solution under the name of another is wrong there."""
        wrong = judged(self.TEXT.replace("L = 22 nH", "L = 3.667 nH"))

        assert ("value.near.series_high", "right") not in wrong
        assert ("value.near.series_low", "right") in wrong


def test_names_of_then():
    """Lines in the names that the values had when they were asked of every solution are read as they were."""
    text = (
        "series-high series part near = 22 nH\nseries-high shunt part far = 7.334 pF\n"
        "shunt-high shunt part near = 38.37 nH"
    )

    assert ["right"] * 3 == [judgement for _, judgement in judged(text)]


def test_without_a_solution_to_choose():
    """Where the problem names its solution its parts are read as they stand."""
    given = replace(problem(25 - 35j, 50.0, LESSON, frequency=434e6), solution="series_low")

    assert {"right"} == {one.verdict.judgement for one in Working(LESSON, given).written(COILS).lines}
