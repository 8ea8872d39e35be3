"""One-port measurements from a file in the open Touchstone format, versions 1.1 and 2.0.

A small strict reader: it takes what the standard allows for one port and nothing else, and says in which line
it found what. Source of the rules: Touchstone File Format Specification, Rev. 1.1 (2002) and Version 2.0
(2009), IBIS Open Forum (from memory). Between the samples the reflection is taken on a straight line in its
plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, plain, store
from core.checks import ROUNDED, Array, finite_reflection, real_impedance
from core.errors import NotATouchstoneFile, OutOfRange
from core.line import impedance_from_reflection
from core.ranges import one_number, real_in_range
from core.readable import Readable, Rows, amount, shown
from core.sampled_load import SampledLoad
from core.touchstone_grammar import parse

LARGEST = 1.01
"""Reflection up to which a value above 1 is taken for an error of measurement (common practice, no source)."""


@dataclass(frozen=True)
class OnePort(Readable):
    """What a one-port file says: frequency in hertz, rising, and complex reflection, both of shape (n,).

    The reflection is with respect to `reference_resistance`, in ohms. It is kept as measured, where that is a
    little above 1 too; `above_one` names those frequencies, and as a load it counts as 1 there, without
    resistance. Raises OutOfRange, NotAnImpedance, ShapesDiffer."""

    frequency: Array
    reflection: Array
    reference_resistance: float

    def __post_init__(self) -> None:
        hertz = real_in_range(self.frequency, "frequency", "in hertz", at_least=0)
        if hertz.ndim != 1 or not hertz.size or np.any(np.diff(hertz) <= 0):
            raise OutOfRange(
                "The frequencies must rise from one to the next, and be one at least.", value=hertz
            )
        back = finite_reflection(self.reflection)
        if back.shape != hertz.shape or np.any(np.isnan(back)):
            raise OutOfRange(
                "A one-port has one reflection at each of its frequencies.", value=self.reflection
            )
        resistance = one_number(real_impedance(self.reference_resistance), "reference resistance", "in ohms")
        store(self, frequency=hertz, reflection=back, reference_resistance=resistance)

    @property
    def above_one(self) -> Array:
        """Frequencies in hertz at which more than all power seems to return: errors of the measurement."""
        return self.frequency[np.abs(self.reflection) > 1 + ROUNDED]

    @property
    def impedance(self) -> Complex:
        """Complex ohms at each frequency, resistance >= 0; inf where the port is an open circuit."""
        return impedance_from_reflection(_passive(self.reflection), self.reference_resistance)

    def reflection_at(self, frequency: ArrayLike) -> Complex:
        """Reflection at frequencies in hertz, any shape, between the first and the last of the file.

        Real and imaginary part are interpolated linearly, so that what is measured as passive stays passive.
        Raises OutOfRange outside the file's range."""
        first, last = self.frequency[0], self.frequency[-1]
        wanted = real_in_range(frequency, "frequency", "hertz, within the file", at_least=first, up_to=last)
        real, imaginary = (
            np.interp(wanted, self.frequency, p) for p in (self.reflection.real, self.reflection.imag)
        )
        return plain(real + 1j * imaginary)

    def impedance_at(self, frequency: ArrayLike) -> Complex:
        """Complex ohms at frequencies in hertz; the impedance of `reflection_at`.  Raises OutOfRange."""
        return impedance_from_reflection(_passive(self.reflection_at(frequency)), self.reference_resistance)

    def as_load(self, design_frequency: float) -> SampledLoad:
        """The measurement as a load over frequency, relative to a design frequency in hertz.

        Raises OutOfRange."""
        design = one_number(design_frequency, "design frequency", "in hertz", above=0)
        return SampledLoad(self.frequency / design, self.impedance, self.reference_resistance)

    def _rows(self) -> Rows:
        ends = f"{amount(self.frequency[0])} to {amount(self.frequency[-1], 'Hz')}"
        reference = amount(self.reference_resistance, "ohm")
        rows = [("samples", str(self.frequency.size)), ("range", ends), ("reference", reference)]
        return [*rows, ("counted as 1 where above", _named(self.above_one))] if self.above_one.size else rows


def _passive(reflection: ArrayLike) -> Array:
    """The reflection, drawn straight in to the rim where it is measured outside."""
    given = np.asarray(reflection)
    return given / np.maximum(np.abs(given), 1.0)


def _named(frequencies: Array) -> str:
    """The first few frequencies, and how many more."""
    few = ", ".join(f"{hertz:.9g}" for hertz in frequencies[:5])
    return f"{few}{f' and {frequencies.size - 5} more' if frequencies.size > 5 else ''} Hz"


def parse_touchstone(text: str, largest_reflection: float = LARGEST) -> OnePort:
    """The measurement in the text of a one-port file.

    text : S, Z or Y parameters as MA, DB or RI, hertz to gigahertz, comments; in version 2.0 the keywords
    that apply to one port. In version 1.1 Z and Y are relative to the reference resistance, in 2.0 in ohms
    and siemens.  largest_reflection : measured magnitudes up to this one, 1.01 by default, are kept, and named
    by `OnePort.above_one` where they are above 1; any larger one is refused.
    Raises OutOfRange; NotATouchstoneFile: its message and `.line` name the line, its `.value` is the line's
    text. Source: the format's specification, as named at the top of the module.

    >>> whip = parse_touchstone("! a whip over a float\\n# MHz S RI R 50\\n433 0.5 -0.5\\n435 0 -0.25")
    >>> whip
    OnePort(samples: 2; range: 4.33e+08 to 4.35e+08 Hz; reference: 50 ohm)
    >>> whip.reflection_at(434e6)
    (0.25-0.375j)
    """
    limit = one_number(largest_reflection, "largest reflection", "such as 1.01", at_least=1)
    if not isinstance(text, str):
        raise NotATouchstoneFile(f"this is no text: {shown(text)}.", line=1, value=text)
    return OnePort(*parse(text, limit))


def read_touchstone(path: str | Path, largest_reflection: float = LARGEST) -> OnePort:
    """The measurement in a one-port file.

    path : of the text file.  largest_reflection : as for `parse_touchstone`.
    Raises OSError where it cannot be read; OutOfRange, NotATouchstoneFile.  Source: as `parse_touchstone`."""
    text = Path(path).read_bytes().decode("utf-8-sig", errors="replace")
    return parse_touchstone(text, largest_reflection)
