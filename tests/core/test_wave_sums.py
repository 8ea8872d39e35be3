"""Sums that a wave on a lossy line makes: every zero found, against a dense walk and against zeros put there."""

import numpy as np
import pytest

from core.roots import newton_in_brackets
from core.wave_sums import WaveSums


def random_sums(count, seed):
    """Sums of all four terms, of lines with little loss and with much."""
    rng = np.random.default_rng(seed)
    loss = 10 ** rng.uniform(-3, 0.3, count)
    constant, level = rng.normal(size=(2, count))
    first, second = rng.normal(size=(2, count)) + 1j * rng.normal(size=(2, count))
    return WaveSums(constant, level, first, second, -2 * loss)


class TestZeros:
    def test_a_walk_finds_the_same(self):
        """A walk in 4,000 steps finds a change of sign where a zero is given, and nowhere else, for 500 sums."""
        sums, grid = random_sums(500, 61), np.linspace(0, 0.5, 4001)
        which, place = sums.zeros()
        values = sums.at(np.arange(500).repeat(4001), np.tile(grid, 500))[0].reshape(500, 4001)
        above = values >= 0
        row, left = np.nonzero(above[:, 1:] != above[:, :-1])
        given = sorted(zip(which, np.minimum(place / 0.5 * 4000, 3999.999).astype(int), strict=True))

        assert sorted(zip(row, left, strict=True)) == given
        assert np.abs(sums.at(which, place)[0]).max() < 1e-12

    def test_value_and_slope(self):
        """The value is that of the sum of exponentials, written out, and the slope its difference over a small step."""
        sums, place = random_sums(200, 62), np.random.default_rng(63).uniform(0, 0.5, 200)
        wave = np.exp(sums.decay * place) * np.exp(-4j * np.pi * place)
        size = np.abs(wave) ** 2
        expected = sums.constant + sums.level * size + (wave * (sums.first + sums.second * size)).real
        value, slope = sums.at(slice(None), place)
        ahead, behind = (sums.at(slice(None), place + step)[0] for step in (1e-6, -1e-6))

        assert np.abs(value - expected).max() < 1e-13
        assert slope == pytest.approx((ahead - behind) / 2e-6, rel=1e-6, abs=1e-6)

    def test_two_that_fall_together(self):
        """A sum that only touches zero has a zero there: a constant, and as much of the wave."""
        one, none = np.ones(1), np.zeros(1)
        which, place = WaveSums(one, none, one + 0j, none + 0j, none).zeros()

        assert set(which) == {0}
        assert np.abs(place - 0.25).max() < 1e-6

    def test_nothing_but_rounding(self):
        """A sum that is zero everywhere, or a constant, has no zeros to speak of, and is not searched for ever."""
        none = np.zeros(2)
        nothing = WaveSums(np.array([0.0, 2.0]), none, none + 0j, none + 0j, none)

        assert nothing.zeros()[0].size == 0


class TestNewton:
    def test_stays_in_its_brackets(self):
        """Where Newton's method alone would run away, the root in the bracket is found: arctan from far off, a pole."""
        shift = np.array([0.0, 0.3, 3.0])
        found = newton_in_brackets(
            lambda which, x: (np.arctan(30 * (x - shift[which])), 30 / (1 + 900 * (x - shift[which]) ** 2)),
            np.full(3, -5.0),
            np.full(3, 20.0),
            np.zeros(3, dtype=bool),
        )
        low = newton_in_brackets(
            lambda which, x: (np.log(x), 1 / x), np.array([1e-300]), np.array([1e9]), np.array([False])
        )

        assert np.abs(found - shift).max() < 1e-12
        assert abs(low[0] - 1) < 1e-12

    def test_a_good_start_is_not_an_answer(self):
        """A first step that happens to be small says nothing of the next: a curved function has its root as exact."""
        start = 0.25 + 1e-6 * np.linspace(-1, 1, 41)
        found = newton_in_brackets(
            lambda which, x: (np.expm1(200 * (x - 0.25)), 200 * np.exp(200 * (x - 0.25))),
            np.zeros(41), np.full(41, 0.5), np.zeros(41, dtype=bool), start,
        )  # fmt: skip

        assert np.abs(found - 0.25).max() < 1e-15
