"""The line drawing in a browser: true to scale, in step with the chart, readable at every width and length."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from app.parts import modules
from app.serving.server import Running, serve
from lessons.grammar.kinds import Millimetres
from lessons.grammar.notation import Notation
from tests.browser.drawing_page import CASES, any_networks, pages
from tests.browser.waits import ready

SIDES = ("near", "far")
WIDTHS = (320, 360, 560, 820, 1000)
STILL = {"reduced_motion": "reduce"}


@pytest.fixture(scope="module")
def site() -> Iterator[Running]:
    """The drawing's own pages in place of the program's."""
    running = serve(pages(), port=0, threaded=True)
    assert running is not None
    yield running
    running.stop()


def show(page: Page, case: str) -> None:
    """Open a case's page and wait until its drawing is there."""
    page.goto(f"/{case}")
    ready(page)
    page.locator("[data-part=board-scale-label]").wait_for()


def resize(page: Page, width: int) -> None:
    """Give the page another width and wait until the drawing has followed."""
    page.set_viewport_size({"width": width, "height": 900})
    page.wait_for_function(f"() => {{ {FIND} {FITS} }}")


def walk(page: Page, **detail: Any) -> None:
    """Tell the drawing of a student's walk, as the chart does, and wait until it is painted."""
    page.evaluate(
        """async detail => {
          document.dispatchEvent(new CustomEvent("halfturn:walk", {detail}));
          await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
        }""",
        detail,
    )


BOX = "node => { const {x, y, width, height} = node.getBBox(); return {x, y, w: width, h: height}; }"


def box(page: Page, part: str) -> dict[str, float]:
    """A part's bounding box in the drawing's pixels, its stroke left out."""
    return page.locator(f"[data-part={part}]").evaluate(BOX)


def centre(box: dict[str, float]) -> float:
    """The middle of a box from left to right."""
    return box["x"] + box["w"] / 2


def measured(page: Page, side: str) -> dict[str, float]:
    """Distance and length of a stub in wavelengths, measured from the line drawing with its own scale bar."""
    wavelength = 8 * box(page, "line-scale")["w"]
    terminals, end = box(page, "line-terminals"), box(page, f"{stub(side)}-end")
    rails = box(page, "line-rails")
    return {
        "distance": (centre(terminals) - centre(end)) / wavelength,
        "length": (end["y"] + end["h"] / 2 - rails["y"] - rails["h"]) / wavelength,
    }


def stub(side: str) -> str:
    """The part that is a single stub's stub: the second element of its solution's network."""
    return f"line-stub-{SIDES.index(side)}-1"


def lengths(case: str, side: str) -> dict[str, float]:
    """Distance and length of a single stub, as the case's network has them."""
    section, stub = CASES[case]["plans"][SIDES.index(side)]["elements"]
    return {"distance": section["length"], "length": stub["length"]}


def measured_on_board(page: Page) -> dict[str, float]:
    """Distance and length of the branch in wavelengths, along the middle of its copper, from the trace's edge."""
    wavelength = 8 * box(page, "board-scale")["w"]
    trace, ends = box(page, "board-trace-0"), box(page, "board-section-0-ends")
    way = page.locator("[data-part=board-branch-1-0]").evaluate(
        "node => [node.getTotalLength(), node.getPointAtLength(0).x, node.getPointAtLength(0).y]"
    )
    breadth = page.locator("[data-part=board-trace-0]").evaluate("node => parseFloat(node.style.strokeWidth)")
    hidden = trace["y"] + breadth / 2 - way[2]  # copper that runs on under the trace
    return {
        "distance": (ends["x"] + ends["w"] - way[1]) / wavelength,
        "length": (way[0] - hidden) / wavelength,
    }


