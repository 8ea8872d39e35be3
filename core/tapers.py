"""Matching with a line whose impedance changes steadily: exponential, triangular and optimum tapers.

A taper does not match at one frequency but keeps the reflection small at all from some frequency up: the
longer, the lower. It is built here as a row of short steps, each of the impedance that the taper has at its
middle, so that the one evaluator knows it; the theory of small reflections tells what to expect.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from reprlib import repr as shortened

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain
from core.checks import Array, choice, finite_length, real_impedance
from core.errors import NotALength
from core.ranges import one_number
from core.resistive_points import Stepped, from_each_resistance, section_count
from core.solutions import Solutions

SHAPES = ("exponential", "triangular", "optimum")
STEPS = 64
WITHIN_ALREADY = (
    "The resistance that the taper would start from is within this reflection already: no optimum taper "
    "exists, and none is needed."
)


@dataclass(frozen=True)
class Taper(Stepped):
    """A taper in short steps, and before it nothing, a section of the line, or a shunt stub at the load."""

    @property
    def length(self) -> Real:
        """Of the taper, wavelengths at the design frequency."""
        return plain(self.count * np.asarray(self.sections[0].length))


def exponential_taper(
    load_impedance: ArrayLike, line_impedance: ArrayLike, length: float = 0.5, steps: int = STEPS
) -> Solutions[Taper]:
    """A taper with the same change of the logarithm of the impedance everywhere: ln Z is a straight line.

    load_impedance : complex ohms, any shape; inf is an open circuit.  line_impedance : positive real ohms,
    broadcasts with the load.  length : wavelengths at the design frequency, above 0; by default where the
    reflection first vanishes, by the theory of small reflections.  steps : how many, 1 to 500.

    Returns `Solutions` of `Taper` in the order of `quarter_wave`: from the voltage maximum or minimum nearer
    the load and from the other; with a shorted and with an open stub at the load. For a real load the taper
    alone and the one a quarter wave further on; for a matched load one; none, with the reason in `.reason`,
    for a load that takes no power. For arrays always the four. No taper matches exactly: see
    `taper_reflection`.
    Raises NotAnImpedance, NegativeResistance, NotALength, OutOfRange.
    Source: Pozar, 4th ed., section 5.8, eq. 5.68 to 5.70 (from memory).

    >>> taper = exponential_taper(100, 50, 1.0)[0]
    >>> taper.length, round(float(abs(taper.input_reflection(1.25))), 3)
    (1.0, 0.044)
    """
    return _designed(load_impedance, line_impedance, length, steps, _straight)


def triangular_taper(
    load_impedance: ArrayLike, line_impedance: ArrayLike, length: float = 1.0, steps: int = STEPS
) -> Solutions[Taper]:
    """A taper whose change of the logarithm of the impedance rises to the middle and falls again.

    Arguments and errors as `exponential_taper`. By default too it has the length where the reflection first
    vanishes, twice that of the exponential taper; its reflection falls with the square of the frequency.
    Returns `Solutions` of `Taper` in the same order.
    Source: Pozar, 4th ed., section 5.8, eq. 5.71 to 5.73 (from memory)."""
    return _designed(load_impedance, line_impedance, length, steps, _two_parabolas)


def optimum_taper(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    largest_reflection: float,
    length: float | None = None,
    steps: int = STEPS,
) -> Solutions[Taper]:
    """The shortest taper for a largest reflection from some frequency up: equal ripples, jumps at both ends.

    load_impedance, line_impedance, steps : as in `exponential_taper`.  largest_reflection : magnitude, above
    0 and below 1.  length : wavelengths at the design frequency; by default the shortest that keeps the
    largest reflection at the design frequency and all above (until the steps show), 1/2π arccosh(G / largest)
    with G half the logarithm of the resistance ratio. That is by the theory of small reflections: for a ratio
    of 2 the band begins 1 % higher than that, for one of 10 the ripples are more than twice as large.

    Returns `Solutions` of `Taper`, order and number as for `exponential_taper`; none, with the reason in
    `.reason`, also where the resistance is within the reflection already.
    Raises NotAnImpedance, NegativeResistance, NotALength, OutOfRange.
    Source: R. W. Klopfenstein, A transmission line taper of improved design, Proc. IRE 44 (1956), as in
    Pozar, 4th ed., section 5.8, eq. 5.74 to 5.78 (from memory).

    >>> taper = optimum_taper(100, 50, 0.02)[0]
    >>> round(taper.length, 3)
    0.564
    """
    largest = _magnitude(largest_reflection)
    count, asked = section_count(steps), None if length is None else _positive(length)

    def row(ratio: float) -> tuple[float, Array] | None:
        if ratio != 1 and largest >= abs(np.log(ratio)) / 2:
            return None
        height = _height(ratio, largest)
        own = height / (2 * np.pi) if asked is None else asked
        return own / count, _in_steps(partial(_optimum, height), ratio, count)

    return from_each_resistance(Taper, load_impedance, line_impedance, count, row, WITHIN_ALREADY)


def taper_reflection(
    load_resistance: ArrayLike,
    line_impedance: ArrayLike,
    length: ArrayLike,
    shape: str = "exponential",
    largest_reflection: float | None = None,
) -> Real:
    """Magnitude of the reflection of a taper, by the theory of small reflections.

    load_resistance, line_impedance : positive real ohms.  length : wavelengths at the frequency in question,
    >= 0.  All broadcast.  shape : "exponential", "triangular" or "optimum"; for the last
    largest_reflection : the one it was designed for, above 0 and below 1.
    Raises NotAnImpedance, NotALength, OutOfRange, UnknownChoice.
    Source: Pozar, 4th ed., eq. 5.70, 5.73 and 5.76 (from memory), with G = 1/2 ln of the resistance ratio:
    G sin(b) / b, G (sin(b/2) / (b/2))², G |cos sqrt(b² - A²)| / cosh A, with b = 2 pi length.

    >>> round(taper_reflection(100, 50, 1.25), 4)
    0.0441
    """
    given = real_impedance(load_resistance, "load resistance"), real_impedance(line_impedance)
    load, line, distance = broadcast(*given, finite_length(length))
    whole, phase = np.abs(np.log(load) - np.log(line)) / 2, 2 * distance
    if choice(shape, SHAPES, "shape") == "exponential":
        return plain(whole * np.abs(np.sinc(phase)))
    if shape == "triangular":
        return plain(whole * np.sinc(phase / 2) ** 2)
    largest = _magnitude(np.nan if largest_reflection is None else largest_reflection)
    height = np.arccosh(np.maximum(whole / largest, 1.0))
    ripple = np.cos(np.sqrt((np.pi * phase) ** 2 - height**2 + 0j)).real
    return plain(np.minimum(largest, whole) * np.abs(ripple))


def _designed(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    length: float,
    steps: int,
    rise: Callable[[Array], Array],
) -> Solutions[Taper]:
    count, whole = section_count(steps), _positive(length)
    return from_each_resistance(
        Taper, load_impedance, line_impedance, count, lambda r: (whole / count, _in_steps(rise, r, count))
    )


def _in_steps(rise: Callable[[Array], Array], ratio: float, count: int) -> Array:
    """Impedances at the middles of the steps: the logarithm rises by this part of its whole rise."""
    return np.exp(np.log(ratio) * rise((np.arange(count) + 0.5) / count))


def _straight(place: Array) -> Array:
    return place


def _two_parabolas(place: Array) -> Array:
    return np.where(place < 0.5, 2 * place**2, 1 - 2 * (1 - place) ** 2)


def _optimum(height: float, place: Array) -> Array:
    """Half, and A² phi(2 place - 1, A) / cosh A of the other halves: 1/2 -+ 1/2 at the ends but for the jumps."""
    return 0.5 + height**2 * _phi(2 * place - 1, height) / (2 * np.cosh(height))


def _height(ratio: float, largest: float) -> float:
    """A: how high the response at no frequency stands over the ripples, as its arccosh."""
    return float(np.arccosh(max(abs(np.log(ratio)) / (2 * largest), 1.0)))


def _phi(place: Array, height: float) -> Array:
    """The integral of I1(A sqrt(1 - y²)) / (A sqrt(1 - y²)) from 0 to `place`.

    By the series of M. A. Grossberg, Extremely rapid computation of the Klopfenstein impedance taper, Proc.
    IEEE 56 (1968) (from memory)."""
    factor, term = 1.0, place / 2
    total, order = term, 0
    while factor > 1e-18:
        order += 1
        factor *= height**2 / (4 * order * (order + 1))
        term = (place / 2 * (1 - place**2) ** order + 2 * order * term) / (2 * order + 1)
        total = total + factor * term
    return total


def _positive(length: float) -> float:
    value = finite_length(length, "length of the taper")
    if value.ndim or value == 0:
        raise NotALength(
            f"The length of the taper must be a single number above zero wavelengths, not {shortened(length)}.",
            value=length,
        )
    return float(value)


def _magnitude(reflection: float) -> float:
    below = float(np.nextafter(1.0, 0.0))
    return one_number(reflection, "largest reflection", "such as 0.05", above=0.0, up_to=below)
