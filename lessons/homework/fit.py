"""Lays the lines of someone's own working on a sheet of the lesson, and finds the understanding that fits best.

Three things a line may leave open: which solution it is of (no mark at all, or a 1 and a 2 in the student's own order),
which of two quantities its name means, and its unit. All are decided by what the marking says of the whole.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import permutations
from typing import cast

from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Field, Impossible, Lesson, Work
from lessons.grammar.numbers import Unreadable
from lessons.homework.lines import Option, Statement
from lessons.homework.names import Quantity
from lessons.working.attempts import Entry
from lessons.working.marking import Verdict, mark
from lessons.working.sheet import Sheet

MOST_TRIALS, MOST_MARKS = 60, 2_000
FARTHEST = 100.0  # tolerances; beyond it one wrong value is as wrong as another
RANK = {"right": 4, "close": 3, "slip": 1}


@dataclass(frozen=True)
class Placed:
    """A statement in its place: the field it answers, and the branch where it is of one solution.

    length : key of the same length in wavelengths, for one in millimetres that has a field of its own.
    unmarked : whether the branch is a guess from how well it fits."""

    statement: Statement
    option: Option
    field: Field
    branch: Branch | None = None
    length: str = ""
    unmarked: bool = False

    @property
    def key(self) -> str:
        """Names the field, and the branch too where one field serves all."""
        return f"{self.field.key}.{self.branch.key}" if self.length and self.branch else self.field.key


Order = tuple[Branch, ...]


@dataclass(frozen=True)
class Arrangement:
    """One understanding of what was left open.

    picks : for each statement, which of its options.  ordinals : the branches of what is marked 1, 2 and so on.
    unmarked : the branches of what has no mark, one value after another; turned : the same for single quantities whose
    unmarked values stand in another order."""

    picks: tuple[int, ...]
    ordinals: Order
    unmarked: Order
    turned: Mapping[str, Order] = field(default_factory=dict)


@dataclass(frozen=True)
class Fit:
    """Statements on a sheet, each with its verdict, in one arrangement."""

    arrangement: Arrangement
    placed: tuple[Placed, ...]
    sheet: Sheet
    verdicts: tuple[Verdict, ...]

    def fits_better_than(self, other: Fit) -> bool:
        """By the verdicts; among equals the branches are chosen that are less off, but never the meaning."""
        (ranks, off), (other_ranks, other_off) = self._score, other._score
        same_meaning = self.arrangement.picks == other.arrangement.picks
        return ranks > other_ranks or (ranks == other_ranks and same_meaning and off < other_off - 1)

    @cached_property
    def _score(self) -> tuple[int, float]:
        ranks = sum(map(_rank, self.verdicts))
        repeated = sum(map(self.repeated, self.placed))
        return ranks - repeated, sum(map(self._off, self.placed, self.verdicts))

    def _off(self, one: Placed, verdict: Verdict) -> float:
        if verdict.value is None:
            return FARTHEST
        work, _ = self.context(one)
        try:
            expected = work.following(one.field.key)
        except Impossible:
            return FARTHEST
        off = one.field.kind(work).off_by(cast(Value, verdict.value), expected, work.problem.accuracy)
        return off if off < FARTHEST else FARTHEST

    def context(self, one: Placed) -> tuple[Work, Work]:
        """The student's derivation and the solver's, for judging one statement."""
        given = dict(self.sheet.work.given)
        if one.length and not self._in_wavelengths(one.length):
            given.pop(one.length, None)  # it came from the millimetres themselves
        choices = {
            k: v for k, v in given.items() if self.sheet.lesson.field(k).accepts and k != one.field.key
        }
        picking = self.sheet.lesson.picking_field
        if one.length and picking and one.branch:
            given[picking.key] = choices[picking.key] = one.branch.key
        return self._work(given), self._work(choices)

    def entry(self, one: Placed) -> Field:
        """The field whose entry a statement stands in."""
        return self.sheet.lesson.field(one.length) if self.is_length(one) else one.field

    def is_length(self, one: Placed) -> bool:
        """Whether millimetres stand for the length itself: nothing else gives it, and no millimetres are asked."""
        as_named = one.option.meaning.quantity == one.option.quantity
        return bool(one.length) and as_named and not self._in_wavelengths(one.length)

    def of_elements(self, branch: Branch | None) -> dict[str, Value]:
        """All that is given of a solution's elements, whatever the marking says of it."""
        found = {}
        for key, entry in self.sheet.entries.items():
            one = self.sheet.lesson.field(key)
            if one.element is not None and one.branch == branch:
                kind = one.kind(self.sheet.truth)
                try:
                    found[key] = kind.read(entry.text, self.sheet.notation)
                except Unreadable:
                    continue
        return found

    def repeated(self, one: Placed) -> bool:
        """Whether a later line gives the same again."""
        readable = [p for p in self.placed if p.key == one.key and not p.option.reading.fault]
        return one in readable and one is not readable[-1]

    def _in_wavelengths(self, key: str) -> bool:
        return any(p.field.key == key and not p.option.reading.fault for p in self.placed)

    def _work(self, given: dict[str, Value]) -> Work:
        return Work(self.sheet.lesson, self.sheet.problem, self.sheet.notation, given)


Move = Callable[[Arrangement], Arrangement]


