"""Matching with two lumped parts of finite quality factor: matched with their loss, not in spite of it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, quotient
from core.checks import Array, passive_impedance
from core.l_between import SAME, ConjugateLNetwork, distinct
from core.lossy_parts import LossyPart, quality_factor
from core.power import power_flow
from core.ranges import real_in_range
from core.solutions import Solutions, sentences
from core.source import source_of

TAKES_NO_POWER = (
    "This load takes no power: what matches is the parts' own loss, and nothing reaches the load."
)
NO_NETWORK = "With parts of these quality factors no two of them match this load to this source."


@dataclass(frozen=True)
class LossyLNetwork(ConjugateLNetwork):
    """An L network of parts with loss, matched with that loss."""

    elements: tuple[LossyPart, LossyPart]

    @property
    def efficiency(self) -> Real:
        """Of the power that the source gives, the part that reaches the load, 0 to 1."""
        return power_flow(self).efficiency

    @property
    def loss_db(self) -> Real:
        """Lost in the parts, decibels >= 0; inf where nothing reaches the load."""
        with np.errstate(divide="ignore"):
            return plain(-10 * np.log10(self.efficiency) + 0.0)


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def lossy_l_network(
    load_impedance: ArrayLike,
    source_impedance: ArrayLike,
    inductor_quality: ArrayLike,
    capacitor_quality: ArrayLike = np.inf,
    frequency: ArrayLike | None = None,
) -> Solutions[LossyLNetwork]:
    """Every match of a load to a source with one shunt and one series part of finite quality factors.

    load_impedance : complex ohms, any shape; inf is an open circuit.  source_impedance : complex ohms,
    resistance > 0.  inductor_quality, capacitor_quality : quality factors > 0; inf for no loss.
    frequency : hertz > 0, for the parts' values. All broadcast.

    Returns `Solutions` of `LossyLNetwork`: all pairs of an inductor or a capacitor (or no part) in either
    place, matched with their loss included; first those with the shunt part nearer the load, and of either
    order the most efficient first. A load that takes no power may be matched
    too, by the parts' own loss, which `.reason` then says; none, with the reason, where no pair matches. For
    arrays as many as the load with the most has, nan where there are fewer.
    Raises NotAnImpedance, NegativeResistance, OutOfRange.
    Source: none needed beyond the parts' definition: (w + u a)(aim - v b) = 1 in the sizes u, v >= 0 of the
    two parts, of directions a and b; its two real equations are one quadratic.

    >>> best = lossy_l_network(1000, 50, 100, 400)[0]
    >>> round(best.efficiency, 4), round(best.loss_db, 3)
    (0.947, 0.236)
    """
    source = source_of(source_impedance)
    given = [passive_impedance(load_impedance), source]
    given += [
        quality_factor(inductor_quality, "inductor"),
        quality_factor(capacitor_quality, "capacitor"),
    ]
    if frequency is not None:
        given.append(real_in_range(frequency, "frequency", "in hertz", above=0.0))
    spread = broadcast(*given)
    flat = [np.atleast_1d(value).ravel() for value in spread]
    networks = [
        network for shunt_first in (True, False) for network in _most_efficient_first(flat, shunt_first)
    ]
    return _solutions(networks, spread[0])


def _most_efficient_first(given: list[Array], shunt_first: bool) -> list[LossyLNetwork]:
    """The networks of one order of parts, over a flat array of loads: as many as any of the loads has."""
    pairs = _every_pair(given, shunt_first)
    share = np.array([_network(given, pair, shunt_first).efficiency for pair in pairs])
    ranked = np.argsort(np.round(-share, 12), axis=0, kind="stable")  # nan last; equal but for rounding stay
    pairs = np.take_along_axis(pairs, ranked[:, None, :], axis=0)
    most = int(np.sum(~np.isnan(pairs[:, 0]), axis=0).max(initial=0))
    return [_network(given, pair, shunt_first) for pair in pairs[:most]]


def _every_pair(given: list[Array], shunt_first: bool) -> Array:
    """The reactances of the near part and of the far one, shape (pairs, 2, loads), each pair once; nan where
    there is none."""
    load, source, inductor, capacitor = given[:4]
    ohms, one = source.real, np.ones(load.shape)
    open_circuit, aim = np.isinf(load.real), np.conj(source) / ohms
    z = np.where(open_circuit, np.nan, np.where(open_circuit, 1.0, load) / ohms)
    y = np.where(open_circuit, 0.0, quotient(one, z))
    w, goal = (np.where(np.isinf(y.real), np.nan, y), aim) if shunt_first else (z, quotient(one, aim))
    found: list[Array] = []
    for near, far in product((1, -1), repeat=2):
        a = _direction(near, inductor, capacitor, shunt_first)
        b = _direction(far, inductor, capacitor, not shunt_first)
        for u, v in _sizes(w, goal, a, b):
            pair = ohms * [_reactance(u, near, shunt_first, a), _reactance(v, far, not shunt_first, b)]
            found.append(np.where(_met_before(pair, found), np.nan, pair))
    return np.array(found)


def _met_before(pair: Array, found: list[Array]) -> Array:
    """For which of the loads this pair was found already, from another pair of signs."""
    met = np.zeros(pair.shape[1:], dtype=bool)
    for other in found:
        met |= np.all(np.isclose(pair, other, rtol=SAME, atol=0.0), axis=0)
    return met


def _network(given: list[Array], pair: Array, shunt_first: bool) -> LossyLNetwork:
    load, source, inductor, capacitor, *frequency = given
    hertz = frequency[0] if frequency else None
    places = ("shunt", "series") if shunt_first else ("series", "shunt")
    parts = tuple(
        LossyPart(reactance, place, hertz, np.where(reactance > 0, inductor, capacitor))
        for reactance, place in zip(pair, places, strict=True)
    )
    return LossyLNetwork(load, source.real, (parts[0], parts[1]), source)


def _solutions(networks: list[LossyLNetwork], load: Array) -> Solutions[LossyLNetwork]:
    """In the shape of the loads; for a scalar a single part is named once, not in both orders."""
    there = [~np.isnan(np.asarray(network.elements[0].reactance)) for network in networks]
    none = ~np.any(there, axis=0) if there else np.ones(max(load.size, 1), dtype=bool)
    powerless = np.ravel(np.isinf(load.real) | (load.real == 0))
    reason = sentences([(TAKES_NO_POWER, powerless & ~none), (NO_NETWORK, none)])
    if load.ndim:
        return Solutions(tuple(_shaped(network, load.shape) for network in networks), reason)
    return Solutions(tuple(distinct(_shaped(network, ()) for network in networks)), reason)


def _shaped(network: LossyLNetwork, shape: tuple[int, ...]) -> LossyLNetwork:
    def form(value: Any) -> Any:
        return None if value is None else plain(np.reshape(value, shape))

    near, far = (
        LossyPart(form(part.reactance), part.placement, form(part.frequency), form(part.quality))
        for part in network.elements
        if isinstance(part, LossyPart)
    )
    load, ohms, source = map(form, (network.load_impedance, network.line_impedance, network.source_impedance))
    return LossyLNetwork(load, ohms, (near, far), source)


def _direction(sign: int, inductor: Array, capacitor: Array, shunt: bool) -> Array:
    """Impedance of an inductor (+1) or capacitor (-1) of one ohm; for a shunt part its conjugate, which has
    the direction of its admittance."""
    loss = 1 / (inductor if sign > 0 else capacitor)
    return loss + 1j * (-sign if shunt else sign)


def _reactance(size: Array, sign: int, shunt: bool, direction: Array) -> Array:
    """Of a part of this size: an admittance for a shunt part, 0 of which is no part."""
    if not shunt:
        return sign * size
    with np.errstate(divide="ignore"):
        return np.where(size == 0, np.inf, sign / (size * np.abs(direction) ** 2))


def _sizes(w: Array, aim: Array, a: Array, b: Array) -> list[tuple[Array, Array]]:
    """Both solutions u, v >= 0 of (w + u a)(aim - v b) = 1; nan where there is none.

    Divided by a b, the product u v stands alone and real: the imaginary part gives v from u (or u from v,
    whichever loses no digits), the real part then is a quadratic."""
    c, p, q = (w * aim - 1) / (a * b), aim / b, -w / a
    # Im: c'' + u p'' + v q'' = 0; Re: c' + u p' + v q' - u v = 0.
    found = []
    for root in _roots(p.imag, c.imag + p.real * q.imag - p.imag * q.real, c.real * q.imag - c.imag * q.real):
        from_real = -(c.real + root * p.real) / np.where(q.real == root, np.nan, q.real - root)
        from_imaginary = -(c.imag + root * p.imag) / np.where(q.imag == 0, np.nan, q.imag)
        other = np.where(np.abs(q.imag) > np.abs(q.real - root), from_imaginary, from_real)
        found.append(_not_below_zero(root, other, np.abs(w / a), np.abs(aim / b)))
    return found


def _not_below_zero(u: Array, v: Array, near_scale: Array, far_scale: Array) -> tuple[Array, Array]:
    """Both sizes where neither is negative; what is negative by rounding only is zero."""
    u = np.where(np.abs(u) <= 1e-13 * near_scale, 0.0, u)
    v = np.where(np.abs(v) <= 1e-13 * far_scale, 0.0, v)
    there = (u >= 0) & (v >= 0) & np.isfinite(u) & np.isfinite(v)
    return np.where(there, u, np.nan), np.where(there, v, np.nan)


def _roots(square: Array, linear: Array, constant: Array) -> list[Array]:
    """Both real roots of a quadratic, equal for a double one; nan where there are none."""
    inner = linear * linear - 4 * square * constant
    inner = np.where(np.abs(inner) <= 1e-14 * (linear**2 + np.abs(4 * square * constant)), 0.0, inner)
    half = -(linear + np.copysign(np.sqrt(np.where(inner < 0, np.nan, inner)), linear)) / 2
    with np.errstate(divide="ignore", invalid="ignore"):
        return [half / square, np.where(half == 0, half, constant / half)]
