"""Published examples of terminated lines. All printed values are from memory, with the book and number beside each.

A value worked out by the book is compared to half a unit of its last printed digit; one that the book reads off a
chart, or works out from rounded values, to one unit.
"""

import cmath
from math import degrees

import pytest

from core import (
    admittance_from_reflection,
    input_impedance,
    reflection_coefficient,
    return_loss_db,
    swr,
    toward_generator,
)
from core.line import distance_to_maximum, distance_to_minimum


def test_pozar_4th_ed_example_2_2():
    """40+j70 ohm on 100 ohm: reflection, its angle, SWR, return loss, and the impedance 0.3 wavelengths away."""
    gamma = reflection_coefficient(40 + 70j, 100)

    assert pytest.approx(0.59, abs=0.005) == abs(gamma)
    assert pytest.approx(104, abs=0.5) == degrees(cmath.phase(gamma))
    assert pytest.approx(3.87, abs=0.005) == swr(gamma)
    assert pytest.approx(4.6, abs=0.05) == return_loss_db(gamma)
    seen = input_impedance(40 + 70j, 100, 0.3)
    assert pytest.approx(36.5, abs=0.05) == seen.real
    assert pytest.approx(-61.1, abs=0.05) == seen.imag


def test_pozar_4th_ed_example_2_3():
    """100+j50 ohm on 50 ohm: load admittance, and the admittance 0.15 wavelengths away, read off the chart."""
    gamma = reflection_coefficient(100 + 50j, 50)
    seen = admittance_from_reflection(toward_generator(gamma, 0.15))

    assert pytest.approx(0.4 - 0.2j, abs=1e-12) == admittance_from_reflection(gamma)
    assert pytest.approx(0.61, abs=0.01) == seen.real
    assert pytest.approx(0.66, abs=0.01) == seen.imag


def test_ulaby_line_3_3_wavelengths():
    """25+j50 ohm on 50 ohm, 3.3 wavelengths; Ulaby, Fundamentals of Applied Electromagnetics, number by edition."""
    gamma = reflection_coefficient(25 + 50j, 50)

    assert pytest.approx(0.62, abs=0.005) == abs(gamma)
    assert pytest.approx(83, abs=0.5) == degrees(cmath.phase(gamma))
    assert pytest.approx(4.26, abs=0.01) == swr(gamma)  # from the rounded reflection
    assert pytest.approx(0.115, abs=0.0005) == distance_to_maximum(gamma)
    assert pytest.approx(0.365, abs=0.0005) == distance_to_minimum(gamma)
    seen = input_impedance(25 + 50j, 50, 3.3)
    assert pytest.approx(14, abs=0.5) == seen.real
    assert pytest.approx(-20, abs=0.5) == seen.imag


@pytest.mark.parametrize(
    ("ratio", "reflection", "loss"),
    [(1.2, 0.091, 20.8), (1.5, 0.200, 14.0), (2.0, 0.333, 9.5), (3.0, 0.500, 6.0), (5.0, 0.667, 3.5)],
)
def test_handbook_table_of_mismatch(ratio, reflection, loss):
    """SWR, reflection and return loss go together as in the table that every radio handbook has (from memory)."""
    gamma = reflection_coefficient(ratio * 50, 50)

    assert pytest.approx(ratio) == swr(gamma)
    assert pytest.approx(reflection, abs=0.0005) == gamma.real
    assert pytest.approx(loss, abs=0.05) == return_loss_db(gamma)
