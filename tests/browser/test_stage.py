"""The stage in a real browser: what is drawn stands where it should, and what is drawn by hand is read off right."""

import cmath
import re
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Page, expect

from app.server import Running, serve
from core.chart import rim_position
from core.line import admittance_from_reflection, impedance_from_reflection, swr, toward_generator
from core.scales import COMPACT, REGULAR
from lessons.notation import Notation
from tests.browser.stage_page import LOAD, stage_page

TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
BOKEH_SHIFT = 0.5  # Bokeh's drawing stands half a pixel to the right and down
PLOTTED_LOAD = -LOAD  # where the load's admittance stands with the half turn


@pytest.fixture(scope="module")
def site() -> Iterator[Running]:
    """The stage alone, in place of the whole program."""
    running = serve({"/": stage_page}, port=0, threaded=True)
    assert running is not None
    yield running
    running.stop()


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
        extent = (REGULAR if box["width"] >= 540 else COMPACT).extent
        scale = box["width"] / 2 / extent
        middle = box["x"] + box["width"] / 2 + BOKEH_SHIFT, box["y"] + box["height"] / 2 + BOKEH_SHIFT
        return middle[0] + point.real * scale, middle[1] - point.imag * scale

    def point(self, place: tuple[float, float]) -> complex:
        """Point of the whole chart at a place on the screen: the inverse of `at`."""
        origin, right = self.at(0), self.at(1)
        return complex(place[0] - origin[0], origin[1] - place[1]) / (right[0] - origin[0])

    def grip(self) -> complex:
        """Where the hand is, on the whole chart."""
        return self.point(middle(self.page.locator(".hand .grip")))

    def drag(self, *points: complex) -> None:
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


def middle(locator) -> tuple[float, float]:
    box = locator.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


@pytest.fixture
def board(page: Page) -> Board:
    return Board(page)


def around(start: complex, walked: float, steps: int = 24) -> list[complex]:
    """Points along a walk toward the generator, a little off the circle as a hand would be."""
    return [
        start * cmath.exp(-4j * cmath.pi * walked * k / steps) * (1 + 0.1 * (k % 3)) for k in range(steps + 1)
    ]


class TestReadings:
    """static/readings.js beside its twins in core."""

    POINTS = np.random.default_rng(7).uniform(-0.7, 0.7, (200, 2)).tolist()

    @pytest.fixture
    def read(self, board: Board) -> Callable[[str], list]:
        board.open()

        def evaluate(expression: str) -> list:
            return board.page.evaluate(
                f"async points => {{ const r = await import('/static/readings.js'); "
                f"return points.map(([u, v]) => {expression}) }}",
                self.POINTS,
            )

        return evaluate

    def gammas(self) -> np.ndarray:
        return np.array([complex(u, v) for u, v in self.POINTS])

    def test_impedance(self, read):
        """r and x are those of core to 1e-12."""
        assert np.array(read("r.impedance(u, v)")) @ [1, 1j] == pytest.approx(
            impedance_from_reflection(self.gammas()), rel=1e-12
        )

    def test_admittance(self, read):
        """g and b are those of core to 1e-12."""
        assert np.array(read("r.admittance(u, v)")) @ [1, 1j] == pytest.approx(
            admittance_from_reflection(self.gammas()), rel=1e-12
        )

    def test_standing_wave_ratio(self, read):
        """The standing-wave ratio is that of core to 1e-12."""
        assert read("r.standingWaveRatio(Math.hypot(u, v))") == pytest.approx(swr(self.gammas()), rel=1e-12)

    def test_rim_position(self, read):
        """The reading toward the generator is that of core to 1e-12."""
        assert read("r.rimPosition(u, v)") == pytest.approx(rim_position(self.gammas()), abs=1e-12)

    def test_walk(self, read):
        """A walk leads where core says to 1e-12, and its turn is read as its length."""
        found = np.array(read("r.walkedFrom(u, v, 0.137)")) @ [1, 1j]
        lengths = read(
            "r.wavelengthsOfTurn(r.turnBetween(Math.atan2(v, u), Math.atan2(...r.walkedFrom(u, v, 0.137).reverse())))"
        )

        assert found == pytest.approx(toward_generator(self.gammas(), 0.137), abs=1e-12)
        assert lengths == pytest.approx([0.137] * len(self.POINTS), abs=1e-12)

    def test_ends_of_the_chart(self, read):
        """At the open point impedance is infinite, at the short point admittance; all power returns from the rim."""
        assert read("[...r.impedance(1, 0), ...r.admittance(-1, 0), r.standingWaveRatio(1)].map(String)")[0] == [
            "Infinity", "0", "Infinity", "0", "Infinity"
        ]  # fmt: skip

    @pytest.mark.parametrize("notation", [
        Notation(), Notation(decimals=4, angle="radians"), Notation(length="degrees"),
    ], ids=["wavelengths", "radians", "degrees of line"])  # fmt: skip
    def test_writing(self, board: Board, notation: Notation):
        """Numbers, lengths and angles are written as the notation of the course writes them."""
        board.open()
        values = [0.0, -0.0, 0.12345, -0.4999, 1e-9, -1e-9, 12.5]
        written = board.page.evaluate(
            "async ([values, n]) => { const r = await import('/static/readings.js'); return values.map(v => "
            "[r.written(v, n.decimals), r.writtenLength(v, n), r.writtenAngle(v, n)]) }",
            [values, vars(notation)],
        )

        assert written == [
            [notation.number(v), notation.wavelengths(v), notation.angle_of(v)] for v in values
        ]


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
            "on the scale": write.wavelengths(rim_position(-reached)),
            "g": write.number(admittance.real),
            "b": write.number(admittance.imag),
        }

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


