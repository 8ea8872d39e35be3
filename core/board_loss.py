"""A strip on a board as it is: what copper and dielectric take, and how its permittivity rises with frequency.

Each of the two sets of formulas of `core.microstrip` has its companions here, and holds where they do.

"hammerstad-jensen" : current crowding and roughness, and the impedance over frequency: E. Hammerstad and O.
    Jensen, IEEE MTT-S, 1980; the permittivity over frequency: M. Kirschning and R. Jansen, Electronics Letters
    18, 1982, within 0.6 % for widths of 0.1 to 100 heights, relative permittivity up to 20 and heights up to 0.13
    of the wavelength in vacuum. "textbook" : D. M. Pozar, 4th ed., eq. 3.198 and 3.199; the permittivity over
    frequency: W. J. Getsinger, IEEE Trans. MTT 21, 1973, there eq. 3.200; the impedance is taken as constant. It has
    the current spread evenly over the strip's lower side, and tells half as much conductor loss again, or more.
Stripline : D. M. Pozar, 4th ed., eq. 3.181 and 3.30; nothing there changes with frequency but the loss.
All from memory. None knows what a board radiates, nor that a laminate's permittivity falls with frequency.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array, Real, plain, store
from core.board import SPEED_OF_LIGHT, StripBoard
from core.checks import of_kind, real_impedance
from core.coaxial import COPPER, any_conductivity, skin_depth_m, surface_resistance
from core.microstrip import FREE_SPACE_IMPEDANCE, Microstrip, air_impedance
from core.ranges import one_number, real_in_range
from core.readable import Rows, amount
from core.real_line import LowLossLine
from core.stripline import Stripline

THINNEST_COPPER = 2.0
"""Skin depths that a strip's thickness must have for the loss formulas; common practice, no source."""
HIGHEST_PLATE = 0.13
"""Height over the wavelength in vacuum up to which the formulas for dispersion hold."""


@dataclass(frozen=True)
class StripOnBoard(LowLossLine):
    """What `MicrostripLine` and `StriplineLine` share."""

    board: Any
    width_mm: float
    loss_tangent: float = 0.0
    conductivity: float = COPPER
    roughness_mm: float = 0.0

    def __post_init__(self) -> None:
        width = one_number(self.width_mm, "width of the strip", "in millimetres", above=0)
        self.board.impedance(width)
        tangent = one_number(self.loss_tangent, "loss tangent", "such as 0.02", at_least=0, up_to=1)
        metal = one_number(any_conductivity(self.conductivity), "conductivity", "in siemens per metre")
        rough = one_number(self.roughness_mm, "roughness", "in millimetres, rms", at_least=0, up_to=1e3)
        store(self, width_mm=width, loss_tangent=tangent, conductivity=metal, roughness_mm=rough)

    @property
    def thickness_of_strip_mm(self) -> float:
        """Thickness of the strip in millimetres; 0 where it was left out."""
        raise NotImplementedError

    def _lowest(self) -> float:
        """Hertz from which the strip is thick enough for its loss to be that of its skin."""
        thick = self.thickness_of_strip_mm / 1e3
        depth = THINNEST_COPPER * float(skin_depth_m(1.0, self.conductivity))
        return (depth / thick) ** 2 if thick else 0.0

    def _surface(self, frequency: Array) -> Array:
        """Ohms of a square of the copper, roughness included: Hammerstad's correction."""
        ratio = self.roughness_mm / 1e3 / np.asarray(skin_depth_m(frequency, self.conductivity))
        rough = 1 + 2 / np.pi * np.arctan(1.4 * ratio**2)
        return rough * np.asarray(surface_resistance(frequency, self.conductivity))

    def _rows(self) -> Rows:
        strip = ("width", amount(self.width_mm, "mm")), ("loss tangent", amount(self.loss_tangent))
        return [("impedance", amount(self.board.impedance(self.width_mm), "ohm")), *strip]


