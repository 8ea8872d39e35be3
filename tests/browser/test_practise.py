"""A student works a whole problem: by typing, by keyboard alone, with slips, hints, follow-through and a reload."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from playwright.sync_api import Page, expect

from tests.browser.desk import LINK, Desk, solved
from tests.browser.stage.board import Board
from tests.browser.waits import ready


@pytest.fixture
def desk(page: Page) -> Desk:
    """The practise page with the linked problem."""
    return Desk(page)


class TestTyping:
    def test_whole_problem(self, desk: Desk):
        """Every step typed with the solver's values is right, and the sheet ends matched at both solutions."""
        answers = solved(LINK)
        for key, text in answers.items():
            desk.answer(key, text)
            expect(desk.step(key.split(".")[0])).to_be_visible()

        closing = desk.page.locator(".closing")
        expect(closing).to_contain_text("1.01 (near) and 1.01 (far)")
        expect(desk.page.locator("li.done")).to_have_count(len({key.split(".")[0] for key in answers}))

    def test_a_finished_step_folds_to_one_line(self, desk: Desk):
        """A finished step shows its value on one line, and its entry again when opened."""
        desk.answer("normalise", "1.2-1.6j")

        done = desk.step("normalise")
        expect(done.locator("summary")).to_contain_text("1.200 − j1.600")
        expect(done.locator("input")).to_be_hidden()
        done.locator("summary").click()
        expect(done.locator("input")).to_be_visible()

    def test_a_finished_step_can_be_changed(self, desk: Desk):
        """A finished step can be opened and answered otherwise, and the steps after it are judged anew."""
        desk.solve_until("place")
        desk.step("normalise").locator("summary").click()
        desk.answer("normalise", "60-80j")

        expect(desk.verdict("normalise")).to_contain_text("leaving the load in ohms")


class TestSlips:
    def test_is_named(self, desk: Desk):
        """A slip is named as a likeness the first time, and as a fact the second."""
        desk.answer("normalise", "60-80j")
        expect(desk.verdict("normalise")).to_contain_text("This looks like leaving the load in ohms")
        desk.answer("normalise", "60 - j80")
        expect(desk.verdict("normalise")).to_contain_text("You are leaving the load in ohms")

    def test_wrong_way_round(self, desk: Desk):
        """A distance walked toward the load is called that."""
        desk.solve_until("susceptance.far")
        desk.answer("distance.near", "0.390")

        expect(desk.verdict("distance.near")).to_contain_text("walking toward the load")

    def test_follow_through(self, desk: Desk):
        """A wrong value that is carried costs its own step only: what follows from it is right."""
        desk.answer("normalise", "1.2+1.6j")
        desk.page.get_by_role("button", name="Go on with this value").click()
        desk.answer("place", "0.593 < 46.85")

        expect(desk.step("place")).to_have_class(re.compile("done"))
        desk.step("place").locator("summary").click()
        expect(desk.verdict("place")).to_contain_text("Right for your earlier values")
        expect(desk.step("normalise").locator("summary")).to_contain_text("carried")


class TestHints:
    def test_ladder(self, desk: Desk):
        """Four hints: the goal, the rule, the rule with the numbers, and the answer itself."""
        for rung in ("goal", "rule", "numbers"):
            desk.page.get_by_role("button", name=re.compile(f"Hint . of 4: the {rung}")).click()
        hints = desk.step("normalise").locator(".hints li")
        expect(hints).to_have_count(3)
        expect(hints.nth(2)).to_contain_text("divide both parts by 50")
        desk.page.get_by_role("button", name="Hint 4 of 4: the answer").click()

        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")
        expect(desk.step("place")).to_be_visible()


class TestWorked:
    def test_is_seen_and_chosen(self, desk: Desk):
        """How much is worked stands on the page; an own problem has nothing worked, and more can be had."""
        page = desk.page
        expect(page.get_by_role("radio", name="nothing")).to_be_checked()
        page.get_by_role("radio", name=re.compile("the first")).check()
        expect(desk.step("normalise")).to_have_class(re.compile("done"))
        page.get_by_role("radio", name="nothing").check()

        expect(desk.step("normalise")).not_to_have_class(re.compile("done"))

    def test_the_example_is_offered(self, desk: Desk):
        """An own problem offers to be worked as an example; who takes over is led to the entry."""
        page = desk.page
        page.get_by_role("button", name="Have it worked").click()
        page.get_by_role("button", name="Show this step").click()
        expect(desk.step("normalise")).to_contain_text("1.200 − j1.600")
        page.get_by_role("button", name="Let me solve it").click()

        expect(desk.entry("normalise")).to_be_focused()

    def test_begins_at_the_title(self, page: Page):
        """The page starts at its title, when it is loaded and when another problem is opened from its end."""
        desk = Desk(page)
        expect(page.locator("h2.title")).to_be_focused()
        desk.solve_until("place")
        page.reload()
        ready(page)
        expect(page.locator("h2.title")).to_be_focused()
        assert page.evaluate("scrollY") == 0
        page.get_by_role("button", name="Random problem").click()

        expect(page.locator("h2.title")).to_contain_text("Random")
        expect(page.locator("h2.title")).to_be_focused()


