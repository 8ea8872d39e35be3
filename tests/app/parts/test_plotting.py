"""Where strokes and gestures are plotted, and what the stage believes of a browser."""

import cmath
import json
import math

import pytest

from app.parts.plotting import Group, drawn_answer, plotted, plotted_gesture, points_table, unplotted
from app.parts.stage import Stage
from core.chart import UNIT_CONDUCTANCE_CIRCLE, mismatch_circle, walk
from lessons.grammar.notation import Notation
from lessons.grammar.strokes import (
    Curve,
    DragAlong,
    DragRadius,
    HalfTurn,
    PickPoint,
    PlacePoint,
    Point,
    PointOnCircle,
    Ray,
    Region,
    Stroke,
    WalkCircle,
    Way,
)

GAMMA = 0.3 - 0.4j
OVERLAY, HALF_TURN = "overlay", "half turn"


def only(stroke, admittance: str) -> dict:
    """The one stroke as the browser gets it."""
    (drawn,) = plotted([stroke], admittance)
    return drawn


class TestPlotted:
    @pytest.mark.parametrize(
        ("read_as", "admittance", "place"),
        [
            pytest.param("impedance", HALF_TURN, GAMMA, id="impedance stays with the half turn"),
            pytest.param("impedance", OVERLAY, GAMMA, id="impedance stays with the overlay"),
            pytest.param("admittance", HALF_TURN, -GAMMA, id="admittance crosses with the half turn"),
            pytest.param("admittance", OVERLAY, GAMMA, id="admittance stays with the overlay"),
        ],
    )
    def test_point(self, read_as, admittance: str, place: complex):
        """A point stands at its reflection, or across the centre where the course turns admittances."""
        drawn = only(Point(GAMMA, "load", read_as, "y", "The load.", "1"), admittance)

        assert complex(*drawn["at"]) == place
        assert (drawn["kind"], drawn["role"], drawn["label"]) == ("point", "load", "y")
        assert (drawn["spoken"], drawn["value"]) == ("The load.", "1")

    def test_unit_conductance_circle_lies_on_the_unit_resistance_circle_of_the_one_grid(self):
        """With the half turn g = 1 is drawn along r = 1: centre one half to the right. Common practice."""
        curve = Curve(UNIT_CONDUCTANCE_CIRCLE, "unit", "admittance", "g = 1", "")

        assert (only(curve, HALF_TURN)["center"], only(curve, HALF_TURN)["radius"]) == ([0.5, 0.0], 0.5)
        assert only(curve, OVERLAY)["center"] == [-0.5, 0.0]

    @pytest.mark.parametrize("admittance", [HALF_TURN, OVERLAY])
    def test_way_runs_from_point_to_point(self, admittance: str):
        """A walk starts and ends where its first and last points are plotted, and keeps its sense."""
        arc = walk(GAMMA, 0.11)
        drawn = only(Way(arc, "first", "admittance", "d", ""), admittance)
        start = complex(*drawn["center"]) + cmath.rect(drawn["radius"], drawn["start"])
        end = complex(*drawn["center"]) + cmath.rect(drawn["radius"], drawn["start"] + drawn["sweep"])
        sign = -1 if admittance == HALF_TURN else 1

        assert (start, end) == (pytest.approx(sign * arc.first), pytest.approx(sign * arc.last))
        assert drawn["sweep"] < 0  # toward the generator is clockwise in both

    def test_half_turn_crosses_the_centre(self):
        """With one grid the half turn leads straight through the centre."""
        drawn = only(HalfTurn(GAMMA, "construction", "", ""), HALF_TURN)

        assert (drawn["kind"], complex(*drawn["from"]), complex(*drawn["to"])) == ("cross", GAMMA, -GAMMA)

    def test_half_turn_is_a_ring_under_the_overlay(self):
        """With two grids the point stays, and a ring says that the other grid is read."""
        drawn = only(HalfTurn(GAMMA, "construction", "", ""), OVERLAY)

        assert (drawn["kind"], complex(*drawn["at"])) == ("ring", GAMMA)

    def test_ray_points_to_the_plotted_place(self):
        """A ray goes through its point where that is plotted."""
        assert complex(*only(Ray(GAMMA, "first", "admittance", "", ""), HALF_TURN)["at"]) == -GAMMA

    def test_region(self):
        """A region is turned with its circle and keeps which side of it is meant."""
        drawn = only(Region(UNIT_CONDUCTANCE_CIRCLE, False, "admittance", "no match", ""), HALF_TURN)

        assert (drawn["kind"], drawn["role"], drawn["inside"]) == ("region", "region", False)
        assert (drawn["center"], drawn["radius"]) == ([0.5, 0.0], 0.5)

    def test_is_plain(self):
        """What goes to the browser is JSON: numbers, words, lists."""
        strokes: list[Stroke] = [
            Point(GAMMA, "load", "impedance", "z", ""), Curve(mismatch_circle(GAMMA), "mismatch", "impedance", "", ""),
            Way(walk(GAMMA, 0.1), "second", "admittance", "", ""), HalfTurn(GAMMA, "construction", "", ""),
            Ray(GAMMA, "second", "admittance", "", ""), Region(mismatch_circle(GAMMA), True, "impedance", "", ""),
        ]  # fmt: skip

        assert json.loads(json.dumps(plotted(strokes, HALF_TURN))) == plotted(strokes, HALF_TURN)


