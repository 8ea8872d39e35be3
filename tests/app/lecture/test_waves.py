"""What of voltage and current a lecture shows, frame by frame: nothing that is still asked."""

from dataclasses import replace

import pytest

from app.lecture.script import Topic, script
from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import Notation
from tests.lessons.solving import problem

LOAD = 60 - 80j


def told(lesson: Lesson = LESSON, showing: str = "side by side", **facts) -> dict[str, list[dict | None]]:
    """By frame, what is seen before its values are revealed, and after."""
    topic = Topic(lesson, problem(LOAD, **facts) if lesson is LESSON else lesson.problem(), showing=showing)
    page = script(topic, CATALOGUE)
    return {
        one["key"]: [page["waves"][place] if place >= 0 else None for place in one["waves"]]
        for one in page["frames"]
    }


def lengths(picture: dict | None) -> list[float | None]:
    """What a picture tells of lengths: of sections and stubs, load first."""
    assert picture is not None
    (plan,) = picture["plans"]
    return [one["length"] for one in plan["elements"]]


def solution(picture: dict | None) -> str:
    """Which solution a picture shows."""
    assert picture is not None
    (plan,) = picture["plans"]
    return str(plan["branch"]["key"])


class TestNothingGivenAway:
    def test_not_before_the_field(self):
        """Nothing is seen before the lesson's field is revealed or passed; from then on the load alone is."""
        seen = told()

        for key in ("opening", "normalise", "place"):
            assert [None, None] == seen[key]
        assert seen["mismatch"][0] is None
        assert lengths(seen["mismatch"][1]) == lengths(seen["admittance"][0]) == []

    def test_no_length_before_it_is_revealed(self):
        """The junction is seen once the distance is revealed, the design once both lengths are."""
        before, after = told()["distance"]
        assert [] == lengths(before)
        assert [pytest.approx(0.1104, abs=1e-4), None] == lengths(after)
        before, after = told()["length"]
        assert None in lengths(before)
        assert None not in lengths(after)
        assert after is not None
        assert "With the design" in after["spoken"]

    def test_switched_off(self):
        """Where that step is not asked it is seen from the start."""
        assert [] == lengths(told(without=frozenset({"mismatch"}))["opening"][0])

    @pytest.mark.parametrize(
        "lesson", [one for one in CATALOGUE if not one.waves_after], ids=lambda one: one.key
    )
    def test_otherwise_at_the_end(self, lesson: Lesson):
        """A lesson that names no field shows them when the last one is revealed, and in the frames after."""
        seen = told(lesson)
        last = [one.key for one in lesson.steps_of(lesson.problem())][-1]
        keys = list(seen)

        assert {None} == {one for key in keys[: keys.index(last)] for one in seen[key]}
        assert seen[last][0] is None
        after = {key: seen[key] for key in keys[keys.index(last) + 1 :]}
        assert [None, None] == after.pop(
            "response", [None, None]
        )  # which has a plot of its own in their place
        assert all(one is not None for pair in after.values() for one in pair)

    def test_nothing_in_millimetres(self):
        """No length is written in millimetres, which the lesson may ask for."""
        assert [] == [
            one for pair in told().values() for one in pair if one and one["writing"]["wavelength_mm"]
        ]


class TestWhich:
    def test_each_solution_in_its_own_frames(self):
        """Frames of a solution show it; where all stand side by side it is the first."""
        seen = told()
        assert [("line.near", "near"), ("line.far", "far"), ("closing", "near")] == [
            (key, solution(seen[key][1])) for key in ("line.near", "line.far", "closing")
        ]

    def test_one_alone(self):
        """Where one solution is shown alone, that is seen."""
        assert "far" == solution(told(showing="far")["closing"][1])

    def test_refused(self):
        """Of a load that cannot be matched there is the load alone, once all is found that is asked."""
        topic = Topic(LESSON, problem(50j))
        page = script(topic, CATALOGUE)

        assert page["frames"][-1]["waves"] == (0, 0)
        assert [None] == page["waves"][0]["waves"]["after"]

    def test_few(self):
        """Frames that show the same share it: a lecture of a stub has four pictures."""
        assert 4 == len(script(Topic(LESSON, problem(LOAD)), CATALOGUE)["waves"])

    def test_written_as_the_course_does(self):
        """The minimum's place is said in the course's unit of length."""
        topic = replace(Topic(LESSON, problem(LOAD)), notation=Notation(length="degrees"))

        assert "λ" not in "".join(one["spoken"] for one in script(topic, CATALOGUE)["waves"])
