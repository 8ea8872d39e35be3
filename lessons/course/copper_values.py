"""The derivation from a design in wavelengths to its copper: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache

import numpy as np

from core.board import guide_wavelength_m
from core.elements import Section, Stub
from core.errors import CoreError
from core.line import swr, wrap_half_wave
from core.microstrip import Microstrip, open_end_over_height
from core.network import MatchingNetwork
from core.stubs import single_stub
from lessons.course.near_and_far import BOTH
from lessons.course.stub_values import refuses
from lessons.grammar.kinds import CLOSE
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import reflection_of

FORMULAS = "textbook"
THIN = 0.1  # wavelengths: on a higher board the formulas hold no longer (common practice, no source)
STEPS_MM = {"tenth": 0.1, "half": 0.5}
STEP_WORDS = {"tenth": "a tenth of a millimetre", "half": "half a millimetre"}
PIECES = ("distance", "length")
ALIKE = 0.01  # of a step: two lengths as near to what was calculated are both right


def board(problem: Problem, permittivity: float | None = None) -> Microstrip:
    """The problem's board, or one of another permittivity."""
    relative = problem["permittivity"] if permittivity is None else permittivity
    return Microstrip(relative, problem["height"], formulas=FORMULAS)


def design(problem: Problem) -> MatchingNetwork:
    """What is to be made: line and stub in wavelengths, solved. Raises Impossible where nothing matches."""
    if refusal := refuses(problem):
        raise Impossible(refusal, "metric")
    return _design(problem["load"], problem["line"], problem["end"], problem["design"])


@lru_cache(maxsize=256)
def _design(load: complex, line: float, end: str, solution: str) -> MatchingNetwork:
    found = single_stub(load, line, placement="shunt", end=end)
    network: MatchingNetwork = found[[one.key for one in BOTH].index(solution) % len(found)]
    return network


def waves(problem: Problem, piece: str) -> float:
    """Length of a piece of the design in wavelengths."""
    element = design(problem).elements[PIECES.index(piece)]
    assert isinstance(element, Section | Stub)
    return float(element.length)


# --- the strip ---


def ratio(work: Work) -> float:
    """Width over height of the strip that has the line's impedance."""
    return ratio_on(board(work.problem), work["line"])


def ratio_on(made: Microstrip, impedance: float) -> float:
    """The same on a board. Raises Impossible where no strip there has it."""
    try:
        return float(made.width_mm(impedance)) / made.height_mm
    except CoreError as fault:
        raise Impossible(str(fault), "strip") from fault


def width(work: Work) -> float:
    """Of the strip, in millimetres."""
    return float(work["strip.ratio"] * work["height"])


def effective(work: Work) -> float:
    """The permittivity that a wave on the strip meets. Raises Impossible for a strip that the formula is not for."""
    try:
        return float(board(work.problem).effective_permittivity(work["strip.ratio"] * work["height"]))
    except CoreError as fault:
        raise Impossible(
            "The formulas hold for strips from 0.05 to 20 heights wide: go back to the width.", "strip"
        ) from fault


def wave(work: Work) -> float:
    """How long a wave is on the strip, in millimetres. Raises Impossible where the board is no thin one."""
    if too_high := height_refused(work.problem):
        raise Impossible(too_high, "wave")
    return free_wave(work.problem) / float(np.sqrt(work["effective"]))


def wave_mm(problem: Problem) -> float | None:
    """How long a wave is on the strip of the line's impedance; None where the board has no such strip."""
    try:
        return 1e3 * float(board(problem).guide_wavelength_m(problem["frequency"], problem["line"]))
    except CoreError:
        return None


def height_refused(problem: Problem) -> str:
    """Why a wave on the strip is too short for the board, or nothing."""
    if problem["height"] <= THIN * (wave_mm(problem) or float("inf")):
        return ""
    return (
        "This board is too high for the frequency: where it is more than a tenth of a wave, the formulas hold no "
        "longer. Take a thinner board or a lower frequency."
    )


def free_wave(problem: Problem) -> float:
    """The same in free space."""
    return 1e3 * float(guide_wavelength_m(problem["frequency"]))


# --- what is cut ---


