"""What students with a quarter wave get wrong, field by field; where the key is "" the lesson is not told of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import sqrt

from tests.bench.students.chart_mistakes import always, metric, mismatch, normalise, place
from tests.bench.students.choosing import choose
from tests.bench.students.on_chart import EXACT
from tests.bench.students.people import Eye, Mistake
from tests.bench.students.quarter_wave import OTHER, QuarterStudent


def mistakes(student: QuarterStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    quantity, _, side = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, side) if side else maker(student))


_normalise, _place, _mismatch, _choose = normalise, place, mismatch, choose


def _ends(s: QuarterStudent, what: str) -> Iterator[Mistake]:
    if what == "highest":
        yield Mistake("ends exchanged", always("left"))
        return
    yield Mistake("unit circle", always("unit circle"))
    yield Mistake("beside the centre", always("beside the centre"))
    yield Mistake("constant r", always("load's r"))


def _resistance(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    z = s.at("normalise")
    yield Mistake("size of impedance", always(abs(z)))
    yield Mistake("load's resistance", always(z.real))
    yield Mistake("size of reflection", lambda eye: eye.size(abs(s.at("place"))))
    yield Mistake("in ohms", lambda eye: s.on_axis(side, eye) * s.line)
    yield Mistake("branches mixed", lambda eye: s.on_axis(OTHER[side], eye))
    yield Mistake("", lambda eye: sqrt(s.on_axis(side, eye)))


def _distance(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    neighbour = ("distance",)

    def of(change: Callable[[float, float], float]) -> Callable[[Eye], float]:
        return lambda eye: change(*s.start_and_end(side, eye))

    yield Mistake("wrong way", of(lambda a, b: (a - b) % 0.5), neighbour)
    if side == "maximum":
        yield Mistake("start reading", of(lambda a, b: a))
    yield Mistake("end reading", of(lambda a, b: b % 0.5))
    yield Mistake("double angle", of(lambda a, b: 2 * ((b - a) % 0.5) % 0.5), neighbour)
    yield Mistake("half angle", of(lambda a, b: (b - a) % 0.5 / 2), neighbour)
    yield Mistake("branches mixed", of(lambda a, b: (b - a + 0.25) % 0.5))
    yield Mistake("quarter wave counted in", of(lambda a, b: (b - a + 0.25) % 0.5))
    yield Mistake("", of(lambda a, b: ((b - a) % 0.5 + 0.125) % 0.5))


def _section(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    r, z = s.at(f"resistance.{side}"), s.at("normalise")
    yield Mistake("arithmetic mean", always((r + 1) / 2 * s.line))
    yield Mistake("root alone", always(sqrt(r)))
    yield Mistake("mixed units", always(sqrt(r * s.line)))
    yield Mistake("no root", always(r * s.line * s.line))
    yield Mistake("resistance itself", always(r * s.line))
    yield Mistake("size of the load", always(sqrt(abs(z)) * s.line))
    yield Mistake("load's resistance", always(sqrt(z.real) * s.line))
    yield Mistake("divided by the root", always(s.line / sqrt(r)))
    others = s.at(f"resistance.{OTHER[side]}")
    yield Mistake("branches mixed", always(sqrt(others) * s.line), (f"resistance.{side}",))
    yield Mistake("", always(2 * r / (1 + r) * s.line))


def _own(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    r, impedance = s.at(f"resistance.{side}"), s.at(f"section.{side}")
    yield Mistake("line's normalisation", always(r))
    yield Mistake("upside down", always(impedance / (r * s.line)))
    yield Mistake("normalised twice", always(r / impedance))
    yield Mistake("in ohms", always(r * s.line))
    yield Mistake("", always(r * r))


def _turned(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    yield Mistake("not walked", always(s.at(f"own.{side}")))
    yield Mistake("on the line's chart", always(1 / s.at(f"resistance.{side}")))
    yield Mistake("to the centre", always(1.0))
    yield Mistake("", always(s.at(f"own.{side}") / 3))


def _total(s: QuarterStudent, side: str) -> Iterator[Mistake]:
    value, impedance = s.at(f"turned.{side}"), s.at(f"section.{side}")
    yield Mistake("section's chart", always(value))
    yield Mistake("ratio inverted", always(value * s.line / impedance))
    yield Mistake("in ohms", always(value * impedance))
    yield Mistake("section left out", always(s.at(f"resistance.{side}")))
    yield Mistake("total taken for granted", always(1.0))
    yield Mistake("", always(value + impedance / s.line))


def _millimetres(s: QuarterStudent, what: str) -> Iterator[Mistake]:
    right, chosen = s.right(f"millimetres.{what}", EXACT), s.at("choose.which")
    yield from metric(s, right, ("millimetres",) if what == "section" else ())
    beside = "section" if what == "distance" else "distance"
    yield Mistake("lengths exchanged", always(s.waves(beside, chosen) * s.wavelength))
    if what == "distance":
        yield Mistake("branches mixed", always(s.at(f"distance.{OTHER[chosen]}") * s.wavelength))
    yield Mistake("", always(right * 1.3))
