"""A lesson played from start to finish on each page, by whoever has never heard of it."""

from __future__ import annotations

from urllib.parse import urlencode

from playwright.sync_api import Page, expect

from lessons.course.catalogue import CATALOGUE
from lessons.homework.working import Working
from lessons.working.walkthrough import walkthrough
from tests.browser.desk import Desk, solved
from tests.browser.projector import Projector
from tests.browser.waits import ready
from tests.lessons.solving import read_link

Link = dict[str, str]


def practised(page: Page, link: Link) -> Desk:
    """The practise page after every step was typed with the solver's values, each of them right."""
    desk, answers, linked = Desk(page, link), solved(link), read_link(link)
    assert linked.problem is not None
    steps = linked.lesson.steps_of(linked.problem)
    for step in steps:
        for one in step.fields:
            desk.answer(one.key, answers[one.key])
            expect(desk.step(step.key)).to_be_visible()
    expect(page.locator("li.done")).to_have_count(len(steps))
    return desk


def shown(page: Page, link: Link) -> Projector:
    """The lecture after every construction in its order, at its end and with that revealed."""
    linked, room = read_link(link), Projector(page, link)
    assert linked.problem is not None
    frames = [one.key for one in walkthrough(linked.lesson, linked.problem)]
    met = [room.frame()]
    while met[-1] != "closing" and len(met) < 3 * len(frames):
        room.press("PageDown")
        met.append(room.frame())
    room.press("v")

    assert frames == [key for key in met if key in frames]
    return room


def checked(page: Page, link: Link) -> None:
    """A whole working is read line for line, and all of it is right."""
    linked, answers = read_link(link), solved(link)
    assert linked.problem is not None
    names = Working(linked.lesson, linked.problem).names
    lines = [
        f"{names.name_for(quantity, one.branch)} = {answers[one.key]}"
        for quantity in names.quantities
        for one in quantity.fields
    ]
    page.goto(f"/check?{urlencode(link)}")
    ready(page)
    page.locator("#working-text").fill("\n".join(lines))
    page.get_by_role("button", name="Mark my working").click()

    expect(page.locator(".summary")).to_have_text(f"{len(lines)} of {len(lines)} lines right.")
    expect(page.locator(".unread")).to_have_count(0)


def printed(page: Page, lesson: str) -> None:
    """A worksheet of a lesson stands on paper with its key."""
    assert CATALOGUE.find(lesson) is not None
    page.goto(f"/paper?{urlencode({'lesson': lesson, 'seed': '3'})}")
    ready(page)

    expect(page.get_by_label("Lesson")).to_have_value(lesson)
    expect(page.locator("body")).to_contain_text("Key to worksheet 3")
