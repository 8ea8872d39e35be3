"""Readings of the scale as they are shown: their difference is the length that is shown, to the last digit.

The scale begins anew after half a wavelength (180 degrees of line); that is common practice, no source.
"""

import re
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import pytest

from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.notation import Notation
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import Ray, Way
from tests.lessons.solving import SIDES, STUBS, random_problem, shipped_problems

SEEDS = 300
HALF_WAVE = {"wavelengths": Decimal("0.5"), "degrees": Decimal(180)}
READ = re.compile(r"(\d+\.\d+)(?: λ|°)")
NOTATIONS = [
    Notation(admittance=shown, length=unit)  # type: ignore[arg-type]
    for shown in ("half turn", "overlay")
    for unit in HALF_WAVE
]

every_lesson = pytest.mark.parametrize("lesson", STUBS, ids=lambda lesson: lesson.key)
every_notation = pytest.mark.parametrize("notation", NOTATIONS, ids=lambda n: f"{n.admittance}, {n.length}")


def number(text: str) -> Decimal:
    """A length as it is shown, without its unit."""
    (digits,) = READ.findall(text)
    return Decimal(digits)


def difference(start: Decimal, end: Decimal, length: Decimal, notation: Notation) -> Decimal:
    """End less start on a scale that begins anew, rounded to the digits of the length shown."""
    half = HALF_WAVE[notation.length]
    return ((end - start) % half).quantize(length)


def is_same(one: Decimal, other: Decimal, notation: Notation) -> bool:
    """Equal on a scale that begins anew."""
    return (one - other) % HALF_WAVE[notation.length] == 0


def walks(work: Work, key: str, side: str) -> list[Decimal]:
    """Start, end and length that stand at the strokes of one field."""
    strokes = list(work.lesson.field(f"{key}.{side}").strokes(work))
    start, end = (number(stroke.value or stroke.label) for stroke in strokes if isinstance(stroke, Ray))
    (length,) = (number(stroke.value) for stroke in strokes if isinstance(stroke, Way))
    return [start, end, length]


def wrong_sums(given: Problem, lesson: Lesson, notation: Notation) -> list[tuple[str, ...]]:
    """Where what is shown of the distances does not add up: in the hint, and at the rays."""
    work = Work(lesson, given, notation)
    step = next(step for step in lesson.steps if step.key == "distance")
    at_load, *at_crossings = map(Decimal, READ.findall(step.numbers(work)))
    found: list[tuple[str, ...]] = []
    for side, in_hint in zip(SIDES, at_crossings, strict=True):
        length = number(work.write(f"distance.{side}"))
        readings = {"hint": (at_load, in_hint), "rays": tuple(walks(work, "distance", side)[:2])}
        for where, (start, end) in readings.items():
            if not is_same(difference(start, end, length, notation), length, notation):
                found.append((given.key, where, side, str(start), str(end), str(length)))
    return found


@every_lesson
@every_notation
class TestAddUp:
    def test_shipped_problems(self, lesson, notation):
        """On every shipped problem the readings in the hint and at the rays differ by the distance shown."""
        assert [] == [
            one for given in shipped_problems(lesson) for one in wrong_sums(given, lesson, notation)
        ]

    def test_random_problems(self, lesson, notation):
        """So they do on 300 random problems."""
        problems = (random_problem(seed, lesson) for seed in range(SEEDS))

        assert [] == [one for given in problems for one in wrong_sums(given, lesson, notation)]

    def test_the_walk_is_the_answer(self, lesson, notation):
        """The length that stands at the walk is the one that stands in the box."""
        for given in shipped_problems(lesson):
            work = Work(lesson, given, notation)
            for side in SIDES:
                assert number(work.write(f"distance.{side}")) == walks(work, "distance", side)[2]


def test_never_halfway():
    """A difference that could be rounded either way does not add up: one digit more decides."""
    start, end = map(number, Notation().adding_up(0.11083, [0.17334]))

    assert Decimal("0.063") == (end - start).quantize(Decimal("0.001"), ROUND_HALF_EVEN)
    assert Decimal("0.063") == (end - start).quantize(Decimal("0.001"), ROUND_HALF_UP)


class TestDigits:
    def test_no_more_than_needed(self):
        """Where three digits add up there are three: 0.111 and 0.173 for 0.062."""
        assert ("0.111 λ", "0.173 λ") == Notation().adding_up(0.1111, [0.1731])

    def test_one_more_where_needed(self):
        """0.111 and 0.174 would differ by 0.063 for 0.062: one digit more makes them add up."""
        assert ("0.1114 λ", "0.1736 λ") == Notation().adding_up(0.1114, [0.1736])

    def test_across_the_mark(self):
        """Where the scale begins anew in between, half a wavelength is added."""
        assert ("0.386 λ", "0.176 λ") == Notation().adding_up(0.386, [0.176])

    def test_one_start_for_all(self):
        """The start has the same digits beside every end."""
        assert ("0.1114 λ", "0.1731 λ", "0.1736 λ") == Notation().adding_up(0.1114, [0.1731, 0.1736])
