"""What errors of making do to a match: the worst case, and what to expect.

Four kinds of error: the length of each line, in wavelengths; the impedance of each element, relative; the
velocity on all lines, relative; and the load, relative to its magnitude. The arrays of a network have a shape
S.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from itertools import product
from typing import Any

import numpy as np

from core.arrays import Real, plain
from core.checks import Array, choice, whole_number
from core.elements import is_line
from core.errors import OutOfRange, ShapesDiffer
from core.line import reflection_from_swr, swr
from core.network import MatchingNetwork, one_network
from core.ranges import one_number, real_in_range
from core.readable import Readable, Rows, amount, listed, shown

CHUNK = 2_000_000
"""Reflections computed at once: what fits in a small machine's memory."""


@dataclass(frozen=True)
class Errors(Readable):
    """How far off each kind of value may be, zero or more.

    length : wavelengths.  impedance : relative, of each line's impedance and each lumped reactance. Both are one
    number for all elements, or one for each, load first, so that a single one may vary alone.
    velocity : relative, the same for all lines.  load : relative to the load's magnitude, of its resistance
    and of its reactance alike.  Raises OutOfRange.

    >>> Errors(length=0.005, load=0.05)
    Errors(length: 0.005 wavelengths; impedance: 0 %; velocity: 0 %; load: 5 %)
    >>> Errors(length=(0.005, 0))
    Errors(length: 0.005, 0 wavelengths; impedance: 0 %; velocity: 0 %; load: 0 %)
    """

    length: float | Sequence[float] = 0.0
    impedance: float | Sequence[float] = 0.0
    velocity: float = 0.0
    load: float = 0.0

    def __post_init__(self) -> None:
        _each(
            self,
            "length",
            real_in_range(self.length, "error of length", "in wavelengths", at_least=0, up_to=1e6),
        )
        relative = partial(real_in_range, meaning="relative, such as 0.05", at_least=0, up_to=0.9)
        _each(self, "impedance", relative(self.impedance, "error of the impedance"))
        for name in ("velocity", "load"):
            one_number(
                getattr(self, name), f"error of the {name}", "relative, such as 0.05", at_least=0, up_to=0.9
            )

    def _rows(self) -> Rows:
        relative = [
            (name, listed(getattr(self, name), 100, "%")) for name in ("impedance", "velocity", "load")
        ]
        return [("length", listed(self.length, 1, "wavelengths")), *relative]


def one_errors(errors: Any) -> Errors:
    """The errors themselves.  Raises OutOfRange for anything else."""
    if not isinstance(errors, Errors):
        raise OutOfRange(
            f"Errors are wanted, such as Errors(length=0.005), not {shown(errors)}.", value=errors
        )
    return errors


def _each(errors: Errors, name: str, sizes: Array) -> None:
    """One number stays one; one for each element becomes a tuple of them."""
    if sizes.ndim > 1:
        raise OutOfRange(f"The errors of {name} must be one number, or one for each element.", value=sizes)
    object.__setattr__(errors, name, tuple(sizes.tolist()) if sizes.ndim else float(sizes))


@dataclass(frozen=True)
class WorstCase(Readable):
    """The largest |reflection| and the errors that make it.

    reflection : shape S.  lengths, impedances : the error of each element there, shape (elements,) + S.
    velocity, load : shape S; the load's error is complex, for resistance and reactance."""

    reflection: Any
    lengths: Any
    impedances: Any
    velocity: Any
    load: Any

    @property
    def swr(self) -> Real:
        """Standing-wave ratio of the worst case, >= 1."""
        return swr(self.reflection)

    def _rows(self) -> Rows:
        return [("worst |reflection|", amount(self.reflection)), ("SWR", amount(self.swr))]


