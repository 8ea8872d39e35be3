"""A network over frequency: its response, and the band in which it stays within a standing-wave ratio.

Frequencies are ratios to the design frequency. The arrays of a network and its load have a shape S,
frequencies a shape F.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, common_shape, plain, spread
from core.checks import Array
from core.elements import State
from core.errors import NotANetwork, OutOfRange
from core.line import reflection_from_swr, return_loss_db, swr
from core.loads import ConstantLoad, Load
from core.network import MatchingNetwork, one_network
from core.ranges import HIGHEST_RATIO, frequency_ratios, one_number, real_in_range
from core.readable import Readable, Rows, amount, percent, shown
from core.roots import bisect, highest

# Frequency ratios between which the edges of a band are looked for, and how.
LOWEST, HIGHEST = 1e-6, 10.0
FIRST_STEP, GROWTH, LARGEST_STEP, SAMPLES_PER_PERIOD, BLOCK = 1e-3, 1.25, 0.05, 16, 64


@dataclass(frozen=True)
class Response(Readable):
    """Complex input reflection, of shape S + F, at frequency ratios of shape F.

    frequency_hz : the same frequencies in hertz, None where they were not given so."""

    frequency_ratio: Any
    reflection: Any
    frequency_hz: Any = None

    @property
    def swr(self) -> Real:
        """Standing-wave ratio on the line toward the generator, >= 1."""
        return swr(self.reflection)

    @property
    def return_loss_db(self) -> Real:
        """Return loss in decibels, >= 0."""
        return return_loss_db(self.reflection)

    def _rows(self) -> Rows:
        hertz = [] if self.frequency_hz is None else [("frequency", amount(self.frequency_hz, "Hz"))]
        return [*hertz, ("frequency ratio", amount(self.frequency_ratio)), ("SWR", amount(self.swr))]


def frequency_response(
    network: MatchingNetwork,
    frequency_ratio: ArrayLike | None = None,
    load: Load | None = None,
    *,
    frequency_hz: ArrayLike | None = None,
    design_frequency_hz: float | None = None,
) -> Response:
    """Input reflection over frequency, with the load constant or as a model of it.

    network : any, of shape S.  frequency_ratio : frequency over design frequency, above 0 up to 1000, shape F.
    load : from `core.loads`, by default constant at the design load.
    frequency_hz, design_frequency_hz : instead of the ratio, the frequencies in hertz, of shape F, and the one
    that the network was designed for.  Raises OutOfRange, NotANetwork, ShapesDiffer.
    Source: none beside that of the network's evaluator.

    >>> from core.loads import SeriesLoad
    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> response = frequency_response(near, [0.9, 1.0, 1.1], SeriesLoad.of(60 - 80j))
    >>> response.swr.round(2).tolist()
    [1.67, 1.0, 1.44]
    >>> frequency_response(near, frequency_hz=868e6, design_frequency_hz=868e6)
    Response(frequency: 8.68e+08 Hz; frequency ratio: 1; SWR: 1)
    """
    network = one_network(network)
    ratio, hertz = _frequencies(frequency_ratio, frequency_hz, design_frequency_hz)
    load_impedance = load_model(load, network).at(ratio)
    return Response(plain(ratio), network.input_reflection(ratio, load_impedance), hertz)


def load_model(load: Any, network: MatchingNetwork) -> Load:
    """The model of a network's load, by default constant at the design load.  Raises NotANetwork for no model."""
    if load is None:
        return ConstantLoad(network.load_impedance)
    if isinstance(load, Load):
        return load
    raise NotANetwork(
        f"A model of a load is wanted, such as SeriesLoad.of(60 - 80j), not {shown(load)}.", value=load
    )


def _frequencies(ratio: ArrayLike | None, hertz: ArrayLike | None, design: float | None) -> tuple[Array, Any]:
    """Ratios to the design frequency, and the same in hertz if given so."""
    by_ratio, by_hertz = ratio is not None, hertz is not None or design is not None
    if by_ratio == by_hertz or (hertz is None) != (design is None):
        raise OutOfRange(
            "Give the frequencies either as frequency_ratio or as frequency_hz with design_frequency_hz.",
            value=(ratio, hertz, design),
        )
    if hertz is None or design is None:
        return frequency_ratios(ratio, above=0), None  # type: ignore[arg-type]
    at = real_in_range(hertz, "frequency", "in hertz", above=0)
    return frequency_ratios(at / one_number(design, "design frequency", "in hertz", above=0), above=0), plain(
        at
    )


