"""Students with a stub by itself, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`): x on the rim is the tangent of the angle walked
from the short point.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import atan, inf, pi, tan
from random import Random
from typing import Any

from lessons.grammar.given_lengths import Stated
from tests.bench.students import people
from tests.bench.students.along_the_line import UNITS, WAVE
from tests.bench.students.chart_mistakes import HABIT, always, metric
from tests.bench.students.on_chart import LIGHT, ChartStudent
from tests.bench.students.people import POINT, Eye, Metric, Mistake

TOO_LONG = 0.02
OTHER = {
    "short": "open",
    "open": "short",
    "less": "more",
    "more": "less",
    "coil": "capacitor",
    "capacitor": "coil",
}


def at_reading(read: float) -> float:
    """x beside a reading of the rim."""
    return tan(2 * pi * read)


def reading_of(part: float) -> float:
    """Where x stands on the rim."""
    return atan(part) / (2 * pi) % 0.5


def seen(part: float, eye: Eye) -> float:
    """x at a point of the rim, whose radius is 1, off by so much of the way along it."""
    return tan(atan(part) + POINT / 2 * eye.off())


def _apart(one: float, other: float) -> float:
    return people.IMMITTANCE.distance(complex(0, one), complex(0, other))


def on_rim(per: float) -> Metric:
    """Reactances compared by where they stand on the rim of a chart of so many ohms."""
    return Metric(
        lambda one, other: _apart(one / per, other / per),
        people.real_text,
        lambda chance, right: chance.uniform(-4, 4) * per,
    )


def reckoned(per: float) -> Metric:
    """Reactances that are worked out."""
    return Metric(
        lambda one, other: people.PART_SUM.distance(one / per, other / per),
        people.real_text,
        lambda chance, right: chance.uniform(-4, 4) * per,
    )


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson that can be read: either way round, a length in any unit."""
    start = 0.0 if usual["end"] == "short" else 0.25
    waves = 0.0
    while not all(0.1 < abs(at_reading(start + waves + more)) < 8 for more in (0, TOO_LONG)):
        waves = chance.uniform(0.02, 0.48)
    if chance.random() < 0.5:
        wanted = round(at_reading(start + waves) * usual["line"], 1)
        return {**usual, "wanted": wanted, "along": None}
    unit = chance.choice(("wavelengths", "degrees", "millimetres"))
    frequency = usual["frequency"] or 434e6 if unit == "millimetres" else None
    in_unit = LIGHT * usual["velocity"] / frequency if frequency else UNITS[unit]
    along = Stated(
        round((waves + chance.choice((0, 0, 0.5))) * in_unit, 3 if unit == "wavelengths" else 1), unit
    )
    return {**usual, "wanted": None, "along": along, "frequency": frequency}


