"""The course page: what it says of what a browser kept, and what it leads to."""

from datetime import date, timedelta
from typing import Any
from urllib.parse import parse_qsl

from app.course.page import CourseDesk
from app.course.standing import course_page
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.saved.records import sheet_record
from lessons.working.progress import Progress
from lessons.working.sheet import Sheet
from lessons.working.tally import summed_up
from tests.lessons.solving import problem

WRONG = Sheet(LESSON, problem(60 - 80j)).enter("normalise", "7").enter("normalise", "8")
RECORD = {"sheet": sheet_record(WRONG)}
SUMMARY = summed_up(WRONG, False)


def the_lesson(page: Any) -> Any:
    """What a page says of the shunt stub."""
    return next(one for one in page["lessons"] if one["key"] == LESSON.key)


class Told(CourseDesk):
    """A desk that notes what the browser would be told."""

    def __init__(self) -> None:
        super().__init__(CATALOGUE)
        self.told: list[dict[str, Any]] = []
        self.view.tell = self.told.append  # type: ignore[method-assign, assignment]

    def look(self, *parts: list[Any], progress: object = None) -> None:
        """Say what was kept, in parts."""
        for index, sheets in enumerate(parts):
            ends = {"first": index == 0, "last": index == len(parts) - 1}
            self.do({"do": "look", "sheets": sheets, "progress": progress, **ends})


class TestPage:
    def test_newcomer(self):
        """A newcomer sees the lessons in order, what each builds on, and nothing of a standing."""
        page = course_page(CATALOGUE, {})

        assert [lesson.key for lesson in CATALOGUE] == [one["key"] for one in page["lessons"]]
        assert [list(lesson.needs) for lesson in CATALOGUE] == [
            [need["key"] for need in one["needs"]] for one in page["lessons"]
        ]
        assert not page["known"]

    def test_links_open(self):
        """Each lesson's link opens it, that of its review a fresh problem, that of a weak step the drill."""
        for one in course_page(CATALOGUE, {}, [SUMMARY])["lessons"]:
            sitting, fresh = Sitting(CATALOGUE), Sitting(CATALOGUE)
            sitting.open_link(dict(parse_qsl(one["query"])))
            fresh.open_link(dict(parse_qsl(one["fresh"])))
            assert [one["key"], []] == [sitting.sheet.lesson.key, sitting.notices]
            assert [one["key"], []] == [fresh.sheet.lesson.key, fresh.notices]
            assert sitting.asked
            assert fresh.linked
            assert fresh.sheet.problem.key.startswith("random-")
            for step in one["weak"]:
                drilling = Sitting(CATALOGUE)
                drilling.open_link(dict(parse_qsl(step["query"])))
                assert drilling.drill

    def test_due(self):
        """A lesson whose review is due says so, with the day it was mastered."""
        today = date(2026, 11, 26)
        progress = {LESSON.key: Progress(mastered=(today - timedelta(days=2)).isoformat())}
        found = the_lesson(course_page(CATALOGUE, progress, today=today))

        assert ("due", "Review due") == (found["state"], found["word"])
        assert "24 November 2026" in found["said"]

    def test_to_drill(self):
        """The step that failed most is said, with how often."""
        weak = course_page(CATALOGUE, {}, [SUMMARY, SUMMARY])["weak"]

        assert [LESSON.steps[0].title] == [one["title"] for one in weak]
        assert "in 2 of your last 2 problems" in weak[0]["said"]


class TestDesk:
    def test_in_parts(self):
        """What comes in several parts is judged as one."""
        desk = Told()
        desk.look([RECORD], [RECORD], progress={LESSON.key: {"worked": 1}})
        (told,) = desk.told

        assert "in 2 of your last 2 problems" in told["page"]["weak"][0]["said"]
        assert "begun" == the_lesson(told["page"])["state"]

    def test_looked_at_again(self):
        """A second look counts nothing twice."""
        desk = Told()
        desk.look([RECORD])
        desk.look([RECORD])

        assert desk.told[0]["page"]["weak"] == desk.told[1]["page"]["weak"]

    def test_damaged(self):
        """A damaged record gets a sentence, and the rest is shown."""
        desk = Told()
        desk.look([{"sheet": 3}, RECORD, "x"], progress="nonsense")
        page = desk.told[0]["page"]

        assert 2 == len(page["faults"])
        assert page["weak"]

    def test_table(self):
        """The table comes in parts, too, with one heading."""
        desk = Told()
        desk.do({"do": "table", "sheets": [RECORD], "first": True, "last": False})
        desk.do({"do": "table", "sheets": [RECORD], "first": False, "last": True})
        texts = [told["table"]["text"] for told in desk.told]

        assert [True, False] == ["lesson,problem" in text for text in texts]
        assert [False, True] == [told["table"]["last"] for told in desk.told]

    def test_primer(self):
        """A lesson's primer is told when it is asked for; of no lesson there is none."""
        desk = Told()
        desk.do({"do": "primer", "key": LESSON.key})
        desk.do({"do": "primer", "key": "none"})

        assert desk.told[0]["primer"]["figure"]["poses"]
        assert desk.told[1]["primer"] is None

    def test_not_ours(self):
        """A message that no page of ours sends is passed over."""
        desk = Told()
        for said in (
            None,
            {},
            {"do": "look"},
            {"do": "look", "sheets": [], "progress": 1, "first": 1, "last": 0},
        ):
            desk.do(said)  # type: ignore[arg-type]

        assert [] == desk.told
