"""How the library's objects show themselves: one line in a terminal, a small table in a notebook.

A class says once, in `_rows`, what there is to say about it; both forms are made from that. Plain ASCII in
the terminal's form, because not every console can print an ohm sign.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from reprlib import repr as shortened
from typing import Any

import numpy as np

Rows = list[tuple[str, str]]
UNSEEN = 1e-12
"""Fraction that is shown as nothing: no instrument tells it from that, and a calculation's rounding may leave it."""
UNLIMITED = "open circuit"


class Readable:
    """Gives a frozen dataclass a `repr` in the trade's words, and the same as a table for a notebook."""

    def __init_subclass__(cls, **options: Any) -> None:
        super().__init_subclass__(**options)
        if "__repr__" not in vars(cls):  # set before the dataclass decorator runs, which then keeps it
            cls.__repr__ = Readable.__repr__  # type: ignore[method-assign]
        if "__eq__" not in vars(cls):
            cls.__eq__ = Readable.__eq__  # type: ignore[method-assign]

    def _rows(self) -> Rows:
        """Label and text of each thing to say, in reading order."""
        raise NotImplementedError

    def __eq__(self, other: object) -> bool:
        """Whether both are of one kind and all values are the same; nan, for no solution, is the same as nan."""
        if type(self) is not type(other):
            return NotImplemented
        return all(_alike(value, vars(other)[name]) for name, value in vars(self).items())

    __hash__ = object.__hash__  # a frozen dataclass makes its own, of its values

    def __repr__(self) -> str:
        return f"{type(self).__name__}({'; '.join(f'{label}: {text}' for label, text in self._rows())})"

    def _repr_html_(self) -> str:
        cells = "".join(
            f'<tr><th scope="row">{escape(label)}</th><td>{escape(text)}</td></tr>'
            for label, text in self._rows()
        )
        return f"<table><caption>{escape(type(self).__name__)}</caption>{cells}</table>"


def _alike(one: Any, other: Any) -> bool:
    """Whether two values are the same: arrays value by value, tuples part by part."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    if not isinstance(one, np.ndarray) and not isinstance(other, np.ndarray):
        return bool(one is other or one == other or (one != one and other != other))
    given = np.asarray(one), np.asarray(other)
    numbers = all(np.issubdtype(array.dtype, np.number) for array in given)
    return np.array_equal(*given, equal_nan=numbers)


def tables(things: Iterable[Readable], note: str = "") -> str:
    """Several objects one below the other for a notebook, and a sentence after them."""
    return "".join(thing._repr_html_() for thing in things) + (f"<p>{escape(note)}</p>" if note else "")


def amount(value: Any, unit: str = "", digits: int = 4) -> str:
    """A number to some significant digits with its unit; of an array, its shape and, if real, its range."""
    array = np.asarray(value)
    if unit == "ohm" and array.ndim == 0 and np.isinf(array):
        return UNLIMITED
    text = _scalar(array.item(), digits) if array.ndim == 0 else _several(array, digits)
    return text if text == UNLIMITED else f"{text} {unit}".rstrip()


def wavelengths(length: Any) -> str:
    """A length in wavelengths, to four decimals: more than any saw can cut."""
    array = np.asarray(length, dtype=float)
    text = f"{array:.4f}" if array.ndim == 0 else _several(array, 4)
    return f"{text} wavelengths"


def percent(fraction: Any) -> str:
    """A fraction in percent; what only rounding keeps from nothing is nothing."""
    array = np.asarray(fraction, dtype=float)
    return amount(100 * np.where(np.abs(array) < UNSEEN, 0.0, array), "%")


def listed(values: Any, scale: float, unit: str) -> str:
    """A number with its unit, or a short list of them."""
    return f"{', '.join(amount(scale * value) for value in np.ravel(values).tolist())} {unit}"


def shown(value: Any) -> str:
    """What was given, as a sentence can say it: in one line, an array by its shape and no longer than it helps."""
    if isinstance(value, np.ndarray) and value.ndim:
        return f"an array of shape {value.shape}"
    return " ".join(shortened(value).split())


def told_apart(first: float, second: float, digits: int = 4) -> tuple[str, str]:
    """Two numbers with as many significant digits as it takes to see that they differ."""
    while digits < 17 and first != second and f"{first:.{digits}g}" == f"{second:.{digits}g}":
        digits += 1
    return f"{first:.{digits}g}", f"{second:.{digits}g}"


def _scalar(number: Any, digits: int) -> str:
    if not isinstance(number, complex):
        return f"{number:.{digits}g}"
    if np.isinf(number):
        return UNLIMITED
    if number.imag == 0:
        return f"{number.real:.{digits}g}"
    return f"{number.real:.{digits}g}{number.imag:+.{digits}g}j"


def _several(array: np.ndarray[Any, Any], digits: int) -> str:
    count = " x ".join(map(str, array.shape))
    known = array[np.isfinite(array)]
    if np.iscomplexobj(array) or not known.size:
        return f"{count} values"
    low, high = f"{known.min():.{digits}g}", f"{known.max():.{digits}g}"
    return f"{count} values, all {low}" if low == high else f"{count} values, {low} to {high}"
