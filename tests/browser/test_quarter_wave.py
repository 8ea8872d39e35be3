"""The quarter wave, played from start to finish on all four pages."""

import re

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {
    "lesson": "quarter-wave", "load": "25-35j", "line": "50", "frequency": "868 MHz", "velocity": "0.66"
}  # fmt: skip


class TestPractise:
    def test_whole_problem(self, page: Page):
        """Every step typed with the solver's values is right; the sheet ends matched at both places."""
        closing = practised(page, LINK).page.locator(".closing")

        expect(closing).to_contain_text("1.01 (maximum) and 1.01 (minimum)")
        expect(closing).to_contain_text("Here the one at the minimum has the wider band")

    def test_a_slip_its_hints_and_the_answer(self, page: Page):
        """The arithmetic mean is named; four hints lead to the impedance, and with it the section is drawn."""
        desk = Desk(page, LINK)
        desk.solve_until("distance.minimum")
        desk.answer("section.maximum", "104.1")
        expect(desk.verdict("section.maximum")).to_contain_text("taking the arithmetic mean")
        step = desk.step("section")
        for rung in range(4):
            step.get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

        expect(step).to_have_class(re.compile("done"))
        expect(page.locator("#drawing")).to_contain_text("88.938 Ω")


def test_lecture(page: Page):
    """The lecture leads through every step to what is achieved, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text("1.00 (maximum) and 1.00 (minimum)")


def test_self_check(page: Page):
    """A whole working is read line for line, all right, and both designs match."""
    checked(page, LINK)

    expect(page.locator(".design")).to_have_count(2)
    expect(page.locator(".design").first).to_contain_text("The design at the maximum")
    expect(page.locator(".design").first).to_contain_text("✓ Matched")


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
