"""A sample of simulated students takes every lesson; `python -m tests.bench.slips` plays many more.

What they write is worked out in tests/bench/students, apart from the lessons.
"""

from functools import cache

import pytest

from lessons import catalogue
from lessons.grammar.lesson import Lesson
from tests.bench.slips import Tally, goal_lines, tally
from tests.bench.students import TAKERS

STUDENTS = 2500
PLAYED = [pytest.param(lesson, id=lesson.key) for lesson in catalogue() if lesson.key in TAKERS]


@cache
def sample(lesson: Lesson) -> Tally:
    """The same students for every test."""
    return tally(lesson, STUDENTS)


@pytest.mark.parametrize("lesson", PLAYED)
class TestSample:
    def test_goals(self, lesson):
        """Mistakes that can be told apart are named, hardly ever wrongly; right answers and what follows pass."""
        missed = [one for one in sample(lesson).goals() if not one.nearly_met]

        assert [] == list(goal_lines(missed))

    def test_every_mistake_of_the_lesson_has_its_students(self, lesson):
        """No mistake that the lesson knows goes unplayed, and nobody plays one that it does not know."""
        known = {(key.split(".")[0], slip.key) for key, one in lesson.fields.items() for slip in one.slips}
        played = {(one.field.split(".")[0], one.slip) for one in sample(lesson).of("slip")}

        assert set() == played - known
        assert set() == known - played

    def test_reading_errors_are_no_method(self, lesson):
        """A value that is merely misread, or out of the blue, is never said to look like a mistake of method."""
        sure = [one for one in sample(lesson).of("misread", "number") if one.opening == "sure"]

        assert [] == sure

    def test_what_is_on_no_list_is_rarely_named(self, lesson):
        """A mistake that the lesson does not know is named as another only where a window of that one holds it."""
        unlisted = sample(lesson).of("unlisted")
        named = [one for one in unlisted if one.outcome == "other" and not one.covered]

        assert len(named) <= 0.02 * len(unlisted)


class TestTheTally:
    def test_it_can_fail(self):
        """A lesson that names nothing misses the goals: the count is of verdicts, not of hopes."""
        lesson = catalogue().usual
        answers = tuple(
            type(one)(one.doing, one.field, one.slip, one.kind, "unnamed") for one in sample(lesson).answers
        )
        missed = {one.what for one in Tally(answers).goals() if not one.nearly_met}

        assert {"told apart: named", "right answers refused", "follow-through, typed"} <= missed
