"""The chart on paper, read back from the file: every line stands where core says, to a millionth of the radius."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any, ClassVar, Literal

import numpy as np
import pytest

from app.parts.printed_chart.grids import admittance_grid, impedance_grid
from app.parts.printed_chart.layouts import PRINT
from app.parts.vector_looks import MARKER, line_look, palette
from app.parts.worksheet import chart_svg
from core import line, single_stub
from core.chart import (
    conductance_circle,
    reactance_circle,
    resistance_circle,
    rim_position,
    rim_reflection,
    susceptance_circle,
)
from lessons.course.shunt_stub import LESSON
from lessons.grammar.notation import Notation
from lessons.working.sheet import Sheet
from tests.app.reading import Page, pieces, read
from tests.app.shunt import answer_key, worksheet
from tests.lessons.solving import changed, shipped_problems

Way = Literal["half turn", "overlay"]
CLOSE = 1e-6  # of the radius of the chart
CIRCLES = {
    "resistance": resistance_circle,
    "reactance": reactance_circle,
    "conductance": conductance_circle,
    "susceptance": susceptance_circle,
}
PROBLEM = shipped_problems()[0]
WAYS: tuple[Way, Way] = ("half turn", "overlay")


@cache
def blank(admittance: Way = "overlay", size: str = "A4") -> Page:
    """The first page of a blank worksheet, as a file has it."""
    return read(worksheet(PROBLEM, Notation(admittance=admittance), size=size)[0])


@cache
def solved(admittance: Way) -> Page:
    """The first page of the key."""
    return read(answer_key(PROBLEM, Notation(admittance=admittance))[0])


def strokes(page: Page, *classes: str, within: str = "") -> list[list[complex]]:
    """Places on each stroke of the paths that have these classes, in the plane of reflection."""
    found = page.find("path", *classes, within=within)
    return [[page.reflection(*place) for place in stroke] for path in found for stroke in pieces(path)]


def turned_to(page: Page, within: str) -> dict[str, complex]:
    """Where each number of a scale stands, by its text."""
    places = {}
    for one in page.find("text", within=within):
        x, y = (float(value) for value in re.findall(r"[-\d.]+", one.attrib["transform"])[1:])
        places["".join(one.itertext())] = page.reflection(x, y)
    return places


class TestGrid:
    @pytest.mark.parametrize(("grid", "kind", "weights"), [
        ("impedance", "resistance", ("major", "medium", "fine")),
        ("impedance", "reactance", ("major", "medium", "fine")),
        ("admittance", "conductance", ("major", "medium")),
        ("admittance", "susceptance", ("major", "medium")),
    ])  # fmt: skip
    @pytest.mark.parametrize("size", ["A4", "Letter"])
    def test_every_curve_is_on_its_circle(self, grid: str, kind: str, weights: tuple[str, ...], size: str):
        """What core.line reads on a curve names a round value, and the whole curve lies on core's circle of it."""
        page = blank(size=size)
        measure = line.impedance_from_reflection if grid == "impedance" else line.admittance_from_reflection
        count = 0
        for stroke in (
            one for weight in weights for one in strokes(page, kind, weight, within=f"{grid}-grid")
        ):
            points = np.array(stroke)
            middle = measure(points[len(points) // 2])
            value = middle.real if kind in ("resistance", "conductance") else middle.imag
            circle = CIRCLES[kind](round(value, 2))

            assert value == pytest.approx(round(value, 2), rel=1e-4)
            assert np.max(np.abs(np.abs(points - circle.center) - circle.radius)) <= CLOSE
            count += len(points)
        assert count >= 200

    @pytest.mark.parametrize("admittance", WAYS)
    def test_no_curve_is_missing(self, admittance: Way):
        """The file holds every arc of core's grid, from its first point to its last; under another grid the finest are
        left out, so that the two can be told apart."""
        page = blank(admittance)
        for kind in ("resistance", "reactance"):
            for weight in ("major", "medium", "fine")[: 2 if admittance == "overlay" else 3]:
                arcs = [one.arc for one in impedance_grid() if (one.kind, one.weight) == (kind, weight)]
                ends = [(one[0], one[-1]) for one in strokes(page, kind, weight, within="impedance-grid")]

                assert np.ravel(ends) == pytest.approx(np.ravel([(a.first, a.last) for a in arcs]), abs=CLOSE)

    def test_second_grid_only_with_overlay(self):
        """With the half turn there is one grid; the overlay's dotted one has all but the finest curves."""
        dotted = [one for one in admittance_grid() if one.weight != "fine"]

        assert [] == blank("half turn").find("path", within="admittance-grid")
        assert len(dotted) == len(strokes(blank("overlay"), within="admittance-grid"))
        assert all("stroke-dasharray" in one.attrib for one in blank().find("path", within="admittance-grid"))

    def test_two_grids_in_black_and_white(self):
        """Laid over each other the grids differ without colour: one in solid lines, one in broken ones, the finest of
        neither drawn, and their numbers upright and slanting."""
        page = blank("overlay")

        for grid, broken in (("impedance-grid", False), ("admittance-grid", True)):
            assert {broken} == {"stroke-dasharray" in one.attrib for one in page.find("path", within=grid)}
            assert [] == strokes(page, "fine", within=grid)

    def test_axis(self):
        """The axis runs from the short point to the open point."""
        assert [[-1, 1]] == [
            [pytest.approx(end, abs=CLOSE) for end in one] for one in strokes(blank(), "axis")
        ]


class TestRim:
    @pytest.mark.parametrize("size", ["A4", "Letter"])
    def test_toward_the_generator(self, size: str):
        """250 ticks from the rim outward, 0.002 wavelength apart clockwise from the short point."""
        ticks = strokes(blank(size=size), within="toward-generator")
        ticks = sorted(ticks, key=lambda one: round(float(rim_position(one[0])) / 0.002) % 250)
        feet = np.array([one[0] for one in ticks])

        assert feet == pytest.approx(rim_reflection(0.002 * np.arange(250)), abs=CLOSE)
        assert all(abs(np.angle(outer / inner)) <= CLOSE and abs(outer) > 1 for inner, outer in ticks)

    def test_toward_the_load(self):
        """The same number inside the outer circle, where a walk toward the load leads from the short point."""
        ticks = strokes(blank(), within="toward-load")
        ticks = sorted(ticks, key=lambda one: round(float(rim_position(one[0].conjugate())) / 0.002) % 250)
        feet = np.array([one[0] for one in ticks])
        expected = PRINT.angle_circle * line.toward_load(-1, 0.002 * np.arange(250))

        assert feet == pytest.approx(expected, abs=CLOSE)
        assert all(abs(inner) < abs(foot) for foot, inner in ticks)

    def test_angle(self):
        """A tick at every degree of the angle of reflection, outside the outer circle."""
        feet = np.array([one[0] for one in strokes(blank(), within="angle")])
        degrees = np.degrees(np.angle(feet)) % 360

        assert np.sort(np.round(degrees)) % 360 == pytest.approx(np.sort(np.arange(360)), abs=0)
        assert feet == pytest.approx(
            PRINT.angle_circle * np.exp(1j * np.radians(np.round(degrees))), abs=CLOSE
        )

    def test_numbers_stand_at_their_ticks(self):
        """Every number of the three scales stands in the direction that core gives its value."""
        expected: dict[str, Callable[[float], Any]] = {
            "toward-generator": lambda value: rim_reflection(value),
            "toward-load": lambda value: line.toward_load(-1, value),
            "angle": lambda value: np.exp(1j * np.radians(value)),
        }
        for scale, place in expected.items():
            numbers = turned_to(blank(), scale)

            assert len(numbers) == {"angle": 36}.get(scale, 50)
            for said, at in numbers.items():
                value = float(said.removesuffix("°").replace("−", "-"))
                assert at / abs(at) == pytest.approx(complex(place(value)), abs=CLOSE)


class TestRadialScales:
    MEASURE: ClassVar[dict[str, Callable[[float], Any]]] = {
        "reflection": float,
        "swr": line.reflection_from_swr,
        "return-loss": line.reflection_from_return_loss,
    }

    @pytest.mark.parametrize("scale", MEASURE)
    @pytest.mark.parametrize("size", ["A4", "Letter"])
    def test_every_number_stands_at_its_value(self, scale: str, size: str):
        """Under the chart, from below its centre on, a number stands where core puts its size of reflection."""
        page = blank(size=size)
        numbers = [one for one in page.find("text", within=scale) if one.attrib["text-anchor"] == "middle"]

        assert len(numbers) >= 11
        for one in numbers:
            value = float("".join(one.itertext()).replace("∞", "inf"))
            assert self.place(page, float(one.attrib["x"])) == pytest.approx(
                self.MEASURE[scale](value), abs=CLOSE
            )

    @pytest.mark.parametrize("scale", ["swr", "return-loss"])
    def test_every_mark_is_a_round_value(self, scale: str):
        """What core.line reads at a mark is a value of at most two decimals, and it stands there exactly."""
        measure = line.swr if scale == "swr" else line.return_loss_db
        page = blank()
        marks = [
            self.place(page, x) for path in page.find("path", within=scale) for (x, _), _ in pieces(path)
        ]
        inner = [mark for mark in marks if CLOSE < mark < 1 - CLOSE]

        assert len(inner) >= 60
        for mark in inner:
            value = round(float(measure(mark)), 2)
            assert mark == pytest.approx(self.MEASURE[scale](value), abs=CLOSE)

    @staticmethod
    def place(page: Page, x: float) -> float:
        """How far right of the chart's centre, in its radii."""
        return page.reflection(x, page.rim[1]).real


class TestStrokes:
    NEAR, FAR = single_stub(PROBLEM["load"], PROBLEM["line"])
    LOAD = complex(line.reflection_coefficient(PROBLEM["load"], PROBLEM["line"]))

    @pytest.mark.parametrize("admittance", WAYS)
    def test_mismatch_circle(self, admittance: Way):
        """The constant-mismatch circle goes round the centre through the load."""
        (circle,) = strokes(solved(admittance), "curve", "mismatch")

        assert np.abs(circle) == pytest.approx(abs(self.LOAD), abs=CLOSE)

    @pytest.mark.parametrize(("admittance", "center"), [("half turn", 0.5), ("overlay", -0.5)])
    def test_unit_circle(self, admittance: Way, center: float):
        """g = 1 is read on the circle of r = 1 with the half turn, on the dotted one of g = 1 with the overlay."""
        (circle,) = strokes(solved(admittance), "curve", "unit")

        assert np.abs(np.array(circle) - center) == pytest.approx(0.5, abs=CLOSE)

    @pytest.mark.parametrize("admittance", WAYS)
    def test_walks_turn_by_the_solver_s_lengths(self, admittance: Way):
        """Distance and stub length of the near and the far solution are drawn as clockwise turns of that length."""
        for side, network in (("first", self.NEAR), ("second", self.FAR)):
            (_, distance), (_, length) = np.array(
                strokes(solved(admittance), "way", side), dtype=object
            ).reshape(2, 2)
            for walked, arc in ((network.distance, distance), (network.stub_length, length)):
                turns = np.angle(np.array(arc[1:]) / np.array(arc[:-1]))

                assert np.sum(turns) == pytest.approx(-4 * np.pi * walked, abs=CLOSE)

    @pytest.mark.parametrize("admittance", WAYS)
    def test_rays_point_at_the_readings(self, admittance: Way):
        """The rays through y and the two crossings point at the readings of their labels, to the digits they have."""
        page = solved(admittance)
        rays = [one for role in ("construction", "first", "second") for one in strokes(page, "ray", role)]
        shown = [word.removesuffix(" λ") for word in page.words() if word.endswith(" λ")]
        readings = {round(float(rim_position(ray[1])), 6) for ray in rays}

        assert len(readings) == 3
        for reading in readings:
            assert any(f"{reading:.{len(text.partition('.')[2])}f}" == text for text in shown), reading

    def test_roles_differ_without_colour(self):
        """Any two roles differ by dash, width or marker, so that black ink tells them apart."""
        looks = {
            role: (
                line_look(role)["stroke-dasharray".replace("-", "_")],
                line_look(role)["stroke_width"],
                MARKER.get(role),
            )
            for role in ("load", "mismatch", "unit", "first", "second", "third", "fourth", "construction")
        }

        assert len(looks) == len(set(looks.values()))

    def test_palette_is_the_page_s(self):
        """Every role has its ink from the page's style sheet, by light."""
        assert {"load", "mismatch", "unit", "first", "second", "third", "fourth", "quiet"} <= set(palette())
        assert "#5b3fa8" == palette()["mismatch"]


class TestChartAlone:
    def test_says_what_is_drawn(self):
        """The chart of a sheet has a title, and its description says every stroke in words."""
        sheet = replace(Sheet(LESSON, PROBLEM), shown=3)
        page = read(chart_svg(sheet))
        title, description = (
            page.root.findtext(f"{{http://www.w3.org/2000/svg}}{tag}") for tag in ("title", "desc")
        )

        assert PROBLEM.title == title
        assert description is not None
        assert "The load at 0.57" in description
        assert "standing-wave ratio 3.66" in description
        assert "img" == page.root.attrib["role"]

    def test_problem_without_solution_has_a_chart(self):
        """A load that cannot be matched has its point and its circle on the chart to export; no crossing."""
        page = read(chart_svg(Sheet(LESSON, changed(PROBLEM, load=50j))))
        curves = page.find("path", "curve")

        assert {"curve mismatch", "curve unit"} == {one.attrib["class"] for one in curves}
        assert page.find("path", "marker")
        assert "A blank chart to draw on." not in page.root.findtext("{http://www.w3.org/2000/svg}desc", "")
