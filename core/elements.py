"""What a matching network is made of: sections of line, stubs, lumped reactances.

Each acts on the state at a cut through the network, the pair (voltage, current), known up to a common factor;
that way a short or an open circuit is an ordinary state and nothing divides by zero. The arrays in an element
have one shape S, frequencies a shape F; states have the shape S + F.

Lines are low-loss lines: their impedance is real, and a piece of line loses the same at every frequency.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Protocol, TypeVar, runtime_checkable

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import OPEN_CIRCUIT, broadcast, plain, spread, store
from core.checks import (
    LEAST_LINE,
    LONGEST,
    MOST_LINE,
    Array,
    any_length,
    choice,
    finite_length,
    real_impedance,
)
from core.ranges import attenuation_of, lost_in, real_in_range
from core.readable import Readable, Rows, amount, wavelengths

State = tuple[Array, Array]
PLACEMENTS = ("shunt", "series")
ENDS = ("short", "open")
Line = TypeVar("Line", "Section", "Stub")


@runtime_checkable
class Element(Protocol):
    """What the evaluator asks of an element."""

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        """The state on the generator's side, at `ratio` times the design frequency.

        With a `fraction` below 1, the state where that part of the element has acted: the way there on the
        chart."""

    def factor(self, ratio: Array) -> ArrayLike:
        """What the state that `act` returns is multiplied by, beside the voltage and current that are
        there."""

    def heat(self, state: State, ratio: Array) -> Array:
        """Watts that the element turns to heat, zero or more, for the state on its load's side, on the scale of
        the state that `act` returns."""

    def detuned(self, ratio: ArrayLike) -> Element:
        """The element as it is at `ratio` times its design frequency; the ratio broadcasts with its
        arrays."""

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> Element:
        """The element with errors of shape T in its values: of shape S + T."""


@dataclass(frozen=True)
class Section(Readable):
    """A section of line between load and generator; a quarter-wave section is one of length 0.25.

    length : wavelengths at the design frequency.  impedance : real ohms.
    attenuation : nepers per wavelength.  Raises NotALength, NotAnImpedance, OutOfRange.

    >>> Section(0.25, 70.71)
    Section(line: 0.2500 wavelengths of 70.71 ohm)
    """

    length: Any
    impedance: Any
    attenuation: Any = 0.0

    def __post_init__(self) -> None:
        _check_line(self)

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        voltage, current = state
        cosine, sine = _line_functions(self.length, self.attenuation, ratio, fraction)
        impedance = spread(self.impedance, ratio)
        return voltage * cosine + impedance * current * sine, current * cosine + voltage * sine / impedance

    def factor(self, ratio: Array) -> ArrayLike:
        return 1.0

    def heat(self, state: State, ratio: Array) -> Array:
        """The wave that comes grows toward the generator, the wave that goes back shrinks: each loses."""
        impedance, nepers = spread(self.impedance, ratio), spread(self.attenuation * self.length, ratio)
        voltage, drop = state[0], impedance * state[1]
        coming, returned = np.abs(voltage + drop) ** 2, np.abs(voltage - drop) ** 2
        return (coming * np.expm1(2 * nepers) - returned * np.expm1(-2 * nepers)) / (8 * impedance)

    def detuned(self, ratio: ArrayLike) -> Section:
        return _detuned_line(self, ratio)

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> Section:
        return _line_as_built(self, length_error, impedance_error, velocity_error)

    def _rows(self) -> Rows:
        return [("line", _line_text(self))]


class Branch(Readable):
    """What hangs across the line ("shunt") or in it ("series") and is known by its impedance: what `Stub`,
    `Reactance` and their like share."""

    placement: str

    def impedance_fraction(self, ratio: Array) -> State:
        """The impedance in ohms as numerator and denominator: either may be zero, never both."""
        raise NotImplementedError

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        """The state on the generator's side. Multiplied through by the divisor: a short across a short is a
        short, and an open circuit in line with another is one."""
        (voltage, current), (numerator, denominator) = state, self.impedance_fraction(ratio)
        if self.placement == "shunt":
            beside = current * numerator + voltage * denominator * fraction
            return voltage * numerator, _one_where_both_vanish(voltage, numerator, beside)
        across = voltage * denominator + current * numerator * fraction
        return _one_where_both_vanish(current, denominator, across), current * denominator

    def factor(self, ratio: Array) -> ArrayLike:
        return self.impedance_fraction(ratio)[self.placement == "series"]

    def heat(self, state: State, ratio: Array) -> Array:
        """Half of |current|² times the resistance, or of |voltage|² times the conductance."""
        numerator, denominator = self.impedance_fraction(ratio)
        return (
            0.5 * np.abs(state[self.placement == "series"]) ** 2 * np.real(numerator * np.conj(denominator))
        )


@dataclass(frozen=True)
class Stub(Branch):
    """A branch of line with a short or open end, across the line ("shunt") or in it ("series").

    length : wavelengths at the design frequency, from the branch's end.  impedance : real ohms.
    attenuation : nepers per wavelength.  Raises NotALength, NotAnImpedance, OutOfRange, UnknownChoice.

    >>> Stub(0.095, 50)
    Stub(shunt stub, short end: 0.0950 wavelengths of 50 ohm)
    """

    length: Any
    impedance: Any
    placement: str = "shunt"
    end: str = "short"
    attenuation: Any = 0.0

    def __post_init__(self) -> None:
        _check_line(self)
        choice(self.placement, PLACEMENTS, "placement")
        choice(self.end, ENDS, "end")

    def impedance_fraction(self, ratio: Array) -> State:
        cosine, sine = _line_functions(self.length, self.attenuation, ratio)
        impedance = spread(self.impedance, ratio)
        return (impedance * sine, cosine) if self.end == "short" else (impedance * cosine, sine)

    def detuned(self, ratio: ArrayLike) -> Stub:
        return _detuned_line(self, ratio)

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> Stub:
        return _line_as_built(self, length_error, impedance_error, velocity_error)

    def _rows(self) -> Rows:
        return [(f"{self.placement} stub, {self.end} end", _line_text(self))]


@dataclass(frozen=True)
class Reactance(Branch):
    """A lumped inductor or capacitor across the line ("shunt") or in it ("series").

    reactance : real ohms at the design frequency; above zero an inductor, below zero a capacitor; nan where an
    array of networks has no solution.  Raises OutOfRange, UnknownChoice.

    >>> Reactance(-50, "shunt")
    Reactance(shunt reactance: -50 ohm)
    """

    reactance: Any
    placement: str = "series"

    def __post_init__(self) -> None:
        store(self, reactance=self._checked(self.reactance))
        choice(self.placement, PLACEMENTS, "placement")

    def _checked(self, reactance: Any) -> Array:
        return real_in_range(
            reactance, "reactance", "in ohms", at_least=-OPEN_CIRCUIT, up_to=OPEN_CIRCUIT, missing=True
        )

    def impedance_fraction(self, ratio: Array) -> State:
        """The impedance in ohms as numerator and denominator, so that a capacitor may be seen at zero
        frequency."""
        reactance = spread(self.reactance, ratio)
        capacitor = reactance < 0
        return 1j * np.where(capacitor, reactance, reactance * ratio), np.where(capacitor, ratio, 1.0)

    def detuned(self, ratio: ArrayLike) -> Reactance:
        return replace(self, reactance=reactance_at(self.reactance, ratio))

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> Reactance:
        return replace(self, reactance=spread(self.reactance, impedance_error) * (1 + impedance_error))

    def _rows(self) -> Rows:
        return [(f"{self.placement} reactance", amount(self.reactance, "ohm"))]


def reactance_at(reactance: ArrayLike, ratio: ArrayLike) -> Array:
    """Ohms of a coil (above zero) or capacitor (below) at a ratio of frequencies above 0; they broadcast."""
    ohms, times = broadcast(reactance, ratio)
    return np.where(ohms > 0, ohms * times, ohms / times)


def is_line(element: Any) -> bool:
    """Whether an element is a piece of line, of whatever kind: those have a length, in wavelengths."""
    return hasattr(element, "length")


def _one_where_both_vanish(first: Array, second: Array, value: Array) -> Array:
    if np.all(first) or np.all(second):  # as nearly always, and quickly seen
        return value
    return np.where((first == 0) & (second == 0), 1.0, value)


def _line_functions(length: Any, attenuation: Any, ratio: Array, fraction: ArrayLike = 1.0) -> State:
    """cosh and sinh of the propagation constant times the length.

    By addition theorems: the loss is the same at all frequencies and needs its functions once for all of
    them."""
    length, attenuation = spread(length, ratio) * fraction, spread(attenuation, ratio)
    angle = 2 * np.pi * length * ratio
    cosine, sine = np.cos(angle), np.sin(angle)
    if not np.any(attenuation):
        return cosine, 1j * sine
    grown, lost = np.cosh(attenuation * length), np.sinh(attenuation * length)
    return grown * cosine + 1j * (lost * sine), lost * cosine + 1j * (grown * sine)


def _detuned_line(line: Line, ratio: ArrayLike) -> Line:
    """More wavelengths in the same metres; the nepers in them stay what they are."""
    ratio = np.asarray(ratio, dtype=float)
    length, attenuation = np.asarray(line.length) * ratio, np.asarray(line.attenuation) / ratio
    return replace(line, length=plain(length), attenuation=plain(attenuation))


def _line_as_built(line: Line, length_error: Array, impedance_error: Array, velocity_error: Array) -> Line:
    """A line cannot be shorter than nothing: there an error stops."""
    length = np.maximum(spread(line.length, length_error) + length_error, 0.0)
    impedance = spread(line.impedance, impedance_error) * (1 + impedance_error)
    attenuation = spread(line.attenuation, velocity_error) * (1 + velocity_error)
    return replace(line, length=length / (1 + velocity_error), impedance=impedance, attenuation=attenuation)


def _line_text(line: Section | Stub) -> str:
    text = f"{wavelengths(line.length)} of {amount(line.impedance, 'ohm')}"
    return f"{text}, {amount(line.attenuation)} nepers per wavelength" if np.any(line.attenuation) else text


def _check_line(line: Section | Stub) -> None:
    """Lengths and losses may be nan, which marks "no solution" in an array of them. Text and lists become numbers,
    and lengths of which nothing is left once they are squared, none."""
    values = line.length, line.impedance, line.attenuation
    if all(type(value) is float for value in values) and _usual(*values):
        return
    length = any_length(line.length)
    finite_length(np.where(np.isnan(length), 0.0, length))
    loss = attenuation_of(line.attenuation, missing=True)
    checked = broadcast(length, real_impedance(line.impedance), loss)
    lost_in(np.nan_to_num(checked[0]), np.nan_to_num(checked[2]))
    length = np.where(np.abs(length) < LEAST_LINE, 0.0, length)
    store(line, length=length, impedance=real_impedance(line.impedance), attenuation=loss)


def _usual(length: float, impedance: float, attenuation: float) -> bool:
    """Whether single numbers need no second look, as nearly always."""
    return (
        (length == 0 or LEAST_LINE <= length <= LONGEST)
        and LEAST_LINE <= impedance <= MOST_LINE
        and attenuation == 0
    )
