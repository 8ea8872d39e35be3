"""Which of several correct answers to build: all solutions ranked, and sentences that say why."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from reprlib import repr as shortened
from typing import Any

import numpy as np

from core.checks import ROUNDED, Array, choice
from core.errors import NotANetwork, ShapesDiffer
from core.line import reflection_coefficient
from core.loads import Load
from core.network import MatchingNetwork, one_network
from core.ranges import one_number
from core.readable import Readable, Rows, amount
from core.response import bandwidth
from core.tolerance import Errors, one_errors, worst_case

MEASURES = ("total line", "bandwidth", "sensitivity")
LEVEL = 1e-3
"""Values as near as this, relatively, count as level: nobody could measure the difference."""


ONLY_ONE = "There is only one solution: build it."
NOTHING_TO_BUILD = "This load is matched already: there is nothing to build."
MEANINGS = {
    "total line": "{best} in all",
    "bandwidth": "SWR <= {swr} over {best} of the design frequency",
    "sensitivity": "errors of making leave |reflection| at {best} at worst",
}


@dataclass(frozen=True)
class Ranking(Readable):
    """Solutions and what speaks for each. Arrays of shape (solutions,) + S.

    total_line : wavelengths, stubs included.  bandwidth : width within `swr` as a fraction of the design
    frequency, and `at_least` whether it may be wider, because the load is not known beyond.
    sensitivity : worst |reflection| with `errors`."""

    networks: tuple[MatchingNetwork, ...]
    total_line: Array
    bandwidth: Array
    sensitivity: Array
    swr: float
    errors: Errors
    at_least: Array

    def values(self, measure: str) -> Array:
        """The values of "total line", "bandwidth" or "sensitivity".  Raises UnknownChoice."""
        return getattr(self, choice(measure, MEASURES, "measure").replace(" ", "_"))

    def order(self, measure: str) -> Array:
        """Indices of the solutions, best first, along the first axis; nan, for no solution, comes last."""
        values = self.values(measure)
        return np.argsort(-values if measure == "bandwidth" else values, axis=0, kind="stable")

    @property
    def sentences(self) -> tuple[str, ...]:
        """For one load: what each measure says, with its figures, and what to build.  Empty for arrays of
        loads."""
        if self.total_line.ndim > 1 or not self.networks:
            return ()
        if len(self.networks) == 1:
            return (NOTHING_TO_BUILD if _is_matched(self.networks[0]) else ONLY_ONE,)
        return (*(self._sentence(measure) for measure in MEASURES), self._advice())

    def _sentence(self, measure: str) -> str:
        leaders, figures = self._leaders(measure), self._figures(measure)
        found = MEANINGS[measure].format(best=figures[leaders[0]], swr=amount(self.swr))
        others = [f"{figure} for solution {n + 1}" for n, figure in enumerate(figures) if n not in leaders]
        if measure == "bandwidth" and len({figures[n] for n in leaders}) > 1:
            told = ", ".join(f"{figure} for solution {n + 1}" for n, figure in enumerate(figures))
            return f"In bandwidth what is known of the load does not decide: {told}."
        if not others:
            return f"In {measure} all solutions are level: {found}."
        text = f"In {measure} {_solutions(leaders)} {_lead(leaders)}: {found}, against {', '.join(others)}"
        shortest = self._leaders("total line")
        if measure == "bandwidth" and set(leaders) <= set(shortest) and len(shortest) < len(figures):
            return f"{text}. Less line turns less as the frequency changes."
        return f"{text}."

    def _advice(self) -> str:
        """Build what leads everywhere; else say what speaks for what."""
        leaders = {measure: self._leaders(measure) for measure in MEASURES}
        everywhere = set.intersection(*map(set, leaders.values()))
        best = sorted(everywhere)
        if len(best) > 1:
            return f"Build any of {_solutions(best)}: they are level in all of these."
        if best:
            return f"Build {_solutions(best)}: no other is better in any of these."
        speaks = ", ".join(f"{_solutions(found)} for {measure}" for measure, found in leaders.items())
        return f"No solution is best in all of these; choose by what matters most: {speaks}."

    def _leaders(self, measure: str) -> list[int]:
        """Indices of the solution that leads and of those level with it."""
        values = self.values(measure)
        first = values[self.order(measure)[0]]
        with np.errstate(invalid="ignore"):
            level = (values == first) | (np.abs(values - first) <= LEVEL * np.abs(first) + 1e-9)
        if measure == "bandwidth":
            level |= self.at_least  # nobody knows that it is narrower
        return [int(index) for index in np.flatnonzero(level)]

    def _figures(self, measure: str) -> list[str]:
        """The value of each solution, with what it means where it is only a bound."""
        bound = self.at_least if measure == "bandwidth" else np.zeros(len(self.networks), dtype=bool)
        return [
            f"{'at least ' if more else ''}{_figure(measure, v)}"
            for v, more in zip(self.values(measure), bound, strict=True)
        ]

    def _rows(self) -> Rows:
        if self.total_line.ndim > 1:
            return [(measure, amount(self.values(measure))) for measure in MEASURES]
        columns = zip(*map(self._figures, MEASURES), strict=True)
        return [
            (f"solution {number}", f"{line} of line, band {band}, worst |reflection| {worst}")
            for number, (line, band, worst) in enumerate(columns, start=1)
        ]


def rank_solutions(
    networks: Sequence[MatchingNetwork],
    swr: float = 2.0,
    errors: Errors | None = None,
    load: Load | None = None,
) -> Ranking:
    """Solutions of one design problem ranked by total line, by bandwidth and by sensitivity to errors of
    making.

    networks : as a designer returns them, all with the same shape S.  swr : limit of the band, > 1.
    errors : what may be off, by default every length by 0.005 wavelengths; lumped networks have no lengths,
    give an error of impedance for them.  load : how the load changes with frequency, by default not at all.
    Raises OutOfRange, NotANetwork, ShapesDiffer.  Source: `bandwidth` and `worst_case`.

    >>> from core.stubs import single_stub
    >>> ranking = rank_solutions(single_stub(60 - 80j, 50))
    >>> for sentence in ranking.sentences[2:]:
    ...     print(sentence)
    In sensitivity all solutions are level: errors of making leave |reflection| at 0.100 at worst.
    Build solution 1: no other is better in any of these.
    """
    wrong = Errors(length=0.005) if errors is None else one_errors(errors)
    limit = one_number(swr, "limit of the standing-wave ratio", "such as 2", above=1)
    networks = _several(networks)
    lines = [np.asarray(network.total_line, dtype=float) for network in networks]
    found = [bandwidth(network, limit, load) for network in networks]
    bands = [np.asarray(band.fraction) for band in found]
    worst = [np.asarray(worst_case(network, wrong).reflection) for network in networks]
    width, sensitivity = np.array(bands), np.array(worst)
    total_line = np.array(
        [np.broadcast_to(line, band.shape) for line, band in zip(lines, bands, strict=True)]
    )
    at_least = np.array([np.broadcast_to(band.at_least, width.shape[1:]) for band in found], dtype=bool)
    return Ranking(networks, total_line, width, sensitivity, limit, wrong, at_least)


def _several(networks: Any) -> tuple[MatchingNetwork, ...]:
    """Networks of one shape.  Raises NotANetwork, ShapesDiffer."""
    if isinstance(networks, MatchingNetwork) or not isinstance(networks, Iterable):
        raise NotANetwork(
            f"Several networks are wanted, as a designer returns them, not {shortened(networks)}.",
            value=networks,
        )
    several = tuple(one_network(network) for network in networks)
    shapes = [network.shape for network in several]
    if len(set(shapes)) > 1:
        raise ShapesDiffer(
            f"Networks of one shape can be ranked, not of the shapes {shapes}.", value=networks
        )
    return several


def _is_matched(network: MatchingNetwork) -> bool:
    """Whether the load needs no network at all."""
    return bool(abs(reflection_coefficient(network.load_impedance, network.line_impedance)) <= ROUNDED)


def _figure(measure: str, value: float) -> str:
    if measure == "total line":
        return f"{value:.3f} wavelengths"
    if measure == "bandwidth":
        return "any width" if np.isinf(value) else f"{100 * value:.1f} %"
    return f"{value:.3f}"


def _solutions(indices: Sequence[int]) -> str:
    numbers = [str(index + 1) for index in indices]
    if len(numbers) == 1:
        return f"solution {numbers[0]}"
    return f"solutions {', '.join(numbers[:-1])} and {numbers[-1]}"


def _lead(indices: Sequence[int]) -> str:
    return "leads" if len(indices) == 1 else "lead"
