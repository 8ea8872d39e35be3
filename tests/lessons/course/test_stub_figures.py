"""Figures on stubs, against closed forms: what a length makes of one, and where two of them cannot match."""

import cmath
import math

import pytest

from lessons.course.stub_figures import FORBIDDEN, STUB_LENGTH
from lessons.grammar.figure import Dot, Pose, Trace
from lessons.grammar.notation import STANDARD, Notation

OVERLAY = Notation(admittance="overlay")


def dots(pose: Pose, panel: str) -> list[complex]:
    """The points of a panel that follow the hand."""
    return [one.at for one in pose.marks if isinstance(one, Dot) and one.panel == panel]


class TestStubLength:
    """A shorted line shows j tan(2π l) (common practice, no source)."""

    @pytest.mark.parametrize("length", STUB_LENGTH.places)
    def test_on_the_rim(self, length: float):
        """The hand is on the rim, turned clockwise from the short by twice the length."""
        assert abs(-cmath.exp(-4j * math.pi * length) - STUB_LENGTH.pose(length, STANDARD).hand.at) < 1e-12

    @pytest.mark.parametrize("length", STUB_LENGTH.places)
    def test_reactance(self, length: float):
        """Its reactance is written, and stands on the curve wherever it can be drawn."""
        pose, value = STUB_LENGTH.pose(length, STANDARD), math.tan(2 * math.pi * length)
        found = dots(pose, "reactance")

        assert len(found) == (abs(value) <= 3)
        assert all(abs(complex(length, value) - one) < 1e-12 for one in found)
        if length not in (0.0, 0.25, 0.5):
            assert f"z = {'−' if value < 0 else ''}j{abs(value):.2f}," in pose.said

    def test_coil_then_capacitor(self):
        """It is a coil below a quarter of a wave, and a capacitor above."""
        said = [(length, STUB_LENGTH.pose(length, STANDARD).said) for length in STUB_LENGTH.places]

        assert [0 < length < 0.25 for length, _ in said] == ["like a coil" in text for _, text in said]
        assert [0.25 < length < 0.5 for length, _ in said] == ["like a capacitor" in text for _, text in said]

    def test_curve(self):
        """The curve is the tangent, in two parts, as far as it is drawn."""
        drawn = [
            one for one in STUB_LENGTH.still(STANDARD) if one.panel == "reactance" and one.role == "mismatch"
        ]

        assert len(drawn) == 2
        for one in drawn:
            assert isinstance(one, Trace)
            assert all(abs(math.tan(2 * math.pi * at.real) - at.imag) < 1e-9 for at in one.points)


class TestForbidden:
    """Two stubs match g up to 1/sin²(2π spacing), which is 2 for an eighth of a wave: Pozar, 4th ed., section 5.3
    (from memory)."""

    @pytest.mark.parametrize("conductance", FORBIDDEN.places)
    def test_as_many_as_there_are(self, conductance: float):
        """Two points below the limit, one on it, none above, as is said."""
        pose = FORBIDDEN.pose(conductance, STANDARD)
        count = 2 if conductance < 2 else 1 if conductance == 2 else 0

        assert len(dots(pose, "chart")) == count
        assert ("two matches", "one match", "forbidden")[2 - count] in pose.said

    @pytest.mark.parametrize("notation", [STANDARD, OVERLAY], ids=["half turn", "overlay"])
    @pytest.mark.parametrize("conductance", FORBIDDEN.places)
    def test_points(self, conductance: float, notation: Notation):
        """Each point has the load's g, and an eighth of a wave nearer the generator it has g = 1."""
        sign = -1 if notation.admittance == "half turn" else 1
        for at in dots(FORBIDDEN.pose(conductance, notation), "chart"):
            back = sign * at
            here = (1 - back) / (1 + back)
            there = (here + 1j) / (1 + 1j * here)  # the line's equation, tan(2π/8) = 1
            assert abs(conductance - here.real) < 1e-6
            assert abs(1 - there.real) < 1e-6

    @pytest.mark.parametrize("notation", [STANDARD, OVERLAY], ids=["half turn", "overlay"])
    def test_hand(self, notation: Notation):
        """The hand is where a load of that conductance alone is plotted, in either way to show admittance."""
        for conductance in FORBIDDEN.places:
            at = FORBIDDEN.pose(conductance, notation).hand.at
            back = (1 - conductance) / (1 + conductance)
            assert abs((-back if notation.admittance == "half turn" else back) - at) < 1e-12
