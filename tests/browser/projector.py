"""The lecture as whoever stands before a room uses it, for tests to read like a lecture."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlencode

from playwright.sync_api import Locator, Page

from app.lecture.built import built_frames
from app.lecture.waves import Waves
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Work
from lessons.working.walkthrough import Frame, Outcome, walkthrough
from tests.browser.waits import ready
from tests.lessons.solving import notation_from, read_problem

LINK = {"load": "60-80j", "line": "50", "frequency": "868 MHz", "velocity": "0.66"}


def frames_of(texts: dict[str, str], showing: str = "side by side") -> tuple[Frame, ...]:
    """What the lecture of a linked problem holds, frame by frame: the walkthrough, and before its end what is built."""
    problem, notation = read_problem(texts).problem, notation_from(texts)[0]
    *steps, last = walkthrough(LESSON, problem, notation, showing)
    work = Work(LESSON, problem, notation)
    built = (
        Frame(
            one["key"],
            one["step"],
            0,
            one["title"],
            because=one["because"],
            outcomes=tuple(Outcome(each["label"], None, each["text"]) for each in one["outcomes"]),
            spoken=one["spoken"],
            spoken_values=one["spoken_values"],
        )
        for one in built_frames(work, showing, Waves(work, showing, steps))
    )
    return (*steps, *built, last)


class Projector:
    """The lecture page with a problem from a link, and a folder for pictures of it."""

    def __init__(self, page: Page, texts: dict[str, str] | None = None, album: Path | None = None) -> None:
        self.page = page
        self.texts = LINK if texts is None else texts
        self.album = album
        self.taken = 0
        page.goto(f"/lecture?{urlencode(self.texts)}")
        ready(page)

    # --- what is done ---

    def press(self, *keys: str) -> None:
        """Press keys one after another, and wait until what they lead to has come to the chart."""
        for key in keys:
            self.page.keyboard.press(key)
        self.page.evaluate(
            "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
        )

    def picture(self, name: str) -> None:
        """Take a picture of the page, numbered in the order of the lecture."""
        if self.album is not None:
            self.taken += 1
            self.page.screenshot(path=self.album / f"{self.taken:02d}-{name.replace(' ', '-')}.png")

    def drawn_out(self) -> None:
        """Wait until the last stroke is drawn and written beside."""
        self.page.wait_for_function(f"() => !({INK}).querySelector('.undrawn, .unwritten')")

    # --- what is shown ---

    @property
    def words(self) -> Locator:
        """The words of the frame."""
        return self.page.locator("article")

    def frame(self) -> str:
        """Key of the frame that is shown."""
        return self.words.get_attribute("data-frame") or ""

    def strokes(self) -> int:
        """How many strokes stand on the chart."""
        return self.page.locator(".ink path.line, .ink path.mark").count()

    def labels(self) -> list[str]:
        """What is written beside the strokes, but for the signs of solutions."""
        return [text.lstrip("▲◆▼✚ ") for text in self.page.locator(".ink .label text").all_text_contents()]

    def lit(self) -> int:
        """How many strokes stand at full strength."""
        return self.page.locator(".ink path.line.current, .ink path.mark.current").count()

    def modes(self) -> list[str]:
        """What is on, in the words over the chart's corner."""
        return self.page.locator(".modes span").all_text_contents()

    def heard(self) -> str:
        """What was last said to those who listen."""
        return self.page.locator(".talk [role=status]").text_content() or ""

    def variable(self, name: str) -> str:
        """A variable of the page's style."""
        return str(
            self.page.evaluate(
                "name => getComputedStyle(document.documentElement).getPropertyValue(name)", name
            )
        )


INK = """(() => {
  const find = at => at.querySelector?.("g.ink") ?? [...at.children].map(inside).find(found => found);
  const inside = node => (node.shadowRoot && find(node.shadowRoot)) || find(node);
  return find(document.getElementById("stage"));
})()"""
"""The layer of the chart on which strokes are drawn."""