@pytest.mark.screen(width=390, height=844, has_touch=True)
class TestTouch:
    @pytest.fixture
    def touch(self, board: Board) -> Callable[..., None]:
        """Put fingers on places of the screen, move them there, lift them."""
        session = board.page.context.new_cdp_session(board.page)

        def send(kind: str, *places: tuple[float, float]) -> None:
            fingers = [{"x": x, "y": y, "id": index} for index, (x, y) in enumerate(places)]
            session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})

        return send

    def test_drag(self, board: Board, touch: Callable[..., None]):
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

    def test_pinch(self, board: Board, touch: Callable[..., None]):
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

    @pytest.mark.parametrize(("query", "action"), [("show=5", "pan-x pan-y"), ("show=5&ask=along", "none")])
    def test_page_can_be_scrolled(self, board: Board, query: str, action: str):
        """A finger on the chart scrolls the page, except while an answer is to be drawn."""
        board.open(query)

        assert board.pad.evaluate("pad => getComputedStyle(pad).touchAction") == action


PRINTED = """() => {
  const roots = [], look = node => {
    if (node.shadowRoot) roots.push(node.shadowRoot);
    for (const child of [...(node.shadowRoot?.children ?? []), ...node.children]) look(child);
  };
  look(document.body);
  const drawings = roots.filter(root => root.firstElementChild?.tagName === 'svg');
  return drawings.flatMap(root => [...root.querySelectorAll('svg > path, svg > g path')]).map(path => {
    const box = path.getBoundingClientRect();
    return { box: [box.left, box.top, box.width, box.height], stroke: getComputedStyle(path).stroke,
             dash: path.getAttribute('stroke-dasharray') };
  });
}"""
BOX = "path => { const b = path.getBoundingClientRect(); return [b.left, b.top, b.width, b.height] }"


MOVING = f"""async () => {{
  const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.pad'));
  const pad = root.querySelector('.pad');
  const turn = {{ deltaY: -8, ctrlKey: true, clientX: 500, clientY: 300, cancelable: true }};
  for (let i = 0; i < 200; i++) {{
    pad.dispatchEvent(new WheelEvent('wheel', turn));
    await new Promise(done => requestAnimationFrame(done));
    if (i > 3 && root.querySelector('.printed').style.transform)
      return [({PRINTED})(), ({BOX})(root.querySelector('.ink .line.role-unit'))];
  }}
}}"""