class TestScale:
    @pytest.mark.parametrize("case", ["near", "far", "open-far", "series", "short-long"])
    def test_lengths(self, page: Page, case: str):
        """At every width junctions and ends stand where the networks' lengths put them, by the drawing's own scale
        bar; the copper has the same lengths, measured along its middle round the bend that a long branch has."""
        show(page, case)
        current = SIDES[CASES[case]["current"]]

        for width in WIDTHS:
            resize(page, width)
            assert pytest.approx(lengths(case, "near"), abs=1e-3) == measured(page, "near")
            assert pytest.approx(lengths(case, "far"), abs=1e-3) == measured(page, "far")
            if case != "series":  # its branch has two strips, neither of which is the middle
                assert pytest.approx(lengths(case, current), abs=1e-3) == measured_on_board(page)

    def test_one_scale(self, page: Page):
        """Both panels have the same scale."""
        show(page, "near")

        assert pytest.approx(box(page, "line-scale")["w"], abs=0.01) == box(page, "board-scale")["w"]

    def test_higher_impedance_is_narrower(self, page: Page):
        """Copper of higher impedance is drawn narrower, and equal impedances equally broad."""
        breadths = {}
        for case in ("wide-stub", "near", "narrow-stub"):
            show(page, case)
            breadths[case] = [
                page.locator(f"[data-part={part}]").evaluate("node => parseFloat(node.style.strokeWidth)")
                for part in ("board-branch-1-0", "board-trace-0")
            ]

        assert breadths["wide-stub"][0] > breadths["near"][0] > breadths["narrow-stub"][0]
        assert breadths["near"][0] == breadths["near"][1]


class TestWalk:
    def test_distance(self, page: Page):
        """While the student walks, the junction moves with them; the other stub stays."""
        show(page, "near")
        before = measured(page, "far")
        walk(page, branch="near", element=0, wavelengths=0.2)

        assert pytest.approx(0.2, abs=1e-3) == measured(page, "near")["distance"]
        assert pytest.approx(before, abs=1e-3) == measured(page, "far")
        expect(page.locator("[data-part=line-section-0-label]")).to_have_text("d = 0.200 λ")

    def test_length(self, page: Page):
        """A stub grows as its length is walked, and its label says how long it is."""
        show(page, "near")
        walk(page, branch="near", element=1, wavelengths=0.3)

        assert pytest.approx(0.3, abs=1e-3) == measured(page, "near")["length"]
        assert pytest.approx(0.3, abs=1e-3) == measured_on_board(page)["length"]
        expect(page.locator("[data-part=line-stub-0-1-label]")).to_have_text("l = 0.300 λ")

    def test_side_walked_is_the_strong_one(self, page: Page):
        """The solution that is being dragged is drawn at full strength, the other faintly."""
        show(page, "near")
        walk(page, branch="far", element=1, wavelengths=0.35)

        expect(page.locator("[data-part=line-stub-1-1]")).to_have_class(re.compile(r"\bstrong\b"))
        expect(page.locator("[data-part=line-stub-0-1]")).to_have_class(re.compile(r"\bfaint\b"))

    def test_first_walk(self, page: Page):
        """Before anything is known, the stub stands somewhere with question marks; a walk along the line takes it with
        it, its length still unknown."""
        show(page, "nothing")
        expect(page.locator("[data-part=line-section-0-label]")).to_have_text("d = ?")
        walk(page, branch="near", element=0, wavelengths=0.15)

        expect(page.locator("[data-part=line-stub-0-1]")).to_have_class(re.compile(r"\bstump\b"))
        expect(page.locator("[data-part=line-stub-0-1-label]")).to_have_text("l = ?")
        assert pytest.approx(0.15, abs=1e-3) == (
            centre(box(page, "line-terminals")) - centre(box(page, "line-stub-0-1"))
        ) / (8 * box(page, "line-scale")["w"])

    def test_more_than_half_a_wavelength(self, page: Page):
        """Who walks on round the chart sees the whole way, the scale growing smaller for it."""
        show(page, "near")
        walk(page, branch="near", element=0, wavelengths=0.7)

        assert pytest.approx(0.7, abs=2e-3) == measured(page, "near")["distance"]
        assert box(page, "line-rails")["x"] < box(page, "line-stub-0-1")["x"]

    def test_given_up(self, page: Page):
        """A walk that is given up leaves the picture as it was."""
        show(page, "near")
        before = measured(page, "near")
        walk(page, branch="near", element=0, wavelengths=0.3)
        walk(page, branch="near", element=0, wavelengths=None)

        assert before == measured(page, "near")

    @pytest.mark.parametrize(
        "detail",
        [
            pytest.param({"branch": "near", "element": 0, "wavelengths": "0.3"}, id="text"),
            pytest.param({"branch": "near", "element": 0}, id="no length"),
            pytest.param({"branch": "near", "element": 2, "wavelengths": 0.3}, id="no element"),
            pytest.param({"branch": "middle", "element": 0, "wavelengths": 0.3}, id="no branch"),
            pytest.param({}, id="nothing"),
        ],
    )
    def test_no_walk(self, page: Page, detail: dict[str, Any]):
        """What is no walk along a line moves nothing."""
        show(page, "near")
        before = measured(page, "near")
        walk(page, **detail)

        assert before == measured(page, "near")

    def test_nothing_is_sent(self, page: Page):
        """A drag of many steps sends nothing to the server."""
        sent: list[object] = []
        page.on("websocket", lambda socket: socket.on("framesent", lambda frame: sent.append(frame)))
        show(page, "near")
        page.wait_for_function("() => Bokeh.documents[0].is_idle")
        before = len(sent)
        for step in range(20):
            walk(page, branch="near", element=0, wavelengths=step / 40)

        assert before == len(sent)


