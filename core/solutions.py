"""The answers of a designer: all networks that match, in a stated order, and in a sentence why they are unusual."""

from __future__ import annotations

from collections.abc import Iterable
from reprlib import repr as shortened
from typing import Any, SupportsIndex, TypeVar, overload

import numpy as np

from core.arrays import OPEN_CIRCUIT, Array
from core.errors import NotANetwork
from core.network import MatchingNetwork, one_network
from core.readable import tables

TAKES_NO_POWER = (
    "This load takes no power (its resistance is zero, or it is an open circuit), and a lossless network "
    "cannot change that: nothing matches it."
)
Design = TypeVar("Design", bound=MatchingNetwork)


class Solutions(tuple[Design, ...]):
    """The networks that match a load, in their stated order, and in `.reason` why they are unusual."""

    reason: str

    def __new__(cls, networks: Iterable[Design] = (), reason: str = "") -> Solutions[Design]:
        if (
            isinstance(networks, MatchingNetwork)
            or not isinstance(networks, Iterable)
            or not isinstance(reason, str)
        ):
            raise NotANetwork(
                f"Solutions are several networks and a sentence, not {shortened(networks)} and {shortened(reason)}.",
                value=networks,
            )
        given = tuple(networks)
        for network in given:
            one_network(network)
        solutions = super().__new__(cls, given)
        solutions.reason = reason
        return solutions

    @overload
    def __getitem__(self, which: SupportsIndex) -> Design: ...
    @overload
    def __getitem__(self, which: slice) -> Solutions[Design]: ...
    def __getitem__(self, which: SupportsIndex | slice) -> Design | Solutions[Design]:
        """One of them, or some of them with the same reason."""
        if isinstance(which, slice):
            return Solutions(super().__getitem__(which), self.reason)
        return super().__getitem__(which)

    def __repr__(self) -> str:
        return f"Solutions({'; '.join([*map(repr, self), *filter(None, [self.reason])])})"

    def _repr_html_(self) -> str:
        return tables(self, self.reason)


def no_power(load: Array, line: Array) -> Array:
    """Whether loads, checked by `passive_impedance`, take no power from a line: a resistance of zero, an open
    circuit, or so near one of them on this line that nothing tells them apart."""
    with np.errstate(over="ignore"):
        as_good_as = (load.real / line < 1 / OPEN_CIRCUIT) | (np.abs(load.imag) / line > OPEN_CIRCUIT)
        return as_good_as | (load.real / line > OPEN_CIRCUIT)


def as_solutions(networks: Iterable[Design], exists: Iterable[Any], reason: str) -> Solutions[Design]:
    """Of arrays all networks, for a scalar those that exist; the reason goes with them as it is."""
    kept = [network for network, there in zip(networks, exists, strict=True) if np.ndim(there) or there]
    return Solutions(kept, reason)


def sentences(found: Iterable[tuple[str, Any]]) -> str:
    """Those of the sentences that apply to any of the loads, in the order given."""
    return " ".join(sentence for sentence, applies in found if np.any(applies))
