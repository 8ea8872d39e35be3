"""The practise view: chart, line drawing and sheet around one sitting, each told what the others did."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.parts.component import address_texts
from app.parts.line_drawing import LineDrawing, picture
from app.parts.messages.said import difficulty_said, understood
from app.parts.plotting import Group, drawn_answer
from app.parts.stage import Stage
from app.parts.template import FilledPage, page
from app.parts.worksheet import chart_svg, finished_sheet_svg
from app.practise.sheet_column import SheetView, sheet_page
from app.practise.sitting import Sitting
from lessons.grammar.catalogue import Catalogue
from lessons.problems.sets import Shelf
from lessons.saved.links import NO_SETS
from lessons.working.construction import gesture_for, moved_by, plans, stroke_groups, wrong_drawings
from lessons.working.withheld import gives_away, millimetres_asked, waves_may_be_seen

Message = dict[str, Any]
Action = Callable[[Sitting, Message], dict[str, str] | None]
MOST_TEXT = 20_000
# What a student can do, and what it does to the sitting.
ACTIONS: dict[str, Action] = {
    "enter": lambda sitting, said: sitting.enter(said["field"], said["text"]),
    "carry": lambda sitting, said: sitting.carry(said["field"]),
    "hint": lambda sitting, said: sitting.hint(said["step"]),
    "focus": lambda sitting, said: sitting.attend(said["field"]),
    "show next": lambda sitting, said: sitting.show_next(),
    "worked": lambda sitting, said: sitting.choose_worked(said["how"]),
    "undo": lambda sitting, said: sitting.undo(),
    "start over": lambda sitting, said: sitting.start_over(),
    "lesson": lambda sitting, said: sitting.open_lesson(said["key"]),
    "open": lambda sitting, said: sitting.open_shipped(said["key"]),
    "random": lambda sitting, said: sitting.open_random(difficulty_said(said)),
    "own problem": lambda sitting, said: sitting.open_problem(said["texts"]),
    "notation": lambda sitting, said: sitting.write_as(said["texts"]),
    "open file": lambda sitting, said: sitting.open_file(said["record"]),
    "restore": lambda sitting, said: sitting.restore(said["record"], said.get("progress")),
    "progress": lambda sitting, said: sitting.recall(said["record"]),
    "drill": lambda sitting, said: sitting.open_drill(said["step"], difficulty_said(said)),
    "next load": lambda sitting, said: sitting.next_load(),
}
CHOOSING = ("lesson", "open", "random", "own problem")  # a problem chosen again comes back as it was left


class Desk:
    """Wires one sitting to its views. Every change comes through `do`, after which each view is told."""

    def __init__(self, sitting: Sitting) -> None:
        self.sitting = sitting
        self.sheet = SheetView(on_do=self.do)
        self.stage = Stage(sitting.notation)
        self.drawing = LineDrawing()
        asked = {name: getattr(sitting, name) for name in ("linked", "asked", "brought")}
        self.sheet.page = {**sheet_page(sitting), **asked}
        self._draw(animate=False)

    def do(self, said: Message) -> None:
        """Carry out what the student did. A message that no page of ours sends is ignored."""
        if not understood("practise", said) or not self._concerns(said):
            return
        match said["do"]:
            case "export":
                self._export(said["what"], said["kind"])
            case "primer":
                self.sheet.explain(self.sitting.sheet)
            case "draw":
                field, value = said["field"], said["value"]
                self.sheet.draft({"field": field, "value": value, "text": self._written(said)})
            case "check drawing":
                self._carry_out({"do": "enter", "field": said["field"], "text": self._written(said)})
            case _:
                self._carry_out(said)

    def _carry_out(self, said: Message) -> None:
        before = self.sitting.sheet
        faults = ACTIONS[said["do"]](self.sitting, said)
        if faults:
            self.sheet.faults("notation" if said["do"] == "notation" else "own", faults)
            return
        if self.sitting.notation != before.notation:
            self.stage.write(self.sitting.notation)
        restored = said["do"] == "restore"
        if said["do"] != "focus":
            chosen = said["do"] in CHOOSING and self.sitting.sheet.problem != before.problem
            self.sheet.show(
                {
                    **sheet_page(self.sitting),
                    "fresh": chosen,
                    "brought": said["do"] == "open file",
                    "restored": restored and not self.sitting.damaged,
                    "damaged": restored and self.sitting.damaged,
                    "newer": restored and self.sitting.damaged and self.sitting.newer,
                }
            )
        self._draw(animate=not restored)

    def _written(self, said: Message) -> str:
        """A finished drawing as it is written in the box that it answers; what is no drawing, as it stands there."""
        sheet, field = self.sitting.sheet, said["field"]
        gesture = gesture_for(sheet, field)
        drawn = None if gesture is None else drawn_answer(said["value"], gesture, said["plotted"])
        return sheet.text(field) if drawn is None else self.sitting.draw(field, drawn)

    def _export(self, what: str, kind: str) -> None:
        """Hand the drawing on the chart, or the sheet with it, to the browser to save."""
        sheet = self.sitting.sheet
        drawings = finished_sheet_svg(sheet) if what == "sheet" else [chart_svg(sheet)]
        self.sheet.save(f"halfturn {sheet.problem.title or 'own load'}", drawings, kind)

    def _concerns(self, said: Message) -> bool:
        """Whether a message is about this sheet, which may have changed since it was sent, and of a size to be read."""
        sheet = self.sitting.sheet
        known = {
            "field": {one.key for step in sheet.steps for one in step.fields},
            "step": {step.key for step in sheet.steps},
            "what": {"chart", "sheet"},
        }
        texts = [part for part in said.values() if isinstance(part, str)]
        return all(len(text) <= MOST_TEXT for text in texts) and all(
            said[part] in keys for part, keys in known.items() if part in said
        )

    def _draw(self, animate: bool) -> None:
        sitting = self.sitting
        groups = stroke_groups(sitting.sheet)
        last = groups[-1][0] if groups else ""
        sheet = sitting.sheet
        ghosts = Group("slip", tuple(wrong_drawings(sheet)), current=True)
        self.stage.draw(
            [
                *(Group(key, strokes, current=key == last) for key, strokes in groups),
                *([ghosts] if ghosts.strokes else []),
            ],
            animate,
            told=lambda point, what: not gives_away(sheet, point, what),
        )
        gesture = None if sitting.guided else gesture_for(sheet, sitting.focus)
        moved = moved_by(sheet, sitting.focus)
        self.stage.ask(sitting.focus, gesture, sitting.question, moved)
        branch = sitting.branch
        self.drawing.picture = picture(
            plans(sheet),
            branch.key if branch else None,
            sitting.notation,
            None if millimetres_asked(sheet) else sheet.truth.wavelength_mm,
            waves=waves_may_be_seen(sheet),
        )


def practise(catalogue: Catalogue, sets: Shelf = NO_SETS) -> FilledPage:
    """The page for one student, with the problem that its address may hold."""
    sitting = Sitting(catalogue, sets)
    query = address_texts()
    if query:
        sitting.open_link(query)
    desk = Desk(sitting)
    needs = ("stage", "drawing", "sheet")
    roots = {"stage": desk.stage, "drawing": desk.drawing, "sheet": desk.sheet}
    return page("Halfturn", needs=needs, words=first_words(desk.sheet.page), **roots)


def first_words(shown: Message) -> list[str]:
    """What of a sheet is worth reading before it has been drawn: the problem, and what is asked next."""
    problem = shown["problem"]
    asked = [one["ask"] for one in shown["steps"] if not one["done"]]
    return [problem["title"], problem["story"], problem["given"], shown["refusal"] or "", *asked]
