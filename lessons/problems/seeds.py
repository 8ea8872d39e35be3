"""Where problems come from: a few texts, the set that comes with the program, or a seed.

A random problem is one that can be marked without doubt: no usual mistake and no mixing of the two solutions gives an
answer that a right one could be taken for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from random import Random
from typing import TypeVar

from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Field, Lesson, Problem, Work, other_side
from lessons.grammar.notation import Notation
from lessons.problems.sets import BadSet, read_set, shipped_problem, shipped_problems
from lessons.problems.texts import DEFAULT, KEYS, Reading, read_problem, write_problem
from lessons.working.marking import CLOSE, predicted

__all__ = [
    "DEFAULT",
    "KEYS",
    "BadSet",
    "Reading",
    "ambiguities",
    "random_problem",
    "read_problem",
    "read_set",
    "shipped_problem",
    "shipped_problems",
    "write_problem",
]

NOTATIONS = (Notation(admittance="half turn"), Notation(admittance="overlay"))
CHANGES_NOTHING = 1e-6  # of a tolerance: the same value but for rounding, so nobody can go wrong by it
SMALLEST_SWR, LARGEST_SWR = 1.5, 5
STEP_OHMS = 5
LINES = (50, 50, 50, 75, 100)
STUBS = (50, 75, 100)
FREQUENCIES = (None, 169e6, 434e6, 868e6, 2.4e9)
VELOCITIES = (0.66, 0.7, 0.82)  # solid and foamed cable: common practice, no source
PLACES = (
    "The whip over the float at {place} shows this load to its feeder.",
    "The wire loop in the culvert at {place} was measured at the end of its cable.",
    "The patch on the gauge hut at {place} is far from the impedance of its line.",
    "The input of the receiver at {place} has to be matched to the line from the antenna.",
    "The long feeder to the hilltop mast above {place} ends in this load.",
)
VILLAGES = ("Upper Ford", "Sallow Bridge", "Mill Reach", "Heron Weir", "Otterhead", "Long Eddy")
Option = TypeVar("Option")


def random_problem(seed: int, lesson: Lesson = LESSON) -> Problem:
    """The problem of that seed, the same on any machine: an SWR of 1.5 to 5, round numbers, nothing ambiguous."""
    dice = Random(seed)
    while True:
        problem = _draw(dice, seed)
        if (
            _is_instructive(problem)
            and not lesson.refuses(problem)
            and not any(_ambiguities(problem, lesson))
        ):
            return problem


def ambiguities(problem: Problem, lesson: Lesson = LESSON) -> tuple[str, ...]:
    """What could be taken for a right answer: "field: slip" for each mistake within twice the tolerance of it."""
    return tuple(dict.fromkeys(_ambiguities(problem, lesson)))


def _ambiguities(problem: Problem, lesson: Lesson) -> Iterator[str]:
    for notation in NOTATIONS:
        work = Work(lesson, problem, notation)
        for step in lesson.steps_of(problem):
            for field in step.fields:
                yield from _taken_for_right(field, work)


def _taken_for_right(field: Field, work: Work) -> Iterator[str]:
    kind = field.kind(work)
    mistakes = {slip.key: predicted(slip, work) for slip in field.slips} | {
        "other branch": _other_branch(field, work)
    }
    for name, value in mistakes.items():
        if value is not None:
            off = kind.off_by(value, work[field.key], work.problem.accuracy)
            if CHANGES_NOTHING < off <= CLOSE:
                yield f"{field.key}: {name}"


def _other_branch(field: Field, work: Work) -> object:
    """The other solution's value of the same thing, where there is one."""
    if not field.side:
        return None
    return work[f"{field.key.removesuffix(field.side)}{other_side(field.side)}"]


def _draw(dice: Random, seed: int) -> Problem:
    """Any problem at all; most are not instructive."""
    line = _pick(dice, LINES)
    largest = _pick(dice, (line, LARGEST_SWR * line))  # below the line's impedance as often as above
    resistance = _whole(dice, largest)
    reactance = _whole(dice, LARGEST_SWR * line // 2) * _pick(dice, (1, -1))
    frequency = _pick(dice, FREQUENCIES)
    return replace(
        DEFAULT,
        load_impedance=complex(resistance, reactance),
        line_impedance=float(line),
        stub_impedance=float(_pick(dice, (line, line, line, _pick(dice, STUBS)))),
        end=_pick(dice, ("short", "short", "short", "open")),
        frequency=frequency,
        velocity_factor=_pick(dice, VELOCITIES) if frequency else 1.0,
        key=f"random-{seed}",
        title=f"Random problem {seed}",
        story=_pick(dice, PLACES).format(place=_pick(dice, VILLAGES)) + " Match it with one stub.",
    )


def _pick(dice: Random, options: Sequence[Option]) -> Option:
    """One of the options. Only `random()` is promised to give the same numbers in every Python."""
    return options[int(dice.random() * len(options))]


def _whole(dice: Random, largest: int) -> int:
    """A multiple of STEP_OHMS above zero, up to the largest."""
    return STEP_OHMS * (1 + int(dice.random() * (largest // STEP_OHMS)))


def _is_instructive(problem: Problem) -> bool:
    """Whether the SWR is neither too small to see nor too large to read: in whole numbers, so exact everywhere.

    SWR <= s just when |Z - Z0| <= (s - 1) / (s + 1) |Z + Z0|."""
    load, line = problem.load_impedance, problem.line_impedance
    back = (load.real - line) ** 2 + load.imag**2
    all_of_it = (load.real + line) ** 2 + load.imag**2
    at_least = back * (SMALLEST_SWR + 1) ** 2 >= all_of_it * (SMALLEST_SWR - 1) ** 2
    return at_least and back * (LARGEST_SWR + 1) ** 2 <= all_of_it * (LARGEST_SWR - 1) ** 2
