"""A drawn answer says in writing what a typed one would, and strokes stand for what is settled."""

import numpy as np
import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Lesson
from lessons.grammar.plan import is_known
from lessons.grammar.strokes import Curve, DragAlong, PickPoint, PlacePoint, Point
from lessons.working.construction import gesture_for, plans, stroke_groups
from lessons.working.sheet import Sheet
from tests.lessons.solving import problem


@pytest.fixture
def sheet() -> Sheet:
    """The single shunt stub of 60 - j80 ohm on 50 ohm, just begun."""
    return Sheet(LESSON, problem(60 - 80j))


def revealed(sheet: Sheet, last: str) -> Sheet:
    """The sheet with every step up to one shown."""
    for step in sheet.steps:
        sheet = sheet.reveal_step(step.key)
        if step.key == last:
            return sheet
    raise KeyError(last)


class TestInWriting:
    @pytest.mark.parametrize(
        "key", ["place", "mismatch", "admittance", "crossing.near", "distance.far", "length.near"]
    )
    def test_the_right_drawing_is_right(self, sheet: Sheet, key: str):
        """Drawing the solver's answer to a step writes a text that is marked right."""
        whole = revealed(sheet, "total")
        at = revealed(
            sheet, whole.steps[[key.split(".")[0] == s.key for s in whole.steps].index(True) - 1].key
        )
        value = whole.work[key]
        drawn = {
            "place": value,
            "mismatch": (value - 1) / (value + 1),
            "admittance": (1 - value) / (1 + value) if key in ("admittance", "crossing.near") else None,
            "crossing.near": (1 - value) / (1 + value) if key == "crossing.near" else None,
        }.get(key, value)

        assert at.enter(key, at.in_writing(key, drawn)).verdicts[key].judgement == "right"

    def test_a_picked_point(self, sheet: Sheet):
        """A picked point is the option of that name."""
        assert revealed(sheet, "needed").in_writing("start.point", "short") == "short"

    @pytest.mark.parametrize(
        ("key", "answer"), [("place", "short"), ("normalise", 0.5), ("start.point", 0.5)]
    )
    def test_an_answer_of_another_kind(self, sheet: Sheet, key: str, answer: object):
        """An answer that the field's gesture cannot give is refused."""
        with pytest.raises(TypeError, match=key):
            revealed(sheet, "needed").in_writing(key, answer)


class TestGesture:
    def test_follows_the_field(self, sheet: Sheet):
        """Each field asks for the gesture that answers it, and a settled one for none."""
        half = revealed(sheet, "susceptance")

        assert isinstance(gesture_for(sheet, "place"), PlacePoint)
        assert isinstance(gesture_for(half, "distance.near"), DragAlong)
        assert isinstance(gesture_for(half, "start.point"), PickPoint)
        assert gesture_for(half, "place") is None
        assert gesture_for(half, "") is None


class TestStrokes:
    def test_nothing_before_it_is_settled(self, sheet: Sheet):
        """A fresh sheet has nothing drawn, and a later step's strokes stay away."""
        assert stroke_groups(sheet) == []
        assert ["place", "mismatch"] == [key for key, _ in stroke_groups(revealed(sheet, "mismatch"))]

    def test_drawn_where_the_student_is(self, sheet: Sheet):
        """A carried value is drawn as the student has it, not as the solver does."""
        carried = sheet.enter("normalise", "1.2+1.6j").carry("normalise").enter("place", "0.593 < 46.8")
        ((_, (point,)),) = stroke_groups(carried)

        assert isinstance(point, Point)
        assert point.reflection.imag > 0


class TestRefused:
    """Loads that no stub can match, or need not, are drawn all the same, up to where the derivation ends."""

    LOADS = pytest.mark.parametrize("load", [50j, -20j, 0, complex("inf"), 1e-5, 50, 50 + 0.01j], ids=str)

    @pytest.mark.parametrize(
        "lesson", [one for one in CATALOGUE if "mismatch" in one.fields], ids=lambda lesson: lesson.key
    )
    @LOADS
    def test_point_and_circle(self, lesson: Lesson, load: complex):
        """The load's point stands where its reflection is, on a circle about the centre of that radius.

        Source: by definition, (Z - Z0) / (Z + Z0)."""
        strokes = dict(stroke_groups(Sheet(lesson, lesson.problem({"load": complex(load), "line": 50.0}))))
        (point,), (circle,) = strokes["place"], strokes["mismatch"]
        reflection = 1.0 if np.isinf(load) else (load - 50) / (load + 50)
        assert isinstance(point, Point)
        assert isinstance(circle, Curve)

        assert pytest.approx(reflection, abs=1e-12) == point.reflection
        assert (0, pytest.approx(abs(reflection), abs=1e-12)) == (circle.circle.center, circle.circle.radius)

    @LOADS
    def test_no_solution_is_drawn(self, load: complex):
        """Nothing of a solution is drawn, since there is none."""
        drawn = stroke_groups(Sheet(LESSON, problem(complex(load))))

        assert {"first", "second"}.isdisjoint(stroke.role for _, group in drawn for stroke in group)


class TestNetworks:
    def test_as_far_as_known(self, sheet: Sheet):
        """The network grows with the sheet: nothing, the line to the junction, the stub."""
        assert [()] == [plan.network.elements for plan in plans(sheet)]
        near, _ = plans(revealed(sheet, "distance"))
        assert (True, False) == tuple(map(is_known, near.network.elements))
        whole = {plan.branch and plan.branch.key: plan.network for plan in plans(revealed(sheet, "length"))}

        assert {"near", "far"} == set(whole)
        assert np.allclose([0, 0], [abs(n.input_reflection()) for n in whole.values()], atol=1e-12)
