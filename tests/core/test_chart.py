"""The chart's geometry: twelve digits against circles through three points and the law of cosines, and its laws.

A law with no source beside it is common practice, no source.
"""

from dataclasses import astuple

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from skrf.tlineFunctions import Gamma0_2_zl, zl_2_Gamma0

from core import (
    CoreError,
    OutOfRange,
    impedance_from_reflection,
    reflection_coefficient,
    single_stub,
    toward_generator,
)
from core.chart import (
    MATCH_POINT,
    OPEN_POINT,
    RIM,
    SHORT_POINT,
    UNIT_CONDUCTANCE_CIRCLE,
    UNIT_RESISTANCE_CIRCLE,
    Arc,
    Circle,
    NotACircle,
    arc_between,
    conductance_circle,
    crossings,
    local_scale,
    mismatch_circle,
    reactance_arc,
    reactance_circle,
    resistance_arc,
    resistance_circle,
    rim_position,
    rim_reflection,
    susceptance_circle,
    walk,
)
from tests.reference import exact, loads

DIGITS = 1e-12
SIZES = [0, *loads.decades(loads.random(31), -6, 6, 200).tolist()]
SIGNED = [sign * size for size in SIZES[1:] for sign in (1, -1)]

angles = st.floats(-np.pi, np.pi)
distances = st.floats(0, 0.499)


def through(*immittances):
    """The circle of reflection through three normalised impedances."""
    return exact.circle_through(*(exact.reflection(exact.exact(complex(z)), 1) for z in immittances))


def error(circle: Circle, expected) -> float:
    """Of centre and radius, each relative to its size."""
    center, radius = expected
    return exact.worst_error([circle.center, circle.radius], expected, [max(abs(center), radius), radius])


def on(circle: Circle, point: complex, within: float = 1e-14) -> bool:
    """Whether the point lies on the circle."""
    return within >= abs(abs(point - circle.center) - circle.radius)


class TestGridCircles:
    def test_resistance(self):
        """A circle of constant r goes through r and two more loads of that r, to twelve digits."""
        assert DIGITS >= max(
            error(resistance_circle(r), through(r, r + (1 + r) * 1j, r - (1 + r) * 1j)) for r in SIZES[1:]
        )

    def test_reactance(self):
        """A circle of constant x goes through jx and two more loads of that x, to twelve digits."""
        assert DIGITS >= max(
            error(reactance_circle(x), through(1j * x, abs(x) + 1j * x, 1 + 2 * abs(x) + 1j * x))
            for x in SIGNED
        )

    @given(value=st.floats(1e-6, 1e6))
    def test_half_turn(self, value):
        """The admittance grid is the impedance grid after a half turn."""
        for turned, circle in (
            (conductance_circle(value), resistance_circle(value)),
            (susceptance_circle(value), reactance_circle(value)),
        ):
            assert (-circle.center, circle.radius) == astuple(turned)

    @given(r=st.floats(0, 1e3), x=st.floats(-1e3, 1e3).filter(lambda x: abs(x) > 1e-3))
    def test_a_load_is_where_its_circles_meet(self, r, x):
        """The circles of r and of x meet in the reflection of r + jx and in the open point."""
        point = reflection_coefficient(complex(r, x), 1)

        assert on(resistance_circle(r), point)
        assert on(reactance_circle(x), point, 1e-14 * (1 + 1 / abs(x)))
        assert on(resistance_circle(r), OPEN_POINT)
        assert on(reactance_circle(x), OPEN_POINT)

    def test_named_circles(self):
        """Rim, unit circles and points are those of r = 0, r = 1, g = 1, short, open and match."""
        assert resistance_circle(0) == RIM
        assert resistance_circle(1) == UNIT_RESISTANCE_CIRCLE
        assert conductance_circle(1) == UNIT_CONDUCTANCE_CIRCLE
        assert reflection_coefficient([0, np.inf, 1], 1).tolist() == [SHORT_POINT, OPEN_POINT, MATCH_POINT]

    @pytest.mark.parametrize("circle", [resistance_circle, conductance_circle])
    @pytest.mark.parametrize("value", [-0.1, np.inf, np.nan])
    def test_no_such_resistance(self, circle, value):
        """Below zero there is no circle on the chart, and at infinity only a point."""
        with pytest.raises(NotACircle, match=r"needs r from 0 upward") as refusal:
            circle(value)

        assert refusal.value.value is value
        assert isinstance(refusal.value, CoreError)

    @pytest.mark.parametrize("circle", [reactance_circle, susceptance_circle])
    @pytest.mark.parametrize("value", [0, -0.0, np.inf, np.nan])
    def test_no_such_reactance(self, circle, value):
        """The curve of x = 0 is the straight axis, and at infinity there is only a point."""
        with pytest.raises(NotACircle, match=r"needs x other than 0"):
            circle(value)

    @given(gamma=st.complex_numbers(max_magnitude=1), distance=distances)
    def test_mismatch(self, gamma, distance):
        """The constant-mismatch circle holds all that a lossless line can show of a load."""
        assert on(mismatch_circle(gamma), toward_generator(gamma, distance))


