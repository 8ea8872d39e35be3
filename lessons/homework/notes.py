"""What is said beside a student's lines: how the whole and each statement was understood, where that was left open."""

from __future__ import annotations

from collections.abc import Iterator

from lessons.grammar.notation import Notation
from lessons.grammar.numbers import quoted
from lessons.homework.fit import Fit
from lessons.homework.placing import Placed

AGAIN = "It is written again further down; later lines are judged from that one."


def remarks(fit: Fit, notation: Notation) -> Iterator[str]:
    """How the whole was understood. notation : the course's, whose symbols the student may use otherwise."""
    order = fit.arrangement.ordinals
    if order != fit.sheet.lesson.branches_of(fit.sheet.problem):
        taken = ", ".join(f"{index} for the {branch.named('one')}" for index, branch in enumerate(order, 1))
        yield f"Your own numbers are taken so, as the lines fit best: {taken}."
    if (pick := fit.arrangement.picked) and fit.is_picked_by_fit and len(order) > 1:
        yield f"What is said of the parts to build is taken as of the {pick.named('solution')}: it fits that best."
    if fit.exchanged:
        one, other = (notation.symbol(symbol.key) for symbol in fit.exchanged)
        first, second = (symbol.label for symbol in fit.exchanged)
        yield (
            f"You seem to use {one} and {other} the other way round: your {other} is taken for the {first}, your {one} "
            f"for the {second}, as all lines together fit best so. If your book writes them so, take its symbols."
        )


def notes(fit: Fit, placed: Placed) -> Iterator[str]:
    """How one statement was understood."""
    statement = placed.statement
    if placed.option.reading.said:
        yield placed.option.reading.said
    if statement.beside:
        yield f"Read along with it and not marked: {', '.join(map(quoted, statement.beside))}."
    if placed.unmarked and placed.branch and statement.alone:
        yield f"Which solution it is of does not stand here; it fits the {placed.branch.named('one')} best."
    if fit.repeated(placed):
        yield AGAIN
