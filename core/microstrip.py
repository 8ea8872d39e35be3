"""Microstrip: a strip on a dielectric over a ground plane. Impedance, permittivity and width in closed forms.

Two sets of published formulas, both quasi-static: good while the board is thin against the wave.

"hammerstad-jensen" : E. Hammerstad and O. Jensen, Accurate models for microstrip computer-aided design, IEEE
    MTT-S, 1980 (from memory): permittivity within 0.2 %, impedance on air within 0.03 %, for widths of 0.01
    to 100 heights and relative permittivity 1 to 128, with their correction for a thick strip. The open end:
    M. Kirschning, R. Jansen and N. Koster, Electronics Letters 17, 1981 (from memory), within 0.2 % of their
    simulations. "textbook" : the simpler set of most courses, D. M. Pozar, 4th ed., eq. 3.195 to 3.197 (from
    memory), within 1 to 2 % for widths of 0.05 to 20 heights and relative permittivity up to 16; no
    thickness. The open end: E. Hammerstad and F. Bekkadal, 1975 (from memory), within 5 to 10 %.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, plain, store
from core.board import StripBoard
from core.checks import Array, choice
from core.errors import OutOfRange
from core.ranges import one_number
from core.readable import Rows, amount

FORMULAS = ("hammerstad-jensen", "textbook")
FREE_SPACE_IMPEDANCE = 376.730313668
"""Ohms; Pozar and others write 120 pi for it."""


@dataclass(frozen=True)
class Microstrip(StripBoard):
    """A board for microstrip: relative permittivity, height of the dielectric and thickness of the copper.

    height_mm, thickness_mm : millimetres; 0 thickness is the usual idealisation.  formulas : one of
    `FORMULAS`. Raises OutOfRange, UnknownChoice.

    >>> board = Microstrip(4.4, 1.6)
    >>> round(board.width_mm(50), 2), round(board.effective_permittivity(3.06), 2)
    (3.06, 3.33)
    """

    relative_permittivity: float
    height_mm: float
    thickness_mm: float = 0.0
    formulas: str = "hammerstad-jensen"

    def __post_init__(self) -> None:
        choice(self.formulas, FORMULAS, "set of formulas")
        most = 128 if self.formulas == "hammerstad-jensen" else 16
        store(
            self,
            relative_permittivity=one_number(
                self.relative_permittivity, "relative permittivity", "such as 4.4", at_least=1, up_to=most
            ),
        )
        store(self, height_mm=one_number(self.height_mm, "height", "in millimetres", above=0))
        store(self, thickness_mm=one_number(self.thickness_mm, "thickness", "in millimetres", at_least=0))
        if self.thickness_mm and self.formulas == "textbook":
            raise OutOfRange(
                "The textbook formulas are for a strip without thickness.", value=self.thickness_mm
            )

    def widths_mm(self) -> tuple[float, float]:
        narrowest, widest = (0.01, 100) if self.formulas == "hammerstad-jensen" else (0.05, 20)
        return narrowest * self.height_mm, widest * self.height_mm

    def impedance(self, width_mm: ArrayLike) -> Real:
        ratio = self._checked_width(width_mm) / self.height_mm
        if self.formulas == "textbook":
            return plain(
                _textbook_impedance(ratio, _textbook_permittivity(ratio, self.relative_permittivity))
            )
        _, wider = self._widened(ratio)
        return plain(air_impedance(wider) / np.sqrt(_permittivity(wider, self.relative_permittivity)))

    def effective_permittivity(self, width_mm: ArrayLike) -> Real:
        ratio = self._checked_width(width_mm) / self.height_mm
        if self.formulas == "textbook":
            return plain(_textbook_permittivity(ratio, self.relative_permittivity))
        on_air, wider = self._widened(ratio)
        change = (air_impedance(on_air) / air_impedance(wider)) ** 2
        return plain(_permittivity(wider, self.relative_permittivity) * change)

    def width_mm(self, impedance: ArrayLike) -> Real:
        """Width in millimetres of the strip with this impedance.

        The accurate formulas are turned round exactly; the textbook has a closed form of its own, which
        agrees with its impedance within 1 %.  Raises NotAnImpedance, OutOfRange."""
        if self.formulas == "textbook":
            ratio = _textbook_width(self._possible(impedance), self.relative_permittivity)
            return plain(np.clip(ratio * self.height_mm, *self.widths_mm()))
        return super().width_mm(impedance)

    def open_end_mm(self, impedance: ArrayLike) -> Real:
        width = self.width_mm(impedance)
        ratio, effective = width / self.height_mm, np.asarray(self.effective_permittivity(width))
        if self.formulas == "textbook":
            return plain(self.height_mm * open_end_over_height(ratio, effective))
        return plain(self.height_mm * _open_end(ratio, effective, self.relative_permittivity))

    def _widened(self, ratio: Array) -> tuple[Array, Array]:
        """Width over height as a strip of this thickness acts: on air, and on the dielectric."""
        thick = self.thickness_mm / self.height_mm
        if thick == 0:
            return ratio, ratio
        flare = np.tanh(np.sqrt(6.517 * ratio)) ** 2
        more = thick / np.pi * np.log(1 + 4 * np.e * flare / thick)
        less = 0.5 * (1 + 1 / np.cosh(np.sqrt(self.relative_permittivity - 1))) * more
        return ratio + more, ratio + less

    def _rows(self) -> Rows:
        sizes = ("height", amount(self.height_mm, "mm")), ("thickness", amount(self.thickness_mm, "mm"))
        return [
            ("relative permittivity", amount(self.relative_permittivity)),
            *sizes,
            ("formulas", self.formulas),
        ]


def air_impedance(ratio: Array) -> Array:
    """Ohms of the strip without dielectric."""
    fringe = 6 + (2 * np.pi - 6) * np.exp(-((30.666 / ratio) ** 0.7528))
    return FREE_SPACE_IMPEDANCE / (2 * np.pi) * np.log(fringe / ratio + np.sqrt(1 + (2 / ratio) ** 2))


def _permittivity(ratio: Array, permittivity: float) -> Array:
    fourth = ratio**4
    shape = (
        1
        + np.log((fourth + (ratio / 52) ** 2) / (fourth + 0.432)) / 49
        + np.log(1 + (ratio / 18.1) ** 3) / 18.7
    )
    exponent = shape * 0.564 * ((permittivity - 0.9) / (permittivity + 3)) ** 0.053
    return (permittivity + 1) / 2 + (permittivity - 1) / 2 * (1 + 10 / ratio) ** -exponent


def _open_end(ratio: Array, effective: Array, permittivity: float) -> Array:
    """Length that the open end adds, over the height."""
    power, raised = ratio**0.8544, effective**0.81
    first = 0.434907 * (raised + 0.26) / (raised - 0.189) * (power + 0.236) / (power + 0.87)
    second = 1 + ratio**0.371 / (2.358 * permittivity + 1)
    third = 1 + 0.5274 * np.arctan(0.084 * ratio ** (1.9413 / second)) / effective**0.9236
    fourth = 1 + 0.0377 * np.arctan(0.067 * ratio**1.456) * (6 - 5 * np.exp(0.036 * (1 - permittivity)))
    fifth = 1 - 0.218 * np.exp(-7.5 * ratio)
    return first * third * fifth / fourth


def _textbook_permittivity(ratio: Array, permittivity: float) -> Array:
    return (permittivity + 1) / 2 + (permittivity - 1) / 2 / np.sqrt(1 + 12 / ratio)


def _textbook_impedance(ratio: Array, effective: Array) -> Array:
    narrow = 60 * np.log(8 / ratio + ratio / 4)
    wide = 120 * np.pi / (ratio + 1.393 + 0.667 * np.log(ratio + 1.444))
    return np.where(ratio <= 1, narrow, wide) / np.sqrt(effective)


def _textbook_width(impedance: Array, permittivity: float) -> Array:
    """Width over height; the narrow form where it gives less than 2."""
    above = impedance / 60 * np.sqrt((permittivity + 1) / 2)
    above += (permittivity - 1) / (permittivity + 1) * (0.23 + 0.11 / permittivity)
    narrow = 8 * np.exp(above) / (np.exp(2 * above) - 2)
    wide = 377 * np.pi / (2 * impedance * np.sqrt(permittivity))
    part = np.log(np.maximum(wide - 1, 1e-9)) + 0.39 - 0.61 / permittivity
    logs = np.log(np.maximum(2 * wide - 1, 1e-9))
    broad = 2 / np.pi * (wide - 1 - logs + (permittivity - 1) / (2 * permittivity) * part)
    return np.where((narrow > 0) & (narrow < 2), narrow, broad)


def open_end_over_height(ratio: ArrayLike, effective: ArrayLike) -> Real:
    """Length that an open end adds by the textbook's formula, over the height of the board.

    ratio : width over height.  effective : effective permittivity, above 0.258; broadcasts with the ratio.
    Source: Hammerstad and Bekkadal, 1975 (from memory), within 5 to 10 %."""
    ratio, effective = np.asarray(ratio, dtype=float), np.asarray(effective, dtype=float)
    return plain(0.412 * (effective + 0.3) * (ratio + 0.264) / ((effective - 0.258) * (ratio + 0.8)))