class TestNewPicture:
    @pytest.mark.parametrize("way", ["by parameter", "by message"])
    def test_arrives(self, page: Page, way: str):
        """A new picture is drawn, whichever way it comes, with its sentences."""
        show(page, "distance")
        expect(page.locator("[data-part=line-stub-0-1-end]")).to_have_count(0)
        page.get_by_role("button", name=way).click()
        page.locator("[data-part=line-stub-1-1-end]").wait_for(state="attached")

        expect(page.get_by_role("img", name=CASES["near"]["spoken"])).to_be_visible()
        page.wait_for_function(SETTLED)
        assert pytest.approx(lengths("near", "near"), abs=1e-3) == measured(page, "near")

    def test_moves_gently(self, page: Page):
        """Between two pictures the stub grows through lengths in between, and is there within 400 ms."""
        show(page, "one-length")
        page.evaluate(STEPS, "line-stub-1-1")
        page.get_by_role("button", name="by parameter").click()
        page.wait_for_function(SETTLED)
        steps = page.evaluate("window.steps")

        assert len({step["low"] for step in steps}) > 2
        assert sorted(step["low"] for step in steps) == [step["low"] for step in steps]
        assert {steps[-1]["low"]} >= {step["low"] for step in steps if step["at"] - steps[0]["at"] > 400}

    @pytest.mark.screen(**STILL)
    def test_no_motion(self, page: Page):
        """Who wants no motion gets the new picture at once."""
        show(page, "one-length")
        page.evaluate(STEPS, "line-stub-1-1")
        page.get_by_role("button", name="by parameter").click()
        page.locator("[data-part=line-stub-1-1-end]").wait_for(state="attached")
        page.wait_for_function(SETTLED)

        assert 1 == len({step["low"] for step in page.evaluate("window.steps")})

    def test_ends_a_walk(self, page: Page):
        """The committed picture takes the place of what was dragged."""
        show(page, "near")
        walk(page, branch="near", element=0, wavelengths=0.3)
        page.get_by_role("button", name="by parameter").click()
        page.wait_for_function(SETTLED)

        assert pytest.approx(lengths("far", "near"), abs=1e-3) == measured(page, "near")
        expect(page.locator("[data-part=line-stub-1-1]")).to_have_class(re.compile(r"\bstrong\b"))

    @pytest.mark.screen(**STILL)
    def test_rendered_again(self, page: Page):
        """A second rendering by the page goes on where the first one was: picture, walk, and one drawing only."""
        show(page, "distance")
        page.get_by_role("button", name="by message").click()
        page.locator("[data-part=line-stub-1-1-end]").wait_for(state="attached")
        walk(page, branch="near", element=1, wavelengths=0.3)
        page.evaluate(RENDER_AGAIN)
        page.locator("[data-part=line-stub-1-1-end]").wait_for(state="attached")

        assert pytest.approx(0.3, abs=1e-3) == measured(page, "near")["length"]
        walk(page, branch="near", element=1, wavelengths=0.2)
        assert pytest.approx(0.2, abs=1e-3) == measured(page, "near")["length"]
        expect(page.get_by_role("img")).to_have_count(1)


