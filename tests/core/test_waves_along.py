"""Voltage and current along the line, for a wave of one volt from the generator: against closed forms."""

import cmath
import math

import numpy as np
import pytest

from core import (
    MatchingNetwork,
    OutOfRange,
    Section,
    Stub,
    power_flow,
    quarter_wave,
    single_stub,
    waves_along,
)

LOADS = [60 - 80j, 25 + 10j, 100, 0, math.inf, 40j, 50]


def reflection(load: complex) -> complex:
    """(Z - 50) / (Z + 50), by hand."""
    return 1 if math.isinf(abs(load)) else (load - 50) / (load + 50)


class TestBareLine:
    """A load on its line: |V| = |1 + G exp(-j4πd)| and |I| Z0 = |1 - G exp(-j4πd)| (common practice, no source)."""

    @pytest.mark.parametrize("load", LOADS)
    def test_envelopes(self, load: complex):
        """Voltage and current follow the closed form at every place, also where the load takes nothing."""
        (line,) = waves_along(MatchingNetwork(load, 50, ()), points=101, feed=0.8)
        turned = reflection(load) * np.exp(-4j * np.pi * line.distance)

        np.testing.assert_allclose(np.abs(line.voltage), np.abs(1 + turned), atol=1e-12)
        np.testing.assert_allclose(50 * np.abs(line.current), np.abs(1 - turned), atol=1e-12)

    @pytest.mark.parametrize("load", [60 - 80j, 25 + 10j])
    def test_first_minimum(self, load: complex):
        """The voltage is least where the reflection, turned by twice the distance, points to the left."""
        expected = (cmath.phase(reflection(load)) + math.pi) / (4 * math.pi) % 0.5
        (line,) = waves_along(MatchingNetwork(load, 50, ()), points=50_001, feed=0.5)

        assert abs(expected - line.distance[np.argmin(np.abs(line.voltage))]) < 2e-5

    def test_ratio(self):
        """The standing-wave ratio of the piece is the largest voltage over the smallest."""
        (line,) = waves_along(MatchingNetwork(100 + 0j, 50, ()), points=101)
        sizes = np.abs(line.voltage)

        assert abs(2 - line.swr) < 1e-12
        assert abs(2 - sizes.max() / sizes.min()) < 1e-12


class TestMatched:
    @pytest.mark.parametrize("solution", single_stub(60 - 80j, 50))
    def test_even_toward_the_generator(self, solution):
        """Behind a match voltage and current are even, one volt and one fiftieth of an ampere; before it they swing."""
        section, stub, feed = waves_along(solution)

        np.testing.assert_allclose(np.abs(feed.voltage), 1, atol=1e-12)
        np.testing.assert_allclose(np.abs(feed.current), 1 / 50, atol=1e-12)
        assert abs(feed.swr - 1) < 1e-12
        assert abs(section.swr - (1 + abs(reflection(60 - 80j))) / (1 - abs(reflection(60 - 80j)))) < 1e-9
        assert abs(np.abs(stub.voltage[-1]) - 1) < 1e-12  # the stub hangs across the line at the junction

    def test_quarter_wave(self):
        """At a quarter-wave section's ends the voltages are as the square root of the resistances."""
        section, _ = waves_along(next(iter(quarter_wave(100, 50))), points=3)

        assert abs(math.sqrt(2) - abs(section.voltage[0])) < 1e-12
        assert abs(1 - abs(section.voltage[-1])) < 1e-12


class TestAnyNetwork:
    def test_continuous(self):
        """Across a shunt element the voltage is one, and across a series element the current."""
        network = MatchingNetwork(
            30 + 70j,
            75,
            (Section(0.13, 60), Stub(0.09, 50), Section(0.21, 75), Stub(0.31, 80, "series", "open")),
        )
        first, shunt, second, series, feed = waves_along(network)

        assert abs(first.voltage[-1] - second.voltage[0]) < 1e-12
        assert abs(first.voltage[-1] - shunt.voltage[-1]) < 1e-12
        assert abs(second.current[-1] - feed.current[0]) < 1e-12
        assert abs(second.current[-1] - series.current[-1]) < 1e-12

    def test_power(self):
        """What flows on each piece without loss is the share of the available power that is delivered."""
        network = MatchingNetwork(30 + 70j, 75, (Section(0.13, 60), Stub(0.09, 50), Section(0.21, 75)))
        available = 1 / (2 * 75)  # of a wave with a crest of one volt on 75 ohms
        first, _, second, feed = waves_along(network)

        for piece in (first, second, feed):
            flowing = 0.5 * np.real(piece.voltage * np.conj(piece.current))
            np.testing.assert_allclose(flowing, available * power_flow(network).delivered, rtol=1e-12)

    def test_loss(self):
        """On a line with loss the wave that comes shrinks toward the load."""
        cable, feed = waves_along(MatchingNetwork(50, 50, (Section(1.0, 50, 0.2),)))

        assert abs(math.exp(-0.2) - abs(cable.voltage[0])) < 1e-12
        assert abs(1 - abs(feed.voltage[0])) < 1e-12

    def test_arrays(self):
        """Networks of arrays give arrays, along the last axis the places."""
        loads = np.array([60 - 80j, 25 + 10j])
        (line,) = waves_along(MatchingNetwork(loads, 50, ()), points=7)

        assert (2, 7) == line.voltage.shape
        for index, load in enumerate(loads):
            (alone,) = waves_along(MatchingNetwork(load, 50, ()), points=7)
            np.testing.assert_allclose(line.voltage[index], alone.voltage, atol=1e-12)

    def test_one_point(self):
        """A line of one point is refused in a sentence."""
        with pytest.raises(OutOfRange, match="number of points"):
            waves_along(MatchingNetwork(100, 50, ()), points=1)
