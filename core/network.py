"""A matching network as a list of elements, from the load toward the generator, and their one evaluator.

Whatever a designer claims is checked here, and every picture is drawn from here. The arrays in a network's
elements have one shape S, its frequencies a shape F; results have the shape S + F. Attenuation is in nepers
per wavelength at the design frequency.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any, ClassVar, NoReturn

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import INFINITE, SCALARS, Complex, Real, common_shape, plain, spread, store
from core.checks import LONGEST, Array, finite_reflection, passive_impedance, real_impedance, whole_number
from core.elements import ENDS, PLACEMENTS, Element, Reactance, Section, State, Stub
from core.errors import NotANetwork, OutOfRange, ShapesDiffer
from core.ranges import frequency_ratios, one_number, real_in_range
from core.readable import Readable, Rows, amount, shown

__all__ = ["ENDS", "PLACEMENTS", "Element", "MatchingNetwork", "Reactance", "Section", "State", "Stub"]


LARGEST_ERROR, KNOWN = 1e6, (Section, Stub, Reactance)  # the latter need no look at their methods
MOST_CORNERS = 16
"""Elements whose errors are tried long and short, each with each: 65,536 networks."""
BLOCK = 16_384
"""Reflections computed at once over frequency: their arrays stay in the processor's cache."""


