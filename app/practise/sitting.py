"""One student's sitting: the sheet on the desk and where attention is. Nothing about how it looks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import SystemRandom
from typing import Any

import param

from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Problem, Side
from lessons.grammar.notation import Notation
from lessons.problems.seeds import random_problem, read_problem, shipped_problem, shipped_problems
from lessons.saved.links import read_link, sheet_from_link
from lessons.saved.records import BadRecord, notation_from, sheet_from_record, sheet_record
from lessons.working.progress import Progress
from lessons.working.sheet import Sheet

LESSONS = {LESSON.key: LESSON}


class Sitting(param.Parameterized):
    """What is on the desk. Every action gives a new sheet; whoever watches `sheet` shows it."""

    sheet: Sheet = param.ClassSelector(class_=Sheet, doc="The sheet being worked on.")
    guided = param.Boolean(False, doc="Whether the tutor works the problem, a step a press.")
    focus = param.String("", doc="Key of the field that a drawing on the chart would answer.")
    linked = param.Boolean(False, doc="Whether a link chose the problem.")
    brought = param.Boolean(False, doc="Whether a link brought a whole sheet.")
    notices = param.List([], item_type=str, doc="Sentences about what could not be opened or read.")
    progress: Progress = param.ClassSelector(class_=Progress, doc="What this student has mastered so far.")

    def __init__(self, **values: Any) -> None:
        values.setdefault("progress", Progress())
        values.setdefault("sheet", Sheet(LESSON, shipped_problems()[0]))
        super().__init__(**values)
        self.guided = self.progress.leading(len(self.sheet.steps)) >= len(self.sheet.steps)
        self._attend()

    # --- working on the sheet ---

    def enter(self, field: str, text: str) -> None:
        """Put a text in a field and have it checked."""
        self._work(self.sheet.enter(field, text))

    def carry(self, field: str) -> None:
        """Go on with a wrong value."""
        self._work(self.sheet.carry(field))

    def hint(self, step: str) -> None:
        """Take the next hint of a step."""
        self._work(self.sheet.hint(step))

    def show_next(self) -> None:
        """Have the tutor work the next step."""
        self._work(replace(self.sheet, shown=min(self.sheet.shown + 1, len(self.sheet.steps))))

    def solve_alone(self) -> None:
        """Leave the worked example: the same problem, on a clean sheet, every step the student's."""
        self.param.update(guided=False, sheet=self.sheet.start_over(), progress=self.progress.alone())
        self._attend()

    def start_over(self) -> None:
        """The same problem on a clean sheet."""
        self._open(self.sheet.problem)

    def _work(self, sheet: Sheet) -> None:
        finished_now = sheet.finished and not self.sheet.finished
        self.sheet = sheet
        if finished_now:
            self.progress = self.progress.after(sheet)
        self._attend()

    def attend(self, field: str) -> None:
        """Turn attention to a field, so that a drawing answers it. Raises KeyError for an unknown one."""
        self.focus = self.sheet.lesson.field(field).key

    @property
    def question(self) -> str:
        """What the field in focus asks, in words."""
        return self.sheet.work.say(self.sheet.lesson.field(self.focus).label) if self.focus else ""

    @property
    def side(self) -> Side:
        """The solution being worked on: that of the field in focus, else the one chosen, else the near one."""
        side = self.sheet.lesson.field(self.focus).side if self.focus else ""
        if side:
            return side
        return self.sheet.work["choose.which"] if self.sheet.settled("choose.which") else "near"

    def _attend(self) -> None:
        """Turn attention to the first open field of the current step."""
        step = self.sheet.current
        fields = [] if step is None else [f.key for f in step.fields if not self.sheet.settled(f.key)]
        self.focus = fields[0] if fields else ""

    # --- choosing what to work on ---

    def open_problem(self, texts: dict[str, str]) -> dict[str, str]:
        """Open the problem that these entries describe; or leave all as it is and give a sentence for each bad one."""
        reading = read_problem(texts)
        if not reading.faults:
            self._open(reading.problem)
        return reading.faults

    def open_link(self, query: dict[str, str]) -> None:
        """Open whatever a link holds; what it holds wrongly is said and left out."""
        if "sheet" in query:
            self._open_sheet(lambda: sheet_from_link(query["sheet"], LESSONS))
            self.brought = not self.notices
            return
        problem, notation, self.notices = read_link(query, self.sheet.problem)
        self.linked = "load" in query
        self.param.update(sheet=Sheet(LESSON, problem, notation), guided=self.guided and not self.linked)
        self._attend()

    def open_shipped(self, key: str) -> None:
        """Open one of the problems that come with the program."""
        problem = shipped_problem(key)
        if problem:
            self._open(problem)

    def open_random(self) -> None:
        """Open a new random problem."""
        self._open(random_problem(SystemRandom().randrange(1_000_000)))

    def write_as(self, texts: dict[str, str]) -> dict[str, str]:
        """Change the notation; or give a sentence for each entry that is none."""
        notation, faults = notation_from(texts)
        if not faults:
            self.sheet = replace(self.sheet, notation=notation)
        return faults

    def _open(self, problem: Problem) -> None:
        steps = LESSON.steps_of(problem)
        leading = self.progress.leading(len(steps))
        self.param.update(
            guided=leading >= len(steps),
            notices=[],
            sheet=Sheet(LESSON, problem, self.notation, shown=0 if leading >= len(steps) else leading),
        )
        self._attend()

    @property
    def notation(self) -> Notation:
        """How this student's course writes."""
        return self.sheet.notation

    # --- keeping it ---

    def record(self) -> dict[str, Any]:
        """All that the browser must keep to bring this sitting back."""
        return {"sheet": sheet_record(self.sheet), "guided": self.guided, "progress": self.progress.record()}

    def open_file(self, record: object) -> None:
        """Open a sheet that was saved to a file."""
        self._open_sheet(lambda: sheet_from_record(record, LESSONS))

    def _open_sheet(self, read: Callable[[], Sheet]) -> None:
        try:
            self.param.update(sheet=read(), guided=False, notices=[])
        except BadRecord as fault:
            self.notices = [str(fault)]
        self._attend()

    def restore(self, record: object) -> None:
        """Bring back a sitting from what the browser kept; a record that cannot be read is said and left."""
        try:
            if not isinstance(record, dict):
                raise BadRecord("What was kept of your sheet cannot be read, so this is a fresh one.")
            sheet = sheet_from_record(record.get("sheet"), LESSONS)
        except BadRecord as fault:
            self.notices = [str(fault)]
            return
        progress = Progress.from_record(record.get("progress"))
        self.param.update(sheet=sheet, guided=record.get("guided") is True, progress=progress)
        self._attend()
