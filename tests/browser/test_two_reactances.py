"""Two reactances, played from start to finish on all four pages: two solutions, and four."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

TWO = {"lesson": "two-reactances", "load": "140-70j", "line": "75", "frequency": "434 MHz"}
FOUR = {"lesson": "two-reactances", "load": "25-35j", "line": "50", "frequency": "434 MHz"}
ENDS = {"two": "1.00 (shunt-high) and 1.00 (shunt-low)", "four": "1.00 (series-high) and 1.00 (series-low)"}
either = pytest.mark.parametrize(
    ("link", "ending"), [*zip((TWO, FOUR), ENDS.values(), strict=True)], ids=ENDS
)


class TestPractise:
    @either
    def test_whole_problem(self, page: Page, link: dict[str, str], ending: str):
        """Every step typed with the solver's values is right; the sheet ends matched in every solution there is."""
        expect(practised(page, link).page.locator(".closing")).to_contain_text(ending)

    def test_a_slip_its_hints_and_the_answer(self, page: Page):
        """All of b taken for the difference is named; four hints lead to the part, and it is drawn as ohms."""
        desk = Desk(page, TWO)
        desk.solve_until("shunt_meet.shunt_low")
        desk.answer("shunt_near.shunt_high", "0.495")
        expect(desk.verdict("shunt_near.shunt_high")).to_contain_text("giving all of b there")
        step = desk.step("shunt_near")
        for rung in range(4):
            step.get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

        expect(step).to_have_class(re.compile("done"))
        expect(page.locator("#drawing")).to_contain_text("Ω")


def test_lecture(page: Page):
    """The lecture leads through every step to what is achieved, and reveals it."""
    expect(shown(page, FOUR).words).to_contain_text(ENDS["four"])


@either
def test_self_check(page: Page, link: dict[str, str], ending: str):
    """A whole working is read line for line, all right, and every design matches."""
    checked(page, link)

    expect(page.locator(".design")).to_have_count(4 if "series" in ending else 2)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, "two-reactances")
