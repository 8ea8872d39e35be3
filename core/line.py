"""A uniform line and what travels on it: reflection, impedance, standing waves.

Impedances are in ohms, lengths in wavelengths, angles in radians. Every function takes scalars or arrays and
broadcasts them. Formulas are those of any text on transmission lines; see D. M. Pozar, Microwave Engineering,
4th ed., sections 2.1 to 2.4 and 2.7 (from memory).
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array, finite_length, passive_impedance, real_impedance


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
    return _plain(np.where(open_circuit, 1.0, (finite - line) / (finite + line)))


def impedance_from_reflection(reflection: ArrayLike, line_impedance: ArrayLike = 1.0) -> Any:
    """Impedance that reflects so: Z0 (1 + reflection) / (1 - reflection); inf at reflection = 1.

    reflection : complex, any shape.  line_impedance : ohms; 1 gives the normalised impedance.
    Raises NotAnImpedance for a bad line impedance.  Source: the inverse of `reflection_coefficient`.
    """
    gamma = np.asarray(reflection, dtype=complex)
    line = real_impedance(line_impedance)
    with np.errstate(divide="ignore", invalid="ignore"):
        value = line * (1 + gamma) / (1 - gamma)
    return _plain(np.where(gamma == 1, complex(np.inf, 0.0), value))


def admittance_from_reflection(reflection: ArrayLike, line_admittance: ArrayLike = 1.0) -> Any:
    """Admittance that reflects so: Y0 (1 - reflection) / (1 + reflection); inf at reflection = -1.

    The reflection of the admittance is that of the impedance with its sign changed: a half turn."""
    return impedance_from_reflection(-np.asarray(reflection, dtype=complex), line_admittance)


def swr(reflection: ArrayLike) -> Any:
    """Standing-wave ratio (1 + |reflection|) / (1 - |reflection|), >= 1; inf where all power returns.

    reflection : complex, any shape.  Source: Pozar, 4th ed., eq. 2.41 (from memory)."""
    size = np.minimum(np.abs(reflection), 1.0)
    with np.errstate(divide="ignore"):
        return _plain((1 + size) / (1 - size))


def return_loss_db(reflection: ArrayLike) -> Any:
    """Return loss -20 log10 |reflection| in decibels, >= 0; inf for a match. Pozar, eq. 2.38 (from memory)."""
    with np.errstate(divide="ignore"):
        return _plain(-20.0 * np.log10(np.minimum(np.abs(reflection), 1.0)) + 0.0)


def toward_generator(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Any:
    """Reflection seen `distance` nearer the generator: turned clockwise, 720 degrees a wavelength.

    reflection : complex, any shape.  distance : wavelengths >= 0.  attenuation : nepers per wavelength >= 0.
    Raises NotALength.  Source: Pozar, 4th ed., eq. 2.42 (from memory).

    >>> toward_generator(0.5, 0.25).real
    -0.5
    """
    return _turn(reflection, finite_length(distance, "distance"), attenuation, sense=-1)


def toward_load(reflection: ArrayLike, distance: ArrayLike, attenuation: ArrayLike = 0.0) -> Any:
    """Reflection seen `distance` nearer the load: counter-clockwise. Arguments as `toward_generator`."""
    return _turn(reflection, finite_length(distance, "distance"), attenuation, sense=+1)


def input_impedance(
    load_impedance: ArrayLike, line_impedance: ArrayLike, length: ArrayLike, attenuation: ArrayLike = 0.0
) -> Any:
    """Impedance seen through a length of line, in ohms; inf where the line shows an open circuit.

    Shapes broadcast. attenuation : nepers per wavelength.  Raises NotAnImpedance, NegativeResistance, NotALength.
    Source: Pozar, 4th ed., eq. 2.44 and 2.91 (from memory), in the wave form."""
    gamma = reflection_coefficient(load_impedance, line_impedance)
    return impedance_from_reflection(toward_generator(gamma, length, attenuation), line_impedance)


def distance_to_maximum(reflection: ArrayLike) -> Any:
    """Distance from the load to the first voltage maximum, wavelengths in [0, 0.5): where reflection turns real, > 0."""
    return _plain(wrap_half_wave(np.angle(reflection) / (4 * np.pi)))


def distance_to_minimum(reflection: ArrayLike) -> Any:
    """Distance from the load to the first voltage minimum, wavelengths in [0, 0.5): a quarter wave from the maximum."""
    return _plain(wrap_half_wave(np.angle(reflection) / (4 * np.pi) + 0.25))


def wrap_half_wave(length: ArrayLike) -> Any:
    """The same length modulo half a wavelength, in [0, 0.5).

    A length short of a half wave by rounding only (1e-15) counts as zero: it is one."""
    wrapped = np.mod(np.asarray(length, dtype=float), 0.5)
    return _plain(np.where(wrapped > 0.5 - 1e-15, 0.0, wrapped))


def half_wave_difference(first: ArrayLike, second: ArrayLike) -> Any:
    """Signed `first - second` taken modulo half a wavelength, in [-0.25, 0.25): lengths repeat every half wave."""
    return _plain(np.mod(np.asarray(first, float) - np.asarray(second, float) + 0.25, 0.5) - 0.25)


def _turn(reflection: ArrayLike, distance: Array, attenuation: ArrayLike, sense: int) -> Any:
    exponent = sense * 2.0 * (np.asarray(attenuation, dtype=float) + 2j * np.pi) * distance
    return _plain(np.asarray(reflection, dtype=complex) * np.exp(exponent))


def _plain(value: ArrayLike) -> Any:
    """A Python number where there is just one, the array otherwise."""
    array = np.asarray(value)
    return array.item() if array.ndim == 0 else array