class TestGoingOn:
    def test_to_the_next_open_entry(self, desk: Desk):
        """After a right answer the focus is in the next open entry, of the same step or the next."""
        desk.solve_until("unit_circle")
        desk.answer("crossing.near", solved(LINK)["crossing.near"])
        expect(desk.entry("crossing.far")).to_be_focused()
        desk.answer("crossing.far", solved(LINK)["crossing.far"])

        expect(desk.entry("susceptance.near")).to_be_focused()

    def test_undo(self, desk: Desk):
        """One press takes back starting over, and a further one the entry before it."""
        desk.answer("normalise", "1.2-1.6j")
        desk.page.get_by_role("button", name="Start over").click()
        expect(desk.step("normalise")).not_to_have_class(re.compile("done"))
        desk.page.get_by_role("button", name="Undo starting over").click()
        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")
        desk.page.get_by_role("button", name="Undo the entry").click()

        expect(desk.entry("normalise")).to_have_value("")

    def test_menus_keep_their_row(self, desk: Desk):
        """A menu that opens leaves the row of menus where it was."""
        page = desk.page
        row = page.locator(".desk > button")
        before = [row.nth(i).bounding_box() for i in range(row.count())]
        page.get_by_role("button", name="Problems").click()
        expect(page.locator("#menu-problems .choices")).to_be_visible()

        assert before == [row.nth(i).bounding_box() for i in range(row.count())]


class TestExplaining:
    def test_a_term(self, desk: Desk):
        """A term is explained where it stands, at a press of the keys, and closed again."""
        desk.solve_until("mismatch")
        term = desk.step("admittance").get_by_role("button", name="admittance", exact=True).first
        term.press("Enter")
        expect(desk.step("admittance").get_by_role("note")).to_contain_text("One over the impedance")
        term.press("Enter")

        expect(desk.step("admittance").get_by_role("note")).to_have_count(0)

    def test_problems_say_what_is_done(self, desk: Desk):
        """In the list of problems stand their loads, and how far one has come in them, those begun first."""
        page = desk.page
        page.get_by_role("button", name="Problems").click()
        first = page.locator("#menu-problems .choices li button").nth(1)
        expect(first).to_contain_text("Ω")
        first.click()
        expect(page.get_by_role("radio", name="all, a step a press")).to_be_checked()
        page.get_by_role("radio", name="nothing").check()
        desk.answer("normalise", "1")
        page.get_by_role("button", name="Problems").click()

        expect(page.locator("#menu-problems .choices li button").first).to_contain_text("begun")

    def test_a_link_is_copied(self, desk: Desk):
        """A link has a button that copies it, and says so."""
        desk.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
        desk.page.get_by_text("Keep and share").click()
        desk.page.get_by_role("button", name="Copy the link to this problem").click()
        expect(desk.page.locator(".copied").first).to_have_text("Copied.")

        assert "load=60-80j" in desk.page.evaluate("navigator.clipboard.readText()")

    def test_a_wrong_drawing_stays(self, desk: Desk):
        """A point drawn in the wrong place stays on the chart, marked as a slip, until it is put right."""
        desk.answer("normalise", "1.2-1.6j")
        desk.entry("place").focus()
        Board(desk.page).drag(0, 0.3 + 0.5j)
        expect(desk.entry("place")).not_to_have_value("")
        desk.page.locator('button[data-focus="check place"]').click()
        expect(desk.page.locator(".ink .mark.role-slip")).to_have_count(1)
        desk.answer("place", solved(LINK)["place"])

        expect(desk.page.locator(".ink .mark.role-slip")).to_have_count(0)


