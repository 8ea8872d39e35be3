"""Students who have a match with something off, and choose by what comes back; and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`), by the tangent of each length: Pozar, Microwave
Engineering, 4th ed., eq. 2.44 to 2.46 (from memory). The design is the quadratic of `copper`, for a series stub that of
the load's inverse and of the other end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from math import inf, pi, tan
from random import Random
from typing import Any

from tests.bench.students import chart_mistakes
from tests.bench.students.arithmetic import ratio, reflection, stub_shows
from tests.bench.students.chart_mistakes import always
from tests.bench.students.choosing import choose
from tests.bench.students.copper import SMALL_PIECE, designed
from tests.bench.students.on_chart import EXACT, ChartStudent
from tests.bench.students.people import PART_SUM, RELATIVE, SUM, Eye, Metric, Mistake, half_waves
from tests.bench.students.single_stub import OPPOSITE, OTHER

FINE, SIZE_OFF, PERCENT_OFF = 0.001, 0.005, 0.05
BOTH = ("near", "far")
WAVES = Metric(
    lambda one, other: half_waves(one, other) / FINE,
    lambda value, decimals: f"{value:.{decimals + 1}f} wl",
    lambda chance, right: chance.uniform(0, 0.5),
)
SIZE = Metric(
    lambda one, other: abs(one - other) / SIZE_OFF,
    lambda value, decimals: f"{value:.{decimals}f}",
    lambda chance, right: chance.uniform(0, 1),
)
PERCENT = Metric(
    lambda one, other: min(
        abs(one - other) / PERCENT_OFF, abs(one - other) / (RELATIVE * max(1e-9, abs(other)))
    ),
    lambda value, decimals: f"{value:.{decimals}f}",
    lambda chance, right: chance.uniform(0, 40),
)
KEYS = ("load", "line", "end")


@lru_cache(maxsize=4096)
def match(load: complex, line: float, method: str, end: str, side: str) -> Mapping[str, float]:
    """Distance and stub length of a solution."""
    if method == "shunt":
        return designed(load, line, end, side)
    return designed(line * line / load, line, OPPOSITE[end], side)


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson, with pieces that are lines."""
    givens = {key: usual[key] for key in KEYS}
    more = {
        "method": chance.choice(("shunt", "series")), "off": chance.choice(("frequency", "frequency", "line", "stub")),
        "by": chance.choice((-12.0, -6.0, -4.0, 4.0, 5.0, 8.0, 12.0)), "allowed": chance.choice((1.25, 1.5, 1.8, 2.5)),
    }  # fmt: skip
    while True:
        known = (givens["load"], givens["line"], more["method"], givens["end"])
        pieces = [match(*known, side) for side in BOTH]
        if all(SMALL_PIECE < one < 0.44 for each in pieces for one in each.values()):
            return {**givens, **more}
        givens["load"] = complex(chance.randint(10, 200), chance.randint(-100, 100))
        if not 1.4 < ratio(abs(reflection(givens["load"] / givens["line"]))) < 6:
            givens["load"] = complex(0.5 * givens["line"], 0.7 * givens["line"])


