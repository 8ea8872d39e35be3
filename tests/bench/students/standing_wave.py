"""Students who look for the voltage maximum and minimum of a line, and for the volts there; and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import inf, log10, sqrt
from random import Random
from typing import Any

from tests.bench.students import chart_mistakes, people, quarter_mistakes
from tests.bench.students.chart_mistakes import HABIT, always
from tests.bench.students.people import RELATIVE, Eye, Metric, Mistake
from tests.bench.students.quarter_wave import AXIS, OTHER, RECKONED, QuarterStudent, significant

VOLTS = Metric(
    lambda one, other: abs(one - other) / (RELATIVE * abs(other)) if other else inf if one else 0.0,
    significant,
    RECKONED.anywhere,
)
METRICS = {
    "resistance": AXIS, "distance": people.WAVELENGTHS, "ohms": RECKONED, "voltage": VOLTS, "ratio": people.RATIO,
}  # fmt: skip


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson."""
    return {**usual, "power": float(chance.choice((0.1, 1, 5, 10, 12.5, 100)))}


@dataclass(kw_only=True)
class StandingStudent(QuarterStudent):
    """A student with a standing wave."""

    power: float

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        both = ("distance", "resistance", "ohms", "voltage")
        return [
            "normalise", "place", "mismatch", "ends.highest", *(f"{one}.{side}" for one in both for side in self.sides),
            "ratio",
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return METRICS

    def crest(self, resistance: float) -> float:
        """The peak voltage across a resistance that takes the power."""
        return sqrt(2 * self.power * resistance)

    def _ohms(self, eye: Eye, side: str) -> float:
        return float(self.at(f"resistance.{side}") * self.line)

    def _voltage(self, eye: Eye, side: str) -> float:
        return self.crest(self.at(f"ohms.{side}"))

    def _ratio(self, eye: Eye) -> float:
        lowest = self.at("voltage.minimum")
        return float(self.at("voltage.maximum") / lowest) if lowest else 1.0  # any number: none can be right


def student(givens: Mapping[str, Any], overlay: bool) -> StandingStudent:
    """Somebody with a problem."""
    return StandingStudent(**givens, frequency=None, velocity=1.0, overlay=overlay)


def mistakes(s: StandingStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    quantity, _, side = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(s, side) if side else maker(s))


_normalise, _place, _mismatch = chart_mistakes.normalise, chart_mistakes.place, chart_mistakes.mismatch
_resistance = quarter_mistakes._resistance


def _ends(s: StandingStudent, what: str) -> Iterator[Mistake]:
    yield Mistake("ends exchanged", always("left"))


def _distance(s: StandingStudent, side: str) -> Iterator[Mistake]:
    yield from (one for one in quarter_mistakes._distance(s, side) if one.key != "quarter wave counted in")


def _ohms(s: StandingStudent, side: str) -> Iterator[Mistake]:
    r = s.at(f"resistance.{side}")
    yield Mistake("not denormalised", always(r))
    yield Mistake("divided again", always(r / s.line))
    if s.line != HABIT:
        yield Mistake("50 ohm by habit", always(r * HABIT))
    yield Mistake("load's resistance", always(s.load.real))
    yield Mistake("size of the load", always(abs(s.load)))
    yield Mistake(
        "branches mixed", always(s.at(f"resistance.{OTHER[side]}") * s.line), (f"resistance.{side}",)
    )
    yield Mistake("", always(1.3 * r * s.line))


def _voltage(s: StandingStudent, side: str) -> Iterator[Mistake]:
    ohms = s.at(f"ohms.{side}")
    right, matched = s.crest(ohms), s.crest(s.line)
    yield Mistake("rms", always(right / sqrt(2)))
    yield Mistake("peak to peak", always(2 * right))
    yield Mistake("two below", always(sqrt(s.power * ohms / 2)))
    yield Mistake("no root", always(2 * s.power * ohms))
    yield Mistake("normalised resistance", always(s.crest(ohms / s.line)))
    yield Mistake("matched line", always(matched))
    yield Mistake("load's resistance", always(s.crest(s.load.real)))
    yield Mistake("current", always(sqrt(2 * s.power / ohms)))
    yield Mistake("whole ratio", always(matched * ohms / s.line))
    if side == "minimum":
        yield Mistake("nothing left", always(0.0))
    yield Mistake("branches mixed", always(s.crest(s.at(f"ohms.{OTHER[side]}"))), (f"ohms.{side}",))
    yield Mistake("", always(1.7 * right))


def _ratio(s: StandingStudent) -> Iterator[Mistake]:
    high, low = s.at("voltage.maximum"), s.at("voltage.minimum")
    if not low:
        return
    yield Mistake("upside down", always(low / high))
    yield Mistake("ratio of the resistances", always((high / low) ** 2))
    yield Mistake("difference", always(abs(high - low)))
    yield Mistake("decibels", always(abs(20 * log10(high / low))))
    yield Mistake("to the matched line", always(high / s.crest(s.line)))
    yield Mistake("", always(1 + high / low))
