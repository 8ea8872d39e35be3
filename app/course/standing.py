"""Where a student stands in the course, in words and links."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from random import SystemRandom
from urllib.parse import urlencode

from app.parts.messages.course import CoursePage, LessonStanding, WeakStep
from app.parts.primers import primer_key
from app.parts.words import CAUTION, count_of
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.notation import STANDARD
from lessons.problems.sets import problems_of
from lessons.saved.links import SEEDS
from lessons.working.progress import MASTERY, Progress
from lessons.working.standing import Standing, standings
from lessons.working.tally import Summary, Tried

LEAD = (
    "Halfturn teaches the reflection chart and what is done with it: from the first normalised impedance to matching, "
    "one construction at a time. Each step is checked, and a slip is called by its name.",
    "Begin with the first lesson, or with any other: none is locked. Each opens with what it is about and a problem "
    "that is worked for you; then more and more of it is yours.",
)
MOST_WEAK, MOST_OF_A_LESSON = 5, 3
STATES = {"new": ("", ""), "begun": ("…", "Begun"), "solid": ("✓", "Solid"), "due": ("↻", "Review due")}


def course_page(
    catalogue: Catalogue,
    progress: Mapping[str, Progress],
    sheets: Sequence[Summary] = (),
    faults: Sequence[str] = (),
    today: date | None = None,
) -> CoursePage:
    """All that the course page shows. sheets : those that were kept.  faults : a sentence for each unreadable one."""
    found = standings(catalogue, progress, sheets, today)
    lessons = [_lesson(one, catalogue) for one in found]
    weakest = sorted((step for one in found for step in one.weak), key=lambda one: -one.failed)
    return {
        "lead": list(LEAD),
        "lessons": lessons,
        "weak": [_weak(one) for one in weakest[:MOST_WEAK]],
        "faults": _faults(faults),
        "known": bool(sheets) or any(one.state != "new" for one in found),
        "caution": CAUTION,
    }


def _faults(sentences: Sequence[str]) -> list[str]:
    """Each sentence once, with how many sheets it is about."""
    many = {one: sentences.count(one) for one in sentences}
    said = {1: "One sheet could not be read and is left out here"}
    return [
        f"{said.get(times, f'{times} sheets could not be read and are left out here')}: {sentence}"
        for sentence, times in many.items()
    ]


def _lesson(one: Standing, catalogue: Catalogue) -> LessonStanding:
    lesson, (sign, word) = one.lesson, STATES[one.state]
    needs = (catalogue.find(key) for key in lesson.needs)
    return {
        "key": lesson.key,
        "title": lesson.title,
        "purpose": lesson.purpose,
        "needs": [{"key": need.key, "title": need.title} for need in needs if need],
        "state": one.state,
        "sign": sign,
        "word": word,
        "said": " ".join(_said(one, len(problems_of(lesson, catalogue)))),
        "query": urlencode({"lesson": lesson.key}),
        "fresh": urlencode({"lesson": lesson.key, "seed": SystemRandom().randrange(SEEDS)}),
        "primer": primer_key(lesson, STANDARD),
        "weak": [_weak(step) for step in one.weak[:MOST_OF_A_LESSON]],
    }


def _said(one: Standing, shipped: int) -> Iterable[str]:
    progress = one.progress
    if one.state == "new":
        yield f"{count_of(shipped, 'problem')} of the river watch, and as many more as you like."
        return
    if one.state == "due":
        yield f"Mastered on {_day(progress.mastered)}. A review is due: one fresh problem."
    elif one.state == "solid":
        day = progress.review_day
        again = f"the next review is on {_day(day.isoformat())}" if day else "and reviewed"
        yield f"Mastered on {_day(progress.mastered)}; {again}."
    else:
        yield f"In a row without help: {progress.run} of {MASTERY}."
    if one.begun:
        yield f"{one.solved} of {count_of(one.begun, 'problem')} begun {'is' if one.solved == 1 else 'are'} solved."


def _weak(one: Tried) -> WeakStep:
    times = "in your last problem" if one.times == 1 else f"in {one.failed} of your last {one.times} problems"
    return {
        "lesson": one.lesson.title,
        "title": one.step.title,
        "said": f"went wrong {times}",
        "query": urlencode({"lesson": one.lesson.key, "drill": one.step.key}),
    }


def _day(text: str) -> str:
    """A day as it is said: 3 November 2026."""
    day = date.fromisoformat(text)
    return f"{day.day} {day:%B %Y}"
