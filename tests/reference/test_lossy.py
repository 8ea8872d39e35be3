"""Lossy lines against scikit-rf, against fifty digits, and against handbook formulas.

Formulas are from memory, with their source beside each.
"""

import mpmath
import numpy as np
import pytest

from core import (
    MatchingNetwork,
    Section,
    attenuation_from_db,
    input_impedance,
    lossy_single_stub,
    power_flow,
    reflection_coefficient,
    standing_waves,
)
from tests.reference.lossy_cascade import cascade

LOADS = [60 - 80j, 15 + 10j, 100 + 80j, 25 - 50j, 200 + 0j]
KINDS = [("shunt", "short"), ("shunt", "open"), ("series", "short"), ("series", "open")]
every_kind = pytest.mark.parametrize(("placement", "end"), KINDS, ids=[" ".join(kind) for kind in KINDS])


@every_kind
@pytest.mark.parametrize("loss_db", [0.1, 0.5, 2.0])
def test_matched_by_the_librarys_cascade(loss_db, placement, end):
    """Every solution is matched when scikit-rf builds it from its own lossy lines, to 1e-9."""
    for load in LOADS:
        solutions = lossy_single_stub(load, 50.0, attenuation_from_db(loss_db), None, 65.0, placement, end)
        assert len(solutions) == 2
        for network in solutions:
            assert abs(cascade(network, [1.0])[0]) < 1e-9


@every_kind
def test_fifty_digits(placement, end):
    """Both lengths of every solution are right to 1e-12, by root-finding on the tanh formulas at fifty
    digits."""
    with mpmath.workdps(50):
        for load in LOADS:
            for network in lossy_single_stub(load, 50, 0.07, 0.11, 75, placement, end):
                exact = _exact_lengths(network, placement, end)
                assert pytest.approx(exact, abs=1e-12) == (network.distance, network.stub_length)


def _exact_lengths(network, placement, end):
    """The lengths nearby at which line and stub, by the tanh formulas, add up to a match."""
    normalised = mpmath.mpc(network.load_impedance) / 50
    shunt = placement == "shunt"
    own, ratio = (1 / normalised, mpmath.mpf(50) / 75) if shunt else (normalised, mpmath.mpf(75) / 50)
    line, stub = mpmath.mpf(0.07) + 2j * mpmath.pi, mpmath.mpf(0.11) + 2j * mpmath.pi

    def error(distance, length):
        tangent = mpmath.tanh(line * distance)
        shown = mpmath.tanh(stub * length)
        total = (own + tangent) / (1 + own * tangent) + ratio * (
            1 / shown if shunt == (end == "short") else shown
        )
        return (total - 1).real, (total - 1).imag

    found = mpmath.findroot(error, (network.distance, network.stub_length))
    return float(found[0]), float(found[1])


@pytest.mark.parametrize("ratio", [1.5, 3, 6, 10])
@pytest.mark.parametrize("matched_loss_db", [0.5, 1, 3, 6])
def test_total_loss_of_a_mismatched_cable(matched_loss_db, ratio):
    """Total loss of a cable is 10 log10 (B^2 - C^2) / (B (1 - C^2)), B its matched loss, C the load's
    |reflection|.

    Source: ARRL Handbook, chapter on transmission lines, total loss with mismatch (from memory)."""
    network = MatchingNetwork(50 * ratio, 50, (Section(3.7, 50, attenuation_from_db(matched_loss_db / 3.7)),))
    matched, size = 10 ** (matched_loss_db / 10), (ratio - 1) / (ratio + 1)
    expected = 10 * np.log10((matched**2 - size**2) / (matched * (1 - size**2)))

    assert pytest.approx(expected, abs=1e-9) == -10 * np.log10(power_flow(network).efficiency)


@pytest.mark.parametrize("load", LOADS)
def test_power_of_a_lossy_line(load):
    """Power in, to the load and lost are those of the closed forms with |reflection| at either end.

    Source: Pozar, Microwave Engineering, 4th ed., eq. 2.92 to 2.94 (from memory)."""
    attenuation, length = 0.05, 1.7
    network = MatchingNetwork(load, 50, (Section(length, 50, attenuation),))
    size = abs(reflection_coefficient(load, 50)) ** 2
    growth = np.exp(2 * attenuation * length)
    entering, delivered = growth - size / growth, 1 - size

    assert pytest.approx(delivered / entering) == power_flow(network).efficiency
    assert pytest.approx(1 - delivered / entering) == power_flow(network).lost[0]


@pytest.mark.parametrize("load", LOADS)
def test_input_of_a_lossy_line(load):
    """The evaluator's input of a lossy section is that of the tanh formula at fifty digits.

    Source: Pozar, Microwave Engineering, 4th ed., eq. 2.91 (from memory)."""
    with mpmath.workdps(50):
        tangent = mpmath.tanh((mpmath.mpf(0.3) + 2j * mpmath.pi) * mpmath.mpf(1.3))
        exact = complex(75 * (load + 75 * tangent) / (75 + load * tangent))
    seen = MatchingNetwork(load, 50, (Section(1.3, 75, 0.3),)).input_reflection()

    assert pytest.approx((exact - 50) / (exact + 50), abs=1e-14) == seen
    assert pytest.approx(exact, rel=1e-13) == input_impedance(load, 75, 1.3, 0.3)


def test_voltage_along_a_line():
    """Crest voltage along a mismatched line is |V+| |1 + reflection e^(-2 j beta l)|, highest |V+| (1 +
    |reflection|).

    Source: Pozar, Microwave Engineering, 4th ed., eq. 2.39 and 2.40 (from memory)."""
    load, watts = 60 - 80j, 5.0
    (wave,) = standing_waves(MatchingNetwork(load, 50, (Section(0.8, 50),)), watts, points=401)
    gamma = reflection_coefficient(load, 50)
    incident = np.sqrt(2 * 50 * watts / (1 - abs(gamma) ** 2))

    assert pytest.approx(incident * abs(1 + gamma * np.exp(-4j * np.pi * wave.distance))) == abs(wave.voltage)
    assert pytest.approx(incident * (1 + abs(gamma))) == wave.peak_voltage
    assert pytest.approx(incident * (1 + abs(gamma)) / 50) == wave.peak_current
