"""The self-check view: a student's own working of any problem, marked line by line, with what it draws and achieves.

The same lesson, marking and sheet as in practice; only the order is the student's, and nothing is shown unasked.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, ClassVar

import param

from app.check.marked_page import check_page
from app.parts.component import Column, address_texts, static_texts
from app.parts.forms import forms
from app.parts.line_drawing import LineDrawing, picture
from app.parts.messages.said import understood
from app.parts.messages.working import CheckPage
from app.parts.plotting import Group
from app.parts.stage import Stage
from app.parts.template import FilledPage, page
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.problem import Problem
from lessons.homework.working import LONGEST_WORKING, TooLong, Working
from lessons.problems.sets import shipped_problem
from lessons.problems.texts import read_problem
from lessons.saved.links import read_link
from lessons.saved.notations import notation_from
from lessons.saved.records import BadRecord, FromNewer, sheet_from_record, sheet_record
from lessons.working.sheet import Sheet
from lessons.working.withheld import gives_away

Message = dict[str, Any]
Faults = dict[str, str]
VERSION = 1
MOST_ASKED, LONGEST_KEY = 100, 60
TAKEN_ALONG = "Your lines came along from the problem before. “Clear my lines” gives an empty page."


class Checking(param.Parameterized):
    """What is on the desk: a working, and whether its problem was chosen yet."""

    working: Working = param.ClassSelector(class_=Working, doc="The working being checked.")
    chosen = param.Boolean(False, doc="Whether the student has said which problem it is.")
    linked = param.Boolean(False, doc="Whether a link chose the problem.")
    damaged = param.Boolean(False, doc="Whether the record that was to be brought back last cannot be read.")
    newer = param.Boolean(False, doc="Whether that is since a later version of the program made it.")
    notices = param.List([], item_type=str, doc="Sentences about what could not be opened or read.")

    def __init__(self, catalogue: Catalogue, **values: Any) -> None:
        self.catalogue = catalogue
        values.setdefault("working", Working(catalogue.usual, catalogue.usual.problem()))
        super().__init__(**values)

    # --- the working ---

    def mark(self, text: str) -> Faults:
        """Have a text marked; a sentence where it is too long to be read."""
        return self._try(lambda: self.working.written(text))

    def enter(self, text: str, values: dict[str, str]) -> Faults:
        """Have single values marked, on top of a text; a sentence where it becomes too long."""
        return self._try(lambda: self.working.written(text).entered(values))

    def _try(self, work: Callable[[], Working]) -> Faults:
        try:
            self.working = work()
        except TooLong as fault:
            return {"text": str(fault)}
        self.notices = []
        return {}

    def ask(self, key: str) -> None:
        """Show the solver's value of a line, or put it away."""
        self.working = self.working.ask(key)

    def clear(self) -> None:
        """The same problem on an empty page."""
        self.param.update(working=replace(self.working, text="", asked=frozenset()), notices=[])

    # --- the problem ---

    def open_problem(self, texts: dict[str, str]) -> Faults:
        """Check against the problem that these entries describe; or leave all as it is, a sentence for each bad one."""
        reading = read_problem(texts, self.working.lesson)
        if not reading.faults:
            self._open(reading.problem)
        return reading.faults

    def open_shipped(self, key: str) -> None:
        """Check against one of the problems that come with the program."""
        problem = shipped_problem(key, self.catalogue)
        if problem:
            self._open(problem)

    def _open(self, problem: Problem) -> None:
        new = problem != self.working.problem
        notices = [TAKEN_ALONG] if new and self.working.text.strip() else []
        lesson = self.catalogue.find(problem.lesson) or self.working.lesson
        working = replace(self.working, lesson=lesson, problem=problem, asked=frozenset())
        self.param.update(working=working, chosen=True, notices=notices)

    def open_lesson(self, key: str) -> None:
        """Check a working of another lesson, whose problem has still to be said."""
        lesson = self.catalogue.find(key)
        if lesson:
            working = replace(self.working, lesson=lesson, problem=lesson.problem(), asked=frozenset())
            self.param.update(working=working, chosen=False, notices=[])

    def open_link(self, query: dict[str, str]) -> None:
        """Open the problem and the notation of a link; what it holds wrongly is said and left out."""
        linked = read_link(query, self.catalogue)
        self.notices, self.linked = list(linked.faults), linked.problem is not None
        self.chosen = self.linked
        self.working = Working(linked.lesson, linked.problem or linked.lesson.problem(), linked.notation)

    def write_as(self, texts: dict[str, str]) -> Faults:
        """Change the notation; or give a sentence for each entry that is none."""
        notation, faults = notation_from(texts, self.working.lesson.symbols)
        if not faults:
            self.working = replace(self.working, notation=notation)
        return faults

    # --- keeping it ---

    def record(self) -> dict[str, Any]:
        """All that the browser must keep to bring this back."""
        working = self.working
        blank = Sheet(working.lesson, working.problem, working.notation)
        return {
            "version": VERSION,
            "sheet": sheet_record(blank),
            "text": working.text,
            "asked": sorted(working.asked),
            "chosen": self.chosen,
        }

    def restore(self, record: object) -> None:
        """Bring back what the browser kept; a record that cannot be read is said and left."""
        try:
            working = _working_from(record, self.catalogue)
        except BadRecord as fault:
            self.param.update(notices=[str(fault)], damaged=True, newer=isinstance(fault, FromNewer))
        else:
            self.param.update(working=working, chosen=_chosen(record), notices=[], damaged=False)