@dataclass(frozen=True, repr=False)
class MicrostripLine(StripOnBoard):
    """A strip of one width on a microstrip board, with its losses and over frequency.

    board : a `Microstrip`; its thickness makes the strip act wider, and sets the lowest frequency, where the
    copper has two skin depths. Without it there is none.  width_mm : of the strip.  loss_tangent : of the
    laminate. conductivity : siemens per metre of the copper.  roughness_mm : root mean square, of its surface.
    All are single numbers.  Raises OutOfRange.  Holds up to where the height is 0.13 of a wavelength in vacuum.
    Source: the top of the module.

    >>> line = MicrostripLine(Microstrip(9.9, 0.5, formulas="textbook"), 0.483, loss_tangent=0.001)
    >>> round(line.attenuation_db_per_m(10e9), 1)
    11.7
    """

    def __post_init__(self) -> None:
        of_kind(self.board, Microstrip, "board of a MicrostripLine", "a Microstrip")
        if self.board.formulas == "hammerstad-jensen":
            permittivity = self.board.relative_permittivity
            real_in_range(permittivity, "relative permittivity", "for loss and dispersion", up_to=20)
            least = 0.1 * self.board.height_mm
            real_in_range(self.width_mm, "width", "millimetres, for loss and dispersion", at_least=least)
        super().__post_init__()

    @property
    def thickness_of_strip_mm(self) -> float:
        return self.board.thickness_mm

    @property
    def frequency_range(self) -> tuple[float, float]:
        return self._lowest(), HIGHEST_PLATE * SPEED_OF_LIGHT / (self.board.height_mm / 1e3)

    def effective_permittivity(self, frequency: ArrayLike) -> Real:
        """Relative permittivity that a wave of this frequency meets, in hertz, any shape; rises toward the
        laminate's. Without what the copper's skin adds to the phase.  Raises OutOfRange."""
        return plain(self._permittivity(self._within(frequency)))

    def _permittivity(self, frequency: Array) -> Array:
        static, bulk = self.board.effective_permittivity(self.width_mm), self.board.relative_permittivity
        if self.board.formulas == "textbook":
            impedance = self.board.impedance(self.width_mm)
            rise = _getsinger(frequency, impedance, self.board.height_mm)
        else:
            width = self.width_mm / self.board.height_mm
            rise = _kirschning(frequency / 1e9 * self.board.height_mm, width, bulk)
        return bulk - (bulk - static) / (1 + rise)

    def _parts(self, frequency: Array) -> tuple[Array, Array, Array, Array]:
        effective, static = self._permittivity(frequency), self.board.impedance(self.width_mm)
        phase = 2 * np.pi * frequency / SPEED_OF_LIGHT * np.sqrt(effective)
        bulk = self.board.relative_permittivity
        # the part of the wave in the laminate; all of it where the laminate is no different from air
        filled = (effective - 1) / (bulk - 1) if bulk > 1 else np.ones_like(effective)
        dielectric = phase / 2 * self.loss_tangent * bulk * filled / effective
        conductor = self._surface(frequency) / (static * self.width_mm / 1e3) * self._crowding()
        return self._impedance(effective), phase, conductor, dielectric

    def _impedance(self, effective: Array) -> Array:
        static = np.asarray(self.board.impedance(self.width_mm))
        if self.board.formulas == "textbook" or self.board.relative_permittivity == 1:
            return static
        slow = self.board.effective_permittivity(self.width_mm)
        return static * np.sqrt(slow / effective) * (effective - 1) / (slow - 1)

    def _crowding(self) -> float:
        """How much less a strip loses than a sheet of its width between sheets, carrying current on both sides."""
        if self.board.formulas == "textbook":
            return 1.0
        widths = self.board._widened(np.asarray(self.width_mm / self.board.height_mm))
        on_air = sum(float(air_impedance(width)) for width in widths) / 2
        return float(np.exp(-1.2 * (on_air / FREE_SPACE_IMPEDANCE) ** 0.7))


