"""What stands at the end of a sheet of every lesson that builds something: power, ratios on each part, response."""

import pytest

from app.practise.ending import power_sentences
from core import single_stub
from core.power import power_flow
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Lesson
from lessons.working.construction import plans
from lessons.working.response import responses
from lessons.working.sheet import Sheet
from tests.lessons.solving import answers


def finished(key: str, **givens) -> Sheet:
    """A sheet of a lesson on which everything was answered rightly."""
    lesson = CATALOGUE.find(key)
    assert lesson is not None
    return solved(lesson, **givens)


def solved(lesson: Lesson, **givens) -> Sheet:
    """The same of a lesson."""
    sheet = Sheet(lesson, lesson.problem(givens))
    for field, text in answers(sheet.truth, sheet, decimals=5).items():
        sheet = sheet.enter(field, text)
    assert sheet.finished
    return sheet


DESIGNS = [one for one in CATALOGUE if any(plan.is_design for plan in plans(solved(one)))]


class TestEveryDesign:
    def test_which(self):
        """Stubs, sections, parts and copper are designs; a line before its load is none."""
        keys = {one.key for one in DESIGNS}

        assert keys >= {"shunt-stub", "series-stub", "quarter-wave", "two-reactances", "double-stub",
                        "wavelengths-to-copper"}  # fmt: skip
        assert not keys & {"along-the-line", "standing-wave", "lossy-line", "stub-alone", "unknown-load"}

    @pytest.mark.parametrize("lesson", DESIGNS, ids=lambda one: one.key)
    def test_all_three(self, lesson: Lesson):
        """Power with and without it, the ratio up to the generator, and a response for each solution."""
        sheet = solved(lesson)
        text = " ".join(power_sentences(sheet))
        bare = single_stub(sheet.problem["load"], sheet.problem["line"])[0]
        back = abs((bare.load_impedance - bare.line_impedance) / (bare.load_impedance + bare.line_impedance))

        assert f"{100 * (1 - back**2):.1f} % without the match" in text
        assert "on the line to the generator" in text
        assert len(responses(sheet)) == len([one for one in plans(sheet) if one.is_design])

    def test_copper_over_frequency(self):
        """At the design frequency the response of what was cut is what its own network reflects."""
        (only,) = responses(finished("wavelengths-to-copper"))
        accepted = float(power_flow(only.network).delivered)
        middle = only.swr[len(only.swr) // 2]

        assert abs(1 - ((middle - 1) / (middle + 1)) ** 2 - accepted) < 1e-9

    def test_none_without_a_design(self):
        """A line alone has no match to be without, and no response."""
        sheet = finished("along-the-line")

        assert "without the match" not in " ".join(power_sentences(sheet))
        assert () == responses(sheet)


class TestSentences:
    def test_once(self):
        """What holds of both solutions is said once, by the names of both; else each has its own."""
        (both,) = power_sentences(finished("shunt-stub", load=60 - 80j, line=50.0))
        assert both.startswith("Near and far: ")
        higher, lower = power_sentences(finished("double-stub"))
        assert [higher.split(":")[0], lower.split(":")[0]] == ["Higher", "Lower"]

    def test_no_piece_of_no_length(self):
        """Where the section stands at the load, there is no line of no length to have a ratio."""
        at_load, _ = power_sentences(finished("quarter-wave", load=100 + 0j, line=50.0))

        assert " on d," not in at_load
        assert (
            "1.41 on the section" in at_load
        )  # the root of 2, the ratio of 100 ohm to the section's own 70.7

    def test_with_loss(self):
        """On a line with loss the ratio falls toward the generator: what is told of it holds at its load side."""
        (only,) = power_sentences(finished("lossy-line"))

        assert " at the load side of l, " in only
        assert " on l, " not in only

    def test_one_line(self):
        """Places on one line are no designs: the line is told once, without a name."""
        (only,) = power_sentences(finished("standing-wave"))

        assert "Maximum" not in only

    def test_all_comes_back(self):
        """A line that ends in a short or open takes no power, and that is what is said."""
        (only,) = power_sentences(finished("stub-alone"))

        assert only.startswith("It takes no power: all that the generator sends comes back.")