class TestView:
    """Zooming and panning, and ink and paper in step."""

    def printed(self, board: Board) -> list[dict]:
        return board.settle().page.evaluate(PRINTED)

    def apart(self, board: Board) -> float:
        """Distance between the drawn circle g = 1 and the printed circle r = 1 under it, at its worst."""
        printed = self.printed(board)
        box = board.page.locator(".ink .line.role-unit").evaluate(BOX)
        return min(max(abs(a - b) for a, b in zip(box, one["box"], strict=True)) for one in printed)

    def test_ink_and_paper_stay_together(self, board: Board):
        """At any zoom the ink's circle g = 1 lies on the printed circle r = 1 to half a pixel."""
        board.open("show=4")
        for keys in ((), ("+",), ("+", "+", "+"), ("ArrowRight", "ArrowUp"), ("-", "-"), ("0",)):
            board.press(*keys)

            assert self.apart(board) < 0.5

    def test_together_on_paper(self, board: Board):
        """On paper, where the page is narrower than the screen, ink and paper shrink alike."""
        board.open("show=4")
        board.page.emulate_media(media="print")
        board.page.evaluate("document.querySelector('main').style.maxWidth = '450px'")

        assert self.apart(board) < 0.5

    def test_together_while_moving(self, board: Board):
        """While the view is moved, the drawing made before is stretched along with the ink."""
        board.open("show=4")
        paths, box = board.page.evaluate(MOVING)

        assert min(max(abs(a - b) for a, b in zip(box, one["box"], strict=True)) for one in paths) < 2.5

    @pytest.mark.screen(width=390, height=844)
    def test_together_on_a_small_screen(self, board: Board):
        """So it does on a small screen."""
        board.open("show=4")

        assert self.apart(board) < 0.5

    def test_together_after_the_window_changed(self, board: Board):
        """So it does after the window was made narrower and wider."""
        board.open("show=4")
        for width in (420, 1000):
            board.page.set_viewport_size({"width": width, "height": 800})
            board.page.wait_for_function(
                "width => document.querySelector('main').clientWidth <= width", arg=min(width, 820)
            )

            assert self.apart(board) < 0.5

    def test_wheel_enlarges_where_the_pointer_is(self, board: Board):
        """Ctrl and the wheel enlarge about the pointer: what is under it stays there."""
        board.open("show=6")
        mark = board.page.locator(".ink .mark.role-far")
        before = middle(mark)
        board.page.mouse.move(*before)
        board.page.keyboard.down("Control")
        board.page.mouse.wheel(0, -300)
        board.page.keyboard.up("Control")
        expect(board.page.get_by_role("button", name="Whole chart")).to_be_visible()
        board.settle()

        assert middle(mark) == pytest.approx(before, abs=1)

    def test_wheel_alone_scrolls(self, board: Board):
        """The wheel alone leaves the chart as it is."""
        board.open("show=6")
        board.page.mouse.move(*board.at(0))
        board.page.mouse.wheel(0, -300)

        expect(board.page.get_by_role("button", name="Whole chart")).to_be_hidden()

    def test_buttons(self, board: Board):
        """Closer enlarges, Whole chart goes back; the marks keep their size."""
        board.open("show=6")
        mark = board.page.locator(".ink .mark.role-near")
        before = mark.bounding_box()
        board.page.get_by_role("button", name="Closer").click()
        board.page.get_by_role("button", name="Closer").click()
        expect(board.page.get_by_role("button", name="Whole chart")).to_be_visible()
        board.settle()
        closer = mark.bounding_box()
        board.page.get_by_role("button", name="Whole chart").click()
        expect(board.page.get_by_role("button", name="Whole chart")).to_be_hidden()
        after = mark.bounding_box()
        assert before
        assert closer

        assert (closer["width"], closer["x"] > before["x"]) == (pytest.approx(before["width"], abs=0.1), True)
        assert after == pytest.approx(before, abs=0.1)

    def test_middle_button_pans(self, board: Board):
        """The middle button moves an enlarged chart as far as the pointer goes, with a question open or not."""
        board.open("show=5&ask=along").press("+", "+", "+")
        mark = board.page.locator(".ink .mark.role-load").first
        before = middle(mark)
        board.page.mouse.move(*board.at(0))
        board.page.mouse.down(button="middle")
        board.page.mouse.move(board.at(0)[0] + 50, board.at(0)[1] - 30)
        board.page.mouse.up(button="middle")
        self.printed(board)

        assert middle(mark) == pytest.approx((before[0] + 50, before[1] - 30), abs=1)
        assert board.page.get_by_text("field: ").count() == 0

    def test_drag_in_a_closer_view(self, board: Board):
        """A drag is read off rightly in a closer view, too."""
        board.open("show=5&ask=along").press("+")
        x, y = middle(board.page.locator(".hand .grip"))
        left, top, width, height = board.page.locator(".ink .line.role-mismatch").evaluate(BOX)
        origin = left + width / 2, top + height / 2
        arm = complex(x - origin[0], origin[1] - y)
        board.page.mouse.move(x, y)
        board.page.mouse.down()
        for k in range(1, 11):
            to = arm * cmath.exp(-4j * cmath.pi * 0.05 * k / 10)
            board.page.mouse.move(origin[0] + to.real, origin[1] - to.imag)
        board.page.mouse.up()

        assert float(board.answer()) == pytest.approx(0.05, abs=0.001)

    def test_finer_when_closer(self, board: Board):
        """A closer view shows more divisions, and names the curves that leave it."""
        board.open("show=0")
        before = len(self.printed(board))
        board.press("+", "+", "+")

        assert len(self.printed(board)) > before
        assert board.page.locator(".edge").count() > 10

    @pytest.mark.screen(width=390, height=844)
    def test_coarser_when_small(self, board: Board):
        """A small chart shows only the coarse divisions: less than half of those of a large one."""
        board.open("show=0")
        small = len(self.printed(board))
        board.page.set_viewport_size({"width": 900, "height": 900})

        assert len(self.printed(board)) > 2 * small