@dataclass(kw_only=True)
class WhichStudent(ChartStudent):
    """A student with a match in which something is off. After the load's place all is calculated."""

    sides = BOTH
    drawn = ("place",)
    method: str
    end: str
    off: str
    by: float
    allowed: float

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        pieces = [one for one in ("distance_off", "length_off") if self.is_off(one)]
        return [
            "normalise", "place", *(["admittance"] if self.method == "shunt" else []),
            *(f"{one}.{side}" for one in (*pieces, "arriving", "shows", "total", "back") for side in BOTH),
            "limit", *(f"reach.{side}" for side in BOTH), "choose.which", "choose.why",
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return {
            "admittance": SUM, "distance_off": WAVES, "length_off": WAVES, "arriving": SUM, "shows": PART_SUM,
            "total": SUM, "back": SIZE, "limit": SIZE, "reach": PERCENT,
        }  # fmt: skip

    def is_off(self, key: str) -> bool:
        """Whether a piece acts otherwise than designed."""
        return self.off == "frequency" or {"line": "distance_off", "stub": "length_off"}[self.off] == key

    @property
    def factor(self) -> float:
        """What it is multiplied by."""
        return 1 + self.by / 100

    @property
    def own_load(self) -> complex:
        """What the walk begins with."""
        return complex(self.at("admittance" if self.method == "shunt" else "normalise"))

    def designed(self, key: str, side: str) -> float:
        """A length of the design."""
        return match(self.load, self.line, self.method, self.end, side)[key.removesuffix("_off")]

    # --- the derivation ---

    def _admittance(self, eye: Eye) -> complex:
        return complex(1 / self.at("normalise"))

    def acts(self, key: str, side: str) -> float:
        """Length of a piece as it acts."""
        return self.designed(key, side) * (self.factor if self.is_off(key) else 1.0)

    def _distance_off(self, eye: Eye, side: str) -> float:
        return self.acts("distance_off", side)

    def _length_off(self, eye: Eye, side: str) -> float:
        return self.acts("length_off", side)

    def after(self, length: float) -> complex:
        """What the line shows after so much of it."""
        w, t = self.own_load, 1j * tan(2 * pi * length)
        return (w + t) / (1 + t * w)

    def _arriving(self, eye: Eye, side: str) -> complex:
        return self.after(self.at(f"distance_off.{side}"))

    def stub(self, length: float, end: str = "") -> float:
        """What a stub of this length adds."""
        return stub_shows(length, ((end or self.end) == "open") == (self.method == "shunt"))

    def _shows(self, eye: Eye, side: str) -> float:
        return self.stub(self.at(f"length_off.{side}"))

    def _total(self, eye: Eye, side: str) -> complex:
        return complex(self.at(f"arriving.{side}") + 1j * self.at(f"shows.{side}"))

    def _back(self, eye: Eye, side: str) -> float:
        return abs(reflection(self.at(f"total.{side}")))

    def _limit(self, eye: Eye) -> float:
        return (self.allowed - 1) / (self.allowed + 1)

    def part(self, side: str) -> float:
        """How many times as far it may be off."""
        back = self.at(f"back.{side}")
        return float(self.at("limit") / back) if back else inf

    def _reach(self, eye: Eye, side: str) -> float:
        return abs(self.by) * self.part(side)

    # --- which to build ---

    def built(self, key: str, side: str) -> float:
        """A length as it acts, by the sheet, with as many half waves as bring it near the design's."""
        wanted = self.designed(key, side)
        return max(0.0, wanted + (self.at(f"{key}.{side}") - wanted + 0.25) % 0.5 - 0.25)

    def costs(self, side: str) -> dict[str, float]:
        """What each reason is about: less is better."""
        distance, length = (self.built(key, side) for key in ("distance_off", "length_off"))
        return {
            "less comes back": self.at(f"back.{side}"),
            "shorter distance": distance,
            "shorter stub": length,
            "less line": distance + length,
            "longer stub": -length,
            "more room": -distance,
        }

    def true_reasons(self, side: str) -> list[str]:
        """What speaks for a solution."""
        others = self.costs(OTHER[side])
        return [reason for reason, cost in self.costs(side).items() if cost <= others[reason]]

    def _choose(self, what: str) -> str:
        if what == "which":
            return min(BOTH, key=lambda side: float(self.at(f"back.{side}")))
        return self.true_reasons(self.at("choose.which"))[0]


def mistakes(student: WhichStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field; where a mistake's key is "" the lesson is not told of it."""
    quantity, _, side = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, side) if side else maker(student))


_normalise, _place, _choose = chart_mistakes.normalise, chart_mistakes.place, choose


def _admittance(s: WhichStudent) -> Iterator[Mistake]:
    for one in chart_mistakes.admittance(s):
        yield replace(one, value=always(one.value(EXACT)))


def _length(s: WhichStudent, key: str, side: str) -> Iterator[Mistake]:
    waves, share, neighbour = s.designed(key, side), s.by / 100, (key,)
    other = "length_off" if key == "distance_off" else "distance_off"
    yield Mistake("as designed", always(waves), neighbour)
    yield Mistake("other way", always(waves / s.factor), neighbour)
    yield Mistake("other way", always(waves * (1 - share)), neighbour)
    yield Mistake("twice", always(waves * s.factor**2), neighbour)
    yield Mistake("change alone", always(waves * abs(share)), neighbour)
    if 1 + 10 * share > 0:
        yield Mistake("tenfold", always(waves * (1 + 10 * share)), neighbour)
    if waves + share > 0:
        yield Mistake("of a wave", always(waves + share), neighbour)
    yield Mistake("lengths exchanged", always(s.acts(other, side)))
    yield Mistake("branches mixed", always(s.acts(key, OTHER[side])))
    yield Mistake("", always(waves * 1.37))


def _distance_off(s: WhichStudent, side: str) -> Iterator[Mistake]:
    yield from _length(s, "distance_off", side)


def _length_off(s: WhichStudent, side: str) -> Iterator[Mistake]:
    yield from _length(s, "length_off", side)


