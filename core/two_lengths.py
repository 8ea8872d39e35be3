"""Two lengths of lossy line chosen together so that a load is matched: every pair there is.

Both designs with one and with two stubs come to one equation. The wave that goes down one line of variable
length and back is a spiral, start exp(-2 gamma x); the rest of the network turns it, by a fraction of linear
functions, into the wave that the other line would have to return, and that line returns end exp(-2 gamma y).
Its angle gives y in closed form; what is left is one real equation for x,

    excess(x) = ln |wave wanted| + 2 attenuation y(x) = 0.

The places where the excess turns from rising to falling, and those where y jumps by a half wave, are zeros of
short sums of exponentials, all of which are found (`core.exponential_sums`). Between them the excess is
monotone and its signs at the ends tell whether there is a root: none can be missed.
"""

from __future__ import annotations

from collections.abc import Callable
from copy import copy
from dataclasses import dataclass, fields, replace

import numpy as np

from core.checks import Array
from core.exponential_sums import ExponentialSums
from core.roots import newton_in_brackets

ROUNDING = 64 * float(np.finfo(float).eps)
"""Below this an excess is zero: where two solutions are one, or one is at no length, rounding hides its sign."""

EDGE = 1e-14
"""Wavelengths by which a length short of a half wave is that half wave."""

HORIZON = 8
"""Half waves of both lengths together up to which the shortest pair is looked for where none is short."""

Pairs = tuple[Array, Array, Array]
"""Number of the problem, first length and second length, of each pair found."""


