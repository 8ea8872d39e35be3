"""What the designers with loss share: solving, checking by the evaluator, and what is said of the result."""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import Any, Generic

import numpy as np

from core.checks import Array
from core.ranges import MOST_LOSS
from core.solutions import Design, Solutions, no_power, sentences
from core.two_lengths import TwoLengths

CLOSE = 1e-9
"""Of the most that a piece of line may lose, what the last digits of its length may add."""
MATCHED = 1e-10
"""|reflection| below which the evaluator calls a network matched."""

LONG = (
    "With this loss no solution has both lengths below half a wavelength. This is the shortest there is, and its "
    "extra line loses power."
)
ONE_SHORT = "With this loss only one solution has both lengths below half a wavelength."
WASTED = (
    "This load takes no power: nothing is reflected, but only because line and stubs turn all of it to heat."
)


class LossyDesigns(ABC, Generic[Design]):
    """Many problems in flat arrays, each with two lengths to find."""

    load: Array
    line: Array
    loss: Array
    stub_loss: Array

    @abstractmethod
    def network(self, lengths: Array, which: Array | slice, shape: tuple[int, ...] = (-1,)) -> Design:
        """The design of some problems with these lengths, of shape (2, problems), in the shape asked for."""

    @abstractmethod
    def equations(self) -> TwoLengths:
        """What the lengths must satisfy."""

    @property
    @abstractmethod
    def idle(self) -> Array:
        """Problems whose equation has no root, or no end of them."""

    @abstractmethod
    def lossless_lengths(self, which: Array) -> Array:
        """Of some problems without loss the lengths by the lossless designer, of shape (2, 2, problems)."""

    @property
    def powerless(self) -> Array:
        """Loads that take no power."""
        return no_power(self.load, self.line)

    @property
    def lossless(self) -> Array:
        """Problems in which neither line nor stubs take power."""
        return (self.loss == 0) & (self.stub_loss == 0)

    def solve(self) -> tuple[Array, Array]:
        """Lengths, of shape (solutions, 2, problems), and whether the only one is longer than a half wave."""
        open_ones = np.flatnonzero(~self.idle & ~self.lossless)

        def is_match(number: Array, *lengths: Array) -> Array:
            lost = equations.first.real[number] * lengths[0], equations.second.real[number] * lengths[1]
            told = np.maximum(*lost) < MOST_LOSS * (1 - CLOSE)
            told[told] = self.is_match(open_ones[number[told]], np.array(lengths)[:, told])
            return told

        equations = self.equations()
        if open_ones.size < self.load.size:
            equations = equations.part(open_ones)
        found, long = equations.all_pairs(is_match)
        if open_ones.size < self.load.size:
            some, found = found, np.full((*found.shape[:2], self.load.size), np.nan)
            found[..., open_ones] = some
        lossless = np.flatnonzero(self.lossless)
        if lossless.size:
            found[:2, :, lossless] = _shorter_first(self.lossless_lengths(lossless))
        return found, np.isin(np.arange(self.load.size), open_ones[long])

    def is_match(self, which: Array, lengths: Array) -> Array:
        """Whether these lengths match by the evaluator, or come as near as their last digits allow."""
        size = self._reflection(which, lengths)
        near = size <= MATCHED
        doubtful = np.flatnonzero(~near)
        if doubtful.size:
            some, at = which[doubtful], lengths[:, doubtful]
            digit = 2 * np.where(at == 0, 0.0, np.spacing(at))
            digits = [self._reflection(some, at + digit * np.array(one)[:, None]) for one in ([1, 0], [0, 1])]
            near[doubtful] = size[doubtful] <= np.max(np.abs(np.array(digits) - size[doubtful]), axis=0)
        return near

    def _reflection(self, which: Array, lengths: Array) -> Array:
        return np.abs(self.network(lengths, which).input_reflection())

    def solutions(
        self, found: Array, shape: tuple[int, ...], reasons: list[tuple[str, Any]], long: Array
    ) -> Solutions[Design]:
        """Of arrays all networks, for one load those that exist; with the reasons that apply."""
        exists = ~np.isnan(found[:, 0])
        wasted = self.powerless & exists[0]
        reasons = [*reasons, (LONG, long), (WASTED, wasted)]
        kept = found if shape else found[exists[:, 0]]
        networks = tuple(self.network(lengths, slice(None), shape) for lengths in kept)
        return Solutions(networks, sentences(reasons))


def _shorter_first(lengths: Array) -> Array:
    """Two solutions of each problem by the sum of their lengths; where they are one, it and nan."""
    one, other = lengths
    one, other = np.where(one.sum(axis=0) <= other.sum(axis=0), [one, other], [other, one])
    return np.array([one, np.where(np.all(one == other, axis=0), np.nan, other)])
