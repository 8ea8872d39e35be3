"""Pages with nothing but a line drawing, one for each case worth looking at; run it to look at them."""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Mapping
from functools import partial
from math import nan
from typing import Any

import panel as pn

from app.parts.line_drawing import LineDrawing, picture
from app.parts.template import FilledPage, page
from app.serving.server import serve
from core.cables import usual_cable
from core.double_stubs import double_stub
from core.lossy_parts import LossyPart
from core.lumped import l_network
from core.multisection import chebyshev_transformer
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.real_pieces import RealSection, RealStub
from core.source import ConjugateMatch
from core.stubs import single_stub
from core.tapers import exponential_taper
from lessons.grammar.branch import Branch
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan
from lessons.grammar.problem import Problem
from tests.browser.press import Press
from tests.lessons import solving

NEAR, FAR = Branch("near", "near", "first"), Branch("far", "far", "second")
FOUR = [Branch(role, role, role) for role in ("first", "second", "third", "fourth")]


FLOAT = solving.problem(60 - 80j, frequency=434e6, velocity=0.66)
"""The whip over a float on the river, 434 MHz."""
Networks = Mapping[str, MatchingNetwork]


def problem(
    load: complex = 60 - 80j, line: float = 50.0, stub: float = 50.0, end: str = "short", **more: Any
) -> Problem:
    return solving.problem(load, line, stub=stub, end=end, **more)


def solved(given: Problem, placement: str = "shunt") -> Networks:
    """Both networks that match the problem's load."""
    found = single_stub(given["load"], given["line"], given["stub"], placement, given["end"])
    return dict(zip(solving.SIDES, found, strict=True))


def known(
    given: Problem, near: tuple[float, ...], far: tuple[float, ...] = (), placement: str = "shunt"
) -> Networks:
    """Networks of given distance and length, or of a distance alone."""

    def network(lengths: tuple[float, ...]) -> MatchingNetwork:
        distance, length = (*lengths, nan)[:2]
        stub = Stub(length, given["stub"], placement, given["end"])
        return MatchingNetwork(given["load"], given["line"], (Section(distance, given["line"]), stub))

    return {
        side: network(lengths) for side, lengths in zip(solving.SIDES, (near, far), strict=True) if lengths
    }


def drawn(
    given: Problem,
    networks: Networks,
    current: str = "near",
    notation: Notation | None = None,
    placement: str = "shunt",
) -> dict[str, Any]:
    """Both solutions of a single stub, as far as they are known."""
    notation = notation or Notation()
    symbols = (notation.symbol("d"), notation.symbol("l"))
    nothing = MatchingNetwork(
        given["load"],
        given["line"],
        (Section(nan, given["line"]), Stub(nan, given["stub"], placement, given["end"])),
    )
    plans = [Plan(branch, networks.get(branch.key, nothing), symbols) for branch in (NEAR, FAR)]
    return picture(plans, current, notation, solving.blank(given).truth.wavelength_mm)


def alone(
    *elements: Any,
    load: complex = 60 - 80j,
    line: float = 50.0,
    symbols: tuple[str, ...] = (),
    branch: Branch | None = None,
    wave: float | None = None,
) -> dict[str, Any]:
    """One network of any elements."""
    plan = Plan(branch, MatchingNetwork(load, line, elements), symbols)
    return picture([plan], None, Notation(), wave)


def several(networks: Any, current: str, symbols: tuple[str, ...] = ()) -> dict[str, Any]:
    """Several solutions, the first ones of four branches."""
    drawn = [Plan(branch, network, symbols) for branch, network in zip(FOUR, networks, strict=False)]
    return picture(drawn, current, Notation())


