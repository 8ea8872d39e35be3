"""Everybody gets in: what is said aloud, what axe-core finds, and every lesson by keyboard without the chart."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from urllib.parse import urlencode

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from lessons import catalogue, open_sheet
from lessons.problems.seeds import random_problem
from lessons.problems.texts import write_problem
from tests.browser.waits import ready

LINK = "load=60-80j&line=50"
DESK, HAND = {"width": 1440, "height": 900}, {"width": 390, "height": 844}
SCREENS = {
    "light at a desk": (DESK, "light", "none"),
    "dark at a desk": (DESK, "dark", "none"),
    "forced colours at a desk": (DESK, "light", "active"),
    "light in a hand": (HAND, "light", "none"),
    "dark in a hand": (HAND, "dark", "none"),
    "forced colours in a hand": (HAND, "light", "active"),
}
FOCUSED = """() => {
  let element = document.activeElement;
  while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
  return [element.dataset.field ?? "", element.value ?? "", element.type ?? ""];
}"""
MOST_TABS = 60
SHOW = "document.getElementById('stage').style.visibility = ''"
HIDE = "const chart = document.getElementById('stage'); if (chart) chart.style.visibility = 'hidden';"
OVERLAPS = """() => {
  const inside = (one) => one.shadowRoot ? deep(one.shadowRoot) : [];
  const deep = (root) => [...root.querySelectorAll("*")].flatMap((one) => [one, ...inside(one)]);
  const all = deep(document.querySelector("#words"));
  const words = all.filter((one) => one.matches(".panel :is(h2, p, dt, dd)"));
  const buttons = all.filter((one) => one.matches(".bar button") && one.offsetParent);
  const boxes = (nodes) => nodes.map((one) => one.getBoundingClientRect());
  const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
  return [words.length, boxes(words).filter((word) => boxes(buttons).some((button) => meet(word, button))).length];
}"""


def found(page: Page, screens: Collection[str] = tuple(SCREENS)) -> list[str]:
    """What axe-core finds on a page in its state, by all its rules, on each screen."""
    axe, everything = Axe(), []
    for name in screens:
        size, scheme, forced = SCREENS[name]
        page.set_viewport_size(size)  # type: ignore[arg-type]
        page.emulate_media(color_scheme=scheme, forced_colors=forced)  # type: ignore[arg-type]
        violations = axe.run(page, options={"resultTypes": ["violations"]}).response["violations"]
        everything += [f"{name}: {one['id']}: {node['html']}" for one in violations for node in one["nodes"]]
    return everything


def practised(page: Page) -> None:
    """A wrong entry, a hint, and all that folds unfolded."""
    page.locator('input[data-field="normalise"]').fill("7")
    page.locator('button[data-focus="check normalise"]').click()
    expect(page.locator("#verdict-normalise")).not_to_be_empty()
    page.locator('button[data-focus="hint normalise"]').click()
    expect(page.locator(".hints li")).to_have_count(1)
    for summary in page.locator(".desk > details > summary").all():
        summary.click()


def worked(page: Page) -> None:
    """A step shown by the tutor, once the primer's figure has come."""
    expect(page.locator(".primer .panels")).to_be_visible()
    page.get_by_role("button", name="Show this step").click()
    expect(page.locator(".worked")).to_have_count(1)


def marked(page: Page) -> None:
    """Lines right, wrong and not read, marked."""
    page.locator("#working-text").fill("z = 7\nfoo\nl near = 0.172")
    page.get_by_role("button", name="Mark my working").click()
    expect(page.locator(".marked")).to_be_visible()


def singly(page: Page) -> None:
    """The same, one entry a step."""
    marked(page)
    page.get_by_label("One entry a step").check()


def lectured(page: Page) -> None:
    """A frame revealed, a stroke lit."""
    for key in ("ArrowRight", "v", "s"):
        page.keyboard.press(key)


def waved(page: Page) -> None:
    """Voltage and current beside the words of a step."""
    for key in ("End", "w"):
        page.keyboard.press(key)
    expect(page.locator("#drawing [data-part=waves-voltage]")).to_be_visible()


def printed(page: Page) -> None:
    """Pages in sight."""
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_enabled()


def given_out(page: Page) -> None:
    """A name given, and all that folds unfolded."""
    page.get_by_label("Your name or number").fill("Ada")
    page.get_by_label("Your name or number").press("Enter")
    expect(page.get_by_role("button", name="Change")).to_be_visible()
    for summary in page.locator(".sets > details > summary").all():
        summary.click()


def begun(page: Page) -> None:
    """A primer unfolded, its figure moved; on the course page, where one stands."""
    page.get_by_text(re.compile("is about$")).first.click()
    page.get_by_role("slider").first.press("ArrowRight")


STATES = {
    "the course at first": ("/course", begun),
    "a primer": ("/", lambda page: page.get_by_role("slider").first.press("ArrowRight")),
    "a drill": ("/?drill=distance", lambda page: expect(page.locator(".drill")).to_be_visible()),
    "practise": (f"/?{LINK}", lambda page: None),
    "practise at work": (f"/?{LINK}", practised),
    "a worked example": ("/", worked),
    "a problem refused": ("/?load=0&line=50", lambda page: None),
    "self-check at first": ("/check", lambda page: None),
    "self-check marked": (f"/check?{LINK}", marked),
    "self-check singly": (f"/check?{LINK}", singly),
    "lecture": (f"/lecture?{LINK}", lectured),
    "lecture's waves": (f"/lecture?{LINK}", waved),
    "lecture's keys": (f"/lecture?{LINK}", lambda page: page.keyboard.press("?")),
    "lecture's entry": (f"/lecture?{LINK}", lambda page: page.keyboard.press("l")),
    "presenter": ("/lecture/notes", lambda page: None),
    "paper": (f"/paper?{LINK}", printed),
    "sets": ("/sets", lambda page: None),
    "a set": ("/sets?set=aldermoor", given_out),
}


