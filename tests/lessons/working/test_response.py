"""A finished sheet over frequency: the response of what the student built, and what is said of it."""

import numpy as np
import pytest

from lessons.course.shunt_stub import LESSON as SHUNT_LESSON
from lessons.grammar.lesson import Lesson
from lessons.working.response import LIMITS, responses, why
from lessons.working.sheet import Sheet
from tests.lessons.solving import STUBS, answers


def finished(lesson: Lesson, load: complex, end: str = "short") -> Sheet:
    """A sheet on which everything was answered rightly."""
    sheet = Sheet(lesson, lesson.problem({"load": load, "line": 50.0, "end": end}))
    for key, text in answers(sheet.truth, sheet, decimals=5).items():
        sheet = sheet.enter(key, text)
    return sheet


def swr_by_hand(load: complex, ratio: np.ndarray, distance: float, length: float) -> np.ndarray:
    """Of a shorted shunt stub on 50 ohm, with the load constant.

    Source: the line equation and the input of a shorted line, Pozar, 4th ed., 2.44 and 2.45c (from memory)."""
    walk = 1j * np.tan(2 * np.pi * distance * ratio)
    line = 50 * (load + 50 * walk) / (50 + load * walk)
    stub = 50j * np.tan(2 * np.pi * length * ratio)
    seen = 1 / (1 / line + 1 / stub)
    back = abs((seen - 50) / (seen + 50))
    return (1 + back) / (1 - back)


class TestResponses:
    def test_by_the_line_equation(self):
        """The curves are those of the line equation with the lengths on the sheet."""
        sheet = finished(SHUNT_LESSON, 60 - 80j)
        for one in responses(sheet):
            assert one.branch is not None
            distance, length = (sheet.work.of(name, one.branch) for name in ("distance", "length"))
            expected = swr_by_hand(60 - 80j, np.array(one.ratios), distance, length)

            assert pytest.approx(expected, rel=1e-9) == np.array(one.swr)

    @pytest.mark.parametrize("lesson", STUBS, ids=lambda lesson: lesson.key)
    def test_bands_end_where_the_curve_passes_the_limit(self, lesson: Lesson):
        """Within its band a curve stays below the limit, and outside beside it, it does not."""
        for one in responses(finished(lesson, 25 - 40j)):
            for limit, band in zip(LIMITS, one.bands, strict=True):
                inside = [
                    swr
                    for ratio, swr in zip(one.ratios, one.swr, strict=True)
                    if band.lower < ratio < band.upper
                ]

                assert max(inside) <= limit * (1 + 1e-9)

    def test_only_of_what_is_finished(self):
        """A sheet that is not finished has no response, nor has a load that cannot be matched."""
        lesson = SHUNT_LESSON

        assert () == responses(Sheet(lesson, lesson.problem({"load": 60 - 80j, "line": 50.0})))
        assert () == responses(Sheet(lesson, lesson.problem({"load": 50j, "line": 50.0})))

    def test_of_what_the_student_built(self):
        """A length that was carried wrong shows in the curve: the design frequency is not matched."""
        sheet = finished(SHUNT_LESSON, 60 - 80j).enter("length.near", "0.200").carry("length.near")
        near, far = responses(sheet.carry("total.near"))

        assert near.swr[len(near.swr) // 2] > 1.5
        assert far.swr[len(far.swr) // 2] < 1.1


class TestWhy:
    @pytest.mark.parametrize("load", [60 - 80j, 25 - 40j, 15 + 10j, 150 + 100j])
    @pytest.mark.parametrize("end", ["short", "open"])
    @pytest.mark.parametrize("lesson", STUBS, ids=lambda lesson: lesson.key)
    def test_is_true(self, lesson: Lesson, load: complex, end: str):
        """The one said to have the wider band has it, and "less line" is less line."""
        sheet = finished(lesson, load, end)
        found = responses(sheet)
        assert bool(found) == lesson.ends_matched(sheet.problem)
        for limit, index in zip(LIMITS, range(3), strict=True):
            said = why(found, limit, sheet.notation)
            if not found:
                assert "" == said
                continue
            wide = max(found, key=lambda one: one.bands[index].fraction)
            other = min(found, key=lambda one: one.bands[index].fraction)
            assert wide.branch is not None
            if "wider" in said:
                assert f"Here the {wide.branch.word} one has the wider band" in said
                assert ("and it takes less line" in said) == (wide.total_line < other.total_line)
            else:
                assert "alike" in said or "Neither" in said
