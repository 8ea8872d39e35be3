"""Results go into the next question as they come out of the last: zeros stay zeros, and rounding is no resistance."""

from functools import partial

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core import (
    NegativeResistance,
    OutOfRange,
    SampledLoad,
    admittance_from_reflection,
    double_stub,
    impedance_from_reflection,
    input_impedance,
    l_network,
    load_from_standing_wave,
    one_section_transformer,
    quarter_wave,
    reflection_coefficient,
    single_stub,
    swr,
    toward_generator,
    toward_load,
)
from core.solutions import TAKES_NO_POWER

LENGTHS = np.arange(1, 100) / 200
OHMS = st.floats(1e-3, 1e6)


class TestShortedLine:
    @pytest.mark.parametrize("end", [0, np.inf, 30j, -1e-9j, 1e9j], ids=str)
    def test_shows_a_reactance(self, end):
        """A lossless line with a reactive end has an input resistance of zero, not one of rounding."""
        shown = input_impedance(end, 75, LENGTHS)

        assert (shown.real[np.isfinite(shown)] == 0).all()
        assert pytest.approx(1, abs=1e-15) == np.abs(reflection_coefficient(shown, 75))
        assert (swr(reflection_coefficient(shown, 75)) == np.inf).all()

    @pytest.mark.parametrize("length", LENGTHS)
    def test_is_no_load(self, length):
        """Nothing matches what takes no power, whatever length of line it is seen through."""
        shown = input_impedance(0, 75, length)

        assert ((), TAKES_NO_POWER) == (tuple(single_stub(shown, 75)), single_stub(shown, 75).reason)

    @pytest.mark.parametrize("length", LENGTHS)
    def test_as_a_reflection(self, length):
        """The same by way of the reflection: on the rim there is neither resistance nor conductance."""
        gamma = toward_load(toward_generator(reflection_coefficient(-20j, 50), length), 0.07)

        assert 0 == impedance_from_reflection(gamma, 50).real
        assert 0 == admittance_from_reflection(gamma, 1 / 50).real
        assert () == single_stub(impedance_from_reflection(gamma, 50), 50)

    def test_measured(self):
        """An infinite standing-wave ratio means no resistance, wherever the minimum stands."""
        assert np.all(load_from_standing_wave(np.inf, LENGTHS[LENGTHS != 0.25], 50).real == 0)
        assert np.inf == load_from_standing_wave(np.inf, 0.25, 50)


class TestLossyLine:
    @given(load=st.builds(complex, st.floats(0, 1e6), st.floats(-1e6, 1e6)), length=st.floats(0, 2))
    def test_is_passive(self, load, length):
        """Through lossy line no load looks active, and a reactive one has the line's own loss for resistance."""
        shown = input_impedance(load, 50, length, attenuation=0.05)

        assert shown.real >= 0
        assert abs(reflection_coefficient(shown, 50)) <= 1 + 4e-16

    @given(reactance=st.floats(-1e3, 1e3), length=st.floats(1e-6, 1))
    def test_small_loss(self, reactance, length):
        """A hair of loss shows as its resistance, to all digits: that of the reactance's slope times the loss."""
        loss = 1e-12
        shown = input_impedance(1j * reactance, 50, length, loss)
        assume(abs(shown) < 1e8)  # nearer a pole the loss itself is what is seen
        ahead = (50**2 + shown.imag**2) / 50 * loss * length

        assert pytest.approx(ahead, rel=1e-6, abs=0) == shown.real


class TestRounding:
    @given(reactance=st.floats(-1e6, 1e6))
    def test_is_no_negative_resistance(self, reactance):
        """A resistance that only rounding put below zero is none; one that is more than that is refused."""
        bound = 1e-15 * abs(reactance)

        assert 0 == input_impedance(complex(-bound, reactance), 50, 0).real
        with pytest.raises(NegativeResistance, match="Check the sign"):
            input_impedance(complex(-1e-12 * abs(reactance) - 1e-12, reactance), 50, 0)

    @pytest.mark.parametrize("function", [swr, impedance_from_reflection, admittance_from_reflection])
    def test_magnitude_above_one(self, function):
        """A reflection a hair above one is the rim; one of 1.2 is no passive load, and is not taken for one."""
        assert function(np.exp(1.1j)) == function(np.exp(1.1j) * (1 + 4e-16))
        with pytest.raises(
            OutOfRange, match=r"^The reflection must have a magnitude of at most 1, not 1\.2: "
        ):
            function(1.2)

    @given(resistance=OHMS, reactance=st.floats(-1e6, 1e6))
    def test_there_and_back(self, resistance, reactance):
        """Off the rim the impedance comes back out of its reflection."""
        gamma = reflection_coefficient(complex(resistance, reactance), 50)
        back = impedance_from_reflection(gamma, 50)

        assert pytest.approx(gamma, rel=1e-12) == reflection_coefficient(back, 50)

    def test_sampled(self):
        """A table of reactances stays one between its samples' own frequencies."""
        table = SampledLoad([0.9, 1.0, 1.1], [10j, 20j, 30j])

        assert [0, 0, 0] == table.at([0.9, 1.0, 1.1]).real.tolist()


@pytest.mark.parametrize(
    "designer",
    [single_stub, quarter_wave, one_section_transformer, l_network, partial(double_stub, spacing=0.125)],
    ids=["single stub", "quarter wave", "one section", "L network", "double stub"],
)
@pytest.mark.parametrize("load", [1e-160, 1e-160 + 50j, 5e-324, 1e-151, 1e151, 1e160 + 50j, 1e-160 - 1e160j])
def test_designers_agree_on_what_takes_no_power(designer, load):
    """What is as good as a short or an open circuit is that to every designer."""
    assert 0 == len(designer(load, 50))
    assert TAKES_NO_POWER in designer(load, 50).reason
