"""Students who turn a design in wavelengths into copper on a board, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`), the design from the quadratic that the match is.
Width: Pozar, Microwave Engineering, 4th ed., eq. 3.197; permittivity: eq. 3.195; open end: Hammerstad and Bekkadal,
1975 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import atan, exp, inf, log, pi, sqrt, tan
from random import Random
from typing import Any

from tests.bench.students.arithmetic import reflection, turned
from tests.bench.students.chart_mistakes import HABIT, always
from tests.bench.students.on_chart import LIGHT, ChartStudent
from tests.bench.students.people import RELATIVE, Eye, Metric, Mistake

BOARDS = ((1.6, 4.4), (0.8, 3.4), (1.2, 6.2), (0.6, 9.8), (2.4, 2.3), (1.5, 2.6))
STEPS = {"tenth": 0.1, "half": 0.5}
TENS = tuple(10.0**power for power in (1, -1, 3, -3, 2, -2))
SMALL_PIECE = (
    0.02  # wavelengths; nobody sets a problem with less line, nor with one that is all but a half wave
)


def _written(value: float, decimals: int) -> str:
    return f"{value:.9g}" if not 1e9 <= abs(value) < inf else f"{value:.0f}"


def sized(within: float) -> Metric:
    """Numbers that may be off by so much."""
    return Metric(
        lambda one, other: abs(one - other) / within,
        _written,
        lambda chance, right: max(right, 10 * within) * chance.uniform(0.2, 3),
    )


SHARE = Metric(
    lambda one, other: abs(one - other) / (RELATIVE * max(abs(other), 1e-9)),
    _written,
    lambda chance, right: right * chance.uniform(0.2, 3),
)
ABOVE_ONE = Metric(SHARE.distance, _written, lambda chance, right: chance.uniform(1, 15))


def strip_ratio(permittivity: float, ohms: float) -> float:
    """Width over height of a strip, by the textbook's closed form."""
    a = ohms / 60 * sqrt((permittivity + 1) / 2)
    a += (permittivity - 1) / (permittivity + 1) * (0.23 + 0.11 / permittivity)
    if exp(2 * a) > 2 and (narrow := 8 * exp(a) / (exp(2 * a) - 2)) < 2:
        return narrow
    b = 377 * pi / (2 * ohms * sqrt(permittivity))
    share = (permittivity - 1) / (2 * permittivity)
    return 2 / pi * (b - 1 - log(2 * b - 1) + share * (log(b - 1) + 0.39 - 0.61 / permittivity))