@dataclass(kw_only=True)
class StubAloneStudent(ChartStudent):
    """A student with a stub. wanted : the reactance, where the length is asked; along : else the length."""

    sides = ("", "")
    drawn = ("begin.point",)
    load: complex = 0j
    end: str
    wanted: float | None
    along: Stated | None

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        begin = ["begin.point", "begin.sense", "start"]
        shown = ["part.like", "part.beside", "longer"]
        if self.wanted is not None:
            cut = ["millimetres"] if self.frequency else []
            return ["needed", *begin, "rim", "length", "susceptance", *shown, *cut]
        measure = ["wave", "waves"] if self.is_metric else []
        return [*measure, *begin, "reached", "reactance", "susceptance", "ohms", *shown]

    @property
    def is_metric(self) -> bool:
        """Whether a length is given, in millimetres."""
        return self.along is not None and self.along.unit == "millimetres"

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        lengths = dict.fromkeys(("waves", "start", "reached", "rim", "length"), people.WAVELENGTHS)
        parts = dict.fromkeys(("reactance", "susceptance"), on_rim(1.0))
        return {
            **lengths, **parts, "wave": WAVE, "needed": reckoned(1.0), "ohms": reckoned(self.line),
            "longer": on_rim(self.line),
        }  # fmt: skip

    def right(self, key: str, eye: Eye) -> Any:
        """What a student without a mistake writes, from the values before."""
        return self.wavelength * self.at("length") if key == "millimetres" else super().right(key, eye)

    def _needed(self, eye: Eye) -> float:
        assert self.wanted is not None
        return self.wanted / self.line

    def _wave(self, eye: Eye) -> float:
        return self.wavelength

    def _waves(self, eye: Eye) -> float:
        assert self.along is not None
        return self.along.value / self.at("wave")

    def _begin(self, eye: Eye, what: str) -> str:
        return self.end if what == "point" else "clockwise"

    def _start(self, eye: Eye) -> float:
        return 0.0 if self.at("begin.point") == "short" else 0.25

    @property
    def sense(self) -> int:
        """1 clockwise."""
        return 1 if self.at("begin.sense") == "clockwise" else -1

    @property
    def given_length(self) -> float:
        """In wavelengths."""
        assert self.along is not None
        return self.at("waves") if self.is_metric else self.along.value / UNITS[self.along.unit]

    def _reached(self, eye: Eye) -> float:
        return eye.scale(self.at("start") + self.sense * self.given_length) % 0.5

    def _reactance(self, eye: Eye) -> float:
        return seen(at_reading(self.at("reached")), eye)

    def _rim(self, eye: Eye) -> float:
        return eye.scale(reading_of(self.at("needed"))) % 0.5

    def _length(self, eye: Eye) -> float:
        return self.sense * (self.at("rim") - self.at("start")) % 0.5

    @property
    def shown(self) -> float:
        """x, as given or as found."""
        return self.at("needed" if self.wanted is not None else "reactance")

    def _susceptance(self, eye: Eye) -> float:
        return seen(-1 / self.shown, eye) if self.shown else -inf

    def _ohms(self, eye: Eye) -> float:
        return self.at("reactance") * self.line

    @property
    def whole(self) -> float:
        """The stub's length."""
        return self.at("length") if self.wanted is not None else self.given_length

    def _part(self, eye: Eye, what: str) -> str:
        if what == "like":
            return "coil" if self.shown > 0 else "capacitor"
        return "less" if self.whole % 0.5 < 0.25 else "more"

    def after(self, more: float, eye: Eye) -> float:
        """The reactance in ohms after so much more of line."""
        return seen(tan(atan(self.shown) + 2 * pi * more), eye) * self.line

    def _longer(self, eye: Eye) -> float:
        return self.after(TOO_LONG, eye)

    def drawing(self, key: str, value: Any) -> Any:
        """The finished drawing that answers a field."""
        if key == "begin.point":
            return value
        return None


def mistakes(student: StubAloneStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field; where a mistake's key is "" the lesson is not told of it."""
    quantity, _, what = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, what) if what else maker(student))


def _needed(s: StubAloneStudent) -> Iterator[Mistake]:
    assert s.wanted is not None
    x = s.wanted / s.line
    yield Mistake("not normalised", always(s.wanted))
    yield Mistake("upside down", always(1 / x))
    if s.line != HABIT:
        yield Mistake("50 ohm by habit", always(s.wanted / HABIT))
    yield Mistake("sign of the reactance lost", always(-x))
    yield Mistake("", always(2 * x))


def _wave(s: StubAloneStudent) -> Iterator[Mistake]:
    yield from metric(s, s.wavelength, ())
    yield Mistake("", always(3 * s.wavelength))


def _waves(s: StubAloneStudent) -> Iterator[Mistake]:
    assert s.along is not None
    right = s.along.value / s.at("wave")
    if s.velocity != 1:
        yield Mistake("velocity ignored", always(s.along.value / (s.wavelength / s.velocity)), ("wave",))
        yield Mistake("velocity inverted", always(s.along.value / (s.wavelength / s.velocity**2)), ("wave",))
    if 1 / right < 9.9:
        yield Mistake("upside down", always(1 / right))
    yield Mistake("in half waves", always(2 * right))
    yield Mistake("", always(1.3 * right))


def _begin(s: StubAloneStudent, what: str) -> Iterator[Mistake]:
    if what == "sense":
        yield Mistake("wrong way", always("counter-clockwise"))
        return
    yield Mistake("wrong end", always(OTHER[s.end]))
    yield Mistake("match point", always("match"))


def _start(s: StubAloneStudent) -> Iterator[Mistake]:
    right = s.right("start", Eye())
    yield Mistake("other end of the axis", lambda eye: eye.scale(right + 0.25) % 0.5)
    yield Mistake("", lambda eye: eye.scale(0.125))


def _detours(s: StubAloneStudent) -> Iterator[tuple[str, float, tuple[str, ...]]]:
    start, length = s.at("start"), s.given_length
    yield "wrong way", start - length, ()
    if start:
        yield "from zero", length, ()
    yield "half the length", start + length / 2, ()
    yield "double the length", start + 2 * length, ()
    if s.is_metric and s.velocity != 1:
        assert s.along is not None
        yield "velocity ignored", start + s.along.value / (s.wavelength / s.velocity), ("wave", "waves")


