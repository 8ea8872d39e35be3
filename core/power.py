"""Where the power goes: reflected, lost in the lines, delivered to the load.

A voltage or current is a phasor whose magnitude is the crest value, so that power is half of voltage times
conjugate current. The arrays of a network have a shape S, frequencies a shape F.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array
from core.elements import State, _spread
from core.line import _plain
from core.network import MatchingNetwork, impedance_state
from core.readable import Readable, Rows, percent


@dataclass(frozen=True)
class PowerFlow(Readable):
    """What becomes of the power that a generator matched to the line has to give. Fractions, of shape S + F.

    accepted : of the available power, what is not reflected.  efficiency : of the accepted power, what
    reaches the load; 0 where the load takes none.  lost : of the accepted power, what each element turns to
    heat, in order."""

    accepted: Any
    efficiency: Any
    lost: tuple[Any, ...]

    @property
    def delivered(self) -> Any:
        """Of the available power, what reaches the load."""
        return self.accepted * self.efficiency

    @property
    def loss_db(self) -> Any:
        """Available over delivered power in decibels, >= 0; inf where nothing is delivered."""
        with np.errstate(divide="ignore"):
            return _plain(-10.0 * np.log10(self.delivered) + 0.0)

    def _rows(self) -> Rows:
        lost = ", ".join(percent(share) for share in self.lost)
        rows = ("accepted", self.accepted), ("efficiency", self.efficiency), ("delivered", self.delivered)
        return [*((label, percent(share)) for label, share in rows), ("lost in each element", lost)]


def power_flow(
    network: MatchingNetwork, frequency_ratio: ArrayLike = 1.0, load_impedance: ArrayLike | None = None
) -> PowerFlow:
    """Reflected, lost and delivered power of a network.

    network : any, of shape S.  frequency_ratio : frequency over design frequency, shape F.
    load_impedance : complex ohms at those frequencies; by default the design load.
    What is accepted is the sum of what is delivered and lost, so that energy balances to rounding.
    Raises NotAnImpedance, NegativeResistance.  Source: real part of voltage times conjugate current in the
    load and in each stub, and of each wave on a line what it loses; for one mismatched lossy line it is
    Pozar, 4th ed., eq. 2.92 to 2.94 (from memory).

    >>> from core.elements import Section
    >>> cable = MatchingNetwork(50, 50, (Section(10.0, 50, attenuation=0.01),))
    >>> power_flow(cable)
    PowerFlow(accepted: 100 %; efficiency: 81.87 %; delivered: 81.87 %; lost in each element: 18.13 %)
    """
    ratio = np.asarray(frequency_ratio, dtype=float)
    load = None if load_impedance is None else impedance_state(load_impedance)
    states, factors = true_states(network, ratio, load)
    sizes = [np.abs(factor) ** 2 for factor in factors]
    delivered = sizes[0] * power_in(states[0])
    heat = [
        size * element.heat(state, ratio)
        for element, size, state in zip(network.elements, sizes[1:], states[:-1], strict=True)
    ]
    taken = np.asarray(delivered + sum(heat))
    whole = np.where(taken == 0, 1.0, taken)
    accepted = taken / _available(states[-1], _spread(network.line_impedance, ratio))
    return PowerFlow(
        _plain(accepted), _plain(delivered / whole), tuple(_plain(lost / whole) for lost in heat)
    )


def _available(state: State, line: Array) -> Array:
    """Watts of the wave that comes from a generator matched to the line."""
    voltage, current = state
    return np.abs(voltage + line * current) ** 2 / (8 * line)


def true_states(
    network: MatchingNetwork, frequency_ratio: ArrayLike = 1.0, load: State | None = None
) -> tuple[list[State], list[Array]]:
    """The evaluator's states, load first, and the factors that make them voltages and currents of one
    situation.

    The factor of the input state, the last, is one."""
    ratio = np.asarray(frequency_ratio, dtype=float)
    states = list(network.states(ratio, load))
    factors: list[Array] = [np.ones(np.shape(states[-1][0]))]
    for element in reversed(network.elements):
        factors.insert(0, factors[0] * element.factor(ratio))
    return states, factors


def power_in(state: State) -> Array:
    """Watts that flow toward the load, from crest volts and amperes."""
    voltage, current = state
    return 0.5 * np.real(voltage * np.conj(current))
