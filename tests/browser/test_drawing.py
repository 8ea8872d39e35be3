"""A student solves a problem by drawing: every answer that can be drawn is drawn on the chart, never typed."""

import cmath
import math
import re
from collections.abc import Callable, Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Page, expect

from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Work
from lessons.grammar.strokes import DragAlong, DragRadius, PickPoint, PlacePoint, PointOnCircle, plotted_at
from tests.browser.desk import LINK, Desk, solved
from tests.browser.fingers import fingers_on
from tests.browser.stage.board import TWO_FRAMES, Board
from tests.lessons.solving import problem

LEAST_MOVES = 6  # of a finger from the first point to the last
TRUTH = Work(LESSON, problem(60 - 80j, frequency=868e6, velocity=0.66))


def drawn(key: str) -> Iterator[complex]:
    """Where a hand goes on the half-turn chart to draw the right answer to a field; nothing if it cannot be drawn."""
    value, gesture = TRUTH[key], LESSON.field(key).gesture(TRUTH)
    match gesture:
        case DragRadius():
            yield from (0.3, (value - 1) / (value + 1))
        case PlacePoint(read_as="impedance"):
            yield from (0, value)
        case PlacePoint() | PointOnCircle():
            end = (value - 1) / (value + 1)  # -1 times that of the line, and -1 again by the half turn
            yield from (end * 0.9, end)
        case DragAlong(start=start):
            first = plotted_at(start, "admittance", "half turn")
            yield from (first * cmath.exp(-4j * math.pi * value * part / 24) for part in range(25))
        case PickPoint(points=points):
            yield plotted_at(dict(points)[value], "admittance", "half turn")


def draw_or_answer(desk: Desk, key: str, text: str) -> None:
    """Draw an answer where it can be drawn, and have it checked."""
    points = list(drawn(key))
    if not points:
        desk.answer(key, text)
        return
    entry = desk.entry(key).first
    entry.focus()
    desk.page.locator(f'.pad[data-asks="{key}"]').wait_for()
    Board(desk.page).drag(*points)
    if entry.get_attribute("type") == "radio":
        expect(desk.page.locator(f'input[data-field="{key}"]:checked')).to_have_count(1)
    else:
        expect(entry).not_to_have_value("")
    desk.page.locator(f'button[data-focus="check {key}"]').click()


def solve_whole(page: Page, give: Callable[[Desk, str, str], None]) -> None:
    """Give every answer of the linked problem, each of which is right, to its end."""
    desk = Desk(page)
    for key, text in solved(LINK).items():
        give(desk, key, text)
        expect(
            desk.verdict(key).or_(desk.step(key.split(".")[0]).locator(".sign.right")).first
        ).to_be_attached()

    expect(page.locator(".closing")).to_be_visible()
    expect(page.locator(".sign:not(.right)")).to_have_count(0)


@pytest.mark.parametrize(
    "width",
    [pytest.param(w, marks=pytest.mark.screen(width=w, height=900)) for w in (1440, 390)],
    ids=["desk", "telephone"],
)
def test_whole_problem(page: Page, width: int):
    """A whole problem is solved with the hand on the chart, and every step is right."""
    solve_whole(page, draw_or_answer)


def draw_with_a_finger(desk: Desk, key: str, text: str) -> None:
    """Draw an answer with one finger where it can be drawn, and tap its Check."""
    points, by_drawing = list(drawn(key)), desk.page.locator(f'button[data-focus="draw {key}"]')
    if not points or not by_drawing.is_visible():  # of a few points one is picked by its name as well
        desk.answer(key, text)
        return
    by_drawing.tap()
    desk.page.locator(f'.pad[data-asks="{key}"]').wait_for()
    board, fingers = Board(desk.page).settle(), fingers_on(desk.page)

    def touch(kind: str, *places: tuple[float, float]) -> None:
        fingers(kind, *places)
        # A finger that jumps would throw the page, and the next tap only stop it.
        desk.page.evaluate(TWO_FRAMES)

    touch("touchStart", board.at(points[0]))
    between = math.ceil(LEAST_MOVES / (len(points) - 1)) if len(points) > 1 else 0
    for one, other in pairwise(points):
        for part in range(1, between + 1):
            touch("touchMove", board.at(one + (other - one) * part / between))
    touch("touchEnd")
    desk.page.locator(f'button[data-focus="check {key}"]').tap()


@pytest.mark.screen(width=390, height=844, has_touch=True, is_mobile=True)
def test_whole_problem_by_finger(page: Page):
    """On a telephone a whole problem is solved with one finger, and every step is right."""
    solve_whole(page, draw_with_a_finger)


def test_the_line_moves_along(page: Page):
    """While a walk is drawn the line drawing beside the chart shows its length."""
    desk = Desk(page)
    desk.solve_until("susceptance.far")
    page.locator('.pad[data-asks="distance.near"]').wait_for()
    board = Board(page)
    path = list(drawn("distance.near"))
    page.mouse.move(*board.at(path[0]))
    page.mouse.down()
    for point in path[1:]:
        page.mouse.move(*board.at(point))

    expect(page.locator("#drawing")).to_contain_text(re.compile(r"0\.1(09|10|11)"))
    page.mouse.up()


@pytest.mark.parametrize(
    "width", [pytest.param(w, marks=pytest.mark.screen(width=w, height=900)) for w in (1440, 390)]
)
def test_the_waves_are_told_within_the_drawing(page: Page, width: int):
    """What is read off voltage and current where the distance ends is not cut off by the drawing's edge."""
    desk = Desk(page)
    desk.solve_until("length.far")
    drawing = page.locator("#drawing svg").first.bounding_box()
    said = page.locator('#drawing [data-part="waves-said"]').bounding_box()
    assert drawing is not None
    assert said is not None

    assert said["x"] + said["width"] <= drawing["x"] + drawing["width"] + 1


def test_a_walk_the_wrong_way_is_named(page: Page):
    """A walk drawn counter-clockwise is told from one that is only long."""
    desk = Desk(page)
    desk.solve_until("susceptance.far")
    page.locator('.pad[data-asks="distance.near"]').wait_for()
    start = next(drawn("distance.near"))
    Board(page).drag(*(start * cmath.exp(4j * math.pi * 0.3896 * part / 60) for part in range(61)))
    desk.page.locator('button[data-focus="check distance.near"]').click()

    expect(desk.verdict("distance.near")).to_contain_text("toward the load")


def test_with_the_keys(page: Page):
    """A point is put and handed in with the keys alone, and the next press checks it."""
    desk = Desk(page)
    desk.solve_until("place")
    expect(page.locator("p.hint")).to_contain_text("Drag to open the circle")
    page.get_by_role("button", name="draw it on the chart").press("Enter")
    for _ in range(9):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    expect(desk.entry("mismatch")).to_have_value(re.compile(r"^\d"))
    page.keyboard.press("Enter")

    expect(desk.verdict("mismatch").or_(desk.step("mismatch").locator(".sign.right")).first).to_be_attached()
