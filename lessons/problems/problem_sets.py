"""A problem set: what a teacher gives a class.

Each of its problems is a lesson's key and its givens; where some of them may vary, each student has a variant.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lessons.grammar.lesson import Lesson
from lessons.grammar.problem import Draw, Problem
from lessons.problems.points import Points
from lessons.problems.variants import variant


class BadSet(ValueError):
    """A problem set with faults; the message names file, line, problem and field, then the fault, one a line."""


@dataclass(frozen=True)
class SetProblem:
    """A problem of a set. problem : as it stands in the file.  notes : for the teacher.

    stated : keys of the givens that the file states.  vary : how those that vary are drawn."""

    problem: Problem
    lesson: Lesson
    notes: str = ""
    stated: tuple[str, ...] = ()
    vary: Mapping[str, Draw] = field(default_factory=dict, hash=False)


@dataclass(frozen=True)
class ProblemSet:
    """A set of problems. key : how links and hand-ins call it.  version : another one is another set of numbers.

    notes : for the teacher.  seed : deals other variants to the same names.  points : None where none are given."""

    key: str
    title: str
    version: int
    notes: str
    seed: int
    points: Points | None
    items: tuple[SetProblem, ...]

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The problems as they stand in the file, in its order."""
        return tuple(one.problem for one in self.items)

    def find(self, key: str) -> SetProblem | None:
        """The problem of that key, if the set has it."""
        return next((one for one in self.items if one.problem.key == key), None)

    @property
    def varies(self) -> bool:
        """Whether students have variants of their own."""
        return any(one.vary for one in self.items)

    def variant(self, item: SetProblem, code: str) -> Problem:
        """A problem of the set in the variant of that code; as it stands in the file for "".

        Raises TooRare where its bounds leave no problem that can be marked without doubt."""
        if not code:
            return item.problem
        salt = f"{self.key}\n{self.seed}\n{item.problem.key}\n{code}"
        return variant(item.problem, item.lesson, item.stated, item.vary, salt)
