"""The lesson of two reactances against print and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import pytest

from core import l_network
from core.lumped import LNetwork
from lessons import open_sheet
from lessons.course.two_reactances import LESSON
from lessons.grammar.lesson import Work
from tests.reference.library_cascade import RATIOS, cascaded_reflection

POZAR = {"load": "200-100j", "line": "100", "frequency": "500 MHz"}


@pytest.mark.parametrize(
    ("field", "printed"),
    [
        pytest.param("shunt_near.shunt_high", "0.29", id="Pozar, 4th ed., Ex 5.1: b of the first solution"),
        pytest.param("shunt_far.shunt_high", "1.22", id="Pozar, 4th ed., Ex 5.1: x of the first solution"),
        pytest.param("shunt_near.shunt_low", "-0.69", id="Pozar, 4th ed., Ex 5.1: b of the second solution"),
        pytest.param("shunt_far.shunt_low", "-1.22", id="Pozar, 4th ed., Ex 5.1: x of the second solution"),
        pytest.param("shunt_near_value.shunt_high", "0.92 pF", id="Pozar, 4th ed., Ex 5.1: its capacitor"),
        pytest.param("shunt_far_value.shunt_high", "38.8 nH", id="Pozar, 4th ed., Ex 5.1: its coil"),
        pytest.param("shunt_near_value.shunt_low", "46.1 nH", id="Pozar, 4th ed., Ex 5.1: the other coil"),
        pytest.param("shunt_far_value.shunt_low", "2.61 pF", id="Pozar, 4th ed., Ex 5.1: the other capacitor"),
    ],
)  # fmt: skip
def test_what_is_printed_is_marked_right(field, printed):
    """Whoever writes the book's value, read from its chart, is right. All from memory."""
    assert "right" == open_sheet("two-reactances", POZAR).enter(field, printed).verdicts[field].judgement


@pytest.mark.parametrize("load", [200 - 100j, 25 - 35j, 20 + 10j, 15 + 40j, 60 + 120j, 140 - 70j])
class TestEverySolution:
    def networks(self, load: complex) -> list[LNetwork]:
        """What the lesson builds."""
        problem = LESSON.problem({"load": load, "line": 50.0, "frequency": 434e6})
        work = Work(LESSON, problem)
        found = [LESSON.network(work, one, LESSON.fields) for one in LESSON.branches_of(problem)]
        return [one for one in found if one]  # type: ignore[misc]

    def test_they_are_the_designers(self, load):
        """The lesson finds each of the designer's networks, in the designer's order."""
        expected = [[part.reactance for part in one.elements] for one in l_network(load, 50, 434e6)]
        found = [[part.reactance for part in one.elements] for one in self.networks(load)]

        assert len(expected) in (2, 4)
        assert len(expected) == len(found)
        for parts, own in zip(expected, found, strict=True):
            assert parts == pytest.approx(own, rel=1e-9)

    def test_agrees_with_scikit_rf(self, load):
        """Over two octaves each reflects as the same cascade in scikit-rf, and not at all in between.

        Source: scikit-rf, general-purpose library."""
        for network in self.networks(load):
            assert cascaded_reflection(network, RATIOS) == pytest.approx(
                network.input_reflection(RATIOS), abs=1e-9
            )
            assert abs(cascaded_reflection(network, [1.0])[0]) < 1e-9
