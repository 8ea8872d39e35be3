"""Where a stroke stands on the chart. The two ways to show admittance: common practice, no source."""

from cmath import rect

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import impedance_from_reflection, reflection_coefficient
from core.chart import MATCH_POINT, OPEN_POINT, SHORT_POINT
from lessons.grammar.strokes import Curve, HalfTurn, Point, Way, plotted_at, scale_reading
from lessons.problems.seeds import shipped_problems
from lessons.working.construction import stroke_groups
from tests.lessons.solving import HALF_TURN, OVERLAY, problem, solved

WAYS = ["half turn", "overlay"]
READ_AS = ["impedance", "admittance"]
points = st.builds(rect, st.floats(0, 1), st.floats(-3.14, 3.14))


class TestPlottedAt:
    @given(point=points)
    @pytest.mark.parametrize("admittance", WAYS)
    @pytest.mark.parametrize("read_as", READ_AS)
    def test_its_own_inverse(self, point, read_as, admittance):
        """What is plotted and what is meant are one rule, used twice."""
        assert point == plotted_at(plotted_at(point, read_as, admittance), read_as, admittance)

    def test_half_turn_reads_admittance_on_the_same_grid(self):
        """With the half turn y stands where the impedance grid says y: z = 2 is read as y = 0.5 across the centre."""
        across = plotted_at(reflection_coefficient(2, 1), "admittance", "half turn")

        assert pytest.approx(0.5) == impedance_from_reflection(across)

    @pytest.mark.parametrize("read_as", READ_AS)
    def test_overlay_moves_nothing(self, read_as):
        """With the overlay the point stays and the other grid is read."""
        assert 0.3 - 0.4j == plotted_at(0.3 - 0.4j, read_as, "overlay")

    def test_impedances_never_move(self):
        """The half turn is for admittances only."""
        assert 0.3 - 0.4j == plotted_at(0.3 - 0.4j, "impedance", "half turn")


class TestScaleReading:
    @pytest.mark.parametrize(
        ("point", "admittance", "reading"),
        [
            pytest.param(SHORT_POINT, "half turn", 0.25, id="short at the right with the half turn"),
            pytest.param(SHORT_POINT, "overlay", 0.0, id="short at the left with the overlay"),
            pytest.param(OPEN_POINT, "half turn", 0.0, id="open at the left with the half turn"),
            pytest.param(OPEN_POINT, "overlay", 0.25, id="open at the right with the overlay"),
        ],
    )
    def test_where_a_stub_starts(self, point, admittance, reading):
        """The scale starts at the left, and the ends of a stub stand where the course's chart has them."""
        assert reading == scale_reading(point, "admittance", admittance)


@pytest.mark.parametrize("notation", [HALF_TURN, OVERLAY], ids=WAYS)
@pytest.mark.parametrize("given_problem", shipped_problems(), ids=lambda p: p.key)
class TestStrokesOfASolvedSheet:
    def test_every_stroke_is_spoken(self, given_problem, notation):
        """Each stroke says in a sentence what it shows, so that nobody needs to see the chart."""
        spoken = [
            stroke.spoken for _, group in stroke_groups(solved(given_problem, notation)) for stroke in group
        ]

        assert [] == [
            text for text in spoken if not (text[:1].isupper() and text.endswith(".")) or "{" in text
        ]
        assert len(spoken) >= 15

    def test_every_stroke_stands_on_the_chart(self, given_problem, notation):
        """Points lie inside the rim or on it, walks end at a point of the sheet, and both solutions are drawn."""
        drawn = [stroke for _, group in stroke_groups(solved(given_problem, notation)) for stroke in group]
        standing = [stroke.reflection for stroke in drawn if isinstance(stroke, Point | HalfTurn)]
        ends = [stroke.arc.last for stroke in drawn if isinstance(stroke, Way)]

        assert max(abs(point) for point in standing) <= 1 + 1e-9
        assert max(min(abs(end - point) for point in standing) for end in ends) < 0.02
        assert {"load", "mismatch", "unit", "near", "far"} <= {stroke.role for stroke in drawn}


class TestStrokesOfAKnownLoad:
    def test_load_and_admittance(self):
        """For z = 0.6 - j1 the load stands at the core's reflection, and the total admittance at the match point."""
        drawn = dict(stroke_groups(solved(problem(30 - 50j), decimals=6)))
        load, total = (
            [stroke.reflection for stroke in drawn[step] if isinstance(stroke, Point)]
            for step in ("place", "total")
        )

        assert pytest.approx([reflection_coefficient(30 - 50j, 50)], abs=1e-5) == load
        assert pytest.approx([MATCH_POINT, MATCH_POINT], abs=1e-5) == total

    def test_mismatch_circle(self):
        """The constant-mismatch circle goes through the load and has the match point in its middle."""
        drawn = dict(stroke_groups(solved(problem(30 - 50j), decimals=6)))
        circle = next(stroke.circle for stroke in drawn["mismatch"] if isinstance(stroke, Curve))

        assert (MATCH_POINT, pytest.approx(abs(reflection_coefficient(30 - 50j, 50)), abs=1e-5)) == (
            circle.center,
            circle.radius,
        )
