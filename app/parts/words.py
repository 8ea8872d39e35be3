"""Words that every view says alike: the problem, a verdict, the cautions."""

from __future__ import annotations

from urllib.parse import urlencode

from app.parts.messages import shared
from app.parts.messages.working import Writing
from app.parts.template import at
from lessons.grammar.branch import Branch
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.homework.names import Names
from lessons.problems.places import Place
from lessons.problems.sets import problems_of
from lessons.saved.links import problem_texts
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet

WORDS = {"right": ("✓", "Right"), "close": ("≈", "Close"), "slip": ("✗", "A slip"), "wrong": ("✗", "Not yet"),
         "unreadable": ("?", "Not read"), "impossible": ("✗", "Cannot follow")}  # fmt: skip
FOLLOWS = ("↳", "Follows")
"""Of a value that is right for a student's own earlier values, though not for the problem: no tick, no "right"."""
CAUTION = (
    "Results are ideal and for study. A high standing-wave ratio and an open stub end mean high voltage even at "
    "modest power: switch off before touching. Keep to the exposure limits and licence rules of your country, and ask "
    "a qualified person before building at power. Open stubs radiate; measure before you trust."
)


def problem_words(work: Work) -> shared.ProblemWords:
    """A problem in words: its key, title and story, and what is given."""
    problem = work.problem
    return {
        "key": problem.key,
        "title": problem.title or "Your own problem",
        "story": problem.story,
        "given": f"{work.say(work.lesson.task)}{only_words(work)}",
    }


def only_words(work: Work) -> str:
    """Which solution is asked for, where one alone is."""
    branch = work.lesson.branch(work.problem.solution)
    return f" Only the {branch.word} solution is asked for." if branch else ""


def count_of(number: int, word: str) -> str:
    """A number of things."""
    return f"{number} {word}{'' if number == 1 else 's'}"


def branch_wire(branch: Branch | None) -> shared.Branch | None:
    """A branch as the browser is told of it: its key, its word, and the role that its strokes have."""
    return None if branch is None else {"key": branch.key, "word": branch.word, "role": branch.role}


def judged(verdict: Verdict) -> tuple[str, str]:
    """The sign and the word of a verdict."""
    return FOLLOWS if verdict.follows else WORDS[verdict.judgement]


def verdict_words(verdict: Verdict, settled: bool) -> shared.VerdictWords:
    """A verdict in words, and what may be done about it; `settled` where the student is past it."""
    sign, word = judged(verdict)
    sentence = verdict.sentence.removeprefix("Right.").removeprefix("Right:").removeprefix("Close:").strip()
    return {
        "judgement": verdict.judgement,
        "sign": sign,
        "word": word,
        "sentence": sentence[:1].upper() + sentence[1:],
        "canCarry": verdict.value is not None and not verdict.accepted and not settled,
        "carried": settled and not verdict.accepted,
        "backTo": verdict.back_to,
    }


def outcome_title(sheet: Sheet) -> str:
    """What a finished sheet is, in a heading; "solved" and "matched" only where that is so."""
    if sheet.solved:
        return "Solved"
    if sheet.matched is False:
        return "Consistent, but it does not match" if sheet.went_wrong else "Finished, but it does not match"
    return "Finished, with a value carried on"


def problem_choices(
    lesson: Lesson, catalogue: Catalogue, notation: Notation = STANDARD
) -> list[shared.ProblemChoice]:
    """The problems of a lesson that come with the program, to choose from, each with what it gives."""
    return [
        {
            "key": problem.key,
            "title": problem.title,
            "given": Work(lesson, problem, notation).say(lesson.brief),
            "entries": problem_texts(problem, catalogue),
        }
        for problem in problems_of(lesson, catalogue)
    ]


def term_words(work: Work) -> list[shared.TermWords]:
    """The terms that a lesson's texts may hold, with what they mean."""
    return [{"words": list(term.words), "meaning": term.meaning} for term in work.lesson.terms]


def set_place(place: Place | None, page: str) -> shared.SetPlace | None:
    """Where in a set a problem stands. page : the address at which its problems are opened."""
    if place is None:
        return None
    following = place.moved(1)
    return {
        "title": place.set.title,
        "number": place.index + 1,
        "count": len(place.set.items),
        "address": at(f"/sets?{urlencode({'set': place.set.key})}"),
        "next": at(f"{page}?{urlencode(following.texts())}") if following else "",
    }


def lesson_choices(catalogue: Catalogue) -> list[shared.Choice]:
    """The lessons in the order of the course, to choose from."""
    return [{"key": one.key, "title": one.title} for one in catalogue]


def writing_words(names: Names) -> Writing:
    """How lines of a working may be written, with the names of each quantity."""
    words = [branch.word for branch in names.work.lesson.branches]
    marks = f" Say {' or '.join(words)}, 1 or 2, or nothing: then the line is taken for the solution it fits best."
    return {
        "examples": list(names.lines_to_imitate()),
        "glossary": names.glossary(),
        "note": "Values in ohms or siemens, in wavelengths, degrees of line or millimetres, with j or i, as a + jb or "
        f"size and angle.{marks if words else ''}",
    }
