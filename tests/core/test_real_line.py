"""Lines as they are: what holds for every model, how their losses rise, and where they refuse."""

from dataclasses import replace

import numpy as np
import pytest

from core import (
    CoaxialLine,
    DistributedLine,
    LossyLine,
    Microstrip,
    MicrostripLine,
    NotAnImpedance,
    OutOfRange,
    Stripline,
    StriplineLine,
    UnknownChoice,
    fit_attenuation,
    input_impedance,
    skin_depth_m,
    usual_cable,
)
from core.board import SPEED_OF_LIGHT
from core.cables import CABLE_LOSSES, TABLE_FREQUENCIES

SWEEP = np.geomspace(20e6, 900e6, 41)
FR4 = Microstrip(4.4, 1.6, 0.035)
MODELS = {
    "per metre": DistributedLine(0.5, 250e-9, 20e-6, 100e-12),
    "cable": LossyLine(50, 0.66, 0.6, 0.1),
    "coaxial": CoaxialLine(0.9, 2.95, 2.25, 0.0004),
    "microstrip": MicrostripLine(FR4, 3.0, 0.02, roughness_mm=0.002),
    "textbook microstrip": MicrostripLine(Microstrip(4.4, 1.6, formulas="textbook"), 3.0, 0.02),
    "stripline": StriplineLine(Stripline(4.4, 3.2), 1.3, 0.02),
}
every_model = pytest.mark.parametrize("line", MODELS.values(), ids=MODELS)


@every_model
class TestEveryModel:
    def test_nothing_is_amplified(self, line):
        """A wave loses something at every frequency, and more at a higher one or as much."""
        loss = line.attenuation_db_per_m(SWEEP)

        assert np.all(loss > 0)
        assert np.all(np.diff(loss) >= 0)

    def test_series_and_across_are_passive(self, line):
        """Propagation constant and impedance are those of a resistance and a conductance that are not below zero."""
        constant, impedance = line.propagation_constant(SWEEP), line.characteristic_impedance(SWEEP)

        assert np.all((constant * impedance).real >= 0)
        assert np.all((constant / impedance).real >= -1e-15)

    def test_what_is_said_of_the_wave_agrees(self, line):
        """Decibels per metre, nepers per wavelength, wavelength and velocity are one propagation constant."""
        wave, constant = line.wavelength_m(SWEEP), line.propagation_constant(SWEEP)

        assert pytest.approx(2 * np.pi / constant.imag) == wave
        assert pytest.approx(wave * SWEEP / SPEED_OF_LIGHT) == line.velocity_factor(SWEEP)
        assert (
            pytest.approx(line.attenuation(SWEEP) * 20 / np.log(10))
            == line.attenuation_db_per_m(SWEEP) * wave
        )

    def test_input_impedance_by_hyperbolic_functions(self, line):
        """A loaded length shows Z0 (Z + Z0 tanh) / (Z0 + Z tanh)."""
        own, turn = line.characteristic_impedance(SWEEP), np.tanh(line.propagation_constant(SWEEP) * 1.3)
        shown = own * ((25 + 40j) + own * turn) / (own + (25 + 40j) * turn)

        assert pytest.approx(shown, rel=1e-10) == line.input_impedance(25 + 40j, 1.3, SWEEP)

    def test_ends(self, line):
        """Open and shorted lengths multiply to the square of the line's impedance; no length shows the load."""
        product = line.input_impedance(np.inf, 0.4, SWEEP) * line.input_impedance(0, 0.4, SWEEP)

        assert pytest.approx(line.characteristic_impedance(SWEEP) ** 2, rel=1e-10) == product
        assert pytest.approx(60 - 80j) == line.input_impedance(60 - 80j, 0, 434e6)
        assert np.isinf(line.input_impedance(np.inf, 0, 434e6))

    def test_long_line(self, line):
        """A line so long that nothing comes back shows its own impedance."""
        assert pytest.approx(line.characteristic_impedance(434e6)) == line.input_impedance(0, 1e6, 434e6)

    def test_shapes(self, line):
        """A number gives a number, arrays broadcast."""
        assert isinstance(line.attenuation(434e6), float)
        assert isinstance(line.characteristic_impedance(434e6), complex)
        assert (3, 41) == line.input_impedance(50, np.ones((3, 1)), SWEEP).shape

    def test_shown_in_words(self, line):
        """A line says in the trade's words what it is."""
        assert ":" in repr(line)
        assert "<table>" in line._repr_html_()

    @pytest.mark.parametrize("frequency", [0, -1, np.nan, np.inf, "fast", 1j])
    def test_what_is_no_frequency(self, line, frequency):
        """A frequency is a number above zero."""
        with pytest.raises(OutOfRange, match="frequency must be"):
            line.propagation_constant(frequency)

    def test_what_is_no_length(self, line):
        """A length of line is zero metres or more."""
        with pytest.raises(OutOfRange, match="length of the line must be"):
            line.input_impedance(50, -0.1, 434e6)


