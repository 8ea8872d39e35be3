"""What students with two stubs get wrong, field by field; where the key is "" the lesson is not told of it."""

from __future__ import annotations

from cmath import exp, phase, rect
from collections.abc import Callable, Iterator
from math import acos, cos, pi, sin

from tests.bench.students.arithmetic import normalised, reflection
from tests.bench.students.chart_mistakes import admittance, always, mismatch, normalise, place
from tests.bench.students.choosing import choose
from tests.bench.students.double_stub import OTHER, OTHER_STUB, TwoStubStudent
from tests.bench.students.people import Eye, Mistake


def mistakes(student: TwoStubStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    quantity, _, side = key.partition(".")
    if quantity.endswith("_length"):
        return list(_length(student, quantity.split("_")[0], side))
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, side) if side else maker(student))


_normalise, _place, _mismatch, _admittance = normalise, place, mismatch, admittance
_choose = choose


def _limit(s: TwoStubStudent) -> Iterator[Mistake]:
    yield Mistake("sine not squared", always(1 / abs(sin(s.angle))))
    yield Mistake("angle of the chart", always(1 / sin(2 * s.angle) ** 2))
    yield Mistake("upside down", always(sin(s.angle) ** 2))
    yield Mistake("cosine", always(1 / cos(s.angle) ** 2))
    yield Mistake("", always(3 / sin(s.angle) ** 2))


def _region(s: TwoStubStudent) -> Iterator[Mistake]:
    yield Mistake("other side", always({"inside": "outside", "outside": "inside"}[s.at("region")]))


def _way_out(s: TwoStubStudent) -> Iterator[Mistake]:
    def of(change: Callable[[float, float], float], below: bool = True) -> Callable[[Eye], float]:
        return lambda eye: change(*s.out_and_in(below, eye))

    yield Mistake("wrong way", of(lambda a, b: (a - b) % 0.5))
    yield Mistake("double angle", of(lambda a, b: 2 * ((b - a) % 0.5) % 0.5))
    yield Mistake("half angle", of(lambda a, b: (b - a) % 0.5 / 2))
    yield Mistake("start reading", of(lambda a, b: a))
    yield Mistake("end reading", of(lambda a, b: b % 0.5))
    yield Mistake("wrong start", of(lambda a, b: (b - a + 0.25) % 0.5))
    yield Mistake("spacing", always(s.spacing))
    yield Mistake("far side", of(lambda a, b: (b - a) % 0.5, below=False))
    yield Mistake("", of(lambda a, b: ((b - a) % 0.5 + 0.125) % 0.5))


def _rotated(s: TwoStubStudent) -> Iterator[Mistake]:
    yield Mistake("turned the other way", always("toward generator"))
    yield Mistake("not turned", always("unturned"))
    yield Mistake("impedance kept", always("resistance"))


def _after(s: TwoStubStudent, side: str) -> Iterator[Mistake]:
    y = s.at("admittance")
    right = complex(y.real, s.b_behind(side))
    size = abs(reflection(y))

    def at(point: complex) -> Callable[[Eye], complex]:
        return lambda eye: normalised(eye.point(point))

    yield Mistake("turned the other way", at(reflection(complex(y.real, s.b_behind(side, -1)))), ("rotated",))
    middle = phase(exp(4j * pi * s.spacing))
    for way in (1, -1):
        yield Mistake("mismatch circle", at(rect(size, middle + way * acos(size))))
    yield Mistake("sign of the susceptance lost", at(reflection(right.conjugate())))
    yield Mistake("impedance there", at(-reflection(right)))
    yield Mistake("branches mixed", at(reflection(complex(y.real, s.b_behind(OTHER[side])))))
    yield Mistake("", at(reflection(right) * 0.6))


