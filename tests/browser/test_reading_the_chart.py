"""Reading the chart, played from start to finish on all four pages."""

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {"lesson": "reading-the-chart", "load": "25-35j", "line": "50"}
END = "27.0 % comes back and 73.0 % goes into the load"


def test_practise(page: Page):
    """Every step typed with the solver's values is right, and the end says what becomes of the power."""
    expect(practised(page, LINK).page.locator(".closing")).to_contain_text(END)


def test_a_slip(page: Page):
    """Who takes ten times the logarithm of a ratio of voltages is told so."""
    desk = Desk(page, LINK)
    desk.solve_until("mismatch")
    desk.answer("loss", "2.84")

    expect(desk.verdict("loss")).to_contain_text("10 times the logarithm")


def test_lecture(page: Page):
    """The lecture leads through every step to the share of the power, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