class TestDistributedLine:
    def test_lossless(self):
        """Without loss the impedance is real, sqrt(L / C), and nothing is lost."""
        line = DistributedLine(0, 250e-9, 0, 100e-12)

        assert pytest.approx(50) == line.characteristic_impedance(434e6)
        assert 0 == line.attenuation(434e6)
        assert pytest.approx(1 / (SPEED_OF_LIGHT * np.sqrt(25e-18))) == line.velocity_factor(434e6)

    def test_small_loss_keeps_its_digits(self):
        """A loss of 1e-13 of the phase is exact: R / 2 Z0, not what rounding leaves of a root."""
        constant = DistributedLine(1e-10, 250e-9, 0, 100e-12).propagation_constant(434e6)

        assert pytest.approx(1e-10 / 100, rel=1e-12) == constant.real

    def test_values_over_frequency(self):
        """A resistance for each frequency is one line's table."""
        resistance = 1e-5 * np.sqrt(SWEEP)
        together = DistributedLine(resistance, 250e-9, 0, 100e-12).propagation_constant(SWEEP)

        assert together[7] == DistributedLine(resistance[7], 250e-9, 0, 100e-12).propagation_constant(
            SWEEP[7]
        )

    @pytest.mark.parametrize(
        ("values", "fault"),
        [
            ((-1, 1, 1, 1), "resistance"),
            ((0, 0, 0, 1), "inductance"),
            ((0, 1, -1, 1), "conductance"),
            ((0, 1, 0, 0), "capacitance"),
        ],
    )
    def test_refused(self, values, fault):
        """No metre of line has less than nothing, nor a line without inductance or capacitance."""
        with pytest.raises(OutOfRange, match=fault):
            DistributedLine(*values)


class TestLossyLine:
    @pytest.mark.parametrize(("conductor", "dielectric", "ratio"), [(0.6, 0, 2), (0, 0.1, 4)])
    def test_how_loss_rises(self, conductor, dielectric, ratio):
        """At four times the frequency a conductor takes twice as much, a dielectric four times."""
        line = LossyLine(50, 0.66, conductor, dielectric)

        assert pytest.approx(ratio) == line.attenuation_db_per_m(4e8) / line.attenuation_db_per_m(1e8)

    def test_sign_of_the_reactance(self):
        """Where the conductor loses more the impedance is capacitive, where the dielectric does inductive."""
        assert 0 > LossyLine(50, 0.66, 0.6, 0).characteristic_impedance(1e8).imag
        assert 0 < LossyLine(50, 0.66, 0, 0.6).characteristic_impedance(1e8).imag

    def test_without_loss(self):
        """Without loss it is the line that the rest of the core knows."""
        line = LossyLine(75, 0.7)

        assert 75 == line.characteristic_impedance(434e6)
        assert pytest.approx(input_impedance(30 + 10j, 75, 2.3)) == line.input_impedance(
            30 + 10j, 2.3 * line.wavelength_m(434e6), 434e6
        )

    def test_known_in_part(self):
        """Outside the frequencies that it is known for a line says nothing."""
        with pytest.raises(
            OutOfRange, match=r"at least 1e\+07 and at most 1e\+09 .* where this line's model holds"
        ):
            usual_cable("RG-58").attenuation(2e9)

    @pytest.mark.parametrize(
        ("changes", "fault"),
        [
            ({"velocity": 1.2}, "velocity factor"),
            ({"conductor_db_per_m": -1}, "conductor's loss"),
            ({"dielectric_db_per_m": -1}, "dielectric's loss"),
            ({"dielectric_db_per_m": 1e4}, "nepers per radian"),
            ({"at_frequency": 0}, "frequency of the losses"),
            ({"limits": (1e9, 1e6)}, "highest frequency above"),
        ],
    )
    def test_refused(self, changes, fault):
        """What no cable has is refused by its name."""
        with pytest.raises(OutOfRange, match=fault):
            replace(LossyLine(50, 0.66, 0.6, 0.1), **changes)

    def test_refused_impedance(self):
        """A cable's impedance without loss is real."""
        with pytest.raises(NotAnImpedance, match="must be real"):
            LossyLine(50 - 1j, 0.66)  # type: ignore[arg-type]


