"""The grammar of a lesson: a derivation, written once.

A lesson is a list of steps; a step has one or more fields; a field knows how its value follows from the values before
it. Everything else - the guided practice, the walkthrough, the marking of a student's own working, the printed key -
is made from that. `Work` evaluates the derivation, either from nothing (the solver's own answer) or from what a student
has entered so far (so that later values follow from the student's earlier ones).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Literal

from core.network import MatchingNetwork
from lessons.grammar.asked import narrowed
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Kind, Value
from lessons.grammar.notation import STANDARD, Notation, Symbol
from lessons.grammar.primer import Primer
from lessons.grammar.problem import Given, Problem
from lessons.grammar.strokes import Gesture, Stroke
from lessons.grammar.term import Term

Text = str | Callable[["Work"], str]
"""A text of a lesson, with `{d}` and the like for symbols and givens; or one that depends on the work."""


class Impossible(Exception):
    """A value that cannot follow from the ones before it; `.step` is the one to go back to."""

    def __init__(self, sentence: str, step: str) -> None:
        super().__init__(sentence)
        self.step = step


@dataclass(frozen=True, eq=False)
class Slip:
    """A recognisable mistake: what it is, the question that finds it, and what a student making it would enter.

    doing : completes "You are ..." and "This looks like ...".  question : asked where two slips give one number.
    predict : the value entered, or None where the mistake changes nothing or cannot be made; a tuple where it can give
    one of several.  usual : how usual it is, 3 for what happens in every class, 1 for what hardly ever does.
    spread : how many tolerances a reading error grows to by the mistake, or what says so of a work.
    ruled_out_by : keys of fields that, answered rightly, show that the student does not make it.  of_method : whether
    doing the same thing rightly in another branch shows that as well."""

    key: str
    doing: Text
    question: Text
    remedy: Text
    predict: Callable[[Work], Value | None]
    usual: int = 2
    spread: float | Callable[[Work], float] = 1.0
    ruled_out_by: tuple[str, ...] = ()
    of_method: bool = False

    def window(self, work: Work) -> float:
        """How far from what it predicts an answer can be by a reading error, in tolerances."""
        return self.spread(work) if callable(self.spread) else self.spread


@dataclass(frozen=True, eq=False)
class Field:
    """One entry of a step: what is asked, how its value follows from earlier ones, how it can be drawn.

    quantity : what it is, the same for each branch that has one.  branch : the solution it belongs to, if to one.
    names : what students call it, its usual symbol first; `{d}` stands for the course's symbol.  symbol : the symbol
    that the course may rename.  element : which element of its branch's network it gives the length (or reactance) of,
    or whose impedance where `gives` says so.  accepts : every right answer, where there are several.  routes : other
    ways to the value, from what the student has drawn in place of calculated; a tuple where one leaves several open.
    own_only : whether it is right only if it follows from the student's own values, as a check of them.  same_as : the
    quantity that it gives in another unit.  picks_branch : whether its value is the key of a branch, the one that
    later fields without a branch are about.  formerly : keys that it had, for records of then, by the key of the
    branch that has to be picked for them to mean the same."""

    quantity: str
    label: str
    kind: Callable[[Work], Kind]
    value: Callable[[Work], Value]
    branch: Branch | None = None
    slips: tuple[Slip, ...] = ()
    strokes: Callable[[Work], Iterable[Stroke]] = lambda work: ()
    gesture: Callable[[Work], Gesture | None] = lambda work: None
    accepts: Callable[[Work], tuple[Value, ...]] | None = None
    routes: tuple[Callable[[Work], Value], ...] = ()
    own_only: bool = False
    names: tuple[str, ...] = ()
    symbol: Symbol | None = None
    element: int | None = None
    gives: Literal["length", "impedance"] = "length"
    same_as: str = ""
    picks_branch: bool = False
    formerly: Mapping[str, str] = field(default_factory=dict)

    @property
    def key(self) -> str:
        """Its name in records, links and messages."""
        return f"{self.quantity}.{self.branch.key}" if self.branch else self.quantity

    @property
    def full_label(self) -> str:
        """The label with the branch before it."""
        return f"{self.branch.word.capitalize()}: {self.label}" if self.branch else self.label


@dataclass(frozen=True, eq=False)
class Step:
    """One construction step. `goal`, `rule` and `numbers` are the first three hints; the fourth draws the answer.

    formerly : keys that it, or what is a part of it now, had in links and files made then."""

    key: str
    title: str
    ask: Text
    goal: Text
    rule: Text
    numbers: Callable[[Work], str]
    because: Text
    fields: tuple[Field, ...]
    applies: Callable[[Problem], bool] = lambda problem: True
    formerly: tuple[str, ...] = ()

    def with_slips(self, *slips: Slip) -> Step:
        """The same step of a lesson in which more can go wrong with its first field."""
        first, *others = self.fields
        return replace(self, fields=(replace(first, slips=(*first.slips, *slips)), *others))


@dataclass(frozen=True, eq=False)
class Lesson:
    """A derivation with its name.

    task : the problem in a sentence; brief : the same in a few words.  refuses : the sentence for a problem that the
    method cannot solve, or "".  network : a branch's network as far as its settled fields go, nan for a length that is
    not known; None where nothing of it is.  bare : the load on its line.  matches : whether the lesson ends at a
    match.  stops_short : whether it does not for this problem, because the method cannot, and the student finds that
    out.  closing : what has been achieved, in a sentence, where there is no match at the end.  besides : what is to be
    said after the match, where there is one.  wavelength_mm : on the problem's line, None without a frequency.
    words : further words for its texts.  instructive : whether a random problem teaches something; places : stories of
    random problems.  terms : those of its texts that may be asked for.  primer : read before its problems.
    needs : keys of the lessons that it builds on.  waves_after : the field, once settled, from which on the voltage
    gives nothing away, "" for the end.  former_keys : keys that it had, for links and files made then."""

    key: str
    title: str
    purpose: str
    task: Text
    brief: Text
    givens: tuple[Given, ...]
    steps: tuple[Step, ...]
    branches: tuple[Branch, ...] = ()
    refuses: Callable[[Problem], str] = lambda problem: ""
    network: Callable[[Work, Branch | None, Collection[str]], MatchingNetwork | None] = (
        lambda work, branch, settled: None
    )
    bare: Callable[[Problem], MatchingNetwork] | None = None
    matches: bool = False
    stops_short: Callable[[Problem], bool] = lambda problem: False
    closing: Callable[[Work], str] = lambda work: ""
    besides: Callable[[Work], str] = lambda work: ""
    wavelength_mm: Callable[[Problem], float | None] = lambda problem: None
    words: Callable[[Work], Mapping[str, str]] = lambda work: {}
    instructive: Callable[[Problem], bool] = lambda problem: True
    places: tuple[str, ...] = ("",)
    terms: tuple[Term, ...] = ()
    primer: Primer | None = None
    needs: tuple[str, ...] = ()
    waves_after: str = ""
    former_keys: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Raises ValueError where two things would answer to one name, or one named is not there."""
        fields = [one for step in self.steps for one in step.fields]
        names = [one.key for one in self.givens] + [one.key for one in fields]
        for name in (one for one in names if names.count(one) > 1):
            raise ValueError(f"{self.key}: {name!r} names two givens or fields; each needs its own name.")
        for one in fields:
            if one.branch is not None and one.branch not in self.branches:
                raise ValueError(
                    f"{self.key}: the field {one.key!r} belongs to the branch {one.branch.key!r}; "
                    "the lesson's branches do not have it."
                )
        if self.waves_after and self.waves_after not in names:
            raise ValueError(f"{self.key}: `waves_after` names {self.waves_after!r}, no field of it.")

    def steps_of(self, problem: Problem) -> tuple[Step, ...]:
        """The steps that this problem asks for, each with the fields that it asks for."""
        asked = (s for s in self.steps if s.key not in problem.without and s.applies(problem))
        return tuple(step for s in asked if (step := narrowed(s, problem.solution)).fields)

    def branches_of(self, problem: Problem) -> tuple[Branch, ...]:
        """The solutions that this problem asks for: of those its steps are about, the one that it names, or all."""
        about = {one.branch for step in self.steps if step.applies(problem) for one in step.fields}
        return tuple(one for one in self.branches if one in about and problem.solution in ("", one.key))

    def ends_matched(self, problem: Problem) -> bool:
        """Whether this problem's last step is a match."""
        return self.matches and not self.refuses(problem) and not self.stops_short(problem)

    def field(self, key: str) -> Field:
        """The field of that key. Raises KeyError."""
        return self.fields[key]

    @cached_property
    def fields(self) -> Mapping[str, Field]:
        """Every field by its key, in the order of the derivation."""
        return {one.key: one for step in self.steps for one in step.fields}

    @cached_property
    def symbols(self) -> tuple[Symbol, ...]:
        """The symbols that a course may rename, in the order in which they appear."""
        return tuple(dict.fromkeys(one.symbol for one in self.fields.values() if one.symbol))

    @cached_property
    def picking_field(self) -> Field | None:
        """The field whose value is the branch chosen, if the lesson has one."""
        return next((one for one in self.fields.values() if one.picks_branch), None)

    def branch(self, key: str) -> Branch | None:
        """The branch of that key."""
        return next((branch for branch in self.branches if branch.key == key), None)

    def problem(self, givens: Mapping[str, Any] | None = None, **facts: Any) -> Problem:
        """A problem of this lesson; what is not given has its usual value."""
        stated, values = dict(givens or {}), dict[str, Any]()
        for one in self.givens:
            values[one.key] = stated[one.key] if one.key in stated else one.usual(stated | values)
        return Problem(self.key, values, **facts)


