"""A student's own working, from any book, marked line by line against the lesson.

The text is all that is kept. Its lines are laid on a sheet, every value carried on, so that each later one is judged
from the student's own. Where a line leaves open which solution or unit it means, what fits best is taken, and said.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from core.network import MatchingNetwork
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Impossible, Lesson, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.plan import Plan, is_known
from lessons.grammar.problem import Problem
from lessons.grammar.strokes import Stroke
from lessons.homework.entered import AsEntered
from lessons.homework.fit import Fit, best_fit
from lessons.homework.lines import Lines, Statement, Unread
from lessons.homework.names import Names
from lessons.homework.notes import notes, remarks
from lessons.homework.placing import Placed
from lessons.working.achieved import built
from lessons.working.construction import element_symbols, plans, stroke_groups
from lessons.working.marking import Verdict
from lessons.working.sheet import Sheet

LONGEST_WORKING = 20_000


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
class Design:
    """A network that can be built from someone's own lengths, and the solver's of the same kind."""

    branch: Branch | None
    network: MatchingNetwork
    ideal: MatchingNetwork
    symbols: tuple[str, ...]

    @property
    def key(self) -> str:
        """Its name in what is asked for."""
        return f"design.{self.branch.key}" if self.branch else "design"


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
        return tuple(remarks(self._fit, self.notation))

    @property
    def offered(self) -> Notation | None:
        """The notation that the student's lines fit best, where its symbols are the course's exchanged."""
        return self._fit.notation if self._fit.exchanged else None

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Every statement in the place that fits it best, in the order of the text."""
        return self._fit.placed

    @property
    def sheet(self) -> Sheet:
        """The lesson's sheet with all values of this working, each carried on."""
        return self._fit.sheet

    @cached_property
    def as_entered(self) -> Sheet:
        """The sheet that knows nothing but what was entered."""
        sheet = self.sheet
        return AsEntered(sheet.lesson, sheet.problem, sheet.notation, sheet.entries)

    @cached_property
    def construction(self) -> list[tuple[str, tuple[Stroke, ...]]]:
        """What the student's own values draw, by step: nothing that was not entered."""
        return stroke_groups(self.as_entered)

    @cached_property
    def designs(self) -> dict[str, Design]:
        """The networks that can be built from the lengths given, right or wrong, by the key of their branch."""
        if not self.lesson.ends_matched(self.problem):
            return {}
        found = {}
        for branch in self.lesson.branches_of(self.problem) or (None,):
            network, ideal = self._built(branch), built(self.sheet.truth, branch)
            symbols = element_symbols(self.lesson, branch, self.notation)
            if network is not None and _is_whole(network, ideal):
                design = Design(branch, network, ideal, symbols)
                found[design.key] = design
        return found

    @property
    def plans(self) -> tuple[Plan, ...]:
        """What can be drawn: each solution as far as the lines go."""
        designed = {d.branch: Plan(d.branch, d.network, d.symbols) for d in self.designs.values()}
        drawn = {plan.branch: plan for plan in plans(self.sheet)}
        if designed:
            drawn.pop(None, None)
        return tuple((drawn | designed).values())

    @property
    def askable(self) -> set[str]:
        """Keys of all that can be asked for: the lines, and what the designs lack."""
        return {line.key for line in self.lines} | set(self.designs)

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

    @property
    def _said(self) -> tuple[Statement | Unread, ...]:
        return self._fit.said

    @cached_property
    def _fit(self) -> Fit:
        text = "" if self.lesson.refuses(self.problem) else self.text

        def read(notation: Notation) -> tuple[Statement | Unread, ...]:
            return Lines(Names(Work(self.lesson, self._open, notation))).read(text)

        return best_fit(Sheet(self.lesson, self._open, self.notation), read)

    @cached_property
    def _own_names(self) -> Names:
        """The names in the symbols that the student uses."""
        return Names(Work(self.lesson, self._open, self._fit.notation))

    def _line(self, placed: Placed, verdict: Verdict) -> MarkedLine:
        entry = self._fit.entry(placed)
        step = next(step for step in self.steps if entry in step.fields)
        label = self.sheet.truth.say(entry.full_label)
        if placed.branch and entry is placed.field and entry.branch is None:
            label = f"{placed.branch.word.capitalize()}: {label}" if placed.branch else label
        said = () if verdict.judgement == "unreadable" else tuple(notes(self._fit, placed))
        return MarkedLine(placed.statement, step, entry, placed.key, label, verdict, said)

    def _placed_at(self, key: str) -> Placed | None:
        found = [placed for placed in self._fit.placed if self._fit.entry(placed).key == key]
        return found[-1] if found else None

    def _built(self, branch: Branch | None) -> MatchingNetwork | None:
        given = self._fit.of_elements(branch)
        work = Work(self.lesson, self.problem, self.notation, given)
        return self.lesson.network(work, branch, set(given)) if given else None

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
        if placed and isinstance(said, Statement):
            return " = ".join((self._name_of(self._fit.entry(placed)), *said.beside, said.value))
        return said.written

    def _name_of(self, one: Field) -> str:
        quantities = self._own_names.quantities
        return self._own_names.name_for(next(q for q in quantities if one in q.fields), one.branch)


def _is_whole(network: MatchingNetwork, ideal: MatchingNetwork) -> bool:
    """Whether a network has all the elements of the ideal one, each of them known."""
    return len(network.elements) == len(ideal.elements) > 0 and all(map(is_known, network.elements))