def _arriving(s: WhichStudent, side: str) -> Iterator[Mistake]:
    own, right, neighbour = s.at(f"distance_off.{side}"), s.right(f"arriving.{side}", EXACT), ("arriving",)
    if s.is_off("distance_off"):
        yield Mistake("as designed", always(s.after(s.designed("distance_off", side))))
    yield Mistake("wrong way", always(s.after(-own)), neighbour)
    yield Mistake("double angle", always(s.after(own / 2)), neighbour)
    yield Mistake("half angle", always(s.after(2 * own)), neighbour)
    yield Mistake("not walked", always(s.own_load))
    yield Mistake("one over it", always(1 / right))
    yield Mistake("sign lost", always(right.conjugate()))
    mixed = s.right(f"arriving.{OTHER[side]}", EXACT)
    yield Mistake("branches mixed", always(mixed), (f"distance_off.{side}",))
    yield Mistake("", always(2 * right))


def _shows(s: WhichStudent, side: str) -> Iterator[Mistake]:
    own, right, neighbour = s.at(f"length_off.{side}"), s.right(f"shows.{side}", EXACT), ("shows",)
    if s.is_off("length_off"):
        yield Mistake("as designed", always(s.stub(s.designed("length_off", side))))
    yield Mistake("sign lost", always(-right))
    yield Mistake("wrong end", always(s.stub(own, OPPOSITE[s.end])), neighbour)
    yield Mistake("half angle", always(s.stub(2 * own)), neighbour)
    yield Mistake("double angle", always(s.stub(own / 2)), neighbour)
    yield Mistake("lengths exchanged", always(s.stub(s.at(f"distance_off.{side}"))))
    yield Mistake("branches mixed", always(s.right(f"shows.{OTHER[side]}", EXACT)), (f"length_off.{side}",))
    yield Mistake("", always(1.6 * right))


def _total(s: WhichStudent, side: str) -> Iterator[Mistake]:
    line, stub = s.at(f"arriving.{side}"), s.at(f"shows.{side}")
    yield Mistake("stub left out", always(line))
    yield Mistake("subtracted", always(line - 1j * stub))
    if s.is_off("length_off"):
        yield Mistake("stub as designed", always(line + 1j * s.stub(s.designed("length_off", side))))
    if s.is_off("distance_off"):
        yield Mistake("line as designed", always(s.after(s.designed("distance_off", side)) + 1j * stub))
    yield Mistake("real part lost", always(complex(0, (line + 1j * stub).imag)))
    yield Mistake("to the real part", always(line + stub))
    yield Mistake("match taken for granted", always(1 + 0j))
    yield Mistake("", always(line + 2j * stub))


def _back(s: WhichStudent, side: str) -> Iterator[Mistake]:
    total, right = s.at(f"total.{side}"), s.right(f"back.{side}", EXACT)
    if right < 1:
        yield Mistake("ratio", always(ratio(right)))
    yield Mistake("power", always(right**2))
    yield Mistake("not divided", always(abs(total - 1)))
    if right:
        yield Mistake("upside down", always(1 / right))
    yield Mistake("real part alone", always(abs(reflection(total.real))))
    yield Mistake("real part taken for 1", always(abs(reflection(complex(1, total.imag)))))
    yield Mistake("without the stub", always(abs(reflection(s.at(f"arriving.{side}")))))
    yield Mistake("branches mixed", always(s.right(f"back.{OTHER[side]}", EXACT)), (f"total.{side}",))
    yield Mistake("", always(1.5 * right))


def _limit(s: WhichStudent) -> Iterator[Mistake]:
    right = s.right("limit", EXACT)
    yield Mistake("less one", always(s.allowed - 1))
    yield Mistake("by the ratio", always((s.allowed - 1) / s.allowed))
    yield Mistake("upside down", always(1 / right))
    yield Mistake("power", always(right**2))
    yield Mistake("", always(1 / s.allowed))


def _reach(s: WhichStudent, side: str) -> Iterator[Mistake]:
    part, by, neighbour, back = s.part(side), abs(s.by), ("reach",), s.at(f"back.{side}")
    yield Mistake("upside down", always(by / part), neighbour)
    yield Mistake("both ways", always(2 * by * part), neighbour)
    if back < 1:
        yield Mistake("by ratios", always(by * s.allowed / ratio(back)), neighbour)
    yield Mistake("squared", always(by * part**2), neighbour)
    yield Mistake("factor alone", always(part), neighbour)
    yield Mistake("how much more", always(abs(by * part - by)), neighbour)
    yield Mistake("branches mixed", always(s.right(f"reach.{OTHER[side]}", EXACT)), (f"back.{side}",))
    yield Mistake("", always(1.3 * by * part))
