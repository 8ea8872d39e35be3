"""The radial scales and the scales round the rim on paper: where the formulas of the trade put each mark."""

from itertools import pairwise

import numpy as np
import pytest
from skrf.mathFunctions import mag_2_db
from skrf.tlineFunctions import reflection_coefficient_at_theta, zl_2_swr

from core import line
from core.paper_print import (
    PRINT,
    angle_labels,
    angle_ticks,
    generator_labels,
    generator_ticks,
    load_labels,
    load_ticks,
)
from core.radial_scales import (
    LABEL_GAP,
    RadialScale,
    radial_scales,
    reflection_of_return_loss,
    reflection_of_swr,
)

SIZE, SWR, LOSS = radial_scales()


def by_text(scale: RadialScale) -> dict[str, float]:
    """Position of each numbered mark."""
    return {mark.text: mark.position for mark in scale.marks if mark.text}


class TestInverses:
    @pytest.mark.parametrize(("ratio", "size", "half_digit"), [
        pytest.param(3.87, 0.59, 0.005, id="Pozar, Microwave Engineering, 4th ed., Example 2.2"),
        pytest.param(4.26, 0.62, 0.005, id="Ulaby, Fundamentals of Applied Electromagnetics: 25+j50 on 50 ohm"),
        pytest.param(1.0, 0.0, 1e-15, id="by definition: matched"),
        pytest.param(np.inf, 1.0, 1e-15, id="by definition: all returned"),
    ])  # fmt: skip
    def test_standing_wave_ratio_of_print(self, ratio: float, size: float, half_digit: float):
        """The size of the reflection of a printed standing-wave ratio is the printed one, to its last digit."""
        assert pytest.approx(size, abs=half_digit) == reflection_of_swr(ratio)

    def test_return_loss_of_print(self):
        """A return loss of 4.6 dB is a reflection of 0.59: Pozar, Microwave Engineering, 4th ed., Example 2.2."""
        assert pytest.approx(0.59, abs=0.005) == reflection_of_return_loss(4.6)

    def test_they_undo_the_line(self):
        """The ratio and the loss of the size found are those asked for, over all that is printed."""
        ratios, losses = np.geomspace(1, 1e4, 97), np.linspace(0, 80, 97)

        assert line.swr(reflection_of_swr(ratios)) == pytest.approx(ratios, rel=1e-11)
        assert line.return_loss_db(reflection_of_return_loss(losses)) == pytest.approx(losses, abs=1e-12)


