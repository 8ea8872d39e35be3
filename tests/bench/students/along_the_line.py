"""Students who walk along a line, from the load to the input or back, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import inf
from random import Random
from typing import Any

from lessons.grammar.given_lengths import Stated
from tests.bench.students import chart_mistakes, people
from tests.bench.students.arithmetic import normalised, reading, reflection, turned
from tests.bench.students.chart_mistakes import always, denormalised, misread
from tests.bench.students.on_chart import LIGHT, ChartStudent
from tests.bench.students.people import POINT, RELATIVE, Eye, Metric, Mistake, complex_text

UNITS = {"degrees": 360.0, "wavelengths": 1.0}
WAVE = Metric(
    lambda one, other: abs(one - other) / (RELATIVE * abs(other)),
    lambda value, decimals: f"{value:.5g}" if abs(value) < 1e5 else f"{value:.0f}",
    lambda chance, right: right * chance.uniform(0.2, 3),
)


def ohms(line: float) -> Metric:
    """Impedances at the end of a line, compared by where they stand on its chart."""

    def distance(one: complex, other: complex) -> float:
        return (
            abs(reflection(one / line) - reflection(other / line)) / POINT
            if -line not in (one, other)
            else inf
        )

    def anywhere(chance: Random, right: complex) -> complex:
        return people.IMMITTANCE.anywhere(chance, right) * line

    return Metric(distance, complex_text, anywhere)


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson: either end, a length in any unit."""
    known, back = usual["load"], chance.random() < 0.4
    waves, unit = chance.uniform(0.03, 0.95), chance.choice(("wavelengths", "degrees", "millimetres"))
    frequency = usual["frequency"] or 434e6 if unit == "millimetres" else None
    in_unit = LIGHT * usual["velocity"] / frequency if frequency else UNITS[unit]
    along = Stated(round(waves * in_unit, 3 if unit == "wavelengths" else 1), unit)
    ends = {"load": None if back else known, "input": known if back else None}
    return {**usual, **ends, "along": along, "frequency": frequency}


@dataclass(kw_only=True)
class LineStudent(ChartStudent):
    """A student at one end of a line. back : whether that is the input, and the load is asked."""

    sides = ("", "")
    drawn = ("place", "mismatch")
    along: Stated
    back: bool

    @property
    def is_metric(self) -> bool:
        """Whether the length is in millimetres."""
        return self.along.unit == "millimetres"

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        measure = ["wave", "waves"] if self.is_metric else []
        return ["normalise", "place", "mismatch", *measure, "start", "end", "there", "ohms"]

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        lengths = dict.fromkeys(("waves", "start", "end"), people.WAVELENGTHS)
        return {**lengths, "wave": WAVE, "there": people.IMMITTANCE, "ohms": ohms(self.line)}

    # --- the derivation ---

    @property
    def start_point(self) -> complex:
        """Where the walk begins on the chart."""
        return self.at("place") if self.draws else reflection(self.at("normalise"))

    @property
    def size(self) -> float:
        """Radius of the circle that is walked along."""
        if self.draws:
            return (self.at("mismatch") - 1) / (self.at("mismatch") + 1)
        return abs(self.start_point)

    @property
    def length(self) -> float:
        """Of the line, in wavelengths."""
        return self.at("waves") if self.is_metric else self.along.value / UNITS[self.along.unit]

    def point(self, read: float) -> complex:
        """The circle's point at a reading of the scale that this student reads."""
        return turned(-self.size, -read if self.back else read)

    def _wave(self, eye: Eye) -> float:
        return self.wavelength

    def _waves(self, eye: Eye) -> float:
        return self.along.value / self.at("wave")

    def _start(self, eye: Eye) -> float:
        read = reading(self.start_point)
        return eye.scale(-read if self.back else read) % 0.5

    def _end(self, eye: Eye) -> float:
        return eye.scale(self.at("start") + self.length) % 0.5

    def _there(self, eye: Eye) -> complex:
        return normalised(eye.point(self.point(self.at("end"))))

    def _ohms(self, eye: Eye) -> complex:
        return complex(self.at("there") * self.line)

    def drawing(self, key: str, value: Any) -> Any:
        """The finished drawing that answers a field."""
        if key == "end":
            walked = (value - self.at("start")) % 0.5
            return -walked if self.back else walked
        return reflection(value) if key == "there" else super().drawing(key, value)


