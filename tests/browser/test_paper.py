"""The paper view in a browser: pages in sight, printed at true size, saved as they are, and by keyboard alone."""

from __future__ import annotations

import io
import re
import struct
import zipfile
from pathlib import Path

import pytest
from playwright.sync_api import Download, Page, expect

from app.parts.vector import width_of
from app.parts.worksheet import SIZES, finished_sheet_svg
from lessons.course.shunt_stub import LESSON
from lessons.grammar.notation import Notation
from lessons.working.sheet import Sheet
from tests.app.shunt import answer_key, worksheet
from tests.browser.waits import ready
from tests.lessons.solving import random_problem, shipped_problems

POINTS = 72 / 25.4  # of a PDF, in a millimetre
LEAST_MARGIN = 10.0  # millimetres that stay white at every edge
OVERLAY = Notation(admittance="overlay", imaginary="i", angle="radians", length="degrees", decimals=4)
MEASURE = """svg => {
  const box = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  document.body.replaceChildren(document.importNode(box, true));
  const drawn = document.body.firstElementChild, edge = drawn.getBoundingClientRect();
  const scale = drawn.viewBox.baseVal.width / edge.width;
  return [...drawn.querySelectorAll("text, path, line, circle")].map(node => {
    const at = node.getBoundingClientRect();
    return {text: node.tagName === "text" ? node.textContent : "", size: Number(node.getAttribute("font-size")),
            bold: node.hasAttribute("font-weight"), length: node.getComputedTextLength?.() ?? 0,
            left: (at.left - edge.left) * scale, right: (at.right - edge.left) * scale,
            top: (at.top - edge.top) * scale, bottom: (at.bottom - edge.top) * scale};
  });
}"""


def opened(page: Page, query: str = "") -> Page:
    """The paper view with everything made."""
    page.goto(f"/paper{query}")
    ready(page)
    return page


def content(download: Download) -> bytes:
    return Path(download.path()).read_bytes()


def saved(page: Page, name: str) -> Download:
    """What a button saves."""
    with page.expect_download() as download:
        page.get_by_role("button", name=name, exact=True).click()
    return download.value


