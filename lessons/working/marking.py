"""Marks an entry: against the solver, against the student's own earlier values, and against the known slips."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from math import inf
from typing import Literal

from lessons.grammar.kinds import Kind, LengthOfLine, Millimetres, Value
from lessons.grammar.lesson import Field, Impossible, Slip, Work
from lessons.grammar.numbers import Unreadable

Judgement = Literal["right", "close", "slip", "wrong", "unreadable", "impossible"]
CLOSE, MISREAD = 2.0, 4.0
NEGATIVE = "negative length"


@dataclass(frozen=True)
class Verdict:
    """What is said of an entry, and why, in one or two sentences.

    value : what was read, None if nothing could be.  slip : key of the slip that is named.
    follows : right for the student's earlier values, though not for the problem.  back_to : step to return to."""

    judgement: Judgement
    sentence: str
    value: Value | None = None
    slip: str = ""
    follows: bool = False
    back_to: str = ""

    @property
    def accepted(self) -> bool:
        """Whether the student may go on from here."""
        return self.judgement in ("right", "close")


def mark(field: Field, text: str, work: Work, truth: Work, seen: Collection[str] = ()) -> Verdict:
    """The verdict on what was entered in a field.

    work : the student's values of the earlier fields.  truth : the solver's.
    seen : keys of slips this student has been told of before, here or in earlier steps."""
    try:
        kind = field.kind(work)
        value = kind.read(text, work.notation)
        expected = work.following(field.key)
    except Unreadable as fault:
        return Verdict("unreadable", str(fault))
    except Impossible as fault:
        return Verdict("impossible", str(fault), back_to=fault.step)
    return _judge(field, kind, value, expected, work, truth, seen)


def _judge(
    field: Field, kind: Kind, value: Value, expected: Value, work: Work, truth: Work, seen: Collection[str]
) -> Verdict:
    accuracy = work.problem.accuracy
    if isinstance(kind, LengthOfLine | Millimetres) and value < 0:
        return _negative(kind, value, expected, work, seen)
    own = [expected] if field.accepts is None else list(field.accepts(work))
    off_own = min((kind.off_by(value, other, accuracy) for other in own), default=inf)
    off_true = kind.off_by(value, truth[field.key], accuracy) if field.accepts is None else off_own
    if min(off_own, off_true) <= 1:
        follows = off_own < off_true and off_true > CLOSE
        return Verdict("right", _praise(kind, value, follows, truth), value, follows=follows)
    suspects = [
        s for s in _suspects(field, kind, value, work) if not _names_the_answer(s, kind, expected, work)
    ]
    if off_own <= CLOSE:
        return Verdict("close", "Close: inside twice the reading tolerance, so you may go on from it.", value)
    if suspects:
        return _name(suspects, kind, value, work, seen)
    if off_own <= MISREAD:
        return Verdict(
            "wrong", "Almost: the method looks right and the reading is a little off. Read it again.", value
        )
    return Verdict(
        "wrong", "Not this value, and no usual slip gives it. Look at the goal in the first hint.", value
    )


def _suspects(field: Field, kind: Kind, value: Value, work: Work) -> list[Slip]:
    """The slips that predict what was entered."""
    found = []
    for slip in field.slips:
        expected = predicted(slip, work)
        if expected is not None and kind.off_by(value, expected, work.problem.accuracy) <= 1:
            found.append(slip)
    return found


def predicted(slip: Slip, work: Work) -> Value:
    """What a student making this slip would enter; None where it cannot be made with these values."""
    try:
        return slip.predict(work)
    except (Impossible, ArithmeticError):
        return None


def _names_the_answer(slip: Slip, kind: Kind, expected: Value, work: Work) -> bool:
    """Whether a slip cannot be told from the right answer here: naming it would call a reading error a mistake."""
    return kind.off_by(predicted(slip, work), expected, work.problem.accuracy) <= CLOSE


def _name(suspects: list[Slip], kind: Kind, value: Value, work: Work, seen: Collection[str]) -> Verdict:
    if len(suspects) > 1:
        questions = " ".join(dict.fromkeys(work.say(s.question) for s in suspects))
        return Verdict("slip", f"More than one slip gives this number, so ask yourself: {questions}", value)
    slip = suspects[0]
    sentence = work.say(f"{_opening(slip.key, seen)} {slip.doing}. {slip.remedy}")
    return Verdict("slip", sentence, value, slip=slip.key)


def _opening(slip: str, seen: Collection[str]) -> str:
    """A guess the first time, a statement when the same thing happens again."""
    return "You are" if slip in seen else "This looks like"


def _negative(kind: Kind, value: float, expected: Value, work: Work, seen: Collection[str]) -> Verdict:
    """A length below zero: a difference left as it came, or a walk the other way."""
    if isinstance(kind, LengthOfLine) and kind.off_by(value, expected, work.problem.accuracy) <= 1:
        remedy = "leaving a negative length. The scale starts again after half a wavelength: add 0.5 to it."
        return Verdict("slip", f"{_opening(NEGATIVE, seen)} {remedy}", value, slip=NEGATIVE)
    return Verdict("wrong", "A length of line cannot be negative: measure it toward the generator.", value)


def _praise(kind: Kind, value: Value, follows: bool, truth: Work) -> str:
    if follows:
        return "Right for your earlier values. They differ from the solver's further up; this step is not at fault."
    if isinstance(kind, LengthOfLine) and value >= 0.5:
        return "Right: lengths repeat every half wavelength. The shorter one, without the extra halves, is usual."
    return "Right."
