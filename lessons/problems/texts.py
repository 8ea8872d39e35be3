"""A problem as short texts: what a link carries, a form holds, and a problem set spells out.

Whatever comes in is checked. A text that cannot be meant gets one sentence, and the usual value takes its place, so
that a link with bad values still opens; a form asks again instead.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from core import CoreError
from lessons.grammar.given_kinds import Word
from lessons.grammar.lesson import Lesson, Step
from lessons.grammar.numbers import Unreadable, quoted
from lessons.grammar.problem import Problem

ACCURACIES = (("chart", "read from the chart"), ("calculated", "calculated"))


@dataclass(frozen=True)
class Reading:
    """A problem read from texts, with one sentence in `faults` for each text that could not be used."""

    problem: Problem
    faults: dict[str, str]


def read_problem(texts: Mapping[str, str], lesson: Lesson) -> Reading:
    """The problem that these texts describe; keys are those of `keys_of`, others are passed over.

    Never raises: what cannot be used has its usual value and is named in `faults`. What the lesson itself refuses,
    such as a load that is matched already, is no fault of the texts."""
    found: dict[str, Any] = {}
    faults: dict[str, str] = {}
    must_stand = required(lesson)
    for key, read in _readers(lesson).items():
        text = texts.get(key)
        if text is None or (key not in must_stand and not text.strip()):
            continue
        try:
            found[key] = read(text)
        except (Unreadable, CoreError) as fault:
            faults[key] = str(fault)
    givens = {one.key: found.pop(one.key) for one in lesson.givens if one.key in found}
    return Reading(lesson.problem(givens, **found), faults)


def write_problem(problem: Problem, lesson: Lesson) -> dict[str, str]:
    """The texts that give exactly this problem back: what must stand, and whatever else is not usual."""
    texts = {}
    for one in lesson.givens:
        value = problem[one.key]
        if one.must_stand or value != one.usual(problem.givens):
            texts[one.key] = one.kind.write(value)
    if problem.accuracy != ACCURACIES[0][0]:
        texts["accuracy"] = problem.accuracy
    if problem.without:
        texts["without"] = ",".join(sorted(problem.without))
    if problem.solution:
        texts["solution"] = problem.solution
    return texts


def required(lesson: Lesson) -> tuple[str, ...]:
    """Keys of the givens that a problem of the lesson has to state."""
    return tuple(one.key for one in lesson.givens if one.must_stand)


def keys_of(lesson: Lesson) -> tuple[str, ...]:
    """Keys of all texts that a problem of the lesson may have."""
    return tuple(_readers(lesson))


def _readers(lesson: Lesson) -> dict[str, Callable[[str], Any]]:
    return {
        **{one.key: one.kind.read for one in lesson.givens},
        "accuracy": Word("accuracy", ACCURACIES).read,
        "without": lambda text: _read_without(text, lesson),
        "solution": lambda text: _read_solution(text, lesson),
    }


def _read_without(text: str, lesson: Lesson) -> frozenset[str]:
    known = [step.key for step in lesson.steps]
    named = {word.strip() for word in text.split(",")} - {""}
    formerly = {old for step in lesson.steps for old in step.formerly}
    if unknown := sorted(named - set(known) - formerly):
        raise Unreadable(
            f"{quoted(unknown[0])} is no step of this lesson; those that can be left out are {', '.join(known)}."
        )
    left_out = frozenset(step.key for step in lesson.steps if _is_left_out(step, named))
    if left_out == set(known):
        raise Unreadable("With every step left out nothing would remain to do; leave at least one step in.")
    return left_out


def _is_left_out(step: Step, named: set[str]) -> bool:
    """Whether a step is named; of one that was several, whether all of them are."""
    return step.key in named or (bool(step.formerly) and named.issuperset(step.formerly))


def _read_solution(text: str, lesson: Lesson) -> str:
    wanted = text.strip().lower()
    if not lesson.branches:
        raise Unreadable("This lesson has one solution, so none can be asked for alone; leave this out.")
    if lesson.branch(wanted) is None:
        known = " or ".join(branch.key for branch in lesson.branches)
        raise Unreadable(f"The solution must be {known}, not {quoted(text)}; left out, all are asked for.")
    return wanted
