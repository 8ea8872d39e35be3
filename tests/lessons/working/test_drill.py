"""Drills: offered after two slips of one kind; five fresh loads; nothing of it counts as mastery."""

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar.notation import STANDARD
from lessons.problems.drills import drill_problem, drill_sheet
from lessons.problems.seeds import random_problem
from lessons.working.attempts import UNNAMED, Entry
from lessons.working.drill import LOADS, Drill, drilled, is_offered
from lessons.working.sheet import Sheet
from tests.lessons.solving import problem

STEP = {step.key: step for step in LESSON.steps}


def solved(sheet: Sheet) -> Sheet:
    """The sheet with the solver's answers in every open field."""
    for step in sheet.steps:
        for field in step.fields:
            if not sheet.settled(field.key):
                options = field.kind(sheet.truth).options
                sheet = sheet.enter(
                    field.key, str(sheet.truth[field.key]) if options else sheet.write(field.key)
                )
    return sheet


class TestOffered:
    def test_not_after_one(self):
        """One slip is named and left at that."""
        sheet = Sheet(LESSON, problem(60 - 80j)).enter("normalise", "60-80j")

        assert "slip" == sheet.verdicts["normalise"].judgement
        assert not is_offered(sheet, STEP["normalise"])

    def test_the_same_twice(self):
        """The same slip in another entry of the step, or again in this one, is two of one kind."""
        sheet = Sheet(LESSON, problem(60 - 80j)).enter("normalise", "60-80j").enter("normalise", "60.1-80j")

        assert is_offered(sheet, STEP["normalise"])
        assert not is_offered(sheet, STEP["place"])

    def test_in_both_branches(self):
        """A slip made once near and once far is made twice."""
        sheet = Sheet(LESSON, problem(60 - 80j), shown=5)
        entries = {f"distance.{side}": Entry("0.1", slips=("half",)) for side in ("near", "far")}
        both = Sheet(LESSON, sheet.problem, entries=entries, shown=5)

        assert is_offered(both, STEP["distance"])

    def test_unnamed(self):
        """What could have been one of several slips is none of one kind."""
        entries = {f"distance.{side}": Entry("0.1", slips=(UNNAMED,)) for side in ("near", "far")}

        assert not is_offered(Sheet(LESSON, problem(60 - 80j), entries=entries, shown=5), STEP["distance"])


DRAWN = {
    lesson.key: {step.key for seed in range(4) for step in lesson.steps_of(random_problem(seed, lesson))}
    for lesson in CATALOGUE
}
"""Steps that random problems ask for: some are there for odd problems alone."""


@pytest.mark.parametrize(
    ("lesson", "step"),
    [(lesson, step) for lesson in CATALOGUE for step in lesson.steps if step.key in DRAWN[lesson.key]],
    ids=lambda one: one.key,
)
class TestEveryStep:
    def test_alone(self, lesson, step):
        """Every step that random problems ask for can be drilled: it alone is left to do, and the sheet ends there."""
        sheet = drill_sheet(4, lesson, step, STANDARD)

        assert step is sheet.current is sheet.steps[-1]
        assert all(sheet.done(one) for one in sheet.steps[:-1])
        assert solved(sheet).finished

    def test_seeded(self, lesson, step):
        """A seed draws the same load again, and another seed another."""
        first, again, other = (drill_problem(seed, lesson, step) for seed in (4, 4, 5))

        assert first == again
        assert dict(first.givens) != dict(other.givens)


class TestDrill:
    def test_five_loads(self):
        """After five loads it is done, and it tells of each whether it went right at the first go."""
        drill: Drill | None = Drill("distance")
        for load in range(LOADS):
            sheet = drill_sheet(load, LESSON, STEP["distance"], STANDARD)
            assert drill is not None
            assert load + 1 == drill.number
            done = solved(sheet if load else sheet.hint("distance"))
            assert (False, True, True, True, True)[: load + 1] == drill.went_on(done)
            drill = drill.after(done)

        assert drill is None

    def test_record(self):
        """What is kept of a drill brings it back."""
        drill = Drill("distance", (True, False), {"load": "60-80j", "line": "50"})

        assert drill == Drill.from_record(drill.record(), LESSON)

    @pytest.mark.parametrize(
        "record",
        [
            None,
            [],
            {},
            {"step": "none such", "went": []},
            {"step": ["distance"], "went": []},
            {"step": "distance"},
            {"step": "distance", "went": "yes"},
            {"step": "distance", "went": [1]},
            {"step": "distance", "went": [True] * LOADS},
        ],
    )
    def test_damaged(self, record):
        """A record that is none is no drill."""
        assert Drill.from_record(record, LESSON) is None

    def test_damaged_back(self):
        """Where the way back cannot be read, the drill comes without one."""
        record = {"step": "distance", "went": [], "back": {"load": 3}}

        assert Drill("distance") == Drill.from_record(record, LESSON)

    def test_no_such_step(self):
        """A key that is no step's names none."""
        assert drilled(LESSON, "foo") is None
