"""Matches of the later designers found by search, from the parts' definitions only, and compared with theirs.

Each search takes a number of random problems and a seed and gives `Counts`: what a designer missed, what it gave
that no search finds, and how far both are apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

import core
from tests.core import brute_force
from tests.core.brute_force import Array

EXACT = 1e-8
TURNS = np.linspace(-np.pi / 2, np.pi / 2, 1_026)[1:-1]

ALONG_A_STUB = np.concatenate([[1e-9], np.linspace(0, 0.5, 2_001)[1:-1], [0.5 - 1e-9]])  # right to the poles


@dataclass(frozen=True)
class Counts:
    """What comparing a designer with a search came to."""

    designer: str
    cases: int
    found: int
    missed: int
    invented: int
    apart: float
    left_over: float

    @property
    def off(self) -> int:
        """1 where values or reflections are further off than rounding explains, or where nothing was found."""
        return int(self.apart > EXACT or self.left_over > EXACT or not self.found)

    @property
    def failures(self) -> int:
        """Matches missed or invented, and one for being off."""
        return self.missed + self.invented + self.off


def compared(
    name: str, cases: int, rows: Array, found: Sequence[Array], networks: Any, designed: Any, periods: Any
) -> Counts:
    """Counts of a designer whose networks have these unknowns, as `brute_force.matches` compares them."""
    surplus, apart = brute_force.matches(rows, found, cases, designed, periods)
    size = [np.abs(np.broadcast_to(network.input_reflection(), cases)) for network in networks]
    left_over = np.nanmax(size, initial=0.0)
    exists = [~np.isnan(np.broadcast_to(one[0], cases)) for one in designed]
    assert all(np.array_equal(there, ~np.isnan(s)) for there, s in zip(exists, size, strict=True))
    missed, invented = surplus[surplus > 0].sum(), -surplus[surplus < 0].sum()
    return Counts(name, cases, len(rows), int(missed), int(invented), apart, float(left_over))


def problems(count: int, seed: int) -> tuple[Any, Array, Array, Array]:
    """A generator of numbers, and loads, sources and lines in ohms."""
    load, line = brute_force.line_loads(count, seed)
    return np.random.default_rng([seed, 3]), load, brute_force.disc_loads(count, seed + 1_000) * line, line


def conjugate_single_stub(count: int, seed: int, placement: str, end: str) -> Counts:
    """A search along the line for the real part that the source asks for."""
    rng, load, source, line = problems(count, seed)
    stub, to_source = rng.uniform(20, 150, count), rng.uniform(0, 0.5, count)
    seen = np.conj(brute_force.seen(source, [brute_force.line(to_source, line)]))
    wanted = 1 / seen if placement == "shunt" else seen

    def there(case: Array, distance: Array) -> Array:
        z = brute_force.seen(load[case], [brute_force.line(distance, line[case])])
        return 1 / z if placement == "shunt" else z

    rows, distance = brute_force.all_roots(
        lambda case, d: there(case, d).real / wanted.real[case] - 1, count, np.linspace(0, 0.5, 257) - 1e-3
    )
    added = (wanted[rows] - there(rows, distance)).imag * (
        stub[rows] if placement == "shunt" else 1 / stub[rows]
    )
    length = length_for(added, placement, end)
    networks = core.conjugate_single_stub(load, source, line, stub, placement, end, to_source)
    designed = [(network.distance, network.stub_length) for network in networks]
    name = f"conjugate single stub, {placement} {end}"
    return compared(name, count, rows, (distance, length), networks, designed, (0.5, 0.5))


def conjugate_quarter_wave(count: int, seed: int) -> Counts:
    """A search along the line for the angle of the source."""
    _, load, source, line = problems(count, seed)

    def beside(case: Array, distance: Array) -> Array:
        z = brute_force.seen(load[case], [brute_force.line(distance, line[case])])
        return (z * np.conj(source[case])).imag / np.abs(z * source[case])

    rows, distance = brute_force.all_roots(beside, count, np.linspace(0, 0.5, 513) - 1e-3)
    z = brute_force.seen(load[rows], [brute_force.line(distance, line[rows])])
    networks = core.conjugate_quarter_wave(load, source, line)[:2]
    designed = [(network.distance, network.section_impedance) for network in networks]
    found = distance, np.sqrt(np.abs(z * source[rows]))
    return compared("conjugate quarter wave", count, rows, found, networks, designed, (0.5, 0))


def conjugate_quarter_wave_beside_stub(count: int, seed: int, end: str) -> Counts:
    """A search along a stub at the load for the angle of the source."""
    _, load, source, line = problems(count, seed)

    def beside(case: Array, length: Array) -> Array:
        y = 1 / brute_force.seen(load[case], [brute_force.stub(length, line[case], end)])
        return (y * source[case]).imag / np.abs(y * source[case])

    grid = ALONG_A_STUB + (0.0 if end == "short" else 0.25)
    rows, length = brute_force.all_roots(beside, count, grid)
    z = brute_force.seen(load[rows], [brute_force.stub(length, line[rows], end)])
    networks = core.conjugate_quarter_wave(load, source, line)[2 + (end == "open") :][:1]
    designed = [(network.stub_length, network.section_impedance) for network in networks]
    found = length, np.sqrt(np.abs(z * source[rows]))
    return compared(f"conjugate quarter wave, {end} stub", count, rows, found, networks, designed, (0.5, 0))


def conjugate_section(count: int, seed: int) -> Counts:
    """A search over the section's impedance for equal mismatches of the load and of what the source asks for."""
    _, load, source, line = problems(count, seed)
    aim = np.conj(source)

    def unequal(case: Array, size: Array) -> Array:
        own = line[case] * np.exp(size)
        sent = load.real[case] * np.abs(aim[case] + own) ** 2, aim.real[case] * np.abs(load[case] + own) ** 2
        return (sent[0] - sent[1]) / (sent[0] + sent[1])

    rows, size = brute_force.all_roots(unequal, count, np.linspace(-20, 20, 801))
    own = line[rows] * np.exp(size)
    turn = np.angle((load[rows] - own) / (load[rows] + own)) - np.angle((aim[rows] - own) / (aim[rows] + own))
    networks = core.conjugate_section(load, source)
    designed = [(network.section_length, network.section_impedance) for network in networks]
    return compared("conjugate section", count, rows, (turn / (4 * np.pi), own), networks, designed, (0.5, 0))


