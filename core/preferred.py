"""The values that parts are sold in.

Source: IEC 60063:2015, Preferred number series for resistors and capacitors (from memory).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import OPEN_CIRCUIT, Real, plain
from core.checks import Array, choice
from core.ranges import real_in_range

E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)
E12 = E24[::2]
"""Significant digits of one decade: every second value of E24."""
SERIES = {"E12": E12, "E24": E24}
ON_IT = 1e-12  # relative: a value this near a preferred one is that one, as its logarithm is no better


def nearest_preferred(value: ArrayLike, series: str = "E24") -> Real:
    """The nearest value of a preferred series: nearest by ratio, so that too much and too little count alike.

    value : numbers >= 0 of any unit and shape; 0 (or below 1e-150), inf and nan (no part) stay what they are.
    series : "E12" or "E24".  Returns the shape of `value`, each the float closest to its decimal.
    Raises OutOfRange, UnknownChoice.  Source: IEC 60063:2015 (from memory).

    >>> nearest_preferred(4.775e-12, "E12")
    4.7e-12
    """
    given, digits = _checked(value, series)
    part, mantissa, decade = _taken_apart(given)
    between = np.sqrt(digits[:-1] * digits[1:])
    chosen = digits[np.searchsorted(between, mantissa)]
    return plain(np.where(part, _scaled(chosen, decade - 1), given))


def preferred_beside(value: ArrayLike, series: str = "E24") -> tuple[Real, Real]:
    """The preferred values on either side: the greatest that is not above, and the least that is not below.

    Both are the value itself where it is a preferred one (to rounding), and where it is no part.
    value : numbers >= 0 of any unit and shape, as of `nearest_preferred`.  series : "E12" or "E24".
    Returns two arrays of the shape of `value`.  Raises OutOfRange, UnknownChoice.
    Source: IEC 60063:2015 (from memory).

    >>> preferred_beside(3.41e-12, "E12")
    (3.3e-12, 3.9e-12)
    """
    given, digits = _checked(value, series)
    part, mantissa, decade = _taken_apart(given)
    lower = np.searchsorted(digits * (1 - ON_IT), mantissa, "right") - 1
    upper = np.searchsorted(digits * (1 + ON_IT), mantissa, "left")
    found = (_scaled(digits[np.clip(at, 0, len(digits) - 1)], decade - 1) for at in (lower, upper))
    below, above = (plain(np.where(part, one, given)) for one in found)
    return below, above


def _checked(value: ArrayLike, series: str) -> tuple[Array, Array]:
    """The values, and the digits of the series with those that begin the next decade."""
    digits = np.array(SERIES[choice(series, tuple(SERIES), "series")] + (100,), dtype=float)
    return real_in_range(value, "value", "any unit", at_least=0.0, infinite=True, missing=True), digits


def _taken_apart(given: Array) -> tuple[Array, Array, Array]:
    """Whether each is a part at all, its digits from 10 to 100, and its decade."""
    part = np.isfinite(given) & (given >= 1 / OPEN_CIRCUIT)
    size = np.where(part, given, 1.0)
    decade = np.floor(np.log10(size))
    return part, 10.0 ** (np.log10(size) - decade + 1), decade


def _scaled(digits: Array, exponent: Array) -> Array:
    """digits · 10^exponent, rounded once: a division by a whole power of ten below one."""
    power = 10.0 ** np.abs(exponent)
    return np.where(exponent < 0, digits / power, digits * power)
