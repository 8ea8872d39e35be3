"""Root-finding on many brackets at once, by halving: slow, and never wrong."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from core.checks import Array

GOLDEN = (np.sqrt(5) - 1) / 2


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
