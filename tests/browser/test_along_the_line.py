"""Along the line, played from start to finish on all four pages: to the input, back to the load, and by the ruler."""

import re
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page, expect

from lessons.course.along_the_line import LESSON
from lessons.homework.working import Working
from lessons.problems.texts import read_problem
from lessons.working.walkthrough import walkthrough
from tests.browser.desk import Desk, solved
from tests.browser.projector import Projector
from tests.browser.waits import ready

FORWARD = {"lesson": LESSON.key, "load": "60-80j", "line": "50", "along": "0.3"}
BACK = {"lesson": LESSON.key, "input": "120-90j", "line": "75", "along": "0.62"}
METRIC = {"lesson": LESSON.key, "load": "75-60j", "line": "50", "along": "95 mm", "frequency": "434 MHz"}
ENDS = {
    "forward": "The input of the line shows 21.64",
    "back": "The line ends in 99.32",
    "metric": "The input of the line",
}
every_way = pytest.mark.parametrize(
    ("texts", "ending"), [*zip((FORWARD, BACK, METRIC), ENDS.values(), strict=True)], ids=ENDS
)


class TestPractise:
    @every_way
    def test_whole_problem(self, page: Page, texts: dict[str, str], ending: str):
        """Every step typed with the solver's values is right, and the sheet ends with what was found."""
        desk, answers = Desk(page, texts), solved(texts)
        for key, text in answers.items():
            desk.answer(key, text)

        expect(page.locator(".closing")).to_contain_text(ending)
        steps = LESSON.steps_of(read_problem(texts, LESSON).problem)
        expect(page.locator("li.done")).to_have_count(len(steps))

    def test_a_slip_its_hints_and_the_answer(self, page: Page):
        """A walk the wrong way is named; four hints lead to the reading, and the walk is drawn."""
        desk = Desk(page, FORWARD)
        desk.solve_until("start")
        desk.answer("end", "0.015")
        expect(desk.verdict("end")).to_contain_text("This may be walking toward the load")
        for rung in range(4):
            desk.step("end").get_by_role("button", name=re.compile(f"^Hint {rung + 1}")).click()

        expect(desk.step("end")).to_have_class(re.compile("done"))
        expect(desk.step("end").locator("summary")).to_contain_text("0.115 λ")

    def test_past_the_end_of_the_scale(self, page: Page):
        """A sum that was left beyond the scale's end is named, and put right it is accepted."""
        desk = Desk(page, FORWARD)
        desk.solve_until("start")
        desk.answer("end", "0.615")
        expect(desk.verdict("end")).to_contain_text("past the end of the scale")
        desk.answer("end", "0.115")

        expect(desk.step("end")).to_have_class(re.compile("done"))

    def test_the_reading_stands_in_no_table(self, page: Page):
        """While the reading at the load is asked the table of points keeps it back."""
        desk = Desk(page, FORWARD)
        desk.solve_until("mismatch")
        page.locator("details.points summary").click()

        expect(page.locator("details.points")).to_contain_text("0.593")
        expect(page.locator("details.points")).not_to_contain_text("0.315")
        desk.answer("start", "0.315")
        expect(page.locator("details.points")).to_contain_text("0.315")


@every_way
def test_lecture(page: Page, texts: dict[str, str], ending: str):
    """The lecture leads through every step to what was found, and reveals it."""
    room = Projector(page, texts)
    frames = walkthrough(LESSON, read_problem(texts, LESSON).problem)
    met = [room.frame()]
    while met[-1] != "closing" and len(met) < 3 * len(frames):
        room.press("PageDown")
        met.append(room.frame())
    room.press("v")

    assert [one.key for one in frames] == [key for key in met if key in {one.key for one in frames}]
    expect(room.words).to_contain_text(ending)


@every_way
def test_self_check(page: Page, texts: dict[str, str], ending: str):
    """A whole working is read line for line, and all of it is right."""
    working, answers = Working(LESSON, read_problem(texts, LESSON).problem), solved(texts)
    lines = [
        f"{working.names.name_for(quantity, None)} = {answers[quantity.key]}"
        for quantity in working.names.quantities
    ]
    page.goto(f"/check?{urlencode(texts)}")
    ready(page)
    page.locator("#working-text").fill("\n".join(lines))
    page.get_by_role("button", name="Mark my working").click()

    expect(page.locator(".summary")).to_have_text(f"{len(lines)} of {len(lines)} lines right.")
    expect(page.locator(".unread")).to_have_count(0)


def test_paper(page: Page):
    """A worksheet is printed with its key, in which the walk leads back to the load."""
    page.goto(f"/paper?{urlencode(BACK)}")
    ready(page)

    expect(page.get_by_label("Lesson")).to_have_value(LESSON.key)
    key = page.get_by_role("img", name="Key: Your own problem, page 1 of 2")
    expect(key).to_have_attribute("alt", re.compile("The load, where z is 1.324"))
