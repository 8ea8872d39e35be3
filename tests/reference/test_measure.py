"""Loads found from standing waves, as printed, and from measurements as the file format's own specification
shows them.

Printed values are from memory, with book, edition and number beside each. Those of the books are compared to
what their digits, read off a chart or a slotted line, can tell.
"""

import mpmath
import numpy as np
import pytest

from core import load_from_minimum_shift, load_from_standing_wave


@pytest.mark.parametrize(
    ("ratio", "distance", "line", "load", "close"),
    [
        pytest.param(
            1.5, 1.48 / 4.0, 50, 47.3 + 19.7j, 0.06,
            id="Pozar, Microwave Engineering, 4th ed., example 2.4",
        ),
        pytest.param(
            3, 5 / 40, 50, 30 - 40j, 1e-9,
            id="Ulaby, Fundamentals of Applied Electromagnetics, slotted line, number by edition",
        ),
        pytest.param(
            3.0, 20.9 / 72, 140, 280 + 182j, 3.5,
            id="Ulaby, Fundamentals of Applied Electromagnetics, exercise on 280+j182 ohm, number by edition",
        ),
        pytest.param(
            4.26, 0.365, 50, 25 + 50j, 0.6,
            id="Ulaby, Fundamentals of Applied Electromagnetics, 25+j50 ohm on 50, number by edition",
        ),
    ],
)  # fmt: skip
def test_published_load(ratio, distance, line, load, close):
    """The load is the one printed."""
    found = load_from_standing_wave(ratio, distance, line)

    assert pytest.approx(load.real, abs=close) == found.real
    assert pytest.approx(load.imag, abs=close) == found.imag


def test_published_shift():
    """Minima at 0.2, 2.2, 4.2 cm with a short, at 0.72, 2.72, 4.72 cm with the load, 4 cm a wave: both ways
    round.

    The scale of that example rises toward the load.
    Source: Pozar, Microwave Engineering, 4th ed., example 2.4 (from memory)."""
    toward_load = load_from_minimum_shift(1.5, (2.72 - 2.2) / 4, 50, toward="load")
    toward_generator = load_from_minimum_shift(1.5, (4.2 - 2.72) / 4, 50, toward="generator")

    assert pytest.approx(47.3 + 19.7j, abs=0.06) == toward_load
    assert pytest.approx(toward_load) == toward_generator


def test_fifty_digits():
    """The load is right to 1e-12 of its size, against the tangent formula at fifty digits.

    Source: Z = Z0 (1 - j S tan bd) / (S - j tan bd), Pozar, Microwave Engineering, 4th ed., section 2.4 (from
    memory)."""
    rng = np.random.default_rng(8)
    with mpmath.workdps(50):
        for ratio, distance in zip(
            (1 / rng.uniform(0, 1, 300)).tolist(), rng.uniform(0, 1, 300).tolist(), strict=True
        ):
            tangent = mpmath.tan(2 * mpmath.pi * mpmath.mpf(distance))
            swr = mpmath.mpf(ratio)
            exact = 75 * (1 - 1j * swr * tangent) / (swr - 1j * tangent)
            found = load_from_standing_wave(ratio, distance, 75)
            assert abs(found - exact) <= 1e-12 * abs(exact)
