"""One student's sitting: what it opens, keeps and brings back."""

import pytest

from app.practise.sheet_column import sheet_page
from app.practise.sitting import Sitting


@pytest.fixture
def sitting() -> Sitting:
    """A sitting on which a student works alone on a linked problem."""
    made = Sitting()
    made.open_link({"load": "60-80j", "line": "50"})
    return made


class TestFirstVisit:
    def test_is_guided(self):
        """A newcomer is shown a worked example, and can take over."""
        made = Sitting()
        assert made.guided
        made.solve_alone()

        assert not made.guided
        assert made.sheet.shown == 0

    def test_shows_a_step_a_press(self):
        """Each press works one more step and explains it."""
        made = Sitting()
        made.show_next()
        page = sheet_page(made)

        assert [bool(step["worked"]) for step in page["steps"]] == [True, False]
        assert page["steps"][0]["done"]


class TestFocus:
    def test_moves_to_the_next_open_field(self, sitting: Sitting):
        """After an answer, attention is on the next open field."""
        sitting.enter("normalise", "1.2-1.6j")

        assert sitting.focus == "place"
        assert sitting.question == "Reflection coefficient Γ"

    def test_side(self, sitting: Sitting):
        """The line drawing follows the solution that is worked on."""
        assert sitting.side == "near"
        sitting.attend("distance.far")

        assert sitting.side == "far"


class TestLinks:
    def test_bad_values_are_said(self, sitting: Sitting):
        """A link with bad values opens what it can and says what it left out."""
        sitting.open_link({"load": "60-80j", "line": "abc", "decimals": "99"})

        assert len(sitting.notices) == 2
        assert sitting.sheet.problem.line_impedance == 50

    def test_a_broken_sheet(self, sitting: Sitting):
        """A broken sheet in a link is said, and the desk is as it was."""
        before = sitting.sheet
        sitting.open_link({"sheet": "nonsense"})

        assert before == sitting.sheet
        assert len(sitting.notices) == 1


class TestRecord:
    def test_round_trip(self, sitting: Sitting):
        """What the browser keeps brings the whole sitting back in another process."""
        sitting.enter("normalise", "60-80j")
        sitting.hint("normalise")
        other = Sitting()
        other.restore(sitting.record())

        assert sheet_page(sitting) == sheet_page(other)

    @pytest.mark.parametrize("record", [None, [], {}, {"sheet": {"version": 99}}, {"sheet": "x"}])
    def test_unreadable(self, sitting: Sitting, record: object):
        """A record that cannot be read is said, and the sheet on the desk stays."""
        before = sitting.sheet
        sitting.restore(record)

        assert before == sitting.sheet
        assert sitting.notices[0].endswith(".")


class TestOwnProblem:
    def test_faults_leave_the_sheet(self, sitting: Sitting):
        """A form with a bad entry gives its sentence and changes nothing."""
        before = sitting.sheet
        faults = sitting.open_problem({"load": "-50", "line": "50"})

        assert {"load"} == set(faults)
        assert before == sitting.sheet

    def test_symbols_of_a_course(self, sitting: Sitting):
        """A course's symbols stand in every text."""
        assert sitting.write_as({"d": "s", "l": "t"}) == {}
        sitting.attend("length.near")

        assert "stub length t" in sitting.question
