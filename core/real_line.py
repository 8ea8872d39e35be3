"""Lines as they are: loss and phase that change with frequency, and an impedance that is complex.

Frequencies in hertz, lengths in metres. A model says two things of a line at a frequency, its propagation
constant and its characteristic impedance; the rest follows. `core.coaxial`, `core.board_loss` and `core.cables`
hold models, `core.real_pieces` cuts the pieces of a network from them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array, Complex, Real, broadcast, plain, quotient, store
from core.attenuation import DECIBELS_PER_NEPER
from core.board import SPEED_OF_LIGHT
from core.checks import passive_impedance, real_impedance
from core.errors import OutOfRange
from core.ranges import one_number, real_in_range
from core.readable import Readable, Rows, amount

EVERYWHERE = (1e-6, 1e15)
"""Hertz: from almost nothing to light, which no line here carries."""
MOST, FARTHEST_M = 1e50, 1e9
HAIR = 1e-12
"""By how much of itself a frequency may be past a limit: rounding, when it came as a ratio to another."""


class LineModel(Readable):
    """What every model of a line offers. A frequency is in hertz, of any shape, and within `frequency_range`."""

    @property
    def frequency_range(self) -> tuple[float, float]:
        """The frequencies in hertz between which the model says anything; outside it raises OutOfRange."""
        return EVERYWHERE

    def propagation_constant(self, frequency: ArrayLike) -> Complex:
        """Attenuation in nepers per metre plus 1j times phase in radians per metre.  Raises OutOfRange."""
        return plain(self._constants(self._within(frequency))[0])

    def characteristic_impedance(self, frequency: ArrayLike) -> Complex:
        """Complex ohms.  Raises OutOfRange."""
        return plain(self._constants(self._within(frequency))[1])

    def attenuation_db_per_m(self, frequency: ArrayLike) -> Real:
        """Loss of a wave in decibels per metre, >= 0.  Raises OutOfRange."""
        return plain(DECIBELS_PER_NEPER * np.real(self.propagation_constant(frequency)))

    def attenuation(self, frequency: ArrayLike) -> Real:
        """Nepers per wavelength at this frequency, as `Section` and `Stub` want it.  Raises OutOfRange."""
        constant = np.asarray(self.propagation_constant(frequency))
        return plain(2 * np.pi * constant.real / constant.imag)

    def wavelength_m(self, frequency: ArrayLike) -> Real:
        """Length of one wave on the line, in metres.  Raises OutOfRange."""
        return plain(2 * np.pi / np.imag(self.propagation_constant(frequency)))

    def velocity_factor(self, frequency: ArrayLike) -> Real:
        """Speed of a wave's phase over that of light.  Raises OutOfRange."""
        return plain(np.asarray(self.wavelength_m(frequency)) * np.asarray(frequency, float) / SPEED_OF_LIGHT)

    def input_impedance(
        self, load_impedance: ArrayLike, length_m: ArrayLike, frequency: ArrayLike
    ) -> Complex:
        """Impedance in ohms that a length of this line shows; inf where it shows an open circuit.

        load_impedance : complex ohms, resistance >= 0; inf is an open circuit.  length_m : metres >= 0.
        frequency : hertz.  Shapes broadcast.  Raises NotAnImpedance, NegativeResistance, OutOfRange.
        Source: Pozar, 4th ed., eq. 2.91 (from memory), with a complex characteristic impedance."""
        load, length, hertz = broadcast(
            passive_impedance(load_impedance), length_in_metres(length_m), self._within(frequency)
        )
        constant, line = self._constants(hertz)
        opposed = -np.expm1(-2 * constant * length)
        aligned = 2 - opposed
        open_circuit = np.isinf(load.real)
        voltage, current = np.where(open_circuit, 1.0, load), np.where(open_circuit, 0.0, line)
        above, below = voltage * aligned + current * opposed, voltage * opposed + current * aligned
        return plain(quotient(above, below, line))

    def _constants(self, frequency: Array) -> tuple[Array, Array]:
        """Propagation constant per metre and characteristic impedance in ohms, of a frequency that was checked."""
        raise NotImplementedError

    def _within(self, frequency: ArrayLike) -> Array:
        first, last = self.frequency_range
        known = any_frequency(frequency)
        real_in_range(
            known,
            "frequency",
            "hertz, where this line's model holds",
            at_least=first * (1 - HAIR),
            up_to=last * (1 + HAIR),
        )
        return known


