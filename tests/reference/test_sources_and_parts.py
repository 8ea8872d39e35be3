"""Sources of any impedance, L, Pi and T networks and parts with loss: published examples and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

from itertools import product

import numpy as np
import pytest
from mpmath.ctx_mp import MPContext

import core
from tests.reference.library_cascade import DESIGN_FREQUENCY, RATIOS, cascaded_gain, cascaded_reflection

EXACT = MPContext()
EXACT.dps = 40
WHIP, TRANSMITTER = 60 - 80j, 35 + 12j
AGREED = 1e-10


def test_available_power():
    """The part of the available power that a load takes is 4 Rs R / |Zs + Z|², all of it for the conjugate.

    Source: Pozar, Microwave Engineering, 4th ed., eq. 2.75 to 2.81 (from memory)."""
    rng = np.random.default_rng(1)
    load, source = (rng.uniform(1, 200, 1_000) + 1j * rng.normal(0, 100, 1_000) for _ in range(2))
    taken = 1 - np.abs(core.power_reflection(load, source)) ** 2

    assert 4 * source.real * load.real / np.abs(source + load) ** 2 == pytest.approx(taken, abs=1e-13)
    assert 0 == np.abs(core.power_reflection(np.conj(source), source)).max()


def test_l_network_between_complex_impedances():
    """Between 50+10j and 100+50j ohm the shunt part nearer the load is 172.5 or -72.5 ohm, the series one with it
    -71.2 or 51.2 ohm.

    Source: S. J. Orfanidis, Electromagnetic Waves and Antennas, chapter on impedance matching, L-section matching
    example (from memory)."""
    found = [[p.reactance for p in n.elements] for n in core.conjugate_l_network(100 + 50j, 50 + 10j)]

    assert [-72.4745, 51.2372] == pytest.approx(found[0], abs=5e-5)
    assert [172.4745, -71.2372] == pytest.approx(found[1], abs=5e-5)


def test_l_network_that_absorbs_reactances():
    """From 100+126j ohm to 1000 ohm beside 2 pF at 100 MHz a low-pass has 277 nH and 2.8 pF.

    Source: C. Bowick, RF Circuit Design, Ex 4-2 (from memory, the number uncertain)."""
    load = 1 / (1e-3 + 2j * np.pi * 100e6 * 2e-12)
    shunt, series = core.conjugate_l_network(load, 100 + 126j, 100e6)[0].elements

    assert ("capacitor", "inductor") == (shunt.kind, series.kind)
    assert 2.8e-12 == pytest.approx(shunt.capacitance, abs=0.05e-12)
    assert 277e-9 == pytest.approx(series.inductance, abs=0.5e-9)


def test_pi_networks():
    """From 100 to 1000 ohm with a quality factor of 15 the shunt parts have 66.7 and 21.7 ohm, the series part the
    sum or the difference of 66.7 and 20.5 ohm, four networks in all.

    Source: C. Bowick, RF Circuit Design, Ex 4-4 (from memory, the number uncertain), read to two digits."""
    found = [[part.reactance for part in n.elements] for n in core.pi_network(1000, 100, 15)]
    expected = [
        [-near * 66.7, near * 66.4 + far * 20.5, -far * 21.7] for near, far in product((1, -1), repeat=2)
    ]

    assert np.allclose(expected, found, rtol=0.012)


def test_t_networks():
    """From 10 to 50 ohm with a quality factor of 10 the series parts have 100 and 220 ohm, the shunt part that of
    101 and 230 ohm side by side, four networks in all.

    Source: C. Bowick, RF Circuit Design, Ex 4-5 (from memory, the number uncertain), read to two digits."""
    found = [[part.reactance for part in n.elements] for n in core.t_network(50, 10, 10)]
    expected = [
        [near * 220, -1 / (near / 230 + far / 101), far * 100] for near, far in product((1, -1), repeat=2)
    ]

    assert np.allclose(expected, found, rtol=0.012)


@pytest.mark.parametrize("ratio", [2, 5, 20])
def test_efficiency_of_an_l_network(ratio):
    """With a lossy coil and a good capacitor the efficiency is 1 - Q / Q of the coil, where that is little.

    Source: Y. Han and D. J. Perreault, Analysis and design of high efficiency matching networks, IEEE Trans. Power
    Electronics 21 (2006) (from memory)."""
    quality = np.sqrt(ratio - 1)
    for coil in (300, 3_000):
        best = core.lossy_l_network(50 * ratio, 50, coil)[0]

        assert 1 - quality / coil == pytest.approx(best.efficiency, abs=2 * (quality / coil) ** 2)
        assert quality / coil * 10 / np.log(10) == pytest.approx(best.loss_db, rel=2 * quality / coil)


def test_lossy_parts_at_forty_digits():
    """The parts solve the equations of the match at forty digits, to 1e-12."""
    for network in core.lossy_l_network(WHIP, TRANSMITTER, 40, 150):
        first, second = network.elements
        impedances = [
            EXACT.mpc(p.reactance / p.quality if p.reactance > 0 else -p.reactance / p.quality, p.reactance)
            for p in (first, second)
        ]
        seen = EXACT.mpc(WHIP)
        for part, own in zip(network.elements, impedances, strict=True):
            seen = seen + own if part.placement == "series" else 1 / (1 / seen + 1 / own)

        assert abs(seen - EXACT.mpc(TRANSMITTER.conjugate())) < 1e-12 * abs(TRANSMITTER)


NETWORKS = {
    "conjugate L": core.conjugate_l_network(WHIP, TRANSMITTER, DESIGN_FREQUENCY),
    "lossy L": core.lossy_l_network(WHIP, TRANSMITTER, 40, 150, DESIGN_FREQUENCY),
    "Pi": core.pi_network(WHIP, TRANSMITTER, 7, DESIGN_FREQUENCY),
    "T": core.t_network(WHIP, TRANSMITTER, 7, DESIGN_FREQUENCY),
    "shunt stub": core.conjugate_single_stub(WHIP, TRANSMITTER, 50, 75, "shunt", "open", 0.07),
    "series stub": core.conjugate_single_stub(WHIP, TRANSMITTER, 50, 75, "series", "short"),
    "quarter wave": core.conjugate_quarter_wave(WHIP, TRANSMITTER, 50),
    "section": core.conjugate_section(150 + 20j, TRANSMITTER),
}


@pytest.mark.parametrize("networks", NETWORKS.values(), ids=NETWORKS)
def test_power_waves_agree_with_scikit_rf(networks):
    """Over two octaves the networks reflect power waves as the same cascade in scikit-rf, to 1e-10.

    Source: scikit-rf, general-purpose library."""
    assert networks
    for network in networks:
        got = network.input_reflection(RATIOS)

        assert cascaded_reflection(network, RATIOS) == pytest.approx(got, abs=AGREED)
        assert abs(cascaded_reflection(network, [1.0])[0]) < AGREED


def test_loss_agrees_with_scikit_rf():
    """The efficiency of L networks of lossy parts is the gain of scikit-rf's cascade, to 1e-10.

    Source: scikit-rf, general-purpose library."""
    for network in core.lossy_l_network(200, 50, 40, 150, DESIGN_FREQUENCY):
        assert cascaded_gain(network) == pytest.approx(network.efficiency, abs=AGREED)
        assert 0.9 < network.efficiency < 1
