"""The numbers of the printed grids: each at its own curve, and none upside down."""

import numpy as np
import pytest

from app.parts.printed_chart import grid_numbers
from app.parts.printed_chart.grids import GAPS, GridArc, impedance_grid

RANK = {weight: rank for rank, weight in enumerate(GAPS)}


@pytest.fixture(scope="module")
def grid() -> tuple[GridArc, ...]:
    return impedance_grid()


class TestGridLabels:
    def test_resistance_stands_over_its_crossing(self):
        """A value of r stands just over the point (r - 1)/(r + 1) of the axis."""
        for label in grid_numbers.resistance_labels():
            value = float(label.text)

            assert label.at.real == pytest.approx((value - 1) / (value + 1), abs=1e-12)
            assert 0 < label.at.imag < 0.05

    def test_reactance_stands_at_the_end_of_its_arc(self):
        """A value of x stands inside the rim where its arc comes in, its sign that of its half."""
        for label in grid_numbers.reactance_labels():
            value = float(label.text.replace("−", "-"))

            assert label.at / label.radius == pytest.approx((1j * value - 1) / (1j * value + 1), abs=1e-12)
            assert (value > 0) == (label.at.imag > 0)

    def test_conductance_and_susceptance_are_a_half_turn_away(self):
        """Numbers of the admittance grid stand across the centre from the same numbers of the impedance grid."""
        for label in grid_numbers.conductance_labels():
            assert label.at.real == pytest.approx(
                (1 - float(label.text)) / (1 + float(label.text)), abs=1e-12
            )
        for label in grid_numbers.susceptance_labels():
            value = float(label.text.replace("−", "-"))

            assert label.at / label.radius == pytest.approx((1 - 1j * value) / (1 + 1j * value), abs=1e-12)

    @pytest.mark.parametrize("make", [grid_numbers.resistance_labels, grid_numbers.reactance_labels])
    def test_every_number_names_a_curve_that_is_drawn(self, make, grid: tuple[GridArc, ...]):
        """No number stands where no curve of its own or a coarser weight is."""
        kind = "resistance" if make is grid_numbers.resistance_labels else "reactance"
        drawn = {(one.value, one.weight) for one in grid if one.kind == kind}
        for label in make():
            value = float(label.text.replace("−", "-"))

            assert any((value, weight) in drawn for weight in GAPS if RANK[weight] <= RANK[label.weight])

    def test_nothing_is_upside_down(self):
        """Every number can be read without turning the chart: its baseline never runs from right to left."""
        numbers = (
            *grid_numbers.resistance_labels(), *grid_numbers.reactance_labels(),
            *grid_numbers.conductance_labels(), *grid_numbers.susceptance_labels(),
        )  # fmt: skip

        assert all(np.cos(label.rotation) > -1e-6 for label in numbers)
