"""Does a designer with loss give every solution, nothing but solutions, and the right reason? Counted.

A third of the problems is planted: made backwards from lengths, which then must be found. The others have loads
anywhere on the chart and on its edges. All are searched as well (`lossy_search`).
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import numpy as np

from core import Solutions, lossy_double_stub, lossy_single_stub
from core.lossy import LOST
from core.lossy_designs import LONG, ONE_SHORT, WASTED
from core.lossy_stub_pairs import ACROSS_A_SHORT, ADD_NOTHING
from core.lossy_stub_pairs import LOST as TWO_LOST
from core.stubs import ALREADY_MATCHED
from tests.core import brute_force, completeness
from tests.core.lossy_search import DoubleStubs, SingleStubs, planted_doubles, planted_singles, searched

Array = np.ndarray[Any, Any]
Problems = SingleStubs | DoubleStubs
SAME = 1e-6
"""Wavelengths within which two pairs of lengths are one: near a double solution lengths are known no better."""
EDGE = 1e-8
"""Wavelengths from an end of the half wave within which the search does not say on which side a length is."""
HALF_WAVES = 8
"""How far a shorter solution than a long one, or any where none is given, is searched for."""


def single_stubs(count: int, seed: int, placement: str, end: str) -> Counter[str]:
    """Lossy single stubs of one kind."""
    return _counted(*planted_singles(count, seed, placement, end), lossy_single_stub, seed)


def double_stubs(count: int, seed: int, ends: tuple[str, str]) -> Counter[str]:
    """Lossy double stubs with these ends."""
    return _counted(*planted_doubles(count, seed, ends), lossy_double_stub, seed)


def _counted(problems: Any, first: Array, second: Array, designer: Any, seed: int) -> Counter[str]:
    kept = np.flatnonzero(np.abs(problems.load - 1) > 1e-9)  # a matched load is matched anywhere on the line
    planted = _part(problems, kept)
    found = _faults(planted, designer, (first[kept], second[kept]))
    found.update(_faults(_with_other_loads(planted, seed), designer, None))
    return found


def _part(problems: Any, kept: Array) -> Any:
    arrays = {name: v[..., kept] for name, v in vars(problems).items() if isinstance(v, np.ndarray)}
    return replace(problems, **arrays)


def _with_other_loads(problems: Any, seed: int) -> Any:
    """The problems twice, with loads anywhere on the chart and on its edges; some loss in all of them, so heavy in
    every fifth that only a longer solution or none is left."""
    twice = _part(problems, np.tile(np.arange(problems.load.size), 2))
    anywhere = brute_force.disc_loads(problems.load.size, seed)
    edges = np.array([load for x in (0.3, -2.0, 7.0) for load in completeness.edge_loads(1.0, x)])
    load = np.concatenate([anywhere, np.resize(edges, anywhere.size)])
    heavy = np.arange(load.size) % 5 == 0
    some = {
        name: np.where(heavy, 1.0, np.maximum(getattr(twice, name), 1e-3)) for name in ("loss", "stub_loss")
    }
    return replace(twice, load=load, **some)


def _faults(problems: Any, designer: Any, planted: tuple[Array, Array] | None) -> Counter[str]:
    cases = np.arange(problems.load.size)
    given = [designer(*problems.arguments(case)) for case in cases]
    number, one, other = _flat(given)
    short = (one < 0.5) & (other < 0.5)
    missed = np.zeros(cases.size, dtype=bool)
    for case, first, second in [searched(problems, cases), *([(cases, *planted)] if planted else [])]:
        clear = np.minimum(first, second) > EDGE if planted is None else first >= 0
        clear &= np.maximum(first, second) < 0.5 - EDGE
        missed[case[clear & ~_among(case, first, second, number, one, other)]] = True
    missed &= problems.load != 1
    long = np.flatnonzero(np.bincount(number[short], minlength=cases.size) == 0)
    missed[_shorter_exists(problems, long, given)] = True
    false = problems.reflection(number, one, other) > 1e-9
    wrong = [
        not _right_reason(problems, case, solutions) for case, solutions in zip(cases, given, strict=True)
    ]
    return Counter(
        {
            "cases": cases.size,
            "missed": int(missed.sum()),
            "false": int(false.sum()) + _repeated(given),
            "wrong reasons": sum(wrong),
        }
    )


def lengths(network: Any) -> tuple[float, float]:
    """The two lengths that were sought."""
    if len(network.elements) == 2:
        return network.distance, network.stub_length
    return network.stub_lengths


def _flat(given: list[Solutions]) -> tuple[Array, Array, Array]:
    rows = [(case, *lengths(network)) for case, solutions in enumerate(given) for network in solutions]
    number, one, other = np.array(rows).reshape(-1, 3).T
    return number.astype(int), one, other


def _among(case: Array, first: Array, second: Array, number: Array, one: Array, other: Array) -> Array:
    """Whether each pair of lengths is one of those given for its case."""
    near = np.abs(first[:, None] - one) + np.abs(second[:, None] - other) < SAME
    return np.any(near & (case[:, None] == number), axis=1)


def _shorter_exists(problems: Problems, cases: Array, given: list[Solutions]) -> Array:
    """Of the cases without a short solution those where the search finds a shorter one than is given, or one at
    all where none is."""
    if not cases.size:
        return cases
    shortest = np.array([sum(lengths(given[case][0])) if given[case] else HALF_WAVES / 2 for case in cases])
    case, one, other = searched(problems, cases, HALF_WAVES, steps=401)
    place = np.searchsorted(cases, case)
    return case[(one + other < shortest[place] - SAME) & (problems.load[case] != 1)]


def _repeated(given: list[Solutions]) -> int:
    """How many solutions are given twice, or are not in the order of their sums."""
    count = 0
    for solutions in given:
        pairs = [lengths(network) for network in solutions]
        count += len(pairs) - len({(float(f"{one:.10f}"), float(f"{other:.10f}")) for one, other in pairs})
        count += sorted(pairs, key=sum) != pairs
    return count


def _right_reason(problems: Any, case: int, solutions: Solutions) -> bool:
    """One sentence for each thing that is unusual, and none else."""
    load, pairs = problems.load[case], [lengths(network) for network in solutions]
    long = any(max(pair) >= 0.5 for pair in pairs)
    wasted = [WASTED] if pairs and (load.real == 0 or np.isinf(load.real)) else []
    if isinstance(problems, SingleStubs):
        if load == 1 and pairs:
            return solutions.reason == ALREADY_MATCHED
        none = LOST
    else:
        if pairs and max(pairs[0]) == 0:
            return solutions.reason == (
                ADD_NOTHING if len(pairs) == 1 else completeness.TWO_STUBS_ADD_NOTHING
            )
        none = ACROSS_A_SHORT if load == 0 and problems.distance[case] == 0 else TWO_LOST
    found = [none] if not pairs else [LONG] if long else [ONE_SHORT] if len(pairs) == 1 else []
    return sorted([*found, *wasted]) == sorted(_sentences(solutions.reason, [*found, *wasted]))


def _sentences(reason: str, wanted: list[str]) -> list[str]:
    """The wanted sentences that the reason is made of, and what is left of it."""
    told = [sentence for sentence in wanted if sentence in reason]
    for sentence in told:
        reason = reason.replace(sentence, "")
    return [*told, *filter(None, [reason.strip()])]
