"""A page with nothing but the stage, drawn as a lesson would draw it: for the stage's own tests.

`python -m tests.browser.stage_page PORT` serves it to look at. In the address, `show=` says how many steps are drawn,
`ask=` names a gesture, `admittance=overlay` another notation; answers come back as the page's last line.
"""

from __future__ import annotations

import sys
from typing import Any

import panel as pn

from app.parts.plotting import Group, drawn_answer
from app.parts.screen_chart import printed_svg
from app.parts.stage import Stage
from app.parts.template import asset
from app.serving.server import serve
from core import single_stub
from core.chart import UNIT_CONDUCTANCE_CIRCLE, arc_between, conductance_circle, mismatch_circle, walk
from core.line import reflection_coefficient, toward_generator
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import (
    Curve,
    DragAlong,
    DragRadius,
    Gesture,
    HalfTurn,
    PickPoint,
    PlacePoint,
    Point,
    PointOnCircle,
    Ray,
    Region,
    WalkCircle,
    Way,
    scale_reading,
)
from tests.browser.press import Ear, Press

LOAD = complex(reflection_coefficient(25 - 50j, 50))
NEAR, FAR = single_stub(25 - 50j, 50)
GESTURES: dict[str, Gesture] = {
    "place": PlacePoint("impedance"),
    "place y": PlacePoint("admittance"),
    "circle": PointOnCircle(mismatch_circle(LOAD), "admittance"),
    "radius": DragRadius(),
    "along": DragAlong(LOAD, "admittance"),
    "rim": DragAlong(-1 + 0j, "admittance"),
    "walk circle": WalkCircle(conductance_circle(0.4), LOAD, "admittance"),
    "pick": PickPoint((("short", -1 + 0j), ("open", 1 + 0j), ("match", 0j), ("load", LOAD)), "admittance"),
}


TEMPLATE = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Stage</title><link rel="icon" href="data:,">{{ bokeh_css }}{{ bokeh_js }}
<link rel="stylesheet" href="{{ css }}"></head>
<body>{% from macros import embed %}
<main style="max-width: {{ width }}px"><div id="printed">{{ printed }}</div>
{{ embed(roots.stage) }}{{ embed(roots.below) }}</main>{{ plot_script }}
</body></html>"""


def drawing(notation: Notation) -> list[Group]:
    """The whole construction of a single shunt stub, its last steps current."""

    def read(reflection: complex) -> str:
        return notation.wavelengths(scale_reading(reflection, "admittance", notation.admittance))

    near, far = (complex(toward_generator(LOAD, one.distance)) for one in (NEAR, FAR))
    return [
        Group("place", (Point(LOAD, "load", "impedance", "z", "The load.", "0.50 − j1.00"),)),
        Group("mismatch", (
            Curve(mismatch_circle(LOAD), "mismatch", "impedance", "SWR", "The mismatch circle.", "4.27"),)),
        Group("admittance", (
            HalfTurn(LOAD, "construction", "", "Half a turn."),
            Point(LOAD, "load", "admittance", "y", "The load's admittance.", "0.40 + j0.80"))),
        Group("unit", (Curve(UNIT_CONDUCTANCE_CIRCLE, "unit", "admittance", "g = 1", "The unit-conductance circle."),)),
        Group("crossing", (
            Point(near, "first", "admittance", "y_A", "The near crossing.", "1.00 + j1.58"),
            Point(far, "second", "admittance", "y_B", "The far crossing.", "1.00 − j1.58")), True),
        Group("distance", (
            Ray(LOAD, "construction", "admittance", "", "The load's reading.", read(LOAD)),
            Way(walk(LOAD, NEAR.distance), "first", "admittance", notation.symbol("d"), "To the near crossing.",
                notation.wavelengths(NEAR.distance)),
            Ray(near, "first", "admittance", "", "The near crossing's reading.", read(near)),
            Way(walk(LOAD, FAR.distance), "second", "admittance", notation.symbol("d"), "To the far crossing.",
                notation.wavelengths(FAR.distance)),
            Ray(far, "second", "admittance", "", "The far crossing's reading.", read(far))), True),
    ]  # fmt: skip


def more_strokes(notation: Notation) -> list[Group]:
    """What other lessons draw: walks along a circle that is not about the centre, a region, four solutions, the rim."""
    circle, end = conductance_circle(0.4), complex(reflection_coefficient(1 / (0.4 - 0.49j), 1))
    other = complex(reflection_coefficient(1 / (0.4 + 0.49j), 1))
    stub, longer, length = walk(-1 + 0j, 0.2), walk(-1 + 0j, 0.31), notation.wavelengths
    return [
        Group("g", (Curve(circle, "unit", "admittance", "g = 0.4", "All of this conductance."),)),
        Group("region", (Region(conductance_circle(2.0), True, "admittance", "no match here", "A region."),)),
        Group("ways", (
            Point(LOAD, "load", "admittance", "y_L", "The load.", "0.40 + j0.80"),
            Way(arc_between(circle, LOAD, end, False), "first", "admittance", "b_1", "Down.", "−1.29"),
            Way(arc_between(circle, LOAD, other, False), "second", "admittance", "b_2", "Less.", "−0.31"),
            Point(end, "third", "admittance", "y_3", "The third."),
            Point(other, "fourth", "admittance", "y_4", "Four."),
            Way(walk(LOAD, 0.1), "third", "admittance", notation.symbol("d"), "A walk.", length(0.1)),
            Way(walk(LOAD, 0.2), "fourth", "admittance", notation.symbol("d"), "A walk.", length(0.2)),
            Way(stub, "first", "admittance", notation.symbol("l"), "A stub.", length(0.2)),
            Way(longer, "second", "admittance", notation.symbol("l"), "A stub.", length(0.31)),
            Ray(stub.last, "first", "admittance", "", "Its end.", length(0.2)),
        ), True),
    ]  # fmt: skip


def stage_page() -> pn.Template:
    """The stage alone, set up by the address."""
    wishes = {name: values[0].decode() for name, values in (pn.state.session_args or {}).items()}
    notation = Notation(
        admittance="overlay" if wishes.get("admittance") == "overlay" else "half turn",
        length="degrees" if wishes.get("length") == "degrees" else "wavelengths",
    )
    answers = pn.pane.Str("", name="answers")

    def note(said: dict[str, Any]) -> None:
        value = drawn_answer(said["value"], GESTURES[wishes["ask"]], said["plotted"])
        answers.object = f"{said['field']}: {value!r}"

    stage = Stage(notation)
    groups = drawing(notation)
    if "hostile" in wishes:
        hostile = "<img src=x onerror=alert(1)>"
        groups += [Group("hostile", (Point(0.5j, "load", "impedance", hostile, hostile),), True)]
    if "more" in wishes:
        stage.draw(more_strokes(notation))
    elif "show" in wishes:
        stage.draw(groups[: int(wishes["show"])] + groups[6:])
    if wishes.get("ask") in GESTURES:
        stage.ask("field", GESTURES[wishes["ask"]], "Draw it.")
    step = Press("Next step", lambda: stage.draw(groups[: len(stage.strokes) + 1], animate=True))
    template = pn.Template(TEMPLATE)
    template.add_variable("css", asset("parts/page.css"))
    template.add_variable("printed", printed_svg())
    template.add_variable("width", int(wishes.get("width", 820)))
    template.add_panel("stage", stage)
    template.add_panel("below", pn.Column(answers, step, Ear(note)))
    return template


if __name__ == "__main__":
    serve({"/": stage_page}, port=int(sys.argv[1]))
