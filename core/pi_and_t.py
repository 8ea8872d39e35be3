"""Matching with three lumped parts of a given quality factor: Pi and T networks.

Two L networks back to back that meet at a resistance which neither end has: the further away it is, the higher
the quality factor at the ends and the narrower the band. A T is a Pi with impedances and admittances, series
and shunt exchanged.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import product
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, quotient
from core.checks import Array
from core.designs import normalised_load
from core.lumped import LumpedPart
from core.mismatch import none_if_rounding
from core.ranges import real_in_range
from core.solutions import TAKES_NO_POWER, Solutions, sentences
from core.source import ConjugateMatch, source_of

TOO_LOW = (
    "A quality factor of {:.4g} is too low for this load and this source: it is at least {:.4g} in any {} "
    "network, where it becomes an L network."
)
SOME_TOO_LOW = "For some of these loads the quality factor is too low: no {} network has so little."
AN_L_NETWORK = (
    "At the least quality factor, as here, the network is an L network: one of its parts does nothing."
)
ONLY_CANCELS = (
    "Load and source ask for no more than that: the parts cancel their reactances, where they have any."
)
LEAST = 1e-12  # relative, of 1 + Q²: what is this near the least quality factor has it


@dataclass(frozen=True)
class ThreeParts(ConjugateMatch):
    """What Pi and T networks share: three lumped parts, in the order in which the load meets them."""

    elements: tuple[LumpedPart, LumpedPart, LumpedPart]
    made_of = ((LumpedPart, LumpedPart, LumpedPart),)

    @property
    def end_quality_factors(self) -> tuple[Real, Real]:
        """At the load and at the source: the reactive over the real part between the end part and the middle
        one."""
        impedances = [np.asarray(quotient(*state)) for state in list(self.states())[1:3]]
        with np.errstate(divide="ignore", invalid="ignore"):  # beside a load that takes no power
            at_load, at_source = (plain(np.abs(z.imag) / z.real) for z in impedances)
        return at_load, at_source

    @property
    def quality_factor(self) -> Real:
        """The higher of the two: what the network was asked for."""
        return plain(np.maximum(*self.end_quality_factors))


@dataclass(frozen=True)
class PiNetwork(ThreeParts):
    """A shunt part, a series part, a shunt part."""


@dataclass(frozen=True)
class TNetwork(ThreeParts):
    """A series part, a shunt part, a series part."""


Design = TypeVar("Design", bound=ThreeParts)


def pi_network(
    load_impedance: ArrayLike,
    source_impedance: ArrayLike,
    quality_factor: ArrayLike,
    frequency: ArrayLike | None = None,
) -> Solutions[PiNetwork]:
    """Every Pi network of a quality factor that matches a load to a source, lossless.

    load_impedance : complex ohms, any shape; inf is an open circuit.  source_impedance : complex ohms,
    resistance > 0; that of a line for a source matched to it.
    quality_factor : the higher of those at the two ends, susceptance over conductance between the shunt part
    and the series part, >= 0.  frequency : hertz > 0, for the parts' values. All broadcast.

    Returns `Solutions` of `PiNetwork`, four for an ordinary load, by the susceptances that the shunt part
    leaves at the load and at the source: both above zero (capacitors beside an inductor, a low-pass), above
    at the load only, above at the source only, both below zero (a high-pass). Two, which are L networks, at
    the least quality factor; none, with the reason in `.reason`, below that and for a load that takes no
    power. For arrays always four, nan where there is none.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, ShapesDiffer.
    Source: C. Bowick, RF Circuit Design, chapter 4, the Pi network and its virtual resistance R / (Q² + 1)
    (from memory).

    >>> low_pass = pi_network(1000, 100, 15, 10e6)[0]
    >>> [round(part.reactance, 1) for part in low_pass.elements]
    [-66.7, 86.9, -21.5]
    """
    return _designed(PiNetwork, load_impedance, source_impedance, quality_factor, frequency)


def t_network(
    load_impedance: ArrayLike,
    source_impedance: ArrayLike,
    quality_factor: ArrayLike,
    frequency: ArrayLike | None = None,
) -> Solutions[TNetwork]:
    """Every T network of a quality factor that matches a load to a source, lossless.

    Arguments and errors as `pi_network`, the quality factor being reactance over resistance between the
    series part and the shunt part.
    Returns `Solutions` of `TNetwork` in the same order, by the reactances that the series part leaves: both
    above zero (inductors beside a capacitor, a low-pass), above at the load only, above at the source only,
    both below zero.
    Source: C. Bowick, RF Circuit Design, chapter 4, the T network and its virtual resistance R (Q² + 1) (from
    memory).

    >>> low_pass = t_network(50, 10, 10)[0]
    >>> [round(part.reactance, 1) for part in low_pass.elements]
    [219.1, -70.2, 100.0]
    """
    return _designed(TNetwork, load_impedance, source_impedance, quality_factor, frequency)


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def _designed(
    kind: type[Design],
    load_impedance: ArrayLike,
    source_impedance: ArrayLike,
    quality: ArrayLike,
    frequency: Any,
) -> Solutions[Design]:
    source = source_of(source_impedance)
    asked = real_in_range(quality, "quality factor", "such as 5", at_least=0.0)
    load, ohms, z = normalised_load(load_impedance, source.real)
    given = [load, ohms, z, source, asked]
    if frequency is not None:
        given.append(real_in_range(frequency, "frequency", "in hertz", above=0.0))
    load, ohms, z, source, asked, *hertz = broadcast(*given)
    w, aim = z, np.conj(source) / ohms
    places = ("series", "shunt", "series")
    if kind is PiNetwork:
        w, aim, places = (
            quotient(np.ones_like(z), z),
            quotient(np.ones_like(aim), aim),
            places[1:] + places[1:2],
        )
    found = _parts_of(w, aim, asked)
    networks = [
        kind(
            plain(load),
            plain(ohms),
            tuple(_part(v, place, ohms, hertz) for v, place in zip(values, places, strict=True)),  # type: ignore[arg-type]
            plain(source),
        )
        for values in found
    ]
    return _as_solutions(networks, w, aim, asked, found)


def _parts_of(w: Array, aim: Array, quality: Array) -> list[list[Array]]:
    """What each of the three parts adds, for all four pairs of signs, normalised; nan where there is none.

    With the real parts h at the ends, the smaller of them sets the virtual one in the middle, of the inverse
    kind: v = 1 / (h (1 + Q²)). An end of quality factor q is then h (1 + jq), its inverse v (1 - jq)."""
    ends = [w.real, aim.real]
    smaller = np.minimum(*ends)
    factors = [_end_factor(smaller / end, quality) for end in ends]
    none = np.isnan(factors[0]) | np.isnan(factors[1])
    factors = [np.where(none, np.nan, factor) for factor in factors]
    virtual = 1 / (smaller * (1 + quality**2))
    found = []
    for near, far in product((1, -1), repeat=2):
        left = near * factors[0] * ends[0], far * factors[1] * ends[1]
        middle = near * factors[0], far * factors[1]
        found.append(
            [
                none_if_rounding(left[0] - w.imag, left[0], w.imag),
                virtual * none_if_rounding(middle[0] + middle[1], *middle),
                none_if_rounding(aim.imag + left[1], aim.imag, left[1]),
            ]
        )
    return found


def _end_factor(ratio: Array, quality: Array) -> Array:
    """sqrt(ratio (1 + Q²) - 1): Q itself at the end of the smaller real part, exactly."""
    square = ratio * (1 + quality**2) - 1
    square = np.where(np.abs(square) <= LEAST, 0.0, square)
    return np.where(ratio == 1, quality, np.sqrt(np.where(square < 0, np.nan, square)))


def _part(value: Array, placement: str, ohms: Array, hertz: list[Array]) -> LumpedPart:
    frequency = plain(hertz[0]) if hertz else None
    if placement == "series":
        return LumpedPart(plain(ohms * value), placement, frequency)
    across = np.where(value == 0, np.inf, -ohms / np.where(value == 0, 1.0, value))
    return LumpedPart(plain(across), placement, frequency)


def _as_solutions(
    networks: list[Design], w: Array, aim: Array, asked: Array, found: list[list[Array]]
) -> Solutions[Design]:
    name = "Pi" if isinstance(networks[0], PiNetwork) else "T"
    powerless = np.isnan(w)
    low = np.isnan(found[0][1]) & ~powerless
    reason = [(TAKES_NO_POWER, powerless)]
    if w.ndim:
        return Solutions(tuple(networks), sentences([*reason, (SOME_TOO_LOW.format(name), low)]))
    least = np.sqrt(max(w.real / aim.real, aim.real / w.real) - 1) if low else 0.0
    kept = _each_once(networks) if not low and not powerless else []
    too_low = TOO_LOW.format(asked, least, name)
    told = (too_low, low), (AN_L_NETWORK, len(kept) == 2), (ONLY_CANCELS, len(kept) == 1)
    return Solutions(tuple(kept), sentences([*reason, *told]))


def _each_once(networks: Iterable[Design]) -> list[Design]:
    """Of networks of scalars those that differ: at the least quality factor two and two are the same."""
    kept: dict[tuple[float, ...], Design] = {}
    for network in networks:
        kept.setdefault(tuple(part.reactance for part in network.elements), network)
    return list(kept.values())
