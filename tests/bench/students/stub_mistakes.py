"""What students with one stub get wrong, field by field; where the key is "" the lesson is not told of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import sqrt

from tests.bench.students.arithmetic import ratio, reflection
from tests.bench.students.chart_mistakes import admittance, always, metric, mismatch, normalise, place
from tests.bench.students.choosing import choose
from tests.bench.students.on_chart import EXACT
from tests.bench.students.people import Eye, Mistake
from tests.bench.students.single_stub import OPPOSITE, OTHER, StubStudent


def mistakes(student: StubStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    quantity, _, side = key.partition(".")
    if quantity == student.part:
        return list(_part(student, side))
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, side) if side else maker(student))


def _has_own_line(s: StubStudent) -> bool:
    return s.stub != s.line


def _normalise(s: StubStudent) -> Iterator[Mistake]:
    yield from normalise(s)
    if _has_own_line(s):
        yield Mistake("stub's impedance", always(s.load / s.stub))


_place, _mismatch, _choose = place, mismatch, choose


def _admittance(s: StubStudent) -> Iterator[Mistake]:
    yield from admittance(s)
    if _has_own_line(s):
        yield Mistake("stub's impedance", always(s.stub / s.load))


def _unit_circle(s: StubStudent) -> Iterator[Mistake]:
    wrong, real = ("unit resistance", "conductance") if s.shunt else ("unit conductance", "resistance")
    yield Mistake(f"{'impedance' if s.shunt else 'admittance'} kept", always(wrong))
    yield Mistake("axis", always("axis"))
    yield Mistake("constant g" if s.shunt else "constant r", always(f"load {real}"))


def _crossing(s: StubStudent, side: str) -> Iterator[Mistake]:
    z, part = s.at("normalise"), s.crossing_part(side)
    other_way = z if s.shunt else 1 / z
    if 0 < other_way.real < 1:
        own = (1 / other_way.real - 1) ** 0.5
        along = "constant r" if s.shunt else "constant g"
        yield Mistake(along, lambda eye: complex(1, eye.part(own)))
        yield Mistake(along, lambda eye: complex(1, eye.part(-own)))
    load_part = s.at("admittance").imag if s.shunt else z.imag
    yield Mistake("constant b" if s.shunt else "constant x", lambda eye: complex(1, eye.part(load_part)))
    if s.shunt:
        yield Mistake("constant x", lambda eye: complex(1, eye.part(z.imag)))
    yield Mistake("only the imaginary part", lambda eye: complex(0, eye.part(part)))
    yield Mistake("only the imaginary part", lambda eye: complex(eye.part(part), 0))
    yield Mistake("branches mixed", lambda eye: complex(1, eye.part(-part)))
    yield Mistake("impedance there" if s.shunt else "", lambda eye: 1 / complex(1, eye.part(part)))
    circle = (s.at("mismatch") - 1) / (s.at("mismatch") + 1)
    yield Mistake("on the axis", lambda eye: complex(ratio(eye.size(circle)), 0))
    yield Mistake("on the axis", lambda eye: complex(1 / ratio(eye.size(circle)), 0))
    yield Mistake("", lambda eye: complex(2, eye.part(part)))


def _part(s: StubStudent, side: str) -> Iterator[Mistake]:
    right = s.at(f"crossing.{side}").imag
    load_part = s.at("admittance").imag if s.shunt else s.at("normalise").imag
    yield Mistake(f"sign of the {s.part} lost", lambda eye: -eye.part(right))
    yield Mistake(f"load {s.part}", lambda eye: eye.part(load_part))
    yield Mistake(
        "branches mixed", lambda eye: eye.part(s.at(f"crossing.{OTHER[side]}").imag), (f"crossing.{side}",)
    )
    yield Mistake("", lambda eye: 2 * eye.part(right))


def _distance(s: StubStudent, side: str) -> Iterator[Mistake]:
    neighbour = ("distance",)

    def of(change: Callable[[float, float], float]) -> Callable[[Eye], float]:
        return lambda eye: change(*s.start_and_end(side, eye))

    start, end = s.start_and_end(side, EXACT)
    z = s.at("normalise")
    yield Mistake("wrong way", of(lambda a, b: (a - b) % 0.5), neighbour)
    yield Mistake("end reading", of(lambda a, b: b))
    yield Mistake("start reading", of(lambda a, b: a))
    yield Mistake("only to the mark", of(lambda a, b: 0.5 - a))
    yield Mistake("other scale", of(lambda a, b: (-a - b) % 0.5))
    yield Mistake("", of(lambda a, b: (a + b) % 0.5))
    if start > end:
        yield Mistake("made positive", of(lambda a, b: abs(a - b)))
    if side == "far":
        yield Mistake("from the near crossing", lambda eye: (
            s.start_and_end("far", eye)[1] - s.start_and_end("near", eye)[1]) % 0.5)  # fmt: skip
    yield Mistake("stub length", lambda eye: (s.rim(s.wanted(side), eye) - s.rim_start(s.end, eye)) % 0.5)
    beside = reflection(1 / z if not s.shunt else z)
    yield Mistake("wrong start", lambda eye: (
        s.reads(reflection(s.at(f"crossing.{side}")), eye) - s.reads(beside, eye)) % 0.5, neighbour)  # fmt: skip
    yield Mistake("double angle", of(lambda a, b: 2 * ((b - a) % 0.5) % 0.5), neighbour)
    yield Mistake("half angle", of(lambda a, b: (b - a) % 0.5 / 2), neighbour)
    yield Mistake("branches mixed", lambda eye: s.right(f"distance.{OTHER[side]}", eye))
    yield Mistake("", of(lambda a, b: ((b - a) % 0.5 + 0.125) % 0.5))


def _needed(s: StubStudent, side: str) -> Iterator[Mistake]:
    part = s.at(f"{s.part}.{side}")
    yield Mistake("sign not flipped", always(part))
    yield Mistake(
        "branches mixed",
        always(-s.at(f"{s.part}.{OTHER[side]}")),
        (f"crossing.{side}", f"{s.part}.{side}"),
    )
    yield Mistake("", always(-2 * part))
    if abs(part) > 0.2:
        yield Mistake("", always(-1 / part))


def _own(s: StubStudent, side: str) -> Iterator[Mistake]:
    needed = s.at(f"needed.{side}")
    yield Mistake("ratio ignored", always(needed), ("own",))
    yield Mistake("ratio inverted", always(s.scale_to_line(needed)), ("own",))
    yield Mistake(f"sign of the {s.part} lost", always(-s.scale_to_stub(needed)))
    yield Mistake(
        "branches mixed",
        always(s.scale_to_stub(s.at(f"needed.{OTHER[side]}"))),
        (f"crossing.{side}", f"{s.part}.{side}", f"needed.{side}"),
    )
    yield Mistake("", always(needed * sqrt(s.stub / s.line)))


def _start(s: StubStudent, what: str) -> Iterator[Mistake]:
    if what == "sense":
        yield Mistake("wrong way", always("counter-clockwise"))
        return
    yield Mistake("wrong end", always(OPPOSITE[s.end]))
    yield Mistake("match point", always("match"))
    yield Mistake("load point", always("load"))


def _length(s: StubStudent, side: str) -> Iterator[Mistake]:
    flipped, neighbour = (f"needed.{side}", f"own.{side}"), ("length",)

    def of(change: Callable[[float, float], float], part: float = s.wanted(side)) -> Callable[[Eye], float]:
        return lambda eye: change(s.rim_start(s.end, eye), s.rim(part, eye))

    start, end = s.rim_start(s.end, EXACT), s.rim(s.wanted(side), EXACT)
    yield Mistake("wrong way", of(lambda a, b: (a - b) % 0.5), ("start.sense", *neighbour))
    yield Mistake(
        "wrong end",
        lambda eye: (s.rim(s.wanted(side), eye) - s.rim_start(OPPOSITE[s.end], eye)) % 0.5,
        ("start.point", *neighbour),
    )
    yield Mistake("end reading", of(lambda a, b: b))
    if start > 1e-6:
        yield Mistake("start reading", of(lambda a, b: a))
    if start > end:
        yield Mistake("made positive", of(lambda a, b: abs(a - b)))
    yield Mistake("double angle", of(lambda a, b: 2 * ((b - a) % 0.5) % 0.5), neighbour)
    yield Mistake("half angle", of(lambda a, b: (b - a) % 0.5 / 2), neighbour)
    yield Mistake("quarter less", of(lambda a, b: (0.25 - (b - a)) % 0.5))
    yield Mistake("distance", lambda eye: s.at(f"distance.{side}") % 0.5)
    yield Mistake("sign not flipped", of(lambda a, b: (b - a) % 0.5, -s.wanted(side)), flipped)
    yield Mistake("branches mixed", of(lambda a, b: (b - a) % 0.5, s.wanted(OTHER[side])))
    if _has_own_line(s):
        needed = s.at(f"needed.{side}")
        by_own = (f"own.{side}", *neighbour)
        yield Mistake("ratio ignored", of(lambda a, b: (b - a) % 0.5, needed), by_own)
        yield Mistake("ratio inverted", of(lambda a, b: (b - a) % 0.5, s.scale_to_line(needed)), by_own)
    yield Mistake("", of(lambda a, b: ((b - a) % 0.5 + 0.125) % 0.5))


def _total(s: StubStudent, side: str) -> Iterator[Mistake]:
    crossing, right = s.at(f"crossing.{side}"), s.right(f"total.{side}", EXACT)
    yield Mistake("stub left out", always(crossing))
    yield Mistake("added, not cancelled", always(crossing + 1j * crossing.imag))
    yield Mistake("conductance lost" if s.shunt else "resistance lost", always(complex(0, right.imag)))
    yield Mistake("conductance lost" if s.shunt else "resistance lost", always(0j))
    yield Mistake("total taken for granted", always(1 + 0j))
    if _has_own_line(s):
        yield Mistake("stub's own chart", always(crossing + 1j * s.at(f"own.{side}")))
    yield Mistake("", always(complex(2, right.imag)))


def _millimetres(s: StubStudent, what: str) -> Iterator[Mistake]:
    right, chosen = s.right(f"millimetres.{what}", EXACT), s.at("choose.which")
    neighbour = ("millimetres",)
    yield from metric(s, right, neighbour)
    other = "length" if what == "distance" else "distance"
    yield Mistake("lengths exchanged", always(s.at(f"{other}.{chosen}") * s.wavelength))
    yield Mistake("branches mixed", always(s.at(f"{what}.{OTHER[chosen]}") * s.wavelength))
    yield Mistake("", always(right * 1.3))
