"""What is drawn: where it stands, in which colours, how it grows, and where its labels are."""

from typing import Any

import pytest
from playwright.sync_api import expect

from app.parts import modules
from tests.browser.stage.board import BOX, PRINTED, Board, middle
from tests.browser.stage_page import FAR, LOAD, NEAR


class TestAdmittance:
    def test_half_turn(self, board: Board):
        """With the half turn the load's admittance stands across the centre, and there is one grid."""
        board.open("show=3")
        places = [board.point(middle(mark)) for mark in board.page.locator(".ink .mark.role-load").all()]

        assert places == [pytest.approx(LOAD, abs=0.004), pytest.approx(-LOAD, abs=0.004)]
        assert [one for one in board.page.evaluate(PRINTED) if one["dash"]] == []

    def test_overlay(self, board: Board):
        """With the overlay it stays in place with a ring around it, and a dotted grid lies under the other."""
        board.open("show=3&admittance=overlay")
        places = [board.point(middle(mark)) for mark in board.page.locator(".ink .mark.role-load").all()]
        ring = board.point(middle(board.page.locator(".ink .kind-ring")))

        assert places == [pytest.approx(LOAD, abs=0.004)] * 2
        assert ring == pytest.approx(LOAD, abs=0.004)
        assert sum(one["count"] for one in board.page.evaluate(PRINTED) if one["dash"]) > 20


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
        second = board.page.locator(".ink .line.role-second.kind-way").evaluate(look)
        first = board.page.locator(".ink .line.role-first.kind-way").evaluate(look)
        unit = board.page.locator(".ink .line.role-unit").evaluate(look)
        shapes = {
            role: board.page.locator(f".ink .mark.role-{role}").first.get_attribute("d")
            for role in ("load", "first", "second")
        }

        assert (second[0], first[0], unit[0]) == ("rgb(163, 44, 100)", "rgb(0, 102, 107)", "rgb(135, 85, 0)")
        assert len({second[1], first[1], unit[1]}) == 3
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
        expect(board.page.locator(".ink .role-second.kind-way").first).to_be_attached()
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


class TestOtherLessons:
    """What other lessons draw: regions, walks on any circle and along the rim, up to four solutions."""

    def test_region(self, board: Board):
        """A region is hatched within its circle and nowhere else."""
        board.open("more=1")
        left, top, width, height = board.page.locator(".ink .kind-region").evaluate(BOX)
        corners = [board.point((left, top)), board.point((left + width, top + height))]

        assert corners[0] == pytest.approx(1 / 3 + 1j / 3, abs=0.03)
        assert corners[1] == pytest.approx(1 - 1j / 3, abs=0.03)
        expect(board.page.locator(".label", has_text="no match here")).to_be_visible()

    def test_four_solutions(self, board: Board):
        """Each of four solutions has a colour, a dash and a marker of its own."""
        board.open("more=1")
        look = "path => { const s = getComputedStyle(path); return [s.stroke, s.strokeDasharray].join() }"
        roles = ("first", "second", "third", "fourth")
        lines = [
            board.page.locator(f".ink .line.kind-way.role-{role}").first.evaluate(look) for role in roles
        ]

        assert len(set(lines)) == 4
        assert board.page.locator(".ink .mark.role-third").count() == 1
        assert board.page.locator(".ink .mark.role-fourth").count() == 1

    def test_second_walk_along_the_rim_keeps_off_the_scale(self, board: Board):
        """Two walks along the rim lie on it and inside of it, so that no number of the scale outside is covered."""
        board.open("more=1")
        for role in ("first", "second"):
            ends = board.page.locator(f".ink .line.kind-way.role-{role}").last.evaluate(
                "p => { const q = p.getPointAtLength(0).matrixTransform(p.getScreenCTM()); return [q.x, q.y] }"
            )

            assert 0.98 < abs(board.point(tuple(ends))) < 1.004


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

    def test_reading_stands_in_the_lane(self, board: Board):
        """The reading of a ray stands between the two scales of length and covers no number of either."""
        board.open("show=6")
        covered = board.page.evaluate(COVERED)

        assert len(covered) == 3
        assert covered == [[], [], []]

    def test_solutions_without_colour(self, board: Board):
        """Two walks of one name bear the signs of their solutions, those of the markers at their ends."""
        board.open("show=6")
        texts = board.page.locator(".label text").all_text_contents()

        assert [f"▲ d = {NEAR.distance:.3f} λ", f"◆ d = {FAR.distance:.3f} λ"] == sorted(
            text for text in texts if "d = " in text
        )

    def test_keeps_off_rays(self, board: Board):
        """A label beside a point stands where no ray runs through it, if there is such a place."""
        board.open()
        cost = board.page.evaluate(LABEL_ON_RAY, modules.address())

        assert cost < 4  # of 400 places on the ray: no more than a corner

    def test_subscripts(self, board: Board):
        """A name with a subscript has it smaller and lower."""
        board.open("more=1")
        label = board.page.locator(".label", has_text="yL").first
        whole, below = label.locator("text").bounding_box(), label.locator(".sub").bounding_box()
        assert whole
        assert below

        assert label.text_content() == "yL = 0.40 + j0.80"
        assert below["height"] < 0.8 * whole["height"]
        assert below["y"] + below["height"] / 2 > whole["y"] + whole["height"] / 2

    def test_a_lone_l_is_no_stroke(self, board: Board):
        """The letter l alone is set in italics with serifs."""
        board.open("more=1")
        look = "node => { const s = getComputedStyle(node); return [s.fontStyle, s.fontFamily] }"
        style, family = board.page.locator(".label .ell").first.evaluate(look)

        assert style == "italic"
        assert "serif" in family
        assert "sans" not in family


