"""Two reactances, played from start to finish on all four pages: two solutions, and four."""

import re
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown
from tests.browser.waits import ready

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

    def test_parts_of_the_solution_chosen(self, page: Page):
        """Values, what is bought and what it costs are those of the solution chosen; the end says which is which."""
        desk = Desk(page, FOUR)
        desk.solve_until("series_far.series_low")
        desk.answer("choose.which", "series_low")
        desk.answer("choose.why", "any would do")
        desk.answer("value.near", "3.667 nH")
        desk.answer("value.far", "18.34 nH")
        desk.answer("preferred.near", "3.6 nH")
        expect(desk.verdict("preferred.near")).to_contain_text("looking in E24")
        desk.answer("preferred.near", "3.9 nH")
        desk.answer("preferred.far", "18 nH")
        desk.answer("cost", "1")
        expect(desk.verdict("cost")).to_contain_text("the match of the exact values")
        desk.answer("cost", "1.032")

        closing = page.locator(".closing")
        expect(closing).to_contain_text("Built with the exact values on this sheet")
        expect(closing).to_contain_text("Bought as 3.9 nH and 18 nH, the parts of the series-low one leave")
        expect(closing).to_contain_text("of power and band is that of the exact values")


def test_lecture(page: Page):
    """The lecture leads through every step to what is achieved, and reveals it."""
    expect(shown(page, FOUR).words).to_contain_text(ENDS["four"])


@either
def test_self_check(page: Page, link: dict[str, str], ending: str):
    """A whole working is read line for line, all right, and every design matches."""
    checked(page, link)

    expect(page.locator(".design")).to_have_count(4 if "series" in ending else 2)


def test_self_check_of_henries_alone(page: Page):
    """Coils alone are read as those of the solution that they fit, and make its design; so is what is bought."""
    page.goto(f"/check?{urlencode(FOUR)}")
    ready(page)
    lines = "L1 = 3.667 nH\nL2 = 18.34 nH\nL1 = 3.9 nH\nL2 = 18 nH\nSWR = 1.03"
    page.locator("#working-text").fill(lines)
    page.get_by_role("button", name="Mark my working").click()

    expect(page.locator(".summary")).to_have_text("5 of 5 lines right.")
    expect(page.locator(".design")).to_contain_text("Matched Built with these parts as calculated")
    expect(page.locator("body")).to_contain_text("as of the series-low solution")


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, "two-reactances")
