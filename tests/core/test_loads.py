"""Loads over frequency: what each model is at every ratio, against plain circuit arithmetic.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest

from core import (
    ConstantLoad,
    MatchingNetwork,
    NegativeResistance,
    NotAnImpedance,
    OutOfRange,
    ParallelLoad,
    SampledLoad,
    Section,
    SeriesLoad,
)

RATIOS = np.array([0.5, 1.0, 1.7])


class TestSeries:
    def test_series_resonance(self):
        """Resistance, coil and capacitor in series add up, each as it goes with frequency."""
        load = SeriesLoad(20, inductive_reactance=30, capacitive_reactance=40)

        assert pytest.approx(20 + 1j * (30 * RATIOS - 40 / RATIOS)) == load.at(RATIOS)

    @pytest.mark.parametrize("impedance", [60 - 80j, 25 + 50j, 40 + 0j])
    def test_of_an_impedance(self, impedance):
        """A load made from its impedance has it at the design frequency."""
        assert pytest.approx(impedance) == SeriesLoad.of(impedance).at(1.0)

    def test_components(self):
        """Henries and farads act as they do in any circuit."""
        speed = 2 * np.pi * 434e6
        load = SeriesLoad.from_components(434e6, 10, 20e-9, 3e-12)

        assert pytest.approx(10 + 1j * speed * 20e-9 + 1 / (1j * speed * 3e-12)) == load.at(1.0)

    def test_zero_frequency(self):
        """At zero frequency a capacitor is an open circuit, and a coil a short."""
        assert np.inf == SeriesLoad(20, 0, 40).at(0.0).real
        assert 20 == SeriesLoad(20, 30).at(0.0)

    def test_open_circuit(self):
        """An open circuit has no resistance in series."""
        with pytest.raises(NotAnImpedance, match="no resistance in series"):
            SeriesLoad.of([50, np.inf])

    def test_impossible_part(self):
        """A reactance is given as a magnitude."""
        with pytest.raises(OutOfRange, match=r"capacitive reactance must be a number at least 0 .* not -5"):
            SeriesLoad(20, 0, -5)


class TestParallel:
    def test_parallel_resonance(self):
        """The admittances of resistance, coil and capacitor add up."""
        load = ParallelLoad(200, inductive_reactance=30, capacitive_reactance=40)

        assert pytest.approx(1 / (1 / 200 + 1 / (30j * RATIOS) + RATIOS / -40j)) == load.at(RATIOS)

    @pytest.mark.parametrize("impedance", [60 - 80j, 25 + 50j, 40 + 0j, 30j])
    def test_of_an_impedance(self, impedance):
        """A load made from its impedance has it at the design frequency."""
        assert pytest.approx(impedance) == ParallelLoad.of(impedance).at(1.0)

    def test_components(self):
        """Henries and farads act as they do in any circuit."""
        speed = 2 * np.pi * 169e6
        load = ParallelLoad.from_components(169e6, 300, 20e-9, 3e-12)

        assert pytest.approx(1 / (1 / 300 + 1 / (1j * speed * 20e-9) + 1j * speed * 3e-12)) == load.at(1.0)

    def test_open_circuit(self):
        """An open circuit stays one at every frequency."""
        assert np.inf == ParallelLoad.of(np.inf).at(1.3).real

    def test_zero_frequency(self):
        """At zero frequency a coil is a short, and a capacitor nothing."""
        assert 0 == ParallelLoad(200, 30).at(0.0)
        assert pytest.approx(200) == ParallelLoad(200, np.inf, 40).at(0.0)

    def test_short_circuit(self):
        """A short circuit has no resistance across it."""
        with pytest.raises(NotAnImpedance, match="no resistance across"):
            ParallelLoad.of(0)


class TestSampled:
    TABLE = SampledLoad([0.9, 1.0, 1.2], [40 - 10j, 50, 75 + 30j])

    def test_samples(self):
        """At its samples a table says what was measured."""
        assert pytest.approx([40 - 10j, 50, 75 + 30j]) == self.TABLE.at([0.9, 1.0, 1.2])

    def test_between(self):
        """Between samples the reflection is the mean of its neighbours' in proportion."""
        ends = [(z - 50) / (z + 50) for z in (50, 75 + 30j)]
        found = self.TABLE.at(1.05)

        assert pytest.approx(0.75 * ends[0] + 0.25 * ends[1]) == (found - 50) / (found + 50)

    def test_open_circuit_in_the_table(self):
        """An open circuit may stand in the table: its reflection is one."""
        found = SampledLoad([1, 2], [np.inf, 50]).at([1.0, 1.5])

        assert np.inf == found[0].real
        assert pytest.approx(150) == found[1]

    @pytest.mark.parametrize("ratio", [0.89, 1.21])
    def test_outside(self, ratio):
        """Nothing is known outside the table."""
        with pytest.raises(OutOfRange, match=r"at least 0\.9 and at most 1\.2"):
            self.TABLE.at(ratio)

    @pytest.mark.parametrize(
        ("ratios", "impedances", "fault"),
        [
            ([1, 1], [50, 50], "must rise"),
            ([2, 1], [50, 50], "must rise"),
            (1.0, 50, "must rise"),
            ([1, 2], [50], "one impedance for each of its 2"),
            ([-1, 2], [50, 50], "at least 0"),
        ],
    )
    def test_bad_table(self, ratios, impedances, fault):
        """A table out of order, or with a sample missing, is refused."""
        with pytest.raises(OutOfRange, match=fault):
            SampledLoad(ratios, impedances)

    def test_active_sample(self):
        """A sample that gives power back is refused."""
        with pytest.raises(NegativeResistance, match="resistance of -5 ohm"):
            SampledLoad([1, 2], [50, -5])


