"""What a printed board can carry of a network, in which form, and what its copper does there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from app.parts.line_drawing.elements import SectionOfLine, StubOfLine, Writer, part_of
from core.microstrip import Microstrip
from core.network import MatchingNetwork, Reactance

COMMON = Microstrip(relative_permittivity=4.4, height_mm=1.6)
COMMON_WORDS = "a common board, 1.6 mm thick and of relative permittivity 4.4,"
NARROWEST_MM, WIDEST_MM = 0.1, 32.0
"""What can be etched safely, and 20 times the board's thickness (common practice, no source)."""
MOST_OF_A_PAIR = 300.0
"""Ohms; a pair of strips side by side above it stands wide apart and keeps no field to itself (common practice, no
source)."""


@dataclass(frozen=True)
class Copper:
    """How a network is made on a board.

    form : "trace" over a ground plane, "strips" side by side, "" where no board carries it.
    words : what the copper does, or why there is none."""

    form: str
    words: str


def copper_of(network: MatchingNetwork, write: Writer) -> Copper:
    """The board's form for this network, or the sentence that says why there is none."""
    elements = network.elements
    stubs = [element for element in elements if isinstance(element, StubOfLine)]
    placements = {stub.placement for stub in stubs}
    if not all(isinstance(element, SectionOfLine | StubOfLine | Reactance) for element in elements):
        return Copper("", "Not every element here has a form in copper, so the board is not drawn.")
    if len(placements) > 1:
        return Copper("", MIXED)
    form = "strips" if "series" in placements else "trace"
    lines = [
        network.line_impedance,
        *(_ohms(e) for e in elements if isinstance(e, SectionOfLine | StubOfLine)),
    ]
    if reason := _beyond(form, map(float, lines), write):
        return Copper("", reason)
    return Copper(form, " ".join(_caption(form, network, stubs)))


MIXED = (
    "Stubs across the line are branches of a trace over a ground plane, stubs in the line need both conductors side by "
    "side: no one board carries both, so only the line is drawn."
)


def _ohms(piece: SectionOfLine | StubOfLine) -> float:
    return complex(piece.impedance).real


@cache
def limits() -> tuple[float, float]:
    """Lowest and highest impedance of a trace on a common board, ohms."""
    return float(COMMON.impedance(WIDEST_MM)), float(COMMON.impedance(NARROWEST_MM))


def _beyond(form: str, impedances: Iterable[float], write: Writer) -> str:
    """The sentence for the first impedance that copper does not have, or ""."""
    low, high = limits()
    for ohms in impedances:
        text = write.ohms(ohms)
        if form == "strips" and ohms > MOST_OF_A_PAIR:
            return (
                f"Strips of {text} would be thin and far apart, more an open pair of wires than a line on a board, "
                "so only the line is drawn."
            )
        if form == "trace" and ohms > high:
            return (
                f"A trace of {text} would be narrower than can be etched: on {COMMON_WORDS} even one of "
                f"{NARROWEST_MM:g} mm has only {high:.0f} Ω. So only the line is drawn."
            )
        if ohms < low:
            return (
                f"A line of {text} would be too broad to act as one: on {COMMON_WORDS} a trace {WIDEST_MM:g} mm wide "
                f"still has {low:.0f} Ω. So only the line is drawn."
            )
    return ""


# --- what the copper does, in plain words that are true for every length ------------------------------------------


def _caption(form: str, network: MatchingNetwork, stubs: list[StubOfLine]) -> Iterable[str]:
    yield _LEADS[form]
    sections = [e for e in network.elements if isinstance(e, SectionOfLine)]
    if {_ohms(section) for section in sections} - {float(network.line_impedance)}:
        yield "Where the copper is broader the impedance is lower."
    yield from _stub_words(form, network, stubs)
    yield from _part_words(form, network.elements)


_LEADS = {
    "trace": "The trace leads from the generator to the load.",
    "strips": "Two strips side by side lead from the generator to the load.",
}
_CANCELS = "; the right length at the right place cancels what the load leaves over there."


def _stub_words(form: str, network: MatchingNetwork, stubs: list[StubOfLine]) -> Iterable[str]:
    if not stubs:
        return
    single = len(stubs) == 1 and network.elements[-1] is stubs[0] and len(network.elements) <= 2
    alike = not network.elements[:-1] or isinstance(network.elements[0], SectionOfLine)
    many = len(stubs) > 1
    yield _ACTS[form, many] + (_CANCELS if single and alike else ".")
    for end in ("short", "open"):
        if any(stub.end == end for stub in stubs):
            yield _ENDS[form, end][many]


_ACTS = {
    ("trace", False): (
        "A branch lies across it and acts as a coil or as a capacitor, whichever its length makes it"
    ),
    ("trace", True): (
        "Branches lie across it, and each acts as a coil or as a capacitor, whichever its length makes it"
    ),
    ("strips", False): (
        "One is cut, so the current runs out along a branch and back, which acts as a coil or a capacitor in the line, "
        "whichever its length makes it"
    ),
    ("strips", True): (
        "One is cut at each branch, so the current runs out along the branch and back, which acts as a coil or a "
        "capacitor in the line, whichever its length makes it"
    ),
}
_ENDS = {
    ("trace", "short"): (
        "A plated hole joins its end to the ground plane: the branch's current is largest there.",
        "A plated hole joins a shorted end to the ground plane: the branch's current is largest there.",
    ),
    ("trace", "open"): (
        "Its end is left open: the branch's voltage is largest there.",
        "At an open end the branch's voltage is largest.",
    ),
    ("strips", "short"): (
        "A bridge joins the branch's strips at their end: the branch's current is largest there.",
        "A bridge joins a branch's strips at a shorted end: the branch's current is largest there.",
    ),
    ("strips", "open"): (
        "The branch's strips are left open at their end: the branch's voltage is largest there.",
        "At an open end the branch's voltage is largest.",
    ),
}


def _part_words(form: str, elements: tuple[Any, ...]) -> Iterable[str]:
    parts = [e for e in elements if isinstance(e, Reactance) and part_of(e) not in ("wire", "gap")]
    placements = {part.placement for part in parts}
    if "series" in placements:
        yield f"A part in the line is soldered across a gap in {'the trace' if form == 'trace' else 'one strip'}."
    if "shunt" in placements:
        across = (
            "joins the trace to the ground plane by a plated hole"
            if form == "trace"
            else "joins the two strips"
        )
        yield f"A part across the line {across}."
