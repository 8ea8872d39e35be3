"""Both lessons of a single stub against print: step by step they arrive at the published matches, and accept them."""

from itertools import product

import pytest

from lessons.course import series_stub, shunt_stub
from lessons.course.near_and_far import BOTH
from lessons.grammar.lesson import Lesson
from lessons.grammar.problem import Problem
from tests.lessons.solving import SIDES, blank, fields_of, solved
from tests.lessons.solving import problem as any_problem
from tests.reference.single_stubs import LAST_DIGIT, Printed, every_printed

LESSONS: dict[str, Lesson] = {"shunt": shunt_stub.LESSON, "series": series_stub.LESSON}


def problem(example: Printed, **facts: object) -> Problem:
    """The printed example as a problem of its lesson."""
    return any_problem(example.load, example.line, LESSONS[example.placement], end=example.end, **facts)


@every_printed
class TestAgainstPrint:
    def test_the_derivation_gives_the_printed_lengths(self, example: Printed):
        """Step by step the lesson arrives at the printed distances and stub lengths."""
        work = blank(problem(example)).truth
        found = [work[f"{what}.{side}"] for what, side in product(("distance", "length"), SIDES)]

        assert pytest.approx([*example.distances, *example.lengths], abs=LAST_DIGIT) == found

    @pytest.mark.parametrize("accuracy", ["chart", "calculated"])
    def test_the_printed_solution_is_marked_right(self, example: Printed, accuracy: str):
        """Whoever writes the book's solution on a sheet is right, by either accuracy."""
        sheet = blank(problem(example, accuracy=accuracy))
        for what, values in (("distance", example.distances), ("length", example.lengths)):
            for side, value in zip(SIDES, values, strict=True):
                sheet = sheet.enter(f"{what}.{side}", f"{value:.3f}")

        assert ["right"] * 4 == [verdict.judgement for verdict in sheet.verdicts.values()]
        assert not any(verdict.follows for verdict in sheet.verdicts.values())

    def test_both_solutions_of_the_book_match(self, example: Printed):
        """Built as printed, the network reflects next to nothing: what three digits leave."""
        sheet = solved(problem(example))
        for side, distance, length in zip(SIDES, example.distances, example.lengths, strict=True):
            sheet = sheet.enter(f"distance.{side}", f"{distance:.3f}")
            sheet = sheet.enter(f"length.{side}", f"{length:.3f}")
        settled = {one.key for one in fields_of(sheet)}
        designs = [sheet.lesson.network(sheet.work, branch, settled) for branch in BOTH]

        assert None not in designs
        assert max(abs(design.input_reflection()) for design in designs if design) < 0.03
