"""A student's own working, from any book, marked line by line against the lesson.

The text is all that is kept. Its lines are laid on a sheet of the lesson, every value carried on, so that each later
line is judged from the student's own earlier ones by the same marking as in practice. Where a line leaves open which
solution it is of, or in which unit it is, the understanding is taken that fits best, and said.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from core.network import MatchingNetwork
from lessons.grammar.kinds import Choice, Reflection, Value
from lessons.grammar.lesson import SIDES, Field, Impossible, Lesson, Problem, Side, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.strokes import Stroke
from lessons.homework.fit import Fit, Placed, best_fit
from lessons.homework.lines import Lines, Statement, Unread
from lessons.homework.names import Names
from lessons.working.construction import stroke_groups
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet

LONGEST_WORKING = 20_000
REVERSED = "Your first solution (1, a) is taken for the far one, your second for the near one: so the lines fit best."
AGAIN = "It is written again further down; later lines are judged from that one."


class TooLong(ValueError):
    """A working that is too long to be read; the message is the sentence for the student."""


@dataclass(frozen=True)
class MarkedLine:
    """A line with its verdict. key : names the field it answers, and the solution where the field has one for both.

    label : what the field asks.  notes : how the line was understood, where it left that open."""

    statement: Statement
    step: Step
    field: Field
    key: str
    label: str
    verdict: Verdict
    notes: tuple[str, ...]

    @property
    def unread(self) -> Unread | None:
        """The sentence that names the line, where its value could not be read."""
        if self.verdict.judgement != "unreadable":
            return None
        return Unread(self.statement.line, self.statement.written, self.verdict.sentence)


@dataclass(frozen=True)
class Working:
    """A problem, the notation of the course, and what a student wrote.

    asked : keys of the lines whose solver's value the student asked to see."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    text: str = ""
    asked: frozenset[str] = field(default_factory=frozenset)

    # --- what a student can do ---

    def written(self, text: str) -> Working:
        """Put a text in place of the one that stood there. Raises TooLong."""
        if len(text) > LONGEST_WORKING:
            raise TooLong(
                f"That is {len(text)} characters; at most {LONGEST_WORKING} are read. Leave out what is no value."
            )
        return replace(self, text=text)

    def entered(self, texts: Mapping[str, str]) -> Working:
        """Put values into single fields: each becomes a line, in place of the one that gave it before.

        An empty value takes its line out. Raises KeyError for an unknown field, TooLong."""
        values = {key: " ".join(value.replace(";", ",").split()) for key, value in texts.items()}
        changed = {
            key: self._as_line(key, value) for key, value in values.items() if value != self.value_of(key)
        }
        old = {key: placed for key in changed if (placed := self._placed_at(key))}
        new = {id(placed.statement): changed[key] for key, placed in old.items()}
        lines = [
            kept
            for number, text in enumerate(self.text.splitlines(), 1)
            for kept in self._kept(number, text, new)
        ]
        return self.written(
            "\n".join([*lines, *(line for key in changed if key not in old for line in changed[key])])
        )

    def ask(self, key: str) -> Working:
        """Ask for the solver's value of a line, or put it away again."""
        return replace(self, asked=self.asked ^ {key})

    # --- what follows from it ---

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps that can be checked; none of them is switched off here."""
        return self.lesson.steps_of(self._open)

    @cached_property
    def lines(self) -> tuple[MarkedLine, ...]:
        """Every line that names a quantity of the lesson, in the order of the derivation."""
        order = {one.key: index for index, one in enumerate(self._fields)}
        marked = zip(self._fit.placed, self._fit.verdicts, strict=True)
        return tuple(self._line(*m) for m in sorted(marked, key=lambda m: order[self._fit.entry(m[0]).key]))

    @cached_property
    def unread(self) -> tuple[Unread, ...]:
        """What could not be read, in the order of the text."""
        values = [line.unread for line in self.lines]
        lines = [said for said in self._said if isinstance(said, Unread)]
        return tuple(sorted((u for u in (*lines, *values) if u), key=lambda u: u.line))

    @property
    def remarks(self) -> tuple[str, ...]:
        """How the whole was understood, where that was left open."""
        return (REVERSED,) if self._fit.arrangement.first == "far" else ()

    @property
    def sheet(self) -> Sheet:
        """The lesson's sheet with all values of this working, each carried on."""
        return self._fit.sheet

    @cached_property
    def construction(self) -> list[tuple[str, tuple[Stroke, ...]]]:
        """What the student's own values draw, by step: nothing that was not entered."""
        sheet = self.sheet
        return stroke_groups(AsEntered(sheet.lesson, sheet.problem, sheet.notation, sheet.entries))

    @cached_property
    def designs(self) -> dict[Side, MatchingNetwork]:
        """The networks that can be built from the lengths given, right or wrong."""
        if self.lesson.refuses(self.problem):
            return {}
        own = {side: self._built(side, self._fit.lengths(side)) for side in SIDES}
        return {s: n for s, n in own.items() if n and len(n.elements) == len(self.ideal(s).elements)}

    def ideal(self, side: Side) -> MatchingNetwork:
        """The solver's design of the same kind."""
        truth = self.sheet.truth
        network = self._built(
            side, {one.key: truth[one.key] for one in self._fields if one.key.endswith(side)}
        )
        assert network is not None  # a lesson designs what it asks for
        return network

    @property
    def askable(self) -> set[str]:
        """Keys of all that can be asked for: the lines, and what the designs lack."""
        return {line.key for line in self.lines} | {f"design.{side}" for side in self.designs}

    @property
    def in_millimetres(self) -> bool:
        """Whether the student has come to millimetres, so that they may be shown."""
        return any(placed.length for placed in self._fit.placed)

    def value_of(self, key: str) -> str:
        """What stands for a field, as it was written; "" where nothing does."""
        placed = self._placed_at(key)
        return placed.statement.value if placed else ""

    def solver_value(self, key: str) -> str:
        """The solver's value of a line, in a sentence or two: from the student's own values too, where they differ."""
        one = next(p for p in self._fit.placed if p.key == key)
        work, truth = self._fit.context(one)
        kind, true = one.field.kind(work), truth[one.field.key]
        said = f"The solver's value is {kind.write(true, self.notation)}."
        try:
            own = work.following(one.field.key)
        except Impossible:
            return said
        if kind.off_by(own, true, self.problem.accuracy) <= 1:
            return said
        return f"{said} From your own earlier values it would be {kind.write(own, self.notation)}."

    @cached_property
    def names(self) -> Names:
        """What can be written for each quantity."""
        return Names(Work(self.lesson, self._open, self.notation))

    # --- how it comes about ---

    @property
    def _open(self) -> Problem:
        return replace(self.problem, without=frozenset())

    @cached_property
    def _fields(self) -> tuple[Field, ...]:
        return tuple(one for step in self.steps for one in step.fields)

    @cached_property
    def _said(self) -> tuple[Statement | Unread, ...]:
        return Lines(self.names).read(self.text)

    @cached_property
    def _fit(self) -> Fit:
        said = () if self.lesson.refuses(self.problem) else self._said
        blank = Sheet(self.lesson, self._open, self.notation)
        return best_fit(blank, [one for one in said if isinstance(one, Statement)])

    def _line(self, placed: Placed, verdict: Verdict) -> MarkedLine:
        entry = self._fit.entry(placed)
        step = next(step for step in self.steps if entry in step.fields)
        label = self.sheet.truth.say(entry.label)
        if placed.length and entry is placed.field:
            label = f"{str(placed.side).capitalize()}: {label}"
        notes = () if verdict.judgement == "unreadable" else tuple(self._notes(placed))
        return MarkedLine(placed.statement, step, entry, placed.key, label, verdict, notes)

    def _notes(self, placed: Placed) -> Iterator[str]:
        if placed.option.reading.said:
            yield placed.option.reading.said
        if placed.unmarked and placed.statement.alone:
            yield f"Neither near nor far stands here; it fits the {placed.side} solution best."
        if self._fit.repeated(placed):
            yield AGAIN

    def _placed_at(self, key: str) -> Placed | None:
        found = [placed for placed in self._fit.placed if self._fit.entry(placed).key == key]
        return found[-1] if found else None

    def _built(self, side: Side, given: Mapping[str, Value]) -> MatchingNetwork | None:
        return self.lesson.design(Work(self.lesson, self.problem, self.notation, given), side, set(given))

    # --- one value in place of another ---

    def _as_line(self, key: str, value: str) -> list[str]:
        return [f"{self._name_of(self.lesson.field(key))} = {value}"] if value else []

    def _kept(self, number: int, text: str, new: Mapping[int, list[str]]) -> list[str]:
        """What becomes of a line of the text; one of which a part is written anew falls into its parts."""
        parts = [said for said in self._said if said.line == number]
        if not any(id(said) in new for said in parts):
            return [text]
        return [line for said in parts for line in (new[id(said)] if id(said) in new else [self._part(said)])]

    def _part(self, said: Statement | Unread) -> str:
        placed = next((one for one in self._fit.placed if one.statement is said), None)
        if placed is None or not isinstance(said, Statement):
            return said.written
        return f"{self._name_of(self._fit.entry(placed))} = {said.value}"

    def _name_of(self, one: Field) -> str:
        quantity = next(q for q in self.names.quantities if one in q.fields)
        return self.names.name_for(quantity, SIDES[quantity.fields.index(one)] if quantity.sided else None)


class AsEntered(Sheet):
    """A sheet that draws what was entered and nothing else: no value of the solver's shows in its strokes."""

    @property
    def work(self) -> Work:
        """The derivation from the entries, which knows nothing beyond them."""
        given = super().work
        return _Entered(given.lesson, given.problem, given.notation, given.given)

    def settled(self, key: str) -> bool:
        """Whether a field may draw: a wrong choice would be drawn as the right one, so it is not."""
        kind = self.lesson.field(key).kind(self.truth)
        verdict = self.verdicts.get(key)
        if isinstance(kind, Choice):
            return verdict is not None and verdict.accepted
        return super().settled(key) or (verdict is None and isinstance(kind, Reflection))


class _Entered(Work):
    """A derivation that follows nothing up, but where an entered value stands and what the problem does not ask."""

    def __getitem__(self, key: str) -> object:
        if key in self.given:
            return self.given[key]
        one = self.lesson.field(key)
        is_asked = any(one in step.fields for step in self.lesson.steps_of(self.problem))
        if is_asked and not isinstance(one.kind(self), Reflection):
            raise Impossible(f"Nothing was entered for {key}.", key)
        return one.value(self)