def best_fit(blank: Sheet, statements: Sequence[Statement]) -> Fit:
    """The statements on a sheet, as they fit it best."""
    order = blank.lesson.branches
    best = _fitted(blank, statements, Arrangement((0,) * len(statements), order, order))
    moves = _moves(statements, order)
    trials = min(MOST_TRIALS, MOST_MARKS // (len(statements) + 1))
    for move in (moves * 2)[:trials]:  # twice, as one change can make another worth while
        if (arrangement := move(best.arrangement)) != best.arrangement:
            trial = _fitted(blank, statements, arrangement)
            best = trial if trial.fits_better_than(best) else best
    return best


def _moves(statements: Sequence[Statement], order: Order) -> list[Move]:
    """Every change of an arrangement that can matter for these statements."""
    moves = [
        _pick(i, pick)
        for i, s in enumerate(statements)
        for pick in range(len(s.options) if len(s.options) > 1 else 0)
    ]
    sided = [s for s in statements if any(o.quantity.sided for o in s.options)]
    if any(isinstance(s.mark, int) for s in sided):
        moves += [_set("ordinals", other) for other in permutations(order)]
    unmarked = [s for s in sided if s.mark is None]
    if unmarked:
        moves += [_set("unmarked", other) for other in permutations(order)]
    several = Counter(key for s in unmarked for key in {o.quantity.key for o in s.options})
    return moves + [_turn(key, o) for key, count in several.items() if count > 1 for o in permutations(order)]


def _pick(index: int, pick: int) -> Move:
    return lambda a: replace(a, picks=(*a.picks[:index], pick, *a.picks[index + 1 :]))


def _set(name: str, order: Order) -> Move:
    return lambda a: replace(a, **{name: order})  # type: ignore[arg-type]


def _turn(key: str, order: Order) -> Move:
    return lambda a: replace(a, turned={**a.turned, key: order})


# --- placing ------------------------------------------------------------------------------------------------------


def _fitted(blank: Sheet, statements: Sequence[Statement], arrangement: Arrangement) -> Fit:
    options = [s.options[pick] for s, pick in zip(statements, arrangement.picks, strict=True)]
    branches = _branches(statements, options, arrangement)
    placed = tuple(_placed(blank.lesson, *one) for one in zip(statements, options, branches, strict=True))
    sheet = replace(blank, entries=_entries(placed))
    unjudged = Fit(arrangement, placed, sheet, ())
    return replace(unjudged, verdicts=tuple(_verdict(unjudged, one) for one in placed))


def _branches(
    statements: Sequence[Statement], options: Sequence[Option], arrangement: Arrangement
) -> list[Branch | None]:
    """The branch of each statement: as marked, or else as arranged, in the place that is still free."""
    found: list[Branch | None] = [None] * len(options)
    taken: set[tuple[str, bool, Branch]] = set()
    for unmarked in (False, True):
        for index, (statement, option) in enumerate(zip(statements, options, strict=True)):
            if option.quantity.sided and unmarked == (statement.mark is None):
                slot = option.quantity.key, option.reading.millimetres is not None
                branch = _marked(statement, arrangement) or _free(slot, taken, arrangement)
                found[index] = branch
                taken.add((*slot, branch))
    return found


def _marked(statement: Statement, arrangement: Arrangement) -> Branch | None:
    if isinstance(statement.mark, int):
        return arrangement.ordinals[min(statement.mark, len(arrangement.ordinals) - 1)]
    return statement.mark


def _free(slot: tuple[str, bool], taken: set[tuple[str, bool, Branch]], arrangement: Arrangement) -> Branch:
    order = arrangement.turned.get(slot[0], arrangement.unmarked)
    return next((branch for branch in order if (*slot, branch) not in taken), order[-1])


def _placed(lesson: Lesson, statement: Statement, option: Option, branch: Branch | None) -> Placed:
    quantity = option.quantity
    one = quantity.at(branch)
    unmarked = branch is not None and statement.mark is None
    metric = _metric_field(lesson, quantity) if option.reading.millimetres is not None else None
    if metric is None:
        return Placed(statement, option, one, branch, unmarked=unmarked)
    return Placed(statement, option, metric, branch, length=one.key, unmarked=unmarked)


def _metric_field(lesson: Lesson, quantity: Quantity) -> Field | None:
    """The field that asks for this length in millimetres, where the lesson has one."""
    return next((one for one in lesson.fields.values() if one.same_as == quantity.key), None)


# --- judging ------------------------------------------------------------------------------------------------------


def _entries(placed: Sequence[Placed]) -> dict[str, Entry]:
    """The entries of a sheet: the last value of each field, and wavelengths for what is given in millimetres alone."""
    readable = [one for one in placed if not one.option.reading.fault]
    metric = {one.length: one for one in readable if one.length}
    own = {one.field.key: one for one in readable if not one.length}
    return {key: Entry(one.option.reading.text, carried=True) for key, one in (metric | own).items()}


def _verdict(fit: Fit, one: Placed) -> Verdict:
    if one.option.reading.fault:
        return Verdict("unreadable", one.option.reading.fault)
    if not one.length and not fit.repeated(one):
        return fit.sheet.verdicts[one.field.key]
    text = one.option.reading.text if not one.length else f"{one.option.reading.millimetres!r} mm"
    told = {verdict.slip for verdict in fit.sheet.verdicts.values()} - {""}
    verdict = mark(one.field, text, *fit.context(one), told)
    if not fit.is_length(one):
        return verdict
    return max(verdict, fit.sheet.verdicts[one.length], key=_says)  # two fields, each with slips of its own


def _rank(verdict: Verdict) -> int:
    """How well a value fits: what is right for the problem better than what is so for wrong earlier values alone."""
    return RANK["close"] if verdict.follows else RANK.get(verdict.judgement, 0)


def _says(verdict: Verdict) -> tuple[int, bool]:
    return _rank(verdict), bool(verdict.slip)
