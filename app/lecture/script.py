"""What a lecture shows: all that its page is told of a problem, frame by frame."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from app.lecture.built import built_frames
from app.lecture.waves import Places, Waves
from app.parts.forms import forms
from app.parts.messages.showing import FrameWords, LectureSet, Script
from app.parts.plotting import plotted
from app.parts.template import WAYS
from app.parts.words import CAUTION, branch_wire, lesson_choices, problem_choices, problem_words, set_place
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Given, Problem
from lessons.problems.places import Place
from lessons.problems.sets import Shelf, problems_of, shipped_problems
from lessons.saved.links import NO_SETS, problem_texts, read_link
from lessons.saved.notations import write_notation
from lessons.working.walkthrough import SIDE_BY_SIDE, Frame, showings, walkthrough, without_value


@dataclass(frozen=True)
class Topic:
    """What the lecture is about: a lesson's problem, how the course writes, and how its branches are shown.

    place : of the problem in a set, where the lecture goes through one."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    showing: str = SIDE_BY_SIDE
    place: Place | None = None


def opened(query: Mapping[str, str], catalogue: Catalogue, sets: Shelf = NO_SETS) -> tuple[Topic, list[str]]:
    """The topic that a link opens, and a sentence for each thing in it that could not be used."""
    linked = read_link(query, catalogue, sets)
    if linked.place:
        return in_set(linked.place, linked.notation), list(linked.faults)
    problem = linked.problem or problems_of(linked.lesson, catalogue)[0]
    return Topic(linked.lesson, with_its_story(problem, catalogue), linked.notation), list(linked.faults)


def in_set(place: Place, notation: Notation, showing: str = SIDE_BY_SIDE) -> Topic:
    """The topic of a set's problem."""
    lesson = place.item.lesson
    kept = showing if showing in dict(showings(lesson)) else SIDE_BY_SIDE
    return Topic(lesson, place.problem, notation, kept, place)


def script(topic: Topic, catalogue: Catalogue) -> Script:
    """All that the browser shows, frame by frame, and what a link or the forms say of the problem."""
    lesson, problem, notation = topic.lesson, topic.problem, topic.notation
    work = Work(lesson, problem, notation)
    walked = walkthrough(lesson, problem, notation, topic.showing)
    waves = Waves(work, topic.showing, walked)
    frames = [_frame(*one, topic) for one in zip(walked, waves.of_frames(walked), strict=True)]
    if frames:
        frames[-1:-1] = built_frames(work, topic.showing, waves)
    return {
        "lesson": lesson.title,
        "lessonKey": lesson.key,
        "given": problem_words(work)["given"],
        "brief": work.say(lesson.brief),
        "refusal": lesson.refuses(problem),
        "frames": frames,
        "waves": waves.pictures,
        "showing": topic.showing,
        "showings": list(showings(lesson)),
        "movable": movable(lesson, problem) is not None,
        "lessons": lesson_choices(catalogue),
        "entries": _texts(topic, catalogue),
        "notation": write_notation(notation),
        "forms": forms(lesson, problem, notation),
        "query": urlencode({**_texts(topic, catalogue), **write_notation(notation)}),
        "set": _set(topic.place),
        "choices": problem_choices(lesson, catalogue),
        "ways": list(WAYS),
        "caution": CAUTION,
    }


def _texts(topic: Topic, catalogue: Catalogue) -> dict[str, str]:
    """The texts that name the problem again: by its place in the set that the lecture goes through, if it does."""
    return topic.place.texts() if topic.place else problem_texts(topic.problem, catalogue)


def _set(place: Place | None) -> LectureSet | None:
    """The set that the lecture goes through, for the presenter's page."""
    where = set_place(place, "/lecture")
    if place is None or where is None:
        return None
    titles = [problem.title for problem in place.set.problems]
    return {**where, "titles": titles, "notes": [one for one in (place.set.notes, place.item.notes) if one]}


def _frame(frame: Frame, waves: Places, topic: Topic) -> FrameWords:
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
        "picture": {},
        "response": None,
        "waves": waves,
    }


def opened_at(wanted: str, frames: Sequence[FrameWords]) -> tuple[str, str]:
    """The key of the frame that a link names, by its key, its step or its number; or "" and the sentence why not."""
    named = wanted.strip()
    if not named or not frames:
        return "", ""
    for one in frames:
        if named in (one["key"], one["step"], str(one["number"] or "")):
            return one["key"], ""
    known = ", ".join(dict.fromkeys(one["step"] for one in frames))
    return "", f"This lecture has no step {quoted(named)}; its steps are {known}."


def movable(lesson: Lesson, problem: Problem) -> Given | None:
    """The given whose point can be moved on the chart by hand, if the problem has one."""
    return next((one for one in lesson.givens if one.put and problem[one.key] is not None), None)


def with_its_story(problem: Problem, catalogue: Catalogue) -> Problem:
    """The problem of the shipped sets that says the same, or the problem itself."""
    alike = (
        one
        for one in shipped_problems(catalogue)
        if one.lesson == problem.lesson
        and (dict(one.givens), one.accuracy, one.without)
        == (dict(problem.givens), problem.accuracy, problem.without)
    )
    return next(alike, problem)
