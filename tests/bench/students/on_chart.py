"""What students of every lesson on the chart do alike: onto the chart, its circle, and at the end the millimetres.

Everything is worked out here from the definitions (see `arithmetic`), for whoever wants to know whether the lesson's
own predictions are those of its students.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import inf
from typing import Any, ClassVar

from tests.bench.students import people
from tests.bench.students.arithmetic import ratio, reflection
from tests.bench.students.people import Eye, Metric

EXACT = Eye()
LIGHT = 299_792_458e3  # millimetres a second, by definition
METRICS = {"normalise": people.SUM, "place": people.REFLECTION, "mismatch": people.RATIO}


@dataclass(kw_only=True)
class ChartStudent:
    """One student with a problem. own : what was written so far, by field.

    sides : the solutions to choose from.  drawn : fields whose mistakes are carried along by who draws.
    draws : works from what was drawn: the point placed, the circle opened."""

    sides: ClassVar[tuple[str, str]]
    drawn: ClassVar[tuple[str, ...]]
    load: complex
    line: float
    frequency: float | None
    velocity: float
    overlay: bool
    draws: bool = False
    own: dict[str, Any] = field(default_factory=dict)

    @property
    def fields(self) -> list[str]:
        """Every field of the problem in order."""
        raise NotImplementedError

    @property
    def metrics(self) -> dict[str, Metric]:
        """How the values of the lesson's own fields are compared, by quantity."""
        raise NotImplementedError

    def metric(self, key: str) -> Metric:
        """How the field's values are compared."""
        if key.startswith("millimetres"):
            return people.millimetres(self.wavelength)
        return (METRICS | self.metrics).get(key.split(".")[0], people.CHOICE)

    def at(self, key: str) -> Any:
        """What was written, or would be without an error."""
        return self.own[key] if key in self.own else self.right(key, EXACT)

    def right(self, key: str, eye: Eye) -> Any:
        """What a student without a mistake writes, from the values before."""
        quantity, _, side = key.partition(".")
        if quantity in ("choose", "millimetres"):
            return getattr(self, f"_{quantity}")(side)
        return getattr(self, f"_{quantity}")(eye, side) if side else getattr(self, f"_{quantity}")(eye)

    def _normalise(self, eye: Eye) -> complex:
        return self.load / self.line

    def _place(self, eye: Eye) -> complex:
        return eye.point(reflection(self.at("normalise")))

    def _mismatch(self, eye: Eye) -> float:
        return ratio(eye.size(abs(self.at("place"))))

    @property
    def wavelength(self) -> float:
        """On the line, in millimetres."""
        return LIGHT * self.velocity / self.frequency if self.frequency else inf

    def drawing(self, key: str, value: Any) -> Any:
        """The finished drawing that answers a field: a reflection on the line, a radius, wavelengths walked, the name
        of a point; None where nothing is drawn."""
        if key == "place":
            return value
        return (value - 1) / (value + 1) if key == "mismatch" else None
