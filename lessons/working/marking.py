"""Marks an entry: against the solver, against the student's own earlier values, and against the known slips."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from math import inf
from typing import Literal

from lessons.grammar.kinds import CLOSE, Accuracy, Kind, Oddity, Value
from lessons.grammar.lesson import Field, Impossible, Slip, Text, Work
from lessons.grammar.numbers import Unreadable

Judgement = Literal["right", "close", "slip", "wrong", "unreadable", "impossible"]
MISREAD = 8.0  # tolerances within which a value is a misread one before it is a mistake
ROUNDED = 1.1  # of a slip's window: what is read and spoilt is rounded besides, mostly to two decimals
SURE = (
    0.25  # of a slip's window: two parts nearer than this to what it predicts "look like" it, others "may be"
)
FOLLOWS = (
    "Right for your earlier values. They differ from the solver's further up; this step is not at fault."
)
READ, WORKED_OUT = ("reading", "read it again"), ("arithmetic", "work it out again")


@dataclass(frozen=True)
class Verdict:
    """What is said of an entry, and why, in one or two sentences.

    value : what was read, None if nothing could be.  slip : key of the slip that is named.
    follows : right for the student's earlier values, though not for the problem.  back_to : step to return to.
    suspected : keys of all slips that were asked about, likeliest first."""

    judgement: Judgement
    sentence: str
    value: Value | None = None
    slip: str = ""
    follows: bool = False
    back_to: str = ""
    suspected: tuple[str, ...] = ()

    @property
    def accepted(self) -> bool:
        """Whether the student may go on from here."""
        return self.judgement in ("right", "close")


@dataclass(frozen=True)
class Suspect:
    """A slip that predicts what was entered. off : how far from it, in windows of the slip."""

    slip: Slip
    off: float


def mark(
    field: Field,
    text: str,
    work: Work,
    truth: Work,
    seen: Collection[str] = (),
    rightly: Collection[str] = (),
) -> Verdict:
    """The verdict on what was entered in a field.

    work : the student's values of the earlier fields.  truth : the solver's.
    seen : keys of slips this student has been told of before, here or in earlier steps.
    rightly : keys of fields that this student answered rightly, which rule some slips out."""
    try:
        kind = field.kind(work)
        value = kind.read(text, work.notation)
        expected = work.following(field.key)
    except Unreadable as fault:
        return Verdict("unreadable", str(fault))
    except Impossible as fault:
        return Verdict("impossible", str(fault), back_to=fault.step)
    return _Marking(field, kind, value, expected, work, truth, seen, rightly).verdict()


@dataclass(frozen=True)
class _Marking:
    """One entry under the red pen."""

    field: Field
    kind: Kind
    value: Value
    expected: Value
    work: Work
    truth: Work
    seen: Collection[str]
    rightly: Collection[str]

    def verdict(self) -> Verdict:
        if odd := self.kind.oddity(self.value, self.expected, self._accuracy):
            return self._odd(odd)
        own, true = self._off_own(), self._off_true()
        off = own if self._must_follow else min(own, true)
        if off <= 1:
            follows = own <= 1 and true > CLOSE
            said = FOLLOWS if follows else self.kind.praise(self.value, self.expected)
            return Verdict("right", said, self.value, follows=follows)
        if off <= CLOSE:
            return Verdict("close", self._nearly(), self.value)
        if suspects := self._suspects():
            return self._name(suspects, a_little_off=own <= MISREAD)
        if own <= MISREAD:
            return Verdict("wrong", self._misread(), self.value)
        return Verdict("wrong", self._where(), self.value)

    @property
    def _accuracy(self) -> Accuracy:
        return self.work.problem.accuracy

    @property
    def _got_by(self) -> tuple[str, str]:
        """What an answer a little off is off by, and what to do: no chart was read for what is worked out."""
        return READ if self._accuracy == "chart" and not self.kind.arithmetic else WORKED_OUT

    def _nearly(self) -> str:
        return f"Close: inside twice the tolerance of your {self._got_by[0]}, so you may go on from it."

    def _misread(self) -> str:
        what, again = self._got_by
        return f"Almost: the method looks right and the {what} is a little off. {again.capitalize()}."

    def _off(self, other: Value) -> float:
        return self.kind.off_by(self.value, other, self._accuracy)

    def _off_own(self) -> float:
        """How far from what follows from the student's own values, on whichever way they were got."""
        if self.field.accepts is not None:
            return self._off_any(self.field.accepts(self.work))
        off = self._off(self.expected)
        return off if off <= 1 else min(off, self._off_any(routes(self.field, self.work)))

    def _off_true(self) -> float:
        """How far from what is right for the problem."""
        if self.field.accepts is not None:
            return self._off_any(self.field.accepts(self.truth))
        return self._off(self.truth[self.field.key])

    def _off_any(self, values: Iterable[Value]) -> float:
        return min(map(self._off, values), default=inf)

    @property
    def _must_follow(self) -> bool:
        """Whether what is right for the problem is so only if it follows from the student's own values."""
        return self.field.own_only or self.field.accepts is not None

    # --- slips ---

    def _suspects(self) -> list[Suspect]:
        """The slips that predict what was entered and can be told from the right answer, likeliest first."""
        found = []
        for slip in self.field.slips:
            predictions = [one for one in predicted_all(slip, self.work) if self._tells(one)]
            window = ROUNDED * slip.window(self.work) if predictions else 1.0
            off = min((self._off_slip(one) / window for one in predictions), default=inf)
            if off <= 1:
                found.append(Suspect(slip, off))
        kept = [one for one in found if not self._ruled_out(one.slip)] or found
        return sorted(kept, key=lambda one: (-one.slip.usual, round(one.off, 1)))

    def _off_slip(self, prediction: Value) -> float:
        return self.kind.off_as_written(self.value, prediction, self._accuracy)

    def _tells(self, prediction: Value) -> bool:
        """Whether a prediction can be told from the right answer: else a reading error would be called a mistake."""
        return self.kind.off_by(prediction, self.expected, self._accuracy) > CLOSE

    def _ruled_out(self, slip: Slip) -> bool:
        """Whether the sheet shows that the student does not make this mistake."""
        neighbours = [
            one.key
            for one in self.work.lesson.fields.values()
            if self.field.branch and one.quantity == self.field.quantity and one is not self.field
        ]
        by = (*slip.ruled_out_by, *(neighbours if slip.of_method else ()))
        return any(key in self.rightly for key in by)

    def _name(self, suspects: list[Suspect], a_little_off: bool) -> Verdict:
        asked = {self.work.say(one.slip.question): one for one in reversed(suspects)}
        distinct = [one for one in suspects if asked[self.work.say(one.slip.question)] is one]
        keys = tuple(one.slip.key for one in distinct)
        if len(distinct) > 1:
            questions = " ".join(
                f"{self._say(one.slip.question)} {self._say(one.slip.remedy)}" for one in distinct[:2]
            )
            return Verdict("slip", f"Two mistakes give this number. {questions}", self.value, suspected=keys)
        first = distinct[0]
        opening = self._opening(first, a_little_off)
        sentence = f"{opening} {self._say(first.slip.doing)}. {self._say(first.slip.remedy)}"
        return Verdict("slip", sentence, self.value, slip=first.slip.key, suspected=keys)

    def _opening(self, suspect: Suspect, a_little_off: bool) -> str:
        """A guess the first time, a statement when the same thing happens again."""
        if suspect.slip.key in self.seen:
            return "You are"
        if a_little_off:
            return f"A little off: {self._got_by[1]}. Or this may be"
        sure = suspect.off <= SURE and not self.kind.comes_by_chance
        return "This looks like" if sure else "This may be"

    def _say(self, text: Text) -> str:
        return self.work.say(text)

    def _odd(self, odd: Oddity) -> Verdict:
        """A value that cannot be, whatever the problem: a difference left as it came, or a walk the other way."""
        if not odd.slip:
            return Verdict("wrong", odd.sentence, self.value)
        opening = "You are" if odd.slip in self.seen else "This looks like"
        sentence = self._say(f"{opening} {odd.doing}. {odd.sentence}")
        return Verdict("slip", sentence, self.value, slip=odd.slip)

    def _where(self) -> str:
        """Where the answer lies, for a value that nothing known explains."""
        where = self.kind.where(self.value, self.expected, self.work.notation)
        return f"Not this value. {where}".strip()


def routes(field: Field, work: Work) -> list[Value]:
    """What else a field's value may be, got from what the student has drawn and not from what was calculated."""
    found: list[Value] = []
    for route in field.routes:
        try:
            values = route(work)
        except (Impossible, ArithmeticError):
            continue
        found.extend(values if isinstance(values, tuple) else (values,))
    return found


def predicted(slip: Slip, work: Work) -> Value:
    """What a student making this slip would enter; None where it cannot be made with these values."""
    try:
        return slip.predict(work)
    except (Impossible, ArithmeticError):
        return None


def predicted_all(slip: Slip, work: Work) -> tuple[Value, ...]:
    """Everything that a student making this slip could enter: most slips give one value, some give a few."""
    found = predicted(slip, work)
    if found is None:
        return ()
    return found if isinstance(found, tuple) else (found,)
