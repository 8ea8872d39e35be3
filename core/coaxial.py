"""A coaxial line from its dimensions: skin effect in its conductors, loss in what is between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array, Real, broadcast, plain, store
from core.board import SPEED_OF_LIGHT
from core.errors import OutOfRange
from core.microstrip import FREE_SPACE_IMPEDANCE
from core.ranges import one_number, real_in_range
from core.readable import Rows, amount
from core.real_line import LineModel, any_frequency, constants_of

COPPER = 5.8e7
"""Siemens per metre; common practice: what most texts use for annealed copper (the standard of 1913)."""

PERMEABILITY = FREE_SPACE_IMPEDANCE / SPEED_OF_LIGHT
PERMITTIVITY = 1 / (FREE_SPACE_IMPEDANCE * SPEED_OF_LIGHT)
MILLIMETRES = "in millimetres"
THINNEST_SKIN = 4.0
"""Skin depths that the inner conductor's radius must have for its resistance to be that of its skin."""


def skin_depth_m(frequency: ArrayLike, conductivity: ArrayLike = COPPER) -> Real:
    """Depth in metres at which the current in a conductor has fallen to 1/e: sqrt(1 / (pi f mu sigma)).

    frequency : hertz > 0.  conductivity : siemens per metre > 0, of a metal that is not magnetic.  They broadcast.
    Raises OutOfRange.  Source: Pozar, 4th ed., eq. 1.60 (from memory).

    >>> round(1e6 * skin_depth_m(10e9, 5.813e7), 2)
    0.66
    """
    hertz, metal = broadcast(any_frequency(frequency), any_conductivity(conductivity))
    return plain(1 / np.sqrt(np.pi * hertz * PERMEABILITY * metal))


def surface_resistance(frequency: ArrayLike, conductivity: ArrayLike = COPPER) -> Real:
    """Resistance in ohms of a square of a conductor's surface: sqrt(pi f mu / sigma).

    Arguments and errors as `skin_depth_m`.  Source: Pozar, 4th ed., eq. 1.125 (from memory).

    >>> round(surface_resistance(10e9, 5.813e7), 3)
    0.026
    """
    return plain(1 / (np.asarray(skin_depth_m(frequency, conductivity)) * any_conductivity(conductivity)))


def any_conductivity(conductivity: ArrayLike) -> Array:
    """A conductivity in siemens per metre as a float array, of a size that a conductor has.  Raises OutOfRange."""
    return real_in_range(
        conductivity, "conductivity", "in siemens per metre, such as 5.8e7", at_least=1e-6, up_to=1e12
    )


class PerMetre(NamedTuple):
    """What a metre of line has: ohms, henries, siemens, farads."""

    resistance: Any
    inductance: Any
    conductance: Any
    capacitance: Any


@dataclass(frozen=True)
class CoaxialLine(LineModel):
    """A round conductor within a round conductor.

    inner_diameter_mm, outer_diameter_mm : of the inner conductor, and of the inside of the outer one.
    relative_permittivity, loss_tangent : of what is between them.  conductivity : siemens per metre, of both.
    All are single numbers.  Raises OutOfRange.  Holds from where the inner radius has four skin depths (common
    practice, no source) up to where the next mode can travel, about c / (pi (a + b) sqrt(permittivity)).
    Source: Pozar, 4th ed., table 2.1 and eq. 3.156 (from memory); the conductors by the first three terms of their
    Bessel functions' series for a thin skin, within 0.3 % of them from four skin depths.

    >>> line = CoaxialLine(6, 12)
    >>> [f"{value:.3g}" for value in line.per_metre(1e6)]
    ['0.0209', '1.42e-07', '0', '8.03e-11']
    """

    inner_diameter_mm: float
    outer_diameter_mm: float
    relative_permittivity: float = 1.0
    loss_tangent: float = 0.0
    conductivity: float = COPPER

    def __post_init__(self) -> None:
        inner = one_number(self.inner_diameter_mm, "inner diameter", MILLIMETRES, at_least=1e-6, up_to=1e6)
        outer = one_number(self.outer_diameter_mm, "outer diameter", MILLIMETRES, at_least=1e-6, up_to=1e6)
        if not outer > inner:
            raise OutOfRange("The outer conductor must be wider than the inner one.", value=outer)
        permittivity = one_number(
            self.relative_permittivity, "relative permittivity", "such as 2.25", at_least=1, up_to=1e4
        )
        tangent = one_number(self.loss_tangent, "loss tangent", "such as 0.0004", at_least=0, up_to=1)
        metal = one_number(any_conductivity(self.conductivity), "conductivity", "in siemens per metre")
        store(self, inner_diameter_mm=inner, outer_diameter_mm=outer, relative_permittivity=permittivity)
        store(self, loss_tangent=tangent, conductivity=metal)

    @property
    def frequency_range(self) -> tuple[float, float]:
        inner, outer = self._radii_m()
        thin = THINNEST_SKIN * float(skin_depth_m(1.0, self.conductivity)) / inner
        around = np.pi * (inner + outer) * np.sqrt(self.relative_permittivity)
        return float(thin**2), float(SPEED_OF_LIGHT / around)

    def per_metre(self, frequency: ArrayLike) -> PerMetre:
        """Resistance, inductance, conductance and capacitance of a metre at frequencies in hertz, any shape.

        The inductance is that of the space between the conductors and of the skins.  Raises OutOfRange."""
        return self._per_metre(self._within(frequency))

    def _per_metre(self, hertz: Array) -> PerMetre:
        inner, outer = self._radii_m()
        apart, speed = np.log(outer / inner), 2 * np.pi * hertz
        skins = _conductor(hertz, self.conductivity, inner, 1) + _conductor(
            hertz, self.conductivity, outer, -1
        )
        capacitance = 2 * np.pi * PERMITTIVITY * self.relative_permittivity / apart
        return PerMetre(
            plain(skins.real),
            plain(PERMEABILITY / (2 * np.pi) * apart + skins.imag / speed),
            plain(speed * capacitance * self.loss_tangent),
            plain(capacitance),
        )

    def _constants(self, frequency: Array) -> tuple[Array, Array]:
        resistance, inductance, conductance, capacitance = map(np.asarray, self._per_metre(frequency))
        speed = 2j * np.pi * frequency
        return constants_of(resistance + speed * inductance, conductance + speed * capacitance)

    def _radii_m(self) -> tuple[float, float]:
        return self.inner_diameter_mm / 2e3, self.outer_diameter_mm / 2e3

    def _rows(self) -> Rows:
        sizes = (
            ("inner", amount(self.inner_diameter_mm, "mm")),
            ("outer", amount(self.outer_diameter_mm, "mm")),
        )
        between = ("relative permittivity", amount(self.relative_permittivity))
        return [*sizes, between, ("loss tangent", amount(self.loss_tangent))]


def _conductor(frequency: Array, conductivity: float, radius: float, bend: int) -> Array:
    """Ohms of a metre of a round conductor, with the current on its outside (1) or on the inside of a tube (-1)."""
    wave = (1 + 1j) / np.asarray(skin_depth_m(frequency, conductivity))
    turned = 1 / (wave * radius)
    return np.asarray(
        wave / (2 * np.pi * radius * conductivity) * (1 + bend * turned / 2 + 3 / 8 * turned**2)
    )
