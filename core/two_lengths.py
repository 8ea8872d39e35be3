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

from collections.abc import Callable, Iterable
from copy import copy
from dataclasses import dataclass, fields, replace

import numpy as np

from core.checks import Array
from core.exponential_sums import ExponentialSums
from core.roots import newton_in_brackets

ROUNDING = 64 * float(np.finfo(float).eps)
"""Below this an excess is zero: where two solutions are one, or one is at no length, rounding hides its sign."""

NEAR = 1e-9
"""Excess and wavelengths within which rounding of a steep excess may move a solution past no length."""

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
        numbers = np.arange(self.start.size)
        found = _kept(self._pairs(numbers, 0, [0]), is_match)
        none = np.bincount(found[0], minlength=numbers.size) == 0
        beyond = self._shortest(np.flatnonzero(none), is_match)
        number, x, y = (np.concatenate(both) for both in zip(found, beyond, strict=True))
        order = np.lexsort((x + y, number))
        return (number[order], x[order], y[order]), np.isin(numbers, beyond[0])

    def _shortest(self, which: Array, is_match: Callable[[Array, Array, Array], Array]) -> Pairs:
        """The shortest pair of each of these problems with a length of a half wave or more."""
        best = np.full((3, self.start.size), np.inf)
        for turns in range(HORIZON):
            which = which[best[0, which] > turns / 2]
            if not which.size:
                break
            pairs = _kept(self._pairs(which, turns, range(turns == 0, HORIZON - turns)), is_match)
            for number, x, y in zip(*pairs, strict=True):
                if x + y < min(best[0, number], HORIZON / 2):
                    best[:, number] = x + y, x, y
        found = np.flatnonzero(np.isfinite(best[0]))
        return found, best[1, found], best[2, found]

    def _pairs(self, which: Array, turns: int, more: Iterable[int]) -> Pairs:
        """The pairs of some problems with a first length in the half wave after `turns` half waves, and the
        second in each of the half waves that follow `more` of them."""
        some = self.part(which)
        some = replace(some, start=some.start * np.exp(-turns * some.first.real))
        number, low, high = some._stretches()
        excess = Excess(some.part(number), low, high)
        pairs = [excess.pairs(half_waves) for half_waves in more]
        stretch, x, y = (np.concatenate(part) for part in zip(*pairs, strict=True))
        corner = some._corner() if turns == 0 and 0 in more else number[:0]
        none = np.zeros(corner.size)
        return which[np.r_[number[stretch], corner]], np.r_[x + turns / 2, none], np.r_[y, none]

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

    def _corner(self) -> Array:
        """Which problems may have no length of either line: the one place with no stretch beside it that shows it."""
        a, b, c, d = self.fraction
        above, below = a * self.start + b, (c * self.start + d) * self.end
        return np.flatnonzero(np.abs(above - below) <= ROUNDING * np.abs(below))


class Excess:
    """The excess of each problem on a stretch of its own, and the second length there, which does not jump."""

    def __init__(self, problems: TwoLengths, low: Array, high: Array) -> None:
        """problems : one for each stretch, from `low` to `high`."""
        p = problems
        self.low, self.high = low, high
        self._values = (*p.fraction, p.start, -2 * p.first, 2 * p.second.real, p.slope_factor(), p.end)
        self._branch = np.full(low.shape, 0.25)
        self._branch = np.where(self.length((low + high) / 2) < 0.25, 0.125, 0.375)
        self._at_ends: tuple[Array, ...] = (*self(slice(None), low), *self(slice(None), high))

    def pairs(self, more: int) -> Pairs:
        """Stretch and both lengths of every pair whose second length has `more` whole half waves."""
        at_low, slope_low, at_high, _ = self._at_ends
        raised = more / 2 * self._values[6]
        at_low, at_high = _snapped(at_low + raised), _snapped(at_high + raised)
        crossed = np.flatnonzero(np.sign(at_low) * np.sign(at_high) < 0)
        at_nothing = (self.low == 0) & (np.abs(at_low) <= np.minimum(ROUNDING * np.abs(slope_low), NEAR))
        starts = np.flatnonzero((at_low == 0) | at_nothing)
        ends = np.flatnonzero((at_high == 0) & (self.high < 0.5))
        stretch = np.r_[crossed, starts, ends]
        x = np.r_[self.only(crossed).root(raised[crossed]), self.low[starts], self.high[ends]]
        y = self.only(stretch).length(x)
        good = (x < 0.5 - EDGE) & (y < 0.5 - EDGE)
        return stretch[good], x[good], np.maximum(y[good], 0.0) + more / 2

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
        some.low, some.high, some._branch = self.low[which], self.high[which], self._branch[which]
        some._at_ends = tuple(value[which] for value in self._at_ends)
        return some

    def __call__(self, which: Array | slice, place: Array) -> tuple[Array, Array]:
        """Excess and slope of those stretches at a place on each."""
        a, b, c, d, start, rate, loss, factor, end = (value[which] for value in self._values)
        wave = start * np.exp(rate * place)
        above, below = a * wave + b, c * wave + d
        length = _length(above * np.conj(below) * end, self._branch[which])
        with np.errstate(divide="ignore", invalid="ignore"):  # no wave wanted, or no end of it: sign enough
            logarithm = 0.5 * np.log(_square(above) / _square(below))
            slope = (factor * wave / (above * below)).real
        return logarithm + loss * length, slope

    def length(self, place: Array) -> Array:
        """The second length, whole half waves not counted."""
        a, b, c, d, start, rate, _, _, end = self._values
        wave = start * np.exp(rate * place)
        return _length((a * wave + b) * np.conj(c * wave + d) * end, self._branch)

    def guess(self) -> Array:
        """Where the wave wanted would have the size one if nothing were lost on the stretch; else its middle."""
        a, b, c, d, start, rate, *_ = self._values
        middle = (self.low + self.high) / 2
        size = np.abs(start) * np.exp(rate.real * middle)
        beat = 2 * (a * np.conj(b) - c * np.conj(d)) * size * np.exp(1j * np.angle(start))
        level = (_square(d) - _square(b) + (_square(c) - _square(a)) * size**2) / np.abs(beat)
        half = np.arccos(np.clip(level, -1, 1))
        guess = middle
        for turn in (np.angle(beat) - half, np.angle(beat) + half):
            place = np.mod(turn / (4 * np.pi), 0.5)
            guess = np.where((place > self.low) & (place < self.high), place, guess)
        return guess


def _length(wave: Array, branch: Array) -> Array:
    """Length at the angle of a wave, within a quarter wave of its branch."""
    turned = wave * np.exp(4j * np.pi * branch)
    return branch - np.arctan2(turned.imag, turned.real) / (4 * np.pi)


def _snapped(excess: Array) -> Array:
    """The excess, zero where it is rounding: where two solutions fall together."""
    return np.where(np.abs(excess) <= ROUNDING, 0.0, excess)


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
    again = np.r_[False, (np.diff(number) == 0) & (np.diff(x) < EDGE) & (np.abs(np.diff(y)) < NEAR)][
        : number.size
    ]
    return number[~again], x[~again], y[~again]


def in_columns(number: Array, lengths: Array, count: int) -> Array:
    """Pairs, sorted by their number, as arrays of shape (solutions, 2, count): nan where one has fewer.

    lengths : of shape (2, pairs)."""
    first = np.searchsorted(number, number)
    rank = np.arange(number.size) - first
    found = np.full((max(2, rank.max(initial=0) + 1), 2, count), np.nan)
    found[rank, :, number] = lengths.T
    return found