class TestAdmittance:
    def test_half_turn(self, board: Board):
        """With the half turn the load's admittance stands across the centre, and there is one grid."""
        board.open("show=3")
        places = [board.point(middle(mark)) for mark in board.page.locator(".ink .mark.role-load").all()]

        assert places == [pytest.approx(LOAD, abs=0.004), pytest.approx(-LOAD, abs=0.004)]
        assert not [one for one in board.page.evaluate(PRINTED) if one["dash"]]

    def test_overlay(self, board: Board):
        """With the overlay it stays in place with a ring around it, and a dotted grid lies under the other."""
        board.open("show=3&admittance=overlay")
        places = [board.point(middle(mark)) for mark in board.page.locator(".ink .mark.role-load").all()]
        ring = board.point(middle(board.page.locator(".ink .kind-ring")))

        assert places == [pytest.approx(LOAD, abs=0.004)] * 2
        assert ring == pytest.approx(LOAD, abs=0.004)
        assert len([one for one in board.page.evaluate(PRINTED) if one["dash"]]) > 20


class TestTheme:
    def colours(self, board: Board) -> set[str]:
        return {one["stroke"] for one in board.page.evaluate(PRINTED)} - {"none"}

    def test_follows_the_page(self, board: Board):
        """The printed chart takes the colours of the page at once when the reader wants it dark."""
        board.open("show=3")
        light = self.colours(board)
        board.page.evaluate("document.documentElement.dataset.theme = 'dark'")

        assert "rgb(169, 166, 156)" in light
        assert self.colours(board) & light == set()
        assert "rgb(95, 92, 84)" in self.colours(board)

    @pytest.mark.screen(colour_scheme="dark")
    def test_follows_the_system(self, board: Board):
        """It is dark where the system is dark, and follows when that changes."""
        board.open("show=3")
        assert "rgb(95, 92, 84)" in self.colours(board)
        board.page.emulate_media(color_scheme="light")
        assert "rgb(169, 166, 156)" in self.colours(board)

    @pytest.mark.screen(colour_scheme="dark")
    def test_light_on_paper(self, board: Board):
        """Printed, it is light whatever the screen is."""
        board.open("show=3")
        board.page.emulate_media(media="print")

        assert "rgb(169, 166, 156)" in self.colours(board)

    def test_roles(self, board: Board):
        """Each role has its colour of the page, and a dash or marker of its own besides."""
        board.open("show=6")
        look = """path => { const s = getComputedStyle(path); return [s.stroke, s.strokeDasharray] }"""
        far = board.page.locator(".ink .line.role-far.kind-way").evaluate(look)
        near = board.page.locator(".ink .line.role-near.kind-way").evaluate(look)
        unit = board.page.locator(".ink .line.role-unit").evaluate(look)
        shapes = {
            role: board.page.locator(f".ink .mark.role-{role}").first.get_attribute("d")
            for role in ("load", "near", "far")
        }

        assert (far[0], near[0], unit[0]) == ("rgb(163, 44, 100)", "rgb(0, 102, 107)", "rgb(135, 85, 0)")
        assert len({far[1], near[1], unit[1]}) == 3
        assert len(set(shapes.values())) == 3


