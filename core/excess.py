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
    """The excess of each problem on stretches of its own, and the second length there, which does not jump.

    On each the excess rises or falls only, and those are left out on which it cannot be zero."""

    def __init__(self, values: tuple[Array, ...], number: Array, place: Array, most: int) -> None:
        """values : what `TwoLengths.values` says of the problems.  number, place : sorted, of which problem and
        where its stretches end.  most : half waves that a second length may have beside its own."""
        loss = values[6][number]
        above, below = _fraction(values[:6], number, place)
        with np.errstate(divide="ignore"):  # no wave wanted, or no end of it: sign enough
            level = 0.5 * np.log(_square(above) / _square(below))
        wanted = above * np.conj(below) * values[-1][number]
        high = np.flatnonzero((number[1:] == number[:-1]) & (place[1:] > place[:-1])) + 1
        too_large = np.minimum(level[high - 1], level[high]) > NEAR
        too_small = np.maximum(level[high - 1], level[high]) + loss[high] * (most + 1) / 2 < -NEAR
        high = high[~(too_large | too_small)]
        low = high - 1
        self.number, self.low, self.high = number[high], place[low], place[high]
        self._values = tuple(value[self.number] for value in values)
        self._turn = np.full(low.shape, -1.0 + 0j)
        self._turn = np.where(self.length((self.low + self.high) / 2) < 0.25, 1j, -1j)
        self._at_low, self._at_high = (
            level[end] + loss[high] * _length(wanted[end], self._turn) for end in (low, high)
        )

    def pairs(self, more: int) -> Pairs:
        """Problem and both lengths of every pair whose second length has `more` whole half waves."""
        raised = more / 2 * self._values[6]
        at_low, at_high = _snapped(self._at_low + raised), _snapped(self._at_high + raised)
        crossed = np.flatnonzero(np.sign(at_low) * np.sign(at_high) < 0)
        starts, first = self._just_outside(self.low, at_low)
        ends, last = self._just_outside(self.high, at_high)
        stretch = np.r_[crossed, starts, ends]
        x = np.r_[self.only(crossed).root(raised[crossed]), first, last]
        y = self.only(stretch).length(x)
        return self.number[stretch], _below_half(x), _below_half(y) + more / 2

    def _just_outside(self, end: Array, excess: Array) -> tuple[Array, Array]:
        """Stretches with a root at this end, or past it by rounding only, and the root."""
        which = np.flatnonzero(np.abs(excess) <= NEAR)
        excess, slope = excess[which], self.only(which)(slice(None), end[which])[1]
        at_end = (excess == 0) | (np.abs(excess) <= EDGE * np.abs(slope))
        steep = np.where(excess == 0, 1.0, slope)[at_end]
        return which[at_end], np.maximum(end[which[at_end]] - excess[at_end] / steep, 0.0)

    def root(self, raised: Array) -> Array:
        """Where the excess, so much raised, is zero on stretches where it changes sign."""

        def function(which: Array | slice, place: Array) -> tuple[Array, Array]:
            excess, slope = self(which, place)
            return excess + raised[which], slope

        return newton_in_brackets(function, self.low, self.high, self._at_low + raised > 0, self.guess())

    def only(self, which: Array) -> Excess:
        """Of some of the stretches."""
        some = copy(self)
        some._values = tuple(value[which] for value in self._values)
        for name in ("number", "low", "high", "_turn", "_at_low", "_at_high"):
            setattr(some, name, getattr(self, name)[which])
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
        above, below = _fraction(self._values[:6], slice(None), place)
        return _length(above * np.conj(below) * self._values[-1], self._turn)

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


def _fraction(values: tuple[Array, ...], which: Array | slice, place: Array) -> tuple[Array, Array]:
    """Numerator and denominator of the wave wanted, of these problems at these places."""
    a, b, c, d, start, rate = (value[which] for value in values)
    wave = start * np.exp(rate * place)
    return a * wave + b, c * wave + d


def _below_half(length: Array) -> Array:
    """The length; nothing for a half wave, which is as good without loss, and with it refused by the evaluator."""
    return np.where(length < 0.5 - EDGE, np.maximum(length, 0.0), 0.0)


def _snapped(excess: Array) -> Array:
    """The excess, zero where it is rounding: where two solutions fall together."""
    return np.where(np.abs(excess) <= HIDDEN, 0.0, excess)


def _square(wave: Array) -> Array:
    return wave.real**2 + wave.imag**2
