"""One gate for each kind of argument: the rule, then what came."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from core.errors import NegativeResistance, NotALength, NotAnImpedance, OutOfRange, UnknownChoice

Array = NDArray[Any]


def passive_impedance(impedance: ArrayLike, name: str = "load impedance") -> Array:
    """The impedance as a complex array; any infinite part means an open circuit.

    Raises NotAnImpedance for nan, NegativeResistance for a negative real part."""
    given = np.asarray(impedance, dtype=complex)
    open_circuit = np.isinf(given.real) | np.isinf(given.imag)
    if np.any(np.isnan(given) & ~open_circuit):
        raise NotAnImpedance(f"The {name} must be a number, such as 25-50j; nan is not one.", value=impedance)
    if np.any((given.real < 0) & ~open_circuit) or np.any(given.real == -np.inf):
        worst = given.real.min()
        raise NegativeResistance(
            f"The {name} has a resistance of {worst:g} ohm; a passive load has zero or more. "
            "Check the sign of its real part.",
            value=impedance,
        )
    return np.where(open_circuit, complex(np.inf, 0.0), given)


def real_impedance(impedance: ArrayLike, name: str = "line impedance") -> Array:
    """The characteristic impedance of a lossless line as a float array: positive and finite.

    Raises NotAnImpedance otherwise."""
    given = np.asarray(impedance)
    if np.iscomplexobj(given) and np.any(given.imag != 0):
        raise NotAnImpedance(f"The {name} must be real, not {impedance}.", value=impedance)
    value = np.asarray(given.real, dtype=float)
    if not np.all(np.isfinite(value) & (value > 0)):
        raise NotAnImpedance(
            f"The {name} must be a positive number of ohms, such as 50, not {impedance}.", value=impedance
        )
    return value


def finite_length(length: ArrayLike, name: str = "length") -> Array:
    """A length in wavelengths as a float array: finite and not negative.

    Raises NotALength otherwise."""
    value = np.asarray(length, dtype=float)
    if not np.all(np.isfinite(value) & (value >= 0)):
        raise NotALength(f"The {name} must be zero or more wavelengths, not {length}.", value=length)
    return value


def choice(word: str, allowed: tuple[str, ...], name: str) -> str:
    """The word, if it is one of those allowed. Raises UnknownChoice otherwise."""
    if word not in allowed:
        raise UnknownChoice(f"The {name} must be {' or '.join(allowed)}, not {word!r}.", value=word)
    return word


def real_in_range(
    value: ArrayLike,
    name: str,
    meaning: str,
    *,
    above: float = -np.inf,
    at_least: float = -np.inf,
    up_to: float = np.inf,
) -> Array:
    """The value as a float array, finite and within these limits.

    `meaning` tells the student its unit or an example.  Raises OutOfRange otherwise."""
    given = np.asarray(value)
    real = np.asarray(given.real, dtype=float)
    inside = np.isfinite(real) & (real > above) & (real >= at_least) & (real <= up_to)
    if np.all(inside & (np.imag(given) == 0)):
        return real
    limits = [
        words.format(limit)
        for words, limit in (("above {:g}", above), ("at least {:g}", at_least), ("at most {:g}", up_to))
        if np.isfinite(limit)
    ]
    rule = " and ".join(limits) or "finite"
    raise OutOfRange(f"The {name} must be a number {rule} ({meaning}), not {value}.", value=value)
