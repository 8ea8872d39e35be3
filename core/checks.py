"""One gate for each kind of argument: the rule, then what came."""

from __future__ import annotations

from reprlib import repr as shortened

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import INFINITE, OPEN_CIRCUIT, Array
from core.errors import CoreError, NegativeResistance, NotALength, NotAnImpedance, UnknownChoice


def passive_impedance(impedance: ArrayLike, name: str = "load impedance") -> Array:
    """The impedance as a complex array, inf for an open circuit: where any part is infinite or as good as.

    Raises NotAnImpedance for nan and what is no number, NegativeResistance for a negative real part."""
    given = _numbers(impedance, complex, name, NotAnImpedance)
    resistance, reactance = given.real, given.imag
    negative = (resistance < 0) & ~np.isinf(reactance) | (resistance == -np.inf)
    if np.any(negative):
        raise NegativeResistance(
            f"The {name} has a resistance of {resistance[negative].min():g} ohm; a passive load has zero or "
            "more. Check the sign of its real part.",
            value=impedance,
        )
    open_circuit = (resistance >= OPEN_CIRCUIT) | (np.abs(reactance) >= OPEN_CIRCUIT)
    if np.any(np.isnan(given) & ~open_circuit):
        raise NotAnImpedance(f"The {name} must be a number, such as 25-50j; nan is not one.", value=impedance)
    return np.where(open_circuit, INFINITE, given)


def real_impedance(
    impedance: ArrayLike, name: str = "line impedance", such_as: str = "ohms, such as 50"
) -> Array:
    """The characteristic impedance of a lossless line as a float array: positive and finite.

    Raises NotAnImpedance otherwise."""
    value = _real_numbers(impedance, name, NotAnImpedance)
    wrong = ~(np.isfinite(value) & (value > 0))
    if np.any(wrong):
        raise NotAnImpedance(
            f"The {name} must be a positive number of {such_as}, not {value[wrong][0]:g}.", value=impedance
        )
    return value


def finite_length(length: ArrayLike, name: str = "length") -> Array:
    """A length in wavelengths as a float array: finite and not negative.

    Raises NotALength otherwise."""
    value = _real_numbers(length, name, NotALength)
    wrong = ~(np.isfinite(value) & (value >= 0))
    if np.any(wrong):
        first = value[wrong][0]
        raise NotALength(f"The {name} must be zero or more wavelengths, not {first:g}.", value=length)
    return value


def choice(word: str, allowed: tuple[str, ...], name: str) -> str:
    """The word, if it is one of those allowed. Raises UnknownChoice otherwise."""
    if not isinstance(word, str) or word not in allowed:
        raise UnknownChoice(f"The {name} must be {' or '.join(allowed)}, not {shortened(word)}.", value=word)
    return word


def _real_numbers(value: ArrayLike, name: str, error: type[CoreError]) -> Array:
    given = _numbers(value, None, name, error)
    if not np.iscomplexobj(given):
        return _numbers(value, float, name, error)
    if np.any(given.imag != 0):
        raise error(f"The {name} must be real, not {given[given.imag != 0][0]:g}.", value=value)
    return given.real


def _numbers(value: ArrayLike, kind: type | None, name: str, error: type[CoreError]) -> Array:
    try:
        return np.asarray(value, dtype=kind)
    except (OverflowError, TypeError, ValueError) as fault:
        wrong = f"The {name} must be a number or an array of them, not {shortened(value)}."
        raise error(wrong, value=value) from fault
