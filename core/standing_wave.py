"""Voltage and current on every piece of line of a network, and their peaks.

Caution: on a mismatched line and at the open end of a stub the voltage is high even at modest power. Switch
off before touching, and keep to local rules and limits. What is computed here is ideal and for study.

Voltages and currents are phasors whose magnitude is the crest (peak) value; for RMS values divide by the
square root of two. The arrays of a network have a shape S.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, common_shape, plain, spread
from core.checks import Array, whole_number
from core.elements import Section, State, is_line
from core.line import swr
from core.network import MatchingNetwork, one_network
from core.power import power_in, true_states
from core.ranges import real_in_range
from core.readable import Readable, Rows, amount, wavelengths


@dataclass(frozen=True)
class StandingWave(Readable):
    """Voltage and current along one piece of line, crest values in volts and amperes, at the design
    frequency.

    element : the section or stub.  distance : wavelengths from its load side, or from its end for a stub,
    shape S + (points,).  voltage, current : complex, of the same shape.  peak_voltage, peak_current : the
    largest magnitudes anywhere on the piece, of shape S, exact and not only at the points."""

    element: Any
    distance: Any
    voltage: Any
    current: Any
    peak_voltage: Any
    peak_current: Any

    @property
    def swr(self) -> Real:
        """The standing-wave ratio on the piece, of shape S: with loss, where the piece starts, at its highest."""
        voltage, drop = self.voltage[..., 0], self.element.impedance * self.current[..., 0]
        with np.errstate(invalid="ignore"):
            return swr(np.abs(voltage - drop) / np.abs(voltage + drop))

    def _rows(self) -> Rows:
        name = f"{self.element.placement} stub" if hasattr(self.element, "placement") else "line"
        peaks = (
            ("peak voltage", amount(self.peak_voltage, "V")),
            ("peak current", amount(self.peak_current, "A")),
        )
        return [(name, wavelengths(self.element.length)), *peaks]


def standing_waves(
    network: MatchingNetwork, power: ArrayLike = 1.0, points: int = 181
) -> tuple[StandingWave, ...]:
    """Voltage and current along every section and stub, load first, for a power into the network's input.

    network : any, of shape S; for another frequency give `network.detuned(ratio)`.
    power : watts > 0 that the network accepts, broadcasts with S.  points : along each piece, both ends
    included. Where the network accepts no power the voltages are nan: none can be put in.
    Raises OutOfRange, NotANetwork, ShapesDiffer.
    Source: the two travelling waves, Pozar, 4th ed., eq. 2.85 (from memory).

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> line, stub = standing_waves(near, power=10)
    >>> stub
    StandingWave(shunt stub: 0.0950 wavelengths; peak voltage: 31.62 V; peak current: 1.125 A)
    """
    count = whole_number(points, "number of points", at_least=2)
    states, factors = _driven(network, power)
    cuts = zip(network.elements, states, factors[1:], strict=False)
    return tuple(
        _standing_wave(element, _start(element, state, factor), count)
        for element, state, factor in cuts
        if is_line(element)
    )


def waves_along(network: MatchingNetwork, points: int = 181, feed: float = 0.5) -> tuple[StandingWave, ...]:
    """Voltage and current along every section and stub, load first, and then along the line to the generator.

    The generator is matched to its line, and the wave that it sends has a crest of one volt: what is seen is how
    much more or less there is anywhere, also where no power is accepted.
    network : any, of shape S.  points : along each piece, both ends included.  feed : wavelengths of the line
    toward the generator, > 0, as the last piece.  Raises OutOfRange, NotALength, NotANetwork.
    Source: as `standing_waves`; on a line without loss |1 + reflection exp(-j 4 pi d)|.

    >>> waves_along(MatchingNetwork(100, 50, ()), points=3)[-1].voltage.real.round(3).tolist()
    [1.333, 0.0, -1.333]
    """
    count = whole_number(points, "number of points", at_least=2)
    network = one_network(network)
    own = spread(network.line_impedance, np.asarray(1.0))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):  # nan where nothing can be sent
        states, factors = true_states(network)
        sent = (states[-1][0] + own * states[-1][1]) / 2
        pieces = [
            (element, _start(element, state, factor / sent))
            for element, state, factor in zip(network.elements, states, factors[1:], strict=False)
            if is_line(element)
        ]
        line = Section(feed, network.line_impedance), (states[-1][0] / sent, states[-1][1] / sent)
        return tuple(_standing_wave(element, start, count) for element, start in (*pieces, line))


def peak_voltage(network: MatchingNetwork, power: ArrayLike = 1.0) -> Real:
    """Largest crest voltage anywhere, at a load, a junction or on a line, in volts, for a power into the
    input.

    network : any, of shape S.  power : watts > 0 accepted, broadcasts with S.  Returns that shape, nan where
    no power is accepted.  It grows with the square root of the power.
    Raises OutOfRange, NotANetwork, ShapesDiffer. Source: as
    `standing_waves`, at its ends and maxima.

    >>> round(peak_voltage(MatchingNetwork(100, 50, ()), power=50), 6)
    100.0
    """
    states, factors = _driven(network, power)
    cuts = [np.abs(factor * state[0]) for factor, state in zip(factors, states, strict=True)]
    on_lines = [wave.peak_voltage for wave in standing_waves(network, power, points=2)]
    return plain(np.max(broadcast(*cuts, *on_lines), axis=0))


def _driven(network: MatchingNetwork, power: ArrayLike) -> tuple[list[State], list[Array]]:
    """States and factors as `true_states`, for this power into the input."""
    network, watts = one_network(network), real_in_range(power, "power", "in watts", above=0, up_to=1e100)
    common_shape(network.shape, watts.shape)
    states, factors = true_states(network)
    per_unit = power_in(states[-1])
    taken = per_unit > 0
    drive = np.where(taken, np.sqrt(watts / np.where(taken, per_unit, 1.0)), np.nan)
    return states, [factor * drive for factor in factors]


def _start(element: Any, state: State, factor: Array) -> State:
    """Voltage and current where the piece starts: at its load side, or at the end of a stub.

    `state` is that before the element, `factor` that after it. A stub's own current (shunt) or voltage
    (series) is the state before it times what the evaluator multiplied through by, and that cancels what its
    length did."""
    if not hasattr(element, "placement"):
        return factor * state[0], factor * state[1]
    drive = factor * state[element.placement == "series"]
    nothing = np.zeros_like(drive)
    return (nothing, drive) if element.end == "short" else (drive * element.impedance, nothing)


def _standing_wave(element: Any, start: State, points: int) -> StandingWave:
    voltage, current, length, impedance, loss = broadcast(
        *start, element.length, element.impedance, element.attenuation
    )
    forward, backward = (voltage + impedance * current) / 2, (voltage - impedance * current) / 2
    distance = length[..., None] * np.linspace(0.0, 1.0, points)
    growth = np.exp((loss[..., None] + 2j * np.pi) * distance)
    growth = np.where(np.isnan(growth), 1.0, growth)  # no line, and no waves on it
    out, back = forward[..., None] * growth, backward[..., None] / growth
    peaks = (
        _peak(forward, backward, length, loss),
        _peak(forward, -backward, length, loss) / np.abs(impedance),
    )
    return StandingWave(
        element, distance, out + back, (out - back) / impedance[..., None], *map(plain, peaks)
    )


def _peak(forward: Array, backward: Array, length: Array, loss: Array) -> Array:
    """Largest |forward e^(gamma s) + backward e^(-gamma s)| for s from 0 to the length.

    Toward the generator each maximum is higher than the one before, so that only the ends and the last
    maximum count. A maximum is where sin psi = loss (u - 1/u) / 4 pi, with psi = 4 pi s - angle and u the
    ratio of the two waves' powers as they are there, on the rising side: solved by repeated substitution,
    which converges because the right side hardly changes over a piece of line that is not all loss."""
    with np.errstate(divide="ignore", invalid="ignore"):
        size = np.where(forward == 0, 0.0, np.abs(backward) / np.abs(forward))
        angle = np.where(size == 0, 0.0, np.angle(backward) - np.angle(forward))
    last = np.floor((4 * np.pi * length - angle) / (2 * np.pi))
    places = [np.zeros_like(length), length]
    for turn in (last, last - 1):
        place = _maximum(size, angle + 2 * np.pi * turn, loss)
        places.append(np.clip(place, 0.0, length))
    gamma = loss + 2j * np.pi
    sizes = [np.abs(forward * np.exp(gamma * place) + backward * np.exp(-gamma * place)) for place in places]
    return np.max(sizes, axis=0)


def _maximum(size: Array, phase: Array, loss: Array) -> Array:
    delay = np.zeros_like(phase)
    for _ in range(30 if np.any(loss) else 0):
        grown = np.exp(2 * loss * (phase + delay) / (4 * np.pi))
        with np.errstate(divide="ignore"):
            slope = loss * (grown / size - size / grown) / (4 * np.pi)
        delay = np.arcsin(np.clip(slope, -1.0, 1.0))
    return (phase + delay) / (4 * np.pi)
