"""The page of sets in a browser: the name is kept, what is done is told, a hand-in needs both; and the report."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from app.report.feedback import feedback
from app.report.report import report
from lessons.classes.marks import mark_class
from lessons.course.catalogue import CATALOGUE
from lessons.problems.sets import Shelf, shipped_sets
from tests.browser.test_access import found
from tests.browser.waits import ready
from tests.lessons.classes.simulated import begun, hand_in, solved, write

ONE = next(one for one in shipped_sets(CATALOGUE) if one.key == "aldermoor")
FIRST = ONE.items[0]


def opened(page: Page) -> None:
    page.goto(f"/sets?set={ONE.key}")
    ready(page)


class TestSet:
    def test_hand_in_needs_a_name_and_a_sheet(self, page: Page):
        """The button to hand in says what is missing, and saves nothing until it is there."""
        opened(page)
        save = page.get_by_role("button", name="Save the file to hand in")

        expect(save).to_have_attribute("aria-disabled", "true")
        expect(page.get_by_text("Type your name or number first.")).to_be_visible()
        page.get_by_label("Your name or number").fill("Ada")
        page.get_by_label("Your name or number").press("Enter")
        expect(page.get_by_text("Begin a problem first")).to_be_visible()
        expect(save).to_have_attribute("aria-disabled", "true")

    def test_name_and_state_are_kept(self, page: Page):
        """After a reload the name stands there again, and a problem that was begun is told as begun."""
        opened(page)
        page.get_by_label("Your name or number").fill("Ada Löwe")
        page.get_by_label("Your name or number").press("Enter")
        expect(page.get_by_role("button", name="Change")).to_be_visible()
        page.get_by_role("link", name=FIRST.problem.title).click()
        ready(page)
        expect(page.get_by_text(f"Problem 1 of {len(ONE.items)} of")).to_be_visible()
        page.locator('input[data-field="normalise"]').fill("7")
        page.locator('button[data-focus="check normalise"]').click()
        expect(page.locator("#verdict-normalise")).not_to_be_empty()
        opened(page)

        expect(page.get_by_label("Your name or number")).to_have_value("Ada Löwe")
        expect(page.get_by_text("… begun")).to_have_count(1)
        with page.expect_download() as saved:
            page.get_by_role("button", name="Save the file to hand in").click()
        assert "halfturn-aldermoor-ada-lowe.json" == saved.value.suggested_filename

    def test_bad_name(self, page: Page):
        """What is no name is said beside the box, which then has the focus."""
        opened(page)
        page.get_by_label("Your name or number").fill("!!!")
        page.get_by_label("Your name or number").press("Enter")

        expect(page.locator("#name-fault")).to_have_text(re.compile("letters or digits"))
        expect(page.get_by_label("Your name or number")).to_be_focused()


@pytest.mark.screen(reduced_motion="reduce")
@pytest.mark.parametrize("kind", ["report", "feedback"])
def test_axe_finds_nothing_in_documents(page: Page, tmp_path: Path, kind: str):
    """axe-core finds nothing in the report and in a sheet of feedback, and neither is wider than a phone."""
    sheet = solved(begun(ONE, FIRST, "Ada"), ("wrong way",))
    file = write(tmp_path, "ada.json", hand_in(ONE, "Ada", {FIRST.problem.key: sheet}))
    write(tmp_path, "bad.json", "{")
    (marks,), _ = mark_class(
        [(file.name, file), ("bad.json", tmp_path / "bad.json")], Shelf((ONE,)), CATALOGUE
    )
    text = report(marks) if kind == "report" else feedback(marks, marks.students[0])
    page.goto(write(tmp_path, "page.html", text).as_uri())

    assert [] == found(page)
    page.set_viewport_size({"width": 390, "height": 844})
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
