"""Does energy balance? Counted, over networks of any parts between any loads."""

from __future__ import annotations

from collections import Counter

import numpy as np

from core import MatchingNetwork, Reactance, Section, Stub, power_flow
from core.elements import Element
from tests.core.completeness import edge_loads

BALANCED = 1e-12


def unbalanced(count: int, seed: int) -> Counter[str]:
    """How many of so many networks do not balance, to 1e-12 of the available power.

    Accepted and reflected power make up the whole; delivered and lost power what is accepted; no part without
    loss turns any to heat, and none gains."""
    rng, found = np.random.default_rng(seed), Counter({"networks": 0, "failed to balance": 0})
    while found["networks"] < count:
        line, x = float(rng.choice([50.0, 75.0])), float(rng.normal(0, 60))
        for load in [*edge_loads(line, x), complex(rng.uniform(1, 300), x)]:
            elements = tuple(_element(rng) for _ in range(rng.integers(0, 6)))
            found["networks"] += 1
            found["failed to balance"] += not balances(
                MatchingNetwork(load, line, elements), rng.uniform(0.5, 1.5)
            )
    return found


def balances(network: MatchingNetwork, ratio: float) -> bool:
    """Whether one network's powers add up at this frequency."""
    flow = power_flow(network, ratio)
    reflected = abs(network.input_reflection(ratio)) ** 2
    shared = flow.efficiency + sum(flow.lost)
    quiet = [
        lost == 0
        for lost, element in zip(flow.lost, network.elements, strict=True)
        if not getattr(element, "attenuation", 0)
    ]
    return (
        abs(flow.accepted + reflected - 1) <= BALANCED
        and (abs(shared - 1) <= BALANCED or shared == flow.accepted == 0)
        and all(quiet)
        and min(flow.lost, default=0.0) >= 0
    )


def _element(rng: np.random.Generator) -> Element:
    """A section, a stub or a reactance; half of the lines lose power, many lengths are whole quarter waves."""
    length = float(rng.choice([0.0, 0.25, 0.5, rng.uniform(0, 1), rng.uniform(0, 1)]))
    impedance, loss = float(rng.uniform(20, 200)), float(rng.choice([0.0, 10 ** rng.uniform(-6, 0.3)]))
    placement, end = str(rng.choice(["shunt", "series"])), str(rng.choice(["short", "open"]))
    kind = rng.integers(3)
    if kind == 0:
        return Section(length, impedance, loss)
    return (
        Stub(length, impedance, placement, end, loss)
        if kind == 1
        else Reactance(float(rng.normal(0, 80)), placement)
    )
