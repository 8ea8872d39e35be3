"""What can be drawn and judged of one solution: its network, as far as it is known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.elements import Section
from core.network import MatchingNetwork
from lessons.grammar.branch import Branch


@dataclass(frozen=True)
class Plan:
    """A solution as it can be drawn. network : nan where a length or reactance is not known yet.
    symbols : how the course calls each element's length, "" where it has no name."""

    branch: Branch | None
    network: MatchingNetwork
    symbols: tuple[str, ...] = ()

    @property
    def complete(self) -> bool:
        """Whether every element is known, so that it could be built."""
        return bool(self.network.elements) and all(map(is_known, self.network.elements))

    @property
    def is_design(self) -> bool:
        """Whether it is whole, and more than the load on its own line: something that changes what comes back."""
        return self.complete and not all(
            isinstance(one, Section) and one.impedance == self.network.line_impedance
            for one in self.network.elements
        )


def is_known(element: object) -> bool:
    """Whether an element's length or reactance is known."""
    sizes = (getattr(element, name, 0.0) for name in ("length", "reactance"))
    return all(bool(np.isfinite(size)) for size in sizes)
