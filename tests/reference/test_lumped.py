"""L networks against published worked examples, handbook formulas and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest

from core import l_network
from tests.reference.library_cascade import DESIGN_FREQUENCY, RATIOS, cascaded_reflection


def test_two_networks_inside_the_unit_circle():
    """200-j100 ohm on 100 ohm at 500 MHz: 0.92 pF and 38.8 nH, or 46.1 nH and 2.61 pF; b, x 0.29, 1.22 or -0.69, -1.22.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.1 (from memory), read from a chart."""
    low_pass, high_pass = l_network(200 - 100j, 100, 500e6)

    assert [0.92e-12, 38.8e-9] == pytest.approx(
        [low_pass.shunt.capacitance, low_pass.series.inductance], rel=0.006
    )
    assert [46.1e-9, 2.61e-12] == pytest.approx(
        [high_pass.shunt.inductance, high_pass.series.capacitance], rel=0.006
    )
    assert [0.29, 1.22] == pytest.approx([low_pass.shunt_susceptance, low_pass.series_reactance], abs=0.006)
    assert [-0.69, -1.22] == pytest.approx(
        [high_pass.shunt_susceptance, high_pass.series_reactance], abs=0.006
    )
    assert 0.4 + 0.2j == pytest.approx(low_pass.load_admittance, abs=1e-12)


def test_by_quality_factor():
    """1000 ohm to 100 ohm at 100 MHz: a quality factor of 3, 477 nH and 4.8 pF.

    Source: Bowick, RF Circuit Design, Ex 4-1 (from memory)."""
    network = l_network(1000, 100, 100e6)[0]

    assert 3.0 == pytest.approx(network.quality_factor, rel=1e-12)
    assert 477e-9 == pytest.approx(network.series.inductance, abs=0.6e-9)
    assert 4.8e-12 == pytest.approx(network.shunt.capacitance, abs=0.05e-12)


def test_stray_capacitance_is_absorbed():
    """1000 ohm beside 2 pF at 100 MHz needs 2 pF less across it: 2.8 pF. Of the inductor, 200 nH serve to cancel
    a source reactance of 126 ohm, which leaves 277 nH.

    Source: Bowick, RF Circuit Design, Ex 4-2 (from memory)."""
    speed = 2 * np.pi * 100e6
    network = l_network(1 / (1 / 1000 + 1j * speed * 2e-12), 100, 100e6)[0]

    assert 2.8e-12 == pytest.approx(network.shunt.capacitance, abs=0.05e-12)
    assert network.series.inductance is not None
    assert 277e-9 == pytest.approx(network.series.inductance - 126 / speed, abs=0.6e-9)


def test_inside_the_unit_conductance_circle():
    """10+j10 ohm on 50 ohm at 500 MHz: 3.18 nH in series, then 12.74 pF across.

    Source: Gonzalez, Microwave Transistor Amplifiers, 2nd ed., section 2.4 (from memory, the number uncertain)."""
    network = l_network(10 + 10j, 50, 500e6)[0]

    assert 3.18e-9 == pytest.approx(network.series.inductance, abs=0.005e-9)
    assert 12.74e-12 == pytest.approx(network.shunt.capacitance, abs=0.02e-12)


def test_handbook_formulas():
    """Of two resistances, Q = sqrt(high/low - 1), the series part has Q times the lower, the shunt part the higher
    over Q, whichever of them is the load.

    Source: common practice, no source; in every amateur's handbook."""
    high, low = 50 * np.geomspace(1.05, 40, 200), 50.0
    quality = np.sqrt(high / low - 1)
    down, up = l_network(high, low)[0], l_network(low, high)[2]

    for network in (down, up):
        assert quality == pytest.approx(network.quality_factor, rel=1e-12)
        assert high / quality == pytest.approx(-network.shunt.reactance, rel=1e-12)
        assert quality * low == pytest.approx(network.series.reactance, rel=1e-12)


@pytest.mark.parametrize("load", [15 + 30j, 200 - 100j, 10 + 5j, 50 + 30j, 25 - 25j])
def test_response_agrees_with_scikit_rf(load):
    """Over two octaves the networks reflect as the same parts in scikit-rf, as designed and with preferred values,
    to 1e-12.

    Source: scikit-rf, general-purpose library."""
    found = l_network(load, 50, DESIGN_FREQUENCY)
    for network in (*found, *(n.with_preferred(s) for n in found for s in ("E12", "E24"))):
        got = network.input_reflection(RATIOS)
        assert cascaded_reflection(network, RATIOS) == pytest.approx(got, abs=1e-12)
    assert len(found) >= 2
