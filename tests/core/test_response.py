"""The band within a standing-wave ratio: its edges, its asymmetry, and bands that never close.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core import (
    MatchingNetwork,
    OutOfRange,
    ParallelLoad,
    SampledLoad,
    Section,
    SeriesLoad,
    Stub,
    bandwidth,
    frequency_response,
    l_network,
    rank_solutions,
    single_stub,
    swr,
)
from core.roots import bisect, highest

LOADS = np.random.default_rng(5).uniform(10, 150, 40) + 1j * np.random.default_rng(6).uniform(-100, 100, 40)


class TestFrequencyResponse:
    def test_is_the_evaluator(self):
        """A response is the network's own reflection with the load as its model says."""
        near = single_stub(60 - 80j, 50)[0]
        ratios, load = np.linspace(0.5, 1.5, 11), SeriesLoad.of(60 - 80j)
        response = frequency_response(near, ratios, load)

        assert near.input_reflection(ratios, load.at(ratios)).tolist() == response.reflection.tolist()
        assert pytest.approx(swr(response.reflection)) == response.swr
        assert pytest.approx(-20 * np.log10(abs(response.reflection))) == response.return_loss_db

    @pytest.mark.parametrize("shape", [(), (300,), (200, 1), (200, 300)], ids=str)
    def test_many_at_once(self, shape):
        """Networks and frequencies by the hundred give what each frequency gives alone, whatever the load's
        shape."""
        rng = np.random.default_rng(9)
        networks = single_stub(rng.uniform(10, 200, 200) - 20j, 50)[0]
        ratios, loads = rng.uniform(0.5, 1.5, 300), rng.uniform(10, 200, shape) + 5j
        together = networks.input_reflection(ratios, loads)

        assert (200, 300) == together.shape
        for number in (0, 17, 163, 164, 299):
            alone = networks.input_reflection(ratios[number], np.broadcast_to(loads, (200, 300))[:, number])
            assert alone.tolist() == together[:, number].tolist()

    def test_no_frequencies(self):
        """No frequencies, no answers."""
        assert (0,) == single_stub(60 - 80j, 50)[0].input_reflection([]).shape

    def test_without_elements(self):
        """A bare load is the same at every frequency, once for each frequency."""
        assert [0.5] * 3 == frequency_response(MatchingNetwork(150, 50, ()), [0.5, 1, 2]).reflection.tolist()

    @pytest.mark.parametrize("ratio", [0, -1, np.nan, np.inf])
    def test_impossible_frequency(self, ratio):
        """Frequencies lie above zero."""
        with pytest.raises(OutOfRange, match="frequency ratio must be a number above 0"):
            frequency_response(MatchingNetwork(150, 50, ()), ratio)


class TestEdges:
    @pytest.mark.parametrize(
        "load",
        [None, SeriesLoad.of(LOADS), ParallelLoad.of(LOADS)],
        ids=["constant load", "series load", "parallel load"],
    )
    @pytest.mark.parametrize("limit", [1.2, 2.0, 5.0])
    def test_the_limit_is_met_there(self, limit, load):
        """At each finite edge the standing-wave ratio is the limit, to 1e-9 of it, for either kind of
        solution."""
        for networks in single_stub(LOADS, 50):
            band = bandwidth(networks, limit, load)
            for edge in (band.lower, band.upper):
                inside = np.isfinite(edge) & (edge > 0)
                here = np.where(inside, edge, 1.0)
                model = None if load is None else load.detuned(here).at(1.0)
                found = swr(networks.detuned(here).input_reflection(1.0, model))
                assert np.all(np.abs(found - limit)[inside] <= 1e-9 * limit)

    @pytest.mark.parametrize("limit", [1.2, 2.0, 5.0])
    def test_nothing_is_over_the_limit_within(self, limit):
        """Between the edges a fine grid finds nothing over the limit, and just outside it does."""
        for networks in single_stub(LOADS, 50):
            band = bandwidth(networks, limit)
            upper = np.minimum(band.upper, 10.0)
            for part in np.linspace(1e-6, 1 - 1e-6, 400):
                ratio = band.lower + part * (upper - band.lower)
                assert np.all(swr(networks.detuned(ratio).input_reflection()) < limit)
            closed = np.isfinite(band.upper)
            outside = networks.detuned(np.where(closed, band.upper, 1.0) * (1 + 1e-9)).input_reflection()
            assert np.all(swr(outside)[closed] > limit)

    def test_an_asymmetric_band(self):
        """The band of a stub match is wider on one side of the design frequency than on the other."""
        band = bandwidth(single_stub(60 - 80j, 50)[0])

        assert band.above > 1.2 * band.below > 0
        assert pytest.approx(band.fraction) == band.above + band.below

    def test_quarter_wave_is_symmetric(self):
        """A quarter-wave section between resistances has a band that is symmetric about its centre."""
        band = bandwidth(MatchingNetwork(10, 50, (Section(0.25, 500**0.5),)), 1.5)

        assert pytest.approx(band.below, abs=1e-12) == band.above

    def test_wider_limit_wider_band(self):
        """A larger standing-wave ratio allows a wider band, for limits and networks of any shapes."""
        widths = bandwidth(single_stub(LOADS, 50)[0], np.array([[1.1], [1.5], [2], [4]])).fraction

        assert (4, 40) == widths.shape
        assert np.all(np.diff(widths, axis=0) > 0)

    def test_arrays_and_scalars_agree(self):
        """A network of an array has the band that it has alone."""
        together = bandwidth(single_stub(LOADS, 50)[1])
        alone = [bandwidth(single_stub(load, 50)[1]) for load in LOADS.tolist()]

        assert pytest.approx([band.lower for band in alone], abs=1e-12) == together.lower
        assert pytest.approx([band.upper for band in alone], abs=1e-12) == together.upper


