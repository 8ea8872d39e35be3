"""Which answers the tutor says the same of, as a quiz can test it: an interval of numbers, a disc, or an option.

They are found by asking the tutor. A region never reaches farther than the tutor says the same; where it cannot follow
an edge exactly it stays within.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, isfinite
from typing import Any

import numpy as np

from lessons.grammar.lesson import Field, Work
from lessons.working.marking import ROUNDED, SURE, Verdict, mark

DECIMALS = 7
HALVINGS, DOUBLINGS, DIRECTIONS = 26, 24, 9
ROUND = 1e-5  # of its radius: nearer to a circle than this, an edge is one
Judge = Callable[[Any], Verdict]


@dataclass(frozen=True)
class Interval:
    """Real numbers from `low` to `high`, about `middle`."""

    middle: float
    low: float
    high: float


@dataclass(frozen=True)
class Disc:
    """Complex numbers about a centre."""

    centre: complex
    radius: float


@dataclass(frozen=True)
class Option:
    """One of the options of a choice."""

    key: str


Region = Interval | Disc | Option


def as_typed(value: Any) -> str:
    """A value as exactly as a box takes it."""
    if isinstance(value, complex):
        return f"{value.real!r}{value.imag:+.17g}j"
    return repr(float(value))


def judge(field: Field, work: Work) -> Judge:
    """What the tutor says of a value in a field."""

    def judged(value: Any) -> Verdict:
        text = value if isinstance(value, str) else as_typed(value)
        return mark(field, text, work, work)

    return judged


def quickly(field: Field, work: Work) -> Judge:
    """The same of values that are right or nearly so, without a look at slips."""
    return judge(replace(field, slips=()), work)


def around(value: Any, is_in: Callable[[Any], bool], scale: float) -> Region | None:
    """The region about a value in which something holds; None where it does not hold of the value itself.

    scale : a length of the order of the region's size."""
    if not isfinite(abs(value)) or not is_in(value):
        return None
    if isinstance(value, complex):
        return _disc(value, is_in, scale)
    low, high = (value + sign * _reach(value, sign, is_in, scale) for sign in (-1, 1))
    ten = 10**DECIMALS
    inside = Interval(value, ceil(low * ten) / ten, floor(high * ten) / ten)
    return inside if inside.low < inside.high else None


def _disc(value: complex, is_in: Callable[[Any], bool], scale: float) -> Disc | None:
    """The disc whose edge that of the region is; else the largest about the value that lies within it."""
    turns = np.exp(2j * np.pi * np.arange(DIRECTIONS) / DIRECTIONS)
    edge = np.array([value + complex(turn) * _reach(value, complex(turn), is_in, scale) for turn in turns])
    rows = np.column_stack((2 * edge.real, 2 * edge.imag, np.ones(DIRECTIONS)))
    (x, y, _), *_ = np.linalg.lstsq(rows, np.abs(edge) ** 2, rcond=None)
    centre = complex(round(float(x), DECIMALS), round(float(y), DECIMALS))
    off = np.abs(edge - centre)
    if np.ptp(off) > ROUND * np.max(off) + 2 * 10.0**-DECIMALS:
        centre, off = complex(value), np.abs(edge - value)
    radius = floor(float(np.min(off)) * 10**DECIMALS) / 10**DECIMALS
    return Disc(centre, radius) if radius > 0 else None


def _reach(value: Any, way: Any, is_in: Callable[[Any], bool], scale: float) -> float:
    """How far from a value something holds, one way."""
    out = scale
    for _ in range(DOUBLINGS):
        if not is_in(value + way * out):
            break
        out *= 2
    within, without = 0.0, out
    for _ in range(HALVINGS):
        middle = (within + without) / 2
        within, without = (middle, without) if is_in(value + way * middle) else (within, middle)
    return within


def of_slip(
    field: Field, work: Work, judged: Judge, value: Any, window: float
) -> list[tuple[Region, Verdict]]:
    """Where the tutor says what it says of a slip's number: as surely as there, and then less surely around it."""
    verdict = judged(value)
    if verdict.judgement != "slip" or not isfinite(abs(value)):
        return []
    kind, accuracy = field.kind(work), work.problem.accuracy

    def within(limit: float) -> Region | None:
        return around(
            value, lambda other: kind.off_as_written(other, value, accuracy) <= limit, _scale(value)
        )

    found = []
    sure = _agreed(within(0.98 * SURE * ROUNDED * window), judged, verdict)
    if sure is not None:
        found.append((sure, verdict))
    outer = within(0.98 * ROUNDED * window)
    rim = _rim(outer)
    if rim:
        less = judged(rim[0])
        if (
            less.judgement == "slip"
            and less.sentence != verdict.sentence
            and less.suspected == verdict.suspected
        ):
            agreed = _agreed(outer, judged, less, verdict)
            found += [(agreed, less)] if agreed is not None else []
    return found


def _agreed(region: Region | None, judged: Judge, *verdicts: Verdict) -> Region | None:
    """The region, drawn in until the tutor says one of these on all of its edge; None where it never does."""
    said = {verdict.sentence for verdict in verdicts}
    for _ in range(6):
        if region is None or all(judged(one).sentence in said for one in _rim(region)):
            return region
        region = _halved(region)
    return None


def _rim(region: Region | None) -> Sequence[Any]:
    match region:
        case Interval(_, low, high):
            return (high, low)
        case Disc(centre, radius):
            return tuple(centre + 0.9999 * radius * turn for turn in (1, 1j, -1, -1j))
    return ()


def _halved(region: Region) -> Region:
    match region:
        case Interval(middle, low, high):
            return Interval(middle, (low + middle) / 2, (high + middle) / 2)
        case Disc(centre, radius):
            return Disc(centre, radius / 2)
    return region


def _scale(value: Any) -> float:
    return 1e-3 * max(abs(value), 0.1)