@dataclass(frozen=True)
class TwoLengths:
    """Many such problems, in flat arrays.

    fraction : a, b, c, d of (a wave + b) / (c wave + d), shape (4, problems).  start : the wave at no length.
    first, second : nepers + 2 pi j per wavelength of the two lines.  end : what the second line's end
    returns, 1 or -1."""

    fraction: Array
    start: Array
    first: Array
    second: Array
    end: Array

    def part(self, which: Array) -> TwoLengths:
        """Some of them."""
        return TwoLengths(*(getattr(self, field.name)[..., which] for field in fields(self)))

    def all_pairs(self, is_match: Callable[[Array, Array, Array], Array]) -> tuple[Pairs, Array]:
        """Every pair with both lengths in [0, 0.5), and where there is none the shortest up to the horizon.

        is_match : of number, first length, second length: whether they are a match, told by the evaluator.
        Returns the pairs, shortest in all first for each problem, and which problems have only a long one."""
        count = self.start.size
        found = _kept(self.pairs(np.arange(count), 0, 0), is_match)
        none = np.bincount(found[0], minlength=count) == 0
        beyond = self._shortest(np.flatnonzero(none), is_match)
        number, x, y = (np.concatenate(both) for both in zip(found, beyond, strict=True))
        order = np.lexsort((x + y, number))
        return (number[order], x[order], y[order]), np.isin(np.arange(count), beyond[0])

    def pairs(self, which: Array, turns: int, more: int) -> Pairs:
        """The pairs of some problems with lengths in one half wave each, `turns` and `more` half waves on."""
        some = self.part(which)
        some = replace(some, start=some.start * np.exp(-turns * some.first.real))
        number, low, high = some._stretches()
        excess = Excess(some.part(number), more, (low + high) / 2)
        at_low, at_high = excess.snapped(low), excess.snapped(high)
        crossed = np.flatnonzero(at_low * at_high < 0)
        inside = excess.only(crossed)
        first_guess = inside.guess(low[crossed], high[crossed])
        place = newton_in_brackets(inside, low[crossed], high[crossed], at_low[crossed] > 0, first_guess)
        starts, ends = np.flatnonzero(at_low == 0), np.flatnonzero((at_high == 0) & (high < 0.5))
        all_found, x = np.r_[crossed, starts, ends], np.r_[place, low[starts], high[ends]]
        y = excess.only(all_found).length(x)
        good = (x < 0.5 - EDGE) & (y < 0.5 - EDGE)
        number, x, y = number[all_found[good]], x[good], np.maximum(y[good], 0.0)
        corner = np.flatnonzero(some._corner()) if turns == more == 0 else number[:0]
        number, x, y = np.r_[number, corner], np.r_[x, 0.0 * corner], np.r_[y, 0.0 * corner]
        return which[number], x + turns / 2, y + more / 2

    def _corner(self) -> Array:
        """Whether both lengths may be nothing: the one place with no stretch beside it that shows it."""
        a, b, c, d = self.fraction
        above, below = a * self.start + b, (c * self.start + d) * self.end
        return np.abs(above - below) <= ROUNDING * np.abs(below)

    def _stretches(self) -> Pairs:
        """Stretches of the first length on which the excess is monotone and the second length does not jump:
        number, begin, end."""
        number, place = self._turning_points()
        ends = np.arange(self.start.size).repeat(2)
        number, place = np.r_[number, ends], np.r_[place, np.tile([0.0, 0.5], self.start.size)]
        order = np.lexsort((place, number))
        number, place = number[order], place[order]
        within = (number[1:] == number[:-1]) & (place[1:] > place[:-1])
        return number[1:][within], place[:-1][within], place[1:][within]

    def _turning_points(self) -> tuple[Array, Array]:
        """Where the excess may turn, and where the wave wanted is real and the second length may jump.

        With w the wave, the excess has the slope Re k w / ((a w + b)(c w + d)), and the wave wanted the sign of
        Im (a w + b) conj(c w + d); both are sums of powers of w and conj(w). Of a real fraction the second
        is zero where w is real, and so is the first if both lines lose alike."""
        if np.any(self.fraction.imag):
            return _both(self._turns().zeros(0.0, 0.5), self._jumps().zeros(0.0, 0.5))
        real = np.mod(np.angle(self.start) / (4 * np.pi), 0.25)
        number = np.arange(real.size)
        unlike = np.flatnonzero(self.first.real != self.second.real)
        turning, place = self.part(unlike)._turns().zeros(0.0, 0.5)
        return np.r_[number, number, unlike[turning]], np.r_[real, real + 0.25, place]

    def _turns(self) -> ExponentialSums:
        (a, b, c, d), k, u = self.fraction, self.slope_factor(), self.start
        size, rate, loss = np.abs(u) ** 2, -2 * self.first, -4 * self.first.real
        terms = k * np.conj(b * d) * u, k * np.conj(a * d + b * c) * size, k * np.conj(a * c * u) * size
        return ExponentialSums(np.array(terms), np.array([rate, loss, loss + np.conj(rate)]))

    def _jumps(self) -> ExponentialSums:
        (a, b, c, d), u = self.fraction, self.start
        terms = b * np.conj(d), (a * np.conj(d) - np.conj(b) * c) * u, a * np.conj(c) * np.abs(u) ** 2
        return ExponentialSums(
            -1j * np.array(terms), np.array([0 * self.first, -2 * self.first, -4 * self.first.real])
        )

    def slope_factor(self) -> Array:
        """k of the excess's slope."""
        a, b, c, d = self.fraction
        return -2 * self.first * (a * d - b * c) * (1 + 1j * self.second.real / (2 * np.pi))

    def _shortest(self, which: Array, is_match: Callable[[Array, Array, Array], Array]) -> Pairs:
        """The shortest pair of each of these problems with a length of a half wave or more."""
        best = np.full((3, self.start.size), np.inf)
        for half_waves in range(1, HORIZON + 1):
            open_ones = which[best[0, which] > half_waves / 2]
            for turns in range(half_waves + 1):
                more = half_waves - turns
                lossy = ((self.first.real > 0) | (turns == 0)) & ((self.second.real > 0) | (more == 0))
                number, x, y = _kept(self.pairs(open_ones[lossy[open_ones]], turns, more), is_match)
                for n, one, other in zip(number, x, y, strict=True):
                    best[:, n] = min(tuple(best[:, n]), (one + other, one, other))
        found = which[np.isfinite(best[0, which])]
        return found, best[1, found], best[2, found]


