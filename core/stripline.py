"""Stripline: a thin strip midway between two ground planes, in one dielectric.

"exact" : by conformal mapping, with complete elliptic integrals, exact for a strip without thickness; S. B.
Cohn, 1954, in any text (from memory).
"textbook" : D. M. Pozar, 4th ed., eq. 3.179 and 3.180 (from memory), within 1 % of it.
The open end: H. M. Altschuler and A. A. Oliner, 1960 (from memory), for wavelengths well above the spacing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, plain, store
from core.board import StripBoard
from core.checks import Array, choice
from core.microstrip import FREE_SPACE_IMPEDANCE
from core.ranges import one_number
from core.readable import Rows, amount

FORMULAS = ("exact", "textbook")


@dataclass(frozen=True)
class Stripline(StripBoard):
    """A board for stripline: relative permittivity, and spacing of the ground planes in millimetres.

    formulas : one of `FORMULAS`; both hold for widths of 0.01 to 20 spacings.  Raises OutOfRange,
    UnknownChoice.

    >>> board = Stripline(2.2, 3.2)
    >>> round(board.width_mm(50), 2)
    2.65
    """

    relative_permittivity: float
    spacing_mm: float
    formulas: str = "exact"

    def __post_init__(self) -> None:
        choice(self.formulas, FORMULAS, "set of formulas")
        store(
            self,
            relative_permittivity=one_number(
                self.relative_permittivity, "relative permittivity", "such as 2.2", at_least=1
            ),
        )
        store(
            self,
            spacing_mm=one_number(self.spacing_mm, "spacing of the ground planes", "in millimetres", above=0),
        )

    def widths_mm(self) -> tuple[float, float]:
        return 0.01 * self.spacing_mm, 20.0 * self.spacing_mm

    def impedance(self, width_mm: ArrayLike) -> Real:
        ratio = self._checked_width(width_mm) / self.spacing_mm
        root = np.sqrt(self.relative_permittivity)
        if self.formulas == "textbook":
            effective = ratio - np.where(ratio < 0.35, 0.35 - ratio, 0.0) ** 2
            return plain(30 * np.pi / root / (effective + 0.441))
        half_turn = np.pi * ratio / 2
        means = _mean_with_one(1 / np.cosh(half_turn)), _mean_with_one(np.tanh(half_turn))
        return plain(FREE_SPACE_IMPEDANCE / 4 / root * means[0] / means[1])

    def effective_permittivity(self, width_mm: ArrayLike) -> Real:
        return plain(np.full(np.shape(self._checked_width(width_mm)), float(self.relative_permittivity)))

    def width_mm(self, impedance: ArrayLike) -> Real:
        """Width in millimetres of the strip with this impedance: exact, or by the textbook's closed form.

        Raises NotAnImpedance, OutOfRange."""
        if self.formulas == "exact":
            return super().width_mm(impedance)
        product = self._possible(impedance) * np.sqrt(self.relative_permittivity)
        wide = 30 * np.pi / product - 0.441
        ratio = np.where(product <= 120, wide, 0.85 - np.sqrt(np.maximum(0.6 - wide, 0.0)))
        return plain(np.clip(ratio * self.spacing_mm, *self.widths_mm()))

    def open_end_mm(self, impedance: ArrayLike) -> Real:
        width = np.asarray(self.width_mm(impedance))
        fringe = self.spacing_mm * np.log(2) / np.pi
        return plain(fringe * (fringe + 2 * width) / (4 * fringe + 2 * width))

    def _rows(self) -> Rows:
        spacing = ("spacing", amount(self.spacing_mm, "mm"))
        return [
            ("relative permittivity", amount(self.relative_permittivity)),
            spacing,
            ("formulas", self.formulas),
        ]


def _mean_with_one(value: Array) -> Array:
    """Arithmetic-geometric mean with 1: the complete elliptic integral of modulus k is pi / 2 over that of
    k'."""
    arithmetic, geometric = np.ones_like(value), np.asarray(value, dtype=float)
    for _ in range(12):  # doubles the digits each time
        arithmetic, geometric = (arithmetic + geometric) / 2, np.sqrt(arithmetic * geometric)
    return arithmetic
