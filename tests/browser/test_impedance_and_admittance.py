"""Impedance and admittance, played from start to finish on all four pages, in both ways of showing admittance."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {"lesson": "impedance-and-admittance", "load": "25-35j", "line": "50"}
END = "74.00 Ω with a capacitor beside it"


@pytest.mark.parametrize("admittance", ["half turn", "overlay"])
def test_practise(page: Page, admittance: str):
    """Every step typed with the solver's values is right, and the end says what the load is side by side."""
    desk = practised(page, {**LINK, "admittance": admittance})

    expect(desk.page.locator(".closing")).to_contain_text(END)


def test_a_slip(page: Page):
    """Who reads a susceptance as a reactance is told so."""
    desk = Desk(page, LINK)
    desk.solve_until("parallel.resistor")
    desk.answer("parallel.part", "coil")

    expect(desk.verdict("parallel.part")).to_contain_text("as if it were a reactance")


def test_lecture(page: Page):
    """The lecture leads through every step to the two parts, and reveals them."""
    expect(shown(page, LINK).words).to_contain_text(END)


def test_self_check(page: Page):
    """A whole working is read line for line, and all of it is right."""
    checked(page, LINK)


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