@pytest.mark.parametrize(
    "load",
    [
        ConstantLoad(60 - 80j),
        SeriesLoad(60, 20, 80),
        ParallelLoad(60, 20, 80),
        SampledLoad([0.2, 3], [60 - 80j, 20]),
    ],
    ids=lambda load: type(load).__name__,
)
class TestEveryLoad:
    def test_detuned(self, load):
        """A load detuned to a ratio is at its own design frequency what the load is at that ratio."""
        assert pytest.approx(load.at(1.3)) == load.detuned(1.3).at(1.0)

    def test_passive(self, load):
        """No model gives power back at any frequency."""
        assert np.all(np.real(load.at(np.linspace(0.2, 3, 57))) >= 0)

    def test_fits_the_network(self, load):
        """What it says is what the network's evaluator takes."""
        network = MatchingNetwork(load.at(1.0), 50, (Section(0.2, 70),))

        assert (57,) == network.input_reflection(
            np.linspace(0.3, 3, 57), load.at(np.linspace(0.3, 3, 57))
        ).shape


def test_arrays_of_loads():
    """An array of loads over an array of frequencies has the loads' shape and then the frequencies'."""
    loads = np.array([[60 - 80j], [20 + 5j], [100 - 1j]])

    assert (3, 1, 4) == SeriesLoad.of(loads).at(np.linspace(0.5, 2, 4)).shape
    assert (3, 1, 4) == ParallelLoad.of(loads).at(np.linspace(0.5, 2, 4)).shape
    assert (3, 1, 4) == np.broadcast_shapes(ConstantLoad(loads).at(np.linspace(0.5, 2, 4)).shape, (4,))


@pytest.mark.parametrize(("impedance", "fault"), [(np.nan, "nan is not one"), (-1, "zero or more")])
def test_constant_load_is_passive(impedance, fault):
    """A constant load must be an impedance that a load can have."""
    with pytest.raises(NotAnImpedance, match=fault):
        ConstantLoad(impedance)