def mistakes(student: LineStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field; where a mistake's key is "" the lesson is not told of it."""
    shared = getattr(chart_mistakes, key, None)
    own: Callable[[LineStudent], Iterator[Mistake]] = shared or globals()[f"_{key}"]
    return list(own(student))


def _wave(s: LineStudent) -> Iterator[Mistake]:
    yield from chart_mistakes.metric(s, s.wavelength, ())
    yield Mistake("", always(3 * s.wavelength))


def _waves(s: LineStudent) -> Iterator[Mistake]:
    right = s.along.value / s.at("wave")
    if s.velocity != 1:
        yield Mistake("velocity ignored", always(s.along.value / (s.wavelength / s.velocity)), ("wave",))
        yield Mistake("velocity inverted", always(s.along.value / (s.wavelength / s.velocity**2)), ("wave",))
    if 1 / right < 9.9:
        yield Mistake("upside down", always(1 / right))
    yield Mistake("in half waves", always(2 * right))
    yield Mistake("", always(1.3 * right))


def _start(s: LineStudent) -> Iterator[Mistake]:
    right = s.right("start", Eye())
    yield Mistake("other scale", lambda eye: eye.scale(-right) % 0.5)
    yield Mistake("admittance place", lambda eye: eye.scale(right + 0.25) % 0.5)
    yield Mistake("from the right end", lambda eye: eye.scale(0.25 - right) % 0.5)
    yield Mistake("", lambda eye: eye.scale(right / 2))


def _detours(s: LineStudent) -> Iterator[tuple[str, float, tuple[str, ...]]]:
    """Where walks end that are made wrongly, and what shows that they are not."""
    start, length = s.at("start"), s.length
    yield "wrong way", start - length, ()
    yield "from zero", length, ()
    yield "half the length", start + length / 2, ()
    yield "double the length", start + 2 * length, ()
    yield "other scale", length - start, ("start",)
    if s.is_metric and s.velocity != 1:
        yield "velocity ignored", start + s.along.value / (s.wavelength / s.velocity), ("wave", "waves")


def _end(s: LineStudent) -> Iterator[Mistake]:
    def read(at: float) -> Callable[[Eye], float]:
        return lambda eye: eye.scale(at) % 0.5

    for key, end, against in _detours(s):
        yield Mistake(key, read(end), against)
    yield Mistake("start reading", read(s.at("start")))
    yield Mistake("", read(s.at("start") + s.length + 0.25))


def _there(s: LineStudent) -> Iterator[Mistake]:
    def read(at: complex) -> Callable[[Eye], complex]:
        return lambda eye: normalised(eye.point(at))

    point = s.point(s.at("end"))
    for key, end, against in _detours(s):
        yield Mistake(key, read(s.point(end)), ("end", *against))
    yield Mistake("sign of the reactance lost", read(point.conjugate()))
    yield Mistake("mirrored reading", read(point.conjugate()))
    yield Mistake("admittance read", read(-point))
    yield Mistake("not walked", always(s.at("normalise")))
    yield from misread(point)
    yield Mistake("in ohms", lambda eye: normalised(eye.point(point)) * s.line)
    yield Mistake("", read(point * abs(point)))


def _ohms(s: LineStudent) -> Iterator[Mistake]:
    z = s.at("there")
    right = z * s.line
    yield from denormalised(z, s.line)
    yield Mistake("not walked", always(s.load))
    yield Mistake("", always(right / 3))