class TestPreview:
    def test_shows_every_page_as_a_picture(self, page: Page):
        """Sheet and key are in sight, each page as a picture with its words; nothing of them is markup of the page."""
        opened(page, "?seed=3&count=2")
        pictures = page.locator("figure img")

        expect(pictures).to_have_count(8)
        expect(page.locator("p.status")).to_contain_text("8 pages on A4, 2 sheets.")
        expect(pictures.first).to_have_attribute(
            "alt", re.compile(r"^Worksheet 3: Random problem 3, page 1 of 2\. Match ")
        )
        pictures.first.evaluate("picture => picture.decode()")
        assert 0 < pictures.first.evaluate("picture => picture.naturalWidth")
        assert [] == page.locator("figure svg").all()

    def test_keys_come_after_the_sheets(self, page: Page):
        """All sheets stand before all keys, as they are printed."""
        opened(page, "?seed=3&count=2")
        captions = page.locator("figcaption span").all_inner_texts()

        assert ["Worksheet 3", "Worksheet 3", "Worksheet 4", "Worksheet 4"] == [
            c.split(":")[0] for c in captions[:4]
        ]
        assert all(caption.startswith("Key to worksheet") for caption in captions[4:])

    def test_changes_at_once(self, page: Page):
        """A change in the form shows in the pages and in the address, without a press of a button."""
        opened(page)
        page.get_by_label("Paper", exact=True).select_option("Letter")
        page.get_by_label("Chart", exact=True).select_option("half")
        expect(page.locator("p.status")).to_contain_text("on Letter")
        page.get_by_label("My own problem").check()
        page.get_by_label("Load impedance, Ω").fill("60 - j80")
        page.get_by_label("Line impedance, Ω").fill("50")
        expect(page.locator("figcaption").first).to_contain_text("Your own problem")

        assert "load=60.0-80.0j" in page.url or "load=60-80j" in page.url
        assert "size=Letter" in page.url
        assert "drawn=half" in page.url

    def test_link_opens_the_same(self, page: Page):
        """The link opens the same sheets with the same form, notation and all."""
        opened(page, "?seed=12&count=2&size=Letter&drawn=half&key=only&admittance=overlay&d=a&decimals=4")
        captions = page.locator("figcaption span").all_inner_texts()
        link = page.get_by_role("link", name="Link to these sheets").get_attribute("href")
        opened(page, str(link).removeprefix("/paper"))

        assert captions == page.locator("figcaption span").all_inner_texts()
        assert "12" == page.get_by_label("First sheet's number").input_value()
        assert "only" == page.get_by_label("Key", exact=True).input_value()
        page.get_by_text("Notation", exact=True).click()
        assert "a" == page.get_by_label("Symbol for the distance").input_value()
        assert ["overlay", "4"] == [
            page.get_by_label(label).input_value() for label in ("Admittance by", "Decimals shown")
        ]

    def test_too_many(self, page: Page):
        """More sheets than there may be get a sentence beside the entry; the pages before stay in sight."""
        opened(page, "?seed=1")
        page.get_by_label("Sheets, at most 240").fill("241")

        expect(
            page.get_by_text("The number of sheets is a whole one from 1 to 240, not “241”.")
        ).to_be_visible()
        expect(page.locator("figure")).to_have_count(4)

    def test_refused_load(self, page: Page):
        """A link with a load that nothing matches says so beside it, and prints its point and why."""
        opened(page, "?load=j50")

        expect(page.get_by_label("Load impedance")).to_have_value("j50")
        expect(page.get_by_text("nothing matches it")).to_be_visible()
        expect(page.locator("figure")).to_have_count(2)
        expect(page.get_by_role("img", name="nothing matches it")).to_have_count(1)

    def test_alike(self, page: Page):
        """What all random problems are to have alike is chosen in the form, and stands in the link."""
        opened(page, "?seed=1&count=2&key=without")
        page.get_by_label("Stub's end, on every sheet").select_option("open")
        page.wait_for_function("() => location.search.includes('every.end=open')")

        expect(page.get_by_role("img", name="ending in an open circuit")).to_have_count(2)

    def test_bad_link_says_so(self, page: Page):
        """A link with something that cannot be meant opens, and says what it was."""
        opened(page, "?seed=1&size=A5")

        expect(page.get_by_text("The paper is A4 or Letter, not “A5”.")).to_be_visible()
        expect(page.locator("figure")).to_have_count(4)

    @pytest.mark.screen(width=360, height=800)
    def test_narrow(self, page: Page):
        """On a narrow screen the form stands above the pages, and nothing has to be moved sideways."""
        opened(page)

        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        buttons = [box for one in page.locator("button:visible").all() if (box := one.bounding_box())]
        assert all(min(box["height"], box["width"]) >= 24 for box in buttons)

    def test_by_keyboard(self, page: Page):
        """From the first field to the print button by Tab alone; Enter prints."""
        opened(page)
        page.evaluate("() => { window.print = () => { window.printings = (window.printings ?? 0) + 1; }; }")
        page.get_by_label("A problem of the set").focus()
        for _ in range(12):
            page.keyboard.press("Tab")
            if page.get_by_role("button", name="Print").evaluate("button => button.matches(':focus')"):
                break
        page.keyboard.press("Enter")

        page.wait_for_function("() => window.printings === 1")


class TestPrint:
    @pytest.mark.parametrize("size", SIZES)
    def test_one_page_a_sheet_at_true_size(self, page: Page, size: str):
        """Printed to PDF, there is one page for each page, of the very size of the paper, and nothing else."""
        opened(page, f"?seed=1&count=2&size={size}")
        pdf = page.pdf(prefer_css_page_size=True)
        boxes = [tuple(map(float, box)) for box in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)]

        assert 8 == len(boxes) == len(re.findall(rb"/Type /Page\b", pdf))
        assert set(boxes) == {boxes[0]}
        assert boxes[0] == pytest.approx([side * POINTS for side in SIZES[size]], abs=0.5)

    def test_stays_a_drawing(self, page: Page):
        """What is printed are lines and letters, not a picture of them."""
        opened(page, "?seed=1&key=without")

        assert b"/Subtype /Image" not in page.pdf(prefer_css_page_size=True)

    def test_only_the_pages_are_printed(self, page: Page):
        """In print nothing but the pages is there, each as wide as the paper."""
        opened(page, "?seed=1")
        page.emulate_media(media="print")
        wide = page.locator("#paper-print img").evaluate_all(
            "all => all.map(one => one.getBoundingClientRect().width)"
        )

        assert [pytest.approx(210 / 25.4 * 96, abs=0.1)] * 4 == wide
        expect(page.get_by_role("heading", name="Worksheets to print")).to_be_hidden()
        expect(page.locator(".masthead")).to_be_hidden()

    def test_waits_for_every_page(self, page: Page):
        """The print button opens the browser's dialogue once, when every page can be painted."""
        opened(page, "?seed=1&count=6")
        page.evaluate("""() => { window.print = () => {
          const pictures = [...document.querySelectorAll("#paper-print img")];
          window.painted = pictures.map(one => one.complete && one.naturalWidth > 0);
        }; }""")
        assert page.evaluate("() => window.painted === undefined")
        page.get_by_role("button", name="Print").click()
        page.wait_for_function("() => window.painted")

        assert [True] * 24 == page.evaluate("window.painted")


