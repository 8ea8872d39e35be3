"""What comes back from a match with one stub when something is off: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from core.elements import Section, Stub
from core.line import half_wave_difference, reflection_from_swr, toward_generator, wrap_half_wave
from core.network import MatchingNetwork
from core.response import bandwidth
from core.stubs import SingleStub, single_stub, stub_susceptance
from lessons.course.near_and_far import BOTH
from lessons.course.stub_values import StubValues
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Impossible, Work
from lessons.grammar.problem import Problem
from lessons.grammar.side import SERIES, SHUNT, Side, reflection_of

PIECES = ("distance", "length")
CUT = {"line": "distance", "stub": "length"}
"""The piece that is cut wrong, by what the problem says is off; a wrong frequency is in both."""
FARTHEST, STEPS = 0.5, 501  # of a piece, how far its error is followed
SIDES = {"shunt": SHUNT, "series": SERIES}
DERIVED = {key: StubValues(side) for key, side in SIDES.items()}


def side(work: Work | Problem) -> Side:
    """Where the problem's stub stands."""
    return SIDES[work["method"]]


def start(work: Work) -> complex:
    """Reflection on the line of the student's load."""
    return DERIVED[work["method"]].start(work)


# --- the design ---


@lru_cache(maxsize=1024)
def _solutions(load: complex, line: float, method: str, end: str) -> tuple[SingleStub, ...]:
    return tuple(single_stub(load, line, None, method, end))


def design(problem: Problem, branch: Branch) -> SingleStub:
    """The solver's match."""
    found = _solutions(problem["load"], problem["line"], problem["method"], problem["end"])
    return found[BOTH.index(branch)]


def designed(problem: Problem, branch: Branch, piece: str) -> float:
    """Length of a piece of it in wavelengths."""
    element = design(problem, branch).elements[PIECES.index(piece)]
    assert isinstance(element, Section | Stub)
    return float(element.length)


# --- as it acts when something is off ---


def is_off(problem: Problem, piece: str) -> bool:
    """Whether a piece does not act as long as it was designed."""
    return bool(CUT.get(problem["off"], piece) == piece)


def factor(problem: Problem) -> float:
    """What the length of whatever is off is multiplied by."""
    return 1 + float(problem["by"]) / 100


def acting(problem: Problem, branch: Branch, piece: str) -> float:
    """Length of a piece as it acts."""
    return designed(problem, branch, piece) * (factor(problem) if is_off(problem, piece) else 1.0)


def walked(work: Work, length: float) -> complex:
    """What the line shows so far from the load."""
    return side(work).value_at(complex(toward_generator(start(work), wrap_half_wave(length))))


def arriving(work: Work, branch: Branch) -> complex:
    """What the line shows at the junction, without the stub."""
    return walked(work, work.of("distance_off", branch))


def stub_of(work: Work, length: float) -> float:
    """What a stub of this length adds."""
    return float(stub_susceptance(length, side(work).placement, work["end"]))


def shows(work: Work, branch: Branch) -> float:
    return stub_of(work, work.of("length_off", branch))


def added(line: complex, part: float) -> complex:
    """The junction's total; what a stub at resonance adds may be without end."""
    return complex(line.real, line.imag + part)


def total(work: Work, branch: Branch) -> complex:
    return added(work.of("arriving", branch), work.of("shows", branch))


def back(work: Work, branch: Branch) -> float:
    """|Γ| on the line to the generator."""
    return abs(reflection_of(work.of("total", branch)))


def limit(work: Work) -> float:
    """|Γ| at the standing-wave ratio allowed."""
    return float(reflection_from_swr(work["allowed"]))


def ratio_of(size: float) -> float:
    """The standing-wave ratio of a size of the reflection."""
    return (1 + size) / (1 - size) if size < 1 else float("inf")


def reach(work: Work, branch: Branch) -> float:
    """By proportion, how far off it may be at the ratio allowed, in percent. Raises Impossible where nothing is."""
    size = work.of("back", branch)
    if not size:
        raise Impossible(
            "By this sheet nothing comes back, though something is off: go back to the junction.", "arriving"
        )
    return float(abs(work["by"]) * work["limit"] / size)


# --- by the solver ---


def comes_back(problem: Problem, branch: Branch, errors: ArrayLike) -> np.ndarray:
    """|Γ| with errors of whatever is off, as parts of it (0.05 for 5 %)."""
    by, network = np.asarray(errors, dtype=float), design(problem, branch)
    if problem["off"] == "frequency":
        return np.abs(network.input_reflection(1 + by))
    lengths = [
        designed(problem, branch, piece) * (1 + by if is_off(problem, piece) else 1.0) for piece in PIECES
    ]
    return np.abs(_with_lengths(problem, *lengths).input_reflection())


def exact_reach(problem: Problem, branch: Branch) -> tuple[float, float]:
    """How far below and above the design it may be off at the ratio allowed, as parts of it; inf beyond a half."""
    if problem["off"] != "frequency":
        return _edge(problem, branch, -FARTHEST), _edge(problem, branch, FARTHEST)
    ends = _band(design(problem, branch), problem["allowed"])
    return tuple(one if one < FARTHEST else float("inf") for one in ends)  # type: ignore[return-value]


@lru_cache(maxsize=1024)
def _band(network: SingleStub, allowed: float) -> tuple[float, float]:
    found = bandwidth(network, allowed)
    return float(found.below), float(found.above)


def _edge(problem: Problem, branch: Branch, farthest: float) -> float:
    errors = np.linspace(0.0, farthest, STEPS)
    over = comes_back(problem, branch, errors) - float(reflection_from_swr(problem["allowed"]))
    if not np.any(over > 0):
        return float("inf")
    first = int(np.argmax(over > 0))
    return float(np.abs(np.interp(0.0, over[first - 1 : first + 1], errors[first - 1 : first + 1])))


# --- what is built ---


def network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """A solution as designed, and each piece that the sheet has found as it acts."""
    if branch is None:
        return None
    lengths = [_built(work, branch, piece, f"{piece}_off.{branch.key}" in settled) for piece in PIECES]
    return _with_lengths(work.problem, *lengths)


def _built(work: Work, branch: Branch, piece: str, found: bool) -> float:
    """The student's length, with as many half waves as bring it near the design's."""
    wanted = designed(work.problem, branch, piece)
    if not found:
        return wanted
    return max(0.0, wanted + float(half_wave_difference(work.of(f"{piece}_off", branch), wanted)))


def _with_lengths(problem: Problem, distance: ArrayLike, length: ArrayLike) -> MatchingNetwork:
    line = problem["line"]
    stub = Stub(length, line, side(problem).placement, problem["end"])
    return MatchingNetwork(problem["load"], line, (Section(distance, line), stub))
