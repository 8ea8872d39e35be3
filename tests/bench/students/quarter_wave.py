"""Students who match a load with a quarter wave of line, at the voltage maximum or at the minimum.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, sqrt
from random import Random
from typing import Any

from tests.bench.students import people
from tests.bench.students.arithmetic import normalised, ratio, reading, reflection, turned
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import POINT, RELATIVE, Eye, Metric

OTHER = {"maximum": "minimum", "minimum": "maximum"}
QUARTER = 0.25


def significant(value: float, decimals: int) -> str:
    """A number with one digit more than it would have decimals; nobody writes 0.03 for 0.0346."""
    return f"{value:.{decimals + 1}g}" if value < 10**decimals else f"{value:.0f}"


def _anywhere(chance: Random, right: float) -> float:
    return right * chance.uniform(0.2, 3)


AXIS = Metric(
    lambda one, other: abs(reflection(one) - reflection(other)) / POINT if min(one, other) > 0 else inf,
    significant,
    _anywhere,
)
RECKONED = Metric(lambda one, other: abs(one - other) / (RELATIVE * abs(other)), significant, _anywhere)
METRICS = {
    "resistance": AXIS, "distance": people.WAVELENGTHS, "section": RECKONED, "own": RECKONED, "turned": AXIS,
    "total": AXIS,
}  # fmt: skip


@dataclass(kw_only=True)
class QuarterStudent(ChartStudent):
    """A student with a quarter wave. draws : also works from the ends of the axis as chosen."""

    sides = ("maximum", "minimum")
    drawn = ("place", "mismatch", "ends.highest")

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        both = ("resistance", "distance", "section", "own", "turned", "total")
        return [
            "normalise", "place", "mismatch", "ends.where", "ends.highest",
            *(f"{one}.{side}" for one in both for side in self.sides),
            "choose.which", "choose.why",
            *(["millimetres.distance", "millimetres.section"] if self.frequency else []),
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return METRICS

    # --- the derivation ---

    def right(self, key: str, eye: Eye) -> Any:
        """What a student without a mistake writes, from the values before."""
        if key.startswith("ends"):
            return {"ends.where": "axis", "ends.highest": "right"}[key]
        return super().right(key, eye)

    @property
    def size(self) -> float:
        """Radius of the circle that the walk goes along, as it was read."""
        return (self.at("mismatch") - 1) / (self.at("mismatch") + 1)

    def meant(self, side: str) -> str:
        """The place that is called so by who has chosen the ends of the axis."""
        return OTHER[side] if self.draws and self.at("ends.highest") == "left" else side

    def on_axis(self, side: str, eye: Eye) -> float:
        """What is read where the circle meets the axis."""
        high = ratio(eye.size(self.size))
        return high if side == "maximum" else 1 / high

    def _resistance(self, eye: Eye, side: str) -> float:
        return self.on_axis(self.meant(side), eye)

    def start_and_end(self, side: str, eye: Eye) -> tuple[float, float]:
        """Readings at the load and at an end of the axis."""
        start = self.at("place") if self.draws else reflection(self.at("normalise"))
        return eye.scale(reading(start)), eye.scale(reading(1 if self.meant(side) == "maximum" else -1))

    def _distance(self, eye: Eye, side: str) -> float:
        start, end = self.start_and_end(side, eye)
        return (end - start) % 0.5

    def ohms(self, side: str) -> float:
        """The resistance there."""
        return self.at(f"resistance.{side}") * self.line

    def _section(self, eye: Eye, side: str) -> float:
        return sqrt(self.ohms(side) * self.line)

    def _own(self, eye: Eye, side: str) -> float:
        return self.ohms(side) / self.at(f"section.{side}")

    def _turned(self, eye: Eye, side: str) -> float:
        point = -reflection(self.at(f"own.{side}")).real + POINT * eye.off()
        return normalised(max(-0.999, min(0.999, point))).real

    def _total(self, eye: Eye, side: str) -> float:
        return self.at(f"turned.{side}") * self.at(f"section.{side}") / self.line

    # --- which to build ---

    def reflects(self, side: str, off: float) -> float:
        """|reflection| of what was built where the frequency is `off` times its own."""
        distance, impedance = self.at(f"distance.{side}") % 0.5, self.at(f"section.{side}")
        at_section = normalised(turned(reflection(self.load / self.line), distance * off))
        on_section = turned(reflection(at_section * self.line / impedance), QUARTER * off)
        return abs(reflection(normalised(on_section) * impedance / self.line))

    def costs(self, side: str) -> dict[str, float]:
        """What each reason is about: less is better."""
        distance, impedance = self.at(f"distance.{side}") % 0.5, self.at(f"section.{side}")
        return {
            "shorter distance": distance,
            "more room": -distance,
            "wider band": max(self.reflects(side, 0.95), self.reflects(side, 1.05)),
            "lower impedance": impedance,
            "higher impedance": -impedance,
        }

    def true_reasons(self, side: str) -> list[str]:
        """What speaks for a solution."""
        mine, others = self.costs(side), self.costs(OTHER[side])
        return [reason for reason, cost in mine.items() if cost <= others[reason]]

    def _choose(self, what: str) -> str:
        if what == "which":
            return min(self.sides, key=lambda side: self.at(f"distance.{side}") % 0.5)
        return self.true_reasons(self.at("choose.which"))[0]

    def waves(self, what: str, side: str) -> float:
        """A length of a solution in wavelengths."""
        return QUARTER if what == "section" else self.at(f"distance.{side}")

    def _millimetres(self, what: str) -> float:
        return self.waves(what, self.at("choose.which")) * self.wavelength

    def drawing(self, key: str, value: Any) -> Any:
        """Also of a resistance, a distance, an end of the axis, the end of the quarter wave."""
        quantity = key.split(".")[0]
        if quantity in ("resistance", "turned"):
            return reflection(value)
        if quantity == "distance" or key == "ends.highest":
            return value
        return super().drawing(key, value)
