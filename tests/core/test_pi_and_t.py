"""Pi and T networks: their order, their quality factor, and where there are none."""

import numpy as np
import pytest

from core import OutOfRange, bandwidth, pi_network, t_network

both = pytest.mark.parametrize("designer", [pi_network, t_network])


class TestOrder:
    def test_of_pi_networks(self):
        """Low-pass first, then the two mixed ones, the high-pass last."""
        kinds = [[part.kind[:3] for part in n.elements] for n in pi_network(1000, 100, 15, 10e6)]

        assert [
            ["cap", "ind", "cap"],
            ["cap", "ind", "ind"],
            ["ind", "cap", "cap"],
            ["ind", "cap", "ind"],
        ] == kinds
        assert {("shunt", "series", "shunt")} == {
            tuple(part.placement for part in n.elements) for n in pi_network(1000, 100, 15)
        }

    def test_of_t_networks(self):
        """The same for the T."""
        kinds = [[part.kind[:3] for part in n.elements] for n in t_network(50, 10, 10, 10e6)]

        assert ["ind", "cap", "ind"] == kinds[0]
        assert ["cap", "ind", "cap"] == kinds[3]
        assert {("series", "shunt", "series")} == {
            tuple(part.placement for part in n.elements) for n in t_network(50, 10, 10)
        }


@both
class TestQualityFactor:
    def test_is_the_higher_of_the_ends(self, designer):
        """The higher of the two ends' quality factors is the one asked for, at the end of the smaller (T) or larger
        (Pi) resistance."""
        for load, source in ((1000, 100), (100, 1000)):
            for network in designer(load, source, 8.0):
                at_load, at_source = network.end_quality_factors

                assert 8 == pytest.approx(network.quality_factor, rel=1e-12)
                assert (at_load > at_source) == ((load > source) == (designer is pi_network))

    def test_higher_is_narrower(self, designer):
        """The higher the quality factor, the narrower the band."""
        widths = [bandwidth(designer(200, 50, q)[0], 1.5).fraction for q in (2, 4, 8, 16)]

        assert sorted(widths, reverse=True) == widths
        assert widths[0] > 3 * widths[3]

    def test_at_the_least_it_is_an_l_network(self, designer):
        """At the least quality factor one part is none, and the reason says so."""
        found = designer(1000, 100, 3.0)

        assert 2 == len(found)
        assert "it is at least" not in found.reason
        assert "is an L network" in found.reason
        assert [1, 1] == [[part.kind for part in n.elements].count("none") for n in found]

    def test_below_the_least_there_is_none(self, designer):
        """Below the least the reason gives what was asked and the least."""
        found = designer(1000, 100, 2.9)

        assert 0 == len(found)
        assert "A quality factor of 2.9 is too low" in found.reason
        assert "at least 3 in" in found.reason

    def test_zero_only_cancels(self, designer):
        """With equal resistances and no quality factor the parts only cancel the reactances."""
        network = designer(*((50 + 20j, 50) if designer is t_network else (1 / (0.02 + 0.01j), 50)), 0.0)

        assert 1 == len(network)
        assert "cancel" in network.reason

    def test_of_arrays(self, designer):
        """Of an array there are always four, nan in every part where there is none."""
        found = designer([1000, 1000, 0], 100, [8.0, 2.0, 8.0])

        assert 4 == len(found)
        assert all(
            [False, True, True] == np.isnan(part.reactance).tolist() for n in found for part in n.elements
        )
        assert "too low" in found.reason
        assert "takes no power" in found.reason

    @pytest.mark.parametrize("wrong", [-1, np.nan, np.inf, "high", 2j])
    def test_bad_quality(self, designer, wrong):
        """A quality factor that is none is refused."""
        with pytest.raises(OutOfRange, match="quality factor must be a number at least 0"):
            designer(1000, 100, wrong)

    def test_bad_frequency(self, designer):
        """So is a frequency of zero."""
        with pytest.raises(OutOfRange, match="frequency must be a number above 0"):
            designer(1000, 100, 5, 0)
