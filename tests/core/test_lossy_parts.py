"""Parts with loss: their resistance, what they cost, and the networks that are matched with it."""

import numpy as np
import pytest

from core import (
    LossyPart,
    OutOfRange,
    bandwidth,
    conjugate_l_network,
    l_network,
    lossy_l_network,
    pi_network,
    power_flow,
    with_part_quality,
)


class TestLossyPart:
    def test_resistance(self):
        """The resistance is reactance over quality factor; none for no part and for no loss."""
        assert [0.5, 0.2, 0.0, 0.0] == [
            LossyPart(x, place, None, q).resistance
            for x, place, q in (
                (50, "series", 100),
                (-20, "shunt", 100),
                (np.inf, "shunt", 100),
                (50, "series", np.inf),
            )
        ]

    def test_resistance_stays_over_frequency(self):
        """Detuned, the reactance follows the frequency and the resistance stays."""
        for reactance in (50.0, -50.0):
            detuned = LossyPart(reactance, "series", 1e6, 100).detuned(2.0)

            assert (100.0 if reactance > 0 else -25.0, 0.5) == (detuned.reactance, detuned.resistance)

    def test_a_network_with_loss_detuned(self):
        """A lossy network detuned reflects as at that frequency."""
        network = lossy_l_network(60 - 80j, 50, 30, 80)[0]

        assert network.input_reflection(0.9) == pytest.approx(
            network.detuned(0.9).input_reflection(), abs=1e-14
        )

    def test_preferred_keeps_the_quality(self):
        """The nearest preferred part has the same quality factor."""
        part = LossyPart(50, "series", 10e6, 80).preferred("E12")

        assert isinstance(part, LossyPart)
        assert 80 == part.quality

    @pytest.mark.parametrize("quality", [0, -1, np.nan, "good"])
    def test_bad_quality(self, quality):
        """A quality factor that is none is refused, in the part and in the designer."""
        with pytest.raises(OutOfRange, match="quality must be a number above 0"):
            LossyPart(50, "series", None, quality)
        with pytest.raises(OutOfRange, match="inductor quality must be a number above 0"):
            lossy_l_network(100, 50, quality)


class TestWithPartQuality:
    def test_each_kind_its_own(self):
        """Inductors and capacitors get each their quality factor; the network stays of its kind."""
        network = pi_network(1000, 100, 15, 10e6)[0]
        lossy = with_part_quality(network, 100, 500)

        assert [500, 100, 500] == [part.quality for part in lossy.elements if isinstance(part, LossyPart)]
        assert type(network) is type(lossy)

    def test_loss_spoils_the_match_and_the_efficiency(self):
        """The more loss, the lower the efficiency and the worse the match."""
        network = l_network(1000, 50)[0]
        lossy = [with_part_quality(network, q) for q in (1000, 100, 10)]
        efficiencies = [power_flow(n).efficiency for n in lossy]

        assert sorted(efficiencies, reverse=True) == efficiencies
        assert 0 < abs(lossy[0].input_reflection()) < abs(lossy[2].input_reflection())


class TestLossyLNetwork:
    def test_without_loss_it_is_the_lossless_one(self):
        """Of perfect parts the networks are those of the lossless designer, all of efficiency one."""
        rng = np.random.default_rng(5)
        for load, source in rng.uniform(5, 200, (50, 2)) + 1j * rng.normal(0, 60, (50, 2)):
            lossless, lossy = conjugate_l_network(load, source), lossy_l_network(load, source, np.inf)
            parts = [
                sorted((n.topology, n.elements[0].reactance, n.elements[1].reactance) for n in found)
                for found in (lossless, lossy)
            ]

            assert [row[0] for row in parts[0]] == [row[0] for row in parts[1]]
            assert np.allclose([row[1:] for row in parts[0]], [row[1:] for row in parts[1]], rtol=1e-9)
            assert [1] * len(lossy) == pytest.approx([n.efficiency for n in lossy], abs=1e-12)

    def test_order(self):
        """Shunt part nearer the load first, and of either order the most efficient first, alone and in an array."""
        loads = np.array([60 - 80j, 20 + 10j, 50, 30j, 200])
        found = lossy_l_network(loads, 35 + 10j, 20, 60)
        places = [n.topology for n in found]

        assert sorted(places, reverse=True) == places
        for place in set(places):
            share = np.array([n.efficiency for n in found if n.topology == place])
            assert not np.any(np.diff(share, axis=0) > 1e-9)

    def test_energy_balances(self):
        """What the source gives is what the load gets and what the parts turn to heat."""
        for network in lossy_l_network(60 - 80j, 35 + 10j, 20, 60):
            flow = power_flow(network)

            assert 1 == pytest.approx(flow.efficiency + sum(flow.lost), abs=1e-12)
            assert 1 == pytest.approx(flow.accepted, abs=1e-12)
            assert -10 * np.log10(flow.efficiency) == pytest.approx(network.loss_db, abs=1e-12)

    @pytest.mark.parametrize("load", [0, np.inf, 30j])
    def test_a_load_that_takes_no_power(self, load):
        """It may be matched by the parts' own loss; then nothing reaches it, and the reason says so."""
        found = lossy_l_network(load, 50, 20, 60)

        assert len(found)
        assert {0.0} == {network.efficiency for network in found}
        assert {np.inf} == {network.loss_db for network in found}
        assert "nothing reaches the load" in found.reason

    def test_none(self):
        """Where no pair of parts matches, the reason says so."""
        found = lossy_l_network(30j, 50, np.inf)

        assert 0 == len(found)
        assert "no two of them match" in found.reason

    def test_loss_widens_the_band(self):
        """A lossy match has a wider band than a lossless one of the same kinds of parts."""
        lossless, lossy = lossy_l_network(1000, 50, np.inf)[0], lossy_l_network(1000, 50, 10, 30)[0]

        assert bandwidth(lossy).fraction > bandwidth(lossless).fraction

    def test_a_frequency_gives_values(self):
        """With a frequency the parts have values in henries and farads, in the shape of the loads."""
        found = lossy_l_network(np.full((2, 3), 1000), 50, 100, 400, 10e6)

        assert found[0].shunt.inductance is not None
        assert (2, 3) == found[0].shunt.inductance.shape == np.shape(found[0].efficiency)
        alone = lossy_l_network(1000, 50, 100, 400, 10e6)[0].shunt.inductance

        assert alone == pytest.approx(found[0].shunt.inductance[0, 0], rel=1e-12)
