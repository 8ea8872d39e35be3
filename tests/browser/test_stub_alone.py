"""A stub alone, played from start to finish on all four pages: to its reactance, and back to its length."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

FORWARD = {"lesson": "stub-alone", "line": "50", "along": "0.36", "end": "short"}
BACK = {
    "lesson": "stub-alone", "wanted": "-60", "line": "75", "end": "open", "frequency": "868 MHz", "velocity": "0.66"
}  # fmt: skip
ENDS = {
    "forward": "The stub shows a reactance of −60.44",
    "back": "A stub of 0.143 λ shows a reactance of −60 Ω",
}
both_ways = pytest.mark.parametrize(
    ("link", "ending"), [*zip((FORWARD, BACK), ENDS.values(), strict=True)], ids=ENDS
)


class TestPractise:
    @both_ways
    def test_whole_problem(self, page: Page, link: dict[str, str], ending: str):
        """Every step typed with the solver's values is right, and the sheet ends with what was found."""
        expect(practised(page, link).page.locator(".closing")).to_contain_text(ending)

    def test_a_slip_its_hints_and_the_answer(self, page: Page):
        """A walk the wrong way is named; four hints lead to the reading, and the walk is drawn."""
        desk = Desk(page, FORWARD)
        desk.solve_until("start")
        desk.answer("reached", "0.14")
        expect(desk.verdict("reached")).to_contain_text("This may be walking toward the load")
        for rung in range(4):
            desk.step("reached").get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

        expect(desk.step("reached")).to_have_class(re.compile("done"))


@both_ways
def test_lecture(page: Page, link: dict[str, str], ending: str):
    """The lecture leads through every step to what was found, and reveals it."""
    expect(shown(page, link).words).to_contain_text(ending)


@both_ways
def test_self_check(page: Page, link: dict[str, str], ending: str):
    """A whole working is read line for line, and all of it is right."""
    checked(page, link)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, "stub-alone")