def _reached(s: StubAloneStudent) -> Iterator[Mistake]:
    def read(at: float) -> Callable[[Eye], float]:
        return lambda eye: eye.scale(at) % 0.5

    for key, end, against in _detours(s):
        yield Mistake(key, read(end), against)
    yield Mistake("start reading", read(s.at("start")))
    yield Mistake("", read(s.at("start") + s.given_length + 0.1))


def _reactance(s: StubAloneStudent) -> Iterator[Mistake]:
    def read(part: float) -> Callable[[Eye], float]:
        return lambda eye: seen(part, eye)

    x = at_reading(s.at("reached"))
    for key, end, against in _detours(s):
        yield Mistake(key, read(at_reading(end)), ("reached", *against))
    yield Mistake("sign of the reactance lost", read(-x))
    yield Mistake("admittance read", read(-1 / x))
    yield Mistake("in ohms", lambda eye: seen(x, eye) * s.line)
    yield Mistake("", read(x / 3))


def _rim(s: StubAloneStudent) -> Iterator[Mistake]:
    def read(at: float) -> Callable[[Eye], float]:
        return lambda eye: eye.scale(at) % 0.5

    at = reading_of(s.at("needed"))
    yield Mistake("sign of the reactance lost", read(-at))
    yield Mistake("admittance place", read(at + 0.25))
    yield Mistake("from the right end", read(0.25 - at))
    yield Mistake("", read(at + 0.1))


def _length(s: StubAloneStudent) -> Iterator[Mistake]:
    start, end = s.at("start"), s.at("rim")
    right = s.sense * (end - start) % 0.5
    yield Mistake("wrong way", always(-right % 0.5), ("begin.sense",))
    yield Mistake("wrong end", always((right + 0.25) % 0.5), ("begin.point", "start"))
    if start:
        yield Mistake("end reading", always(end))
    if start > end:
        yield Mistake("made positive", always(start - end))
    yield Mistake("double angle", always(2 * right % 0.5))
    yield Mistake("half angle", always(right / 2))
    yield Mistake("quarter less", always((0.25 - right) % 0.5))
    yield Mistake("", always((right + 0.1) % 0.5))


def _susceptance(s: StubAloneStudent) -> Iterator[Mistake]:
    def read(part: float) -> Callable[[Eye], float]:
        return lambda eye: seen(part, eye)

    x = s.shown
    yield Mistake("sign not turned", read(1 / x))
    yield Mistake("not inverted", read(-x))
    yield Mistake("reactance kept", always(x))
    yield Mistake("not normalised", always(-1 / x / s.line))
    yield Mistake("", read(-2 / x))


def _ohms(s: StubAloneStudent) -> Iterator[Mistake]:
    x = s.at("reactance")
    yield Mistake("not denormalised", always(x))
    yield Mistake("divided again", always(x / s.line))
    if s.line != HABIT:
        yield Mistake("50 ohm by habit", always(x * HABIT))
    yield Mistake("susceptance taken", always(s.at("susceptance") * s.line))
    yield Mistake("sign of the reactance lost", always(-x * s.line))
    yield Mistake("", always(x * s.line / 3))


def _part(s: StubAloneStudent, what: str) -> Iterator[Mistake]:
    if what == "beside":
        yield Mistake("quarter missed", always(OTHER[s.right("part.beside", Eye())]))
        return
    right, by_end = s.right("part.like", Eye()), "coil" if s.end == "short" else "capacitor"
    yield Mistake("sign of the reactance", always(OTHER[right]))
    if by_end != right:
        yield Mistake("named by the end", always(by_end))


def _longer(s: StubAloneStudent) -> Iterator[Mistake]:
    def after(more: float) -> Callable[[Eye], float]:
        return lambda eye: s.after(more, eye)

    length = s.whole % 0.5
    yield Mistake("not walked on", always(s.shown * s.line))
    yield Mistake("cut short", after(-TOO_LONG))
    if length:
        yield Mistake("in proportion", always(s.shown * s.line * (1 + TOO_LONG / length)))
    yield Mistake("double angle", after(2 * TOO_LONG))
    yield Mistake("not denormalised", lambda eye: s.after(TOO_LONG, eye) / s.line)
    yield Mistake("sign of the reactance lost", lambda eye: -s.after(TOO_LONG, eye))
    yield Mistake("", after(5 * TOO_LONG))


def _millimetres(s: StubAloneStudent) -> Iterator[Mistake]:
    right = s.right("millimetres", Eye())
    yield from metric(s, right, ())
    yield Mistake("", always(right * 1.3))
