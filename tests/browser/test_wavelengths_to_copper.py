"""From wavelengths to copper, played from start to finish on all four pages."""

import re

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk, solved
from tests.browser.played import checked, practised, printed, shown

LINK = {
    "lesson": "wavelengths-to-copper", "load": "120-75j", "line": "50", "frequency": "2.4 GHz", "end": "open",
    "height": "1.6", "permittivity": "4.4", "cutter": "half",
}  # fmt: skip
END = "line and stub cut to 9.5 mm and 23.5 mm, leave a standing-wave ratio of 1.018"


def test_practise(page: Page):
    """Every step typed with the solver's values is right, and the end says what the rounding costs."""
    expect(practised(page, LINK).page.locator(".closing")).to_contain_text(END)


def test_a_slip_its_hints_and_the_answer(page: Page):
    """Whoever leaves the open end as it is is told so; four hints fill the step in."""
    desk = Desk(page, LINK)
    desk.solve_until("end_effect")
    desk.answer("copper", solved(LINK)["metric.length"])
    expect(desk.verdict("copper")).to_contain_text("leaving the length as it was")
    step = desk.step("copper")
    for rung in range(4):
        step.get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

    expect(step).to_have_class(re.compile("done"))


def test_lecture(page: Page):
    """The lecture leads through every step to what the rounding costs, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
