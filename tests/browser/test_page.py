"""The page around the views: palette by wish, arrangement by width, keyboard."""

import re
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from app.pages import pages
from app.serving.server import Running, serve
from tests.browser.waits import ready

PAPER = "getComputedStyle(document.documentElement).backgroundColor"
LIGHT, DARK = "rgb(251, 250, 246)", "rgb(22, 24, 29)"


class TestPalette:
    def test_light_by_default(self, page: Page):
        """The page is light where the system is."""
        page.goto("/")

        assert page.evaluate(PAPER) == LIGHT

    @pytest.mark.screen(colour_scheme="dark")
    def test_dark_by_system(self, page: Page):
        """The page is dark where the system is, unless the reader wants it light."""
        page.goto("/")

        assert page.evaluate(PAPER) == DARK
        page.evaluate("document.documentElement.dataset.theme = 'light'")
        assert page.evaluate(PAPER) == LIGHT

    def test_dark_by_wish(self, page: Page):
        """The reader can have it dark where the system is light."""
        page.goto("/")
        page.evaluate("document.documentElement.dataset.theme = 'dark'")

        assert page.evaluate(PAPER) == DARK

    @pytest.mark.screen(colour_scheme="dark")
    def test_print_is_light(self, page: Page):
        """On paper the page is light, whatever the screen is."""
        page.goto("/")
        page.evaluate("document.documentElement.dataset.theme = 'dark'")
        page.emulate_media(media="print")

        assert page.evaluate(PAPER) == LIGHT

    def test_button(self, page: Page):
        """In a fresh browser the button makes the page dark, and light again; the wish outlives a reload."""
        page.goto("/")
        ready(page)
        page.get_by_role("button", name="Dark page").click()

        assert page.evaluate(PAPER) == DARK
        page.reload()
        ready(page)
        assert page.evaluate(PAPER) == DARK
        page.get_by_role("button", name="Light page").click()
        assert page.evaluate(PAPER) == LIGHT


class TestArrangement:
    @pytest.mark.parametrize(
        "width",
        [pytest.param(w, marks=pytest.mark.screen(width=w, height=800)) for w in (360, 390, 820, 1024, 1440)],
    )
    def test_nothing_wider_than_the_screen(self, page: Page, width: int):
        """At no width does the page have to be moved sideways."""
        page.goto("/")
        expect(page.get_by_role("heading", level=1)).to_be_visible()

        assert page.evaluate("document.documentElement.scrollWidth") <= width


LINK = "/?load=60-80j&line=50&frequency=868%20MHz&velocity=0.66"


class TestLaptop:
    @pytest.mark.parametrize(
        ("width", "height"),
        [
            pytest.param(w, h, marks=pytest.mark.screen(width=w, height=h))
            for w, h in ((1366, 650), (1440, 900), (1536, 780), (1920, 1080))
        ],
    )
    def test_all_in_sight(self, page: Page, width: int, height: int):
        """On an ordinary laptop the full chart, both drawings and the entry are in sight at once, nothing scrolled."""
        page.goto(LINK)
        ready(page)
        chart = page.get_by_role("application", name="Reflection chart")

        expect(chart.locator(".printed-chart")).to_have_attribute("data-layout", re.compile("middle|regular"))
        for place in (chart, page.locator("#drawing svg"), page.locator('input[data-field="normalise"]')):
            expect(place).to_be_in_viewport(ratio=1)
        box, svg = chart.bounding_box(), page.locator("#drawing svg").bounding_box()
        assert box is not None
        assert svg is not None
        assert svg["x"] >= box["x"] + box["width"]
        assert 0 == page.locator(".page > .board").evaluate("board => board.scrollTop")


class TestPhone:
    @pytest.mark.parametrize(
        ("width", "height"),
        [
            pytest.param(w, h, marks=pytest.mark.screen(width=w, height=h, has_touch=True, is_mobile=True))
            for w, h in ((390, 844), (768, 1024))
        ],
    )
    def test_chart_and_entry_together(self, page: Page, width: int, height: int):
        """Who draws with a finger has the chart, the entry and its Check in sight, and no keyboard comes up unasked."""
        page.goto(LINK)
        ready(page)
        page.locator('input[data-field="normalise"]').fill("1.2-1.6j")
        page.get_by_role("button", name="Check Normalised").tap()
        page.get_by_role("button", name="draw it on the chart").tap()
        chart = page.get_by_role("application", name="Reflection chart")
        box = chart.bounding_box()
        assert box is not None
        page.touchscreen.tap(box["x"] + 0.6 * box["width"], box["y"] + 0.7 * box["height"])

        entry = page.locator('input[data-field="place"]')
        expect(entry).not_to_have_value("")
        for place in (chart, entry, page.locator('button[data-focus="check place"]')):
            expect(place).to_be_in_viewport(ratio=1)
        expect(entry).not_to_be_focused()

    @pytest.mark.screen(width=390, height=844, has_touch=True, is_mobile=True)
    def test_chart_and_verdict_together(self, page: Page):
        """What is said of a wrong answer stands in sight on a phone, with the chart that it is about, and the entry."""
        page.goto(LINK)
        ready(page)
        page.locator('input[data-field="normalise"]').fill("60-80j")
        page.get_by_role("button", name="Check Normalised").tap()
        verdict = page.locator("#verdict-normalise")

        expect(verdict).to_contain_text("in ohms")
        for place in (verdict, page.locator('input[data-field="normalise"]')):
            expect(place).to_be_in_viewport(ratio=1)
        expect(page.get_by_role("application", name="Reflection chart")).to_be_in_viewport(ratio=0.95)

    @pytest.mark.screen(width=390, height=844, has_touch=True, is_mobile=True)
    def test_typing_takes_the_chart_along(self, page: Page):
        """Who types has the page to themselves: the chart no longer stays at the top."""
        page.goto(LINK)
        ready(page)
        page.locator('input[data-field="normalise"]').fill("1.2-1.6j")
        page.get_by_role("button", name="Check Normalised").tap()
        page.get_by_role("button", name="draw it on the chart").tap()
        expect(page.locator("html")).to_have_attribute("data-hand", "drawing")
        page.locator('input[data-field="place"]').tap()

        expect(page.locator("html")).not_to_have_attribute("data-hand", "drawing")


