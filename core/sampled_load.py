"""A load known from a table of measured impedances, and only within it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, store
from core.checks import Array, passive_impedance, real_impedance
from core.elements import State
from core.errors import NotAnImpedance, OutOfRange
from core.line import impedance_from_reflection, reflection_coefficient
from core.loads import ConstantLoad, Load
from core.ranges import real_in_range
from core.readable import Rows


@dataclass(frozen=True)
class SampledLoad(Load):
    """A table of measured impedances; outside it nothing is known.

    frequency_ratio : rising, shape (n,).  impedance : complex ohms at each, inf allowed.  reference : ohms.
    Between samples the reflection with respect to the reference is taken on a straight line, which stays
    passive where the samples are.  Raises OutOfRange, NotAnImpedance, NegativeResistance.

    >>> table = SampledLoad([0.9, 1.1], [40 - 10j, 60 + 10j])
    >>> round(table.at(1.0).real, 2), table.limits
    (50.0, (0.9, 1.1))
    """

    frequency_ratio: Any
    impedance: Any
    reference: float = 50.0

    def __post_init__(self) -> None:
        ratio = real_in_range(self.frequency_ratio, "frequency ratio", "such as 1.1", at_least=0)
        reference, impedance = real_impedance(self.reference, "reference"), passive_impedance(self.impedance)
        if reference.ndim:
            raise NotAnImpedance("The reference must be a single number of ohms.", value=self.reference)
        if ratio.ndim != 1 or ratio.size < 1 or np.any(np.diff(ratio) <= 0):
            raise OutOfRange("The table's frequencies must rise from one sample to the next.", value=ratio)
        if impedance.shape != ratio.shape:
            raise OutOfRange(
                f"The table must have one impedance for each of its {ratio.size} frequencies.",
                value=self.impedance,
            )
        store(self, frequency_ratio=ratio, impedance=impedance, reference=reference)

    @property
    def limits(self) -> tuple[float, float]:
        """First and last frequency ratio of the table."""
        ratio = np.asarray(self.frequency_ratio, dtype=float)
        return float(ratio[0]), float(ratio[-1])

    @property
    def corners(self) -> Array:
        """The samples' frequency ratios, where the interpolated curve may turn sharply."""
        return np.asarray(self.frequency_ratio, dtype=float)

    def state(self, ratio: Array) -> State:
        reflection = self._reflection_at(ratio)
        return self.reference * (1 + reflection), 1 - reflection

    def at(self, frequency_ratio: ArrayLike) -> Complex:
        """Impedance in ohms at these ratios to the design frequency, within the table, any shape.

        Raises OutOfRange."""
        return impedance_from_reflection(self._reflection_at(frequency_ratio), self.reference)

    def detuned(self, ratio: ArrayLike) -> ConstantLoad:
        return ConstantLoad(self.at(ratio))

    def _reflection_at(self, frequency_ratio: ArrayLike) -> Array:
        first, last = self.limits
        ratio = real_in_range(
            frequency_ratio, "frequency ratio", "the table has no more", at_least=first, up_to=last
        )
        sampled = self._reflection()
        real, imaginary = (np.interp(ratio, self.corners, part) for part in (sampled.real, sampled.imag))
        return real + 1j * imaginary

    def _reflection(self) -> Array:
        return np.asarray(reflection_coefficient(self.impedance, self.reference))

    def _rows(self) -> Rows:
        first, last = self.limits
        ends = f"{first:.4g} to {last:.4g} times the design frequency"
        return [("samples", str(self.corners.size)), ("range", ends)]