def conjugate_l_network(count: int, seed: int, placement: str) -> Counts:
    """A search over the near part for the real part that the far part cannot change."""
    _, load, source, line = problems(count, seed)
    here, aim = (1 / load, np.conj(source)) if placement == "shunt" else (load, 1 / np.conj(source))

    def near(case: Array, turn: Array) -> Array:
        return here.real[case] * np.tan(turn) - here.imag[case]

    def beside(case: Array, turn: Array) -> Array:
        return (1 / (here[case] + 1j * near(case, turn))).real / aim.real[case] - 1

    rows, turn = brute_force.all_roots(beside, count, TURNS)
    added = near(rows, turn)
    far = (aim[rows] - 1 / (here[rows] + 1j * added)).imag
    found_all = core.conjugate_l_network(load, source)
    networks = found_all[:2] if placement == "shunt" else found_all[2:]
    scale = line if placement == "shunt" else 1 / line
    found = added * scale[rows], far / scale[rows]
    designed = [
        tuple(value * s for value, s in zip(immittances(n), (scale, 1 / scale), strict=True))
        for n in networks
    ]
    return compared(f"conjugate L, {placement} first", count, rows, found, networks, designed, (0, 0))


def lossy_l_network(count: int, seed: int, placement: str) -> Counts:
    """A search over the near part of either kind for the direction of either kind of far part."""
    rng, load, source, line = problems(count, seed)
    quality = 10 ** rng.uniform(0, 3, (2, count))
    here, aim = (1 / load, np.conj(source)) if placement == "shunt" else (load, 1 / np.conj(source))
    other = "series" if placement == "shunt" else "shunt"
    rows, found = [], []
    for near_kind in (0, 1):
        for far_kind in (0, 1):
            one = _part(quality[near_kind], near_kind, placement)
            two = _part(quality[far_kind], far_kind, other)

            def left(case: Array, size: Array, one: Array = one, two: Array = two) -> Array:
                near = np.abs(here[case]) * 10**size
                return (aim[case] - 1 / (here[case] + near * one[case])) / two[case]

            def aside(case: Array, size: Array, left: Any = left) -> Array:
                rest = left(case, size)
                return rest.imag / np.abs(rest)

            row, size = brute_force.all_roots(aside, count, np.linspace(-8, 6, 2_801))
            rest = left(row, size)
            keep = (rest.real > 0) & (np.abs(rest.imag) < 1e-6 * rest.real)
            row, near, far = row[keep], (np.abs(here[row]) * 10**size)[keep], rest.real[keep]
            rows.append(row)
            found.append([_reactance(near, near_kind, placement), _reactance(far, far_kind, other)])
    case = np.concatenate(rows)
    values = [np.concatenate([pair[which] for pair in found]) / line[case] for which in (0, 1)]
    networks = [
        n for n in core.lossy_l_network(load, source, *quality) if n.elements[0].placement == placement
    ]
    designed = [tuple(_size(part) / line for part in n.elements) for n in networks]
    return compared(f"lossy L, {placement} first", count, case, values, networks, designed, (0, 0))


