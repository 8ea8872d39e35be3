"""What goes wrong in the first steps on the chart, in numbers."""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Callable

import numpy as np

from core.line import swr
from lessons.course.stub_values import known_impedance, load_reflection, load_swr, normalised_load
from lessons.grammar import slips as made
from lessons.grammar.kinds import StandingWaveRatio
from lessons.grammar.kinds.base import REFLECTION_TOLERANCE, RELATIVE_TOLERANCE
from lessons.grammar.lesson import Work
from lessons.grammar.side import reflection_of


def one_part_divided(work: Work) -> tuple[complex, ...] | None:
    """z with only its resistance divided by the line's impedance, or only its reactance."""
    load, z = known_impedance(work), normalised_load(work)
    if work["line"] == 1 or not load.imag or not np.isfinite(load):
        return None
    return complex(z.real, load.imag), complex(load.real, z.imag)


def angle_times(factor: float) -> Callable[[Work], complex | None]:
    """The load's reflection with its angle multiplied."""

    def predict(work: Work) -> complex | None:
        right = load_reflection(work)
        return made.unless_same(rect(abs(right), factor * phase(right)), right)

    return predict


def parts_exchanged(work: Work) -> complex | None:
    """Where the load would stand if its r were its x and its x its r; x keeps its sign, and r is never below zero."""
    z = work["normalise"]
    if not z.imag or not np.isfinite(z):
        return None
    return made.unless_same(
        reflection_of(complex(abs(z.imag), z.real if z.imag > 0 else -z.real)), load_reflection(work)
    )


def decibels(ratio: float) -> float:
    """A ratio of voltages in decibels."""
    return 20 * float(np.log10(ratio)) if ratio > 0 else float("inf")


def return_loss(ratio: float) -> float:
    """The return loss of a standing-wave ratio, in decibels."""
    return -decibels((ratio - 1) / (ratio + 1))


def made_of_ratio(change: Callable[[float], float]) -> Callable[[Work], float]:
    """How many tolerances a reading of the circle that is one tolerance off is off by, after what was made of it."""

    def spread(work: Work) -> float:
        size, kind, accuracy = abs(work["place"]), StandingWaveRatio(), work.problem.accuracy
        off = REFLECTION_TOLERANCE if accuracy == "chart" else RELATIVE_TOLERANCE * (1 - size**2) / 2
        exact = change(load_swr(work))
        read = (float(swr(min(max(size + by, 1e-3), 1 - 1e-3))) for by in (-off, off))
        return max(1.0, *(kind.off_by(change(one), exact, accuracy) for one in read))

    return spread