FIND = """const find = (what, root = document) => root.querySelector(what) ?? [...root.querySelectorAll("*")]
  .map(each => each.shadowRoot && find(what, each.shadowRoot)).find(found => found);"""
STEPS = f"""part => {{
  {FIND}
  const stub = find(`[data-part="${{part}}"]`);
  window.steps = [];
  new MutationObserver(() => {{
    const {{y, height}} = stub.getBBox();
    window.steps.push({{low: y + height, at: performance.now()}});
  }}).observe(stub, {{attributes: true, attributeFilter: ["d"]}});
}}"""
SETTLED = f"""() => new Promise(done => {{
  {FIND}
  let quiet = setTimeout(() => done(true), 250);
  new MutationObserver(() => {{ clearTimeout(quiet); quiet = setTimeout(() => done(true), 250); }})
    .observe(find("svg[role=img]"), {{attributes: true, subtree: true, childList: true}});
}})"""
RENDER_AGAIN = """() => {
  const all = view => [view, ...[...(view.child_views ?? [])].flatMap(all)];
  [...Bokeh.index].flatMap(all).find(view => view.model.class_name === "LineDrawing").render_esm();
}"""


class TestLooks:
    def test_said(self, page: Page):
        """The drawing is one image whose name is the whole sentence."""
        show(page, "near")

        expect(page.get_by_role("img", name=CASES["near"]["spoken"], exact=True)).to_be_visible()
        expect(page.get_by_text(CASES["near"]["caption"])).to_be_visible()

    @pytest.mark.parametrize(("case", "count"), [("open", 1), ("near", 0)])
    def test_caution(self, page: Page, case: str, count: int):
        """The caution is seen where the end is open, and takes no room where it is not."""
        show(page, case)

        expect(page.get_by_text("An open end carries high voltage").filter(visible=True)).to_have_count(count)

    @pytest.mark.parametrize("case", ["near", "open", "series"])
    def test_without_colour(self, page: Page, case: str):
        """Near and far differ in dash, marker and word, and the end in shape."""
        show(page, case)
        dash = "node => getComputedStyle(node).strokeDasharray"

        assert "none" == page.locator("[data-part=line-stub-0-1]").evaluate(dash)
        assert page.locator("[data-part=line-stub-1-1]").evaluate(dash).count(",") == 3
        for side in ("near", "far"):
            expect(page.locator(f"[data-part=line-name-{side}-name]")).to_have_text(side)
        markers = [
            page.locator(f"[data-part=line-name-{side}-marker]").get_attribute("d")
            for side in ("near", "far")
        ]
        assert [3, 4] == [len(re.findall("[MLH]", marker or "")) for marker in markers]

    @pytest.mark.parametrize(
        ("scheme", "near"),
        [
            pytest.param("light", "rgb(0, 102, 107)", marks=pytest.mark.screen(colour_scheme="light")),
            pytest.param("dark", "rgb(95, 201, 196)", marks=pytest.mark.screen(colour_scheme="dark")),
        ],
    )
    def test_palette(self, page: Page, scheme: str, near: str):
        """The drawing takes the page's colours, on paper always the light ones."""
        show(page, "near")
        stroke = "node => getComputedStyle(node).stroke"

        assert near == page.locator("[data-part=line-stub-0-1]").evaluate(stroke)
        page.emulate_media(media="print")
        assert "rgb(0, 102, 107)" == page.locator("[data-part=line-stub-0-1]").evaluate(stroke)

    def test_size_of_type(self, page: Page):
        """At every width text is at least 12 pixels high and nothing is wider than the page; the panels stand beside
        each other where there is room, and below each other where there is none."""
        show(page, "millimetres")
        rows = set()
        for width in WIDTHS:
            resize(page, width)
            size = page.get_by_role("img").evaluate(TYPE)
            room = page.get_by_role("img").evaluate("node => node.clientWidth")
            below = box(page, "board-heading")["y"] > box(page, "line-heading")["y"]
            rows.add((room < 54 * 13, below))

            assert size >= 12
            assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert {(True, True), (False, False)} == rows