SHORT, OPEN = problem(), problem(15 + 10j, end="open")
WIDE, NARROW = problem(stub=25.0), problem(stub=100.0, line=75.0, frequency=868e6)
DEGREES = Notation({"d": "s", "l": "t"}, length="degrees", imaginary="i")
BIG = problem(123.45 - 678.9j, 150.73, 110.25, frequency=3.7e6)
SERIES, SERIES_OPEN = problem(100 + 80j), problem(100 + 80j, end="open")
CABLE = usual_cable("RG-58")
TO_SOURCE = ConjugateMatch(
    60 - 80j, 50.0, (Section(0.11, 50.0), LossyPart(40.0, "series", None, 80.0)), 30 + 12j
)
DOUBLE = ("", "l₁", "d", "l₂")

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
    "far-alone": drawn(SHORT, known(SHORT, (), (0.26, 0.4))),
    "one-length": drawn(FLOAT, known(FLOAT, (0.11, 0.095), (0.26,))),
    "series": drawn(SERIES, solved(SERIES, "series"), placement="series"),
    "series-open-far": drawn(SERIES_OPEN, solved(SERIES_OPEN, "series"), "far", placement="series"),
    "series-distance": drawn(SERIES, known(SERIES, (0.12,)), placement="series"),
    "shortest": drawn(FLOAT, known(FLOAT, (0.002, 0.003), (0.497, 0.497))),
    "longest": drawn(FLOAT, known(FLOAT, (0.002, 0.003), (0.497, 0.497)), "far"),
    "short-long": drawn(FLOAT, known(FLOAT, (0.003, 0.495), (0.496, 0.004))),
    "long-short": drawn(FLOAT, known(FLOAT, (0.003, 0.495), (0.496, 0.004)), "far"),
    "close": drawn(OPEN, known(OPEN, (0.2, 0.1), (0.25, 0.4))),
    "close-far": drawn(OPEN, known(OPEN, (0.2, 0.1), (0.25, 0.4)), "far"),
    "long-numbers": drawn(BIG, known(BIG, (0.0, 0.5), (0.5, 0.0))),
    "bare": alone(),
    "bare-far": picture([Plan(FAR, solved(SHORT)["far"], ("d", "l"))], "near", Notation()),
    "line": alone(Section(0.2, 50.0), symbols=("d",)),
    "double": several(double_stub(60 - 80j, 50.0, spacing=1 / 8), "first", DOUBLE),
    "quarter": alone(Section(0.0726, 50.0), Section(0.25, 25.2), symbols=("d", ""), branch=NEAR, wave=455.9),
    "quarter-high": alone(Section(0.25, 70.711), load=100.0),
    "three-sections": alone(
        Section(0.12, 50.0), Section(0.1, 75.0), Section(0.15, 25.0), symbols=("a", "b", "c")
    ),
    "high": alone(Section(0.11, 400.0), Stub(0.095, 400.0), load=300 - 200j, line=400.0, symbols=("d", "l")),
    "low-line": alone(Section(0.11, 1.0), symbols=("d",)),
    "mixed": alone(
        Section(0.11, 50.0), Stub(0.1, 50.0), Section(0.2, 75.0), Stub(0.2, 50.0, "series", "open")
    ),
    "l-shunt": several(l_network(200 - 100j, 100.0, 500e6), "first"),
    "l-series": several(l_network(20 + 10j, 50.0, 500e6), "second"),
    "l-ohms": alone(Reactance(-42.3, "shunt"), Reactance(61.7), symbols=("", "X")),
    "unknown-part": alone(
        Section(0.1, 50.0), Reactance(nan, "shunt"), Reactance(nan), symbols=("d", "", "X")
    ),
    "unknown-places": alone(
        Section(nan, 50.0),
        Stub(nan, 50.0),
        Section(0.125, 50.0),
        Stub(nan, 50.0),
        symbols=("d", "l₁", "", "l₂"),
    ),
    "stub-and-part": alone(
        Section(0.08, 50.0), Stub(0.1, 75.0, "shunt", "open"), Reactance(30.0), Section(0.1, 75.0)
    ),
    "series-part": alone(
        Section(0.1, 50.0),
        Stub(0.1, 50.0, "series"),
        Section(0.1, 75.0),
        Reactance(-30.0),
        Reactance(40.0, "shunt"),
    ),
    "three-stubs": alone(
        *(e for k in range(3) for e in (Section(0.125, 50.0), Stub(0.1 + 0.1 * k, 50.0))), wave=455.9
    ),
    "many": alone(
        Stub(0.1, 50.0),
        Stub(0.1, 50.0, "shunt", "open"),
        Reactance(10.0),
        Reactance(-10.0, "shunt"),
        wave=455.9,
    ),
    "long-line": alone(Section(3.2, 50.0), Stub(0.1, 50.0)),
    "taper": several(exponential_taper(100.0, 50.0, 1.0, steps=40), "first"),
    "taper-of-many": several(exponential_taper(60 - 80j, 50.0, steps=500), "second"),
    "seven-sections": several(chebyshev_transformer(200.0, 50.0, 7, swr=1.1), "first"),
    "real-line": alone(
        RealSection(0.05, CABLE, 434e6), RealStub(0.04, CABLE, 434e6), symbols=("d", "l"), wave=455.9
    ),
    "source": picture([Plan(None, TO_SOURCE, ("d",))], None, Notation()),
    "no-part": alone(Reactance(0.0), Section(0.1, 50.0), Reactance(0.0, "shunt")),
}
AFTER = {"near": "far", "distance": "near", "nothing": "distance", "one-length": "millimetres"}
"""What the buttons of a case's page lead to."""


def any_networks(count: int, seed: int = 1) -> dict[str, dict[str, Any]]:
    """Pictures of networks of up to four elements, random but the same in every run."""
    dice = random.Random(seed)

    def element(placement: str) -> Any:
        length = dice.choice([nan, 0.0, 0.02, 0.125, dice.uniform(0, 0.5), dice.uniform(0, 0.8)])
        impedance = dice.choice([50.0, 50.0, 25.0, 70.711, 120.0])
        reactance = dice.choice([nan, 0.0, dice.uniform(-99, 99), dice.uniform(-99, 99)])
        return dice.choice(
            [
                Section(length, impedance),
                Section(length, impedance),
                Stub(length, impedance, placement, dice.choice(["short", "open"])),
                Reactance(reactance, dice.choice(["shunt", "series"])),
            ]
        )

    def one() -> dict[str, Any]:
        placement, symbols = (
            dice.choice(["shunt", "shunt", "series"]),
            dice.choice([(), ("d", "l", "s", "t")]),
        )
        elements = [element(placement) for _ in range(dice.randint(0, 4))]
        return alone(
            *elements, symbols=symbols, branch=dice.choice([None, NEAR]), wave=dice.choice([None, 455.9])
        )

    return {f"random {i}": one() for i in range(count)}


def sheet(case: str) -> FilledPage:
    """The page of one case, with buttons that give its drawing the next picture in two ways."""
    drawing = LineDrawing(picture=CASES[case])
    following = CASES[AFTER.get(case, case)]

    def by_parameter() -> None:
        drawing.picture = following

    def by_message() -> None:
        drawing._send_msg({"type": "picture", "picture": following})

    buttons = pn.Row(Press("by parameter", by_parameter), Press("by message", by_message))
    return page(f"Drawing: {case}", needs=("drawing",), drawing=drawing, sheet=buttons)


def pages() -> dict[str, Callable[[], FilledPage]]:
    """An address for each case."""
    return {f"/{case}": partial(sheet, case) for case in CASES}


if __name__ == "__main__":
    serve(
        pages(),
        port=int(sys.argv[1]) if len(sys.argv) > 1 else 0,
        announce=lambda url: sys.stderr.write(f"{url}\n"),
    )
