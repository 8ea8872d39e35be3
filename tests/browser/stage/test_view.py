"""Zooming and panning: ink and paper stay in step, and what is printed suits the size."""

import cmath

import pytest
from playwright.sync_api import expect

from tests.browser.stage.board import BOX, PRINTED, UNIT_CIRCLE, Board, middle


def _covers(one, other) -> bool:
    """Whether two boxes share more than their halos."""
    gaps = [
        max(one[at], other[at]) - min(one[at] + one[size], other[at] + other[size])
        for at, size in (("x", "width"), ("y", "height"))
    ]
    return max(gaps) < -4


MOVING = f"""async () => {{
  const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.pad'));
  const pad = root.querySelector('.pad');
  const turn = {{ deltaY: -8, ctrlKey: true, clientX: 500, clientY: 300, cancelable: true }};
  for (let i = 0; i < 200; i++) {{
    pad.dispatchEvent(new WheelEvent('wheel', turn));
    await new Promise(done => requestAnimationFrame(done));
    if (i > 3 && root.querySelector('.sheet').style.transform)
      return [({UNIT_CIRCLE})(), ({BOX})(root.querySelector('.ink .line.role-unit'))];
  }}
}}"""


class TestView:
    """Zooming and panning, and ink and paper in step."""

    def printed(self, board: Board) -> int:
        """How many lines of the printed chart are shown."""
        return sum(one["count"] for one in board.settle().page.evaluate(PRINTED))

    def apart(self, board: Board) -> float:
        """Distance between the drawn circle g = 1 and the printed circle r = 1 under it, at its worst."""
        printed = board.settle().page.evaluate(UNIT_CIRCLE)
        drawn = board.page.locator(".ink .line.role-unit").evaluate(BOX)
        return max(abs(a - b) for a, b in zip(drawn, printed, strict=True))

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
        printed, drawn = board.page.evaluate(MOVING)

        assert max(abs(a - b) for a, b in zip(drawn, printed, strict=True)) < 0.5

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
        mark = board.page.locator(".ink .mark.role-second")
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
        mark = board.page.locator(".ink .mark.role-first")
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

    def test_numbers_keep_their_size(self, board: Board):
        """In a closer view the printed numbers are as large as before, and lines as wide."""
        board.open("show=0")
        before = self.look(board)
        board.press("+", "+", "+", "+")

        assert self.look(board) == pytest.approx(before, abs=0.2)

    def look(self, board: Board) -> list[float]:
        """Height of the number 0.25 of the outer scale, in pixels, and width of its ticks on the screen."""
        return board.settle().page.evaluate("""() => {
          const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.pad'));
          const svg = root.querySelector('.printed-chart'), scale = svg.getScreenCTM().a;
          const text = [...root.querySelectorAll('.numbers.generator text')].find(t => t.textContent === '0.25');
          const tick = getComputedStyle(root.querySelector('.ticks'));
          const free = tick.vectorEffect === 'non-scaling-stroke' ? 1 : scale;
          return [parseFloat(getComputedStyle(text).fontSize) * scale, parseFloat(tick.strokeWidth) * free];
        }""")

    @pytest.mark.parametrize("width", [440, 520, 600])
    def test_whole_chart_on_a_laptop(self, board: Board, width: int):
        """From 440 pixels of width on, scales are numbered every 0.01 wavelength and no two numbers touch."""
        board.open(f"show=6&width={width}")
        boxes = board.page.evaluate("""() => {
          const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.pad'));
          const shown = [...root.querySelectorAll('.numbers.generator text')].filter(t => t.getClientRects().length);
          return shown.map(text => {
            const m = text.getScreenCTM(), b = text.getBBox();
            const at = new DOMPoint(b.x + b.width / 2, b.y + b.height / 2).matrixTransform(m);
            return [at.x, at.y, b.width * Math.hypot(m.a, m.b)];
          });
        }""")
        gaps = [
            abs(complex(one[0] - other[0], one[1] - other[1])) - (one[2] + other[2]) / 2
            for i, one in enumerate(boxes)
            for other in boxes[:i]
        ]

        assert len(boxes) == 50
        assert min(gaps) > 1

    def test_scale_of_degrees(self, board: Board):
        """Where lengths are degrees of line, the scales have degrees, 0 to 175 every five, and are named so."""
        board.open("show=0&length=degrees")
        texts = board.page.locator(".numbers.generator:visible text").all_text_contents()

        assert sorted(int(text.rstrip("°")) for text in texts) == list(range(0, 180, 5))
        expect(board.page.locator(".name.generator").first).to_contain_text(
            "degrees of line toward generator"
        )

    def test_painted_before_any_script(self, board: Board):
        """With no script at all the page shows the printed chart, its grid and its numbers."""
        board.page.route("**/*.js*", lambda route: route.fulfill(body="", content_type="text/javascript"))
        board.page.add_init_script("window.addEventListener('error', event => event.preventDefault())")
        board.page.goto("/")
        chart = board.page.locator("#printed > .printed-chart")
        box = chart.bounding_box()
        assert box

        assert box["width"] == pytest.approx(box["height"], abs=1)
        assert board.page.locator("#printed .numbers.generator text:visible").count() == 50
        assert board.page.locator("#printed .closer:visible").count() == 0

    def test_names_at_the_edge_cover_nothing(self, board: Board):
        """In a closer view no name of a curve lies on a printed number, on a label or on another name."""
        board.open("show=6&admittance=overlay").press("+", "+", "+")
        boxes = [one.bounding_box() for one in board.page.locator(".edge").all()]
        written = board.page.locator(".label text, .numbers:visible text").all()
        others = [box for one in written if (box := one.bounding_box())]
        pairs = [(one, other) for i, one in enumerate(boxes) for other in [*boxes[:i], *others]]

        assert len(boxes) > 10
        assert not [pair for pair in pairs if _covers(*pair)]

    def test_finer_when_closer(self, board: Board):
        """A closer view shows more divisions, and names the curves that leave it."""
        board.open("show=0")
        before = self.printed(board)
        board.press("+", "+", "+")

        assert self.printed(board) > before
        assert board.page.locator(".edge").count() > 10

    @pytest.mark.screen(width=390, height=844)
    def test_coarser_when_small(self, board: Board):
        """A small chart shows only the coarse divisions: less than half of those of a large one."""
        board.open("show=0")
        small = self.printed(board)
        board.page.set_viewport_size({"width": 900, "height": 900})

        assert self.printed(board) > 2 * small
