"""The self-check's sitting and what it shows: nothing unasked, nothing lost, and no message that can break it."""

import json
from typing import Any

import pytest

from app.check.marked_page import check_page
from app.check.page import ACTIONS, CheckDesk, Checking
from app.parts.messages.working import MarkedWorking
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.homework.working import LONGEST_WORKING, Working
from tests.lessons.homework.examples import HOMEWORKS, TEXTS, WAVELENGTHS
from tests.lessons.solving import read_problem

WRONG = "z = 1.3-1.7j\nSWR = 3\ny = 0.5+0.6j\ny1 = 1+j1.2\nd near = 0.15\nl near = 0.2"
ANSWERS = ("1.200", "3.91", "0.300", "0.400", "1.472", "0.110", "0.095", "0.259", "0.405")


def checking(text: str = "") -> Checking:
    """A sitting with the problem of the homework and a text."""
    return Checking(CATALOGUE, working=Working(LESSON, read_problem(TEXTS).problem, text=text), chosen=True)


def shown(page: object) -> str:
    """Every text of a page, but for those that say how things are written."""
    if isinstance(page, dict):
        return " ".join(
            shown(value) for key, value in page.items() if key not in ("glossary", "example", "choices")
        )
    return " ".join(map(shown, page)) if isinstance(page, list) else str(page)


class Told:
    """A desk that keeps what it tells the browser."""

    def __init__(self, sitting: Checking) -> None:
        self.desk = CheckDesk(sitting)
        self.pages: list[dict[str, Any]] = []
        self.faults: list[tuple[str, dict[str, str]]] = []
        self.desk.view.show = self.pages.append  # type: ignore[method-assign, assignment]
        self.desk.view.faults = lambda form, faults: self.faults.append((form, faults))  # type: ignore[method-assign]

    def do(self, **said: Any) -> None:
        """Send what a browser sends."""
        self.desk.do(said)


class TestPage:
    @pytest.mark.parametrize("text", [text for text, _ in HOMEWORKS.values()], ids=HOMEWORKS)
    def test_is_plain_data(self, text: str):
        """A page is plain data that goes through JSON unchanged, with every key of its description and no other."""
        page = check_page(checking(text).working, CATALOGUE)
        written = json.dumps(page, allow_nan=False)

        assert written == json.dumps(json.loads(written))
        assert MarkedWorking.__required_keys__ == set(page)

    def test_reveals_nothing(self):
        """No solver's value is on the page of a wrong working."""
        page = shown(check_page(checking(WRONG).working, CATALOGUE))

        assert [] == [answer for answer in ANSWERS if answer in page]

    def test_reveals_what_is_asked(self):
        """What is asked for is on the page, and nothing else."""
        sitting = checking(WRONG)
        sitting.ask("distance.near")
        page = shown(check_page(sitting.working, CATALOGUE))

        assert "The solver's value is 0.110 λ." in page
        assert "1.200" not in page

    def test_summary(self):
        """The summary counts what is right, what is not, and what could not be read."""
        summary = check_page(checking(WAVELENGTHS + "\nfoo = 3").working, CATALOGUE)["summary"]

        assert "10 of 12 lines right, 2 to look at again, 1 line not read." == summary
        assert "" == check_page(checking().working, CATALOGUE)["summary"]

    def test_praise_is_said_once(self):
        """The word of a verdict is not said again in its sentence."""
        lines = [
            line
            for step in check_page(checking(WAVELENGTHS).working, CATALOGUE)["steps"]
            for line in step["lines"]
        ]

        assert {
            "",
            "For your earlier values. They differ from the solver's further up; this step is not at fault.",
        } == {line["verdict"]["sentence"] for line in lines if line["verdict"]["judgement"] == "right"}


class TestDesign:
    def test_right(self):
        """A right design is told how near it is to a match, in wavelengths and millimetres."""
        (design,) = check_page(checking("d near = 0.113\nl near = 0.095").working, CATALOGUE)["designs"]

        assert ("✓", "Matched", False) == (
            design["verdict"]["sign"],
            design["verdict"]["word"],
            design["mayAsk"],
        )
        assert "standing-wave ratio of 1.0" in design["verdict"]["sentence"]
        assert "yours is 0.003 λ (0.6 mm) too long" in design["offs"][0]

    def test_wrong(self):
        """A wrong design is told its ratio, and how far it is off only when asked."""
        sitting = checking("d near = 0.110\nl near = 0.405")
        (before,) = check_page(sitting.working, CATALOGUE)["designs"]
        sitting.ask("design.near")
        (after,) = check_page(sitting.working, CATALOGUE)["designs"]

        assert ("✗", True, []) == (before["verdict"]["sign"], before["mayAsk"], before["offs"])
        assert "10.6" in before["verdict"]["sentence"]
        assert "the best l is 0.095 λ: yours is 0.190 λ (43.4 mm) too short" in after["offs"][1]

    def test_without_a_frequency(self):
        """Without a frequency there are no millimetres."""
        working = Working(
            LESSON, read_problem({"load": "60-80j", "line": "50"}).problem, text="d1 = 0.12\nl1 = 0.1"
        )

        assert "mm" not in shown(check_page(working, CATALOGUE)["designs"])


