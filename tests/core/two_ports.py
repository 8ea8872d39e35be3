"""Two-ports to test with: random passive ones, and a pad, a mast's coil, a cable of the Aldermoor River Watch."""

import numpy as np

from core import TwoPort, line_two_port, two_port_from, usual_cable
from core.arrays import Array

SWEEP = np.linspace(400e6, 470e6, 15)


def random_scattering(seed: int, frequencies: int = 15, largest: float = 0.95) -> Array:
    """Random scattering parameters that let through at most `largest` of what comes in."""
    rng = np.random.default_rng(seed)
    raw = rng.normal(size=(frequencies, 2, 2)) + 1j * rng.normal(size=(frequencies, 2, 2))
    size = np.linalg.norm(raw, ord=2, axis=(-2, -1))
    return raw / size[:, None, None] * largest


def random_two_port(seed: int, reference: object = 50.0) -> TwoPort:
    """A random two-port that is passive and lets different parts through either way."""
    return TwoPort(SWEEP, random_scattering(seed), reference)


def series(impedance: complex) -> TwoPort:
    """An impedance in the line."""
    return two_port_from("ABCD", SWEEP, np.broadcast_to([[1, impedance], [0, 1]], (15, 2, 2)))


def cable(metres: float = 12.0, name: str = "RG-58") -> TwoPort:
    """A length of usual cable."""
    return line_two_port(usual_cable(name), metres, SWEEP)