def metric(work: Work, piece: str) -> float:
    """Length of a piece of the design in millimetres."""
    return waves(work.problem, piece) * float(work["wave"])


def open_end(work: Work) -> float:
    """By how much an open end acts longer than it is, in millimetres, whatever the stub's end is."""
    return float(open_end_over_height(work["strip.ratio"], work["effective"]) * work["height"])


def end_effect(work: Work) -> float:
    """By how much this stub's end does."""
    return open_end(work) if work["end"] == "open" else 0.0


def copper(work: Work) -> float:
    """The stub's length without what its end adds; half a wave more where nothing would be left."""
    left = float(work["metric.length"] - work["end_effect"])
    return left if left > 0 else left + float(work["wave"]) / 2


def before_rounding(work: Work, piece: str) -> float:
    """What a piece is rounded from."""
    return float(work["metric.distance"] if piece == "distance" else work["copper"])


def step_mm(work: Work | Problem) -> float:
    """What the cutter can do."""
    return STEPS_MM[work["cutter"]]


def rounded(value: float, step: float) -> float:
    """The nearest multiple of a step."""
    return float(np.round(value / step) * step)


def cut(work: Work, piece: str) -> float:
    """Length of a piece as it is cut."""
    return rounded(before_rounding(work, piece), step_mm(work))


def next_cut(work: Work, piece: str) -> float:
    """The multiple of the step on the other side of what is wanted."""
    wanted, step = before_rounding(work, piece), step_mm(work)
    nearest = rounded(wanted, step)
    return nearest + (step if wanted > nearest else -step)


def cut_alike(work: Work, piece: str) -> tuple[float, ...]:
    """The other multiple of the step, where both are as near."""
    off = abs(before_rounding(work, piece) - cut(work, piece)) / step_mm(work)
    return (next_cut(work, piece),) if abs(off - 1 / 2) < ALIKE else ()


def as_cut(work: Work, piece: str) -> float:
    """A piece as cut in wavelengths: its end acts longer again. Raises Impossible where the wave has no length."""
    if work["wave"] <= 0:
        raise Impossible("With a wave of that length nothing can be reckoned: go back to it.", "wave")
    extra = work["end_effect"] if piece == "length" else 0.0
    return float((work[f"cut.{piece}"] + extra) / work["wave"])


def built(problem: Problem, distance: float, length: float, strip: float | None = None) -> MatchingNetwork:
    """The load with its line and its stub, lengths in wavelengths, less any half waves.

    strip : the impedance of both, where that is not the line's."""
    line, of_strip = problem["line"], problem["line"] if strip is None else strip
    line_length, stub_length = (float(wrap_half_wave(one)) for one in (distance, length))
    stub = Stub(stub_length, of_strip, "shunt", problem["end"])
    return MatchingNetwork(problem["load"], line, (Section(line_length, of_strip), stub))


def as_etched(work: Work, pieces: Collection[str] = PIECES) -> MatchingNetwork:
    """What these pieces of a sheet are on the problem's own board, whatever the sheet reckons with; the others as
    designed. Raises Impossible for a strip that the formulas are not for."""
    problem, truth = work.problem, Work(work.lesson, work.problem)
    kind, wide = work.lesson.field("strip.width").kind(truth), float(work["strip.width"])
    is_line = kind.off_by(wide, truth["strip.width"], problem.accuracy) <= CLOSE
    etched = {} if is_line else {"strip.ratio": wide / work["height"]}
    real = Work(
        work.lesson, problem, given={**etched, **{f"cut.{one}": work[f"cut.{one}"] for one in pieces}}
    )
    distance, length = (as_cut(real, one) if one in pieces else waves(problem, one) for one in PIECES)
    return built(problem, distance, length, None if is_line else float(board(problem).impedance(wide)))


def ratio_with(problem: Problem, distance: float, length: float) -> float:
    """The standing-wave ratio that the line sees with these lengths."""
    return float(swr(built(problem, distance, length).input_reflection()))


def cost(work: Work) -> float:
    """The standing-wave ratio with the lengths as cut."""
    return ratio_with(work.problem, *(as_cut(work, piece) for piece in PIECES))


def load_reflection(work: Work) -> complex:
    """Of the problem's load."""
    return reflection_of(work["load"] / work["line"])
