"""The derivation of a single stub, shunt or series: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Callable, Collection

import numpy as np

from core.chart import OPEN_POINT, SHORT_POINT, crossings, mismatch_circle, rim_position
from core.elements import Section, Stub
from core.line import swr, wrap_half_wave
from core.network import MatchingNetwork
from core.solutions import TAKES_NO_POWER
from core.stubs import stub_length_for, stub_susceptance
from lessons.course.near_and_far import BOTH
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import CLOSE, LengthOfLine, inverse
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import Side, reflection_of
from lessons.grammar.strokes import scale_reading

SMALLEST_SWR, LARGEST_SWR = 1.002, 1e4
WRITTEN, ROUNDING = 0.0005, 1e-9  # wavelengths: what is drawn is written to three decimals
AS_READ = 65  # totals along the whole unit circle that are a tolerance apart


def known_impedance(work: Work | Problem) -> complex:
    """What the problem gives in ohms: the load, or where that is asked what the line shows at its input."""
    load = work["load"]
    return complex(work["input"] if load is None else load)


def normalised_load(work: Work) -> complex:
    return known_impedance(work) / work["line"]


def load_reflection(work: Work) -> complex:
    return reflection_of(work["normalise"])


def load_swr(work: Work) -> float:
    return float(swr(work["place"]))


def load_admittance(work: Work) -> complex:
    return inverse(work["normalise"])


def has_own_impedance(work: Work) -> bool:
    """Whether the problem's stub is of another impedance than its line."""
    return bool(work["stub"] != work["line"])


