"""Root-finding on many brackets at once, by halving: slow, and never wrong."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from core.checks import Array

GOLDEN = (np.sqrt(5) - 1) / 2
CLOSE = 1e-13
"""Relative step that is rounding."""

SURE = 1e-3
"""Of a step to the one before: below this Newton's method is past all doubt, and its errors are squared."""
NONE = 1e-300
"""In place of a step where there is none."""


def bisect(rising: Callable[[Array], Array], low: Array, high: Array, steps: int = 60) -> Array:
    """Where a function turns from below zero at `low` to zero or more at `high`, by halving. Any shape.

    Either end may be the larger number. Stops when no two numbers lie between, or after `steps` halvings.
    nan in a bracket stays nan."""
    for _ in range(steps):
        middle = (low + high) / 2
        if not np.any((middle != low) & (middle != high) & ~np.isnan(middle)):
            break
        above = rising(middle) >= 0
        low, high = np.where(above, low, middle), np.where(above, middle, high)
    return (low + high) / 2


def highest(function: Callable[[Array], Array], low: Array, high: Array, steps: int = 40) -> Array:
    """Where a function with one maximum between `low` and `high` has it, by golden sections. Any shape."""
    left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_left, at_right = function(left), function(right)
    for _ in range(steps):
        keep_left = at_left > at_right
        low, high = np.where(keep_left, low, left), np.where(keep_left, right, high)
        left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        at_left, at_right = function(left), function(right)
    return (low + high) / 2


def newton_in_brackets(
    function: Callable[[Array | slice, Array], tuple[Array, Array]],
    low: Array,
    high: Array,
    above: Array,
    start: Array | None = None,
) -> Array:
    """Where functions that cross zero once between `low` and `high` do so: Newton's method, kept in brackets.

    function(which, place) : value and slope of those numbered `which`.  above : whether it is zero or more at
    `low`.  start : where to begin, inside; by default in the middle.  A step that would leave its bracket, or
    is not half as long as the one before, is a halving. It ends where the next step would be rounding: once steps
    shrink fast each is as the square of the one before."""
    found, moving = np.array((low + high) / 2 if start is None else start), np.arange(low.size)
    which: Array | slice = slice(None)
    place, last = found, high - low
    before = np.full(low.shape, NONE)  # the step of Newton's method before, if there was one
    for _ in range(100):
        value, slope = function(which, place)
        same = (value >= 0) == above
        low, high = np.where(same, place, low), np.where(same, high, place)
        step = value / np.where(slope == 0, np.inf, slope)
        good = (place - step > low) & (place - step < high) & (2 * np.abs(step) <= last)
        size, rounding = np.abs(step), CLOSE * np.abs(place)
        expected = size * (np.where(size < SURE * before, size, before) / before) ** 2
        going = ~(expected <= rounding) & (high - low > rounding)
        last, before = np.where(good, size, high - low), np.where(good, size, NONE)
        place = np.where(good | ~going, place - np.where(good, step, 0.0), (low + high) / 2)
        found[moving] = place
        if not np.any(going):
            break
        if 2 * np.count_nonzero(going) < going.size:
            moving = which = moving[going]
            low, high, above, last = low[going], high[going], above[going], last[going]
            before, place = before[going], place[going]
    return found
