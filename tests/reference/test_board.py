"""Microstrip and stripline against print, against scikit-rf, and against scipy's elliptic integrals.

Printed values are from memory, with book, edition and number beside each.
"""

import numpy as np
import pytest
import skrf
from scipy.special import ellipk, ellipkm1

from core import Microstrip, Stripline, guide_wavelength_m


class TestPublished:
    @pytest.mark.parametrize(
        ("permittivity", "height_mm", "ratio", "effective", "frequency", "waves", "width_mm", "length_mm"),
        [
            pytest.param(
                9.9, 0.5, 0.9654, 6.665, 10e9, 0.75, 0.483, 8.72,
                id="Pozar, Microwave Engineering, 4th ed., example 3.7: 50 ohm on alumina, 270 degrees at 10 GHz",
            ),
            pytest.param(
                2.2, 1.27, 3.081, 1.87, 2.5e9, 0.25, 3.91, 21.9,
                id="Pozar, Microwave Engineering, 2nd and 3rd ed., example 3.7: 50 ohm, 90 degrees at 2.5 GHz",
            ),
        ],
    )  # fmt: skip
    def test_textbook_microstrip(
        self, permittivity, height_mm, ratio, effective, frequency, waves, width_mm, length_mm
    ):
        """The textbook's formulas give the textbook's width, permittivity and length."""
        board = Microstrip(permittivity, height_mm, formulas="textbook")
        width = board.width_mm(50)

        assert pytest.approx(ratio, rel=1e-3) == width / height_mm
        assert pytest.approx(width_mm, rel=2e-3) == width
        assert pytest.approx(effective, rel=2e-3) == board.effective_permittivity(width)
        assert pytest.approx(length_mm, rel=2e-3) == 1e3 * waves * board.guide_wavelength_m(frequency, 50)

    def test_accurate_microstrip(self):
        """50 ohm on permittivity 9.9 by the accurate formulas: 0.9615 of the height, and 6.621.

        By an independent computation with another fit than the textbook's (not published)."""
        board = Microstrip(9.9, 1.0)

        assert pytest.approx(0.9615, abs=5e-5) == board.width_mm(50)
        assert pytest.approx(6.621, abs=5e-4) == board.effective_permittivity(board.width_mm(50))

    def test_microstrip_on_sapphire(self):
        """A strip 1.056 heights wide on sapphire, permittivity 9, has 50 ohm, and the wave meets 6.11.

        Source: Ulaby, Fundamentals of Applied Electromagnetics, microstrip line, number by edition (from
        memory)."""
        board = Microstrip(9, 0.6)

        assert pytest.approx(50, abs=0.15) == board.impedance(1.056 * 0.6)
        assert pytest.approx(6.11, abs=0.01) == board.effective_permittivity(1.056 * 0.6)

    def test_usual_board(self):
        """50 ohm on the usual 1.6 mm board of permittivity 4.4 is 3.0 to 3.1 mm wide (common practice, no
        source)."""
        assert 3.0 <= Microstrip(4.4, 1.6).width_mm(50) <= 3.1

    @pytest.mark.parametrize("formulas", ["exact", "textbook"])
    def test_stripline(self, formulas):
        """50 ohm in a 3.2 mm stripline of permittivity 2.2: 2.66 mm wide, and 2.02 cm a wave at 10 GHz.

        Source: Pozar, Microwave Engineering, 4th ed., example 3.5 (from memory)."""
        board = Stripline(2.2, 3.2, formulas)

        assert pytest.approx(2.66, abs=0.01) == board.width_mm(50)
        assert pytest.approx(20.2, abs=0.05) == 1e3 * board.guide_wavelength_m(10e9, 50)

    def test_narrow_stripline(self):
        """Where root permittivity times impedance is over 120 the textbook takes its other formula,
        continuously.

        Source: Pozar, Microwave Engineering, 4th ed., eq. 3.180 (from memory)."""
        board = Stripline(1.0, 1.0, "textbook")

        assert pytest.approx(board.width_mm(119.999), rel=5e-3) == board.width_mm(120.001)
        assert pytest.approx(0.85 - np.sqrt(0.6 - (30 * np.pi / 150 - 0.441))) == board.width_mm(150)

    def test_wave_in_a_cable(self):
        """At 100 MHz a wave in vacuum is 2.998 m long (any handbook)."""
        assert pytest.approx(2.998, abs=5e-4) == guide_wavelength_m(100e6)


class TestAgainstScikitRf:
    @pytest.mark.parametrize("thickness_mm", [0.005, 0.035, 0.1])
    @pytest.mark.parametrize("ratio", [0.02, 0.3, 1.0, 3.0, 50.0])
    @pytest.mark.parametrize("permittivity", [2.2, 4.4, 9.9, 100.0])
    def test_microstrip(self, permittivity, ratio, thickness_mm):
        """Impedance and effective permittivity are the library's by the same formulas, copper thickness
        included.

        The library's impedance of free space is rounded in its tenth digit."""
        library = skrf.media.MLine(
            skrf.Frequency(1, 1, 1, unit="Hz"),
            w=ratio * 1e-3, h=1e-3, t=thickness_mm * 1e-3, ep_r=permittivity,
            model="hammerstadjensen", disp="none", diel="frequencyinvariant", rho=1e-30,
        )  # fmt: skip
        ours = Microstrip(permittivity, 1.0, thickness_mm)

        assert pytest.approx(np.ravel(library.zl_eff)[0].real, rel=2e-9) == ours.impedance(ratio)
        assert pytest.approx(np.ravel(library.ep_reff)[0].real, rel=1e-12) == ours.effective_permittivity(
            ratio
        )


class TestAgainstScipy:
    def test_stripline(self):
        """The exact impedance is that of scipy's complete elliptic integrals, over all widths.

        Source: Z0 = 30 pi / sqrt(permittivity) K(k) / K(k'), k = sech(pi W / 2 b), any text on conformal
        mapping (from memory), with the exact impedance of free space for 120 pi."""
        ratio = np.geomspace(0.01, 19.9, 200)
        modulus = 1 / np.cosh(np.pi * ratio / 2) ** 2
        expected = 376.730313668 / 4 / np.sqrt(2.2) * ellipk(modulus) / ellipkm1(modulus)

        assert pytest.approx(expected, rel=1e-12) == Stripline(2.2, 1.0).impedance(ratio)
