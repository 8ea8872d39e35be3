"""The core of the program in Firefox and WebKit: a problem by typing, keys and hand; lecture, paper, self-check."""

from __future__ import annotations

from urllib.parse import urlencode

import pytest

from lessons import catalogue, open_sheet
from lessons.grammar.lesson import Lesson
from lessons.problems.texts import write_problem
from tests.browser.desk import LINK, solved
from tests.browser.engines.student import Student
from tests.browser.projector import frames_of
from tests.browser.stage.board import on_screen
from tests.browser.test_drawing import drawn
from tests.lessons.solving import random_problem

QUERY = urlencode(LINK)
MOST_TABS = 60
FIRST_STEPS = 3
INK = ".ink path.line, .ink path.mark"
ANSWERS = solved(LINK)
STEPS = list(dict.fromkeys(key.split(".")[0] for key in ANSWERS))


@pytest.fixture
def desk(student: Student) -> Student:
    """At the practise page, with the linked problem on a clean sheet."""
    student.forget()
    student.open(f"/?{QUERY}")
    return student


def answered(student: Student, key: str) -> None:
    """Wait until an answer is taken for right: its step is folded, or its verdict says so."""
    step = f'[data-step="{key.split(".")[0]}"]'
    student.wait_for(f'{step}.done, [id="verdict-{key}"].right')


def check(student: Student, key: str) -> None:
    """Press a field's button, and wait until its answer is taken for right."""
    student.click(f'button[data-focus="check {key}"]')
    answered(student, key)


def solved_to_the_end(student: Student) -> None:
    """Wait for the end of the sheet, on which every step is right."""
    student.wait_for(".closing h3")

    assert len(STEPS) == student.see("li.done", "all.length")
    assert 0 == student.see(".sign:not(.right)", "all.length")


class TestPractise:
    def test_typing(self, desk: Student):
        """A whole problem is solved by typing each value and pressing its button."""
        for key, text in ANSWERS.items():
            box = f'input[data-field="{key}"]'
            if desk.see(box, "one.type") == "radio":
                desk.click(f'{box}[value="{text}"]')
            else:
                desk.fill(box, text)
            check(desk, key)

        solved_to_the_end(desk)

    def test_keyboard(self, desk: Student):
        """A whole problem is solved by the keyboard alone, one entry after another."""
        desk.engine.evaluate("document.getElementById('sheet').focus()")
        for key, text in ANSWERS.items():
            tab_to(desk, key)
            if desk.focused[2] == "radio":
                choose(desk, text)
            else:
                desk.type(text)
            desk.press("Enter")
            answered(desk, key)

        solved_to_the_end(desk)

    def test_drawing(self, desk: Student):
        """A whole problem is solved by hand on the chart, as far as it can be drawn."""
        for key, text in ANSWERS.items():
            box, points = f'input[data-field="{key}"]', list(drawn(key))
            if points:
                draw(desk, key, points)
            elif desk.see(box, "one.type") == "radio":
                desk.click(f'{box}[value="{text}"]')
            else:
                desk.fill(box, text)
            check(desk, key)

        solved_to_the_end(desk)

    def test_drawing_by_keys(self, desk: Student):
        """A point is moved by the arrow keys and handed in, and its reading stands in the box."""
        desk.fill('input[data-field="normalise"]', ANSWERS["normalise"])
        check(desk, "normalise")
        desk.click('button[data-focus="draw place"]')
        desk.wait_for('.pad[data-asks="place"]')
        desk.press(*["ArrowRight"] * 4, *["ArrowDown"] * 4, "Enter")

        desk.wait_for('input[data-field="place"]', "/^0.057 ∠ −45/.test(one.value)")

    def test_reload(self, desk: Student):
        """What was done and what was typed outlives a reload."""
        desk.fill('input[data-field="normalise"]', ANSWERS["normalise"])
        check(desk, "normalise")
        desk.fill('input[data-field="place"]', "0.5")
        desk.open("/")

        desk.wait_for('[data-step="normalise"].done')
        assert "0.5" == desk.see('input[data-field="place"]', "one.value")


