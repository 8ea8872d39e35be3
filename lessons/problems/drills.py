"""Problems for the drill of one step: fresh loads of the lesson's own seeded generator."""

from __future__ import annotations

from dataclasses import replace

from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.lesson import Lesson, Step
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.problems.seeds import TooRare, random_problem
from lessons.working.sheet import Sheet

MOST_DRAWN = 120  # some steps are asked by one problem in twenty
APART = 1_000_003  # from one seed to the next that is tried


def drill_problem(seed: int, lesson: Lesson, step: Step, difficulty: Difficulty = ANY) -> Problem:
    """The first problem from that seed on that asks for the step, without the steps after it.

    Raises TooRare where hardly any problem of the lesson asks for it."""
    later = frozenset(one.key for one in lesson.steps[lesson.steps.index(step) + 1 :])
    for turn in range(MOST_DRAWN):
        problem = random_problem(seed + APART * turn, lesson, difficulty=difficulty)
        if step in lesson.steps_of(problem):
            title = f"{step.title}, alone"
            return replace(problem, without=problem.without | later, title=title)
    raise TooRare(
        f"Of {MOST_DRAWN} problems drawn for {difficulty.after(lesson.key)}, none asks for {step.key}."
    )


def drill_sheet(
    seed: int, lesson: Lesson, step: Step, notation: Notation, difficulty: Difficulty = ANY
) -> Sheet:
    """A sheet of such a problem, on which only the step is left to do. Raises as `drill_problem`."""
    problem = drill_problem(seed, lesson, step, difficulty)
    return Sheet(lesson, problem, notation, shown=len(lesson.steps_of(problem)) - 1)
