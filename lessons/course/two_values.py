"""The derivation of two reactances, either of them nearer the load: each value from the ones before it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from math import inf, nan, pi

from core.chart import Circle, conductance_circle, crossings, mismatch_circle, resistance_circle
from core.lumped import LumpedPart
from core.network import MatchingNetwork
from lessons.course.pairs import Pair
from lessons.course.stub_values import refuses as refuses_any
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import inverse
from lessons.grammar.kinds.part_values import NANOHENRIES, PICOFARADS
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import SERIES, SHUNT, Side

HIGHER = "The high one has the greater imaginary part behind the first part, the low one the lesser."
DRAWN_FROM = ("meet", "near", "far")
PARTS = ("near", "far")
ON_A_CIRCLE = 1e-3  # of r or g: a load this near a unit circle is matched by a single part
SINGLE_PART = (
    "This load stands on a unit circle: in one of the arrangements a single part matches it, and two are not needed. "
    "Choose a load beside the circle."
)


def _branch(placement: str, which: str, role: str) -> Branch:
    word = f"{placement}-{which}"
    return Branch(f"{placement}_{which}", word, role, also=(f"{placement} {which}",))  # type: ignore[arg-type]


@dataclass(frozen=True)
class Arrangement:
    """Which part stands nearer the load, and its two solutions. near, far : the sides of both parts."""

    near: Side
    far: Side
    pair: Pair

    @property
    def key(self) -> str:
        """What its fields' names begin with."""
        return self.near.placement

    def exists(self, problem: Problem) -> bool:
        """Whether the load can be matched so: the circle of its real part reaches the other grid's unit circle."""
        return bool(0 < self.load_at(problem).real < 1)

    def load_at(self, problem: Problem) -> complex:
        """The load as the near part meets it, normalised."""
        z = complex(problem["load"] / problem["line"])
        return z if self.near is SERIES else inverse(z)

    def name(self, branch: Branch) -> str:
        """What marks a solution's points: "high" or "low"."""
        return "high" if branch is self.pair.branches[0] else "low"

    # --- values ---

    def start(self, work: Work) -> complex:
        """The student's own."""
        return complex(work["normalise" if self.near is SERIES else "admittance"])

    def start_reflection(self, work: Work) -> complex:
        return self.near.reflection_at(self.start(work))

    def circle(self, work: Work) -> Circle:
        """The circle along which the near part moves the load."""
        make = resistance_circle if self.near is SERIES else conductance_circle
        return make(max(self.start(work).real, 0.0))

    def met(self, work: Work, circle: Circle) -> list[complex]:
        """Where a circle meets the unit circle of the far part's grid, the greater imaginary part first."""
        found = (
            self.near.value_at(point / max(1.0, abs(point)))
            for point in crossings(circle, self.far.unit_circle)
        )
        return sorted(found, key=lambda one: -one.imag)

    def meet(self, work: Work, branch: Branch) -> complex:
        """Where the near part leads to. Raises Impossible."""
        real = self.start(work).real
        found = self.met(work, self.circle(work)) if 0 < real < 1 else []
        if not found:
            step = "normalise" if self.near is SERIES else "admittance"
            raise Impossible(
                f"With {self.near.real_symbol} = {work.notation.number(real)} the circle of constant "
                f"{self.near.real_symbol} does not meet the other unit circle: go back to that step.",
                step,
            )
        return complex(real, found[self.pair.branches.index(branch) % len(found)].imag)

    def met_by_mismatch(self, work: Work) -> tuple[complex, ...] | None:
        """Where the load's mismatch circle meets the same unit circle."""
        return tuple(self.met(work, mismatch_circle(self.start_reflection(work)))) or None

    def meet_reflection(self, work: Work, branch: Branch) -> complex:
        return self.near.reflection_at(self.at(work, "meet", branch))

    def near_part(self, work: Work, branch: Branch) -> float:
        """What the near part adds."""
        return float((self.at(work, "meet", branch) - self.start(work)).imag)

    def turned(self, work: Work, branch: Branch) -> complex:
        """What the far part meets."""
        return inverse(self.at(work, "meet", branch))

    def far_part(self, work: Work, branch: Branch) -> float:
        return 0.0 - float(self.at(work, "turn", branch).imag)

    def at(self, work: Work, what: str, branch: Branch) -> complex:
        """One of the values of a solution, in its own or the student's words."""
        value: complex = work.of(f"{self.key}_{what}", branch)
        return value

    # --- what is built ---

    def side_of(self, which: str) -> Side:
        """Where the near or the far part stands."""
        return self.near if which == "near" else self.far

    def reactance(self, work: Work, which: str, branch: Branch) -> float:
        """The part's reactance in ohms."""
        part = float(self.at(work, which, branch).real)
        return in_ohms(part, self.side_of(which), work["line"])

    def value(self, work: Work, which: str, branch: Branch) -> float:
        """Nanohenries of a coil, minus picofarads of a capacitor. Raises Impossible where no part is needed."""
        reactance = self.reactance(work, which, branch)
        if reactance in (0, inf):
            step = "near" if which == "near" else "finish"
            raise Impossible("A part that adds nothing has no value: go back to it.", f"{self.key}_{step}")
        return value_of(reactance, work["frequency"])

    def parts(self, work: Work, branch: Branch, known: Collection[str]) -> tuple[LumpedPart, LumpedPart]:
        """Both parts, from the load on; those that are not known yet without a size."""

        def part(which: str) -> LumpedPart:
            placement, is_valued = self.side_of(which).placement, f"value.{which}" in known
            hertz = (
                work["frequency"] if is_valued else None
            )  # as long as values are asked only ohms are shown
            if hertz and branch is work.chosen:
                return LumpedPart(reactance_of(work[f"value.{which}"], hertz), placement, hertz)
            is_known = f"{self.key}_{which}.{branch.key}" in known
            return LumpedPart(self.reactance(work, which, branch) if is_known else nan, placement, hertz)

        return part("near"), part("far")


