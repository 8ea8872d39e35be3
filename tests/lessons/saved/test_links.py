"""Links carry a problem or a whole sheet, and survive being broken."""

import base64
import zlib
from urllib.parse import parse_qsl

import pytest

from lessons.course.shunt_stub import LESSON
from lessons.grammar.notation import Notation
from lessons.saved.links import sheet_link
from lessons.saved.records import BadRecord
from lessons.working.sheet import Sheet
from tests.lessons.solving import notation_from, problem, problem_link, read_problem, sheet_from_link

LESSONS = {LESSON.key: LESSON}


def packed(sheet: Sheet) -> str:
    """The part of a link that holds the sheet."""
    return dict(parse_qsl(sheet_link(sheet)))["sheet"]


@pytest.fixture
def sheet() -> Sheet:
    """A sheet with a slip, a hint, a carried value and a reveal on it."""
    given = problem(60 - 80j, stub=75.0, end="open", frequency=868e6, velocity=0.66)
    started = Sheet(LESSON, given, Notation({"d": "s"}, imaginary="i", admittance="overlay"))
    return (
        started.enter("normalise", "60-80j")
        .enter("normalise", "1.2+1.6i")
        .carry("normalise")
        .hint("place")
        .reveal_step("place")
    )


class TestProblemLink:
    def test_round_trip(self, sheet: Sheet):
        """Problem and notation come back exactly, without what was entered."""
        query = dict(parse_qsl(problem_link(sheet)))

        assert sheet.problem == read_problem(query).problem
        assert (sheet.notation, {}) == notation_from(query)


class TestSheetLink:
    def test_round_trip(self, sheet: Sheet):
        """A whole sheet comes back with every entry, hint and verdict."""
        again = sheet_from_link(packed(sheet))

        assert sheet == again
        assert dict(sheet.verdicts) == dict(again.verdicts)

    def test_fits_an_address(self, sheet: Sheet):
        """A finished sheet makes an address of under two thousand characters."""
        while sheet.current:
            sheet = sheet.reveal_step(sheet.current.key)

        assert len(sheet_link(sheet)) < 2000

    @pytest.mark.parametrize("cut", [1, 10, 40])
    def test_cut_short(self, sheet: Sheet, cut: int):
        """A link that lost its tail gets a sentence."""
        with pytest.raises(BadRecord, match="incomplete or damaged"):
            sheet_from_link(packed(sheet)[:-cut])

    @pytest.mark.parametrize("text", ["", "%%%", "<script>", "é" * 10, "A" * 9999])
    def test_no_sheet_at_all(self, text: str):
        """Whatever else stands in a link gets a sentence."""
        with pytest.raises(BadRecord, match="incomplete or damaged"):
            sheet_from_link(text)

    def test_bomb(self):
        """A small link that unpacks to gigabytes is refused before it does."""
        bomb = base64.urlsafe_b64encode(zlib.compress(b"[" * 50_000_000, 9)).decode()

        with pytest.raises(BadRecord, match="incomplete or damaged"):
            sheet_from_link(bomb)

    def test_other_data(self):
        """Readable data that is no sheet is named as such."""
        other = base64.urlsafe_b64encode(zlib.compress(b'{"version": 1}')).decode().rstrip("=")

        with pytest.raises(BadRecord, match="lesson"):
            sheet_from_link(other)
