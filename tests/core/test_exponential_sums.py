"""Short sums of exponentials: every zero found, against a dense walk and against zeros put there."""

import numpy as np

from core.exponential_sums import ExponentialSums
from core.roots import newton_in_brackets


def random_sums(count, seed):
    """Sums like those of a lossy line: a constant, a wave, a loss, and both together."""
    rng = np.random.default_rng(seed)
    loss = 10 ** rng.uniform(-3, 0.3, count)
    rates = np.array([0 * loss, -2 * loss - 4j * np.pi, -4 * loss, -6 * loss + 4j * np.pi])
    coefficients = rng.normal(size=(4, count)) + 1j * rng.normal(size=(4, count))
    return ExponentialSums(coefficients, rates.astype(complex))


class TestZeros:
    def test_a_walk_finds_the_same(self):
        """A walk in 4,000 steps finds a change of sign where a zero is given, and nowhere else, for 500 sums."""
        sums, grid = random_sums(500, 61), np.linspace(0, 0.5, 4001)
        which, place = sums.zeros(0.0, 0.5)
        every = np.arange(500)[:, None]
        above = sums.at(np.broadcast_to(every, (500, 4001)), np.broadcast_to(grid, (500, 4001)))[0] >= 0
        row, left = np.nonzero(above[:, 1:] != above[:, :-1])
        given = sorted(zip(which, np.minimum(place / 0.5 * 4000, 3999.999).astype(int), strict=True))

        assert sorted(zip(row, left, strict=True)) == given
        assert np.abs(sums.at(which, place)[0]).max() < 1e-9

    def test_two_that_fall_together(self):
        """A sum that only touches zero has a zero there: cos squared, as a sum."""
        touching = ExponentialSums(np.array([[0.5], [0.5]]) + 0j, np.array([[0j], [4j * np.pi]]))
        which, place = touching.zeros(0.0, 0.5)

        assert set(which) == {0}
        assert np.abs(place - 0.25).max() < 1e-6

    def test_nothing_but_rounding(self):
        """A sum that is zero everywhere, or a constant, has no zeros to speak of, and is not searched for ever."""
        rates = np.array([[4j * np.pi, 0], [4j * np.pi, 0]])
        nothing = ExponentialSums(np.array([[1.0, 2.0], [-1.0, 0.0]]) + 0j, rates)

        assert nothing.zeros(0.0, 0.5)[0].size == 0


def test_newton_stays_in_its_brackets():
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
