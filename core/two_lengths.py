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

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

from core.checks import Array
from core.excess import EDGE, HIDDEN, NEAR, Excess, Pairs
from core.wave_sums import WaveSums

BLOCK = 8192
"""Problems that are solved together: as many as a processor has at hand."""
SURE = 1e-8
"""Difference of squares, relatively, that no rounding makes."""
HORIZON = 8
"""Half waves of both lengths together up to which the shortest pair is looked for where none is short."""


IsMatch = Callable[[Array, Array, Array], Array]


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

    def all_pairs(self, is_match: IsMatch) -> tuple[Array, Array]:
        """Every pair with both lengths in [0, 0.5), and where there is none the shortest up to the horizon.

        is_match : of number, first length, second length: whether they are a match, told by the evaluator.
        Returns the lengths, of shape (solutions, 2, problems), as `in_columns` does, and which problems have only
        a long one."""
        numbers = np.arange(self.start.size)
        found = self._pairs(numbers, 0, [0], is_match)
        none = np.bincount(found[0], minlength=numbers.size) == 0
        beyond = self._shortest(np.flatnonzero(none), is_match)
        number, x, y = (np.concatenate(both) for both in zip(found, beyond, strict=True))
        return in_columns(number, x, y, numbers.size), np.isin(numbers, beyond[0])

    def _shortest(self, which: Array, is_match: IsMatch) -> Pairs:
        """The shortest pair of each of these problems with a length of a half wave or more."""
        best = np.full((3, self.start.size), np.inf)
        which = which[self.part(which)._reachable(HORIZON, HORIZON)]
        for turns in range(HORIZON):
            which = which[best[0, which] > turns / 2]
            if not which.size:
                break
            pairs = self._pairs(which, turns, range(turns == 0, HORIZON - turns), is_match)
            for number, x, y in zip(*pairs, strict=True):
                if x + y < min(best[0, number], HORIZON / 2):
                    best[:, number] = x + y, x, y
        found = np.flatnonzero(np.isfinite(best[0]))
        return found, best[1, found], best[2, found]

    def _pairs(self, which: Array, turns: int, more: Sequence[int], is_match: IsMatch) -> Pairs:
        """The pairs of some problems with a first length in the half wave after `turns` half waves, and the
        second in each of the half waves that follow `more` of them."""
        found = []
        for begin in range(0, max(1, which.size), BLOCK):
            block = which[begin : begin + BLOCK]
            some = self.part(block)
            if turns:
                some = replace(some, start=some.start * np.exp(-turns * some.first.real))
            there = np.flatnonzero(some._reachable(1, max(more) + 1))
            number, x, y = some.part(there)._pairs_of_half_wave(more, corner=turns == 0 and 0 in more)
            found.append(_confirmed((block[there[number]], x + turns / 2, y), is_match))
        number, x, y = (np.concatenate(part) for part in zip(*found, strict=True))
        return number, x, y

    def _pairs_of_half_wave(self, more: Sequence[int], corner: bool) -> Pairs:
        """The pairs with a first length below a half wave."""
        excess = Excess(self.values(), *self._breaks(), max(more))
        pairs = [excess.pairs(half_waves) for half_waves in more]
        if corner:
            nothing = self._corner()
            pairs.append((nothing, np.zeros(nothing.size), np.zeros(nothing.size)))
        number, x, y = (np.concatenate(part) for part in zip(*pairs, strict=True))
        return number, x, y

    def _reachable(self, first: int, second: int) -> Array:
        """Which problems may have a solution with lengths up to so many half waves, by the size of the wave alone.

        The wave w stays in a ring, between its size s at no length and that at the end. What is wanted of the
        second line is above one everywhere in it if |a w + b|² - |c w + d|² is, whatever the angle: if
        (|a|² - |c|²) s² - 2 |a b* - c d*| s + |b|² - |d|² is above zero; too small for what the line returns, if the
        same is of c, d and a, b as much larger as the line's loss lets them be."""
        a, b, c, d = self.fraction
        outer = np.abs(self.start)
        inner = outer * np.exp(-first * self.first.real)
        with np.errstate(over="ignore", invalid="ignore"):  # what is no number says nothing
            gain = np.exp(self.second.real * second)
            small = _all_larger((c, d), (gain * a, gain * b), inner, outer)
        return ~(_all_larger((a, b), (c, d), inner, outer) | small)

    def _breaks(self) -> tuple[Array, Array]:
        """Number and place of the ends of all stretches of the first length on which the excess is monotone and the
        second length does not jump: sorted, with both ends of the half wave."""
        if not np.any(self.fraction.imag) and np.all(self.first.real == self.second.real):
            real, none = self._real_wave(), np.zeros(self.start.size)
            return np.arange(none.size).repeat(4), np.array([none, real, real + 0.25, none + 0.5]).T.ravel()
        number, place = self._turning_points()
        ends = np.arange(self.start.size).repeat(2)
        number, place = np.r_[number, ends], np.r_[place, np.tile([0.0, 0.5], self.start.size)]
        order = np.argsort(
            number + place
        )  # of a block the numbers are so small that this misplaces rounding only
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


def _confirmed(pairs: Pairs, is_match: IsMatch) -> Pairs:
    """Those that the evaluator confirms."""
    good = is_match(*pairs)
    number, x, y = (part[good] for part in pairs)
    return number, x, y


def _all_larger(one: tuple[Array, Array], other: tuple[Array, Array], inner: Array, outer: Array) -> Array:
    """Whether |a w + b| > |c w + d| for all waves of sizes from `inner` to `outer`, by more than rounding."""
    (a, b), (c, d) = one, other
    square, constant = _square(a) - _square(c), _square(b) - _square(d)
    beat = np.abs(a * np.conj(b) - c * np.conj(d))
    lowest = np.clip(np.where(square > 0, beat / np.where(square > 0, square, 1.0), outer), inner, outer)
    sure = SURE * ((np.abs(a) + np.abs(c)) * outer + np.abs(b) + np.abs(d)) ** 2
    least = [(square * size - 2 * beat) * size + constant for size in (inner, lowest, outer)]
    return np.minimum.reduce(least) > sure


def _square(wave: Array) -> Array:
    return wave.real**2 + wave.imag**2


def in_columns(number: Array, x: Array, y: Array, count: int) -> Array:
    """Pairs as arrays of shape (solutions, 2, count), shortest in all first, each once: nan where one has fewer."""
    order = np.argsort(number, kind="stable")
    number, lengths = number[order], np.array([x[order], y[order]])
    rank = np.arange(number.size) - np.searchsorted(number, number)
    found = np.full((max(2, rank.max(initial=0) + 1), 2, count), np.nan)
    found[rank, :, number] = lengths.T
    found = _shortest_first(found)
    off = np.abs(np.diff(found, axis=0))
    again = (off[:, 0] < EDGE) & (off[:, 1] < NEAR)
    if np.any(again):
        found[1:][np.broadcast_to(again[:, None], off.shape)] = np.nan
        found = _shortest_first(found)
    used = np.flatnonzero(np.any(~np.isnan(found[:, 0]), axis=1))
    return found[: max(2, used.max(initial=0) + 1)]


def _shortest_first(found: Array) -> Array:
    """Solutions of each problem by the sum of their lengths, those that are none last."""
    order = np.argsort(found.sum(axis=1), axis=0, kind="stable")
    return np.take_along_axis(found, order[:, None], axis=0)
