"""The printed paper: a Bokeh figure, and what is printed on it, in pieces that the browser puts there as there is room.

A piece is all that has one look: a weight of a grid, of the ticks, or of the numbers. It says which grid and which
layout it belongs to ("any" where it does not matter), and from how many pixels per radius of the chart on it is
printed. So the finest divisions appear only in a closer view, and a figure holds no more than is seen of it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import Any, NamedTuple

import numpy as np
from bokeh.models import Arc, ColumnDataSource, Glyph, Plot, Range1d, Segment, Text

from core import paper, scales
from core.paper import GridArc
from core.scales import Label, Layout

LAYOUTS = {"regular": scales.REGULAR, "compact": scales.COMPACT}
DIGITS = 5  # decimals of a position: at the closest view a tenth of a pixel
TURN = 6.28318530  # not more than a whole turn: Bokeh would draw the little that is over
ANGLE_DIGITS = 8  # and of an angle, since the flattest arc has a hundred times the radius of the chart

PAINT = {"grid": "#a9a69c", "grid-y": "#9fa8b2", "quiet": "#5a606b", "ink": "#22252b", "paper": "#fbfaf6"}
"""The paint of each role as the figure is made, in the light palette.

The figure is drawn as SVG, and a style sheet in the browser puts the page's CSS variable of the role in the place of
each of these colours; so the theme can change, and the page be printed, without the figure being drawn again."""


class Look(NamedTuple):
    """How a weight is drawn: width in pixels, strength, and from how many pixels per radius on."""

    width: float
    alpha: float
    from_scale: float


GRID_LOOK = {"major": Look(1.0, 0.95, 0), "medium": Look(0.8, 0.55, 150), "fine": Look(0.7, 0.4, 720)}
TICK_LOOK = {"major": Look(1.0, 1.0, 0), "medium": Look(0.8, 0.8, 150), "fine": Look(0.7, 0.6, 620)}
SCALE_LABELS_FROM = {"major": 0, "medium": 200, "fine": 1500}
GRID_LABELS_FROM = {"major": 0, "medium": 200, "fine": 760}
UNDER = 2.0  # the second grid, laid under the first, gets its finer weights only at twice the size
LETTERS = {
    "impedance": {"resistance": "r", "reactance": "x"},
    "admittance": {"resistance": "g", "reactance": "b"},
}

PATCH = {"background_fill_color": PAINT["paper"]}  # under the numbers of the grid, as on a contour line
NO_PATCH = {"background_fill_color": None}

Columns = dict[str, list[Any]]
LINE = ("line_color", "line_width", "line_alpha")
GLYPHS: dict[str, tuple[type[Glyph], tuple[str, ...], dict[str, Any]]] = {
    "admittance": (Arc, ("x", "y", "radius", "start_angle", "end_angle", *LINE), {"line_dash": "dotted"}),
    "impedance": (Arc, ("x", "y", "radius", "start_angle", "end_angle", *LINE), {}),
    "marks": (Segment, ("x0", "y0", "x1", "y1", *LINE), {}),
    "numbers": (
        Text,
        ("x", "y", "text", "angle", "text_align", "text_color", "text_font_style", "background_fill_color"),
        {"text_baseline": "middle", "text_font": {"value": "system-ui, sans-serif"}, "padding": [0, 1]},
    ),
}
"""The glyphs of the figure, in the order of drawing: kind, columns of the source, and what all have alike."""


class Piece(NamedTuple):
    """All that is printed in one look: into which glyph it goes, when it is shown, its places and its look."""

    name: str
    glyph: str
    grid: str
    layout: str
    from_scale: float
    columns: Columns
    look: dict[str, Any]


def paper_figure() -> Plot:
    """The figure for the printed chart, empty: the browser fills its sources, by their names, from `paper_pieces`.

    What is printed is the same for everybody, so that a session costs the server no time for it."""
    plot = _empty_figure()
    for name, (kind, columns, looks) in GLYPHS.items():
        source = ColumnDataSource({column: [] for column in columns}, name=name)
        plot.add_glyph(source, kind(**{column: column for column in columns}, **looks), level="underlay")
    return plot


@cache
def paper_pieces() -> str:
    """JSON of all pieces: both grids with their numbers, the axis, and the scales in both layouts."""
    pieces = [*_grid_pieces("admittance", "grid-y", UNDER), *_grid_pieces("impedance", "grid", 1.0)]
    pieces.append(Piece("axis", "marks", "any", "any", 0, _axis_columns(), _line("grid", GRID_LOOK["major"])))
    for name, layout in LAYOUTS.items():
        pieces += _scale_pieces(name, layout)
    return json.dumps([piece._asdict() for piece in pieces], separators=(",", ":"), ensure_ascii=False)


def _grid_pieces(grid: str, paint: str, times: float) -> Iterator[Piece]:
    for weight, look in reversed(GRID_LOOK.items()):
        columns = _grid_columns(grid, weight)
        yield Piece(
            f"{grid} {weight}", grid, grid, "any", times * look.from_scale, columns, _line(paint, look)
        )
    for weight, from_scale in GRID_LABELS_FROM.items():
        columns = _grid_label_columns(grid, weight)
        yield Piece(f"{grid} numbers {weight}", "numbers", grid, "any", times * from_scale, columns, PATCH)


def _scale_pieces(name: str, layout: Layout) -> Iterator[Piece]:
    circles = _circle_columns(1.0, layout.angle_circle)
    yield Piece("circles", "impedance", "any", name, 0, circles, _line("quiet", TICK_LOOK["major"]))
    for weight, look in TICK_LOOK.items():
        ticks, numbers = _tick_columns(layout, weight), _scale_label_columns(layout, weight)
        yield Piece(f"ticks {weight}", "marks", "any", name, look.from_scale, ticks, _line("quiet", look))
        from_scale = SCALE_LABELS_FROM[weight]
        yield Piece(f"scale numbers {weight}", "numbers", "any", name, from_scale, numbers, NO_PATCH)


def _empty_figure() -> Plot:
    """A square of the plane with nothing around it; equal units in both directions at any width."""
    extent = scales.REGULAR.extent
    return Plot(
        x_range=Range1d(-extent, extent),
        y_range=Range1d(-extent, extent),
        sizing_mode="scale_width",
        aspect_ratio=1,
        min_border=0,
        toolbar_location=None,
        outline_line_color=None,
        background_fill_color=None,
        border_fill_color=None,
        output_backend="svg",
    )


def _line(paint: str, look: Look) -> dict[str, Any]:
    return {"line_color": PAINT[paint], "line_width": look.width, "line_alpha": look.alpha}


def _grid_columns(grid: str, weight: str) -> Columns:
    arcs: Sequence[GridArc] = paper.admittance_grid() if grid == "admittance" else paper.impedance_grid()
    chosen = [one for one in arcs if one.weight == weight]
    drawn = [one.arc for one in chosen]
    letters = LETTERS[grid]
    starts = [arc.start + min(arc.sweep, 0.0) for arc in drawn]
    return {
        "x": _rounded(arc.circle.center.real for arc in drawn),
        "y": _rounded(arc.circle.center.imag for arc in drawn),
        "radius": _rounded(arc.circle.radius for arc in drawn),
        "start_angle": _rounded(starts, ANGLE_DIGITS),
        "end_angle": _rounded(
            (start + min(abs(arc.sweep), TURN) for start, arc in zip(starts, drawn, strict=True)),
            ANGLE_DIGITS,
        ),
        "name": [f"{letters[one.kind]} {scales.number(one.value)}" for one in chosen],
    }


def _axis_columns() -> Columns:
    start, end = paper.axis()
    return {"x0": [start.real], "y0": [start.imag], "x1": [end.real], "y1": [end.imag]}


def _circle_columns(*radii: float) -> Columns:
    nothing = [0.0] * len(radii)
    return {
        "x": nothing,
        "y": nothing,
        "radius": _rounded(radii),
        "start_angle": nothing,
        "end_angle": [TURN] * len(radii),
    }


def _tick_columns(layout: Layout, weight: str) -> Columns:
    ticks = _of_weight(scales.wavelength_ticks(layout) + scales.angle_ticks(layout), weight)
    inner = [tick.inner * np.exp(1j * tick.angle) for tick in ticks]
    outer = [tick.outer * np.exp(1j * tick.angle) for tick in ticks]
    return {
        "x0": _rounded(end.real for end in inner),
        "y0": _rounded(end.imag for end in inner),
        "x1": _rounded(end.real for end in outer),
        "y1": _rounded(end.imag for end in outer),
    }


def _scale_label_columns(layout: Layout, weight: str) -> Columns:
    return _label_columns(
        (_of_weight(scales.generator_labels(layout), weight), "ink", "normal"),
        (_of_weight(scales.load_labels(layout), weight), "quiet", "italic"),
        (_of_weight(scales.angle_labels(layout), weight), "quiet", "normal"),
    )


def _grid_label_columns(grid: str, weight: str) -> Columns:
    if grid == "admittance":
        labels, style = paper.conductance_labels() + paper.susceptance_labels(), "italic"
    else:
        labels, style = paper.resistance_labels() + paper.reactance_labels(), "normal"
    return _label_columns((_of_weight(labels, weight), "quiet", style))


def _label_columns(*rows: tuple[Sequence[Label], str, str]) -> Columns:
    """Columns of a text glyph from labels with their paint and style."""
    each = [(label, PAINT[paint], style) for labels, paint, style in rows for label in labels]
    aligned = {"start": "left", "middle": "center", "end": "right"}
    return {
        "x": _rounded(label.at.real for label, _, _ in each),
        "y": _rounded(label.at.imag for label, _, _ in each),
        "text": [label.text for label, _, _ in each],
        "angle": _rounded(label.rotation for label, _, _ in each),
        "text_align": [aligned[label.align] for label, _, _ in each],
        "text_color": [paint for _, paint, _ in each],
        "text_font_style": [style for _, _, style in each],
    }


def _of_weight(items: Sequence[Any], weight: str) -> list[Any]:
    return [item for item in items if item.weight == weight]


def _rounded(values: Iterable[float], digits: int = DIGITS) -> list[float]:
    return [round(float(value), digits) for value in values]
