"""Power, and the voltage and current along the lines: conservation, continuity, and exact peaks.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core import (
    MatchingNetwork,
    OutOfRange,
    Reactance,
    Section,
    Stub,
    lossy_single_stub,
    peak_voltage,
    power_flow,
    quarter_wave,
    single_stub,
    standing_waves,
    swr,
    with_attenuation,
)

lengths = st.one_of(st.sampled_from([0.1, 0.25, 0.375, 0.5]), st.floats(0.01, 2))
impedances = st.floats(10, 300)
losses = st.one_of(st.just(0.0), st.floats(1e-6, 1.5))


@st.composite
def networks(draw):
    """Networks of every kind of element, with and without loss, that accept some power."""
    load = complex(draw(st.floats(1, 500)), draw(st.floats(-500, 500)))
    section, other = (Section(draw(lengths), draw(impedances), draw(losses)) for _ in range(2))
    stubs = [
        Stub(draw(lengths), draw(impedances), placement, end, draw(losses))
        for placement in ("shunt", "series")
        for end in ("short", "open")
    ]
    reactances = [Reactance(draw(st.sampled_from([-70.0, 45.0])), p) for p in ("shunt", "series")]
    middle = draw(st.permutations([*stubs, *reactances]))
    network = MatchingNetwork(load, 50, (section, *middle, other))
    assume(abs(network.input_reflection()) < 1 - 1e-6)
    return network


def power(voltage, current):
    """Watts from crest volts and amperes."""
    return 0.5 * np.real(voltage * np.conj(current))


class TestPowerFlow:
    @given(network=networks())
    @settings(max_examples=60, deadline=None)
    def test_nothing_is_lost_unseen(self, network):
        """What the load gets and what each element turns to heat add up to what the input accepts."""
        flow = power_flow(network)

        assert pytest.approx(1, abs=1e-12) == flow.efficiency + sum(flow.lost)
        assert all(share >= 0 for share in flow.lost)
        assert pytest.approx(1 - abs(network.input_reflection()) ** 2, abs=1e-12) == flow.accepted

    @pytest.mark.parametrize("network", [*single_stub(60 - 80j, 50), *quarter_wave(60 - 80j, 50)])
    def test_lossless_match_delivers_everything(self, network):
        """A matched lossless network delivers all available power to the load, with no loss in decibels."""
        flow = power_flow(network)

        assert pytest.approx([1, 1, 0]) == [flow.accepted, flow.delivered, flow.loss_db]

    def test_mismatch(self):
        """Without loss what is not accepted is reflected: 1 - |reflection|^2 is delivered."""
        assert pytest.approx(1 - 0.5**2) == power_flow(MatchingNetwork(150, 50, ())).delivered

    def test_matched_cable(self):
        """A matched cable of some decibels delivers so much less."""
        cable = MatchingNetwork(50, 50, (Section(7.3, 50, attenuation=3 / 7.3 / 8.685889638065037),))

        assert pytest.approx(3) == power_flow(cable).loss_db

    @pytest.mark.parametrize("load", [0, np.inf, 50j])
    def test_load_that_takes_nothing(self, load):
        """A short, an open circuit or a reactance gets nothing: efficiency zero, loss without bound."""
        flow = power_flow(MatchingNetwork(load, 50, (Section(0.3, 50, 0.1),)))

        assert 0 == flow.efficiency
        assert np.inf == flow.loss_db

    @pytest.mark.parametrize("load", [0, np.inf, 50j, -3j])
    def test_what_a_powerless_load_accepts_is_lost(self, load):
        """A load that takes nothing behind a lossy line: all that is accepted turns to heat in the line."""
        network = MatchingNetwork(load, 50, (Section(0.3, 50, 0.1),))
        flow = power_flow(network)

        assert pytest.approx(1 - np.exp(-4 * 0.03)) == flow.accepted
        assert (0, 1) == (flow.efficiency, flow.lost[0])

    def test_lossless_elements_lose_nothing(self):
        """Lines and stubs without loss turn exactly nothing to heat, however high the SWR on them."""
        network = MatchingNetwork(
            1e-7 + 40j, 50, (Section(0.3, 75), Stub(0.1, 20), Reactance(3.0), Stub(0.2, 90))
        )
        flow = power_flow(network)

        assert (0, 0, 0, 0) == flow.lost
        assert 1 == flow.efficiency

    def test_over_frequency(self):
        """Networks and frequencies broadcast; without loss delivered is what is not reflected."""
        near = single_stub([60 - 80j, 20, 100], 50)[0]
        ratios = np.linspace(0.7, 1.3, 5)
        flow = power_flow(near, ratios)

        assert (3, 5) == flow.delivered.shape
        assert pytest.approx(1 - abs(near.input_reflection(ratios)) ** 2) == flow.delivered

    def test_more_standing_wave_more_loss(self):
        """In the same cable a mismatched load wastes more of what the input accepts than a matched one."""
        cable = Section(5.0, 50, attenuation=0.05)
        losses = [
            1 - power_flow(MatchingNetwork(load, 50, (cable,))).efficiency for load in (50, 100, 200, 400)
        ]

        assert losses == sorted(losses)


def test_detuned_is_the_response():
    """A lossy network detuned to a ratio reflects at its own design frequency what the network does at the
    ratio."""
    network = with_attenuation(single_stub(60 - 80j, 50)[0], 0.2)

    assert pytest.approx(network.input_reflection(1.3), abs=1e-14) == network.detuned(1.3).input_reflection()


class TestStandingWaves:
    @given(network=networks())
    @settings(max_examples=60, deadline=None)
    def test_power_goes_where_the_flow_says(self, network):
        """The power at the load, from voltage and current there, is what the power flow says."""
        waves = standing_waves(network, power=3.0, points=5)
        at_load = waves[0].voltage[0], waves[0].current[0]

        assert pytest.approx(network.load_impedance, rel=1e-6) == at_load[0] / at_load[1]
        assert pytest.approx(3 * power_flow(network).efficiency, rel=1e-6, abs=1e-12) == power(*at_load)

    @given(network=networks())
    @settings(max_examples=60, deadline=None)
    def test_ends_of_stubs(self, network):
        """At its end a short stub has no voltage, and an open one no current."""
        for wave in standing_waves(network, points=3):
            if isinstance(wave.element, Stub):
                assert 0 == (wave.voltage if wave.element.end == "short" else wave.current)[0]

    @given(network=networks())
    @settings(max_examples=60, deadline=None)
    def test_peaks_are_exact(self, network):
        """No point of a line is above its peak, and on a fine grid some point comes close to it."""
        for wave in standing_waves(network, points=8001):
            for along, peak in ((wave.voltage, wave.peak_voltage), (wave.current, wave.peak_current)):
                highest = np.abs(along).max()
                assert highest <= peak * (1 + 1e-12) + 1e-300
                assert pytest.approx(peak, rel=1e-5) == highest

    def test_continuity(self):
        """A shunt stub has the junction's voltage, and its current is what the line loses there."""
        near = single_stub(60 - 80j, 50)[0]
        line, stub = standing_waves(near, power=10, points=9)

        assert pytest.approx(line.voltage[-1]) == stub.voltage[-1]
        # The junction is matched: what flows in from the generator is voltage over line impedance.
        assert pytest.approx(line.voltage[-1] / 50) == line.current[-1] + stub.current[-1]

    def test_series_stub_continuity(self):
        """A series stub has the line's current, and its voltage adds to the line's."""
        near = single_stub(100 + 80j, 50, placement="series", end="open")[0]
        line, stub = standing_waves(near, power=10, points=9)

        assert pytest.approx(line.current[-1]) == stub.current[-1]
        assert pytest.approx(line.current[-1] * 50) == line.voltage[-1] + stub.voltage[-1]

    def test_half_wave_stubs(self):
        """Half-wave stubs that change nothing carry a wave all the same: its crest inside is a quarter wave
        away."""
        stubs = (Stub(0.5, 30, "series", "short"), Stub(0.5, 80, "shunt", "open"))
        series, shunt = standing_waves(MatchingNetwork(50, 50, stubs), power=25)

        assert pytest.approx([1, 30]) == [series.peak_current, series.peak_voltage]
        assert pytest.approx([50 / 80, 50]) == [shunt.peak_current, shunt.peak_voltage]

    def test_standing_wave_ratio(self):
        """On a lossless line long enough, crest over least voltage is the standing-wave ratio."""
        wave = standing_waves(MatchingNetwork(20 + 30j, 50, (Section(1.0, 50),)), points=20_001)[0]
        size = np.abs(wave.voltage)

        assert pytest.approx(swr((20 + 30j - 50) / (20 + 30j + 50)), rel=1e-6) == size.max() / size.min()

    def test_arrays(self):
        """Networks and powers of any shapes broadcast; along the line comes last."""
        near = single_stub(np.array([60 - 80j, 20]), 50)[0]
        stub = standing_waves(near, np.array([[1.0], [2], [4]]), points=7)[1]

        assert ((3, 2, 7), (3, 2)) == (stub.voltage.shape, stub.peak_voltage.shape)
        assert pytest.approx(stub.peak_voltage[0] * 2) == stub.peak_voltage[2]


