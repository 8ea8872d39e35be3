"""A uniform line and what travels on it: reflection, impedance, standing waves.

Impedances are in ohms, lengths in wavelengths, angles in radians. Every function takes scalars or arrays and
broadcasts them. Formulas are those of any text on transmission lines; see D. M. Pozar, Microwave Engineering,
4th ed., sections 2.1 to 2.4 and 2.7 (from memory).
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ON_ARRAYS, Complex, Functions, Real, broadcast, plain, quotient
from core.checks import (
    ROUNDED,
    Array,
    any_length,
    finite_length,
    finite_reflection,
    passive_impedance,
    passive_reflection,
    real_impedance,
)
from core.ranges import attenuation_of, lost_in, real_in_range

EIGHTH_WAVES = np.array([1, 1j, -1, -1j, 1])
"""Turn of a reflection over 0, 1, 2, 3 and 4 eighths of a wavelength toward the load."""


def reflection_coefficient(load_impedance: ArrayLike, line_impedance: ArrayLike) -> Complex:
    """Reflection of a load at the end of a line: (Z - Z0) / (Z + Z0).

    load_impedance : complex ohms, any shape, resistance >= 0; inf is an open circuit and gives +1.
    line_impedance : positive real ohms, broadcasts with the load.
    Returns a complex number or array, |reflection| <= 1.
    Raises NotAnImpedance, NegativeResistance, ShapesDiffer.  Source: Pozar, 4th ed., eq. 2.35 (from memory).

    >>> reflection_coefficient(150, 50)
    (0.5+0j)
    """
    load, line = broadcast(passive_impedance(load_impedance), real_impedance(line_impedance))
    open_circuit = np.isinf(load.real)
    finite = np.where(open_circuit, 0.0, load)
    return plain(np.where(open_circuit, 1.0, (finite - line) / (finite + line)))


def impedance_from_reflection(reflection: ArrayLike, line_impedance: ArrayLike = 1.0) -> Complex:
    """Impedance that reflects so: Z0 (1 + reflection) / (1 - reflection); inf at reflection = 1.

    reflection : complex, any shape, of a magnitude of at most 1; one that only rounding keeps from 1 gives no
    resistance.  line_impedance : ohms; 1 gives the normalised impedance.  They broadcast; nan stays nan.
    Raises OutOfRange, NotAnImpedance, ShapesDiffer.  Source: the inverse of `reflection_coefficient`.
    """
    gamma, line = broadcast(passive_reflection(reflection), real_impedance(line_impedance))
    return plain(_immittance(gamma, line))


def admittance_from_reflection(reflection: ArrayLike, line_admittance: ArrayLike = 1.0) -> Complex:
    """Admittance that reflects so: Y0 (1 - reflection) / (1 + reflection); inf at reflection = -1.

    reflection : complex, any shape, of a magnitude of at most 1; one that only rounding keeps from 1 gives no
    conductance.  line_admittance : siemens; 1 gives the normalised admittance.  They broadcast; nan stays nan.
    Raises OutOfRange, NotAnImpedance, ShapesDiffer.
    Source: one over `impedance_from_reflection`, the same formula with the sign of the reflection changed: a
    half turn."""
    own = real_impedance(line_admittance, "line admittance", "siemens, such as 0.02")
    gamma, line = broadcast(passive_reflection(reflection), own)
    return plain(_immittance(-gamma, line))


def swr(reflection: ArrayLike) -> Real:
    """Standing-wave ratio (1 + |reflection|) / (1 - |reflection|), >= 1; inf where all power returns.

    reflection : complex, any shape, of a magnitude of at most 1; nan stays nan. Near the rim the SWR is as exact
    as the reflection is: a relative error of the one is SWR / 2 times as large in the other, and where only
    rounding keeps the magnitude from 1 the SWR is inf.  Raises OutOfRange.
    Source: Pozar, 4th ed., eq. 2.41 (from memory)."""
    size = _size(passive_reflection(reflection))
    with np.errstate(divide="ignore"):
        return plain((1 + size) / (1 - size))


def return_loss_db(reflection: ArrayLike) -> Real:
    """Return loss -20 log10 |reflection| in decibels, >= 0; inf for a match.

    reflection : complex, any shape, of a magnitude of at most 1; nan stays nan.  Raises OutOfRange.
    Source: Pozar, 4th ed., eq. 2.38 (from memory)."""
    size = _size(passive_reflection(reflection))
    with np.errstate(divide="ignore"):
        return plain(-20.0 * np.log10(size) + 0.0)


def reflection_from_swr(standing_wave_ratio: ArrayLike) -> Real:
    """Size of the reflection on a line of this standing-wave ratio: (S - 1) / (S + 1); 1 for inf.

    standing_wave_ratio : >= 1, any shape; nan stays nan.  Raises OutOfRange.  Source: the inverse of `swr`."""
    ratio = real_in_range(
        standing_wave_ratio, "standing-wave ratio", "such as 1.5", at_least=1, infinite=True, missing=True
    )
    finite = np.where(np.isinf(ratio), 1.0, ratio)
    return plain(np.where(np.isinf(ratio), 1.0, (finite - 1) / (finite + 1)))


def reflection_from_return_loss(decibels: ArrayLike) -> Real:
    """Size of the reflection that gives this return loss: 10 to the power of -decibels / 20; 0 for inf.

    decibels : >= 0, any shape; nan stays nan.  Raises OutOfRange.  Source: the inverse of `return_loss_db`."""
    loss = real_in_range(decibels, "return loss", "in decibels", at_least=0, infinite=True, missing=True)
    return plain(10 ** (-loss / 20))


def toward_generator(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Complex:
    """Reflection seen `distance` nearer the generator: turned clockwise, 720 degrees a wavelength.

    reflection : complex, any shape.  distance : wavelengths >= 0.  attenuation : nepers per wavelength >= 0.
    They broadcast.  Raises NotALength, OutOfRange, ShapesDiffer.  Source: Pozar, 4th ed., eq. 2.42 (from memory).

    >>> toward_generator(0.5, 0.25).real
    -0.5
    """
    return _turn(reflection, distance, attenuation, sense=-1)


def toward_load(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Complex:
    """Reflection seen `distance` nearer the load: turned counter-clockwise, 720 degrees a wavelength.

    Arguments and errors as `toward_generator`, of which it is the inverse. On a lossy line a result above 1 says
    that no passive load is there."""
    return _turn(reflection, distance, attenuation, sense=+1)


def input_impedance(
    load_impedance: ArrayLike, line_impedance: ArrayLike, length: ArrayLike, attenuation: ArrayLike = 0.0
) -> Complex:
    """Impedance seen through a length of line, in ohms; inf where the line shows an open circuit.

    load_impedance : complex ohms, resistance >= 0; inf is an open circuit.
    line_impedance : positive real ohms.  length : wavelengths >= 0.
    attenuation : nepers per wavelength >= 0.  Shapes broadcast.
    Raises NotAnImpedance, NegativeResistance, NotALength, OutOfRange, ShapesDiffer.
    Source: Pozar, 4th ed., eq. 2.44 and 2.91 (from memory), in the wave form: with the round trip
    t = exp(-2 gamma l), Z0 (Z (1 + t) + Z0 (1 - t)) / (Z (1 - t) + Z0 (1 + t)), exact for the smallest load
    and the largest. Its real part is taken from the power, |Z + Z0|^2 (1 - |t|^2) + 4 R Z0 |t|^2 over the square
    of that divisor: no difference of rounded numbers, so that a lossless line shows a reactance as a reactance.

    >>> input_impedance(100, 50, 0.25), input_impedance(0, 75, 0.1).real
    ((25+0j), 0.0)
    """
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    distance, loss = finite_length(length), attenuation_of(attenuation)
    load, line, distance, loss = broadcast(load, line, distance, loss)
    trip, power = round_trip(distance, loss, sense=-1), np.exp(-4 * loss * distance)
    open_circuit = np.isinf(load.real)
    finite = np.where(open_circuit, 1.0, load)
    size = np.maximum(np.abs(finite), line)
    voltage, current = np.where(open_circuit, 1.0, finite / size), np.where(open_circuit, 0.0, line / size)
    below = voltage * (1 - trip) + current * (1 + trip)
    shown = quotient(voltage * (1 + trip) + current * (1 - trip), below, line)
    into = (
        np.abs(voltage + current) ** 2 * -np.expm1(-4 * loss * distance) + 4 * voltage.real * current * power
    )
    return plain(_with_real_part(shown, line * _over_square(into, below)))


def distance_to_maximum(reflection: ArrayLike) -> Real:
    """Distance from the load to the first voltage maximum, wavelengths in [0, 0.5).

    reflection : complex, any shape; 0, which has no maximum, gives 0.  Raises OutOfRange.
    Source: where the reflection turns real and positive; Pozar, 4th ed., eq. 2.39 (from memory)."""
    return wrap_half_wave(np.angle(finite_reflection(reflection)) / (4 * np.pi))


def distance_to_minimum(reflection: ArrayLike) -> Real:
    """Distance from the load to the first voltage minimum, wavelengths in [0, 0.5).

    reflection : complex, any shape; 0, which has no minimum, gives 0.25.  Raises OutOfRange.
    Source: a quarter wave from the maximum; Pozar, 4th ed., eq. 2.39 (from memory)."""
    return wrap_half_wave(np.angle(finite_reflection(reflection)) / (4 * np.pi) + 0.25)


def wrap_half_wave(length: ArrayLike) -> Real:
    """The same length modulo half a wavelength, in [0, 0.5).

    length : wavelengths, any shape and sign; one short of a half wave by rounding only (1e-15) is zero; nan
    stays nan.  Raises NotALength.
    Source: 720 degrees of the chart to a wavelength; Pozar, 4th ed., section 2.4 (from memory)."""
    return plain(wrapped(any_length(length), ON_ARRAYS))


def wrapped(length: Any, on: Functions) -> Any:
    """The kernel of `wrap_half_wave`, without its checks.

    length : wavelengths.  on : the functions for arrays or for one number.  Source: as `wrap_half_wave`."""
    rest = length - 0.5 * on.floor(2 * length)  # exact, and faster than mod
    return on.where(rest > 0.5 - 1e-15, 0.0, rest)


def half_wave_difference(first: ArrayLike, second: ArrayLike) -> Real:
    """Signed `first - second` modulo half a wavelength, in [-0.25, 0.25): lengths repeat every half wave.

    first, second : wavelengths of either sign, any shapes that broadcast; nan stays nan.
    Raises NotALength, ShapesDiffer.  Source: as for `wrap_half_wave`."""
    one, other = broadcast(any_length(first, "first length"), any_length(second, "second length"))
    return plain(np.mod(one - other + 0.25, 0.5) - 0.25)


def _turn(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike, sense: int) -> Any:
    length, loss = finite_length(distance, "distance"), attenuation_of(attenuation)
    gamma, length, loss = broadcast(finite_reflection(reflection), length, loss)
    if sense > 0:
        lost_in(length, loss)
    return plain(gamma * round_trip(length, loss, sense))


def round_trip(distance: Array, attenuation: ArrayLike, sense: int) -> Array:
    """exp(2 sense (attenuation + 2j pi) distance): what a wave meets on its way there and back.

    distance : wavelengths of either sign.  attenuation : nepers per wavelength.  sense : 1 toward the load, -1
    toward the generator.  Source: as `toward_generator`. Whole eighths of a wavelength are turned by multiplying
    with 1, j, -1 or -j: however long the line, no digits are lost, and a quarter wave is exactly one."""
    eighths = np.rint(8 * np.mod(distance, 0.5))
    rest = np.mod(distance, 0.5) - eighths / 8
    turn = EIGHTH_WAVES[np.nan_to_num(eighths).astype(int)] * np.exp(4j * np.pi * rest)
    return np.exp(2 * sense * np.asarray(attenuation) * distance) * (turn if sense > 0 else np.conj(turn))


def _immittance(reflection: Array, line: Array) -> Array:
    """line (1 + reflection) / (1 - reflection); its real part is (1 - |reflection|^2) / |1 - reflection|^2."""
    size = _size(reflection)
    shown = quotient(1 + reflection, 1 - reflection, line)
    return _with_real_part(shown, line * _over_square((1 - size) * (1 + size), 1 - reflection))


def _size(reflection: Array) -> Array:
    """The magnitude; 1 where only rounding keeps it from that."""
    size = np.abs(reflection)
    return np.where(size >= 1 - ROUNDED, 1.0, size)


def _over_square(power: Array, divisor: Array) -> Array:
    """power / |divisor|^2, where the divisor is not zero."""
    size = np.abs(divisor)
    size = np.where(size == 0, 1.0, size)
    return power / size / size


def _with_real_part(value: Array, real: Array) -> Array:
    """The complex number with another real part, where it is finite."""
    return np.where(np.isinf(value.real), value, real + 1j * np.where(np.isinf(value.real), 0.0, value.imag))