class TestPrint:
    def test_a_sheet_and_no_screen(self, page: Page):
        """Printed by the browser the page is a sheet: chart, steps and drawings, and nothing to press."""
        page.goto("/")
        ready(page)
        page.emulate_media(media="print")
        chart = page.get_by_role("application", name="Reflection chart").bounding_box()
        assert chart is not None

        assert pytest.approx(160 * 96 / 25.4, abs=1) == chart["width"]
        assert (
            0 == page.locator("button:not(.term):visible").count()
        )  # an explained word is a word of the text
        for place in (page.locator("#sheet h2"), page.locator("#drawing svg"), page.locator(".given")):
            expect(place).to_be_visible()
        assert "page" == page.locator("#sheet").evaluate("sheet => getComputedStyle(sheet).breakBefore")


class TestKeyboard:
    def test_skip_link(self, page: Page):
        """The first press of Tab shows a link that leads past the chart to the sheet; practice begins past it."""
        page.goto("/check")
        ready(page)
        link = page.get_by_role("link", name="Skip to the sheet")
        page.keyboard.press("Tab")

        expect(link).to_be_focused()
        expect(link).to_be_in_viewport(ratio=1)
        page.keyboard.press("Enter")
        expect(page.locator("#sheet")).to_be_focused()


class TestFirstWords:
    def test_read_before_any_script(self, browser: Browser, site: Running):
        """Where no script runs, the problem, what is asked first and the whole printed chart can be read."""
        context = browser.new_context(base_url=site.url, java_script_enabled=False)
        page = context.new_page()
        page.goto("/?load=25-10j&line=50")

        expect(page.get_by_text("Match 25 − j10 Ω to a line of 50 Ω")).to_be_visible()
        expect(page.locator("#first-words p").last).to_contain_text("by the line impedance")
        expect(page.locator("#printed svg .numbers text").first).to_be_visible()
        context.close()

    def test_the_sheet_takes_their_place(self, page: Page):
        """Once the sheet has been drawn, its problem stands on the page once."""
        page.goto("/?load=25-10j&line=50")
        ready(page)

        assert 0 == page.locator("#first-words").count()
        assert 1 == page.get_by_text("Match 25 − j10 Ω to a line of 50 Ω").count()

    def test_not_of_another_sheet(self, page: Page):
        """Whoever has a sheet to go on with is not shown another problem's words first."""
        page.goto("/?load=25-10j&line=50")
        ready(page)
        page.route("**/bokeh.min.js*", lambda route: None)  # on its way, for ever
        page.goto("/", wait_until="commit")
        page.locator("#opening").wait_for(state="attached")

        expect(page.locator("#first-words")).to_be_hidden()
        page.goto("/?load=60-80j&line=50", wait_until="commit")
        page.locator("#opening").wait_for(state="attached")
        expect(page.locator("#first-words")).to_be_visible()

    def test_light_and_dark_at_once(self, page: Page):
        """The page can be made dark while its libraries are still on their way."""
        page.route("**/bokeh.min.js*", lambda route: None)
        page.goto("/", wait_until="commit")
        page.get_by_role("button", name="Dark page").click()

        expect(page.locator("html")).to_have_attribute("data-theme", "dark")
        expect(page.get_by_role("button", name="Light page")).to_be_visible()


class TestModules:
    def test_nothing_is_asked_for_one_by_one(self, page: Page):
        """A page fetches its modules as one, once; no module by itself, and no style sheet after it has been drawn."""
        asked: list[str] = []
        page.on("request", lambda request: asked.append(urlsplit(request.url).path))
        page.goto("/")
        ready(page)
        ours = [path for path in asked if re.match(r"/(?!static/(extensions|js)/)", path)]

        assert [
            "/",
            "/static/halfturn.js",
            "/static/parts/connection.js",
            "/static/parts/forced_colours.css",
            "/static/parts/notes.css",
            "/static/parts/page.css",
        ] == sorted(ours)
        assert ["/static/extensions/panel/panel.min.js"] == [path for path in asked if "/extensions/" in path]

    def test_second_visit(self, page: Page):
        """Whoever comes again is sent the page alone: no file whose address names its content is asked for."""
        page.goto("/")
        ready(page)
        page.goto("/check")
        ready(page)
        sent = page.evaluate(
            "performance.getEntriesByType('resource').filter(one => one.transferSize).map(one => one.name)"
        )

        assert [] == sent

    def test_a_newer_version_is_taken(self, browser: Browser, monkeypatch: pytest.MonkeyPatch):
        """A page that stays open while the program is upgraded takes the new versions of its modules."""
        before = serve(pages(), port=0, threaded=True)
        assert before is not None
        context = browser.new_context(base_url=before.url)
        page = context.new_page()
        page.goto("/")
        ready(page)
        before.stop()
        monkeypatch.setattr("app.parts.modules._digest", lambda: "newer")
        with page.expect_request("**/halfturn.js?v=newer"):
            after = serve(pages(), port=urlsplit(before.url).port or 0, threaded=True)
            page.evaluate(
                "document.dispatchEvent(new CustomEvent('halfturn:silent'))"
            )  # a stopped loop closes nothing
        assert after is not None
        context.close()
        after.stop()
