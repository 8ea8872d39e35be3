"""A matching network as a list of elements, from the load toward the generator, and their one evaluator.

Whatever a designer claims is checked here, and every picture is drawn from here. The arrays in a network's
elements have one shape S, its frequencies a shape F; results have the shape S + F. Attenuation is in nepers
per wavelength at the design frequency.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.checks import Array, passive_impedance
from core.elements import ENDS, PLACEMENTS, Element, Reactance, Section, State, Stub, _spread
from core.line import _plain
from core.readable import Readable, Rows, amount

__all__ = ["ENDS", "PLACEMENTS", "Element", "MatchingNetwork", "Reactance", "Section", "State", "Stub"]


BLOCK = 16_384
"""Reflections computed at once over frequency: their arrays stay in the processor's cache."""


@dataclass(frozen=True)
class MatchingNetwork(Readable):
    """A load, the elements that match it, and the line that they match it to.

    load_impedance : complex ohms.  line_impedance : real ohms.
    elements : from the load toward the generator.

    >>> transformer = MatchingNetwork(100, 50, (Section(0.25, 5000**0.5),))
    >>> transformer
    MatchingNetwork(load: 100 ohm; line: 0.2500 wavelengths of 70.71 ohm; matched to: 50 ohm)
    >>> abs(transformer.input_reflection()) < 1e-15
    True
    """

    load_impedance: Any
    line_impedance: Any
    elements: tuple[Element, ...]

    def input_reflection(
        self, frequency_ratio: ArrayLike = 1.0, load_impedance: ArrayLike | None = None
    ) -> Any:
        """Reflection at the generator's side, with respect to the line impedance.

        frequency_ratio : frequency over design frequency, > 0, shape F.
        load_impedance : complex ohms at those frequencies, of a shape that broadcasts with S + F; by default
        the design load at all of them.  Returns the shape S + F.  Raises NotAnImpedance,
        NegativeResistance."""
        ratio = np.asarray(frequency_ratio, dtype=float)
        load = None if load_impedance is None else impedance_state(load_impedance)
        if ratio.ndim != 1:
            return _plain(self._over(ratio, load))
        step = max(1, BLOCK // max(1, np.size(self.load_impedance)))
        blocks = [slice(start, start + step) for start in range(0, max(1, ratio.size), step)]
        return np.concatenate([self._over(ratio[b], _block_of(load, b, ratio)) for b in blocks], axis=-1)

    def states(self, frequency_ratio: ArrayLike = 1.0, load: State | None = None) -> Iterator[State]:
        """The state (voltage, current) at the load and then after each element, each up to a factor of its
        own.

        load : the state at the load, of shape S + F; by default that of the design load."""
        ratio = np.asarray(frequency_ratio, dtype=float)
        if load is None:
            voltage, current = impedance_state(self.load_impedance)
            load = _spread(voltage, ratio), _spread(current, ratio)
        yield load
        for element in self.elements:
            load = element.act(load, ratio)
            yield load

    def input_state(self, frequency_ratio: ArrayLike = 1.0, load: State | None = None) -> State:
        """The last of the `states`: a smooth function of frequency, with no pole where a stub is a short."""
        for state in self.states(frequency_ratio, load):
            last = state
        return last

    def path(self, points: int = 61) -> Iterator[Array]:
        """Way of the reflection over the chart, one complex array of `points` for each element, load first.

        For a network of scalars, at the design frequency."""
        ratio, fraction = np.asarray(1.0), np.linspace(0.0, 1.0, points)
        for element, state in zip(self.elements, self.states(ratio), strict=False):
            yield self._reflection(element.act(state, ratio, fraction), ratio)

    def detuned(self, frequency_ratio: ArrayLike) -> MatchingNetwork:
        """The network as it is at `frequency_ratio` times its design frequency: more wavelengths, other ohms.

        The ratio broadcasts with the elements' shape S, one frequency for each network."""
        elements = tuple(element.detuned(frequency_ratio) for element in self.elements)
        return MatchingNetwork(self.load_impedance, self.line_impedance, elements)

    def as_built(
        self,
        length_errors: ArrayLike = 0.0,
        impedance_errors: ArrayLike = 0.0,
        velocity_errors: ArrayLike = 0.0,
        load_errors: ArrayLike = 0.0,
    ) -> MatchingNetwork:
        """The network as a workshop makes it, an error in every value: of shape S + T for errors of shape T.

        length_errors : wavelengths, shape (elements,) + T; a line cannot be shorter than nothing, and where
        it would be the error stops.  impedance_errors : relative, of each line's impedance or
        each lumped reactance, shape (elements,) + T.  velocity_errors : relative, common to all lines, shape
        T. load_errors : complex, shape T; the real part relative to the load's resistance, the imaginary part
        an error of its reactance relative to its magnitude.  Each may also be a single number."""
        per_element = [np.asarray(errors, dtype=float) for errors in (length_errors, impedance_errors)]
        common = np.asarray(velocity_errors, dtype=float), np.asarray(load_errors, dtype=complex)
        trials = np.broadcast_shapes(*(e.shape[1:] for e in per_element), *(e.shape for e in common))
        lengths, impedances = (np.broadcast_to(e, (len(self.elements), *trials)) for e in per_element)
        velocity, load_error = (np.broadcast_to(e, trials) for e in common)
        built = [
            e.as_built(dl, dz, velocity) for e, dl, dz in zip(self.elements, lengths, impedances, strict=True)
        ]
        load = _load_with_error(_spread(passive_impedance(self.load_impedance), velocity), load_error)
        return MatchingNetwork(load, _spread(self.line_impedance, velocity), tuple(built))

    def worst_reflection(self, length_error: float) -> Any:
        """Largest |reflection| when every length is off by up to `length_error` wavelengths, long or short.

        Taken over the corners (every length long or short by the whole error). Shape S."""
        signs = product((1.0, -1.0), repeat=len(self.elements))
        errors = length_error * np.array(list(signs)).T
        return _plain(np.max(np.abs(self.as_built(errors).input_reflection()), axis=-1))

    @property
    def total_line(self) -> Any:
        """All line used, stubs included, in wavelengths."""
        return sum(element.length for element in self.elements if isinstance(element, Section | Stub))

    def _over(self, ratio: Array, load: State | None) -> Array:
        reflection = self._reflection(self.input_state(ratio, load), ratio)
        whole = np.broadcast_shapes(reflection.shape, ratio.shape)  # more only where no element looked at it
        return reflection if reflection.shape == whole else np.broadcast_to(reflection, whole).copy()

    def _reflection(self, state: State, ratio: Array) -> Array:
        voltage, current = state
        line = _spread(self.line_impedance, ratio)
        with np.errstate(invalid="ignore"):  # nan marks "no solution" in an array of networks
            return np.asarray((voltage - line * current) / (voltage + line * current))

    def _rows(self) -> Rows:
        described = [row for element in self.elements for row in _element_rows(element)]
        load, line = amount(self.load_impedance, "ohm"), amount(self.line_impedance, "ohm")
        return [("load", load), *described, ("matched to", line)]


def impedance_state(impedance: ArrayLike) -> State:
    """The state at a load, for the evaluator: an open circuit has voltage and no current."""
    load = passive_impedance(impedance)
    open_circuit = np.isinf(load.real)
    return np.where(open_circuit, 1.0, load), np.where(open_circuit, 0.0, 1.0)


def _block_of(load: State | None, block: slice, ratio: Array) -> State | None:
    """The state at the load for some of the frequencies, where it depends on them."""
    if load is None or load[0].shape[-1:] != ratio.shape:
        return load
    return load[0][..., block], load[1][..., block]


def _load_with_error(load: Array, error: Array) -> Array:
    """Resistance times (1 + real part), which keeps the load passive, and reactance plus a part of |Z|."""
    open_circuit = np.isinf(load.real)
    known = np.where(open_circuit, 0.0, load)
    wrong = known.real * (1 + error.real) + 1j * (known.imag + np.abs(known) * error.imag)
    return np.where(open_circuit, complex(np.inf, 0.0), wrong)


def _element_rows(element: Element) -> Rows:
    return element._rows() if isinstance(element, Readable) else [("element", repr(element))]