class TestFitAttenuation:
    def test_its_own_curve(self):
        """A table made of k1 sqrt(f) + k2 f gives back k1 and k2."""
        loss = 0.5 * np.sqrt(SWEEP / 1e9) + 0.07 * SWEEP / 1e9

        assert pytest.approx((0.5, 0.07)) == fit_attenuation(SWEEP, loss)
        assert pytest.approx((0.25, 0.0175)) == fit_attenuation(SWEEP, loss, 0.25e9)

    @pytest.mark.parametrize(("power", "zero"), [(0.3, 1), (1.4, 0)])
    def test_never_below_zero(self, power, zero):
        """A table that rises too slowly is all conductor, one that rises too fast all dielectric."""
        found = fit_attenuation(SWEEP, SWEEP**power)

        assert 0 == found[zero]
        assert 0 < found[1 - zero]

    def test_nothing_near_is_better(self):
        """No other pair of losses has smaller squares of relative errors."""
        table = np.array([0.046, 0.105, 0.155, 0.34, 0.6])
        share = np.array(TABLE_FREQUENCIES) / 1e9
        found = np.array(fit_attenuation(TABLE_FREQUENCIES, table))
        around = found + 1e-3 * np.array([[1, 0], [-1, 0], [0, 1], [0, -1], [1, -1], [-1, 1]])
        misses = lambda pair: np.sum(((pair[0] * np.sqrt(share) + pair[1] * share) / table - 1) ** 2)  # noqa: E731

        assert misses(found) < min(misses(pair) for pair in around)

    @pytest.mark.parametrize("frequencies", [[], [1e8], [1e8, 1e8]])
    def test_one_frequency(self, frequencies):
        """One frequency cannot tell what conductor and dielectric take apart."""
        with pytest.raises(OutOfRange, match="two frequencies or more"):
            fit_attenuation(frequencies, np.ones(len(frequencies)))

    @pytest.mark.parametrize("table", [([1e8], [0.1, 0.2]), ([1e8, 2e8], 0.1), (1e8, 0.1)])
    def test_not_a_table(self, table):
        """A table has one loss for each frequency."""
        with pytest.raises(OutOfRange, match="one loss for each frequency"):
            fit_attenuation(*table)


class TestUsualCables:
    @pytest.mark.parametrize("name", CABLE_LOSSES)
    def test_the_table_is_met(self, name):
        """Each cable's line is within 6 % of its table, at every frequency of it (common practice, no source)."""
        table = np.array(CABLE_LOSSES[name].db_per_100_m) / 100

        assert pytest.approx(table, rel=0.06) == usual_cable(name).attenuation_db_per_m(TABLE_FREQUENCIES)

    @pytest.mark.parametrize("name", CABLE_LOSSES)
    def test_rows_are_plausible(self, name):
        """Loss rises faster than the fourth root of frequency and slower than frequency; remarks are words."""
        row = CABLE_LOSSES[name]
        slopes = np.diff(np.log(row.db_per_100_m)) / np.diff(np.log(TABLE_FREQUENCIES))

        assert np.all((slopes > 0.25) & (slopes < 1))
        assert row.remark

    def test_unknown(self):
        """A cable that is not in the table is refused with those that are."""
        with pytest.raises(UnknownChoice, match="cable must be RG-6 or RG-11"):
            usual_cable("string")


class TestCoaxialLine:
    def test_range(self):
        """It holds from four skin depths in the inner radius to the next mode, whose wave goes round the middle."""
        first, last = CoaxialLine(1.0, 3.35, 2.25).frequency_range

        assert pytest.approx(0.5e-3 / 4) == skin_depth_m(first)
        assert pytest.approx(SPEED_OF_LIGHT / 1.5 / (np.pi * 2.175e-3)) == last

    @pytest.mark.parametrize(
        ("sizes", "fault"),
        [
            ((3, 3), "outer conductor must be wider"),
            ((0, 3), "inner diameter"),
            ((1, 3, 0.5), "permittivity"),
            ((1, 3, 2, -1), "loss tangent"),
            ((1, 3, 2, 0, 0), "conductivity"),
        ],
    )
    def test_refused(self, sizes, fault):
        """Dimensions and materials that no cable has are refused by name."""
        with pytest.raises(OutOfRange, match=fault):
            CoaxialLine(*sizes)
