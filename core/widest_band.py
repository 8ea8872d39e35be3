"""The widest band in which any lossless network can match a reactive load: a yardstick for every design.

What a load's reactance stores, no network takes back. However many parts it has, the logarithm of its
reflection, summed over all frequencies, cannot be more than the load allows: a low reflection in a band is
paid for with the band's width. With loss in the network a band may be wider, at the cost of power.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain
from core.checks import Array
from core.errors import NotAnImpedance
from core.line import reflection_from_swr
from core.loads import Load, ParallelLoad, SeriesLoad
from core.network import MatchingNetwork, one_network
from core.ranges import real_in_range
from core.response import bandwidth

ReactiveLoad = SeriesLoad | ParallelLoad | ArrayLike


def reflection_limit(load: ReactiveLoad, lower: ArrayLike, upper: ArrayLike) -> Real:
    """The lowest largest |reflection| in a band that any lossless network can have: 0 to 1.

    load : `SeriesLoad` or `ParallelLoad` of a shape S; or complex ohms at the design frequency, then a
    resistance with a series coil or capacitor.  lower, upper : edges of the band as ratios to the design
    frequency, 0 < lower < upper; they broadcast with S.
    Raises OutOfRange, NotAnImpedance, NegativeResistance.
    Source: R. M. Fano, Theoretical limitations on the broadband matching of arbitrary impedances (1950), and
    H. W. Bode (1945), as in Pozar, 4th ed., section 5.9 (from memory). With Q the reactance over resistance of
    a series coil (resistance over reactance of a parallel capacitor), ln 1/|reflection| is at most
    pi / (Q (upper - lower)); of a series capacitor or parallel coil, at most pi / (Q (1/lower - 1/upper)).

    >>> round(reflection_limit(SeriesLoad(50, inductive_reactance=150), 0.9, 1.1), 4)
    0.0053
    """
    low, high, growing, falling = broadcast(*_band(lower, upper), *_quality_factors(load))
    used = np.maximum(_product(growing, high - low), _product(falling, 1 / low - 1 / high))
    with np.errstate(divide="ignore"):
        return plain(np.exp(-np.pi / used))


def bandwidth_limit(load: ReactiveLoad, swr: ArrayLike = 2.0) -> Real:
    """The widest band for an SWR that any lossless network can have, over its (geometric) middle.

    load : as in `reflection_limit`, of shape S; the design frequency is the middle of the band.
    swr : the largest in the band, > 1, broadcasts with S.
    Returns upper minus lower edge as ratios to the design frequency; inf for a load without reactance.
    Raises OutOfRange, NotAnImpedance, NegativeResistance.
    Source: as for `reflection_limit`, solved for the width: pi / (Q ln 1/|reflection|).

    >>> round(bandwidth_limit(50 + 150j), 3)
    0.953
    """
    growing, falling, allowed = broadcast(*_quality_factors(load), _allowed(swr))
    with np.errstate(divide="ignore", over="ignore"):
        return plain(allowed / np.maximum(growing, falling))


def share_of_limit(network: MatchingNetwork, swr: ArrayLike = 2.0, load: ReactiveLoad | None = None) -> Real:
    """How much of what the load allows a network makes use of, in its band around the design frequency.

    network : any without loss, of shape S.  swr : the largest in the band, > 1, broadcasts with S.
    load : as in `reflection_limit`; by default the network's own, as a series coil or capacitor.
    Returns 0 to 1: the band's share of the widest that begins or ends where it does. 0 where there is no band
    or the load has no reactance.
    Raises OutOfRange, NotAnImpedance, NegativeResistance, NotANetwork.
    Source: `bandwidth` for the band, `reflection_limit` for what is allowed.

    >>> from core.stubs import single_stub
    >>> [round(share_of_limit(network), 2) for network in single_stub(60 - 80j, 50)]
    [0.16, 0.05]
    """
    model = _model(one_network(network).load_impedance if load is None else load)
    band = bandwidth(network, swr, model)
    lower = np.maximum(np.asarray(band.lower), band.searched[0])
    upper = np.minimum(np.asarray(band.upper), band.searched[1])
    lower, upper, growing, falling, allowed = broadcast(lower, upper, *_quality_factors(model), _allowed(swr))
    used = np.maximum(_product(growing, upper - lower), _product(falling, 1 / lower - 1 / upper))
    return plain(np.where(np.isnan(used), 0.0, used / allowed))


def _quality_factors(load: ReactiveLoad) -> tuple[Array, Array]:
    """Of the part whose Q grows with frequency (series coil, parallel capacitor) and of the one whose falls."""
    model = _model(load)
    resistance, coil, capacitor = (
        np.asarray(value, dtype=float)
        for value in (model.resistance, model.inductive_reactance, model.capacitive_reactance)
    )
    if isinstance(model, SeriesLoad):
        return _quotient(coil, resistance), _quotient(capacitor, resistance)
    return _quotient(resistance, capacitor), _quotient(resistance, coil)


def _model(load: ReactiveLoad) -> SeriesLoad | ParallelLoad:
    if isinstance(load, SeriesLoad | ParallelLoad):
        return load
    if isinstance(load, Load):
        raise NotAnImpedance(
            "The limit is known for a load of parts: a SeriesLoad, a ParallelLoad or an impedance.",
            value=load,
        )
    return SeriesLoad.of(load)


def _allowed(swr: ArrayLike) -> Array:
    """pi over ln 1/|reflection| at this SWR: the largest Q times width of a band."""
    limit = real_in_range(swr, "limit of the standing-wave ratio", "such as 2", above=1.0)
    return -np.pi / np.log(reflection_from_swr(limit))


def _band(lower: ArrayLike, upper: ArrayLike) -> tuple[Array, Array]:
    low = real_in_range(lower, "lower edge of the band", "over the design frequency, such as 0.9", above=0.0)
    high = real_in_range(upper, "upper edge of the band", "over the design frequency, such as 1.1", above=0.0)
    low, high = broadcast(low, high)
    real_in_range(high - low, "band's width", "the upper edge less the lower", above=0.0)
    return low, high


def _quotient(reactive: Array, real: Array) -> Array:
    """A quality factor: 0 without a reactive part, inf for one that takes no power."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where((reactive == 0) | np.isinf(real), 0.0, reactive / real)


def _product(quality: Array, width: Array) -> Array:
    return np.where(quality == 0, 0.0, quality * width)
