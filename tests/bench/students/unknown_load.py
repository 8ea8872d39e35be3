"""Students who find a load with a slotted line, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from random import Random
from typing import Any

from tests.bench.students import people
from tests.bench.students.along_the_line import WAVE, ohms
from tests.bench.students.arithmetic import normalised, ratio, reflection, turned
from tests.bench.students.chart_mistakes import always, denormalised, misread
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import POINT, Eye, Metric, Mistake
from tests.bench.students.quarter_wave import AXIS

SIZE = Metric(
    lambda one, other: abs(one - other) / POINT, people.real_text, lambda chance, right: chance.uniform(0, 1)
)
METRICS = {
    "wave": WAVE, "circle.size": SIZE, "circle.lowest": AXIS, "shift.waves": people.WAVELENGTHS,
    "there": people.IMMITTANCE,
}  # fmt: skip
OTHER = {
    "generator": "load",
    "load": "generator",
    "clockwise": "counter-clockwise",
    "counter-clockwise": "clockwise",
}


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson: the scale counted from either end, the minimum on either side."""
    first, half = round(chance.uniform(20, 60), 1), round(chance.uniform(3, 19), 1)
    move = half * chance.choice((chance.uniform(0.06, 0.94), chance.uniform(-0.94, -0.06)))
    return {
        **usual, "swr": round(chance.uniform(1.4, 8), 1), "first": first, "second": round(first + half, 1),
        "minimum": round(first + move, 1), "counted": chance.choice(("load", "generator")),
    }  # fmt: skip


@dataclass(kw_only=True)
class SlottedStudent(ChartStudent):
    """A student with a probe, a short and a ruler."""

    sides = ("", "")
    drawn = ("circle.size", "there")
    swr: float
    first: float
    second: float
    minimum: float
    counted: str

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        return [
            "wave", "circle.size", "circle.lowest", "shift.toward", "shift.waves", "sense", "there", "ohms"
        ]  # fmt: skip

    def metric(self, key: str) -> Metric:
        """How the field's values are compared."""
        return (METRICS | {"ohms": ohms(self.line)}).get(key, people.CHOICE)

    @property
    def move(self) -> float:
        """Of the minimum, in centimetres."""
        return abs(self.minimum - self.first)

    def _wave(self, eye: Eye) -> float:
        return 2 * abs(self.second - self.first)

    def _circle(self, eye: Eye, what: str) -> float:
        if what == "size":
            return eye.size((self.swr - 1) / (self.swr + 1))
        return 1 / ratio(min(0.99, max(0.01, eye.size(self.at("circle.size")))))

    def _shift(self, eye: Eye, what: str) -> Any:
        if what == "waves":
            return self.move / self.at("wave")
        rises = self.minimum > self.first
        return "generator" if rises == (self.counted == "load") else "load"

    def _sense(self, eye: Eye) -> str:
        return "counter-clockwise" if self.at("shift.toward") == "generator" else "clockwise"

    @property
    def way(self) -> float:
        """Back to the load, above zero where it is clockwise."""
        return float(self.at("shift.waves") * (1 if self.at("sense") == "clockwise" else -1))

    def after(self, way: float) -> complex:
        """The point where a walk from the minimum ends."""
        return turned(-self.at("circle.size"), way)

    def _there(self, eye: Eye) -> complex:
        return normalised(eye.point(self.after(self.way)))

    def _ohms(self, eye: Eye) -> complex:
        return complex(self.at("there") * self.line)

    def drawing(self, key: str, value: Any) -> Any:
        """The finished drawing that answers a field."""
        if key == "circle.size":
            return value
        return reflection(value) if key in ("circle.lowest", "there") else None


def student(givens: Mapping[str, Any], overlay: bool) -> SlottedStudent:
    """Somebody with a problem; the load is not among what is known."""
    return SlottedStudent(**givens, load=1 + 0j, frequency=None, velocity=1.0, overlay=overlay)


def mistakes(s: SlottedStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{key.replace('.', '_')}"]
    return list(maker(s))


def _wave(s: SlottedStudent) -> Iterator[Mistake]:
    right = 2 * abs(s.second - s.first)
    yield Mistake("half of it", always(right / 2))
    yield Mistake("quarter wave", always(2 * right))
    yield Mistake("sum", always(s.first + s.second))
    for place in (s.first, s.second):
        yield Mistake("place itself", always(2 * place))
        yield Mistake("to the load's minimum", always(2 * abs(s.minimum - place)))
    yield Mistake("", always(1.3 * right))


def _circle_size(s: SlottedStudent) -> Iterator[Mistake]:
    right = (s.swr - 1) / (s.swr + 1)
    yield Mistake("one over the ratio", always(1 / s.swr))
    yield Mistake("ratio over one more", always(s.swr / (s.swr + 1)))
    yield Mistake("less one over the ratio", always((s.swr - 1) / s.swr))
    yield Mistake("power", always(right**2))
    yield Mistake("", always(right / 2))


def _circle_lowest(s: SlottedStudent) -> Iterator[Mistake]:
    size = s.at("circle.size")
    yield Mistake("maximum", lambda eye: ratio(min(0.99, eye.size(size))))
    yield Mistake("radius", lambda eye: max(0.01, eye.size(size)))
    yield Mistake("what is left", always(1 - size))
    yield Mistake("in ohms", always((1 - size) / (1 + size) * s.line))
    yield Mistake("", always(((1 - size) / (1 + size)) ** 2))


def _shift_toward(s: SlottedStudent) -> Iterator[Mistake]:
    yield Mistake("scale turned round", always(OTHER[s._shift(Eye(), "toward")]))


def _shift_waves(s: SlottedStudent) -> Iterator[Mistake]:
    wave, right = s.at("wave"), s.move / s.at("wave")
    yield Mistake("half waves", always(2 * right))
    yield Mistake("other minimum", always(abs(s.minimum - s.second) / wave))
    if s.minimum / wave < 9.9:
        yield Mistake("place itself", always(s.minimum / wave))
    if 1 / right < 9.9:
        yield Mistake("upside down", always(1 / right))
    yield Mistake("to the middle", always(right / 2))
    yield Mistake("", always(1.3 * right))


def _sense(s: SlottedStudent) -> Iterator[Mistake]:
    yield Mistake("the minimum's way", always(OTHER[s._sense(Eye())]))


def _there(s: SlottedStudent) -> Iterator[Mistake]:
    def read(at: complex) -> Callable[[Eye], complex]:
        return lambda eye: normalised(eye.point(at))

    way, point = s.way, s.after(s.way)
    right = normalised(point)
    yield Mistake("other way round", read(s.after(-way)), ("sense",))
    yield Mistake("from the maximum", read(-point))
    yield Mistake("half the length", read(s.after(way / 2)))
    yield Mistake("double the length", read(s.after(2 * way)))
    yield Mistake("sign of the reactance lost", read(point.conjugate()))
    yield Mistake("not walked", always(complex(s.at("circle.lowest"))))
    yield from misread(point)
    yield Mistake("in ohms", always(right * s.line))
    yield Mistake("", read(point * abs(point)))


def _ohms(s: SlottedStudent) -> Iterator[Mistake]:
    z = s.at("there")
    right = z * s.line
    yield from denormalised(z, s.line)
    yield Mistake("minimum", always(complex(s.at("circle.lowest") * s.line)))
    yield Mistake("", always(1.4 * right))