def worst_case(network: MatchingNetwork, errors: Errors) -> WorstCase:
    """The worst of all corners: every value off by its whole error, one way or the other; a length that would
    be less than nothing is nothing.

    network : any, of shape S.  errors : how far off each kind of value may be.
    While errors are small the reflection is a linear function of them and its magnitude is largest at a
    corner; for large errors use `monte_carlo` as well. Returns shape S; nan where the network is no solution.
    Raises OutOfRange where more than 16 values are in error, NotANetwork, ShapesDiffer.
    Source: a convex function on a box is largest at a corner, any text on optimisation.

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> worst_case(near, Errors(length=0.005))
    WorstCase(worst |reflection|: 0.1002; SWR: 1.223)
    """
    network, errors = one_network(network), one_errors(errors)
    table, count = _corners(network, errors), len(network.elements)
    shape = np.shape(network.input_reflection())
    worst, place = np.full(shape, -np.inf), np.zeros(shape, dtype=int)
    step = max(1, CHUNK // max(1, worst.size))
    for start in range(0, table.shape[1], step):
        sizes = _reflections(network, table[:, start : start + step])
        largest = np.max(sizes, axis=-1)
        place = np.where(largest > worst, np.argmax(sizes, axis=-1) + start, place)
        worst = np.where(largest > worst, largest, worst)
    there = table[:, place]
    lengths, impedances, (velocity, resistance, reactance) = np.split(there, [count, 2 * count])
    load = plain(resistance + 1j * reactance)
    return WorstCase(plain(np.where(worst < 0, np.nan, worst)), lengths, impedances, plain(velocity), load)


@dataclass(frozen=True)
class Spread(Readable):
    """What many networks made with chance errors reflect: |reflection| of shape S + (trials,)."""

    reflection: Any

    @property
    def mean(self) -> Real:
        """Mean |reflection|, shape S."""
        return plain(np.mean(self.reflection, axis=-1))

    def percentile(self, percentage: float) -> Real:
        """|reflection| that this percentage (0 to 100) of the trials does not exceed, shape S.  Raises OutOfRange."""
        share = one_number(percentage, "percentage", "from 0 to 100", at_least=0, up_to=100)
        return plain(np.percentile(self.reflection, share, axis=-1))

    def share_within(self, limit: float) -> Real:
        """Fraction of the trials whose standing-wave ratio is at most this limit, > 1: the yield.  Shape
        S.  Raises OutOfRange."""
        ratio = one_number(limit, "limit of the standing-wave ratio", "such as 2", above=1)
        return plain(np.mean(self.reflection <= reflection_from_swr(ratio), axis=-1))

    def _rows(self) -> Rows:
        trials = np.shape(self.reflection)[-1]
        rows = ("mean |reflection|", self.mean), ("not exceeded by 95 %", self.percentile(95))
        return [("trials", str(trials)), *((label, amount(value)) for label, value in rows)]


def monte_carlo(
    network: MatchingNetwork,
    errors: Errors,
    trials: int = 10_000,
    seed: int = 0,
    distribution: str = "uniform",
) -> Spread:
    """Reflection of many networks made with chance errors, each independent; the same seed, the same ones.

    network : any, of shape S.  errors : how far off each kind of value may be.  trials, seed : whole numbers.
    distribution : "uniform", every error up to the stated one as likely as another; or "normal", the stated
    error being three standard deviations (common practice, no source), and larger ones rare but possible. All
    networks of an array meet the same errors, so that they can be compared.
    Returns |reflection| of shape S + (trials,).  Raises OutOfRange, UnknownChoice, NotANetwork, ShapesDiffer.
    Source: none needed beside the network's evaluator.

    >>> from core.stubs import single_stub
    >>> near, far = single_stub(60 - 80j, 50)
    >>> monte_carlo(near, Errors(length=0.005)).share_within(1.25)
    1.0
    """
    choice(distribution, ("uniform", "normal"), "distribution")
    network, errors = one_network(network), one_errors(errors)
    trials, seed = (
        whole_number(trials, "number of trials", at_least=1),
        whole_number(seed, "seed", up_to=2**63),
    )
    sizes, chance = _sizes(network, errors), np.random.default_rng(seed)
    shape = (sizes.size, trials)
    drawn = chance.uniform(-1, 1, shape) if distribution == "uniform" else chance.normal(0, 1 / 3, shape)
    return Spread(_reflections(network, sizes[:, None] * drawn))


def _sizes(network: MatchingNetwork, errors: Errors) -> Array:
    """The largest error of each value: lengths, impedances, velocity, the load's resistance and reactance."""
    lines = np.array([is_line(element) for element in network.elements], dtype=float)
    lengths, impedances = (_for_each(size, network) for size in (errors.length, errors.impedance))
    lengths = lengths * lines
    return np.array([*lengths, *impedances, errors.velocity, errors.load, errors.load], dtype=float)


def _for_each(size: float | Sequence[float], network: MatchingNetwork) -> Array:
    count = len(network.elements)
    if np.ndim(size) and np.size(size) != count:
        raise ShapesDiffer(
            f"The network has {count} elements and {np.size(size)} errors are given: give one for each, load first.",
            value=size,
        )
    return np.broadcast_to(size, count)


def _corners(network: MatchingNetwork, errors: Errors) -> Array:
    """Every combination of signs, one to a column, of the errors that are not zero."""
    sizes = _sizes(network, errors)
    wrong = np.flatnonzero(sizes)
    if wrong.size > 16:
        raise OutOfRange(
            f"A worst case over {wrong.size} values has too many corners; 16 are allowed. Use a Monte Carlo run.",
            value=errors,
        )
    signs = np.array(list(product((1.0, -1.0), repeat=wrong.size))).T
    table = np.zeros((sizes.size, signs.shape[1]))
    table[wrong] = sizes[wrong, None] * signs
    return table


def _reflections(network: MatchingNetwork, table: Array) -> Array:
    count = len(network.elements)
    lengths, impedances, (velocity, resistance, reactance) = np.split(table, [count, 2 * count])
    built = network.as_built(lengths, impedances, velocity, resistance + 1j * reactance)
    return np.abs(built.input_reflection())
