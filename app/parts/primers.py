"""A primer and its figure as plain data: every pose is computed here, the browser turns from one to the next."""

from __future__ import annotations

from app.parts.messages.course import FigureWords, MarkWords, PrimerWords
from lessons.grammar.figure import Dot, Figure, Mark
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import Notation
from lessons.saved.notations import write_notation

DECIMALS = 4


def primer_key(lesson: Lesson, notation: Notation) -> str:
    """The name of a lesson's primer in a notation, "" where it has none."""
    return " ".join([lesson.key, *write_notation(notation).values()]) if lesson.primer else ""


def primer_words(lesson: Lesson, notation: Notation) -> PrimerWords | None:
    """A lesson's primer, or None where it has none."""
    primer = lesson.primer
    if primer is None:
        return None
    work = Work(lesson, lesson.problem(), notation)
    return {
        "key": primer_key(lesson, notation),
        "title": lesson.title,
        "paragraphs": [work.say(text) for text in primer.paragraphs],
        "figure": figure_words(primer.figure, notation) if primer.figure else None,
    }


def figure_words(figure: Figure, notation: Notation) -> FigureWords:
    """A figure with all its poses."""
    poses = [figure.pose(place, notation) for place in figure.places]
    return {
        "title": figure.title,
        "holds": figure.holds,
        "panels": [
            {
                "key": one.key,
                "left": one.left,
                "right": one.right,
                "bottom": one.bottom,
                "top": one.top,
                "round": one.round,
                "across": one.across,
            }
            for one in figure.panels
        ],
        "still": [_mark(one) for one in figure.still(notation)],
        "poses": [
            {"hand": _mark(one.hand), "marks": [_mark(mark) for mark in one.marks], "said": one.said}
            for one in poses
        ],
        "start": figure.start,
    }


def _mark(mark: Mark) -> MarkWords:
    points = (mark.at,) if isinstance(mark, Dot) else mark.points
    return {
        "panel": mark.panel,
        "kind": "dot" if isinstance(mark, Dot) else mark.ends or "line",
        "role": mark.role,
        "label": mark.label,
        "points": [(round(one.real, DECIMALS) + 0.0, round(one.imag, DECIMALS) + 0.0) for one in points],
    }
