"""A problem as a quiz: what is asked, and for each answer that can be foreseen what the tutor says of it.

A quiz cannot follow a student's earlier values, so every answer is judged beside the solver's; only the solution that a
student picks is gone along with.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import isfinite
from typing import Any, Literal

from lessons.classes.regions import (
    Interval,
    Judge,
    Option,
    Region,
    around,
    judge,
    of_slip,
    quickly,
)
from lessons.grammar.lesson import Field, Impossible, Step, Work
from lessons.grammar.notation import STANDARD
from lessons.problems.points import Points
from lessons.problems.problem_sets import ProblemSet, SetProblem
from lessons.problems.variants import code_of
from lessons.working.marking import predicted_all

Asked = Literal["number", "complex", "choice"]
NOT_THIS = "Not this value."
MOST_HALVES = 20  # halves of a wavelength that one may have too many
ROUNDING = 1e-7


@dataclass(frozen=True)
class Foreseen:
    """Answers of which the tutor says one thing. picked : only where this option was picked before, "" for always."""

    region: Region
    sentence: str
    right: bool
    picked: str = ""
    slip: str = ""


@dataclass(frozen=True)
class Question:
    """A field of a quiz. options : of a choice, with their words.  correct : one right answer, as text parts.

    otherwise : what is said of any other answer.  worth : points of a right one."""

    key: str
    label: str
    asked: Asked
    unit: str
    options: tuple[tuple[str, str], ...]
    correct: tuple[str, ...]
    foreseen: tuple[Foreseen, ...]
    otherwise: str
    worth: float


@dataclass(frozen=True)
class QuizStep:
    """A step, and what it asks."""

    title: str
    ask: str
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class QuizItem:
    """A problem in one variant. left_out : labels of what no box can take."""

    key: str
    title: str
    story: str
    task: str
    steps: tuple[QuizStep, ...]
    picking: str
    left_out: tuple[str, ...] = ()


def quiz_items(one: ProblemSet, item: SetProblem, variants: int) -> Iterator[QuizItem]:
    """A problem of a set as a quiz: in so many variants where it varies, as it stands where it does not.

    Raises TooRare where the bounds leave no variant."""
    if not item.vary:
        yield quiz_item(item, item.problem.key, Work(item.lesson, item.problem), one.points)
        return
    for number in range(1, variants + 1):
        problem = one.variant(item, code_of(one.key, f"quiz {number}"))
        yield quiz_item(item, f"{problem.key}-{number}", Work(item.lesson, problem), one.points)


def quiz_item(item: SetProblem, key: str, truth: Work, points: Points | None) -> QuizItem:
    """A problem as a quiz, judged by this derivation of the solver's."""
    problem, lesson = truth.problem, truth.lesson
    left_out: list[str] = []
    steps = []
    for step in lesson.steps_of(problem):
        questions = tuple(_questions(step, truth, points or Points(), left_out))
        if questions:
            steps.append(QuizStep(step.title, truth.say(step.ask), questions))
    only = lesson.branch(problem.solution)
    alone = f" Only the {only.word} solution is asked for." if only else ""
    picking = lesson.picking_field
    return QuizItem(
        key=key,
        title=problem.title,
        story=problem.story,
        task=f"{truth.say(lesson.task)}{alone}",
        steps=tuple(steps),
        picking=picking.key if picking else "",
        left_out=tuple(left_out),
    )


def _questions(step: Step, truth: Work, points: Points, left_out: list[str]) -> Iterator[Question]:
    for field in step.fields:
        label = truth.say(field.full_label)
        value, kind = truth[field.key], field.kind(truth)
        asked: Asked = (
            "choice" if kind.names_a_choice else "complex" if isinstance(value, complex) else "number"
        )
        if asked != "choice" and not isfinite(abs(value)):
            left_out.append(label)
            continue
        yield Question(
            key=field.key,
            label=label,
            asked=asked,
            unit=kind.unit(STANDARD),
            options=tuple(kind.options),
            correct=_correct(value),
            foreseen=tuple(_foreseen(field, truth)),
            otherwise=f"{NOT_THIS} {truth.say(step.goal)}",
            worth=points.full(step.key) / len(step.fields),
        )