TYPE = "node => parseFloat(getComputedStyle(node).fontSize) * node.clientWidth / node.viewBox.baseVal.width"
FITS = """const svg = find("svg[role=img]");
  const spare = svg.viewBox.baseVal.width - svg.clientWidth;  // on the smallest screens it is drawn a little smaller
  return -1 < spare && spare < 25;"""


class TestLabels:
    @pytest.mark.parametrize("width", [296, 340, 520, 710, 960])
    def test_clear_of_everything(self, page: Page, width: int):
        """No label touches a wire, an arrow, copper or another label, and none leaves the drawing: in every case, and
        with both stubs at all places and of all lengths, the extremes included."""
        show(page, "near")
        swept = [name for name in CASES if name in ("millimetres", "open", "series-open-far")]

        assert [] == page.evaluate(
            CLASHES, [MODULES, CASES, swept, [0, 0.004, 0.06, 0.2, 0.36, 0.497], width, False]
        )

    @pytest.mark.parametrize("width", [340, 900])
    def test_any_network(self, page: Page, width: int):
        """Nor does one in drawings of networks of any elements in any order."""
        show(page, "near")

        assert [] == page.evaluate(CLASHES, [MODULES, any_networks(80), [], [], width, False])

    def test_would_be_seen(self, page: Page):
        """The look-out for clashes sees one where there is one: labels all put in the same place are found out."""
        show(page, "near")

        assert page.evaluate(CLASHES, [MODULES, CASES, [], [], 340, True])


