"""A sheet: one student's working of one problem. Only what was done is kept; every verdict follows from it.

A sheet never changes; each thing a student does gives the next sheet. That makes it easy to keep, to carry and to undo.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Self

from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Field, Impossible, Lesson, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.problem import Problem
from lessons.working.achieved import as_good_as_matched
from lessons.working.attempts import MOST_ATTEMPTS, UNNAMED, Attempt, Doing, Entry
from lessons.working.marking import Verdict, mark
from lessons.working.undoing import after_all, before_the_last, helped, standing

RUNGS = 4
ASSISTED = "The answer is filled in and drawn. The step counts as assisted: try a similar problem next."


@dataclass(frozen=True)
class Sheet:
    """A problem, the notation of the course, and what was done so far.

    hints : how many of the four hints of a step were taken.  shown : how many leading steps are worked by the tutor.
    attempts : everything that the student did, in order; the oldest are left out where there are very many.
    aside : what was answered before the lesson asked otherwise, by keys that it no longer has.
    judged : what was judged before, while much is done again."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    entries: Mapping[str, Entry] = field(default_factory=dict)
    hints: Mapping[str, int] = field(default_factory=dict)
    shown: int = 0
    attempts: tuple[Attempt, ...] = ()
    aside: Mapping[str, Entry] = field(default_factory=dict)
    judged: dict[int, Verdict] | None = field(default=None, repr=False, compare=False)

    # --- what a student can do ---

    def enter(self, key: str, text: str, doing: Doing = "enter") -> Self:
        """Put a text in a field, in place of what stood there. Raises KeyError for an unknown field."""
        old = self.entries.get(key, Entry())
        changed = key in self.entries and text.strip() != old.text.strip()
        verdict, slips = self.verdicts.get(key) if changed else None, old.slips
        if verdict and verdict.judgement == "slip":
            slips = tuple(dict.fromkeys((*slips, verdict.slip or UNNAMED)))
        return self._with(key, Entry(text, slips=slips))._after(Attempt(doing, key, text))

    def draw(self, key: str, answer: Any) -> Self:
        """Put a finished drawing in a field: a reflection (complex), the size of one, wavelengths walked, or the key of
        a point picked. Raises KeyError for an unknown field, TypeError for an answer of another gesture."""
        return self.enter(key, self.in_writing(key, answer), "draw")

    def in_writing(self, key: str, answer: Any) -> str:
        """A drawn answer as the student would write it in the field's box. Raises as `draw`."""
        one = self.lesson.field(key)
        gesture, kind = one.gesture(self.work), one.kind(self.work)
        if gesture is None or isinstance(answer, str) != kind.names_a_choice:
            raise TypeError(f"{key} is not answered by {answer!r}")
        value = kind.drawn(answer, gesture.read_as)
        return str(value) if kind.names_a_choice else kind.write(value, self.notation)

    def carry(self, key: str) -> Self:
        """Go on with a wrong value: later steps are judged from it. Raises KeyError for an unknown field."""
        entry = replace(self.entries.get(key, Entry()), carried=True)
        return self._with(key, entry)._after(Attempt("carry", key))

    def hint(self, step: str) -> Self:
        """Take the next hint of a step; the fourth one fills in and draws the answer. Raises KeyError."""
        rung = min(self.hints.get(step, 0) + 1, RUNGS)
        taken = replace(self, hints={**self.hints, step: rung})._after(Attempt("hint", step))
        return taken._revealed(self._step(step).fields) if rung == RUNGS else taken

    def reveal(self, key: str) -> Self:
        """Have the tutor fill in a field; its step then counts as assisted, all hints taken. Raises KeyError."""
        return self._revealed((self.lesson.field(key),))._after(Attempt("reveal", key))

    def reveal_step(self, step: str) -> Self:
        """Have the tutor fill in whatever a step still lacks. Raises KeyError for an unknown step."""
        sheet = self
        for one in self._step(step).fields:
            sheet = sheet if sheet.settled(one.key) else sheet.reveal(one.key)
        return sheet

    def start_over(self) -> Self:
        """The same problem on a clean sheet, on which what was done before is not forgotten."""
        known = after_all(self, self.attempts, self.shown).is_like(self)
        fresh = replace(self, entries={}, hints={}, shown=0)
        return fresh._after(Attempt("start over", text=str(self.shown) if known else ""))

    @property
    def undone(self) -> Self | None:
        """The sheet before the last thing that was done, which is not forgotten; None where not all that led to it is
        known."""
        return before_the_last(self)

    # --- what follows from it ---

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps that this problem asks for."""
        return self.lesson.steps_of(self.problem)

    @cached_property
    def truth(self) -> Work:
        """The solver's own derivation."""
        return Work(self.lesson, self.problem, self.notation)

    @cached_property
    def solution(self) -> Mapping[str, Value]:
        """The solver's value of each field that the problem asks for."""
        return {one.key: self.truth[one.key] for _, one in self._fields()}

    def write(self, key: str) -> str:
        """The solver's value of a field in the course's notation. Raises KeyError."""
        return self.truth.write(key)

    @cached_property
    def verdicts(self) -> Mapping[str, Verdict]:
        """Verdict on each field that has an entry."""
        return self._marked[0]

    @cached_property
    def work(self) -> Work:
        """The derivation from what this student has settled so far."""
        return self._marked[1]

    @cached_property
    def _marked(self) -> tuple[dict[str, Verdict], Work]:
        verdicts: dict[str, Verdict] = {}
        named: list[tuple[Field, Entry, Work, Work, set[str]]] = []
        work = truth = self.truth
        for index, one in self._fields():
            entry = self.entries.get(one.key, Entry(revealed=True) if index < self.shown else None)
            if entry is None:
                continue
            told, rightly = self._told(verdicts), self._rightly(verdicts)
            verdict = verdicts[one.key] = self._verdict(one, entry, work, truth, told, rightly)
            if verdict.judgement == "slip" and one.branch:
                named.append((one, entry, work, truth, told))
            if verdict.value is not None and (verdict.accepted or entry.carried):
                work = self._settling(work, one.key, verdict.value)
                if one.accepts is not None:  # a choice of the student's, which the solver goes along with
                    truth = self._settling(truth, one.key, verdict.value)
        rightly = self._rightly(verdicts)
        for slipped in named:  # again: what was done rightly in a later branch rules slips out
            verdicts[slipped[0].key] = self._verdict(*slipped, rightly)
        return verdicts, work

    def _settling(self, work: Work, key: str, value: Value) -> Work:
        return Work(self.lesson, self.problem, self.notation, {**work.given, key: value})

    def _verdict(self, one: Field, entry: Entry, work: Work, truth: Work, *known: set[str]) -> Verdict:
        if self.judged is None:
            return self._verdict_on(one, entry, work, truth, *known)
        values = tuple(work.given.items()), tuple(truth.given.items())
        facts = hash((one.key, entry.text, entry.revealed, values, *map(frozenset, known)))
        if facts not in self.judged:
            self.judged[facts] = self._verdict_on(one, entry, work, truth, *known)
        return self.judged[facts]

    def _verdict_on(self, one: Field, entry: Entry, work: Work, truth: Work, *known: set[str]) -> Verdict:
        if not entry.revealed:
            return mark(one, entry.text, work, truth, *known)
        try:
            return Verdict("right", "Shown by the tutor.", work.following(one.key))
        except Impossible as fault:
            return Verdict("impossible", str(fault), back_to=fault.step)

    def _told(self, verdicts: Mapping[str, Verdict]) -> set[str]:
        """Keys of the slips that this student has been told of."""
        before = {slip for entry in self.entries.values() for slip in entry.slips}
        return before | {verdict.slip for verdict in verdicts.values() if verdict.slip}

    def _rightly(self, verdicts: Mapping[str, Verdict]) -> set[str]:
        """Keys of the fields that this student answered rightly."""
        return {key for key, verdict in verdicts.items() if verdict.accepted and not self._is_given(key)}

    def _is_given(self, key: str) -> bool:
        """Whether a field's value was not the student's own doing."""
        return self.entries.get(key, Entry(revealed=True)).revealed

    def settled(self, key: str) -> bool:
        """Whether a field is done: accepted, shown, or carried on."""
        verdict = self.verdicts.get(key)
        if verdict is None or verdict.value is None:
            return False
        return verdict.accepted or self.entries.get(key, Entry()).carried

    def text(self, key: str) -> str:
        """What stands in a field: the student's text, or the tutor's value."""
        entry = self.entries.get(key, Entry())
        if self.verdicts.get(key) and (entry.revealed or key not in self.entries):
            return self.work.write(key) if self.settled(key) else ""
        return entry.text

    def done(self, step: Step) -> bool:
        """Whether all fields of a step are settled."""
        return all(self.settled(one.key) for one in step.fields)

    def clean(self, step: Step) -> bool:
        """Whether a step was done without a hint, a reveal or a slip."""
        entries = [self.entries.get(one.key, Entry(revealed=True)) for one in step.fields]
        return self.unaided(step) and not any(entry.carried or entry.slips for entry in entries)

    def unaided(self, step: Step) -> bool:
        """Whether a step was done by the student alone: no hint, no reveal, none that was taken back either."""
        given = any(self._is_given(one.key) for one in step.fields)
        return (
            self.done(step) and not self.hints.get(step.key) and not given and not helped(self.attempts, step)
        )

    @property
    def last_done(self) -> Attempt | None:
        """The last thing that was done and not taken back."""
        return next((self.attempts[index] for index in standing(self.attempts)[-1:]), None)

    @property
    def current(self) -> Step | None:
        """The first step that is not done; None when the sheet is finished."""
        return next((step for step in self.steps if not self.done(step)), None)

    @property
    def finished(self) -> bool:
        """Whether every step is done."""
        return self.current is None

    @cached_property
    def went_wrong(self) -> Step | None:
        """The first step with a value that was carried on; where none was and what is built still does not match, the
        first with one that differs from the solver's: small errors have added up."""
        carried = self._first_step(lambda key, verdict: self.settled(key) and not verdict.accepted)
        return carried or (None if self.matched else self._first_step(lambda key, verdict: verdict.follows))

    def _first_step(self, has: Callable[[str, Verdict], bool]) -> Step | None:
        met = {key for key, verdict in self.verdicts.items() if has(key, verdict)}
        return next((step for step in self.steps if met & {one.key for one in step.fields}), None)

    @cached_property
    def matched(self) -> bool | None:
        """Whether each design of a finished sheet matches the problem's load; None where none has to, or not yet."""
        if not self.finished or not self.lesson.ends_matched(self.problem):
            return None
        branches = self.lesson.branches_of(self.problem) or (None,)
        return all(as_good_as_matched(self.work, self.truth, one) for one in branches)

    @property
    def solved(self) -> bool:
        """Whether the sheet is finished and right for the problem itself: matched, where the lesson matches."""
        return self.finished and self.went_wrong is None and self.matched is not False

    def hints_shown(self, step: Step) -> tuple[str, ...]:
        """The hints taken so far in a step, in words."""
        rung = self.hints.get(step.key, 0)
        numbers = self.numbers(step) if rung > 2 else ""
        return (self.work.say(step.goal), self.work.say(step.rule), numbers, ASSISTED)[:rung]

    def numbers(self, step: Step) -> str:
        """The rule of a step with this student's numbers."""
        try:
            return step.numbers(self.work)
        except Impossible as fault:
            return str(fault)

    def is_like(self, other: Self) -> bool:
        """Whether the same stands on both, however it came there."""
        return (self.entries, self.hints) == (other.entries, other.hints)

    def _fields(self) -> Iterator[tuple[int, Field]]:
        return ((index, one) for index, step in enumerate(self.steps) for one in step.fields)

    def _step(self, key: str) -> Step:
        return {step.key: step for step in self.steps}[key]

    def _revealed(self, fields: tuple[Field, ...]) -> Self:
        sheet = self
        for one in fields:
            if not sheet.settled(one.key):
                entry = replace(sheet.entries.get(one.key, Entry()), revealed=True, carried=False)
                step = next(step.key for step in self.lesson.steps if one in step.fields)
                sheet = replace(sheet._with(one.key, entry), hints={**sheet.hints, step: RUNGS})
        return sheet

    def _with(self, key: str, entry: Entry) -> Self:
        self.lesson.field(key)
        return replace(self, entries={**self.entries, key: entry})

    def _after(self, attempt: Attempt) -> Self:
        return replace(self, attempts=(*self.attempts, attempt)[-MOST_ATTEMPTS:])
