"""The lesson of two reactances against print and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import pytest

from core import l_network
from core.lumped import LNetwork
from lessons import open_sheet
from lessons.course.two_bought import built
from lessons.course.two_reactances import LESSON
from lessons.grammar.lesson import Work
from tests.reference.library_cascade import DESIGN_FREQUENCY, RATIOS, cascaded_reflection

POZAR = {"load": "200-100j", "line": "100", "frequency": "500 MHz"}


@pytest.mark.parametrize(
    ("solution", "field", "printed"),
    [
        pytest.param("shunt_high", "shunt_near.shunt_high", "0.29", id="Pozar, 4th ed., Ex 5.1: b of the first"),
        pytest.param("shunt_high", "shunt_far.shunt_high", "1.22", id="Pozar, 4th ed., Ex 5.1: x of the first"),
        pytest.param("shunt_low", "shunt_near.shunt_low", "-0.69", id="Pozar, 4th ed., Ex 5.1: b of the second"),
        pytest.param("shunt_low", "shunt_far.shunt_low", "-1.22", id="Pozar, 4th ed., Ex 5.1: x of the second"),
        pytest.param("shunt_high", "value.near", "0.92 pF", id="Pozar, 4th ed., Ex 5.1: its capacitor"),
        pytest.param("shunt_high", "value.far", "38.8 nH", id="Pozar, 4th ed., Ex 5.1: its coil"),
        pytest.param("shunt_low", "value.near", "46.1 nH", id="Pozar, 4th ed., Ex 5.1: the other coil"),
        pytest.param("shunt_low", "value.far", "2.61 pF", id="Pozar, 4th ed., Ex 5.1: the other capacitor"),
    ],
)  # fmt: skip
def test_what_is_printed_is_marked_right(solution, field, printed):
    """Whoever writes the book's value, read from its chart, is right. All from memory."""
    sheet = open_sheet("two-reactances", POZAR).enter("choose.which", solution)

    assert "right" == sheet.enter(field, printed).verdicts[field].judgement


@pytest.mark.parametrize(
    ("series", "solution", "near", "far"),
    [
        pytest.param(
            "e12", "shunt_high", "1 pF", "39 nH", id="IEC 60063, E12: 0.92 pF is nearer 1.0 than 0.82"
        ),
        pytest.param(
            "e24", "shunt_high", "0.91 pF", "39 nH", id="IEC 60063, E24: 0.92 pF is nearer 0.91 than 1.0"
        ),
        pytest.param(
            "e12", "shunt_low", "47 nH", "2.7 pF", id="IEC 60063, E12: 46.1 and 2.61 are near 47 and 27"
        ),
        pytest.param(
            "e24", "shunt_low", "47 nH", "2.7 pF", id="IEC 60063, E24: and nothing nearer is between"
        ),
    ],
)
class TestWhatIsBought:
    """Of the book's two networks, by the table of IEC 60063:2015 (from memory)."""

    def test_nearest(self, series, solution, near, far):
        """The value of the standard's table that is nearest is right, and those beside it are not."""
        sheet = open_sheet("two-reactances", {**POZAR, "e_series": series}).enter("choose.which", solution)
        for key, text in (("preferred.near", near), ("preferred.far", far)):
            assert "right" == sheet.enter(key, text).verdicts[key].judgement
            for wrong in ("0.75 pF", "43 nH", "51 nH", "2.4 pF", "36 nH"):
                assert "right" != sheet.enter(key, wrong).verdicts[key].judgement

    def test_cost_agrees_with_scikit_rf(self, series, solution, near, far):
        """The standing-wave ratio of the parts as bought is that of the same cascade in scikit-rf.

        Source: scikit-rf, general-purpose library."""
        sheet = open_sheet("two-reactances", {**POZAR, "e_series": series}).enter("choose.which", solution)
        sheet = sheet.enter("preferred.near", near).enter("preferred.far", far)
        bought = built(sheet.work, *(float(sheet.work[f"preferred.{one}"]) for one in ("near", "far")))
        size = abs(complex(cascaded_reflection(bought, [500e6 / DESIGN_FREQUENCY])[0]))

        assert sheet.work["cost"] == pytest.approx((1 + size) / (1 - size), rel=1e-9)


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
