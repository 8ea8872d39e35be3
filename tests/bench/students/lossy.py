"""Students on a lossy line: how far the point spirals in, what arrives at the load, and what the mismatch costs.

Everything is worked out here from the definitions (see `arithmetic`): waves that shrink, and powers as their squares.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from math import exp, inf, log10
from random import Random
from typing import Any

from tests.bench.students import along_the_line, people
from tests.bench.students.along_the_line import LineStudent
from tests.bench.students.arithmetic import ratio
from tests.bench.students.chart_mistakes import always
from tests.bench.students.people import POINT, RELATIVE, Eye, Metric, Mistake
from tests.bench.students.quarter_wave import significant

SIZE = Metric(
    lambda one, other: abs(one - other) / POINT,
    lambda value, decimals: f"{value:.3f}",
    lambda chance, right: chance.uniform(0, 1),
)


def decibels(share: float) -> float:
    """A share in percent as a loss."""
    return -10 * log10(share / 100) if share > 0 else inf


def problem(chance: Random, usual: Mapping[str, Any]) -> dict[str, Any]:
    """Any problem of the lesson: the load's end, a length in any unit, a loss that can be seen."""
    given = along_the_line.problem(chance, usual)
    return {**given, "load": usual["load"], "loss": chance.choice((0.8, 1.2, 2.0, 3.0, 4.5))}


@dataclass(kw_only=True)
class LossyStudent(LineStudent):
    """A student with a load at the end of a line that takes `loss` decibels."""

    loss: float

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        measure = ["wave", "waves"] if self.is_metric else []
        walk = ["normalise", "place", "mismatch", *measure, "start", "end"]
        return [*walk, "size", "ratio", "share", "total", "extra"]

    def metric(self, key: str) -> Metric:
        """How the field's values are compared: power as exactly as the load's place allows."""
        if key in ("size", "ratio"):
            return SIZE if key == "size" else people.RATIO
        if key not in ("share", "total", "extra"):
            return super().metric(key)
        off = self.share_off if key == "share" else 4.343 * self.share_off / max(1e-6, self.at("share"))
        return Metric(
            lambda one, other: min(
                abs(one - other) / off, abs(one - other) / (RELATIVE * max(1e-9, abs(other)))
            ),
            significant,
            lambda chance, right: chance.uniform(0, 100 if key == "share" else 10),
        )

    @property
    def part(self) -> float:
        """What is left of the power of a wave that runs along the line once."""
        return float(10 ** (-self.loss / 10))

    def _efficiency(self, load: float, at_input: float) -> float:
        arriving = 100 * self.part * (1 - load**2)
        return arriving / (1 - at_input**2)

    @property
    def share_off(self) -> float:
        """How far the share is off where the load's place is a tolerance off."""
        ends = [min(0.999, max(0.0, abs(self.at("place")) + by)) for by in (-POINT, POINT)]
        shares = [self._efficiency(end, end * self.part) for end in ends]
        return abs(shares[1] - shares[0]) / 2

    @property
    def load_size(self) -> float:
        """|reflection| of the load, by the circle for who draws."""
        return float(
            abs(self.at("mismatch") - 1) / (self.at("mismatch") + 1) if self.draws else abs(self.at("place"))
        )

    def _size(self, eye: Eye) -> float:
        return eye.size(abs(self.load_size) * self.part)

    def _ratio(self, eye: Eye) -> float:
        return ratio(eye.size(self.at("size")))

    def _share(self, eye: Eye) -> float:
        return self._efficiency(abs(self.at("place")), self.at("size"))

    def _total(self, eye: Eye) -> float:
        return decibels(self.at("share"))

    def _extra(self, eye: Eye) -> float:
        return float(self.at("total") - self.loss)

    def drawing(self, key: str, value: Any) -> Any:
        """Also of the circle at the input."""
        return (value - 1) / (value + 1) if key == "ratio" else super().drawing(key, value)


def mistakes(student: LossyStudent, key: str) -> list[Mistake]:
    """What can go wrong in a field."""
    own: Callable[[LossyStudent], Iterator[Mistake]] | None = globals().get(f"_{key}")
    return list(own(student)) if own else along_the_line.mistakes(student, key)


def _size(s: LossyStudent) -> Iterator[Mistake]:
    load, part = abs(s.at("place")), s.part
    changes: dict[str, float] = {
        "one way only": part**0.5, "power for voltage": part**2, "not shrunk": 1.0, "outward": 1 / part,
        "nepers": exp(-2 * s.loss),
    }  # fmt: skip
    for key, factor in changes.items():
        yield Mistake(key, (lambda by: lambda eye: eye.size(load) * by)(factor))
    yield Mistake("factor alone", always(part))
    yield Mistake("", lambda eye: eye.size(load) * (1 - part))


def _ratio(s: LossyStudent) -> Iterator[Mistake]:
    size = s.at("size")
    yield Mistake("at the load", always(s.at("mismatch")))
    yield Mistake("ratio shrunk", always(s.at("mismatch") * s.part))
    yield Mistake("size of reflection", always(size))
    yield Mistake("numerator", always(1 + size))
    yield Mistake("left side", lambda eye: 1 / ratio(eye.size(size)))
    yield Mistake("", lambda eye: ratio(eye.size(size)) ** 2)


def _share(s: LossyStudent) -> Iterator[Mistake]:
    load, at_input = abs(s.at("place")), s.at("size")
    right = s.right("share", Eye())
    yield Mistake("as if matched", always(100 * s.part))
    yield Mistake("mismatch alone", always(100 * (1 - load**2)))
    yield Mistake("not divided", always(100 * s.part * (1 - load**2)))
    yield Mistake("multiplied", always(100 * s.part * (1 - load**2) * (1 - at_input**2)))
    yield Mistake("what is lost", always(100 - right))
    yield Mistake("part of one", always(right / 100))
    yield Mistake("", always(right**2 / 100))


def _total(s: LossyStudent) -> Iterator[Mistake]:
    right = s.right("total", Eye())
    yield Mistake("twenty times", always(2 * right))
    yield Mistake("sign", always(-right))
    yield Mistake("of what is lost", always(decibels(100 - s.at("share"))))
    yield Mistake("", always(3 * right))


def _extra(s: LossyStudent) -> Iterator[Mistake]:
    total, load = s.at("total"), abs(s.at("place"))
    yield Mistake("nothing taken off", always(total))
    yield Mistake("added", always(total + s.loss))
    yield Mistake("turned round at the load", always(decibels(100 * (1 - load**2))))
    yield Mistake("negative", always(s.loss - total))
    yield Mistake("", always(3 * total))
