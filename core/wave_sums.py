"""Every zero of a sum that a wave on a lossy line makes, none missed.

Along a line the wave w = exp(-2 gamma x) turns and shrinks. Powers and angles along the line are sums

    constant + level |w|² + Re w (first + second |w|²),

whose derivatives have bounds that need no search: so a stretch without a zero, and one on which the sum only rises
or only falls, are told for certain.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import NamedTuple

import numpy as np

from core.arrays import Array
from core.roots import newton_in_brackets

CELLS = 8
"""Stretches that the search of a half wave begins with."""

FINEST = 1e-8
"""Width at which a stretch that is still undecided, where two zeros fall together, is itself a zero."""

CROWD = 32
"""Undecided stretches above which a function is nothing but rounding, and has no zeros to speak of."""

HALF_WAVE = 0.5
TURNING = -4 * np.pi
"""Radians of the wave per wavelength of line, there and back."""
MIDDLES = (np.arange(CELLS)[:, None] + 0.5) * HALF_WAVE / CELLS
TURNED = np.exp(1j * TURNING * MIDDLES)


@dataclass(frozen=True)
class WaveSums:
    """Many such sums; all arrays of shape (functions,).

    constant, level : real.  first, second : complex.  decay : nepers per wavelength of the wave, zero or less."""

    constant: Array
    level: Array
    first: Array
    second: Array
    decay: Array

    def only(self, which: Array) -> WaveSums:
        """Some of them."""
        return WaveSums(*(getattr(self, field.name)[which] for field in fields(self)))

    def at(self, which: Array | slice, place: Array) -> tuple[Array, Array]:
        """Value and slope of the functions `which` at the places, of one shape."""
        some = WaveSums(*(getattr(self, field.name)[which] for field in fields(self)))
        return some._at(np.exp((some.decay + 1j * TURNING) * place))

    def _at(self, wave: Array) -> tuple[Array, Array]:
        size, fading = wave.real**2 + wave.imag**2, 2 * self.decay
        swing, level = self.second * size, self.level * size
        changing = self.first * (self.decay + 1j * TURNING) + swing * (3 * self.decay + 1j * TURNING)
        value = self.constant + level + _real_product(wave, self.first + swing)
        return value, fading * level + _real_product(wave, changing)

    def _bounds(self) -> tuple[Array, Array]:
        """Over the half wave, of the size of the second derivative and of rounding."""
        decay, sizes = np.abs(self.decay), (np.abs(self.level), np.abs(self.first), np.abs(self.second))
        turning = TURNING**2
        bend = sizes[0] * (2 * decay) ** 2 + sizes[1] * (decay**2 + turning)
        bend += sizes[2] * ((3 * decay) ** 2 + turning)
        return bend, 1e-15 * (np.abs(self.constant) + sizes[0] + sizes[1] + sizes[2])

    def zeros(self) -> tuple[Array, Array]:
        """Which function and where, of every zero on the first half wave, in no order.

        A stretch is halved until the bound of the second derivative says that the function has no zero on it,
        or a slope of one sign. Where two zeros nearly fall together one place may stand for both."""
        bend, rounding = self._bounds()
        half = HALF_WAVE / CELLS / 2
        value, slope = self._at(np.exp(self.decay * MIDDLES) * TURNED)
        possible, one_way = _told(value, slope, bend, rounding, half)
        found, left = np.nonzero(possible & one_way), np.nonzero(possible & ~one_way)
        steady = [_Stretches(found[1], MIDDLES[found[0], 0], half, value[found], slope[found])]
        which, middle = left[1], MIDDLES[left[0], 0]
        while which.size and half > FINEST:
            which, middle, half = which.repeat(2), middle.repeat(2), half / 2
            middle[::2] -= half
            middle[1::2] += half
            value, slope = self.at(which, middle)
            possible, one_way = _told(value, slope, bend[which], rounding[which], half)
            sure, still = possible & one_way, possible & ~one_way
            steady.append(_Stretches(which[sure], middle[sure], half, value[sure], slope[sure]))
            still &= np.bincount(which[still], minlength=bend.size)[which] <= CROWD
            which, middle = which[still], middle[still]
        zeros = [self._crossings(stretches, bend, rounding) for stretches in steady if stretches.which.size]
        crossed, place = zip((which, middle), *zeros, strict=True)
        return np.concatenate(crossed), np.concatenate(place)

    def _crossings(self, stretches: _Stretches, bend: Array, rounding: Array) -> tuple[Array, Array]:
        """The zeros on stretches with at most one each."""
        which, middle, half, value, slope = stretches
        unsure = bend[which] * half**2 / 2 + rounding[which]
        at_low, at_high = self._end(stretches, -half, unsure), self._end(stretches, half, unsure)
        crossed = np.flatnonzero((at_low >= 0) != (at_high >= 0))
        which, middle = which[crossed], middle[crossed]
        step = np.clip(-value[crossed] / slope[crossed], -0.99 * half, 0.99 * half)
        low, high, above = middle - half, middle + half, at_low[crossed] >= 0
        return which, newton_in_brackets(self.only(which).at, low, high, above, middle + step)

    def _end(self, stretches: _Stretches, half: float, unsure: Array) -> Array:
        """Values at one end of the stretches; where the slope in the middle tells the sign, by that slope."""
        which, middle, _, value, slope = stretches
        end = value + half * slope
        near = np.flatnonzero(np.abs(end) <= unsure)
        end[near] = self.at(which[near], middle[near] + half)[0]
        return end


class _Stretches(NamedTuple):
    """Stretches on which functions only rise or only fall: of which function, value and slope in their middle."""

    which: Array
    middle: Array
    half: float
    value: Array
    slope: Array


def _told(value: Array, slope: Array, bend: Array, rounding: Array, half: float) -> tuple[Array, Array]:
    """Of stretches of this half width whether there may be a zero, and whether the slope keeps its sign there."""
    size = np.abs(slope)
    possible = (bend > 0) & (np.abs(value) <= (size + bend * (half / 2)) * half + rounding)
    return possible, size > bend * (half * (1 + 1e-9))  # more than by rounding


def _real_product(one: Array, other: Array) -> Array:
    """The real part of a product, without the other part."""
    return one.real * other.real - one.imag * other.imag
