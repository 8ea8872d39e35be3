"""Words that every view says alike: the problem, a verdict, the cautions."""

from __future__ import annotations

from typing import Any

from lessons.grammar.branch import Branch
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Work
from lessons.problems.sets import problems_of
from lessons.working.marking import Verdict

WORDS = {"right": ("✓", "Right"), "close": ("≈", "Close"), "slip": ("✗", "A slip"), "wrong": ("✗", "Not yet"),
         "unreadable": ("?", "Not read"), "impossible": ("✗", "Cannot follow")}  # fmt: skip
CAUTION = (
    "Results are ideal and for study. A high standing-wave ratio and an open stub end mean high voltage even at "
    "modest power: switch off before touching. Keep to the exposure limits and licence rules of your country, and ask "
    "a qualified person before building at power. Open stubs radiate; measure before you trust."
)


def problem_words(work: Work) -> dict[str, str]:
    """A problem in words: its key, title and story, and what is given."""
    problem = work.problem
    return {
        "key": problem.key,
        "title": problem.title or "Your own problem",
        "story": problem.story,
        "given": work.say(work.lesson.task),
    }


def branch_wire(branch: Branch | None) -> dict[str, str] | None:
    """A branch as the browser is told of it: its key, its word, and the role that its strokes have."""
    return None if branch is None else {"key": branch.key, "word": branch.word, "role": branch.role}


def verdict_words(verdict: Verdict, settled: bool) -> dict[str, Any]:
    """A verdict in words, and what may be done about it; `settled` where the student is past it."""
    sign, word = WORDS[verdict.judgement]
    sentence = verdict.sentence.removeprefix("Right.").removeprefix("Close:").strip()
    return {
        "judgement": verdict.judgement,
        "sign": sign,
        "word": word,
        "sentence": sentence[:1].upper() + sentence[1:],
        "canCarry": verdict.value is not None and not verdict.accepted and not settled,
        "carried": settled and not verdict.accepted,
        "backTo": verdict.back_to,
    }


def problem_choices(lesson: Lesson, catalogue: Catalogue) -> list[dict[str, str]]:
    """The problems of a lesson that come with the program, to choose from."""
    return [{"key": problem.key, "title": problem.title} for problem in problems_of(lesson, catalogue)]


def lesson_choices(lesson: Lesson, catalogue: Catalogue) -> list[dict[str, Any]]:
    """The lessons in the order of the course, to choose from; which of them is open."""
    return [{"key": one.key, "title": one.title, "open": one is lesson} for one in catalogue]
