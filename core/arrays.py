"""What all of the core does with arrays: one plain number or an array, shapes that broadcast, one quotient."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import ShapesDiffer

Array = NDArray[Any]

OPEN_CIRCUIT = 1e150
"""Ohms from which a load is an open circuit, and one over the ohms below which a resistance is none: nothing tells
them apart, and squares would overflow."""
ROUNDING = 4 * float(np.finfo(float).eps)
"""Relative difference that rounding alone may make: values as near as this are the same value."""
INFINITE = complex(np.inf, 0.0)
"""The one infinity of the complex plane, as it is written everywhere: the impedance of an open circuit."""


SCALARS = (float, complex, int, np.float64, np.complex128)
"""Types of a single number, for which a check need not call for an array."""


def plain(value: ArrayLike) -> Any:
    """A Python number where there is just one, the array otherwise."""
    array = np.asarray(value)
    return array.item() if array.ndim == 0 else array


def store(thing: object, **values: ArrayLike) -> None:
    """Checked values in place of those that a frozen dataclass was given."""
    for name, value in values.items():
        object.__setattr__(thing, name, plain(value))


def broadcast(*values: ArrayLike) -> list[Array]:
    """The values as arrays of one shape.  Raises ShapesDiffer where their shapes do not go together."""
    arrays = [np.asarray(value) for value in values]
    if not any(array.ndim for array in arrays):
        return arrays
    common_shape(*(array.shape for array in arrays))
    return list(np.broadcast_arrays(*arrays))


def common_shape(*shapes: tuple[int, ...]) -> tuple[int, ...]:
    """The one shape that arrays of these shapes have together.  Raises ShapesDiffer where there is none."""
    try:
        return np.broadcast_shapes(*shapes)
    except ValueError as fault:
        told = ", ".join(str(shape) for shape in dict.fromkeys(shapes) if shape)
        raise ShapesDiffer(
            f"Arrays of the shapes {told} do not go together: give equal shapes, or single numbers.",
            value=shapes,
        ) from fault


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
