"""A sheet: one student's working of one problem. Only what was entered is kept; every verdict follows from it.

A sheet never changes; each thing a student does gives the next sheet. That makes it easy to keep, to carry and to undo.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Field, Impossible, Lesson, Problem, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.working.marking import Verdict, mark

RUNGS = 4
UNNAMED = "one of several"


@dataclass(frozen=True)
class Entry:
    """What stands in one field. carried : wrong, but taken along.  revealed : shown by the tutor.

    slips : keys of the slips met here on earlier tries, each once; UNNAMED where several gave the number."""

    text: str = ""
    carried: bool = False
    revealed: bool = False
    slips: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sheet:
    """A problem, the notation of the course, and the entries so far.

    hints : how many of the four hints of a step were taken.  shown : how many leading steps are worked by the tutor."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    entries: Mapping[str, Entry] = field(default_factory=dict)
    hints: Mapping[str, int] = field(default_factory=dict)
    shown: int = 0

    # --- what a student can do ---

    def enter(self, key: str, text: str) -> Sheet:
        """Put a text in a field, in place of what stood there."""
        old, verdict = self.entries.get(key, Entry()), self.verdicts.get(key)
        slips = old.slips
        if verdict and verdict.judgement == "slip" and text.strip() != old.text.strip():
            slips = tuple(dict.fromkeys((*slips, verdict.slip or UNNAMED)))
        return self._with(key, Entry(text, slips=slips))

    def carry(self, key: str) -> Sheet:
        """Go on with a wrong value: later steps are judged from it."""
        return self._with(key, replace(self.entries.get(key, Entry()), carried=True))

    def hint(self, step: str) -> Sheet:
        """Take the next hint of a step; the fourth one fills in and draws the answer."""
        rung = min(self.hints.get(step, 0) + 1, RUNGS)
        taken = replace(self, hints={**self.hints, step: rung})
        return taken.reveal(step) if rung == RUNGS else taken

    def reveal(self, step: str) -> Sheet:
        """Have the tutor fill in whatever the step still lacks; it then counts as assisted, all hints taken."""
        sheet = self
        for one in self._step(step).fields:
            if not sheet.settled(one.key):
                entry = replace(sheet.entries.get(one.key, Entry()), revealed=True, carried=False)
                sheet = replace(sheet._with(one.key, entry), hints={**sheet.hints, step: RUNGS})
        return sheet

    def start_over(self) -> Sheet:
        """The same problem on a clean sheet."""
        return Sheet(self.lesson, self.problem, self.notation)

    # --- what follows from it ---

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps this problem asks for."""
        return self.lesson.steps_of(self.problem)

    @cached_property
    def truth(self) -> Work:
        """The solver's own derivation."""
        return Work(self.lesson, self.problem, self.notation)

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
        work = truth = self.truth
        for index, one in self._fields():
            entry = self.entries.get(one.key, Entry(revealed=True) if index < self.shown else None)
            if entry is None:
                continue
            verdict = self._verdict(one, entry, work, truth, verdicts)
            verdicts[one.key] = verdict
            if verdict.value is not None and (verdict.accepted or entry.carried):
                work = self._settling(work, one.key, verdict.value)
                if one.accepts is not None:  # a choice of the student's, which the solver goes along with
                    truth = self._settling(truth, one.key, verdict.value)
        return verdicts, work

    def _settling(self, work: Work, key: str, value: Value) -> Work:
        return Work(self.lesson, self.problem, self.notation, {**work.given, key: value})

    def _verdict(
        self, one: Field, entry: Entry, work: Work, truth: Work, verdicts: Mapping[str, Verdict]
    ) -> Verdict:
        if entry.revealed:
            try:
                return Verdict("right", "Shown by the tutor.", work.following(one.key))
            except Impossible as fault:
                return Verdict("impossible", str(fault), back_to=fault.step)
        told = {v.slip for v in verdicts.values()} | {s for e in self.entries.values() for s in e.slips}
        return mark(one, entry.text, work, truth, told - {""})

    def settled(self, key: str) -> bool:
        """Whether a field is done: accepted, shown, or carried on."""
        verdict = self.verdicts.get(key)
        if verdict is None:
            return False
        return verdict.accepted or (verdict.value is not None and self.entries.get(key, Entry()).carried)

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
        """Whether a step was done by the student alone: no hint, no reveal."""
        entries = [self.entries.get(one.key, Entry(revealed=True)) for one in step.fields]
        return (
            self.done(step) and not self.hints.get(step.key) and not any(entry.revealed for entry in entries)
        )

    @property
    def current(self) -> Step | None:
        """The first step that is not done; None when the sheet is finished."""
        return next((step for step in self.steps if not self.done(step)), None)

    @property
    def finished(self) -> bool:
        """Whether every step is done."""
        return self.current is None

    def hints_shown(self, step: Step) -> tuple[str, ...]:
        """The hints taken so far in a step, in words."""
        rung = self.hints.get(step.key, 0)
        texts = [self.work.say(step.goal), self.work.say(step.rule)]
        if rung > 2:
            texts.append(self._numbers(step))
        if rung == RUNGS:
            texts.append(
                "The answer is filled in and drawn. The step counts as assisted: try a similar problem next."
            )
        return tuple(texts[:rung])

    def _numbers(self, step: Step) -> str:
        try:
            return step.numbers(self.work)
        except Impossible as fault:
            return str(fault)

    def _fields(self) -> Iterator[tuple[int, Field]]:
        for index, step in enumerate(self.steps):
            for one in step.fields:
                yield index, one

    def _step(self, key: str) -> Step:
        found = {step.key: step for step in self.steps}
        return found[key]

    def _with(self, key: str, entry: Entry) -> Sheet:
        self.lesson.field(key)
        return replace(self, entries={**self.entries, key: entry})