class TestSave:
    def test_one_page(self, page: Page):
        """A page saved as SVG is, letter for letter, the page that was made."""
        opened(page, "?seed=9&size=Letter")
        download = saved(page, "SVG: Worksheet 9: Random problem 9, page 1 of 2")

        assert "worksheet-9-page-1.svg" == download.suggested_filename
        assert worksheet(random_problem(9), size="Letter", seed=9)[0] == content(download).decode()

    def test_all_pages_in_one_file(self, page: Page):
        """All pages are saved as one archive with a file for each, which any unpacker reads."""
        opened(page, "?seed=9&count=2")
        archive = zipfile.ZipFile(io.BytesIO(content(saved(page, "Save as SVG"))))

        assert archive.testzip() is None
        assert [
            f"{kind}-{seed}-page-{n}.svg" for kind in ("worksheet", "key") for seed in (9, 10) for n in (1, 2)
        ] == archive.namelist()
        assert answer_key(random_problem(10), seed=10)[1] == archive.read("key-10-page-2.svg").decode()

    def test_pixels(self, page: Page):
        """A page in pixels has 300 dots to the inch and says so, and it is no blank one."""
        opened(page, "?seed=9")
        png = content(saved(page, "PNG: Worksheet 9: Random problem 9, page 1 of 2"))
        width, height = struct.unpack(">II", png[16:24])
        per_metre = struct.unpack(">II", png[png.index(b"pHYs") + 4 :][:8])

        assert (2480, 3508) == (width, height)
        assert (11811, 11811) == per_metre
        assert len(png) > 200_000

    def test_all_in_pixels(self, page: Page):
        """Up to twenty pages are saved in pixels at once; for more there is a sentence that says what to do."""
        opened(page, "?seed=9")
        archive = zipfile.ZipFile(io.BytesIO(content(saved(page, "Save as PNG"))))
        assert 4 == len(archive.namelist())
        assert archive.testzip() is None

        opened(page, "?seed=9&count=6")
        page.get_by_role("button", name="Save as PNG", exact=True).click()
        expect(page.locator("p.status")).to_contain_text("at most 20 pages are saved as PNG at once, not 24")


class TestLetters:
    """In the typefaces that this machine has; the width that the layout counts on is an upper bound."""

    @pytest.mark.parametrize("size", SIZES)
    @pytest.mark.parametrize("notation", [Notation(), OVERLAY], ids=["half turn", "overlay"])
    def test_everything_is_inside_the_page(self, page: Page, size: str, notation: Notation):
        """Nothing drawn or written, as the browser sets it, comes nearer to the edge than the margin."""
        width, height = SIZES[size]
        for svg in self.pages(size, notation):
            for one in page.evaluate(MEASURE, svg):
                assert LEAST_MARGIN <= one["left"] <= one["right"] <= width - LEAST_MARGIN, one
                assert LEAST_MARGIN <= one["top"] <= one["bottom"] <= height - LEAST_MARGIN, one

    def test_words_are_no_wider_than_counted_on(self, page: Page):
        """No words are wider than the layout took them to be, so that they cannot run into what stands beside them."""
        for svg in self.pages("A4", OVERLAY):
            for one in page.evaluate(MEASURE, svg):
                if one["text"]:
                    assert one["length"] <= width_of(one["text"], one["size"], one["bold"]) + 0.01, one

    @staticmethod
    def pages(size: str, notation: Notation) -> list[str]:
        """A blank, a half and a solved sheet, and a student's own."""
        problem = shipped_problems()[-1]
        own = Sheet(LESSON, problem, notation).enter("normalise", "0.6 - j1").enter("unit_circle", "axis")
        return [
            *worksheet(problem, notation, size=size),
            *worksheet(problem, notation, size=size, drawn="half", seed=999_999),
            *answer_key(problem, notation, size=size, seed=999_999),
            *finished_sheet_svg(own, size=size),
        ]
