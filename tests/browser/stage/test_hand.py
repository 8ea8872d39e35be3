"""Answers drawn with the mouse and by keys: what is drawn by hand is read off right."""

import cmath

import pytest
from playwright.sync_api import expect

from core.chart import rim_position
from core.line import admittance_from_reflection, swr, toward_generator
from lessons.grammar.notation import Notation
from tests.browser.stage.board import PLOTTED_LOAD, TWO_FRAMES, Board, around
from tests.browser.stage_page import LOAD


class TestWalk:
    """Dragging along a circle."""

    @pytest.mark.parametrize("walked", [0.063, 0.207, 0.45, -0.1, -0.4])
    def test_drag(self, board: Board, walked: float):
        """A drag along the circle hands in the wavelengths walked, above zero toward the generator."""
        board.open("show=5&ask=along").drag(*around(PLOTTED_LOAD, walked))

        assert float(board.answer()) == pytest.approx(walked, abs=0.001)

    def test_stays_on_the_circle(self, board: Board):
        """While the finger strays, the hand stays on the circle."""
        board.open("show=5&ask=along")
        board.page.mouse.move(*board.at(PLOTTED_LOAD))
        board.page.mouse.down()
        for point in around(PLOTTED_LOAD, 0.2, 6):
            board.page.mouse.move(*board.at(point * 1.3))
            board.page.evaluate(TWO_FRAMES)

            assert abs(board.grip()) == pytest.approx(abs(LOAD), abs=0.003)

    @pytest.mark.parametrize("sense", [1, -1], ids=["toward generator", "toward load"])
    def test_no_more_than_half_a_wavelength(self, board: Board, sense: int):
        """More than one turn of the chart counts as half a wavelength."""
        board.open("show=5&ask=along").drag(*around(PLOTTED_LOAD, 0.7 * sense, 60))

        assert float(board.answer()) == pytest.approx(0.5 * sense)

    def test_there_and_back(self, board: Board):
        """A drag that goes back counts what is left of it."""
        way = around(PLOTTED_LOAD, 0.3)
        board.open("show=5&ask=along").drag(*way, *reversed(way[8:]))

        assert float(board.answer()) == pytest.approx(0.1, abs=0.001)

    def test_keys(self, board: Board):
        """Twelve presses of Right and three of Shift and Right walk 0.0615 wavelength; Enter hands it in."""
        board.open("show=5&ask=along").press(*["ArrowRight"] * 12, *["Shift+ArrowRight"] * 3, "Enter")

        assert float(board.answer()) == pytest.approx(0.0615)

    def test_keys_toward_load(self, board: Board):
        """Left walks toward the load."""
        board.open("show=5&ask=along").press(*["ArrowLeft"] * 4, "Enter")

        assert float(board.answer()) == pytest.approx(-0.02)

    def test_readout(self, board: Board):
        """Meanwhile the walk, the reading on the scale, and g and b are read off."""
        board.open("show=5&ask=along").press(*["ArrowRight"] * 10)
        expect(board.page.locator(".readout")).to_contain_text("0.050 λ")
        reached = complex(toward_generator(LOAD, 0.05))
        admittance = admittance_from_reflection(reached)
        write = Notation()

        assert board.readout() == {
            "walked": "0.050 λ toward generator",
            "scale toward generator": write.wavelengths(rim_position(-reached)),
            "g": write.number(admittance.real),
            "b": write.number(admittance.imag),
        }

    def test_keys_of_a_course_in_degrees(self, board: Board):
        """Where lengths are degrees of line, a press walks two of them, and the hint says so."""
        board.open("show=5&ask=along&length=degrees").press(*["ArrowRight"] * 9, "Enter")

        assert float(board.answer()) == pytest.approx(18 / 360)
        expect(board.page.locator("p.hint")).to_contain_text("Right walks 2° toward the generator")
        expect(board.page.locator("p.hint")).to_contain_text("with Shift 0.2°")

    def test_given_up(self, board: Board):
        """Escape in the middle of a drag puts the hand back and hands in nothing."""
        board.open("show=5&ask=along")
        board.page.mouse.move(*board.at(PLOTTED_LOAD))
        board.page.mouse.down()
        board.page.mouse.move(*board.at(PLOTTED_LOAD * cmath.exp(-1j)))
        board.page.keyboard.press("Escape")
        board.page.mouse.up()
        board.page.evaluate(TWO_FRAMES)

        assert board.grip() == pytest.approx(PLOTTED_LOAD, abs=0.005)
        assert board.page.get_by_text("field: ").count() == 0

    def test_along_the_rim(self, board: Board):
        """A stub's length is walked along the rim, from its end."""
        board.open("show=5&ask=rim").drag(*around(1, 0.1))

        assert float(board.answer()) == pytest.approx(0.1, abs=0.001)


