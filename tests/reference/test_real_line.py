"""Lines as they are, against published examples, mpmath, and scikit-rf, a general-purpose library.

All examples from memory, each recomputed here by formulas of its own beside the printed value where one is short.
"""

import mpmath
import numpy as np
import pytest
import skrf
from skrf.media import Coaxial, DefinedGammaZ0, MLine

from core import (
    CoaxialLine,
    DistributedLine,
    LossyLine,
    MatchingNetwork,
    Microstrip,
    MicrostripLine,
    RealSection,
    RealStub,
    Stripline,
    StriplineLine,
    surface_resistance,
)
from core.board import SPEED_OF_LIGHT

DESIGN = 434e6
SWEEP = skrf.Frequency(100, 900, 81, unit="MHz")
AGREED = 1e-10


class TestPublished:
    def test_cheng_distortionless(self):
        """D. K. Cheng, Field and Wave Electromagnetics, 2nd ed., example 9-3 (from memory): 50 ohm, 0.01 dB/m and 0.1
        nF/m without distortion: R 0.057 ohm/m, L 0.25 uH/m, G 22.8 uS/m, velocity 2e8 m/s."""
        resistance = 50 * 0.01 / 8.686
        line = DistributedLine(resistance, 0.25e-6, resistance * 0.1e-9 / 0.25e-6, 0.1e-9)
        hertz = np.geomspace(1e3, 1e9, 7)

        assert pytest.approx(0.057, abs=6e-4) == resistance
        assert pytest.approx(np.full(7, 0.01), rel=1e-4) == line.attenuation_db_per_m(hertz)
        assert pytest.approx(np.full(7, 50)) == line.characteristic_impedance(hertz)
        assert pytest.approx(np.full(7, 2e8)) == line.velocity_factor(hertz) * SPEED_OF_LIGHT

    def test_sadiku_lossy(self):
        """M. Sadiku, Elements of Electromagnetics, practice exercise 11.2 (from memory): at 500 MHz 3.2 ohm/m, 38.2
        nH/m, 0.5 mS/m and 5.97 pF/m make 80 ohm, 0.04 Np/m and 1.5 rad/m."""
        line = DistributedLine(3.2, 38.2e-9, 0.5e-3, 5.97e-12)

        assert pytest.approx(80, rel=1e-3) == line.characteristic_impedance(500e6).real
        assert pytest.approx(0.04 + 1.5j, rel=1e-3) == line.propagation_constant(500e6)

    def test_ulaby_coaxial_air_line(self):
        """F. Ulaby, Fundamentals of Applied Electromagnetics, exercise 2-2 (from memory): copper, 0.6 and 1.2 cm in
        diameter, air, 1 MHz: 2.07e-2 ohm/m, 0.14 uH/m, 0, 80.3 pF/m."""
        resistance, inductance, conductance, capacitance = CoaxialLine(6, 12).per_metre(1e6)

        assert (
            pytest.approx(2.07e-2, rel=0.01) == resistance
        )  # where the text leaves out the conductors' bend
        assert pytest.approx(0.14e-6, abs=0.5e-8) == inductance
        assert 0 == conductance
        assert pytest.approx(80.3e-12, abs=0.1e-12) == capacitance

    def test_pozar_stripline(self):
        """D. M. Pozar, Microwave Engineering, 4th ed., example 3.5 (from memory): 50 ohm, 0.32 cm between planes, 2.20,
        loss tangent 0.001, copper 0.01 mm, 10 GHz: 0.155 and 0.122 Np/m, together 2.41 dB/m."""
        board = Stripline(2.2, 3.2, "textbook")
        line = StriplineLine(board, 2.66, 0.001, 5.813e7, thickness_mm=0.01)
        copper = StriplineLine(board, 2.66, 0.0, 5.813e7, thickness_mm=0.01)

        assert pytest.approx(0.026, abs=5e-4) == surface_resistance(10e9, 5.813e7)
        assert pytest.approx(0.122, abs=1e-3) == copper.propagation_constant(10e9).real
        assert pytest.approx(0.155, abs=1e-3) == (
            line.propagation_constant(10e9).real - copper.propagation_constant(10e9).real
        )
        assert pytest.approx(2.41, abs=0.01) == line.attenuation_db_per_m(10e9)

    def test_pozar_microstrip(self):
        """D. M. Pozar, 4th ed., example 3.7 (from memory): 50 ohm on 0.5 mm of 9.9, loss tangent 0.001, width 0.483 mm,
        10 GHz, without dispersion: 1.08 Np/m in copper and 0.255 Np/m in the laminate."""
        board = Microstrip(9.9, 0.5, formulas="textbook")
        copper = MicrostripLine(board, 0.483, 0.0, 5.813e7)
        lossy = MicrostripLine(board, 0.483, 0.001, 5.813e7)
        low = 100e6  # where there is no dispersion yet; the laminate's loss goes with frequency
        laminate = lossy.propagation_constant(low).real - copper.propagation_constant(low).real

        assert pytest.approx(1.08, abs=0.01) == copper.propagation_constant(10e9).real
        assert pytest.approx(0.255, abs=2e-3) == laminate * 10e9 / low


