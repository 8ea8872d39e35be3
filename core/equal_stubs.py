"""Matching with two equal stubs at one place, on both sides of the line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import plain
from core.checks import real_impedance
from core.network import Section, Stub
from core.solutions import TAKES_NO_POWER, Solutions
from core.stubs import StubbedJunction, single_stub

MATCHED_ALREADY = "This load is matched already; the stubs shown add nothing."


@dataclass(frozen=True)
class EqualStubs(StubbedJunction):
    """A section of line from the load to the junction, and two equal shunt stubs there."""

    elements: tuple[Section, Stub, Stub]
    made_of = ((Section, Stub, Stub),)


def two_equal_stubs(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    stub_impedance: ArrayLike | None = None,
    end: str = "short",
) -> Solutions[EqualStubs]:
    """Every match of a load with two equal shunt stubs on both sides of the line, near solution first.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance, stub_impedance : positive real ohms, of the line and of each stub, by default alike;
    they broadcast with the load.  end : "short" or "open", of both.

    Returns `Solutions` of `EqualStubs`, in number and order as `single_stub` gives: each stub brings half the
    susceptance, so that the junction is as symmetrical as the line.
    Raises NotAnImpedance, NegativeResistance, UnknownChoice.
    Source: two equal lines in parallel are one of half the impedance, by the definition of admittance; the
    rest as `single_stub`, Pozar, 4th ed., section 5.2 (from memory).

    >>> near, far = two_equal_stubs(60 - 80j, 50)
    >>> round(near.distance, 4), round(near.stub_length, 4)
    (0.1104, 0.149)
    """
    each = line_impedance if stub_impedance is None else stub_impedance
    ohms = real_impedance(each, "line impedance" if stub_impedance is None else "stub impedance")
    found = single_stub(load_impedance, line_impedance, ohms / 2, "shunt", end)
    networks = []
    for network in found:
        section, both = network.elements
        stub = Stub(both.length, plain(2 * np.asarray(both.impedance)), "shunt", end)
        networks.append(EqualStubs(network.load_impedance, network.line_impedance, (section, stub, stub)))
    alone = {0: TAKES_NO_POWER, 1: MATCHED_ALREADY}.get(len(networks), "")
    missing = networks and np.any(np.isnan(np.asarray(networks[0].distance)))
    return Solutions(tuple(networks), TAKES_NO_POWER if missing else alone)
