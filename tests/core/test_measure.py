"""An unknown load from standing waves: the way back from every load, and what is refused.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import (
    NotALength,
    NotAnImpedance,
    OutOfRange,
    UnknownChoice,
    load_from_minimum_shift,
    load_from_standing_wave,
    reflection_coefficient,
    swr,
)
from core.line import distance_to_minimum

ratios = st.floats(1.0, 1e6)
distances = st.floats(0, 2)


class TestFromStandingWave:
    def test_the_way_back(self):
        """Ratio and minimum of 10,000 random loads lead back to each of them, to 1e-12 of its size."""
        rng = np.random.default_rng(3)
        load = rng.uniform(0.5, 500, 10_000) + 1j * rng.uniform(-500, 500, 10_000)
        gamma = reflection_coefficient(load, 75)
        found = load_from_standing_wave(swr(gamma), distance_to_minimum(gamma), 75)

        assert np.max(np.abs(found - load) / np.abs(load)) < 1e-10

    @given(ratio=ratios, distance=distances)
    def test_any_minimum_will_do(self, ratio, distance):
        """Minima half a wave apart give the same reflection."""
        near, far = load_from_standing_wave(ratio, np.array([distance, distance + 0.5]), 50)

        assert abs(reflection_coefficient(near, 50) - reflection_coefficient(far, 50)) < 1e-12

    @given(ratio=st.one_of(ratios, st.just(np.inf)), distance=distances)
    def test_never_gives_power_back(self, ratio, distance):
        """Whatever is measured, the load's resistance is not below zero, so that a designer accepts it."""
        assert load_from_standing_wave(ratio, distance, 50).real >= 0

    def test_minimum_at_the_load(self):
        """A minimum at the load itself means the line's impedance divided by the ratio."""
        assert pytest.approx(25) == load_from_standing_wave(2, 0, 50)

    def test_maximum_at_the_load(self):
        """A minimum a quarter wave away means the line's impedance times the ratio."""
        assert pytest.approx(100) == load_from_standing_wave(2, 0.25, 50)

    def test_matched(self):
        """Without a standing wave the load is the line's impedance, wherever a minimum is thought to be."""
        assert pytest.approx([75, 75]) == load_from_standing_wave(1, [0.1, 0.3], 75)

    def test_no_power_taken(self):
        """An infinite ratio means a pure reactance: the short at its own place, and what is an eighth
        away."""
        assert pytest.approx([0, -50j]) == load_from_standing_wave(np.inf, [0, 0.125], 50)

    def test_broadcasts(self):
        """Ratios, distances and lines of different shapes broadcast."""
        assert (3, 2) == load_from_standing_wave(np.array([[1.5], [2], [3]]), [0.1, 0.2], 50).shape

    @pytest.mark.parametrize(
        ("ratio", "said"), [(0.9, "0.9"), (np.nan, "nan"), ("abc", "'abc'"), (2j, r"0\+2j")]
    )
    def test_impossible_ratio(self, ratio, said):
        """A ratio below one, or none at all, is refused with a sentence."""
        with pytest.raises(
            OutOfRange, match=f"standing-wave ratio must be a number at least 1 .* not {said}"
        ):
            load_from_standing_wave(ratio, 0.1, 50)

    def test_impossible_distance(self):
        """A minimum beyond the load is refused."""
        with pytest.raises(NotALength, match="distance of the minimum must be zero or more"):
            load_from_standing_wave(2, -0.1, 50)

    def test_impossible_line(self):
        """A line without impedance is refused."""
        with pytest.raises(NotAnImpedance, match="line impedance must be a positive number"):
            load_from_standing_wave(2, 0.1, 0)


class TestFromShift:
    @given(ratio=ratios, shift=st.floats(0, 0.5))
    def test_both_ways_round(self, ratio, shift):
        """The shift toward the generator and the rest of the half wave toward the load mean the same load."""
        one = load_from_minimum_shift(ratio, shift, 50, toward="generator")
        other = load_from_minimum_shift(ratio, 0.5 - shift, 50, toward="load")

        assert abs(reflection_coefficient(one, 50) - reflection_coefficient(other, 50)) < 1e-12

    def test_toward_generator_is_the_distance(self):
        """With a short the minima stand for the load's plane, so a shift toward the generator is a
        distance."""
        assert load_from_minimum_shift(3, 0.2, 50) == load_from_standing_wave(3, 0.2, 50)

    def test_no_shift(self):
        """A minimum where the short had it means a real load below the line's impedance, either way."""
        found = [load_from_minimum_shift(2, 0, 50, toward) for toward in ("generator", "load")]

        assert pytest.approx([25, 25]) == found

    def test_other_direction(self):
        """A direction is toward the generator or toward the load."""
        with pytest.raises(UnknownChoice, match="generator or load, not 'left'"):
            load_from_minimum_shift(2, 0.1, 50, toward="left")

    def test_negative_shift(self):
        """A negative shift is refused rather than guessed."""
        with pytest.raises(NotALength, match="shift of the minimum must be zero or more"):
            load_from_minimum_shift(2, -0.1, 50)
