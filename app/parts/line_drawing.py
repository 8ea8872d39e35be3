"""The physical picture beside the chart: the line with its load and stub to scale, and the same as copper.

`picture` turns a problem and what is known of its networks into plain data; `LineDrawing` hands that to the
browser, which draws it and moves it while the student drags on the chart.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

import numpy as np
import param
from panel.custom import JSComponent

from app.parts.template import STATIC
from core.board import guide_wavelength_m
from core.network import MatchingNetwork, Section, Stub
from lessons.grammar.kinds import Millimetres
from lessons.grammar.lesson import SIDES, Problem, Side, other_side
from lessons.grammar.notation import Notation

SCRIPTS = ("line_drawing_pen.js", "line_drawing_line.js", "line_drawing_board.js", "line_drawing.js")
OPEN_END = (
    "An open end carries high voltage even at modest power, and it radiates: "
    "switch off before touching, and measure before you trust it."
)


class LineDrawing(JSComponent):
    """The drawing of one picture, made by `picture`; an empty picture draws nothing."""

    picture = param.Dict(
        default={}, doc="What is drawn, as `picture` makes it: plain data, lengths in wavelengths."
    )

    _esm: ClassVar = "\n".join((STATIC / name).read_text("utf-8") for name in SCRIPTS)
    _stylesheets: ClassVar = [(STATIC / "line_drawing.css").read_text("utf-8")]

    def __init__(self, **params: Any) -> None:
        params.setdefault("sizing_mode", "stretch_width")
        super().__init__(**params)


def picture(
    problem: Problem,
    notation: Notation,
    networks: Mapping[Side, MatchingNetwork | None],
    current: Side = "near",
    placement: str = "shunt",
) -> dict[str, Any]:
    """What the drawing needs, as plain data.

    networks : from a side to the network as far as it is known: a section alone where only the distance is
    known, no entry or None where nothing is.  current : the side drawn at full strength.
    placement : "shunt" or "series", for as long as no network has a stub.
    Raises ValueError for a side that there is not, or for a network that is no section followed by one stub."""
    if unknown := {current, *networks} - set(SIDES):
        raise ValueError(f"A solution is near or far, not {', '.join(map(repr, sorted(unknown)))}.")
    drawn = {side: _drawn(networks.get(side)) for side in SIDES}
    stub = drawn[current].stub or drawn["near"].stub or drawn["far"].stub
    stub = stub or Stub(0.0, problem.stub_impedance, placement, problem.end)
    return {
        "spoken": _spoken(problem, notation, drawn, current, stub),
        "caption": _caption(stub),
        "note": OPEN_END if stub.end == "open" else "",
        "load": _load_lines(problem.load_impedance, notation),
        "line": {"ohms": float(problem.line_impedance), "text": notation.ohms(problem.line_impedance)},
        "stub": {
            "ohms": float(stub.impedance),
            "text": notation.ohms(stub.impedance),
            "placement": stub.placement,
            "end": stub.end,
        },
        "symbols": {"distance": notation.distance, "length": notation.stub_length},
        "writing": _writing(problem, notation),
        "current": current,
        "sides": {side: {"distance": d.distance, "length": d.length} for side, d in drawn.items()},
    }


@dataclass(frozen=True)
class _Drawn:
    """What is known of one solution: lengths in wavelengths, or None."""

    distance: float | None = None
    length: float | None = None
    stub: Stub | None = None


def _drawn(network: MatchingNetwork | None) -> _Drawn:
    match () if network is None else tuple(network.elements):
        case ():
            return _Drawn()
        case (Section() as section,):
            return _Drawn(_known(section.length))
        case (Section() as section, Stub() as stub):
            distance = _known(section.length)
            return _Drawn(distance, None if distance is None else _known(stub.length), stub)
        case elements:
            kinds = ", ".join(type(element).__name__.lower() for element in elements)
            raise ValueError(
                f"The drawing shows a section of line and then one stub, but this network has: {kinds}."
            )


def _known(length: Any) -> float | None:
    """A length as plain data; a designer's nan means that there is none."""
    return float(length) if np.isfinite(length) else None


def _writing(problem: Problem, notation: Notation) -> dict[str, Any]:
    """How the browser writes a length while it is dragged, learnt from how the notation writes one."""
    degrees = notation.length == "degrees"
    number, unit = re.fullmatch(r"([\d.]+)(.*)", notation.wavelengths(0.0)).groups()  # type: ignore[union-attr]
    return {
        "in_a_wavelength": 360 if degrees else 1,
        "decimals": len(number.partition(".")[2]),
        "unit": unit,
        "eighth": "45°" if degrees else "λ/8",
        "wavelength_mm": _wavelength_mm(problem),
    }


