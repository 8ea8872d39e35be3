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


def nearest_preferred(value: ArrayLike, series: str = "E24") -> Real:
    """The nearest value of a preferred series: nearest by ratio, so that too much and too little count alike.

    value : numbers >= 0 of any unit and shape; 0 (or below 1e-150), inf and nan (no part) stay what they are.
    series : "E12" or "E24".  Returns the shape of `value`, each the float closest to its decimal.
    Raises OutOfRange, UnknownChoice.  Source: IEC 60063:2015 (from memory).

    >>> nearest_preferred(4.775e-12, "E12")
    4.7e-12
    """
    digits = np.array(SERIES[choice(series, tuple(SERIES), "series")] + (100,), dtype=float)
    given = real_in_range(value, "value", "any unit", at_least=0.0, infinite=True, missing=True)
    part = np.isfinite(given) & (given >= 1 / OPEN_CIRCUIT)
    size = np.where(part, given, 1.0)
    decade = np.floor(np.log10(size))
    mantissa = 10.0 ** (np.log10(size) - decade + 1)
    between = np.sqrt(digits[:-1] * digits[1:])
    chosen = digits[np.searchsorted(between, mantissa)]
    return plain(np.where(part, _scaled(chosen, decade - 1), given))


def _scaled(digits: Array, exponent: Array) -> Array:
    """digits · 10^exponent, rounded once: a division by a whole power of ten below one."""
    power = 10.0 ** np.abs(exponent)
    return np.where(exponent < 0, digits / power, digits * power)
