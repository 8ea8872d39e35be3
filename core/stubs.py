"""Matching with one stub: where it goes and how long it is, for every load that can be matched."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import ON_ARRAYS, ON_NUMBERS, ROUNDING, Functions, Real, broadcast, made, plain
from core.checks import any_length, choice, passive_impedance, real_impedance
from core.line import wrapped
from core.network import ENDS, PLACEMENTS, MatchingNetwork, Section, Stub
from core.ranges import real_in_range
from core.solutions import TAKES_NO_POWER, Solutions, no_power

ALREADY_MATCHED = "This load is matched already; the stub shown adds nothing."


@dataclass(frozen=True)
class StubbedJunction(MatchingNetwork):
    """A section of line from the load to a junction, and one stub there or several alike."""

    elements: tuple[Section, Stub] | tuple[Section, Stub, Stub]
    made_of: ClassVar[tuple[tuple[type, ...], ...]] = ((Section, Stub), (Section, Stub, Stub))

    @property
    def distance(self) -> Real:
        """From the load to the junction, wavelengths in [0, 0.5)."""
        return self.elements[0].length

    @property
    def stub_length(self) -> Real:
        """From a stub's end to the junction, wavelengths in [0, 0.5)."""
        return self.elements[1].length


@dataclass(frozen=True)
class SingleStub(StubbedJunction):
    """A section of line from the load to the junction, and a stub there."""

    elements: tuple[Section, Stub]
    made_of = ((Section, Stub),)


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
    pole = _falls_from_a_pole(placement, end)
    load, line = passive_impedance(load_impedance), real_impedance(line_impedance)
    stub = line if stub_impedance is None else real_impedance(stub_impedance, "stub impedance")
    load, line, stub = broadcast(load, line, stub)
    powerless, on = no_power(load, line), ON_ARRAYS
    if not load.ndim:
        if powerless:
            return Solutions((), TAKES_NO_POWER)
        load, line, stub, on = load.item(), line.item(), stub.item(), ON_NUMBERS
    networks = []
    for distance, susceptance in _crossings(load, line, np.any(powerless) and powerless, placement, on):
        length = _length(-susceptance * (stub / line if placement == "shunt" else line / stub), pole, on)
        elements = (
            made(Section, length=distance, impedance=line, attenuation=0.0),
            made(Stub, length=length, impedance=stub, placement=placement, end=end, attenuation=0.0),
        )
        networks.append(made(SingleStub, load_impedance=load, line_impedance=line, elements=elements))
    if on is ON_ARRAYS:
        return Solutions(networks, TAKES_NO_POWER if np.any(powerless) else "")
    return Solutions(networks[:1], ALREADY_MATCHED) if load == line else Solutions(networks)


def stub_length_for(susceptance: ArrayLike, placement: str = "shunt", end: str = "short") -> Real:
    """Length of a stub that shows a susceptance (shunt) or reactance (series), normalised to the stub's own.

    susceptance : real, any shape; +-inf allowed, nan stays nan.  placement, end : as in `single_stub`.
    Returns wavelengths in [0, 0.5).  Raises OutOfRange, UnknownChoice.
    Source: input of a short-circuited line, j tan(2 pi l), and of an open one, -j cot(2 pi l), as impedances;
    Pozar, 4th ed., eq. 2.45c and 2.46c (from memory)."""
    wanted = real_in_range(susceptance, "susceptance", "such as -0.8", infinite=True, missing=True)
    return plain(_length(wanted, _falls_from_a_pole(placement, end), ON_ARRAYS))


def stub_susceptance(length: ArrayLike, placement: str = "shunt", end: str = "short") -> Real:
    """Susceptance (shunt) or reactance (series) of a stub, normalised to the stub's own; -inf at a pole.

    length : wavelengths from the end, any shape; nan stays nan.  placement, end : as in `single_stub`.
    Raises NotALength, UnknownChoice.  The inverse of `stub_length_for`."""
    given = any_length(length)
    quarters = np.rint(4 * given)
    rest = 2 * np.pi * (given - quarters / 4)  # so that zeros and poles are exact
    inverted = _falls_from_a_pole(placement, end) ^ (np.mod(quarters, 2) == 1)
    with np.errstate(divide="ignore", over="ignore"):
        return plain(np.where(inverted, -np.cos(rest) / np.sin(rest), np.tan(rest)))


def _falls_from_a_pole(placement: str, end: str) -> bool:
    """Whether a stub of no length shows a pole, as minus the cotangent does, and not a zero, as the
    tangent."""
    return (choice(placement, PLACEMENTS, "placement") == "shunt") == (choice(end, ENDS, "end") == "short")


def _length(wanted: Any, pole: bool, on: Functions) -> Any:
    """The kernel of `stub_length_for`; the arc cotangent is finite everywhere."""
    return wrapped((on.arctan2(1.0, -wanted) if pole else on.arctan(wanted)) / (2 * np.pi), on)


def _crossings(load: Any, line: Any, powerless: Any, placement: str, on: Functions) -> list[tuple[Any, Any]]:
    """Distance to each crossing with the unit circle, near first, and the susceptance (or reactance) there.

    With w the immittance (y for a shunt stub, z for a series one) and rho its mismatch, the crossings are at
    the angles +-arccos(rho) of its reflection and there w = 1 +- j 2 rho / sqrt(1 - rho^2). Written with
    |Z - Z0| and sqrt(R Z0), and the angle of (Z - Z0) / (Z + Z0) in parts, no digits are lost near a match or
    near the rim. Where the load takes no power all is nan."""
    r, x = on.where(powerless, np.nan, load.real), load.imag
    sign = -1 if placement == "shunt" else 1
    angle = on.arctan2(sign * 2 * line * x, sign * ((r - line) * (r + line) + x * x))
    mismatch, root = on.sqrt((r - line) * (r - line) + x * x), on.sqrt(r * line)
    half_opening = on.arctan2(2 * root, mismatch)
    rounding = ROUNDING * (r + line + abs(x))
    distances = []
    for turn in (angle - half_opening, angle + half_opening):
        # Where the rounding of the load itself is all that keeps it off the unit circle, it is on it.
        turn = on.where(abs(turn) * mismatch <= rounding, 0.0, turn)
        distances.append(wrapped(turn / (4 * np.pi), on))
    upper, lower = distances
    susceptance = on.copysign(mismatch / root, lower - upper)  # above the axis at the upper crossing
    return [(on.minimum(upper, lower), susceptance), (on.maximum(upper, lower), -susceptance)]
