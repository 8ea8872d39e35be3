"""Paper for a class: worksheets with the names on them in one file to print, and the key by name.

The files stand alone: what all pages have in common, the printed chart, stands in them once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from app.parts.template import STATIC
from app.parts.words import only_words
from app.parts.worksheet import SIZES, worksheet
from lessons.grammar.branch import Branch
from lessons.grammar.difficulty import Difficulty
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Problem
from lessons.problems.problem_sets import ProblemSet
from lessons.problems.seeds import random_problem
from lessons.problems.variants import code_of

SHARED = (('<g class="printed">', '<g class="lines"'), ('<g class="radial">', '<g class="notes">'))
"""Where what is printed on every chart alike begins, and what follows it: the grid, and the radial scales under it."""


@dataclass(frozen=True)
class Pupil:
    """A name of the class list, with its own problems.

    code : its variant, or the number of its sheet.  called : the same in the key."""

    name: str
    code: str
    called: str
    problems: tuple[tuple[Lesson, Problem], ...]


def pupils(one: ProblemSet, names: Sequence[str]) -> tuple[Pupil, ...]:
    """The class with its variants of a set. Raises TooRare where the set's bounds leave a name without one."""
    codes = [(name, code_of(one.key, name)) for name in names]
    return tuple(
        Pupil(
            name, code, f"variant {code}", tuple((item.lesson, one.variant(item, code)) for item in one.items)
        )
        for name, code in codes
    )


def at_random(lesson: Lesson, names: Sequence[str], seed: int, difficulty: Difficulty) -> tuple[Pupil, ...]:
    """The class with a random problem each, numbered from the seed on."""
    return tuple(
        Pupil(
            name,
            str(number),
            f"worksheet {difficulty.after(number)}",
            ((lesson, random_problem(number, lesson, difficulty=difficulty)),),
        )
        for number, name in enumerate(names, seed)
    )


def worksheets(title: str, class_: Sequence[Pupil], size: str, drawn: str) -> Iterator[str]:
    """One document with all worksheets, a student's after another's, in pieces."""
    width, height = SIZES[size]
    rules = f"@page {{ size: {width:g}mm {height:g}mm; margin: 0; }}"
    measures = f":root {{ --width: {width:g}mm; --height: {height:g}mm; }}"
    yield _head(f"{title}: worksheets", f"{rules}\n{measures}", "sheets")
    shared: dict[str, str] = {}
    for pupil in class_:
        for lesson, problem in pupil.problems:
            for page in worksheet(lesson, problem, size=size, drawn=drawn, seed=pupil.code, name=pupil.name):
                yield from _page(page, shared)
    yield "</main>\n</body>\n</html>\n"


def _page(page: str, shared: dict[str, str]) -> Iterator[str]:
    """A page in which what all have in common is drawn by its name; that itself goes before the first page with it."""
    for begins, follows in SHARED:
        start = page.find(begins)
        end = page.find(follows, start)
        if start < 0 or end < 0:
            continue
        part = page[start:end]
        if part not in shared:
            shared[part] = f"printed-{len(shared)}"
            yield f'<svg class="shared" aria-hidden="true"><g id="{shared[part]}">{part}</g></svg>\n'
        page = f'{page[:start]}<use href="#{shared[part]}"/>{page[end:]}'
    yield page.replace("<svg ", '<svg class="page" ', 1) + "\n"


def key(title: str, class_: Sequence[Pupil]) -> Iterator[str]:
    """One document that finds a student's variant by name, with the value of every step, in pieces."""
    yield _head(f"{title}: key", "@page { margin: 14mm; }", "key")
    in_order = sorted(class_, key=lambda pupil: pupil.name.casefold())
    yield f'<h1>{escape(title)}: key</h1>\n<nav aria-label="Names">'
    for number, pupil in enumerate(in_order):
        yield f'<a href="#s{number}">{escape(pupil.name)}</a>\n'
    yield "</nav>\n"
    for number, pupil in enumerate(in_order):
        yield f'<section id="s{number}">\n<h2>{escape(pupil.name)}: {pupil.called}</h2>\n'
        for place, (lesson, problem) in enumerate(pupil.problems, 1):
            yield from _answers(place, Work(lesson, problem))
        yield "</section>\n"
    yield "</main>\n</body>\n</html>\n"


def _answers(number: int, work: Work) -> Iterator[str]:
    problem, lesson = work.problem, work.lesson
    given = f"{work.say(lesson.brief)}.{only_words(work)}"
    yield f"<h3>{number}. {escape(problem.title)}: {escape(given)}</h3>\n<p>"
    for place, step in enumerate(lesson.steps_of(problem), 1):
        values = (f"{_which(one.branch)}{work.write(one.key)}" for one in step.fields)
        yield f"<b>{place}</b> {escape(step.title)}: {escape('; '.join(values))}. "
    yield "</p>\n"


def _which(branch: Branch | None) -> str:
    return f"{branch.word} " if branch else ""


def _head(title: str, rules: str, kind: str) -> str:
    look = (STATIC / "paper" / "for_class.css").read_text("utf-8")
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f'<title>{escape(title)}</title>\n<style>{rules}\n{look}</style>\n</head>\n<body>\n<main class="{kind}">\n'
    )
