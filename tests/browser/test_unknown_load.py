"""An unknown load, played from start to finish on all four pages."""

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {
    "lesson": "unknown-load", "swr": "3", "first": "4", "second": "24", "minimum": "9", "counted": "load", "line": "50",
}  # fmt: skip
END = "The load is 30.00 − j40.00 Ω"


def test_practise(page: Page):
    """Every step typed with the solver's values is right, and the end says what the load is."""
    desk = practised(page, LINK)

    expect(desk.page.locator(".closing")).to_contain_text(END)


def test_a_slip(page: Page):
    """Who walks on the way the minimum has moved is told so."""
    desk = Desk(page, LINK)
    desk.solve_until("shift.waves")
    desk.answer("sense", "clockwise")

    expect(desk.verdict("sense")).to_contain_text("in which the minimum has moved")


def test_lecture(page: Page):
    """The lecture leads through every step to the load, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
