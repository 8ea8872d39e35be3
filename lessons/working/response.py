"""What a derivation builds over frequency, by the network evaluator alone: each design's response and its band."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from core.network import MatchingNetwork
from core.response import Bandwidth, bandwidth, frequency_response
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Impossible, Work
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan
from lessons.working.sheet import Sheet

LOWEST, HIGHEST, POINTS = 0.7, 1.3, 121  # frequency over design frequency
LIMITS = (1.5, 2.0, 3.0)
SAME = 0.02  # relative: less than that nobody would choose by


@dataclass(frozen=True)
class BranchResponse:
    """What one design does over frequency, with the load as it is at the design frequency.

    ratios : frequency over design frequency.  swr : of the same length.  bands : by limit of the ratio, as `LIMITS`."""

    branch: Branch | None
    network: MatchingNetwork
    ratios: tuple[float, ...]
    swr: tuple[float, ...]
    bands: tuple[Bandwidth, ...]

    @property
    def total_line(self) -> float:
        """Of all its sections and stubs, in wavelengths."""
        return float(self.network.total_line)


def responses(sheet: Sheet) -> tuple[BranchResponse, ...]:
    """The response of each design of a finished sheet; empty where the lesson builds nothing or it cannot be built."""
    return responses_of(sheet.work) if sheet.finished else ()


def responses_of(work: Work) -> tuple[BranchResponse, ...]:
    """The same of a derivation, whoever made it."""
    if work.lesson.refuses(work.problem) or work.lesson.stops_short(work.problem):
        return ()
    try:
        return tuple(_responses(work))
    except Impossible:
        return ()


def _responses(work: Work) -> Iterator[BranchResponse]:
    ratios = np.linspace(LOWEST, HIGHEST, POINTS)
    for branch in work.lesson.branches_of(work.problem) or (None,):
        network = work.lesson.network(work, branch, work.lesson.fields)
        if network is None or not Plan(branch, network).is_design:
            continue
        swr = np.asarray(frequency_response(network, ratios).swr, dtype=float)
        bands = tuple(bandwidth(network, limit) for limit in LIMITS)
        yield BranchResponse(branch, network, tuple(ratios.tolist()), tuple(swr.tolist()), bands)


def why(found: tuple[BranchResponse, ...], limit: float, notation: Notation) -> str:
    """Which of the designs has the wider band within a limit, and whether it takes less line: as it is here."""
    if len(found) < 2:
        return ""
    index = LIMITS.index(limit)
    wide = sorted(found, key=lambda one: -float(one.bands[index].fraction))
    best, worst = wide[0], wide[-1]
    most, least = (float(one.bands[index].fraction) for one in (best, worst))
    words = [one.branch.named("one") if one.branch else "one" for one in (best, worst)]
    if most == 0:
        no_one = "Neither" if len(found) == 2 else "None of them"
        return f"{no_one} stays within a standing-wave ratio of {notation.number(limit, 1)} at the design frequency."
    if most == least or most - least <= SAME * most:
        return f"Here their bands are alike{_line(best, worst, notation)}."
    bands = f"{_percent(most)} against {_percent(least)} for the {words[1]}"
    wider = "wider" if len(found) == 2 else "widest"
    return f"Here the {words[0]} has the {wider} band, {bands}{_joined(best, worst, notation)}."


def _joined(best: BranchResponse, worst: BranchResponse, notation: Notation) -> str:
    """Whether the better one takes less line, where they are made of line at all."""
    if best.total_line == worst.total_line:
        return ""
    joined = "and it takes less line" if best.total_line < worst.total_line else "though it takes more line"
    lengths = f"{notation.wavelengths(best.total_line)} against {notation.wavelengths(worst.total_line)}"
    return f", {joined}: {lengths}"


def _line(one: BranchResponse, other: BranchResponse, notation: Notation) -> str:
    if one.total_line == other.total_line:
        return ""
    less, more = sorted((one, other), key=lambda each: each.total_line)
    word = less.branch.named("one") if less.branch else "one"
    lengths = f"{notation.wavelengths(less.total_line)} against {notation.wavelengths(more.total_line)}"
    return f"; the {word} takes less line, {lengths}"


def _percent(fraction: float) -> str:
    return f"{100 * fraction:.1f}\u00a0%" if np.isfinite(fraction) else "one without an upper end"
