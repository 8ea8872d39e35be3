"""How fast the later designers, the lossy ones, one load alone and the import are: ratios in one run.

Run with `python -m tests.bench.bench_chapters`. Designers are compared with scipy's `fsolve` on the full equation
(reflection zero) of the network that they return, written from chain matrices in plain complex numbers and started
beside the answer, which flatters it. One load alone is compared with the search of `bench_solver`, which has to find
both solutions from nowhere; the import with numpy's own, each in an interpreter of its own.
"""

import cmath
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from math import pi
from typing import Any

import numpy as np
from scipy.optimize import fsolve

import core
from core import MatchingNetwork, Section, Stub
from tests.bench import bench_solver
from tests.bench.bench_designers import both, seconds
from tests.bench.bench_response import member
from tests.core import brute_force

LOADS, SEARCHED, LINE, SOURCE = 20_000, 100, 50.0, 40 + 15j
Unknown = tuple[str, tuple[int, ...]]
"""Name of a value, and the elements that have it in common."""
FIRST, SECOND, FOURTH = ("length", (0,)), ("length", (1,)), ("length", (3,))
PARTS: tuple[Unknown, ...] = (("reactance", (0,)), ("reactance", (1,)))

DESIGNERS: dict[str, tuple[Callable[[Any], Any], tuple[Unknown, ...]]] = {
    "lossy single stub": (lambda z: core.lossy_single_stub(z, LINE, 0.02), (FIRST, SECOND)),
    "its stub losing more": (lambda z: core.lossy_single_stub(z, LINE, 0.02, 0.05), (FIRST, SECOND)),
    "lossy double stub": (lambda z: core.lossy_double_stub(z, LINE, 0.125, 0.02), (SECOND, FOURTH)),
    "conjugate single stub": (lambda z: core.conjugate_single_stub(z, SOURCE, LINE), (FIRST, SECOND)),
    "conjugate section": (lambda z: core.conjugate_section(z, SOURCE), (FIRST, ("impedance", (0,)))),
    "conjugate L": (lambda z: core.conjugate_l_network(z, SOURCE, 434e6), PARTS),
    "lossy L": (lambda z: core.lossy_l_network(z, SOURCE, 60.0), PARTS),
    "Pi": (lambda z: core.pi_network(z, SOURCE, 6.0), PARTS),
    "T": (lambda z: core.t_network(z, SOURCE, 6.0), PARTS),
    "series double stub": (lambda z: core.series_double_stub(z, LINE, 0.125), (SECOND, FOURTH)),
    "triple stub": (lambda z: core.triple_stub(z, LINE, (0.11, 0.13)), (FOURTH, ("length", (5,)))),
    "two equal stubs": (lambda z: core.two_equal_stubs(z, LINE), (FIRST, ("length", (1, 2)))),
    "stub and section": (lambda z: core.stub_and_section(z, LINE, 75), (FIRST, SECOND)),
}


def main() -> None:
    """Print a line for each."""
    loads = brute_force.disc_loads(LOADS, seed=1, rim=0.8) * LINE
    print(f"{LOADS:,} loads at a time; fsolve one load at a time; best of 3")
    print(f"{'designer':<24}{'loads/s':>12}{'fsolve/s':>12}{'ratio':>9}{'solved':>9}")
    for name, (design, unknowns) in DESIGNERS.items():
        fast = LOADS / seconds(partial(design, loads))
        some = [network for network in members(design(loads[:SEARCHED])[0]) if there(network)]
        search = partial(solved, some, unknowns)
        slow = len(some) / seconds(search)
        print(f"{name:<24}{fast:>12,.0f}{slow:>12,.0f}{fast / slow:>9,.0f}{search() / len(some):>9.0%}")
    few = loads[:SEARCHED].tolist()
    alone = partial(bench_solver.one_by_one, partial(core.single_stub, line_impedance=LINE), few)
    ours, theirs = (
        bench_solver.seconds(work) / SEARCHED
        for work in (alone, partial(bench_solver.one_by_one, bench_solver.searched, few))
    )
    print(f"single stub, one load: {1e6 * ours:.0f} us; fsolve takes {theirs / ours:,.0f} times as long")
    numpy_alone = imported("numpy", "")
    for what in ("core", "core.stubs", "core.lossy", "core.tolerance", "core.real_pieces"):
        more = imported(what, "import numpy, numpy.typing")
        print(f"import {what:<17}{1e3 * more:>6.1f} ms over numpy, {more / numpy_alone:.2f} of numpy's own")


def imported(what: str, before: str) -> float:
    """Processor seconds to import a module in a new interpreter that has imported others; least of seven."""
    code = (
        f"{before}\nfrom time import process_time as now\nbegun = now()\nimport {what}\nprint(now() - begun)"
    )
    run = partial(subprocess.run, [sys.executable, "-c", code], capture_output=True, check=True)
    return min(float(run().stdout) for _ in range(7))


def members(networks: MatchingNetwork) -> list[MatchingNetwork]:
    """The networks of an array, one by one."""
    return [member(networks, number) for number in range(SEARCHED)]


def there(network: MatchingNetwork) -> bool:
    return not np.isnan(network.input_reflection())


def solved(networks: list[MatchingNetwork], unknowns: tuple[Unknown, ...]) -> int:
    """Looks for the values of each network from beside them; how many it found."""
    count = 0
    for network in networks:
        parts = [(element, dict(vars(element))) for element in network.elements]
        answer = np.array([parts[places[0]][1][name] for name, places in unknowns])
        equation = partial(mismatch, network, parts, unknowns)
        root, _, ended, _ = fsolve(lambda u, f=equation: both(f(u)), answer * 1.01 + 1e-3, full_output=True)
        count += ended == 1 and abs(equation(root)) < 1e-6
    return count


def mismatch(network: MatchingNetwork, parts: Any, unknowns: tuple[Unknown, ...], values: Any) -> complex:
    """Reflection at the generator with these values in place of the network's own."""
    for (name, places), value in zip(unknowns, values, strict=True):
        for place in places:
            parts[place][1][name] = value
    voltage, current = complex(network.load_impedance), 1 + 0j
    for element, values_of in parts:
        a, b, c, d = chain(element, **values_of)
        voltage, current = a * voltage + b * current, c * voltage + d * current
    own = complex(network.generator_impedance)
    return (voltage - own.conjugate() * current) / (voltage + own * current)


def chain(element: Any, **values: Any) -> brute_force.Chain:
    """Chain matrix of a section, a stub or a part with these values."""
    if isinstance(element, Section | Stub):
        turn = values["length"] * (values["attenuation"] + 2j * pi)
        cosine, sine, own = cmath.cosh(turn), cmath.sinh(turn), values["impedance"]
        if isinstance(element, Section):
            return cosine, own * sine, sine / own, cosine
        impedance = own * (sine / cosine if values["end"] == "short" else cosine / sine)
    else:
        impedance = values["reactance"] * 1j + abs(values["reactance"]) / values.get("quality", np.inf)
    return (1, impedance, 0, 1) if values["placement"] == "series" else (1, 0, 1 / impedance, 1)


if __name__ == "__main__":
    main()
