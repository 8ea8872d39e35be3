"""A student checks homework from a book: pasted or entered one by one, in three notations, nothing shown unasked."""

import re
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.waits import ready
from tests.lessons.homework.examples import HOMEWORKS, JUDGED, TEXTS, WAVELENGTHS
from tests.lessons.solving import answers, blank, read_problem

SIGNS = {"right": "✓ Right", "follows": "↳ Follows", "slip": "✗ A slip", "unreadable": "? Not read"}
BAD = ["abc", "1e999", "-50", "nan", "x" * 10_000, "<script>alert(1)</script>"]


class Homework:
    """The self-check page with a problem from a link."""

    def __init__(self, page: Page, texts: dict[str, str] | None = None) -> None:
        self.page = page
        self.texts = TEXTS if texts is None else texts
        self.open()

    def open(self) -> None:
        """Open the page, or open it again."""
        self.page.goto(f"/check?{urlencode(self.texts)}")
        ready(self.page)

    @property
    def box(self) -> Locator:
        """The box for all lines."""
        return self.page.locator("#working-text")

    def mark(self, text: str) -> None:
        """Put lines into the box, have them marked, and wait for the marks."""
        self.box.fill(text)
        self.press()
        expect(self.page.locator(".summary, .unread, .refusal").first).to_be_attached()

    def press(self) -> None:
        """Have marked what stands there."""
        self.page.get_by_role("button", name="Mark my working").click()

    def line(self, key: str) -> Locator:
        """A line on the marked list, with what is said of it."""
        return self.page.locator(f'[data-line="{key}"]')

    def verdicts(self) -> list[str]:
        """Sign and word of every line's verdict, in the order of the list."""
        expect(self.page.locator(".summary")).to_be_visible()
        return self.page.locator(".line .verdict strong").all_inner_texts()

    def entry(self, key: str) -> Locator:
        """The entry of a field, where there is one for each."""
        return self.page.locator(f'[data-field="{key}"]')

    def one_by_one(self) -> None:
        """Go over to one entry a step."""
        self.page.get_by_label("One entry a step").check()


@pytest.fixture
def homework(page: Page) -> Homework:
    """The self-check page with the homework's problem."""
    return Homework(page)


class TestSymbols:
    def test_taken_by_a_press(self, page: Page):
        """Symbols used the other way round are offered by a button, and taken by pressing it, the lines kept."""
        homework = Homework(page, {"load": "40+30j", "line": "100"})
        homework.mark("y = 1 + j1.04\nl_A = 0.36λ\nl_B = 0.032λ\nd_A = 0.1222λ\nd_B = 0.3778λ")
        offer = page.get_by_role("button", name="Use l for the distance and d for the stub length")
        offer.click()

        expect(offer).to_have_count(0)
        expect(page.locator(".summary")).to_have_text("5 of 5 lines right.")
        expect(page.locator(".design code").first).to_contain_text("l = 0.032")


class TestHomework:
    @pytest.mark.parametrize(("text", "notation"), HOMEWORKS.values(), ids=HOMEWORKS)
    def test_twelve_lines(self, page: Page, text: str, notation: dict[str, str]):
        """Twelve lines with two slips and one follow-through are marked right in three courses' notation."""
        homework = Homework(page, TEXTS | notation)
        homework.mark(text)

        assert [SIGNS[judged] for judged in JUDGED.values()] == homework.verdicts()
        expect(page.locator(".summary").first).to_have_text("10 of 12 lines right, 2 to look at again.")
        expect(page.locator(".line", has_text="For your earlier values")).to_have_count(1)
        expect(page.locator(".unread")).to_have_count(0)

    def test_says_why(self, homework: Homework):
        """A slip is named; where a poor reading would do as well, both are said."""
        homework.mark(WAVELENGTHS)

        expect(homework.line("distance.far")).to_contain_text("Or this may be walking toward the load")
        expect(homework.line("needed.near")).to_contain_text("This may be leaving the sign as it was")

    def test_is_drawn(self, homework: Homework):
        """The student's own construction stands on the chart, and no other."""
        homework.mark("z = 1.2-1.6j\nSWR = 3.0\ny = 0.3+0.4j")
        table = homework.page.locator(".stage")

        expect(table.get_by_text(re.compile("standing-wave ratio 3.00"))).not_to_have_count(0)
        expect(table.get_by_text(re.compile(r"standing-wave ratio 3\.91"))).to_have_count(0)
        expect(table.get_by_text(re.compile("crossing"))).to_have_count(0)

    def test_design(self, homework: Homework):
        """The finished design is judged by what it achieves, and how far it is off is told when asked."""
        homework.mark("d1 = 0.110\nl1 = 0.405")
        design = homework.page.locator(".design")

        expect(design).to_contain_text("✗ Not matched")
        expect(design).to_contain_text("standing-wave ratio of 10.60")
        expect(design).not_to_contain_text("too short")
        design.get_by_role("button", name=re.compile("Show how far")).click()
        expect(design).to_contain_text("yours is 0.190 λ (43.4 mm) too short")


