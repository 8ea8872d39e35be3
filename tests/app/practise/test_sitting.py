"""One student's sitting: what it opens, keeps and brings back."""

from dataclasses import replace

import pytest

from app.practise.page import Desk
from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting
from lessons.grammar.difficulty import DIFFICULTIES, Difficulty
from lessons.working.progress import Worked
from tests.app.shunt import sitting as a_sitting
from tests.lessons.solving import answers, random_problem


def branch_of(sitting: Sitting) -> str | None:
    """Key of the solution that is worked on."""
    return sitting.branch.key if sitting.branch else None


@pytest.fixture
def sitting() -> Sitting:
    """A sitting on which a student works alone on a linked problem."""
    made = a_sitting()
    made.open_link({"load": "60-80j", "line": "50"})
    return made


class TestFirstVisit:
    def test_is_guided(self):
        """A newcomer is shown a worked example, and can take over."""
        made = a_sitting()
        assert made.guided
        made.choose_worked("none")

        assert not made.guided
        assert made.sheet.shown == 0

    def test_shows_a_step_a_press(self):
        """Each press works one more step and explains it."""
        made = a_sitting()
        made.show_next()
        page = sheet_page(made)

        assert [bool(step["worked"]) for step in page["steps"]] == [True, False]
        assert page["steps"][0]["done"]


LINKED = {"load": "60-80j", "line": "50"}


class TestHowMuchIsWorked:
    """The student sees and chooses how much of a problem the tutor works."""

    @pytest.fixture
    def after_an_example(self) -> Sitting:
        """A sitting after the worked example, when the tutor would work all but the last steps of the next problem."""
        made = a_sitting()
        while made.sheet.current:
            made.show_next()
        return made

    def test_an_own_problem_is_unworked(self, after_an_example: Sitting):
        """After the worked example, a problem that the student types in opens with nothing worked."""
        after_an_example.open_problem(LINKED)

        assert (0, False) == (after_an_example.sheet.shown, after_an_example.guided)
        assert "none" == sheet_page(after_an_example)["worked"]["chosen"]

    def test_a_linked_problem_is_unworked(self, after_an_example: Sitting):
        """After the worked example, a problem from a link opens with nothing worked."""
        after_an_example.open_link(LINKED)

        assert "none" == sheet_page(after_an_example)["worked"]["chosen"]
        assert [] == [
            one["text"] for s in sheet_page(after_an_example)["steps"] for one in s["fields"] if one["text"]
        ]

    def test_a_problem_of_the_course_fades(self, after_an_example: Sitting):
        """After the worked example, the first steps of the next problem of the course are worked."""
        after_an_example.open_random()

        assert "first" == after_an_example.worked

    @pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
    def test_as_hard_as_the_page_says(self, difficulty: Difficulty):
        """A random problem is of the difficulty that the page names, and kept with what it takes to draw it again."""
        desk = Desk(a_sitting())
        desk.do({"do": "random", **difficulty.texts})
        problem = desk.sitting.sheet.problem
        seed = int(problem.key.split("-")[1])

        assert problem == random_problem(seed, difficulty=difficulty)
        assert problem.key == desk.sitting.record()["sheet"]["problem"]["key"]

    @pytest.mark.parametrize("worked", ["all", "first", "none"])
    def test_choosing(self, sitting: Sitting, worked: Worked):
        """What the student chooses is so on this sheet and in the next problem of the course."""
        sitting.choose_worked(worked)
        assert worked == sitting.worked
        sitting.open_random()

        assert worked == sitting.worked

    def test_own_answers_stay(self, sitting: Sitting):
        """Choosing how much is worked loses no answer."""
        sitting.enter("normalise", "1.2-1.6j")
        for worked in ("first", "all", "none"):
            sitting.choose_worked(worked)

        assert "1.2-1.6j" == sitting.sheet.text("normalise")

    @pytest.mark.parametrize("worked", ["all", "first", "none"])
    def test_starting_over_keeps_it(self, sitting: Sitting, worked: Worked):
        """Starting over empties the sheet and keeps how much is worked."""
        sitting.choose_worked(worked)
        sitting.start_over()

        assert worked == sitting.worked

    def test_going_on_with_the_example_from_the_middle(self, sitting: Sitting):
        """Who has begun alone and wants the rest worked is shown the next step, not the first."""
        sitting.enter("normalise", "1.2-1.6j")
        sitting.enter("place", "0.1 < 10")
        sitting.choose_worked("all")
        sitting.show_next()

        assert sitting.sheet.current is not None
        assert "mismatch" == sitting.sheet.current.key

    def test_alone_stays_alone(self, sitting: Sitting):
        """Who solved a whole problem of their own is not given worked steps in the next."""
        for key, text in answers(sitting.sheet.truth, sitting.sheet).items():
            sitting.enter(key, text)
        sitting.open_random()

        assert "none" == sitting.worked


