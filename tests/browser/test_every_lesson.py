"""Lessons played from start to finish on all four pages, and one slip in each."""

from dataclasses import dataclass

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import Desk
from tests.browser.played import Link, checked, practised, printed, shown


@dataclass(frozen=True)
class Play:
    """A lesson's problem. ends : what is found in the end.  warned : what practice adds to that.

    until : the field up to which all is right.  wrong : the field after it and what is answered there.
    said : what the tutor says of that."""

    givens: Link
    ends: str
    until: str
    wrong: tuple[str, str]
    said: str
    warned: str = ""


PLAYS = {
    "reading-the-chart": Play(
        {"load": "25-35j", "line": "50"},
        "27.0 % comes back and 73.0 % goes into the load",
        "mismatch", ("loss", "2.84"), "10 times the logarithm",
    ),
    "impedance-and-admittance": Play(
        {"load": "25-35j", "line": "50"},
        "74.00 Ω with a capacitor beside it",
        "parallel.resistor", ("parallel.part", "coil"), "as if it were a reactance",
    ),
    "standing-wave": Play(
        {"load": "25-35j", "line": "50", "power": "10 W"},
        "swings between 17.78 V and 56.25 V",
        "voltage.maximum", ("voltage.maximum", "39.77"), "giving the rms value",
        "switch off before you touch such a line",
    ),
    "unknown-load": Play(
        {"swr": "3", "first": "4", "second": "24", "minimum": "9", "counted": "load", "line": "50"},
        "The load is 30.00 − j40.00 Ω",
        "shift.waves", ("sense", "clockwise"), "in which the minimum has moved",
    ),
    "lossy-line": Play(
        {"load": "15-20j", "line": "50", "along": "0.4", "loss": "3 dB"},
        "the mismatch adds 1.48 dB",
        "end", ("size", "0.420"), "one way",
    ),
    "which-one-to-build": Play(
        {"load": "60-80j", "line": "50", "by": "5", "allowed": "1.5"},
        "The near one bears more, either way.",
        "total.far", ("back.near", "1.21"), "giving the standing-wave ratio",
    ),
}  # fmt: skip


@pytest.mark.parametrize("lesson", PLAYS)
class TestEveryLesson:
    def test_practise(self, page: Page, lesson: str):
        """Every step typed with the solver's values is right; the end says what was found, with its warning."""
        closing = practised(page, link(lesson)).page.locator(".closing")

        expect(closing).to_contain_text(PLAYS[lesson].ends)
        expect(closing).to_contain_text(PLAYS[lesson].warned)

    def test_a_slip(self, page: Page, lesson: str):
        """Who makes a mistake of the lesson's own kind is told which."""
        play, desk = PLAYS[lesson], Desk(page, link(lesson))
        desk.solve_until(play.until)
        desk.answer(*play.wrong)

        expect(desk.verdict(play.wrong[0])).to_contain_text(play.said)

    def test_lecture(self, page: Page, lesson: str):
        """The lecture leads through every step to what is found, and reveals it."""
        expect(shown(page, link(lesson)).words).to_contain_text(PLAYS[lesson].ends)

    def test_self_check(self, page: Page, lesson: str):
        """A whole working is read line for line, and all of it is right."""
        checked(page, link(lesson))

    def test_paper(self, page: Page, lesson: str):
        """A worksheet of it is printed with its key."""
        printed(page, lesson)


def link(lesson: str) -> Link:
    """What opens the lesson's problem."""
    return {"lesson": lesson, **PLAYS[lesson].givens}


def test_on_two_grids(page: Page):
    """A course that overlays the grid of admittance comes to the same two parts side by side."""
    lesson = "impedance-and-admittance"
    desk = practised(page, {**link(lesson), "admittance": "overlay"})

    expect(desk.page.locator(".closing")).to_contain_text(PLAYS[lesson].ends)