@dataclass(frozen=True)
class MatchingNetwork(Readable):
    """A load, the elements that match it, and the line that they match it to.

    load_impedance : complex ohms, resistance >= 0, inf for an open circuit.  line_impedance : positive real ohms.
    elements : `Section`, `Stub`, `Reactance` and the like, from the load toward the generator. All broadcast.
    Raises NotAnImpedance, NegativeResistance, NotANetwork, ShapesDiffer.

    >>> transformer = MatchingNetwork(100, 50, (Section(0.25, 5000**0.5),))
    >>> transformer
    MatchingNetwork(load: 100 ohm; line: 0.2500 wavelengths of 70.71 ohm; matched to: 50 ohm)
    >>> abs(transformer.input_reflection()) < 1e-15
    True
    """

    load_impedance: Any
    line_impedance: Any
    elements: tuple[Element, ...]
    made_of: ClassVar[tuple[tuple[type, ...], ...]] = ()
    """The kinds of element, load first, that a design of this name may consist of; any, if none are named."""

    def __post_init__(self) -> None:
        load = passive_impedance(self.load_impedance)
        line = real_impedance(self.line_impedance)
        elements = _checked_elements(self.elements)
        if type(self.load_impedance) not in SCALARS or load != self.load_impedance:
            store(self, load_impedance=load)
        if type(self.line_impedance) not in SCALARS:
            store(self, line_impedance=line)
        object.__setattr__(self, "elements", elements)
        if self.made_of and not any(is_made_of(elements, kinds) for kinds in self.made_of):
            _refuse_elements(self)
        _ = self.shape  # which must be one

    def input_reflection(
        self, frequency_ratio: ArrayLike = 1.0, load_impedance: ArrayLike | None = None
    ) -> Complex:
        """Reflection at the generator's side, with respect to the line impedance.

        frequency_ratio : frequency over design frequency, 0 to 1000, shape F.
        load_impedance : complex ohms at those frequencies, of a shape that broadcasts with S + F; by default
        the design load at all of them.  Returns the shape S + F.  Raises OutOfRange, NotAnImpedance,
        NegativeResistance, ShapesDiffer."""
        ratio = np.asarray(frequency_ratios(frequency_ratio))
        load = None if load_impedance is None else impedance_state(load_impedance)
        common_shape(self.shape + ratio.shape, () if load is None else load[0].shape)
        if ratio.ndim != 1:
            return plain(self._over(ratio, load))
        step = max(1, BLOCK // max(1, np.size(self.load_impedance)))
        blocks = [slice(start, start + step) for start in range(0, max(1, ratio.size), step)]
        over = [self._over(ratio[b], _block_of(load, b, ratio)) for b in blocks]
        return plain(np.concatenate(over, axis=-1))

    def states(self, frequency_ratio: ArrayLike = 1.0, load: State | None = None) -> Iterator[State]:
        """The state (voltage, current) at the load and then after each element, each up to a factor of its
        own.

        frequency_ratio : frequency over design frequency, 0 to 1000, shape F.  load : the state at the load, of
        shape S + F; by default that of the design load.  Raises OutOfRange."""
        ratio = np.asarray(frequency_ratios(frequency_ratio))
        if load is None:
            voltage, current = impedance_state(self.load_impedance)
            load = spread(voltage, ratio), spread(current, ratio)
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
        """Way of the reflection over the chart, at the design frequency: one array for each element, load first.

        points : along each element, 2 or more.  Each array has the shape S + (points,).  Raises OutOfRange."""
        count = whole_number(points, "number of points", at_least=2)
        ratio, fraction = np.ones(count), np.linspace(0.0, 1.0, count)
        for element, state in zip(self.elements, self.states(ratio), strict=False):
            yield self._reflection(element.act(state, ratio, fraction), ratio)

    def detuned(self, frequency_ratio: ArrayLike) -> MatchingNetwork:
        """The network as it is at `frequency_ratio` times its design frequency: more wavelengths, other ohms.

        frequency_ratio : above 0 up to 1000, broadcasts with the shape S, one frequency for each network.
        Raises OutOfRange, ShapesDiffer."""
        frequency_ratio = frequency_ratios(frequency_ratio, above=0)
        common_shape(np.shape(frequency_ratio), self.shape)
        elements = tuple(element.detuned(frequency_ratio) for element in self.elements)
        return self._changed(self.load_impedance, self.line_impedance, elements)

    def as_built(
        self,
        length_errors: ArrayLike = 0.0,
        impedance_errors: ArrayLike = 0.0,
        velocity_errors: ArrayLike = 0.0,
        load_errors: ArrayLike = 0.0,
    ) -> MatchingNetwork:
        """The network as a workshop makes it, an error in every value: of shape S + T for errors of shape T.

        length_errors : wavelengths, shape (elements,) + T; a line cannot be shorter than nothing, and where it
        would be the error stops.  impedance_errors : relative, of each line's impedance or each lumped reactance,
        shape (elements,) + T.  velocity_errors : relative, common to all lines, shape T.  load_errors : complex,
        shape T; the real part relative to the load's resistance, the imaginary part an error of its reactance
        relative to its magnitude.  Each may also be a single number.
        Raises OutOfRange, ShapesDiffer, NegativeResistance."""
        meaning, count = "such as 0.05", len(self.elements)
        per_element = (
            real_in_range(
                length_errors, "error of length", "in wavelengths", at_least=-LONGEST, up_to=LONGEST
            ),
            real_in_range(impedance_errors, "error of impedance", meaning, above=-1, up_to=LARGEST_ERROR),
        )
        of_lines = real_in_range(velocity_errors, "error of velocity", meaning, above=-1, up_to=LARGEST_ERROR)
        common = of_lines, finite_reflection(load_errors, "error of the load")
        trials = common_shape(*(e.shape[1:] for e in per_element), *(e.shape for e in common))
        for errors in per_element:
            if errors.ndim and errors.shape[0] != count:
                raise ShapesDiffer(
                    f"The network has {count} elements; give one number, or errors of shape ({count}, ...).",
                    value=errors,
                )
        lengths, impedances = (_for_each(e, count, trials) for e in per_element)
        velocity, load_error = (np.broadcast_to(e, trials) for e in common)
        off = zip(self.elements, lengths, impedances, strict=True)
        built = tuple(element.as_built(length, impedance, velocity) for element, length, impedance in off)
        load = _load_with_error(spread(passive_impedance(self.load_impedance), velocity), load_error)
        return self._changed(load, spread(self.line_impedance, velocity), built)

    def _changed(self, load: Any, line: Any, elements: tuple[Element, ...]) -> MatchingNetwork:
        """The network in another form, of shape S or S + T: no longer the design that it was."""
        return MatchingNetwork(load, line, elements)

    def worst_reflection(self, length_error: float) -> Real:
        """Largest |reflection| when every length is off by up to `length_error` wavelengths, long or short.

        length_error : a single number >= 0.  Returns the shape S.  Raises OutOfRange.
        Taken over the corners (every length long or short by the whole error)."""
        error = one_number(length_error, "error of length", "in wavelengths", at_least=0, up_to=LONGEST)
        if len(self.elements) > MOST_CORNERS:
            raise OutOfRange(
                f"A worst case over {len(self.elements)} elements has too many corners; {MOST_CORNERS} are "
                "allowed. Use monte_carlo.",
                value=length_error,
            )
        signs = product((1.0, -1.0), repeat=len(self.elements))
        errors = error * np.array(list(signs)).T
        return plain(np.max(np.abs(self.as_built(errors).input_reflection()), axis=-1))

    @property
    def shape(self) -> tuple[int, ...]:
        """The shape S of the arrays in it; () for a network of single numbers."""
        values = [v for element in self.elements for v in vars(element).values()]
        return common_shape(*map(np.shape, (self.load_impedance, self.line_impedance, *values)))

    @property
    def total_line(self) -> Real:
        """All line used, stubs included, in wavelengths."""
        return plain(sum(getattr(element, "length", 0.0) for element in self.elements))

    @property
    def limits(self) -> tuple[float, float]:
        """Frequency ratios between which every element is known: pieces of a real line are not everywhere."""
        ends = [getattr(element, "limits", (0.0, np.inf)) for element in self.elements]
        return max((low for low, _ in ends), default=0.0), min((high for _, high in ends), default=np.inf)

    def _over(self, ratio: Array, load: State | None) -> Array:
        reflection = self._reflection(self.input_state(ratio, load), ratio)
        whole = np.broadcast_shapes(reflection.shape, ratio.shape)  # more only where no element looked at it
        return reflection if reflection.shape == whole else np.broadcast_to(reflection, whole).copy()

    @property
    def generator_impedance(self) -> Complex:
        """Ohms of the generator that the network is made for, of shape S: its line's."""
        return self.line_impedance

    def waves(self, state: State, ratio: Array) -> State:
        """What returns to the generator and what it sends, up to a common factor: their quotient is the
        reflection."""
        (voltage, current), own = state, spread(self.generator_impedance, ratio)
        return voltage - np.conj(own) * current, voltage + own * current

    def _reflection(self, state: State, ratio: Array) -> Array:
        returned, sent = self.waves(state, ratio)
        with np.errstate(invalid="ignore"):  # nan marks "no solution" in an array of networks
            return np.asarray(returned / sent)

    def _rows(self) -> Rows:
        described = [row for element in self.elements for row in _element_rows(element)]
        load, line = amount(self.load_impedance, "ohm"), amount(self.line_impedance, "ohm")
        return [("load", load), *described, ("matched to", line)]


def is_made_of(elements: tuple[Element, ...], kinds: tuple[type, ...]) -> bool:
    return len(elements) == len(kinds) and all(map(isinstance, elements, kinds))


def _refuse_elements(network: MatchingNetwork) -> NoReturn:
    name = type(network).__name__
    allowed = " or ".join(" and ".join(kind.__name__ for kind in kinds) for kinds in network.made_of)
    raise NotANetwork(
        f"A {name} is made of {allowed}, load first. Use MatchingNetwork for any other elements.",
        value=network.elements,
    )


def one_network(network: Any) -> MatchingNetwork:
    """The network itself.  Raises NotANetwork for anything else, such as all solutions of a designer at once."""
    if isinstance(network, MatchingNetwork):
        return network
    several = "; take one of these, such as solutions[0]" if isinstance(network, tuple) else ""
    raise NotANetwork(
        f"A matching network is wanted, such as single_stub(60 - 80j, 50)[0], not {shown(network)}{several}.",
        value=network,
    )


def impedance_state(impedance: ArrayLike) -> State:
    """The state at a load, for the evaluator: an open circuit has voltage and no current."""
    load = passive_impedance(impedance)
    open_circuit = np.isinf(load.real)
    return np.where(open_circuit, 1.0, load), np.where(open_circuit, 0.0, 1.0)


def _for_each(errors: Array, count: int, trials: tuple[int, ...]) -> Array:
    """Errors of shape (count,) + some of the trials' axes, spread over all of them."""
    if errors.ndim:
        missing = len(trials) - (errors.ndim - 1)
        errors = errors.reshape(errors.shape[:1] + (1,) * missing + errors.shape[1:])
    return np.broadcast_to(errors, (count, *trials))


def _checked_elements(elements: Any) -> tuple[Element, ...]:
    """Elements as a tuple.  Raises NotANetwork for anything else."""
    try:
        given = tuple(elements)
    except TypeError:
        given = (None,)
    if not all(isinstance(e, KNOWN) or (isinstance(e, Element) and not isinstance(e, type)) for e in given):
        raise NotANetwork(
            "The elements of a network must be a tuple such as (Section(0.1, 50), Stub(0.2, 50)), load first, not "
            f"{shown(elements)}.",
            value=elements,
        )
    return given


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
    return np.where(open_circuit, INFINITE, wrong)


def _element_rows(element: Element) -> Rows:
    return element._rows() if isinstance(element, Readable) else [("element", repr(element))]
