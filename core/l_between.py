"""Matching with two lumped parts between a load and a source of any impedance."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import broadcast, plain, quotient
from core.checks import Array
from core.designs import normalised_load
from core.lumped import LNetwork, LumpedPart, parts_of
from core.mismatch import ON_THE_END, none_if_rounding
from core.ranges import real_in_range
from core.solutions import TAKES_NO_POWER, Solutions, sentences
from core.source import ConjugateMatch, source_of

MATCHED_ALREADY = "This load is the conjugate of the source already: no part is needed."
Design = TypeVar("Design", bound=LNetwork)
SAME = 1e-12  # relative: reactances as near as this are the same part
ONE_PART = "In one of the networks a single part does."
ONE_WAY = "Only with the {} part nearer the load is there a network; the other way round there is none."


@dataclass(frozen=True)
class ConjugateLNetwork(ConjugateMatch, LNetwork):
    """A shunt and a series part between a load and a source, in the order in which the load meets them.

    Normalised values are so to the source's resistance."""

    elements: tuple[LumpedPart, LumpedPart]


@np.errstate(all="ignore")  # the absurdly large or small runs to nan: no solution
def conjugate_l_network(
    load_impedance: ArrayLike, source_impedance: ArrayLike, frequency: ArrayLike | None = None
) -> Solutions[ConjugateLNetwork]:
    """Every match of a load to a source of any impedance with one shunt and one series part, lossless.

    load_impedance : complex ohms, any shape; inf is an open circuit.
    source_impedance : complex ohms, resistance > 0.  frequency : hertz > 0, for the parts' values; all
    broadcast.

    Returns `Solutions` of `ConjugateLNetwork`: shunt part nearer the load with the larger series reactance,
    the same with the smaller; series part nearer the load with the larger shunt susceptance, the same with
    the smaller (larger is nearer to plus infinity: for a real source first the inductor, then the capacitor,
    and then capacitor and inductor). Four where both ways round exist, two where one does; those that are the
    same once; for a load that is the conjugate of the source one without parts; none, with the reason in
    `.reason`, for a load that takes no power. For arrays always four, nan where there is none.
    Raises NotAnImpedance, NegativeResistance, OutOfRange, ShapesDiffer.
    Source: Pozar, 4th ed., section 5.1, with the load's and the source's own reactance counted among the
    parts: C. Bowick, RF Circuit Design, chapter 4, "absorption" (both from memory).

    >>> network = conjugate_l_network(100 + 50j, 50 + 10j)[0]
    >>> network.elements
    (LumpedPart(shunt reactance: -72.47 ohm), LumpedPart(series reactance: 51.24 ohm))
    """
    source = source_of(source_impedance)
    load, ohms, z = normalised_load(load_impedance, source.real)
    load, ohms, z, source = broadcast(load, ohms, z, source)
    if frequency is not None:
        frequency = real_in_range(frequency, "frequency", "in hertz", above=0.0)
        load, ohms, z, source, frequency = broadcast(load, ohms, z, source, frequency)
    aim = np.conj(source) / ohms
    one, networks = np.ones_like(z), []
    for placement, here, goal in (("shunt", quotient(one, z), aim), ("series", z, quotient(one, aim))):
        for near, far in parts_between(here, goal):
            pair = (near, far) if placement == "shunt" else (far, near)
            shunt, series = parts_of(*pair, ohms, frequency)
            elements = (shunt, series) if placement == "shunt" else (series, shunt)
            networks.append(ConjugateLNetwork(plain(load), plain(ohms), elements, plain(source)))
    if z.ndim:
        return Solutions(tuple(networks), sentences([(TAKES_NO_POWER, np.isnan(z))]))
    kept = distinct(networks)
    return Solutions(tuple(kept), _reason(z, kept))


def parts_between(here: Array, aim: Array) -> list[tuple[Array, Array]]:
    """What the part nearer the load adds, and what the other adds, for both ways, normalised; nan where none.

    here : the load as the near part sees it (y for a shunt part, z for a series one).  aim : what the far
    part is to reach, as that part sees it. The near part moves the load to g +- j sqrt(g/r - g²), with r the
    aim's real part: one over that has the real part r."""
    part = here.real * aim.real
    left = np.where(np.abs(part - 1) <= ON_THE_END, 0.0, 1 - part)
    root = np.where(left >= 0, np.sqrt(here.real / aim.real) * np.sqrt(np.maximum(left, 0.0)), np.nan)
    found = []
    for total in (root, -root):
        near = none_if_rounding(total - here.imag, total, here.imag)
        turned = total * aim.real / here.real
        found.append((near, none_if_rounding(aim.imag + turned, aim.imag, turned)))
    return found


def distinct(networks: Iterable[Design]) -> list[Design]:
    """Those networks of scalars that exist, each once: a single part is the same in either order."""
    kept: list[Design] = []
    for network in networks:
        missing = any(np.isnan(part.reactance) for part in network.elements)
        if not missing and not any(_same_parts(network, other) for other in kept):
            kept.append(network)
    return kept


def _same_parts(one: LNetwork, other: LNetwork) -> bool:
    first, second = (
        {part.placement: part.reactance for part in network.elements if part.kind != "none"}
        for network in (one, other)
    )
    same_way = len(first) < 2 or one.topology == other.topology
    alike = same_way and first.keys() == second.keys()
    return alike and all(np.isclose(x, second[place], rtol=SAME, atol=0.0) for place, x in first.items())


def _reason(z: Array, kept: Sequence[LNetwork]) -> str:
    """Why there are not four solutions."""
    if np.isnan(z):
        return TAKES_NO_POWER
    if any(all(part.kind == "none" for part in network.elements) for network in kept):
        return MATCHED_ALREADY
    ways = {network.elements[0].placement for network in kept}
    single = any(part.kind == "none" for network in kept for part in network.elements)
    one_way = [ONE_WAY.format(*ways)] if len(ways) == 1 and not single else []
    return " ".join([*one_way, *([ONE_PART] if single else [])])