class TestCrossings:
    @pytest.mark.parametrize("ratio", [1 + 2e-12, 1 + 2e-9, 1 + 2e-6, 1.01, 1.5, 5, 100, 1e4, 1e10, 1e14])
    @pytest.mark.parametrize("unit", [UNIT_RESISTANCE_CIRCLE, UNIT_CONDUCTANCE_CIRCLE], ids=["r=1", "g=1"])
    def test_twelve_digits_of_mismatch_circles(self, ratio, unit):
        """From near a match to near the rim a mismatch circle meets the unit circle to twelve digits of itself."""
        radius = (ratio - 1) / (ratio + 1)
        both = 0j, radius, unit.center, unit.radius
        expected = exact.crossings(*map(exact.exact, both))

        assert DIGITS >= exact.worst_error(crossings(Circle(0j, radius), unit), expected)

    def test_twelve_digits(self):
        """Circles anywhere, of any size, cross to twelve digits, the left crossing first."""
        rng, worst = loads.random(32), 0.0
        for _ in range(300):
            first, second = (
                Circle(complex(*rng.uniform(-2, 2, 2)), float(loads.decades(rng, -2, 1, 1)[0])) for _ in "ab"
            )
            found = crossings(first, second)
            span = abs(second.center - first.center)
            meet = abs(first.radius - second.radius) < span < first.radius + second.radius

            assert (2 if meet else 0) == len(found)
            if meet:
                expected = exact.crossings(*map(exact.exact, (*astuple(first), *astuple(second))))
                worst = max(worst, exact.worst_error(found, expected, max(first.radius, abs(first.center))))

        assert 0 < worst <= DIGITS

    @pytest.mark.parametrize("apart", [1e-12, 1e-6j, -0.1])
    def test_twelve_digits_of_near_equals(self, apart):
        """Circles of one size cross to twelve digits even where they almost lie on each other."""
        first, second = Circle(0.3 + 0.1j, 1), Circle(0.3 + 0.1j + apart, 1)
        expected = exact.crossings(*map(exact.exact, (*astuple(first), *astuple(second))))

        assert DIGITS >= exact.worst_error(crossings(first, second), expected)

    @pytest.mark.parametrize("first", [0.1, 0.5, 2, 7])
    @pytest.mark.parametrize("second", [0.3, 1, 3.7, 20])
    def test_touching(self, first, second):
        """All circles of constant r touch in the open point, though rounding has moved their radii."""
        (touch,) = crossings(resistance_circle(first), resistance_circle(second))

        assert pytest.approx(OPEN_POINT) == touch

    def test_touching_from_outside(self):
        """The unit circles of resistance and conductance touch at the match."""
        assert crossings(UNIT_RESISTANCE_CIRCLE, UNIT_CONDUCTANCE_CIRCLE) == (MATCH_POINT,)

    @pytest.mark.parametrize(
        ("first", "second"),
        [
            pytest.param(Circle(0j, 1), Circle(3 + 0j, 1), id="apart"),
            pytest.param(Circle(0j, 1), Circle(0.1j, 0.5), id="one inside the other"),
            pytest.param(RIM, RIM, id="one circle"),
            pytest.param(RIM, Circle(0j, 0.5), id="one centre"),
        ],
    )
    def test_none(self, first, second):
        """Circles that do not meet, and a circle and itself, have no crossing to show."""
        assert () == crossings(first, second)
        assert () == crossings(second, first)

    def test_matched(self):
        """The mismatch circle of a match is a point, and it lies on the unit circle."""
        assert crossings(mismatch_circle(0), UNIT_CONDUCTANCE_CIRCLE) == (MATCH_POINT,)

    @given(load=st.builds(complex, st.floats(1, 500), st.floats(-500, 500)))
    def test_where_the_stub_goes(self, load):
        """A line walked by the distance of a single stub ends in a crossing with the unit-conductance circle."""
        assume(load != 50)
        gamma = reflection_coefficient(load, 50)
        walked = [walk(gamma, solution.distance).last for solution in single_stub(load, 50)]
        found = crossings(mismatch_circle(gamma), UNIT_CONDUCTANCE_CIRCLE)

        assert pytest.approx(sorted(found, key=np.imag), abs=1e-13) == sorted(walked, key=np.imag)


