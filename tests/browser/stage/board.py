"""The stage on an open page, for tests: where a point is on the screen, what is drawn, what has been answered."""

import cmath

from playwright.sync_api import Page

from app.parts.printed_chart.layouts import Layout
from app.parts.screen_chart import LAYOUTS
from tests.browser.stage_page import LOAD

TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


PLOTTED_LOAD = -LOAD  # where the load's admittance stands with the half turn


PRINTED = """() => {
  const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.printed-chart'));
  const shown = [...root.querySelectorAll('.printed-chart .piece')].filter(piece => piece.getClientRects().length);
  return shown.filter(piece => !piece.matches('.numbers')).flatMap(piece => {
    const look = getComputedStyle(piece), dash = look.strokeDasharray === 'none' ? null : look.strokeDasharray;
    const paths = piece.matches('g') ? [...piece.querySelectorAll('path')] : [piece];
    const count = paths.reduce((sum, path) => sum + (path.getAttribute('d')?.match(/M/g)?.length ?? 1), 0);
    return { stroke: look.stroke, dash, count };
  });
}"""


UNIT_CIRCLE = """() => {
  const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.printed-chart'));
  const matrix = root.querySelector('.printed-chart').getScreenCTM();
  const path = root.querySelector('.printed-chart [data-grid=impedance] .resistance[data-values~="1"]');
  const at = path.dataset.values.split(' ').indexOf('1'), d = path.getAttribute('d').split('M')[at + 1];
  const ends = d.split('A')[0].split(' ').map(Number), first = new DOMPoint(...ends).matrixTransform(matrix);
  const size = Number(d.split('A')[1].split(' ')[0]) * matrix.a;
  return [first.x - 2 * size, first.y - size, 2 * size, 2 * size];
}"""
"""The box on the screen of the printed circle r = 1, from its first point, at the open point, and its radius."""


BOX = "path => { const b = path.getBoundingClientRect(); return [b.left, b.top, b.width, b.height] }"


class Board:
    """The stage on an open page: where a point of the chart is on the screen, and what has been answered."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.pad = page.get_by_role("application", name="Reflection chart")

    def open(self, query: str = "") -> "Board":
        self.page.goto(f"/?{query}")
        self.page.locator("html[data-stage=ready]").wait_for(state="attached")
        return self.settle()

    def settle(self) -> "Board":
        """Wait until the view is at rest and the printed chart is drawn for it."""
        self.page.evaluate(TWO_FRAMES)
        self.page.locator(".pad[data-view=still]").wait_for()
        self.page.evaluate(TWO_FRAMES)
        return self

    def at(self, point: complex) -> tuple[float, float]:
        """Place on the screen of a point of the whole chart."""
        box = self.pad.bounding_box()
        assert box is not None
        middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        return on_screen(point, middle, box["width"])

    def point(self, place: tuple[float, float]) -> complex:
        """Point of the whole chart at a place on the screen: the inverse of `at`."""
        origin, right = self.at(0), self.at(1)
        return complex(place[0] - origin[0], origin[1] - place[1]) / (right[0] - origin[0])

    def grip(self) -> complex:
        """Where the hand is, on the whole chart."""
        return self.point(middle(self.page.locator(".hand .grip")))

    def drag(self, *points: complex) -> None:
        self.pad.scroll_into_view_if_needed()
        self.page.mouse.move(*self.at(points[0]))
        self.page.mouse.down()
        for point in points[1:]:
            self.page.mouse.move(*self.at(point))
        self.page.mouse.up()

    def press(self, *keys: str) -> None:
        self.pad.focus()
        for key in keys:
            self.page.keyboard.press(key)
        self.settle()

    def answer(self) -> str:
        """The answer that reached Python, as Python writes it."""
        line = self.page.get_by_text("field: ")
        line.wait_for()
        return line.inner_text().removeprefix("field: ")

    def readout(self) -> dict[str, str]:
        cells = self.page.locator(".readout span").all()
        return {cell.locator("i").inner_text(): cell.locator("b").inner_text() for cell in cells}


def on_screen(point: complex, middle: tuple[float, float], width: float) -> tuple[float, float]:
    """Place on the screen of a point of a whole chart of that middle and width."""
    scale = width / 2 / layout_of(width).extent
    return middle[0] + point.real * scale, middle[1] - point.imag * scale


def layout_of(width: float) -> Layout:
    """The layout of the scales of a chart of that width in pixels."""
    return LAYOUTS["compact" if width < 440 else "middle" if width < 560 else "regular"]


def middle(locator) -> tuple[float, float]:
    box = locator.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def around(start: complex, walked: float, steps: int = 24) -> list[complex]:
    """Points along a walk toward the generator, a little off the circle as a hand would be."""
    return [
        start * cmath.exp(-4j * cmath.pi * walked * k / steps) * (1 + 0.1 * (k % 3)) for k in range(steps + 1)
    ]
