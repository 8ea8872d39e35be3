"""Students who turn an impedance into an admittance, and what they get wrong.

Everything is worked out here from the definitions (see `arithmetic`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from tests.bench.students import chart_mistakes, people
from tests.bench.students.arithmetic import normalised, reflection
from tests.bench.students.chart_mistakes import always
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import Eye, Metric, Mistake
from tests.bench.students.quarter_wave import RECKONED

METRICS = {
    "opposite": people.REFLECTION, "admittance": people.IMMITTANCE, "siemens": people.SUM,
    "parallel": RECKONED,
}  # fmt: skip


@dataclass(kw_only=True)
class AdmittanceStudent(ChartStudent):
    """A student with a load and a line."""

    sides = ("", "")
    drawn = ("place",)

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        return [
            "normalise", "place", "opposite", "admittance", "siemens", "parallel.resistor", "parallel.part"
        ]  # fmt: skip

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared."""
        return METRICS

    def metric(self, key: str) -> Metric:
        """How the field's values are compared."""
        return people.CHOICE if key == "parallel.part" else super().metric(key)

    def _opposite(self, eye: Eye) -> complex:
        return eye.point(-self.at("place") if self.draws else -reflection(self.at("normalise")))

    def _admittance(self, eye: Eye) -> complex:
        at = -self.at("place") if self.draws else reflection(1 / self.at("normalise"))
        return normalised(eye.point(at))

    def _siemens(self, eye: Eye) -> complex:
        return self.at("admittance") * 1000 / self.line

    def _parallel(self, eye: Eye, what: str) -> Any:
        value = self.at("siemens")
        if what == "resistor":
            return 1000 / value.real
        return "capacitor" if value.imag > 0 else "coil" if value.imag < 0 else "nothing"

    def drawing(self, key: str, value: Any) -> Any:
        """Also of the opposite place, and of the admittance."""
        if key == "opposite":
            return value
        return -reflection(value) if key == "admittance" else super().drawing(key, value)


def mistakes(student: AdmittanceStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    quantity, _, what = key.partition(".")
    maker: Callable[..., Iterator[Mistake]] = globals()[f"_{quantity}"]
    return list(maker(student, what) if what else maker(student))


_normalise, _place = chart_mistakes.normalise, chart_mistakes.place
_admittance = chart_mistakes.admittance


def _opposite(s: AdmittanceStudent) -> Iterator[Mistake]:
    at = reflection(s.at("normalise"))
    yield Mistake("not moved", lambda eye: eye.point(at))
    yield Mistake("mirrored in the axis", lambda eye: eye.point(at.conjugate()))
    yield Mistake("mirrored across", lambda eye: eye.point(-at.conjugate()))
    yield Mistake("right angle", lambda eye: eye.point(1j * at))
    yield Mistake("right angle", lambda eye: eye.point(-1j * at))
    yield Mistake("", lambda eye: eye.point(-at * abs(at)))


def _siemens(s: AdmittanceStudent) -> Iterator[Mistake]:
    y, right = s.at("admittance"), s.at("admittance") * 1000 / s.line
    yield Mistake("multiplied", always(y * s.line))
    for power in (-3, 3, -1, 1):
        yield Mistake("power of ten", always(right * 10.0**power))
    yield Mistake("normalised", always(y))
    yield Mistake("impedance taken", always(s.at("normalise") * 1000 / s.line))
    yield Mistake("sign of the susceptance lost", always(right.conjugate()))
    yield Mistake("", always(right * 2))


def _parallel(s: AdmittanceStudent, what: str) -> Iterator[Mistake]:
    value = s.at("siemens")
    if what == "part":
        if value.imag:
            yield Mistake("sign of B", always("coil" if value.imag > 0 else "capacitor"))
            yield Mistake("left out", always("nothing"))
        return
    yield Mistake("series resistance", always(s.load.real))
    yield Mistake("size of admittance", always(1000 / abs(value)))
    if value.imag:
        yield Mistake("one over B", always(1000 / abs(value.imag)))
    yield Mistake("milli forgotten", always(1 / value.real))
    yield Mistake("normalised", always(1 / s.at("admittance").real))
    yield Mistake("", always(1000 / value.real * 1.3))
