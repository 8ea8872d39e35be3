"""The course in the browser: its page, primers with their figures, drills, and progress that no link loses."""

from __future__ import annotations

import csv
import json
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from lessons import catalogue, open_sheet
from lessons.saved.links import problem_texts
from tests.browser.desk import Desk
from tests.browser.fingers import fingers_on
from tests.browser.waits import ready

LESSON = next(lesson for lesson in catalogue() if lesson.key == "shunt-stub")
FIRST = catalogue()[0]
NORMALISE = LESSON.steps[0].title
GIVENS = {"load": "60-80j", "line": "50"}
MASTERED = {"worked": 1, "own": 99, "run": 3, "mastered": "2020-01-01", "reviews": 0}
BROKEN = {"record": {"sheet": {"version": 2, "lesson": "none such"}}, "drafts": {}}


def kept(*slipped: str) -> dict[str, Any]:
    """What a browser has kept of one sheet, on which these fields went wrong first."""
    sheet = open_sheet(LESSON, GIVENS)
    for key in slipped:
        sheet = sheet.enter(key, "0.0371").enter(key, sheet.write(key))
    name = json.dumps(problem_texts(sheet.problem, catalogue()), separators=(",", ":"))
    record = {"sheet": sheet.record(), "guided": False, "progress": {}, "state": "begun"}
    return {name: {"record": record, "drafts": {}, "revision": 1}}


def have(page: Page, sheets: dict[str, Any], progress: dict[str, Any] | None = None) -> None:
    """Let the browser have kept these sheets and this progress before the first page is opened."""
    stores = {
        "halfturn.v1": {"sheets": sheets, "last": next(iter(sheets), None)},
        "halfturn.course.v1": {"progress": progress or {}, "met": [LESSON.key]},
    }
    lines = [
        f"localStorage.setItem({name!r}, {json.dumps(json.dumps(one))});" for name, one in stores.items()
    ]
    page.add_init_script(
        f"if (!sessionStorage.getItem('had')) {{ sessionStorage.setItem('had', '1'); {' '.join(lines)} }}"
    )


def opened(page: Page, path: str) -> None:
    """Open a page and wait until it can be used."""
    page.goto(path)
    ready(page)


class TestCoursePage:
    def test_newcomer(self, page: Page):
        """Every page leads to the course; there a newcomer finds all lessons in order, and begins with the first."""
        opened(page, "/check")
        page.get_by_role("link", name="Course").click()
        ready(page)
        titles = page.locator("[data-lesson] h3 a")

        expect(titles).to_have_text([lesson.title for lesson in catalogue()])
        page.get_by_role("link", name="Begin with the first lesson").click()
        ready(page)
        expect(page.locator("p.lesson")).to_have_text(FIRST.title)

    def test_where_one_stands(self, page: Page):
        """A lesson mastered long ago is due, and the step that went wrong is there to drill."""
        have(page, kept("normalise"), {LESSON.key: MASTERED})
        opened(page, "/course")
        stand = page.get_by_role("region", name="Where you stand")

        expect(stand.get_by_role("link", name=LESSON.title, exact=True)).to_be_visible()
        stand.get_by_role("link", name=NORMALISE).click()
        ready(page)
        expect(page.locator(".drill")).to_contain_text("load 1 of 5")

    def test_the_review(self, page: Page):
        """The review that is due is a fresh problem with nothing worked, and what was mastered stays so."""
        have(page, kept(), {LESSON.key: MASTERED})
        opened(page, "/course")
        page.get_by_role("link", name="Take the review").click()
        ready(page)

        expect(page.locator("h2.title")).to_contain_text("Random problem")
        expect(page.get_by_role("radio", name="nothing")).to_be_checked()

    def test_damaged(self, page: Page):
        """A sheet that cannot be read gets a sentence, and the rest is shown."""
        have(page, {"broken": BROKEN, **kept("normalise")})
        opened(page, "/course")

        expect(page.locator(".notice")).to_contain_text("One sheet could not be read")
        expect(page.get_by_role("region", name="Where you stand")).to_contain_text(NORMALISE)

    def test_erased_and_brought_back(self, page: Page):
        """One press erases all but the wish for a light page, another brings it back, by keys alone."""
        have(page, kept("normalise"), {LESSON.key: MASTERED})
        page.add_init_script("localStorage.setItem('halfturn.theme', 'light')")
        opened(page, "/course")
        names = "Object.keys(localStorage).filter((name) => name.startsWith('halfturn.')).sort().join()"
        before = page.evaluate(names)
        page.get_by_role("button", name="Erase all").press("Enter")
        expect(page.locator(".erased")).to_be_visible()
        expect(page.get_by_role("link", name="Begin with the first lesson")).to_be_visible()
        assert "halfturn.theme" == page.evaluate(names)
        expect(page.get_by_role("button", name="Bring it back")).to_be_focused()
        page.keyboard.press("Enter")
        expect(page.get_by_role("button", name="Erase all")).to_be_visible()

        expect(page.get_by_role("region", name="Where you stand")).to_contain_text(NORMALISE)
        assert before == page.evaluate(names)

    def test_table(self, page: Page):
        """All that was done is saved as a table that other programs read."""
        have(page, kept("normalise"))
        opened(page, "/course")
        with page.expect_download() as saved:
            page.get_by_role("button", name="Save it as a table").click()
        rows = list(csv.DictReader(saved.value.path().read_text("utf-8-sig").splitlines()))

        assert [("0.0371", "not right"), ("1.200 − j1.600", "right")] == [
            (row["text"], row["judged now"]) for row in rows
        ]

    @pytest.mark.screen(width=390, height=844)
    def test_in_a_hand(self, page: Page):
        """On a phone nothing has to be moved sideways."""
        have(page, kept("normalise"), {LESSON.key: MASTERED})
        opened(page, "/course")

        assert page.evaluate("document.documentElement.scrollWidth") <= 390


