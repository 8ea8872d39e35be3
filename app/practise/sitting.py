"""One student's sitting: the sheet on the desk and where attention is. Nothing about how it looks."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from typing import Any

import param

from app.practise.drilling import Drilling, fresh_seed
from lessons.grammar.branch import Branch
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.lesson import Impossible, Lesson
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.problems.places import Place
from lessons.problems.seeds import random_problem
from lessons.problems.sets import Shelf, problems_of, shipped_problem
from lessons.problems.texts import read_problem
from lessons.problems.variants import is_same
from lessons.saved.former import laid_aside
from lessons.saved.links import NO_SETS, read_difficulty, read_link, sheet_from_link
from lessons.saved.notations import notation_from
from lessons.saved.records import BadRecord, FromNewer, sheet_from_record, sheet_record
from lessons.working.attempts import MOST_ATTEMPTS
from lessons.working.drill import Drill
from lessons.working.progress import Progress, Worked, progress_by_lesson
from lessons.working.sheet import Sheet
from lessons.working.worked import with_steps_shown


class Sitting(Drilling):
    """What is on the desk. Every action gives a new sheet; whoever watches `sheet` shows it."""

    focus = param.String("", doc="Key of the field that a drawing on the chart would answer.")
    linked = param.Boolean(False, doc="Whether a link chose the problem.")
    asked = param.Boolean(False, doc="Whether a link chose the lesson, and no problem.")
    brought = param.Boolean(False, doc="Whether a link brought a whole sheet.")
    damaged = param.Boolean(False, doc="Whether the record that was to be brought back last cannot be read.")
    newer = param.Boolean(False, doc="Whether that is since a later version of the program made it.")
    mastery = param.Dict(
        {}, doc="What this student has mastered so far: a Progress by the key of its lesson."
    )

    def __init__(self, catalogue: Catalogue, sets: Shelf = NO_SETS, **values: Any) -> None:
        self.catalogue, self.sets = catalogue, sets
        self._place: Place | None = None
        self._drawn: dict[str, str] = {}  # what each field's last drawing wrote
        values.setdefault("sheet", self._first_sheet(catalogue.usual, STANDARD))
        super().__init__(**values)
        self.guided = self.progress.leading(len(self.sheet.steps)) >= len(self.sheet.steps)
        self._attend()

    def _first_sheet(self, lesson: Lesson, notation: Notation) -> Sheet:
        return Sheet(lesson, problems_of(lesson, self.catalogue)[0], notation)

    @property
    def progress(self) -> Progress:
        """How far the student has come in the lesson on the desk."""
        return self.mastery.get(self.sheet.lesson.key, Progress())

    def _mastered(self, progress: Progress) -> dict[str, Progress]:
        return {**self.mastery, self.sheet.lesson.key: progress}

    # --- working on the sheet ---

    def enter(self, field: str, text: str) -> None:
        """Put a text in a field and have it checked; one that a drawing wrote counts as drawn."""
        drawn = text and self._drawn.get(field) == text
        self._work(self.sheet.enter(field, text, "draw" if drawn else "enter"))

    def draw(self, field: str, drawn: Any) -> str:
        """What a finished drawing comes to in the field's box, for the student to check."""
        self._drawn[field] = self.sheet.in_writing(field, drawn)
        return self._drawn[field]

    def carry(self, field: str) -> None:
        """Go on with a wrong value."""
        self._work(self.sheet.carry(field))

    def hint(self, step: str) -> None:
        """Take the next hint of a step."""
        self._work(self.sheet.hint(step))

    def show_next(self) -> None:
        """Have the tutor work the next step."""
        step = self.sheet.current
        if step is not None:
            self._work(with_steps_shown(self.sheet, self.sheet.steps.index(step) + 1))

    @property
    def worked(self) -> Worked:
        """How much of this problem the tutor works."""
        return "all" if self.guided else "first" if self.sheet.shown else "none"

    def choose_worked(self, worked: Worked) -> None:
        """Have as much worked as the student wants, here and in the problems that follow. No entry is lost.

        In a drill all but its step is."""
        if self.drill:
            return
        steps = len(self.sheet.steps)
        first = self.progress.first_steps(steps)
        sheet = with_steps_shown(self.sheet, first if worked == "first" else 0)
        mastery = self._mastered(self.progress.choosing(worked, steps))
        self.param.update(guided=worked == "all", sheet=sheet, mastery=mastery)
        self._attend()

    def start_over(self) -> None:
        """The same problem on a clean sheet, as much of it worked as before."""
        shown = 0 if self.guided else self.sheet.shown
        self.param.update(sheet=replace(self.sheet.start_over(), shown=shown), notices=[])
        self._attend()

    def undo(self) -> None:
        """Take back the last thing that the student did, if it is known what was before."""
        before = self.sheet.undone if self.can_undo else None
        if before is not None:
            self.sheet = before
            self._attend()

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back, and what was before is likely to be known."""
        sheet, touched = self.sheet, {attempt.at for attempt in self.sheet.attempts}
        known = all(entry.revealed or key in touched for key, entry in sheet.entries.items())
        return known and sheet.last_done is not None and len(sheet.attempts) < MOST_ATTEMPTS

    def _work(self, sheet: Sheet) -> None:
        finished_now = sheet.finished and not self.sheet.finished
        self.sheet = sheet
        if finished_now and not self.drill:
            self.mastery = self._mastered(self.progress.after(sheet))
        self._attend()

    def attend(self, field: str) -> None:
        """Turn attention to a field, so that a drawing answers it. Raises KeyError for an unknown one."""
        self.focus = self.sheet.lesson.field(field).key

    @property
    def question(self) -> str:
        """What the field in focus asks, in words."""
        return self.sheet.work.say(self.sheet.lesson.field(self.focus).full_label) if self.focus else ""

    @property
    def branch(self) -> Branch | None:
        """The solution being worked on: that of the field in focus, else the one chosen, else the first one."""
        lesson, picking = self.sheet.lesson, self.sheet.lesson.picking_field
        if self.focus and (branch := lesson.field(self.focus).branch):
            return branch
        if picking and self.sheet.settled(picking.key):
            with suppress(Impossible):
                return self.sheet.work.chosen
        return next(iter(lesson.branches_of(self.sheet.problem)), None)

    def _attend(self) -> None:
        """Turn attention to the first open field of the current step."""
        step = self.sheet.current
        fields = [] if step is None else [f.key for f in step.fields if not self.sheet.settled(f.key)]
        self.focus = fields[0] if fields else ""

    # --- choosing what to work on ---

    def open_problem(self, texts: dict[str, str]) -> dict[str, str]:
        """Open the problem that these entries describe; or leave all as it is and give a sentence for each bad one."""
        reading = read_problem(texts, self.sheet.lesson)
        if not reading.faults:
            self._open(reading.problem, unworked=True)
        return reading.faults

    def open_link(self, query: dict[str, str]) -> None:
        """Open whatever a link holds; what it holds wrongly is said and left out."""
        if "sheet" in query:
            self.brought = self._open_sheet(lambda: sheet_from_link(query["sheet"], self.catalogue))
            return
        linked = read_link(query, self.catalogue, self.sets)
        self._place = linked.place
        self.notices, self.linked = list(linked.faults), linked.problem is not None
        if linked.problem is None:
            sheet = self._first_sheet(linked.lesson, linked.notation)
        else:
            sheet = Sheet(linked.lesson, linked.problem, linked.notation)
        self.asked = "lesson" in query and not linked.faults and not self.linked
        self.param.update(sheet=sheet, guided=self.guided and not self.linked)
        self._attend()
        if "drill" in query:
            self._open_linked_drill(query["drill"], read_difficulty(query)[0])

    @property
    def place(self) -> Place | None:
        """The place in a set that a link led to, as long as its problem is the one on the desk."""
        place = self._place
        return place if place and is_same(place.problem, self.sheet.problem) else None

    def open_lesson(self, key: str) -> None:
        """Open a lesson of the course, at its first problem."""
        lesson = self.catalogue.find(key)
        if lesson:
            self._open(problems_of(lesson, self.catalogue)[0])

    def open_shipped(self, key: str) -> None:
        """Open one of the problems that come with the program."""
        problem = shipped_problem(key, self.catalogue)
        if problem:
            self._open(problem)

    def open_random(self, difficulty: Difficulty = ANY) -> None:
        """Open a new random problem."""
        self._open(random_problem(fresh_seed(), self.sheet.lesson, difficulty=difficulty))

    def write_as(self, texts: dict[str, str]) -> dict[str, str]:
        """Change the notation; or give a sentence for each entry that is none."""
        notation, faults = notation_from(texts, self.sheet.lesson.symbols)
        if not faults:
            self.sheet = replace(self.sheet, notation=notation)
        return faults

    def _open(self, problem: Problem, unworked: bool = False) -> None:
        """Open a problem; one that is the student's own has nothing worked."""
        lesson = self.catalogue.find(problem.lesson) or self.sheet.lesson
        steps = len(lesson.steps_of(problem))
        leading = 0 if unworked else self.mastery.get(lesson.key, Progress()).leading(steps)
        guided = leading >= steps
        sheet = Sheet(lesson, problem, self.notation, shown=0 if guided else leading)
        self.param.update(guided=guided, notices=[], sheet=sheet, drill=None)
        self._attend()

    @property
    def notation(self) -> Notation:
        """How this student's course writes."""
        return self.sheet.notation

    # --- keeping it ---

    def record(self) -> dict[str, Any]:
        """All that the browser must keep to bring this sitting back."""
        progress = {key: one.record() for key, one in self.mastery.items()}
        state = "solved" if self.sheet.solved else "begun" if self.sheet.last_done else ""
        record = {
            "sheet": sheet_record(self.sheet),
            "guided": self.guided,
            "progress": progress,
            "state": state if not self.guided else "",
        }
        return record | {"state": "", "drill": self.drill.record()} if self.drill else record

    def open_file(self, record: object) -> None:
        """Open a sheet that was saved to a file."""
        self._open_sheet(lambda: sheet_from_record(record, self.catalogue))

    def _open_sheet(self, read: Callable[[], Sheet]) -> bool:
        """Put a sheet on the desk; where it cannot be read, leave all as it is and say so."""
        try:
            sheet = read()
        except BadRecord as fault:
            self.notices = [str(fault)]
            return False
        self.param.update(sheet=sheet, guided=False, notices=_kept_with(sheet), drill=None)
        self._attend()
        return True

    def recall(self, progress: object) -> None:
        """Learn how far the student has come, in whatever tab; a sheet that was not begun is then worked as is due."""
        self.mastery = {**self.mastery, **progress_by_lesson(progress, self.catalogue)}
        if not (self.linked or self.drill or self.sheet.attempts or self.sheet.shown):
            notices = self.notices
            self._open(self.sheet.problem)
            self.notices = notices

    def restore(self, record: object, progress: object = None) -> None:
        """Bring back a sitting from what the browser kept; a record that cannot be read is said and left."""
        try:
            if not isinstance(record, dict):
                raise BadRecord("What was kept of your sheet cannot be read, so this is a fresh one.")
            sheet = sheet_from_record(record.get("sheet"), self.catalogue)
        except BadRecord as fault:
            self.param.update(notices=[str(fault)], damaged=True, newer=isinstance(fault, FromNewer))
            return
        mastery = (
            progress_by_lesson(record.get("progress"), self.catalogue) | self.mastery
        )  # of today, not of then
        mastery |= progress_by_lesson(progress, self.catalogue)
        drill = Drill.from_record(record.get("drill"), sheet.lesson)
        guided = record.get("guided") is True
        notices = list(dict.fromkeys((*self.notices, *_kept_with(sheet))))
        self.param.update(
            sheet=sheet, guided=guided, mastery=mastery, damaged=False, drill=drill, notices=notices
        )
        self._attend()


def _kept_with(sheet: Sheet) -> list[str]:
    """What is to be said of a sheet that an earlier program made."""
    return [said] if (said := laid_aside(sheet)) else []