class TestWalkOnAnyCircle:
    """Walking along a circle that is not about the centre: all points of one conductance."""

    CENTER, RADIUS = 0.4 / 1.4, 1 / 1.4  # of g = 0.4 on the one grid, where it stands along r = 0.4

    def on_circle(self, turned: float) -> complex:
        """Where a walk on the circle leads from the load's admittance, by a turn about the circle's own centre."""
        return self.CENTER + (PLOTTED_LOAD - self.CENTER) * cmath.exp(1j * turned)

    @pytest.mark.parametrize("turned", [0.8, -0.5, 4.0])
    def test_drag(self, board: Board, turned: float):
        """A drag answers with the reflection reached, which is still on the circle, however far it leads round."""
        strays = [1 + 0.03 * (k % 3) for k in range(25)]
        board.open("show=5&ask=walk%20circle").drag(
            *(self.CENTER + (self.on_circle(turned * k / 24) - self.CENTER) * strays[k] for k in range(25))
        )
        reached = complex(board.answer())

        assert reached == pytest.approx(-self.on_circle(turned), abs=0.004)
        assert admittance_from_reflection(reached).real == pytest.approx(0.4, abs=1e-9)

    def test_keys(self, board: Board):
        """Right walks clockwise by a hundredth of the chart's radius."""
        board.open("show=5&ask=walk%20circle").press(*["ArrowRight"] * 8, *["Shift+ArrowRight"] * 5, "Enter")

        assert complex(board.answer()) == pytest.approx(-self.on_circle(-0.085 / self.RADIUS), abs=1e-9)

    def test_readout(self, board: Board):
        """Meanwhile g stays and b is read off."""
        board.open("show=5&ask=walk%20circle").press(*["ArrowRight"] * 8)
        expect(board.page.locator(".readout")).to_contain_text("0.400")
        b = admittance_from_reflection(-self.on_circle(-0.08 / self.RADIUS)).imag

        assert board.readout() == {"g": "0.400", "b": Notation().number(b)}

    def test_trail(self, board: Board):
        """The trail lies on the circle and ends in an arrowhead that points along it."""
        board.open("show=5&ask=walk%20circle").press(*["ArrowRight"] * 30)
        path = board.page.locator(".hand .trail")
        ends = path.evaluate("p => [0, 1].map(part => { const q = p.getPointAtLength(part * p.getTotalLength()), "
                             "s = q.matrixTransform(p.getScreenCTM()); return [s.x, s.y] })")  # fmt: skip
        points = [board.point(tuple(end)) for end in ends]

        assert points == [
            pytest.approx(PLOTTED_LOAD, abs=0.004),
            pytest.approx(self.on_circle(-0.3 / self.RADIUS), abs=0.004),
        ]
        assert board.page.locator(".hand .head").count() == 1