class TestPrimer:
    def test_first_opening(self, page: Page):
        """A lesson opens with its primer the first time, and with it folded the next time."""
        opened(page, "/")
        expect(page.locator(".primer .said")).to_be_visible()
        page.get_by_role("button", name="Begin", exact=True).click()
        expect(page.locator(".primer .said")).to_have_count(0)
        page.reload()
        ready(page)

        expect(page.locator(".primer:not([open])")).to_be_visible()
        page.get_by_text("What this lesson is about").click()
        expect(page.locator(".primer .said")).to_be_visible()

    def test_not_before_a_problem_of_a_link(self, page: Page):
        """Who was sent to a problem gets the problem."""
        opened(page, "/?load=60-80j&line=50")

        expect(page.locator(".primer:not([open])")).to_be_visible()

    def test_figure_by_keys(self, page: Page):
        """The figure moves with the arrow keys, and says where it is."""
        opened(page, "/")
        slider, said = page.locator(".primer input[type=range]"), page.locator(".primer .said")
        slider.press("Home")

        expect(said).to_contain_text("all of the power comes back")
        expect(slider).to_have_attribute("aria-valuetext", said.inner_text())

    def test_figure_by_hand(self, page: Page):
        """The point in hand follows the pointer, and the rest follows it."""
        opened(page, "/")
        ring, said = page.locator(".primer .ring"), page.locator(".primer .said")
        before, box = said.inner_text(), ring.bounding_box()
        assert box
        page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        page.mouse.down()
        page.mouse.move(box["x"] - 40, box["y"] - 40, steps=4)
        page.mouse.up()

        expect(said).not_to_have_text(before)
        moved = ring.bounding_box()
        assert moved
        assert moved["x"] < box["x"] - 5

    def test_nothing_moves_by_itself(self, page: Page):
        """A figure that is let alone stays as it is."""
        opened(page, "/")
        picture = page.locator(".primer .panels")
        expect(picture).to_be_visible()
        before = picture.inner_html()
        page.get_by_role("button", name="Dark page").click()

        expect(page.get_by_role("button", name="Light page")).to_be_visible()
        assert before == picture.inner_html()


FIGURES = [one.key for one in catalogue() if one.primer and one.primer.figure]


