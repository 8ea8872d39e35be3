"""An unknown load from what a slotted line shows: the standing-wave ratio and where a minimum is.

Distances are in wavelengths on the line. The reading of a one-port file is in `core.touchstone`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, broadcast
from core.checks import choice, finite_length, real_impedance
from core.line import input_impedance
from core.ranges import real_in_range


def load_from_standing_wave(
    swr: ArrayLike, minimum_distance: ArrayLike, line_impedance: ArrayLike
) -> Complex:
    """Load from the standing-wave ratio on its line and the distance of any voltage minimum from it.

    swr : >= 1, inf for a load that takes no power.  minimum_distance : wavelengths >= 0 from the load toward
    the generator; minima repeat every half wave, and any of them gives the same load.
    line_impedance : positive real ohms.  All broadcast.
    Returns complex ohms of the broadcast shape, resistance >= 0.  Raises OutOfRange, NotALength,
    NotAnImpedance, ShapesDiffer. Source: the line shows Z0 / SWR at a minimum; carried back to the load,
    Z = Z0 (1 - j S t) / (S - j t) with t = tan(2 pi d), Pozar, 4th ed., section 2.4 (from memory): what the rest
    of a half wave of line shows of Z0 / SWR.

    >>> load = load_from_standing_wave(3, 0.125, 50)
    >>> round(load.real, 9), round(load.imag, 9)
    (30.0, -40.0)
    """
    ratio = real_in_range(swr, "standing-wave ratio", "such as 1.5", at_least=1, infinite=True)
    distance, line = (
        finite_length(minimum_distance, "distance of the minimum"),
        real_impedance(line_impedance),
    )
    ratio, distance, line = broadcast(ratio, distance, line)
    return input_impedance(line / ratio, line, np.mod(-distance, 0.5))


def load_from_minimum_shift(
    swr: ArrayLike, shift: ArrayLike, line_impedance: ArrayLike, toward: str = "generator"
) -> Complex:
    """Load from how far a voltage minimum stands from where it stood with a short in the load's place.

    swr : >= 1, with the load.  shift : wavelengths >= 0 from a minimum with the short to a minimum with the
    load. toward : the direction in which the shift was taken, "generator" or "load". Both lead to the same
    load; the two shifts to neighbouring minima add up to half a wave.  line_impedance : positive real ohms.
    All broadcast. Returns complex ohms.  Raises OutOfRange, NotALength, NotAnImpedance, UnknownChoice,
    ShapesDiffer.
    Source: with a short the minima stand whole half waves from the load's plane, so each stands for it;
    Pozar, 4th ed., example 2.4 (from memory).

    >>> load_from_minimum_shift(1.5, 0.37, 50) == load_from_standing_wave(1.5, 0.37, 50)
    True
    """
    choice(toward, ("generator", "load"), "direction of the shift")
    distance = finite_length(shift, "shift of the minimum")
    if toward == "load":
        distance = np.mod(-distance, 0.5)
    return load_from_standing_wave(swr, distance, line_impedance)