class TestPeakVoltage:
    def test_matched_line(self):
        """On a matched line of 50 ohm 100 watts make 100 volts at the crest."""
        assert pytest.approx(100) == peak_voltage(MatchingNetwork(50, 50, (Section(0.3, 50),)), 100)

    def test_mismatched_line(self):
        """With a standing-wave ratio the crest is higher by its square root, for the same power delivered."""
        network = MatchingNetwork(150, 50, (Section(0.5, 50),))

        assert pytest.approx(100 * np.sqrt(3)) == peak_voltage(network, 100)

    def test_grows_as_the_root(self):
        """Four times the power makes twice the voltage."""
        far = single_stub(60 - 80j, 50)[1]

        assert pytest.approx(2 * peak_voltage(far, 10)) == peak_voltage(far, 40)

    def test_without_lines(self):
        """In a lumped network it is the highest voltage at a load or a junction."""
        network = MatchingNetwork(50, 50, (Reactance(200, "series"),))
        current = np.sqrt(2 * 10 / 50)

        assert pytest.approx(current * abs(50 + 200j)) == peak_voltage(network, 10)

    def test_no_power_can_be_put_in(self):
        """Into a network that accepts no power none can be put, and no voltage is told."""
        assert np.isnan(peak_voltage(MatchingNetwork(50j, 50, ()), 1))

    @pytest.mark.parametrize("watts", [0, -1, np.nan])
    def test_impossible_power(self, watts):
        """Power is a number of watts above zero."""
        with pytest.raises(OutOfRange, match="power must be a number above 0"):
            peak_voltage(MatchingNetwork(50, 50, ()), watts)


def test_loss_lowers_the_efficiency():
    """A design cut from lossy line no longer matches, and solved again it matches and delivers a little
    less."""
    near = single_stub(60 - 80j, 50)[0]
    cut, solved = with_attenuation(near, 0.05), lossy_single_stub(60 - 80j, 50, 0.05)[0]

    assert abs(cut.input_reflection()) > 0.01 > abs(solved.input_reflection())
    assert 0.9 < power_flow(solved).delivered < 1