class TestEnding:
    def test_is_the_reward(self, desk: Desk):
        """At the end stand the curves of both solutions, why one is better here, and the same in figures."""
        desk.solve_until("millimetres.length")
        over = desk.page.get_by_role("region", name="Over frequency")
        expect(over.locator("svg .curve")).to_have_count(2)
        expect(over.locator(".why")).to_contain_text(
            "Here the near one has the wider band, 37.2 % against 11.9 %"
        )
        over.get_by_text("The same in figures").click()

        expect(over.get_by_role("row")).to_have_count(8)

    def test_the_frequency_is_played_with(self, desk: Desk):
        """With the keys the frequency is moved, and what is seen is read off; the band is for a limit of choice."""
        desk.solve_until("millimetres.length")
        over = desk.page.get_by_role("region", name="Over frequency")
        expect(over.locator(".reading")).to_contain_text("868.0 MHz (the design frequency)")
        slider = over.get_by_role("slider", name="Change the frequency")
        for _ in range(20):
            slider.press("ArrowRight")
        expect(over.locator(".reading")).to_contain_text("954.8 MHz (+10 %)")
        before = over.locator(".bands").inner_text()
        over.get_by_label("Band within").select_option("3")

        expect(over.locator(".bands")).not_to_have_text(before)


class TestKeyboard:
    def test_whole_problem(self, desk: Desk):
        """A whole problem is solved with Tab, the arrow keys, Space and Enter alone."""
        page = desk.page
        for key, text in solved(LINK).items():
            entry = desk.entry(key).first
            expect(entry).to_be_visible()
            for _ in range(40):
                if page.evaluate(FOCUSED) == key:
                    break
                page.keyboard.press("Tab")
            assert page.evaluate(FOCUSED) == key
            if entry.get_attribute("type") == "radio":
                page.keyboard.press("Space")
                for _ in range(8):
                    if page.evaluate(CHOSEN) == text:
                        break
                    page.keyboard.press("ArrowDown")
                assert page.evaluate(CHOSEN) == text
            else:
                page.keyboard.type(text)
            page.keyboard.press("Enter")
            page.wait_for_function(SETTLED, arg=key)

        expect(page.locator(".closing")).to_contain_text("1.01 (near)")


class TestKeeping:
    def test_reload(self, desk: Desk):
        """A reload in the middle brings back every answer, and what was typed but not yet checked."""
        desk.solve_until("crossing.near")
        desk.entry("crossing.far").fill("1.0 - j1.")
        desk.page.reload()
        ready(desk.page)

        expect(desk.step("admittance").locator("summary")).to_contain_text("0.300 + j0.400")
        expect(desk.entry("crossing.near")).to_have_value("1.000 + j1.472")
        expect(desk.entry("crossing.far")).to_have_value("1.0 - j1.")

    def test_another_problem_and_back(self, desk: Desk):
        """A sheet left for another problem is as it was when its problem is opened again."""
        desk.answer("normalise", "1.2-1.6j")
        desk.page.get_by_role("button", name="Random problem").click()
        expect(desk.step("normalise")).not_to_have_class(re.compile("done"))
        desk.open()

        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")


