"""The printed chart of the screen, read back from its SVG: where everything stands, and when it is shown."""

from __future__ import annotations

import json
import re
from functools import cache
from xml.etree import ElementTree

import numpy as np
import pytest

from app.parts.printed_chart import grids, rim_scales
from app.parts.printed_chart.layouts import REGULAR
from app.parts.screen_chart import LAYOUTS, PLACE, printed_svg
from core.chart import reactance_circle, resistance_circle, rim_reflection
from core.line import toward_generator, toward_load

WEIGHTS = tuple(grids.GAPS)
CLOSE = 2e-5  # of the radius of the chart: a tenth of a pixel in the closest view


@cache
def drawing() -> ElementTree.Element:
    return ElementTree.fromstring(printed_svg())


def pieces(name: str, **facts: str) -> list[ElementTree.Element]:
    """Pieces of a name, told apart by what they say of themselves."""
    return [
        one
        for one in drawing().iter()
        if name in one.get("class", "").split()
        and "piece" in one.get("class", "")
        and all(one.get(f"data-{key}") == value for key, value in facts.items())
    ]


def from_scale(piece: ElementTree.Element) -> float:
    return float(piece.get("data-from", "nan"))


def ends(d: str) -> list[tuple[complex, complex]]:
    """The first and the last point of each stroke of a path, in the plane of reflection."""
    strokes = (re.findall(r"-?[\d.]+", stroke) for stroke in d.split("M")[1:])
    return [(_point(*stroke[:2]), _point(*stroke[-2:])) for stroke in strokes]


def numbers(piece: ElementTree.Element) -> list[tuple[str, complex]]:
    """Each number of a piece with its place, whether it is written already or only told."""
    if told := piece.get("data-numbers"):
        rows = [one.split(" ") for one in told.split(";")]
        return [(row[-1], _point(*row[:2])) for row in rows]
    written = ((one.text or "", re.findall(r"-?[\d.]+", one.get("transform", ""))) for one in piece)
    return [(text, _point(*place[:2])) for text, place in written]


def _point(right: str, down: str) -> complex:
    return complex(float(right), -float(down)) / PLACE.radius


class TestGrid:
    @pytest.mark.parametrize("weight", WEIGHTS)
    def test_arcs_are_those_of_the_paper(self, weight: str):
        """Every arc of the printed grid is there, from its first point to its last, with its value."""
        (piece,) = pieces("grid", grid="impedance", weight=weight)
        for path in piece:
            arcs = [
                one for one in grids.impedance_grid() if (one.kind, one.weight) == (path.get("class"), weight)
            ]
            values = [float(value) for value in path.get("data-values", "").split()]

            assert values == [one.value for one in arcs]
            assert np.ravel(ends(path.get("d", ""))) == pytest.approx(
                np.ravel([(one.arc.first, one.arc.last) for one in arcs]), abs=CLOSE
            )

    def test_radii(self):
        """Each arc has the radius of core's circle of its value."""
        circles = {"resistance": resistance_circle, "reactance": reactance_circle}
        for piece in pieces("grid", grid="impedance"):
            for path in piece:
                circle = circles[path.get("class", "")]
                radii = [float(one.split("A")[1].split(" ")[0]) for one in path.get("d", "").split("M")[1:]]
                values = [float(value) for value in path.get("data-values", "").split()]

                assert np.array(radii) / PLACE.radius == pytest.approx(
                    [circle(value).radius for value in values], rel=2e-4
                )

    def test_the_other_grid_begins_later(self):
        """Of the second grid, which lies under the first, finer curves need twice the room."""
        for weight in WEIGHTS:
            (under,), (upper,) = (
                pieces("grid", grid=grid, weight=weight) for grid in ("admittance", "impedance")
            )

            assert from_scale(under) == 2 * from_scale(upper)

    @pytest.mark.parametrize("name", ["grid", "ticks", "generator", "of-grid"])
    def test_finer_needs_more_room(self, name: str):
        """Each weight is a piece of its own, and a finer one is shown at a larger size."""
        first = [one for one in pieces(name) if "degrees" not in one.attrib.values()]
        first = [one for one in first if one.get("data-grid") != "admittance"]
        needed = sorted({from_scale(one) for one in first})

        assert len(needed) == len(WEIGHTS)
        assert needed[0] == 0


class TestScales:
    @pytest.mark.parametrize("unit", rim_scales.UNITS)
    @pytest.mark.parametrize(("scale", "walked"), [("generator", toward_generator), ("load", toward_load)])
    def test_every_reading_is_where_the_length_leads(self, unit: str, scale: str, walked):
        """A number stands beside the place to which a walk of that length leads from the short point."""
        found = [one for piece in pieces(scale, unit=unit) for one in numbers(piece)]
        turn = {"wavelengths": 1.0, "degrees": 1 / 360}[unit]
        for text, place in found:
            reached = walked(-1 + 0j, float(text.rstrip("°")) * turn)

            assert abs(place / abs(place) - reached) < 1e-4
        assert len(found) == {"wavelengths": 250, "degrees": 180}[unit]

    def test_ticks_of_degrees(self):
        """Half degrees of line once around: 360 marks, 36 long ones every five degrees, from the rim outward."""
        ticks = rim_scales.ticks(REGULAR, "degrees")
        long = [tick for tick in ticks if tick.weight == "major"]

        assert (len(ticks), len(long)) == (360, 36)
        assert np.exp(1j * np.array([tick.angle for tick in long])) == pytest.approx(
            rim_reflection(np.arange(36) * 5 / 360), abs=1e-12
        )
        assert all(tick.inner == 1 < tick.outer for tick in ticks)

    def test_other_layouts_are_the_regular_one_stretched(self):
        """Outside the rim every radius of a layout is as much farther from the rim as its letters are larger."""
        regular = LAYOUTS["regular"]
        for layout in LAYOUTS.values():
            for name in ("tick", "generator", "names", "load", "angle_circle", "angle", "extent"):
                off = 0 if name == "tick" else 1
                expected = (getattr(regular, name) - off) * layout.text / regular.text

                assert getattr(layout, name) - off == pytest.approx(expected, abs=1e-12)


class TestPage:
    def test_made_once(self):
        """The drawing is the same text for everybody."""
        assert printed_svg() is printed_svg()

    def test_layouts_come_along(self):
        """The radii that the browser needs are those of the layouts."""
        told = json.loads(drawing().get("data-layouts", ""))

        assert {name: one["extent"] for name, one in told.items()} == {
            name: pytest.approx(layout.extent, abs=1e-5) for name, layout in LAYOUTS.items()
        }

    def test_names_no_colour(self):
        """Every colour is a variable of the page, so that light, dark and paper need no other drawing."""
        assert re.search(r"#[0-9a-f]{3,8}\b(?!printed)|rgb", printed_svg().replace("#printed", "")) is None
