"""A uniform line and what travels on it: reflection, impedance, standing waves.

Impedances are in ohms, lengths in wavelengths, angles in radians. Every function takes scalars or arrays and
broadcasts them. Formulas are those of any text on transmission lines; see D. M. Pozar, Microwave Engineering,
4th ed., sections 2.1 to 2.4 and 2.7 (from memory).
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import plain, quotient
from core.checks import Array, finite_length, passive_impedance, real_impedance
from core.ranges import real_in_range

EIGHTH_WAVES = np.array([1, 1j, -1, -1j, 1])
"""Turn of a reflection over 0, 1, 2, 3 and 4 eighths of a wavelength toward the load."""


def reflection_coefficient(load_impedance: ArrayLike, line_impedance: ArrayLike) -> Any:
    """Reflection of a load at the end of a line: (Z - Z0) / (Z + Z0).

    load_impedance : complex ohms, any shape, resistance >= 0; inf is an open circuit and gives +1.
    line_impedance : positive real ohms, broadcasts with the load.
    Returns a complex number or array, |reflection| <= 1.
    Raises NotAnImpedance, NegativeResistance.  Source: Pozar, 4th ed., eq. 2.35 (from memory).

    >>> reflection_coefficient(150, 50)
    (0.5+0j)
    """
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    load, line = np.broadcast_arrays(load, line)
    open_circuit = np.isinf(load.real)
    finite = np.where(open_circuit, 0.0, load)
    return plain(np.where(open_circuit, 1.0, (finite - line) / (finite + line)))


def impedance_from_reflection(reflection: ArrayLike, line_impedance: ArrayLike = 1.0) -> Any:
    """Impedance that reflects so: Z0 (1 + reflection) / (1 - reflection); inf at reflection = 1.

    reflection : complex, any shape.  line_impedance : ohms; 1 gives the normalised impedance.
    Raises NotAnImpedance for a bad line impedance.  Source: the inverse of `reflection_coefficient`.
    """
    gamma = np.asarray(reflection, dtype=complex)
    return plain(quotient(1 + gamma, 1 - gamma, real_impedance(line_impedance)))


def admittance_from_reflection(reflection: ArrayLike, line_admittance: ArrayLike = 1.0) -> Any:
    """Admittance that reflects so: Y0 (1 - reflection) / (1 + reflection); inf at reflection = -1.

    reflection : complex, any shape.  line_admittance : siemens; 1 gives the normalised admittance.
    Raises NotAnImpedance for a bad line admittance.
    Source: one over `impedance_from_reflection`, the same formula with the sign of the reflection changed: a
    half turn."""
    gamma = np.asarray(reflection, dtype=complex)
    own = real_impedance(line_admittance, "line admittance", "siemens, such as 0.02")
    return plain(quotient(1 - gamma, 1 + gamma, own))


def swr(reflection: ArrayLike) -> Any:
    """Standing-wave ratio (1 + |reflection|) / (1 - |reflection|), >= 1; inf where all power returns.

    reflection : complex, any shape. Near the rim the SWR is as exact as the reflection is: a relative error
    of the one is SWR / 2 times as large in the other.  Source: Pozar, 4th ed., eq. 2.41 (from memory)."""
    size = np.minimum(np.abs(reflection), 1.0)
    with np.errstate(divide="ignore"):
        return plain((1 + size) / (1 - size))


def return_loss_db(reflection: ArrayLike) -> Any:
    """Return loss -20 log10 |reflection| in decibels, >= 0; inf for a match.

    reflection : complex, any shape.  Source: Pozar, 4th ed., eq. 2.38 (from memory)."""
    with np.errstate(divide="ignore"):
        return plain(-20.0 * np.log10(np.minimum(np.abs(reflection), 1.0)) + 0.0)


def toward_generator(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Any:
    """Reflection seen `distance` nearer the generator: turned clockwise, 720 degrees a wavelength.

    reflection : complex, any shape.  distance : wavelengths >= 0.  attenuation : nepers per wavelength >= 0.
    Raises NotALength, OutOfRange.  Source: Pozar, 4th ed., eq. 2.42 (from memory).

    >>> toward_generator(0.5, 0.25).real
    -0.5
    """
    return _turn(reflection, finite_length(distance, "distance"), attenuation, sense=-1)


def toward_load(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Any:
    """Reflection seen `distance` nearer the load: turned counter-clockwise, 720 degrees a wavelength.

    Arguments and errors as `toward_generator`, of which it is the inverse."""
    return _turn(reflection, finite_length(distance, "distance"), attenuation, sense=+1)


def input_impedance(
    load_impedance: ArrayLike, line_impedance: ArrayLike, length: ArrayLike, attenuation: ArrayLike = 0.0
) -> Any:
    """Impedance seen through a length of line, in ohms; inf where the line shows an open circuit.

    load_impedance : complex ohms, resistance >= 0; inf is an open circuit.
    line_impedance : positive real ohms.  length : wavelengths >= 0.
    attenuation : nepers per wavelength >= 0.  Shapes broadcast.
    Raises NotAnImpedance, NegativeResistance, NotALength, OutOfRange.
    Source: Pozar, 4th ed., eq. 2.44 and 2.91 (from memory), in the wave form: with the round trip
    t = exp(-2 gamma l), Z0 (Z (1 + t) + Z0 (1 - t)) / (Z (1 - t) + Z0 (1 + t)), exact for the smallest load
    and the largest.

    >>> input_impedance(100, 50, 0.25)
    (25+0j)
    """
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    trip = _round_trip(finite_length(length), attenuation, sense=-1)
    open_circuit = np.isinf(load.real)
    voltage, current = np.where(open_circuit, 1.0, load), np.where(open_circuit, 0.0, line)
    opposed, aligned = 1 - trip, 1 + trip
    return plain(quotient(voltage * aligned + current * opposed, voltage * opposed + current * aligned, line))


def distance_to_maximum(reflection: ArrayLike) -> Any:
    """Distance from the load to the first voltage maximum, wavelengths in [0, 0.5).

    reflection : complex, any shape; 0, which has no maximum, gives 0.
    Source: where the reflection turns real and positive; Pozar, 4th ed., eq. 2.39 (from memory)."""
    return wrap_half_wave(np.angle(np.asarray(reflection)) / (4 * np.pi))


def distance_to_minimum(reflection: ArrayLike) -> Any:
    """Distance from the load to the first voltage minimum, wavelengths in [0, 0.5).

    reflection : complex, any shape; 0, which has no minimum, gives 0.25.
    Source: a quarter wave from the maximum; Pozar, 4th ed., eq. 2.39 (from memory)."""
    return wrap_half_wave(np.angle(np.asarray(reflection)) / (4 * np.pi) + 0.25)


def wrap_half_wave(length: ArrayLike) -> Any:
    """The same length modulo half a wavelength, in [0, 0.5).

    length : wavelengths, any shape and sign; one short of a half wave by rounding only (1e-15) is zero.
    Source: 720 degrees of the chart to a wavelength; Pozar, 4th ed., section 2.4 (from memory)."""
    given = np.asarray(length, dtype=float)
    wrapped = given - 0.5 * np.floor(2 * given)  # exact, and faster than mod
    return plain(np.where(wrapped > 0.5 - 1e-15, 0.0, wrapped))


def half_wave_difference(first: ArrayLike, second: ArrayLike) -> Any:
    """Signed `first - second` modulo half a wavelength, in [-0.25, 0.25): lengths repeat every half wave.

    first, second : wavelengths, any shapes that broadcast.  Source: as for `wrap_half_wave`."""
    return plain(np.mod(np.asarray(first, float) - np.asarray(second, float) + 0.25, 0.5) - 0.25)


def _turn(reflection: ArrayLike, distance: Array, attenuation: ArrayLike, sense: int) -> Any:
    return plain(np.asarray(reflection, dtype=complex) * _round_trip(distance, attenuation, sense))


def _round_trip(distance: Array, attenuation: ArrayLike, sense: int) -> Array:
    """exp(2 sense (attenuation + 2j pi) distance): what a wave meets on its way there and back.

    Whole eighths of a wavelength are turned by multiplying with 1, j, -1 or -j: however long the line, no
    digits are lost, and a quarter wave is exactly one."""
    attenuation = real_in_range(attenuation, "attenuation", "nepers per wavelength", at_least=0)
    eighths = np.rint(8 * np.mod(distance, 0.5))
    rest = np.mod(distance, 0.5) - eighths / 8
    turn = EIGHTH_WAVES[np.nan_to_num(eighths).astype(int)] * np.exp(4j * np.pi * rest)
    return np.exp(2 * sense * attenuation * distance) * (turn if sense > 0 else np.conj(turn))
