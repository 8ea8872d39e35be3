"""What the designers share: the load on its line, the admittance at each cut, solutions and their reason."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, Real, broadcast, plain, quotient
from core.checks import Array, passive_impedance, real_impedance
from core.network import MatchingNetwork, Stub
from core.solutions import no_power
from core.stubs import stub_susceptance


def normalised_load(load_impedance: ArrayLike, line_impedance: ArrayLike) -> tuple[Array, Array, Array]:
    """The load and the line in ohms, broadcast, and the normalised load z; nan where the load takes no power.

    That nan runs through every formula to the lengths and values, where it says: no solution.
    Raises NotAnImpedance, NegativeResistance."""
    load, line = broadcast(passive_impedance(load_impedance), real_impedance(line_impedance))
    powerless = no_power(load, line)
    return load, line, np.where(powerless, complex(np.nan, np.nan), np.where(powerless, 1.0, load) / line)


def cut_admittances(network: MatchingNetwork) -> list[Complex]:
    """Admittance toward the load, normalised to the line, at the load and after each element; inf at a short.

    Read from the states that the elements themselves hand on, at the design frequency."""
    line = np.asarray(network.line_impedance)
    return [plain(quotient(line * current, voltage)) for voltage, current in network.states()]


def susceptance_of(stub: Stub, line_impedance: ArrayLike) -> Real:
    """Susceptance of a shunt stub, normalised to the line that it stands on; -inf where it is a short."""
    own = np.asarray(stub_susceptance(stub.length, "shunt", stub.end))
    with np.errstate(over="ignore"):
        return plain(own * np.asarray(line_impedance) / np.asarray(stub.impedance))
