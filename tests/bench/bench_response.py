"""How fast a response is: 201 frequencies of 1,000 networks, and as a ratio to the cascade of scikit-rf.

Run with `python -m tests.bench.bench_response`. The library cascades one network at a time over all
frequencies, as it is meant to be used; it is timed on some of the networks in the same run, and the answers
are compared.
"""

from collections.abc import Callable
from functools import partial
from time import perf_counter
from typing import Any

import numpy as np

from core import (
    Errors,
    MatchingNetwork,
    SeriesLoad,
    bandwidth,
    double_stub,
    lossy_double_stub,
    lossy_single_stub,
    monte_carlo,
    single_stub,
)
from tests.core import brute_force
from tests.reference.lossy_cascade import cascade

NETWORKS, CASCADED, LINE = 1_000, 20, 50.0
RATIOS = np.linspace(0.503, 1.507, 201)
GOAL_MS = 50.0


def main() -> None:
    loads = brute_force.disc_loads(NETWORKS, seed=1, rim=0.8) * LINE
    print(f"{RATIOS.size}-point response of {NETWORKS} networks (goal < {GOAL_MS:g} ms), best of 5")
    print(f"{'network':<28}{'ms':>9}{'us a network':>15}{'scikit-rf':>12}{'ratio':>8}{'differ by':>12}")
    for name, network in designs(loads).items():
        ours = milliseconds(partial(network.input_reflection, RATIOS))
        few = [member(network, number) for number in np.flatnonzero(network.total_line > 0)[:CASCADED]]
        theirs = milliseconds(partial(cascade_all, few), times=2) / CASCADED
        apart = max(np.max(np.abs(cascade(one, RATIOS) - one.input_reflection(RATIOS))) for one in few)
        each = ours / NETWORKS
        print(
            f"{name:<28}{ours:>9.1f}{1e3 * each:>15.1f}{1e3 * theirs:>12.0f}{theirs / each:>8.0f}{apart:>12.1e}"
        )
    near = single_stub(loads, LINE)[0]
    print("\nof the same networks")
    for name, work in more(near, loads).items():
        print(f"{name:<52}{milliseconds(work, times=2):>9.1f} ms")


def cascade_all(networks: list[MatchingNetwork]) -> list[Any]:
    return [cascade(network, RATIOS) for network in networks]


def designs(loads: Any) -> dict[str, MatchingNetwork]:
    """Arrays of networks of two to four elements, with and without loss."""
    return {
        "single stub": single_stub(loads, LINE)[0],
        "single stub, lossy": lossy_single_stub(loads, LINE, 0.02, end="open")[0],
        "double stub": double_stub(loads, LINE, 1 / 8)[0],
    }


def more(near: MatchingNetwork, loads: Any) -> dict[str, Callable[[], Any]]:
    """Other questions to the same thousand networks."""
    return {
        "response with a load of R and C": lambda: near.input_reflection(
            RATIOS, SeriesLoad.of(loads).at(RATIOS)
        ),
        "bandwidth at SWR 2, edges to 1e-12": lambda: bandwidth(near),
        "Monte Carlo, 200 trials each": lambda: monte_carlo(near, Errors(0.005, 0.02, 0.01, 0.05), 200),
        "single stub solved again with loss": lambda: lossy_single_stub(loads, LINE, 0.02),
        "the same, the stub losing more": lambda: lossy_single_stub(loads, LINE, 0.02, 0.05),
        "double stub solved again with loss": lambda: lossy_double_stub(loads, LINE, 1 / 8, 0.02),
    }


def member(network: MatchingNetwork, number: int) -> MatchingNetwork:
    """One network of an array, as scalars."""
    elements = tuple(
        type(e)(**{name: one_of(value, number) for name, value in vars(e).items()}) for e in network.elements
    )
    return MatchingNetwork(one_of(network.load_impedance, number), LINE, elements)


def one_of(value: Any, number: int) -> Any:
    return value[number].item() if np.ndim(value) else value


def milliseconds(work: Callable[[], Any], times: int = 5) -> float:
    """Shortest of some times."""
    taken = []
    for _ in range(times):
        start = perf_counter()
        work()
        taken.append(perf_counter() - start)
    return 1e3 * min(taken)


if __name__ == "__main__":
    main()
