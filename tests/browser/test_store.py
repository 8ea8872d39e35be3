"""What the browser keeps, when its store is full, closed, damaged or made by hand; and verdicts on what was edited."""

import json

import pytest
from playwright.sync_api import Page, expect

from tests.browser.waits import ready

LINK = "/?load=60-80j&line=50"
FULL = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
CLOSED = """for (const name of ['localStorage', 'sessionStorage']) Object.defineProperty(globalThis, name, {
  get() { throw new DOMException('closed', 'SecurityError'); },
});"""
ABSENT = """for (const name of ['localStorage', 'sessionStorage'])
  Object.defineProperty(globalThis, name, { value: undefined });"""
KEYS = {"/": "halfturn.v1", "/check": "halfturn.check.v1"}
LONG = "y" * 2_000_000
DEEP = "[" * 3000 + "]" * 3000
DAMAGED = {
    "no sheet in a sheet": '{"sheets":{"K":{}},"last":"K"}',
    "numbers for entries": '{"sheets":{"K":{"record":{"sheet":{"entries":5}},"drafts":{"a":7}}},"last":"K"}',
    "deep": f'{{"sheets":{{"K":{{"record":{{"sheet":{DEEP}}},"drafts":{{}}}}}},"last":"K"}}',
    "two megabytes": f'{{"sheets":{{"K":{{"record":{{"x":"{LONG}"}},"drafts":{{}}}}}},"last":"K"}}',
    "cut off": '{"sheets":{"K":{"record":',
    "no store": "7",
    "an object where a sheet is": '{"sheets":{"K":{"record":{"sheet":{"version":2}},"drafts":{}}},"last":"K"}',
    "a number beyond all": '{"sheets":{"K":{"record":{"a":1e+300},"drafts":{}}},"last":"K"}',
}


def answer(page: Page, key: str, text: str) -> None:
    """Type an answer and have it checked."""
    page.locator(f'input[data-field="{key}"]').fill(text)
    page.locator(f'button[data-focus="check {key}"]').click()


class TestNoStore:
    @pytest.mark.parametrize("trouble", [FULL, CLOSED, ABSENT], ids=["full", "closed", "absent"])
    def test_said_once(self, page: Page, trouble: str):
        """A store that takes nothing is said once, with a file at hand; the page works on."""
        page.add_init_script(trouble)
        page.goto(LINK)
        ready(page)
        answer(page, "normalise", "1.2-1.6j")
        expect(page.locator('[data-step="normalise"].done')).to_be_visible()

        expect(page.locator("#notes p")).to_have_count(1)
        with page.expect_download() as saved:
            page.locator("#notes").get_by_role("button", name="Save to a file").click()
        assert "1.2-1.6j" == json.loads(saved.value.path().read_text())["entries"]["normalise"]["text"]

    def test_lines(self, page: Page):
        """The lines of a self-check that cannot be kept are saved as a text."""
        page.add_init_script(FULL)
        page.goto("/check?load=60-80j&line=50")
        ready(page)
        page.locator("#working-text").fill("z = 1.2-1.6j")
        with page.expect_download() as saved:
            page.locator("#notes").get_by_role("button", name="Save to a file").click()

        assert "z = 1.2-1.6j" == saved.value.path().read_text()

    @pytest.mark.parametrize("trouble", [FULL, CLOSED, ABSENT], ids=["full", "closed", "absent"])
    def test_lecture(self, page: Page, trouble: str):
        """A lecture that cannot be kept says so once, and that its address brings the problem back; it goes on."""
        page.add_init_script(trouble)
        page.goto("/lecture?load=60-80j&line=50")
        ready(page)
        for _ in range(3):
            page.keyboard.press("PageDown")

        expect(page.locator("#notes p")).to_have_count(1)
        expect(page.locator("#notes p")).to_contain_text("address")
        page.locator("#notes").get_by_role("button", name="Close").click()
        page.keyboard.press("PageDown")
        expect(page.locator("#notes p")).to_have_count(0)

    @pytest.mark.parametrize("trouble", [FULL, CLOSED, ABSENT], ids=["full", "closed", "absent"])
    def test_presenter(self, page: Page, trouble: str):
        """The presenter's page, whose clock cannot be kept, says that too."""
        page.add_init_script(trouble)
        page.goto("/lecture/notes")
        ready(page)
        page.get_by_role("button", name="Start the time again").click()

        expect(page.locator("#notes p")).to_have_count(1)

    @pytest.mark.parametrize("path", ["/", "/paper"])
    def test_light(self, page: Page, path: str):
        """A wish for a dark page that cannot be kept is carried out, and that it is only for this visit is said."""
        page.goto(path)
        ready(page)
        page.evaluate(f"(() => {{ {FULL} }})()")
        page.get_by_role("button", name="Dark page").click()

        expect(page.locator("html")).to_have_attribute("data-theme", "dark")
        expect(page.locator("#notes p")).to_have_count(1)