def _wavelength_mm(problem: Problem) -> float | None:
    if problem.frequency is None:
        return None
    return 1e3 * float(guide_wavelength_m(problem.frequency, problem.velocity_factor))


def _load_lines(load: complex, notation: Notation) -> list[str]:
    """The load's impedance in the lines in which it stands in its box."""
    text = notation.ohms(load)
    if np.isinf(load):
        return text.removeprefix("an ").split()
    return text.split(" ", 1) if complex(load).imag else [text]


# --- in words -----------------------------------------------------------------------------------------------------


def _spoken(
    problem: Problem, notation: Notation, drawn: Mapping[Side, _Drawn], current: Side, stub: Stub
) -> str:
    """The whole drawing in sentences, for those who do not see it."""
    say = _Speech(problem, notation)
    known, faint = drawn[current], other_side(current)
    sentences = []
    if known.distance is not None:
        sentences += [say.solution(known.distance, known.length, stub), f"This is the {current} solution."]
    if (distance := drawn[faint].distance) is not None:
        sentences.append(say.faintly(faint, distance, drawn[faint].length))
    return " ".join(
        [*(sentences or [say.bare()]), "Beside it the same is sketched as copper on a board, from above."]
    )


@dataclass(frozen=True)
class _Speech:
    """Says a problem's quantities as the course writes them, its signs in words."""

    problem: Problem
    notation: Notation

    def bare(self) -> str:
        line, load = self.ohms(self.problem.line_impedance), self.ohms(self.problem.load_impedance)
        return f"A line of {line} leads from the generator to the load, {load}; where the stub goes is not known yet."

    def solution(self, distance: float, length: float | None, stub: Stub) -> str:
        what = {"short": "a shorted stub", "open": "an open stub"}[stub.end]
        where = {"shunt": "hangs across the line", "series": "is set into the line"}[stub.placement]
        sizes = [self.ohms(stub.impedance)] if stub.impedance != self.problem.line_impedance else []
        sizes += [self.length(length)] if length is not None else []
        later = "; its length is not known yet" if length is None else ""
        stands = " ".join([what, *(["of " + " and ".join(sizes)] if sizes else []), where])
        load = self.ohms(self.problem.load_impedance)
        return f"From the load of {load}, {self.length(distance)} toward the generator, {stands}{later}."

    def faintly(self, side: str, distance: float, length: float | None) -> str:
        long = "of a length not known yet" if length is None else f"{self.length(length)} long"
        return f"The {side} solution, drawn faintly, has its stub at {self.length(distance)}, {long}."

    def ohms(self, impedance: complex) -> str:
        return self.notation.ohms(impedance).replace("Ω", "ohm")

    def length(self, wavelengths: float) -> str:
        text = self.notation.wavelengths(wavelengths).replace(" λ", " wavelength").replace("°", " degrees")
        if (wavelength_mm := _wavelength_mm(self.problem)) is None:
            return text
        return f"{text} ({Millimetres(wavelength_mm).write(wavelengths * wavelength_mm, self.notation)})"


def _caption(stub: Stub) -> str:
    """What the copper does, in plain words that are true for every length."""
    return _BOARDS[stub.placement] + _ENDS[stub.placement, stub.end]


_BOARDS = {
    "shunt": (
        "The trace leads from the generator to the load. A branch lies across it and acts as a coil or as a capacitor, "
        "whichever its length makes it; the right length at the right place cancels what the load leaves over there. "
    ),
    "series": (
        "Two strips side by side lead from the generator to the load. One is cut, so the current runs out along a "
        "branch and back, which acts as a coil or a capacitor in the line, whichever its length makes it; the right "
        "length at the right place cancels what the load leaves over there. "
    ),
}
_ENDS = {
    (
        "shunt",
        "short",
    ): "A plated hole joins its end to the ground plane: the branch's current is largest there.",
    ("shunt", "open"): "Its end is left open: the branch's voltage is largest there.",
    (
        "series",
        "short",
    ): "A bridge joins the branch's strips at their end: the branch's current is largest there.",
    (
        "series",
        "open",
    ): "The branch's strips are left open at their end: the branch's voltage is largest there.",
}
