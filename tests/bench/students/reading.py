"""Students who read the chart: what the distance of a load from the centre is in decibels and in percent.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import log, log10, sqrt
from random import Random

from tests.bench.students import chart_mistakes
from tests.bench.students.arithmetic import ratio
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import POINT, Eye, Metric, Mistake
from tests.bench.students.quarter_wave import significant


def decibels(size: float) -> float:
    """Return loss of a reflection's size."""
    return -20 * log10(max(size, 1e-4))


def _by_size(size: Callable[[float], float], anywhere: Callable[[Random, float], float]) -> Metric:
    """Numbers compared by how large the reflection is that they tell of."""
    return Metric(lambda one, other: abs(size(one) - size(other)) / POINT, significant, anywhere)


METRICS = {
    "loss": _by_size(lambda loss: 10 ** (-loss / 20), lambda chance, right: chance.uniform(0, 25)),
    "share": _by_size(lambda share: sqrt(share / 100), lambda chance, right: chance.uniform(0, 100)),
}


@dataclass(kw_only=True)
class ReadingStudent(ChartStudent):
    """A student with a load and a line."""

    sides = ("", "")
    drawn = ("place", "mismatch")

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        return ["normalise", "place", "mismatch", "loss", "share"]

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return METRICS

    @property
    def size(self) -> float:
        """How far the point stands from the centre."""
        if self.draws:
            return abs(self.at("mismatch") - 1) / (self.at("mismatch") + 1)
        return abs(self.at("place"))

    def _loss(self, eye: Eye) -> float:
        return decibels(eye.size(self.size))

    def _share(self, eye: Eye) -> float:
        return 100 * eye.size(self.size) ** 2


def mistakes(student: ReadingStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{key}"]
    return list(maker(student))


_normalise, _place, _mismatch = chart_mistakes.normalise, chart_mistakes.place, chart_mistakes.mismatch


def _made(s: ReadingStudent, made: dict[str, Callable[[float], float]]) -> Iterator[Mistake]:
    """Mistakes that make something else of the distance from the centre than it is."""

    def value(change: Callable[[float], float]) -> Callable[[Eye], float]:
        return lambda eye: change(min(0.9999, max(1e-3, eye.size(abs(s.at("place"))))))

    for key, change in made.items():
        yield Mistake(key, value(change))


def _loss(s: ReadingStudent) -> Iterator[Mistake]:
    yield from _made(
        s,
        {
            "ten times": lambda size: decibels(size) / 2,
            "sign": lambda size: -decibels(size),
            "squared twice": lambda size: 2 * decibels(size),
            "standing-wave ratio": lambda size: 20 * log10(ratio(size)),
            "power that goes in": lambda size: -10 * log10(1 - size**2),
            "natural logarithm": lambda size: -20 * log(size),
            "size of reflection": lambda size: size,
            "": lambda size: 30 * size,
        },
    )


def _share(s: ReadingStudent) -> Iterator[Mistake]:
    yield from _made(
        s,
        {
            "not squared": lambda size: 100 * size,
            "what goes in": lambda size: 100 * (1 - size**2),
            "what goes in, not squared": lambda size: 100 * (1 - size),
            "part of one": lambda size: size**2,
            "root": lambda size: 100 * sqrt(size),
            "halved": lambda size: 50 * size**2,
            "": lambda size: 100 * size**3,
        },
    )
