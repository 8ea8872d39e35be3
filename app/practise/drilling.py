"""What is on the desk, and the drill of one of its steps: that step alone, load after load."""

from __future__ import annotations

from collections.abc import Sequence
from random import SystemRandom

import param

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.numbers import quoted
from lessons.problems.drills import drill_sheet
from lessons.problems.seeds import TooRare
from lessons.saved.links import SEEDS, problem_texts
from lessons.working.drill import Drill, drilled
from lessons.working.sheet import Sheet

NO_LOADS = "No fresh loads were found for {step}: practise it within a whole problem."


def fresh_seed() -> int:
    """A seed that nobody knows beforehand."""
    return SystemRandom().randrange(SEEDS)


class Drilling(param.Parameterized):
    """A desk on which steps can be drilled."""

    catalogue: Catalogue
    sheet: Sheet = param.ClassSelector(class_=Sheet, doc="The sheet being worked on.")
    guided = param.Boolean(False, doc="Whether the tutor works the problem, a step a press.")
    drill = param.ClassSelector(
        class_=Drill, allow_None=True, doc="Of which step, where one is drilled alone."
    )
    notices = param.List([], item_type=str, doc="Sentences about what could not be opened or read.")

    def _attend(self) -> None:
        raise NotImplementedError

    def open_drill(self, step: str, difficulty: Difficulty = ANY) -> None:
        """Drill one step alone, on fresh loads. Passes over a step that the lesson does not have."""
        back = {} if self.drill else problem_texts(self.sheet.problem, self.catalogue)
        if drilled(self.sheet.lesson, step):
            self._next_load(Drill(step, back=back, difficulty=difficulty))

    def next_load(self) -> None:
        """Go on to the next load of a drill, from one that is done."""
        drill = self.drill.after(self.sheet) if self.drill and self.sheet.finished else None
        if drill:
            self._next_load(drill)

    def _open_linked_drill(self, key: str, difficulty: Difficulty) -> None:
        lesson, step = self.sheet.lesson, drilled(self.sheet.lesson, key.strip())
        if step:
            self._next_load(Drill(step.key, difficulty=difficulty), self.notices)
            return
        known = ", ".join(one.key for one in lesson.steps)
        self.notices = [
            *self.notices,
            f"This lesson has no step {quoted(key)} to drill; its steps are {known}.",
        ]

    def _next_load(self, drill: Drill, notices: Sequence[str] = ()) -> None:
        lesson = self.sheet.lesson
        step = drilled(lesson, drill.step)
        assert step is not None
        try:
            sheet = drill_sheet(fresh_seed(), lesson, step, self.sheet.notation, drill.difficulty)
        except TooRare:
            self.notices = [*notices, NO_LOADS.format(step=drill.difficulty.after(f"“{step.title}”"))]
            return
        self.param.update(drill=drill, guided=False, notices=list(notices), sheet=sheet)
        self._attend()
