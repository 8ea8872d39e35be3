"""The double-stub match solved again for lines that lose power.

With loss the first stub no longer keeps to a circle of constant conductance: both stub lengths are found
together (`core.two_lengths`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import broadcast, plain
from core.checks import Array, finite_length, passive_impedance, real_impedance
from core.double_stubs import MATCHED_ALREADY, DoubleStub, double_stub, two_ends, two_impedances
from core.elements import Section, Stub
from core.lossy import attenuations
from core.lossy_designs import ONE_SHORT, LossyDesigns
from core.network import MatchingNetwork
from core.solutions import Solutions
from core.two_lengths import HORIZON, TwoLengths

ACROSS_A_SHORT = (
    "At the first stub this load shows a short circuit, and a stub across a short changes nothing. Put a length "
    "of line before it."
)
ADD_NOTHING = "This load is matched already; the two stubs shown add nothing."
LOST = (
    "With this loss no two stubs of these kinds match the load at this spacing, not with up to "
    f"{HORIZON / 2:g} wavelengths of stub together. Try another spacing, more line before the first stub, or less "
    "loss."
)


def lossy_double_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    spacing: ArrayLike,
    attenuation: ArrayLike,
    stub_attenuation: ArrayLike | None = None,
    first_distance: ArrayLike = 0.0,
    ends: Sequence[str] = ("short", "short"),
    stub_impedances: Sequence[ArrayLike] | Array | None = None,
) -> Solutions[DoubleStub]:
    """Every double-stub match of a load with lossy lines and stubs, the one with the shortest stubs first.

    load_impedance, line_impedance, spacing, first_distance, ends, stub_impedances : as for `double_stub`; all
    but the ends broadcast.
    attenuation, stub_attenuation : nepers per wavelength >= 0, of the line between and before the stubs and
    of both stubs; the stubs' is by default the line's.
    Returns `Solutions` of `DoubleStub` networks whose elements carry the attenuation: all whose stub lengths
    are both in [0, 0.5), the smallest sum first; where there is none the shortest longer one, with a sum up
    to 4 wavelengths. For one load as many as there are, with the reason in `.reason` where they are fewer
    than two; for arrays as many as any load has and at least two, nan where a load has fewer. Verified as
    `lossy_single_stub` is.
    Raises NotAnImpedance, NegativeResistance, NotALength, OutOfRange, UnknownChoice, ShapesDiffer.
    Source: y_1 + y_stub 1 through the spacing, + y_stub 2 = 1, on lines as in Pozar, 4th ed., eq. 2.91 (from
    memory); all roots as `core.two_lengths` says.

    >>> first, second = lossy_double_stub(60 - 80j, 50, 1 / 8, attenuation=0.06, ends=("open", "open"))
    >>> [round(length, 4) for length in first.stub_lengths]
    [0.1534, 0.1993]
    """
    kinds = two_ends(ends)
    loss, stub_loss = attenuations(attenuation, stub_attenuation)
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    apart, distance = finite_length(spacing, "spacing"), finite_length(first_distance, "first distance")
    given = (load, line, apart, distance, loss, stub_loss, *two_impedances(stub_impedances, line))
    values = broadcast(*given)
    problems, shape = _StubPairs(kinds, *map(np.ravel, values)), values[0].shape
    found, long = problems.solve()
    return problems.solutions(found, shape, problems.reasons(found, long, shape), long)


@dataclass(frozen=True)
class _StubPairs(LossyDesigns[DoubleStub]):
    """Many double-stub problems, in flat arrays."""

    ends: tuple[str, str]
    load: Array
    line: Array
    spacing: Array
    distance: Array
    loss: Array
    stub_loss: Array
    first: Array
    second: Array

    def network(self, lengths: Array, which: Array | slice, shape: tuple[int, ...] = (-1,)) -> DoubleStub:
        own = (
            self.load,
            self.line,
            self.spacing,
            self.distance,
            self.loss,
            self.stub_loss,
            self.first,
            self.second,
        )
        load, line, spacing, distance, loss, stub_loss, first, second, *both = (
            plain(value.reshape(shape)) for value in (*(value[which] for value in own), *lengths)
        )
        stubs = [
            Stub(length, impedance, "shunt", end, stub_loss)
            for length, impedance, end in zip(both, (first, second), self.ends, strict=True)
        ]
        to_first, between = Section(distance, line, loss), Section(spacing, line, loss)
        return DoubleStub(load, line, (to_first, stubs[0], between, stubs[1]))

    @property
    def idle(self) -> Array:
        return self._at_first_stub()[0] == 0

    def lossless_lengths(self, which: Array) -> Array:
        return np.array([network.stub_lengths for network in self._lossless_designs(which)])

    def reasons(self, found: Array, long: Array, shape: tuple[int, ...]) -> list[tuple[str, Array]]:
        """Why there are not two solutions; without loss as the lossless designer says."""
        count = np.sum(~np.isnan(found[:, 0]), axis=0)
        shorted, none = self._at_first_stub()[0] == 0, (count == 0) & ~self.lossless
        known = [(ACROSS_A_SHORT, none & shorted), (LOST, none & ~shorted)]
        if not shape:
            nothing, one = found[0].max(axis=0) == 0, (count == 1) & ~long
            known.append((MATCHED_ALREADY, (count > 1) & nothing & ~self.lossless))
            known.append((ADD_NOTHING, one & nothing & ~self.lossless))
            known.append((ONE_SHORT, one & ~nothing & ~self.lossless))
        if np.any(self.lossless):
            which = np.flatnonzero(self.lossless) if shape else 0
            known.append((self._lossless_designs(which).reason, True))
        return known

    def _lossless_designs(self, which: Array | int) -> Solutions[DoubleStub]:
        own = (self.load, self.line, self.spacing, self.distance, self.first, self.second)
        load, line, spacing, distance, *stubs = (value[which] for value in own)
        return double_stub(load, line, spacing, distance, self.ends, stubs)

    def _at_first_stub(self) -> tuple[Array, Array]:
        """Voltage, and current through the line's impedance, where the first stub is put."""
        before = MatchingNetwork(self.load, self.line, (Section(self.distance, self.line, self.loss),))
        voltage, current = before.input_state()
        return voltage, self.line * current

    def equations(self) -> TwoLengths:
        """The first stub's wave is v, the second's what the network between makes of it.

        With y the admittance at the first stub and q = 2 / (1 + y), its sum with the stub's r (1 + v) / (1 - v)
        reflects, as an admittance, (2 (1 - q) (1 - v) + r q (1 + v)) / (2 (1 - v) + r q (1 + v)). Through the
        spacing that is multiplied by t = exp(-2 gamma spacing) to n / m, and the second stub must return
        -(r m + (2 - r) n) / (r m - (2 + r) n), as in the single-stub match."""
        voltage, current = self._at_first_stub()
        total = voltage + current
        q, p = 2 * voltage / total, 2 * (current - voltage) / total
        first, second = self.line / self.first, self.line / self.second
        passed = np.exp(-2 * (self.loss + 2j * np.pi) * self.spacing)
        above = passed * (first * q - p), passed * (first * q + p)
        below = first * q - 2, first * q + 2
        wanted = [-(second * m + (2 - second) * n) for n, m in zip(above, below, strict=True)]
        known = [second * m - (2 + second) * n for n, m in zip(above, below, strict=True)]
        stub = self.stub_loss + 2j * np.pi
        one, other = (np.full(q.shape, 1.0 if end == "short" else -1.0) for end in self.ends)
        return TwoLengths(np.array([*wanted, *known]), one.astype(complex), stub, stub, other)
