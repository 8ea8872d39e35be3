"""How hard random problems are to be: chosen beside what draws them, kept, and printed from the same number."""

import json
from urllib.parse import parse_qs, urlencode, urlsplit

import pytest
from playwright.sync_api import Page, expect

from lessons.course.shunt_stub import LESSON
from lessons.grammar.difficulty import ANY, DIFFICULTIES, HARD, ROUND, Difficulty
from lessons.grammar.lesson import Work
from lessons.grammar.problem import Problem
from tests.app.shunt import answer_key, worksheet
from tests.browser.desk import Desk
from tests.browser.waits import ready
from tests.lessons.solving import random_problem

each_difficulty = pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
LABEL = "Difficulty of random problems"
LEAST_TARGET = 24
DUE = {"worked": 1, "own": 99, "run": 3, "mastered": "2020-01-01", "reviews": 0}


def draw(page: Page) -> Problem:
    """Press for a random problem, and see which it is by its title."""
    before = page.locator("h2.title").inner_text()
    page.get_by_role("button", name="Random problem").click()
    expect(page.locator("h2.title")).not_to_have_text(before)
    return on_the_desk(page)


def on_the_desk(page: Page) -> Problem:
    """The random problem that the sheet's title names."""
    number, _, name = page.locator("h2.title").inner_text().removeprefix("Random problem ").partition(", ")
    difficulty = next((one for one in DIFFICULTIES if one.name.lower() == name), ANY)
    return random_problem(int(number), difficulty=difficulty)


def task(problem: Problem) -> str:
    return Work(LESSON, problem).say(LESSON.task)


class TestOnTheSheet:
    @each_difficulty
    def test_chosen_drawn_reloaded_and_printed(self, page: Page, difficulty: Difficulty):
        """Chosen and drawn it is on the sheet, stays over a reload, and is printed from its number, with its key."""
        Desk(page, {})
        page.get_by_label(LABEL).select_option(label=difficulty.name)
        problem = draw(page)
        assert difficulty == problem.difficulty
        expect(page.locator("p.given")).to_contain_text(task(problem))
        page.reload()
        ready(page)
        expect(page.get_by_label(LABEL)).to_have_value(difficulty.key)
        expect(page.locator("p.given")).to_contain_text(task(problem))
        assert problem == on_the_desk(page)

        number = problem.key.split("-")[1]
        page.goto(f"/paper?{urlencode({'seed': number, **difficulty.texts})}")
        ready(page)
        for _ in range(2):
            expect(page.get_by_label(LABEL)).to_have_value(difficulty.key)
            pages = page.locator("figure img")
            said = [pages.nth(index).get_attribute("alt") or "" for index in range(pages.count())]
            assert len(worksheet(problem)) + len(answer_key(problem)) == len(said)
            assert said[0].startswith(f"Worksheet {difficulty.after(number)}: {problem.title}, page 1")
            assert task(problem) in said[0]
            assert f"Key to worksheet {difficulty.after(number)}: {problem.title}" in said[2]
            page.reload()
            ready(page)

    @pytest.mark.screen(width=390, height=844)
    def test_by_keyboard_and_by_finger(self, page: Page):
        """By keys alone it is chosen beside the button that draws; it says what it means, and is no small target."""
        Desk(page, {"load": "60-80j", "line": "50"})
        choice, button = page.get_by_label(LABEL), page.get_by_role("button", name="Random problem")
        button.focus()
        page.keyboard.press("Tab")
        expect(choice).to_be_focused()
        page.keyboard.press("h")
        expect(choice).to_have_value(HARD.key)
        expect(choice).to_have_accessible_description(HARD.means)
        expect(page.get_by_text(HARD.means)).to_be_visible()
        sizes = [one.bounding_box() for one in (choice, button)]

        assert [True, True] == [min(box["width"], box["height"]) >= LEAST_TARGET for box in sizes if box]
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        page.keyboard.press("Shift+Tab")
        page.keyboard.press("Enter")
        expect(page.locator("h2.title")).to_contain_text(", hard")
        expect(choice).to_have_value(HARD.key)

    def test_in_another_tab(self, page: Page):
        """What is chosen in one tab is shown and drawn in the other."""
        Desk(page, {})
        other = page.context.new_page()
        Desk(other, {})
        other.get_by_label(LABEL).select_option(HARD.key)

        expect(page.get_by_label(LABEL)).to_have_value(HARD.key)
        assert HARD == draw(page).difficulty

    def test_what_is_kept_and_unknown_counts_as_usual(self, page: Page):
        """A choice that a later version kept, or that was damaged, is the usual one here."""
        page.add_init_script("localStorage.setItem('halfturn.difficulty', '\"fiendish\"')")
        Desk(page, {})

        expect(page.get_by_label(LABEL)).to_have_value(ANY.key)
        assert ANY == draw(page).difficulty

    def test_a_drill(self, page: Page):
        """A drill from a link says how hard its loads are, and the next one is as hard."""
        desk = Desk(page, {"drill": "normalise", "difficulty": "round"})
        expect(page.locator("p.drill")).to_contain_text("load 1 of 5, round numbers.")
        truth = Work(LESSON, on_title(page)).write("normalise")
        desk.answer("normalise", truth)
        page.get_by_role("button", name="Next load").click()

        expect(page.locator("p.drill")).to_contain_text("load 2 of 5, round numbers.")


