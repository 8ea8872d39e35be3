"""How a load changes with frequency: constant, or a resistance with coil and capacitor; for a table of samples see
`core.sampled_load`.

Reactances are in ohms at the design frequency, frequencies are ratios to it. A load may hold arrays of a
shape S; at frequencies of a shape F it has the shape S + F. Like a stub, a load is seen as a numerator and a
denominator, so that neither zero frequency nor an open circuit divides by zero.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import OPEN_CIRCUIT, Complex, broadcast, common_shape, plain, quotient, spread, store
from core.checks import Array, passive_impedance
from core.elements import State
from core.errors import NotAnImpedance
from core.network import impedance_state
from core.ranges import frequency_ratios, real_in_range
from core.readable import Readable, Rows, amount

PARTS = ("resistance", "inductive_reactance", "capacitive_reactance")


class Load(Readable):
    """What every model of a load offers."""

    @property
    def limits(self) -> tuple[float, float]:
        """The frequency ratios between which the model says anything."""
        return 0.0, np.inf

    @property
    def corners(self) -> Array:
        """Frequency ratios at which the impedance is not smooth."""
        return np.empty(0)

    def state(self, ratio: Array) -> State:
        """Voltage and current at the load, up to a factor: their quotient is the impedance.  Shape S + F."""
        raise NotImplementedError

    def detuned(self, ratio: ArrayLike) -> Load:
        """The load as it is at this ratio, as the same kind of load; the ratio broadcasts with S."""
        raise NotImplementedError

    def at(self, frequency_ratio: ArrayLike) -> Complex:
        """Impedance in ohms at these ratios to the design frequency, >= 0, shape F; inf is an open circuit.

        Returns the shape S + F, ready for `MatchingNetwork.input_reflection`.  Raises OutOfRange."""
        ratio = np.asarray(frequency_ratios(frequency_ratio))
        voltage, current = broadcast(*self.state(ratio))
        return plain(quotient(voltage, current))


@dataclass(frozen=True)
class ConstantLoad(Load):
    """The same impedance at every frequency.

    impedance : complex ohms, resistance >= 0, any shape; inf is an open circuit.
    Raises NotAnImpedance, NegativeResistance.

    >>> ConstantLoad(60 - 80j)
    ConstantLoad(impedance: 60-80j ohm)
    """

    impedance: Any

    def __post_init__(self) -> None:
        store(self, impedance=passive_impedance(self.impedance))

    def state(self, ratio: Array) -> State:
        voltage, current = impedance_state(self.impedance)
        return spread(voltage, ratio), spread(current, ratio)

    def detuned(self, ratio: ArrayLike) -> ConstantLoad:
        return self

    def _rows(self) -> Rows:
        return [("impedance", amount(self.impedance, "ohm"))]


@dataclass(frozen=True)
class LumpedLoad(Load):
    """What `SeriesLoad` and `ParallelLoad` share: a resistance, a coil and a capacitor, in ohms at design."""

    resistance: Any
    inductive_reactance: Any
    capacitive_reactance: Any

    def _check(self, **limits: Any) -> None:
        """Parts within limits, of one shape; text and lists become numbers."""
        parts = {
            name: real_in_range(getattr(self, name), name.replace("_", " "), "in ohms", **limits)
            for name in PARTS
        }
        common_shape(*(value.shape for value in parts.values()))
        store(self, **parts)

    def detuned(self, ratio: ArrayLike) -> LumpedLoad:
        times = frequency_ratios(ratio, above=0)
        common_shape(times.shape, *(np.shape(value) for _, value in self._parts()))
        coil, capacitor = np.asarray(self.inductive_reactance), np.asarray(self.capacitive_reactance)
        return replace(self, inductive_reactance=coil * times, capacitive_reactance=capacitor / times)

    def _parts(self) -> list[tuple[str, Any]]:
        return [(name.replace("_", " "), getattr(self, name)) for name in PARTS]

    def _rows(self) -> Rows:
        parts = [(name, np.asarray(value)) for name, value in self._parts()]
        present = [(name, value) for name, value in parts if np.any(np.isfinite(value) & (value > 0))]
        return [(name, amount(value, "ohm")) for name, value in present]


@dataclass(frozen=True)
class SeriesLoad(LumpedLoad):
    """A resistance with a coil, a capacitor or both in series. Ohms >= 0 at the design frequency, any shapes.

    inductive_reactance, capacitive_reactance : magnitudes; 0 where there is none.  Raises OutOfRange.

    >>> load = SeriesLoad(60, capacitive_reactance=80)
    >>> load, load.at(2.0)
    (SeriesLoad(resistance: 60 ohm; capacitive reactance: 80 ohm), (60-40j))
    """

    inductive_reactance: Any = 0.0
    capacitive_reactance: Any = 0.0

    def __post_init__(self) -> None:
        self._check(at_least=0, up_to=OPEN_CIRCUIT)

    @classmethod
    def of(cls, load_impedance: ArrayLike) -> SeriesLoad:
        """Resistance with a series coil or capacitor that has this impedance at the design frequency.

        Raises NotAnImpedance for an open circuit, which no such load is; NegativeResistance."""
        load = passive_impedance(load_impedance)
        if np.any(np.isinf(load.real)):
            raise NotAnImpedance("An open circuit has no resistance in series.", value=load_impedance)
        return cls(*map(plain, (load.real, np.maximum(load.imag, 0.0), np.maximum(-load.imag, 0.0))))

    @classmethod
    def from_components(
        cls,
        frequency: ArrayLike,
        resistance: ArrayLike,
        inductance: ArrayLike = 0.0,
        capacitance: ArrayLike = np.inf,
    ) -> SeriesLoad:
        """From henries and farads (inf: no capacitor) at a design frequency in hertz.  Raises OutOfRange."""
        return cls(resistance, *_reactances(frequency, inductance, capacitance))

    def state(self, ratio: Array) -> State:
        resistance, coil, capacitor = (spread(value, ratio) for _, value in self._parts())
        denominator = np.where(capacitor > 0, ratio, 1.0)
        return (resistance + 1j * coil * ratio) * denominator - 1j * capacitor, denominator


@dataclass(frozen=True)
class ParallelLoad(LumpedLoad):
    """A resistance with a coil, a capacitor or both across it. Ohms > 0 at the design frequency, any shapes.

    inductive_reactance, capacitive_reactance : magnitudes; inf where there is none, as for the resistance.
    Raises OutOfRange.

    >>> ParallelLoad(100, capacitive_reactance=100).at(1.0)
    (50-50j)
    """

    inductive_reactance: Any = np.inf
    capacitive_reactance: Any = np.inf

    def __post_init__(self) -> None:
        self._check(at_least=1 / OPEN_CIRCUIT, infinite=True)

    @classmethod
    def of(cls, load_impedance: ArrayLike) -> ParallelLoad:
        """Resistance with a coil or capacitor across it that has this impedance at the design frequency.

        Raises NotAnImpedance for a short circuit, which no such load is; NegativeResistance."""
        load = passive_impedance(load_impedance)
        if np.any(load == 0):
            raise NotAnImpedance("A short circuit has no resistance across it.", value=load_impedance)
        open_circuit = np.isinf(load.real)
        admittance = np.where(open_circuit, 0.0, quotient(1.0, np.where(open_circuit, 1.0, load)))
        parts = admittance.real, np.maximum(-admittance.imag, 0.0), np.maximum(admittance.imag, 0.0)
        return cls(*(plain(_reciprocal(part)) for part in parts))

    @classmethod
    def from_components(
        cls,
        frequency: ArrayLike,
        resistance: ArrayLike,
        inductance: ArrayLike = np.inf,
        capacitance: ArrayLike = 0.0,
    ) -> ParallelLoad:
        """From henries (inf: no coil) and farads at a design frequency in hertz.  Raises OutOfRange."""
        return cls(resistance, *_reactances(frequency, inductance, capacitance))

    def state(self, ratio: Array) -> State:
        conductance, coil, capacitor = (spread(_reciprocal(value), ratio) for _, value in self._parts())
        numerator = np.where(coil > 0, ratio, 1.0)
        return numerator, (conductance + 1j * capacitor * ratio) * numerator - 1j * coil


def _reactances(frequency: ArrayLike, inductance: ArrayLike, capacitance: ArrayLike) -> tuple[Any, Any]:
    turns, coil, capacitor = broadcast(
        2 * np.pi * real_in_range(frequency, "frequency", "in hertz", above=0, up_to=OPEN_CIRCUIT),
        real_in_range(inductance, "inductance", "in henries", at_least=0, infinite=True),
        real_in_range(capacitance, "capacitance", "in farads", at_least=0, infinite=True),
    )
    with np.errstate(over="ignore"):  # what is too large for a number is no coil, or no capacitor
        return plain(turns * coil), plain(_reciprocal(turns * capacitor))


def _reciprocal(value: ArrayLike) -> Array:
    """One over a number >= 0, where zero and infinity change places."""
    given = np.asarray(value, dtype=float)
    with np.errstate(over="ignore"):
        return np.where(given == 0, np.inf, 1 / np.where(given == 0, 1.0, given))
