"""Two stubs, played from start to finish on all four pages; and a load that they cannot match."""

from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import checked, practised, printed, shown

LINK = {"lesson": "double-stub", "load": "30-60j", "line": "50", "spacing": "0.125"}
FORBIDDEN = {**LINK, "load": "15-5j"}


class TestPractise:
    def test_whole_problem(self, page: Page):
        """Every step typed with the solver's values is right; the sheet ends matched in both solutions."""
        closing = practised(page, LINK).page.locator(".closing")

        expect(closing).to_contain_text("Solved")
        expect(closing).to_contain_text("Here the lower one has the wider band")

    def test_forbidden(self, page: Page):
        """A load in the forbidden region ends with the way out of it, and nothing is said to match."""
        closing = practised(page, FORBIDDEN).page.locator(".closing")

        expect(closing).to_contain_text("Two stubs cannot match this load where it is")
        expect(closing).not_to_contain_text("the line sees")

    def test_a_slip(self, page: Page):
        """Turning the unit circle the other way is named, with what to do about it."""
        desk = Desk(page, LINK)
        desk.solve_until("region")
        desk.answer("rotated", "toward generator")

        expect(desk.verdict("rotated")).to_contain_text("turn g = 1 back, toward the load")


def test_lecture(page: Page):
    """The lecture leads through every step to what is achieved, and reveals it."""
    expect(shown(page, LINK).words).to_contain_text("1.00 (higher) and 1.00 (lower)")


def test_self_check(page: Page):
    """A whole working is read line for line, all right, and both designs match."""
    checked(page, LINK)

    expect(page.locator(".design")).to_have_count(2)
    expect(page.locator(".design").first).to_contain_text("✓ Matched")


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    printed(page, LINK["lesson"])
