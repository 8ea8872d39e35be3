"""The lecture view: a lesson projected, one construction a key press, and the presenter's own page beside it.

All frames of a problem are sent at once, so that stepping, hiding and revealing happen in the browser alone. The
server is asked only for another problem, another notation, or solutions shown otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, replace
from random import SystemRandom
from typing import Any, ClassVar

import panel as pn
import param

from app.parts.component import Column, Scripted, address_texts, are_texts, static_texts
from app.parts.forms import forms
from app.parts.messages.said import understood
from app.parts.messages.showing import FrameWords, Script
from app.parts.plotting import plotted
from app.parts.stage import Stage
from app.parts.template import WAYS, page
from app.parts.words import CAUTION, branch_wire, lesson_choices, problem_choices, problem_words
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Given, Problem
from lessons.grammar.strokes import PlacePoint
from lessons.problems.seeds import random_problem
from lessons.problems.sets import problems_of, shipped_problem, shipped_problems
from lessons.problems.texts import read_problem
from lessons.saved.links import problem_query, problem_texts, read_link
from lessons.saved.notations import notation_from, write_notation
from lessons.working.walkthrough import SIDE_BY_SIDE, Frame, showings, walkthrough, without_value

Wire = dict[str, Any]
MOST_SEED = 1_000_000


# --- what is shown ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Topic:
    """What the lecture is about: a lesson's problem, how the course writes, and how its branches are shown."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    showing: str = SIDE_BY_SIDE


def opened(query: Mapping[str, str], catalogue: Catalogue) -> tuple[Topic, list[str]]:
    """The topic that a link opens, and a sentence for each thing in it that could not be used."""
    linked = read_link(query, catalogue)
    problem = linked.problem or problems_of(linked.lesson, catalogue)[0]
    return Topic(linked.lesson, _with_its_story(problem, catalogue), linked.notation), list(linked.faults)


def script(topic: Topic, catalogue: Catalogue) -> Script:
    """All that the browser shows, frame by frame, and what a link or the forms say of the problem."""
    lesson, problem, notation = topic.lesson, topic.problem, topic.notation
    work = Work(lesson, problem, notation)
    frames = walkthrough(lesson, problem, notation, topic.showing)
    return {
        "lesson": lesson.title,
        "lessonKey": lesson.key,
        "given": problem_words(work)["given"],
        "brief": work.say(lesson.brief),
        "refusal": lesson.refuses(problem),
        "frames": [_frame(frame, topic) for frame in frames],
        "showing": topic.showing,
        "showings": list(showings(lesson)),
        "movable": _movable(lesson) is not None,
        "lessons": lesson_choices(catalogue),
        "entries": problem_texts(problem, catalogue),
        "notation": write_notation(notation),
        "forms": forms(lesson, problem, notation),
        "query": problem_query(problem, notation, catalogue),
        "choices": problem_choices(lesson, catalogue),
        "ways": list(WAYS),
        "caution": CAUTION,
    }


def _frame(frame: Frame, topic: Topic) -> FrameWords:
    drawn = plotted(frame.strokes, topic.notation.admittance)
    quiet = (without_value(stroke, topic.lesson) for stroke in frame.strokes)
    strokes = [{**wire, "quiet": words} for wire, words in zip(drawn, quiet, strict=True)]
    return {
        "key": frame.key,
        "step": frame.step,
        "number": frame.number if frame.asks else 0,
        "title": frame.title,
        "branch": branch_wire(frame.branch),
        "ask": frame.ask,
        "rule": frame.rule,
        "numbers": frame.numbers,
        "because": frame.because,
        "outcomes": [
            {"label": one.label, "branch": branch_wire(one.branch), "text": one.text}
            for one in frame.outcomes
        ],
        "strokes": strokes,
        "slips": [{"doing": s.doing, "remedy": s.remedy, "gives": list(s.gives)} for s in frame.slips],
        "spoken": frame.spoken,
        "spoken_values": frame.spoken_values,
    }


def _movable(lesson: Lesson) -> Given | None:
    """The given whose point can be moved on the chart by hand, if there is one."""
    return next((one for one in lesson.givens if one.put), None)


def _with_its_story(problem: Problem, catalogue: Catalogue) -> Problem:
    """The problem of the shipped sets that says the same, or the problem itself."""
    alike = (
        one
        for one in shipped_problems(catalogue)
        if one.lesson == problem.lesson
        and (dict(one.givens), one.accuracy, one.without)
        == (dict(problem.givens), problem.accuracy, problem.without)
    )
    return next(alike, problem)


# --- who shows it ----------------------------------------------------------------------------------------------------


