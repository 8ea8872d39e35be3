"""Students who match a load with two stubs a spacing apart.

Everything is worked out here from the definitions (see `arithmetic`); points are those of the chart of admittances.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, pi, sin, sqrt
from random import Random
from typing import Any

from tests.bench.students import people
from tests.bench.students.arithmetic import normalised, reading, reflection, stub_shows, turned
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import Eye, Metric

OTHER = {"higher": "lower", "lower": "higher"}
OTHER_STUB = {"first": "second", "second": "first"}
LIMIT = Metric(
    lambda one, other: abs(one - other) / max(0.05, 0.005 * abs(other)),
    people.real_text,
    lambda chance, right: chance.uniform(0, 12),
)
METRICS = {
    "admittance": people.IMMITTANCE, "limit": LIMIT, "way_out": people.WAVELENGTHS, "after": people.IMMITTANCE,
    "first_part": people.PART_SUM, "arriving": people.IMMITTANCE, "second_part": people.PART_SUM,
    "first_length": people.WAVELENGTHS, "second_length": people.WAVELENGTHS, "total": people.IMMITTANCE,
}  # fmt: skip


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson whose load is not just at the edge of what two stubs can match."""
    spacing = round(chance.uniform(0.08, 0.42), 3)
    conductance = (usual["line"] / usual["load"]).real * sin(2 * pi * spacing) ** 2
    if 0.8 < conductance < 1.25:
        return problem(chance, usual)
    stubs = {f"{which}_stub": chance.choice((usual["line"], usual["stub"])) for which in OTHER_STUB}
    ends = {f"{which}_end": chance.choice(("short", "open")) for which in OTHER_STUB}
    return {**usual, "spacing": spacing, **stubs, **ends}


