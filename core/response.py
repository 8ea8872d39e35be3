"""A network over frequency: its response, and the band in which it stays within a standing-wave ratio.

Frequencies are ratios to the design frequency. The arrays of a network and its load have a shape S,
frequencies a shape F.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array
from core.elements import State, _spread
from core.line import _plain, return_loss_db, swr
from core.loads import ConstantLoad, Load
from core.network import MatchingNetwork
from core.ranges import real_in_range
from core.readable import Readable, Rows, amount, percent
from core.roots import bisect, highest

# Frequency ratios between which the edges of a band are looked for, and how.
LOWEST, HIGHEST = 1e-6, 10.0
FIRST_STEP, GROWTH, LARGEST_STEP, SAMPLES_PER_PERIOD, BLOCK = 1e-3, 1.25, 0.05, 16, 64


@dataclass(frozen=True)
class Response(Readable):
    """Complex input reflection, of shape S + F, at frequency ratios of shape F."""

    frequency_ratio: Any
    reflection: Any

    @property
    def swr(self) -> Any:
        """Standing-wave ratio on the line toward the generator, >= 1."""
        return swr(self.reflection)

    @property
    def return_loss_db(self) -> Any:
        """Return loss in decibels, >= 0."""
        return return_loss_db(self.reflection)

    def _rows(self) -> Rows:
        return [("frequency ratio", amount(self.frequency_ratio)), ("SWR", amount(self.swr))]


def frequency_response(
    network: MatchingNetwork, frequency_ratio: ArrayLike, load: Load | None = None
) -> Response:
    """Input reflection over frequency, with the load constant or as a model of it.

    network : any, of shape S.  frequency_ratio : frequency over design frequency, > 0, shape F.
    load : from `core.loads`, by default constant at the design load.  Raises OutOfRange.
    Source: none beside that of the network's evaluator.

    >>> from core.loads import SeriesLoad
    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> response = frequency_response(near, [0.9, 1.0, 1.1], SeriesLoad.of(60 - 80j))
    >>> response.swr.round(2).tolist()
    [1.67, 1.0, 1.44]
    """
    ratio = real_in_range(frequency_ratio, "frequency ratio", "such as 1.1", above=0)
    model = ConstantLoad(network.load_impedance) if load is None else load
    return Response(_plain(ratio), network.input_reflection(ratio, model.at(ratio)))


@dataclass(frozen=True)
class Bandwidth(Readable):
    """The band around the design frequency in which the standing-wave ratio is at most `swr`. Arrays of shape
    S.

    lower, upper : edges as ratios to the design frequency, nan where the design frequency itself is not
    within the limit. lower is 0 and upper inf where the band does not close between the frequency ratios
    `searched`."""

    lower: Any
    upper: Any
    swr: float
    searched: tuple[float, float]

    @property
    def fraction(self) -> Any:
        """Width over design frequency: 0 where there is no band, inf where it never closes above."""
        width = np.asarray(self.upper) - np.asarray(self.lower)
        return _plain(np.where(np.isnan(width), 0.0, width))

    @property
    def below(self) -> Any:
        """How far the band reaches below the design frequency, as a fraction of it."""
        return _plain(1 - np.asarray(self.lower))

    @property
    def above(self) -> Any:
        """How far the band reaches above the design frequency, as a fraction of it."""
        return _plain(np.asarray(self.upper) - 1)

    def _rows(self) -> Rows:
        edges = ("from", amount(self.lower, digits=5)), ("to", amount(self.upper, digits=5))
        return [("SWR at most", amount(self.swr)), *edges, ("width", percent(self.fraction))]


def bandwidth(
    network: MatchingNetwork, swr: ArrayLike = 2.0, load: Load | None = None, highest_ratio: float = HIGHEST
) -> Bandwidth:
    """The band around the design frequency in which a network stays within a standing-wave ratio.

    network : any, of shape S.  swr : the limit, > 1, broadcasts with S.  load : a model from `core.loads`, by
    default constant at the design load; a table limits the search to its range.  highest_ratio : how far up
    to look. Edges are exact to about 1e-12: bracketed outward from the design frequency and found by halving.
    Between two samples nothing is missed, because what is sampled, |V - Z0 I|^2 - limit^2 |V + Z0 I|^2,
    varies no faster than the lines' lengths allow and is sampled 16 times a period; where it comes near zero
    its maximum is sought.  Raises OutOfRange.
    Source: by definition; for the quarter wave Pozar, 4th ed., section 5.4 (from memory).

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> bandwidth(near)
    Bandwidth(SWR at most: 2; from: 0.84686; to: 1.2168; width: 36.99 %)
    """
    limit = real_in_range(swr, "limit of the standing-wave ratio", "such as 2", above=1)
    top = float(real_in_range(highest_ratio, "highest frequency ratio", "such as 10", above=1))
    model = ConstantLoad(network.load_impedance) if load is None else load
    lowest, top = max(LOWEST, model.limits[0]), min(top, model.limits[1])
    excess = _Excess(network, model, (limit - 1) / (limit + 1))
    lower = _edge(excess, _ratios(network, model, lowest), open_end=0.0)
    upper = _edge(excess, _ratios(network, model, top), open_end=np.inf)
    return Bandwidth(_plain(lower), _plain(upper), _plain(limit), (lowest, top))


@dataclass(frozen=True)
class _Excess:
    """By how much a network is over a limit of |reflection|: below zero within the band, smooth, without
    poles."""

    network: MatchingNetwork
    load: Load
    limit: Array

    def over(self, ratio: Array) -> Array:
        """At each of some frequencies: shape S + F."""
        value = self._value(self.network, self.load.state(ratio), ratio)
        return np.broadcast_to(value, (*value.shape[:-1], ratio.size))

    def at(self, ratio: Array) -> Array:
        """At a frequency of its own for each network, of shape S; what it says of nan is of no use."""
        known = np.where(np.isnan(ratio), 1.0, ratio)
        here = np.asarray(1.0)
        return self._value(self.network.detuned(known), self.load.detuned(known).state(here), here)

    def _value(self, network: MatchingNetwork, load: State, ratio: Array) -> Array:
        returned, sent = map(np.abs, network.waves(network.input_state(ratio, load), ratio))
        return returned**2 - (_spread(self.limit, ratio) * sent) ** 2


def _ratios(network: MatchingNetwork, load: Load, end: float) -> Array:
    """Frequency ratios from 1 outward to `end`: first in small steps, then as the length of the lines
    asks."""
    longest = np.nanmax(np.asarray(network.total_line, dtype=float), initial=0.0)
    step = min(LARGEST_STEP, 1 / (2 * SAMPLES_PER_PERIOD * longest)) if longest else LARGEST_STEP
    reach, sense = abs(end - 1), np.sign(end - 1)
    growing = FIRST_STEP * GROWTH ** np.arange(np.ceil(np.log(step / FIRST_STEP) / np.log(GROWTH)))
    regular = np.arange(1, np.floor(reach / step) + 1) * step
    corners = sense * (load.corners - 1)
    away = np.unique(np.concatenate([[0.0, reach], growing, regular[regular > growing[-1:].sum()], corners]))
    return 1 + sense * away[(away >= 0) & (away <= reach)]


def _edge(excess: _Excess, ratios: Array, open_end: float) -> Array:
    """The first ratio outward from 1 at which the limit is passed; `open_end` if none; nan if it is at 1."""
    inside = excess.over(ratios[:1])[..., 0] < 0
    near, far = np.full((2, *inside.shape), np.nan)
    for start in range(0, ratios.size - 1, BLOCK):
        part = ratios[start : start + BLOCK + 2]
        bracket = _first_rise(excess, part)
        near, far = (
            np.where(np.isnan(near), new, old) for new, old in zip(bracket, (near, far), strict=True)
        )
        if not np.any(np.isnan(near) & inside):
            break
    found = bisect(excess.at, near, far)
    return np.where(inside, np.where(np.isnan(near), open_end, found), np.nan)


def _first_rise(excess: _Excess, ratios: Array) -> tuple[Array, Array]:
    """The first pair of ratios between which the excess passes zero, upward and in the order given; nan if
    none.

    A rise and fall between two samples shows as a maximum below zero: it is climbed before the next rise
    counts."""
    values = excess.over(ratios)
    risen = values >= 0
    first = np.where(np.any(risen, axis=-1), np.argmax(risen, axis=-1), ratios.size)
    ends = np.append(ratios, np.nan)
    near, far = np.where(first < ratios.size, ends[np.maximum(first - 1, 0)], np.nan), ends[first]
    hidden = _maxima_near_zero(values) & (np.arange(1, ratios.size - 1) < first[..., None])
    rank = np.cumsum(hidden, axis=-1)
    for number in range(int(rank.max(initial=0)), 0, -1):
        chosen = hidden & (rank == number)
        left = np.where(np.any(chosen, axis=-1), np.argmax(chosen, axis=-1), ratios.size)
        low, high = ends[left], ends[np.minimum(left + 2, ratios.size)]
        top = highest(excess.at, low, high)
        passed = ~np.isnan(low) & (excess.at(top) >= 0)
        near, far = np.where(passed, low, near), np.where(passed, top, far)
    return near, far


def _maxima_near_zero(values: Array) -> Array:
    """Which inner samples are maxima below zero that may pass it: a hump rises at most by its steeper
    flank."""
    middle = values[..., 1:-1]
    rise, fall = middle - values[..., :-2], middle - values[..., 2:]
    return (middle < 0) & (rise > 0) & (fall >= 0) & (middle + np.maximum(rise, fall) >= 0)
