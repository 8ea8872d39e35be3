"""Seeded random loads at the places of the chart where arithmetic is hard, normalised to the line."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Loads = NDArray[np.complexfloating]


def random(seed: int) -> np.random.Generator:
    """The same numbers on every run."""
    return np.random.default_rng(seed)


def decades(rng: np.random.Generator, low: float, high: float, count: int) -> NDArray[np.floating]:
    """Sizes that are equally likely in every decade from 10^low to 10^high."""
    return 10 ** rng.uniform(low, high, count)


def directions(rng: np.random.Generator, count: int) -> Loads:
    """Unit vectors all round."""
    return np.exp(2j * np.pi * rng.uniform(0, 1, count))


def anywhere(rng: np.random.Generator, count: int) -> Loads:
    """All over the chart out to an SWR of 100, equally likely on equal areas."""
    return of_reflection(99 / 101 * np.sqrt(rng.uniform(0, 1, count)) * directions(rng, count))


def small_and_large(rng: np.random.Generator, count: int) -> Loads:
    """Thousandths to thousands of the line's impedance, at any passive angle."""
    return decades(rng, -3, 3, count) * np.exp(1j * rng.uniform(-1.56, 1.56, count))


def near_a_match(rng: np.random.Generator, count: int) -> Loads:
    """Off the centre by a hundredth down to a thousand-millionth."""
    return 1 + decades(rng, -9, -2, count) * directions(rng, count)


def near_the_rim(rng: np.random.Generator, count: int) -> Loads:
    """SWR of 100 to 1000, where almost all power returns."""
    ratio = decades(rng, 2, 3, count)
    return of_reflection((ratio - 1) / (ratio + 1) * directions(rng, count))


def almost_unit_resistance(rng: np.random.Generator, count: int) -> Loads:
    """Inside or outside the unit-resistance circle by a thousandth down to nothing."""
    off = rng.choice([-1, 0, 1], count) * decades(rng, -16, -3, count)
    return 1 + off + 1j * rng.choice([-1, 1], count) * decades(rng, -2, 1, count)


def almost_unit_conductance(rng: np.random.Generator, count: int) -> Loads:
    """The same about the unit-conductance circle."""
    return 1 / almost_unit_resistance(rng, count)


def real(rng: np.random.Generator, count: int) -> Loads:
    """On the axis."""
    return decades(rng, -2, 2, count) + 0j


def of_reflection(gamma: Loads) -> Loads:
    """Normalised impedance of a reflection, here only to spread loads over the chart."""
    return (1 + gamma) / (1 - gamma)


PLACES: list[Callable[[np.random.Generator, int], Loads]] = [
    anywhere,
    small_and_large,
    near_a_match,
    near_the_rim,
    almost_unit_resistance,
    almost_unit_conductance,
    real,
]
