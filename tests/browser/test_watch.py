"""The watch on the page: each kind of trouble is seen, so that a quiet page is worth something."""

import pytest
from playwright.sync_api import ConsoleMessage, Page, expect


def is_error(said: ConsoleMessage) -> bool:
    """Whether the browser complains, as against the notes that libraries write."""
    return said.type == "error"


class TestWatch:
    def test_console_error(self, page: Page, troubles: list[str]):
        """An error written to the console is a trouble."""
        page.goto("/")
        page.evaluate("console.error('a line of its own')")

        assert ["console: a line of its own"] == troubles
        troubles.clear()

    def test_uncaught_exception(self, page: Page, troubles: list[str]):
        """An exception that nobody catches is a trouble."""
        page.goto("/")
        with page.expect_event("pageerror"):
            page.evaluate("setTimeout(() => { throw new Error('dropped') })")

        assert ["page error: dropped"] == troubles
        troubles.clear()

    def test_request_to_another_host(self, page: Page, troubles: list[str]):
        """A request to another host is a trouble, and the page's own policy stops it before it leaves."""
        page.goto("/")
        with page.expect_console_message(is_error):
            page.evaluate("new Image().src = 'http://elsewhere.invalid/a.png'")

        assert any("Content Security Policy" in trouble for trouble in troubles)
        troubles.clear()

    def test_missing_file(self, page: Page, troubles: list[str]):
        """A file of ours that is not there is a trouble."""
        page.goto("/")
        with page.expect_console_message(is_error):
            page.evaluate("new Image().src = '/static/no-such.svg'")

        assert any("404" in trouble for trouble in troubles)
        troubles.clear()


class TestScreen:
    def test_desk_by_default(self, page: Page):
        """Without a mark the page is that of a light screen on a desk, with motion."""
        page.goto("/")

        assert [1440, 900, False, False] == page.evaluate(SCREEN)

    @pytest.mark.screen(width=390, height=844, colour_scheme="dark", reduced_motion="reduce")
    def test_marked(self, page: Page):
        """The mark gives the page the size and the wishes it names."""
        page.goto("/")

        assert [390, 844, True, True] == page.evaluate(SCREEN)


SCREEN = """[innerWidth, innerHeight, matchMedia('(prefers-color-scheme: dark)').matches,
             matchMedia('(prefers-reduced-motion: reduce)').matches]"""


class TestFrontPage:
    def test_opens(self, page: Page):
        """The first page has its title as tab title and as its one main heading."""
        page.goto("/")

        expect(page).to_have_title("Halfturn")
        expect(page.get_by_role("heading", level=1)).to_have_count(1)

    def test_wrong_address(self, page: Page, troubles: list[str]):
        """From the page for a wrong address a link leads to the first page."""
        page.goto("/nowhere")
        troubles.clear()  # the browser reports the 404 itself
        page.get_by_role("link", name="Go to the first page").click()

        expect(page).to_have_title("Halfturn")
