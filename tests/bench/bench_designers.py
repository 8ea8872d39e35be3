"""How fast the designers are: networks per second on arrays, and as a ratio to a root-finder called load by load.

Run with `python -m tests.bench.bench_designers`. The root-finder is scipy's `fsolve` on the full equation (reflection
zero), written from chain matrices and started beside the answer, which flatters it. Both are timed in one run.
"""

from collections.abc import Callable
from functools import partial
from time import process_time
from typing import Any

import numpy as np
from scipy.optimize import fsolve

from core import double_stub, l_network, one_section_transformer, quarter_wave
from tests.core import brute_force

LOADS, SEARCHED, LINE = 200_000, 300, 50.0
Equation = Callable[[complex, Any], complex]


def main() -> None:
    loads = brute_force.disc_loads(LOADS, seed=1, rim=0.8) * LINE
    print(f"{LOADS} loads at a time; fsolve one load at a time; best of 3")
    print(f"{'designer':<24}{'networks/s':>14}{'fsolve/s':>12}{'ratio':>10}")
    for name, (design, unknowns, equation) in DESIGNERS.items():
        fast = existing(design(loads), unknowns) / seconds(partial(design, loads))
        search = partial(solved, loads[:SEARCHED], design, unknowns, equation)
        slow = search() / seconds(search)
        print(f"{name:<24}{fast:>14,.0f}{slow:>12,.0f}{fast / slow:>10,.0f}")


def existing(networks: Any, unknowns: Callable[[Any], Any]) -> int:
    """How many of the networks of an array are there: those that are not nan."""
    return sum(int(np.sum(~np.isnan(unknowns(network)[1]))) for network in networks)


def seconds(work: Callable[[], Any]) -> float:
    """Shortest of three times, the processor's, so that others on the machine do not count."""
    times = []
    for _ in range(3):
        start = process_time()
        work()
        times.append(process_time() - start)
    return min(times)


def solved(
    loads: Any, design: Callable[[Any], Any], unknowns: Callable[[Any], Any], equation: Equation
) -> int:
    """Solves the equation for the first network of each load that has one; how many it solved."""
    answers = np.transpose(unknowns(design(loads)[0]))
    count = 0
    for load, answer in zip(loads.tolist(), answers, strict=True):
        if np.isnan(answer).any():
            continue
        root, _, ended, _ = fsolve(
            lambda u, load=load: both(equation(load, u)), answer + 0.01, full_output=True
        )
        count += ended == 1 and abs(equation(load, root)) < 1e-6
    return count


def both(value: complex) -> tuple[float, float]:
    """Real and imaginary part: two real equations."""
    return value.real, value.imag


def double_stub_equation(load: complex, lengths: Any) -> complex:
    first, second = (brute_force.stub(length, LINE, "open") for length in lengths)
    return brute_force.reflection(load, (first, brute_force.line(0.125, LINE), second), LINE)


def quarter_wave_equation(load: complex, unknowns: Any) -> complex:
    distance, ratio = unknowns
    return brute_force.reflection(
        load, (brute_force.line(distance, LINE), brute_force.line(0.25, LINE * ratio)), LINE
    )


def one_section_equation(load: complex, unknowns: Any) -> complex:
    length, ratio = unknowns
    return brute_force.reflection(load, (brute_force.line(length, LINE * ratio),), LINE)


def l_network_equation(load: complex, unknowns: Any) -> complex:
    susceptance, reactance = unknowns
    parts = brute_force.shunt(1j * susceptance / LINE), brute_force.series(1j * reactance * LINE)
    return brute_force.reflection(load, parts, LINE)


DESIGNERS: dict[str, tuple[Callable[[Any], Any], Callable[[Any], Any], Equation]] = {
    "double_stub": (
        lambda loads: double_stub(loads, LINE, 0.125, ends=("open", "open")),
        lambda network: network.stub_lengths,
        double_stub_equation,
    ),
    "quarter_wave": (
        lambda loads: quarter_wave(loads, LINE),
        lambda network: (network.distance, network.section_impedance / LINE),
        quarter_wave_equation,
    ),
    "one_section_transformer": (
        lambda loads: one_section_transformer(loads, LINE),
        lambda network: (network.section_length, network.section_impedance / LINE),
        one_section_equation,
    ),
    "l_network": (
        lambda loads: l_network(loads, LINE, 434e6),
        lambda network: (network.shunt_susceptance, network.series_reactance),
        l_network_equation,
    ),
}

if __name__ == "__main__":
    main()
