"""Every zero of the real part of a short sum of complex exponentials, none missed.

Powers and angles along a line that loses are such sums. Their derivatives have bounds that need no search, so
that a stretch without a zero, and one on which the sum only rises or only falls, are told for certain.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.checks import Array
from core.roots import newton_in_brackets

CELLS = 8
"""Stretches that the search begins with."""

FINEST = 1e-8
"""Width at which a stretch that is still undecided, where two zeros fall together, is itself a zero."""

CROWD = 32
"""Undecided stretches above which a function is nothing but rounding, and has no zeros to speak of."""


@dataclass(frozen=True)
class ExponentialSums:
    """Many real functions Re sum(coefficient exp(rate x)); both arrays of shape (terms, functions)."""

    coefficients: Array
    rates: Array

    def at(self, which: Array, place: Array) -> tuple[Array, Array]:
        """Value and slope of the functions `which` at the places, of one shape."""
        rates = self.rates[:, which]
        terms = self.coefficients[:, which] * np.exp(rates * place)
        return terms.real.sum(axis=0), (rates * terms).real.sum(axis=0)

    def zeros(self, low: float, high: float) -> tuple[Array, Array]:
        """Which function and where, of every zero between two numbers, in no order.

        A stretch is halved until the bound of the second derivative says that the function has no zero on it,
        or a slope of one sign. Where two zeros nearly fall together one place may stand for both."""
        width = (high - low) / CELLS
        size = np.abs(self.coefficients) * np.exp(np.maximum(self.rates.real * low, self.rates.real * high))
        bend, rounding = (size * np.abs(self.rates) ** 2).sum(axis=0), 1e-15 * size.sum(axis=0)
        which = np.repeat(np.arange(bend.size), CELLS)
        middle = np.tile(low + width * (np.arange(CELLS) + 0.5), bend.size)
        steady = [(which[:0], middle[:0], middle[:0])]
        while which.size and width > FINEST:
            half, (value, slope) = width / 2, self.at(which, middle)
            reach = (np.abs(slope) + bend[which] * half / 2) * half + rounding[which]
            possible = (bend[which] > 0) & (np.abs(value) <= reach)
            one_way = np.abs(slope) > bend[which] * half * (1 + 1e-9)  # more than by rounding
            found = possible & one_way
            steady.append((which[found], middle[found] - half, middle[found] + half))
            left = possible & ~one_way
            left &= np.bincount(which[left], minlength=bend.size)[which] <= CROWD
            which, middle = which[left].repeat(2), middle[left].repeat(2)
            middle[::2], middle[1::2], width = middle[::2] - half / 2, middle[1::2] + half / 2, half
        crossed, place = self._crossings(*map(np.concatenate, zip(*steady, strict=True)))
        return np.concatenate([crossed, which]), np.concatenate([place, middle])

    def _crossings(self, which: Array, low: Array, high: Array) -> tuple[Array, Array]:
        """The zeros on stretches with at most one each."""
        above = self.at(which, low)[0] >= 0
        crossed = np.flatnonzero(above != (self.at(which, high)[0] >= 0))
        which, low, high, above = which[crossed], low[crossed], high[crossed], above[crossed]
        return which, newton_in_brackets(lambda some, x: self.at(which[some], x), low, high, above)
