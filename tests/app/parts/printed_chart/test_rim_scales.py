"""The scales around the rim: marks and numbers where a line of that length turns a short to, none on another."""

from itertools import chain

import numpy as np
import pytest
from skrf.tlineFunctions import reflection_coefficient_at_theta

from app.parts.printed_chart import rim_scales
from app.parts.printed_chart.grids import GAPS
from app.parts.printed_chart.layouts import COMPACT, PRINT, REGULAR, Layout


def turned_short(length: float) -> complex:
    """Reflection of a short seen through so many wavelengths of line, by scikit-rf."""
    return complex(reflection_coefficient_at_theta(-1.0, 2j * np.pi * length).item())


@pytest.fixture(params=[REGULAR, COMPACT, PRINT], ids=["regular", "compact", "paper"])
def layout(request: pytest.FixtureRequest) -> Layout:
    return request.param


class TestWavelengthScales:
    @pytest.mark.parametrize("at", [0.0, 0.004, 0.063, 0.125, 0.25, 0.322, 0.499])
    def test_tick_stands_where_a_line_of_that_length_turns_a_short_to(self, layout: Layout, at: float):
        """A tick of the scale toward the generator stands where scikit-rf turns a short's reflection to.

        Source: scikit-rf, tlineFunctions.reflection_coefficient_at_theta."""
        turned = turned_short(at)
        marks = [np.exp(1j * tick.angle) for tick in rim_scales.ticks(layout, "wavelengths")]

        assert min(abs(mark - turned) for mark in marks) <= 1e-12

    def test_readings_toward_the_generator(self, layout: Layout):
        """Each number toward the generator stands where a line of that length turns a short's reflection to.

        Source: scikit-rf, tlineFunctions.reflection_coefficient_at_theta."""
        for label in rim_scales.labels(layout, "wavelengths", "generator"):
            turned = turned_short(float(label.text))

            assert label.at / label.radius == pytest.approx(turned, abs=1e-12)

    def test_readings_toward_the_load_mirror_them(self, layout: Layout):
        """A reading toward the load and its complement to half a wavelength toward the generator share a place."""
        readings = rim_scales.labels(layout, "wavelengths", "generator")
        toward = {round(float(label.text), 3): label.angle for label in readings}
        for label in rim_scales.labels(layout, "wavelengths", "load"):
            other = toward[round((0.5 - float(label.text)) % 0.5, 3)]

            assert np.exp(1j * label.angle) == pytest.approx(np.exp(1j * other), abs=1e-12)

    def test_open_and_short(self, layout: Layout):
        """Both scales read 0 at the left, the short point, and 0.25 at the right, the open point. Common practice."""
        for toward in rim_scales.TOWARD:
            labels = rim_scales.labels(layout, "wavelengths", toward)
            places = {label.text: label.at / label.radius for label in labels}

            assert (places["0"], places["0.25"]) == (pytest.approx(-1), pytest.approx(1))

    def test_ticks_stand_on_the_rim(self, layout: Layout):
        """All ticks of the wavelengths start on the rim; the coarser, the longer."""
        ticks = rim_scales.ticks(layout, "wavelengths")
        lengths = {tick.weight: tick.outer - tick.inner for tick in ticks}

        assert {tick.inner for tick in ticks} == {1.0}
        assert lengths["major"] > lengths["medium"] > lengths["fine"]

    def test_divisions(self, layout: Layout):
        """Half a wavelength holds 50 coarse, 200 medium and 250 fine ticks: every 0.01, 0.002 and 0.001."""
        weights = [tick.weight for tick in rim_scales.ticks(layout, "wavelengths")]

        assert [weights.count(weight) for weight in GAPS] == [50, 200, 250]


class TestAngleScale:
    def test_readings(self, layout: Layout):
        """Each number stands at its own angle, counter-clockwise from the right."""
        for label in rim_scales.angle_labels(layout):
            degrees = float(label.text.rstrip("°").replace("−", "-"))

            assert np.exp(1j * label.angle) == pytest.approx(np.exp(1j * np.radians(degrees)), abs=1e-12)

    def test_ticks(self, layout: Layout):
        """There is a tick at every whole degree, and a long one at every tenth."""
        degrees = sorted(np.degrees(tick.angle) % 360 for tick in rim_scales.angle_ticks(layout))
        long = sorted(
            np.degrees(tick.angle) % 360 for tick in rim_scales.angle_ticks(layout) if tick.weight == "major"
        )

        assert degrees == pytest.approx(np.arange(360), abs=1e-9)
        assert long == pytest.approx(np.arange(0, 360, 10), abs=1e-9)


class TestNumbers:
    @pytest.mark.parametrize("unit", rim_scales.UNITS)
    def test_nothing_is_upside_down(self, layout: Layout, unit: rim_scales.Unit):
        """Every number can be read without turning the chart: its baseline never runs from right to left."""
        rows = (rim_scales.labels(layout, unit, toward) for toward in rim_scales.TOWARD)
        numbers = [*chain.from_iterable(rows), *rim_scales.angle_labels(layout)]

        assert len(numbers) >= 540
        assert all(np.cos(label.rotation) > -1e-6 for label in numbers)


class TestLayout:
    def test_rows_do_not_touch(self, layout: Layout):
        """From the rim outward the rows follow one another with at least a text height between their middles."""
        rows = [1 + layout.tick / 2, layout.generator, layout.names, layout.load, layout.angle]

        assert min(np.diff(rows)) >= 0.8 * layout.text
        assert layout.angle + layout.text / 2 < layout.extent

    def test_nothing_overlaps_on_paper(self):
        """Ticks, numbers, the lane, numbers, the circle, numbers: each begins where the one before has ended."""
        half = PRINT.text / 2
        edges = (1 + PRINT.tick, PRINT.generator - half, PRINT.generator + half, PRINT.names - PRINT.lane / 2,
                 PRINT.names + PRINT.lane / 2, PRINT.load - half, PRINT.load + half, PRINT.angle_circle - PRINT.tick,
                 PRINT.angle_circle + PRINT.tick, PRINT.angle - half, PRINT.angle + half, PRINT.extent)  # fmt: skip

        assert list(edges) == sorted(edges)