class TestProblem:
    def test_form(self):
        """A problem from the form is the one that is checked; a bad one leaves all as it was."""
        sitting = checking(WAVELENGTHS)

        assert "line" in sitting.open_problem({"load": "25-50j", "line": "-50"})
        assert 60 - 80j == sitting.working.problem["load"]
        assert {} == sitting.open_problem({"load": "25-50j", "line": "50"})
        assert 25 - 50j == sitting.working.problem["load"]

    def test_lines_come_along(self):
        """Lines are never lost to another problem: they come along, and it is said."""
        sitting = checking(WAVELENGTHS)
        sitting.open_shipped("whip-over-float")

        assert WAVELENGTHS == sitting.working.text
        assert "came along" in sitting.notices[0]

    def test_link(self):
        """A link brings its problem and notation; what it holds wrongly is said and left out."""
        sitting = Checking(CATALOGUE)
        sitting.open_link(
            {"load": "15+10j", "line": "50", "end": "open", "d": "s", "velocity": "7", "imaginary": "k"}
        )

        assert (15 + 10j, "open") == (sitting.working.problem["load"], sitting.working.problem["end"])
        assert "s" == sitting.working.notation.symbol("d")
        assert (True, True, 2) == (sitting.linked, sitting.chosen, len(sitting.notices))

    def test_notation(self):
        """Another notation reads the same text anew, and a bad one is refused beside its entry."""
        sitting = checking("s near = 39.7")

        assert {} == sitting.write_as({"d": "s", "length": "degrees"})
        assert "right" == sitting.working.lines[0].verdict.judgement
        assert {"decimals"} == set(sitting.write_as({"decimals": "many"}))


class TestKeeping:
    @pytest.mark.parametrize(("text", "notation"), HOMEWORKS.values(), ids=HOMEWORKS)
    def test_round_trip(self, text: str, notation: dict[str, str]):
        """What the browser keeps brings back the same working, asked values included."""
        sitting, other = checking(text), Checking(CATALOGUE)
        sitting.write_as(notation)
        sitting.ask("length.near")
        other.restore(json.loads(json.dumps(sitting.record())))

        assert sitting.working == other.working
        assert other.chosen

    @pytest.mark.parametrize(
        "record",
        [
            None, [], "x", {}, {"version": 2}, {"version": 1}, {"version": 1, "sheet": {}, "text": "", "asked": []},
            checking().record() | {"text": 3}, checking().record() | {"text": "x" * (LONGEST_WORKING + 1)},
        ],
    )  # fmt: skip
    def test_broken_record(self, record: object):
        """A record that cannot be read is said in a sentence, and what is on the desk stays."""
        sitting = checking(WAVELENGTHS)
        sitting.restore(record)

        assert WAVELENGTHS == sitting.working.text
        assert sitting.notices[0].endswith(".")

    @pytest.mark.parametrize("asked", [None, 3, ["x" * 100, 5, None], ["nonsense"], ["a"] * 1000])
    def test_broken_asking(self, asked: object):
        """Whatever a record asks to see beside that does not matter."""
        sitting = checking()
        sitting.restore(checking(WAVELENGTHS).record() | {"asked": asked})

        assert WAVELENGTHS == sitting.working.text
        assert "The solver's value" not in shown(check_page(sitting.working, CATALOGUE))


