"""Pieces of a matching network cut from a line as it is: loss and impedance change with frequency.

They stand in a network beside `Section` and `Stub`, and the one evaluator asks them the same. Their arrays have
the network's shape S; the line that they are cut from is one line, of single numbers.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, Self

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Array, Complex, Real, common_shape, plain, spread, store
from core.checks import choice, of_kind
from core.elements import ENDS, PLACEMENTS, Branch, Section, State, Stub
from core.errors import OutOfRange
from core.line import lost_in
from core.network import MatchingNetwork
from core.ranges import real_in_range
from core.readable import Readable, Rows, amount, wavelengths
from core.real_line import LineModel, any_frequency, length_in_metres, one_frequency


@dataclass(frozen=True)
class RealPiece(Readable):
    """What `RealSection` and `RealStub` share: metres of a line, and what one wavelength is at design.

    impedance_scale, velocity_scale : what a piece as built has of the line's, 1 for a piece as meant. A piece may
    lose 300 nepers; beyond, what is left of a wave is no number, and it raises OutOfRange."""

    length_m: Any
    line: LineModel
    design_frequency: Any
    impedance_scale: Any = field(default=1.0, kw_only=True)
    velocity_scale: Any = field(default=1.0, kw_only=True)

    def __post_init__(self) -> None:
        store(self, length_m=length_in_metres(self.length_m, missing=True))
        for scale in ("impedance_scale", "velocity_scale"):
            known = real_in_range(
                getattr(self, scale), scale.replace("_", " "), "near 1", at_least=1e-6, up_to=1e6
            )
            store(self, **{scale: known})
        of_kind(self.line, LineModel, "line", "a model of one, such as usual_cable('RG-58')")
        design = any_frequency(self.design_frequency, "design frequency")
        store(self, design_frequency=design)
        values = self.length_m, self.impedance_scale, self.velocity_scale, design
        common_shape(*map(np.shape, values))
        if np.shape(self.line.characteristic_impedance(design)) != design.shape:
            raise OutOfRange(
                "A piece is cut from one line: its impedance, loss and so on must be single numbers.",
                value=self.line,
            )

    @property
    def length(self) -> Real:
        """Wavelengths at the design frequency."""
        return plain(np.asarray(self.length_m) / self._wave_m())

    @property
    def impedance(self) -> Complex:
        """Complex ohms at the design frequency."""
        own = self.line.characteristic_impedance(self.design_frequency)
        return plain(np.asarray(own) * self.impedance_scale)

    @property
    def attenuation(self) -> Real:
        """Nepers per wavelength at the design frequency."""
        return plain(np.real(self.line.propagation_constant(self.design_frequency)) * self._wave_m())

    @property
    def limits(self) -> tuple[float, float]:
        """The ratios to the design frequency between which the line's model holds."""
        first, last = self.line.frequency_range
        design = np.asarray(self.design_frequency, dtype=float)
        return float(np.max(first / design, initial=0.0)), float(np.min(last / design, initial=np.inf))

    def detuned(self, ratio: ArrayLike) -> Self:
        """The piece as it is at `ratio` times its design frequency; the ratio broadcasts with S."""
        return replace(self, design_frequency=plain(np.asarray(self.design_frequency) * ratio))

    def as_built(self, length_error: Array, impedance_error: Array, velocity_error: Array) -> Self:
        """The piece with errors of shape T in its values, of shape S + T; its length stops at nothing.

        As for a `Section`, an error of the velocity changes wavelengths and leaves the loss of the piece."""
        design = spread(self.design_frequency, length_error)
        wave = np.asarray(self.line.wavelength_m(design))
        return replace(
            self,
            length_m=np.maximum(spread(self.length_m, length_error) + wave * length_error, 0.0),
            design_frequency=design,
            impedance_scale=spread(self.impedance_scale, impedance_error) * (1 + impedance_error),
            velocity_scale=spread(self.velocity_scale, velocity_error) * (1 + velocity_error),
        )

    def _wave_m(self) -> Array:
        return np.asarray(self.line.wavelength_m(self.design_frequency)) * self.velocity_scale

    def _constants(self, ratio: Array) -> tuple[Array, Array, Array]:
        """Nepers and radians of the whole piece, and its complex impedance.  Shape S + F."""
        constant, impedance = self.line._constants(
            self.line._within(spread(self.design_frequency, ratio) * ratio)
        )
        metres = spread(self.length_m, ratio)
        turned = constant.imag * metres / spread(self.velocity_scale, ratio)
        return lost_in(metres, constant.real), turned, impedance * spread(self.impedance_scale, ratio)

    def _functions(self, ratio: Array, fraction: ArrayLike = 1.0) -> tuple[Array, Array, Array]:
        """cosh and sinh of propagation constant times length, and the line's impedance.  Shape S + F."""
        lost, turned, impedance = self._constants(ratio)
        lost, turned = lost * fraction, turned * fraction
        cosine, sine, grown, shrunk = np.cos(turned), np.sin(turned), np.cosh(lost), np.sinh(lost)
        return grown * cosine + 1j * shrunk * sine, shrunk * cosine + 1j * grown * sine, impedance

    def _text(self) -> str:
        return f"{amount(self.length_m, 'm')}, {wavelengths(self.length)} of {amount(self.impedance, 'ohm')}"