class TestHardBands:
    @pytest.mark.parametrize("impedance", [1e3, 1e5, 1e7])
    def test_a_notch_between_two_samples(self, impedance):
        """A stub that shorts the line in a band of a millionth of the frequency ends the band there."""
        notch = Stub(0.5 / 1.37, impedance)
        band = bandwidth(MatchingNetwork(50, 50, (notch, Stub(0.25, 1e9))))

        assert 1.3 < band.upper < 1.37
        # A reactance X across a matched line of 50 ohm reflects 1 / |1 + 2jX / 50|: a third at 50 sqrt(2).
        assert pytest.approx(50 * np.sqrt(2), rel=1e-6) == abs(impedance * np.tan(np.pi / 1.37 * band.upper))

    @pytest.mark.parametrize("impedance", [300, 1e5])
    def test_edges_wherever_they_are(self, impedance):
        """A wide or a narrow notch is found at each of 800 frequencies up to nine times that of the
        design."""
        places = np.linspace(1.5, 9, 800)
        upper = bandwidth(MatchingNetwork(np.full(800, 50.0), 50, (Stub(0.5 / places, impedance),))).upper
        reactance = impedance * np.tan(np.pi * upper / places)

        assert np.all(upper < places)
        assert pytest.approx(np.full(800, 50 * np.sqrt(2)), rel=1e-5) == abs(reactance)

    def test_a_hump_over_the_limit(self):
        """A band ends at a hump that is over the limit by a millionth, and not at one that is under it by as
        much."""
        sections = tuple(Section(0.25, impedance) for impedance in (10_000 / 63, 100, 63))
        network = MatchingNetwork(200, 50, sections)
        peak = np.max(swr(network.input_reflection(np.linspace(1, 1.3, 400_001))))
        under, over = bandwidth(network, np.array([peak - 1e-6, peak + 1e-6])).upper

        assert 1.05 < peak < 1.2
        assert under + 0.1 < over

    def test_never_closes(self):
        """A band that stays open below or above says so."""
        matched, mild = MatchingNetwork(50, 50, ()), MatchingNetwork(90, 50, (Section(0.1, 70),))

        assert (0.0, np.inf, np.inf) == (
            bandwidth(matched).lower,
            bandwidth(matched).upper,
            bandwidth(matched).fraction,
        )
        assert (0.0, np.inf) == (bandwidth(mild).lower, bandwidth(mild).upper)

    def test_open_below_only(self):
        """A short open stub vanishes toward zero frequency: a load within the limit leaves the band open
        below."""
        band = bandwidth(single_stub(60, 50, end="open")[1])

        assert band.lower == 0
        assert 1 < band.upper < 3

    def test_not_matched(self):
        """Where the design frequency itself is over the limit there is no band."""
        band = bandwidth(MatchingNetwork(200, 50, ()))

        assert np.isnan([band.lower, band.upper]).all()
        assert band.fraction == 0

    def test_no_solution_in_an_array(self):
        """A load without a solution has no band, and its neighbours keep theirs."""
        networks = single_stub(np.array([60 - 80j, 50j]), 50)[0]

        assert [True, False] == (bandwidth(networks).fraction > 0).tolist()

    def test_searched_range(self):
        """Where the search ends before the band does, the band is told to that end, and that it may be wider."""
        transformer = MatchingNetwork(100, 50, (Section(0.25, 5000**0.5),))
        network = MatchingNetwork(98, 50, transformer.elements)

        band = bandwidth(network, highest_ratio=1.1)

        assert (1.1, True, False) == (band.upper, band.open_above, band.open_below)
        assert (1e-6, 1.1) == band.searched
        assert "to: 1.1 or above, where the search ends" in repr(band)

    def test_table_limits_the_search(self):
        """With a measured load the search ends where the table does."""
        table = SampledLoad([0.95, 1.0, 1.3], [60 - 82j, 60 - 80j, 60 - 60j])
        band = bandwidth(single_stub(60 - 80j, 50)[0], 2.0, table)

        assert (0.95, 1.3) == band.searched
        assert (0.95, True, True) == (band.lower, band.open_below, band.at_least)
        assert 1 < band.upper < 1.3
        assert not band.open_above

    def test_short_table(self):
        """Of a table that ends within both bands, neither solution is said to be good over any width."""
        table = SampledLoad([0.99, 1.0, 1.01], [60 - 81j, 60 - 80j, 60 - 79j])
        said = rank_solutions(single_stub(60 - 80j, 50), load=table).sentences

        assert (
            "In bandwidth all solutions are level: SWR <= 2 over at least 2.0 % of the design frequency."
            in said
        )

    def test_undecided(self):
        """Where one band is known to end and the other is not, the known one is not said to be the wider."""
        table = SampledLoad([0.9, 1.0, 1.01], [60 - 90j, 60 - 80j, 60 - 79j])
        near, far = single_stub(60 - 80j, 50)
        said = rank_solutions((far, near), load=table, swr=1.3).sentences[1]

        assert said.startswith("In bandwidth what is known of the load does not decide: ")
        assert bandwidth(near, 1.3, table).at_least

    def test_band_of_unknown_loads(self):
        """A table that leaves out the design frequency says nothing of a band around it."""
        with pytest.raises(OutOfRange, match="not at the design frequency itself: measure there"):
            bandwidth(single_stub(60 - 80j, 50)[0], 2.0, SampledLoad([1.1, 1.2], [50, 60]))

    def test_narrow_band(self):
        """A load of high quality factor has a band of about its reciprocal, found all the same."""
        load = SeriesLoad(50, 5e4, 5e4)
        band = bandwidth(MatchingNetwork(50, 50, ()), 2.0, load)

        # |Gamma| of R + jx at R = Z0 is 1/3 where x = R / sqrt(2); x = 1000 R (r - 1/r).
        assert pytest.approx(1 + 1 / np.sqrt(2) / 2000, abs=1e-7) == band.upper

    def test_lumped(self):
        """An L network has a band too, without any line."""
        bands = [bandwidth(network) for network in l_network(200 - 100j, 100, 500e6)]

        assert all(0 < band.lower < 1 < band.upper for band in bands)

    @pytest.mark.parametrize("limit", [1.0, 0.5, np.nan, np.inf])
    def test_impossible_limit(self, limit):
        """The limit is a standing-wave ratio above one."""
        with pytest.raises(OutOfRange, match=r"limit of the standing-wave ratio must be a number above 1"):
            bandwidth(MatchingNetwork(50, 50, ()), limit)


class TestRoots:
    @given(root=st.floats(-10, 10))
    @settings(max_examples=50)
    def test_halving(self, root):
        """Halving finds a root to the last digit, from either side."""
        ends = np.array([-11.0, 11.0])
        found = bisect(lambda x: np.sign(ends[1:] - ends[:1]) * (x - root) ** 3, ends[:1], ends[1:], steps=80)

        assert abs(found[0] - root) <= 4e-15 * max(1, abs(root))

    def test_falling_bracket(self):
        """The end where the function is positive may be the smaller number."""
        assert pytest.approx(0.5, abs=1e-15) == bisect(lambda x: 0.25 - x * x, np.array(1.0), np.array(0.0))

    def test_golden_section(self):
        """The highest point of a hump is found as well as a flat top allows."""
        assert pytest.approx(np.pi / 2, abs=1e-7) == highest(np.sin, np.array(0.2), np.array(3.0))

    def test_no_bracket(self):
        """A bracket of nan stays nan and does not hold up the others."""
        found = bisect(lambda x: x - 0.3, np.array([0.0, np.nan]), np.array([1.0, np.nan]))

        assert pytest.approx([0.3, np.nan], nan_ok=True) == found
