"""Tapers: their profiles, their lengths, and what they promise."""

import numpy as np
import pytest

import core
from core import NotALength, OutOfRange, UnknownChoice, exponential_taper, optimum_taper, triangular_taper

TAPERS = [
    exponential_taper,
    triangular_taper,
    lambda load, line, **given: optimum_taper(load, line, 0.03, **given),
]
each = pytest.mark.parametrize("designer", TAPERS, ids=["exponential", "triangular", "optimum"])


@each
class TestEveryTaper:
    def test_runs_from_one_resistance_to_the_other(self, designer):
        """The impedance changes in one sense only, between the load and the line, and as much at both ends."""
        logarithms = np.log(np.array(designer(200, 50, steps=100)[0].section_impedances))

        assert np.all(np.diff(logarithms) < 0)
        assert np.log(50) < logarithms[-1] < logarithms[0] < np.log(200)
        assert np.full(100, np.log(200 * 50)) == pytest.approx(logarithms + logarithms[::-1], rel=1e-13)

    def test_reverse_is_the_same(self, designer):
        """A taper up to the load is the mirror image of one down to it."""
        down, up = (
            np.array(designer(*ends, steps=20)[0].section_impedances) for ends in ((200, 50), (50, 200))
        )

        assert down == pytest.approx(up[::-1], rel=1e-13)

    def test_length_is_as_asked(self, designer):
        """The steps make up the length, each the same."""
        network = designer(200, 50, length=0.8, steps=32)[0]

        assert 0.8 == pytest.approx(network.length, rel=1e-14)
        assert {0.8 / 32} == {section.length for section in network.sections}

    def test_longer_is_better(self, designer):
        """Where the length is long against the wavelength the reflection is small."""
        size = np.abs(designer(200, 50, length=2.0, steps=200)[0].input_reflection([0.02, 1.0, 3.0]))

        assert size[0] > 0.5
        assert size[1:].max() < 0.08

    def test_for_a_complex_load(self, designer):
        """A load with reactance has line or a stub before the taper, as a quarter wave has."""
        found, quarters = designer(60 - 80j, 50), core.quarter_wave(60 - 80j, 50)

        assert [n.distance for n in quarters] == [n.distance for n in found]
        assert max(abs(n.input_reflection()) for n in found) < 0.1

    @pytest.mark.parametrize("length", [-1, np.nan, 0, "long"])
    def test_bad_length(self, designer, length):
        """A length that is none is refused."""
        with pytest.raises(NotALength, match="length of the taper must be"):
            designer(200, 50, length=length)

    def test_bad_steps(self, designer):
        """So is a number of steps that is none."""
        with pytest.raises(OutOfRange, match="number of sections must be"):
            designer(200, 50, steps=0)


class TestOptimum:
    @pytest.mark.parametrize("largest", [0, 1, -0.1, np.nan, "small"])
    def test_bad_reflection(self, largest):
        """A reflection that is none is refused, by the designer and by the theory."""
        with pytest.raises(OutOfRange, match="largest reflection must be"):
            optimum_taper(200, 50, largest)
        with pytest.raises(OutOfRange, match="largest reflection must be"):
            core.taper_reflection(200, 50, 1.0, "optimum", largest)

    def test_within_already(self):
        """A resistance within the reflection already has no optimum taper, and the reason says so."""
        found = optimum_taper(51, 50, 0.02)

        assert 0 == len(found)
        assert "within this reflection already" in found.reason

    def test_is_the_shortest(self):
        """For the same reflection the others are longer: at the optimum's length they reflect more above it."""
        frequency = np.linspace(1.01, 4, 400)
        length = optimum_taper(200, 50, 0.05)[0].length
        optimum, *others = (
            np.abs(n.input_reflection(frequency)).max()
            for n in (
                optimum_taper(200, 50, 0.05)[0],
                exponential_taper(200, 50, length)[0],
                triangular_taper(200, 50, length)[0],
            )
        )

        assert optimum < 0.06
        assert min(others) > 2 * optimum

    def test_jumps_at_its_ends(self):
        """At each end the impedance jumps by the ripple in its logarithm, which reflects half of that."""
        ohms = np.array(optimum_taper(100, 50, 0.02, steps=500)[0].section_impedances)

        assert [0.02, 0.02] == pytest.approx([np.log(100 / ohms[0]), np.log(ohms[-1] / 50)], abs=2e-3)


def test_theory_of_an_unknown_shape():
    """A shape that is none of the three is refused."""
    with pytest.raises(UnknownChoice, match="shape must be exponential or triangular or optimum"):
        core.taper_reflection(100, 50, 1.0, "round")


def test_theory_without_length():
    """Without length a taper reflects half the logarithm of the ratio, whatever its shape."""
    got = [
        core.taper_reflection(55, 50, 0.0, shape, 0.02) for shape in ("exponential", "triangular", "optimum")
    ]

    assert [np.log(1.1) / 2] * 3 == pytest.approx(got, rel=1e-12)