def designed(load: complex, line: float, end: str, design: str) -> dict[str, float]:
    """Distance and stub length in wavelengths: where g = 1, by the quadratic in the tangent of the distance."""
    r, x = load.real, load.imag
    if r == line:
        tangents = [-x / (2 * line), inf]
    else:
        root = sqrt(r * ((line - r) ** 2 + x * x) / line)
        tangents = [(x + sign * root) / (r - line) for sign in (1, -1)]
    found = []
    for t in tangents:
        distance = (atan(t) / (2 * pi)) % 0.5
        y = (1 - (g := turned(reflection(load / line), distance))) / (1 + g)
        length = atan(1 / y.imag if end == "short" else -y.imag) / (2 * pi)
        found.append({"distance": distance, "length": length % 0.5})
    return sorted(found, key=lambda one: one["distance"])[("near", "far").index(design)]


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson, with pieces that are lines."""
    givens = {key: usual[key] for key in ("load", "line", "end")}
    while True:
        height, permittivity = chance.choice(BOARDS)
        more: dict[str, Any] = {
            "frequency": chance.choice((434e6, 868e6, 2.4e9)), "design": chance.choice(("near", "far")),
            "height": height, "permittivity": permittivity, "cutter": chance.choice(tuple(STEPS)),
        }  # fmt: skip
        made = designed(**givens, design=more["design"])
        if all(SMALL_PIECE < one < 0.5 - SMALL_PIECE for one in made.values()):
            return {**givens, **more}
        givens["load"] = complex(chance.randint(10, 200), chance.randint(-100, 100))
        if not 1.3 < _ratio(givens["load"], givens["line"]) < 9:
            givens["load"] = complex(0.5 * givens["line"], 10)


def _ratio(load: complex, line: float) -> float:
    size = abs(reflection(load / line))
    return (1 + size) / (1 - size)


@dataclass(kw_only=True)
class CopperStudent(ChartStudent):
    """A student with a design, a board and a cutter. Nothing is drawn here: what may be, is written."""

    sides = ("", "")
    drawn = ("strip.ratio", "effective", "wave")
    velocity: float = 1.0
    end: str
    design: str
    height: float
    permittivity: float
    cutter: str

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        return [
            "strip.ratio", "strip.width", "effective", "wave", "metric.distance", "metric.length", "end_effect",
            "copper", "cut.distance", "cut.length", "cost",
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return {
            **dict.fromkeys(("strip", "wave", "metric"), SHARE),
            **dict.fromkeys(("effective", "cost"), ABOVE_ONE),
            "end_effect": sized(0.02 * self.open_end),
            "copper": sized(0.1 * self.open_end),
            "cut": sized(0.05 * self.step),
        }

    @property
    def step(self) -> float:
        """Of the cutter, in millimetres."""
        return STEPS[self.cutter]

    def waves(self, piece: str) -> float:
        """A length of the design."""
        return designed(self.load, self.line, self.end, self.design)[piece]

    @property
    def free(self) -> float:
        """A wave in free space, in millimetres."""
        assert self.frequency
        return LIGHT / self.frequency

    @property
    def open_end(self) -> float:
        """What an open end would add, in millimetres."""
        e, u = self.at("effective"), self.at("strip.ratio")
        return self.height * 0.412 * (e + 0.3) * (u + 0.264) / ((e - 0.258) * (u + 0.8))

    # --- the derivation ---

    def _strip(self, eye: Eye, what: str) -> float:
        if what == "ratio":
            return strip_ratio(self.permittivity, self.line)
        return self.at("strip.ratio") * self.height

    def share(self, in_board: float) -> float:
        """The permittivity with so much of the second part."""
        return (self.permittivity + 1) / 2 + (self.permittivity - 1) / 2 * in_board

    def _effective(self, eye: Eye) -> float:
        return self.share(1 / sqrt(1 + 12 / self.at("strip.ratio")))

    def _wave(self, eye: Eye) -> float:
        return self.free / sqrt(self.at("effective"))

    def _metric(self, eye: Eye, piece: str) -> float:
        return self.waves(piece) * self.at("wave")

    def _end_effect(self, eye: Eye) -> float:
        return self.open_end if self.end == "open" else 0.0

    def _copper(self, eye: Eye) -> float:
        left = self.at("metric.length") - self.at("end_effect")
        return left if left > 0 else left + self.at("wave") / 2

    def wanted(self, piece: str) -> float:
        """What is rounded."""
        return self.at("metric.distance" if piece == "distance" else "copper")

    def nearest(self, value: float, step: float) -> float:
        """The nearest multiple of a step."""
        return round(value / step) * step

    def _cut(self, eye: Eye, piece: str) -> float:
        return self.nearest(self.wanted(piece), self.step)

    def as_cut(self, piece: str) -> float:
        """In wavelengths, as it acts."""
        extra = self.at("end_effect") if piece == "length" else 0.0
        return (self.at(f"cut.{piece}") + extra) / self.at("wave")

    def seen(self, distance: float, length: float) -> float:
        """The ratio that the line sees with these lengths."""
        g = turned(reflection(self.load / self.line), distance)
        tangent = tan(2 * pi * length)
        y = (1 - g) / (1 + g) + 1j * (tangent if self.end == "open" else -1 / tangent if tangent else inf)
        size = abs((1 - y) / (1 + y)) if abs(y) < inf else 1.0
        return (1 + size) / (1 - size) if size < 1 else inf

    def _cost(self, eye: Eye) -> float:
        return self.seen(self.as_cut("distance"), self.as_cut("length"))


def mistakes(student: CopperStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field; where a mistake's key is "" the lesson is not told of it."""
    quantity, _, what = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, what) if what else maker(student))


def _tens(right: float, against: tuple[str, ...] = ()) -> Iterator[Mistake]:
    yield from (Mistake("metres", always(right * power), against) for power in TENS)


