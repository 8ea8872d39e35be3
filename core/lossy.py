"""The single-stub match solved again for lines that lose power.

A lossy line turns the reflection and shrinks it, and a lossy stub takes power itself: the two conditions of a
match, conductance one and susceptance zero, no longer fall apart into two closed forms and are solved
together (`core.two_lengths`).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ROUNDING, broadcast, plain
from core.checks import Array, choice, passive_impedance, real_impedance
from core.elements import ENDS, PLACEMENTS, Section, Stub
from core.lossy_designs import ONE_SHORT, LossyDesigns
from core.network import impedance_state
from core.ranges import attenuation_of
from core.solutions import TAKES_NO_POWER, Solutions
from core.stubs import ALREADY_MATCHED, SingleStub, single_stub
from core.two_lengths import HORIZON, TwoLengths

LOST = (
    "With this loss no single stub of this kind matches the load, not with line and stub of up to "
    f"{HORIZON / 2:g} wavelengths together: the stub takes power itself, and line and stub never add up to what "
    "the line wants. Try less loss, the other end, or, near a match, no stub."
)


def lossy_single_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    attenuation: ArrayLike,
    stub_attenuation: ArrayLike | None = None,
    stub_impedance: ArrayLike | None = None,
    placement: str = "shunt",
    end: str = "short",
) -> Solutions[SingleStub]:
    """Every single-stub match of a load with lossy line and stub, the one with the least line in all first.

    load_impedance, line_impedance, stub_impedance : ohms, as for `single_stub`; all arguments broadcast.
    attenuation, stub_attenuation : nepers per wavelength >= 0; the stub's is by default the line's.
    placement : "shunt" or "series".  end : "short" or "open".
    Returns `Solutions` of `SingleStub` networks whose elements carry the attenuation: all whose distance and
    stub length are both in [0, 0.5), the smallest sum of the two first; where there is none the shortest
    longer one, with a sum up to 4 wavelengths. For one load as many as there are, with the reason in
    `.reason` where they are fewer than two; for arrays as many as any load has and at least two, nan where a load
    has fewer. Each is verified by the evaluator: |reflection| <= 1e-10, or, for a load of so high an SWR that
    no lengths come so near, as near as the last digits of the lengths allow.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, UnknownChoice, ShapesDiffer.
    Source: y_line(d) + y_stub(l) = 1 (z for a series stub), each (1 + w) / (1 - w) with a wave w that goes as
    exp(-2 gamma length), Pozar, 4th ed., eq. 2.91 (from memory); all roots as `core.two_lengths` says.

    >>> near, far = lossy_single_stub(60 - 80j, 50, attenuation=0.06)
    >>> round(near.distance, 4), round(near.stub_length, 4)
    (0.1087, 0.0971)
    """
    loss, stub_loss = attenuations(attenuation, stub_attenuation)
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    own = line if stub_impedance is None else real_impedance(stub_impedance, "stub impedance")
    placement, end = choice(placement, PLACEMENTS, "placement"), choice(end, ENDS, "end")
    values = broadcast(load, line, own, loss, stub_loss)
    problems, shape = _Junctions(placement, end, *map(np.ravel, values)), values[0].shape
    found, long = problems.solve()
    found[0][:, problems.matched] = [[0.0], [0.0 if problems.vanishes else 0.25]]
    count = np.sum(~np.isnan(found[:, 0]), axis=0)
    lossless = problems.lossless & problems.powerless
    reasons = [(TAKES_NO_POWER, lossless), (LOST, (count == 0) & ~lossless)]
    if not shape:
        single = (count == 1) & ~long & ~problems.matched
        reasons += [(ALREADY_MATCHED, problems.matched), (ONE_SHORT, single)]
    return problems.solutions(found, shape, reasons, long)


def attenuations(attenuation: ArrayLike, stub_attenuation: ArrayLike | None) -> tuple[Array, Array]:
    """Of lines and stubs, nepers per wavelength; the stubs' is by default the lines'.  Raises OutOfRange."""
    loss = attenuation_of(attenuation)
    return loss, loss if stub_attenuation is None else attenuation_of(stub_attenuation, "stub attenuation")


@dataclass(frozen=True)
class _Junctions(LossyDesigns[SingleStub]):
    """Many single-stub problems, in flat arrays."""

    placement: str
    end: str
    load: Array
    line: Array
    own: Array
    loss: Array
    stub_loss: Array

    def network(self, lengths: Array, which: Array | slice, shape: tuple[int, ...] = (-1,)) -> SingleStub:
        own = (self.load, self.line, self.own, self.loss, self.stub_loss)
        load, line, stub, loss, stub_loss, distance, length = (
            plain(value.reshape(shape)) for value in (*(value[which] for value in own), *lengths)
        )
        branch = Stub(length, stub, self.placement, self.end, stub_loss)
        return SingleStub(load, line, (Section(distance, line, loss), branch))

    @property
    def vanishes(self) -> bool:
        """Whether a stub of no length adds nothing: open across the line, or shorted in it."""
        return (self.placement == "shunt") == (self.end == "open")

    @property
    def needless(self) -> Array:
        """Loads that need no stub, by rounding at most."""
        return np.abs(np.where(np.isinf(self.load), 0.0, self.load) - self.line) <= ROUNDING * self.line

    @property
    def matched(self) -> Array:
        """Those of them that have a stub that adds nothing."""
        return self.needless & (self.vanishes | (self.stub_loss == 0))

    @property
    def idle(self) -> Array:
        return self.needless

    def lossless_lengths(self, which: Array) -> Array:
        load, line, own = self.load[which], self.line[which], self.own[which]
        networks = single_stub(load, line, own, self.placement, self.end)
        return np.array([(network.distance, network.stub_length) for network in networks])

    def equations(self) -> TwoLengths:
        """The wave on the line is the reflection, of admittance for a shunt stub, of impedance for a series one.

        With r the stub's immittance over the line's, line + stub = 1 is, for their waves w and v,
        v = -(r + (2 - r) w) / (r - (2 + r) w)."""
        voltage, current = impedance_state(self.load)
        shunt = self.placement == "shunt"
        ratio = self.line / self.own if shunt else self.own / self.line
        wave = (voltage - self.line * current) / (voltage + self.line * current)
        fraction = np.array([ratio - 2, -ratio, -2 - ratio, ratio])
        first, second = self.loss + 2j * np.pi, self.stub_loss + 2j * np.pi
        end = np.full(ratio.shape, -1.0 if self.vanishes else 1.0)
        return TwoLengths(fraction, -wave if shunt else wave, first, second, end)