class TestDamage:
    @pytest.mark.parametrize("path", KEYS)
    @pytest.mark.parametrize("text", DAMAGED.values(), ids=DAMAGED)
    def test_kept_aside(self, page: Page, path: str, text: str):
        """A damaged store opens a page that can be used, is said, and is kept aside as it is."""
        page.add_init_script(f"localStorage.setItem({KEYS[path]!r}, {json.dumps(text)})")
        page.goto(path)
        ready(page)
        expect(page.locator("#notes")).to_contain_text("could not be read")

        aside = page.evaluate("name => localStorage.getItem(`${name}.unread`)", KEYS[path])
        assert aside == text or aside[1:-1] in text
        with page.expect_download() as saved:
            page.locator("#notes").get_by_role("button", name="Save it to a file").click()
        assert aside == saved.value.path().read_text()
        if path == "/":
            page.get_by_role("button", name="Random problem").click()
            expect(page.locator(".work h2")).not_to_have_text("")

    def test_the_year_9999(self, page: Page):
        """A day of mastery at the end of the calendar asks for no review, and the sheet can be finished."""
        page.goto(LINK)
        ready(page)
        answer(page, "normalise", "1.2-1.6j")
        expect(page.locator('[data-step="normalise"].done')).to_be_visible()
        page.evaluate(
            """() => {
              const store = JSON.parse(localStorage.getItem("halfturn.v1"));
              const { record } = store.sheets[store.last];
              const done = { worked: 1, own: 99, run: 3, mastered: "9999-12-31", reviews: 0 };
              record.progress = { [record.sheet.lesson]: done };
              onpagehide = () => localStorage.setItem("halfturn.v1", JSON.stringify(store));
            }"""
        )
        page.reload()
        ready(page)

        answer(page, "place", "0.593 < -46.8")
        expect(page.locator('[data-step="place"].done')).to_be_visible()


class TestUnchecked:
    """What was typed and not yet checked, where the program is opened by its plain address."""

    def test_practise(self, page: Page):
        """On the sheet worked on last it stands in its box."""
        page.goto(LINK)
        ready(page)
        answer(page, "normalise", "1.2-1.6j")
        expect(page.locator('[data-step="normalise"].done')).to_be_visible()
        page.locator('input[data-field="place"]').fill("0.5")
        page.goto("/")
        ready(page)

        expect(page.locator('[data-step="normalise"].done')).to_be_visible()
        expect(page.locator('input[data-field="place"]')).to_have_value("0.5")

    def test_check(self, page: Page):
        """On the working of last time a single value stands in its entry."""
        page.goto("/check?load=60-80j&line=50")
        ready(page)
        page.get_by_label("One entry a step").check()
        page.locator('input[data-field="normalise"]').fill("7")
        page.goto("/check")
        ready(page)

        expect(page.locator(".given")).to_contain_text("60 − j80")
        expect(page.locator('input[data-field="normalise"]')).to_have_value("7")


class TestEdited:
    def test_verdict_goes(self, page: Page):
        """A verdict is taken away at the first keystroke after it, and the mark of a wrong entry with it."""
        page.goto(LINK)
        ready(page)
        answer(page, "normalise", "7")
        expect(page.locator("#verdict-normalise")).not_to_be_empty()
        page.locator('input[data-field="normalise"]').fill("1.2-1.6j")

        expect(page.locator("#verdict-normalise")).to_be_empty()
        expect(page.locator('input[data-field="normalise"]')).not_to_have_attribute("aria-invalid", "true")
        page.locator('button[data-focus="hint normalise"]').click()
        expect(page.locator(".hints li")).to_have_count(1)
        expect(page.locator("#verdict-normalise")).to_be_empty()

    def test_marks_of_lines_go(self, page: Page):
        """Marks of lines that were edited since are put away until they are marked again."""
        page.goto("/check?load=60-80j&line=50")
        ready(page)
        page.locator("#working-text").fill("z = 7")
        page.get_by_role("button", name="Mark my working").click()
        expect(page.locator(".marked .verdict").first).to_be_visible()
        page.locator("#working-text").fill("z = 1.2-1.6j")

        expect(page.locator(".marked .verdict").first).to_be_hidden()
        expect(page.locator(".marked .stale")).to_be_visible()

    def test_mark_of_an_entry_goes(self, page: Page):
        """In the self-check, too, a verdict under an entry goes with the entry's first change."""
        page.goto("/check?load=60-80j&line=50")
        ready(page)
        page.get_by_label("One entry a step").check()
        page.locator('input[data-field="normalise"]').fill("7")
        page.get_by_role("button", name="Mark my working").click()
        expect(page.locator('[data-step="normalise"] .verdict')).to_be_visible()
        page.locator('input[data-field="normalise"]').fill("1.2-1.6j")

        expect(page.locator('[data-step="normalise"] .verdict')).to_have_count(0)


def test_the_chart_comes_back_too(page: Page):
    """After a reload the chart holds what the sheet holds, however soon the sheet was asked for."""
    page.goto(LINK)
    ready(page)
    answer(page, "normalise", "1.2-1.6j")
    answer(page, "place", "0.593 < -46.8")
    drawn = page.locator('ul[aria-label="What is drawn on the chart"] li')
    expect(page.locator('[data-step="place"].done')).to_be_visible()
    expect(drawn.first).to_contain_text("0.593")
    before = drawn.all_inner_texts()
    page.reload()
    ready(page)

    expect(drawn).to_have_text(before)
