"""One gate for each kind of argument: the rule, then what came."""

from __future__ import annotations

import operator
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import INFINITE, OPEN_CIRCUIT, ROUNDING, SCALARS, Array
from core.errors import CoreError, NegativeResistance, NotALength, NotAnImpedance, OutOfRange, UnknownChoice
from core.readable import shown

ROUNDED = 4 * ROUNDING
"""Relative difference that the rounding of a short calculation may make."""
LEAST_LINE, MOST_LINE, LONGEST = 1 / OPEN_CIRCUIT, OPEN_CIRCUIT, 1e9
REALS = (float, int, np.float64)


def passive_impedance(impedance: ArrayLike, name: str = "load impedance") -> Array:
    """The impedance as a complex array, inf for an open circuit: where any part is infinite or as good as.

    A resistance that only rounding keeps from zero, below or above, is zero.
    Raises NotAnImpedance for nan and what is no number, NegativeResistance for a negative real part."""
    if type(impedance) in SCALARS and _usual(impedance):
        return np.complex128(impedance)  # type: ignore[return-value, arg-type]
    given = _numbers(impedance, complex, name, NotAnImpedance)
    resistance, reactance = given.real, given.imag
    open_circuit = (resistance >= OPEN_CIRCUIT) | (np.abs(reactance) >= OPEN_CIRCUIT)
    _refuse_negative(resistance, reactance, name, impedance)
    if np.any(np.isnan(given) & ~open_circuit):
        raise NotAnImpedance(f"The {name} must be a number, such as 25-50j; nan is not one.", value=impedance)
    lossless = (resistance < 1 / OPEN_CIRCUIT) & ~open_circuit
    return np.where(
        open_circuit, INFINITE, np.where(lossless, 1j * np.where(lossless, reactance, 0.0), given)
    )


def passive_reflection(reflection: ArrayLike, name: str = "reflection") -> Array:
    """The reflection as a complex array; nan, which marks "no solution", stays.

    Raises OutOfRange for a magnitude above 1 by more than rounding, and for what is no number."""
    given = _numbers(reflection, complex, name, OutOfRange)
    with np.errstate(over="ignore"):
        size = np.hypot(given.real, given.imag)
    if np.any(size > 1 + ROUNDED):
        raise OutOfRange(
            f"The {name} must have a magnitude of at most 1, not {size[size > 1 + ROUNDED].max():.5g}: a passive "
            "load returns no more than it gets.",
            value=reflection,
        )
    return given


def finite_reflection(reflection: ArrayLike, name: str = "reflection") -> Array:
    """The reflection as a complex array of any magnitude up to that of an open circuit; nan stays.

    Raises OutOfRange."""
    given = _numbers(reflection, complex, name, OutOfRange)
    if np.any(np.abs(given.real) >= OPEN_CIRCUIT) or np.any(np.abs(given.imag) >= OPEN_CIRCUIT):
        raise OutOfRange(f"The {name} must be a finite number, such as 0.4-0.3j.", value=reflection)
    return given


def real_impedance(
    impedance: ArrayLike, name: str = "line impedance", such_as: str = "ohms, such as 50"
) -> Array:
    """The characteristic impedance of a lossless line as a float array: positive, finite, and of a size that
    a line can have (1e-150 to 1e150, with room to spare).

    Raises NotAnImpedance otherwise."""
    if type(impedance) in REALS and LEAST_LINE <= impedance <= MOST_LINE:  # type: ignore[operator]
        return np.float64(impedance)  # type: ignore[return-value, arg-type]
    value = _real_numbers(impedance, name, NotAnImpedance)
    wrong = ~((value >= LEAST_LINE) & (value <= MOST_LINE))
    if np.any(wrong):
        raise NotAnImpedance(
            f"The {name} must be a positive number of {such_as}, not {value[wrong][0]:g}.", value=impedance
        )
    return value


