"""The lecture view: a lesson projected, one construction a key press, and the presenter's own page beside it.

All frames of a problem are sent at once, so that stepping, hiding and revealing happen in the browser alone. The
server is asked only for another problem, another notation, or near and far shown otherwise.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, replace
from random import SystemRandom
from typing import Any, ClassVar

import panel as pn
import param
from panel.custom import JSComponent

from app.parts.component import Column, address_texts, are_texts, static_texts
from app.parts.plotting import plotted
from app.parts.stage import Stage
from app.parts.template import WAYS, page
from app.parts.words import CAUTION, problem_choices, problem_words
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Problem, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.strokes import PlacePoint
from lessons.problems.seeds import (
    random_problem,
    read_problem,
    shipped_problem,
    shipped_problems,
    write_problem,
)
from lessons.saved.links import problem_link, read_link
from lessons.saved.records import notation_from, write_notation
from lessons.working.sheet import Sheet
from lessons.working.walkthrough import SHOWINGS, Frame, Showing, load_at, walkthrough, without_value

Wire = dict[str, Any]
ENDS = {"short": "shorted stub", "open": "open stub"}
MOST_SEED = 1_000_000


# --- what is shown ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Topic:
    """What the lecture is about: a problem, how the course writes, and how near and far are shown."""

    problem: Problem
    notation: Notation = STANDARD
    showing: Showing = "side by side"


def opened(query: Mapping[str, str]) -> tuple[Topic, list[str]]:
    """The topic that a link opens, and a sentence for each thing in it that could not be used."""
    problem, notation, faults = read_link(query, shipped_problems()[0])
    return Topic(_with_its_story(problem), notation), faults


def script(topic: Topic) -> Wire:
    """All that the browser shows, frame by frame, and what a link or the forms say of the problem."""
    work = Work(LESSON, topic.problem, topic.notation)
    frames = walkthrough(LESSON, topic.problem, topic.notation, topic.showing)
    return {
        "lesson": LESSON.title,
        "given": problem_words(topic.problem, work)["given"],
        "brief": _brief(work),
        "refusal": LESSON.refuses(topic.problem),
        "frames": [_frame(frame, topic.notation) for frame in frames],
        "showing": topic.showing,
        "showings": list(SHOWINGS),
        "entries": write_problem(topic.problem),
        "notation": write_notation(topic.notation),
        "query": problem_link(Sheet(LESSON, topic.problem, topic.notation)),
        "choices": problem_choices(),
        "ways": [list(way) for way in WAYS],
        "caution": CAUTION,
    }


def _brief(work: Work) -> str:
    """The problem in one line, for below the chart."""
    own = work.problem.stub_impedance != work.problem.line_impedance
    stub = ENDS[work.problem.end] + (work.say(" of {stub}") if own else "")
    return work.say("Load {load} on {line}, ") + stub


def _frame(frame: Frame, notation: Notation) -> Wire:
    drawn = plotted(frame.strokes, notation.admittance)
    quiet = (without_value(stroke) for stroke in frame.strokes)
    strokes = [{**wire, "quiet": words} for wire, words in zip(drawn, quiet, strict=True)]
    return {**asdict(replace(frame, strokes=())), "strokes": strokes}


def _with_its_story(problem: Problem) -> Problem:
    """The problem of the shipped set that says the same, or the problem itself."""
    texts = write_problem(problem)
    return next((one for one in shipped_problems() if write_problem(one) == texts), problem)


# --- who shows it ----------------------------------------------------------------------------------------------------


class Projection(Stage):
    """The chart as it is seen from afar, whose load can be moved by hand."""

    def __init__(self, on_answer: Callable[[str, Any], object], notation: Notation) -> None:
        self._load: complex | None = None
        super().__init__(on_answer, notation, stylesheets=static_texts("lecture_stage.css"))

    def move(self, load: complex | None, prompt: str = "") -> None:
        """Let the load's point be moved from this reflection on; with None it stays where it is."""
        self._load = load
        self.ask("load", None if load is None else PlacePoint("impedance"), prompt)

    def _show_gesture(self) -> None:
        with param.parameterized.batch_call_watchers(self):
            super()._show_gesture()
            if self.gesture is not None and self._load is not None:
                self.gesture = {**self.gesture, "start": [self._load.real, self._load.imag]}


