"""Random problems: the same from one seed on any machine, and such as can be marked without doubt.

No usual mistake and no mixing of two branches gives an answer that a right one could be taken for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from lessons.grammar.dice import Dice
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.kinds import CLOSE
from lessons.grammar.lesson import Field, Lesson, Work
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Draw, Given, Problem
from lessons.working.marking import predicted_all

NOTATIONS = (Notation(admittance="half turn"), Notation(admittance="overlay"))
CHANGES_NOTHING = 1e-6  # of a tolerance: the same value but for rounding, so nobody can go wrong by it
VILLAGES = ("Upper Ford", "Sallow Bridge", "Mill Reach", "Heron Weir", "Otterhead", "Long Eddy")
HARDLY_EVER = (
    1  # how usual a mistake is that may give the right number by chance: else few problems were left
)
MOST_THROWS, MOST_WITH_SOME_SET = 10_000, 500


class TooRare(RuntimeError):
    """A lesson whose random problems are next to never fit to be set: its draws or its slips need mending."""


def random_problem(
    seed: int, lesson: Lesson, set_ones: Mapping[str, Draw] | None = None, difficulty: Difficulty = ANY
) -> Problem:
    """The problem of that seed and difficulty, the same on any machine: instructive, nothing ambiguous.

    set_ones : for givens that are not left to chance, by key, what finds them instead of their own draw.
    Raises TooRare where no problem can be set with them."""
    dice, most = Dice(seed, difficulty), MOST_WITH_SOME_SET if set_ones else MOST_THROWS
    for _ in range(most):
        problem = _draw(dice, seed, lesson, set_ones or {})
        if _can_be_set(lesson, tuple(problem.givens.items()), difficulty):
            return problem
    raise TooRare(f"Of {most} problems drawn for {difficulty.after(lesson.key)} none can be set.")


@lru_cache(maxsize=4096)  # the variants of a class are often the same few
def _can_be_set(lesson: Lesson, values: tuple[tuple[str, Any], ...], difficulty: Difficulty) -> bool:
    """Whether a problem of these givens teaches something, can be solved, and is marked without doubt."""
    problem = lesson.problem(dict(values), difficulty=difficulty)
    return (
        lesson.instructive(problem) and not lesson.refuses(problem) and not any(_ambiguities(problem, lesson))
    )


def ambiguities(problem: Problem, lesson: Lesson) -> tuple[str, ...]:
    """What could be taken for a right answer: "field: slip" for each mistake within twice the tolerance of it."""
    return tuple(dict.fromkeys(_ambiguities(problem, lesson)))


def _ambiguities(problem: Problem, lesson: Lesson) -> Iterator[str]:
    fields = [field for step in lesson.steps_of(problem) for field in step.fields]
    later = fields[fields.index(lesson.picking_field) :] if lesson.picking_field in fields else []
    for notation in NOTATIONS:
        yield from _in_order(fields, Work(lesson, problem, notation))
    for branch in (
        lesson.branches_of(problem) if later else ()
    ):  # what is asked of the branch that the student picks
        yield from _in_order(later, Work(lesson, problem, given={later[0].key: branch.key}))


def _in_order(fields: list[Field], work: Work) -> Iterator[str]:
    for field in fields:
        if field.accepts is None:
            yield from _taken_for_right(field, work)


def _taken_for_right(field: Field, work: Work) -> Iterator[str]:
    kind = field.kind(work)
    usual = (slip for slip in field.slips if slip.usual > HARDLY_EVER)
    mistakes = ((slip.key, value) for slip in usual for value in predicted_all(slip, work))
    for name, value in (*mistakes, *_other_branches(field, work)):
        off = kind.off_by(value, work[field.key], work.problem.accuracy)
        if CHANGES_NOTHING < off <= CLOSE:
            yield f"{field.key}: {name}"


def _other_branches(field: Field, work: Work) -> Iterator[tuple[str, Any]]:
    """The same thing's values in the other branches."""
    there = work.lesson.branches_of(work.problem)
    for one in work.lesson.fields.values():
        if field.branch and one.branch in there and one.quantity == field.quantity and one is not field:
            yield "other branch", work[one.key]


class _Throws(Mapping[str, Any]):
    """Givens drawn as they are asked for, so that one can be drawn from another."""

    def __init__(self, givens: tuple[Given, ...], dice: Dice, set_ones: Mapping[str, Draw]) -> None:
        self._givens, self._dice = {one.key: one for one in givens}, dice
        self._draws = {one.key: set_ones.get(one.key, one.draw) for one in givens}
        self._drawn: dict[str, Any] = {}

    def __getitem__(self, key: str) -> Any:
        if key not in self._drawn:
            one = self._givens[key]
            draw = self._draws[key]
            self._drawn[key] = draw(self._dice, self) if draw else one.usual(self)
        return self._drawn[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._givens)

    def __len__(self) -> int:
        return len(self._givens)


def _draw(dice: Dice, seed: int, lesson: Lesson, set_ones: Mapping[str, Draw]) -> Problem:
    """Any problem at all; most are not instructive."""
    problem = lesson.problem(dict(_Throws(lesson.givens, dice, set_ones)))
    return replace(
        problem,
        difficulty=dice.difficulty,
        key="-".join(("random", str(seed), *dice.difficulty.texts.values())),
        title=f"Random problem {dice.difficulty.after(seed)}",
        story=dice.pick(lesson.places).format(place=dice.pick(VILLAGES)),
    )