class TestDesk:
    def test_marks(self):
        """A marked text comes back with its verdicts."""
        told = Told(checking())
        told.do(do="mark", text=WAVELENGTHS)

        assert told.pages[-1]["summary"].startswith("10 of 12")
        assert WAVELENGTHS == told.pages[-1]["record"]["text"]

    def test_entries_on_top_of_a_text(self):
        """Single entries are marked on top of what stands in the box: neither way of writing loses the other."""
        told = Told(checking())
        told.do(do="entries", text="z = 1.2-1.6j", texts={"distance.near": "0.110"})

        assert "z = 1.2-1.6j\nd near = 0.110" == told.pages[-1]["text"]

    def test_too_long(self):
        """A text that is too long gets a sentence beside its box, and the page stays."""
        told = Told(checking(WAVELENGTHS))
        told.do(do="mark", text="x" * (LONGEST_WORKING + 1))

        assert [] == told.pages
        assert ("working", "at most") == (told.faults[0][0], told.faults[0][1]["text"].partition("; ")[2][:7])
        assert WAVELENGTHS == told.desk.checking.working.text

    @pytest.mark.parametrize(
        "said",
        [
            {"do": "nothing"}, {"do": "mark"}, {"do": "mark", "text": 3}, {"do": "entries", "text": ""},
            {"do": "entries", "text": "", "texts": {"nonsense": "1"}},
            {"do": "entries", "text": "", "texts": {"place": 1}},
            {"do": "ask", "key": "nonsense"}, {"do": "ask"}, {"do": "own problem", "texts": [1]}, {"do": "open"},
            {"do": "notation", "texts": {"d": None}}, {"do": "restore"},
        ],
    )  # fmt: skip
    def test_messages_of_no_page(self, said: dict[str, Any]):
        """A message that no page of ours sends changes nothing."""
        told = Told(checking(WAVELENGTHS))
        told.do(**said)

        assert WAVELENGTHS == told.desk.checking.working.text
        assert frozenset() == told.desk.checking.working.asked

    def test_every_action_is_known_to_the_page(self):
        """Each action has a form that its faults can be shown in, or none to show."""
        assert {"", "own", "working", "notation"} == {form for form, _ in ACTIONS.values()}

    def test_draws_what_was_entered(self):
        """The chart shows the student's own values, with the first wrong step at full strength."""
        told = Told(checking())
        told.do(do="mark", text="z = 1.2-1.6j\nSWR = 3\ny = 0.3+0.4j")
        groups = told.desk.stage.strokes

        assert ["place", "mismatch", "admittance"] == [group["key"] for group in groups]
        assert [False, True, False] == [group["current"] for group in groups]

    def test_points_tell_what_was_entered(self):
        """The table of points gives the z that was entered; y and the reflection only once they are."""
        desk = CheckDesk(checking())
        desk.checking.open_problem({"load": "60-80j", "line": "50"})
        desk.do({"do": "mark", "text": "z = 1.2 - 1.6j"})
        assert [["z L", "1.200 − j1.600", "…", "…", "…", "…"]] == desk.stage.points
        desk.do({"do": "mark", "text": "z = 1.2 - 1.6j\ny = 0.3 + 0.4j"})

        assert ["0.300 + j0.400"] * 2 == [row[2] for row in desk.stage.points]

    def test_a_load_that_cannot_be_matched(self):
        """A load that nothing matches still has its point and its circle on the chart."""
        desk = CheckDesk(checking())
        desk.checking.open_problem({"load": "j50", "line": "50"})
        desk.do({"do": "mark", "text": ""})

        assert ["point", "curve"] == [
            one["kind"] for group in desk.stage.strokes[:2] for one in group["strokes"]
        ]

    def test_millimetres_are_not_given_away(self):
        """The line drawing shows no millimetres before the student has come to them."""
        told = Told(checking())
        told.do(do="mark", text="d near = 0.110\nl near = 0.095")
        before = told.desk.drawing.picture["writing"]["wavelength_mm"]
        told.do(do="mark", text="d near = 0.110\nl near = 0.095\nd near = 25.1 mm")

        assert before is None
        assert told.desk.drawing.picture["writing"]["wavelength_mm"] is not None


class TestExchangedSymbols:
    LINES = "y = 1 + j1.04\nl_A = 0.36 wl\nl_B = 0.032 wl\nd_A = 0.1222 wl\nd_B = 0.3778 wl"

    def told(self) -> Told:
        """A desk with homework that calls the distance l and the stub's length d."""
        problem = read_problem({"load": "40+30j", "line": "100"}).problem
        return Told(Checking(CATALOGUE, working=Working(LESSON, problem, text=self.LINES), chosen=True))

    def test_offered_and_taken(self):
        """Symbols that are used the other way round are offered; taken, the page writes them so and remarks no more."""
        told = self.told()
        offer = check_page(told.desk.checking.working, CATALOGUE)["offer"]

        assert offer is not None
        assert "Use l for the distance and d for the stub length" == offer["words"]
        told.do(do="notation", texts=offer["texts"])
        page = told.pages[-1]
        assert page["offer"] is None
        assert "other way round" not in shown(page["remarks"])
        lengths = [one["lengths"].replace("\u00a0", " ") for one in page["designs"]]
        assert ["l = 0.032 λ; d = 0.378 λ", "l = 0.360 λ; d = 0.122 λ"] == lengths
        assert page["text"] == self.LINES

    def test_nothing_to_offer(self):
        """Symbols used as the course does are not offered."""
        problem = read_problem({"load": "40+30j", "line": "100"}).problem
        lines = self.LINES.translate(str.maketrans("ld", "dl")).replace("wd", "wl")

        assert check_page(Working(LESSON, problem, text=lines), CATALOGUE)["offer"] is None


@pytest.mark.parametrize("lesson", list(CATALOGUE), ids=lambda lesson: lesson.key)
def test_one_line_of_any_lesson(lesson):
    """A single line is marked in every lesson, though no value before it is known."""
    desk = CheckDesk(checking())
    desk.do({"do": "lesson", "key": lesson.key})
    desk.do({"do": "mark", "text": "z = 1"})

    assert "z = 1" == desk.checking.working.text
