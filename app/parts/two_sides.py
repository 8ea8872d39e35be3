"""The two solutions of a single stub, near and far, as plans that can be drawn."""

from __future__ import annotations

from collections.abc import Mapping
from math import nan

from core.board import guide_wavelength_m
from core.network import MatchingNetwork, Section, Stub
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import SIDES, Problem, Side
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan

ROLES = dict(zip(SIDES, ("first", "second"), strict=True))


def plans(
    problem: Problem,
    notation: Notation,
    networks: Mapping[Side, MatchingNetwork | None],
    placement: str = "shunt",
) -> tuple[Plan, ...]:
    """Both solutions as far as they are known; what is not known yet is there, with no length."""
    return tuple(
        Plan(
            Branch(side, side, ROLES[side]),
            _whole(problem, networks.get(side), placement),
            (notation.distance, notation.stub_length),
        )
        for side in SIDES
    )


def _whole(problem: Problem, network: MatchingNetwork | None, placement: str) -> MatchingNetwork:
    known = network.elements if network is not None else ()
    later = (Section(nan, problem.line_impedance), Stub(nan, problem.stub_impedance, placement, problem.end))
    return MatchingNetwork(
        problem.load_impedance, problem.line_impedance, (*known, *later[len(known) :])
    )


def wavelength_mm(problem: Problem) -> float | None:
    """Length of a wave on the problem's line, where its frequency is given."""
    if problem.frequency is None:
        return None
    return 1e3 * float(guide_wavelength_m(problem.frequency, problem.velocity_factor))