def three_parts(count: int, seed: int, designer: Any, placement: str) -> Counts:
    """A search over the near part for the quality factor asked for, with both far parts that match."""
    rng, load, source, line = problems(count, seed)
    quality = 10 ** rng.uniform(-0.3, 1.5, count)
    w, aim = (1 / load, 1 / np.conj(source)) if placement == "shunt" else (load, np.conj(source))

    def highest(case: Array, turn: Array) -> Array:
        middle = (1 / (w.real[case] * (1 + 1j * np.tan(turn)))).real
        far = 1 / (aim.real[case] * middle) - 1
        return (
            np.where(far < 0, -1.0, np.maximum(np.abs(np.tan(turn)), np.sqrt(np.maximum(far, 0))))
            / quality[case]
            - 1
        )

    rows, turn = brute_force.all_roots(highest, count, TURNS)
    keep = np.abs(highest(rows, turn)) < 1e-6
    rows, turn = rows[keep], turn[keep]
    far = np.sqrt(np.maximum(np.cos(turn) ** -2 * w.real[rows] / aim.real[rows] - 1, 0))
    scale = line if placement == "shunt" else 1 / line
    near = (w.real[rows] * np.tan(turn) - w.imag[rows]) * scale[rows]
    last = [(aim.imag[rows] + sign * far * aim.real[rows]) * scale[rows] for sign in (1, -1)]
    networks = designer(load, source, quality)
    designed = [tuple(immittances(n)[which] * scale for which in (0, 2)) for n in networks]
    found = np.concatenate([near, near]), np.concatenate(last)
    return compared(designer.__name__, count, np.concatenate([rows, rows]), found, networks, designed, (0, 0))


def immittances(network: Any) -> list[Array]:
    """Susceptance of each shunt part and reactance of each series part, siemens and ohms."""
    return [
        -1 / np.asarray(part.reactance) if part.placement == "shunt" else np.asarray(part.reactance)
        for part in network.elements
    ]


def length_for(value: Array, placement: str, end: str) -> Array:
    """Stub length for a susceptance or reactance of its own."""
    rises = (placement == "series") == (end == "short")
    return np.mod((np.arctan(value) if rises else np.arctan2(-1.0, value)) / (2 * np.pi), 0.5)


def _part(quality: Array, kind: int, placement: str) -> Array:
    """Direction of the impedance (series) or admittance (shunt) of an inductor, kind 0, or capacitor, kind 1."""
    impedance = 1 / quality + (1j, -1j)[kind]
    direction = impedance if placement == "series" else 1 / impedance
    return direction / np.abs(direction)


def _reactance(size: Array, kind: int, placement: str) -> Array:
    """Magnitude of the part's impedance, negative for a capacitor."""
    return (1, -1)[kind] * (size if placement == "series" else 1 / size)


def _size(part: Any) -> Array:
    return np.asarray(part.reactance) * np.sqrt(1 + 1 / np.asarray(part.quality) ** 2)