MODULES = {name: f"parts/line_drawing/{name}.js" for name in ("figure", "walk", "pen", "writing")}
MODULES["all"] = modules.address()
CLASHES = """async ([modules, pictures, swept, lengths, width, blind]) => {
  const {use} = await import(modules.all), {figure} = use(modules.figure), {lengthsOf} = use(modules.walk);
  const {Pen} = use(modules.pen);
  if (blind) Pen.prototype.room = (w, h) => ({x: 80, y: 80, w, h, cost: 0, crowded: false});
  const context = document.createElement("canvas").getContext("2d"), u = 13, widths = new Map();
  const family = getComputedStyle(document.body).fontFamily, plain = run => run.replace(/^_/, "");
  const measure = run => {
    context.font = run.startsWith("_") ? `italic ${1.15 * u}px Georgia, "Times New Roman", serif` : `${u}px ${family}`;
    if (!widths.has(run)) widths.set(run, context.measureText(plain(run)).width);
    return widths.get(run);
  };
  const node = document.createElementNS("http://www.w3.org/2000/svg", "path");
  const points = d => {                // a few pixels apart, so that no line passes a letter unseen
    node.setAttribute("d", d);
    const all = node.getTotalLength(), count = Math.ceil(all / 5);
    return Array.from({length: count + 1}, (_, i) => node.getPointAtLength(Math.min(5 * i, all)));
  };
  const boxOf = ({part, x, y, runs, anchor}) => {
    const w = runs.reduce((sum, run) => sum + measure(run), 0), left = anchor === "middle" ? x - w / 2 : x;
    return {part, left, right: left + w, top: y - 0.72 * u, bottom: y + 0.18 * u};
  };
  const clashes = ({width, height, shapes}) => {
    const texts = shapes.filter(shape => shape.tag === "text").map(boxOf), found = [];
    texts.forEach((a, i) => {
      if (a.left < -0.5 || a.right > width + 0.5 || a.top < 0 || a.bottom > height) found.push(`${a.part} outside`);
      for (const b of texts.slice(i + 1)) if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5
        && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5) found.push(`${a.part} on ${b.part}`);
    });
    const edged = shapes.filter(shape => shape.tag === "path" && !/-edge$|^line-band/.test(shape.part));
    for (const {part, d, breadth} of edged) {
      const r = (breadth ?? 0) / 2, way = points(d);
      const inside = t => ({x, y}) => x > t.left - r && x < t.right + r && y > t.top - r && y < t.bottom + r;
      for (const t of texts) if (way.some(inside(t))) found.push(`${t.part} on ${part}`);
    }
    return found;
  };
  const found = [], look = (name, values, current) => {
    const clash = clashes(figure(pictures[name], values, current, width, u, measure));
    if (clash.length) found.push([name, current, JSON.stringify(values), ...clash].join(" | "));
  };
  for (const [name, made] of Object.entries(pictures)) look(name, lengthsOf(made), made.current);
  for (const name of swept) for (const d of lengths) for (const l of lengths) for (const apart of [0.05, 0.2]) {
    const [first, second] = [d, (d + apart) % 0.5].sort((a, b) => a - b);
    const values = [[first, l], [second, 0.5 - l]];
    for (const current of [0, 1]) look(name, values, current);
  }
  return found;
}"""


class TestWriting:
    @pytest.mark.parametrize("case", ["near", "degrees"])
    def test_twin_of_the_notation(self, page: Page, case: str):
        """Lengths are written in the browser, digit by digit, as the notation writes them: halves of the last digit
        go to the even one, too."""
        notation = Notation(length="degrees") if case == "degrees" else Notation()
        some = [k / 16 for k in range(9)] + [k / 1997 for k in range(999)] + [0.1105, 0.49951, 1e-9, 0.5]
        show(page, "near")
        written = page.evaluate(WRITTEN, [MODULES, some, CASES[case]["writing"], "writtenWaves"])

        assert [notation.wavelengths(length) for length in some] == written

    def test_twin_of_the_millimetres(self, page: Page):
        """So are millimetres."""
        some = [k / 16 for k in range(9)] + [k / 997 for k in range(499)]
        writing = CASES["millimetres"]["writing"]
        kind = Millimetres(writing["wavelength_mm"])
        show(page, "near")
        written = page.evaluate(WRITTEN, [MODULES, some, writing, "writtenMillimetres"])

        assert [kind.write(length * kind.wavelength_mm, Notation()) for length in some] == written

    def test_symbols_and_units(self, page: Page):
        """The dimensions carry the course's symbols and units, and millimetres where there is a frequency."""
        show(page, "degrees")
        expect(page.locator("[data-part=line-section-0-label]")).to_have_text("s = 39.8°")
        expect(page.locator("[data-part=line-stub-0-1-label]")).to_have_text("t = 34.2°")
        show(page, "millimetres")

        expect(page.locator("[data-part=line-section-0-label]")).to_have_text("d = 0.110 λ = 50.3 mm")
        expect(page.locator("[data-part=line-stub-0-1-mm]")).to_have_text("43.3 mm")
        expect(page.locator("[data-part=board-branch-1-label]")).to_have_text("l = 43.3 mm")
        expect(page.locator("[data-part=line-scale-label]")).to_have_text("λ/8 = 57.0 mm")


WRITTEN = """async ([modules, lengths, writing, name]) => {
  const module = (await import(modules.all)).use(modules.writing);
  return lengths.map(length => module[name](length, writing));
}"""
