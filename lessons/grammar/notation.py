"""How a course writes: its symbols, units and decimals. One setting, used by every text, entry and drawing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

MOST_MORE = 3  # decimals with which readings may be shown beyond the usual


@dataclass(frozen=True)
class Symbol:
    """A quantity that a course may call as it likes. key : its usual symbol, and its name in links and texts.

    label : what a form says that it is the symbol for."""

    key: str
    label: str


@dataclass(frozen=True)
class Notation:
    """A course's habits of writing.

    symbols : what the course writes for a symbol, where it is not the usual one.  admittance : how admittance is shown
    on the chart.  imaginary : "j" or "i".  angle : unit of angles.  length : unit in which lines are measured.
    decimals : digits shown after the point."""

    symbols: Mapping[str, str] = field(default_factory=dict, hash=False)
    admittance: Literal["half turn", "overlay"] = "half turn"
    imaginary: Literal["j", "i"] = "j"
    angle: Literal["degrees", "radians"] = "degrees"
    length: Literal["wavelengths", "degrees"] = "wavelengths"
    decimals: int = 3

    def symbol(self, key: str) -> str:
        """What this course writes for a symbol."""
        return self.symbols.get(key, key)

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

    def wavelengths(self, value: float, more: int = 0) -> str:
        """A length of line with its unit, in the unit the course uses; never coarser than it is marked.

        more : decimals beyond the usual."""
        decimals = max(self.decimals, 3) + more
        if self.length == "degrees":
            return f"{self.number(360 * value, decimals - 2)}°"
        return f"{self.number(value, decimals)} λ"

    def adding_up(self, start: float, ends: Sequence[float]) -> tuple[str, ...]:
        """Readings of the scale at the start of walks and at their ends, in wavelengths: with as many decimals as make
        each difference of what is shown the length that is shown."""
        enough = (more for more in range(MOST_MORE) if all(self._adds_up(start, end, more) for end in ends))
        more = next(enough, MOST_MORE)
        return tuple(self.wavelengths(one, more) for one in (start, *ends))

    def _adds_up(self, start: float, end: float, more: int) -> bool:
        """Whether two readings with `more` decimals differ by what rounds to the length shown, and is not halfway."""
        first, last = (_digits(self.wavelengths(one, more)) for one in (start, end))
        half_wave, length = (
            _digits(self.wavelengths(0.5, more)),
            _digits(self.wavelengths((end - start) % 0.5)),
        )
        off = (last - first - length * 10**more) % half_wave
        return 2 * min(off, half_wave - off) < 10**more

    @property
    def half_wave(self) -> str:
        """Half a wavelength, where a scale begins anew: as the scale writes it."""
        return "180°" if self.length == "degrees" else "0.5"

    @property
    def length_unit(self) -> str:
        """The unit in which lines are measured, as it stands behind a number."""
        return "°" if self.length == "degrees" else "λ"

    def angle_of(self, value: float) -> str:
        """An angle given in radians, with its unit."""
        if self.angle == "degrees":
            return f"{self.number(np.degrees(value), 1)}°"
        return f"{self.number(value)} rad"

    def polar(self, value: complex) -> str:
        """A complex number as size and angle, `0.620 ∠ −82.9°`."""
        return f"{self.number(abs(value))} ∠ {self.angle_of(float(np.angle(value)))}"


def _digits(number: str) -> int:
    """A number as it is shown, in units of its last digit."""
    return int("".join(sign for sign in number if sign.isdigit()))


STANDARD = Notation()
