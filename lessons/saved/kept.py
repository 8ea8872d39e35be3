"""All that a browser kept of a course, read as far as it can be: sheets, drills, progress; and as a table."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lessons.grammar.catalogue import Catalogue
from lessons.saved.records import BadRecord, sheet_from_record
from lessons.saved.spreadsheet import separated
from lessons.working.drill import Drill
from lessons.working.sheet import Sheet
from lessons.working.tally import judged

COLUMNS = ("lesson", "problem", "given", "drill", "step", "entry", "done", "text", "judged now")


@dataclass(frozen=True)
class KeptSheets:
    """sheets : those that could be read, each with whether it is of a drill.  faults : a sentence for each other."""

    sheets: tuple[tuple[Sheet, bool], ...]
    faults: tuple[str, ...]


def read_kept(records: object, catalogue: Catalogue) -> KeptSheets:
    """The sheets among these records; never raises."""
    sheets, faults = [], []
    for record in records if isinstance(records, list) else []:
        try:
            if not isinstance(record, dict):
                raise BadRecord("Part of what this browser kept is no sheet.")
            sheet = sheet_from_record(record.get("sheet"), catalogue)
            sheets.append((sheet, Drill.from_record(record.get("drill"), sheet.lesson) is not None))
        except BadRecord as fault:
            faults.append(str(fault))
    return KeptSheets(tuple(sheets), tuple(faults))


def table(sheets: Iterable[tuple[Sheet, bool]], heading: bool) -> str:
    """Everything that was done on these sheets as comma-separated values, a row each.

    "judged now" is of an entry as it is judged from what the sheet holds today, empty where that cannot be told."""
    rows = (row for sheet, drilled in sheets for row in _rows(sheet, drilled))
    return separated([*((COLUMNS,) if heading else ()), *rows], signed=True)


def _rows(sheet: Sheet, drilled: bool) -> Iterable[Sequence[str]]:
    given = sheet.truth.say(sheet.lesson.brief)
    about = (sheet.lesson.key, sheet.problem.title or "own problem", given, "drill" if drilled else "")
    for one in judged(sheet):
        step, attempt = one.step.key if one.step else "", one.attempt
        entry = sheet.work.say(one.field.full_label) if one.field else ""
        text = attempt.text if one.field else ""
        yield (*about, step, entry, attempt.doing, text, one.outcome)
