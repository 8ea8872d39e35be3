"""The printed chart as data: each curve and mark where the formulas of the trade put it, and nothing crowded."""

from itertools import pairwise

import numpy as np
import pytest
from skrf.tlineFunctions import Gamma0_2_zl, reflection_coefficient_at_theta

from core import paper, scales
from core.paper import GAPS, GridArc
from core.scales import COMPACT, REGULAR, Layout, Weight

RANK = {weight: rank for rank, weight in enumerate(GAPS)}


def ends(one: GridArc) -> tuple[complex, complex]:
    """Normalised impedance at both ends of an arc, by plain algebra."""
    first, last = ((1 + point) / (1 - point) for point in (one.arc.first, one.arc.last))
    return first, last


def turned_short(length: float) -> complex:
    """Reflection of a short seen through so many wavelengths of line, by scikit-rf."""
    return complex(reflection_coefficient_at_theta(-1.0, 2j * np.pi * length).item())


@pytest.fixture(scope="module")
def grid() -> tuple[GridArc, ...]:
    return paper.impedance_grid()


@pytest.fixture(params=[REGULAR, COMPACT], ids=["regular", "compact"])
def layout(request: pytest.FixtureRequest) -> Layout:
    return request.param


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
            for step in paper.STEPS_OF[weight]:
                limit = paper.grid_limit(step, gap)
                higher = [value for value in paper.ROUND if value > max(limit, step)]

                assert limit == 0 or 2 * step / (1 + limit) ** 2 >= gap
                assert not higher or 2 * step / (1 + higher[0]) ** 2 < gap


class TestAdmittanceGrid:
    def test_half_turn(self, grid: tuple[GridArc, ...]):
        """Every point of the admittance grid stands across the centre from one of the impedance grid."""
        for one, turned in zip(grid, paper.admittance_grid(), strict=True):
            assert turned.arc.points(5) == pytest.approx(-one.arc.points(5), abs=1e-12)

    def test_reads_admittance(self):
        """Along an arc of the admittance grid the admittance (1 - reflection)/(1 + reflection) keeps its part."""
        for one in paper.admittance_grid():
            inner = one.arc.points(7)[1:-1]
            admittance = (1 - inner) / (1 + inner)
            found = admittance.real if one.kind == "resistance" else admittance.imag

            assert found == pytest.approx(one.value, rel=1e-9)


class TestWavelengthScales:
    @pytest.mark.parametrize("at", [0.0, 0.004, 0.063, 0.125, 0.25, 0.322, 0.499])
    def test_tick_stands_where_a_line_of_that_length_turns_a_short_to(self, layout: Layout, at: float):
        """A tick of the scale toward the generator stands where scikit-rf turns a short's reflection to.

        Source: scikit-rf, tlineFunctions.reflection_coefficient_at_theta."""
        turned = turned_short(at)
        marks = [np.exp(1j * tick.angle) for tick in scales.wavelength_ticks(layout)]

        assert min(abs(mark - turned) for mark in marks) <= 1e-12

    def test_readings_toward_the_generator(self, layout: Layout):
        """Each number toward the generator stands where a line of that length turns a short's reflection to.

        Source: scikit-rf, tlineFunctions.reflection_coefficient_at_theta."""
        for label in scales.generator_labels(layout):
            turned = turned_short(float(label.text))

            assert label.at / label.radius == pytest.approx(turned, abs=1e-12)

    def test_readings_toward_the_load_mirror_them(self, layout: Layout):
        """A reading toward the load and its complement to half a wavelength toward the generator share a place."""
        toward = {round(float(label.text), 3): label.angle for label in scales.generator_labels(layout)}
        for label in scales.load_labels(layout):
            other = toward[round((0.5 - float(label.text)) % 0.5, 3)]

            assert np.exp(1j * label.angle) == pytest.approx(np.exp(1j * other), abs=1e-12)

    def test_open_and_short(self, layout: Layout):
        """Both scales read 0 at the left, the short point, and 0.25 at the right, the open point. Common practice."""
        for labels in (scales.generator_labels(layout), scales.load_labels(layout)):
            places = {label.text: label.at / label.radius for label in labels}

            assert (places["0"], places["0.25"]) == (pytest.approx(-1), pytest.approx(1))

    def test_ticks_stand_on_the_rim(self, layout: Layout):
        """All ticks of the wavelengths start on the rim; the coarser, the longer."""
        ticks = scales.wavelength_ticks(layout)
        lengths = {tick.weight: tick.outer - tick.inner for tick in ticks}

        assert {tick.inner for tick in ticks} == {1.0}
        assert lengths["major"] > lengths["medium"] > lengths["fine"]

    def test_divisions(self, layout: Layout):
        """Half a wavelength holds 50 coarse, 200 medium and 250 fine ticks: every 0.01, 0.002 and 0.001."""
        weights = [tick.weight for tick in scales.wavelength_ticks(layout)]

        assert [weights.count(weight) for weight in GAPS] == [50, 200, 250]


