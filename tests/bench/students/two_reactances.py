"""Students with two reactances, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`): along g to where r is 1 the imaginary part is
plus or minus the root of g less its square, and the other way round. Preferred values: IEC 60063:2015 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import copysign, inf, log, pi, sqrt
from random import Random
from typing import Any

from tests.bench.students import chart_mistakes, people
from tests.bench.students.arithmetic import normalised, ratio, reflection
from tests.bench.students.chart_mistakes import always
from tests.bench.students.choosing import choose
from tests.bench.students.copper import ABOVE_ONE
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import RELATIVE, Eye, Metric, Mistake

FIRST = {"shunt": "series", "series": "shunt"}
STEPS = (("meet",), ("near",), ("turn", "far"))
BOTH = ("near", "far")
E12 = (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82)
SERIES = {"e12": E12, "e24": (*E12, 11, 13, 16, 20, 24, 30, 36, 43, 51, 62, 75, 91)}
OTHER = {"near": "far", "far": "near"}
RELATIVELY_OFF = (0.95, 1.05)
SAME = 1e-9  # relative


def _part_text(value: float, decimals: int) -> str:
    return f"{abs(value):.5g} {'nH' if value > 0 else 'pF'}"


def _part_anywhere(chance: Random, right: float) -> float:
    return right * chance.choice((-1, 1)) * chance.uniform(0.2, 3)


VALUE = Metric(
    lambda one, other: abs(one - other) / (RELATIVE * abs(other)) if one * other > 0 else inf,
    _part_text,
    _part_anywhere,
)
BOUGHT = Metric(
    lambda one, other: abs(one - other) / (1e-4 * abs(other)) if one * other > 0 else inf,
    _part_text,
    _part_anywhere,
)
METRICS = {
    "meet": people.IMMITTANCE, "near": people.PART_SUM, "turn": people.IMMITTANCE, "far": people.PART_SUM,
}  # fmt: skip


def sold(series: str) -> list[float]:
    """Every value of a series, of fifteen decades."""
    return sorted(digits * 10.0**power for digits in SERIES[series] for power in range(-8, 8))


def nearest(value: float, series: str) -> float:
    """The one that is off by the least, as a ratio."""
    size = min(sold(series), key=lambda one: abs(log(one / abs(value))))
    return copysign(float(f"{size:.2g}"), value)


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any load that stands clear of both unit circles."""
    line, load, outside = usual["line"], complex(usual["line"]), chance.random() < 0.5
    while not all(
        abs(part - 1) > 0.05 and (part < 1 or not outside)
        for part in ((load / line).real, (line / load).real)
    ):
        most = chance.choice((60, 300))  # as often below the line's impedance as above
        load = complex(chance.randint(5, most), chance.randint(-most // 2, most // 2))
    return {**usual, "load": load, "e_series": chance.choice(tuple(SERIES))}


@dataclass(kw_only=True)
class TwoStudent(ChartStudent):
    """A student with two reactances."""

    drawn = ("place",)
    e_series: str

    @property
    def sides(self) -> tuple[str, ...]:  # type: ignore[override]
        """The solutions there are."""
        return tuple(f"{first}_{which}" for first in self.firsts for which in ("high", "low"))

    @property
    def firsts(self) -> list[str]:
        """Which part can stand nearer the load."""
        z = self.load / self.line
        return [one for one, real in (("shunt", (1 / z).real), ("series", z.real)) if real < 1]

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        of_both = [
            f"{first}_{field}.{first}_{which}"
            for first in self.firsts
            for step in STEPS
            for which in ("high", "low")
            for field in step
        ]
        bought = [f"{what}.{which}" for what in ("value", "preferred") for which in BOTH]
        after = [*bought, "cost"] if self.frequency else []
        return ["normalise", "place", "admittance", "ways", *of_both, "choose.which", "choose.why", *after]

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        own = {f"{first}_{step}": metric for first in FIRST for step, metric in METRICS.items()}
        return {
            **own,
            "admittance": people.IMMITTANCE,
            "value": VALUE,
            "preferred": BOUGHT,
            "cost": ABOVE_ONE,
        }

    def right(self, key: str, eye: Eye) -> Any:
        """What a student without a mistake writes, from the values before."""
        first, _, rest = key.partition("_")
        if first not in FIRST:
            return super().right(key, eye)
        step, _, side = rest.partition(".")
        return getattr(self, f"_{step}")(eye, first, side)

    def _admittance(self, eye: Eye) -> complex:
        at = -self.at("place") if self.draws else reflection(1 / self.at("normalise"))
        return normalised(eye.point(at))

    def _ways(self, eye: Eye) -> str:
        if self.at("normalise").real > 1:
            return "shunt"
        return "series" if self.at("admittance").real > 1 else "either"

    def start(self, first: str) -> complex:
        """The load as the first part meets it."""
        return complex(self.at("admittance" if first == "shunt" else "normalise"))

    def crossing(self, first: str, side: str) -> complex:
        """Where the walk along g (or r) ends."""
        real = self.start(first).real
        size = sqrt(real - real * real) if 0 < real < 1 else 0.0
        return complex(real, size if side.endswith("high") else -size)

    def of(self, first: str, step: str, side: str) -> Any:
        """What was written in a field of a solution."""
        return self.at(f"{first}_{step}.{side}")

    def _meet(self, eye: Eye, first: str, side: str) -> complex:
        return normalised(eye.point(reflection(self.crossing(first, side))))

    def _near(self, eye: Eye, first: str, side: str) -> float:
        return float((self.of(first, "meet", side) - self.start(first)).imag)

    def _turn(self, eye: Eye, first: str, side: str) -> complex:
        return normalised(eye.point(reflection(1 / self.of(first, "meet", side))))

    def _far(self, eye: Eye, first: str, side: str) -> float:
        return -float(self.of(first, "turn", side).imag)

    def ohms(self, part: float, is_across: bool, line: float) -> float:
        """Of x in the line, or of b across it."""
        return (-line / part if part else inf) if is_across else part * line

    def value(self, ohms: float) -> float:
        """Nanohenries, or minus picofarads."""
        speed = 2 * pi * (self.frequency or 1.0)
        return 1e9 * ohms / speed if ohms > 0 else 1e12 / (speed * ohms)

    def reacts(self, value: float) -> float:
        """The ohms of a part of that value."""
        speed = 2 * pi * (self.frequency or 1.0)
        return speed * value / 1e9 if value > 0 else 1e12 / (speed * value)

    def part_of(self, first: str, which: str, side: str) -> tuple[float, bool]:
        """What a part adds, and whether it stands across the line."""
        return float(self.of(first, which, side)), (first == "shunt") == (which == "near")

    # --- which to build ---

    def reflects(self, side: str, off: float) -> float:
        """|reflection| of what was built where the frequency is `off` times its own."""
        first = side.split("_")[0]
        z = self.load / self.line
        for which in ("near", "far"):
            part, is_across = self.part_of(first, which, side)
            ohms = self.ohms(part, is_across, 1.0)
            ohms *= off if ohms > 0 else 1 / off
            z = 1 / (1 / z + 1 / complex(0, ohms)) if is_across else z + complex(0, ohms)
        return abs(reflection(z))

    def costs(self, side: str) -> dict[str, float]:
        """What each reason counts, the less the better."""
        first = side.split("_")[0]
        parts = [self.part_of(first, which, side) for which in ("near", "far")]
        coils = sum(self.ohms(part, is_across, 1.0) > 0 for part, is_across in parts)
        band = max(self.reflects(side, off) for off in RELATIVELY_OFF)
        return {"wider band": band, "fewest coils": float(coils), "any would do": 0.0}

    def true_reasons(self, side: str) -> list[str]:
        """Those that hold for a solution."""
        mine, others = self.costs(side), [self.costs(one) for one in self.sides if one != side]
        return [key for key, cost in mine.items() if all(cost <= other[key] for other in others)]

    def _choose(self, what: str) -> str:
        return self.sides[0] if what == "which" else self.true_reasons(self.at("choose.which"))[0]

    # --- what is bought ---

    @property
    def built(self) -> str:
        """The solution that was chosen."""
        return str(self.at("choose.which"))

    def value_in(self, side: str, which: str) -> float:
        """A part's value in a solution."""
        return self.value(self.ohms(*self.part_of(side.split("_")[0], which, side), self.line))

    def _value(self, eye: Eye, which: str) -> float:
        return self.value_in(self.built, which)

    def _preferred(self, eye: Eye, which: str) -> float:
        return nearest(self.at(f"value.{which}"), self.e_series)

    def seen(self, near: float, far: float) -> float:
        """|reflection| with parts of these values."""
        first, z = self.built.split("_")[0], self.load / self.line
        for which, value in zip(BOTH, (near, far), strict=True):
            x = complex(0, self.reacts(value) / self.line)
            z = 1 / (1 / z + 1 / x) if (first == "shunt") == (which == "near") else z + x
        return abs(reflection(z))

    def _cost(self, eye: Eye) -> float:
        return ratio(self.seen(self.at("preferred.near"), self.at("preferred.far")))

    def drawing(self, key: str, value: Any) -> Any:
        """Also of the admittance, and of the crossings."""
        if key == "admittance" or key.startswith("shunt_meet"):
            return -reflection(value)
        return reflection(value) if key.startswith("series_meet") else super().drawing(key, value)


def mistakes(student: TwoStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field; where a mistake's key is "" the lesson is not told of it."""
    first, _, rest = key.partition("_")
    if first in FIRST:
        step, _, side = rest.partition(".")
        own: Callable[..., Iterator[Mistake]] = globals()[f"_{step}"]
        return list(own(student, first, side))
    quantity, _, what = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, what) if what else maker(student))


_normalise, _place = chart_mistakes.normalise, chart_mistakes.place
_admittance, _choose = chart_mistakes.admittance, choose


def _ways(s: TwoStudent) -> Iterator[Mistake]:
    right = s.right("ways", Eye())
    if right == "either":
        yield Mistake("one left out", always("shunt"))
        yield Mistake("one left out", always("series"))
    else:
        yield Mistake("circles exchanged", always(FIRST[right]))
        yield Mistake("circle overlooked", always("either"))
    yield Mistake("none seen", always("none"))


def _other(side: str) -> str:
    first, which = side.split("_")
    return f"{first}_{'low' if which == 'high' else 'high'}"


def _meet(s: TwoStudent, first: str, side: str) -> Iterator[Mistake]:
    def read(at: complex) -> Callable[[Eye], complex]:
        return lambda eye: normalised(eye.point(reflection(at)))

    at, start = s.crossing(first, side), s.start(first)
    size = abs(reflection(start))
    if size >= 1 or not at.real:  # nothing is met by a load that takes no power
        return
    # r = 1, seen as an admittance: y = 1 / (1 + jx), where |reflection| = size gives x
    x = 2 * size / sqrt(1 - size * size)
    for sign in (1, -1):
        yield Mistake("mismatch circle", read(1 / complex(1, sign * x)))
    yield Mistake("other grid read", read(1 / at))
    yield Mistake("own unit circle", always(complex(1, at.imag)))
    yield Mistake("square forgotten", always(complex(at.real, sqrt(at.real) * (1 if at.imag > 0 else -1))))
    yield Mistake("axis", always(complex(at.real, 0)))
    yield Mistake("branches mixed", read(at.conjugate()))
    yield Mistake("", read(complex(at.real, 2 * at.imag)))


def _near(s: TwoStudent, first: str, side: str) -> Iterator[Mistake]:
    there, start = s.of(first, "meet", side).imag, s.start(first).imag
    yield Mistake("all of it", always(there))
    yield Mistake("sign not flipped", always(start - there))
    yield Mistake("added", always(there + start))
    mixed = s.of(first, "meet", _other(side)).imag - start
    yield Mistake("branches mixed", always(mixed), (f"{first}_meet.{side}",))
    yield Mistake("", always(1.5 * (there - start)))


def _turn(s: TwoStudent, first: str, side: str) -> Iterator[Mistake]:
    def read(at: complex) -> Callable[[Eye], complex]:
        return lambda eye: normalised(eye.point(reflection(at)))

    there = s.of(first, "meet", side)
    yield Mistake("not turned", always(there))
    part = "reactance" if first == "shunt" else "susceptance"
    yield Mistake(f"sign of the {part} lost", read((1 / there).conjugate()))
    if there.real and there.imag:
        yield Mistake("parts inverted", always(complex(1 / there.real, -1 / there.imag)))
    yield Mistake("branches mixed", read(1 / s.of(first, "meet", _other(side))), (f"{first}_meet.{side}",))
    yield Mistake("", read(2 / there))


def _far(s: TwoStudent, first: str, side: str) -> Iterator[Mistake]:
    right = -s.of(first, "turn", side).imag
    yield Mistake("sign not flipped", always(-right))
    yield Mistake("first part again", always(s.of(first, "near", side)))
    yield Mistake("other grid", always(-s.of(first, "meet", side).imag))
    mixed = -s.of(first, "turn", _other(side)).imag
    yield Mistake("branches mixed", always(mixed), (f"{first}_turn.{side}", f"{first}_meet.{side}"))
    yield Mistake("", always(1.5 * right))


def _tens(right: float) -> Iterator[Mistake]:
    for power in (-6, -3, -1, 1, 3, 6):
        yield Mistake("power of ten", always(right * 10.0**power))


def _value(s: TwoStudent, which: str) -> Iterator[Mistake]:
    side = s.built
    part, is_across = s.part_of(side.split("_")[0], which, side)
    if not all(s.part_of(one.split("_")[0], each, one)[0] for one in s.sides for each in BOTH):
        return  # a part that adds nothing has no value
    right = s.value_in(side, which)

    def sized(ohms: float) -> float:
        return s.value(abs(ohms) if right > 0 else -abs(ohms))

    yield Mistake("two pi forgotten", always(right * 2 * pi))
    yield Mistake("coil and capacitor exchanged", always(s.value(-s.ohms(part, is_across, s.line))))
    yield Mistake("other side", always(sized(s.ohms(part, not is_across, s.line))))
    yield Mistake("not denormalised", always(sized(s.ohms(part, is_across, 1.0))))
    yield from _tens(right)
    yield Mistake("parts exchanged", always(s.at(f"value.{OTHER[which]}")))
    for other in s.sides:
        if other != side:
            yield Mistake("branches mixed", always(s.value_in(other, which)))
    yield Mistake("", always(right * 1.5))


def _preferred(s: TwoStudent, which: str) -> Iterator[Mistake]:
    exact = s.at(f"value.{which}")
    right, size = s.right(f"preferred.{which}", Eye()), abs(exact)
    others = (
        max(one for one in sold(s.e_series) if one <= size),
        min(one for one in sold(s.e_series) if one >= size),
    )
    for one in others:
        if abs(one / abs(right) - 1) > SAME and not _halfway(size, *others):
            yield Mistake("wrong way", always(copysign(float(f"{one:.2g}"), exact)))
    elsewhere = nearest(exact, next(one for one in SERIES if one != s.e_series))
    if abs(elsewhere / right - 1) > SAME and not _halfway(size, *others):
        yield Mistake("wrong series", always(elsewhere))
    yield Mistake("not rounded", always(exact))
    for digits in (1, 2):
        found = float(f"{exact:.{digits}g}")
        if all(abs(found / one - 1) > SAME for one in (exact, nearest(found, "e24"))):
            yield Mistake("round number", always(found))
    yield from _tens(right)
    yield Mistake("parts exchanged", always(s.at(f"preferred.{OTHER[which]}")))
    yield Mistake("", always(right * 1.37))


def _halfway(size: float, below: float, above: float) -> bool:
    """Whether both are right: half a percent more or less, or a difference for a ratio, makes it the other one."""
    return 0.995 * sqrt(below * above) - SAME <= size <= 1.005 * (below + above) / 2 + SAME


def _cost(s: TwoStudent) -> Iterator[Mistake]:
    near, far = (s.at(f"value.{which}") for which in BOTH)
    near_bought, far_bought = (s.at(f"preferred.{which}") for which in BOTH)
    size = s.seen(near_bought, far_bought)
    yield Mistake("match taken for granted", always(1.0))
    yield Mistake("match taken for granted", always(ratio(s.seen(near, far))))
    yield Mistake("near part alone", always(ratio(s.seen(near_bought, far))))
    yield Mistake("far part alone", always(ratio(s.seen(near, far_bought))))
    yield Mistake("size of reflection", always(size))
    yield Mistake("", always(1.5 * ratio(size)))