class StubValues:
    """The values of a stub on one side of the line. `start` is the field that the walk along the line begins at."""

    def __init__(self, side: Side) -> None:
        self.side = side
        self.start_key = "admittance" if side.immittance == "admittance" else "normalise"

    # --- on the line ---

    def start(self, work: Work) -> complex:
        """Reflection on the line of the student's load."""
        return self.side.reflection_at(work[self.start_key])

    def drawn_start(self, work: Work) -> complex:
        """The same on the chart as the student has drawn it: the load's own point, on the mismatch circle drawn."""
        placed = work["place"]
        return placed if not placed else placed / abs(placed) * reflection_of(work["mismatch"])

    def crossing(self, work: Work, branch: Branch) -> complex:
        """What the line shows where the mismatch circle meets the unit circle, near or far."""
        return self.crossing_from(work, branch, self.start(work))

    def crossing_from(self, work: Work, branch: Branch, start: complex) -> complex:
        """The crossing for a walk that begins at this reflection on the line."""
        side = self.side
        found = crossings(mismatch_circle(start), side.unit_circle) if abs(start) < 1 else ()
        if not found:
            raise Impossible(
                f"With {work.write(self.start_key)} for the load's {side.immittance} the mismatch circle does not "
                f"cross the unit-{side.real} circle: go back to that step.",
                self.start_key,
            )
        met = sorted(found, key=lambda point: clockwise(start, point))
        return complex(1, side.value_at(met[BOTH.index(branch) % len(met)]).imag)

    def crossing_reflection(self, work: Work, branch: Branch) -> complex:
        return self.side.reflection_at(work.of("crossing", branch))

    def crossing_routes(self, branch: Branch) -> tuple[Callable[[Work], complex], ...]:
        """The crossing by what was drawn: from the point that was placed, and on the circle that was drawn."""

        def on_drawn_circle(work: Work) -> complex:
            start = self.start(work)
            return self.crossing_from(work, branch, start / abs(start) * reflection_of(work["mismatch"]))

        return (
            lambda work: self.crossing_from(work, branch, work["place"]),
            lambda work: self.crossing_from(work, branch, self.drawn_start(work)),
            on_drawn_circle,
        )

    def part(self, work: Work, branch: Branch) -> float:
        """The imaginary part that the line leaves at a crossing."""
        return float(work.of("crossing", branch).imag)

    def distance(self, work: Work, branch: Branch) -> float:
        return clockwise(self.start(work), self.crossing_reflection(work, branch))

    def distance_from_drawn(self, work: Work, branch: Branch) -> float:
        """The distance from the point that the student has placed."""
        return clockwise(work["place"], self.crossing_reflection(work, branch))

    def needed(self, work: Work, branch: Branch) -> float:
        return -work.of(self.side.part, branch)

    # --- on the stub ---

    def on_stub_chart(self, work: Work, branch: Branch) -> float:
        return self.side.scaled(work.of("needed", branch), work["line"], work["stub"])

    def stub_length(self, work: Work, branch: Branch) -> float:
        return self.length_for(work, work.of("own", branch))

    def length_from_chosen(self, work: Work, branch: Branch) -> float:
        """The length from the end and in the sense that the student has chosen. Raises Impossible for no end."""
        point, sense = work["start.point"], work["start.sense"]
        if point not in ("short", "open"):
            raise Impossible("No stub starts there.", "start")
        length = float(stub_length_for(work.of("own", branch), self.side.placement, point))
        return length if sense == "clockwise" else float(wrap_half_wave(-length))

    def length_for(self, work: Work, part: float) -> float:
        return float(stub_length_for(part, self.side.placement, work["end"]))

    def total(self, work: Work, branch: Branch) -> complex:
        shown = stub_susceptance(work.of("length", branch), self.side.placement, work["end"])
        return work.of("crossing", branch) + 1j * self.side.scaled(shown, work["stub"], work["line"])

    def total_as_needed(self, work: Work, branch: Branch) -> complex:
        """The same with what the stub was made for. Raises Impossible where the student's own length is none for it."""
        follows, own = work.following(f"length.{branch.key}"), work.of("length", branch)
        if LengthOfLine().off_by(own, follows, work.problem.accuracy) > CLOSE:
            raise Impossible("A stub of this length does not show what it was made for.", "length")
        return work.of("crossing", branch) + 1j * work.of("needed", branch)

    def totals_as_read(self, work: Work, branch: Branch) -> tuple[complex, ...]:
        """The same for all that a length in thousandths may have been on the chart: near resonance they tell apart.

        They lie along the unit circle, so that they are spread evenly by their angle about its centre."""
        length, crossing = work.of("length", branch), work.of("crossing", branch)
        if abs(length - round(length, 3)) > ROUNDING:
            return ()
        shown = stub_susceptance(length + WRITTEN * np.array([-1, 1]), self.side.placement, work["end"])
        parts = crossing.imag + self.side.scaled(shown, work["stub"], work["line"])
        first, last = 2 * np.arctan(parts / 2)
        angles = np.linspace(first, last if last > first else last + 2 * np.pi, AS_READ)
        return tuple(complex(crossing.real, part) for part in (2 * np.tan(angles / 2)).tolist())

    def stub_reflection(self, work: Work, branch: Branch) -> complex:
        """Where the stub's own input stands on the rim of its own chart."""
        return self.side.reflection_at(1j * work.of("own", branch))

    def reading(self, work: Work, reflection: complex) -> float:
        return scale_reading(reflection, self.side.immittance, work.notation.admittance)

    # --- what is built ---

    def network(self, work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
        """A branch's network as far as a sheet has come: from its crossing on, with what is not known yet as asked."""
        asked = [
            one for one in ("crossing", "distance", "length") if branch and f"{one}.{branch.key}" in settled
        ]
        if not branch or not asked:
            return None
        known = [one for one in asked if one != "crossing"]
        return MatchingNetwork(work["load"], work["line"], self._elements(work, branch, known))

    def _elements(self, work: Work, branch: Branch, known: Collection[str]) -> tuple[Section, Stub]:
        distance, length = (
            float(wrap_half_wave(work.of(one, branch))) if one in known else np.nan
            for one in ("distance", "length")
        )
        stub = Stub(length, work["stub"], self.side.placement, work["end"])
        return Section(distance, work["line"]), stub


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to solve, or nothing."""
    load = problem["load"]
    if np.isinf(load) or load.real == 0:
        return TAKES_NO_POWER
    mismatch = swr(reflection_of(load / problem["line"]))
    if mismatch > LARGEST_SWR:
        return (
            "This load takes next to no power: its standing-wave ratio is above 10 000, and on the chart its circle "
            "cannot be told from the rim. Choose a load with more resistance."
        )
    if mismatch < SMALLEST_SWR:
        return "This load is matched already: nothing is reflected, and there is nothing left to match."
    return ""


def bare(problem: Problem) -> MatchingNetwork:
    """The load on its line, before anything is known of a match."""
    return MatchingNetwork(problem["load"], problem["line"], ())


def clockwise(start: complex, end: complex) -> float:
    """Wavelengths toward the generator from one point of a mismatch circle to another."""
    there = float(wrap_half_wave(rim_position(end) - rim_position(start)))
    return 0.0 if there > 0.5 - 1e-9 else there


def stub_end(work: Work) -> complex:
    return SHORT_POINT if work["end"] == "short" else OPEN_POINT
