"""Matching by search: chain matrices of lossless parts, and a scan that finds every root of a function.

Written from the parts' definitions and nothing else, so that it knows no designer's formula. A chain matrix is the
tuple (A, B, C, D) of complex arrays that broadcast; parts are listed from the load toward the generator.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

Array = np.ndarray[Any, Any]
Chain = tuple[Any, Any, Any, Any]
ENDINGS = [(first, second) for first in ("short", "open") for second in ("short", "open")]


def disc_loads(count: int, seed: int, rim: float = 0.98) -> Array:
    """Normalised loads spread evenly over the chart, up to an SWR of (1 + rim) / (1 - rim)."""
    rng = np.random.default_rng(seed)
    gamma = rim * np.sqrt(rng.random(count)) * np.exp(2j * np.pi * rng.random(count))
    return (1 + gamma) / (1 - gamma)


def line_loads(count: int, seed: int) -> tuple[Array, Array]:
    """Such loads in ohms, each on a line of a usual impedance; loads and lines."""
    lines = np.random.default_rng([seed, 1]).choice([50.0, 75.0, 100.0], count)
    return disc_loads(count, seed) * lines, lines


def line(length: Any, impedance: Any) -> Chain:
    """A section of line."""
    angle = 2 * np.pi * np.asarray(length)
    return np.cos(angle), 1j * impedance * np.sin(angle), 1j * np.sin(angle) / impedance, np.cos(angle)


def shunt(admittance: Any) -> Chain:
    """An admittance (siemens) across the line."""
    return 1.0, 0.0, admittance, 1.0


def series(impedance: Any) -> Chain:
    """An impedance (ohms) in the line."""
    return 1.0, impedance, 0.0, 1.0


def stub(length: Any, impedance: Any, end: str) -> Chain:
    """A shunt stub: the input admittance of a shorted or an open line."""
    tangent = np.tan(2 * np.pi * np.asarray(length))
    return shunt(1 / (1j * impedance * tangent) if end == "short" else 1j * tangent / impedance)


def seen(load: Any, parts: Sequence[Chain]) -> Any:
    """Impedance of the load through the parts, ohms."""
    voltage, current = load, 1.0
    for a, b, c, d in parts:
        voltage, current = a * voltage + b * current, c * voltage + d * current
    return voltage / current


def reflection(load: Any, parts: Sequence[Chain], line_impedance: Any) -> Any:
    """Reflection of the load through the parts."""
    impedance = seen(load, parts)
    return (impedance - line_impedance) / (impedance + line_impedance)


def all_roots(function: Callable[[Array, Array], Array], cases: int, grid: Array) -> tuple[Array, Array]:
    """Every root of function(case, u) for u over the grid, for all cases at once: (case, root) of each.

    Between points of the same sign, an extremum that comes near zero is searched too, so that two roots closer than
    the grid are found."""
    case = np.arange(cases)[:, None]
    values = function(np.broadcast_to(case, (cases, len(grid))), np.broadcast_to(grid, (cases, len(grid))))
    rows, left = np.nonzero((values[:, :-1] >= 0) != (values[:, 1:] >= 0))
    low, high = grid[left], grid[left + 1]
    hidden, dip, first, last = _hidden(function, values, grid)
    rows, low, high = (
        np.concatenate(parts) for parts in ((rows, hidden, hidden), (low, first, dip), (high, dip, last))
    )
    return rows, _bisected(function, rows, low, high)


def matches(
    rows: Array,
    found: Sequence[Array],
    cases: int,
    designed: Sequence[Sequence[Any]],
    periods: Sequence[float],
) -> tuple[Array, float]:
    """How many roots each case has less how many are designed, and the largest distance between the two.

    found : of each root its unknowns.  designed : of each solution the arrays of its unknowns, nan for none.
    periods : of each unknown; 0 for one that does not repeat, whose distance is relative."""
    surplus = np.bincount(rows, minlength=cases)
    nearest = np.full(len(rows), np.inf)
    for solution in designed:
        unknowns = [np.broadcast_to(unknown, cases) for unknown in solution]
        surplus = surplus - ~np.isnan(unknowns[0])
        apart = [_apart(f, u[rows], p) for f, u, p in zip(found, unknowns, periods, strict=True)]
        nearest = np.fmin(nearest, np.max(apart, axis=0))
    return surplus, float(nearest.max(initial=0.0))


def _apart(one: Array, other: Array, period: float) -> Array:
    if not period:
        return np.abs(one - other) / (1 + np.abs(other))
    return np.abs(np.mod(one - other + period / 2, period) - period / 2)


def _hidden(
    function: Callable[[Array, Array], Array], values: Array, grid: Array
) -> tuple[Array, Array, Array, Array]:
    """Extrema that reach the other sign between grid points: case, place, and the grid points around it."""
    before, here, after = values[:, :-2], values[:, 1:-1], values[:, 2:]
    sign = np.where(here >= 0, 1.0, -1.0)
    same = (sign * before > 0) & (sign * after > 0)
    rows, middle = np.nonzero(same & (sign * here <= sign * before) & (sign * here <= sign * after))
    sign, low, high = sign[rows, middle], grid[middle], grid[middle + 2]
    first, last = low, high
    golden = (np.sqrt(5) - 1) / 2
    for _ in range(60):
        left, right = high - golden * (high - low), low + golden * (high - low)
        leftward = sign * function(rows, left) < sign * function(rows, right)
        low, high = np.where(leftward, low, left), np.where(leftward, right, high)
    place = (low + high) / 2
    crosses = sign * function(rows, place) < 0
    return rows[crosses], place[crosses], first[crosses], last[crosses]


def _bisected(function: Callable[[Array, Array], Array], rows: Array, low: Array, high: Array) -> Array:
    positive = function(rows, low) >= 0
    for _ in range(60):
        middle = (low + high) / 2
        stay = (function(rows, middle) >= 0) == positive
        low, high = np.where(stay, middle, low), np.where(stay, high, middle)
    return (low + high) / 2