def finite_length(length: ArrayLike, name: str = "length") -> Array:
    """A length in wavelengths as a float array: finite and not negative, and at most 1e9, beyond which a float
    has no digits left for the phase.

    Raises NotALength otherwise."""
    if type(length) in REALS and 0 <= length <= LONGEST:  # type: ignore[operator]
        return np.float64(length)  # type: ignore[return-value, arg-type]
    value = _real_numbers(length, name, NotALength)
    wrong = ~(np.isfinite(value) & (value >= 0))
    if np.any(wrong):
        first = value[wrong][0]
        raise NotALength(f"The {name} must be zero or more wavelengths, not {first:g}.", value=length)
    if np.any(value > LONGEST):
        raise NotALength(
            f"The {name} must be at most {LONGEST:g} wavelengths, not {value.max():g}.", value=length
        )
    return value


def any_length(length: ArrayLike, name: str = "length") -> Array:
    """A length of either sign as a float array, of at most 1e9 wavelengths; nan, which marks "no solution", stays.

    Raises NotALength otherwise."""
    if type(length) in REALS and -LONGEST <= length <= LONGEST:  # type: ignore[operator]
        return np.float64(length)  # type: ignore[return-value, arg-type]
    value = _real_numbers(length, name, NotALength)
    wrong = np.abs(value) > LONGEST
    if np.any(wrong):
        raise NotALength(
            f"The {name} must be a number of wavelengths up to {LONGEST:g}, not {value[wrong][0]:g}.",
            value=length,
        )
    return value


def choice(word: str, allowed: tuple[str, ...], name: str) -> str:
    """The word, if it is one of those allowed. Raises UnknownChoice otherwise."""
    if not isinstance(word, str) or word not in allowed:
        raise UnknownChoice(f"The {name} must be {' or '.join(allowed)}, not {shown(word)}.", value=word)
    return word


def of_kind(value: Any, kind: type | tuple[type, ...], name: str, such_as: str) -> Any:
    """The value, if it is one of a class of things.  Raises OutOfRange otherwise."""
    if not isinstance(value, kind):
        raise OutOfRange(f"The {name} must be {such_as}, not {shown(value)}.", value=value)
    return value


def whole_number(value: Any, name: str, at_least: int = 0, up_to: int = 10_000_000) -> int:
    """A count as an int.  Raises OutOfRange for anything but a whole number within the limits."""
    try:
        number = operator.index(value)
    except TypeError:
        number = at_least - 1
    if not at_least <= number <= up_to:
        raise OutOfRange(
            f"The {name} must be a whole number from {at_least} to {up_to}, not {shown(value)}.",
            value=value,
        )
    return number


def yes_or_no(value: Any, name: str) -> bool:
    """A bool, also from 0 or 1.  Raises OutOfRange for anything else."""
    if single_complex(value) not in (0, 1) or isinstance(value, str):
        raise OutOfRange(f"The {name} must be True or False, not {shown(value)}.", value=value)
    return bool(value)


def single_complex(value: Any) -> complex:
    """One complex number, of a size whose square is one; nan for anything else."""
    try:
        number = complex(np.asarray(value, dtype=complex).item())
    except (OverflowError, TypeError, ValueError):
        return complex(np.nan)
    return number if max(abs(number.real), abs(number.imag)) < OPEN_CIRCUIT else complex(np.nan)


def single_real(value: Any) -> float:
    """One real number, of a size whose square is one; nan for anything else."""
    number = single_complex(value)
    return number.real if number.imag == 0 else float(np.nan)


def _usual(impedance: Any) -> bool:
    """Whether a single number is a load that needs no second look, as nearly all are."""
    resistance, reactance = impedance.real, impedance.imag
    return (resistance >= 1 / OPEN_CIRCUIT or resistance == 0) and (
        resistance < OPEN_CIRCUIT and -OPEN_CIRCUIT < reactance < OPEN_CIRCUIT
    )


def _refuse_negative(resistance: Array, reactance: Array, name: str, given: ArrayLike) -> None:
    """A resistance below zero by no more than rounding, of what a calculation left, is let through."""
    with np.errstate(invalid="ignore"):
        rounding = ROUNDED * np.abs(reactance)
        negative = (resistance < -rounding) & ~np.isinf(reactance) | (resistance == -np.inf)
    if np.any(negative):
        raise NegativeResistance(
            f"The {name} has a resistance of {resistance[negative].min():g} ohm; a passive load has zero or "
            "more. Check the sign of its real part.",
            value=given,
        )


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
        wrong = f"The {name} must be a number or an array of them, not {shown(value)}."
        raise error(wrong, value=value) from fault
