"""Matches of lossy lines and stubs by search, and by planting them: it knows no designer's formula.

Written from the line equations alone (cosh and sinh of gamma length). Whatever stands before the last stub is
walked through in small steps; at each the stub that would be needed has a complex length, and a match is where
that length is real.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from tests.core import brute_force

Array = np.ndarray[Any, Any]
SINGLE = [(placement, end) for placement in ("shunt", "series") for end in ("short", "open")]
DOUBLE = [(first, second) for first in ("short", "open") for second in ("short", "open")]


def wave_number(loss: Any) -> Any:
    """Nepers and radians per wavelength."""
    return loss + 2j * np.pi


def through(voltage: Any, current: Any, gamma: Any, length: Any) -> tuple[Any, Any]:
    """Voltage and current on the generator's side of a line of impedance one."""
    cosh, sinh = np.cosh(gamma * length), np.sinh(gamma * length)
    return voltage * cosh + current * sinh, current * cosh + voltage * sinh


def back_through(voltage: Any, current: Any, gamma: Any, length: Any) -> tuple[Any, Any]:
    """Voltage and current on the load's side of a line of impedance one."""
    return through(voltage, current, gamma, -length)


def stub_admittance(gamma: Any, length: Any, end: str) -> Any:
    """Of a stub of impedance one."""
    tangent = np.tanh(gamma * length)
    return 1 / tangent if end == "short" else tangent


@dataclass(frozen=True)
class SingleStubs:
    """Single-stub problems: loads over the line's impedance, lines in ohms, losses, stub over line impedance."""

    load: Array
    line: Array
    loss: Array
    stub_loss: Array
    ratio: Array
    placement: str
    end: str

    def arguments(self, case: Any = slice(None)) -> tuple[Any, ...]:
        """What the designer is asked with."""
        line = self.line[case]
        return (
            _ohms(self.load[case], line),
            line,
            self.loss[case],
            self.stub_loss[case],
            self.ratio[case] * line,
            self.placement,
            self.end,
        )

    def needed(self, case: Array, distance: Array) -> Array:
        """Complex gamma length of the stub that a place on the line needs: its real part is never negative."""
        voltage, current = _state(self.load)
        voltage, current = through(voltage[case], current[case], wave_number(self.loss[case]), distance)
        if self.placement == "series":
            voltage, current, ratio = current, voltage, self.ratio[case]
        else:
            ratio = 1 / self.ratio[case]
        return _complex_length((voltage - current) / (ratio * voltage), (self.placement, self.end))

    def reflection(self, case: Array, distance: Array, length: Array) -> Array:
        """What these lengths leave."""
        voltage, current = _state(self.load)
        voltage, current = through(voltage[case], current[case], wave_number(self.loss[case]), distance)
        gamma = wave_number(self.stub_loss[case]) * length
        up, down = (
            (np.sinh(gamma), np.cosh(gamma)) if self.end == "short" else (np.cosh(gamma), np.sinh(gamma))
        )
        if self.placement == "shunt":
            voltage, current = voltage * up, current * up + voltage * down / self.ratio[case]
        else:
            voltage, current = voltage * down + current * up * self.ratio[case], current * down
        return np.abs((voltage - current) / (voltage + current))


@dataclass(frozen=True)
class DoubleStubs:
    """Double-stub problems: as the single ones, with the distances in wavelengths and two ratios."""

    ends: tuple[str, str]
    load: Array
    line: Array
    loss: Array
    stub_loss: Array
    spacing: Array
    distance: Array
    ratios: Array

    def arguments(self, case: Any = slice(None)) -> tuple[Any, ...]:
        """What the designer is asked with."""
        line = self.line[case]
        return (
            _ohms(self.load[case], line),
            line,
            self.spacing[case],
            self.loss[case],
            self.stub_loss[case],
            self.distance[case],
            self.ends,
            self.ratios[:, case] * line,
        )

    def at_second(self, case: Array, length: Array) -> tuple[Array, Array]:
        """Voltage and current at the second stub, behind a first one of this length."""
        voltage, current = _state(self.load)
        gamma = wave_number(self.loss[case])
        voltage, current = through(voltage[case], current[case], gamma, self.distance[case])
        own = wave_number(self.stub_loss[case]) * length
        up, down = (np.sinh(own), np.cosh(own)) if self.ends[0] == "short" else (np.cosh(own), np.sinh(own))
        voltage, current = voltage * up, current * up + voltage * down / self.ratios[0, case]
        return through(voltage, current, gamma, self.spacing[case])

    def needed(self, case: Array, length: Array) -> Array:
        """Complex gamma length of the second stub that a first one needs."""
        voltage, current = self.at_second(case, length)
        wanted = (voltage - current) * self.ratios[1, case] / voltage
        return _complex_length(wanted, ("shunt", self.ends[1]))

    def reflection(self, case: Array, first: Array, second: Array) -> Array:
        """What these lengths leave."""
        voltage, current = self.at_second(case, first)
        own = wave_number(self.stub_loss[case]) * second
        up, down = (np.sinh(own), np.cosh(own)) if self.ends[1] == "short" else (np.cosh(own), np.sinh(own))
        voltage, current = voltage * up, current * up + voltage * down / self.ratios[1, case]
        return np.abs((voltage - current) / (voltage + current))


