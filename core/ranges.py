"""The gate for quantities other than impedances and lengths, each with a range that makes sense."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import OPEN_CIRCUIT
from core.checks import REALS, Array
from core.errors import OutOfRange
from core.readable import shown

MOST_LOSS = 300.0
"""Nepers in a piece of line, and in a wavelength: of a wave that has lost more, nothing is left for a float."""
LOWEST_RATIO, HIGHEST_RATIO = 1e-9, 1000.0
"""Of a frequency to the design frequency: far above any network's use, and far below a frequency in hertz."""


def real_in_range(
    value: ArrayLike,
    name: str,
    meaning: str,
    *,
    above: float = -np.inf,
    at_least: float = -np.inf,
    up_to: float = np.inf,
    infinite: bool = False,
    missing: bool = False,
) -> Array:
    """The value as a float array within these limits, finite unless `infinite` is allowed, and no nan unless
    that, which marks "no solution", is allowed as `missing`.

    `meaning` tells the student its unit or an example.  Raises OutOfRange otherwise."""
    if type(value) in REALS and _usual(value) and above < value and at_least <= value <= up_to:  # type: ignore[operator]
        return np.float64(value)  # type: ignore[return-value, arg-type]
    rule = _rule(above, at_least, up_to)
    try:
        given = np.asarray(value, dtype=complex if np.iscomplexobj(value) else float)
    except (OverflowError, TypeError, ValueError) as fault:
        raise OutOfRange(
            f"The {name} must be {rule} ({meaning}), not {shown(value)}.", value=value
        ) from fault
    real = given.real
    inside = (real >= at_least) & (real <= up_to) & (np.isfinite(real) | infinite)
    inside &= (real > above) | (above == -np.inf)
    wrong = ~(inside | np.isnan(given.real) & missing) | (given.imag != 0)
    if np.any(wrong):
        raise OutOfRange(f"The {name} must be {rule} ({meaning}), not {given[wrong][0]:g}.", value=value)
    size = np.abs(real)
    absurd = (size < 1 / OPEN_CIRCUIT) & (above == 0) | (size > OPEN_CIRCUIT) & np.isfinite(size)
    if np.any(absurd):
        raise OutOfRange(
            f"The {name} must be of a size that can be reckoned with, 1e-150 to 1e150, not {real[absurd][0]:g}.",
            value=value,
        )
    return real


def attenuation_of(attenuation: ArrayLike, name: str = "attenuation", missing: bool = False) -> Array:
    """Nepers per wavelength as a float array.  Raises OutOfRange below zero and for what is no number."""
    meaning = "nepers per wavelength"
    return real_in_range(attenuation, name, meaning, at_least=0, up_to=MOST_LOSS, missing=missing)


def lost_in(length: Array, attenuation: Array) -> Array:
    """Nepers lost in a piece of line.  Raises OutOfRange above 300: what is left of a wave is then no number."""
    return real_in_range(length * attenuation, "loss of a piece of line", "in nepers", up_to=MOST_LOSS)


def one_number(value: Any, name: str, meaning: str, **limits: float) -> float:
    """A single number within limits, as for `real_in_range`.  Raises OutOfRange, also for an array of them."""
    number = real_in_range(value, name, meaning, **limits)  # type: ignore[arg-type]
    if number.ndim:
        raise OutOfRange(f"The {name} must be a single number, not {shown(value)}.", value=value)
    return float(number)


def frequency_ratios(value: ArrayLike, above: float = -np.inf) -> Array:
    """Frequencies over the design frequency as a float array, from 0 (or a billionth, if above it) to 1000.

    Raises OutOfRange, also for hertz given by mistake."""
    meaning = "of the design frequency, such as 1.1; for hertz use frequency_response's frequency_hz"
    least = 0 if above < 0 else LOWEST_RATIO
    ratio = real_in_range(value, "frequency ratio", meaning, above=above, at_least=least, up_to=HIGHEST_RATIO)
    if np.any((ratio > 0) & (ratio < LOWEST_RATIO)):
        raise OutOfRange(f"The frequency ratio must be 0, or at least {LOWEST_RATIO:g}.", value=value)
    return ratio


def _usual(value: Any) -> bool:
    """Whether a single number is of a size that needs no second look, as nearly always."""
    return value == 0 or 1 / OPEN_CIRCUIT <= abs(value) <= OPEN_CIRCUIT


def _rule(above: float, at_least: float, up_to: float) -> str:
    limits = (("above {:g}", above), ("at least {:g}", at_least), ("at most {:g}", up_to))
    told = " and ".join(words.format(limit) for words, limit in limits if np.isfinite(limit))
    return f"a number {told}".rstrip()
