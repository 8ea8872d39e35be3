"""Rows of sections, tapers and the bandwidth limit: published tables and examples, and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.special import i1

import core
from core.tapers import _phi
from tests.reference.library_cascade import RATIOS, cascaded_reflection

AGREED = 1e-10


@pytest.mark.parametrize(
    ("ratio", "printed"),
    [
        (2.0, [1.1892, 1.6818]),
        (2.0, [1.0907, 1.4142, 1.8337]),
        (2.0, [1.0444, 1.2421, 1.6102, 1.9150]),
        (4.0, [1.4142, 2.8285]),
    ],
)
def test_binomial_table(ratio, printed):
    """Exact impedances agree with the table's to its last digit, from the line to the load.

    Source: Pozar, Microwave Engineering, 4th ed., table 5.1 (from memory)."""
    network = core.binomial_transformer(ratio, 1.0, len(printed))[0]

    assert printed == pytest.approx(network.section_impedances[::-1], abs=1.1e-4)


@pytest.mark.parametrize("ratio", [1.1, 3.0, 25.0])
def test_two_sections_in_closed_form(ratio):
    """Two maximally flat sections are the fourth roots of the resistance ratio and of its cube.

    Source: R. E. Collin, Foundations for Microwave Engineering, 2nd ed., section 5.10 (from memory)."""
    network = core.binomial_transformer(ratio, 1.0, 2)[0]

    assert [ratio**0.75, ratio**0.25] == pytest.approx(network.section_impedances, rel=1e-13)


def test_binomial_example():
    """Three sections from 50 to 100 ohm have 91.7, 70.7 and 54.5 ohm, and 70 % band at a reflection of 0.05.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.6 (from memory)."""
    network = core.binomial_transformer(50, 100, 3, theory="small reflections")[0]

    assert [54.5, 70.7, 91.7] == pytest.approx(network.section_impedances, abs=0.05)
    assert 0.70 == pytest.approx(core.bandwidth(network, 1.05 / 0.95).fraction, abs=0.01)


def test_equal_ripple_example():
    """Three sections from 100 to 50 ohm with ripples of 0.05 have 87.0, 70.7 and 57.5 ohm, and 101 % band.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.7 (from memory)."""
    for theory, band in (("small reflections", 0.012), ("exact", 0.012)):
        network = core.chebyshev_transformer(100, 50, 3, swr=1.05 / 0.95, theory=theory)[0]

        assert [87.0, 70.7, 57.5] == pytest.approx(network.section_impedances, abs=0.05)
        assert 1.01 == pytest.approx(core.bandwidth(network, 1.0501 / 0.9499).fraction, abs=band)


@pytest.mark.parametrize(("largest", "printed"), [(0.05, [1.2193, 1.6402]), (0.20, [1.3161, 1.5197])])
def test_equal_ripple_table(largest, printed):
    """Exact impedances of two sections for a ratio of 2 agree with the table's to its last digit.

    Source: Pozar, Microwave Engineering, 4th ed., table 5.2 (from memory)."""
    network = core.chebyshev_transformer(2, 1.0, 2, swr=(1 + largest) / (1 - largest))[0]

    assert printed == pytest.approx(network.section_impedances[::-1], abs=1e-4)


def test_taper_example():
    """From 100 to 50 ohm with ripples of 0.02 the optimum taper has A = 3.543; the others' first nulls are at
    pi and at 2 pi.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.8 (from memory)."""
    assert 3.543 == pytest.approx(2 * np.pi * core.optimum_taper(100, 50, 0.02)[0].length, abs=0.002)
    assert [0, 0] == pytest.approx(
        [core.taper_reflection(100, 50, 0.5), core.taper_reflection(100, 50, 1.0, "triangular")], abs=1e-16
    )
    assert np.log(2) / 2 * (2 / np.pi) ** 2 == pytest.approx(
        core.taper_reflection(100, 50, 0.5, "triangular")
    )


@pytest.mark.parametrize("height", [0.3, 3.5, 12.0])
def test_the_integral_of_the_optimum_taper(height):
    """The series is the integral of I1(A s) / (A s) with s = sqrt(1 - y²), and at its end (cosh A - 1) / A².

    Source: Pozar, Microwave Engineering, 4th ed., eq. 5.75 (from memory), integrated by scipy."""

    def integrand(y):
        size = height * np.sqrt(1 - y * y)
        return i1(size) / size if size else 0.5

    assert (np.cosh(height) - 1) / height**2 == pytest.approx(_phi(np.array(1.0), height), rel=1e-13)
    for place in (-0.4, 0.7):
        assert quad(integrand, 0, place)[0] == pytest.approx(_phi(np.array(place), height), rel=1e-10)


@pytest.mark.parametrize("designer", [core.exponential_taper, core.triangular_taper])
@pytest.mark.parametrize("frequency", [0.5, 1.0, 1.7])
def test_steps_agree_with_the_taper_itself(designer, frequency):
    """The steps reflect as the smooth taper does, whose Riccati equation is integrated along it, to 1e-4.

    Source: Gamma' = -2 j beta Gamma + (1 - Gamma²) (ln Z)' / 2, R. E. Collin, Foundations for Microwave Engineering,
    2nd ed., section 5.15 (from memory), integrated by scipy."""
    ratio, length = 4.0, 1.0

    def slope(place):
        if designer is core.exponential_taper:
            return np.log(ratio)
        return np.log(ratio) * 4 * min(place, 1 - place)

    def along(from_load, gamma):
        return -4j * np.pi * frequency * length * gamma + (1 - gamma**2) * slope(1 - from_load) / 2

    solved = solve_ivp(along, (0, 1), [0j], rtol=1e-10, atol=1e-12, max_step=0.01)
    network = designer(50 * ratio, 50, length, steps=400)[0]

    assert abs(solved.y[0, -1]) == pytest.approx(abs(network.input_reflection(frequency)), abs=1e-4)


@pytest.mark.parametrize(
    ("shape", "designer"), [("exponential", core.exponential_taper), ("triangular", core.triangular_taper)]
)
def test_small_reflections_of_a_taper(shape, designer):
    """For a ratio of 1.1 the theory of small reflections holds to 2e-4 of it all."""
    network, frequency = designer(55, 50, 1.0, steps=300)[0], np.linspace(0.1, 4, 80)
    expected = core.taper_reflection(55, 50, frequency, shape)

    assert np.abs(network.input_reflection(frequency)) == pytest.approx(expected, abs=2e-4)


def test_optimum_taper_keeps_its_ripple():
    """From 1 % over its frequency to five times that the reflection stays at the ripple; below it passes that."""
    network, frequency = core.optimum_taper(100, 50, 0.02, steps=300)[0], np.linspace(1.01, 5, 2_000)
    size = np.abs(network.input_reflection(frequency))

    assert 0.02 == pytest.approx(size.max(), rel=2e-3)
    assert abs(network.input_reflection(0.9)) > 0.022


NETWORKS = {
    "binomial": core.binomial_transformer(60 - 80j, 50, 4),
    "equal ripples": core.chebyshev_transformer(60 - 80j, 50, 3, bandwidth=0.8),
    "taper": core.optimum_taper(60 - 80j, 50, 0.05, steps=24),
    "equal stubs": core.two_equal_stubs(60 - 80j, 50, 75, "open"),
    "series double stub": core.series_double_stub(60 - 80j, 50, 0.11, 0.1, ("short", "open"), (75, 40)),
    "triple stub": core.triple_stub(
        60 - 80j, 50, (0.11, 0.2), 0.1, 0.43, ("short", "open", "short"), (75, 40, 60)
    ),
    "stub and section": core.stub_and_section(60 - 80j, 50, 100, 75, "series", "open"),
}


@pytest.mark.parametrize("networks", NETWORKS.values(), ids=NETWORKS)
def test_responses_agree_with_scikit_rf(networks):
    """Over two octaves the networks reflect as the same cascade in scikit-rf, to 1e-10.

    Source: scikit-rf, general-purpose library."""
    assert networks
    for network in networks:
        assert cascaded_reflection(network, RATIOS) == pytest.approx(
            network.input_reflection(RATIOS), abs=AGREED
        )


def test_stubs_of_the_double_stub_example():
    """A triple stub whose first stub adds nothing, half a wave away, is the printed double stub; the load's dual
    with series stubs has the same lengths.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.4 (from memory)."""
    printed = [(0.146, 0.204), (0.482, 0.350)]
    three = core.triple_stub(60 - 80j, 50, (0.5, 1 / 8), ends=("open", "open", "open"))
    dual = core.series_double_stub(2500 / (60 - 80j), 50, 1 / 8, ends=("short", "short"))

    assert {0.0} == {network.stub_lengths[0] for network in three}
    assert np.allclose(printed, [network.stub_lengths[1:] for network in three], atol=0.0015)
    assert np.allclose(printed, [network.stub_lengths for network in dual], atol=0.0015)


def test_equal_stubs_of_the_single_stub_example():
    """Of the printed single stubs, b = -1.47 and 1.47 at 0.110 and 0.260 wavelengths, each of two brings half.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.2 (from memory); half the susceptance on each side is common
    practice in microstrip, G. Gonzalez, Microwave Transistor Amplifiers, 2nd ed., section 2.5 (from memory)."""
    found = core.two_equal_stubs(60 - 80j, 50)

    assert [0.110, 0.260] == pytest.approx([network.distance for network in found], abs=0.0015)
    assert [-1.47 / 2, 1.47 / 2] == pytest.approx(
        [-1 / np.tan(2 * np.pi * network.stub_length) for network in found], abs=0.005
    )


def test_every_load_has_a_triple_stub():
    """Three stubs match every load that takes power, at spacings where two leave a forbidden region.

    Source: R. E. Collin, Foundations for Microwave Engineering, 2nd ed., section 5.6 (from memory)."""
    gamma = 0.98 * np.sqrt(np.linspace(0, 1, 2_000)) * np.exp(1j * np.arange(2_000))
    load = 50 * (1 + gamma) / (1 - gamma)
    size = np.abs([n.input_reflection() for n in core.triple_stub(load, 50, (1 / 8, 1 / 8))])

    assert np.nanmin(size, axis=0).max() < 1e-12
    assert np.isnan(core.double_stub(load, 50, 1 / 8)[0].stub_lengths[0]).sum() > 200


def test_band_of_a_load_tuned_only():
    """A resistance with coil and capacitor in resonance has Q times band (S - 1) / sqrt(S), of a limit of pi over
    ln((S + 1) / (S - 1)): 0.707 of 2.860 at SWR 2.

    Source: A. R. Lopez, Review of narrowband impedance-matching limitations, IEEE Antennas and Propagation Magazine
    46 (2004) (from memory)."""
    load = core.SeriesLoad(50, 250, 250)
    network = core.MatchingNetwork(50, 50, ())

    assert 0.7071 / 5 == pytest.approx(core.bandwidth(network, 2.0, load).fraction, abs=2e-5)
    assert 2.860 / 5 == pytest.approx(core.bandwidth_limit(load, 2.0), abs=1e-4)
    assert 0.7071 / 2.860 == pytest.approx(core.share_of_limit(network, 2.0, load), abs=1e-4)


def test_limit_of_a_parallel_load():
    """The reflection of a resistance with a capacitor across it is at least exp(-pi / (width R C)) in a band.

    Source: R. M. Fano (1950) and H. W. Bode (1945), as in Pozar, Microwave Engineering, 4th ed., eq. 5.80 (from
    memory)."""
    resistance, capacitance, lower, upper = 200.0, 5e-12, 400e6, 470e6
    load = core.ParallelLoad.from_components(434e6, resistance, capacitance=capacitance)
    expected = np.exp(-np.pi / (2 * np.pi * (upper - lower) * resistance * capacitance))

    assert expected == pytest.approx(core.reflection_limit(load, lower / 434e6, upper / 434e6), rel=1e-12)


@pytest.mark.parametrize("designed", [core.l_network, core.single_stub, core.quarter_wave])
def test_the_integral_is_never_passed(designed):
    """Summed over all frequencies, ln 1/|Gamma| of a resistance and coil behind any lossless network is at most
    pi R / L.

    Source: H. W. Bode (1945), as in Pozar, Microwave Engineering, 4th ed., section 5.9 (from memory); summed by
    trapezia to 30 times the design frequency, which leaves out a little, and adds 1e-4 where it is matched."""
    load = core.SeriesLoad(30, inductive_reactance=60)
    frequency = np.linspace(1e-4, 30, 150_001)
    for network in designed(30 + 60j, 50):
        depth = -np.log(np.abs(network.input_reflection(frequency, load.at(frequency))))
        total = np.sum((depth[1:] + depth[:-1]) * np.diff(frequency)) / 2

        assert 0.02 * np.pi * 30 / 60 < total <= np.pi * 30 / 60 * (1 + 2e-4)
