"""How a course writes: its symbols, units and decimals. One setting, used by every text, entry and drawing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np


@dataclass(frozen=True)
class Notation:
    """A course's habits of writing.

    distance, stub_length : symbols.  admittance : how admittance is shown on the chart.  imaginary : "j" or "i".
    angle : unit of angles.  length : unit in which lines are measured.  decimals : digits shown after the point."""

    distance: str = "d"
    stub_length: str = "l"
    admittance: Literal["half turn", "overlay"] = "half turn"
    imaginary: Literal["j", "i"] = "j"
    angle: Literal["degrees", "radians"] = "degrees"
    length: Literal["wavelengths", "degrees"] = "wavelengths"
    decimals: int = 3

    def number(self, value: float, decimals: int | None = None) -> str:
        """A real number; a true minus sign, no minus zero, ∞ in words of its sign."""
        if np.isinf(value):
            return "∞" if value > 0 else "−∞"
        digits = self.decimals if decimals is None else decimals
        text = f"{value:.{digits}f}"
        return text.lstrip("-") if float(text) == 0 else text.replace("-", "−")

    def rectangular(self, value: complex, decimals: int | None = None) -> str:
        """A complex number in rectangular form, `0.500 − j1.000`."""
        if np.isinf(value):
            return "∞"
        real, imaginary = self.number(value.real, decimals), self.number(abs(value.imag), decimals)
        sign = "−" if value.imag < 0 and float(imaginary) else "+"
        return f"{real} {sign} {self.imaginary}{imaginary}"

    def ohms(self, value: complex) -> str:
        """An impedance in ohms, written as short as it can be: `25 − j50 Ω`."""
        if np.isinf(value):
            return "an open circuit"
        if complex(value).imag == 0:
            return f"{value.real:g} Ω"
        sign = "−" if value.imag < 0 else "+"
        return f"{value.real:g} {sign} {self.imaginary}{abs(value.imag):g} Ω"

    def wavelengths(self, value: float) -> str:
        """A length of line with its unit, in the unit the course uses; never coarser than it is marked."""
        decimals = max(self.decimals, 3)
        if self.length == "degrees":
            return f"{self.number(360 * value, decimals - 2)}°"
        return f"{self.number(value, decimals)} λ"

    def angle_of(self, value: float) -> str:
        """An angle given in radians, with its unit."""
        if self.angle == "degrees":
            return f"{self.number(np.degrees(value), 1)}°"
        return f"{self.number(value)} rad"

    def polar(self, value: complex) -> str:
        """A complex number as size and angle, `0.620 ∠ −82.9°`."""
        return f"{self.number(abs(value))} ∠ {self.angle_of(float(np.angle(value)))}"


STANDARD = Notation()