def _strip(s: CopperStudent, what: str) -> Iterator[Mistake]:
    u, h = s.at("strip.ratio"), s.height
    if what == "width":
        yield Mistake("ratio again", always(u))
        yield Mistake("divided by the height", always(u / h))
        yield from _tens(u * h)
        yield Mistake("", always(1.4 * u * h))
        return
    right = strip_ratio(s.permittivity, s.line)
    yield Mistake("upside down", always(1 / right))
    yield Mistake("permittivity left out", always(strip_ratio(1.0, s.line)))
    if s.line != HABIT:
        yield Mistake("50 ohm by habit", always(strip_ratio(s.permittivity, HABIT)))
    yield Mistake("in millimetres", always(right * h))
    yield Mistake("", always(1.4 * right))


def _effective(s: CopperStudent) -> Iterator[Mistake]:
    u, right = s.at("strip.ratio"), s.right("effective", Eye())
    yield Mistake("relative permittivity", always(s.permittivity))
    yield Mistake("half in air", always(s.share(0)))
    yield Mistake("upside down", always(s.share(1 / sqrt(1 + 12 * u))))
    yield Mistake("root forgotten", always(s.share(1 / (1 + 12 / u))))
    yield Mistake("root taken", always(sqrt(right)))
    yield Mistake("", always(1.2 * right))


def _on_wave(s: CopperStudent, waves: float, right: float, against: tuple[str, ...]) -> Iterator[Mistake]:
    e = s.at("effective")
    yield Mistake("free space", always(waves * s.free), against)
    yield Mistake("relative permittivity", always(waves * s.free / sqrt(s.permittivity)), against)
    yield Mistake("root forgotten", always(waves * s.free / e), against)
    yield Mistake("multiplied", always(waves * s.free * sqrt(e)), against)
    yield from _tens(right, against)
    yield Mistake("halved", always(right / 2), against)
    yield Mistake("", always(1.7 * right))


def _wave(s: CopperStudent) -> Iterator[Mistake]:
    yield from _on_wave(s, 1.0, s.right("wave", Eye()), ())


def _metric(s: CopperStudent, piece: str) -> Iterator[Mistake]:
    yield from _on_wave(s, s.waves(piece), s.right(f"metric.{piece}", Eye()), ("wave",))
    other = "length" if piece == "distance" else "distance"
    yield Mistake("lengths exchanged", always(s.waves(other) * s.at("wave")))


def _end_effect(s: CopperStudent) -> Iterator[Mistake]:
    right = s.open_end
    if s.end == "short":
        yield Mistake("shorted end corrected", always(right))
        yield Mistake("", always(right / 2))
        return
    yield Mistake("not corrected", always(0.0))
    yield Mistake("in heights", always(right / s.height))
    yield Mistake("times the width", always(right * s.at("strip.ratio")))
    yield Mistake("for both ends", always(2 * right))
    yield Mistake("", always(1.5 * right))


def _copper(s: CopperStudent) -> Iterator[Mistake]:
    length, extra = s.at("metric.length"), s.at("end_effect")
    if s.end == "short":
        if length > s.open_end:
            yield Mistake("shorted end corrected", always(length - s.open_end), ("end_effect",))
        return
    yield Mistake("added", always(length + extra))
    yield Mistake("not taken off", always(length))
    if length > 2 * extra:
        yield Mistake("taken off twice", always(length - 2 * extra))
    yield Mistake("half taken off", always(length - extra / 2))
    yield Mistake("", always(length * 1.3))


def _cut(s: CopperStudent, piece: str) -> Iterator[Mistake]:
    wanted = s.wanted(piece)
    right = s.nearest(wanted, s.step)
    yield Mistake("wrong way", always(right + (s.step if wanted > right else -s.step)))
    yield Mistake("not rounded", always(wanted))
    yield Mistake("whole millimetres", always(float(round(wanted))))
    if piece == "length":
        yield Mistake("before the correction", always(s.nearest(s.at("metric.length"), s.step)))
    yield Mistake("", always(right + 7 * s.step))


def _cost(s: CopperStudent) -> Iterator[Mistake]:
    distance, length = s.as_cut("distance"), s.as_cut("length")
    right = s.seen(distance, length)
    yield Mistake("match taken for granted", always(1.0))
    yield Mistake("stub as designed", always(s.seen(distance, s.waves("length"))))
    yield Mistake("distance as designed", always(s.seen(s.waves("distance"), length)))
    if s.end == "open":
        yield Mistake("end left out", always(s.seen(distance, s.at("cut.length") / s.at("wave"))))
    yield Mistake("size of reflection", always((right - 1) / (right + 1)))
    yield Mistake("", always(1.5 * right))
