"""A worked example first, then fewer and fewer worked steps; mastered after three problems without help."""

from dataclasses import replace
from datetime import date

import pytest

from lessons.course.shunt_stub import LESSON
from lessons.working.progress import FADING, Progress
from lessons.working.sheet import Sheet
from tests.lessons.solving import problem

STEPS = len(LESSON.steps_of(problem(60 - 80j)))


def solved(shown: int = 0, hints: int = 0) -> Sheet:
    """A sheet that a student finished, with the first steps shown, and some hints in the last."""
    sheet = Sheet(LESSON, problem(60 - 80j), shown=shown)
    for step in sheet.steps[shown:]:
        for field in step.fields:
            options = getattr(field.kind(sheet.truth), "options", None)
            sheet = sheet.enter(
                field.key, sheet.truth[field.key] if options else sheet.truth.write(field.key)
            )
    return replace(sheet, hints={sheet.steps[-1].key: hints} if hints else {})


class TestFading:
    def test_first_problem_is_worked(self):
        """The first problem is a worked example from end to end."""
        assert STEPS == Progress().leading(STEPS)

    def test_last_steps_come_first(self):
        """After the worked example the last steps are the student's own."""
        assert STEPS - FADING == Progress().after(solved(shown=STEPS)).leading(STEPS)

    def test_two_clean_steps_fade_more(self):
        """Two clean steps in a row give the student more steps next time."""
        seen = Progress().after(solved(shown=STEPS))

        assert STEPS - 2 * FADING == seen.after(solved(shown=STEPS - FADING)).leading(STEPS)

    def test_asking_to_solve_it_skips(self):
        """Who asks to solve it gets every step from then on."""
        assert Progress().alone().leading(STEPS) == 0


class TestMastery:
    def test_three_in_a_row(self):
        """Three problems in a row without help are mastery."""
        progress = Progress().alone()
        for _ in range(3):
            assert progress.mastered == ""
            progress = progress.after(solved())

        assert date.today().isoformat() == progress.mastered

    def test_a_hint_breaks_the_row(self):
        """A hint in one problem starts the count again."""
        progress = Progress().alone().after(solved()).after(solved()).after(solved(hints=1))

        assert progress.run == 0
        assert progress.mastered == ""

    @pytest.mark.parametrize(
        ("key", "wrong"), [("admittance", "0.7-0.9j"), ("length.near", "0.2"), ("mismatch", "9")]
    )
    def test_a_design_carried_on_wrong_does_not_count(self, key, wrong):
        """A wrong value carried on breaks the row, whether the design fails by it or matches all the same."""
        sheet = Sheet(LESSON, problem(60 - 80j))
        for one in (one for step in sheet.steps for one in step.fields):
            sheet = sheet.enter(one.key, wrong if one.key == key else sheet.work.write(one.key))
            sheet = sheet.carry(one.key) if one.key == key else sheet

        assert sheet.finished
        assert 0 == replace(Progress().alone(), run=2).after(sheet).run

    def test_worked_steps_do_not_count(self):
        """A problem whose first steps were shown does not count toward mastery."""
        assert Progress().alone().after(solved(shown=3)).run == 0


class TestReview:
    @pytest.mark.parametrize(
        ("reviews", "day", "due"),
        [(0, "2026-03-02", False), (0, "2026-03-03", True), (1, "2026-03-07", False), (1, "2026-03-08", True),
         (2, "2026-04-01", False)],
        ids=["day one", "day two", "before day seven", "day seven", "both done"],
    )  # fmt: skip
    def test_is_due(self, reviews: int, day: str, due: bool):
        """A review is due two and seven days after mastering."""
        progress = Progress(mastered="2026-03-01", reviews=reviews)

        assert due == progress.review_is_due(date.fromisoformat(day))


class TestRecord:
    def test_round_trip(self):
        """Progress comes back from its record."""
        progress = Progress(worked=1, own=8, run=2, mastered="2026-03-01", reviews=1)

        assert progress == Progress.from_record(progress.record())

    @pytest.mark.parametrize(
        "record", [None, [], "x", {"worked": "many"}, {"mastered": "soon"}, {"own": 1e400}]
    )
    def test_unreadable(self, record: object):
        """A record that cannot be read is a fresh start."""
        assert Progress() == Progress.from_record(record)
