"""What the desk does to guide: the worked example, drawings that are wrong, problems to choose, terms."""

import pytest

from app.practise.page import Desk
from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting
from lessons.course.catalogue import CATALOGUE
from tests.app.shunt import sitting as a_sitting
from tests.lessons.solving import answers


@pytest.fixture
def desk() -> Desk:
    """A desk with a linked problem, all of it the student's to do."""
    made = a_sitting()
    made.open_link({"load": "60-80j", "line": "50"})
    return Desk(made)


def answered(desk: Desk, last: str) -> None:
    """Answer everything rightly up to and including a field."""
    sheet = desk.sitting.sheet
    for key, text in answers(sheet.truth, sheet).items():
        desk.do({"do": "enter", "field": key, "text": text})
        if key == last:
            return


def draw(desk: Desk, field: str, drawn: object) -> None:
    """Draw an answer on the chart, and have it checked."""
    desk.do({"do": "focus", "field": field})
    desk.do({"do": "check drawing", **as_drawn(desk, field, drawn)})


def as_drawn(desk: Desk, field: str, drawn: object) -> dict:
    """What the chart hands in when this is drawn, a complex number being a reflection."""
    sign = -1 if desk.stage.gesture["turned"] else 1
    value = [sign * drawn.real, sign * drawn.imag] if isinstance(drawn, complex) else drawn
    return {"field": field, "value": value, "plotted": "half turn"}


def ghosts(desk: Desk) -> list[dict]:
    """What is drawn as a slip."""
    return [one for group in desk.stage.strokes for one in group["strokes"] if one["role"] == "slip"]


class TestWorkedExample:
    def test_says_the_goal_first(self):
        """A step that is worked begins with what it is for."""
        made = a_sitting()
        made.show_next()
        (step, *_) = sheet_page(made)["steps"]

        assert made.sheet.work.say(made.sheet.steps[0].goal) == step["worked"][0]

    def test_asks_for_no_drawing(self):
        """While the example is worked, nothing can be drawn on the chart; who takes over can."""
        desk = Desk(a_sitting())
        for _ in range(2):
            desk.do({"do": "show next"})
            assert desk.stage.gesture is None
        desk.do({"do": "worked", "how": "first"})
        desk.do({"do": "worked", "how": "none"})
        desk.do({"do": "enter", "field": "normalise", "text": desk.sitting.sheet.truth.write("normalise")})

        assert desk.stage.gesture is not None

    @pytest.mark.parametrize(
        ("lesson", "words"),
        [("reading-the-chart", "the first step"), ("two-reactances", "the first 7 steps")],
    )
    def test_how_much_is_worked(self, lesson: str, words: str):
        """How much would be worked is said in plain words, one step as one."""
        made = a_sitting()
        made.open_link({"lesson": lesson, "seed": "3"})

        assert words == dict(sheet_page(made)["worked"]["options"])["first"]


