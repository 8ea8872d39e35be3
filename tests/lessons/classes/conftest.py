"""A set of two lessons, and a class of a few students who handed it in."""

from pathlib import Path

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.problems.problem_sets import ProblemSet
from lessons.problems.set_files import read_set
from lessons.problems.sets import Shelf
from tests.lessons.classes.simulated import begun, hand_in, solved, write

TEXT = """key = "week-3"
title = "Stubs <on> the river"
version = 2
[points]
hint = 0.25

[[problem]]
key = "varied"
lesson = "shunt-stub"
title = "A whip"
story = "Match it."
load = "25 - j40"
line = 50
[problem.vary]
load = { from = "20-60j", to = "80-20j", step = 5 }

[[problem]]
key = "fixed"
lesson = "series-stub"
title = "A loop"
story = "Match it."
load = "60 - j80"
line = 50
steps = ["normalise", "place", "mismatch"]
"""


@pytest.fixture(scope="session")
def one() -> ProblemSet:
    """The set that is handed in."""
    return read_set(TEXT, "week-3.toml", CATALOGUE)


@pytest.fixture(scope="session")
def shelf(one: ProblemSet) -> Shelf:
    """The sets at hand."""
    return Shelf((one,))


@pytest.fixture(scope="session")
def ada(one: ProblemSet) -> dict:
    """A hand-in with both sheets solved without a slip."""
    return hand_in(
        one, "Ada Löwe", {item.problem.key: solved(begun(one, item, "Ada Löwe")) for item in one.items}
    )


@pytest.fixture
def folder(tmp_path: Path, ada: dict) -> Path:
    """A folder in which one good hand-in lies."""
    write(tmp_path, "ada.json", ada)
    return tmp_path