COVERED = """() => {
  const root = [...document.querySelectorAll('*')].map(e => e.shadowRoot).find(r => r?.querySelector('.pad'));
  const all = [...root.querySelectorAll('.numbers:is(.generator, .load) text')];
  const numbers = all.filter(text => text.getClientRects().length);
  const middle = node => { const b = node.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2] };
  return [...root.querySelectorAll('.label rect')].map(rect => {
    const back = rect.getScreenCTM().inverse(), w = rect.width.baseVal.value, h = rect.height.baseVal.value;
    return numbers.filter(text => {
      const at = new DOMPoint(...middle(text)).matrixTransform(back);
      return Math.abs(at.x) < w / 2 && Math.abs(at.y) < h / 2 + 2;
    }).map(text => text.textContent);
  });
}"""
LABEL_ON_RAY = """async (modules) => {
  const { use } = await import(modules);
  const { placeLabels } = use('parts/stage/labels.js');
  const { View } = use('parts/stage/view.js');
  const layout = { extent: 1.24, generator: 1.05, names: 1.09, load: 1.13, angle: 1.21, text: 0.044, tick: 1.02 };
  const view = new View(document.createElement('div'), { regular: layout }, () => {}, () => {});
  Object.assign(view, { layout: 'regular', size: 800, half: 1.24 });
  const given = { role: 'load', value: '', spoken: '' };
  const drawn = stroke => ({ stroke: { ...given, ...stroke }, current: true, part: 1 });
  const point = drawn({ kind: 'point', at: [0.3, 0.3], label: 'a long name of a point' });
  const [box] = placeLabels(view, [point, drawn({ kind: 'ray', at: [0.3, 0.3], label: '' })]);
  const on = Array.from({ length: 400 }, (_, i) => view.toScreen([i / 400, i / 400]));
  return on.filter(([x, y]) => Math.abs(x - box.x) < box.width / 2 && Math.abs(y - box.y) < box.height / 2).length;
}"""


def _overlap(one: dict, other: dict) -> bool:
    gaps = [
        max(one[at], other[at]) - min(one[at] + one[size], other[at] + other[size])
        for at, size in (("x", "width"), ("y", "height"))
    ]
    return max(gaps) < -5  # the halos around letters may touch
