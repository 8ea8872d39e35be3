"""The gate for quantities other than impedances and lengths, each with a range that makes sense."""

from __future__ import annotations

from reprlib import repr as shortened

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array
from core.errors import OutOfRange


def real_in_range(
    value: ArrayLike,
    name: str,
    meaning: str,
    *,
    above: float = -np.inf,
    at_least: float = -np.inf,
    up_to: float = np.inf,
    infinite: bool = False,
) -> Array:
    """The value as a float array within these limits, finite unless `infinite` is allowed.

    `meaning` tells the student its unit or an example.  Raises OutOfRange otherwise."""
    rule = _rule(above, at_least, up_to)
    try:
        given = np.asarray(value, dtype=complex if np.iscomplexobj(value) else float)
    except (OverflowError, TypeError, ValueError) as fault:
        raise OutOfRange(
            f"The {name} must be {rule} ({meaning}), not {shortened(value)}.", value=value
        ) from fault
    real = given.real
    inside = (real > above) & (real >= at_least) & (real <= up_to) & (np.isfinite(real) | infinite)
    wrong = ~inside | (given.imag != 0)
    if np.any(wrong):
        raise OutOfRange(f"The {name} must be {rule} ({meaning}), not {given[wrong][0]:g}.", value=value)
    return real


def _rule(above: float, at_least: float, up_to: float) -> str:
    limits = (("above {:g}", above), ("at least {:g}", at_least), ("at most {:g}", up_to))
    told = " and ".join(words.format(limit) for words, limit in limits if np.isfinite(limit))
    return f"a number {told}".rstrip()
