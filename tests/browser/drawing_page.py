"""Pages with nothing but a line drawing, one for each case worth looking at; run it to look at them."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

import panel as pn

from app.parts.line_drawing import LineDrawing, picture
from app.parts.template import page
from app.serving.server import serve
from core.network import MatchingNetwork, Section, Stub
from core.stubs import single_stub
from lessons.grammar.lesson import SIDES, Problem, Side
from lessons.grammar.notation import Notation

FLOAT = Problem(60 - 80j, 50.0, 50.0, "short", frequency=434e6, velocity_factor=0.66)
"""The whip over a float on the river, 434 MHz."""


def problem(
    load: complex = 60 - 80j, line: float = 50.0, stub: float = 50.0, end: str = "short", **more: Any
) -> Problem:
    return Problem(load, line, stub, end, **more)


def solved(given: Problem, placement: str = "shunt") -> dict[Side, MatchingNetwork]:
    """Both networks that match the problem's load."""
    found = single_stub(
        given.load_impedance, given.line_impedance, given.stub_impedance, placement, given.end
    )
    return dict(zip(SIDES, found, strict=True))


def known(
    given: Problem, near: tuple[float, ...], far: tuple[float, ...] = (), placement: str = "shunt"
) -> dict[Side, MatchingNetwork]:
    """Networks of given distance and length, or of a distance alone."""

    def network(lengths: tuple[float, ...]) -> MatchingNetwork:
        section = Section(lengths[0], given.line_impedance)
        stubs = (Stub(length, given.stub_impedance, placement, given.end) for length in lengths[1:])
        return MatchingNetwork(given.load_impedance, given.line_impedance, (section, *stubs))

    return {side: network(lengths) for side, lengths in zip(SIDES, (near, far), strict=True) if lengths}


def drawn(
    given: Problem, networks: Mapping[Side, MatchingNetwork], current: Side = "near", **more: Any
) -> dict[str, Any]:
    return picture(given, more.pop("notation", Notation()), networks, current, **more)


SHORT, OPEN = problem(), problem(15 + 10j, end="open")
WIDE, NARROW = problem(stub=25.0), problem(stub=100.0, line=75.0, frequency=868e6)
DEGREES = Notation("s", "t", length="degrees", imaginary="i")
BIG = problem(123.45 - 678.9j, 376.73, 110.25, frequency=3.7e6)
SERIES, SERIES_OPEN = problem(100 + 80j), problem(100 + 80j, end="open")

CASES: dict[str, dict[str, Any]] = {
    "near": drawn(SHORT, solved(SHORT)),
    "far": drawn(SHORT, solved(SHORT), "far"),
    "millimetres": drawn(FLOAT, solved(FLOAT)),
    "open": drawn(OPEN, solved(OPEN)),
    "open-far": drawn(OPEN, solved(OPEN), "far"),
    "wide-stub": drawn(WIDE, solved(WIDE)),
    "narrow-stub": drawn(NARROW, solved(NARROW), "far"),
    "degrees": drawn(SHORT, solved(SHORT), notation=DEGREES),
    "nothing": drawn(SHORT, {}),
    "distance": drawn(SHORT, known(SHORT, (0.11,))),
    "distances": drawn(SHORT, known(SHORT, (0.11,), (0.26,))),
    "one-length": drawn(FLOAT, known(FLOAT, (0.11, 0.095), (0.26,))),
    "series": drawn(SERIES, solved(SERIES, "series")),
    "series-open-far": drawn(SERIES_OPEN, solved(SERIES_OPEN, "series"), "far"),
    "series-distance": drawn(SERIES, known(SERIES, (0.12,)), placement="series"),
    "shortest": drawn(FLOAT, known(FLOAT, (0.002, 0.003), (0.497, 0.497))),
    "longest": drawn(FLOAT, known(FLOAT, (0.002, 0.003), (0.497, 0.497)), "far"),
    "short-long": drawn(FLOAT, known(FLOAT, (0.003, 0.495), (0.496, 0.004))),
    "long-short": drawn(FLOAT, known(FLOAT, (0.003, 0.495), (0.496, 0.004)), "far"),
    "close": drawn(OPEN, known(OPEN, (0.2, 0.1), (0.25, 0.4))),
    "close-far": drawn(OPEN, known(OPEN, (0.2, 0.1), (0.25, 0.4)), "far"),
    "long-numbers": drawn(BIG, known(BIG, (0.0, 0.5), (0.5, 0.0))),
}  # fmt: skip
AFTER = {"near": "far", "distance": "near", "nothing": "distance", "one-length": "millimetres"}
"""What the buttons of a case's page lead to."""


def sheet(case: str) -> pn.Template:
    """The page of one case, with buttons that give its drawing the next picture in two ways."""
    drawing = LineDrawing(picture=CASES[case])
    following = CASES[AFTER.get(case, case)]

    def by_parameter(_: object) -> None:
        drawing.picture = following

    def by_message(_: object) -> None:
        drawing._send_msg({"type": "picture", "picture": following})

    buttons = pn.Row(
        pn.widgets.Button(label="by parameter", on_click=by_parameter),
        pn.widgets.Button(label="by message", on_click=by_message),
    )
    return page(f"Drawing: {case}", needs=("drawing",), drawing=drawing, sheet=buttons)


def pages() -> dict[str, Callable[[], pn.Template]]:
    """An address for each case."""
    return {f"/{case}": partial(sheet, case) for case in CASES}


if __name__ == "__main__":
    serve(
        pages(),
        port=int(sys.argv[1]) if len(sys.argv) > 1 else 0,
        announce=lambda url: sys.stderr.write(f"{url}\n"),
    )
