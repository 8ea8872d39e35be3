"""Matches by stubs and rows of sections found by search, and compared with the designers': see `searches`."""

from __future__ import annotations

from typing import Any

import numpy as np

import core
from tests.core import brute_force
from tests.core.brute_force import Array
from tests.core.searches import ALONG_A_STUB, TURNS, Counts, compared, length_for


def series_double_stub(count: int, seed: int, ends: tuple[str, str]) -> Counts:
    """A search along the first stub for a resistance of 1 at the second."""
    load, line = brute_force.line_loads(count, seed)
    rng = np.random.default_rng([seed, 4])
    spacing, distance = rng.uniform(0.02, 0.48, count), rng.uniform(0, 0.5, count)
    stubs = rng.uniform(20, 150, (2, count))
    at_stub = brute_force.seen(load, [brute_force.line(distance, line)])

    def added(case: Array, turn: Array) -> Array:
        return (at_stub.real[case] + line[case]) * np.tan(turn) - at_stub.imag[case]

    def at_second(case: Array, turn: Array) -> Array:
        parts = [brute_force.series(1j * added(case, turn)), brute_force.line(spacing[case], line[case])]
        return brute_force.seen(at_stub[case], parts)

    rows, turn = brute_force.all_roots(lambda case, t: at_second(case, t).real / line[case] - 1, count, TURNS)
    reactances = added(rows, turn), -at_second(rows, turn).imag
    found = [
        length_for(x / stub[rows], "series", end)
        for x, stub, end in zip(reactances, stubs, ends, strict=True)
    ]
    networks = core.series_double_stub(load, line, spacing, distance, ends, stubs)
    designed = [network.stub_lengths for network in networks]
    name = f"series double stub, {' '.join(ends)}"
    return compared(name, count, rows, found, networks, designed, (0.5, 0.5))


def triple_stub(count: int, seed: int, ends: tuple[str, str, str]) -> Counts:
    """A search along the second stub, the first given, for a conductance of 1 at the third."""
    load, line = brute_force.line_loads(count, seed)
    rng = np.random.default_rng([seed, 4])
    spacings, distance = rng.uniform(0.02, 0.48, (2, count)), rng.uniform(0, 0.5, count)
    stubs, first = rng.uniform(20, 150, (3, count)), rng.uniform(0.02, 0.48, count)
    parts = (
        brute_force.line(distance, line),
        brute_force.stub(first, stubs[0], ends[0]),
        brute_force.line(spacings[0], line),
    )
    at_second = 1 / brute_force.seen(load, parts)

    def added(case: Array, turn: Array) -> Array:
        return (at_second.real[case] + 1 / line[case]) * np.tan(turn) - at_second.imag[case]

    def at_third(case: Array, turn: Array) -> Array:
        parts = [brute_force.shunt(1j * added(case, turn)), brute_force.line(spacings[1][case], line[case])]
        return 1 / brute_force.seen(1 / at_second[case], parts)

    rows, turn = brute_force.all_roots(lambda case, t: at_third(case, t).real * line[case] - 1, count, TURNS)
    susceptances = added(rows, turn), -at_third(rows, turn).imag
    found = [
        length_for(b * stub[rows], "shunt", end)
        for b, stub, end in zip(susceptances, stubs[1:], ends[1:], strict=True)
    ]
    networks = core.triple_stub(load, line, spacings, distance, first, ends, stubs)
    designed = [network.stub_lengths[1:] for network in networks]
    name = f"triple stub, {' '.join(ends)}"
    return compared(name, count, rows, found, networks, designed, (0.5, 0.5))


def first_of_three(count: int, seed: int) -> Counts:
    """A search along the first stub for half the limit at the second, where the other two do not match alone."""
    load, line = brute_force.line_loads(count, seed)
    rng = np.random.default_rng([seed, 4])
    spacings, distance = rng.uniform(0.02, 0.48, (2, count)), rng.uniform(0, 0.5, count)
    at_first = 1 / brute_force.seen(load, [brute_force.line(distance, line)])
    limit = np.sin(2 * np.pi * spacings[1]) ** -2

    def shown(case: Array, added: Array) -> Array:
        parts = brute_force.shunt(1j * added), brute_force.line(spacings[0][case], line[case])
        return (line[case] / brute_force.seen(1 / at_first[case], parts)).real / limit[case]

    def added(case: Array, turn: Array) -> Array:
        return (at_first.real[case] + 1 / line[case]) * np.tan(turn) - at_first.imag[case]

    alone = shown(np.arange(count), np.zeros(count)) <= 1
    rows, turn = brute_force.all_roots(lambda case, t: 2 * shown(case, added(case, t)) - 1, count, TURNS)
    rows, turn = rows[~alone[rows]], turn[~alone[rows]]
    length = length_for(added(rows, turn) * line[rows], "shunt", "short")
    networks = core.triple_stub(load, line, spacings, distance)
    idle = np.flatnonzero(alone)
    rows, length = np.concatenate([rows, idle]), np.concatenate([length, np.full(idle.size, 0.25)])
    designed = [network.stub_lengths[:1] for network in networks[::2]]
    counts = compared("triple stub by rule", count, rows, [length], networks[::2], designed, (0.5,))
    both = [~np.isnan(network.stub_lengths[0]) for network in networks]
    assert all(np.array_equal(one, other) for one, other in zip(both[::2], both[1::2], strict=True))
    return counts