class TestAngleScale:
    def test_readings(self, layout: Layout):
        """Each number stands at its own angle, counter-clockwise from the right."""
        for label in scales.angle_labels(layout):
            degrees = float(label.text.rstrip("°").replace("−", "-"))

            assert np.exp(1j * label.angle) == pytest.approx(np.exp(1j * np.radians(degrees)), abs=1e-12)

    def test_ticks(self, layout: Layout):
        """There is a tick at every whole degree, and a long one at every tenth."""
        degrees = sorted(np.degrees(tick.angle) % 360 for tick in scales.angle_ticks(layout))
        long = sorted(
            np.degrees(tick.angle) % 360 for tick in scales.angle_ticks(layout) if tick.weight == "major"
        )

        assert degrees == pytest.approx(np.arange(360), abs=1e-9)
        assert long == pytest.approx(np.arange(0, 360, 10), abs=1e-9)


class TestGridLabels:
    def test_resistance_stands_over_its_crossing(self):
        """A value of r stands just over the point (r - 1)/(r + 1) of the axis."""
        for label in paper.resistance_labels():
            value = float(label.text)

            assert label.at.real == pytest.approx((value - 1) / (value + 1), abs=1e-12)
            assert 0 < label.at.imag < 0.05

    def test_reactance_stands_at_the_end_of_its_arc(self):
        """A value of x stands inside the rim where its arc comes in, its sign that of its half."""
        for label in paper.reactance_labels():
            value = float(label.text.replace("−", "-"))

            assert label.at / label.radius == pytest.approx((1j * value - 1) / (1j * value + 1), abs=1e-12)
            assert (value > 0) == (label.at.imag > 0)

    def test_conductance_and_susceptance_are_a_half_turn_away(self):
        """Numbers of the admittance grid stand across the centre from the same numbers of the impedance grid."""
        for label in paper.conductance_labels():
            assert label.at.real == pytest.approx(
                (1 - float(label.text)) / (1 + float(label.text)), abs=1e-12
            )
        for label in paper.susceptance_labels():
            value = float(label.text.replace("−", "-"))

            assert label.at / label.radius == pytest.approx((1 - 1j * value) / (1 + 1j * value), abs=1e-12)

    @pytest.mark.parametrize("make", [paper.resistance_labels, paper.reactance_labels])
    def test_every_number_names_a_curve_that_is_drawn(self, make, grid: tuple[GridArc, ...]):
        """No number stands where no curve of its own or a coarser weight is."""
        kind = "resistance" if make is paper.resistance_labels else "reactance"
        drawn = {(one.value, one.weight) for one in grid if one.kind == kind}
        for label in make():
            value = float(label.text.replace("−", "-"))

            assert any((value, weight) in drawn for weight in GAPS if RANK[weight] <= RANK[label.weight])

    def test_nothing_is_upside_down(self):
        """Every number can be read without turning the chart: its baseline never runs from right to left."""
        labels = (
            *paper.resistance_labels(), *paper.reactance_labels(), *scales.generator_labels(REGULAR),
            *scales.load_labels(REGULAR), *scales.angle_labels(REGULAR),
        )  # fmt: skip

        assert all(np.cos(label.rotation) > -1e-6 for label in labels)


class TestLayout:
    def test_rows_do_not_touch(self, layout: Layout):
        """From the rim outward the rows follow one another with at least a text height between their middles."""
        rows = [1 + layout.tick / 2, layout.generator, layout.names, layout.load, layout.angle]

        assert min(np.diff(rows)) >= 0.8 * layout.text
        assert layout.angle + layout.text / 2 < layout.extent


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