class TestPlottedGesture:
    @pytest.mark.parametrize("gesture", [
        PlacePoint("admittance"), PointOnCircle(mismatch_circle(GAMMA), "admittance"), DragAlong(GAMMA, "admittance"),
        WalkCircle(UNIT_CONDUCTANCE_CIRCLE, 0j, "admittance"), PickPoint((("short", -1 + 0j),), "admittance"),
    ], ids=lambda gesture: type(gesture).__name__)  # fmt: skip
    def test_says_when_points_are_turned(self, gesture):
        """Only under the half turn do points of an admittance stand at minus their reflection."""
        assert plotted_gesture(gesture, HALF_TURN)["turned"] is True
        assert plotted_gesture(gesture, OVERLAY)["turned"] is False

    def test_impedance_is_never_turned(self):
        """A gesture read as an impedance works on the reflection itself."""
        assert plotted_gesture(DragRadius(), HALF_TURN) == {
            "kind": "radius",
            "read_as": "impedance",
            "turned": False,
        }

    def test_start_of_a_walk(self):
        """A walk starts where its point is plotted."""
        assert complex(*plotted_gesture(DragAlong(GAMMA, "admittance"), HALF_TURN)["start"]) == -GAMMA

    def test_walk_along_any_circle(self):
        """The circle and its start are turned together, so that the start stays on the circle."""
        task = plotted_gesture(WalkCircle(UNIT_CONDUCTANCE_CIRCLE, -0.5 + 0.5j, "admittance"), HALF_TURN)

        assert (task["center"], task["radius"], task["start"]) == ([0.5, 0.0], 0.5, [0.5, -0.5])

    def test_points_to_pick(self):
        """Points to pick keep their keys and stand where they are plotted."""
        gesture = PickPoint((("short", -1 + 0j), ("match", 0j)), "admittance")

        assert plotted_gesture(gesture, HALF_TURN)["points"][0] == ["short", 1.0, 0.0]

    @pytest.mark.parametrize("admittance", [HALF_TURN, OVERLAY])
    @pytest.mark.parametrize("read_as", ["impedance", "admittance"])
    def test_unplotted_undoes_it(self, read_as, admittance: str):
        """The reflection of a plotted point is the reflection it was plotted from."""
        drawn = only(Point(GAMMA, "load", read_as, "", ""), admittance)

        assert unplotted(complex(*drawn["at"]), read_as, admittance) == GAMMA


class TestPointsTable:
    def test_row(self):
        """A point's row tells its name, z, y, size and angle of reflection, and its reading on the scale.

        Source: 25 - j50 on 50 ohm, z = 0.5 - j1 and y = 0.4 + j0.8 (Ulaby, Fundamentals of Applied Electromagnetics,
        single-stub example, from memory)."""
        load = Point((25 - 50j - 50) / (25 - 50j + 50), "load", "admittance", "y", "")
        (row,) = points_table([Group("a", (load,))], Notation())

        assert row == ["y", "0.500 − j1.000", "0.400 + j0.800", "0.620", "97.1°", "0.115 λ"]

    def test_a_subscript_is_a_word_apart(self):
        """What a label has as a subscript is a word of its own in the table, which is read aloud."""
        (row,) = points_table([Group("a", (Point(GAMMA, "first", "admittance", "y_A", ""),))], Notation())

        assert row[0] == "y A"

    @pytest.mark.parametrize(
        ("read_as", "admittance", "angle"),
        [
            pytest.param("impedance", HALF_TURN, "−53.1°", id="z where its reflection is"),
            pytest.param("admittance", HALF_TURN, "126.9°", id="y half a turn away"),
            pytest.param("admittance", OVERLAY, "−53.1°", id="y under the overlay"),
        ],
    )
    def test_angle_and_scale_are_read_where_the_point_is_plotted(self, read_as, admittance, angle: str):
        """Angle and reading are those beside the point that is seen: 0.25 wavelength less 1/720 for each degree."""
        point = Point(GAMMA, "load", read_as, "y", "")
        (row,) = points_table([Group("a", (point,))], Notation(admittance=admittance))
        reading = (0.25 - float(angle.replace("−", "-").rstrip("°")) / 720) % 0.5

        assert (row[4], float(row[5].rstrip(" λ"))) == (angle, pytest.approx(reading, abs=6e-4))

    def test_match_has_no_angle(self):
        """The match point has neither an angle nor a reading on the scale."""
        (row,) = points_table([Group("a", (Point(0j, "load", "impedance", "z", ""),))], Notation())

        assert row[4:] == ["", ""]

    def test_the_same_point_once(self):
        """A point drawn again in a later step has one row."""
        point = Point(GAMMA, "load", "impedance", "z", "")

        assert len(points_table([Group("a", (point,)), Group("b", (point,))], Notation())) == 1


