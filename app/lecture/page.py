"""The lecture view: a lesson projected, one construction a key press, and the presenter's own page beside it.

All frames of a problem are sent at once, so that stepping, hiding and revealing happen in the browser alone. The
server is asked only for another problem, another notation, or solutions shown otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace
from random import SystemRandom
from typing import Any, ClassVar

import param

from app.lecture.script import in_set, movable, opened, opened_at, script, with_its_story
from app.parts.component import Column, Scripted, address_texts, are_texts, static_texts
from app.parts.line_drawing import LineDrawing
from app.parts.messages.said import difficulty_said, understood
from app.parts.messages.showing import Script
from app.parts.plotting import drawn_answer
from app.parts.stage import Stage
from app.parts.template import FilledPage, page
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import PlacePoint
from lessons.problems.seeds import random_problem
from lessons.problems.sets import Shelf, problems_of, shipped_problem
from lessons.problems.texts import read_problem
from lessons.saved.links import NO_SETS
from lessons.saved.notations import notation_from
from lessons.working.walkthrough import SIDE_BY_SIDE, showings

Wire = dict[str, Any]
MOST_SEED = 1_000_000
MOVING = PlacePoint("impedance")


class Projection(Stage):
    """The chart as it is seen from afar, whose load can be moved by hand."""

    def __init__(self, notation: Notation) -> None:
        self._load: complex | None = None
        super().__init__(notation, stylesheets=static_texts("lecture/stage.css"))

    def move(self, load: complex | None, prompt: str = "") -> None:
        """Let the load's point be moved from this reflection on; with None it stays where it is."""
        self._load = load
        self.ask("moved", None if load is None else MOVING, prompt)

    def _show_gesture(self) -> None:
        with param.parameterized.batch_call_watchers(self):
            super()._show_gesture()
            if self.gesture is not None and self._load is not None:
                start = [self._load.real, self._load.imag]
                self.gesture = {**self.gesture, "start": start, "tells": True}


class LectureView(Column):
    """The words beside the chart, the keys, and everything that moves in the browser."""

    script = param.Dict(default={}, doc="What to show: see `script`.")

    module = "lecture/lecture.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("parts/response.css", "lecture/lecture.css")

    def show(self, page: Script) -> None:
        """Show another script, by the quick way."""
        self.tell({"script": page})


class NotesView(Scripted):
    """The presenter's page. It follows the lecture that is open in the same browser; the server tells it nothing."""

    module = "lecture/presenter.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("lecture/presenter.css")