class TestPoints:
    """Putting points, opening circles, choosing."""

    def test_place(self, board: Board):
        """A tap puts the point where it is; the answer is its reflection."""
        board.open("show=0&ask=place").drag(0.25 + 0.5j)

        assert complex(board.answer()) == pytest.approx(0.25 + 0.5j, abs=0.003)

    def test_place_of_an_admittance(self, board: Board):
        """With the half turn a point read as an admittance answers with minus its place."""
        board.open("show=0&ask=place y").drag(0.25 + 0.5j)

        assert complex(board.answer()) == pytest.approx(-0.25 - 0.5j, abs=0.003)

    def test_place_of_an_admittance_with_the_overlay(self, board: Board):
        """With the overlay a point read as an admittance answers with its place."""
        board.open("show=0&ask=place y&admittance=overlay").drag(0.25 + 0.5j)

        assert complex(board.answer()) == pytest.approx(0.25 + 0.5j, abs=0.003)

    def test_outside_the_chart(self, board: Board):
        """A point dragged out of the chart stays on the rim."""
        board.open("show=0&ask=place").drag(0.5, 0.8 + 0.8j)

        assert abs(complex(board.answer())) == pytest.approx(1)

    def test_place_by_keys(self, board: Board):
        """Arrow keys move the point right, left, up and down, ten times finer with Shift."""
        board.open("show=0&ask=place")
        board.press(*["ArrowRight"] * 3, "ArrowUp", "ArrowUp", "Shift+ArrowLeft", "Shift+ArrowDown", "Enter")

        assert complex(board.answer()) == pytest.approx(0.029 + 0.019j)

    def test_on_circle(self, board: Board):
        """A tap beside the circle puts the point on it."""
        board.open("show=2&ask=circle").drag(0.9 + 0.9j)

        assert complex(board.answer()) == pytest.approx(-abs(LOAD) * cmath.exp(0.25j * cmath.pi), abs=0.005)

    def test_on_circle_by_keys(self, board: Board):
        """Arrow keys move the point along the circle, Right clockwise."""
        board.open("show=2&ask=circle").press(*["ArrowRight"] * 10, "Enter")
        angle = cmath.pi / 2 - 0.1 / abs(LOAD)

        assert complex(board.answer()) == pytest.approx(-abs(LOAD) * cmath.exp(1j * angle), abs=1e-9)

    def test_radius(self, board: Board):
        """A drag opens the circle about the centre to where the hand is."""
        board.open("show=1&ask=radius").drag(0.3 + 0.1j, 0.5 - 0.2j, 0.48 - 0.36j)

        size = float(board.answer())

        assert size == pytest.approx(0.6, abs=0.003)
        assert board.readout() == {
            "|Γ|": Notation().number(size),
            "SWR": Notation().number(float(swr(size)), 2),
        }

    def test_radius_by_keys(self, board: Board):
        """Up opens the circle, Down closes it."""
        board.open("show=1&ask=radius").press(
            "ArrowUp", "ArrowUp", "ArrowUp", "ArrowDown", "Shift+ArrowUp", "Enter"
        )

        assert float(board.answer()) == pytest.approx(0.521)

    def test_pick(self, board: Board):
        """A tap near a named point picks it."""
        board.open("show=3&ask=pick").drag(0.95 + 0.04j)

        assert board.answer() == "'short'"

    def test_infinite_has_no_parts(self, board: Board):
        """At the short the admittance is infinite; it is not read off in two parts."""
        board.open("show=3&ask=pick").drag(0.99 + 0.01j)

        assert board.readout() == {"point": "short", "y": "∞"}

    def test_pick_nothing(self, board: Board):
        """A tap far from every named point hands in nothing and says so."""
        board.open("show=3&ask=pick").drag(0.5 + 0.5j)

        expect(board.page.get_by_role("status")).to_have_text("Choose a point first.")
        assert board.page.get_by_text("field: ").count() == 0

    def test_pick_by_keys(self, board: Board):
        """Arrow keys go from point to point and round again."""
        board.open("show=3&ask=pick").press("ArrowRight", "ArrowRight", "ArrowLeft", "ArrowLeft", "Enter")

        assert board.answer() == "'load'"

    def test_enter_before_anything_is_moved(self, board: Board):
        """Enter hands in nothing before the hand has been moved, and says so."""
        board.open("show=1&ask=radius").press("Enter")

        expect(board.page.get_by_role("status")).to_have_text("Move it first, then press Enter.")
        assert board.page.get_by_text("field: ").count() == 0

    def test_nothing_asked(self, board: Board):
        """Where nothing is asked, there is no hand, and a click hands in nothing."""
        board.open("show=3").drag(0.2)

        assert board.page.locator(".hand *").count() == 0
        assert board.page.get_by_text("field: ").count() == 0
