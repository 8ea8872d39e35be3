"""Answers drawn with a finger, on a small screen."""

import pytest
from playwright.sync_api import expect

from tests.browser.fingers import Touch, fingers_on
from tests.browser.stage.board import PLOTTED_LOAD, Board, around, middle


@pytest.mark.screen(width=390, height=844, has_touch=True)
class TestTouch:
    @pytest.fixture
    def touch(self, board: Board) -> Touch:
        """Put fingers on places of the screen, move them there, lift them."""
        return fingers_on(board.page)

    def test_drag(self, board: Board, touch: Touch):
        """A finger drags along the circle on a small screen."""
        board.open("show=5&ask=along")
        way = around(PLOTTED_LOAD, 0.15)
        touch("touchStart", board.at(way[0]))
        for point in way[1:]:
            touch("touchMove", board.at(point))
        touch("touchEnd")

        assert float(board.answer()) == pytest.approx(0.15, abs=0.002)

    def test_tap(self, board: Board):
        """A tap puts a point."""
        board.open("show=0&ask=place")
        board.page.touchscreen.tap(*board.at(-0.3 + 0.2j))

        assert complex(board.answer()) == pytest.approx(-0.3 + 0.2j, abs=0.006)

    def test_pinch(self, board: Board, touch: Touch):
        """Two fingers bring the chart closer and hand in nothing."""
        board.open("show=5&ask=along")
        x, y = board.at(0)
        touch("touchStart", (x - 30, y))
        touch("touchStart", (x - 30, y), (x + 30, y))
        for spread in range(30, 100, 10):
            touch("touchMove", (x - spread, y), (x + spread, y))
        touch("touchEnd")

        expect(board.page.get_by_role("button", name="Whole chart")).to_be_visible()
        assert board.page.get_by_text("field: ").count() == 0

    @pytest.mark.parametrize("query", ["show=5", "show=5&ask=along", "show=0&ask=place"])
    def test_page_can_be_scrolled(self, board: Board, query: str):
        """A finger on the chart scrolls the page, also while an answer is to be drawn."""
        board.open(query)

        assert board.pad.evaluate("pad => getComputedStyle(pad).touchAction") == "pan-x pan-y"

    @pytest.mark.parametrize("ask", ["place", "circle", "radius", "along", "pick"])
    def test_swipe(self, board: Board, touch: Touch, ask: str):
        """A swipe over the chart hands in nothing and moves nothing."""
        board.open(f"show=5&ask={ask}")
        before = board.readout()
        x, y = board.at(-0.7 - 0.55j)
        touch("touchStart", (x, y))
        for step in range(1, 8):
            touch("touchMove", (x, y - 12 * step))
        touch("touchEnd")
        board.settle()

        assert before == board.readout()
        assert board.page.get_by_text("field: ").count() == 0

    def test_only_what_is_held_keeps_the_page(self, board: Board):
        """Under the ring that is moved a finger does not scroll the page."""
        board.open("show=5&ask=along")
        hold = board.page.locator(".hold")

        assert hold.evaluate("hold => getComputedStyle(hold).touchAction") == "none"
        assert middle(hold) == pytest.approx(board.at(PLOTTED_LOAD), abs=1.5)

    def test_hint_speaks_of_fingers(self, board: Board):
        """What is said under the chart is about fingers, not about keys and clicks."""
        board.open("show=0&ask=place")
        hint = board.page.locator(".hint")

        expect(hint).to_contain_text("Tap to put the point")
        expect(hint).not_to_contain_text("key")
