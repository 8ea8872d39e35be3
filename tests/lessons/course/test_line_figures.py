"""Figures on real lines, against closed forms: the spiral of a line with loss, and a strip's impedance."""

import cmath
import math

import pytest

from lessons.course.line_figures import BOARD, SPIRAL, STRIP
from lessons.course.wavelengths_to_copper import LESSON as COPPER
from lessons.grammar.figure import Dot, Trace
from lessons.grammar.notation import STANDARD

GAMMA = (-0.5 - 0.7j) / (1.5 - 0.7j)  # of the figures' own example, 0.5 - j0.7


def ratio(size: float) -> float:
    """The standing-wave ratio of a reflection of this size."""
    return (1 + size) / (1 - size)


class TestSpiral:
    """On a line that loses 1 dB a wavelength |Γ| falls by 1 dB there and 1 dB back (common practice, no source)."""

    @pytest.mark.parametrize("distance", SPIRAL.places)
    def test_point_and_ratio(self, distance: float):
        """The chart's point is turned and smaller, and the hand is at the ratio there."""
        pose = SPIRAL.pose(distance, STANDARD)
        expected = GAMMA * 10 ** (-2 * distance / 20) * cmath.exp(-4j * math.pi * distance)
        (point,) = (one.at for one in pose.marks if isinstance(one, Dot))

        assert abs(expected - point) < 1e-12
        assert abs(complex(-distance, ratio(abs(expected))) - pose.hand.at) < 1e-12
        assert f"{ratio(abs(expected) if distance else abs(GAMMA)):.2f}" in pose.said

    def test_always_inward(self):
        """The way drawn never leads outward."""
        way = next(one for one in SPIRAL.pose(3.0, STANDARD).marks if isinstance(one, Trace))
        sizes = [abs(one) for one in way.points]

        assert sorted(sizes, reverse=True) == sizes
        assert abs(abs(GAMMA) / 10 ** (6 / 20) - sizes[-1]) < 1e-12


class TestStrip:
    """D. M. Pozar, Microwave Engineering, 4th ed., eq. 3.195 and 3.196 (from memory)."""

    @pytest.mark.parametrize("width", STRIP.places)
    def test_impedance(self, width: float):
        """The point on the curve is the impedance of a strip as wide as the one that is held."""
        over, permittivity = width / BOARD.height_mm, BOARD.relative_permittivity
        met = (permittivity + 1) / 2 + (permittivity - 1) / 2 / math.sqrt(1 + 12 / over)
        narrow = 60 / math.sqrt(met) * math.log(8 / over + over / 4)
        wide = 120 * math.pi / (math.sqrt(met) * (over + 1.393 + 0.667 * math.log(over + 1.444)))
        pose = STRIP.pose(width, STANDARD)
        (point,) = (one.at for one in pose.marks if isinstance(one, Dot))

        assert abs((narrow if over <= 1 else wide) - 25 * point.imag) < 1e-3
        assert abs(width - point.real) < 1e-12
        assert abs(width - 2 * pose.hand.at.real) < 1e-12
        assert f"{25 * point.imag:.1f} Ω" in pose.said
        assert f"{met**-0.5:.3f} times" in pose.said

    def test_wider_is_lower(self):
        """Each wider strip has the lower impedance, as the title says."""
        marks = [
            one for width in STRIP.places for one in STRIP.pose(width, STANDARD).marks if isinstance(one, Dot)
        ]
        heights = [one.at.imag for one in marks]

        assert sorted(heights, reverse=True) == heights

    def test_gives_nothing_away(self):
        """Its board is not the one that the lesson usually asks about."""
        usual = COPPER.problem()

        assert (usual["permittivity"], usual["height"]) != (BOARD.relative_permittivity, BOARD.height_mm)
