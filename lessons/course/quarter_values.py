"""The derivation of a quarter-wave section: each value from the resistance at the place where it starts."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

from lessons.course.maximum_and_minimum import MAXIMUM, MINIMUM
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Slip, Work

QUARTER = 0.25
ValueOf = Callable[[Work], float]


def ohms(work: Work, branch: Branch) -> float:
    """The resistance at the section's load side, in ohms."""
    return float(work.of("resistance", branch) * work["line"])


def section(work: Work, branch: Branch) -> float:
    """The impedance of the section: the geometric mean of both resistances."""
    return sqrt(ohms(work, branch) * work["line"])


def own(work: Work, branch: Branch) -> float:
    """The resistance at its load side, normalised to the section."""
    return ohms(work, branch) / float(work.of("section", branch))


def turned(work: Work, branch: Branch) -> float:
    """The same a quarter wave further on."""
    return 1 / float(work.of("own", branch))


def total(work: Work, branch: Branch) -> float:
    """What the line sees before the section, normalised to the line."""
    return float(work.of("turned", branch) * work.of("section", branch)) / float(work["line"])


def slips_of(
    value: ValueOf, *told: tuple[str, str, str, str, ValueOf], usual: tuple[str, ...] = ()
) -> tuple[Slip, ...]:
    """Slips of a value: key, what is done, the question, the remedy, and what is written then."""
    return tuple(
        Slip(
            key,
            doing,
            question,
            remedy,
            lambda w, wrong=wrong: made.unless_same(wrong(w), value(w)),  # type: ignore[misc]
            usual=3 if key in usual else 2,
        )
        for key, doing, question, remedy, wrong in told
    )


def at_both(written: Callable[[Branch], str]) -> str:
    """A hint with what is known at both places."""
    return f"At the maximum {written(MAXIMUM)}, at the minimum {written(MINIMUM)}."