class TestDrawing:
    """Strokes drawn as a hand would."""

    WATCH = """() => {
      const seen = window.seen = [], began = performance.now();
      const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.overlay'));
      const look = () => {
        const line = root.querySelector('.ink .line.role-mismatch'), time = performance.now() - began;
        seen.push([time, line ? line.getTotalLength() : 0, root.querySelectorAll('.undrawn, .unwritten').length]);
        if (time < 2500) requestAnimationFrame(look);
      };
      look();
    }"""

    def watch(self, board: Board) -> list[tuple[float, float, int]]:
        """Length of the mismatch circle and number of things not drawn yet, frame by frame after Next step."""
        board.page.evaluate(self.WATCH)
        board.page.get_by_role("button", name="Next step").click()
        board.page.wait_for_function("() => window.seen.at(-1)[0] > 2400")
        return board.page.evaluate("window.seen")

    def test_grows(self, board: Board):
        """A new circle grows along its line and is whole within 1.2 seconds; its label comes with its end."""
        seen = self.watch(board.open("show=1"))
        lengths = [length for _, length, _ in seen if length]
        growing = [(time, length) for time, length, hidden in seen if length and hidden]

        assert lengths == sorted(lengths)
        assert len({round(length) for length in lengths}) > 5
        assert growing[-1][0] - growing[0][0] < 1200
        assert seen[-1][2] == 0

    @pytest.mark.screen(reduced_motion="reduce")
    def test_reduced_motion(self, board: Board):
        """Who wants no motion gets the whole circle at once."""
        lengths = {round(length) for _, length, _ in self.watch(board.open("show=1")) if length}

        assert len(lengths) == 1

    def test_nothing_is_sent_for_it(self, board: Board):
        """Drawing it sends nothing to the server beyond the press of the button."""
        sent: list[float] = []
        board.page.on("websocket", lambda socket: socket.on("framesent", lambda _: sent.append(1)))
        board.open("show=5")
        board.page.evaluate("window.seen = []")
        board.page.get_by_role("button", name="Next step").click()
        expect(board.page.locator(".ink .role-far.kind-way").first).to_be_attached()
        board.page.wait_for_timeout(100)
        before = len(sent)
        board.page.wait_for_timeout(1500)

        assert len(sent) == before

    def test_a_second_press_cancels_the_first(self, board: Board):
        """Pressed twice in a row, the first drawing is finished at once and the second is drawn."""
        board.open("show=1")
        board.page.get_by_role("button", name="Next step").click()
        board.page.get_by_role("button", name="Next step").click()
        expect(board.page.locator(".ink .mark.role-load")).to_have_count(2)
        expect(board.page.locator(".undrawn, .unwritten")).to_have_count(0)

        assert board.page.locator(".ink .line.role-mismatch").count() == 1

    def test_nothing_but_text(self, board: Board):
        """What looks like HTML in a label is shown as it is."""
        board.open("show=6&hostile=1")
        expect(board.page.locator(".label").first).to_be_attached()

        assert "<img src=x onerror=alert(1)>" in " ".join(board.page.locator(".label").all_text_contents())
        assert board.page.locator("img").count() == 0


class TestLabels:
    @pytest.mark.parametrize("width", [560, 820])
    def test_apart(self, board: Board, width: int):
        """No two labels of a whole construction lie on each other, and all are in view."""
        board.open(f"show=6&width={width}")
        boxes: list[Any] = [label.bounding_box() for label in board.page.locator(".label").all()]
        pad: Any = board.pad.bounding_box()

        assert len(boxes) == 11
        for i, one in enumerate(boxes):
            assert one["x"] >= pad["x"] - 1
            assert one["x"] + one["width"] <= pad["x"] + pad["width"] + 1
            assert not any(_overlap(one, other) for other in boxes[:i])

    @pytest.mark.screen(width=390, height=844)
    def test_brief_on_a_small_screen(self, board: Board):
        """On a small chart earlier strokes bear only their names."""
        board.open("show=6")

        assert "z" in board.page.locator(".label.calm").all_text_contents()


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
        row = board.page.get_by_role("row", name="y, near")

        expect(row.get_by_role("cell").nth(1)).to_have_text("1.000 + j1.581")
        expect(board.page.get_by_role("columnheader")).to_have_count(6)

    def test_live_region_speaks_once(self, board: Board):
        """While the hand moves nothing is announced; when the answer is handed in it is."""
        board.open("show=5&ask=along").press("ArrowRight", "ArrowRight")
        expect(board.page.get_by_role("status")).to_have_text("")
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


def _overlap(one: dict, other: dict) -> bool:
    gaps = [
        max(one[at], other[at]) - min(one[at] + one[size], other[at] + other[size])
        for at, size in (("x", "width"), ("y", "height"))
    ]
    return max(gaps) < -5  # the halos around letters may touch
