"""Random problems of a lecture."""

import pytest

from app.lecture.page import Lectern
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.difficulty import DIFFICULTIES, Difficulty
from tests.lessons.solving import random_problem


@pytest.mark.parametrize("difficulty", DIFFICULTIES, ids=lambda one: one.key)
def test_as_hard_as_the_page_says(difficulty: Difficulty):
    """A lecture draws a random problem of the difficulty that its page names, the usual one where it names none."""
    lectern = Lectern({}, CATALOGUE)
    lectern.do({"do": "random", **difficulty.texts})
    problem = lectern.topic.problem

    assert problem == random_problem(int(problem.key.split("-")[1]), difficulty=difficulty)
    assert difficulty == problem.difficulty
