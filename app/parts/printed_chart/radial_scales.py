"""Scales of what a size of reflection means, each drawn along a radius of the chart: |reflection|, SWR, return loss.

Positions are in radii of the chart from its centre, so that a compass opened from the centre to a point can be carried
to any of them. Round values get a number as far as numbers have room. Between two numbers all divisions are alike, in
the finest step of 1, 2 or 5 whose marks still stand a chosen gap apart: so whoever counts them finds the step, and none
changes but at a number. Toward infinity nothing can be counted, and so nothing is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, isinf

import numpy as np
from numpy.typing import ArrayLike

from app.parts.printed_chart.marks import Weight, digits, is_multiple
from core.line import reflection_from_return_loss, reflection_from_swr

STEPS = tuple(round(digit * 10.0**power, 2) for power in (-2, -1, 0, 1) for digit in (1, 2, 5))
GAPS: dict[Weight, float] = {"medium": 0.03, "fine": 0.008}
LABEL_GAP = 0.06
LARGEST = 100.0


@dataclass(frozen=True)
class RadialMark:
    """A division: where it stands, the value there, its weight, and its number if it bears one."""

    position: float
    value: float
    weight: Weight
    text: str = ""


@dataclass(frozen=True)
class RadialScale:
    """A scale from the centre (position 0) to the rim (position 1), its marks in that order."""

    key: str
    name: str
    marks: tuple[RadialMark, ...]


def radial_scales() -> tuple[RadialScale, ...]:
    """The three scales, each with every mark that has room in a chart of some 75 mm radius."""
    return (
        _scale("reflection", "size of the reflection |Γ|", lambda size: size, (0.0, 1.0)),
        _scale("swr", "standing-wave ratio", reflection_from_swr, (1.0, np.inf)),
        _scale("return loss", "return loss in dB", reflection_from_return_loss, (0.0, np.inf)),
    )


Position = Callable[[float], ArrayLike]


def _scale(key: str, name: str, place: Position, ends: tuple[float, float]) -> RadialScale:
    def position(value: float) -> float:
        return float(np.asarray(place(value)))

    numbered = sorted(_spaced(position, ends))
    marks = [
        RadialMark(position(value), value, "major", "∞" if isinf(value) else digits(value))
        for value in numbered
    ]
    for first, last in pairwise(numbered):
        marks += (
            RadialMark(position(value), value, weight) for value, weight in _between(first, last, position)
        )
    return RadialScale(key, name, tuple(sorted(marks, key=lambda mark: mark.position)))


def _between(first: float, last: float, position: Callable[[float], float]) -> Iterator[tuple[float, Weight]]:
    """The values that divide what is between two numbers evenly, each with its weight."""
    steps = [
        step for step in STEPS if not isinf(last) and is_multiple(first, step) and is_multiple(last, step)
    ]
    roomy = {
        weight: [s for s in steps if _keeps(gap, s, first, last, position)] for weight, gap in GAPS.items()
    }
    if not roomy["fine"]:
        return
    fine = roomy["fine"][0]
    medium = next((step for step in roomy["medium"] if is_multiple(step, fine)), last - first)
    for count in range(1, round((last - first) / fine)):
        value = round(first + count * fine, 2)
        yield value, "medium" if is_multiple(value - first, medium) else "fine"


def _keeps(gap: float, step: float, first: float, last: float, position: Callable[[float], float]) -> bool:
    """Whether marks a step apart stand a gap apart."""
    values = [first + count * step for count in range(round((last - first) / step) + 1)]
    return all(abs(position(b) - position(a)) >= gap * (1 - 1e-9) for a, b in pairwise(values))


def _spaced(position: Callable[[float], float], ends: tuple[float, float]) -> set[float]:
    """The values that get a number: both ends, and the roundest others that keep the gap to all before.

    A number of more than three characters would be wider than the gap."""
    chosen, last = set(ends), min(ends[1], LARGEST)
    steps = (step for step in STEPS if step >= 0.1)
    values = {
        round(step * count, 2)
        for step in steps
        for count in range(ceil(ends[0] / step), round(last / step) + 1)
    }
    short = (value for value in values if len(digits(value)) <= 3)
    for value in sorted(short, key=lambda value: (-_roundness(value), value)):
        if all(abs(position(value) - position(other)) >= LABEL_GAP for other in chosen):
            chosen.add(value)
    return chosen


def _roundness(value: float) -> float:
    """The coarsest step on which a value lies."""
    return max((step for step in STEPS if is_multiple(value, step)), default=0.0)