class TestRim:
    def test_twelve_digits(self):
        """A reading of the rim is the length of shorted line with the reactance there, to 1e-12 of a half wave."""
        readings = loads.random(33).uniform(0, 0.5, 300)
        points = rim_reflection(readings)
        expected = [exact.rim_reflection(exact.exact(p)) for p in readings]
        positions = [exact.rim_position(exact.exact(p)) for p in points]

        assert DIGITS >= exact.worst_error(points, expected)
        assert DIGITS >= exact.worst_length_error(rim_position(points), positions)

    @pytest.mark.parametrize(
        ("reading", "point"),
        [(0, SHORT_POINT), (0.125, 1j), (0.25, OPEN_POINT), (0.375, -1j), (0.5, SHORT_POINT)],
    )
    def test_corners(self, reading, point):
        """The scale begins at the short point and runs clockwise: over the inductors to the open point."""
        assert point == rim_reflection(reading)
        assert reading % 0.5 == rim_position(point)

    @given(gamma=st.complex_numbers(min_magnitude=1e-6, max_magnitude=1), distance=distances)
    def test_reads_the_walk(self, gamma, distance):
        """Toward the generator the reading grows by the distance walked."""
        there = rim_position(toward_generator(gamma, distance))

        assert pytest.approx(0, abs=1e-14) == exact.half_wave_apart(there, rim_position(gamma) + distance)

    def test_no_reading(self):
        """Where there is no solution there is no point, and nothing warns."""
        assert np.isnan(rim_reflection([np.nan, 0.1])).tolist() == [True, False]


