"""From wavelengths to copper: what a line is made of, and a network's pieces cut to a step that can be made.

Frequencies in hertz; lengths in metres or millimetres, as the name says. Everything broadcasts.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Complex, Real, broadcast, common_shape, plain, store
from core.checks import Array, real_impedance, yes_or_no
from core.elements import Section, Stub, is_line
from core.errors import NotANetwork, OutOfRange
from core.line import swr
from core.network import MatchingNetwork, one_network
from core.ranges import one_number, real_in_range
from core.readable import Readable, Rows, amount, shown
from core.roots import bisect
from core.solutions import Solutions

FINEST_STEP = 1e-6  # millimetres; finer, and a cut is as good as exact
SPEED_OF_LIGHT = 299_792_458.0
"""Metres a second in vacuum: exact, by the definition of the metre (SI Brochure, 9th ed.)."""


def guide_wavelength_m(frequency: ArrayLike, velocity_factor: ArrayLike = 1.0) -> Real:
    """Length of one wave on a line, in metres: speed of light times velocity factor over frequency.

    frequency : hertz > 0, any shape.  velocity_factor : speed on the line over that of light, above 0 up to
    1; broadcasts with the frequency.  Returns the broadcast shape.  Raises OutOfRange, ShapesDiffer.
    Source: Pozar, 4th ed., eq. 2.10 and 2.11 (from memory).

    >>> round(guide_wavelength_m(434e6, 0.66), 4)
    0.4559
    """
    frequency = real_in_range(frequency, "frequency", "in hertz", above=0)
    factor = real_in_range(velocity_factor, "velocity factor", "such as 0.66", above=0, up_to=1)
    factor, frequency = broadcast(factor, frequency)
    return plain(SPEED_OF_LIGHT * factor / frequency)


class Board(Readable):
    """What a line is made of. Impedances in ohms, of any shape."""

    def velocity_factor(self, impedance: ArrayLike) -> Real:
        """Speed of a wave on a line of this impedance, over that of light."""
        raise NotImplementedError

    def width_mm(self, impedance: ArrayLike) -> Real:
        """Width of the strip that has this impedance, in millimetres; nan where there is no strip."""
        return plain(np.full(real_impedance(impedance).shape, np.nan))

    def open_end_mm(self, impedance: ArrayLike) -> Real:
        """By how much an open end acts longer than it is, in millimetres; 0 where that is not modelled."""
        return plain(np.zeros(real_impedance(impedance).shape))

    def guide_wavelength_m(self, frequency: ArrayLike, impedance: ArrayLike) -> Real:
        """Length of one wave on a line of this impedance, in metres; frequency in hertz.  Raises
        OutOfRange."""
        return guide_wavelength_m(frequency, self.velocity_factor(impedance))


@dataclass(frozen=True)
class Cable(Board):
    """Any line that is known by its velocity factor alone, whatever its impedance.  Raises OutOfRange.

    >>> Cable(0.66).guide_wavelength_m(434e6, 50) == guide_wavelength_m(434e6, 0.66)
    True
    """

    factor: Any = 1.0

    def __post_init__(self) -> None:
        store(self, factor=real_in_range(self.factor, "velocity factor", "such as 0.66", above=0, up_to=1))

    def velocity_factor(self, impedance: ArrayLike) -> Real:
        return plain(broadcast(self.factor, real_impedance(impedance))[0])

    def _rows(self) -> Rows:
        return [("velocity factor", amount(self.factor))]


class StripBoard(Board):
    """A board whose strips have an impedance that falls as they get wider: what microstrip and stripline
    share."""

    def impedance(self, width_mm: ArrayLike) -> Real:
        """Characteristic impedance in ohms of a strip of this width in millimetres, any shape.

        Raises OutOfRange where the formulas do not hold."""
        raise NotImplementedError

    def effective_permittivity(self, width_mm: ArrayLike) -> Real:
        """Relative permittivity that a wave on a strip of this width meets, >= 1."""
        raise NotImplementedError

    def widths_mm(self) -> tuple[float, float]:
        """Narrowest and widest strip for which the formulas hold."""
        raise NotImplementedError

    def velocity_factor(self, impedance: ArrayLike) -> Real:
        return plain(1 / np.sqrt(self.effective_permittivity(self.width_mm(impedance))))

    def width_mm(self, impedance: ArrayLike) -> Real:
        """Width in millimetres of the strip with this impedance: `impedance` turned round, exact to rounding.

        Raises NotAnImpedance; OutOfRange, with what is possible, for one that no strip here has."""
        return plain(self._width_by_halving(self._possible(impedance)))

    def _possible(self, impedance: ArrayLike) -> Array:
        narrow, wide = self.widths_mm()
        high, low = self.impedance(narrow), self.impedance(wide)
        wanted = real_impedance(impedance)
        return real_in_range(
            wanted, "impedance of a strip on this board", "in ohms", at_least=low, up_to=high
        )

    def _width_by_halving(self, wanted: Array) -> Array:
        first, last = self.widths_mm()
        narrow, wide = np.full(wanted.shape, np.log(first)), np.full(wanted.shape, np.log(last))
        return np.exp(bisect(lambda log: wanted - self.impedance(np.exp(log)), narrow, wide))

    def _checked_width(self, width_mm: ArrayLike) -> Array:
        """A width for which the formulas hold, with a hair's breadth for rounding."""
        first, last = (
            width * (1 + hair) for width, hair in zip(self.widths_mm(), (-1e-12, 1e-12), strict=True)
        )
        return real_in_range(width_mm, "width of the strip", "in millimetres", at_least=first, up_to=last)