def in_ohms(part: float, side: Side, line: float) -> float:
    """The reactance of a normalised x in the line, or of a normalised b across it."""
    if side is SERIES:
        return part * line
    return -line / part if part else inf


def value_of(reactance: float, hertz: float) -> float:
    """Nanohenries, or minus picofarads: X = 2 pi f L and X = -1 / (2 pi f C)."""
    speed = 2 * pi * hertz
    return NANOHENRIES * reactance / speed if reactance > 0 else PICOFARADS / (speed * reactance)


def reactance_of(value: float, hertz: float) -> float:
    """The reactance of a value in nanohenries, or in minus picofarads."""
    speed = 2 * pi * hertz
    return speed * value / NANOHENRIES if value > 0 else PICOFARADS / (speed * value)


def _pair(placement: str, roles: tuple[str, str]) -> Pair:
    high, low = _branch(placement, "high", roles[0]), _branch(placement, "low", roles[1])
    return Pair((high, low), "crossing", HIGHER)


SHUNT_FIRST = Arrangement(SHUNT, SERIES, _pair("shunt", ("first", "second")))
SERIES_FIRST = Arrangement(SERIES, SHUNT, _pair("series", ("third", "fourth")))
BOTH = (SHUNT_FIRST, SERIES_FIRST)
BRANCHES = (*SHUNT_FIRST.pair.branches, *SERIES_FIRST.pair.branches)


def arrangement_of(branch: Branch) -> Arrangement:
    return next(one for one in BOTH if branch in one.pair.branches)


def ways(work: Work) -> str:
    """Which part can stand nearer the load: "shunt", "series" or "either"."""
    if work["normalise"].real > 1:
        return "shunt"
    return "series" if work["admittance"].real > 1 else "either"


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to choose, or nothing."""
    sentence = refuses_any(problem)
    if not sentence and any(abs(one.load_at(problem).real - 1) < ON_A_CIRCLE for one in BOTH):
        return SINGLE_PART
    return sentence


def network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """A branch's network as far as a sheet has come: from where its first part leads to."""
    if branch is None:
        return None
    arrangement = arrangement_of(branch)
    begun = any(f"{arrangement.key}_{what}.{branch.key}" in settled for what in DRAWN_FROM)
    valued = not begun and any(f"value.{which}" in settled for which in PARTS) and branch is work.chosen
    if not (begun or valued) or not arrangement.exists(work.problem):
        return None
    return MatchingNetwork(work["load"], work["line"], arrangement.parts(work, branch, settled))
