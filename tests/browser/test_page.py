"""The page around the views: palette by wish, arrangement by width, keyboard."""

import pytest
from playwright.sync_api import Page, expect

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


class TestKeyboard:
    def test_skip_link(self, page: Page):
        """The first press of Tab shows a link that leads past the chart to the sheet."""
        page.goto("/")
        link = page.get_by_role("link", name="Skip to the sheet")
        page.keyboard.press("Tab")

        expect(link).to_be_focused()
        expect(link).to_be_in_viewport(ratio=1)
        page.keyboard.press("Enter")
        expect(page.locator("#sheet")).to_be_focused()


class TestModules:
    def test_a_newer_version_is_taken(self, page: Page):
        """A page that stays open while the program is upgraded takes the new versions of its modules."""
        page.goto("/")
        ready(page)
        name = "halfturn/practise/sheet.js"
        newer = page.evaluate(
            """name => {
              importShim.addImportMap({imports: {[name]: importShim.resolve(name)}});
              importShim.addImportMap({imports: {[name]: "/static/practise/sheet.js?v=newer"}});
              return importShim.resolve(name);
            }""",
            name,
        )

        assert newer.endswith("/static/practise/sheet.js?v=newer")
