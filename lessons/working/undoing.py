"""What a sheet was before: all that was done to it, but for the last thing, is done again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from lessons.working.attempts import MOST_ATTEMPTS, Attempt

Sheet = Any  # what this is done for, and which cannot be named here


def before_the_last(sheet: Sheet) -> Sheet | None:
    """The sheet before the last thing that was done to it; None where not all that led to it is known."""
    if not sheet.attempts or len(sheet.attempts) >= MOST_ATTEMPTS:
        return None
    *earlier, last = sheet.attempts
    shown = last.text if last.doing == "start over" else str(sheet.shown)
    before = after_all(sheet, earlier, int(shown)) if shown.isdecimal() else None
    return before if before and redo(before, last).is_like(sheet) else None


def after_all(sheet: Sheet, attempts: Sequence[Attempt], shown: int) -> Sheet:
    """The problem's sheet after all of this was done to it; what is judged twice on the way is judged once."""
    again = replace(sheet, entries={}, hints={}, shown=min(shown, len(sheet.steps)), attempts=(), judged={})
    begun = max((i for i, one in enumerate(attempts, 1) if one.doing == "start over"), default=0)
    for attempt in attempts[begun:]:
        again = redo(again, attempt)
    return replace(again, attempts=tuple(attempts), judged=None)


def redo(sheet: Sheet, attempt: Attempt) -> Sheet:
    """The sheet after the same thing was done to it. Raises KeyError for an unknown field or step."""
    match attempt.doing:
        case "enter" | "draw":
            return sheet.enter(attempt.at, attempt.text, attempt.doing)
        case "start over":
            return sheet.start_over()
        case doing:
            return getattr(sheet, doing)(attempt.at)
