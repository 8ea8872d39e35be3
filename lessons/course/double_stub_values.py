"""The derivation of two stubs a fixed spacing apart, across the line: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from core.chart import (
    OPEN_POINT,
    SHORT_POINT,
    Circle,
    conductance_circle,
    crossings,
    mismatch_circle,
)
from core.elements import Section, Stub
from core.forbidden import (
    BOUNDARY,
    HALF_WAVE_APART,
    conductance_limit,
    no_spacing,
    rotated_unit_circle,
)
from core.line import toward_generator, wrap_half_wave
from core.network import MatchingNetwork
from core.stubs import stub_length_for, stub_susceptance
from lessons.course.pairs import Pair
from lessons.course.stub_values import clockwise
from lessons.course.stub_values import refuses as refuses_one_stub
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import CLOSE, LengthOfLine, inverse
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import scale_reading

HIGHER = Branch("higher", "higher", "first", also=("upper",))
LOWER = Branch("lower", "lower", "second")
BOTH = (HIGHER, LOWER)
SOLUTIONS = Pair(
    BOTH,
    "crossing",
    "The higher solution has the greater b behind the first stub, the lower one the lesser.",
)
each = SOLUTIONS.fields
STUBS = ("first", "second")


def is_forbidden(problem: Problem) -> bool:
    """Whether no first stub helps: the load's conductance is above the limit of the spacing."""
    own = inverse(problem["load"] / problem["line"]).real
    return bool(np.isfinite(own) and own > conductance_limit(problem["spacing"]) * (1 + BOUNDARY))


def is_matchable(problem: Problem) -> bool:
    return not is_forbidden(problem)


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to solve, or nothing."""
    return HALF_WAVE_APART if no_spacing(problem["spacing"]) else refuses_one_stub(problem)


# --- the region ---


def limit(work: Work) -> float:
    return float(conductance_limit(work["spacing"]))


def region(work: Work) -> str:
    return "inside" if work["admittance"].real > work["limit"] else "outside"


def load_point(work: Work) -> complex:
    """Reflection on the line of the student's load admittance."""
    return SHUNT.reflection_at(work["admittance"])


def ways_to_the_boundary(work: Work) -> tuple[float, ...]:
    """Walks from the load to where its mismatch circle meets the circle of the largest g, the shortest first."""
    start = load_point(work)
    met_there = crossings(mismatch_circle(start), conductance_circle(max(work["limit"], 0.0)))
    return tuple(sorted(clockwise(start, point) for point in met_there))


def way_out(work: Work) -> float:
    """The least line before the first stub that leads out. Raises Impossible where nothing has to be led out."""
    ways = ways_to_the_boundary(work)
    if not ways or region(work) == "outside":
        raise Impossible(
            f"With {work.write('admittance')} for the load's admittance and {work.write('limit')} for the largest g "
            "there is nothing to lead out: go back to that step.",
            "region",
        )
    return ways[0]


def to_the_far_side(work: Work) -> float | None:
    """The walk on to where the mismatch circle comes into the region again."""
    ways = ways_to_the_boundary(work)
    return ways[1] if len(ways) > 1 else None


def led_out(work: Work) -> complex:
    """Where the walk out of the region ends."""
    return complex(toward_generator(load_point(work), work["way_out"]))


def region_circle(work: Work) -> Circle:
    return conductance_circle(max(work["limit"], 0.0))


def rotated(work: Work) -> Circle:
    return rotated_unit_circle(work["spacing"])


# --- at the first stub ---


def met_or_none(work: Work, circle: Circle) -> list[complex] | None:
    """Admittances where the load's circle of constant g meets another one, the higher b first; None where it misses."""
    own = work["admittance"].real
    found = crossings(conductance_circle(own), circle) if own > 0 else ()
    return sorted((complex(own, _read_at(point).imag) for point in found), key=lambda y: -y.imag) or None


def _read_at(point: complex) -> complex:
    """The admittance at a crossing, which rounding may have put a hair outside of the chart."""
    return SHUNT.value_at(point / max(1.0, abs(point)))


def met_by_mismatch(work: Work) -> tuple[complex, ...]:
    """Where the load's mismatch circle meets the rotated unit circle."""
    return tuple(map(_read_at, crossings(mismatch_circle(load_point(work)), rotated(work))))


def turned_toward_generator(work: Work) -> Circle:
    """The unit-conductance circle turned the other way."""
    return rotated_unit_circle(float(wrap_half_wave(-work["spacing"])))


