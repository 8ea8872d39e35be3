"""What the designers share: the load on its line, the admittance at each cut, solutions and their reason."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.checks import OPEN_CIRCUIT, Array, passive_impedance, real_impedance
from core.line import _plain
from core.network import MatchingNetwork, Stub
from core.stubs import Solutions, stub_susceptance

TAKES_NO_POWER = (
    "This load takes no power (its resistance is zero, or it is an open circuit), and a lossless network "
    "cannot change that: nothing matches it."
)


def normalised_load(load_impedance: ArrayLike, line_impedance: ArrayLike) -> tuple[Array, Array, Array]:
    """The load and the line in ohms, broadcast, and the normalised load z; nan where the load takes no power.

    That nan runs through every formula to the lengths and values, where it says: no solution.
    Raises NotAnImpedance, NegativeResistance."""
    load, line = np.broadcast_arrays(passive_impedance(load_impedance), real_impedance(line_impedance))
    no_power = np.isinf(load.real) | (load.real < 1 / OPEN_CIRCUIT)
    return load, line, np.where(no_power, complex(np.nan, np.nan), np.where(no_power, 1.0, load) / line)


def cut_admittances(network: MatchingNetwork) -> list[Any]:
    """Admittance toward the load, normalised to the line, at the load and after each element; inf at a short.

    Read from the states that the elements themselves hand on, at the design frequency."""
    line = np.asarray(network.line_impedance)
    return [_plain(ratio_of(line * current, voltage)) for voltage, current in network.states()]


def susceptance_of(stub: Stub, line_impedance: ArrayLike) -> Any:
    """Susceptance of a shunt stub, normalised to the line that it stands on; -inf where it is a short."""
    own = np.asarray(stub_susceptance(stub.length, "shunt", stub.end))
    return _plain(own * np.asarray(line_impedance) / np.asarray(stub.impedance))


def as_solutions(networks: Iterable[Any], exists: Iterable[Array], reason: str) -> Solutions:
    """Of arrays all networks, for a scalar those that exist; the reason goes with them as it is."""
    kept = [network for network, there in zip(networks, exists, strict=True) if np.ndim(there) or there]
    return Solutions(tuple(kept), reason)


def sentences(found: Iterable[tuple[str, Any]]) -> str:
    """Those of the sentences that apply to any of the loads, in the order given."""
    return " ".join(sentence for sentence, applies in found if np.any(applies))


def ratio_of(numerator: Array, denominator: Array) -> Array:
    """A complex quotient, inf where the denominator is zero, and quiet where an operand is nan."""
    size = np.abs(denominator)
    short = size == 0
    inverse = 1 / np.where(short, 1.0, size)
    return np.where(short, complex(np.inf, 0.0), numerator * (np.conj(denominator) * inverse) * inverse)
