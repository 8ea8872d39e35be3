"""The primers and their figures: what a hand shows is so, in every pose and every notation."""

import cmath
import math
import re

import pytest

from core import single_stub
from lessons.course import figures, off_design_figure, two_figure
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.figure import Dot, Figure, Pose, Trace
from lessons.grammar.lesson import Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.primer import MOST_PARAGRAPHS, Primer
from tests.lessons.solving import NOTATIONS

FIGURES = [*dict.fromkeys(one.primer.figure for one in CATALOGUE if one.primer and one.primer.figure)]
LOAD = 0.5 - 0.7j  # the figures' own example
GAMMA = (LOAD - 1) / (LOAD + 1)
every_figure = pytest.mark.parametrize("figure", FIGURES, ids=lambda one: one.holds)


def poses(figure: Figure, notation: Notation = STANDARD) -> list[tuple[float, Pose]]:
    """Every pose with its place."""
    return [(place, figure.pose(place, notation)) for place in figure.places]


def traces(pose: Pose, panel: str) -> list[Trace]:
    """The lines of one panel that follow the hand."""
    return [one for one in pose.marks if isinstance(one, Trace) and one.panel == panel]


@every_figure
class TestEveryFigure:
    def test_stays_in_its_panels(self, figure: Figure):
        """Nothing is drawn outside of its panel, wherever the hand is."""
        panels = {one.key: one for one in figure.panels}
        marks = [*figure.still(STANDARD), *(m for _, one in poses(figure) for m in (one.hand, *one.marks))]
        outside = [
            mark
            for mark in marks
            for point in ((mark.at,) if isinstance(mark, Dot) else mark.points)
            if not panels[mark.panel].left <= point.real <= panels[mark.panel].right
            or not panels[mark.panel].bottom <= point.imag <= panels[mark.panel].top
        ]

        assert [] == outside

    def test_says_where_it_is(self, figure: Figure):
        """Each pose is said in words of its own, so that the figure needs no eyes."""
        said = [one.said for _, one in poses(figure)]

        assert len({*said}) >= len(said) - 1  # a whole turn ends where it began

    def test_writes_as_the_course_does(self, figure: Figure):
        """No pose writes another imaginary unit, or another unit of length, than the notation's."""
        for notation in NOTATIONS:
            said = " ".join(one.said for _, one in poses(figure, notation))
            assert not re.search(rf"\b{'i' if notation.imaginary == 'j' else 'j'}\d", said)
            assert not (notation.length == "degrees" and "λ" in said)

    def test_starts_at_a_place(self, figure: Figure):
        """The hand starts at one of its places."""
        assert 0 <= figure.start < len(figure.places)


class TestHalfWave:
    """Closed forms: |V| = |1 + Γ exp(-j4πd)|, and the point at Γ exp(-j4πd) (common practice, no source)."""

    def test_voltage_and_point(self):
        """The hand is on the voltage's curve, and the chart's point is turned by twice the distance."""
        for distance, pose in poses(figures.HALF_WAVE):
            there = GAMMA * cmath.exp(-4j * math.pi * distance)
            dot = next(one for one in pose.marks if isinstance(one, Dot))
            assert abs(abs(1 + there) - pose.hand.at.imag) < 1e-12
            assert abs(there - dot.at) < 1e-12

    def test_closes(self):
        """After half a wavelength the point is the load's again, and the words say that."""
        pose = figures.HALF_WAVE.pose(0.5, STANDARD)

        assert "one whole turn" in pose.said
        assert abs(traces(pose, "chart")[0].points[-1] - GAMMA) < 1e-12

    def test_way_there_and_back(self):
        """The way drawn under the line is twice the distance long."""
        for distance, pose in poses(figures.HALF_WAVE):
            out, back = traces(pose, "line")[0].points[0:2], traces(pose, "line")[0].points[2:4]
            assert abs(2 * distance - abs(out[1] - out[0]) - abs(back[1] - back[0])) < 1e-12


class TestClockwise:
    def test_ratio(self):
        """The point is the returning arrow over the coming one, in every pose."""
        for _, pose in poses(figures.CLOCKWISE):
            coming, returned = (one.points[-1] for one in traces(pose, "waves"))
            assert abs(returned / coming - pose.hand.at) < 1e-12

    def test_sense(self):
        """Toward the generator the coming arrow turns ahead and the returning one behind: the ratio falls back."""
        (_, first), (_, second) = poses(figures.CLOCKWISE)[:2]
        turns = [
            cmath.phase(two.points[-1] / one.points[-1])
            for one, two in zip(traces(first, "waves"), traces(second, "waves"), strict=True)
        ]

        assert turns[0] > 0 > turns[1]
        assert cmath.phase(second.hand.at / first.hand.at) < 0


class TestHalfTurn:
    def test_chords(self):
        """z is the first chord over the second, and the opposite point, read alike, is one over it."""
        for _, pose in poses(figures.HALF_TURN):
            first, second, third, fourth, _ = traces(pose, "chart")
            z = (first.points[1] - first.points[0]) / (second.points[1] - second.points[0])
            opposite = (third.points[1] - third.points[0]) / (fourth.points[1] - fourth.points[0])
            assert abs(z * opposite - 1) < 1e-12
            assert abs(pose.hand.at - (z - 1) / (z + 1)) < 1e-12


