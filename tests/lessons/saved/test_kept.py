"""All that a browser kept: read as far as it can be, and as a table that no spreadsheet takes for formulas."""

import csv
import io
from typing import Any

import pytest

from lessons.course.catalogue import CATALOGUE
from lessons.course.shunt_stub import LESSON
from lessons.saved.kept import COLUMNS, read_kept, table
from lessons.saved.records import sheet_record
from lessons.working.drill import Drill
from lessons.working.sheet import Sheet
from tests.lessons.solving import problem

SHEET = (
    Sheet(LESSON, problem(60 - 80j, title="Own, with a comma")).enter("normalise", "1.2-1.6j").hint("place")
)
KEPT: dict[str, Any] = {"sheet": sheet_record(SHEET), "state": "begun"}


class TestRead:
    def test_sheets_and_drills(self):
        """Sheets come back in their order, each with whether it is of a drill."""
        drill = {**KEPT, "drill": Drill("distance").record()}
        found = read_kept([KEPT, drill], CATALOGUE)

        assert ((SHEET, False), (SHEET, True)) == found.sheets
        assert () == found.faults

    @pytest.mark.parametrize(
        "record", [None, 3, {}, {"sheet": {"version": 1}}, {"sheet": {**KEPT["sheet"], "lesson": "none"}}]
    )
    def test_damaged(self, record):
        """A record that cannot be read gets a sentence, and the others are read."""
        found = read_kept([record, KEPT], CATALOGUE)

        assert ((SHEET, False),) == found.sheets
        assert 1 == len(found.faults)
        assert found.faults[0].endswith(".")

    def test_no_list(self):
        """What is no list of records holds none."""
        assert ((), ()) == (read_kept("x", CATALOGUE).sheets, read_kept(None, CATALOGUE).faults)


class TestTable:
    def rows(self, *sheets: Sheet) -> list[list[str]]:
        """The table's rows as another reader of such files reads them."""
        return list(csv.reader(io.StringIO(table([(one, False) for one in sheets], heading=True))))

    def test_rows(self):
        """There is a heading, and a row for each thing that was done."""
        heading, entered, hinted = self.rows(SHEET)

        assert list(COLUMNS) == heading
        assert ["shunt-stub", "Own, with a comma"] == entered[:2]
        assert ["normalise", "enter", "1.2-1.6j", "right"] == [entered[i] for i in (4, 6, 7, 8)]
        assert ["place", "", "hint", "", ""] == hinted[4:]

    @pytest.mark.parametrize("text", ["=1+2", "@sum(1)", "+cmd|' /C x'!A0", "-2+3+cmd|'x'!A0", "\t=1"])
    def test_formulas(self, text: str):
        """What a spreadsheet would take for a formula is marked as a text."""
        assert "'" + text == self.rows(SHEET.enter("place", text))[-1][7]

    @pytest.mark.parametrize("text", ["-46.8", "+0.5 - j1.2", "−j1.6", "-j40", "-0.5 < 30°"])
    def test_numbers(self, text: str):
        """A number with a sign stays as it was entered."""
        assert text == self.rows(SHEET.enter("place", text))[-1][7]
