"""What all of the core does with arrays: one plain number or an array, shapes that broadcast, one quotient."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[Any]

OPEN_CIRCUIT = 1e150
"""Ohms from which a load is an open circuit: nothing tells them apart, and squares would overflow."""
ROUNDING = 4 * float(np.finfo(float).eps)
"""Relative difference that rounding alone may make: values as near as this are the same value."""
INFINITE = complex(np.inf, 0.0)
"""The one infinity of the complex plane, as it is written everywhere: the impedance of an open circuit."""


def plain(value: ArrayLike) -> Any:
    """A Python number where there is just one, the array otherwise."""
    array = np.asarray(value)
    return array.item() if array.ndim == 0 else array


def spread(value: ArrayLike, over: Array) -> Array:
    """Shape S made to broadcast with shape F as S + F."""
    array = np.asarray(value)
    return array.reshape(array.shape + (1,) * over.ndim)


def quotient(numerator: ArrayLike, denominator: ArrayLike, scale: ArrayLike = 1.0) -> Array:
    """scale times a complex quotient: `INFINITE` over zero and where it is too large for a number; nan stays nan."""
    above, below = np.asarray(numerator, dtype=complex), np.asarray(denominator, dtype=complex)
    with np.errstate(all="ignore"):
        value = scale * (above / below)
        infinite = (below == 0) & ~np.isnan(above) | np.isinf(value)
    return np.where(infinite, INFINITE, value)