@pytest.mark.parametrize("seed", range(20))
def test_against_mpmath(seed):
    """Propagation constant and impedance of random lines have all their digits, however small the loss."""
    rng = np.random.default_rng(seed)
    resistance, conductance = 10 ** rng.uniform(-12, 3), 10 ** rng.uniform(-12, 1)
    inductance, capacitance = 10 ** rng.uniform(-8, -5), 10 ** rng.uniform(-13, -9)
    hertz = 10 ** rng.uniform(1, 10)
    line = DistributedLine(resistance, inductance, conductance, capacitance)
    found, ohms = line.propagation_constant(hertz), line.characteristic_impedance(hertz)
    with mpmath.workdps(50):
        speed = 2 * mpmath.pi * mpmath.mpf(float(hertz))
        series = mpmath.mpc(float(resistance), speed * mpmath.mpf(float(inductance)))
        across = mpmath.mpc(float(conductance), speed * mpmath.mpf(float(capacitance)))
        constant, impedance = mpmath.sqrt(series * across), mpmath.sqrt(series / across)

        assert pytest.approx(float(constant.real), rel=1e-12) == found.real
        assert pytest.approx(float(constant.imag), rel=1e-12) == found.imag
        assert pytest.approx(complex(impedance), rel=1e-12) == ohms


MODELS = {
    "per metre": DistributedLine(5.0, 250e-9, 2e-4, 100e-12),
    "cable": LossyLine(75, 0.66, 1.2, 0.4),
    "coaxial": CoaxialLine(0.9, 2.95, 2.25, 0.01),
    "microstrip": MicrostripLine(Microstrip(4.4, 1.6, 0.035), 1.0, 0.02),
}


def medium(line):
    """The line as one of the library's media, its ports at 50 ohm."""
    constant, impedance = line.propagation_constant(SWEEP.f), line.characteristic_impedance(SWEEP.f)
    return DefinedGammaZ0(SWEEP, gamma=constant, z0=impedance, z0_port=50)


@pytest.mark.parametrize("line", MODELS.values(), ids=MODELS)
@pytest.mark.parametrize("load", [60 - 80j, 5, 400 - 300j])
def test_lossy_network(line, load):
    """A section, an open stub and another section cut from a lossy line reflect as the library's cascade does, at
    every frequency."""
    pieces = (RealSection(0.13, line, DESIGN), RealStub(0.21, line, DESIGN, "shunt", "open"))
    network = MatchingNetwork(load, 50, (*pieces, RealSection(1.7, line, DESIGN)))
    theirs = medium(line)
    end = skrf.Network.from_z(np.full((SWEEP.npoints, 1, 1), load), frequency=SWEEP, z0=50)
    whole = theirs.line(1.7, "m") ** theirs.shunt_delay_open(0.21, "m") ** theirs.line(0.13, "m") ** end

    assert np.abs(whole.s[:, 0, 0] - network.input_reflection(SWEEP.f / DESIGN)).max() < AGREED


@pytest.mark.parametrize(("lowest", "agreed"), [(0.4, 3e-3), (100, 1e-5)])
def test_coaxial_line_of_the_library(lowest, agreed):
    """A coaxial line's constants are those of the library's, which has the conductors' Bessel functions: nearly from
    four skin depths, and closer as the skin gets thin."""
    sweep = skrf.Frequency(lowest, lowest * 9, 20, unit="MHz")
    ours = CoaxialLine(0.9, 2.95, 2.25, 0.0004, 5.8e7).per_metre(sweep.f)
    theirs = Coaxial(sweep, Dint=0.9e-3, Dout=2.95e-3, epsilon_r=2.25, tan_delta=0.0004, sigma=5.8e7)

    for library, found in zip((theirs.R, theirs.L, theirs.G, theirs.C), ours, strict=True):
        assert pytest.approx(np.broadcast_to(library, 20), rel=agreed) == np.broadcast_to(found, 20)


@pytest.mark.parametrize(
    ("permittivity", "width", "height"), [(4.4, 3.0, 1.6), (9.9, 0.5, 0.5), (2.2, 1.0, 0.8)]
)
def test_microstrip_dispersion_of_the_library(permittivity, width, height):
    """Permittivity over frequency and loss in the laminate are those of the library's microstrip with the same two
    sets of formulas.

    Copper without thickness, which the library lets make the strip wider for dispersion too. Not compared: loss in
    copper, where the library crowds the current by the impedance on the laminate and not by that on air, and is
    further from the rule of incremental inductance."""
    sweep = skrf.Frequency(1, 10, 19, unit="GHz")
    clean = {"w": width / 1e3, "h": height / 1e3, "t": None, "ep_r": permittivity, "rho": None}
    media = [
        MLine(
            sweep,
            **clean,
            tand=tangent,
            model="hammerstadjensen",
            disp="kirschningjansen",
            diel="frequencyinvariant",
        )
        for tangent in (0.0, 1e-6)
    ]
    board = Microstrip(permittivity, height)
    ours, copper = MicrostripLine(board, width, 1e-6), MicrostripLine(board, width)
    laminate = ours.propagation_constant(sweep.f).real - copper.propagation_constant(sweep.f).real

    assert pytest.approx(np.real(media[0].ep_reff_f), rel=AGREED) == ours.effective_permittivity(sweep.f)
    assert pytest.approx(media[1].alpha_dielectric, rel=1e-6) == laminate
