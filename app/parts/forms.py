"""The entries of the forms that most pages have: a problem of one's own, and how the course writes."""

from __future__ import annotations

from collections.abc import Mapping

from app.parts.messages.shared import Entry, Forms, Option, Texts
from lessons.grammar.difficulty import ANY, DIFFICULTIES, Difficulty
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.problems.texts import ACCURACIES, required, write_problem
from lessons.saved.notations import DECIMALS, HABITS, notation_texts


def forms(lesson: Lesson, problem: Problem | None, notation: Notation) -> Forms:
    """Both forms, filled in with a problem, or hardly where there is none yet, and with a notation; and the choice."""
    texts = _on_an_empty_page(lesson) if problem is None else write_problem(problem, lesson)
    return {
        "own": own_entries(lesson, texts),
        "notation": notation_entries(lesson, notation_texts(notation, lesson.symbols)),
        "difficulty": difficulty_entry(),
    }


def _on_an_empty_page(lesson: Lesson) -> dict[str, str]:
    """What most problems have alike: all that must stand, but for the first given."""
    usual, first = write_problem(lesson.problem(), lesson), lesson.givens[0].key
    return {key: usual[key] for key in required(lesson) if key != first}


def own_entries(lesson: Lesson, texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a problem of one's own and how its answers are found, filled in with a problem's texts."""
    answers = entry("accuracy", "Answers are", "", ACCURACIES, text=texts.get("accuracy", ""))
    return [*problem_entries(lesson, texts), answers]


def problem_entries(lesson: Lesson, texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a problem alone."""
    return [
        entry(one.key, one.label, one.example, tuple(one.kind.options), text=texts.get(one.key, ""))
        for one in lesson.givens
    ]


def notation_entries(lesson: Lesson, texts: Mapping[str, str]) -> list[Entry]:
    """Entries for a notation, filled in with its texts and where there is none with what is usual."""
    filled = {**notation_texts(STANDARD, lesson.symbols), **texts}
    symbols = [(one.key, f"Symbol for the {one.label}", "", ()) for one in lesson.symbols]
    habits = [(one.key, one.label, "", one.options) for one in (*HABITS, DECIMALS)]
    return [entry(*facts, text=filled[facts[0]]) for facts in (*symbols, *habits)]


def difficulty_entry(chosen: Difficulty = ANY) -> Entry:
    """The choice of how hard random problems are."""
    options = tuple((one.key, one.name) for one in DIFFICULTIES)
    meanings: Texts = {one.key: one.means for one in DIFFICULTIES}
    return {
        **entry("difficulty", "Difficulty of random problems", "", options, text=chosen.key),
        "meanings": meanings,
    }


def entry(
    key: str, label: str, example: str = "", options: tuple[Option, ...] = (), *, text: str = ""
) -> Entry:
    """One entry; a choice stands at its first option where nothing is filled in."""
    text = text or (options[0][0] if options else "")
    return {"key": key, "label": label, "example": example, "text": text, "options": list(options)}
