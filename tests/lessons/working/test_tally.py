"""What went wrong over several sheets, and where a student stands."""

from datetime import date

from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.working.progress import Progress
from lessons.working.sheet import Sheet
from lessons.working.standing import standings
from lessons.working.tally import RECENT, failed_steps, judged, summed_up, tried
from tests.lessons.solving import problem

FRESH = Sheet(LESSON, problem(60 - 80j))
RIGHT = FRESH.enter("normalise", "1.2-1.6j")
WRONG = FRESH.enter("normalise", "7").enter("normalise", "1.2-1.6j")
TODAY = date(2026, 11, 26)


def outcomes(sheet: Sheet) -> list[str]:
    """What each thing done on a sheet was."""
    return [one.outcome for one in judged(sheet)]


class TestJudged:
    def test_entries(self):
        """Each entry is judged, also those that another has taken the place of."""
        sheet = WRONG.enter("place", "rubbish").hint("place").enter("place", "0.593 < -46.8")

        assert ["not right", "right", "not read", "", "right"] == outcomes(sheet)

    def test_after_a_carried_value(self):
        """What followed from a wrong value that was put right since is not held to be wrong."""
        carried = FRESH.enter("normalise", "1.2+1.6j").carry("normalise").enter("place", "0.593 < 46.8")
        assert "right" == carried.verdicts["place"].judgement
        mended = carried.enter("normalise", "1.2-1.6j")

        assert ["not right", "", "", "right"] == outcomes(mended)

    def test_undone(self):
        """What was taken back was tried all the same, and a step shown and taken back went wrong."""
        undone, shown = FRESH.enter("normalise", "7").undone, FRESH.reveal("place").undone

        assert undone is not None
        assert ["not right", ""] == outcomes(undone)
        assert shown is not None
        assert {"place": True} == failed_steps(shown)


class TestFailed:
    def test_wrong_and_shown(self):
        """A step went wrong where an entry was not right, or the answer was shown; a typing error is none."""
        shown = RIGHT.reveal_step("place")

        assert {"normalise": True} == failed_steps(WRONG)
        assert {"normalise": False, "place": True} == failed_steps(shown)
        assert {} == failed_steps(FRESH.enter("normalise", "rubbish"))

    def test_worked_for_the_student(self):
        """Steps that the tutor worked are nobody's fault."""
        assert {} == failed_steps(Sheet(LESSON, problem(60 - 80j), shown=5))

    def test_most_first(self):
        """The step that failed most comes first, and one that never did not at all."""
        slipped = RIGHT.enter("place", "0.1 < 10").enter("place", "0.593 < -46.8")
        found = tried([summed_up(one, False) for one in (WRONG, WRONG, slipped)])

        assert [("normalise", 2, 3), ("place", 1, 1)] == [
            (one.step.key, one.failed, one.times) for one in found
        ]

    def test_what_was_learnt_since(self):
        """A step that went right often enough since is no longer one to drill."""
        wrong, right = summed_up(WRONG, False), summed_up(RIGHT, False)

        assert [] != tried([wrong, *[right] * (RECENT - 1)])
        assert [] == tried([wrong, *[right] * RECENT])


class TestStanding:
    def state(self, progress: Progress, *sheets: Sheet) -> str:
        """Where a student stands in the first lesson."""
        kept = [summed_up(one, False) for one in sheets]
        found = standings(CATALOGUE, {LESSON.key: progress}, kept, TODAY)
        return next(one.state for one in found if one.lesson is LESSON)

    def test_states(self):
        """New, begun, solid until two days have gone by, then due until the review is done, and so after seven."""
        mastered = Progress(mastered="2026-11-25", run=3)

        assert "new" == self.state(Progress())
        assert "begun" == self.state(Progress(), RIGHT)
        assert "begun" == self.state(Progress(worked=1))
        assert "solid" == self.state(mastered)
        assert "due" == self.state(Progress(mastered="2026-11-24"))
        assert "solid" == self.state(Progress(mastered="2026-11-24", reviews=1))
        assert "due" == self.state(Progress(mastered="2026-11-19", reviews=1))
        assert "solid" == self.state(Progress(mastered="2026-01-01", reviews=2))

    def test_drills(self):
        """What goes wrong in a drill counts toward what to drill, but a drill is no problem begun."""
        all_of_them = standings(CATALOGUE, {}, [summed_up(WRONG, True)], TODAY)
        found = next(one for one in all_of_them if one.lesson is LESSON)

        assert ["normalise"] == [one.step.key for one in found.weak]
        assert (0, 0, "new") == (found.begun, found.solved, found.state)
