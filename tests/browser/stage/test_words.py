"""What the stage says to those who do not see it."""

import re

from playwright.sync_api import expect

from tests.browser.stage.board import Board

FOCUSED = """() => {
  let element = document.activeElement;
  while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
  return element.getAttribute('aria-label') || element.textContent.trim();
}"""


class TestWithoutSeeing:
    """What the stage says to those who do not see it."""

    def test_name_and_description(self, board: Board):
        """The chart has a role, a name, and a description of what to do."""
        board.open("show=5&ask=along")

        expected = re.compile("Draw it. Drag along the circle.*Right walks 0.005")
        expect(board.pad).to_have_accessible_description(expected)

    def test_one_stop_of_the_tab_key(self, board: Board):
        """Tab goes from the chart to its buttons and the table, and stops nowhere without a name."""
        board.open("show=5&ask=along")
        stops = []
        for _ in range(4):
            board.page.keyboard.press("Tab")
            stops.append(board.page.evaluate(FOCUSED))

        assert stops == ["Reflection chart", "Closer", "Points", "Next step"]

    def test_spoken(self, board: Board):
        """Every stroke is a sentence in a list that can be reached."""
        board.open("show=3")

        expect(
            board.page.get_by_role("list", name="What is drawn on the chart").get_by_role("listitem")
        ).to_have_text(["The load.", "The mismatch circle.", "Half a turn.", "The load's admittance."])

    def test_points(self, board: Board):
        """The table of points opens under the chart and gives their z, y, reflection and reading."""
        board.open("show=5")
        board.page.get_by_text("Points", exact=True).click()
        row = board.page.get_by_role("row", name="y A")

        expect(row.get_by_role("cell").nth(1)).to_have_text("1.000 + j1.581")
        expect(board.page.get_by_role("columnheader")).to_have_count(6)

    def test_arrows_speak(self, board: Board):
        """Where the arrow keys have led is said once they rest, so that an answer can be drawn without seeing it."""
        board.open("show=5&ask=along").press("ArrowRight", "ArrowRight")

        expect(board.page.get_by_role("status")).to_contain_text("walked 0.010 λ toward generator")

    def test_live_region_speaks(self, board: Board):
        """When an answer is handed in, it is announced."""
        board.open("show=5&ask=along").press("ArrowRight", "ArrowRight")
        board.page.keyboard.press("Enter")

        expect(board.page.get_by_role("status")).to_contain_text(
            "Walk handed in: walked 0.010 λ toward generator"
        )

    def test_targets(self, board: Board):
        """Whatever is to be pressed is at least 24 pixels high and wide."""
        board.open("show=5").press("+")
        for name in ("Closer", "Whole chart"):
            box = board.page.get_by_role("button", name=name).bounding_box()
            assert box
            assert min(box["width"], box["height"]) >= 24

    def test_no_jumping(self, board: Board):
        """The readout keeps its places while numbers change."""
        board.open("show=5&ask=along").press("ArrowRight")
        cells = board.page.locator(".readout span")
        before = [cell.bounding_box() for cell in cells.all()]
        board.press(*["ArrowRight"] * 30)
        expect(cells.first).to_contain_text("0.155")

        assert [cell.bounding_box() for cell in cells.all()] == before