@dataclass(frozen=True)
class DistributedLine(LineModel):
    """A line by what a metre of it has: series resistance and inductance, conductance and capacitance across.

    resistance : ohms per metre >= 0.  inductance : henries per metre > 0.  conductance : siemens per metre
    >= 0. capacitance : farads per metre > 0.  Any may be an array with a value for each frequency, or one that
    broadcasts with the frequency.  Raises OutOfRange.
    Source: gamma = sqrt((R + jwL)(G + jwC)), Z0 = sqrt((R + jwL) / (G + jwC)); Pozar, 4th ed., eq. 2.5 and 2.7
    (from memory).

    >>> line = DistributedLine(0.0575, 0.25e-6, 23e-6, 100e-12)
    >>> round(line.attenuation_db_per_m(1e6), 4), round(line.characteristic_impedance(1e6).real, 6)
    (0.01, 50.0)
    """

    resistance: Any
    inductance: Any
    conductance: Any
    capacitance: Any

    def __post_init__(self) -> None:
        store(
            self,
            resistance=per_metre(self.resistance, "resistance", "ohms", 0.0),
            inductance=per_metre(self.inductance, "inductance", "henries"),
            conductance=per_metre(self.conductance, "conductance", "siemens", 0.0),
            capacitance=per_metre(self.capacitance, "capacitance", "farads"),
        )
        broadcast(self.resistance, self.inductance, self.conductance, self.capacitance)

    def _constants(self, frequency: Array) -> tuple[Array, Array]:
        values = self.resistance, self.inductance, self.conductance, self.capacitance
        hertz, resistance, inductance, conductance, capacitance = broadcast(frequency, *values)
        speed = 2j * np.pi * hertz
        return constants_of(resistance + speed * inductance, conductance + speed * capacitance)

    def _rows(self) -> Rows:
        series = amount(self.resistance, "ohm/m"), amount(self.inductance, "H/m")
        across = amount(self.conductance, "S/m"), amount(self.capacitance, "F/m")
        names = "resistance", "inductance", "conductance", "capacitance"
        return list(zip(names, (*series, *across), strict=True))


def constants_of(series: Array, across: Array) -> tuple[Array, Array]:
    """Propagation constant and impedance from the series impedance and the admittance across a metre.

    Not the root of the product: where loss is small its real part would be what rounding leaves of it."""
    real = series.real * across.real - series.imag * across.imag
    half = (series.imag * across.real + series.real * across.imag) / 2
    larger = np.sqrt((np.hypot(real, 2 * half) + np.abs(real)) / 2)
    smaller = half / larger
    wave = real < 0  # more of a wave than of a mere loss
    constant = np.where(wave, smaller, larger) + 1j * np.where(wave, larger, smaller)
    return constant, np.sqrt(series) / np.sqrt(across)


class LowLossLine(LineModel):
    """A line known by its impedance without loss, and by how much conductor and dielectric take of a wave.

    A conductor under skin effect has as much reactance as resistance, so what it takes from the wave in nepers
    it adds to its phase in radians. The characteristic impedance is complex where the two losses differ.
    Source: H. A. Wheeler, Formulas for the skin effect, Proc. IRE 30, 1942 (from memory)."""

    def _parts(self, frequency: Array) -> tuple[Array, Array, Array, Array]:
        """Impedance in ohms and phase in radians per metre, both without loss; nepers per metre that the
        conductor takes, and that the dielectric takes."""
        raise NotImplementedError

    def _constants(self, frequency: Array) -> tuple[Array, Array]:
        impedance, phase, conductor, dielectric = self._parts(frequency)
        constant = conductor + dielectric + 1j * (phase + conductor)
        return constant, impedance * constant / (2 * dielectric + 1j * phase)