class Excess:
    """The excess of each problem on a stretch of its own, and the second length there, which does not jump."""

    def __init__(self, problems: TwoLengths, more: int, middle: Array) -> None:
        """problems : one for each stretch.  more : whole half waves on the second line.  middle : of the
        stretch, where the quarter wave is told in which the second length stays."""
        p = problems
        self._values = (*p.fraction, p.start, -2 * p.first, 2 * p.second.real, p.slope_factor(), p.end)
        self._more = more / 2
        self._branch = np.full(middle.shape, 0.25)
        self._branch = np.where(self.length(middle) < 0.25, 0.125, 0.375)

    def only(self, which: Array) -> Excess:
        """Of some of the stretches."""
        some = copy(self)
        some._values = tuple(value[which] for value in self._values)
        some._branch = self._branch[which]
        return some

    def __call__(self, which: Array | slice, place: Array) -> tuple[Array, Array]:
        """Excess and slope of those stretches at a place on each."""
        a, b, c, d, start, rate, loss, factor, end = (value[which] for value in self._values)
        wave = start * np.exp(rate * place)
        above, below = a * wave + b, c * wave + d
        length = _length(above * np.conj(below) * end, self._branch[which]) + self._more
        with np.errstate(divide="ignore", invalid="ignore"):  # no wave wanted, or no end of it: sign enough
            logarithm = 0.5 * np.log(_square(above) / _square(below))
            slope = (factor * wave / (above * below)).real
        return logarithm + loss * length, slope

    def length(self, place: Array) -> Array:
        """The second length, whole half waves not counted."""
        a, b, c, d, start, rate, _, _, end = self._values
        wave = start * np.exp(rate * place)
        return _length((a * wave + b) * np.conj(c * wave + d) * end, self._branch)

    def snapped(self, place: Array) -> Array:
        """The excess, zero where it is rounding."""
        excess, slope = self(slice(None), place)
        return np.where(np.abs(excess) <= ROUNDING * (1 + np.abs(slope)), 0.0, excess)

    def guess(self, low: Array, high: Array) -> Array:
        """Where the wave wanted would have the size one if nothing were lost from `low` to `high`; else the
        middle."""
        a, b, c, d, start, rate, *_ = self._values
        middle = (low + high) / 2
        size = np.abs(start) * np.exp(rate.real * middle)
        beat = 2 * (a * np.conj(b) - c * np.conj(d)) * size * np.exp(1j * np.angle(start))
        level = (_square(d) - _square(b) + (_square(c) - _square(a)) * size**2) / np.abs(beat)
        half = np.arccos(np.clip(level, -1, 1))
        guess = middle
        for turn in (np.angle(beat) - half, np.angle(beat) + half):
            place = np.mod(turn / (4 * np.pi), 0.5)
            guess = np.where((place > low) & (place < high), place, guess)
        return guess


def _length(wave: Array, branch: Array) -> Array:
    """Length at the angle of a wave, within a quarter wave of its branch."""
    turned = wave * np.exp(4j * np.pi * branch)
    return branch - np.arctan2(turned.imag, turned.real) / (4 * np.pi)


def _square(wave: Array) -> Array:
    return wave.real**2 + wave.imag**2


def _both(one: tuple[Array, Array], other: tuple[Array, Array]) -> tuple[Array, Array]:
    return np.r_[one[0], other[0]], np.r_[one[1], other[1]]


def _kept(pairs: Pairs, is_match: Callable[[Array, Array, Array], Array]) -> Pairs:
    """Those that the evaluator confirms, each once."""
    number, x, y = pairs
    good = is_match(*pairs) if number.size else np.zeros(0, dtype=bool)
    number, x, y = number[good], x[good], y[good]
    order = np.lexsort((x, number))
    number, x, y = number[order], x[order], y[order]
    again = np.r_[False, (np.diff(number) == 0) & (np.diff(x) < EDGE) & (np.abs(np.diff(y)) < EDGE)][: number.size]
    return number[~again], x[~again], y[~again]


def in_columns(number: Array, lengths: Array, count: int) -> Array:
    """Pairs, sorted by their number, as arrays of shape (solutions, 2, count): nan where one has fewer.

    lengths : of shape (2, pairs)."""
    first = np.searchsorted(number, number)
    rank = np.arange(number.size) - first
    found = np.full((max(2, rank.max(initial=0) + 1), 2, count), np.nan)
    found[rank, :, number] = lengths.T
    return found
