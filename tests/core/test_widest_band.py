"""The bandwidth limit of a load, and that no design passes it."""

from typing import Any

import numpy as np
import pytest

import core
from core import OutOfRange, ParallelLoad, SeriesLoad, bandwidth_limit, reflection_limit, share_of_limit
from core.errors import NotAnImpedance
from tests.core import brute_force

LOADS = {
    "coil": SeriesLoad(40, inductive_reactance=90),
    "capacitor": SeriesLoad(40, capacitive_reactance=90),
    "resonance": SeriesLoad(40, 200, 180),
    "parallel coil": ParallelLoad(150, inductive_reactance=60),
    "parallel capacitor": ParallelLoad(150, capacitive_reactance=60),
    "parallel resonance": ParallelLoad(150, 40, 35),
}


@pytest.mark.parametrize("load", LOADS.values(), ids=LOADS)
def test_no_design_passes_it(load):
    """Of no design for the load is the band wider than the load allows."""
    impedance = load.at(1.0)
    designs = [
        *core.single_stub(impedance, 50),
        *core.double_stub(impedance, 50, 0.1),
        *core.l_network(impedance, 50),
        *core.quarter_wave(impedance, 50),
        *core.pi_network(impedance, 50, 6.0),
        *core.binomial_transformer(impedance, 50, 4),
    ]
    shares = [share_of_limit(design, 2.0, load) for design in designs]

    assert len(shares) > 10
    assert 0 < min(shares)
    assert max(shares) <= 1


def test_no_stub_passes_it_for_any_load():
    """Of 2,000 loads all over the chart no stub match has a band wider than the load allows."""
    load, line = brute_force.line_loads(2_000, seed=21)
    shares = np.array(
        [share_of_limit(network, 2.0, SeriesLoad.of(load)) for network in core.single_stub(load, line)]
    )

    assert shares.min() > 0
    assert 0.2 < shares.max() <= 1


class TestLimits:
    @pytest.mark.parametrize("load", LOADS.values(), ids=LOADS)
    def test_a_wider_band_has_more_reflection(self, load):
        """The wider the band, the larger the least reflection."""
        got = [reflection_limit(load, 1 - w / 2, 1 + w / 2) for w in (0.01, 0.1, 0.5, 1.5)]

        assert sorted(got) == got
        assert 0 <= got[0] < got[3] < 1

    @pytest.mark.parametrize("load", LOADS.values(), ids=LOADS)
    def test_both_are_each_others_inverse(self, load):
        """In the widest band for an SWR the least reflection is that of this SWR."""
        width = bandwidth_limit(load, 3.0)
        lower = np.sqrt(1 + width**2 / 4) - width / 2

        assert 0.5 == pytest.approx(reflection_limit(load, lower, 1 / lower), rel=1e-12)

    def test_a_resistance_has_no_limit(self):
        """Without reactance any band is open, without power none is."""
        assert np.inf == bandwidth_limit(100)
        assert 0 == reflection_limit(SeriesLoad(100), 0.1, 5)
        assert 0 == share_of_limit(core.quarter_wave(100, 50)[0])
        assert 0 == bandwidth_limit(50j)
        assert 1 == reflection_limit(50j, 0.9, 1.1)

    def test_series_and_parallel_agree(self):
        """A load of one impedance has the same limit as series and as parallel parts, about its middle."""
        assert bandwidth_limit(SeriesLoad.of(30 - 70j)) == pytest.approx(
            bandwidth_limit(ParallelLoad.of(30 - 70j)), rel=1e-13
        )

    def test_arrays(self):
        """Loads and limits broadcast."""
        assert (2, 3) == bandwidth_limit(np.array([[10 + 50j], [60 - 80j]]), [1.5, 2, 3]).shape
        assert (2,) == np.shape(share_of_limit(core.single_stub([10 + 50j, 60 - 80j], 50)[0]))

    @pytest.mark.parametrize(("lower", "upper"), [(1.1, 0.9), (1, 1), (0, 1), (-1, 1), (np.nan, 1)])
    def test_bad_band(self, lower, upper):
        """Edges that are no band are refused."""
        with pytest.raises(OutOfRange, match="band"):
            reflection_limit(60 - 80j, lower, upper)

    @pytest.mark.parametrize("load", ["coil", np.inf, np.nan])
    def test_bad_load(self, load):
        """A load that is none is refused."""
        with pytest.raises(NotAnImpedance, match=r"\."):
            bandwidth_limit(load)

    def test_a_table_has_no_limit(self):
        """Of a table of samples the limit is not known, and the sentence says what it is known for."""
        table: Any = core.SampledLoad([0.9, 1.1], [40 - 10j, 60 + 10j])
        with pytest.raises(NotAnImpedance, match="known for a load of parts"):
            bandwidth_limit(table)
