"""Every try is judged anew: first tries, slips, hints, reveals, carried values, and what the file claims of them."""

from dataclasses import replace

import pytest

from lessons import open_sheet
from lessons.classes.replay import NOT_FROM_ATTEMPTS, StepMarks, replayed
from lessons.course.catalogue import CATALOGUE
from lessons.problems.points import Points
from lessons.saved.records import sheet_from_record

GIVENS = {"load": "60-80j", "line": "50"}


def begun():
    return open_sheet(CATALOGUE.usual, GIVENS)


def marks(sheet, step: str = "normalise") -> StepMarks:
    """What became of a step, over a file."""
    back = sheet_from_record(sheet.record(), CATALOGUE)
    return next(one for one in replayed(back).steps if one.step.key == step)


class TestFirstTime:
    def test_right_at_once(self):
        """A right first answer without help is right first time."""
        assert marks(begun().enter("normalise", "1.2-1.6j")).first_time

    @pytest.mark.parametrize(
        "sheet",
        [
            pytest.param(begun().enter("normalise", "60-80j").enter("normalise", "1.2-1.6j"), id="after a slip"),
            pytest.param(begun().hint("normalise").enter("normalise", "1.2-1.6j"), id="with a hint"),
            pytest.param(begun().reveal("normalise"), id="revealed"),
            pytest.param(
                begun().enter("normalise", "1.2+1.6j").start_over().enter("normalise", "1.2-1.6j"),
                id="on the second clean sheet",
            ),
            pytest.param(
                begun().enter("normalise", "60-80j").undone.enter("normalise", "1.2-1.6j"),
                id="after a slip that was taken back",
            ),
            pytest.param(
                begun().hint("normalise").undone.enter("normalise", "1.2-1.6j"),
                id="with a hint that was taken back",
            ),
            pytest.param(begun(), id="never"),
        ],
    )  # fmt: skip
    def test_not_at_once(self, sheet):
        """After a slip, with help, taken back or not, or on a second clean sheet it is not."""
        assert marks(sheet).first_time is False

    def test_unreadable_is_no_try(self):
        """What could not be read is no try, and the same checked again is none."""
        sheet = (
            begun().enter("normalise", "abc").enter("normalise", "1.2-1.6j").enter("normalise", "1.2-1.6j ")
        )

        assert (True, 1) == (marks(sheet).first_time, marks(sheet).tries)

    def test_both_fields(self):
        """A step of two fields is right first time only if both are."""
        sheet = begun()
        for step in sheet.steps[:6]:
            for one in step.fields:
                sheet = sheet.enter(one.key, sheet.write(one.key))
        keys = [one.key for one in sheet.steps[5].fields]
        late = sheet.enter(keys[1], "1+9j").enter(keys[1], sheet.write(keys[1]))

        assert 2 == len(keys)
        assert marks(sheet, sheet.steps[5].key).first_time
        assert marks(late, sheet.steps[5].key).first_time  # right at first, changed later
        assert 4 == marks(late, sheet.steps[5].key).tries


class TestWhatWentWrong:
    def test_slips_in_the_tutors_words(self):
        """A slip is told by its key, with what was written and what the tutor said then."""
        (made,) = marks(begun().enter("normalise", "60-80j").enter("normalise", "1.2-1.6j")).slips

        assert ("normalise", "60-80j") == (made.field.key, made.text)
        assert made.doing == "leaving the load in ohms"
        assert made.sentence.startswith("This looks like leaving the load in ohms.")

    def test_hints_reveals_and_carried(self):
        """Hints, reveals and values carried on are counted; the fourth hint shows the answer."""
        sheet = begun().hint("normalise").hint("normalise").enter("normalise", "60-80j").carry("normalise")
        shown = begun().hint("normalise").hint("normalise").hint("normalise").hint("normalise")

        assert (2, 0, 1, False) == (
            marks(sheet).hints,
            marks(sheet).reveals,
            marks(sheet).carried,
            marks(sheet).right,
        )
        assert (4, True, True) == (marks(shown).hints, marks(shown).shown, marks(shown).right)
        assert 1 == marks(begun().reveal("normalise")).reveals

    def test_follows(self):
        """What is right for a carried value is right, and said to follow."""
        sheet = begun().enter("normalise", "1.2+1.6j").carry("normalise")
        sheet = sheet.enter("place", sheet.work.write("place"))

        assert (True, True) == (marks(sheet, "place").right, marks(sheet, "place").follows)

    def test_worked_by_the_tutor(self):
        """Steps that the tutor worked from the start are shown, and nobody's first try."""
        worked = replace(begun(), shown=2)

        assert (True, False, True) == (marks(worked).shown, marks(worked).first_time, marks(worked).done)


class TestClaims:
    def test_slips_claimed_count_for_nothing(self):
        """Slips that a file claims were never made by its attempts are not counted, nor believed by the tutor."""
        record = begun().enter("normalise", "1.2-1.6j").record()
        record["entries"]["normalise"]["slips"] = ["not normalised", "made up"]
        replay = replayed(sheet_from_record(record, CATALOGUE))

        assert () == replay.steps[0].slips
        assert () == replay.sheet.entries["normalise"].slips
        assert () == replay.remarks

    def test_entries_made_up(self):
        """Where what stands there does not follow from the attempts, it is marked as it stands, and that is said."""
        record = begun().enter("normalise", "60-80j").record()
        record["entries"]["normalise"]["text"] = "1.2-1.6j"
        replay = replayed(sheet_from_record(record, CATALOGUE))

        assert (NOT_FROM_ATTEMPTS,) == replay.remarks
        assert replay.steps[0].right
        assert replay.steps[0].first_time is False

    def test_revealed_claimed_as_own(self):
        """An answer that was shown and is claimed to be the student's own is found out by its attempts."""
        record = begun().reveal("normalise").record()
        record["entries"]["normalise"] = {"text": "1.2-1.6j"}
        replay = replayed(sheet_from_record(record, CATALOGUE))

        assert (NOT_FROM_ATTEMPTS,) == replay.remarks
        assert (1, 0.0) == (replay.steps[0].reveals, replay.steps[0].points(Points(hint=1)))

    def test_an_earlier_version(self):
        """A sheet of the first version has no attempts: what stands there is marked, first tries are unknown."""
        record = begun().enter("normalise", "1.2-1.6j").record()
        record |= {"version": 1}
        del record["attempts"]
        replay = replayed(sheet_from_record(record, CATALOGUE))

        assert (True, None) == (replay.steps[0].right, replay.steps[0].first_time)
        assert "first tries are not known" in replay.remarks[0]
