"""A line with loss, played from start to finish on all four pages."""

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {"lesson": "lossy-line", "load": "15-20j", "line": "50", "along": "0.4", "loss": "3 dB"}
END = "the mismatch adds 1.48 dB"


def test_practise(page: Page):
    """Every step typed with the solver's values is right, and the end says what the mismatch costs."""
    expect(practised(page, LINK).page.locator(".closing")).to_contain_text(END)


def test_a_slip(page: Page):
    """Who lets the wave lose its decibels on one way only is told so."""
    desk = Desk(page, LINK)
    desk.solve_until("end")
    desk.answer("size", "0.420")

    expect(desk.verdict("size")).to_contain_text("one way")


def test_lecture(page: Page):
    """The lecture leads through every step to what is added, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