class TestPureReactance:
    def test_shares(self):
        """What stays and what comes back are together the whole; what stays is 4r/((r + 1)² + x²)."""
        for resistance, pose in poses(figures.PURE_REACTANCE):
            stays, back = (one.points[-1].real for one in traces(pose, "shares"))
            assert abs(1 - stays - back) < 1e-12
            assert abs(stays - 4 * resistance / ((resistance + 1) ** 2 + 0.8**2)) < 1e-12

    def test_no_resistance(self):
        """Without resistance nothing stays, and the circle is the rim."""
        pose = figures.PURE_REACTANCE.pose(0.0, STANDARD)

        assert 0.0 == traces(pose, "shares")[0].points[-1].real
        assert "rim" in pose.said


class TestOffDesign:
    """0.5 - j0.7 matched by a shorted stub: y after the line and the stub by their tangents (common practice)."""

    def test_both_points(self):
        """Both points are what line and stub of the design show together at that frequency, as high as they are far."""
        for error, pose in poses(off_design_figure.OFF_DESIGN):
            *_, far, near = (one.at for one in pose.marks if isinstance(one, Dot))
            for found, point in zip(single_stub(LOAD, 1.0), (near, far), strict=True):
                turn = 2 * math.pi * (1 + error)
                t, b = math.tan(turn * found.distance), -1 / math.tan(turn * found.stub_length)
                y = (1 / LOAD + 1j * t) / (1 + 1j * t / LOAD) + 1j * b
                assert abs(point - (1 - y) / (1 + y)) < 1e-12
            heights = [one.at.imag for one in pose.marks if isinstance(one, Dot) and one.panel == "band"]
            assert [abs(far), abs(near)] == pytest.approx([one / 2 for one in heights])

    def test_at_the_design(self):
        """At the design's own frequency both are in the centre, and the words say that."""
        pose = off_design_figure.OFF_DESIGN.pose(0.0, STANDARD)

        assert all(abs(one.at) < 1e-12 for one in pose.marks if isinstance(one, Dot))
        assert "nothing comes back from either" in pose.said

    def test_less_line_stays_nearer(self):
        """The one with less line, as the words say, is nearer the centre wherever the hand is."""
        near, far = single_stub(LOAD, 1.0)

        assert near.total_line < far.total_line
        for error, pose in poses(off_design_figure.OFF_DESIGN):
            *_, other, less = (abs(one.at) for one in pose.marks if isinstance(one, Dot))
            assert not error or less < other


class TestWhys:
    @pytest.mark.parametrize(
        "why",
        [
            "Why the circle closes after half a wavelength",
            "Why toward the generator is clockwise",
            "Why 1/z is half a turn",
            "Why a pure reactance cannot be matched",
        ],
    )
    def test_each_has_a_figure(self, why: str):
        """What a course has to make plain is shown by a figure that shows just that, in some primer."""
        assert why in [one.title for one in FIGURES]


class TestFirstPart:
    """By the definitions: z on the line's chart is 0.5 + jx, and g is r / (r² + x²)."""

    def test_first_walk(self):
        """The hand stays on the load's circle of r, and the walk begins at the load."""
        for added, pose in poses(two_figure.FIRST_PART):
            z = (1 + pose.hand.at) / (1 - pose.hand.at)
            assert abs(z - (LOAD + 1j * added)) < 1e-12
            assert abs(traces(pose, "chart")[0].points[0] - GAMMA) < 1e-12

    def test_second_walk(self):
        """From the hand on the second part keeps g and ends where b is cancelled."""
        for _, pose in poses(two_figure.FIRST_PART):
            way = traces(pose, "chart")[1].points
            z = (1 + way[0]) / (1 - way[0])
            y = [(1 - point) / (1 + point) for point in way]
            assert abs(way[0] - pose.hand.at) < 1e-12
            assert max(abs(one.real - 0.5 / abs(z) ** 2) for one in y) < 1e-12
            assert abs(y[-1].imag) < 1e-12

    def test_where_it_matches(self):
        """At 0.2 and at 1.2, where x is minus and plus 0.5, the second walk ends at the centre; nowhere else."""
        matched = [place for place, pose in poses(two_figure.FIRST_PART) if "Matched" in pose.said]
        ends = [abs(traces(pose, "chart")[1].points[-1]) for _, pose in poses(two_figure.FIRST_PART)]

        assert [0.2, 1.2] == matched
        assert 2 == sum(end < 1e-9 for end in ends)


class TestPrimers:
    def test_size(self):
        """A primer of more than a screen is refused in a sentence."""
        with pytest.raises(ValueError, match="1 to 4 paragraphs"):
            Primer(("A text.",) * (MOST_PARAGRAPHS + 1))
        with pytest.raises(ValueError, match="at most 300 characters"):
            Primer(("long " * 100,))

    @pytest.mark.parametrize("lesson", [one for one in CATALOGUE if one.primer], ids=lambda one: one.key)
    def test_gives_nothing_away(self, lesson):
        """A primer says the same whatever the problem, in the symbols of the course."""
        primer = lesson.primer
        renamed = Notation(symbols={symbol.key: f"{symbol.key.upper()}₀" for symbol in lesson.symbols})
        problems = [lesson.problem(), lesson.problem({"load": 10 + 5j, "line": 75.0})]
        told = [[Work(lesson, one, renamed).say(text) for text in primer.paragraphs] for one in problems]

        assert told[0] == told[1]
        assert not any("{" in text for text in told[0])

    def test_needs(self):
        """What a lesson needs known are lessons that stand before it in the course."""
        keys = [one.key for one in CATALOGUE]
        late = [(one.key, need) for one in CATALOGUE for need in one.needs
                if need not in keys[: keys.index(one.key)]]  # fmt: skip

        assert [] == late
