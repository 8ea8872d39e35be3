"""A matching network as a list of elements, from the load toward the generator, and the one evaluator of all of them.

Whatever a designer claims is checked here, and every picture is drawn from here. The state at a cut through the
network is the pair (voltage, current), known up to a common factor; that way a short or an open circuit is an
ordinary state and nothing overflows. The arrays in a network's elements have one shape S, its frequencies a shape F;
results have the shape S + F.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Any, Protocol

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array, choice, finite_length, passive_impedance, real_impedance
from core.line import _plain

State = tuple[Array, Array]
PLACEMENTS = ("shunt", "series")
ENDS = ("short", "open")


class Element(Protocol):
    """What the evaluator asks of an element."""

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        """The state on the generator's side, at `ratio` times the design frequency.

        With a `fraction` below 1, the state where that part of the element has acted: the way there on the chart."""


@dataclass(frozen=True)
class Section:
    """A section of line between load and generator; a quarter-wave section is one of length 0.25.

    length : wavelengths at the design frequency.  impedance : real ohms.  attenuation : nepers per wavelength.
    Raises NotALength, NotAnImpedance."""

    length: Any
    impedance: Any
    attenuation: Any = 0.0

    def __post_init__(self) -> None:
        _check_line(self.length, self.impedance)

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        voltage, current = state
        cosine, sine = _line_functions(self.length, self.attenuation, ratio, fraction)
        impedance = _spread(self.impedance, ratio)
        return voltage * cosine + impedance * current * sine, current * cosine + voltage * sine / impedance


@dataclass(frozen=True)
class Stub:
    """A branch of line with a short or open end, across the line ("shunt") or in it ("series").

    length : wavelengths at the design frequency, from the branch's end.  impedance : real ohms.
    attenuation : nepers per wavelength.  Raises NotALength, NotAnImpedance, UnknownChoice."""

    length: Any
    impedance: Any
    placement: str = "shunt"
    end: str = "short"
    attenuation: Any = 0.0

    def __post_init__(self) -> None:
        _check_line(self.length, self.impedance)
        choice(self.placement, PLACEMENTS, "placement")
        choice(self.end, ENDS, "end")

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        return _branch(state, self.placement, *self.impedance_fraction(ratio), fraction)

    def impedance_fraction(self, ratio: Array) -> State:
        """The stub's input impedance in ohms as numerator and denominator: either may be zero, never both."""
        cosine, sine = _line_functions(self.length, self.attenuation, ratio)
        impedance = _spread(self.impedance, ratio)
        return (impedance * sine, cosine) if self.end == "short" else (impedance * cosine, sine)


@dataclass(frozen=True)
class Reactance:
    """A lumped inductor or capacitor across the line ("shunt") or in it ("series").

    reactance : ohms at the design frequency; above zero an inductor, below zero a capacitor.
    Raises UnknownChoice."""

    reactance: Any
    placement: str = "series"

    def __post_init__(self) -> None:
        choice(self.placement, PLACEMENTS, "placement")

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        reactance = _spread(self.reactance, ratio)
        numerator = 1j * np.where(reactance > 0, reactance * ratio, reactance)
        denominator = np.where(reactance > 0, 1.0, ratio)
        return _branch(state, self.placement, numerator, denominator, fraction)


@dataclass(frozen=True)
class MatchingNetwork:
    """A load, the elements that match it, and the line that they match it to.

    load_impedance : complex ohms.  line_impedance : real ohms.  elements : from the load toward the generator."""

    load_impedance: Any
    line_impedance: Any
    elements: tuple[Element, ...]

    def input_reflection(self, frequency_ratio: ArrayLike = 1.0, load_impedance: ArrayLike | None = None) -> Any:
        """Reflection at the generator's side, with respect to the line impedance.

        frequency_ratio : frequency over design frequency, > 0, shape F.
        load_impedance : complex ohms at those frequencies, of a shape that broadcasts with S + F; by default
        the design load at all of them.  Returns the shape S + F.  Raises NotAnImpedance, NegativeResistance."""
        ratio = np.asarray(frequency_ratio, dtype=float)
        state = self._load_state(ratio, load_impedance)
        for element in self.elements:
            state = element.act(state, ratio)
        return _plain(self._reflection(state, ratio))

    def path(self, points: int = 61) -> Iterator[Array]:
        """Way of the reflection over the chart, one complex array of `points` for each element, load first.

        For a network of scalars, at the design frequency."""
        ratio, fraction = np.asarray(1.0), np.linspace(0.0, 1.0, points)
        state = self._load_state(ratio, None)
        for element in self.elements:
            yield self._reflection(element.act(state, ratio, fraction), ratio)
            state = element.act(state, ratio)

    def worst_reflection(self, length_error: float) -> Any:
        """Largest |reflection| when every length is off by up to `length_error` wavelengths, long or short.

        Taken over the corners (every length long or short by the whole error). Shape S."""
        errors = (length_error, -length_error)
        corners = product(errors, repeat=sum(hasattr(e, "length") for e in self.elements))
        return _plain(np.max([np.abs(self._stretched(corner).input_reflection()) for corner in corners], axis=0))

    @property
    def total_line(self) -> Any:
        """All line used, stubs included, in wavelengths."""
        return sum(element.length for element in self.elements if isinstance(element, Section | Stub))

    def _stretched(self, corner: tuple[float, ...]) -> MatchingNetwork:
        error = iter(corner)
        stretched = [
            replace(e, length=np.abs(e.length + next(error))) if isinstance(e, Section | Stub) else e
            for e in self.elements
        ]
        return MatchingNetwork(self.load_impedance, self.line_impedance, tuple(stretched))

    def _load_state(self, ratio: Array, load_impedance: ArrayLike | None) -> State:
        if load_impedance is None:
            load = _spread(passive_impedance(self.load_impedance), ratio)
        else:
            load = passive_impedance(load_impedance)
        open_circuit = np.isinf(load.real)
        return np.where(open_circuit, 1.0, load), np.where(open_circuit, 0.0, 1.0)

    def _reflection(self, state: State, ratio: Array) -> Array:
        voltage, current = state
        line = _spread(self.line_impedance, ratio)
        return np.asarray((voltage - line * current) / (voltage + line * current))


def _branch(state: State, placement: str, numerator: Array, denominator: Array, fraction: ArrayLike) -> State:
    """A branch of impedance numerator/denominator across or in the line, multiplied through by what it divides by."""
    voltage, current = state
    if placement == "shunt":
        return voltage * numerator, current * numerator + voltage * denominator * fraction
    return voltage * denominator + current * numerator * fraction, current * denominator


def _line_functions(length: Any, attenuation: Any, ratio: Array, fraction: ArrayLike = 1.0) -> State:
    """cosh and sinh of the propagation constant times the length."""
    length, attenuation = _spread(length, ratio) * fraction, _spread(attenuation, ratio)
    angle = 2 * np.pi * length * ratio
    if not np.any(attenuation):
        return np.cos(angle), 1j * np.sin(angle)
    exponent = attenuation * length + 1j * angle
    return np.cosh(exponent), np.sinh(exponent)


def _spread(value: ArrayLike, ratio: Array) -> Array:
    """Shape S made to broadcast with shape F as S + F."""
    array = np.asarray(value)
    return array.reshape(array.shape + (1,) * ratio.ndim)


def _check_line(length: Any, impedance: Any) -> None:
    length = np.asarray(length, dtype=float)
    finite_length(np.where(np.isnan(length), 0.0, length))  # nan marks "no solution" in an array of them
    real_impedance(impedance)
