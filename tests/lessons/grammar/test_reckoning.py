"""Sums and quotients as students write them, checked against Python's own arithmetic; nothing is ever evaluated."""

from cmath import exp, isclose, rect
from math import pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessons.grammar.numbers import LARGEST, Unreadable
from lessons.grammar.reckoning import LONGEST_SUM, in_wavelengths, reckon_complex, reckon_real

ALPHABET = "0123456789.+-*/^()jie πλ°<∠ expradm"
small = st.floats(0.001, 999).map(lambda value: round(value, 3))


class TestComplex:
    @pytest.mark.parametrize(
        ("text", "value"),
        [
            ("(60-j80)/50", 1.2 - 1.6j), ("((60 - j80)/(50))", 1.2 - 1.6j), ("1/(0.3+j0.4)", 1.2 - 1.6j),
            ("1 + j(1.472)", 1 + 1.472j), ("(6 + j8)", 6 + 8j), ("-1.58*75/50", -2.37), ("2(1+j)", 2 + 2j),
            ("(1 + j1.47) + (-j1.47)", 1 + 0j), ("0.593 e^(-j46.8°)", rect(0.593, radians(-46.8))),
            ("0.593e^(-j0.8168)", rect(0.593, -0.8168)), ("0.593 exp(-j46.8)", rect(0.593, radians(-46.8))),
            ("e^(jπ/4)", exp(1j * pi / 4)), ("(0.5 ∠ 30°)/2", rect(0.25, radians(30))), ("0,5(1 - j)", 0.5 - 0.5j),
        ],
    )  # fmt: skip
    def test_forms(self, text: str, value: complex):
        """Quotients, brackets, powers of e and factors beside j are worked out."""
        assert isclose(value, reckon_complex(text), rel_tol=1e-12, abs_tol=1e-12)

    @pytest.mark.parametrize(
        ("text", "match"),
        [
            ("1.2 - 1.6", "say where the j is"), ("(60 - 80)/50", "say where the j is"),
            ("60 80/50", "as a space parts"),
            ("1/0", "divides by zero"), ("1/2π", "is not a number"), ("2**99", "is not a number"),
            ("9^9", "is not a number"), ("(" * 20 + "1", "too many brackets"), ("1e30*1e30", "too large"),
            ("__import__('os')", "is not a number"), ("(1", "is not a number"), ("", "is not a number"),
            ("1+" * LONGEST_SUM, "characters long"), ("e^2", "is not a number"), ("3 λ", "is not a number"),
        ],
    )  # fmt: skip
    def test_refusals(self, text: str, match: str):
        """What may be meant in two ways, or cannot be meant, is refused with a sentence."""
        with pytest.raises(Unreadable, match=match):
            reckon_complex(text)

    @given(small, small, small, small)
    def test_agrees_with_python(self, a: float, b: float, c: float, d: float):
        """A quotient of two complex numbers is what Python makes of it."""
        assert isclose(
            complex(a, b) / complex(c, -d), reckon_complex(f"({a} + j{b})/({c} - {d}j)"), rel_tol=1e-12
        )

    @given(st.text(ALPHABET, max_size=LONGEST_SUM + 5))
    def test_only_ever_unreadable(self, text: str):
        """Whatever is typed, it is worked out or refused, and what comes out can be reckoned with."""
        for reckon in (reckon_complex, reckon_real):
            try:
                found = reckon(text)
            except Unreadable:
                continue
            assert abs(found[0] if isinstance(found, tuple) else found) <= LARGEST


class TestReal:
    @pytest.mark.parametrize(
        ("text", "value", "unit"),
        [
            ("0.176 - 0.065", 0.111, ""), ("0.176λ - 0.065λ", 0.111, "wavelengths"), ("3λ/8", 0.375, "wavelengths"),
            ("0.176 - 0.065λ", 0.111, "wavelengths"), ("(0.5 - 0.208 + 0.172) λ", 0.464, "wavelengths"),
            ("λ/4 + 0.02λ", 0.27, "wavelengths"), ("180° - 34.2°", 145.8, "degrees"), ("2π(0.110)", 0.22 * pi, ""),
            ("π/4 rad", pi / 4, "radians"), ("1.2 cm + 3 mm", 15.0, "millimetres"), ("0.25 + (-0.1)", 0.15, ""),
        ],
    )  # fmt: skip
    def test_units(self, text: str, value: float, unit: str):
        """A length is added up in one unit, which may stand behind every term or the last."""
        found, of = reckon_real(text)

        assert pytest.approx(value, rel=1e-12) == found
        assert unit == of

    @pytest.mark.parametrize(
        ("text", "match"),
        [("0.5λ - 30°", "adds two units"), ("0.1λ * 228 mm", "not a number"), ("1/λ", "not a number"),
         ("0.1 + j2", "has a j in it")],
    )  # fmt: skip
    def test_refusals(self, text: str, match: str):
        """Two units in one sum, or a unit below the line, are refused."""
        with pytest.raises(Unreadable, match=match):
            reckon_real(text)


def test_degrees_and_radians_of_line():
    """A wavelength of line is 360 degrees, or a whole turn in radians (by definition of the phase constant)."""
    assert [0.25] * 3 == pytest.approx([in_wavelengths(0.25, "wavelengths"), in_wavelengths(90, "degrees"),
                                        in_wavelengths(pi / 2, "radians")], rel=1e-15)  # fmt: skip
