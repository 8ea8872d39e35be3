"""Matching with three stubs at fixed places: every load that takes power can be matched.

The first stub is there to lead the load out of what the other two cannot match; those then do as a double
stub does. Its length is free within limits, so there is a family of matches: name the length, or leave it to
a rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Real, broadcast, plain, quotient
from core.checks import Array, choice, finite_length, real_impedance
from core.designs import normalised_load, susceptance_of
from core.double_stubs import double_stub
from core.errors import CoreError, NotALength, NotAnImpedance, UnknownChoice
from core.forbidden import BOUNDARY, admittance_through, conductance_limit, no_spacing
from core.network import ENDS, MatchingNetwork, Section, Stub
from core.solutions import TAKES_NO_POWER, Solutions, sentences
from core.stubs import stub_length_for, stub_susceptance

ORDER = ("first", "second", "third")
LAST_TWO_TOGETHER = (
    "With no spacing between the second and the third stub, or one of whole half waves, these two act at one "
    "point, as one stub: what is left is a double stub. Choose another spacing."
)
FIRST_TWO_TOGETHER = (
    "With no spacing between the first and the second stub, or one of whole half waves, these two act at one "
    "point, and the first cannot lead the load out of the forbidden region of the others."
)
FORBIDDEN = (
    "With a first stub of this length the load shows a conductance of {:.6g} at the second, above the limit of "
    "{:.6g}; a first stub of {:.4f} wavelengths leads out of that."
)
FORBIDDEN_SOMEWHERE = (
    "With first stubs of these lengths some of the loads show too large a conductance at the second; another "
    "length, or leaving it to the rule, leads out of that."
)
SHORTED = "A short-circuited first stub of this length shorts the line, and nothing behind it can match that."
FIRST_IDLE = "The other two stubs match this load by themselves; the first adds nothing."
ON_THE_BOUNDARY = (
    "With this first stub the load is on the boundary of what the others match: two solutions are one."
)


@dataclass(frozen=True)
class TripleStub(MatchingNetwork):
    """Three times a section of line and a shunt stub, from the load on."""

    elements: tuple[Section, Stub, Section, Stub, Section, Stub]
    made_of = ((Section, Stub) * 3,)

    @property
    def first_distance(self) -> Real:
        """From the load to the first stub, wavelengths."""
        return self.elements[0].length

    @property
    def spacings(self) -> tuple[Real, Real]:
        """From the first stub to the second and from there to the third, wavelengths."""
        return self.elements[2].length, self.elements[4].length

    @property
    def stub_lengths(self) -> tuple[Real, Real, Real]:
        """Of the three stubs, wavelengths in [0, 0.5), each from its end."""
        return self.elements[1].length, self.elements[3].length, self.elements[5].length

    @property
    def stub_susceptances(self) -> tuple[Real, Real, Real]:
        """Of the three stubs, normalised to the line."""
        first, second, third = (susceptance_of(stub, self.line_impedance) for stub in self.elements[1::2])
        return first, second, third


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def triple_stub(
    load_impedance: ArrayLike,
    line_impedance: ArrayLike,
    spacings: Sequence[ArrayLike] | Array,
    first_distance: ArrayLike = 0.0,
    first_length: ArrayLike | None = None,
    ends: Sequence[str] = ("short", "short", "short"),
    stub_impedances: Sequence[ArrayLike] | Array | None = None,
) -> Solutions[TripleStub]:
    """Matches of a load with three shunt stubs.

    load_impedance : complex ohms, any shape; inf is an open circuit.  line_impedance : positive real ohms.
    spacings : from the first stub to the second and from there to the third, wavelengths >= 0.
    first_distance : from the load to the first stub, wavelengths >= 0.  first_length : of the first stub,
    wavelengths >= 0; by default by rule: where the other two stubs match the load by themselves the first
    adds nothing, else it brings the conductance at the second stub to half the limit there.
    ends : "short" or "open", of each stub, the one nearest the load first.  stub_impedances : positive real
    ohms, of each; by default the line's. All broadcast with the load.

    Returns `Solutions` of `TripleStub`, stub lengths in wavelengths in [0, 0.5). For a given first length the
    two that `double_stub` finds for the rest, the shorter second stub first; by the rule so for each of its
    settings of the first stub: one that adds nothing, or the two that lead to half the limit, the one that
    adds less susceptance first. One on the boundary; none, with the reason in `.reason`, in the forbidden
    region of a given first length, for spacings of whole half waves and for a load that takes no power. For
    arrays always two, by the rule four, nan where there is no match.
    Raises NotAnImpedance, NegativeResistance, NotALength, UnknownChoice, ShapesDiffer.
    Source: R. E. Collin, Foundations for Microwave Engineering, 2nd ed., section 5.6 (from memory); the last
    two stubs as Pozar, 4th ed., section 5.3 (from memory).

    >>> found = triple_stub(20, 50, (1 / 8, 1 / 8))
    >>> [round(length, 4) for length in found[0].stub_lengths]
    [0.25, 0.3548, 0.1924]
    """
    kinds = tuple(
        choice(end, ENDS, f"end of the {which} stub")
        for end, which in zip(_several(ends, 3, "ends", UnknownChoice), ORDER, strict=True)
    )
    load, line, z = normalised_load(load_impedance, line_impedance)
    apart = [
        finite_length(spacing, f"{which} spacing")
        for spacing, which in zip(_several(spacings, 2, "spacings", NotALength), ORDER, strict=False)
    ]
    distance = finite_length(first_distance, "first distance")
    stubs = [line] * 3 if stub_impedances is None else _impedances(stub_impedances)
    given = [load, line, z, *apart, distance, *stubs]
    asked = None if first_length is None else finite_length(first_length, "first length")
    load, line, z, *rest = broadcast(*given, *([] if asked is None else [asked]))
    apart, distance, stubs, lengths = rest[:2], rest[2], rest[3:6], rest[6:]
    conductance, susceptance = admittance_through(z, distance)
    if lengths:
        added = [np.asarray(stub_susceptance(lengths[0], "shunt", kinds[0])) * line / stubs[0]]
    else:
        added = _by_rule(conductance, susceptance, *apart)
        lengths = [np.asarray(stub_length_for(b * stubs[0] / line, "shunt", kinds[0])) for b in added]
    networks = []
    for b, length in zip(added, lengths, strict=True):
        shorted = np.isinf(b)
        y = np.where(shorted, np.nan, conductance + 1j * (susceptance + np.where(shorted, 0.0, b)))
        networks += _two_networks((load, line, distance, *apart), stubs, kinds, length, y)
    reason = _reason(conductance, susceptance, added, apart, stubs[0] / line, kinds[0], asked is not None)
    return _as_solutions(networks, reason)


def _two_networks(
    given: tuple[Array, ...], stubs: list[Array], ends: tuple[str, ...], first_length: Array, y: Array
) -> list[TripleStub]:
    """Both ways in which the last two stubs match what the first one leaves; y : what that is, normalised;
    nan for what takes no power."""
    load, line, distance, *apart = given
    left = np.where(np.isnan(y), 0.0, quotient(line, y))  # what takes no power is not matched, whatever it is
    pairs = double_stub(np.atleast_1d(left), line, apart[1], apart[0], ends[1:], stubs[1:])
    networks = []
    for pair in pairs:
        lengths = [first_length, *(np.reshape(length, y.shape) for length in pair.stub_lengths)]
        elements: list[Section | Stub] = []
        for gap, length, stub, end in zip((distance, *apart), lengths, stubs, ends, strict=True):
            elements += [Section(plain(gap), plain(line)), Stub(plain(length), plain(stub), "shunt", end)]
        networks.append(TripleStub(plain(load), plain(line), tuple(elements)))  # type: ignore[arg-type]
    return networks


def _by_rule(conductance: Array, susceptance: Array, first: Array, second: Array) -> list[Array]:
    """What the first stub adds: nothing, nan where the others do not match the load so; or what leads to half
    the limit, less first, nan where it is not needed or does not help.

    first, second : spacings. With B the whole susceptance after the first stub, the conductance at the second
    is g / ((cos - B sin)² + (g sin)²) with the functions of the first spacing."""
    idle, limit = _at_second(conductance, susceptance, first), np.asarray(conductance_limit(second))
    helpless = no_spacing(second)
    matched = (idle <= limit * (1 + BOUNDARY)) & ~helpless
    cosine, sine = np.cos(2 * np.pi * first), np.sin(2 * np.pi * first)
    needed = ~matched & ~helpless & ~no_spacing(first) & ~np.isnan(conductance)
    square = 2 * conductance * np.sin(2 * np.pi * second) ** 2 - (conductance * sine) ** 2
    root = np.sqrt(np.where(needed, square, np.nan))
    one, other = ((cosine + way * root) / np.where(needed, sine, 1.0) - susceptance for way in (1, -1))
    swap = np.abs(other) < np.abs(one)
    return [np.where(matched, 0.0, np.nan), np.where(swap, other, one), np.where(swap, one, other)]


def _at_second(conductance: Array, susceptance: Array, first: Array) -> Array:
    """The conductance that this admittance at the first stub shows at the second; 0 behind a short."""
    cosine, sine = np.cos(2 * np.pi * first), np.sin(2 * np.pi * first)
    return conductance / ((cosine - susceptance * sine) ** 2 + (conductance * sine) ** 2)


def _reason(
    conductance: Array,
    susceptance: Array,
    added: list[Array],
    apart: list[Array],
    ratio: Array,
    end: str,
    asked: bool,
) -> str:
    """Why there are not the usual number of solutions."""
    powerless, together = np.isnan(conductance), no_spacing(apart[1])
    rule = _by_rule(conductance, susceptance, *apart)
    helpless = np.all(np.isnan(rule), axis=0) & ~powerless & ~together
    found = [
        (TAKES_NO_POWER, powerless),
        (LAST_TWO_TOGETHER, together & ~powerless),
        (FIRST_TWO_TOGETHER, helpless),
    ]
    known = ~(powerless | together | helpless)
    if not asked:
        return sentences([*found, (FIRST_IDLE, known & (rule[0] == 0) & (conductance.ndim == 0))])
    shorted = known & np.isinf(added[0])
    shown, limit = (
        _at_second(conductance, susceptance + np.where(shorted, 0.0, added[0]), apart[0]),
        conductance_limit(apart[1]),
    )
    forbidden = known & ~shorted & (shown > limit * (1 + BOUNDARY))
    text = FORBIDDEN_SOMEWHERE
    if not conductance.ndim and forbidden:
        way_out = next(b for b in rule if not np.isnan(b))
        text = FORBIDDEN.format(shown, limit, stub_length_for(way_out * ratio, "shunt", end))
    return sentences([*found, (SHORTED, shorted), (text, forbidden)])


def _as_solutions(networks: list[TripleStub], reason: str) -> Solutions[TripleStub]:
    """For a scalar those that exist, each once."""
    if np.ndim(networks[0].load_impedance):
        return Solutions(tuple(networks), reason)
    kept = {
        network.stub_lengths: network for network in networks if not np.any(np.isnan(network.stub_lengths))
    }
    once = len(kept) % 2 == 1
    return Solutions(tuple(kept.values()), " ".join(filter(None, [reason, ON_THE_BOUNDARY if once else ""])))


def _impedances(given: Sequence[ArrayLike] | Array) -> list[Array]:
    return [
        real_impedance(ohms, f"impedance of the {which} stub")
        for ohms, which in zip(_several(given, 3, "stub impedances", NotAnImpedance), ORDER, strict=True)
    ]


def _several(value: Any, count: int, name: str, error: type[CoreError]) -> Any:
    """The value, if it is as many things as there should be."""
    if isinstance(value, str) or not hasattr(value, "__len__") or len(value) != count:
        raise error(
            f"The {name} must be {count}, the one nearest the load first, not {value!r}.", value=value
        )
    return value