@dataclass(kw_only=True)
class TwoStubStudent(ChartStudent):
    """A student with two stubs."""

    sides = ("higher", "lower")
    drawn = ("place",)
    spacing: float
    stubs: dict[str, float]
    ends: dict[str, str]

    @property
    def is_forbidden(self) -> bool:
        """Whether no first stub helps this load."""
        return (self.line / self.load).real * sin(2 * pi * self.spacing) ** 2 > 1

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        first = ["normalise", "place", "mismatch", "admittance", "limit", "region"]
        if self.is_forbidden:
            return [*first, "way_out"]
        both = (
            "after", "first_part", "arriving", "second_part", "first_length", "second_length", "total"
        )  # fmt: skip
        return [*first, "rotated", *(f"{one}.{side}" for one in both for side in self.sides),
                "choose.which", "choose.why"]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return METRICS

    # --- where stubs can match ---

    @property
    def angle(self) -> float:
        """Of the line between the stubs."""
        return 2 * pi * self.spacing

    def _admittance(self, eye: Eye) -> complex:
        at = -self.at("place") if self.draws else reflection(1 / self.at("normalise"))
        return normalised(eye.point(at))

    def _limit(self, eye: Eye) -> float:
        return 1 / sin(self.angle) ** 2

    def _region(self, eye: Eye) -> str:
        return "inside" if self.at("admittance").real > self.at("limit") else "outside"

    def _rotated(self, eye: Eye) -> str:
        return "toward load"

    def boundary(self, below: bool) -> complex:
        """Where the mismatch circle meets the circle of the largest conductance, below the axis or above it."""
        size, limit = abs(reflection(self.at("admittance"))), self.at("limit")
        along = (size**2 + (limit - 1) / (limit + 1)) * (1 + limit) / (2 * limit)
        return complex(along, sqrt(max(0.0, size**2 - along**2)) * (-1 if below else 1))

    def out_and_in(self, below: bool, eye: Eye) -> tuple[float, float]:
        """Readings at the load and at the boundary."""
        return self.reads(reflection(self.at("admittance")), eye), self.reads(self.boundary(below), eye)

    def _way_out(self, eye: Eye) -> float:
        start, end = self.out_and_in(True, eye)
        return (end - start) % 0.5

    # --- from stub to stub ---

    def b_behind(self, side: str, way: int = 1) -> float:
        """The susceptance on the unit circle turned toward the load (way 1) or toward the generator (-1)."""
        g = self.at("admittance").real
        root = sqrt(max(0.0, g - (g * sin(self.angle)) ** 2))
        turn = 1 if side == "higher" else -1
        return (way * cos(self.angle) + turn * root) / sin(self.angle)

    def _after(self, eye: Eye, side: str) -> complex:
        return normalised(eye.point(reflection(complex(self.at("admittance").real, self.b_behind(side)))))

    def _first_part(self, eye: Eye, side: str) -> float:
        return (self.at(f"after.{side}") - self.at("admittance")).imag

    def walked(self, side: str, length: float, eye: Eye) -> complex:
        """What so much line brings from the first stub."""
        return normalised(eye.point(turned(reflection(self.at(f"after.{side}")), length)))

    def _arriving(self, eye: Eye, side: str) -> complex:
        return self.walked(side, self.spacing, eye)

    def _second_part(self, eye: Eye, side: str) -> float:
        return -self.at(f"arriving.{side}").imag

    # --- the stubs ---

    def reads(self, point: complex, eye: Eye) -> float:
        """The scale toward the generator beside a point; on overlaid grids admittances stand at the impedance's."""
        return eye.scale(reading(-point if self.overlay else point))

    def on_stub(self, which: str, side: str) -> float:
        """What a stub must show on its own chart."""
        return self.at(f"{which}_part.{side}") * self.stubs[which] / self.line

    def rim(self, part: float, eye: Eye) -> float:
        """Reading beside a susceptance on the rim."""
        return self.reads(reflection(complex(0, part)), eye)

    def rim_start(self, end: str, eye: Eye) -> float:
        """Reading beside a stub's end."""
        return self.reads(1 if end == "short" else -1, eye)

    def length(self, which: str, part: float, eye: Eye) -> float:
        """Length of a stub that shows so much on its own chart."""
        return (self.rim(part, eye) - self.rim_start(self.ends[which], eye)) % 0.5

    def _first_length(self, eye: Eye, side: str) -> float:
        return self.length("first", self.on_stub("first", side), eye)

    def _second_length(self, eye: Eye, side: str) -> float:
        return self.length("second", self.on_stub("second", side), eye)

    def shown(self, which: str, length: float) -> float:
        """What a stub of this length shows on the line's chart."""
        return stub_shows(length, self.ends[which] == "open") * self.line / self.stubs[which]

    def seen(self, side: str, off: float = 1.0, load: complex | None = None) -> complex:
        """The admittance that the generator's line sees of the lengths written, `off` times the frequency."""
        first, second = (self.at(f"{which}_length.{side}") % 0.5 * off for which in OTHER_STUB)
        y = self.at("admittance") if load is None else self.line / load
        arriving = normalised(turned(reflection(y + 1j * self.shown("first", first)), self.spacing * off))
        return arriving + 1j * self.shown("second", second)

    def _total(self, eye: Eye, side: str) -> complex:
        return self.seen(side)

    # --- which to build ---

    def costs(self, side: str) -> dict[str, float]:
        """What each reason is about: less is better."""
        line = sum(self.at(f"{which}_length.{side}") % 0.5 for which in OTHER_STUB)
        band = max(abs(reflection(self.seen(side, off, self.load))) for off in (0.95, 1.05))
        return {"less line": line, "wider band": band, "more line": -line}

    def true_reasons(self, side: str) -> list[str]:
        """What speaks for a solution."""
        mine, others = self.costs(side), self.costs(OTHER[side])
        return [reason for reason, cost in mine.items() if cost <= others[reason]]

    def _choose(self, what: str) -> str:
        if what == "which":
            return min(self.sides, key=lambda side: self.costs(side)["less line"])
        return self.true_reasons(self.at("choose.which"))[0]

    def drawing(self, key: str, value: Any) -> Any:
        """Also of admittances, reached along a circle or put there, and of walks."""
        quantity = key.split(".")[0]
        if quantity in ("admittance", "after", "arriving"):
            return -reflection(value)
        if quantity in ("way_out", "first_length", "second_length"):
            return value
        return super().drawing(key, value)
