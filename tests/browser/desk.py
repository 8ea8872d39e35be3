"""What a student does at the practise page, for tests to read like a student's work."""

from __future__ import annotations

from playwright.sync_api import Locator, Page

from lessons.working.sheet import Sheet
from tests.browser.waits import ready
from tests.lessons.solving import read_link

LINK = {"load": "60-80j", "line": "50", "frequency": "868 MHz", "velocity": "0.66"}


def solved(texts: dict[str, str]) -> dict[str, str]:
    """The solver's answer to every field of the linked problem, in writing, field by field in order."""
    linked = read_link(texts)
    assert linked.problem is not None
    sheet = Sheet(linked.lesson, linked.problem)
    answers = {}
    for step in sheet.steps:
        for field in step.fields:
            options = getattr(field.kind(sheet.truth), "options", None)
            answers[field.key] = sheet.truth[field.key] if options else sheet.truth.write(field.key)
    return answers


class Desk:
    """The practise page with a problem from a link."""

    def __init__(self, page: Page, texts: dict[str, str] | None = None) -> None:
        self.page = page
        self.texts = LINK if texts is None else texts
        self.open()

    def open(self) -> None:
        """Open the page, or open it again."""
        self.page.goto(
            "/?" + "&".join(f"{key}={value.replace(' ', '%20')}" for key, value in self.texts.items())
        )
        ready(self.page)

    def entry(self, key: str) -> Locator:
        """The box, or the first of the buttons, of a field."""
        return self.page.locator(f'input[data-field="{key}"]')

    def answer(self, key: str, text: str) -> None:
        """Type an answer, or choose it, and have it checked."""
        entry = self.entry(key)
        if entry.first.get_attribute("type") == "radio":
            self.page.locator(f'input[data-field="{key}"][value="{text}"]').check()
        else:
            entry.fill(text)
        self.page.locator(f'button[data-focus="check {key}"]').click()

    def solve_until(self, last: str) -> None:
        """Give the solver's answers, in order, up to and including that of a field."""
        for key, text in solved(self.texts).items():
            self.answer(key, text)
            if key == last:
                return

    def verdict(self, key: str) -> Locator:
        """What is said of a field."""
        return self.page.locator(f'[id="verdict-{key}"]')

    def step(self, key: str) -> Locator:
        """A step on the sheet."""
        return self.page.locator(f'[data-step="{key}"]')
