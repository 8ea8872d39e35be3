"""What a student did to a sheet, done again: every try is judged anew, whatever the file says of it.

Hints and reveals are as the file states, as nothing in it proves them. What was taken back was done all the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lessons.grammar.lesson import Field, Step
from lessons.problems.points import Points
from lessons.working.attempts import MOST_ATTEMPTS, Attempt, Entry
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet
from lessons.working.undoing import redo

TRIES = ("enter", "draw")
NOT_FROM_ATTEMPTS = "What stands on the sheet does not follow from its attempts; what stands there is marked."
NO_ATTEMPTS = "The sheet holds no attempts, so first tries are not known; what stands there is marked."
TOO_MANY = f"Of more than {MOST_ATTEMPTS} attempts the first are left out."


@dataclass(frozen=True)
class Try:
    """One answer, and how the tutor judged it when it was given."""

    field: Field
    text: str
    verdict: Verdict


@dataclass(frozen=True)
class Made:
    """A slip that was made. slip : its key.  doing : what it is, in words.  sentence : what the tutor said of it.

    method : tells slips of one key that mean different things apart."""

    slip: str
    method: str
    doing: str
    step: Step
    field: Field
    text: str
    sentence: str


@dataclass(frozen=True)
class StepMarks:
    """What became of a step.

    first_time : whether every field was right at the first try, without a hint or a reveal; None where tries are not
    known.  tries : answers that could be read.  slips : those named, each time.  unnamed : wrong answers without one.
    hints, reveals : as the file states.  carried : wrong values that were carried on.  right : whether all that it asks
    stands there and is right, or right for the student's earlier values (`follows`).  shown : whether the tutor gave
    some of it.  done : whether the student came past it."""

    step: Step
    first_time: bool | None
    tries: int
    slips: tuple[Made, ...]
    unnamed: int
    hints: int
    reveals: int
    carried: int
    right: bool
    follows: bool
    shown: bool
    done: bool

    def points(self, table: Points) -> float:
        """What it has earned."""
        return table.earned(self.step.key, self.right, self.hints, self.shown, self.follows)


@dataclass(frozen=True)
class Replay:
    """A sheet as it stands, all tries made on it, and what is to be said of how it came about."""

    sheet: Sheet
    tries: tuple[Try, ...]
    steps: tuple[StepMarks, ...]
    remarks: tuple[str, ...]


def replayed(sheet: Sheet) -> Replay:
    """All that was done to a sheet, judged anew. What its entries claim of earlier slips counts for nothing."""
    tries, after = _done_again(sheet)
    bare = {key: replace(entry, slips=()) for key, entry in sheet.entries.items()}
    follows = bare == {key: replace(entry, slips=()) for key, entry in after.entries.items()}
    standing = after if follows and after.hints == sheet.hints else replace(sheet, entries=bare)
    remarks = []
    if not sheet.attempts:
        remarks += [NO_ATTEMPTS] if sheet.entries else []
    elif len(sheet.attempts) >= MOST_ATTEMPTS:
        remarks.append(TOO_MANY)
    elif standing is not after:
        remarks.append(NOT_FROM_ATTEMPTS)
    known = bool(sheet.attempts) or not sheet.entries
    steps = tuple(_step_marks(standing, step, tries, sheet.attempts, known) for step in standing.steps)
    return Replay(standing, tuple(tries), steps, tuple(remarks))


def _done_again(sheet: Sheet) -> tuple[list[Try], Sheet]:
    """Each try with its verdict at the time, over every clean sheet on which the problem was begun anew."""
    tries: list[Try] = []
    at = replace(
        sheet, entries={}, hints={}, attempts=(), shown=0, judged={}
    )  # judged once, whatever comes twice
    earlier: list[Sheet] = []
    for attempt, shown in zip(sheet.attempts, _shown(sheet), strict=True):
        at = replace(at, shown=shown, attempts=())
        if attempt.doing == "undo":
            at = earlier.pop() if earlier else at
            continue
        earlier.append(at)
        at = replace(at, entries={}, hints={}) if attempt.doing == "start over" else redo(at, attempt)
        if attempt.doing in TRIES and attempt.text.strip() != _stood(earlier[-1], attempt):
            verdict = at.verdicts.get(attempt.at)
            if verdict is not None and verdict.judgement not in ("unreadable", "impossible"):
                tries.append(Try(sheet.lesson.field(attempt.at), attempt.text, verdict))
    return tries, replace(at, shown=sheet.shown, attempts=sheet.attempts, judged=None)


def _stood(sheet: Sheet, attempt: Attempt) -> str:
    """What stood in the field already: checking the same twice is one try."""
    return sheet.entries.get(attempt.at, Entry()).text.strip()


def _shown(sheet: Sheet) -> list[int]:
    """How many steps the tutor had worked when each thing was done: the next that tells it says so."""
    told, shown = [], sheet.shown
    for attempt in reversed(sheet.attempts):
        if attempt.doing in ("start over", "undo"):
            number = int(attempt.text) if attempt.text.isascii() and attempt.text.isdigit() else 0
            shown = min(number, len(sheet.steps))
        told.append(shown)
    return told[::-1]


def _step_marks(
    sheet: Sheet, step: Step, tries: list[Try], attempts: tuple[Attempt, ...], known: bool
) -> StepMarks:
    keys = [one.key for one in step.fields]
    here = [one for one in tries if one.field.key in keys]
    given = [key for key in keys if sheet.entries.get(key, Entry(revealed=True)).revealed]
    verdicts = [sheet.verdicts.get(key) for key in keys]
    right = all(one is not None and one.accepted for one in verdicts)
    hints = max(
        sheet.hints.get(step.key, 0), sum(one.doing == "hint" and one.at == step.key for one in attempts)
    )
    reveals = sum(one.doing == "reveal" and one.at in keys for one in attempts)
    shown = sheet.steps.index(step) < sheet.shown and bool(given)
    firsts = {one.field.key: one.verdict for one in reversed(here)}
    unaided = not (hints or reveals or shown)
    first_time = unaided and set(firsts) == set(keys) and all(one.accepted for one in firsts.values())
    return StepMarks(
        step=step,
        first_time=first_time if known else None,
        tries=len(here),
        slips=tuple(_made(sheet, step, here)),
        unnamed=sum(not one.verdict.accepted and not one.verdict.slip for one in here),
        hints=hints,
        reveals=reveals,
        carried=sum(key in sheet.entries and sheet.entries[key].carried and not _accepted(sheet, key) for key in keys),
        right=right and sheet.done(step),
        follows=any(one is not None and one.follows for one in verdicts),
        shown=shown or any(sheet.entries[key].revealed for key in keys if key in sheet.entries),
        done=sheet.done(step),
    )  # fmt: skip


def _accepted(sheet: Sheet, key: str) -> bool:
    verdict = sheet.verdicts.get(key)
    return verdict is not None and verdict.accepted


def _made(sheet: Sheet, step: Step, tries: list[Try]) -> Iterator[Made]:
    """The slips that were named, each with the tutor's words."""
    for one in tries:
        key, sentence = one.verdict.slip, one.verdict.sentence
        slip = next((slip for slip in one.field.slips if slip.key == key), None)
        if slip is not None:
            method = slip.doing if isinstance(slip.doing, str) else sheet.lesson.key
            yield Made(key, method, sheet.truth.say(slip.doing), step, one.field, one.text, sentence)
        elif key:  # one that the kind of answer betrays, whatever the lesson
            yield Made(key, key, key, step, one.field, one.text, sentence)
