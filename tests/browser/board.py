"""Where a point of the chart is on the screen, and a hand that draws there."""

from playwright.sync_api import Locator, Page

from core.scales import COMPACT, REGULAR

BOKEH_SHIFT = 0.5  # Bokeh's drawing stands half a pixel to the right and down


class Board:
    """The whole chart on an open page, not looked at more closely."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.pad: Locator = page.get_by_role("application", name="Reflection chart")

    def at(self, point: complex) -> tuple[float, float]:
        """Place on the screen of a point of the chart."""
        box = self.pad.bounding_box()
        assert box is not None
        extent = (REGULAR if box["width"] >= 540 else COMPACT).extent
        scale = box["width"] / 2 / extent
        middle = box["x"] + box["width"] / 2 + BOKEH_SHIFT, box["y"] + box["height"] / 2 + BOKEH_SHIFT
        return middle[0] + point.real * scale, middle[1] - point.imag * scale

    def drag(self, *points: complex) -> None:
        """Press at the first point, move through the others, and let go at the last."""
        self.pad.scroll_into_view_if_needed()
        self.page.mouse.move(*self.at(points[0]))
        self.page.mouse.down()
        for point in points[1:]:
            self.page.mouse.move(*self.at(point))
        self.page.mouse.up()
