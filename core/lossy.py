"""The single-stub match solved again for lines that lose power.

A lossy line turns the reflection and shrinks it, and a lossy stub takes power itself: the two conditions of a
match, conductance one and susceptance zero, no longer fall apart into two closed forms and are solved
together.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import broadcast, plain
from core.checks import Array, passive_impedance
from core.elements import Section, Stub
from core.line import reflection_coefficient
from core.ranges import real_in_range
from core.solutions import Solutions
from core.stubs import ALREADY_MATCHED, SingleStub, single_stub

LOST = (
    "With this loss no single stub of this kind matches the load: the stub takes power itself, and line and "
    "stub together never show a conductance of exactly one. Try less loss, the other end, or, near a match, "
    "no stub."
)
ONE_LOST = "With this loss only one solution is left: in the other the stub would take too much power itself."

# Wavelengths that one step of the search may take, and the whole of it; steps at full loss; |reflection|.
LONGEST_STEP, LONGEST_MOVE, LAST_STEPS, MATCHED = 0.03, 0.25, 40, 1e-10


def lossy_single_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    attenuation: ArrayLike,
    stub_attenuation: ArrayLike | None = None,
    stub_impedance: ArrayLike | None = None,
    placement: str = "shunt",
    end: str = "short",
) -> Solutions[SingleStub]:
    """The single-stub matches of a load with lossy line and stub: what near and far of `single_stub` become.

    load_impedance, line_impedance, stub_impedance : ohms, as for `single_stub`; all arguments broadcast.
    attenuation, stub_attenuation : nepers per wavelength >= 0; the stub's is by default the line's.
    placement : "shunt" or "series".  end : "short" or "open".
    Returns `Solutions` of `SingleStub` networks whose elements carry the attenuation, near first. Lengths are
    the shortest that are not negative; each design has companions near half a wave longer, which waste more.
    For one load, those that exist, with the reason in `.reason` where one is missing; for arrays always two,
    nan where there is none. Each is verified by the evaluator: |reflection| <= 1e-10.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, UnknownChoice.
    Source: Newton's method on y_line(d) + y_stub(l) = 1 (z for a series stub), where dy/dl = gamma (1 - y^2)
    on any line, followed from no loss to the full loss.

    >>> near, far = lossy_single_stub(60 - 80j, 50, attenuation=0.06)
    >>> round(near.distance, 4), round(near.stub_length, 4)
    (0.1087, 0.0971)
    """
    loss = real_in_range(attenuation, "attenuation", "nepers per wavelength", at_least=0)
    stub_loss = loss if stub_attenuation is None else stub_attenuation
    stub_loss = real_in_range(stub_loss, "stub attenuation", "nepers per wavelength", at_least=0)
    lossless = single_stub(
        np.atleast_1d(passive_impedance(load_impedance)), line_impedance, stub_impedance, placement, end
    )
    problems, found = _Junctions.like(lossless[0], loss, stub_loss), []
    for network in lossless:
        starts = np.broadcast_arrays(network.distance, network.stub_length, loss, stub_loss)[:2]
        found.append(problems.solve(np.array([start.ravel() for start in starts])))
    own = 1.0 if stub_impedance is None else stub_impedance
    given = (load_impedance, line_impedance, own, loss, stub_loss)
    shape = np.broadcast_shapes(*(np.shape(value) for value in given))
    ordered = [problems.network(lengths, shape) for lengths in _shorter_first(*found)]
    return _as_solutions(ordered, lossless.reason)


@dataclass(frozen=True)
class _Junctions:
    """Many single-stub problems, in flat arrays, and the equation at their junctions: w_line + w_stub = 1.

    w is the immittance normalised to the line: admittance for shunt stubs, impedance for series ones."""

    load: Array
    line: Array
    stub: Array
    loss: Array
    stub_loss: Array
    placement: str
    end: str

    @classmethod
    def like(cls, lossless: SingleStub, loss: Array, stub_loss: Array) -> _Junctions:
        """The problems that these lossless networks solve, with loss."""
        section, stub = lossless.elements
        impedances = lossless.load_impedance, section.impedance, stub.impedance
        load, line, own, loss, stub_loss = map(np.ravel, broadcast(*impedances, loss, stub_loss))
        return cls(load, line, own, loss, stub_loss, stub.placement, stub.end)

    def part(self, which: Array) -> _Junctions:
        """Some of them."""
        names = ("load", "line", "stub", "loss", "stub_loss")
        return replace(self, **{name: getattr(self, name)[which] for name in names})

    def network(self, lengths: Array, shape: tuple[int, ...] = (-1,)) -> SingleStub:
        """The design with these lengths, which are of shape (2, loads), in the shape asked for."""
        values = (self.load, self.line, self.stub, self.loss, self.stub_loss, *lengths)
        load, line, own, loss, stub_loss, distance, length = (plain(value.reshape(shape)) for value in values)
        stub = Stub(length, own, self.placement, self.end, stub_loss)
        return SingleStub(load, line, (Section(distance, line, loss), stub))

    def step(self, lengths: Array, share: float) -> Array:
        """Newton's step in (distance, stub length) with this share of the loss, none over `LONGEST_STEP`.

        On any line dw/dl = gamma (1 - w^2)."""
        shunt = self.placement == "shunt"
        reflection = reflection_coefficient(self.load, self.line) * (-1 if shunt else 1)
        ratio = self.line / self.stub if shunt else self.stub / self.line
        line, stub = share * self.loss + 2j * np.pi, share * self.stub_loss + 2j * np.pi
        seen = _immittance(reflection * np.exp(-2 * line * lengths[0]))
        end = 1 if shunt == (self.end == "short") else -1
        shown = _immittance(end * np.exp(-2 * stub * lengths[1]))
        error = seen + ratio * shown - 1
        by_distance, by_length = line * (1 - seen**2), ratio * stub * (1 - shown**2)
        area = _cross(by_distance, by_length)
        steps = np.array([_cross(by_length, error), _cross(error, by_distance)])
        steps = steps / np.where(area == 0, 1.0, area)
        return steps / np.maximum(1.0, np.abs(steps).max(axis=0) / LONGEST_STEP)

    def follow(self, lengths: Array) -> Array:
        """From matches without loss to matches with all of it; verify what comes out, it need not be one."""
        with np.errstate(all="ignore"):  # a branch that ends may run off to anywhere
            for share in np.linspace(0.125, 0.875, 7):
                lengths = lengths + self.step(lengths, share)
            moving = np.arange(lengths.shape[1])
            for _ in range(LAST_STEPS):
                step = self.part(moving).step(lengths[:, moving], 1.0)
                lengths[:, moving] += step
                moving = moving[np.abs(step).max(axis=0) >= 1e-15]
        return lengths

    def solve(self, lossless: Array) -> Array:
        """Lengths with loss, nan where none are found, from lossless ones of shape (2, loads).

        Starts are also half waves shorter or longer: loss may move a length through zero."""
        found = np.full(lossless.shape, np.nan)
        for shift in product((-0.5, 0.0, 0.5), repeat=2):
            starts = lossless + np.array(shift)[:, None]
            todo = np.flatnonzero(np.isnan(found[0]) & np.all(starts > -LONGEST_MOVE, axis=0))
            part, start = self.part(todo), starts[:, todo]
            lengths = part.follow(start)
            good = part.matched(lengths) & np.all(np.abs(lengths - start) < LONGEST_MOVE, axis=0)
            found[:, todo[good]] = np.maximum(lengths[:, good], 0.0)
        return found

    def matched(self, lengths: Array) -> Array:
        """Whether these lengths, down to rounding below zero, are a match by the evaluator."""
        possible = np.all(np.isfinite(lengths) & (lengths > -1e-14), axis=0)
        network = self.network(np.where(possible, np.maximum(lengths, 0.0), np.nan))
        return possible & (np.abs(np.nan_to_num(network.input_reflection(), nan=1.0)) <= MATCHED)


def _shorter_first(near: Array, far: Array) -> tuple[Array, Array]:
    """By distance, and what there is before what there is not."""
    swap = (far[0] < near[0]) | np.isnan(near[0])
    return np.where(swap, far, near), np.where(swap, near, far)


def _as_solutions(networks: list[SingleStub], lossless_reason: str) -> Solutions[SingleStub]:
    """For arrays both; for one load those that exist, once each, and why another is missing."""
    missing = [bool(np.any(np.isnan(network.distance))) for network in networks]
    if np.ndim(networks[0].distance):
        return Solutions(tuple(networks), lossless_reason or (LOST if any(missing) else ""))
    kept = [network for network, gone in zip(networks, missing, strict=True) if not gone]
    if len(kept) == 2 and kept[0].load_impedance == kept[0].line_impedance:
        return Solutions((kept[0],), ALREADY_MATCHED)
    return Solutions(tuple(kept), lossless_reason or ("", ONE_LOST, LOST)[sum(missing)])


def _immittance(reflection: Array) -> Array:
    return (1 + reflection) / (1 - reflection)


def _cross(first: Array, second: Array) -> Array:
    return first.real * second.imag - first.imag * second.real