class TestUnasked:
    def test_nothing_is_shown(self, homework: Homework):
        """No solver's value is on the page until asked for, and then only that one; asking again hides it."""
        homework.mark("z = 1.3-1.7j\ny = 0.5+0.6j\nd near = 0.15\nl near = 0.2")
        expect(homework.page.locator(".solver")).to_have_count(0)
        ask = homework.line("distance.near").get_by_role("button")
        ask.click()

        expect(homework.page.locator(".solver")).to_have_count(1)
        expect(homework.line("distance.near")).to_contain_text("The solver's value is 0.110 λ.")
        ask.click()
        expect(homework.page.locator(".solver")).to_have_count(0)

    def test_hint(self, homework: Homework):
        """A line that is not right has a first hint, closed until opened: the goal and the rule, without numbers."""
        homework.mark("y = 2+2j")
        hint = homework.line("admittance").locator(".hint")

        expect(hint).to_have_count(1)
        expect(hint).to_be_hidden()
        homework.line("admittance").get_by_text("First hint", exact=True).click()
        expect(hint).to_be_visible()


class TestOneByOne:
    def test_same_list(self, homework: Homework):
        """Pasted lines stand in the entries of their steps, with the same verdicts in the same order."""
        homework.mark(WAVELENGTHS)
        pasted = homework.verdicts()
        homework.one_by_one()

        expect(homework.entry("distance.far")).to_have_value("0.241 lambda")
        assert pasted == homework.verdicts()

    def test_by_keyboard(self, homework: Homework):
        """Any entries, in any order, by keyboard alone: Enter marks them, and they are lines in the box."""
        homework.one_by_one()
        for key, text in {"length.near": "34.2°", "normalise": "60-80j ohm"}.items():
            homework.entry(key).focus()
            homework.page.keyboard.type(text)
        homework.page.keyboard.press("Enter")

        expect(homework.line("length.near")).to_contain_text("✓ Right")
        expect(homework.line("normalise")).to_contain_text("Taken in ohms")
        homework.page.get_by_label("All lines in one box").check()
        expect(homework.box).to_have_value("zL = 60-80j ohm\nl near = 34.2°")

    def test_whole_lesson(self, homework: Homework):
        """The solver's own values are right in every entry, and choices are among them."""
        sheet = blank(read_problem(TEXTS).problem)
        homework.one_by_one()
        for key, text in answers(sheet.truth, sheet).items():
            entry = homework.entry(key)
            entry.select_option(text) if entry.evaluate("e => e.tagName") == "SELECT" else entry.fill(text)
        homework.press()

        expect(homework.page.locator(".summary").first).to_have_text("23 of 23 lines right.")
        expect(homework.page.locator(".design .verdict")).to_have_text([re.compile("✓ Matched")] * 2)

    def test_correcting(self, homework: Homework):
        """A corrected entry is marked anew, an emptied one is taken out, and the rest stays as it was written."""
        homework.mark("zL = 1.2 - j1.6\nd near = 0.390\nfoo = 3")
        homework.one_by_one()
        homework.entry("distance.near").fill("0.110")
        homework.press()
        expect(homework.line("distance.near")).to_contain_text("✓ Right")
        homework.entry("distance.near").fill("")
        homework.press()

        expect(homework.line("distance.near")).to_have_count(0)
        homework.page.get_by_label("All lines in one box").check()
        expect(homework.box).to_have_value("zL = 1.2 - j1.6\nfoo = 3")