class TestWrongDrawing:
    @pytest.mark.parametrize(
        ("before", "field", "drawn", "kind"),
        [
            ("normalise", "place", 0.2 + 0.3j, "point"),
            ("place", "mismatch", 0.2, "curve"),
            ("unit_circle", "crossing.near", 0.3 - 0.4j, "point"),
            ("susceptance.far", "distance.near", 0.3, "way"),
            ("needed.far", "start.point", "open", "point"),
        ],
    )
    def test_stays_until_it_is_put_right(self, desk: Desk, before: str, field: str, drawn: object, kind: str):
        """What was drawn wrongly stands on the chart in the slip's ink, and goes when it is put right."""
        answered(desk, before)
        draw(desk, field, drawn)
        (ghost,) = ghosts(desk)
        assert kind == ghost["kind"]
        desk.do({"do": "hint", "step": field.split(".")[0]})
        assert [ghost] == ghosts(desk)
        text = answers(desk.sitting.sheet.truth, desk.sitting.sheet)[field]
        desk.do({"do": "enter", "field": field, "text": text})

        assert [] == ghosts(desk)

    def test_stands_where_it_was_drawn(self, desk: Desk):
        """The point that stays is the one that was drawn."""
        answered(desk, "normalise")
        draw(desk, "place", 0.2 + 0.3j)

        assert pytest.approx([0.2, 0.3], abs=1e-3) == ghosts(desk)[0]["at"]

    def test_what_is_typed_draws_nothing(self, desk: Desk):
        """A wrong value that was typed leaves nothing on the chart."""
        answered(desk, "normalise")
        desk.do({"do": "enter", "field": "place", "text": "0.36 < 56"})

        assert [] == ghosts(desk)

    def test_is_kept_as_drawn(self, desk: Desk):
        """The record says which answers were drawn."""
        answered(desk, "normalise")
        draw(desk, "place", 0.2 + 0.3j)

        assert ["enter", "draw"] == [one.doing for one in desk.sitting.sheet.attempts]

    def test_into_its_box(self, desk: Desk, monkeypatch: pytest.MonkeyPatch):
        """A drawing goes into its box in writing, and is not judged before it is asked for."""
        told: list[dict] = []
        monkeypatch.setattr(desk.sheet, "tell", told.append)
        answered(desk, "normalise")
        told.clear()
        desk.do({"do": "draw", **as_drawn(desk, "place", 0.3 + 0.4j)})

        assert [{"draft": {"field": "place", "value": [0.3, 0.4], "text": "0.500 ∠ 53.1°"}}] == told
        assert "place" not in desk.sitting.sheet.entries

    @pytest.mark.parametrize("value", [None, [9, 9], "short", [0.1]])
    def test_no_drawing(self, desk: Desk, value: object):
        """What is no drawing changes nothing."""
        answered(desk, "normalise")
        before = desk.sitting.sheet
        desk.do({"do": "draw", "field": "place", "value": value, "plotted": "half turn"})
        desk.do({"do": "draw", "field": "place", "value": [0.1, 0.1], "plotted": "upside down"})

        assert before == desk.sitting.sheet


class TestProblems:
    @pytest.mark.parametrize("lesson", CATALOGUE, ids=lambda lesson: lesson.key)
    def test_show_their_loads(self, lesson):
        """Each problem to choose says what it gives, in the course's notation."""
        made = Sitting(CATALOGUE)
        made.open_lesson(lesson.key)
        made.write_as({**dict.fromkeys(("d", "l"), ""), "imaginary": "i"})
        choices = sheet_page(made)["choices"]

        assert choices
        assert all("Ω" in one["given"] for one in choices)
        if any(one.key == "load" for one in lesson.givens):
            assert any("i" in one["given"].split("on")[0] for one in choices)

    def test_says_what_is_done(self, desk: Desk):
        """The record tells whether a problem was begun and whether it is solved."""
        states = [desk.sitting.record()["state"]]
        answered(desk, "normalise")
        states.append(desk.sitting.record()["state"])
        answered(desk, "")
        states.append(desk.sitting.record()["state"])

        assert ["", "begun", "solved"] == states


class TestTerms:
    def test_texts_hold_terms(self, desk: Desk):
        """Terms are there for the words of the steps, each with one sentence."""
        terms = sheet_page(desk.sitting)["terms"]
        asks = " ".join(desk.sitting.sheet.truth.say(step.ask) for step in desk.sitting.sheet.steps).lower()

        assert sum(any(word.lower() in asks for word in term["words"]) for term in terms) > 8
        assert all(term["meaning"].endswith(".") for term in terms)


class TestTwoValuesOfASolution:
    def test_names_it_once(self, desk: Desk):
        """In the line of a step that is done each solution is named once, before all of its values."""
        desk.sitting.open_link({"lesson": "two-reactances", "load": "25-35j", "line": "50"})
        answered(desk, "shunt_far.shunt_low")
        done = next(one for one in sheet_page(desk.sitting)["steps"] if one["key"] == "shunt_finish")

        assert ["Shunt-high", "", "Shunt-low", ""] == [value["which"] for value in done["values"]]


class TestPartsAsBought:
    def test_of_what_the_rest_is(self, desk: Desk):
        """Where other parts are bought than were calculated, the end says that power and band are not of those."""
        said = {}
        for frequency in ("434 MHz", ""):
            desk.sitting.open_link(
                {"lesson": "two-reactances", "load": "25-35j", "line": "50", "frequency": frequency}
            )
            answered(desk, "cost" if frequency else "choose.why")
            outcome = sheet_page(desk.sitting)["outcome"]
            assert outcome is not None
            said[frequency] = " ".join(outcome["sentences"])

        assert "of power and band is that of the exact values" in said["434 MHz"]
        assert "Bought as 39 nH and 12 nH" in said["434 MHz"]
        assert "of power and band" not in said[""]
