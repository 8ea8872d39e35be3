"""Two lengths of lossy line chosen together so that a load is matched: every pair there is.

Both designs with one and with two stubs come to one equation. The wave that goes down one line of variable
length and back is a spiral, start exp(-2 gamma x); the rest of the network turns it, by a fraction of linear
functions, into the wave that the other line would have to return, and that line returns end exp(-2 gamma y).
Its angle gives y in closed form; what is left is one real equation for x,

    excess(x) = ln |wave wanted| + 2 attenuation y(x) = 0.

The places where the excess turns from rising to falling, and those where y jumps by a half wave, are zeros of
short sums of exponentials, all of which are found (`core.wave_sums`). Between them the excess is
monotone and its signs at the ends tell whether there is a root: none can be missed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, fields, replace

import numpy as np

from core.checks import Array
from core.excess import EDGE, HIDDEN, NEAR, Excess, Pairs
from core.wave_sums import WaveSums

HORIZON = 8
"""Half waves of both lengths together up to which the shortest pair is looked for where none is short."""


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
        found = _confirmed(self._pairs(numbers, 0, [0]), is_match)
        none = np.bincount(found[0], minlength=numbers.size) == 0
        beyond = self._shortest(np.flatnonzero(none), is_match)
        pairs = tuple(np.concatenate(both) for both in zip(found, beyond, strict=True))
        return _shortest_first(*pairs), np.isin(numbers, beyond[0])

    def _shortest(self, which: Array, is_match: Callable[[Array, Array, Array], Array]) -> Pairs:
        """The shortest pair of each of these problems with a length of a half wave or more."""
        best = np.full((3, self.start.size), np.inf)
        for turns in range(HORIZON):
            which = which[best[0, which] > turns / 2]
            if not which.size:
                break
            pairs = _confirmed(self._pairs(which, turns, range(turns == 0, HORIZON - turns)), is_match)
            for number, x, y in zip(*pairs, strict=True):
                if x + y < min(best[0, number], HORIZON / 2):
                    best[:, number] = x + y, x, y
        found = np.flatnonzero(np.isfinite(best[0]))
        return found, best[1, found], best[2, found]

    def _pairs(self, which: Array, turns: int, more: Iterable[int]) -> Pairs:
        """The pairs of some problems with a first length in the half wave after `turns` half waves, and the
        second in each of the half waves that follow `more` of them."""
        some = self if which.size == self.start.size else self.part(which)
        if turns:
            some = replace(some, start=some.start * np.exp(-turns * some.first.real))
        more = list(more)
        excess = Excess(some.values(), *some._breaks(), max(more))
        number, x, y = map(np.concatenate, zip(*map(excess.pairs, more), strict=True))
        corner = some._corner() if turns == 0 and 0 in more else number[:0]
        none = np.zeros(corner.size)
        return which[np.r_[number, corner]], np.r_[x + turns / 2, none], np.r_[y, none]

    def _breaks(self) -> tuple[Array, Array]:
        """Number and place of the ends of all stretches of the first length on which the excess is monotone and the
        second length does not jump: sorted, with both ends of the half wave."""
        if not np.any(self.fraction.imag) and np.all(self.first.real == self.second.real):
            real, none = self._real_wave(), np.zeros(self.start.size)
            return np.arange(none.size).repeat(4), np.array([none, real, real + 0.25, none + 0.5]).T.ravel()
        number, place = self._turning_points()
        ends = np.arange(self.start.size).repeat(2)
        number, place = np.r_[number, ends], np.r_[place, np.tile([0.0, 0.5], self.start.size)]
        order = np.lexsort((place, number))
        return number[order], place[order]

    def _real_wave(self) -> Array:
        """Where the wave on the first line is real first."""
        return np.mod(np.angle(self.start) / (4 * np.pi), 0.25)

    def _turning_points(self) -> tuple[Array, Array]:
        """Where the excess may turn, and where the wave wanted is real and the second length may jump.

        With w the wave, the excess has the slope Re k w / ((a w + b)(c w + d)), and the wave wanted the sign of
        Im (a w + b) conj(c w + d); both are sums of powers of w and conj(w). Of a real fraction the second
        is zero where w is real, and so is the first if both lines lose alike."""
        if np.any(self.fraction.imag):
            return _both(self._turns().zeros(), self._jumps().zeros())
        real, number = self._real_wave(), np.arange(self.start.size)
        unlike = np.flatnonzero(self.first.real != self.second.real)
        turning, place = self.part(unlike)._turns().zeros()
        return np.r_[number, number, unlike[turning]], np.r_[real, real + 0.25, place]

    def _turns(self) -> WaveSums:
        (a, b, c, d), k, u = self.fraction, self._slope_factor(), self.start
        size, none, decay = np.abs(u) ** 2, np.zeros(u.size), -2 * self.first.real
        level, second = (k * np.conj(a * d + b * c)).real * size, np.conj(k) * a * c * u * size
        return WaveSums(none, level, k * np.conj(b * d) * u, second, decay)

    def _jumps(self) -> WaveSums:
        (a, b, c, d), u = self.fraction, self.start
        none, level = np.zeros(u.size, dtype=complex), (a * np.conj(c)).imag * np.abs(u) ** 2
        swing = -1j * (a * np.conj(d) - np.conj(b) * c) * u
        return WaveSums((b * np.conj(d)).imag, level, swing, none, -2 * self.first.real)

    def values(self) -> tuple[Array, ...]:
        """a, b, c, d, the wave at no length, rates of the wave and of the loss, k of the slope, the end."""
        return (
            *self.fraction,
            self.start,
            -2 * self.first,
            2 * self.second.real,
            self._slope_factor(),
            self.end,
        )

    def _slope_factor(self) -> Array:
        a, b, c, d = self.fraction
        return -2 * self.first * (a * d - b * c) * (1 + 1j * self.second.real / (2 * np.pi))

    def _corner(self) -> Array:
        """Which problems may have no length of either line: the one place with no stretch beside it that shows it."""
        a, b, c, d = self.fraction
        above, below = a * self.start + b, (c * self.start + d) * self.end
        return np.flatnonzero(np.abs(above - below) <= HIDDEN * np.abs(below))


def _both(one: tuple[Array, Array], other: tuple[Array, Array]) -> tuple[Array, Array]:
    return np.r_[one[0], other[0]], np.r_[one[1], other[1]]


def _confirmed(pairs: Pairs, is_match: Callable[[Array, Array, Array], Array]) -> Pairs:
    """Those that the evaluator confirms."""
    good = is_match(*pairs)
    number, x, y = (part[good] for part in pairs)
    return number, x, y


def _shortest_first(number: Array, x: Array, y: Array) -> Pairs:
    """By the sum of the lengths for each problem, each pair once."""
    order = np.argsort(x + y)
    order = order[np.argsort(number[order], kind="stable")]
    number, x, y = number[order], x[order], y[order]
    again = np.zeros(number.size, dtype=bool)
    again[1:] = (np.diff(number) == 0) & (np.abs(np.diff(x)) < EDGE) & (np.abs(np.diff(y)) < NEAR)
    return number[~again], x[~again], y[~again]


def in_columns(number: Array, lengths: Array, count: int) -> Array:
    """Pairs, sorted by their number, as arrays of shape (solutions, 2, count): nan where one has fewer.

    lengths : of shape (2, pairs)."""
    first = np.searchsorted(number, number)
    rank = np.arange(number.size) - first
    found = np.full((max(2, rank.max(initial=0) + 1), 2, count), np.nan)
    found[rank, :, number] = lengths.T
    return found
