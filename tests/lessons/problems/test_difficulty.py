"""How hard random problems are: what a seed drew before it draws still; round is round, and hard is hard."""

import json
from functools import cache
from math import isclose
from pathlib import Path
from urllib.parse import urlencode

import pytest

from core.line import reflection_coefficient, swr
from lessons.course.catalogue import CATALOGUE
from lessons.course.givens import STUBS
from lessons.grammar.dice import Dice
from lessons.grammar.difficulty import ANY, DIFFICULTIES, HARD, ROUND, Difficulty, difficulty_of
from lessons.grammar.lesson import Lesson
from lessons.grammar.problem import Problem
from lessons.problems.drills import drill_problem
from lessons.problems.seeds import ambiguities, random_problem
from lessons.problems.texts import write_problem
from lessons.saved.links import read_difficulty, read_link

BEFORE = json.loads(Path(__file__).with_name("drawn_before.json").read_text("utf-8"))
"""Problems as they were drawn before there was a choice, by lesson and seed."""
SEEDS = range(40)  # of each; 300 of each are drawn by `python -m tests.long draws`
LOADS = ("load", "input")
each_lesson = pytest.mark.parametrize("lesson", CATALOGUE, ids=lambda one: one.key)
each_difficulty = pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)


@cache
def drawn(lesson: Lesson, difficulty: Difficulty) -> tuple[Problem, ...]:
    return tuple(random_problem(seed, lesson, difficulty=difficulty) for seed in SEEDS)


def lesson_of(key: str) -> Lesson:
    """The lesson of that key."""
    found = CATALOGUE.find(key)
    assert found
    return found


def loads(difficulty: Difficulty) -> list[tuple[complex, float]]:
    """Every impedance that is given on a line, with that."""
    return [
        (problem[key], problem["line"])
        for lesson in CATALOGUE
        for problem in drawn(lesson, difficulty)
        for key in LOADS
        if problem.givens.get(key) is not None
    ]


def ratios(difficulty: Difficulty) -> list[float]:
    """Every standing-wave ratio, given or of what is given."""
    given = [
        problem["swr"]
        for lesson in CATALOGUE
        for problem in drawn(lesson, difficulty)
        if "swr" in problem.givens
    ]
    return given + [float(swr(reflection_coefficient(load, line))) for load, line in loads(difficulty)]


class TestAsBefore:
    @pytest.mark.parametrize("key", BEFORE)
    def test_what_was_drawn_before(self, key):
        """A seed alone draws what it drew before there was a choice: its numbers, its title and its story.

        A given that a lesson got since, such as a series of preferred values, is drawn beside them."""
        lesson = lesson_of(key)
        found = {
            seed: urlencode(
                {"title": problem.title, "story": problem.story, **write_problem(problem, lesson)}
            )
            for seed in BEFORE[key]
            for problem in [random_problem(int(seed), lesson)]
        }

        assert BEFORE[key] == found

    def test_any_is_what_is_usual(self):
        """A link without a difficulty and one that names any open one problem."""
        alone, named = (read_link({"seed": "7", **more}, CATALOGUE) for more in ({}, {"difficulty": "any"}))

        assert alone == named
        assert () == named.faults
        assert named.problem
        assert "Random problem 7" == named.problem.title


@each_lesson
@each_difficulty
class TestEveryLesson:
    def test_solvable_and_instructive(self, lesson, difficulty):
        """Every seed draws a problem that the method solves, and none that a usual mistake gets right."""
        problems = drawn(lesson, difficulty)

        assert [""] * len(problems) == [lesson.refuses(problem) for problem in problems]
        assert [] == [problem.title for problem in problems[:8] if ambiguities(problem, lesson)]

    def test_they_differ(self, lesson, difficulty):
        """Another seed is another problem, nearly always."""
        problems = drawn(lesson, difficulty)
        alike = len(problems) - len({urlencode(write_problem(one, lesson)) for one in problems})

        assert alike <= len(problems) // 8

    def test_named(self, lesson, difficulty):
        """The title and the key of a problem say all that it takes to draw it again."""
        problem = drawn(lesson, difficulty)[3]
        again = {ROUND: ("Random problem 3, round numbers", "random-3-round"),
                 ANY: ("Random problem 3", "random-3"),
                 HARD: ("Random problem 3, hard", "random-3-hard")}  # fmt: skip

        assert again[difficulty] == (problem.title, problem.key)
        query = {"lesson": lesson.key, "seed": "3", **difficulty.texts}
        assert problem == read_link(query, CATALOGUE).problem

    def test_drilled(self, lesson, difficulty):
        """The steps at both ends of a lesson have problems to be drilled on, of the same difficulty."""
        for step in (lesson.steps[0], lesson.steps[-1]):
            assert difficulty == drill_problem(5, lesson, step, difficulty).difficulty


