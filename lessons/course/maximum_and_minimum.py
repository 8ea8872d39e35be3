"""Voltage maximum and minimum: the two places where a line shows a resistance, and what it is there."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from core.line import swr
from lessons.course.pairs import Pair
from lessons.course.stub_values import clockwise, load_reflection
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Impossible, Work
from lessons.grammar.side import reflection_of

MAXIMUM = Branch("maximum", "maximum", "first", also=("max",), where="at the maximum")
MINIMUM = Branch("minimum", "minimum", "second", also=("min",), where="at the minimum")
PLACES = Pair(
    (MAXIMUM, MINIMUM),
    "value",
    "At the maximum r is above 1, at the right of the centre; at the minimum it is below 1, at the left.",
)


def start(work: Work) -> complex:
    """Reflection of the load. Raises Impossible where nothing comes back."""
    found = load_reflection(work)
    if abs(found) < 1e-9:
        raise Impossible(
            "With z = 1 nothing comes back, and the line has no maximum: go back to that step.", "normalise"
        )
    return found


def end(branch: Branch) -> complex:
    """The end of the axis that a place stands at, on the rim."""
    return 1 + 0j if branch is MAXIMUM else -1 + 0j


def distance(work: Work, branch: Branch) -> float:
    return clockwise(start(work), end(branch))


def resistance(work: Work, branch: Branch) -> float:
    """The normalised resistance at a place, from the circle as it was read. Raises Impossible for no circle."""
    return _of_ratio(work, branch, work["mismatch"])


def _of_ratio(work: Work, branch: Branch, ratio: float) -> float:
    if not 1 < ratio < np.inf:
        raise Impossible(
            f"A standing-wave ratio of {work.write('mismatch')} has no maximum and no minimum: go back to that "
            "step.",
            "mismatch",
        )
    return float(ratio if branch is MAXIMUM else 1 / ratio)


def resistance_reflection(work: Work, branch: Branch) -> complex:
    """Where the place stands on the line's chart."""
    return reflection_of(work.of("resistance", branch))


def _meant(work: Work, branch: Branch) -> Branch:
    """The place that a student calls so who has chosen the ends of the axis."""
    return branch if work["ends.highest"] == "right" else PLACES.other(branch)


def resistance_routes(branch: Branch) -> tuple[Callable[[Work], float], ...]:
    """The same from the point placed and from z; and at the ends as the student has chosen them."""
    ratios: tuple[Callable[[Work], float], ...] = (
        lambda work: work["mismatch"],
        lambda work: float(swr(work["place"])),
        lambda work: float(swr(start(work))),
    )
    return tuple(
        lambda work, ratio=ratio: _of_ratio(work, _meant(work, branch), ratio(work)) for ratio in ratios
    )


def distance_routes(branch: Branch) -> tuple[Callable[[Work], float], ...]:
    """The same from the point placed, and to the ends as the student has chosen them."""
    return (
        lambda work: clockwise(work["place"], end(_meant(work, branch))),
        lambda work: distance(work, _meant(work, branch)),
    )
