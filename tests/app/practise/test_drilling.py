"""The drill on the practise page: from a slip, from a link, load after load and back again."""

from typing import Any

import pytest

from app.practise.page import Desk
from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.course.givens import has_instructive_swr
from lessons.grammar.difficulty import ANY, DIFFICULTIES, HARD, Difficulty
from lessons.grammar.problem import Problem
from lessons.working.drill import LOADS
from lessons.working.progress import Progress

PROBLEM = {"load": "60-80j", "line": "50"}


def linked(**query: str) -> Sitting:
    """A sitting that a link opened."""
    sitting = Sitting(CATALOGUE)
    sitting.open_link(query)
    return sitting


def instructive(problem: Problem, difficulty: Difficulty) -> bool:
    """Whether the load's standing-wave ratio is one of this difficulty."""
    return has_instructive_swr(problem["load"], problem["line"], difficulty)


def finish(sitting: Sitting) -> None:
    """Give the solver's answers to whatever is open."""
    while (step := sitting.sheet.current) is not None:
        for one in step.fields:
            options = one.kind(sitting.sheet.truth).options
            value = str(sitting.sheet.truth[one.key]) if options else sitting.sheet.write(one.key)
            sitting.enter(one.key, value)


class TestDrill:
    def test_offered(self):
        """After two slips of one kind the step offers its drill, and no other step does."""
        sitting = linked(**PROBLEM)
        sitting.enter("normalise", "60-80j")
        assert not sheet_page(sitting)["steps"][0]["drill"]
        sitting.enter("normalise", "60.1-80j")

        assert [True] == [step["drill"] for step in sheet_page(sitting)["steps"]]

    def test_five_fresh_loads(self):
        """Five loads come one after the other, each fresh; then there is no further one."""
        sitting = linked(drill="distance")
        loads = set()
        for number in range(1, LOADS + 1):
            assert number == sheet_page(sitting)["drill"]["number"]  # type: ignore[index]
            loads.add(str(dict(sitting.sheet.problem.givens)))
            sitting.next_load()  # nothing, before it is done
            finish(sitting)
            page = sheet_page(sitting)
            assert [True] * number == page["drill"]["went"]  # type: ignore[index]
            sitting.next_load()

        assert LOADS == len(loads)
        assert "5 of 5" in " ".join(page["outcome"]["sentences"])  # type: ignore[index]
        assert page["outcome"] == sheet_page(sitting)["outcome"]

    @pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
    def test_of_one_difficulty(self, difficulty: Difficulty):
        """All five loads are of the difficulty that the link asks for, also after a reload, and it is said."""
        sitting = linked(drill="distance", **difficulty.texts)
        for _ in range(LOADS):
            assert difficulty.after("") == sheet_page(sitting)["drill"]["difficulty"]  # type: ignore[index]
            assert sitting.sheet.problem.key.endswith("".join(difficulty.texts.values()))
            assert instructive(sitting.sheet.problem, difficulty)
            finish(sitting)
            again = Sitting(CATALOGUE)
            again.restore(sitting.record())
            again.next_load()
            sitting = again

    def test_a_record_made_before(self):
        """A drill that was kept before there was a choice goes on with any numbers, one of an unknown kind too."""
        sitting = linked(drill="distance", difficulty="hard")
        record = sitting.record()
        for made in ({}, {"difficulty": "of a later version"}):
            again = Sitting(CATALOGUE)
            drill = {key: value for key, value in record["drill"].items() if key != "difficulty"}
            again.restore({**record, "drill": drill | made})

            assert again.drill
            assert ANY == again.drill.difficulty

    def test_asked_for_on_the_page(self):
        """A drill that is begun on the page is as hard as the page says; where it says nothing, any numbers."""
        for said, difficulty in (({"difficulty": "hard"}, HARD), ({}, ANY)):
            desk = Desk(linked(**PROBLEM))
            desk.do({"do": "drill", "step": "distance", **said})

            assert desk.sitting.drill
            assert difficulty == desk.sitting.drill.difficulty == desk.sitting.sheet.problem.difficulty

    def test_no_mastery(self):
        """Whatever a drill comes to, progress stays as it was, and nothing is called solved or matched."""
        sitting = linked(drill="distance")
        sitting.recall({"shunt-stub": Progress(worked=1, own=99, run=2).record()})
        finish(sitting)
        outcome = sheet_page(sitting)["outcome"]

        assert 2 == sitting.progress.run
        assert outcome is not None
        assert not outcome["solved"]
        assert not any(word in str(outcome).lower() for word in ("matched", "standing-wave"))

    def test_bad_step(self):
        """A step that the lesson does not have gets a sentence, and the lesson opens."""
        sitting = linked(lesson="series-stub", drill="foo")

        assert sitting.drill is None
        assert "“foo”" in sitting.notices[0]
        assert "series-stub" == sitting.sheet.lesson.key

    def test_back(self):
        """From a problem the drill knows the way back to it."""
        sitting = linked(**PROBLEM)
        sitting.enter("normalise", "1.2-1.6j")
        sitting.open_drill("distance")
        assert PROBLEM == sheet_page(sitting)["drill"]["back"]  # type: ignore[index]
        sitting.open_problem(PROBLEM)

        assert sitting.drill is None

    def test_kept(self):
        """A drill in the middle comes back after a reload, with how its loads went."""
        sitting = linked(drill="distance")
        finish(sitting)
        sitting.next_load()
        again = Sitting(CATALOGUE)
        again.restore(sitting.record())

        assert (sitting.sheet, sitting.drill) == (again.sheet, again.drill)

    def test_how_much_is_worked(self):
        """In a drill all but its step stays filled in."""
        sitting = linked(drill="distance")
        before = sitting.sheet
        sitting.choose_worked("none")

        assert before == sitting.sheet

    @pytest.mark.parametrize("said", [{"do": "drill", "step": "none"}, {"do": "drill"}, {"do": "next load"}])
    def test_from_no_page_of_ours(self, said: dict[str, Any]):
        """What asks for a drill that there is not changes nothing."""
        desk = Desk(linked(**PROBLEM))
        before = desk.sitting.sheet
        desk.do(said)

        assert (before, None) == (desk.sitting.sheet, desk.sitting.drill)


class TestRecall:
    def test_worked_as_is_due(self):
        """A lesson that is known opens with as much worked as is due, not with the worked example again."""
        sitting = Sitting(CATALOGUE)
        assert sitting.guided
        sitting.recall({"shunt-stub": Progress(worked=1, own=4).record()})

        assert not sitting.guided
        assert len(sitting.sheet.steps) - 4 == sitting.sheet.shown

    def test_not_under_a_hand(self):
        """A sheet that was begun, or chosen by a link, stays as it is."""
        sitting = linked(**PROBLEM)
        sitting.recall({"shunt-stub": Progress(worked=1, own=4).record()})

        assert 0 == sitting.sheet.shown
        assert 4 == sitting.progress.own

    def test_of_today(self):
        """An old sheet does not bring back the progress of its day."""
        then, now = Sitting(CATALOGUE), Sitting(CATALOGUE)
        now.restore(
            then.record(), {"shunt-stub": Progress(worked=1, own=99, run=3, mastered="2026-11-25").record()}
        )

        assert "2026-11-25" == now.progress.mastered

    def test_nonsense(self):
        """What is no progress is none."""
        sitting = Sitting(CATALOGUE)
        records: list[object] = [None, 3, [], {"shunt-stub": {"run": "x"}}, {"none": {}}]
        for record in records:
            sitting.recall(record)

        assert Progress() == sitting.progress
