"""The equations of lines, chart and stubs at fifty digits, by roads that the solver does not take.

Where the solver turns reflections, these use the tangent formulas of impedance; where it uses arc cosines, these
solve the quadratic for tan(2 pi d); circles come from three of their points. Scalars in, scalars out: numbers of
mpmath, whose functions are the independent ground. Formulas: D. M. Pozar, Microwave Engineering, 4th ed.,
sections 2.3, 2.7, 5.2 and 5.3 (from memory), unless a docstring says otherwise.
"""

from collections.abc import Iterable
from typing import Any

import numpy as np
from mpmath.ctx_mp import MPContext

MP = MPContext()
MP.dps = 50
J = MP.mpc(0, 1)
HALF_WAVE = MP.mpf("0.5")


def exact(value: complex) -> Any:
    """The very number that the float or complex is, with no rounding."""
    return MP.mpc(complex(value)) if isinstance(value, complex | np.complexfloating) else MP.mpf(float(value))


def worst_error(got: Any, expected: Iterable[Any], scales: Any = None) -> float:
    """Largest distance from what is expected, relative to its size or to the given scales."""
    expected = list(expected)
    scales = [abs(e) for e in expected] if scales is None else np.broadcast_to(scales, len(expected))
    got = np.broadcast_to(got, len(expected))
    return max(
        float(abs(exact(g) - e) / exact(s) if g != e else 0)
        for g, e, s in zip(got.tolist(), expected, scales, strict=True)
    )


def worst_length_error(got: Any, expected: Iterable[Any]) -> float:
    """Largest difference of two lengths modulo half a wavelength, relative to half a wavelength."""
    pairs = zip(np.asarray(got).tolist(), expected, strict=True)
    return max(float(abs(half_wave_apart(exact(g), e)) / HALF_WAVE) for g, e in pairs)


def half_wave_apart(first, second):
    """Signed difference modulo half a wavelength."""
    return (first - second + HALF_WAVE / 2) % HALF_WAVE - HALF_WAVE / 2


def reflection(load, line):
    """By admittances: (Y0 - Y) / (Y0 + Y)."""
    return (1 / line - 1 / load) / (1 / line + 1 / load)


def impedance(gamma, line):
    """Real and imaginary part each by its own formula, Pozar eq. 2.54."""
    opposite = (1 - gamma.real) ** 2 + gamma.imag**2
    return line * MP.mpc(1 - gamma.real**2 - gamma.imag**2, 2 * gamma.imag) / opposite


def admittance(gamma, line_admittance):
    """One over the impedance that reflects so."""
    return 1 / impedance(gamma, 1 / line_admittance)


def swr(gamma):
    """Largest over smallest voltage."""
    size = MP.sqrt(gamma.real**2 + gamma.imag**2)
    return (1 + size) / (1 - size)


def return_loss_db(gamma):
    """From the reflected power."""
    return -10 * MP.log(gamma.real**2 + gamma.imag**2, 10)


def through_line(load, line, length, attenuation=0):
    """Input impedance by the hyperbolic tangent, Pozar eq. 2.91; a negative length goes toward the load."""
    tanh = MP.tanh((attenuation + 2 * J * MP.pi) * length)
    return line * (load + line * tanh) / (line + load * tanh)


def toward_generator(gamma, distance, attenuation=0):
    """Back to impedance, through the line, and to reflection again."""
    return reflection(through_line(impedance(gamma, 1), 1, distance, attenuation), 1)


def toward_load(gamma, distance, attenuation=0):
    """The same line, walked backwards."""
    return toward_generator(gamma, -distance, attenuation)


def standing_wave(load, line):
    """Distances to the first voltage maximum and minimum: where the tangent formula turns real."""
    middle = line**2 - load.imag**2 - load.real**2
    angles = [MP.atan(t) for t in quadratic(-load.imag * line, middle, load.imag * line)]
    return tuple(
        angle / (2 * MP.pi) % HALF_WAVE
        for angle in sorted(angles, key=lambda angle: -seen(load, line, angle).real)
    )


def single_stub(load, line, stub, placement, end):
    """(distance, stub length) of both solutions, near first: Pozar eq. 5.8 for shunt, and its like for series."""
    r, x = load.real, load.imag
    if placement == "shunt":
        tangents = quadratic(r * line - line**2, -2 * x * line, r * line - r**2 - x**2)
    else:
        tangents = quadratic(r * line - r**2 - x**2, 2 * x * line, r * line - line**2)
    angles = [MP.atan(t) % MP.pi for t in tangents]
    found = [(angle, stub_angle(seen(load, line, angle), stub, placement, end)) for angle in angles]
    return sorted((angle / (2 * MP.pi), length / (2 * MP.pi)) for angle, length in found)


def stub_angle(at_junction, stub, placement, end):
    """Electrical length of the stub that cancels what is seen at the junction."""
    if placement == "shunt":
        susceptance = -(1 / at_junction).imag * stub
        tangent = susceptance if end == "open" else -over(1, susceptance)
    else:
        reactance = -at_junction.imag / stub
        tangent = reactance if end == "short" else -over(1, reactance)
    return MP.atan(tangent) % MP.pi


def stub_impedance(length, stub, end):
    """Input of a short-circuited line, j Z tan, or of an open one, -j Z cot; Pozar eq. 2.45c and 2.46c."""
    tangent = MP.tan(2 * MP.pi * length)
    return J * stub * tangent if end == "short" else -J * stub / tangent


def stub_match(load, line, stub, placement, end, distance, length):
    """Reflection of load, line and stub: impedances in parallel or in series, nothing else."""
    at_junction, branch = (
        seen(load, line, 2 * MP.pi * distance),
        stub_impedance(length, stub, end),
    )
    whole = at_junction + branch if placement == "series" else 1 / (1 / at_junction + 1 / branch)
    return reflection(whole, line)


def seen(load, line, angle):
    """Impedance through a lossless line, Pozar eq. 2.44, both sides multiplied by the cosine."""
    cosine, sine = MP.cos(angle), MP.sin(angle)
    return line * (load * cosine + J * line * sine) / (line * cosine + J * load * sine)


def quadratic(a, b, c):
    """Both real roots of a t^2 + b t + c, one of them infinite where a is zero."""
    root = -(b + (1 if b >= 0 else -1) * MP.sqrt(b**2 - 4 * a * c)) / 2
    return [over(root, a), over(c, root)]


def over(numerator, denominator):
    """The quotient; infinite where its denominator is zero."""
    return MP.inf if denominator == 0 else numerator / denominator


def circle_through(first, second, third):
    """Centre and radius of the circle through three points: where two perpendicular bisectors meet."""
    b, c = second - first, third - first
    cross = 2 * (b.real * c.imag - b.imag * c.real)
    center = J * (b * abs(c) ** 2 - c * abs(b) ** 2) / cross
    return first + center, abs(center)


def crossings(center, radius, other_center, other_radius):
    """Points that two circles share, by the law of cosines at the first centre; the left one first."""
    span = other_center - center
    angle = MP.acos((radius**2 + abs(span) ** 2 - other_radius**2) / (2 * radius * abs(span)))
    direction = radius * span / abs(span)
    return [center + direction * MP.expj(angle), center + direction * MP.expj(-angle)]


def rim_position(gamma):
    """Length of short-circuited line with the reactance of this point of the rim."""
    reactance = impedance(gamma / abs(gamma), 1).imag
    return MP.atan(reactance) / (2 * MP.pi) % HALF_WAVE


def rim_reflection(position):
    """Reflection of a short-circuited line."""
    return reflection(J * MP.tan(2 * MP.pi * position), 1)