class TestBadInput:
    def test_one_unreadable_line(self, homework: Homework):
        """A line that cannot be read gets one sentence naming it, and the rest is marked."""
        homework.mark(WAVELENGTHS.replace("SWR = 3.91", "my ratio was about four"))

        expect(homework.page.locator(".unread li")).to_have_text(
            re.compile(r"^\? Not read Line 3, “my ratio was about four”: [^.]+(\.[^ ][^.]*)*\.$")
        )
        assert 11 == len(homework.verdicts())

    @pytest.mark.parametrize("text", BAD)
    def test_in_the_box(self, homework: Homework, text: str):
        """Whatever is pasted, it stays, it gets a sentence, and the readable line beside it is marked."""
        for lines in (f"{text}\nd near = 0.110", f"y = {text}\nd near = 0.110"):
            homework.mark(lines)
            expect(homework.line("distance.near")).to_contain_text("✓ Right")
            expect(homework.page.locator(".unread li")).to_have_text(
                re.compile(r"^\? Not read Line 1, “.*\.$")
            )
            expect(homework.box).to_have_value(lines)

    @pytest.mark.parametrize("text", BAD)
    def test_in_an_entry(self, homework: Homework, text: str):
        """A value that cannot be read stays in its entry with the reason beside it, and the rest is marked."""
        homework.mark("d near = 0.110")
        homework.one_by_one()
        homework.entry("normalise").fill(text)
        homework.press()

        expect(homework.page.locator('[id="fault-normalise"]')).to_have_text(re.compile(r"\.$"))
        expect(homework.entry("normalise")).to_have_value(text)
        expect(homework.line("distance.near")).to_contain_text("✓ Right")

    def test_nothing(self, homework: Homework):
        """An empty box gets a sentence beside it."""
        homework.press()

        expect(homework.page.locator("#working-text-fault")).to_contain_text("nothing to mark yet")

    def test_too_much(self, homework: Homework):
        """A text beyond the limit stays in its box, with a sentence."""
        homework.mark("d near = 0.110")
        homework.mark("x" * 30_000)

        expect(homework.page.locator("#working-text-fault")).to_contain_text("at most 20000 are read")
        expect(homework.box).to_have_value("x" * 30_000)
        expect(homework.line("distance.near")).to_contain_text("✓ Right")

    def test_a_link(self, page: Page):
        """A link with bad values opens a page that can be used and says what was left out."""
        homework = Homework(page, {"load": "60-80j", "line": "-50", "frequency": "<script>"})

        expect(page.locator(".notice")).to_have_count(2)
        homework.mark("z = 1.2-1.6j")
        expect(homework.line("normalise")).to_contain_text("✓ Right")

    def test_a_load_without_solution(self, page: Page):
        """A load that takes no power is explained."""
        Homework(page, {"load": "25j", "line": "50"})

        expect(page.locator(".refusal")).to_contain_text("takes no power")


class TestProblem:
    def test_first_visit(self, page: Page):
        """Without a link the page asks for the problem first, and then for the working."""
        page.goto("/check")
        ready(page)
        expect(page.locator("#working-text")).to_have_count(0)
        page.get_by_label("Load impedance").fill("25-50j")
        page.get_by_role("button", name="This is the problem").click()

        expect(page.locator(".given")).to_contain_text("Match 25 − j50 Ω to a line of 50 Ω")
        expect(page.locator("#working-text")).to_be_visible()

    @pytest.mark.parametrize("text", ["-50", "abc", "", "1e999", "nan"])
    def test_bad_load(self, homework: Homework, text: str):
        """A bad load gets its reason beside it, and the lines stay."""
        homework.mark(WAVELENGTHS)
        homework.page.get_by_text("Another problem").click()
        homework.page.locator("#own-load").fill(text)
        homework.page.get_by_role("button", name="Check against this problem").click()

        expect(homework.page.locator("#own-load-fault")).to_have_text(re.compile(r"\.$"))
        expect(homework.box).to_have_value(WAVELENGTHS)

    def test_another_and_back(self, homework: Homework):
        """Lines come along to another problem, and a working left for it comes back as it was."""
        homework.mark("z = 1.2-1.6j")
        for load, name in (("25-50j", "25 − j50"), ("60-80j", "60 − j80")):
            homework.page.get_by_text("Another problem").click()
            homework.page.locator("#own-load").fill(load)
            homework.page.get_by_role("button", name="Check against this problem").click()
            expect(homework.page.locator(".given")).to_contain_text(f"Match {name} Ω")
            expect(homework.box).to_have_value("z = 1.2-1.6j")
            if load == "25-50j":
                expect(homework.page.locator(".notice")).to_contain_text("came along")
                homework.page.get_by_role("button", name="Clear my lines").click()
                expect(homework.box).to_have_value("")

    def test_notation(self, homework: Homework):
        """The notation of the course is that of the entries and of what is shown."""
        homework.page.get_by_text("Notation").click()
        homework.page.get_by_label("Symbol for the distance").fill("s")
        homework.page.get_by_label("Lengths of line in").select_option("degrees")
        homework.page.get_by_role("button", name="Write it so").click()
        homework.mark("s1 = 39.7")

        expect(homework.line("distance.near")).to_contain_text("✓ Right")
        expect(homework.line("distance.near")).to_contain_text("Near: distance s")
        homework.line("distance.near").get_by_role("button").click()
        expect(homework.line("distance.near")).to_contain_text("The solver's value is 39.8°.")


