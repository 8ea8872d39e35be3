"""What holds for each lesson of the course, on its shipped problems and on some that are drawn."""

import re

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.course.impedance_and_admittance import LESSON as ADMITTANCE
from lessons.course.reading_the_chart import LESSON as READING
from lessons.grammar.difficulty import DIFFICULTIES
from lessons.working.construction import plans
from tests.lessons.course.test_shunt_stub import HALF_MADE, texts
from tests.lessons.solving import NOTATIONS, blank, fields_of, random_problem, shipped_problems, solved

GIVEN = [
    pytest.param(lesson, given, id=f"{lesson.key}: {given.key}")
    for lesson in CATALOGUE
    for given in (*shipped_problems(lesson), *(random_problem(7, lesson, one) for one in DIFFICULTIES))
]
SOME_NOTATIONS = NOTATIONS[::5]
OF_STUBS = re.compile("stub|copper|quarter|build")  # a slip with the quarter wave is to do as for a stub


@pytest.mark.parametrize(("lesson", "given"), GIVEN)
class TestEveryLesson:
    @pytest.mark.parametrize(
        "notation", SOME_NOTATIONS, ids=lambda n: f"{n.admittance}, {n.imaginary}, {n.length}"
    )
    def test_every_text_is_whole(self, lesson, given, notation):
        """Every text is filled in: no brace, no gap, nothing half made, and no stub where there is none."""
        found = texts(given, notation)

        assert {} == {
            place: text for place, text in found.items() if HALF_MADE.search(text) or not text.strip()
        }
        if not OF_STUBS.search(lesson.key):
            assert {} == {place: text for place, text in found.items() if re.search(r"\bstub", text)}

    def test_no_question_tells_its_answer(self, lesson, given):
        """No value that a step asks for stands in its question, its first two hints, or its example."""
        sheet = blank(given)
        for step in sheet.steps:
            told = " ".join(sheet.truth.say(text) for text in (step.ask, step.goal, step.rule))
            told += " ".join(one.kind(sheet.truth).example for one in step.fields)
            answers = [
                sheet.write(one.key) for one in step.fields if not one.kind(sheet.truth).names_a_choice
            ]
            assert [] == [text for text in answers if text in told]

    def test_it_can_be_set(self, lesson, given):
        """It is not refused, and the solver's answers finish it: matched, where the lesson matches it."""
        sheet = solved(given)

        assert (lesson.key, "") == (given.lesson, lesson.refuses(given))
        assert {"right"} == {sheet.verdicts[one.key].judgement for one in fields_of(sheet)}
        assert (True, lesson.ends_matched(given) or None) == (sheet.finished, sheet.matched)


@pytest.mark.parametrize("lesson", [READING, ADMITTANCE], ids=lambda lesson: lesson.key)
def test_what_is_drawn(lesson):
    """Where nothing is built the drawing is the load on its line."""
    (plan,) = plans(blank(lesson.problem({"load": 25 - 35j, "line": 50.0})))

    assert () == plan.network.elements