def two_equal_stubs(count: int, seed: int, end: str) -> Counts:
    """A search along the line for a conductance of 1."""
    load, line = brute_force.line_loads(count, seed)
    stub = np.random.default_rng([seed, 4]).uniform(20, 150, count)

    def y(case: Array, distance: Array) -> Array:
        return 1 / brute_force.seen(load[case], [brute_force.line(distance, line[case])])

    grid = np.linspace(0, 0.5, 257) - 1e-3
    rows, distance = brute_force.all_roots(lambda case, d: y(case, d).real * line[case] - 1, count, grid)
    length = length_for(-y(rows, distance).imag / 2 * stub[rows], "shunt", end)
    networks = core.two_equal_stubs(load, line, stub, end)
    designed = [(network.distance, network.stub_length) for network in networks]
    return compared(
        f"two equal stubs, {end}", count, rows, (distance, length), networks, designed, (0.5, 0.5)
    )


def stub_and_section(count: int, seed: int, placement: str, end: str) -> Counts:
    """A search along the section for what shows the load's own conductance (or resistance) at its other end."""
    load, line = brute_force.line_loads(count, seed)
    stub, section = np.random.default_rng([seed, 4]).uniform([[20], [15]], [[150], [250]], (2, count))
    w = 1 / load if placement == "shunt" else load

    def wanted(case: Array, length: Array) -> Array:
        z = brute_force.seen(line[case], [brute_force.line(length, section[case])])
        return np.conj(1 / z if placement == "shunt" else z)

    grid = np.linspace(0, 0.5, 1_025) - 1e-4
    rows, length = brute_force.all_roots(lambda case, d: wanted(case, d).real / w.real[case] - 1, count, grid)
    added = (wanted(rows, length) - w[rows]).imag
    side = length_for(added * (stub[rows] if placement == "shunt" else 1 / stub[rows]), placement, end)
    networks = core.stub_and_section(load, line, section, stub, placement, end)
    designed = [(network.stub_length, network.section_length) for network in networks]
    name = f"stub and section, {placement} {end}"
    return compared(name, count, rows, (side, length), networks, designed, (0.5, 0.5))


def stub_and_quarter_wave(count: int, seed: int, placement: str, end: str) -> Counts:
    """A search along the stub for a real impedance."""
    load, line = brute_force.line_loads(count, seed)
    stub = np.random.default_rng([seed, 4]).uniform(20, 150, count)
    shift = 0.0 if (end == "short") == (placement == "shunt") else 0.25

    def behind(case: Array, length: Array) -> Array:
        if placement == "shunt":
            return brute_force.seen(load[case], [brute_force.stub(length, stub[case], end)])
        tangent = np.tan(2 * np.pi * length)
        return load[case] + 1j * stub[case] * (tangent if end == "short" else -1 / tangent)

    def phase(case: Array, length: Array) -> Array:
        z = behind(case, length)
        return z.imag / np.abs(z)

    rows, length = brute_force.all_roots(phase, count, ALONG_A_STUB + shift)
    impedance = np.sqrt(behind(rows, length).real * line[rows])
    networks = core.stub_and_section(load, line, None, stub, placement, end)
    designed = [(network.stub_length, network.section_impedance) for network in networks]
    name = f"stub and quarter wave, {placement} {end}"
    return compared(name, count, rows, (length, impedance), networks, designed, (0.5, 0))


def two_sections(count: int, seed: int) -> Counts:
    """A search over the first of two sections for a match at the centre that is flat there."""
    ratio = np.exp(np.random.default_rng([seed, 5]).uniform(0.05, 3, count))

    def slope(case: Array, size: Array) -> Array:
        one, off = np.exp(size), 1e-5
        parts = [brute_force.line(0.25 * (1 + off), z) for z in (one * np.sqrt(ratio[case]), one)]
        return brute_force.reflection(ratio[case], parts, 1.0).imag / off

    rows, size = brute_force.all_roots(slope, count, np.linspace(-6, 6, 401))
    networks = core.binomial_transformer(ratio, 1.0, 2)[:1]
    designed = [network.section_impedances[1:] for network in networks]
    return compared("binomial, two sections", count, rows, [np.exp(size)], networks, designed, (0,))


def equal_ripples(count: int, seed: int) -> Counts:
    """The reflection of rows of up to 20 sections against the law that they are made for, at 64 frequencies."""
    rng = np.random.default_rng([seed, 5])
    angle = np.linspace(0.02, np.pi - 0.02, 64)
    wrong, worst = 0, 0.0
    for number, ratio, width in zip(
        rng.integers(1, 21, count),
        np.exp(rng.uniform(-3, 3, count)),
        rng.uniform(0.2, 1.7, count),
        strict=True,
    ):
        network: Any = core.chebyshev_transformer(ratio, 1.0, int(number), bandwidth=float(width))[0]
        edge = np.pi / 2 * (1 - width / 2)
        x = np.cos(angle) / np.cos(edge)
        law = np.cosh(number * np.arccosh(x + 0j)).real / np.cosh(number * np.arccosh(1 / np.cos(edge)))
        power = (ratio - 1) ** 2 / (4 * ratio) * law**2
        off = np.abs(np.abs(network.input_reflection(2 * angle / np.pi)) - np.sqrt(power / (1 + power))).max()
        worst, wrong = max(worst, float(off)), wrong + int(off > 1e-9)
    return Counts("equal ripples", count, count, wrong, 0, 0.0, worst)