@pytest.mark.screen(reduced_motion="reduce")
@pytest.mark.parametrize(("path", "act"), STATES.values(), ids=STATES)
def test_axe_finds_nothing(page: Page, path: str, act: Callable[[Page], object]):
    """axe-core (all its rules) finds nothing on any page, in any state, on any screen."""
    page.goto(path)
    ready(page)
    act(page)

    assert [] == found(page)


def test_no_such_page(page: Page, troubles: list[str]):
    """The page that says that there is none has no fault of its own, to axe-core or to the browser."""
    page.goto("/nowhere")
    expect(page.locator("main.message p").first).not_to_be_empty()

    assert [] == found(page)
    assert [] == [one for one in troubles if "404" not in one]
    troubles.clear()  # the browser reports the 404 itself


class TestSpoken:
    def test_verdict(self, page: Page):
        """A verdict is announced in a region that was there before it, and describes its entry."""
        page.goto(f"/?{LINK}")
        ready(page)
        expect(page.locator("#spoken")).to_have_attribute("role", "status")
        box = page.locator('input[data-field="normalise"]')
        box.fill("7")
        page.locator('button[data-focus="check normalise"]').click()
        expect(page.locator("#verdict-normalise")).not_to_be_empty()
        word = page.locator("#verdict-normalise strong").inner_text().split(" ", 1)[1]

        expect(page.locator("#spoken")).to_contain_text(word)
        expect(box).to_have_accessible_description(re.compile(re.escape(word)))

    def test_hint(self, page: Page):
        """A hint is announced when it comes."""
        page.goto(f"/?{LINK}")
        ready(page)
        page.locator('button[data-focus="hint normalise"]').click()
        hint = page.locator(".hints li").first.inner_text()

        expect(page.locator("#spoken")).to_have_text(hint)

    def test_chart_numbers(self, page: Page):
        """What is printed on the chart is not read out beside the sentences of its strokes, and those once each."""
        page.goto(f"/?{LINK}")
        ready(page)
        page.locator('input[data-field="normalise"]').fill("1.2-1.6j")
        page.locator('button[data-focus="check normalise"]').click()
        page.locator('input[data-field="place"]').fill("0.593 < -46.8")
        page.locator('button[data-focus="check place"]').click()
        expect(page.locator('[data-step="place"].done')).to_be_visible()
        sentences = page.locator('ul[aria-label="What is drawn on the chart"] li').all_inner_texts()
        told = page.locator("#stage").aria_snapshot()

        assert sentences
        assert [1] * len(sentences) == [told.count(one) for one in sentences]
        assert 0 == told.count("0.25\n")

    def test_empty_chart(self, page: Page):
        """A chart on which nothing is drawn has a name, and says that nothing is."""
        page.goto("/check")
        ready(page)

        expect(page.get_by_role("application", name="Reflection chart")).to_be_visible()
        expect(page.locator('ul[aria-label="What is drawn on the chart"]')).to_have_text(
            "Nothing is drawn yet."
        )


class TestEnlarged:
    @pytest.mark.screen(width=320, height=256)
    def test_lecture_at_400_percent(self, page: Page):
        """At 400 % no button of the lecture lies over its words, and nothing has to be moved sideways."""
        page.goto(f"/lecture?{LINK}")
        ready(page)
        page.keyboard.press("ArrowRight")
        page.keyboard.press("v")
        words, covered = page.evaluate(OVERLAPS)

        assert words
        assert 0 == covered
        assert page.evaluate("document.documentElement.scrollWidth") <= 320


def to_field(page: Page, key: str) -> None:
    """Go on with the Tab key until an entry of this field has the focus."""
    for _ in range(MOST_TABS):
        if page.evaluate(FOCUSED)[0] == key:
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"the Tab key does not lead to {key}")


def give(page: Page, key: str, text: str) -> None:
    """Answer a field by keys alone: type, or choose with the arrows, and press Enter."""
    to_field(page, key)
    if page.evaluate(FOCUSED)[2] != "radio":
        page.keyboard.press("Control+A")
        page.keyboard.type(text)
    else:
        for _ in range(10):
            page.keyboard.press("Space")
            if page.evaluate(FOCUSED)[1] == text:
                break
            page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")


@pytest.mark.parametrize("lesson", list(catalogue()), ids=lambda lesson: lesson.key)
def test_without_chart_or_mouse(page: Page, lesson):
    """A whole exercise of every lesson is done by keyboard, with the chart out of sight and hearing; where it ends,
    axe-core finds nothing."""
    texts = write_problem(random_problem(3, lesson), lesson)
    sheet = open_sheet(lesson, texts)
    page.add_init_script(f"document.addEventListener('DOMContentLoaded', () => {{ {HIDE} }})")
    page.goto("/?" + urlencode({"lesson": lesson.key, **texts}))
    ready(page)
    page.locator("#sheet").focus()
    for step in sheet.steps:
        for field in step.fields:
            options = getattr(field.kind(sheet.truth), "options", ())
            give(page, field.key, sheet.solution[field.key] if options else sheet.write(field.key))
        expect(page.locator(f'[data-step="{step.key}"].done')).to_be_attached()

    ending = page.locator(".closing h3")
    expect(ending).not_to_be_empty()
    expect(page.locator("#spoken")).to_contain_text(ending.inner_text())
    page.evaluate(SHOW)
    assert [] == found(page, ["light at a desk", "dark in a hand"])