def _correct(value: Any) -> tuple[str, ...]:
    """A right answer as one would type it: six significant digits are enough for every tolerance."""
    if isinstance(value, str):
        return (value,)
    parts = (value.real, value.imag) if isinstance(value, complex) else (float(value),)
    return tuple(f"{round(part, 9) + 0.0:.6g}" for part in parts)


def _foreseen(field: Field, truth: Work) -> Iterator[Foreseen]:
    """All that is foreseen of a field, in the order in which it is tried; for each option that may have been picked."""
    picking = truth.lesson.picking_field
    fields = list(truth.lesson.fields.values())
    depends = picking and not truth.problem.solution and fields.index(field) > fields.index(picking)
    if not depends or picking is None or picking.key not in _asked(truth):
        yield from _of(field, truth, "")
        return
    for branch in truth.lesson.branches:
        yield from _of(field, _picked(truth, picking.key, branch.key), branch.key)


def _asked(truth: Work) -> set[str]:
    return {one.key for step in truth.lesson.steps_of(truth.problem) for one in step.fields}


def _picked(truth: Work, key: str, branch: str) -> Work:
    return Work(truth.lesson, truth.problem, truth.notation, {key: branch})


def _of(field: Field, work: Work, picked: str) -> Iterator[Foreseen]:
    judged = judge(field, work)
    kind = field.kind(work)
    if kind.names_a_choice:
        for key, _ in kind.options:
            verdict = judged(key)
            yield Foreseen(Option(key), verdict.sentence, verdict.accepted, picked, verdict.slip)
        return
    yield from _right(field, work, picked)
    yield from _slips(field, work, judged, picked)


def _right(field: Field, work: Work, picked: str) -> Iterator[Foreseen]:
    """Right answers, also some halves of a wavelength on where lengths repeat; then those that are close."""
    quick, value = quickly(field, work), work[field.key]
    scale = 1e-3 * max(abs(value), 0.1)
    for passes in (("right",), ("right", "close")):

        def is_in(other: Any, passes: tuple[str, ...] = passes) -> bool:
            return quick(other).judgement in passes

        for region in (around(value, is_in, scale), *_again(field, work, is_in, scale)):
            if region is not None:
                sentence = quick(_middle(region)).sentence if len(passes) == 1 else _close(region, quick)
                yield Foreseen(region, sentence, True, picked)


def _again(field: Field, work: Work, is_in: Callable[[Any], bool], scale: float) -> Iterator[Region | None]:
    """The same length with more and more halves of a wavelength, as far as the tutor goes along."""
    half = {"wavelengths": 0.5, "millimetres": (work.wavelength_mm or 0.0) / 2}
    more = half.get(field.kind(work).length_in, 0.0)
    first = around(work[field.key] + more, is_in, scale) if more else None
    for halves in range(MOST_HALVES) if isinstance(first, Interval) else ():
        on = halves * more
        moved = Interval(first.middle + on, first.low + on, first.high + on)  # type: ignore[union-attr]
        if is_in(moved.low + ROUNDING) and is_in(moved.high - ROUNDING):
            yield moved


def _middle(region: Region) -> Any:
    return region.middle if isinstance(region, Interval) else region.centre  # type: ignore[union-attr]


def _close(region: Region, quick: Judge) -> str:
    """What is said near the edge of all that is accepted."""
    edge = region.high if isinstance(region, Interval) else region.centre + 0.999 * region.radius  # type: ignore[union-attr]
    return quick(edge).sentence


def _slips(field: Field, work: Work, judged: Judge, picked: str) -> Iterator[Foreseen]:
    seen: set[str] = set()
    for slip in sorted(field.slips, key=lambda slip: -slip.usual):
        try:
            window = slip.window(work)
            values = predicted_all(slip, work)
        except (Impossible, ArithmeticError):
            continue
        for value in values:
            for region, verdict in of_slip(field, work, judged, value, window):
                name = f"{region}"
                if name not in seen:
                    seen.add(name)
                    yield Foreseen(region, verdict.sentence, False, picked, verdict.slip)
