"""Searches for the arrangement in which someone's lines fit a problem best: all of them together.

Every order of the student's own numbers, with every order of what has no mark, is tried; from the best of these, one
change after another of what is left: what a name means, and the order of single quantities. A trial is judged by how
far each value is off, from the solver and from the student's own other values; the slips are left to the marking.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice, permutations, product
from math import inf

from lessons.grammar.asked import of_the_pick
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import CLOSE, Value
from lessons.grammar.lesson import Field, Impossible, Work
from lessons.grammar.numbers import Unreadable
from lessons.homework.lines import Option, Statement
from lessons.homework.placing import (
    Arrangement,
    Order,
    Placed,
    about_the_same,
    counts_for,
    is_of_the_pick,
    picked,
    placed,
)
from lessons.working.marking import routes
from lessons.working.sheet import Sheet

MOST_ORDERS, MOST_MOVES, MOST_WORK, MOST_EQUAL = 64, 120, 4_000, 4
FARTHEST = 100.0  # tolerances; beyond it one wrong value is as wrong as another
# What a value counts that is right, that is right for the student's own earlier values, that is close.
TRUE, FOLLOWS, NEAR = 5, 4, 3


@dataclass(frozen=True)
class Trial:
    """An arrangement with what it counts: the more the better, and how far off it is, in tolerances."""

    arrangement: Arrangement
    placed: tuple[Placed, ...]
    count: int
    off: float

    def is_better_than(self, other: Trial) -> bool:
        """By what is right; among equals the branches are chosen that are less off, but never the meaning."""
        same_meaning = self.arrangement.picks == other.arrangement.picks
        return self.count > other.count or (
            self.count == other.count and same_meaning and self.off < other.off - 1
        )


@dataclass(frozen=True)
class _Known:
    """What values are judged from: the student's derivation, what is given in it before each field (as `_earlier`
    does), and the branch that is built."""

    work: Work
    earlier: Mapping[str, int]
    pick: Branch | None


Move = Callable[[Arrangement], Arrangement]


class Search:
    """Tries arrangements of the statements of one text."""

    def __init__(self, blank: Sheet, statements: Sequence[Statement]) -> None:
        self.blank, self.statements = blank, statements
        self.order = blank.lesson.branches_of(blank.problem)
        self._values: dict[tuple[int, str], Value] = {}
        self._from_truth: dict[tuple[int, str, Branch | None], float] = {}
        self._from_own: dict[tuple[int, str, int], float] = {}
        self._truths: dict[Branch, Work] = {}

    def best(self) -> list[Trial]:
        """The arrangements that fit best, within a bounded number of trials: one, or a few that count the same."""
        tried = [self._tried(one) for one in islice(self._starts(), MOST_ORDERS)]
        best = tried[0]
        for trial in tried[1:]:
            best = trial if trial.is_better_than(best) else best
        moves = self._moves() if best.count < self._most else []
        most = min(MOST_MOVES, MOST_WORK // (len(self.statements) + 1))
        for move in (moves * 2)[:most]:  # twice, as one change can make another worth while
            if (arrangement := move(best.arrangement)) != best.arrangement:
                tried.append(self._tried(arrangement))
                best = tried[-1] if tried[-1].is_better_than(best) else best
        equal = {str(one.arrangement): one for one in tried if one.count == best.count and one is not best}
        equal.pop(str(best.arrangement), None)
        return [best, *islice(equal.values() if moves else (), MOST_EQUAL)]

    @property
    def _most(self) -> int:
        """What a text counts in which all is right."""
        return TRUE * len(self.statements)

    # --- what can be arranged ---

    def _starts(self) -> Iterator[Arrangement]:
        """Every order of marks with every order of what has none, each statement taken as it fits there."""
        ordinals = (
            permutations(self.order) if any(isinstance(s.mark, int) for s in self._sided) else (self.order,)
        )
        unmarked = permutations(self.order) if any(s.mark is None for s in self._sided) else (self.order,)
        first = Arrangement((0,) * len(self.statements), self.order, self.order)
        yield first
        for pick in self._pickable:
            yield self._picking(first, pick)
        for one, other in product(list(ordinals), list(unmarked)):
            yield replace(first, ordinals=one, unmarked=other)
            picks = tuple(self._likely(s, one) for s in self.statements)
            if any(picks):
                yield Arrangement(picks, one, other)

    @cached_property
    def _sided(self) -> list[Statement]:
        return [s for s in self.statements if any(o.quantity.sided for o in s.options)]

    @cached_property
    def _pickable(self) -> Order:
        """The branches of which something may be said that is asked of the one that is built alone."""
        about = of_the_pick(self.blank.lesson)
        asked = any(o.quantity.fields[0].key in about for s in self.statements for o in s.options)
        return self.order if asked else ()

    def _picking(self, arrangement: Arrangement, pick: Branch) -> Arrangement:
        """The same where this branch is built, and what is asked of it alone is taken as it fits there; what fits
        nowhere, for the first thing that nothing else is right for."""
        about = of_the_pick(self.blank.lesson)
        right = [self._right(one, arrangement.ordinals, pick) for one in self.statements]
        given = zip(self.statements, right, strict=True)
        taken = {(one.options[at].quantity.key, one.mark) for one, at in given if at is not None}
        picks = list(arrangement.picks)
        for index, (one, at) in enumerate(zip(self.statements, right, strict=True)):
            slots = [(option.quantity.key, one.mark) for option in one.options]
            if any(option.quantity.fields[0].key in about for option in one.options):
                free = (place for place, slot in enumerate(slots) if slot not in taken)
                picks[index] = next(free, 0) if at is None else at
                taken.add(slots[picks[index]])
        return replace(arrangement, picked=pick, picks=tuple(picks))

    def _likely(self, statement: Statement, ordinals: Order) -> int:
        """The option that is right for the problem; the first one where that is so, or where none is."""
        return self._right(statement, ordinals) or 0

    def _right(self, statement: Statement, ordinals: Order, pick: Branch | None = None) -> int | None:
        """The first option that is right for the problem, None where none is. pick : the branch that is built."""
        mark = statement.mark
        if isinstance(mark, int):  # "first", "second": nothing in a lesson without branches
            mark = ordinals[min(mark, len(ordinals) - 1)] if ordinals else None
        pick = mark or pick
        offs = [min(self._off_true(o, b, pick) for b in self._open(o, mark)) for o in statement.options]
        return next((index for index, off in enumerate(offs) if off <= CLOSE), None)

    def _open(self, option: Option, marked: Branch | None) -> Sequence[Branch | None]:
        if not option.quantity.sided:
            return (None,)
        return (marked,) if marked else self.order

    def _moves(self) -> list[Move]:
        """Every change that can still matter."""
        moves = [
            _pick(index, pick)
            for index, s in enumerate(self.statements)
            for pick in range(len(s.options) if len(s.options) > 1 else 0)
        ]
        unmarked = [s for s in self._sided if s.mark is None]
        several = Counter(key for s in unmarked for key in {o.quantity.key for o in s.options})
        orders = list(islice(permutations(self.order), MOST_ORDERS))
        turns = [_turn(key, order) for key, count in several.items() if count > 1 for order in orders]
        whole = [_set(name, order) for name in ("ordinals", "unmarked") for order in orders if self._sided]
        picking: list[Move] = [lambda a, pick=pick: self._picking(a, pick) for pick in self._pickable]  # type: ignore[misc]
        return picking + turns + moves + whole

    # --- how well it fits ---

    def _tried(self, arrangement: Arrangement) -> Trial:
        lesson = self.blank.lesson
        here = placed(lesson, self.statements, arrangement)
        pick = picked(lesson, here, arrangement)
        last = {one.key: one for one in here if one.readable}
        of_all = self._known([one for one in last.values() if counts_for(lesson, one, pick)], pick)
        offs = [self._offs(one, self._context(one, last.values(), of_all)) for one in last.values()]
        repeated = sum(one.readable for one in here) - len(last)
        count = sum(_counts(own, true) for own, true in offs) - repeated
        return Trial(arrangement, here, count, sum(min(own, true, FARTHEST) for own, true in offs))

    def _known(self, some: Iterable[Placed], pick: Branch | None) -> _Known:
        """The student's derivation from these, of whoever builds this branch."""
        blank, picking = self.blank, self.blank.lesson.picking_field
        values = {(at := _field(one, blank)).key: self._value(one.option, at) for one in some}
        given = {key: value for key, value in values.items() if value is not None}
        if pick and picking:
            given.setdefault(picking.key, pick.key)
        return _Known(Work(blank.lesson, blank.problem, blank.notation, given), self._earlier(given), pick)

    def _context(self, one: Placed, last: Collection[Placed], of_all: _Known) -> _Known:
        """What a value is judged from: where it is marked as a part of another branch, what is said of that one."""
        lesson = self.blank.lesson
        if counts_for(lesson, one, of_all.pick):
            return of_all
        others = [other for other in last if not is_of_the_pick(lesson, other)]
        return self._known([*others, *about_the_same(lesson, last, one)], one.branch)

    def _offs(self, one: Placed, known: _Known) -> tuple[float, float]:
        """How far a value is from what follows from the student's other values, and from the solver's.

        Of what is right by the solver, and of what cannot be read, only the latter."""
        at = _field(one, self.blank)
        value, true = self._value(one.option, at), self._off_true(one.option, one.branch, known.pick)
        if true <= 1 or value is None:
            return true, true
        facts = id(one.option), at.key, known.earlier[at.key]
        if facts not in self._from_own:
            self._from_own[facts] = _off_own(at, value, known.work)
        return self._from_own[facts], true

    def _earlier(self, given: Mapping[str, Value]) -> dict[str, int]:
        """For each field a number that says what is given before it, from which alone its value follows."""
        found, before = {}, 0
        for key in self.blank.lesson.fields:
            found[key] = before
            if key in given:
                before = hash((before, key, given[key]))
        return found

    def _off_true(self, option: Option, branch: Branch | None, pick: Branch | None = None) -> float:
        at = option.quantity.at(branch)
        pick = pick if at.key in of_the_pick(self.blank.lesson) else None
        key = id(option), at.key, pick
        if key not in self._from_truth:
            value, truth = self._value(option, at), self._truth(pick)
            known = value is not None and not at.own_only
            self._from_truth[key] = (
                at.kind(truth).off_by(value, truth[at.key], truth.problem.accuracy) if known else inf
            )
        return self._from_truth[key]

    def _truth(self, pick: Branch | None) -> Work:
        """The solver's derivation, of whoever builds this branch."""
        picking = self.blank.lesson.picking_field
        if pick is None or picking is None:
            return self.blank.truth
        if pick not in self._truths:
            self._truths[pick] = self._known((), pick).work
        return self._truths[pick]

    def _value(self, option: Option, at: Field) -> Value:
        key = id(option), at.key
        if key not in self._values:
            try:
                kind = at.kind(self.blank.truth)
                self._values[key] = kind.read(option.reading.for_box(kind), self.blank.notation)
            except Unreadable:
                self._values[key] = None
        return self._values[key]


def _off_own(at: Field, value: Value, work: Work) -> float:
    """How far a value is from what follows from the student's other values."""
    try:
        right = at.accepts(work) if at.accepts else (work.following(at.key), *routes(at, work))
    except (Impossible, ArithmeticError):
        return inf
    kind, accuracy = at.kind(work), work.problem.accuracy
    return min((kind.off_by(value, other, accuracy) for other in right), default=inf)


def _field(one: Placed, blank: Sheet) -> Field:
    """Where a value stands: millimetres are compared as the length that they are."""
    return blank.lesson.field(one.length) if one.length else one.field


def _counts(own: float, true: float) -> int:
    if true <= 1:
        return TRUE
    return FOLLOWS if own <= 1 else NEAR if min(own, true) <= CLOSE else 0


def _pick(index: int, pick: int) -> Move:
    return lambda a: replace(a, picks=(*a.picks[:index], pick, *a.picks[index + 1 :]))


def _set(name: str, order: Order) -> Move:
    return lambda a: replace(a, **{name: order})  # type: ignore[arg-type]


def _turn(key: str, order: Order) -> Move:
    return lambda a: replace(a, turned={**a.turned, key: order})
