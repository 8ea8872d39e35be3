"""The printed chart of the screen: one SVG, the same for everybody and made once, that a page holds from the start.

It is made of pieces. A piece is all that has one look: a weight of a grid, of the ticks, or of the numbers. It says
which grid and unit of length it belongs to, and from how many pixels per radius of the chart it is shown. The browser
shows and hides pieces, moves the view, and gives the scales outside the rim the room that letters need at its size, by
static/parts/stage/printed.js; before any script runs, the style sheet inside shows what fits a whole chart. Lines keep
their width at any size, and colours are the page's CSS variables.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from math import degrees
from pathlib import Path
from typing import Any, NamedTuple

from app.parts.printed_chart import grid_numbers, grids, rim_scales
from app.parts.printed_chart.grids import GridArc
from app.parts.printed_chart.layouts import COMPACT, REGULAR, Layout
from app.parts.printed_chart.marks import Label, Tick
from app.parts.vector import element, number, path, words
from app.parts.vector_chart import Place, curves, marks

LAYOUTS = {"regular": REGULAR, "middle": Layout(text=0.054), "compact": COMPACT}
STYLE = Path(__file__).parents[2] / "static" / "parts" / "stage" / "printed.css"
PLACE = Place(0.0, 0.0, 10_000.0)
TENTHS = re.compile(r"-?\d+\.\d\d+")  # of the drawing's unit are kept: a tenth of a pixel in the closest view


class Look(NamedTuple):
    """How a weight is drawn: width in pixels, strength, and from how many pixels per radius on."""

    width: float
    alpha: float
    from_scale: float


GRID_LOOK = {"major": Look(1.0, 0.95, 0), "medium": Look(0.8, 0.55, 150), "fine": Look(0.7, 0.4, 720)}
TICK_LOOK = {"major": Look(1.0, 1.0, 0), "medium": Look(0.8, 0.8, 150), "fine": Look(0.7, 0.6, 620)}
SCALE_LABELS_FROM = {"major": 0, "medium": 166, "fine": 1500}
GRID_LABELS_FROM = {"major": 0, "medium": 166, "fine": 760}
UNDER = 2.0  # the second grid, laid under the first, gets its finer weights only at twice the size
AT_FIRST = 350  # pixels per radius for which the chart is laid out before a script knows better
OFF_RIM = 0.75  # from the rim to the numbers of x, in letters: a walk along the rim fits between
KINDS = ("resistance", "reactance")
PAST_THEM = 4.2  # and to those of b, which stand behind those of x on the same ray


@cache
def printed_svg() -> str:
    """The whole drawing: both grids with their numbers, the axis, and the scales in every layout and unit."""
    return element(
        "svg",
        element("style", STYLE.read_text("utf-8")),
        element("g", *_grids(), *_axis(), *_all_scales(), class_="plane"),
        class_="printed-chart",
        viewBox=" ".join(number(PLACE.radius * side * REGULAR.extent) for side in (-1, -1, 2, 2)),
        data_layouts=json.dumps(layout_radii(), separators=(",", ":")),
        data_radius=PLACE.radius,
        aria_hidden="true",
    )


def layout_radii() -> dict[str, dict[str, float]]:
    """Radii of the printed scales in each layout, for what is drawn beside them."""
    names = ("extent", "generator", "names", "load", "angle", "text")
    return {
        key: {**{name: round(getattr(one, name), 5) for name in names}, "tick": round(1 + one.tick, 5)}
        for key, one in LAYOUTS.items()
    }


def _piece(tag: str, name: str, from_scale: float, *content: str, **attributes: Any) -> str:
    """A piece; those of a closer view are told apart, since they are not shown at first."""
    closer = " closer" if from_scale > AT_FIRST else ""
    return element(tag, *content, class_=f"piece {name}{closer}", data_from=from_scale, **attributes)


def _line(look: Look) -> dict[str, float]:
    return {"stroke_width": look.width, "stroke_opacity": look.alpha}


def _grids() -> Iterator[str]:
    """Of the admittance grid only where it begins: the browser turns the other by half, where a course wants both."""
    arcs = grids.impedance_grid()
    for weight, look in reversed(GRID_LOOK.items()):
        facts = {"data_grid": "admittance", "data_weight": weight, **_line(look)}
        yield _piece("g", "grid admittance", UNDER * look.from_scale, **facts)
    for weight, look in reversed(GRID_LOOK.items()):
        drawn = (_curves([one for one in arcs if (one.kind, one.weight) == (kind, weight)]) for kind in KINDS)
        facts = {"data_grid": "impedance", "data_weight": weight, **_line(look)}
        yield _piece("g", "grid impedance", look.from_scale, *drawn, **facts)
    for grid, times in (("admittance", UNDER), ("impedance", 1.0)):
        for weight, from_scale in GRID_LABELS_FROM.items():
            numbers = [(one, off) for one, off in _grid_numbers(grid) if one.weight == weight]
            yield _numbers(f"of-grid {grid}", times * from_scale, numbers, data_grid=grid)


def _curves(arcs: Sequence[GridArc]) -> str:
    """Curves of one kind with the value of each."""
    values = " ".join(f"{one.value:g}" for one in arcs)
    return path(_tenths(curves(PLACE, arcs)), class_=arcs[0].kind, data_values=values)


def _grid_numbers(grid: str) -> Iterator[tuple[Label, float]]:
    """Values on the axis, and those along the rim with the letters of room between it and them."""
    if grid == "admittance":
        yield from ((one, 0.0) for one in grid_numbers.conductance_labels())
        yield from ((one, PAST_THEM) for one in grid_numbers.susceptance_labels(radius=1.0))
    else:
        yield from ((one, 0.0) for one in grid_numbers.resistance_labels())
        yield from ((replace(one, radius=1.0), OFF_RIM) for one in grid_numbers.reactance_labels())


def _axis() -> Iterator[str]:
    start, end = (number(PLACE.at(point)[0]) for point in grids.axis())
    yield _piece("path", "axis", 0, d=f"M{start} 0H{end}", **_line(GRID_LOOK["major"]))


def _all_scales() -> Iterator[str]:
    """In the regular layout; in the others everything is farther from the rim as its letters are larger."""
    layout = REGULAR
    for radius in (1.0, layout.angle_circle):
        circle = {"r": radius * PLACE.radius, **_line(TICK_LOOK["major"])}
        yield _piece("circle", "outside circle", 0, **circle)
    yield from _scale("angle", rim_scales.angle_ticks(layout), rim_scales.angle_labels(layout))
    for unit in rim_scales.UNITS:
        ticks = rim_scales.ticks(layout, unit)
        yield from _scale("generator", ticks, rim_scales.labels(layout, unit, "generator"), data_unit=unit)
        yield from _scale("load", (), rim_scales.labels(layout, unit, "load"), data_unit=unit)


def _scale(name: str, ticks: Sequence[Tick], labels: Sequence[Label], **facts: str) -> Iterator[str]:
    for weight, look in TICK_LOOK.items():
        drawn = _tenths(marks(PLACE, (tick for tick in ticks if tick.weight == weight)))
        yield (
            _piece("path", "outside ticks", look.from_scale, d=drawn, **facts, **_line(look)) if drawn else ""
        )
        numbers = [(label, 0.0) for label in labels if label.weight == weight]
        yield _numbers(f"outside {name}", SCALE_LABELS_FROM[weight], numbers, **facts)


def _numbers(name: str, from_scale: float, numbers: Sequence[tuple[Label, float]], **facts: str) -> str:
    """A piece of numbers; where they are not shown at first they are only told, for the browser to write on demand."""
    written = [_number(label, off) for label, off in numbers]
    late = from_scale > AT_FIRST or not {"admittance", "degrees"}.isdisjoint(facts.values())
    told = ";".join(" ".join(one.values()) for one in written) if late else None
    texts = () if late else (_text(**one) for one in written)
    return _piece("g", f"numbers {name}", from_scale, *texts, data_numbers=told, **facts)


def _number(label: Label, off: float) -> dict[str, str]:
    """Where a number stands, how far off along its baseline in letters, which part of it is there, and itself."""
    x, y = PLACE.at(label.at)
    aside = {"start": off, "middle": 0.0, "end": -off}[label.align]
    at = {"x": f"{x:.1f}", "y": f"{y:.1f}", "turn": f"{-degrees(label.rotation):.2f}"}
    return {**at, "aside": f"{aside:g}", "align": label.align, "said": label.text}


def _text(x: str, y: str, turn: str, aside: str, align: str, said: str) -> str:
    place = f"translate({x} {y})rotate({turn})"
    return element("text", words(said), transform=place, x=f"{aside}em", y=".36em", text_anchor=align)


def _tenths(drawn: str) -> str:
    return TENTHS.sub(lambda found: number(round(float(found[0]), 1)), drawn)