@dataclass(frozen=True)
class Work:
    """The values of a derivation: those the problem gives, those entered, and whatever follows from them."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    given: Mapping[str, Value] = field(default_factory=dict)
    _known: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)

    def __getitem__(self, key: str) -> Any:
        """A given of the problem, an entered value, or the one that follows from earlier values. Raises Impossible."""
        if key in self.given:
            return self.given[key]
        if key in self.problem.givens:
            return self.problem.givens[key]
        if key not in self._known:
            self._known[key] = self.lesson.field(key).value(self)
        return self._known[key]

    def of(self, quantity: str, branch: Branch) -> Any:
        """A quantity's value in one branch. Raises Impossible."""
        return self[f"{quantity}.{branch.key}"]

    def following(self, key: str) -> Any:
        """The value of a field as it follows from earlier ones, whatever was entered for it. Raises Impossible."""
        return self.lesson.field(key).value(self)

    def write(self, key: str) -> str:
        """A field's value in the course's notation."""
        return self.lesson.field(key).kind(self).write(self[key], self.notation)

    def write_of(self, quantity: str, branch: Branch) -> str:
        """A quantity's value in one branch, in the course's notation."""
        return self.write(f"{quantity}.{branch.key}")

    @property
    def wavelength_mm(self) -> float | None:
        """On the problem's line, None without a frequency."""
        return self.lesson.wavelength_mm(self.problem)

    @property
    def chosen(self) -> Branch | None:
        """The branch that was picked, or that the solver would pick; None where the lesson asks for no choice."""
        picking = self.lesson.picking_field
        return self.lesson.branch(self.problem.solution or self[picking.key]) if picking else None

    def say(self, text: Text) -> str:
        """A text of the lesson with the course's symbols and this problem's words put in."""
        return (text if isinstance(text, str) else text(self)).format(**self._words)

    def word(self, key: str, otherwise: str) -> str:
        """One of the words that are put into texts, where the lesson has it."""
        return self._words.get(key, otherwise)

    @cached_property
    def _words(self) -> dict[str, str]:
        notation, problem = self.notation, self.problem
        words = {"j": notation.imaginary, "half_wave": notation.half_wave}
        words |= {symbol.key: notation.symbol(symbol.key) for symbol in self.lesson.symbols}
        for one in self.lesson.givens:
            words |= one.kind.words(one.key, problem[one.key], notation)
        return words | dict(self.lesson.words(self))


def by_grid(half_turn: str, overlay: str) -> Text:
    """A text that depends on how the course shows admittance."""
    return lambda work: half_turn if work.notation.admittance == "half turn" else overlay
