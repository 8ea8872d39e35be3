"""Two-ports against scikit-rf (a general-purpose library), published examples, and the file format's own examples.

Source of the files: Touchstone File Format Specification, Rev. 1.1 and Version 2.0, IBIS Open Forum (from memory).
"""

import numpy as np
import pytest
import skrf

from core import (
    TwoPort,
    format_touchstone,
    line_two_port,
    network_two_port,
    parse_two_port,
    read_two_port,
    single_stub,
    step_response,
    two_port_from,
    two_port_parameters,
    usual_cable,
    write_touchstone,
)
from tests.core.two_ports import SWEEP, random_scattering, random_two_port

AGREED = 1e-10
FREQUENCY = skrf.Frequency.from_f(SWEEP, unit="Hz")


def theirs(port):
    """The two-port as one of the library's networks."""
    return skrf.Network(frequency=FREQUENCY, s=port.scattering, z0=port.reference)


class TestPublished:
    def test_pozar_attenuator(self):
        """D. M. Pozar, Microwave Engineering, 4th ed., example 4.4 (from memory): 8.56 ohm, 141.8 ohm across, 8.56 ohm
        is a 3 dB attenuator for 50 ohm: S11 0, S21 0.707."""
        arm, across = np.array([[[1, 8.56], [0, 1]]]), np.array([[[1, 0], [1 / 141.8, 1]]])
        attenuator = two_port_from("ABCD", [1e9], arm @ across @ arm)

        assert pytest.approx(0, abs=1e-3) == attenuator.scattering[0, 0, 0]
        assert pytest.approx(0.707, abs=1e-3) == attenuator.scattering[0, 1, 0]
        assert pytest.approx(3.0, abs=0.02) == attenuator.insertion_loss_db[0]

    def test_pozar_loaded_port(self):
        """Pozar, 4th ed., example 4.5 (from memory): 0.15, 0.85 at -45 and 45 degrees, 0.2: neither reciprocal nor
        lossless; return loss 16.5 dB with port 2 matched, and with a short there a reflection of -0.452, 6.9 dB."""
        turned = 0.85 * np.exp(0.25j * np.pi)
        port = TwoPort([1e9], [[[0.15, np.conj(turned)], [turned, 0.2]]])

        assert not port.reciprocal
        assert pytest.approx(0.745, abs=1e-3) == np.sum(abs(port.scattering[0, :, 0]) ** 2)
        assert pytest.approx(16.5, abs=0.05) == -20 * np.log10(abs(port.input_reflection(50)[0]))
        assert pytest.approx(-0.452, abs=5e-4) == port.input_reflection(0)[0]
        assert pytest.approx(6.9, abs=0.05) == -20 * np.log10(abs(port.input_reflection(0)[0]))


class TestAgainstScikitRf:
    @pytest.mark.parametrize("seed", range(10))
    def test_cascade(self, seed):
        """Cascades of three random two-ports are the library's."""
        a, b, c = (random_two_port(3 * seed + n) for n in range(3))
        whole = theirs(a) ** theirs(b) ** theirs(c)

        assert np.abs(whole.s - (a @ b @ c).scattering).max() < AGREED

    @pytest.mark.parametrize("seed", range(10))
    def test_taken_away(self, seed):
        """What is left behind and before a piece is what the library's inverse leaves."""
        piece, whole = random_two_port(2 * seed), random_two_port(2 * seed + 1)

        assert (
            pytest.approx((theirs(piece).inv ** theirs(whole)).s, rel=1e-9) == whole.after(piece).scattering
        )
        assert (
            pytest.approx((theirs(whole) ** theirs(piece).inv).s, rel=1e-9) == whole.before(piece).scattering
        )

    @pytest.mark.parametrize("reference", [(30, 75), (300, 10)])
    def test_other_references(self, reference):
        """Other references change the parameters as they do the library's."""
        one, network = random_two_port(4), theirs(random_two_port(4))
        network.renormalize(list(reference))

        assert np.abs(network.s - one.renormalised(reference).scattering).max() < AGREED

    @pytest.mark.parametrize("reference", [50, (30, 75)])
    @pytest.mark.parametrize("kind", ["Z", "Y", "H", "G", "ABCD"])
    def test_kinds_of_parameters(self, kind, reference):
        """Z, Y, H, G and chain parameters are the library's, whatever the references."""
        one = random_two_port(5, reference)
        network = theirs(one)
        expected = network.a if kind == "ABCD" else getattr(network, kind.lower())

        assert pytest.approx(expected, rel=1e-9) == two_port_parameters(one, kind)

    @pytest.mark.parametrize("metres", [0.02, 1.7, 40.0])
    @pytest.mark.parametrize("name", ["RG-58", "RG-62", "RG-174"])
    def test_lossy_line(self, name, metres):
        """A length of lossy cable between 50 ohm ports is the library's line with the same constants."""
        cable = usual_cable(name)
        medium = skrf.media.DefinedGammaZ0(
            FREQUENCY,
            gamma=cable.propagation_constant(SWEEP),
            z0=cable.characteristic_impedance(SWEEP),
            z0_port=50,
        )

        assert (
            np.abs(medium.line(metres, "m").s - line_two_port(cable, metres, SWEEP).scattering).max() < AGREED
        )

    @pytest.mark.parametrize("placement", ["shunt", "series"])
    def test_loaded_network(self, placement):
        """A stub match as a two-port, with its load in the library's hands, reflects as the evaluator says."""
        load = np.full((SWEEP.size, 1, 1), 60 - 80j)
        for design in single_stub(60 - 80j, 50, placement=placement):
            whole = theirs(network_two_port(design, SWEEP, 434e6)) ** skrf.Network(
                frequency=FREQUENCY, z=load, z0=50
            )

            assert np.abs(whole.s[:, 0, 0] - design.input_reflection(SWEEP / 434e6)).max() < AGREED


