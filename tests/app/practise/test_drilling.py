"""The drill on the practise page: from a slip, from a link, load after load and back again."""

from typing import Any

import pytest

from app.practise.page import Desk
from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.working.drill import LOADS
from lessons.working.progress import Progress

PROBLEM = {"load": "60-80j", "line": "50"}


def linked(**query: str) -> Sitting:
    """A sitting that a link opened."""
    sitting = Sitting(CATALOGUE)
    sitting.open_link(query)
    return sitting


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