class TestUndo:
    """One press takes back the last thing that was done."""

    def test_an_entry(self, sitting: Sitting):
        """A wrong entry is taken back, and what stood there before is there again."""
        sitting.enter("normalise", "1.2-1.6j")
        sitting.enter("normalise", "60-80j")
        sitting.undo()

        assert "1.2-1.6j" == sitting.sheet.text("normalise")

    def test_starting_over(self, sitting: Sitting):
        """A sheet started over by mistake comes back whole."""
        sitting.enter("normalise", "1.2-1.6j")
        sitting.hint("place")
        before = sheet_page(sitting)["steps"]
        sitting.start_over()
        assert "starting over" == sheet_page(sitting)["undo"]
        sitting.undo()

        assert before == sheet_page(sitting)["steps"]

    def test_nothing_to_undo(self, sitting: Sitting):
        """On a clean sheet nothing is offered to be undone."""
        sitting.undo()

        assert "" == sheet_page(sitting)["undo"]

    def test_a_sheet_whose_story_is_not_known(self, sitting: Sitting):
        """Of a sheet kept before attempts were, nothing is taken back that could not be brought again."""
        sitting.enter("normalise", "1.2-1.6j")
        sitting.sheet = replace(sitting.sheet, attempts=())
        sitting.enter("place", "0.1 < 10")
        sitting.undo()

        assert "1.2-1.6j" == sitting.sheet.text("normalise")


class TestFocus:
    def test_moves_to_the_next_open_field(self, sitting: Sitting):
        """After an answer, attention is on the next open field."""
        sitting.enter("normalise", "1.2-1.6j")

        assert sitting.focus == "place"
        assert sitting.question == "Reflection coefficient Γ"

    def test_side(self, sitting: Sitting):
        """The line drawing follows the solution that is worked on."""
        assert branch_of(sitting) == "near"
        sitting.attend("distance.far")

        assert branch_of(sitting) == "far"


class TestLinks:
    def test_bad_values_are_said(self, sitting: Sitting):
        """A link with bad values opens what it can and says what it left out."""
        sitting.open_link({"load": "60-80j", "line": "abc", "decimals": "99"})

        assert len(sitting.notices) == 2
        assert sitting.sheet.problem["line"] == 50

    def test_a_broken_sheet(self, sitting: Sitting):
        """A broken sheet in a link is said, and the desk is as it was."""
        before = sitting.sheet
        sitting.open_link({"sheet": "nonsense"})

        assert before == sitting.sheet
        assert len(sitting.notices) == 1


class TestRecord:
    def test_round_trip(self, sitting: Sitting):
        """What the browser keeps brings the whole sitting back in another process."""
        sitting.enter("normalise", "60-80j")
        sitting.hint("normalise")
        other = a_sitting()
        other.restore(sitting.record())

        assert sheet_page(sitting) == sheet_page(other)

    @pytest.mark.parametrize("record", [None, [], {}, {"sheet": {"version": 99}}, {"sheet": "x"}])
    def test_unreadable(self, sitting: Sitting, record: object):
        """A record that cannot be read is said, and the sheet on the desk stays."""
        before = sitting.sheet
        sitting.restore(record)

        assert before == sitting.sheet
        assert sitting.notices[0].endswith(".")


class TestRefused:
    @pytest.mark.parametrize(
        ("load", "why"), [("j50", "takes no power"), ("0", "takes no power"), ("50", "matched already")]
    )
    def test_is_worked_to_where_it_ends(self, sitting: Sitting, load: str, why: str):
        """A load that cannot be matched, or is, has its first steps worked, and the reason why there are no more."""
        sitting.open_problem({"load": load, "line": "50"})
        page = sheet_page(sitting)

        assert ["normalise", "place", "mismatch"] == [step["key"] for step in page["steps"]][:3]
        assert all(step["done"] for step in page["steps"])
        assert why in page["refusal"]
        assert page["outcome"] is None


class TestOwnProblem:
    def test_faults_leave_the_sheet(self, sitting: Sitting):
        """A form with a bad entry gives its sentence and changes nothing."""
        before = sitting.sheet
        faults = sitting.open_problem({"load": "-50", "line": "50"})

        assert {"load"} == set(faults)
        assert before == sitting.sheet

    def test_symbols_of_a_course(self, sitting: Sitting):
        """A course's symbols stand in every text."""
        assert sitting.write_as({"d": "s", "l": "t"}) == {}
        sitting.attend("length.near")

        assert "stub length t" in sitting.question
