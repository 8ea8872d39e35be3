"""Variants: what may vary in a problem of a set, between which bounds, and which variant is whose.

A variant follows from the set and from the name or number that a student writes, on any machine; from the name only a
short code is kept, so that a link or a worksheet can carry the variant without it.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import sha256
from math import floor, isfinite
from typing import Any

from core import CoreError
from lessons.grammar.lesson import Lesson
from lessons.grammar.numbers import Unreadable
from lessons.grammar.problem import Draw, Given, Problem
from lessons.problems.seeds import random_problem

LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # none that can be taken for another
CODE_LENGTH = 6
MOST_VALUES, DECIMALS = 10_000, 9
LONGEST_NAME = 80
BOUNDS = ("from", "to", "step")
_OTHERWISE_WRITTEN = str.maketrans({"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ı": "i"})


class BadBounds(ValueError):
    """What cannot be varied so; the message is a sentence for whoever wrote the set."""


def folded(name: str) -> str:
    """A name without what people write differently: case, spaces, accents, and signs between its parts."""
    apart = unicodedata.normalize("NFKD", name.casefold().translate(_OTHERWISE_WRITTEN))
    return "".join(letter for letter in apart if unicodedata.category(letter)[0] in "LN")


def code_of(set_key: str, name: str) -> str:
    """The variant of a student in a set: six letters and digits. "" for a name without a letter or a digit."""
    plain = folded(name)
    number = int.from_bytes(sha256(f"{set_key}\n{plain}".encode()).digest()[:8])
    digits = (LETTERS[number // len(LETTERS) ** place % len(LETTERS)] for place in range(CODE_LENGTH))
    return "".join(digits) if plain else ""


def is_code(text: str) -> bool:
    """Whether this is how a variant is called."""
    return len(text) == CODE_LENGTH and set(text) <= set(LETTERS)


@dataclass(frozen=True)
class Range:
    """Values in equal steps, the real and the imaginary part each for itself. Whole steps, so exact on any machine."""

    low: complex
    high: complex
    step: float
    is_complex: bool

    @property
    def counts(self) -> tuple[int, int]:
        """How many values each part may have."""
        gaps = (self.high.real - self.low.real, self.high.imag - self.low.imag)
        return tuple(floor(round(gap / self.step, DECIMALS)) + 1 for gap in gaps)  # type: ignore[return-value]

    def __call__(self, dice: Any, values: Mapping[str, Any]) -> Any:
        counts = self.counts
        real = self._at(self.low.real, dice.pick(range(counts[0])))
        return (
            complex(real, self._at(self.low.imag, dice.pick(range(counts[1])))) if self.is_complex else real
        )

    def _at(self, low: float, steps: int) -> float:
        return round(low + steps * self.step, DECIMALS) + 0.0


@dataclass(frozen=True)
class OneOf:
    """One of a few values."""

    values: tuple[Any, ...]

    def __call__(self, dice: Any, values: Mapping[str, Any]) -> Any:
        return dice.pick(self.values)


def read_vary(given: Given, how: object, text_of: Any) -> Draw:
    """How a given varies. Raises BadBounds with a sentence.

    how : a list of values, one of which is taken, or a table `from`, `to`, `step`.  text_of : what makes a text of a
    value of a set file, None of what is none."""
    if isinstance(how, list):
        values = tuple(_value(given, one, text_of) for one in how)
        if not 2 <= len(values) <= MOST_VALUES:
            raise BadBounds("A list of values to choose from has at least two.")
        return OneOf(values)
    if isinstance(how, dict) and set(how) == set(BOUNDS):
        return _range(given, how, text_of)
    raise BadBounds(
        'Write a list of values, such as ["25-30j", "40-60j"], or from, to and step, such as '
        '{ from = "20-60j", to = "60-20j", step = 5 }.'
    )


def _range(given: Given, how: Mapping[str, object], text_of: Any) -> Range:
    low, high, step = (_value(given, how[bound], text_of) for bound in BOUNDS)
    if not all(isinstance(one, int | float | complex) and isfinite(abs(one)) for one in (low, high, step)):
        raise BadBounds(
            f"The {given.label.lower()} is no number that can lie between two; write a list of values."
        )
    found = Range(complex(low), complex(high), complex(step).real, isinstance(low, complex))
    if found.step <= 0:
        raise BadBounds("The step must be above zero.")
    if low.real > high.real or low.imag > high.imag:
        raise BadBounds("Each part of “to” must be at least that of “from”.")
    if not 2 <= found.counts[0] * found.counts[1] <= MOST_VALUES:
        raise BadBounds(f"From, to and step must give 2 to {MOST_VALUES} values.")
    return found


def _value(given: Given, value: object, text_of: Any) -> Any:
    text = text_of(value)
    if text is None:
        raise BadBounds("Each value must be a number of ordinary size, or a text in quotation marks.")
    try:
        return given.kind.read(text)
    except (Unreadable, CoreError) as fault:
        raise BadBounds(str(fault)) from fault


def variant(
    problem: Problem, lesson: Lesson, stated: Sequence[str], vary: Mapping[str, Draw], salt: str
) -> Problem:
    """The problem with what varies drawn by a seed; always one that can be marked without doubt.

    stated : keys of the givens that stand in the set; the others have what is usual beside the values drawn.
    salt : what the seed is made of. Raises TooRare where none within the bounds can be set."""
    if not vary:
        return problem
    seed = int.from_bytes(sha256(salt.encode()).digest()[:6])
    draws = {one.key: _draw_of(one, problem, stated, vary) for one in lesson.givens}
    drawn = random_problem(seed, lesson, draws)
    return replace(problem, givens=drawn.givens)


def _draw_of(given: Given, problem: Problem, stated: Sequence[str], vary: Mapping[str, Draw]) -> Draw:
    if given.key in vary:
        return vary[given.key]
    if given.key in stated:
        return lambda dice, values: problem[given.key]
    return lambda dice, values: given.usual(values)


def is_same(one: Problem, other: Problem) -> bool:
    """Whether two problems ask the same with the same numbers, whatever they are called."""
    return replace(one, key="", title="", story="") == replace(other, key="", title="", story="")