@dataclass(frozen=True, repr=False)
class RealSection(RealPiece):
    """A section between load and generator, cut from a line as it is.

    length_m : metres >= 0, shape S.  line : a model, such as `LossyLine`.  design_frequency : hertz, to which the
    network's frequency ratios refer; of shape S or one number.  Raises OutOfRange.
    Source: the chain matrix of a line; Pozar, 4th ed., table 4.1 (from memory), with complex impedance.

    >>> from core.cables import usual_cable
    >>> RealSection(0.114, usual_cable("RG-58"), 434e6)
    RealSection(line: 0.114 m, 0.2507 wavelengths of 50.12-0.09218j ohm)
    """

    def act(self, state: State, ratio: Array, fraction: ArrayLike = 1.0) -> State:
        """The state on the generator's side, as the evaluator asks for it."""
        voltage, current = state
        cosh, sinh, impedance = self._functions(ratio, fraction)
        return voltage * cosh + impedance * current * sinh, current * cosh + voltage * sinh / impedance

    def factor(self, ratio: Array) -> ArrayLike:
        """One: a section's state is the voltage and current that are there."""
        return 1.0

    def heat(self, state: State, ratio: Array) -> Array:
        """What both waves lose, and what they do together on a line whose impedance is not real."""
        lost, turned, impedance = self._constants(ratio)
        voltage, drop = state[0], impedance * state[1]
        coming, returned = voltage + drop, voltage - drop
        waves = np.abs(coming) ** 2 * np.expm1(2 * lost) - np.abs(returned) ** 2 * np.expm1(-2 * lost)
        together = np.imag(returned * np.conj(coming) * np.expm1(-2j * turned))
        return (impedance.real * waves - 2 * impedance.imag * together) / (8 * np.abs(impedance) ** 2)

    def _rows(self) -> Rows:
        return [("line", self._text())]


@dataclass(frozen=True, repr=False)
class RealStub(RealPiece, Branch):
    """A branch with a short or open end, across the line or in it, cut from a line as it is.

    length_m, line, design_frequency : as for `RealSection`.  placement : "shunt" or "series".
    end : "short" or "open".  Raises OutOfRange, UnknownChoice.
    Source: the input impedance of a line without load, as `RealSection`."""

    placement: str = "shunt"
    end: str = "short"

    def __post_init__(self) -> None:
        super().__post_init__()
        choice(self.placement, PLACEMENTS, "placement")
        choice(self.end, ENDS, "end")

    def impedance_fraction(self, ratio: Array) -> State:
        """The stub's input impedance in ohms as numerator and denominator."""
        cosh, sinh, impedance = self._functions(ratio)
        return (impedance * sinh, cosh) if self.end == "short" else (impedance * cosh, sinh)

    def _rows(self) -> Rows:
        return [(f"{self.placement} stub, {self.end} end", self._text())]


def cut_from_line(
    network: MatchingNetwork, line: LineModel | Callable[[Any], LineModel], design_frequency: float
) -> MatchingNetwork:
    """A design with its sections and stubs cut from a line as it is: what the line does to it over frequency.

    network : any, of `Section` and `Stub`; other elements stay as they are.  line : a model, from which every
    piece is cut whatever impedance it was designed for; or a function from a piece's impedance in ohms to a
    model, such as a board's strips.  design_frequency : hertz; each piece keeps its wavelengths there.
    Returns a network for the same evaluator, response, band and tolerance.  Raises OutOfRange.
    Source: length in wavelengths times wavelength on the line.

    >>> from core.cables import usual_cable
    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> round(abs(cut_from_line(near, usual_cable("RG-174"), 434e6).input_reflection()), 3)
    0.013
    """
    of_kind(network, MatchingNetwork, "network", "a MatchingNetwork")
    if not callable(line):
        of_kind(line, LineModel, "line", "a model of one, or a function from ohms to one")
    design = one_frequency(design_frequency, "design frequency")
    elements = tuple(
        _piece(element, line if isinstance(line, LineModel) else line(element.impedance), design)
        if isinstance(element, Section | Stub)
        else element
        for element in network.elements
    )
    return MatchingNetwork(network.load_impedance, network.line_impedance, elements)


def _piece(element: Section | Stub, line: LineModel, frequency: float) -> RealSection | RealStub:
    of_kind(line, LineModel, "line for each impedance", "a model of one")
    metres = plain(np.asarray(element.length) * line.wavelength_m(frequency))
    if isinstance(element, Section):
        return RealSection(metres, line, frequency)
    return RealStub(metres, line, frequency, element.placement, element.end)