def _working_from(record: object, catalogue: Catalogue) -> Working:
    """The working of a record. Raises BadRecord with a sentence for whatever cannot be one."""
    if isinstance(record, dict) and _is_newer(record.get("version")):
        raise FromNewer("Your working was kept by a newer Halfturn than this one, so this is an empty page.")
    if not isinstance(record, dict) or record.get("version") != VERSION:
        raise BadRecord("What was kept of your working cannot be read, so this is an empty page.")
    blank = sheet_from_record(record.get("sheet"), catalogue)
    text, asked = record.get("text"), record.get("asked")
    if not isinstance(text, str) or len(text) > LONGEST_WORKING:
        raise BadRecord("The lines that were kept cannot be read, so this is an empty page.")
    if not isinstance(asked, list) or len(asked) > MOST_ASKED:
        asked = []
    keys = frozenset(key for key in asked if isinstance(key, str) and len(key) <= LONGEST_KEY)
    return Working(blank.lesson, blank.problem, blank.notation, text, keys)


def _is_newer(version: object) -> bool:
    return isinstance(version, int) and not isinstance(version, bool) and version > VERSION


def _chosen(record: object) -> bool:
    return isinstance(record, dict) and record.get("chosen") is True


class SelfCheckView(Column):
    """The self-check in the browser. It keeps the record there, and sends what the student does to `on_do`."""

    page = param.Dict(default={}, doc="What to show: see `check_page`.")

    module = "check/self_check.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/sheet.css", "check/self_check.css")

    def show(self, page: CheckPage) -> None:
        """Show another page, by the quick way."""
        self.tell({"page": page})


Action = Callable[[Checking, Message], Faults | None]
# What a student can do: the form that its faults are shown in, and what it does.
ACTIONS: dict[str, tuple[str, Action]] = {
    "mark": ("working", lambda checking, said: checking.mark(said["text"])),
    "entries": ("working", lambda checking, said: checking.enter(said["text"], said["texts"])),
    "ask": ("", lambda checking, said: checking.ask(said["key"])),
    "clear": ("", lambda checking, said: checking.clear()),
    "own problem": ("own", lambda checking, said: checking.open_problem(said["texts"])),
    "lesson": ("", lambda checking, said: checking.open_lesson(said["key"])),
    "open": ("", lambda checking, said: checking.open_shipped(said["key"])),
    "notation": ("notation", lambda checking, said: checking.write_as(said["texts"])),
    "restore": ("", lambda checking, said: checking.restore(said["record"])),
}
CHOOSING = ("lesson", "open", "own problem")  # a problem chosen again comes back as it was left


class CheckDesk:
    """Wires one working to its views. Every change comes through `do`, after which each view is told."""

    def __init__(self, checking: Checking) -> None:
        self.checking = checking
        self.view = SelfCheckView(on_do=self.do)
        self.stage = Stage(checking.working.notation)
        self.drawing = LineDrawing()
        self.view.page = {**self._page(), "linked": checking.linked}
        self._draw(animate=False)

    def do(self, said: Message) -> None:
        """Carry out what the student did. A message that no page of ours sends is ignored."""
        if not understood("check", said) or not self._concerns(said):
            return
        form, action = ACTIONS[said["do"]]
        before = self.checking.working
        faults = action(self.checking, said)
        if faults:
            self.view.faults(form, faults)
            return
        if self.checking.working.notation != before.notation:
            self.stage.write(self.checking.working.notation)
        fresh = said["do"] in CHOOSING and self.checking.working.problem != before.problem
        restored, damaged = said["do"] == "restore", self.checking.damaged
        self.view.show(
            {
                **self._page(),
                "fresh": fresh,
                "restored": restored and not damaged,
                "damaged": restored and damaged,
                "newer": restored and damaged and self.checking.newer,
            }
        )
        self._draw(animate=said["do"] in ("mark", "entries"))

    def _page(self) -> CheckPage:
        checking, working = self.checking, self.checking.working
        return {
            **check_page(working, checking.catalogue),
            "forms": forms(working.lesson, working.problem if checking.chosen else None, working.notation),
            "notices": checking.notices,
            "chosen": checking.chosen,
            "record": checking.record(),
        }

    def _concerns(self, said: Message) -> bool:
        """Whether a message is about this working, which may have changed since it was sent."""
        working = self.checking.working
        fields = {one.key for step in working.steps for one in step.fields}
        if said["do"] == "entries":
            return set(said["texts"]) <= fields
        return said["do"] != "ask" or said["key"] in working.askable

    def _draw(self, animate: bool) -> None:
        working = self.checking.working
        faulty = {line.step.key for line in working.lines if not line.verdict.accepted}
        keys = [key for key, _ in working.construction]
        current = next((key for key in keys if key in faulty), keys[-1] if keys else "")
        groups = [Group(key, strokes, current=key == current) for key, strokes in working.construction]
        known = working.as_entered
        self.stage.draw(groups, animate, told=lambda point, what: not gives_away(known, point, what))
        if not self.checking.chosen:
            return
        drawn = working.plans
        first = drawn[0].branch if drawn else None
        wavelength_mm = working.sheet.truth.wavelength_mm if working.in_millimetres else None
        self.drawing.picture = picture(drawn, first.key if first else None, working.notation, wavelength_mm)


def self_check(catalogue: Catalogue) -> FilledPage:
    """The page for one student, with the problem that its address may hold."""
    checking = Checking(catalogue)
    query = address_texts()
    if query:
        checking.open_link(query)
    desk = CheckDesk(checking)
    needs = ("stage", "drawing", "sheet")
    return page(
        "Halfturn", here="/check", needs=needs, stage=desk.stage, drawing=desk.drawing, sheet=desk.view
    )