@dataclass(frozen=True, repr=False)
class StriplineLine(StripOnBoard):
    """A strip of one width midway between two ground planes, with its losses.

    board : a `Stripline`.  width_mm, thickness_mm : of the strip; the thickness only counts for the loss, and
    sets the lowest frequency, where the copper has two skin depths.  loss_tangent : of the laminate.
    conductivity : siemens per metre of the copper.  roughness_mm : root mean square, of its surface.
    All are single numbers.  Raises OutOfRange.  Holds up to where the spacing is half a wave in the laminate.
    Source: the top of the module.

    >>> line = StriplineLine(Stripline(2.2, 3.2, "textbook"), 2.66, loss_tangent=0.001, thickness_mm=0.01)
    >>> round(line.attenuation_db_per_m(10e9), 2)
    2.41
    """

    thickness_mm: float = 0.035

    def __post_init__(self) -> None:
        of_kind(self.board, Stripline, "board of a StriplineLine", "a Stripline")
        super().__post_init__()
        most = self.board.spacing_mm / 10
        meaning = "in millimetres, a tenth of the spacing"
        store(
            self, thickness_mm=one_number(self.thickness_mm, "thickness", meaning, at_least=1e-9, up_to=most)
        )

    @property
    def thickness_of_strip_mm(self) -> float:
        return self.thickness_mm

    @property
    def frequency_range(self) -> tuple[float, float]:
        half = self.board.spacing_mm / 1e3 * 2 * np.sqrt(self.board.relative_permittivity)
        return self._lowest(), float(SPEED_OF_LIGHT / half)

    def _parts(self, frequency: Array) -> tuple[Array, Array, Array, Array]:
        root = np.sqrt(self.board.relative_permittivity)
        phase = 2 * np.pi * frequency / SPEED_OF_LIGHT * root
        conductor = self._surface(frequency) * self._loss_of_surface()
        impedance = np.asarray(self.board.impedance(self.width_mm))
        return impedance, phase, conductor, phase / 2 * self.loss_tangent

    def _loss_of_surface(self) -> float:
        """Nepers per metre for each ohm of surface: the impedance's change as the copper recedes."""
        width, spacing, thick = (x / 1e3 for x in (self.width_mm, self.board.spacing_mm, self.thickness_mm))
        impedance, permittivity = self.board.impedance(self.width_mm), self.board.relative_permittivity
        if np.sqrt(permittivity) * impedance < 120:
            inside = spacing - thick
            logs = np.log((2 * spacing - thick) / thick) * (spacing + thick) / inside / np.pi
            return 2.7e-3 * permittivity * impedance * (1 + 2 * width / inside + logs) / (30 * np.pi * inside)
        logs = np.log(4 * np.pi * width / thick) / (2 * np.pi)
        narrow = 1 + spacing / (0.5 * width + 0.7 * thick) * (0.5 + 0.414 * thick / width + logs)
        return 0.16 * narrow / (impedance * spacing)


def strip_line(board: StripBoard, impedance: float, **material: Any) -> MicrostripLine | StriplineLine:
    """The strip of this impedance on a board, as a line with losses.

    board : `Microstrip` or `Stripline`.  impedance : real ohms, a single number.  material : `loss_tangent`,
    `conductivity` and so on, as `MicrostripLine` and `StriplineLine` take them.
    Raises OutOfRange, NotAnImpedance.  Source: the width is that of the board's own formulas.

    >>> strip_line(Microstrip(4.4, 1.6, 0.035), 50, loss_tangent=0.02)
    MicrostripLine(impedance: 50 ohm; width: 3.017 mm; loss tangent: 0.02)
    """
    of_kind(board, (Microstrip, Stripline), "board", "a Microstrip or a Stripline")
    ohms = one_number(real_impedance(impedance), "impedance of the strip", "in ohms")
    kind = StriplineLine if isinstance(board, Stripline) else MicrostripLine
    return kind(board, float(board.width_mm(ohms)), **material)


def _kirschning(product: Array, width: float, permittivity: float) -> Array:
    """How far the permittivity is on its way to the laminate's; product in gigahertz times millimetres."""
    first = 0.27488 + (0.6315 + 0.525 / (1 + 0.0157 * product) ** 20) * width
    first -= 0.065683 * np.exp(-8.7513 * width)
    second = 0.33622 * (1 - np.exp(-0.03442 * permittivity))
    third = 0.0363 * np.exp(-4.6 * width) * (1 - np.exp(-((product / 38.7) ** 4.97)))
    fourth = 1 + 2.751 * (1 - np.exp(-((permittivity / 15.916) ** 8)))
    return np.asarray(first * second * ((0.1844 + third * fourth) * product) ** 1.5763)


def _getsinger(frequency: Array, impedance: float, height_mm: float) -> Array:
    turning = impedance / (8 * np.pi * height_mm / 10)  # gigahertz, with the height in centimetres
    return (0.6 + 0.009 * impedance) * (frequency / 1e9 / turning) ** 2
