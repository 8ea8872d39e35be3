"""The practise view: chart, line drawing and sheet around one sitting, each told what the others did."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import panel as pn

from app.parts.component import address_texts, are_texts
from app.parts.line_drawing import LineDrawing, picture
from app.parts.plotting import Group
from app.parts.stage import Stage
from app.parts.template import page
from app.parts.worksheet import chart_svg, finished_sheet_svg
from app.practise.sheet_column import SheetView, sheet_page
from app.practise.sitting import Sitting
from lessons.working.construction import gesture_for, in_writing, networks, stroke_groups

Message = dict[str, Any]
Action = Callable[[Sitting, Message], dict[str, str] | None]
MOST_TEXT = 20_000
# What a student can do: the parts that its message must have, and what it does to the sitting.
ACTIONS: dict[str, tuple[tuple[str, ...], Action]] = {
    "enter": (("field", "text"), lambda sitting, said: sitting.enter(said["field"], said["text"])),
    "carry": (("field",), lambda sitting, said: sitting.carry(said["field"])),
    "hint": (("step",), lambda sitting, said: sitting.hint(said["step"])),
    "focus": (("field",), lambda sitting, said: sitting.attend(said["field"])),
    "show next": ((), lambda sitting, said: sitting.show_next()),
    "solve alone": ((), lambda sitting, said: sitting.solve_alone()),
    "start over": ((), lambda sitting, said: sitting.start_over()),
    "open": (("key",), lambda sitting, said: sitting.open_shipped(said["key"])),
    "random": ((), lambda sitting, said: sitting.open_random()),
    "own problem": (("texts",), lambda sitting, said: sitting.open_problem(said["texts"])),
    "notation": (("texts",), lambda sitting, said: sitting.write_as(said["texts"])),
    "open file": (("record",), lambda sitting, said: sitting.open_file(said["record"])),
    "export": (("what", "kind"), lambda sitting, said: None),  # changes nothing: see `Desk._export`
    "restore": (("record",), lambda sitting, said: sitting.restore(said["record"])),
}
CHOOSING = ("open", "random", "own problem")  # a problem chosen again comes back as it was left


class Desk:
    """Wires one sitting to its views. Every change comes through `do`, after which each view is told."""

    def __init__(self, sitting: Sitting) -> None:
        self.sitting = sitting
        self.sheet = SheetView(on_do=self.do)
        self.stage = Stage(on_answer=self.answer, notation=sitting.notation)
        self.drawing = LineDrawing()
        self.sheet.page = {**sheet_page(sitting), "linked": sitting.linked, "brought": sitting.brought}
        self._draw(animate=False)

    def do(self, said: Message) -> None:
        """Carry out what the student did. A message that no page of ours sends is ignored."""
        needs, action = ACTIONS.get(said["do"], ((), None))
        if action is None or not all(self._is_sensible(part, said.get(part)) for part in needs):
            return
        if said["do"] == "export":
            self._export(said["what"], said["kind"])
            return
        before = self.sitting.sheet
        faults = action(self.sitting, said)
        if faults:
            self.sheet.faults("notation" if said["do"] == "notation" else "own", faults)
            return
        if self.sitting.notation != before.notation:
            self.stage.write(self.sitting.notation)
        if said["do"] != "focus":
            chosen = said["do"] in CHOOSING and self.sitting.sheet.problem != before.problem
            self.sheet.show(
                {**sheet_page(self.sitting), "fresh": chosen, "brought": said["do"] == "open file"}
            )
        self._draw(animate=said["do"] != "restore")

    def answer(self, field: str, drawn: Any) -> None:
        """Put a finished drawing into the box that it answers, for the student to check."""
        self.sheet.draft(field, in_writing(self.sitting.sheet, field, drawn))

    def _export(self, what: str, kind: str) -> None:
        """Hand the drawing on the chart, or the sheet with it, to the browser to save."""
        sheet = self.sitting.sheet
        drawings = finished_sheet_svg(sheet) if what == "sheet" else [chart_svg(sheet)]
        self.sheet.save(f"halfturn {sheet.problem.title or 'own load'}", drawings, kind)

    def _is_sensible(self, part: str, value: Any) -> bool:
        if part == "record":
            return True  # looked at where it is read
        if part == "texts":
            return are_texts(value)
        steps = self.sitting.sheet.steps
        known = {
            "field": {f.key for step in steps for f in step.fields},
            "step": {step.key for step in steps},
            "what": {"chart"}
            if self.sitting.sheet.lesson.refuses(self.sitting.sheet.problem)
            else {"chart", "sheet"},
            "kind": {"svg", "png"},
        }
        return isinstance(value, str) and len(value) <= MOST_TEXT and value in known.get(part, {value})

    def _draw(self, animate: bool) -> None:
        sitting = self.sitting
        groups = stroke_groups(sitting.sheet)
        last = groups[-1][0] if groups else ""
        self.stage.draw([Group(key, strokes, current=key == last) for key, strokes in groups], animate)
        self.stage.ask(sitting.focus, gesture_for(sitting.sheet, sitting.focus), sitting.question)
        self.drawing.picture = picture(
            sitting.sheet.problem, sitting.notation, networks(sitting.sheet), sitting.side
        )


def practise() -> pn.Template:
    """The page for one student, with the problem that its address may hold."""
    sitting = Sitting()
    query = address_texts()
    if query:
        sitting.open_link(query)
    desk = Desk(sitting)
    needs = ("stage", "drawing", "sheet")
    return page("Halfturn", needs=needs, stage=desk.stage, drawing=desk.drawing, sheet=desk.sheet)
