"""How the library's objects show themselves: one line in a terminal, a small table in a notebook.

A class says once, in `_rows`, what there is to say about it; both forms are made from that. Plain ASCII in
the terminal's form, because not every console can print an ohm sign.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

import numpy as np

Rows = list[tuple[str, str]]
UNLIMITED = "open circuit"


class Readable:
    """Gives a frozen dataclass a `repr` in the trade's words, and the same as a table for a notebook."""

    def __init_subclass__(cls, **options: Any) -> None:
        super().__init_subclass__(**options)
        if "__repr__" not in vars(cls):  # set before the dataclass decorator runs, which then keeps it
            cls.__repr__ = Readable.__repr__  # type: ignore[method-assign]

    def _rows(self) -> Rows:
        """Label and text of each thing to say, in reading order."""
        raise NotImplementedError

    def __repr__(self) -> str:
        return f"{type(self).__name__}({'; '.join(f'{label}: {text}' for label, text in self._rows())})"

    def _repr_html_(self) -> str:
        cells = "".join(
            f'<tr><th scope="row">{escape(label)}</th><td>{escape(text)}</td></tr>'
            for label, text in self._rows()
        )
        return f"<table><caption>{escape(type(self).__name__)}</caption>{cells}</table>"


def tables(things: Iterable[Readable], note: str = "") -> str:
    """Several objects one below the other for a notebook, and a sentence after them."""
    return "".join(thing._repr_html_() for thing in things) + (f"<p>{escape(note)}</p>" if note else "")


def amount(value: Any, unit: str = "", digits: int = 4) -> str:
    """A number to some significant digits with its unit; of an array, its shape and, if real, its range."""
    array = np.asarray(value)
    text = _scalar(array.item(), digits) if array.ndim == 0 else _several(array, digits)
    return text if text == UNLIMITED else f"{text} {unit}".rstrip()


def wavelengths(length: Any) -> str:
    """A length in wavelengths, to four decimals: more than any saw can cut."""
    array = np.asarray(length, dtype=float)
    text = f"{array:.4f}" if array.ndim == 0 else _several(array, 4)
    return f"{text} wavelengths"


def percent(fraction: Any) -> str:
    """A fraction in percent."""
    return amount(100 * np.asarray(fraction), "%")


def listed(values: Any, scale: float, unit: str) -> str:
    """A number with its unit, or a short list of them."""
    return f"{', '.join(amount(scale * value) for value in np.ravel(values).tolist())} {unit}"


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
