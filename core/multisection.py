"""Matching with several quarter-wave sections in a row: maximally flat, or of equal ripples."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array, choice
from core.errors import OutOfRange
from core.line import reflection_from_swr
from core.ranges import one_number
from core.resistive_points import Stepped, from_each_resistance, section_count
from core.sections import (
    binomial_weights,
    chebyshev_weights,
    exact_binomial,
    exact_chebyshev,
    secant_of_reflection,
    small_reflections,
)
from core.solutions import Solutions

THEORIES = ("exact", "small reflections")
WITHIN_ALREADY = (
    "The resistance that the sections would start from is within this standing-wave ratio already: no "
    "transformer of equal ripples exists, and none is needed."
)


@dataclass(frozen=True)
class MultiSection(Stepped):
    """Quarter-wave sections in a row, and before them nothing, a section of the line, or a shunt stub."""


def binomial_transformer(
    load_impedance: ArrayLike, line_impedance: ArrayLike, sections: int, theory: str = "exact"
) -> Solutions[MultiSection]:
    """Quarter-wave sections with the flattest band that this number of them has.

    load_impedance : complex ohms, any shape; inf is an open circuit.  line_impedance : positive real ohms,
    broadcasts with the load.  sections : how many, 1 to 500.
    theory : "exact", or "small reflections", which shares the logarithm of the resistance ratio by binomial
    coefficients and is a little off for a large ratio.

    Returns `Solutions` of `MultiSection` in the order of `quarter_wave`, which it is for one section: from
    the voltage maximum or minimum nearer the load and from the other; with a shorted and with an open stub at
    the load. For a real load the sections alone and those a quarter wave further on; for a matched load one;
    none, with the reason in `.reason`, for a load that takes no power. For arrays always the four.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, UnknownChoice.
    Source: Pozar, 4th ed., section 5.6 and table 5.1 (from memory); exactly, the power ratio k² cos^2N, see
    `core.sections`.

    >>> exact = binomial_transformer(100, 50, 3)[0]
    >>> [round(ohms, 2) for ohms in exact.section_impedances]
    [91.69, 70.71, 54.53]
    """
    number = section_count(sections)
    if choice(theory, THEORIES, "theory") == "exact":
        impedances: Callable[[float], Array] = partial(exact_binomial, sections=number)
    else:
        impedances = partial(small_reflections, weights=binomial_weights(number))

    def quarters(ratio: float) -> tuple[float, Array]:
        return 0.25, impedances(ratio)

    return from_each_resistance(MultiSection, load_impedance, line_impedance, number, quarters)


def chebyshev_transformer(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    sections: int,
    swr: float | None = None,
    bandwidth: float | None = None,
    theory: str = "exact",
) -> Solutions[MultiSection]:
    """Quarter-wave sections with the widest band for an SWR in it, or the least SWR for a band.

    load_impedance, line_impedance, sections, theory : as in `binomial_transformer`; by the theory of small
    reflections the ripples are a little off for a large ratio.
    swr : the largest in the band, above 1.  bandwidth : width of the band over its middle, which is the
    design frequency, above 0 and below 2. One of the two is given, not both.

    Returns `Solutions` of `MultiSection`, order and number as for `binomial_transformer`; the band is that of
    the sections, narrower with line or a stub before them. An even number of sections is not matched at the
    middle of the band: there is the largest reflection. None, with the reason in `.reason`, for a load that
    takes no power and where the resistance is within the SWR already.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, UnknownChoice.
    Source: Pozar, 4th ed., section 5.7 (from memory); exactly, the power ratio k² T_N²(cos / cos of the
    band's edge), R. E. Collin, Foundations for Microwave Engineering, 2nd ed., section 5.11 (from memory).

    >>> three = chebyshev_transformer(100, 50, 3, swr=1.05 / 0.95, theory="small reflections")[0]
    >>> [round(ohms, 1) for ohms in three.section_impedances]
    [87.0, 70.7, 57.5]
    """
    number = section_count(sections)
    exact = choice(theory, THEORIES, "theory") == "exact"
    if (swr is None) == (bandwidth is None):
        raise OutOfRange("Give either the largest swr in the band or the bandwidth, not both.", value=swr)
    if swr is not None:
        limit = one_number(swr, "standing-wave ratio in the band", "such as 1.2", above=1.0)
        largest, secant = float(reflection_from_swr(limit)), None
    else:
        width = _width(bandwidth)
        largest, secant = None, 1 / np.sin(np.pi * width / 4)
    quarters = partial(_equal_ripples, number=number, largest=largest, secant=secant, exact=exact)
    return from_each_resistance(
        MultiSection, load_impedance, line_impedance, number, quarters, WITHIN_ALREADY
    )


def _equal_ripples(
    ratio: float, number: int, largest: float | None, secant: float | None, exact: bool
) -> tuple[float, Array] | None:
    if secant is None and ratio != 1:
        assert largest is not None
        reflection = abs(ratio - 1) / (ratio + 1) if exact else abs(np.log(ratio)) / 2
        if largest >= reflection:
            return None
        secant = secant_of_reflection(ratio, number, largest, exact)
    secant = 1.0 if secant is None else secant  # of no load mismatch any will do
    if exact:
        return 0.25, exact_chebyshev(ratio, number, secant)
    return 0.25, small_reflections(ratio, chebyshev_weights(number, secant))


def _width(bandwidth: float | None) -> float:
    width = one_number(bandwidth, "bandwidth", "over its middle, such as 0.5", above=0.0)
    return one_number(width, "bandwidth", "over its middle, such as 0.5", up_to=float(np.nextafter(2.0, 0.0)))