@dataclass(frozen=True)
class LossyLine(LowLossLine):
    """A cable whose loss rises with the root of frequency in its conductors, and with frequency in its dielectric.

    impedance : real ohms, and velocity : speed over that of light, above 0 up to 1; both as they would be without
    loss, which they come near at high frequencies.
    conductor_db_per_m, dielectric_db_per_m : decibels per metre >= 0 at `at_frequency`, hertz.
    limits : the frequencies in hertz between which this is known.  All are single numbers.
    Raises NotAnImpedance, OutOfRange; also for a dielectric that takes a neper or more in a radian, which is no
    line. Source: loss k1 sqrt(f) + k2 f, in any text; Pozar, 4th ed., section 2.7 (from memory).

    >>> line = LossyLine(50, 0.66, conductor_db_per_m=0.6, dielectric_db_per_m=0.05)
    >>> round(line.attenuation_db_per_m(250e6), 4), line.characteristic_impedance(250e6).imag < 0
    (0.3125, True)
    """

    impedance: float
    velocity: float
    conductor_db_per_m: float = 0.0
    dielectric_db_per_m: float = 0.0
    at_frequency: float = 1e9
    limits: tuple[float, float] = EVERYWHERE

    def __post_init__(self) -> None:
        store(
            self,
            impedance=one_number(real_impedance(self.impedance), "line impedance", "in ohms"),
            velocity=one_number(self.velocity, "velocity factor", "such as 0.66", at_least=1 / MOST, up_to=1),
            conductor_db_per_m=_one_loss(self.conductor_db_per_m, "conductor's loss"),
            dielectric_db_per_m=_one_loss(self.dielectric_db_per_m, "dielectric's loss"),
            at_frequency=one_frequency(self.at_frequency, "frequency of the losses"),
        )
        _, phase, _, dielectric = self._parts(np.asarray(self.at_frequency))
        real_in_range(dielectric / phase, "dielectric's loss", "nepers per radian", at_least=0, up_to=1)
        object.__setattr__(self, "limits", _checked_limits(self.limits))

    @property
    def frequency_range(self) -> tuple[float, float]:
        return self.limits

    def _parts(self, frequency: Array) -> tuple[Array, Array, Array, Array]:
        share = frequency / self.at_frequency
        conductor = self.conductor_db_per_m * np.sqrt(share) / DECIBELS_PER_NEPER
        dielectric = self.dielectric_db_per_m * share / DECIBELS_PER_NEPER
        phase = 2 * np.pi * frequency / (SPEED_OF_LIGHT * self.velocity)
        return np.asarray(self.impedance), phase, conductor, dielectric

    def _rows(self) -> Rows:
        at = f"dB/m at {amount(self.at_frequency, 'Hz')}"
        losses = amount(self.conductor_db_per_m, at), amount(self.dielectric_db_per_m, at)
        line = ("impedance", amount(self.impedance, "ohm")), ("velocity factor", amount(self.velocity))
        return [*line, ("conductor", losses[0]), ("dielectric", losses[1])]


def length_in_metres(length_m: ArrayLike, missing: bool = False) -> Array:
    """A length of line in metres as a float array: finite, zero or more; nan, which marks "no solution", only as
    `missing`.  Raises OutOfRange."""
    meaning = "in metres"
    return real_in_range(
        length_m, "length of the line", meaning, at_least=0, up_to=FARTHEST_M, missing=missing
    )


def any_frequency(frequency: ArrayLike, name: str = "frequency") -> Array:
    """A frequency in hertz as a float array: above zero, and of a size that means one.  Raises OutOfRange."""
    lowest, highest = EVERYWHERE
    return real_in_range(frequency, name, "in hertz", at_least=lowest, up_to=highest)


def one_frequency(frequency: float, name: str) -> float:
    """A single frequency in hertz.  Raises OutOfRange, also for an array of them."""
    return one_number(any_frequency(frequency, name), name, "in hertz")


def per_metre(value: ArrayLike, name: str, unit: str, least: float = 1 / MOST) -> Array:
    """What a metre of line has or takes, as a float array from `least` up.  Raises OutOfRange."""
    return real_in_range(value, name, f"in {unit} per metre", at_least=least, up_to=MOST)


def _one_loss(value: float, name: str) -> float:
    return one_number(value, name, "decibels per metre", at_least=0.0, up_to=MOST)


def _checked_limits(limits: tuple[float, float]) -> tuple[float, float]:
    known = real_in_range(limits, "limits", "two frequencies in hertz", at_least=0)
    if known.shape != (2,) or not known[1] > known[0]:
        raise OutOfRange(
            "The limits are two frequencies, the highest frequency above the lowest.", value=limits
        )
    return float(known[0]), float(known[1])
