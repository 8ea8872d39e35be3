"""Sheets and links of two reactances from when values were asked of every solution: nothing on them is lost."""

import json
from pathlib import Path
from urllib.parse import parse_qsl

import pytest

from app.practise.sitting import Sitting
from lessons.classes.replay import replayed
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set
from lessons.saved.former import laid_aside
from lessons.saved.links import read_link, sheet_from_link
from lessons.saved.records import sheet_from_record, sheet_record
from lessons.working.drill import Drill
from lessons.working.sheet import Sheet

MADE = Path(__file__).parent / "made_earlier"
LINKS = [dict(parse_qsl(one)) for one in (MADE / "links-two.txt").read_text("utf-8").splitlines()]


def made(name: str) -> Sheet:
    """A sheet of then, as it opens today."""
    return sheet_from_record(json.loads((MADE / f"two-reactances-{name}.json").read_text("utf-8")), CATALOGUE)


def in_link() -> Sheet:
    """The sheet in a link of then, on which nothing was chosen yet."""
    return sheet_from_link(LINKS[0]["sheet"], CATALOGUE)


class TestFinishedThen:
    def test_values_of_the_one_chosen(self):
        """The values of the solution that was chosen stand where they are asked now, right as they were."""
        sheet = made("done")

        assert ("3.667 nH", "18.34 nH") == (sheet.text("value.near"), sheet.text("value.far"))
        assert "preferred" == (sheet.current.key if sheet.current else "")

    def test_every_other_answer(self):
        """Every answer whose question is still asked stands as it stood."""
        asked = {one.key for step in made("done").steps[:12] for one in step.fields}

        assert asked == set(made("done").entries)
        assert 24 == len(asked)
        assert all(made("done").settled(key) for key in asked)

    def test_hints(self):
        """The hints of two steps that are one now are those of the one with more of them."""
        assert {"shunt_finish": 2, "value": 1} == dict(made("done").hints)

    def test_the_others_values_are_laid_aside(self):
        """The values of the solutions not chosen are said, and stay on the sheet's record for whoever opens it."""
        sheet = made("done")
        again = sheet_from_record(json.loads(json.dumps(sheet_record(sheet))), CATALOGUE)

        assert 6 == len(sheet.aside)
        assert "series-high solution, part farther from it, 7.334 pF" in laid_aside(sheet)
        assert (sheet, sheet.aside) == (again, again.aside)

    def test_attempts(self):
        """What was done then can be done again, and taken back: a marker has no remark about it."""
        sheet = made("done")

        assert () == replayed(sheet).remarks
        assert sheet.undone is not None

    def test_the_page_says_it(self):
        """Whoever opens such a sheet, from a file or from the browser, is told what is kept aside."""
        record = json.loads((MADE / "two-reactances-done.json").read_text("utf-8"))
        opened, restored = Sitting(CATALOGUE), Sitting(CATALOGUE)
        opened.open_file(record)
        for _ in range(2):
            restored.restore({"sheet": record})

        assert [laid_aside(made("done"))] == opened.notices == restored.notices


class TestInWorkThen:
    def test_before_the_choice(self):
        """Values entered before anything was chosen are laid aside, and come to their place with the choice."""
        sheet = in_link().enter("choose.which", "shunt_low")
        again = sheet_from_record(json.loads(json.dumps(sheet_record(sheet))), CATALOGUE)

        assert {"value.near", "value.far"}.isdisjoint(in_link().entries)
        assert 4 == len(in_link().aside)
        assert ("12.97 nH", "10.59 pF") == (again.text("value.near"), again.text("value.far"))
        assert 2 == len(again.aside)

    def test_in_a_link(self):
        """A link to such a sheet brings it, and says what is kept aside."""
        sitting = Sitting(CATALOGUE)
        sitting.open_link(LINKS[0])

        assert (True, [laid_aside(in_link())]) == (sitting.brought, sitting.notices)

    def test_worked_steps(self):
        """Of more worked steps than there are today, all are worked."""
        assert (14, None) == (made("shown").shown, made("shown").current)

    def test_a_drill(self):
        """A drill of a step that is a part of another today goes on as a drill of that."""
        drill = Drill.from_record({"step": "shunt_far", "went": [True]}, made("done").lesson)

        assert drill is not None
        assert ("shunt_finish", 2) == (drill.step, drill.number)


class TestStepsLeftOut:
    @pytest.mark.parametrize(
        ("link", "left_out"),
        [(1, {"choose"}), (2, {"value"}), (3, {"shunt_finish"})],
        ids=["some of the values", "all values", "both of what is one"],
    )
    def test_of_a_link(self, link, left_out):
        """A step is left out where all that it was is; what remains of it is asked."""
        found = read_link(LINKS[link], CATALOGUE)

        assert () == found.faults
        assert found.problem is not None
        assert left_out == found.problem.without

    def test_of_a_set(self):
        """A set that names steps of then opens, and they are worth together what each was."""
        one = read_set(
            """
            title = "Then"
            points = { of = { shunt_turn = 2, shunt_far = 3, choose = 4 } }
            [[problem]]
            lesson = "two-reactances"
            key = "a"
            title = "A"
            story = "A."
            load = "90 + j60"
            line = 50
            frequency = "434 MHz"
            steps = ["shunt_meet", "shunt_far", "shunt_near_value"]
            """,
            "then.toml",
            CATALOGUE,
        )
        item = one.items[0]

        assert one.points is not None
        assert (5.0, 4.0) == (one.points.full("shunt_finish"), one.points.full("choose"))
        steps = [step.key for step in item.lesson.steps_of(item.problem)]
        assert ["shunt_meet", "shunt_finish", "value"] == steps
