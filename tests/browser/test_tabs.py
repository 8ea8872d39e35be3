"""Two tabs on the same sheet: the newer one is never written over, and the other follows."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.waits import ready

LINK = "/?load=60-80j&line=50"
WORDS = {
    "/?load=60-80j&line=50": 'input[data-field="normalise"]',
    "/check?load=60-80j&line=50": "#working-text",
}
STORED = """() => {
  const { sheets, last } = JSON.parse(localStorage.getItem("halfturn.v1"));
  return sheets[last].record.sheet.entries;
}"""
DEAFEN = "addEventListener('storage', (event) => event.stopImmediatePropagation(), true)"


def tab(page: Page, path: str, *, asleep: bool = False) -> Page:
    """Another tab of the same browser; one that is asleep hears nothing of what others keep."""
    other = page.context.new_page()
    if asleep:
        other.add_init_script(DEAFEN)
    other.goto(path)
    ready(other)
    return other


def answer(page: Page, key: str, text: str) -> None:
    """Type an answer and have it checked."""
    page.locator(f'input[data-field="{key}"]').fill(text)
    page.locator(f'button[data-focus="check {key}"]').click()


class TestSameSheet:
    def test_a_stale_tab_writes_over_nothing(self, page: Page):
        """One keystroke in a tab that slept leaves the steps done in the other, and is itself kept on top of them."""
        stale = tab(page, LINK, asleep=True)
        fresh = tab(page, LINK)
        answer(fresh, "normalise", "1.2-1.6j")
        expect(fresh.locator('[data-step="normalise"].done')).to_be_visible()
        stale.locator('input[data-field="normalise"]').press_sequentially("9")

        expect(stale.locator('[data-step="normalise"].done')).to_be_attached()
        assert "normalise" in stale.evaluate(STORED)
        expect(stale.locator("#notes")).to_contain_text("another tab")

    def test_a_press_in_a_stale_tab(self, page: Page):
        """A press in a tab that slept is carried out on the sheet as the other tab left it."""
        stale = tab(page, LINK, asleep=True)
        fresh = tab(page, LINK)
        answer(fresh, "normalise", "1.2-1.6j")
        expect(fresh.locator('[data-step="normalise"].done')).to_be_visible()
        answer(fresh, "place", "0.593 < -46.8")
        expect(fresh.locator('[data-step="place"].done')).to_be_visible()
        stale.locator('button[data-focus="hint normalise"]').dispatch_event("click")

        expect(stale.locator('[data-step="place"].done')).to_be_attached()
        assert {"normalise", "place"} <= stale.evaluate(STORED).keys()

    @pytest.mark.parametrize("path", WORDS)
    def test_the_other_follows(self, page: Page, path: str):
        """What is typed in one tab stands in the other, which says so."""
        first, second = tab(page, path), tab(page, path)
        first.locator(WORDS[path]).fill("1.2-1.6j")

        expect(second.locator(WORDS[path])).to_have_value("1.2-1.6j")
        expect(second.locator("#notes")).to_contain_text("another tab")

    def test_they_come_to_rest(self, page: Page):
        """Two tabs that follow each other come to rest: what is kept is not written again and again."""
        first, second = tab(page, LINK), tab(page, LINK)
        answer(first, "normalise", "1.2-1.6j")
        expect(second.locator('[data-step="normalise"].done')).to_be_visible()
        second.wait_for_timeout(500)
        before = second.evaluate("localStorage.getItem('halfturn.v1')")
        second.wait_for_timeout(1000)

        assert before == second.evaluate("localStorage.getItem('halfturn.v1')")


class TestLectures:
    def test_each_keeps_its_own(self, page: Page):
        """Two lectures in two tabs stay apart: a reload finds the tab's own problem and frame."""
        first, second = tab(page, "/lecture?load=60-80j&line=50"), tab(page, "/lecture?load=25&line=50")
        first.keyboard.press("ArrowRight")
        frame = first.locator("article").get_attribute("data-frame")
        second.keyboard.press("End")
        first.reload()
        ready(first)

        expect(first.locator(f'article[data-frame="{frame}"]')).to_be_visible()
        expect(first.locator(".brief")).to_contain_text("60")