@dataclass(frozen=True)
class Bandwidth(Readable):
    """The band around the design frequency in which the standing-wave ratio is at most `swr`. Arrays of shape
    S.

    lower, upper : edges as ratios to the design frequency, nan where the design frequency itself is not
    within the limit. lower is 0 and upper inf where the band does not close between a millionth of the design
    frequency and ten times it. Where the load's table or the search ends before that, so does what is said of the
    band: it reaches at least to that end, and `open_below` or `open_above` is true.
    searched : the frequency ratios between which the edges were looked for."""

    lower: Any
    upper: Any
    swr: Any
    searched: tuple[float, float]
    open_below: Any = False
    open_above: Any = False

    @property
    def at_least(self) -> bool | Array:
        """Whether the band may reach further than its edges say."""
        return plain(np.logical_or(self.open_below, self.open_above))

    @property
    def fraction(self) -> Real:
        """Width over design frequency: 0 where there is no band, inf where it never closes above."""
        width = np.asarray(self.upper) - np.asarray(self.lower)
        return plain(np.where(np.isnan(width), 0.0, width))

    @property
    def below(self) -> Real:
        """How far the band reaches below the design frequency, as a fraction of it."""
        return plain(1 - np.asarray(self.lower))

    @property
    def above(self) -> Real:
        """How far the band reaches above the design frequency, as a fraction of it."""
        return plain(np.asarray(self.upper) - 1)

    def _rows(self) -> Rows:
        width = f"at least {percent(self.fraction)}" if np.any(self.at_least) else percent(self.fraction)
        low, high = amount(self.lower, digits=5), amount(self.upper, digits=5)
        edges = (
            ("from", f"{low} or below, where the search ends" if np.any(self.open_below) else low),
            ("to", f"{high} or above, where the search ends" if np.any(self.open_above) else high),
        )
        return [("SWR at most", amount(self.swr)), *edges, ("width", width)]


def bandwidth(
    network: MatchingNetwork, swr: ArrayLike = 2.0, load: Load | None = None, highest_ratio: float = HIGHEST
) -> Bandwidth:
    """The band around the design frequency in which a network stays within a standing-wave ratio.

    network : any, of shape S.  swr : the limit, > 1, broadcasts with S.  load : a model from `core.loads`, by
    default constant at the design load; a table limits the search to its range, as does
    a line that is known in part.  highest_ratio : how far up to look.
    Edges are exact to about 1e-12: bracketed outward from the design frequency and found by halving.
    Between two samples nothing is missed, because what is sampled, |V - Z0 I|^2 - limit^2 |V + Z0 I|^2,
    varies no faster than the lines' lengths allow and is sampled 16 times a period; where it comes near zero
    its maximum is sought.  Raises OutOfRange, NotANetwork, ShapesDiffer.
    Source: by definition; for the quarter wave Pozar, 4th ed., section 5.4 (from memory).

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> bandwidth(near)
    Bandwidth(SWR at most: 2; from: 0.84686; to: 1.2168; width: 36.99 %)
    """
    network, model = one_network(network), load_model(load, network)
    limit = real_in_range(swr, "limit of the standing-wave ratio", "such as 2", above=1)
    common_shape(limit.shape, network.shape)
    top = one_number(highest_ratio, "highest frequency ratio", "such as 10", above=1, up_to=HIGHEST_RATIO)
    _within(model)
    lowest = max(LOWEST, model.limits[0], network.limits[0])
    top = min(top, model.limits[1], network.limits[1])
    excess = _Excess(network, model, np.asarray(reflection_from_swr(limit)))
    lower = _edge(excess, _ratios(network, model, lowest), open_end=0.0)
    upper = _edge(excess, _ratios(network, model, top), open_end=np.inf)
    open_below, open_above = (lower == 0) & (lowest > LOWEST), np.isinf(upper) & (top < HIGHEST)
    lower, upper = np.where(open_below, lowest, lower), np.where(open_above, top, upper)
    ends = {"open_below": plain(open_below), "open_above": plain(open_above)}
    return Bandwidth(plain(lower), plain(upper), plain(limit), (lowest, top), **ends)


def _within(model: Load) -> None:
    """A band around the design frequency can be told only where the load is known there."""
    low, high = model.limits
    if not low <= 1 <= high:
        raise OutOfRange(
            f"The load is known from {low:.4g} to {high:.4g} times the design frequency, and not at the design "
            "frequency itself: measure there, or choose another design frequency.",
            value=model,
        )


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
        return returned**2 - (spread(self.limit, ratio) * sent) ** 2


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