@dataclass(frozen=True)
class Piece(Readable):
    """One piece of line as it is made, in millimetres: its width (nan for a cable), and its length.

    exact_mm : the length wanted, less what an open end adds.  cut_mm : that, rounded to the step."""

    element: Section | Stub
    width_mm: Any
    exact_mm: Any
    cut_mm: Any

    def _rows(self) -> Rows:
        name = "line" if isinstance(self.element, Section) else f"{self.element.placement} stub"
        length = ("length", amount(self.cut_mm, "mm", 6))
        width = [] if np.all(np.isnan(self.width_mm)) else [("width", amount(self.width_mm, "mm"))]
        return [(name, amount(self.element.impedance, "ohm")), length, *width]


@dataclass(frozen=True)
class Layout(Readable):
    """A network as pieces of line, and what their rounding does to the match.

    pieces : load first.  network : the same design with the lengths as cut, in wavelengths; ask it for its
    response or its tolerance."""

    pieces: tuple[Piece, ...]
    network: MatchingNetwork

    @property
    def reflection(self) -> Complex:
        """Complex input reflection with the lengths as cut, at the design frequency."""
        return self.network.input_reflection()

    @property
    def swr(self) -> Real:
        """Standing-wave ratio with the lengths as cut, >= 1."""
        return swr(self.reflection)

    def _rows(self) -> Rows:
        pieces = [row for piece in self.pieces for row in piece._rows()]
        return [*pieces, ("SWR as cut", amount(self.swr))]


@overload
def lay_out(
    network: MatchingNetwork,
    frequency: ArrayLike,
    board: Board,
    step_mm: float = 0.1,
    open_end_correction: bool = False,
) -> Layout: ...
@overload
def lay_out(
    network: Solutions[Any],
    frequency: ArrayLike,
    board: Board,
    step_mm: float = 0.1,
    open_end_correction: bool = False,
) -> tuple[Layout, ...]: ...
def lay_out(
    network: MatchingNetwork | Solutions[Any],
    frequency: ArrayLike,
    board: Board,
    step_mm: float = 0.1,
    open_end_correction: bool = False,
) -> Layout | tuple[Layout, ...]:
    """The pieces of a network in millimetres, rounded to a step that can be made, and the match they then
    give.

    network : any; its lumped reactances are left as they are. Of all the solutions that a designer returns, as many
    layouts in their order.  frequency : the design frequency in hertz,
    broadcasts with the network's shape S.  board : `Cable`, `Microstrip` or `Stripline`.
    step_mm : lengths are cut to whole multiples of it; 0 (or below a millionth) for exact lengths.
    open_end_correction : shorten stubs with an open end by what their end adds; one that would then be
    shorter than nothing is made half a wave longer.
    Raises OutOfRange, NotAnImpedance, NotANetwork, ShapesDiffer.
    Source: length over wavelength; the board names that of the wavelength.

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> layout = lay_out(near, 434e6, Cable(0.66), step_mm=1)
    >>> layout.pieces[1].cut_mm, round(layout.swr, 3)
    (43.0, 1.028)
    """
    if isinstance(network, Solutions):
        return tuple(lay_out(one, frequency, board, step_mm, open_end_correction) for one in network)
    network, board = one_network(network), _one_board(board)
    step = one_number(step_mm, "step", "in millimetres", at_least=0)
    hertz = real_in_range(frequency, "frequency", "in hertz", above=0)
    common_shape(network.shape, hertz.shape)
    correct = yes_or_no(open_end_correction, "open-end correction")
    pieces, elements = [], []
    for element in network.elements:
        if is_line(element) and not isinstance(element, Section | Stub):
            raise OutOfRange(
                "A piece of real line has its metres already: lay out the design without it.", value=element
            )
        if isinstance(element, Section | Stub):
            piece, element = _piece(element, hertz, board, step, correct)
            pieces.append(piece)
        elements.append(element)
    return Layout(tuple(pieces), replace(network, elements=tuple(elements)))


def _one_board(board: Any) -> Board:
    if isinstance(board, Board):
        return board
    raise NotANetwork(
        f"A board or cable is wanted, such as Cable(0.66) or Microstrip(4.4, 1.6), not {shown(board)}.",
        value=board,
    )


def _piece(
    element: Section | Stub, frequency: ArrayLike, board: Board, step: float, correct: bool
) -> tuple[Piece, Section | Stub]:
    """The piece, and the element with the length it then has."""
    wave_mm = 1e3 * np.asarray(board.guide_wavelength_m(frequency, element.impedance))
    open_end = isinstance(element, Stub) and element.end == "open" and correct
    extra = np.asarray(board.open_end_mm(element.impedance)) if open_end else np.zeros(())
    exact = np.asarray(element.length) * wave_mm - extra
    exact = np.where(exact < 0, exact + wave_mm / 2, exact)
    cut = np.round(exact / step) * step if step >= FINEST_STEP else exact
    made = replace(element, length=plain((cut + extra) / wave_mm))
    return Piece(element, board.width_mm(element.impedance), plain(exact), plain(cut)), made
