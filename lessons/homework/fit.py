"""The lines of someone's own working on a sheet of the lesson, as they fit it best, with what the marking says of each.

What a line may leave open is decided by all of them together: which solution it is of (no mark at all, or a 1 and a 2
in the student's own order), which of two quantities its name means, its unit, and whether two symbols of the course are
used the other way round.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

from lessons.grammar.asked import of_the_pick
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Field, Lesson, Work
from lessons.grammar.notation import Notation, Symbol
from lessons.grammar.numbers import Unreadable
from lessons.homework.lines import Option, Said, Statement
from lessons.homework.placing import (
    Arrangement,
    Placed,
    about_the_same,
    counts_for,
    is_of_the_pick,
    picked,
)
from lessons.homework.search import TRUE, Search, Trial
from lessons.working.attempts import Entry
from lessons.working.marking import Verdict, mark
from lessons.working.sheet import Sheet

RANK = {"right": 4, "close": 3, "slip": 1}
Exchange = tuple[Symbol, Symbol]
Reader = Callable[[Notation], tuple[Said, ...]]


@dataclass(frozen=True)
class Fit:
    """Statements on a sheet, each with its verdict, in one arrangement.

    said : the whole text as it was read.  notation : whose symbols it was read in.  exchanged : two symbols of the
    course that the student uses the other way round."""

    arrangement: Arrangement
    placed: tuple[Placed, ...]
    sheet: Sheet
    said: tuple[Said, ...]
    notation: Notation
    exchanged: Exchange | None = None

    @cached_property
    def verdicts(self) -> tuple[Verdict, ...]:
        """What the marking says of each statement."""
        known: dict[tuple[str, Option], Verdict] = {}
        for one in self.placed:
            if (at := (one.key, one.option)) not in known or not self.repeated(one):
                known[at] = _verdict(self, one)
        return tuple(known[one.key, one.option] for one in self.placed)

    @property
    def slips(self) -> int:
        """How many fields hold a slip that has a name."""
        return sum(verdict.judgement == "slip" for verdict in self.sheet.verdicts.values())

    def context(self, one: Placed) -> tuple[Work, Work]:
        """The student's derivation and the solver's, for judging one statement."""
        given = dict(self.sheet.work.given)
        if one.length and not self._in_wavelengths(one.length):
            given.pop(one.length, None)  # it came from the millimetres themselves
        choices = {
            k: v for k, v in given.items() if self.sheet.lesson.field(k).accepts and k != one.field.key
        }
        picking = self.sheet.lesson.picking_field
        if picking and one.branch and one.field.branch is None:
            if not one.length:
                given = self._of_branch(one, given)
            given[picking.key] = choices[picking.key] = one.branch.key
        return self._work(given), self._work(choices)

    def _of_branch(self, one: Placed, given: Mapping[str, Value]) -> dict[str, Value]:
        """What is given, but of what is built only that which is said of the branch of this value."""
        lesson = self.sheet.lesson
        own = about_the_same(lesson, self._last.values(), one)
        return {k: v for k, v in given.items() if k not in of_the_pick(lesson)} | self._values(own)

    def _values(self, some: Iterable[Placed]) -> dict[str, Value]:
        """What these say, as far as it can be read."""
        found: dict[str, Value] = {}
        for one in some:
            kind = one.field.kind(self.sheet.truth)
            with suppress(Unreadable):
                found[one.field.key] = kind.read(one.option.reading.for_box(kind), self.sheet.notation)
        return found

    @cached_property
    def picked(self) -> Branch | None:
        """The branch that is built, as a line says or as the lines fit best; None where nothing is about it."""
        return picked(self.sheet.lesson, self.placed, self.arrangement)

    def entry(self, one: Placed) -> Field:
        """The field whose entry a statement stands in."""
        return self.sheet.lesson.field(one.length) if self.is_length(one) else one.field

    def is_length(self, one: Placed) -> bool:
        """Whether millimetres stand for the length itself: nothing else gives it, and no millimetres are asked."""
        as_named = one.option.meaning.quantity == one.option.quantity
        return bool(one.length) and as_named and not self._in_wavelengths(one.length)

    @property
    def is_picked_by_fit(self) -> bool:
        """Whether no line says which branch is built, so that it is the one that fits best."""
        nothing_arranged = replace(self.arrangement, picked=None)
        return self.picked is not None and picked(self.sheet.lesson, self.placed, nothing_arranged) is None

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
        return found | self._of_parts(branch)

    def _of_parts(self, branch: Branch | None) -> dict[str, Value]:
        """The same of what is asked of the branch that is built alone, where it is said of this one."""
        lesson = self.sheet.lesson
        picking, own = lesson.picking_field, (None, branch) if branch == self.picked else (branch,)
        parts = self._values(
            one
            for one in self._last.values()
            if is_of_the_pick(lesson, one) and one.branch in own and one.field.element is not None
        )
        return {**parts, picking.key: branch.key} if parts and picking and branch else {}

    def repeated(self, one: Placed) -> bool:
        """Whether a later line gives the same again."""
        return one.readable and one is not self._last.get(one.key)

    @cached_property
    def _last(self) -> dict[str, Placed]:
        return {one.key: one for one in self.placed if one.readable}

    def _in_wavelengths(self, key: str) -> bool:
        return any(p.field.key == key for p in self._last.values())

    def _work(self, given: dict[str, Value]) -> Work:
        return Work(self.sheet.lesson, self.sheet.problem, self.sheet.notation, given)


def best_fit(blank: Sheet, read: Reader) -> Fit:
    """A text on a sheet, as it fits it best. read : what the text says in the symbols of a notation."""
    best, count = _search(blank, read, blank.notation)
    for pair in _exchanges(blank.lesson, best, count):
        other, count_other = _search(blank, read, _with_exchanged(blank.notation, pair))
        if count_other > count + TRUE:  # more than a single line speaks for it
            best, count = replace(other, exchanged=pair), count_other
    return best


def _search(blank: Sheet, read: Reader, notation: Notation) -> tuple[Fit, int]:
    """The best fit in the symbols of a notation: of what is equally right, the one whose slips have names."""
    said, blank = read(notation), replace(blank, judged={})  # what the fits have in common is judged once
    trials = Search(blank, [one for one in said if isinstance(one, Statement)]).best()
    fits = [
        Fit(one.arrangement, one.placed, replace(blank, entries=_entries(one, blank)), said, notation)
        for one in trials
    ]
    best, off = fits[0], trials[0].off
    for trial, fit in zip(trials[1:], fits[1:], strict=True):
        nearer = trial.off < off - 1 and fit.arrangement.picks == best.arrangement.picks
        if fit.slips > best.slips or (fit.slips == best.slips and nearer):
            best, off = fit, trial.off
    return best, trials[0].count


def _exchanges(lesson: Lesson, fit: Fit, count: int) -> Iterator[Exchange]:
    """Two symbols of the lesson that may be exchanged: where not all that bears one of them is right."""
    named = {one.field.symbol or lesson.field(one.length or one.field.key).symbol for one in fit.placed}
    all_right = count >= TRUE * len({one.key for one in fit.placed})
    for pair in () if all_right else combinations(lesson.symbols, 2):
        if named & set(pair):
            yield pair


def _with_exchanged(notation: Notation, pair: Exchange) -> Notation:
    one, other = (symbol.key for symbol in pair)
    exchanged = {one: notation.symbol(other), other: notation.symbol(one)}
    return replace(notation, symbols={**notation.symbols, **exchanged})


# --- judging ------------------------------------------------------------------------------------------------------


def _entries(trial: Trial, blank: Sheet) -> dict[str, Entry]:
    """The entries of a sheet: the last value of each field, and wavelengths for what is given in millimetres alone."""
    lesson, pick = blank.lesson, picked(blank.lesson, trial.placed, trial.arrangement)
    readable = [one for one in trial.placed if one.readable and counts_for(lesson, one, pick)]
    metric = {one.length: one for one in readable if one.length}
    own = {one.field.key: one for one in readable if not one.length}
    kinds = {key: lesson.field(key).kind(blank.truth) for key in metric | own}
    building = (
        {lesson.picking_field.key: Entry(pick.key, carried=True)} if pick and lesson.picking_field else {}
    )
    return building | {
        key: Entry(one.option.reading.for_box(kinds[key]), carried=True)
        for key, one in (metric | own).items()
    }


def _verdict(fit: Fit, one: Placed) -> Verdict:
    if one.option.reading.fault:
        return Verdict("unreadable", one.option.reading.fault)
    if not one.length and not fit.repeated(one) and counts_for(fit.sheet.lesson, one, fit.picked):
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
