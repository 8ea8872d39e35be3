"""The derivation of a single shunt stub: each value from the ones before it. Every lesson with a shunt stub uses it."""

from __future__ import annotations

from collections.abc import Callable, Collection

import numpy as np

from core.board import guide_wavelength_m
from core.chart import (
    OPEN_POINT,
    SHORT_POINT,
    UNIT_CONDUCTANCE_CIRCLE,
    crossings,
    mismatch_circle,
    rim_position,
)
from core.elements import Section, Stub
from core.line import admittance_from_reflection, swr, wrap_half_wave
from core.network import MatchingNetwork
from core.solutions import TAKES_NO_POWER
from core.stubs import SingleStub, stub_length_for, stub_susceptance
from lessons.grammar.kinds import reflection_of
from lessons.grammar.lesson import SIDES, Impossible, Problem, Side, Work, other_side
from lessons.grammar.strokes import scale_reading


def normalised_load(work: Work) -> complex:
    return work.problem.load_impedance / work.problem.line_impedance


def load_reflection(work: Work) -> complex:
    return reflection_of(work["normalise"])


def load_swr(work: Work) -> float:
    return float(swr(work["place"]))


def load_admittance(work: Work) -> complex:
    return inverse(work["normalise"])


def admittance_reflection(work: Work) -> complex:
    """Reflection on the line of the student's load admittance."""
    return -reflection_of(work["admittance"])


def crossing(work: Work, side: Side) -> complex:
    """Admittance where the mismatch circle meets the unit-conductance circle, near or far."""
    start = admittance_reflection(work)
    found = crossings(mismatch_circle(start), UNIT_CONDUCTANCE_CIRCLE) if abs(start) < 1 else ()
    if not found:
        raise Impossible(
            f"With {work.write('admittance')} for the load's admittance the mismatch circle does not cross the "
            "unit-conductance circle: go back to that step.",
            "admittance",
        )
    met = sorted(found, key=lambda point: clockwise(start, point))
    return complex(1, admittance_from_reflection(met[SIDES.index(side) % len(met)]).imag)


def susceptance(work: Work, side: Side) -> float:
    return float(work[f"crossing.{side}"].imag)


def distance(work: Work, side: Side) -> float:
    return clockwise(admittance_reflection(work), crossing_reflection(work, side))


def crossing_reflection(work: Work, side: Side) -> complex:
    return -reflection_of(work[f"crossing.{side}"])


def stub_needed(work: Work, side: Side) -> float:
    return -work[f"susceptance.{side}"]


def on_stub_chart(work: Work, side: Side) -> float:
    return work[f"needed.{side}"] * work.problem.stub_impedance / work.problem.line_impedance


def stub_length(work: Work, side: Side) -> float:
    return float(stub_length_for(work[f"own.{side}"], "shunt", work.problem.end))


def total_admittance(work: Work, side: Side) -> complex:
    shown = stub_susceptance(work[f"length.{side}"], "shunt", work.problem.end)
    return work[f"crossing.{side}"] + 1j * shown * work.problem.line_impedance / work.problem.stub_impedance


def in_millimetres(work: Work, what: str) -> float:
    return work[f"{what}.{work['choose.which']}"] * wavelength_mm(work)


def wavelength_mm(work: Work) -> float:
    frequency = work.problem.frequency
    return (
        1e3 * float(guide_wavelength_m(frequency, work.problem.velocity_factor))
        if frequency
        else float("nan")
    )


def built(work: Work, side: Side) -> SingleStub:
    """The network with the lengths in this work, for the solver to judge and the drawings to show."""
    problem = work.problem
    section = Section(float(wrap_half_wave(work[f"distance.{side}"])), problem.line_impedance)
    stub = Stub(float(wrap_half_wave(work[f"length.{side}"])), problem.stub_impedance, "shunt", problem.end)
    return SingleStub(problem.load_impedance, problem.line_impedance, (section, stub))


def design(work: Work, side: Side, settled: Collection[str]) -> MatchingNetwork | None:
    """The near or far network as far as a sheet has come: nothing, the line up to the junction, or all of it."""
    if f"distance.{side}" not in settled:
        return None
    whole = built(work, side)
    if f"length.{side}" in settled:
        return whole
    return MatchingNetwork(whole.load_impedance, whole.line_impedance, whole.elements[:1])


SMALLEST_SWR, LARGEST_SWR = 1.002, 1e4
REASONS: tuple[tuple[str, str, Callable[[SingleStub], float]], ...] = (
    ("shorter distance", "it stands nearer the load", lambda n: n.distance),
    ("shorter stub", "its stub is shorter", lambda n: n.stub_length),
    ("less line", "it takes less line in all", lambda n: n.total_line),
    ("longer stub", "its stub is longer, and easier to cut to length", lambda n: -n.stub_length),
    ("more room", "it stands farther from the load, where there may be more room", lambda n: -n.distance),
    ("wider band", "it reflects less when the frequency is off by 5 %",
     lambda n: float(np.max(np.abs(n.input_reflection(np.array([0.95, 1.05])))))),
)  # fmt: skip


def true_reasons(work: Work) -> tuple[str, ...]:
    """What speaks for the chosen solution."""
    chosen, other = (built(work, s) for s in chosen_first(work))
    return tuple(key for key, _, cost in REASONS if cost(chosen) <= cost(other))


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to solve, or nothing."""
    load = problem.load_impedance
    if np.isinf(load) or load.real == 0:
        return TAKES_NO_POWER
    mismatch = swr(reflection_of(load / problem.line_impedance))
    if mismatch > LARGEST_SWR:
        return (
            "This load takes next to no power: its standing-wave ratio is above 10 000, and on the chart its circle "
            "cannot be told from the rim. Choose a load with more resistance."
        )
    if mismatch < SMALLEST_SWR:
        return "This load is matched already: nothing is reflected, and there is nothing for a stub to do."
    return ""


def inverse(normalised: complex) -> complex:
    return complex(np.inf) if normalised == 0 else 1 / normalised


def clockwise(start: complex, end: complex) -> float:
    """Wavelengths toward the generator from one point of a mismatch circle to another."""
    there = float(wrap_half_wave(rim_position(end) - rim_position(start)))
    return 0.0 if there > 0.5 - 1e-9 else there


def chosen_first(work: Work) -> tuple[Side, Side]:
    return work["choose.which"], other_side(work["choose.which"])


def reading(work: Work, reflection: complex) -> float:
    return scale_reading(reflection, "admittance", work.notation.admittance)


def stub_end(work: Work) -> complex:
    return SHORT_POINT if work.problem.end == "short" else OPEN_POINT


def stub_reflection(work: Work, side: Side) -> complex:
    """Where the stub's own input stands on the rim of its own chart."""
    return -reflection_of(1j * work[f"own.{side}"])