NO_ANSWERS = [
    None, True, "0.5", "1e999", math.nan, math.inf, 7.5, -3, [], [0.1], [0.1, 0.2, 0.3], ["0", "1"], [9, 9],
    [math.nan, 0], {"u": 1}, [[0.1], 0.2], "match", 10**400, [10**400, 0],
]  # fmt: skip


class TestAnswers:
    """What is made of an answer that comes from a browser."""

    @pytest.mark.parametrize(
        ("gesture", "value", "answer"),
        [
            pytest.param(PlacePoint("impedance"), [0.3, -0.4], GAMMA, id="point"),
            pytest.param(PlacePoint("admittance"), [-0.3, 0.4], GAMMA, id="point of an admittance"),
            pytest.param(
                PointOnCircle(mismatch_circle(GAMMA), "impedance"), [0.5, 0], 0.5 + 0j, id="on a circle"
            ),
            pytest.param(
                WalkCircle(UNIT_CONDUCTANCE_CIRCLE, 0j, "admittance"), [0.5, -0.5], -0.5 + 0.5j, id="walk"
            ),
            pytest.param(DragRadius(), 0.62, 0.62, id="radius"),
            pytest.param(DragAlong(GAMMA, "admittance"), -0.11, -0.11, id="walk toward the load"),
            pytest.param(PickPoint((("short", -1 + 0j),), "admittance"), "short", "short", id="choice"),
        ],
    )
    def test_good(self, gesture, value, answer):
        """An answer is the reflection on the line, a size, wavelengths or a key."""
        assert answer == drawn_answer(value, gesture, "half turn")

    def test_as_it_was_plotted(self):
        """A point is read in the way of plotting in which it was drawn, whatever the chart shows since."""
        assert GAMMA == drawn_answer([0.3, -0.4], PlacePoint("admittance"), "overlay")

    @pytest.mark.parametrize("gesture", [
        PlacePoint("impedance"), PointOnCircle(mismatch_circle(GAMMA), "admittance"), DragRadius(),
        DragAlong(GAMMA, "impedance"), PickPoint((("short", -1 + 0j),), "admittance"),
        WalkCircle(UNIT_CONDUCTANCE_CIRCLE, 0j, "impedance"),
    ], ids=lambda gesture: type(gesture).__name__)  # fmt: skip
    def test_bad(self, gesture):
        """Nothing but a finite answer of the right kind is one."""
        assert [None] * len(NO_ANSWERS) == [drawn_answer(value, gesture, "half turn") for value in NO_ANSWERS]


class TestAsking:
    @pytest.fixture
    def stage(self) -> Stage:
        return Stage()

    def test_says_what_moves(self, stage: Stage):
        """A walk says which element of which solution's network it is the length of; other gestures move nothing."""
        stage.ask("f", DragAlong(GAMMA, "admittance"), "Walk.", {"branch": "a", "element": 1})
        walk_of = stage.gesture["moves"]
        stage.ask("g", DragRadius())

        assert (walk_of, stage.gesture["moves"]) == ({"branch": "a", "element": 1}, None)

    def test_asked_again(self, stage: Stage):
        """The same question asked again is a new one, so that the hand starts afresh."""
        stage.ask("f", DragRadius())
        first = stage.gesture["turn"]
        stage.ask("f", DragRadius())

        assert stage.gesture["turn"] != first

    def test_notation_moves_what_is_asked_and_drawn(self, stage: Stage):
        """In another notation the same strokes and the same question are plotted where it wants them."""
        stage.draw([Group("a", (Point(GAMMA, "load", "admittance", "y", ""),))])
        stage.ask("f", DragAlong(GAMMA, "admittance"))
        before = stage.strokes[0]["strokes"][0]["at"], stage.gesture["start"]
        stage.write(Notation(admittance="overlay"))
        after = stage.strokes[0]["strokes"][0]["at"], stage.gesture["start"]

        assert before == ([-0.3, 0.4], [-0.3, 0.4])
        assert after == ([0.3, -0.4], [0.3, -0.4])
