"""Matching with two stubs in the line, a fixed spacing apart: the shunt double stub with its roles exchanged.

Exchange impedance and admittance, short and open, and every sentence about shunt stubs is one about series
stubs. That is how these are found: as the shunt stubs of the load's dual, Z0² / Z.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, Real, broadcast, plain, quotient
from core.checks import Array, passive_impedance, real_impedance
from core.designs import cut_admittances
from core.double_stubs import TwoStubs, double_stub, two_ends, two_impedances
from core.forbidden import conductance_limit
from core.network import Stub
from core.solutions import Solutions
from core.stubs import stub_susceptance

OTHER_END = {"short": "open", "open": "short"}


@dataclass(frozen=True)
class SeriesDoubleStub(TwoStubs):
    """Two stubs in the line, a spacing apart.

    Impedances and reactances are normalised to the line."""

    @property
    def stub_reactances(self) -> tuple[Real, Real]:
        """Of the first stub and the second; -inf where a stub is an open circuit."""
        return self._reactance(self.elements[1]), self._reactance(self.elements[3])

    @property
    def impedance_at_first_stub(self) -> Complex:
        """Of the load as seen at the first stub, that stub not counted."""
        return self._impedance(1)

    @property
    def impedance_after_first_stub(self) -> Complex:
        """At the first stub, that stub counted: a point of the rotated unit-resistance circle."""
        return self._impedance(2)

    @property
    def impedance_at_second_stub(self) -> Complex:
        """At the second stub, that stub not counted: a point of the unit-resistance circle."""
        return self._impedance(3)

    @property
    def resistance_limit(self) -> Real:
        """Largest resistance at the first stub that can be matched."""
        return conductance_limit(self.spacing)

    def _impedance(self, cut: int) -> Any:
        admittance = np.asarray(cut_admittances(self)[cut])
        return plain(quotient(np.ones_like(admittance), admittance))

    def _reactance(self, stub: Stub) -> Any:
        own = np.asarray(stub_susceptance(stub.length, "series", stub.end))
        return plain(own * np.asarray(stub.impedance) / np.asarray(self.line_impedance))


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def series_double_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    spacing: ArrayLike,
    first_distance: ArrayLike = 0.0,
    ends: Sequence[str] = ("short", "short"),
    stub_impedances: Sequence[ArrayLike] | Array | None = None,
) -> Solutions[SeriesDoubleStub]:
    """Both matches of a load with two stubs in the line, the one with the shorter first stub first.

    Arguments and errors as `double_stub`, for stubs in series.
    Returns `Solutions` of `SeriesDoubleStub` networks, in number and order as `double_stub` does: two for an
    ordinary load, one on the boundary of the forbidden region, none in it: where the load shows at the first
    stub a resistance above 1/sin²(2π spacing) of the line's.
    Source: the dual of Pozar, 4th ed., section 5.3 (from memory).

    >>> first, second = series_double_stub(60 - 80j, 50, 1 / 8, ends=("short", "short"))
    >>> [round(length, 4) for length in first.stub_lengths + second.stub_lengths]
    [0.162, 0.0289, 0.2066, 0.1699]
    """
    kinds = two_ends(ends)
    load, line = broadcast(passive_impedance(load_impedance), real_impedance(line_impedance))
    load, line, *stubs = broadcast(load, line, *two_impedances(stub_impedances, line))
    found = double_stub(
        _dual(load, line),
        line,
        spacing,
        first_distance,
        tuple(OTHER_END[end] for end in kinds),
        [line * (line / stub) for stub in stubs],
    )
    shape = np.shape(found[0].spacing) if found else ()
    load, *ohms = (plain(np.broadcast_to(value, shape)) for value in (load, *stubs))
    networks = [_in_series(network, load, ohms, kinds) for network in found]
    return Solutions(tuple(networks), found.reason.replace("conductance", "resistance"))


def _dual(load: Array, line: Array) -> Array:
    """Z0² / Z: a short circuit for an open one and the other way round."""
    open_circuit = np.isinf(load.real)
    inverse = quotient(line, np.where(open_circuit, line, load) / line)
    return np.where(open_circuit, 0.0, inverse)


def _in_series(network: Any, load: Any, stubs: list[Any], ends: tuple[str, str]) -> SeriesDoubleStub:
    to_first, first, between, second = network.elements
    parts = [
        Stub(stub.length, ohms, "series", end)
        for stub, ohms, end in zip((first, second), stubs, ends, strict=True)
    ]
    return SeriesDoubleStub(load, network.line_impedance, (to_first, parts[0], between, parts[1]))
