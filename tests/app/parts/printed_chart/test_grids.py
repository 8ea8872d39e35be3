"""The printed grids as data: each curve where the formulas of the trade put it, and nothing crowded."""

from itertools import pairwise

import numpy as np
import pytest
from skrf.tlineFunctions import Gamma0_2_zl

from app.parts.printed_chart import grids
from app.parts.printed_chart.grids import GAPS, GridArc
from app.parts.printed_chart.marks import Weight

RANK = {weight: rank for rank, weight in enumerate(GAPS)}


def ends(one: GridArc) -> tuple[complex, complex]:
    """Normalised impedance at both ends of an arc, by plain algebra."""
    first, last = ((1 + point) / (1 - point) for point in (one.arc.first, one.arc.last))
    return first, last


@pytest.fixture(scope="module")
def grid() -> tuple[GridArc, ...]:
    return grids.impedance_grid()


class TestImpedanceGrid:
    def test_every_arc_keeps_its_value(self, grid: tuple[GridArc, ...]):
        """All along an arc the impedance that scikit-rf finds keeps the arc's resistance or reactance.

        Source: scikit-rf, tlineFunctions.Gamma0_2_zl."""
        for one in grid:
            points = one.arc.points(9)
            points = points[np.abs(1 - points) > 1e-9]  # at the open point there is no impedance
            impedance = Gamma0_2_zl(1.0, points)
            found = impedance.real if one.kind == "resistance" else impedance.imag

            assert found == pytest.approx(one.value, rel=1e-11, abs=1e-12)

    def test_values(self, grid: tuple[GridArc, ...]):
        """The grid spans values from 0.01 to 50, reactances of both signs alike."""
        resistances = {one.value for one in grid if one.kind == "resistance"}
        reactances = {one.value for one in grid if one.kind == "reactance"}

        assert (min(resistances), max(resistances)) == (0.01, 50.0)
        assert reactances == {sign * value for value in resistances for sign in (1, -1)}

    def test_every_arc_ends_on_a_coarser_curve_or_the_rim_or_the_axis(self, grid: tuple[GridArc, ...]):
        """Nothing stops in the open: where an arc ends, a curve of its own or a coarser weight passes."""
        for one in grid:
            if one.kind == "resistance" and one.value == 1:
                continue  # whole by intent
            for impedance in ends(one):
                along, _ = _parts(impedance, one.kind)
                if abs(along) > 1e-9:  # else it ends on the rim or the axis
                    assert any(_passes(other, impedance) for other in grid if _may_end_on(one, other))

    def test_unit_circle_is_whole(self, grid: tuple[GridArc, ...]):
        """The circle to match on, r = 1, is drawn whole and bold."""
        (unit,) = (one for one in grid if one.kind == "resistance" and one.value == 1)

        assert (unit.weight, unit.arc.sweep) == ("major", pytest.approx(2 * np.pi))

    @pytest.mark.parametrize("weight", GAPS)
    def test_divisions(self, grid: tuple[GridArc, ...], weight: Weight):
        """On the axis, up to each weight, divisions only grow with the value and neighbours keep the weight's gap."""
        values = sorted(
            {one.value for one in grid if one.kind == "resistance" and RANK[one.weight] <= RANK[weight]}
        )
        divisions = np.diff(values)
        crossings = [(value - 1) / (value + 1) for value in values]

        assert np.all(np.diff(divisions) > -1e-9)
        assert min(np.diff(crossings)) >= GAPS[weight] - 1e-12

    def test_no_two_weights_draw_the_same_piece(self, grid: tuple[GridArc, ...]):
        """The pieces of one curve follow one another without covering each other."""
        for key in {(one.kind, one.value) for one in grid}:
            pieces = [one.arc for one in grid if (one.kind, one.value) == key]
            spans = sorted((arc.start + min(arc.sweep, 0), arc.start + max(arc.sweep, 0)) for arc in pieces)

            assert all(end <= start + 1e-9 for (_, end), (start, _) in pairwise(spans))

    def test_limit_is_the_largest_that_keeps_the_gap(self):
        """A limit keeps the gap on the axis, and the next one up would not.

        Source: derivative of (z - 1)/(z + 1), any text on complex functions."""
        for weight, gap in GAPS.items():
            for step in grids.STEPS_OF[weight]:
                limit = grids.grid_limit(step, gap)
                higher = [value for value in grids.ROUND if value > max(limit, step)]

                assert limit == 0 or 2 * step / (1 + limit) ** 2 >= gap
                assert not higher or 2 * step / (1 + higher[0]) ** 2 < gap


class TestAdmittanceGrid:
    def test_half_turn(self, grid: tuple[GridArc, ...]):
        """Every point of the admittance grid stands across the centre from one of the impedance grid."""
        for one, turned in zip(grid, grids.admittance_grid(), strict=True):
            assert turned.arc.points(5) == pytest.approx(-one.arc.points(5), abs=1e-12)

    def test_reads_admittance(self):
        """Along an arc of the admittance grid the admittance (1 - reflection)/(1 + reflection) keeps its part."""
        for one in grids.admittance_grid():
            inner = one.arc.points(7)[1:-1]
            admittance = (1 - inner) / (1 + inner)
            found = admittance.real if one.kind == "resistance" else admittance.imag

            assert found == pytest.approx(one.value, rel=1e-9)


def _parts(impedance: complex, kind: str) -> tuple[float, float]:
    """The quantity that runs along a curve of this kind, and the one that it keeps."""
    return (impedance.imag, impedance.real) if kind == "resistance" else (impedance.real, impedance.imag)


def _may_end_on(one: GridArc, other: GridArc) -> bool:
    return other.kind != one.kind and RANK[other.weight] <= RANK[one.weight]


def _passes(other: GridArc, impedance: complex) -> bool:
    """Whether an arc goes through the place of an impedance, or ends there."""
    along, kept = _parts(impedance, other.kind)
    if other.kind == "resistance" and other.value == 1:
        return abs(kept - 1) < 1e-9  # drawn whole
    reach = [_parts(end, other.kind)[0] for end in ends(other)]
    return abs(kept - other.value) < 1e-9 and min(reach) - 1e-9 <= along <= max(reach) + 1e-9
