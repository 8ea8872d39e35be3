"""Does a designer give every solution, nothing but solutions, and the right reason? Counted, for any number of cases.

Each case is asked for alone. How many solutions there are follows from where the load is (common practice, no
source); that each one given is a match is told by chain matrices (`brute_force`), which know no designer. As
many different matches as there are solutions: none is missed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import product
from typing import Any

import numpy as np

from core import (
    MatchingNetwork,
    Section,
    Stub,
    double_stub,
    l_network,
    one_section_transformer,
    quarter_wave,
    single_stub,
)
from core.double_stubs import MATCHED_ALREADY as TWO_STUBS_ADD_NOTHING
from core.double_stubs import ON_THE_BOUNDARY
from core.forbidden import HALF_WAVE_APART
from core.lumped import INSIDE_CONDUCTANCE, INSIDE_RESISTANCE, MATCHED_ALREADY, ON_A_CIRCLE
from core.solutions import TAKES_NO_POWER
from core.stubs import ALREADY_MATCHED
from core.transformers import MATCHED_ALREADY as SECTION_ADDS_NOTHING
from core.transformers import NO_SECTION, REAL_LOAD
from tests.core import brute_force

Expected = tuple[int, str]
NEAR = 1e-11
"""Of r or g: nearer a circle than this, and not made to be on it, a load is left out."""


def loads(count: int, seed: int) -> list[tuple[complex, float]]:
    """Loads in ohms and their lines: half of them anywhere on the chart, half on its edges and circles."""
    rng = np.random.default_rng([seed, 7])
    anywhere = zip(*brute_force.line_loads(count // 2, seed), strict=True)
    found = [(complex(load), float(line)) for load, line in anywhere]
    while len(found) < count:
        line, x = float(rng.choice([50.0, 75.0, 100.0])), float(rng.normal(0, 60))
        found += [(load, line) for load in edge_loads(line, x)]
    return found[:count]


def edge_loads(line: float, x: float) -> list[complex]:
    """Short, open, matched, reactive, real, on the unit circles, and 1e9 or 1e-9 of something."""
    real = [0.0, line, abs(x), 1e9, 1e-9]
    mixed = [1e-9 + 1j * x, 1e9 + 1j * x, complex(line, 1e9), complex(line, -1e-9), complex(1e9, 1e9)]
    circles = [
        complex(line, x),
        complex(line, -line),
        1 / (1 / line + 1j / x),
        1 / complex(1 / line, 1 / line),
    ]
    return [complex(np.inf, 0), 1j * x, -1j * line, *map(complex, real), *mixed, *circles]


def single_stubs(count: int, seed: int) -> Counter[str]:
    """Single stubs of all kinds."""
    kinds = product((0.6, 1.0, 1.5), ("shunt", "series"), ("short", "open"))
    designs = [lambda z, z0, s=s, p=p, e=e: single_stub(z, z0, s * z0, p, e) for s, p, e in kinds]
    return _counted(count, seed, designs, lambda z, z0, _: _single_expected(z, z0))


def double_stubs(count: int, seed: int) -> Counter[str]:
    """Double stubs of all kinds, at spacings with and without a forbidden region, on its boundary too."""
    kinds = list(product((0.125, 0.2, 0.25, 0.375, 0.5), brute_force.ENDINGS))
    designs = [lambda z, z0, s=s, e=e: double_stub(z, z0, s, ends=e) for s, e in kinds]
    return _counted(count, seed, designs, lambda z, z0, n: _double_expected(z, z0, kinds[n][0]), _on_boundary)


def quarter_waves(count: int, seed: int) -> Counter[str]:
    """Quarter waves after a line or beside a stub."""
    return _counted(count, seed, [quarter_wave], lambda z, z0, _: _quarter_expected(z, z0))


def single_sections(count: int, seed: int) -> Counter[str]:
    """The section of general impedance and length."""
    return _counted(count, seed, [one_section_transformer], lambda z, z0, _: _section_expected(z, z0))


def l_networks(count: int, seed: int) -> Counter[str]:
    """L networks."""
    return _counted(count, seed, [l_network], lambda z, z0, _: _l_expected(z, z0))


SUITES: dict[str, Callable[[int, int], Counter[str]]] = {
    "single stub": single_stubs,
    "double stub": double_stubs,
    "quarter wave": quarter_waves,
    "one section": single_sections,
    "L network": l_networks,
}


def _counted(
    count: int,
    seed: int,
    designs: list[Callable[..., Any]],
    expected: Callable[[complex, float, int], Expected | None],
    extra: Callable[[int], tuple[complex, float] | None] = lambda n: None,
) -> Counter[str]:
    found: Counter[str] = Counter({"cases": 0, "missed": 0, "false": 0, "wrong reasons": 0})
    for number, case in enumerate(loads(count, seed)):
        kind = number % len(designs)
        load, line = extra(number) or case
        wanted = expected(load, line, kind)
        if wanted is None:
            continue
        solutions = designs[kind](load, line)
        good = [network for network in solutions if _left_over(network) <= _rounding(load, line)]
        different = {_values(network) for network in good}
        found["cases"] += 1
        found["missed"] += max(0, wanted[0] - len(different))
        found["false"] += len(solutions) - min(len(different), wanted[0])
        found["wrong reasons"] += not _says(solutions.reason, wanted[1])
    return found


def _says(reason: str, wanted: str) -> bool:
    return reason.startswith(wanted) if wanted else reason == ""


def _values(network: MatchingNetwork) -> tuple[float, ...]:
    """What makes a network different from another, to nine digits."""
    parts = [vars(element) for element in network.elements]
    numbers = [
        v for part in parts for name, v in part.items() if name in ("length", "impedance", "reactance")
    ]
    kinds = [str(part.get("placement", "")) + str(part.get("end", "")) for part in parts]
    return (*(float(f"{number:.9g}") for number in numbers), *map(hash, kinds))


def _left_over(network: MatchingNetwork) -> float:
    """|reflection| by chain matrices."""
    load, parts = network.load_impedance, [chain(element) for element in network.elements]
    voltage, current = (1.0, 0.0) if np.isinf(load) else (load, 1.0)
    for a, b, c, d in parts:
        voltage, current = a * voltage + b * current, c * voltage + d * current
    drop = network.line_impedance * current
    return float(abs((voltage - drop) / (voltage + drop)))


def chain(element: Any) -> brute_force.Chain:
    """Chain matrix of an element from its definition, up to a factor: a branch of impedance over / under."""
    if isinstance(element, Section):
        return brute_force.line(element.length, element.impedance)
    if isinstance(element, Stub):
        cosine, sine = np.cos(2 * np.pi * element.length), 1j * np.sin(2 * np.pi * element.length)
        over, under = (sine, cosine) if element.end == "short" else (cosine, sine)
        over = element.impedance * over
    else:
        over, under = 1j * element.reactance, 1.0
    if np.isinf(over):
        return 1.0, 0.0, 0.0, 1.0
    return (under, over, 0.0, under) if element.placement == "series" else (over, 0.0, under, over)


def _rounding(load: complex, line: float) -> float:
    """What the last digit of a length leaves on a line of this load's SWR."""
    z = load / line
    return 1e-10 + 1e-14 * (abs(z + 1) + abs(z - 1)) ** 2 / (4 * z.real) if 0 < z.real < np.inf else 1e-10


