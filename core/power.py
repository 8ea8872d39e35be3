"""Where the power goes: reflected, lost in the lines, delivered to the load.

A voltage or current is a phasor whose magnitude is the crest value, so that power is half of voltage times
conjugate current. The arrays of a network have a shape S, frequencies a shape F.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, common_shape, plain, spread
from core.checks import Array
from core.elements import State
from core.network import MatchingNetwork, impedance_state, one_network
from core.ranges import frequency_ratios
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
    def delivered(self) -> Real:
        """Of the available power, what reaches the load."""
        return self.accepted * self.efficiency

    @property
    def loss_db(self) -> Real:
        """Available over delivered power in decibels, >= 0; inf where nothing is delivered."""
        with np.errstate(divide="ignore"):
            return plain(-10.0 * np.log10(self.delivered) + 0.0)

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
    Raises OutOfRange, NotANetwork, NotAnImpedance, NegativeResistance, ShapesDiffer.
    Source: real part of voltage times conjugate current in the load and in each branch, and of each wave on a
    line what it loses; for one mismatched lossy line it is Pozar, 4th ed., eq. 2.92 to 2.94 (from memory).

    >>> from core.elements import Section
    >>> cable = MatchingNetwork(50, 50, (Section(10.0, 50, attenuation=0.01),))
    >>> power_flow(cable)
    PowerFlow(accepted: 100 %; efficiency: 81.87 %; delivered: 81.87 %; lost in each element: 18.13 %)
    """
    network, ratio = one_network(network), np.asarray(frequency_ratios(frequency_ratio))
    load = None if load_impedance is None else impedance_state(load_impedance)
    common_shape(network.shape + ratio.shape, () if load is None else load[0].shape)
    states, factors = true_states(network, ratio, load)
    own, sent = spread(network.generator_impedance, ratio), network.waves(states[-1], ratio)[1]
    with np.errstate(invalid="ignore"):  # nan marks "no solution" in an array of networks
        scales = [factor / sent for factor in factors]  # to a generator whose own wave is one
    delivered = np.abs(scales[0]) ** 2 * power_in(states[0])  # of a reactance exactly nothing
    heat = [
        element.heat(_scaled(state, scale), ratio)
        for element, state, scale in zip(network.elements, states[:-1], scales[1:], strict=True)
    ]
    taken = np.asarray(delivered + sum(heat))
    whole = np.where(taken == 0, 1.0, taken)
    lost = tuple(plain(power / whole) for power in heat)
    return PowerFlow(plain(8 * np.real(own) * taken), plain(delivered / whole), lost)


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


def _scaled(state: State, scale: Array) -> State:
    voltage, current = state
    return voltage * scale, current * scale


def power_in(state: State) -> Array:
    """Watts that flow toward the load, from crest volts and amperes."""
    voltage, current = state
    return 0.5 * np.real(voltage * np.conj(current))
