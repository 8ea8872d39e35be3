"""Published matches with a single stub: what the solver, the lessons and the lecture are held against.

All from memory, with book, edition and number beside each. The books read most of them off a chart: they are compared
to one unit of the last printed digit, which is a thousandth of a wavelength.
"""

from typing import NamedTuple

import pytest

LAST_DIGIT = 0.001


class Printed(NamedTuple):
    """A worked example as printed. near, far : distance and stub length, in wavelengths."""

    source: str
    load: complex
    line: float
    placement: str
    end: str
    near: tuple[float, float]
    far: tuple[float, float]

    @property
    def distances(self) -> tuple[float, float]:
        """Near and far."""
        return self.near[0], self.far[0]

    @property
    def lengths(self) -> tuple[float, float]:
        """Of the stub, near and far."""
        return self.near[1], self.far[1]


PRINTED = (
    Printed("Pozar, Microwave Engineering, 4th ed., example 5.2 (from memory)",
            60 - 80j, 50, "shunt", "short", (0.110, 0.095), (0.260, 0.405)),
    Printed("Pozar, Microwave Engineering, 2nd and 3rd ed., example 5.2 (from memory)",
            15 + 10j, 50, "shunt", "open", (0.044, 0.147), (0.387, 0.353)),
    Printed("Ulaby, Fundamentals of Applied Electromagnetics, single stub, number by edition (from memory)",
            25 - 50j, 50, "shunt", "short", (0.063, 0.090), (0.207, 0.410)),
    Printed("Pozar, Microwave Engineering, 4th ed., example 5.3 (from memory)",
            100 + 80j, 50, "series", "open", (0.120, 0.397), (0.463, 0.103)),
)  # fmt: skip

every_printed = pytest.mark.parametrize("example", PRINTED, ids=lambda one: one.source)


def printed(placement: str) -> pytest.MarkDecorator:
    """A test for every example of a placement."""
    found = [one for one in PRINTED if one.placement == placement]
    return pytest.mark.parametrize("example", found, ids=lambda one: one.source)
