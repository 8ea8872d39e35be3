"""Students who match a load with one stub, across the line or in it, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`), for whoever wants to know whether the lesson's
own predictions are those of its students.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.bench.students import people
from tests.bench.students.arithmetic import (
    normalised,
    part_at_crossing,
    reading,
    reflection,
    stub_shows,
    turned,
    walk,
)
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import Eye, Metric

OTHER = {"near": "far", "far": "near"}
OPPOSITE = {"short": "open", "open": "short"}
METRICS = {
    "admittance": people.IMMITTANCE, "crossing": people.IMMITTANCE, "susceptance": people.PART,
    "reactance": people.PART, "distance": people.WAVELENGTHS, "needed": people.PART_SUM, "own": people.PART_SUM,
    "length": people.WAVELENGTHS, "total": people.IMMITTANCE,
}  # fmt: skip


@dataclass(kw_only=True)
class StubStudent(ChartStudent):
    """A student with a stub. draws : also works from the stub's end and sense as chosen."""

    sides = ("near", "far")
    drawn = ("place", "mismatch", "start.point", "start.sense")
    stub: float
    end: str
    shunt: bool

    @property
    def part(self) -> str:
        """What is left at a crossing."""
        return "susceptance" if self.shunt else "reactance"

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        both = ("near", "far")
        return [
            "normalise", "place", "mismatch", *(["admittance"] if self.shunt else []), "unit_circle",
            *(f"{one}.{side}" for one in ("crossing", self.part, "distance", "needed") for side in both),
            *(f"own.{side}" for side in both if self.stub != self.line),
            "start.point", "start.sense",
            *(f"{one}.{side}" for one in ("length", "total") for side in both),
            "choose.which", "choose.why",
            *(["millimetres.distance", "millimetres.length"] if self.frequency else []),
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the stub's own fields are compared."""
        return METRICS

    # --- the derivation ---

    def right(self, key: str, eye: Eye) -> Any:
        """What a student without a mistake writes, from the values before."""
        quantity, _, side = key.partition(".")
        if quantity == "start":
            return self._start(side)
        if quantity == self.part:
            return eye.part(self.at(f"crossing.{side}").imag)
        return super().right(key, eye)

    def _admittance(self, eye: Eye) -> complex:
        at = -self.at("place") if self.draws else reflection(1 / self.at("normalise"))
        return normalised(eye.point(at))

    def _unit_circle(self, eye: Eye) -> str:
        return "unit conductance" if self.shunt else "unit resistance"

    @property
    def start(self) -> complex:
        """Where the walk begins, on the chart of what is added."""
        if self.draws and not self.shunt:
            return self.at("place")
        return reflection(self.at("admittance" if self.shunt else "normalise"))

    @property
    def size(self) -> float:
        """Radius of the circle that the walk goes along."""
        if self.draws:
            return (self.at("mismatch") - 1) / (self.at("mismatch") + 1)
        return abs(self.start)

    def crossing_part(self, side: str) -> float:
        """The imaginary part at a crossing: the near one comes first, clockwise."""
        part = part_at_crossing(self.size)
        near = min((part, -part), key=lambda one: walk(self.start, reflection(complex(1, one))))
        return near if side == "near" else -near

    def _crossing(self, eye: Eye, side: str) -> complex:
        return complex(1, eye.part(self.crossing_part(side)))

    def reads(self, point: complex, eye: Eye) -> float:
        """The scale toward the generator beside a point; on overlaid grids admittances stand at the impedance's."""
        return eye.scale(reading(-point if self.shunt and self.overlay else point))

    def start_and_end(self, side: str, eye: Eye) -> tuple[float, float]:
        """Readings at the load and at a crossing."""
        return self.reads(self.start, eye), self.reads(reflection(self.at(f"crossing.{side}")), eye)

    def _distance(self, eye: Eye, side: str) -> float:
        start, end = self.start_and_end(side, eye)
        return (end - start) % 0.5

    def _needed(self, eye: Eye, side: str) -> float:
        return -self.at(f"{self.part}.{side}")

    def scale_to_stub(self, part: float) -> float:
        """A part on the line's chart on the stub's."""
        return part * self.stub / self.line if self.shunt else part * self.line / self.stub

    def scale_to_line(self, part: float) -> float:
        """And back."""
        return part * self.line / self.stub if self.shunt else part * self.stub / self.line

    def _own(self, eye: Eye, side: str) -> float:
        return self.scale_to_stub(self.at(f"needed.{side}"))

    def wanted(self, side: str) -> float:
        """What the stub must show on its own chart."""
        return self.at(f"own.{side}" if self.stub != self.line else f"needed.{side}")

    @property
    def resonates(self) -> bool:
        """Whether a stub of no length shows nothing."""
        return (self.end == "open") == self.shunt

    def rim(self, part: float, eye: Eye) -> float:
        """Reading beside a part on the rim."""
        return self.reads(reflection(complex(0, part)), eye)

    def rim_start(self, end: str, eye: Eye) -> float:
        """Reading beside a stub's end on the rim."""
        right = (end == "open") != self.shunt
        return self.reads(1 if right else -1, eye)

    def _start(self, what: str) -> str:
        return self.end if what == "point" else "clockwise"

    def _length(self, eye: Eye, side: str) -> float:
        point = self.at("start.point")
        end = point if self.draws and point in OPPOSITE else self.end
        length = self.rim(self.wanted(side), eye) - self.rim_start(end, eye)
        return (length if not self.draws or self.at("start.sense") == "clockwise" else -length) % 0.5

    def stub_there(self, side: str) -> float:
        """What the stub of the length written shows at the junction."""
        return self.scale_to_line(stub_shows(self.at(f"length.{side}"), self.resonates))

    def _total(self, eye: Eye, side: str) -> complex:
        return self.at(f"crossing.{side}") + 1j * self.stub_there(side)

    # --- which to build ---

    def lengths(self, side: str) -> tuple[float, float]:
        """Distance and stub length of one solution, without whole halves of a wavelength."""
        return self.at(f"distance.{side}") % 0.5, self.at(f"length.{side}") % 0.5

    def reflects(self, side: str, off: float) -> float:
        """|reflection| of what was built where the frequency is `off` times its own."""
        distance, length = self.lengths(side)
        at = turned(
            reflection(self.line / self.load if self.shunt else self.load / self.line), distance * off
        )
        total = normalised(at) + 1j * self.scale_to_line(stub_shows(length * off, self.resonates))
        return abs(reflection(total))

    def costs(self, side: str) -> dict[str, float]:
        """What each reason is about: less is better."""
        distance, length = self.lengths(side)
        return {
            "shorter distance": distance,
            "shorter stub": length,
            "less line": distance + length,
            "longer stub": -length,
            "more room": -distance,
            "wider band": max(self.reflects(side, 0.95), self.reflects(side, 1.05)),
        }

    def true_reasons(self, side: str) -> list[str]:
        """What speaks for a solution."""
        mine, others = self.costs(side), self.costs(OTHER[side])
        return [reason for reason, cost in mine.items() if cost <= others[reason]]

    def _choose(self, what: str) -> str:
        if what == "which":
            return min(OTHER, key=lambda side: sum(self.lengths(side)))
        return self.true_reasons(self.at("choose.which"))[0]

    def _millimetres(self, what: str) -> float:
        return self.at(f"{what}.{self.at('choose.which')}") * self.wavelength

    def drawing(self, key: str, value: Any) -> Any:
        """Also of an admittance, a crossing, a length, the stub's end."""
        quantity = key.split(".")[0]
        if quantity in ("admittance", "crossing"):
            return -reflection(value) if self.shunt else reflection(value)
        if quantity in ("distance", "length") or key == "start.point":
            return value
        return super().drawing(key, value)