class Projection(Stage):
    """The chart as it is seen from afar, whose load can be moved by hand."""

    def __init__(self, on_answer: Callable[[str, Any], object], notation: Notation) -> None:
        self._load: complex | None = None
        super().__init__(on_answer, notation, stylesheets=static_texts("lecture/stage.css"))

    def move(self, load: complex | None, prompt: str = "") -> None:
        """Let the load's point be moved from this reflection on; with None it stays where it is."""
        self._load = load
        self.ask("moved", None if load is None else PlacePoint("impedance"), prompt)

    def _show_gesture(self) -> None:
        with param.parameterized.batch_call_watchers(self):
            super()._show_gesture()
            if self.gesture is not None and self._load is not None:
                self.gesture = {**self.gesture, "start": [self._load.real, self._load.imag]}


class LectureView(Column):
    """The words beside the chart, the keys, and everything that moves in the browser."""

    script = param.Dict(default={}, doc="What to show: see `script`.")

    module = "lecture/lecture.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("lecture/lecture.css")

    def show(self, page: Script) -> None:
        """Show another script, by the quick way."""
        self.tell({"script": page})


class NotesView(Scripted):
    """The presenter's page. It follows the lecture that is open in the same browser; the server tells it nothing."""

    module = "lecture/presenter.js"
    _stylesheets: ClassVar[list[Any]] = static_texts("lecture/presenter.css")


class Lectern:
    """Wires one lecture to its chart and its words. A message that no page of ours sends is ignored."""

    def __init__(self, query: Mapping[str, str], catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.topic, notices = opened(query, catalogue)
        self.moving = False
        self.stage = Projection(self._put, self.topic.notation)
        facts = {"notices": notices, "linked": bool(query)}
        self.words = LectureView(self.do, script={**script(self.topic, catalogue), **facts})

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
                self._show(problem=random_problem(SystemRandom().randrange(MOST_SEED), self.topic.lesson))
            case {"do": "showing", "showing": showing} if self._can_show(showing):
                self._show(showing=showing)
            case {"do": "restore"}:
                self._restore(said)
            case {"do": "move", "on": on}:
                self.moving = on
                self._offer()

    def _open(self, texts: dict[str, str]) -> None:
        reading = read_problem(texts, self.topic.lesson)
        if reading.faults:
            self.words.faults("own", reading.faults)
        else:
            self._show(problem=_with_its_story(reading.problem, self.catalogue))

    def _choose(self, problem: Problem) -> None:
        self._show(lesson=self.catalogue.find(problem.lesson) or self.topic.lesson, problem=problem)

    def _teach(self, lesson: Lesson) -> None:
        self._show(lesson=lesson, problem=problems_of(lesson, self.catalogue)[0], showing=SIDE_BY_SIDE)

    def _can_show(self, showing: object) -> bool:
        return showing in dict(showings(self.topic.lesson))

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
            topic, _ = opened({**texts, **written}, self.catalogue)
            self.topic = replace(topic, showing=self.topic.showing)
        self._show(**{"showing": showing} if self._can_show(showing) else {})

    def _put(self, field: str, reflection: complex) -> None:
        """Take the point that was put on the chart by hand."""
        problem, moved = self.topic.problem, _movable(self.topic.lesson)
        if moved is not None and moved.put is not None:
            value = moved.put(reflection, problem.givens)
            texts = {one.key: problem[one.key] for one in self.topic.lesson.givens} | {moved.key: value}
            self._show(problem=replace(problem, givens=texts, story="", title="", key=""))

    def _show(self, **changes: Any) -> None:
        self.topic = replace(self.topic, **changes)
        if asdict(self.topic.notation) != self.stage.notation:
            self.stage.write(self.topic.notation)
        self.words.show(script(self.topic, self.catalogue))
        self._offer()

    def _offer(self) -> None:
        """Let the movable point be moved, or no longer."""
        moved = _movable(self.topic.lesson)
        if moved is None or not self.moving:
            self.stage.move(None)
            return
        place = Work(self.topic.lesson, self.topic.problem, self.topic.notation)[moved.stands_at]
        self.stage.move(place, f"Move the {moved.key}'s point.")


def lecture(catalogue: Catalogue) -> pn.Template:
    """The page of one lecture, with the problem that its address may hold."""
    query = address_texts()
    lectern = Lectern(query, catalogue)
    roots = {"stage": lectern.stage, "lecture": lectern.words}
    return page(
        "Halfturn lecture", here="/lecture", needs=("stage", "lecture"), layout="lecture.html", **roots
    )


def notes() -> pn.Template:
    """The presenter's page."""
    return page("Presenter's page", here="/lecture/notes", needs=("notes",), sheet=NotesView())
