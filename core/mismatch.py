"""The circle of all that a load shows along its line: how large it is, and where on it a part is given.

All values are normalised to the line, and w stands for the impedance or for the admittance: the same formulas
hold for both. Source of the formulas: a reflection of constant size, turned; Pozar, 4th ed., section 2.4 (from
memory), written so that no digits are lost near a match or near the rim.
"""

from __future__ import annotations

import numpy as np

from core.arrays import ROUNDING, Array

ON_THE_END = 12 * ROUNDING
"""Of a value: what is this near a circle's end is on it."""


def standing_wave_ratio(w: Array) -> Array:
    """SWR of a normalised load: (|w + 1| + |w - 1|)² / (4 Re w), exact near 1 and near the rim."""
    return (np.abs(w + 1) + np.abs(w - 1)) ** 2 / (4 * w.real)


def turn_of(w: Array) -> Array:
    """The angle of the reflection (w - 1) / (w + 1), radians; 0 for a match."""
    size = np.abs(w)
    return np.where(w == 1, 0.0, np.arctan2(2 * w.imag / (size + 1), size - 1))


def half_turn_of_real_part(ratio: Array, part: Array) -> Array:
    """Half the angle, in [0, pi/2], at which a circle of this SWR has this real part; nan where it has not.

    With S the ratio and h the part: tan² = (S - h) / (S (S h - 1))."""
    above, below = span(ratio, part)
    return np.arctan2(np.sqrt(above), np.sqrt(ratio * below))


def imaginary_part(ratio: Array, part: Array) -> Array:
    """The imaginary part, >= 0, where a circle of this SWR has this real part; nan where it has not.

    Its square is (S - h)(h - 1 / S)."""
    above, below = span(ratio, part)
    return np.sqrt(above) * np.sqrt(below / ratio)


def span(ratio: Array, part: Array) -> tuple[Array, Array]:
    """S - h and S h - 1, exactly 0 at the circle's ends and nan beyond them."""
    above, below = ratio - part, ratio * part - 1
    above = np.where(np.abs(above) <= ON_THE_END * ratio, 0.0, above)
    below = np.where(np.abs(below) <= ON_THE_END, 0.0, below)
    outside = (above < 0) | (below < 0)
    return np.where(outside, np.nan, above), np.where(outside, np.nan, below)


def none_if_rounding(value: Array, *terms: Array) -> Array:
    """A sum of these terms, 0 where it is no more than their rounding."""
    return np.where(np.abs(value) <= ON_THE_END * sum(np.abs(term) for term in terms), 0.0, value)