def _first_part(s: TwoStubStudent, side: str) -> Iterator[Mistake]:
    there, load = s.at(f"after.{side}").imag, s.at("admittance").imag
    yield Mistake("all of it", always(there))
    yield Mistake("sign not flipped", always(load - there))
    yield Mistake("added up", always(load + there))
    yield Mistake("load cancelled", always(-load))
    yield Mistake("branches mixed", always(s.at(f"after.{OTHER[side]}").imag - load), (f"after.{side}",))
    yield Mistake("", always(2.5 * (there - load)))


def _arriving(s: TwoStubStudent, side: str) -> Iterator[Mistake]:
    neighbour = ("arriving",)
    yield Mistake("wrong way", lambda eye: s.walked(side, -s.spacing, eye), neighbour)
    yield Mistake("not walked", always(s.at(f"after.{side}")))
    yield Mistake("half angle", lambda eye: s.walked(side, s.spacing / 2, eye), neighbour)
    yield Mistake("sign of the susceptance lost", lambda eye: s.walked(side, s.spacing, eye).conjugate())
    others = OTHER[side]
    yield Mistake("branches mixed", lambda eye: s.walked(others, s.spacing, eye), (f"after.{side}",))
    yield Mistake("", lambda eye: s.walked(side, s.spacing + 0.1, eye))


def _second_part(s: TwoStubStudent, side: str) -> Iterator[Mistake]:
    arriving = s.at(f"arriving.{side}").imag
    yield Mistake("sign not flipped", always(arriving))
    yield Mistake("before the line", always(-s.at(f"after.{side}").imag))
    yield Mistake(
        "branches mixed",
        always(-s.at(f"arriving.{OTHER[side]}").imag),
        (f"after.{side}", f"arriving.{side}"),
    )
    yield Mistake("", always(-2.5 * arriving))


def _length(s: TwoStubStudent, which: str, side: str) -> Iterator[Mistake]:
    own, end, others = s.on_stub(which, side), s.ends[which], OTHER_STUB[which]
    neighbour, part = (f"{which}_length",), f"{which}_part"

    def of(change: Callable[[float, float], float]) -> Callable[[Eye], float]:
        return lambda eye: change(s.rim_start(end, eye), s.rim(own, eye))

    yield Mistake("wrong way", of(lambda a, b: (a - b) % 0.5), neighbour)
    yield Mistake("wrong end", of(lambda a, b: (b - a + 0.25) % 0.5), neighbour)
    yield Mistake("end reading", of(lambda a, b: b % 0.5))
    if s.rim_start(end, Eye()) > 0.1:
        yield Mistake("start reading", of(lambda a, b: a))
    if s.rim_start(end, Eye()) - s.rim(own, Eye()) > 0.01:
        yield Mistake("made positive", of(lambda a, b: a - b))
    yield Mistake("double angle", of(lambda a, b: 2 * ((b - a) % 0.5) % 0.5), neighbour)
    yield Mistake("half angle", of(lambda a, b: (b - a) % 0.5 / 2), neighbour)
    yield Mistake("sign not flipped", lambda eye: s.length(which, -own, eye), (f"{part}.{side}",))
    yield Mistake("other stub", lambda eye: s.length(others, s.on_stub(others, side), eye))
    if s.stubs[which] != s.line:
        yield Mistake("ratio ignored", lambda eye: s.length(which, s.at(f"{part}.{side}"), eye))
    mixed = s.on_stub(which, OTHER[side])
    yield Mistake("branches mixed", lambda eye: s.length(which, mixed, eye), (f"{part}.{side}",))
    yield Mistake("", of(lambda a, b: ((b - a) % 0.5 + 0.125) % 0.5))


def _total(s: TwoStubStudent, side: str) -> Iterator[Mistake]:
    yield Mistake("stub left out", always(s.at(f"arriving.{side}")))
    yield Mistake("conductance lost", always(complex(0, s.seen(side).imag)))
    yield Mistake("conductance lost", always(0j))
    yield Mistake("total taken for granted", always(1 + 0j))
    yield Mistake("", always(2 + 0.5j))