def on_title(page: Page) -> Problem:
    """The problem of the drill, as the sheet's record has it."""
    store = json.loads(page.evaluate("localStorage.getItem('halfturn.v1')"))
    key = store["sheets"][store["last"]]["record"]["sheet"]["problem"]["key"]
    return random_problem(int(key.split("-")[1]), difficulty=ROUND)


class TestOtherPages:
    def test_paper(self, page: Page):
        """Chosen in the form of the paper view it says what it means, and stands in the link to the same sheets."""
        page.goto("/paper?seed=12&count=2")
        ready(page)
        page.get_by_label(LABEL).select_option(HARD.key)
        expect(page.get_by_text(HARD.means)).to_be_visible()
        link = page.get_by_role("link", name="Link to these sheets")
        expect(link).to_have_attribute("href", "/paper?seed=12&count=2&difficulty=hard")
        expect(
            page.get_by_role("img", name="Worksheet 13, hard: Random problem 13, hard").first
        ).to_be_visible()
        link.click()
        ready(page)

        expect(page.get_by_label(LABEL)).to_have_value(HARD.key)
        expect(
            page.get_by_role("img", name="Worksheet 13, hard: Random problem 13, hard").first
        ).to_be_visible()

    def test_lecture(self, page: Page):
        """The lecture offers the choice beside its random problem, and draws of it what was chosen on any page."""
        Desk(page, {})
        page.get_by_label(LABEL).select_option(HARD.key)
        page.goto("/lecture?load=60-80j&line=50")
        ready(page)
        page.keyboard.press("l")
        expect(page.get_by_label(LABEL)).to_have_value(HARD.key)
        brief = page.locator("p.brief").inner_text()
        page.get_by_role("button", name="A random problem").click()
        expect(page.locator("p.brief")).not_to_have_text(brief)
        load, line = (page.locator(f"#own-{key}").input_value() for key in ("load", "line"))

        assert line not in ("50", "100")
        assert [] == [part for part in (complex(load).real, complex(load).imag) if part % 5 == 0]

    def test_the_review(self, page: Page):
        """A review from the course page is a problem as hard as was chosen."""
        stores = {
            "halfturn.difficulty": HARD.key,
            "halfturn.course.v1": {"progress": {LESSON.key: DUE}, "met": [LESSON.key]},
        }
        for name, one in stores.items():
            page.add_init_script(f"localStorage.setItem({name!r}, {json.dumps(json.dumps(one))})")
        page.goto("/course")
        ready(page)
        review = page.get_by_role("link", name="Take the review")
        asked = parse_qs(urlsplit(review.get_attribute("href") or "").query)
        assert [HARD.key] == asked["difficulty"]
        review.click()
        ready(page)

        assert HARD == on_the_desk(page).difficulty