def _powerless(load: complex) -> bool:
    return load.real == 0 or np.isinf(load.real)


def _single_expected(load: complex, line: float) -> Expected:
    if _powerless(load):
        return 0, TAKES_NO_POWER
    return (1, ALREADY_MATCHED) if load == line else (2, "")


def _double_expected(load: complex, line: float, spacing: float) -> Expected | None:
    """g sin² of the spacing against 1; the sine squares are exact for eighths."""
    if _powerless(load):
        return 0, TAKES_NO_POWER
    if spacing == 0.5:
        return 0, HALF_WAVE_APART
    square = {0.125: 0.5, 0.25: 1.0, 0.375: 0.5}.get(spacing, np.sin(2 * np.pi * spacing) ** 2)
    conductance = (line / load).real * square
    if abs(conductance - 1) < 1e-13:
        return 1, ON_THE_BOUNDARY
    if abs(conductance - 1) < NEAR:
        return None
    if conductance > 1:
        return 0, "At the first stub this load shows a conductance of"
    return 2, TWO_STUBS_ADD_NOTHING if load == line else ""


def _on_boundary(number: int) -> tuple[complex, float] | None:
    """Every seventh load shows twice the line's conductance, the limit for an eighth of a wavelength."""
    return (1 / complex(2 / 50, (number % 11 - 5) / 100), 50.0) if number % 7 == 0 else None


def _quarter_expected(load: complex, line: float) -> Expected:
    if _powerless(load):
        return 0, TAKES_NO_POWER
    if load == line:
        return 1, SECTION_ADDS_NOTHING
    return (2, REAL_LOAD) if load.imag == 0 else (4, "")


def _section_expected(load: complex, line: float) -> Expected | None:
    if _powerless(load):
        return 0, TAKES_NO_POWER
    if load == line:
        return 1, SECTION_ADDS_NOTHING
    r, g = load.real / line, (line / load).real
    if r == 1:
        return 0, NO_SECTION
    if min(abs(r - 1), abs(g - 1)) < NEAR:
        return None
    return (1, "") if r > 1 or g > 1 else (0, NO_SECTION)


def _l_expected(load: complex, line: float) -> Expected | None:
    if _powerless(load):
        return 0, TAKES_NO_POWER
    if load == line:
        return 1, MATCHED_ALREADY
    r, g = load.real / line, (line / load).real
    if min(abs(r - 1), abs(g - 1)) < 4e-16:
        return 2, ON_A_CIRCLE
    if min(abs(r - 1), abs(g - 1)) < NEAR:
        return None
    return (2, INSIDE_RESISTANCE) if r > 1 else (2, INSIDE_CONDUCTANCE) if g > 1 else (4, "")
