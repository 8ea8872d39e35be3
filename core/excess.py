"""The one equation that is left of two lengths of lossy line, on stretches where it has one root at most.

See `core.two_lengths`, which finds the stretches.
"""

from __future__ import annotations

from copy import copy

import numpy as np

from core.arrays import ROUNDING, Array
from core.roots import newton_in_brackets

HIDDEN = 16 * ROUNDING
"""Below this an excess is zero: where two solutions are one, or one is at no length, rounding hides its sign."""

NEAR = 1e-9
"""Excess, or second length, by which a solution may be off because the excess is steep."""

EDGE = 1e-12
"""Wavelengths that are rounding: within these two lengths are the same, and a half wave is no length."""

Pairs = tuple[Array, Array, Array]
"""Number of the problem (or stretch), first length and second length, of each pair found."""


class Excess:
    """The excess of each problem on a stretch of its own, and the second length there, which does not jump."""

    def __init__(self, values: tuple[Array, ...], low: Array, high: Array) -> None:
        """values : for each stretch, from `low` to `high`, what `TwoLengths.values` says of its problem."""
        self.low, self.high, self._values = low, high, values
        self._turn = np.full(low.shape, -1.0 + 0j)
        self._turn = np.where(self.length((low + high) / 2) < 0.25, 1j, -1j)
        self._at_ends: tuple[Array, ...] = (*self(slice(None), low), *self(slice(None), high))

    def pairs(self, more: int) -> Pairs:
        """Stretch and both lengths of every pair whose second length has `more` whole half waves."""
        at_low, slope_low, at_high, slope_high = self._at_ends
        raised = more / 2 * self._values[6]
        at_low, at_high = _snapped(at_low + raised), _snapped(at_high + raised)
        crossed = np.flatnonzero(np.sign(at_low) * np.sign(at_high) < 0)
        starts, first = _just_outside(self.low, at_low, slope_low)
        ends, last = _just_outside(self.high, at_high, slope_high)
        stretch = np.r_[crossed, starts, ends]
        x = np.r_[self.only(crossed).root(raised[crossed]), first, last]
        y = self.only(stretch).length(x)
        return stretch, _below_half(x), _below_half(y) + more / 2

    def root(self, raised: Array) -> Array:
        """Where the excess, so much raised, is zero on stretches where it changes sign."""

        def function(which: Array | slice, place: Array) -> tuple[Array, Array]:
            excess, slope = self(which, place)
            return excess + raised[which], slope

        return newton_in_brackets(function, self.low, self.high, self._at_ends[0] + raised > 0, self.guess())

    def only(self, which: Array) -> Excess:
        """Of some of the stretches."""
        some = copy(self)
        some._values = tuple(value[which] for value in self._values)
        some.low, some.high, some._turn = self.low[which], self.high[which], self._turn[which]
        some._at_ends = tuple(value[which] for value in self._at_ends)
        return some

    def __call__(self, which: Array | slice, place: Array) -> tuple[Array, Array]:
        """Excess and slope of those stretches at a place on each."""
        a, b, c, d, start, rate, loss, factor, end = (value[which] for value in self._values)
        wave = start * np.exp(rate * place)
        above, below = a * wave + b, c * wave + d
        length = _length(above * np.conj(below) * end, self._turn[which])
        with np.errstate(divide="ignore", invalid="ignore"):  # no wave wanted, or no end of it: sign enough
            logarithm = 0.5 * np.log(_square(above) / _square(below))
            slope = (factor * wave / (above * below)).real
        return logarithm + loss * length, slope

    def length(self, place: Array) -> Array:
        """The second length, whole half waves not counted."""
        a, b, c, d, start, rate, _, _, end = self._values
        wave = start * np.exp(rate * place)
        return _length((a * wave + b) * np.conj(c * wave + d) * end, self._turn)

    def guess(self) -> Array:
        """Where the wave wanted would have the size one if nothing were lost on the stretch; else its middle."""
        a, b, c, d, start, rate, *_ = self._values
        middle = (self.low + self.high) / 2
        size = np.abs(start) * np.exp(rate.real * middle)
        beat = 2 * (a * np.conj(b) - c * np.conj(d)) * size * np.exp(1j * np.angle(start))
        with np.errstate(divide="ignore", invalid="ignore"):  # where the size does not depend on the length
            level = (_square(d) - _square(b) + (_square(c) - _square(a)) * size**2) / np.abs(beat)
            half = np.arccos(np.clip(level, -1, 1))
        guess = middle
        for turn in (np.angle(beat) - half, np.angle(beat) + half):
            place = np.mod(turn / (4 * np.pi), 0.5)
            guess = np.where((place > self.low) & (place < self.high), place, guess)
        return guess


def _length(wave: Array, turn: Array) -> Array:
    """Length at the angle of a wave, less than a quarter wave from where a wave of this turn has it: 1j stands for
    an eighth of a wavelength, -1 for two, -1j for three."""
    turned, branch = wave * turn, 0.25 + 0.125 * -turn.imag
    return branch - np.arctan2(turned.imag, turned.real) / (4 * np.pi)


def _just_outside(end: Array, excess: Array, slope: Array) -> tuple[Array, Array]:
    """Stretches with a root at this end, or past it by rounding only, and the root."""
    small = np.minimum(EDGE * np.abs(slope), NEAR)
    which = np.flatnonzero((excess == 0) | (np.abs(excess) <= small))
    steep = np.where(excess[which] == 0, 1.0, slope[which])
    return which, np.maximum(end[which] - excess[which] / steep, 0.0)


def _below_half(length: Array) -> Array:
    """The length; nothing for a half wave, which is as good without loss, and with it refused by the evaluator."""
    return np.where(length < 0.5 - EDGE, np.maximum(length, 0.0), 0.0)


def _snapped(excess: Array) -> Array:
    """The excess, zero where it is rounding: where two solutions fall together."""
    return np.where(np.abs(excess) <= HIDDEN, 0.0, excess)


def _square(wave: Array) -> Array:
    return wave.real**2 + wave.imag**2
