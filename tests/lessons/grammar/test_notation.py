"""How a course writes. The forms are those of textbooks: common practice, no source."""

from math import inf, pi, radians

import pytest

from lessons.grammar.notation import Notation

STANDARD = Notation()


class TestNumber:
    @pytest.mark.parametrize(
        ("value", "text"),
        [
            (1.23456, "1.235"),
            (-1.5, "−1.500"),
            (-0.0001, "0.000"),
            (0.0, "0.000"),
            (inf, "∞"),
            (-inf, "−∞"),
        ],
    )
    def test_signs(self, value, text):
        """Minus is a minus sign, not a hyphen; there is no minus zero."""
        assert text == STANDARD.number(value)

    def test_decimals_are_a_setting(self):
        """A course says how many decimals it shows, and a caller may want others."""
        assert ("0.12", "0.1235") == (Notation(decimals=2).number(0.12345), STANDARD.number(0.12345, 4))


class TestRectangular:
    @pytest.mark.parametrize(
        ("value", "text"),
        [
            (0.5 - 1j, "0.500 − j1.000"),
            (0.5 + 1j, "0.500 + j1.000"),
            (-0.5 - 0.0001j, "−0.500 + j0.000"),
            (complex(inf), "∞"),
        ],
    )
    def test_form(self, value, text):
        """A complex number has its imaginary unit before its imaginary part."""
        assert text == STANDARD.rectangular(value)

    def test_imaginary_unit(self):
        """A mathematics course writes i."""
        assert "0.50 − i1.00" == Notation(imaginary="i").rectangular(0.5 - 1j, 2)


class TestOhms:
    @pytest.mark.parametrize(
        ("value", "text"),
        [
            (25 - 50j, "25 − j50 Ω"),
            (12.5 + 0.25j, "12.5 + j0.25 Ω"),
            (75, "75 Ω"),
            (complex(inf), "an open circuit"),
        ],
    )
    def test_as_short_as_can_be(self, value, text):
        """An impedance in ohms carries no idle zeros."""
        assert text == STANDARD.ohms(value)


class TestWavelengths:
    def test_wavelengths(self):
        """A length is written in wavelengths to the thousandth that the outer scale is read to."""
        assert "0.110 λ" == STANDARD.wavelengths(0.1104)

    def test_degrees_of_line(self):
        """A wavelength is 360 degrees of line."""
        assert "39.7°" == Notation(length="degrees").wavelengths(0.1104)

    @pytest.mark.parametrize(("length", "text"), [("wavelengths", "0.110 λ"), ("degrees", "39.7°")])
    def test_never_coarser_than_marked(self, length, text):
        """A course of two decimals still sees lengths to 0.001: they are marked to 0.005."""
        assert text == Notation(length=length, decimals=2).wavelengths(0.1104)


class TestPolar:
    def test_degrees(self):
        """A reflection is written as size and angle in degrees."""
        assert "0.620 ∠ −82.9°" == STANDARD.polar(0.62 * (1 + 0j) * complex(0.123602, -0.992332))

    def test_radians(self):
        """A course may want radians."""
        assert f"{radians(90):.3f} rad" == Notation(angle="radians").angle_of(pi / 2)
