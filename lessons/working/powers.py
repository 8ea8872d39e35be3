"""Where the power of each finished design goes, and the standing-wave ratio on each part of its line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from core.elements import Section
from core.network import MatchingNetwork
from core.power import power_flow
from core.standing_wave import waves_along
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Impossible
from lessons.working.construction import plans
from lessons.working.sheet import Sheet


@dataclass(frozen=True)
class Powers:
    """One design. delivered, bare : of the power that a matched generator has to give, what reaches the load with
    it and without.  parts : each section of line from the load on, with the symbol of its length, then the line to the
    generator (None), and the standing-wave ratio there.  is_design : whether anything but line stands before the
    load."""

    branch: Branch | None
    delivered: float
    bare: float
    parts: tuple[tuple[Section | None, str, float], ...]
    is_design: bool


def powers(sheet: Sheet) -> tuple[Powers, ...]:
    """Of each design of a finished sheet; empty where the lesson builds nothing, or it cannot be built."""
    if not sheet.finished or sheet.lesson.refuses(sheet.problem):
        return ()
    try:
        return tuple(_powers(sheet))
    except Impossible:
        return ()


def _powers(sheet: Sheet) -> Iterator[Powers]:
    for plan in plans(sheet):
        if plan.complete:
            network = plan.network
            bare = MatchingNetwork(network.load_impedance, network.line_impedance, ())
            symbols = (*plan.symbols, *("" for _ in network.elements))
            named = [
                (piece, symbols[index])
                for index, piece in enumerate(network.elements)
                if isinstance(piece, Section)
            ]
            waves = [one for one in waves_along(network, points=2) if isinstance(one.element, Section)]
            ratios = [float(one.swr) for one in waves]
            yield Powers(
                plan.branch,
                float(power_flow(network).delivered),
                float(power_flow(bare).delivered),
                (
                    *((*one, ratio) for one, ratio in zip(named, ratios, strict=False) if one[0].length),
                    (None, "", ratios[-1]),
                ),
                plan.is_design,
            )
