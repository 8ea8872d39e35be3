"""Plain arithmetic of the chart and of stubs, written apart from the solver: number by number, from the definitions.

Reflections of admittances are those of the chart turned by half a turn; angles are in radians, lengths in wavelengths.
"""

from cmath import exp, phase
from math import pi, sqrt, tan


def reflection(normalised: complex) -> complex:
    """Where a normalised impedance (or admittance, on its own chart) stands."""
    return (normalised - 1) / (normalised + 1)


def normalised(point: complex) -> complex:
    """What is read there."""
    return (1 + point) / (1 - point)


def ratio(size: float) -> float:
    """Standing-wave ratio of a reflection's size."""
    return (1 + size) / (1 - size)


def reading(point: complex) -> float:
    """The scale toward the generator: zero at the left, clockwise, half a wavelength a turn."""
    return (0.25 - phase(point) / (4 * pi)) % 0.5


def walk(start: complex, end: complex) -> float:
    """Wavelengths from one point to another, clockwise."""
    return (reading(end) - reading(start)) % 0.5


def turned(point: complex, wavelengths: float) -> complex:
    """A point walked clockwise."""
    return point * exp(-4j * pi * wavelengths)


def part_at_crossing(size: float) -> float:
    """What is left beside 1 where the circle of |reflection| = size meets the unit circle: plus or minus this."""
    return 2 * size / sqrt(1 - size * size)


def stub_shows(length: float, resonates: bool) -> float:
    """tan of the stub's angle where its end shows nothing (`resonates`: a short in series, an open end across), minus
    its cotangent otherwise."""
    tangent = tan(2 * pi * length)
    return tangent if resonates else -1 / tangent if tangent else float("-inf")
