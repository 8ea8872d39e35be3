"""A solution as it can be drawn: a network as far as it is known."""

from __future__ import annotations

from dataclasses import dataclass

from core.network import MatchingNetwork
from lessons.grammar.branch import Branch


@dataclass(frozen=True)
class Plan:
    """A solution as it can be drawn. network : nan where a length or reactance is not known yet.
    symbols : how the course calls each element's length, "" where it has no name."""

    branch: Branch | None
    network: MatchingNetwork
    symbols: tuple[str, ...] = ()