S_PARAMETERS = """\
!2-port S-parameter file, three frequency points
# GHz S RI R 50.0
!freq ReS11 ImS11 ReS21 ImS21 ReS12 ImS12 ReS22 ImS22
1.0000 0.3926 -0.1211 -0.0003 -0.0021 -0.0003 -0.0021 0.3926 -0.1211
2.0000 0.3517 -0.3054 -0.0096 -0.0298 -0.0096 -0.0298 0.3517 -0.3054
10.000 0.3419 0.3336 -0.0134 0.0379 -0.0134 0.0379 0.3419 0.3336
"""
WITH_NOISE = """\
!2-port network, S-parameter and noise data
!Default MA format, GHz, R 50
# GHZ S MA R 50
2 .95 -26 3.57 157 .04 76 .66 -14
22 .60 -144 1.30 40 .14 40 .56 -85
! NOISE PARAMETERS
4 .7 .64 69 .38
18 2.7 .46 -33 .40
"""


class TestSpecification:
    def test_three_points(self):
        """A symmetrical two-port at three frequencies."""
        port = parse_two_port(S_PARAMETERS)

        assert [1e9, 2e9, 10e9] == port.frequency.tolist()
        assert -0.0096 - 0.0298j == port.scattering[1, 1, 0] == port.scattering[1, 0, 1]
        assert port.reciprocal

    def test_noise(self):
        """A transistor with noise: S21 is the second pair, and the noise begins where frequency falls back."""
        port = parse_two_port(WITH_NOISE)

        assert pytest.approx(3.57) == abs(port.scattering[0, 1, 0])
        assert pytest.approx(0.04) == abs(port.scattering[0, 0, 1])
        assert [[4e9, 0.7, 0.64, 69, 0.38], [18e9, 2.7, 0.46, -33, 0.40]] == port.noise.tolist()


class TestFiles:
    @pytest.mark.parametrize("unit", ["Hz", "MHz", "GHz"])
    @pytest.mark.parametrize("form", ["RI", "MA", "DB"])
    @pytest.mark.parametrize("version", ["1.1", "2.0"])
    def test_ours_read_by_the_library(self, version, form, unit, tmp_path):
        """The library reads what is written here as it was written."""
        port, path = random_two_port(11, 75), tmp_path / ("link.s2p" if version == "1.1" else "link.ts")
        write_touchstone(port, path, version=version, form=form, unit=unit)
        network = skrf.Network(str(path))

        assert pytest.approx(port.frequency, rel=1e-12) == network.f
        assert np.abs(network.s - port.scattering).max() < AGREED
        assert np.all(network.z0 == 75)

    @pytest.mark.parametrize("form", ["ri", "ma", "db"])
    def test_the_librarys_read_here(self, form, tmp_path):
        """What the library writes is read here as it was written."""
        network = skrf.Network(frequency=FREQUENCY, s=random_scattering(12), z0=50)
        network.write_touchstone("link", dir=str(tmp_path), form=form)

        assert np.abs(network.s - read_two_port(tmp_path / "link.s2p").scattering).max() < AGREED

    @pytest.mark.parametrize("version", ["1.1", "2.0"])
    def test_impedances(self, version, tmp_path):
        """Impedance parameters written here mean the same two-port to the library, in both versions."""
        port, path = random_two_port(13), tmp_path / ("link.s2p" if version == "1.1" else "link.ts")
        path.write_text(format_touchstone(port, version, "Z"))

        assert np.abs(skrf.Network(str(path)).s - port.scattering).max() < AGREED


def test_step_response():
    """A step response is the library's with the same window, where zero frequency is in the sweep."""
    hertz = np.linspace(0, 2e9, 401)
    back = -0.2 + 0.5 * np.exp(-2j * np.pi * hertz * 30e-9)
    network = skrf.Network(f=hertz, f_unit="Hz", s=back, z0=50)
    time, expected = network.step_response(window=("kaiser", 6.0), pad=2000)
    ours = step_response(hertz, back)
    inside = (time > -20e-9) & (time < 80e-9)

    assert pytest.approx(expected[inside], abs=3e-3) == np.interp(time[inside], ours.time, ours.reflection)
