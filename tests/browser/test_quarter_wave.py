"""The quarter wave played from start to finish on all four pages, by whoever has never heard of it."""

import re
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page, expect

from lessons.course.quarter_wave import LESSON
from lessons.homework.working import Working
from lessons.problems.texts import read_problem
from lessons.working.walkthrough import walkthrough
from tests.browser.desk import Desk, solved
from tests.browser.projector import Projector
from tests.browser.waits import ready

GIVENS = {"load": "25-35j", "line": "50", "frequency": "868 MHz", "velocity": "0.66"}
LINK = {"lesson": LESSON.key, **GIVENS}
PROBLEM = read_problem(GIVENS, LESSON).problem


@pytest.fixture
def desk(page: Page) -> Desk:
    """The practise page with the linked problem."""
    return Desk(page, LINK)


class TestPractise:
    def test_whole_problem(self, desk: Desk):
        """Every step typed with the solver's values is right; the sheet ends matched at both places."""
        answers = solved(LINK)
        for key, text in answers.items():
            desk.answer(key, text)
            expect(desk.step(key.split(".")[0])).to_be_visible()

        expect(desk.page.locator("li.done")).to_have_count(len(LESSON.steps))
        closing = desk.page.locator(".closing")
        expect(closing).to_contain_text("1.01 (maximum) and 1.01 (minimum)")
        expect(closing).to_contain_text("Here the one at the minimum")

    def test_a_slip_its_hints_and_the_answer(self, desk: Desk):
        """The arithmetic mean is named; four hints lead to the impedance, and with it the section is drawn."""
        desk.solve_until("distance.minimum")
        desk.answer("section.maximum", "104.1")
        expect(desk.verdict("section.maximum")).to_contain_text("taking the arithmetic mean")
        step = desk.step("section")
        for rung in range(4):
            step.get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

        expect(step).to_have_class(re.compile("done"))
        expect(desk.page.locator("#drawing")).to_contain_text("88.938 Ω")


def test_lecture(page: Page):
    """The lecture leads through every step to what is achieved, and reveals it."""
    room = Projector(page, LINK)
    frames = walkthrough(LESSON, PROBLEM)
    met = [room.frame()]
    while met[-1] != "closing" and len(met) < 3 * len(frames):
        room.press("PageDown")
        met.append(room.frame())
    room.press("v")

    assert [one.key for one in frames] == [key for key in met if key in {one.key for one in frames}]
    expect(room.words).to_contain_text("1.00 (maximum) and 1.00 (minimum)")


def test_self_check(page: Page):
    """A whole working is read line for line, all right, and both designs match."""
    working = Working(LESSON, PROBLEM)
    answers = solved(LINK)
    lines = [
        f"{working.names.name_for(q, one.branch)} = {answers[one.key]}"
        for q in working.names.quantities
        for one in q.fields
    ]
    page.goto(f"/check?{urlencode(LINK)}")
    ready(page)
    page.locator("#working-text").fill("\n".join(lines))
    page.get_by_role("button", name="Mark my working").click()

    expect(page.locator(".summary")).to_have_text(f"{len(lines)} of {len(lines)} lines right.")
    expect(page.locator(".unread")).to_have_count(0)
    expect(page.locator(".design")).to_have_count(2)
    expect(page.locator(".design").first).to_contain_text("The design at the maximum")
    expect(page.locator(".design").first).to_contain_text("✓ Matched")


def test_paper(page: Page):
    """A worksheet of it is printed with its key."""
    page.goto(f"/paper?{urlencode({'lesson': LESSON.key, 'seed': '3'})}")
    ready(page)

    expect(page.get_by_label("Lesson")).to_have_value(LESSON.key)
    expect(page.locator("body")).to_contain_text("Key to worksheet 3")