class LectureView(Column):
    """The words beside the chart, the keys, and everything that moves in the browser."""

    script = param.Dict(default={}, doc="What to show: see `script`.")

    _esm = "\n".join(
        static_texts("common.js", "lecture_keep.js", "lecture_words.js", "lecture_pen.js", "lecture.js")
    )
    _stylesheets: ClassVar[list[Any]] = static_texts("lecture.css")

    def show(self, page: Wire) -> None:
        """Show another script, by the quick way."""
        self.tell({"script": page})


class NotesView(JSComponent):
    """The presenter's page. It follows the lecture that is open in the same browser; the server tells it nothing."""

    _esm = "\n".join(static_texts("common.js", "presenter.js"))
    _stylesheets: ClassVar[list[Any]] = static_texts("presenter.css")


class Lectern:
    """Wires one lecture to its chart and its words. A message that no page of ours sends is ignored."""

    def __init__(self, query: Mapping[str, str]) -> None:
        self.topic, notices = opened(query)
        self.moving = False
        self.stage = Projection(self._put, self.topic.notation)
        facts = {"notices": notices, "linked": bool(query)}
        self.words = LectureView(self.do, script={**script(self.topic), **facts})

    def do(self, said: Wire) -> None:
        """Carry out what the presenter did."""
        match said:
            case {"do": "own problem", "texts": texts} if are_texts(texts):
                self._open(texts)
            case {"do": "notation", "texts": texts} if are_texts(texts):
                self._write(texts)
            case {"do": "open", "key": str(key)}:
                self._show(problem=shipped_problem(key) or self.topic.problem)
            case {"do": "random"}:
                self._show(problem=random_problem(SystemRandom().randrange(MOST_SEED)))
            case {"do": "showing", "showing": str(showing)} if showing in SHOWINGS:
                self._show(showing=showing)
            case {"do": "restore"}:
                self._restore(said.get("problem"), said.get("notation"), said.get("showing"))
            case {"do": "move", "on": bool(on)}:
                self.moving = on
                self._offer()

    def _open(self, texts: dict[str, str]) -> None:
        reading = read_problem(texts)
        if reading.faults:
            self.words.faults("own", reading.faults)
        else:
            self._show(problem=_with_its_story(reading.problem))

    def _write(self, texts: dict[str, str]) -> None:
        notation, faults = notation_from(texts)
        if faults:
            self.words.faults("notation", faults)
        else:
            self._show(notation=notation)

    def _restore(self, texts: object, written: object, showing: object) -> None:
        """Bring back what the browser kept, as far as it can be read."""
        if are_texts(texts) and are_texts(written):
            topic, _ = opened({**texts, **written})
            self.topic = replace(topic, showing=self.topic.showing)
        self._show(**{"showing": showing} if showing in SHOWINGS else {})

    def _put(self, field: str, reflection: complex) -> None:
        """Take the load that was put on the chart by hand."""
        problem = self.topic.problem
        moved = replace(
            problem, load_impedance=load_at(reflection, problem.line_impedance), story="", title="", key=""
        )
        self._show(problem=moved)

    def _show(self, **changes: Any) -> None:
        self.topic = replace(self.topic, **changes)
        if asdict(self.topic.notation) != self.stage.notation:
            self.stage.write(self.topic.notation)
        self.words.show(script(self.topic))
        self._offer()

    def _offer(self) -> None:
        """Let the load be moved, or no longer."""
        place = Work(LESSON, self.topic.problem, self.topic.notation)["place"] if self.moving else None
        self.stage.move(place, "Move the load's point.")


def lecture() -> pn.Template:
    """The page of one lecture, with the problem that its address may hold."""
    query = address_texts()
    lectern = Lectern(query)
    roots = {"stage": lectern.stage, "lecture": lectern.words}
    return page(
        "Halfturn lecture", here="/lecture", needs=("stage", "lecture"), layout="lecture.html", **roots
    )


def notes() -> pn.Template:
    """The presenter's page."""
    return page("Presenter's page", here="/lecture/notes", needs=("notes",), sheet=NotesView())
