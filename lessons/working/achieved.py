"""What a design achieves, by the network evaluator alone: its standing-wave ratio, and how far each length is off.

With one length held the other has one best value, where the least comes back. It is found by looking, not by the
formulas of a designer, so a right design and a wrong one are judged alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from core.line import half_wave_difference, swr
from core.network import MatchingNetwork, Reactance, Section, Stub
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import CLOSE, LENGTH_TOLERANCE, Accuracy
from lessons.grammar.kinds.base import REFLECTION_TOLERANCE, RELATIVE_TOLERANCE
from lessons.grammar.lesson import Impossible, Work

POINTS, NARROWINGS = 201, 4  # each look is a hundred times as fine as the one before: to 1e-9 wavelength


@dataclass(frozen=True)
class Best:
    """One length of a design, with all others held.

    index, element : which one, counted from the load.  length : where the least comes back, wavelengths in [0, 0.5).
    excess : how much longer the design's own is, in (-0.25, 0.25].  ratio : the standing-wave ratio with it."""

    index: int
    element: Section | Stub
    length: float
    excess: float
    ratio: float


@dataclass(frozen=True)
class Achieved:
    """What the line sees. judgement : as good as lengths within the tolerance, within twice that, or worse."""

    ratio: float
    judgement: Literal["right", "close", "wrong"]
    lengths: tuple[Best, ...]


def achieved(network: MatchingNetwork, ideal: MatchingNetwork, accuracy: Accuracy) -> Achieved:
    """What a network achieves beside the ideal one of its kind, its lengths read with this accuracy."""
    back, lengths = abs(network.input_reflection()), tuple(_bests(network))
    tolerance = LENGTH_TOLERANCE[accuracy]

    def within(times: float) -> bool:
        as_good = back <= _may_come_back(ideal, times, accuracy)
        return bool(as_good) and all(abs(one.excess) <= times * tolerance for one in lengths)

    return Achieved(
        float(swr(back)), "right" if within(1) else "close" if within(CLOSE) else "wrong", lengths
    )


def built(work: Work, branch: Branch | None) -> MatchingNetwork:
    """A branch's network with all the lengths of this work. Raises Impossible."""
    network = work.lesson.network(work, branch, work.lesson.fields)
    assert network is not None  # a lesson builds what it asks for
    return network


def achieved_ratio(work: Work, branch: Branch | None) -> float:
    """The standing-wave ratio that the line sees, for the load as given. Raises Impossible."""
    return float(swr(abs(built(work, branch).input_reflection())))


def as_good_as_matched(work: Work, truth: Work, branch: Branch | None) -> bool:
    """Whether a branch's network matches as well as lengths within twice the reading tolerance do."""
    try:
        network, ideal = built(work, branch), built(truth, branch)
    except Impossible:
        return False
    return bool(abs(network.input_reflection()) <= _may_come_back(ideal, CLOSE, work.problem.accuracy))


def _may_come_back(ideal: MatchingNetwork, times: float, accuracy: Accuracy) -> float:
    """What comes back at most where every length, and every point that a part is read from, is off by so many
    tolerances."""
    parts = sum(isinstance(one, Reactance) for one in ideal.elements)
    by_parts = times * parts * (REFLECTION_TOLERANCE if accuracy == "chart" else RELATIVE_TOLERANCE)
    return max(float(ideal.worst_reflection(times * LENGTH_TOLERANCE[accuracy])), by_parts)


def closing(work: Work) -> str:
    """What the finished sheet achieves, by the solver and for the load as given."""
    if not work.lesson.ends_matched(work.problem):
        return work.say(work.lesson.closing(work))
    ratios = [
        work.notation.number(achieved_ratio(work, branch), 2) + (f" ({branch.word})" if branch else "")
        for branch in work.lesson.branches_of(work.problem) or (None,)
    ]
    kinds = (one.kind(work) for step in work.lesson.steps_of(work.problem) for one in step.fields)
    what = "lengths" if any(one.length_in for one in kinds) else "exact values"
    built_so = (
        f"Built with the {what} on this sheet, the line sees a standing-wave ratio of {listed(ratios)}."
    )
    return f"{built_so} {work.lesson.besides(work)}".strip()


def listed(words: list[str]) -> str:
    """Words in a row, as a sentence has them."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if words[1:] else words)


def _bests(network: MatchingNetwork) -> Iterator[Best]:
    for index, element in enumerate(network.elements):
        if isinstance(element, Section | Stub):
            length = _best_length(network, index)
            excess = float(half_wave_difference(element.length, length))
            ratio = float(swr(abs(_with_length(network, index, length).input_reflection())))
            yield Best(index, element, length, excess, ratio)


def _best_length(network: MatchingNetwork, index: int) -> float:
    """Length of one element, all others held, at which the least comes back."""
    middle, reach = 0.25, 0.25
    for _ in range(NARROWINGS):
        lengths = np.linspace(middle - reach, middle + reach, POINTS)
        back = np.abs(_with_length(network, index, np.mod(lengths, 0.5)).input_reflection())
        middle, reach = float(lengths[np.argmin(back)]), 2 * reach / (POINTS - 1)
    return middle % 0.5


def _with_length(network: MatchingNetwork, index: int, length: float | np.ndarray) -> MatchingNetwork:
    elements = tuple(
        replace(one, length=length) if i == index and isinstance(one, Section | Stub) else one
        for i, one in enumerate(network.elements)
    )
    return MatchingNetwork(network.load_impedance, network.line_impedance, elements)
