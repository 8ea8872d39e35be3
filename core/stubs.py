"""Matching with one stub: where it goes and how long it is, for every load that can be matched."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ROUNDING, broadcast, plain
from core.checks import Array, any_length, choice, passive_impedance, real_impedance
from core.line import wrap_half_wave
from core.network import ENDS, PLACEMENTS, MatchingNetwork, Section, Stub
from core.ranges import real_in_range
from core.solutions import TAKES_NO_POWER, Solutions

ALREADY_MATCHED = "This load is matched already; the stub shown adds nothing."


@dataclass(frozen=True)
class SingleStub(MatchingNetwork):
    """A section of line from the load to the junction, and a stub there."""

    elements: tuple[Section, Stub]
    made_of = ((Section, Stub),)

    @property
    def distance(self) -> Any:
        """From the load to the stub, wavelengths in [0, 0.5)."""
        return self.elements[0].length

    @property
    def stub_length(self) -> Any:
        """From the stub's end to the junction, wavelengths in [0, 0.5)."""
        return self.elements[1].length


def single_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    stub_impedance: ArrayLike | None = None,
    placement: str = "shunt",
    end: str = "short",
) -> Solutions[SingleStub]:
    """Every single-stub match of a load, near solution (smaller distance from the load) first.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    line_impedance, stub_impedance : positive real ohms, broadcast with the load; the stub's is by default
    that of the line.
    placement : "shunt" or "series".  end : "short" or "open".

    Returns `Solutions` of `SingleStub` networks, lengths in wavelengths in [0, 0.5):
    two for an ordinary load; one (distance 0, a stub that adds nothing) for a matched one; none, with the
    reason in `.reason`, for a load that takes no power. For arrays always two, nan where there is no match
    and equal for a matched load. A load on the unit circle already has its near solution at distance 0.
    Raises NotAnImpedance, NegativeResistance, UnknownChoice.
    Source: the crossings of |reflection| = constant with g = 1 (or r = 1), where the angle of the reflection
    of the admittance (or impedance) is +-arccos |reflection|; agrees with Pozar, 4th ed., section 5.2 (from
    memory).

    >>> near, far = single_stub(60 - 80j, 50)
    >>> round(near.distance, 4), round(near.stub_length, 4)
    (0.1104, 0.095)
    """
    load, line = broadcast(passive_impedance(load_impedance), real_impedance(line_impedance))
    stub = line if stub_impedance is None else real_impedance(stub_impedance, "stub impedance")
    load, line, stub = broadcast(load, line, stub)
    crossings = _crossings(load, line, placement)
    networks = [_network(load, line, stub, placement, end, *crossing) for crossing in crossings]
    return _as_solutions(networks, load, line)


def stub_length_for(susceptance: ArrayLike, placement: str = "shunt", end: str = "short") -> Any:
    """Length of a stub that shows a susceptance (shunt) or reactance (series), normalised to the stub's own.

    susceptance : real, any shape; +-inf allowed, nan stays nan.  placement, end : as in `single_stub`.
    Returns wavelengths in [0, 0.5).  Raises OutOfRange, UnknownChoice.
    Source: input of a short-circuited line, j tan(2 pi l), and of an open one, -j cot(2 pi l), as impedances;
    Pozar, 4th ed., eq. 2.45c and 2.46c (from memory)."""
    wanted = real_in_range(susceptance, "susceptance", "such as -0.8", infinite=True, missing=True)
    if _falls_from_a_pole(placement, end):  # the arc cotangent is finite everywhere
        return wrap_half_wave(np.arctan2(1.0, -wanted) / (2 * np.pi))
    return wrap_half_wave(np.arctan(wanted) / (2 * np.pi))


def stub_susceptance(length: ArrayLike, placement: str = "shunt", end: str = "short") -> Any:
    """Susceptance (shunt) or reactance (series) of a stub, normalised to the stub's own; -inf at a pole.

    length : wavelengths from the end, any shape; nan stays nan.  placement, end : as in `single_stub`.
    Raises NotALength, UnknownChoice.  The inverse of `stub_length_for`."""
    given = any_length(length)
    quarters = np.rint(4 * given)
    rest = 2 * np.pi * (given - quarters / 4)  # so that zeros and poles are exact
    inverted = _falls_from_a_pole(placement, end) ^ (np.mod(quarters, 2) == 1)
    with np.errstate(divide="ignore"):
        return plain(np.where(inverted, -np.cos(rest) / np.sin(rest), np.tan(rest)))


def _falls_from_a_pole(placement: str, end: str) -> bool:
    """Whether a stub of no length shows a pole, as minus the cotangent does, and not a zero, as the
    tangent."""
    return (choice(placement, PLACEMENTS, "placement") == "shunt") == (choice(end, ENDS, "end") == "short")


def _crossings(load: Array, line: Array, placement: str) -> list[tuple[Array, Array]]:
    """Distance to each crossing with the unit circle, near first, and the susceptance (or reactance) there.

    With w the immittance (y for a shunt stub, z for a series one) and rho its mismatch, the crossings are at
    the angles +-arccos(rho) of its reflection and there w = 1 +- j 2 rho / sqrt(1 - rho^2). Written with
    |Z - Z0| and sqrt(R Z0), and the angle of (Z - Z0) / (Z + Z0) in parts, no digits are lost near a match or
    near the rim. Where the load takes no power all is nan."""
    power = load.real * line
    r, x = np.where((power == 0) | np.isinf(power), np.nan, load.real), load.imag
    sign = -1 if placement == "shunt" else 1
    angle = np.arctan2(sign * 2 * line * x, sign * ((r - line) * (r + line) + x * x))
    mismatch, root = np.sqrt((r - line) ** 2 + x * x), np.sqrt(r * line)
    half_opening = np.arctan2(2 * root, mismatch)
    rounding = ROUNDING * (r + line + np.abs(x))
    distances = []
    for turn in (angle - half_opening, angle + half_opening):
        # Where the rounding of the load itself is all that keeps it off the unit circle, it is on it.
        turn = np.where(np.abs(turn) * mismatch <= rounding, 0.0, turn)
        distances.append(wrap_half_wave(turn / (4 * np.pi)))
    upper, lower = distances
    susceptance = np.copysign(mismatch / root, lower - upper)  # above the axis at the upper crossing
    return [(np.minimum(upper, lower), susceptance), (np.maximum(upper, lower), -susceptance)]


def _network(
    load: Array, line: Array, stub: Array, placement: str, end: str, distance: Array, susceptance: Array
) -> SingleStub:
    ratio = stub / line if placement == "shunt" else line / stub
    length = stub_length_for(-susceptance * ratio, placement, end)
    section = Section(plain(distance), plain(line))
    return SingleStub(plain(load), plain(line), (section, Stub(length, plain(stub), placement, end)))


def _as_solutions(networks: list[SingleStub], load: Array, line: Array) -> Solutions[SingleStub]:
    if load.ndim:
        return Solutions(tuple(networks), TAKES_NO_POWER if np.any(np.isnan(networks[0].distance)) else "")
    if np.isnan(networks[0].distance):
        return Solutions((), TAKES_NO_POWER)
    if load == line:
        return Solutions((networks[0],), ALREADY_MATCHED)
    return Solutions(tuple(networks))