class TestKeeping:
    def test_reload(self, homework: Homework):
        """A reload brings back the marked lines, what was asked for, and what was typed but not yet marked."""
        homework.mark(WAVELENGTHS)
        homework.line("distance.far").get_by_role("button").click()
        expect(homework.page.locator(".solver")).to_have_count(1)
        homework.box.fill(WAVELENGTHS + "\ny total near = 1 +")
        homework.page.reload()
        ready(homework.page)

        expect(homework.page.locator(".summary")).to_contain_text("10 of 12")
        expect(homework.line("distance.far")).to_contain_text("The solver's value is 0.259 λ.")
        expect(homework.box).to_have_value(WAVELENGTHS + "\ny total near = 1 +")

    def test_reload_of_entries(self, homework: Homework):
        """The way of writing and a half-typed entry come back, too."""
        homework.one_by_one()
        homework.entry("mismatch").fill("3.9")
        homework.page.reload()
        ready(homework.page)

        expect(homework.entry("mismatch")).to_have_value("3.9")

    def test_beside_practice(self, homework: Homework):
        """The self-check and practice keep their own work of the same problem."""
        homework.mark(WAVELENGTHS)
        homework.page.goto(f"/?{urlencode(TEXTS)}")
        ready(homework.page)
        expect(homework.page.locator("li.done")).to_have_count(0)
        homework.open()

        expect(homework.box).to_have_value(WAVELENGTHS)


class TestForEveryone:
    def test_by_keyboard(self, homework: Homework):
        """Ctrl and Enter in the box mark, and the result is announced and has the focus."""
        homework.box.focus()
        homework.page.keyboard.type("d near = 0.110")
        homework.page.keyboard.press("Control+Enter")

        expect(homework.page.locator("#marked")).to_be_focused()
        expect(homework.page.get_by_role("status").filter(has_text="1 of 1 line right.")).to_have_count(1)

    def test_every_control_has_a_name(self, homework: Homework):
        """Each entry, button and choice can be told by its name, and the same button of two lines apart."""
        homework.mark(WAVELENGTHS)
        homework.line("distance.far").get_by_role("button").click()
        for way in ("All lines in one box", "One entry a step"):
            homework.page.get_by_label(way).check()
            names = homework.page.locator("#sheet").evaluate(NAMES)
            assert names
            assert [] == [name for name in names if not name.strip()]
        buttons = homework.page.get_by_role("button", name=re.compile("^(Show|Hide) the solver's value"))
        said = [button.get_attribute("aria-label") for button in buttons.all()]
        assert len(said) == len(set(said))

    @pytest.mark.parametrize(
        "width",
        [pytest.param(w, marks=pytest.mark.screen(width=w, height=800)) for w in (360, 390, 820, 1024, 1440)],
    )
    def test_nothing_wider_than_the_screen(self, homework: Homework, width: int):
        """At no width does the page have to be moved sideways, in either way of writing, whatever was pasted."""
        homework.mark(WAVELENGTHS + "\n" + "x" * 500)
        expect(homework.page.locator(".unread")).to_be_visible()
        assert homework.page.evaluate("document.documentElement.scrollWidth") <= width
        homework.one_by_one()
        assert homework.page.evaluate("document.documentElement.scrollWidth") <= width

    @pytest.mark.screen(width=390, height=844)
    def test_targets(self, homework: Homework):
        """Everything to press is at least 24 pixels high (WCAG 2.2, 2.5.8)."""
        homework.mark(WAVELENGTHS)
        homework.one_by_one()
        heights = homework.page.locator("#sheet").evaluate(HEIGHTS)

        assert [] == [height for height in heights if height < 24]


NAMES = """part => {
  const found = [], look = root => { for (const e of root.querySelectorAll("*")) {
    if (e.shadowRoot) look(e.shadowRoot);
    if (!e.matches("input, select, textarea, button, summary") || !e.checkVisibility()) continue;
    const label = e.labels?.length ? [...e.labels].map(l => l.textContent).join(" ") : "";
    found.push(e.getAttribute("aria-label") ?? (label || e.textContent));
  } };
  look(part);
  return found;
}"""
HEIGHTS = """part => {
  const found = [], look = root => { for (const e of root.querySelectorAll("*")) {
    if (e.shadowRoot) look(e.shadowRoot);
    if (!e.matches("input:not([type=radio]), select, textarea, button, summary, label:has([type=radio])")) continue;
    if (e.checkVisibility()) found.push(e.getBoundingClientRect().height);
  } };
  look(part);
  return found;
}"""