class TestCarrying:
    def test_file(self, desk: Desk, tmp_path: Path):
        """A sheet saved to a file and opened again, on a page with another problem, is the same sheet."""
        page = desk.page
        desk.solve_until("mismatch")
        page.get_by_text("Keep and share").click()
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the sheet to a file").click()
        saved = tmp_path / "sheet.json"
        download.value.save_as(saved)
        page.get_by_role("button", name="Random problem").click()
        expect(desk.step("normalise")).not_to_have_class(re.compile("done"))
        page.get_by_label("Open a sheet from a file").set_input_files(saved)

        expect(desk.step("mismatch").locator("summary")).to_contain_text("3.91")

    def test_link(self, desk: Desk):
        """A link holds a whole sheet, for a browser that has kept nothing."""
        desk.solve_until("mismatch")
        desk.page.get_by_text("Keep and share").click()
        address = desk.page.get_by_role("textbox", name="Link to the whole sheet").input_value()
        desk.page.evaluate("localStorage.clear()")
        desk.page.goto(address)
        ready(desk.page)

        expect(desk.step("mismatch").locator("summary")).to_contain_text("3.91")

    def test_link_to_a_problem_one_has_worked_on(self, desk: Desk):
        """A linked sheet does not destroy one's own sheet of the same problem: it can be brought back."""
        desk.solve_until("mismatch")
        desk.page.get_by_text("Keep and share").click()
        address = desk.page.get_by_role("textbox", name="Link to the whole sheet").input_value()
        desk.answer("admittance", "0.3+0.4j")
        expect(desk.step("admittance")).to_have_class(re.compile("done"))
        desk.page.goto("about:blank")
        desk.page.goto(address)
        ready(desk.page)
        expect(desk.step("admittance")).not_to_have_class(re.compile("done"))
        desk.page.get_by_role("button", name="Bring it back").click()

        expect(desk.step("admittance").locator("summary")).to_contain_text("0.300 + j0.400")

    @pytest.mark.parametrize("what", ["chart", "worked sheet"])
    def test_drawings(self, desk: Desk, what: str):
        """The chart and the worked sheet are saved as vector files that hold what was entered."""
        desk.solve_until("admittance")
        desk.page.get_by_text("Keep and share").click()
        with desk.page.expect_download() as download:
            desk.page.get_by_role("button", name=f"Save the {what} as SVG").click()
        words = "".join(ElementTree.parse(download.value.path()).getroot().itertext())

        assert "1.20 − j1.60" in words or "1.200 − j1.600" in words

    @pytest.mark.parametrize(
        "content", ["", "no sheet", "[]", '{"version": 99}', "[" * 100_000], ids=str.__len__
    )
    def test_a_file_that_is_no_sheet(self, desk: Desk, tmp_path: Path, content: str):
        """A file that is no sheet gets a sentence, and the sheet on the desk stays."""
        desk.answer("normalise", "1.2-1.6j")
        other = tmp_path / "other.json"
        other.write_text(content)
        desk.page.get_by_text("Keep and share").click()
        desk.page.get_by_label("Open a sheet from a file").set_input_files(other)

        expect(desk.page.locator(".notice")).to_have_text(re.compile(r"\.$"))
        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")


class TestBadInput:
    @pytest.mark.parametrize("text", ["abc", "1e999", "nan", "x" * 10_000, "<script>alert(1)</script>", ""])
    def test_an_entry(self, desk: Desk, text: str):
        """What cannot be read gets one sentence beside the entry, and nothing on the sheet is lost."""
        desk.answer("normalise", "1.2-1.6j")
        desk.answer("place", text)

        expect(desk.verdict("place")).to_have_text(re.compile(r"^\? Not read [^.]+(\.[^ ][^.]*)*\.$"))
        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")
        expect(desk.entry("place")).to_have_value(text)

    @pytest.mark.parametrize(
        ("entry", "text"),
        [
            ("load", "-50"),
            ("load", "abc"),
            ("line", "0"),
            ("line", "nan"),
            ("frequency", "1e999"),
            ("velocity", "2"),
        ],
    )
    def test_own_load(self, desk: Desk, entry: str, text: str):
        """A bad value for one's own load gets its reason beside it, and the sheet stays."""
        desk.answer("normalise", "1.2-1.6j")
        desk.page.get_by_text("My own problem").click()
        desk.page.locator(f"#own-{entry}").fill(text)
        desk.page.get_by_role("button", name="Work on this problem").click()

        expect(desk.page.locator(f"#own-{entry}-fault")).to_have_text(re.compile(r"\.$"))
        expect(desk.step("normalise").locator("summary")).to_contain_text("1.200 − j1.600")

    def test_a_link(self, page: Page):
        """A link with bad values opens a page that can be used and says what was left out."""
        desk = Desk(page, {"load": "60-80j", "line": "-50", "frequency": "<script>"})

        expect(page.locator(".notice")).to_have_count(2)
        desk.answer("normalise", "1.2-1.6j")
        expect(desk.step("normalise")).to_have_class(re.compile("done"))

    @pytest.mark.parametrize("load", ["25j", "inf", "0"])
    def test_a_load_without_solution(self, page: Page, load: str):
        """A load that takes no power is explained, not refused with a fault."""
        Desk(page, {"load": load})

        expect(page.locator(".refusal")).to_contain_text("takes no power")


FOCUSED = """() => {
  let here = document.activeElement;
  while (here?.shadowRoot) here = here.shadowRoot.activeElement;
  return here?.dataset?.field ?? "";
}"""
CHOSEN = """() => {
  let here = document.activeElement;
  while (here?.shadowRoot) here = here.shadowRoot.activeElement;
  return here?.value ?? "";
}"""
SETTLED = """key => {
  const kept = JSON.parse(localStorage.getItem("halfturn.v1"));
  return kept.sheets[kept.last].record.sheet.entries[key] !== undefined;
}"""