@pytest.mark.parametrize("lesson", FIGURES)
class TestEveryFigure:
    @pytest.mark.screen(width=390, height=844, has_touch=True)
    def test_by_finger(self, page: Page, lesson: str):
        """A finger leads the point in hand, on a phone, where every label is in sight and none below eleven pixels."""
        said = self._open(page, lesson)
        before, grip = said.inner_text(), page.locator(".primer .grip")
        grip.scroll_into_view_if_needed()
        x, y = self._middle(grip)
        touch = fingers_on(page)
        for step in range(6):
            touch("touchMove" if step else "touchStart", (x - 8 * step, y - 3 * step))
        touch("touchEnd")

        expect(said).not_to_have_text(before)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        texts = page.locator(".primer .panels text").evaluate_all(
            "all => all.filter(e => e.getBoundingClientRect().right > innerWidth).map(e => e.textContent)"
        )
        assert [] == texts
        sizes = page.locator(".primer .panels text").evaluate_all(
            "all => all.map(e => parseFloat(getComputedStyle(e).fontSize) * e.getScreenCTM().a)"
        )
        assert min(sizes, default=99) >= 11

    def test_by_keys(self, page: Page, lesson: str):
        """The arrow keys lead it from place to place, and each is said."""
        said, slider = self._open(page, lesson), page.locator(".primer input[type=range]")
        heard = [said.inner_text()]
        for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
            slider.press(key)
            heard.append(said.inner_text())
            expect(slider).to_have_attribute("aria-valuetext", heard[-1])

        assert heard[1] == heard[3]
        assert len({*heard}) == 3

    def _open(self, page: Page, lesson: str) -> Locator:
        opened(page, f"/?lesson={lesson}")
        expect(page.locator(".primer .said")).to_be_visible()
        return page.locator(".primer .said")

    def _middle(self, grip: Locator) -> tuple[float, float]:
        box = grip.bounding_box()
        assert box
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


class TestDrill:
    def test_from_a_slip_and_back(self, page: Page):
        """Two slips of one kind offer the drill; its loads come one after the other, and the problem comes back."""
        desk = Desk(page, GIVENS)
        desk.answer("normalise", "60-80j")
        desk.answer("normalise", "60.1-80j")
        page.locator('[data-focus="drill normalise"]').click()
        expect(page.locator(".drill")).to_contain_text("load 1 of 5")
        page.get_by_role("button", name="Back to the problem").click()

        expect(page.locator("p.given")).to_contain_text("60 − j80")
        expect(desk.entry("normalise")).to_have_value("60.1-80j")

    def test_kept_over_a_reload(self, page: Page):
        """A drill in the middle comes back after a reload as it was."""
        opened(page, "/?drill=normalise")
        given = page.locator("p.given").inner_text()
        page.locator('input[data-field="normalise"]').fill("7")
        page.locator('button[data-focus="check normalise"]').click()
        expect(page.locator("#verdict-normalise")).not_to_be_empty()
        page.reload()
        ready(page)

        expect(page.locator("p.given")).to_have_text(given)
        expect(page.locator(".drill")).to_contain_text("load 1 of 5")
        expect(page.locator('input[data-field="normalise"]')).to_have_value("7")

    def test_bad_step(self, page: Page):
        """A link to a step that there is not says so, and opens the lesson."""
        opened(page, "/?drill=foo")

        expect(page.locator(".notice")).to_contain_text("no step “foo”")
        expect(page.locator(".current")).to_be_visible()


class TestProgress:
    def test_no_link_loses_it(self, page: Page):
        """What was mastered stays known when a link's problem is opened, and after it."""
        have(page, kept(), {LESSON.key: MASTERED})
        opened(page, "/?load=25-35j&line=50")
        page.locator('input[data-field="normalise"]').fill("7")
        page.locator('button[data-focus="check normalise"]').click()
        expect(page.locator("#verdict-normalise")).not_to_be_empty()
        opened(page, "/course")

        expect(page.locator(f'[data-lesson="{LESSON.key}"]')).to_contain_text("Mastered on 1 January 2020")

    def test_a_lesson_s_link(self, page: Page):
        """A link to a lesson opens that lesson, whatever was worked on last, where it was left."""
        other = FIRST
        have(page, kept("normalise"))
        opened(page, f"/?lesson={other.key}")
        expect(page.locator("p.lesson")).to_have_text(other.title)
        opened(page, f"/?lesson={LESSON.key}")

        expect(page.locator("p.given")).to_contain_text("60 − j80")