@pytest.mark.parametrize("lesson", list(catalogue()), ids=lambda lesson: lesson.key)
class TestEveryLesson:
    def test_typing(self, student: Student, lesson: Lesson):
        """In every lesson the first steps are answered by typing, each is right, and what it draws is on the chart."""
        texts = write_problem(random_problem(3, lesson), lesson)
        sheet = open_sheet(lesson, texts)
        student.forget()
        student.open(f"/?{urlencode({'lesson': lesson.key, **texts})}")
        for field in [one for step in sheet.steps[:FIRST_STEPS] for one in step.fields]:
            box = f'input[data-field="{field.key}"]'
            if student.see(box, "one.type") == "radio":
                student.click(f'{box}[value="{sheet.solution[field.key]}"]')
            else:
                student.fill(box, sheet.write(field.key))
            check(student, field.key)

        student.wait_for(INK)


def tab_to(student: Student, key: str) -> None:
    """Go on with the Tab key until an entry of this field has the focus."""
    for _ in range(MOST_TABS):
        if student.focused[0] == key:
            return
        student.press("Tab")
    raise AssertionError(f"the Tab key does not lead to {key}")


def choose(student: Student, value: str) -> None:
    """Choose among the buttons by the arrow keys; in some browsers they go round, in others they end."""
    for key in ["ArrowDown"] * 6 + ["ArrowUp"] * 6:
        student.press(key)
        if student.focused[1] == value:
            return
    raise AssertionError(f"the arrow keys do not lead to {value}")


def draw(student: Student, key: str, points: list[complex]) -> None:
    """Draw an answer on the chart, and wait until it stands in its box or is chosen."""
    box = f'input[data-field="{key}"]'
    student.see(box, "(one.focus(), 0)")
    student.wait_for(f'.pad[data-asks="{key}"]')
    left, top, width = student.place(".pad")
    student.drag(*(on_screen(point, (left, top), width) for point in points))
    student.wait_for(box, "all.some((box) => box.type === 'radio' ? box.checked : box.value)")


class TestOtherPages:
    def test_lecture(self, student: Student):
        """A lecture is given by its keys: each construction, its values, another load, and back after a reload."""
        student.open(f"/lecture?{QUERY}")
        frames = [frame.key for frame in frames_of(LINK)]
        for number, key in enumerate(frames):
            student.press(*(["PageDown"] if number else []), "v")
            student.wait_for(f'article[data-frame="{key}"]')
            assert 0 == student.see(".value.hidden", "all.length")
        student.press("Home", *["PageDown"] * 4, "l")
        student.wait_for("dialog[open] input")
        student.type("25 - j40")
        student.press("Enter")
        student.wait_for(".brief", "one.textContent.includes('25 − j40')")
        student.engine.go(student.engine.evaluate("location.href"))

        student.wait_for(f'article[data-frame="{frames[4]}"]')
        student.wait_for(INK)

    def test_lecture_moves(self, student: Student):
        """The load is dragged across the chart, and the construction is the one of where it was let go."""
        student.open(f"/lecture?{QUERY}")
        student.press("m")
        student.wait_for('.pad[data-asks="moved"]')
        left, top, width = student.place(".pad")
        student.drag(*(on_screen(point, (left, top), width) for point in (0.3 - 0.3j, 0.1j, 0.4 + 0.2j)))

        student.wait_for(".brief", "one.textContent.includes('Ω') && !one.textContent.includes('60 − j80')")

    def test_paper(self, student: Student):
        """Worksheets are shown as pictures with their words, and follow what is changed in the form."""
        student.open(f"/paper?{QUERY}")
        student.wait_for("figure img", "all.length >= 2 && one.naturalWidth > 0")
        student.fill('input[name="load"]', "25+10j")

        student.wait_for("figure img", "one.alt.includes('25 + j10') && one.naturalWidth > 0")
        student.wait("document.querySelector('#paper-print').children.length >= 2")

    def test_self_check(self, student: Student):
        """Lines of one's own are marked, right and wrong, and stand in the entries of the steps."""
        student.forget()
        student.open(f"/check?{QUERY}")
        student.fill("#working-text", "z = 1.2-1.6j")
        student.press("Enter", *"y = 7")
        student.click("button.next")
        student.wait_for(".marked .verdict", "all.length === 2")

        assert [1, 1] == [student.see(f".marked .verdict.{one}", "all.length") for one in ("right", "wrong")]
