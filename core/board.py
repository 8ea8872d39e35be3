"""From wavelengths to metres of copper.

Frequencies in hertz, lengths in metres or wavelengths. Everything broadcasts.
"""

from __future__ import annotations

from typing import Any

from numpy.typing import ArrayLike

from core.line import _plain
from core.ranges import real_in_range

SPEED_OF_LIGHT = 299_792_458.0
"""Metres a second in vacuum: exact, by the definition of the metre (SI Brochure, 9th ed.)."""


def guide_wavelength_m(frequency: ArrayLike, velocity_factor: ArrayLike = 1.0) -> Any:
    """Length of one wave on a line, in metres: speed of light times velocity factor over frequency.

    frequency : hertz > 0, any shape.  velocity_factor : speed on the line over that of light, above 0
    up to 1; broadcasts with the frequency.  Returns the broadcast shape.  Raises OutOfRange.
    Source: Pozar, 4th ed., eq. 2.10 and 2.11 (from memory).

    >>> round(guide_wavelength_m(434e6, 0.66), 4)
    0.4559
    """
    frequency = real_in_range(frequency, "frequency", "in hertz", above=0.0)
    factor = real_in_range(velocity_factor, "velocity factor", "such as 0.66", above=0.0, up_to=1.0)
    return _plain(SPEED_OF_LIGHT * factor / frequency)
