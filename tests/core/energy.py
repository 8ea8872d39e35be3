"""Does energy balance? Counted, over networks of any parts between any loads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import numpy as np

from core import (
    ConjugateMatch,
    DistributedLine,
    LossyPart,
    LumpedPart,
    MatchingNetwork,
    Reactance,
    RealSection,
    RealStub,
    Section,
    Stub,
    power_flow,
    usual_cable,
)
from core.elements import Element
from core.real_line import LineModel
from tests.core.completeness import edge_loads

BALANCED, ROUNDING = 1e-12, 1e-15
DESIGN = 434e6
LINES = [usual_cable(name) for name in ("RG-58", "RG-174")]


def unbalanced(count: int, seed: int) -> Counter[str]:
    """How many of so many networks do not balance, to 1e-12 of the available power.

    Accepted and reflected power make up the whole; delivered and lost power what is accepted; no part without
    loss turns any to heat, and none gains."""
    rng, found = np.random.default_rng(seed), Counter({"networks": 0, "failed to balance": 0})
    while found["networks"] < count:
        line, x = float(rng.choice([50.0, 75.0])), float(rng.normal(0, 60))
        for load in [*edge_loads(line, x), complex(rng.uniform(1, 300), x)]:
            found["networks"] += 1
            found["failed to balance"] += not balances(_network(load, line, rng), rng.uniform(0.5, 1.5))
    return found


def balances(network: MatchingNetwork, ratio: float) -> bool:
    """Whether one network's powers add up at this frequency."""
    flow = power_flow(network, ratio)
    reflected = abs(network.input_reflection(ratio)) ** 2
    shared = flow.efficiency + sum(flow.lost)
    quiet = [
        lost == 0
        for lost, element in zip(flow.lost, network.elements, strict=True)
        if not (getattr(element, "attenuation", 0) or getattr(element, "resistance", 0))
    ]
    return (
        abs(flow.accepted + reflected - 1) <= BALANCED
        and (abs(shared - 1) <= BALANCED or shared == flow.accepted == 0)
        and all(quiet)
        and min((flow.accepted * lost for lost in flow.lost), default=0.0) >= -ROUNDING
    )


def _network(load: complex, line: float, rng: np.random.Generator) -> MatchingNetwork:
    """Up to five elements, before a line or, for a third of them, before a source of any impedance."""
    elements = tuple(KINDS[rng.integers(len(KINDS))](rng) for _ in range(rng.integers(0, 6)))
    if rng.integers(3):
        return MatchingNetwork(load, line, elements)
    return ConjugateMatch(load, line, elements, complex(rng.uniform(5, 200), rng.normal(0, 60)))


def _length(rng: np.random.Generator) -> float:
    """Many are whole quarter waves."""
    return float(rng.choice([0.0, 0.25, 0.5, rng.uniform(0, 1), rng.uniform(0, 1)]))


def _line(rng: np.random.Generator) -> tuple[float, float, float]:
    """Length, impedance and attenuation; half of the lines lose power."""
    return _length(rng), float(rng.uniform(20, 200)), float(rng.choice([0.0, 10 ** rng.uniform(-6, 0.3)]))


def _branch(rng: np.random.Generator) -> tuple[str, str]:
    return str(rng.choice(["shunt", "series"])), str(rng.choice(["short", "open"]))


def _stub(rng: np.random.Generator) -> Stub:
    length, impedance, loss = _line(rng)
    return Stub(length, impedance, *_branch(rng), loss)


def _part(rng: np.random.Generator) -> tuple[float, str]:
    """Ohms and placement of a part, or of no part."""
    placement = _branch(rng)[0]
    nothing = np.inf if placement == "shunt" else 0.0
    return float(rng.choice([rng.normal(0, 80), rng.normal(0, 80), nothing])), placement


def _quality(rng: np.random.Generator) -> float:
    return float(rng.choice([np.inf, 10 ** rng.uniform(0, 3)]))


def _real_line(rng: np.random.Generator) -> LineModel:
    """A cable, or a line so lossy that its impedance is far from real."""
    lossy = DistributedLine(float(10 ** rng.uniform(0, 3)), 2.5e-7, float(10 ** rng.uniform(-4, -1)), 1e-10)
    return LINES[rng.integers(len(LINES))] if rng.integers(2) else lossy


def _real_section(rng: np.random.Generator) -> RealSection:
    return RealSection(_length(rng), _real_line(rng), DESIGN)


def _real_stub(rng: np.random.Generator) -> RealStub:
    return RealStub(_length(rng), _real_line(rng), DESIGN, *_branch(rng))


KINDS: tuple[Callable[[np.random.Generator], Element], ...] = (
    lambda rng: Section(*_line(rng)),
    _stub,
    lambda rng: Reactance(float(rng.normal(0, 80)), _branch(rng)[0]),
    lambda rng: LumpedPart(*_part(rng)),
    lambda rng: LossyPart(*_part(rng), None, _quality(rng)),
    _real_section,
    _real_stub,
)
"""An element of each kind that there is."""
