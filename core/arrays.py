"""What all of the core does with arrays: one plain number or an array, shapes that broadcast, one quotient."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import ShapesDiffer

Array = NDArray[Any]
if TYPE_CHECKING:
    # Which of the two it is only the caller knows, so to a type checker it is both.

    class Real(Array, float):  # type: ignore[misc]
        """What a formula gives: one number for numbers, an array where any argument was one."""

        def _with(self, other: Any, /) -> Real: ...

        __add__ = __radd__ = __sub__ = __rsub__ = _with  # type: ignore[assignment]
        __mul__ = __rmul__ = __truediv__ = __rtruediv__ = __mod__ = __pow__ = _with  # type: ignore[assignment]

    class Complex(Array, complex):  # type: ignore[misc]
        """The same, of complex numbers."""

        real: Real  # type: ignore[override]
        imag: Real  # type: ignore[override]

        def __abs__(self) -> Real: ...  # type: ignore[override]

    class Text(Array, str):  # type: ignore[misc]
        """The same, of words."""
else:
    Real, Complex, Text = float | Array, complex | Array, str | Array
Made = TypeVar("Made")

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


class Functions(NamedTuple):
    """What a formula needs beside its arithmetic, so that it is written once: for arrays, and for one number alone,
    for which an array's overhead is many times the work."""

    arctan: Callable[..., Any]
    arctan2: Callable[..., Any]
    copysign: Callable[..., Any]
    floor: Callable[..., Any]
    maximum: Callable[..., Any]
    minimum: Callable[..., Any]
    sqrt: Callable[..., Any]
    where: Callable[..., Any]


ON_ARRAYS = Functions(np.arctan, np.arctan2, np.copysign, np.floor, np.maximum, np.minimum, np.sqrt, np.where)
ON_NUMBERS = Functions(
    math.atan,
    math.atan2,
    math.copysign,
    math.floor,
    max,
    min,
    math.sqrt,
    lambda so, this, other: this if so else other,
)


def made(kind: type[Made], **values: Any) -> Made:
    """A frozen dataclass with values that are known to be right: what checks them is passed by."""
    thing = object.__new__(kind)
    vars(thing).update(values)
    return thing


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
