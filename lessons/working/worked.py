"""Steps that the tutor works in the student's place."""

from __future__ import annotations

from dataclasses import replace

from lessons.working.sheet import Sheet


def with_steps_shown(sheet: Sheet, steps: int) -> Sheet:
    """The sheet with so many leading steps worked by the tutor; whatever of them is settled already stays."""
    shown = sheet.steps[:steps]
    open_there = {one.key for step in shown for one in step.fields if not sheet.settled(one.key)}
    entries = {key: entry for key, entry in sheet.entries.items() if key not in open_there}
    return replace(sheet, entries=entries, shown=len(shown))
