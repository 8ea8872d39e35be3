"""What a sheet was before: all that was done to it, but for the last thing, is done again.

What was taken back is not forgotten: that it was done, and that it was taken back, are both kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from lessons.grammar.lesson import Step
from lessons.working.attempts import MOST_ATTEMPTS, Attempt

Sheet = Any  # what this is done for, and which cannot be named here


def before_the_last(sheet: Sheet) -> Sheet | None:
    """The sheet before the last thing that was done to it; None where not all that led to it is known."""
    done = standing(sheet.attempts)
    if not done or len(sheet.attempts) >= MOST_ATTEMPTS:
        return None
    *earlier, last = (sheet.attempts[i] for i in done)
    shown = last.text if last.doing == "start over" else str(sheet.shown)
    before = after_all(sheet, earlier, int(shown)) if shown.isdecimal() else None
    if before is None or not redo(before, last).is_like(sheet):
        return None
    return replace(before, attempts=(*sheet.attempts, Attempt("undo", text=str(sheet.shown))))


def standing(attempts: Sequence[Attempt]) -> list[int]:
    """Which of all that was done has not been taken back, counted from 0."""
    kept: list[int] = []
    for index, attempt in enumerate(attempts):
        if attempt.doing != "undo":
            kept.append(index)
        elif kept:
            kept.pop()
    return kept


def since_begun(attempts: Sequence[Attempt]) -> Sequence[Attempt]:
    """All that was done since the sheet was last begun anew, taken back or not."""
    begun = max((i for i in standing(attempts) if attempts[i].doing == "start over"), default=-1)
    return attempts[begun + 1 :]


def helped(attempts: Sequence[Attempt], step: Step) -> bool:
    """Whether a hint was taken in a step or one of its answers shown since then, taken back or not."""
    places = {"hint": (step.key,), "reveal": [one.key for one in step.fields]}
    return any(one.at in places.get(one.doing, ()) for one in since_begun(attempts))


def after_all(sheet: Sheet, attempts: Sequence[Attempt], shown: int) -> Sheet:
    """The problem's sheet after all of this was done to it; what is judged twice on the way is judged once."""
    again = replace(sheet, entries={}, hints={}, shown=min(shown, len(sheet.steps)), attempts=(), judged={})
    done = [attempts[i] for i in standing(attempts)]
    for attempt in since_begun(done):
        again = redo(again, attempt)
    return replace(again, attempts=tuple(attempts), judged=None)


def redo(sheet: Sheet, attempt: Attempt) -> Sheet:
    """The sheet after the same thing, no undo, was done to it. Raises KeyError for an unknown field or step."""
    match attempt.doing:
        case "enter" | "draw":
            return sheet.enter(attempt.at, attempt.text, attempt.doing)
        case "start over":
            return sheet.start_over()
        case doing:
            return getattr(sheet, doing)(attempt.at)
