"""Tolerances against first-order theory, and against networks with errors built from the parts of
scikit-rf."""

import numpy as np
import pytest

from core import (
    Errors,
    MatchingNetwork,
    Section,
    Stub,
    double_stub,
    monte_carlo,
    quarter_wave,
    single_stub,
    worst_case,
)
from tests.reference.lossy_cascade import cascade

LOADS = [60 - 80j, 15 + 10j, 100 + 80j, 25 - 50j]


@pytest.mark.parametrize("load", LOADS)
@pytest.mark.parametrize("which", [0, 1], ids=["near", "far"])
def test_first_order_theory(load, which):
    """For small errors of length the worst case is that of the derivatives of the line's and the stub's
    admittance.

    Source: dy/dl = j 2 pi (1 - y^2) on any line, and reflection = -dy / 2 near a match; by differentiating
    Pozar, Microwave Engineering, 4th ed., eq. 2.44 (from memory)."""
    network = single_stub(load, 50)[which]
    susceptance = -1 / np.tan(2 * np.pi * network.stub_length) * -1  # what the junction shows before the stub
    by_distance = 2j * np.pi * (1 - (1 + 1j * susceptance) ** 2)
    by_length = 2j * np.pi * (1 - (-1j * susceptance) ** 2)
    error = 1e-6
    expected = error / 2 * max(abs(by_distance + by_length), abs(by_distance - by_length))

    assert pytest.approx(expected, rel=1e-4) == worst_case(network, Errors(length=error)).reflection


@pytest.mark.parametrize(
    "network",
    [*single_stub(60 - 80j, 50), double_stub(60 - 80j, 50, 1 / 8)[1], quarter_wave(60 - 80j, 50)[2]],
    ids=["near", "far", "double stub", "quarter wave with stub"],
)
def test_corners_by_the_librarys_cascade(network):
    """The corner that is named worst reflects as much when scikit-rf builds it."""
    worst = worst_case(network, Errors(0.004, 0.03, 0.02, 0.05))
    load = network.load_impedance
    wrong_load = load.real * (1 + worst.load.real) + 1j * (load.imag + abs(load) * worst.load.imag)
    made = []
    for element, length, impedance in zip(network.elements, worst.lengths, worst.impedances, strict=True):
        longer = abs(element.length + length) / (1 + worst.velocity)
        other = element.impedance * (1 + impedance)
        made.append(
            Section(longer, other)
            if isinstance(element, Section)
            else Stub(longer, other, "shunt", element.end)
        )

    theirs = abs(cascade(MatchingNetwork(wrong_load, 50.0, tuple(made)), [1.0])[0])

    assert pytest.approx(theirs, abs=1e-9) == worst.reflection


def test_published_sensitivity():
    """Lengths off by 0.005 wavelengths leave 0.100 of reflection with either shorted stub of 60-j80 ohm on
    50.

    By an independent solver (not published)."""
    worst = [worst_case(network, Errors(length=0.005)).reflection for network in single_stub(60 - 80j, 50)]

    assert pytest.approx([0.100, 0.100], abs=5e-4) == worst


def test_mean_square_of_independent_errors():
    """Independent errors add in power: the mean square of the reflection is the sum of that of each alone.

    Source: the law of error propagation, any text on statistics."""
    network = single_stub(60 - 80j, 50)[0]
    small = 1e-4

    def mean_square(errors):
        return np.mean(monte_carlo(network, errors, 40_000, seed=5).reflection ** 2)

    apart = [Errors(length=small), Errors(impedance=small), Errors(velocity=small), Errors(load=small)]

    assert pytest.approx(sum(map(mean_square, apart)), rel=0.03) == mean_square(
        Errors(small, small, small, small)
    )
