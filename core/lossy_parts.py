"""Lumped parts of finite quality factor, and what a network loses in them.

A part of reactance X and quality factor Q is X in series with a resistance |X| / Q, which is the same at
every frequency.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, spread, store
from core.checks import Array
from core.elements import State
from core.lumped import LumpedPart
from core.network import MatchingNetwork, one_network
from core.ranges import real_in_range
from core.readable import Rows, amount


@dataclass(frozen=True)
class LossyPart(LumpedPart):
    """An inductor or a capacitor with the resistance |reactance| / quality in series.

    quality : quality factor at the design frequency, > 0; inf for a part without loss.  Raises OutOfRange,
    UnknownChoice.

    >>> LossyPart(50, "series", None, 100)
    LossyPart(series reactance: 50 ohm; quality: 100)
    """

    quality: Any = np.inf

    def __post_init__(self) -> None:
        super().__post_init__()
        quality = quality_factor(self.quality, "part's")
        broadcast(self.reactance, quality)
        store(self, quality=quality)

    @property
    def resistance(self) -> Real:
        """Ohms in series with the reactance, the same at every frequency; 0 where there is no part."""
        none = np.equal(self.kind, "none")
        return plain(np.where(none, 0.0, np.abs(np.where(none, 0.0, self.reactance)) / self.quality))

    def impedance_fraction(self, ratio: Array) -> State:
        numerator, denominator = super().impedance_fraction(ratio)
        return numerator + spread(self.resistance, ratio) * denominator, denominator

    def detuned(self, ratio: ArrayLike) -> LossyPart:
        changed = super().detuned(ratio)
        inductive = np.asarray(self.reactance, dtype=float) > 0
        quality = self.quality * np.where(inductive, np.asarray(ratio, dtype=float), 1 / np.asarray(ratio))
        return replace(self, reactance=changed.reactance, frequency=changed.frequency, quality=plain(quality))

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> LossyPart:
        changed = super().as_built(length_error, impedance_error, velocity_error)
        quality = plain(spread(self.quality, impedance_error))
        return replace(self, reactance=changed.reactance, frequency=changed.frequency, quality=quality)

    def _rows(self) -> Rows:
        return [*super()._rows(), ("quality", amount(self.quality))]


def with_part_quality(
    network: MatchingNetwork, inductor_quality: ArrayLike, capacitor_quality: ArrayLike = np.inf
) -> MatchingNetwork:
    """The same network with losses in its lumped parts: no longer an exact match; see `power_flow` for them.

    network : of shape S.  inductor_quality, capacitor_quality : quality factors > 0, inf for no loss, of
    shapes that broadcast with S.  Returns a network of the same kind; sections and stubs stay as they are.
    Raises OutOfRange, NotANetwork.  Source: the definition of the quality factor, reactance over series resistance.

    >>> from core.lumped import l_network
    >>> from core.power import power_flow
    >>> lossy = with_part_quality(l_network(1000, 50)[0], 50)
    >>> round(power_flow(lossy).efficiency, 3)
    0.92
    """
    inductors = quality_factor(inductor_quality, "inductor")
    capacitors = quality_factor(capacitor_quality, "capacitor")
    one_network(network)
    return replace(
        network,
        elements=tuple(
            _lossy(part, inductors, capacitors) if isinstance(part, LumpedPart) else part
            for part in network.elements
        ),
    )


def _lossy(part: LumpedPart, inductors: Array, capacitors: Array) -> LossyPart:
    reactance, inductors, capacitors = broadcast(part.reactance, inductors, capacitors)
    quality = np.where(reactance > 0, inductors, capacitors)
    return LossyPart(part.reactance, part.placement, part.frequency, plain(quality))


def quality_factor(value: ArrayLike, part: str) -> Array:
    """A quality factor as a float array, inf for no loss.  Raises OutOfRange unless above zero."""
    return real_in_range(value, f"{part} quality", "such as 100", above=0.0, infinite=True)