def after_first(work: Work, branch: Branch) -> complex:
    """What the line shows behind the first stub: on the turned circle, with the load's own g."""
    found = met_or_none(work, rotated(work))
    if found is None:
        raise Impossible(
            f"With g = {work.notation.number(work['admittance'].real)} for the load the circle of constant g does not "
            "meet the rotated circle: go back to that step.",
            "admittance",
        )
    return found[min(BOTH.index(branch), len(found) - 1)]


def after_reflection(work: Work, branch: Branch) -> complex:
    return SHUNT.reflection_at(work.of("after", branch))


def first_part(work: Work, branch: Branch) -> float:
    """What the first stub adds."""
    return float((work.of("after", branch) - work["admittance"]).imag)


# --- at the second stub ---


def at_second(work: Work, branch: Branch) -> complex:
    """What the line between the stubs brings to the second one."""
    return through(work, branch, work["spacing"])


def through(work: Work, branch: Branch, length: float) -> complex:
    """What so much line brings from the first stub to its end."""
    return SHUNT.value_at(complex(toward_generator(after_reflection(work, branch), length)))


def second_part(work: Work, branch: Branch) -> float:
    """What the second stub adds."""
    return float(-work.of("arriving", branch).imag)


# --- the stubs ---


def stub_end(work: Work, which: str) -> complex:
    return SHORT_POINT if work[f"{which}_end"] == "short" else OPEN_POINT


def reading(work: Work, reflection: complex) -> float:
    return scale_reading(reflection, "admittance", work.notation.admittance)


def on_own_chart(work: Work, which: str, branch: Branch) -> float:
    """What a stub must show, normalised to itself."""
    return SHUNT.scaled(work.of(f"{which}_part", branch), work["line"], work[f"{which}_stub"])


def length_for(work: Work, which: str, part: float) -> float:
    """Length of a stub that adds a susceptance normalised to the line."""
    return unscaled_length(work, which, SHUNT.scaled(part, work["line"], work[f"{which}_stub"]))


def unscaled_length(work: Work, which: str, part: float) -> float:
    """Length of a stub that adds a susceptance normalised to itself."""
    return float(stub_length_for(part, "shunt", work[f"{which}_end"]))


def stub_length(work: Work, which: str, branch: Branch) -> float:
    return length_for(work, which, work.of(f"{which}_part", branch))


def shown_by(work: Work, which: str, branch: Branch) -> float:
    """What the stub of the student's length adds, normalised to the line."""
    length, own, line = work.of(f"{which}_length", branch), work[f"{which}_stub"], work["line"]
    return SHUNT.scaled(float(stub_susceptance(length, "shunt", work[f"{which}_end"])), own, line)


def total(work: Work, branch: Branch) -> complex:
    """What the line from the generator sees, by the lengths alone."""
    behind_first = work["admittance"] + 1j * shown_by(work, "first", branch)
    arriving = toward_generator(SHUNT.reflection_at(behind_first), work["spacing"])
    return SHUNT.value_at(complex(arriving)) + 1j * shown_by(work, "second", branch)


def total_as_needed(work: Work, branch: Branch) -> complex:
    """The same with what the stubs were made for. Raises Impossible where a length is none for it."""
    for which in STUBS:
        key = f"{which}_length.{branch.key}"
        if LengthOfLine().off_by(work[key], work.following(key), work.problem.accuracy) > CLOSE:
            raise Impossible("A stub of this length does not show what it was made for.", f"{which}_length")
    return work.of("arriving", branch) + 1j * work.of("second_part", branch)


def network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """A branch's network as far as a sheet has come: from its crossing on, with what is not known yet as asked."""
    if branch is None or is_forbidden(work.problem):
        return None
    asked = {f"{one}.{branch.key}" for one in ("after", "first_length", "second_length")}
    if not asked & set(settled):
        return None
    return MatchingNetwork(work["load"], work["line"], _elements(work, branch, settled))


def _elements(work: Work, branch: Branch, known: Collection[str]) -> tuple[Stub, Section, Stub]:
    first, second = (
        Stub(
            float(wrap_half_wave(work.of(f"{which}_length", branch)))
            if f"{which}_length.{branch.key}" in known
            else np.nan,
            work[f"{which}_stub"],
            "shunt",
            work[f"{which}_end"],
        )
        for which in STUBS
    )
    return first, Section(work["spacing"], work["line"]), second
