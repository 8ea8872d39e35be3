"""The course page: what this is, the lessons in order, and where the student stands in them.

All that is known of the student lies in the browser. It sends what it kept, in parts, and is told what that comes to;
nothing stays here but for as long as the page is open.
"""

from __future__ import annotations

from typing import Any, ClassVar

import panel as pn
import param

from app.course.standing import course_page
from app.parts.component import Column, static_texts
from app.parts.messages.course import CoursePage
from app.parts.messages.said import understood
from app.parts.primers import primer_words
from app.parts.template import page
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.notation import STANDARD
from lessons.saved.kept import read_kept, table
from lessons.working.progress import progress_by_lesson
from lessons.working.tally import Summary, summed_up

Message = dict[str, Any]
MOST_SHEETS = 500


class CourseView(Column):
    """The course in the browser."""

    page = param.Dict(default={}, doc="What to show: see `course_page`.")

    module = "course/course.js"
    _stylesheets: ClassVar[list[Any]] = static_texts(
        "parts/sheet.css", "parts/primer.css", "course/course.css"
    )


class CourseDesk:
    """Wires what a browser kept to the page that it is shown."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.sheets: list[Summary] = []
        self.faults: list[str] = []
        self.view = CourseView(on_do=self.do, page=course_page(catalogue, {}))

    def do(self, said: Message) -> None:
        """Carry out what was asked. A message that no page of ours sends is ignored."""
        if not understood("course", said):
            return
        match said:
            case {"do": "look"}:
                self._look(said)
            case {"do": "table", "sheets": sheets, "first": first, "last": last}:
                rows = table(read_kept(sheets, self.catalogue).sheets, heading=first)
                self.view.tell({"table": {"text": rows, "last": last}})
            case {"do": "primer", "key": key}:
                lesson = self.catalogue.find(key)
                self.view.tell({"primer": primer_words(lesson, STANDARD) if lesson else None})

    def _look(self, said: Message) -> None:
        """Read one part of what was kept; after the last one, say what all of it comes to."""
        if said["first"]:
            self.sheets, self.faults = [], []
        found = read_kept(said["sheets"], self.catalogue)
        room = MOST_SHEETS - len(self.sheets)
        self.sheets += [summed_up(sheet, drilled) for sheet, drilled in found.sheets[:room]]
        self.faults = [*self.faults, *found.faults][:MOST_SHEETS]
        if said["last"]:
            progress = progress_by_lesson(said["progress"], self.catalogue)
            self.show(course_page(self.catalogue, progress, self.sheets, self.faults))

    def show(self, shown: CoursePage) -> None:
        """Show another page, by the quick way."""
        self.view.tell({"page": shown})


def course(catalogue: Catalogue) -> pn.Template:
    """The page of the course, for one student."""
    desk = CourseDesk(catalogue)
    return page("Halfturn course", here="/course", needs=("course",), sheet=desk.view)
