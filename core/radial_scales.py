"""Scales of what a size of reflection means, each drawn along a radius of the chart: |reflection|, SWR, return loss.

Positions are in radii of the chart from its centre, so that a compass opened from the centre to a point can be carried
to any of them. A scale takes the round values in steps of 1, 2 and 5; a step is used as far as its neighbours still
stand a chosen gap apart, to the last value that a ten times coarser step shares, so that no run ends in mid-air.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import floor, isinf, log10

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import plain
from core.scales import Weight, number

STEPS = tuple(round(digit * 10.0**power, 2) for power in (-2, -1, 0, 1) for digit in (1, 2, 5))
GAPS: dict[Weight, float] = {"medium": 0.03, "fine": 0.009}
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


def reflection_of_swr(ratio: ArrayLike) -> ArrayLike:
    """Size of the reflection on a line whose standing-wave ratio is `ratio`: (S - 1) / (S + 1); 1 for inf.

    ratio : 1 or more, any shape.  Source: the inverse of `swr` in core.line."""
    values = np.asarray(ratio, dtype=float)
    with np.errstate(invalid="ignore"):
        return plain(np.where(np.isinf(values), 1.0, (values - 1) / (values + 1)))


def reflection_of_return_loss(decibels: ArrayLike) -> ArrayLike:
    """Size of the reflection that gives this return loss: 10 to the power of -decibels / 20; 0 for inf.

    decibels : 0 or more, any shape.  Source: the inverse of `return_loss_db` in core.line."""
    return plain(10 ** (-np.asarray(decibels, dtype=float) / 20))


def radial_scales() -> tuple[RadialScale, ...]:
    """The three scales, each with every mark that has room in a chart of some 75 mm radius."""
    return (
        _scale("reflection", "size of the reflection |Γ|", lambda size: size, (0.0, 1.0)),
        _scale("swr", "standing-wave ratio", reflection_of_swr, (1.0, np.inf)),
        _scale("return loss", "return loss in dB", reflection_of_return_loss, (0.0, np.inf)),
    )


Position = Callable[[float], ArrayLike]


def _scale(key: str, name: str, place: Position, ends: tuple[float, float]) -> RadialScale:
    def position(value: float) -> float:
        return float(np.asarray(place(value)))

    coarse, fine = (set(_divisions(position, ends, gap)) for gap in GAPS.values())
    medium = coarse & fine
    labelled = _spaced(fine, position, ends)
    marks = [
        RadialMark(
            position(value),
            value,
            "major" if value in labelled else "medium" if value in medium else "fine",
            ("∞" if isinf(value) else number(value)) if value in labelled else "",
        )
        for value in {*ends, *fine}
    ]
    return RadialScale(key, name, tuple(sorted(marks, key=lambda mark: mark.position)))


def _divisions(position: Callable[[float], float], ends: tuple[float, float], gap: float) -> Iterator[float]:
    """Values of the finest step that keeps the gap, step after step: each goes on where the one before it ended."""
    reached, last = ends[0], min(ends[1], LARGEST)
    for step in STEPS:
        counts = range(round(reached / step), round(last / step) + 1)
        values = [value for value in (round(step * count, 2) for count in counts) if value > reached + 1e-9]
        kept = [
            value for value in values if abs(position(value) - position(value - step)) >= gap * (1 - 1e-9)
        ]
        coarser = 10.0 ** (floor(log10(step) + 1e-9) + 1)
        limit = coarser * floor(kept[-1] / coarser + 1e-9) if kept else 0.0
        yield from (value for value in kept if value <= limit)
        reached = max(reached, limit)


def _spaced(values: Iterable[float], position: Callable[[float], float], ends: Sequence[float]) -> set[float]:
    """The values that get a number: both ends, and the roundest others that keep the gap to all before.

    A number of more than three characters would be wider than the gap."""
    chosen = set(ends)
    short = (value for value in values if len(number(value)) <= 3)
    for value in sorted(short, key=lambda value: (-_roundness(value), value)):
        if all(abs(position(value) - position(other)) >= LABEL_GAP for other in chosen):
            chosen.add(value)
    return chosen


def _roundness(value: float) -> float:
    """The coarsest step on which a value lies."""
    return max((step for step in STEPS if abs(value / step - round(value / step)) < 1e-9), default=0.0)
