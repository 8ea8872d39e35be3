"""The standing wave, played from start to finish on all four pages."""

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {"lesson": "standing-wave", "load": "25-35j", "line": "50", "power": "10 W"}
END = "swings between 17.78 V and 56.25 V"


def test_practise(page: Page):
    """Every step typed with the solver's values is right, and the end says how high the voltage is and warns of it."""
    desk = practised(page, LINK)

    expect(desk.page.locator(".closing")).to_contain_text(END)
    expect(desk.page.locator(".closing")).to_contain_text("switch off before you touch such a line")


def test_a_slip(page: Page):
    """Who gives the rms value is told so."""
    desk = Desk(page, LINK)
    desk.solve_until("voltage.maximum")
    desk.answer("voltage.maximum", "39.77")

    expect(desk.verdict("voltage.maximum")).to_contain_text("giving the rms value")


def test_lecture(page: Page):
    """The lecture leads through every step to the voltages, and reveals them."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