class Lectern:
    """Wires one lecture to its chart and its words. A message that no page of ours sends is ignored."""

    def __init__(self, query: Mapping[str, str], catalogue: Catalogue, sets: Shelf = NO_SETS) -> None:
        self.catalogue, self.sets = catalogue, sets
        self.topic, notices = opened(query, catalogue, sets)
        self.moving = False
        self.stage = Projection(self.topic.notation)
        shown = script(self.topic, catalogue)
        at, unknown = opened_at(query.get("step", ""), shown["frames"])
        facts = {"notices": [*notices, unknown] if unknown else notices, "linked": bool(query), "at": at}
        self.drawing = LineDrawing()
        self.words = LectureView(self.do, script={**shown, **facts})

    def do(self, said: Wire) -> None:
        """Carry out what the presenter did."""
        if not understood("lecture", said):
            return
        match said:
            case {"do": "own problem", "texts": texts}:
                self._open(texts)
            case {"do": "notation", "texts": texts}:
                self._write(texts)
            case {"do": "lesson", "key": key}:
                self._teach(self.catalogue.find(key) or self.topic.lesson)
            case {"do": "open", "key": key}:
                self._choose(shipped_problem(key, self.catalogue) or self.topic.problem)
            case {"do": "random"}:
                seed, difficulty = SystemRandom().randrange(MOST_SEED), difficulty_said(said)
                self._show(problem=random_problem(seed, self.topic.lesson, difficulty=difficulty))
            case {"do": "showing", "showing": showing} if self._can_show(showing):
                self._show(showing=showing)
            case {"do": "restore"}:
                self._restore(said)
            case {"do": "of the set" | "move" | "trace" | "put"}:
                self._follow(said)

    def _open(self, texts: dict[str, str]) -> None:
        reading = read_problem(texts, self.topic.lesson)
        if reading.faults:
            self.words.faults("own", reading.faults)
        else:
            self._show(problem=with_its_story(reading.problem, self.catalogue))

    def _choose(self, problem: Problem) -> None:
        self._show(lesson=self.catalogue.find(problem.lesson) or self.topic.lesson, problem=problem)

    def _go_on(self, by: int) -> None:
        """To another problem of the set, so many on; past an end of the set all stays."""
        place = self.topic.place.moved(by) if self.topic.place else None
        if place is not None:
            topic = in_set(place, self.topic.notation, self.topic.showing)
            self._show(lesson=topic.lesson, problem=topic.problem, showing=topic.showing, place=place)

    def _teach(self, lesson: Lesson) -> None:
        self._show(lesson=lesson, problem=problems_of(lesson, self.catalogue)[0], showing=SIDE_BY_SIDE)

    def _can_show(self, showing: object) -> bool:
        return isinstance(showing, str) and showing in dict(showings(self.topic.lesson))

    def _write(self, texts: dict[str, str]) -> None:
        notation, faults = notation_from(texts, self.topic.lesson.symbols)
        if faults:
            self.words.faults("notation", faults)
        else:
            self._show(notation=notation)

    def _restore(self, kept: Wire) -> None:
        """Bring back what the browser kept, as far as it can be read."""
        texts, written, showing = (kept.get(part) for part in ("problem", "notation", "showing"))
        if are_texts(texts) and are_texts(written):
            topic, _ = opened({**texts, **written}, self.catalogue, self.sets)
            self.topic = replace(topic, showing=self.topic.showing)
        self._show(**{"showing": showing} if self._can_show(showing) else {})

    def _put(self, said: Wire) -> None:
        """Take the point that was put on the chart by hand."""
        reflection = drawn_answer(said["value"], MOVING, said["plotted"])
        problem = self._with(reflection) if isinstance(reflection, complex) else None
        if problem is not None:
            self._show(problem=problem)

    def _follow(self, said: Wire) -> None:
        """Go on in the set; or let the load's point be moved, or no longer, and show what it comes to while it is."""
        match said:
            case {"by": by}:
                self._go_on(by)
            case {"do": "move", "on": on}:
                self.moving = on
                self._offer()
            case {"do": "put"}:
                self._put(said)
            case {"at": [float() | int() as u, float() | int() as v]} if self.moving:
                self._trace(complex(u, v))

    def _trace(self, reflection: complex) -> None:
        """Show the construction for where the point is being moved; it is taken when it is let go."""
        problem = self._with(reflection) if abs(reflection) <= 1 + 1e-9 else None
        if problem is not None:
            self.words.tell(
                {
                    "script": {
                        **script(replace(self.topic, problem=problem, place=None), self.catalogue),
                        "passing": True,
                    }
                }
            )

    def _with(self, reflection: complex) -> Problem | None:
        """The problem with its movable point there."""
        problem = self.topic.problem
        moved = movable(self.topic.lesson, problem)
        if moved is None or moved.put is None:
            return None
        value = moved.put(reflection, problem.givens)
        givens = {one.key: problem[one.key] for one in self.topic.lesson.givens} | {moved.key: value}
        return replace(problem, givens=givens, story="", title="", key="")

    def _show(self, **changes: Any) -> None:
        if "problem" in changes:
            changes.setdefault("place", None)  # another problem is none of the set's
        self.topic = replace(self.topic, **changes)
        if asdict(self.topic.notation) != self.stage.notation:
            self.stage.write(self.topic.notation)
        self.words.show(script(self.topic, self.catalogue))
        self._offer()

    def _offer(self) -> None:
        """Let the movable point be moved, or no longer."""
        moved = movable(self.topic.lesson, self.topic.problem)
        if moved is None or not self.moving:
            self.stage.move(None)
            return
        place = Work(self.topic.lesson, self.topic.problem, self.topic.notation)[moved.stands_at]
        self.stage.move(place, f"Move the {moved.key}'s point.")


def lecture(catalogue: Catalogue, sets: Shelf = NO_SETS) -> FilledPage:
    """The page of one lecture, with the problem that its address may hold."""
    query = address_texts()
    lectern = Lectern(query, catalogue, sets)
    roots = {"stage": lectern.stage, "drawing": lectern.drawing, "lecture": lectern.words}
    needs = ("stage", "drawing", "lecture")
    return page("Halfturn lecture", here="/lecture", needs=needs, layout="lecture.html", **roots)


def notes() -> FilledPage:
    """The presenter's page."""
    return page("Presenter's page", here="/lecture/notes", needs=("notes",), sheet=NotesView())