def searched(
    problems: SingleStubs | DoubleStubs, cases: Array, half_waves: int = 1, steps: int = 1001
) -> tuple[Array, Array, Array]:
    """Every match of the cases whose two lengths are each below so many half waves: case and both lengths."""
    found = []
    grid = np.linspace(0, half_waves / 2, half_waves * (steps - 1) + 1) + 1e-13
    for more in range(half_waves):

        def excess(number: Array, place: Array, more: int = more) -> Array:
            case = cases[number]
            with np.errstate(divide="ignore", invalid="ignore"):
                wanted = problems.needed(case, place)
            length = np.mod(wanted.imag / (2 * np.pi), 0.5) + more / 2
            return np.nan_to_num(wanted.real - problems.stub_loss[case] * length, nan=np.inf)

        number, place = brute_force.all_roots(excess, cases.size, grid)
        real = np.abs(excess(number, place)) < 1e-9  # and no jump
        number, place = number[real], place[real]
        length = np.mod(problems.needed(cases[number], place).imag / (2 * np.pi), 0.5) + more / 2
        found.append((cases[number], place, length))
    case, one, other = (np.concatenate(parts) for parts in zip(*found, strict=True))
    good = problems.reflection(case, one, other) < 1e-6
    return case[good], one[good], other[good]


def planted_singles(count: int, seed: int, placement: str, end: str) -> tuple[SingleStubs, Array, Array]:
    """Problems made backwards from a distance and a stub length, and these two."""
    rng = np.random.default_rng([seed, SINGLE.index((placement, end))])
    distance, length = _lengths(rng, count), _lengths(rng, count)
    loss, stub_loss = _losses(rng, count)
    line, ratio = rng.choice([50.0, 75.0, 100.0], count), rng.choice([0.3, 0.75, 1.0, 1.5, 2.5], count)
    shown = stub_admittance(wave_number(stub_loss), length, end)
    voltage, current = np.ones(count, complex), 1 - shown / ratio
    if placement == "series":
        voltage, current = 1 - ratio / shown, np.ones(count, complex)
    voltage, current = back_through(voltage, current, wave_number(loss), distance)
    real = _passive(voltage, current)
    parts = (voltage[real] / current[real], line[real], loss[real], stub_loss[real], ratio[real])
    return SingleStubs(*parts, placement, end), distance[real], length[real]


def planted_doubles(count: int, seed: int, ends: tuple[str, str]) -> tuple[DoubleStubs, Array, Array]:
    """Problems made backwards from two stub lengths, and these two."""
    rng = np.random.default_rng([seed, DOUBLE.index(ends)])
    first, second, distance = (_lengths(rng, count) for _ in range(3))
    spacing = rng.uniform(0.02, 0.48, count)
    loss, stub_loss = _losses(rng, count)
    line, ratios = rng.choice([50.0, 75.0, 100.0], count), rng.choice([0.5, 0.75, 1.0, 2.0], (2, count))
    gamma, own = wave_number(loss), wave_number(stub_loss)
    current = 1 - stub_admittance(own, second, ends[1]) / ratios[1]
    voltage, current = back_through(np.ones(count, complex), current, gamma, spacing)
    current = current - voltage * stub_admittance(own, first, ends[0]) / ratios[0]
    voltage, current = back_through(voltage, current, gamma, distance)
    real = _passive(voltage, current)
    parts = [v[..., real] for v in (voltage / current, line, loss, stub_loss, spacing, distance, ratios)]
    return DoubleStubs(ends, *parts), first[real], second[real]


def _lengths(rng: np.random.Generator, count: int) -> Array:
    """Lengths in [0, 0.5), many of them at or near the ends and the quarter wave."""
    edges = [1e-9, 1e-4, 0.125, 0.25 - 1e-6, 0.25, 0.25 + 1e-6, 0.5 - 1e-4]
    return np.where(rng.random(count) < 0.15, rng.choice(edges, count), rng.uniform(0.001, 0.499, count))


def _losses(rng: np.random.Generator, count: int) -> tuple[Array, Array]:
    """Of line and stub, from 0.001 to 2 nepers per wavelength: often the same, sometimes of one of them none."""
    loss, other = 10 ** rng.uniform(-3, 0.3, (2, count))
    kind = rng.random(count)
    return np.where(kind < 0.1, 0.0, loss), np.where(kind < 0.4, loss, np.where(kind > 0.9, 0.0, other))


def _passive(voltage: Array, current: Array) -> Array:
    return np.isfinite(voltage / current) & ((voltage / current).real >= 0)


def _ohms(load: Any, line: Any) -> Any:
    is_open = np.isinf(load)
    return np.where(is_open, complex(np.inf, 0.0), np.where(is_open, 0.0, load) * line)[()]


def _state(load: Array) -> tuple[Array, Array]:
    is_open = np.isinf(load.real)
    return np.where(is_open, 1.0, load), np.where(is_open, 0.0, 1.0)


def _complex_length(shown: Array, kind: tuple[str, str]) -> Array:
    """gamma length of a stub that shows an immittance: its tanh, or one over it."""
    tangent = shown if kind in (("shunt", "open"), ("series", "short")) else 1 / shown
    return np.arctanh(tangent)
