"""A source of any impedance: what it loses by a mismatch, and networks that end at it instead of a line.

A source gives all it has where it sees the conjugate of its own impedance. How far from that a network is,
the reflection of power waves tells: its square is the part of the available power that is not taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import OPEN_CIRCUIT, Complex, broadcast, common_shape, plain, store
from core.checks import Array, passive_impedance
from core.errors import NotAnImpedance
from core.network import Element, MatchingNetwork, impedance_state
from core.readable import Rows, amount

NO_SOURCE_POWER = (
    "The source impedance must have a resistance above zero and be finite, not {:g}: such as 50+10j."
)
ADDS_NOTHING = "The load is the conjugate of the source already; what is shown adds nothing."


def source_of(source_impedance: ArrayLike) -> Array:
    """The impedance of a source as a complex array: of positive resistance, finite.

    Raises NotAnImpedance, NegativeResistance."""
    source = passive_impedance(source_impedance, "source impedance")
    wrong = ~np.isfinite(source) | ~(source.real > 1 / OPEN_CIRCUIT)
    if np.any(wrong):
        raise NotAnImpedance(NO_SOURCE_POWER.format(source[wrong][0]), value=source_impedance)
    return source


def power_reflection(load_impedance: ArrayLike, source_impedance: ArrayLike) -> Complex:
    """Reflection of power waves between a source and a load: (Z - Zs*) / (Z + Zs).

    load_impedance : complex ohms, any shape, resistance >= 0; inf is an open circuit and gives +1.
    source_impedance : complex ohms, resistance > 0, broadcasts with the load.
    Returns a complex number or array, |reflection| <= 1; 1 - |reflection|² is the part of the source's
    available power that the load takes, all of it where the load is the conjugate of the source.
    Raises NotAnImpedance, NegativeResistance.
    Source: K. Kurokawa, Power waves and the scattering matrix, IEEE Trans. MTT 13 (1965), eq. 2 and 13 (from
    memory).

    >>> power_reflection(50 - 10j, 50 + 10j)
    0j
    """
    source, *load = broadcast(source_of(source_impedance), *impedance_state(load_impedance))
    voltage, current = load
    return plain((voltage - np.conj(source) * current) / (voltage + source * current))


@dataclass(frozen=True)
class ConjugateMatch(MatchingNetwork):
    """A network between a load and a source of any impedance: reflections are those of power waves.

    line_impedance : real ohms, of the lines in the network; where there are none, the source's resistance.
    source_impedance : complex ohms, the same at every frequency.

    >>> network = ConjugateMatch(50, 50, (), 50 + 10j)
    >>> network
    ConjugateMatch(load: 50 ohm; matched to a source of: 50+10j ohm)
    >>> round(1 - abs(network.input_reflection()) ** 2, 4)
    0.9901
    """

    source_impedance: Any

    def __post_init__(self) -> None:
        store(self, source_impedance=source_of(self.source_impedance))
        super().__post_init__()

    @property
    def shape(self) -> tuple[int, ...]:
        """The shape S of the arrays in it, the source's too."""
        return common_shape(super().shape, np.shape(self.source_impedance))

    @property
    def generator_impedance(self) -> Complex:
        """Ohms of the source, whose available power is meant."""
        return self.source_impedance

    def path(self, points: int = 61) -> Iterator[Array]:
        """Way over the chart of the network's lines, for a network of scalars; it ends at the conjugate of
        the source, not at the chart's centre."""
        return MatchingNetwork(self.load_impedance, self.line_impedance, self.elements).path(points)

    def _changed(self, load: Any, line: Any, elements: tuple[Element, ...]) -> ConjugateMatch:
        """The same source before the other form."""
        source, more = np.asarray(self.source_impedance), np.ndim(line) - np.ndim(self.line_impedance)
        return ConjugateMatch(load, line, elements, plain(source.reshape(source.shape + (1,) * more)))

    def _rows(self) -> Rows:
        return [*super()._rows()[:-1], ("matched to a source of", amount(self.source_impedance, "ohm"))]