class TestRound:
    def test_loads_stand_on_lines_of_the_chart(self):
        """Normalised, r and x are tenths, and halves or wholes where the lines stand further apart."""
        parts = [abs(part) for z, line in loads(ROUND) for part in (z.real / line, z.imag / line)]

        assert all(isclose(10 * part, round(10 * part), abs_tol=1e-9) for part in parts)
        assert all(isclose(2 * part, round(2 * part), abs_tol=1e-9) for part in parts if part > 2)

    def test_lines_are_the_usual_ones(self):
        """Lines are of 50 and 100 ohms, and a stub is of its line's impedance, of half or of twice it."""
        problems = [problem for lesson in CATALOGUE for problem in drawn(lesson, ROUND)]

        assert {50.0, 100.0} == {problem["line"] for problem in problems}
        assert {0.5, 1.0, 2.0} == {p["stub"] / p["line"] for p in problems if "stub" in p.givens}

    def test_lengths_are_round_parts_of_a_wave(self):
        """Lengths are twentieths or eighths of a wave, in degrees and in millimetres as well."""
        lengths = [
            problem["along"].wavelengths(lesson.wavelength_mm(problem))
            for lesson in CATALOGUE
            for problem in drawn(lesson, ROUND)
            if problem.givens.get("along") is not None
        ]

        assert len(lengths) > 60
        for length in lengths:
            assert any(isclose(length * part, round(length * part), abs_tol=0.02) for part in (20, 8))

    def test_slotted_line(self):
        """On a slotted line the ruler is read in whole centimetres, and the shift is so many twentieths of a wave."""
        for problem in drawn(lesson_of("unknown-load"), ROUND):
            places = [problem[key] for key in ("first", "second", "minimum")]
            shift = (places[2] - places[0]) / (2 * (places[1] - places[0]))

            assert [round(place) for place in places] == places
            assert isclose(20 * shift, round(20 * shift), abs_tol=1e-9)

    def test_decibels_are_whole(self):
        """The loss of a line is in whole decibels."""
        assert {1.0, 2.0, 3.0} == {p["loss"] for p in drawn(lesson_of("lossy-line"), ROUND)}

    def test_as_readable_as_any(self):
        """Standing-wave ratios lie between 1.5 and 5, as they do in any problem."""
        assert 1.5 - 1e-12 <= min(ratios(ROUND)) < max(ratios(ROUND)) <= 5 + 1e-12
        assert 1.5 - 1e-12 <= min(ratios(ANY)) < max(ratios(ANY)) <= 5 + 1e-12


class TestHard:
    def test_near_the_rim(self):
        """Standing-wave ratios lie between 4 and 15, and over the whole of that range."""
        found = sorted(ratios(HARD))

        assert 4 - 1e-12 <= found[0] < 5
        assert 13 < found[-1] <= 15 + 1e-12
        assert found[len(found) // 2] > 6

    def test_numbers_are_awkward(self):
        """No resistance and no reactance is a multiple of five ohms; loads are on both sides of the chart."""
        found = loads(HARD)

        assert [] == [part for z, _ in found for part in (z.real, z.imag) if part % 5 == 0]
        assert {(True, True), (True, False), (False, True), (False, False)} == {
            (z.imag > 0, z.real > line) for z, line in found
        }

    def test_lines_are_no_usual_ones(self):
        """No line is of 50 ohms, in any lesson."""
        lines = {problem["line"] for lesson in CATALOGUE for problem in drawn(lesson, HARD)}

        assert 50.0 not in lines
        assert len(lines) >= 4

    def test_stubs_are_others(self):
        """A matching stub is of another impedance than its line, far enough from it to be told apart, often open."""
        problems = [p for lesson in CATALOGUE for p in drawn(lesson, HARD) if "stub" in p.givens]

        assert [] == [p for p in problems if 0.8 <= p["stub"] / p["line"] <= 1.25]
        assert {float(one) for one in STUBS} == {p["stub"] for p in problems}
        assert 0.3 < sum(p["end"] == "open" for p in problems) / len(problems) < 0.7

    def test_a_stub_alone_is_read_where_lines_are_crowded_or_far_apart(self):
        """What it shows is below 0.4 or above 2, normalised, and still between 0.15 and 6."""
        lesson = lesson_of("stub-alone")
        for problem in drawn(lesson, HARD):
            part = abs(problem["wanted"] / problem["line"]) if problem["wanted"] is not None else None

            assert part is None or 0.15 <= part < 0.4 or 2 < part <= 6


class TestDice:
    def test_what_is_said_for_one_takes_the_place_of_what_is_usual(self):
        """Where a draw says something for round or hard problems that is picked from, and else what is usual."""
        picked = {
            one: {Dice(seed, one).pick("ab", if_round="c", if_hard="d") for seed in range(20)}
            for one in DIFFICULTIES
        }

        assert {ROUND: {"c"}, ANY: {"a", "b"}, HARD: {"d"}} == picked
        assert {Dice(seed, HARD).pick("ab") for seed in range(20)} == {"a", "b"}

    def test_between(self):
        """Between multiples of a step lies every other whole number up to the largest, and none of them."""
        found = {Dice(seed).between(5, 13) for seed in range(400)}

        assert {1, 2, 3, 4, 6, 7, 8, 9, 11, 12, 13} == found


class TestLinks:
    def test_unknown(self):
        """A difficulty that there is not gets a sentence, and the usual one takes its place."""
        linked = read_link({"seed": "3", "difficulty": "fiendish"}, CATALOGUE)

        assert (
            "There is no difficulty “fiendish”; those that there are: round, any, hard.",
        ) == linked.faults
        assert read_link({"seed": "3"}, CATALOGUE).problem == linked.problem

    @each_difficulty
    def test_as_texts(self, difficulty):
        """The texts by which a link names a difficulty give it back; the usual one needs none."""
        assert (difficulty, "") == read_difficulty(difficulty.texts)
        assert (difficulty is ANY) == (difficulty.texts == {})
        assert difficulty is difficulty_of(difficulty.key)