class TestArcs:
    @given(gamma=st.complex_numbers(min_magnitude=1e-3, max_magnitude=1), distance=st.floats(0, 3))
    def test_walk(self, gamma, distance):
        """The way along a line is drawn clockwise, from the load's point to what the line shows."""
        way = walk(gamma, distance)

        assert way.sweep <= 0
        assert pytest.approx(gamma, abs=1e-14) == way.first
        assert pytest.approx(toward_generator(gamma, distance), abs=1e-13) == way.last
        assert pytest.approx(gamma, abs=1e-13) == walk(way.last, -distance).last

    @given(start=angles, end=angles, clockwise=st.booleans())
    def test_between(self, start, end, clockwise):
        """An arc joins its two points on its circle in the sense that was asked for, in less than one turn."""
        first, last = RIM.at(start), RIM.at(end)
        arc = arc_between(RIM, first, last, clockwise)

        assert pytest.approx(first, abs=1e-14) == arc.first
        assert pytest.approx(last, abs=2e-14) == arc.last
        assert 0 <= arc.sweep * (-1 if clockwise else 1) < 2 * np.pi

    @pytest.mark.parametrize("clockwise", [True, False])
    @pytest.mark.parametrize("apart", [0, 2e-16, -2e-16])
    def test_between_equals(self, clockwise, apart):
        """Between a point and itself, rounded one way or the other, there is no arc, and no full turn."""
        circle = resistance_circle(0.4)
        arc = arc_between(circle, circle.at(1), circle.at(1 + apart), clockwise)

        assert pytest.approx(0, abs=1e-14) == arc.sweep

    def test_points(self):
        """The points of an arc lie on its circle, evenly, from first to last."""
        arc = Arc(resistance_circle(2), 0.3, -2)
        points = arc.points(5)

        assert points[[0, -1]].tolist() == [arc.first, arc.last]
        assert pytest.approx(2) == impedance_from_reflection(points).real
        assert pytest.approx(np.exp(-0.5j)) == np.diff(points)[1:] / np.diff(points)[:-1]

    def test_at_shapes(self):
        """A circle gives as many points as it is given angles."""
        assert RIM.at(np.zeros((2, 3))).shape == (2, 3)
        assert isinstance(RIM.at(0.0), complex)


class TestArcsOfTheGrid:
    @pytest.mark.parametrize("resistance", [0.0, 0.3, 1.0, 7.0])
    def test_resistance(self, resistance: float):
        """An arc of constant r runs from one reactance to the other, and scikit-rf finds r all along it.

        Source: scikit-rf, tlineFunctions.Gamma0_2_zl."""
        arc = resistance_arc(resistance, -2.0, 0.5)
        found = Gamma0_2_zl(1.0, arc.points(33))

        assert found.real == pytest.approx(resistance, abs=1e-12)
        assert (found[0].imag, found[-1].imag) == pytest.approx((-2.0, 0.5), abs=1e-12)
        assert np.all(np.diff(found.imag) > 0)

    @pytest.mark.parametrize("reactance", [-3.0, -0.2, 0.2, 1.0])
    def test_reactance(self, reactance: float):
        """An arc of constant x runs from one resistance to the other, and scikit-rf finds x all along it.

        Source: scikit-rf, tlineFunctions.Gamma0_2_zl."""
        arc = reactance_arc(reactance, 0.0, 5.0)
        found = Gamma0_2_zl(1.0, arc.points(33))

        assert found.imag == pytest.approx(reactance, abs=1e-12)
        assert (found[0].real, found[-1].real) == pytest.approx((0.0, 5.0), abs=1e-12)
        assert np.all(np.diff(found.real) > 0)

    def test_refused(self):
        """No arc leaves the chart, and that of no reactance is a straight line."""
        with pytest.raises(OutOfRange, match="resistance at an end of an arc must be a number at least 0"):
            reactance_arc(1.0, -0.5, 1.0)
        with pytest.raises(NotACircle, match="x other than 0"):
            reactance_arc(0.0, 0.0, 1.0)

    def test_half_turn(self):
        """Turned by half, an arc of constant r is one of constant g, point for point across the centre."""
        arc = resistance_arc(0.4, -1.0, 2.0)

        assert conductance_circle(0.4) == arc.half_turned.circle
        assert arc.half_turned.points(9) == pytest.approx(-arc.points(9), abs=1e-12)

    @pytest.mark.parametrize("impedance", [0.0, 1.0, 0.3 - 2j, 40.0])
    def test_local_scale(self, impedance: complex):
        """A small step of the impedance moves the reflection by so many times its size.

        Source: scikit-rf, tlineFunctions.zl_2_Gamma0; a difference of two neighbours."""
        step = 1e-6 * (1 + abs(impedance))
        moved = np.abs(zl_2_Gamma0(1.0, impedance + step) - zl_2_Gamma0(1.0, impedance))

        assert moved.item() / step == pytest.approx(local_scale(impedance), rel=1e-5)
        assert local_scale(np.inf) == 0