class TestMarks:
    def test_standing_wave_ratio(self):
        """scikit-rf finds the ratio of every mark at the impedance where the chart's axis shows it."""
        for mark in SWR.marks[:-1]:
            axis = (1 + mark.position) / (1 - mark.position)

            assert zl_2_swr(1.0, axis) == pytest.approx(mark.value, rel=1e-12)

    def test_return_loss(self):
        """scikit-rf's decibels of the size of every mark are minus its return loss."""
        for mark in LOSS.marks[1:]:
            assert -mag_2_db(mark.position) == pytest.approx(mark.value, abs=1e-12)

    def test_size(self):
        """The size of the reflection is even: a hundred divisions, a number at every tenth."""
        assert [mark.position for mark in SIZE.marks] == pytest.approx(np.linspace(0, 1, 101), abs=1e-15)
        assert [f"{tenth / 10:g}" for tenth in range(11)] == list(by_text(SIZE))

    def test_ends(self):
        """From the centre to the rim: matched, nothing returned, to all returned."""
        ends = [(scale.marks[0].value, scale.marks[-1].value) for scale in (SIZE, SWR, LOSS)]

        assert [(0, 1), (1, np.inf), (np.inf, 0)] == ends
        assert {(0.0, 1.0)} == {
            (scale.marks[0].position, scale.marks[-1].position) for scale in (SIZE, SWR, LOSS)
        }

    @pytest.mark.parametrize("scale", radial_scales(), ids=lambda scale: scale.key)
    def test_numbers_have_room(self, scale: RadialScale):
        """Numbers stand apart, marks at least 0.6 mm apart on a radius of 75, and a number is its value."""
        assert LABEL_GAP <= min(b - a for a, b in pairwise(sorted(by_text(scale).values()))) + 1e-12
        assert 0.0079 < min(b.position - a.position for a, b in pairwise(scale.marks))
        assert all(float(mark.text) == mark.value for mark in scale.marks if mark.text not in ("", "∞"))

    @pytest.mark.parametrize("scale", radial_scales(), ids=lambda scale: scale.key)
    def test_divisions_can_be_counted(self, scale: RadialScale):
        """Between two numbers the divisions are even, so that counting them gives the value of each."""
        numbered = sorted(mark.value for mark in scale.marks if mark.text)

        for first, last in pairwise(numbered):
            values = sorted(mark.value for mark in scale.marks if first <= mark.value <= last)
            if np.isinf(last):
                assert [first, last] == values
            else:
                assert pytest.approx(np.linspace(first, last, len(values)), abs=1e-12) == values
        assert len(scale.marks) > 4 * len(numbered)

    @pytest.mark.parametrize(("scale", "wanted"), [(SWR, "1 1.2 1.5 2 3 5 10 ∞"), (LOSS, "∞ 20 10 6 3 1 0")])
    def test_the_usual_values_are_numbered(self, scale: RadialScale, wanted: str):
        """The ratios and losses that are spoken of most bear their number (common practice, no source)."""
        assert set(wanted.split()) <= set(by_text(scale))


class TestRimOnPaper:
    def test_wavelengths_toward_the_generator(self):
        """The ticks are every 0.002 wavelength, where scikit-rf turns a short circuit to; each begins on the rim."""
        ticks = generator_ticks()
        lengths = np.arange(250) * 0.002
        expected = np.array([reflection_coefficient_at_theta(-1.0, 2j * np.pi * d).item() for d in lengths])

        assert np.exp(1j * np.array([tick.angle for tick in ticks])) == pytest.approx(expected, abs=1e-12)
        assert {1.0} == {tick.inner for tick in ticks}

    def test_every_fifth_tick_is_long(self):
        """Every hundredth of a wavelength has the long tick and a number, toward the generator and toward the load."""
        long = [index for index, tick in enumerate(generator_ticks()) if tick.weight == "major"]

        assert list(range(0, 250, 5)) == long
        for labels, sense in ((generator_labels(), -1), (load_labels(), 1)):
            positions = np.array([float(label.text) for label in labels])
            expected = -np.exp(sense * 4j * np.pi * positions)

            assert len(labels) == 50
            assert np.exp(1j * np.array([label.angle for label in labels])) == pytest.approx(
                expected, abs=1e-12
            )

    def test_outer_circle_bears_two_scales(self):
        """Ticks toward the load end inside the outer circle, those of the angle outside of it, one a degree."""
        edge = PRINT.angle_circle

        assert all(tick.inner == edge and tick.outer < edge for tick in load_ticks())
        assert all(tick.inner == edge and tick.outer > edge for tick in angle_ticks())
        assert len(angle_ticks()) == 360
        assert [f"{degree}°" for degree in (*range(-170, 0, 10), *range(0, 181, 10))] == [
            label.text.replace("−", "-") for label in angle_labels()
        ]

    def test_nothing_overlaps_from_the_rim_outward(self):
        """Ticks, numbers, the lane, numbers, the circle, numbers: each begins where the one before has ended."""
        half = PRINT.text / 2
        edges = (1 + PRINT.tick, PRINT.generator - half, PRINT.generator + half, PRINT.names - PRINT.lane / 2,
                 PRINT.names + PRINT.lane / 2, PRINT.load - half, PRINT.load + half, PRINT.angle_circle - PRINT.tick,
                 PRINT.angle_circle + PRINT.tick, PRINT.angle - half, PRINT.angle + half, PRINT.extent)  # fmt: skip

        assert list(edges) == sorted(edges)
