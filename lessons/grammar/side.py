"""Shunt or series: which grid is read, which unit circle leads to the match, and the words for it all.

What a branch across the line does to admittance, a branch in the line does to impedance; one derivation serves both.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.chart import UNIT_CONDUCTANCE_CIRCLE, UNIT_RESISTANCE_CIRCLE, Circle
from core.line import admittance_from_reflection, impedance_from_reflection
from lessons.grammar.strokes import Reading


@dataclass(frozen=True)
class Side:
    """Where an element stands to the line, and what follows for the chart.

    immittance : what adds up there, and the grid that is read.  part : its imaginary part, which a stub can cancel.
    where : "a stub ... the line".  at_short, at_open : the value at a short and at an open end, in writing."""

    placement: str
    where: str
    immittance: Reading
    symbol: str
    real: str
    real_symbol: str
    part: str
    part_symbol: str
    at_short: str
    at_open: str
    unit_circle: Circle

    def value_at(self, reflection: complex) -> complex:
        """The normalised immittance at a reflection on the line."""
        read = admittance_from_reflection if self.immittance == "admittance" else impedance_from_reflection
        return complex(read(reflection))

    def reflection_at(self, value: complex) -> complex:
        """The reflection on the line of a normalised immittance; also of the impossible ones a slip can give."""
        return -reflection_of(value) if self.immittance == "admittance" else reflection_of(value)

    def scaled(self, part: float, line: float, own: float) -> float:
        """A normalised imaginary part on the line's chart, on the chart of a line of `own` ohms."""
        return part * own / line if self.immittance == "admittance" else part * line / own


def reflection_of(normalised: complex) -> complex:
    """Where a normalised value stands; also for the impossible ones (negative r) that a slip can give."""
    if np.isinf(normalised):
        return 1 + 0j
    return (normalised - 1) / (normalised + 1) if normalised != -1 else complex(np.inf)


SHUNT = Side(
    placement="shunt",
    where="across",
    immittance="admittance",
    symbol="y",
    real="conductance",
    real_symbol="g",
    part="susceptance",
    part_symbol="b",
    at_short="∞",
    at_open="0",
    unit_circle=UNIT_CONDUCTANCE_CIRCLE,
)
SERIES = Side(
    placement="series",
    where="in",
    immittance="impedance",
    symbol="z",
    real="resistance",
    real_symbol="r",
    part="reactance",
    part_symbol="x",
    at_short="0",
    at_open="∞",
    unit_circle=UNIT_RESISTANCE_CIRCLE,
)
