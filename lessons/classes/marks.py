"""A class's hand-ins, marked: who handed in what, which of it counts, and what is to be said of each file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from lessons.classes.hand_in import BadHandIn, HandIn, read_file, visible
from lessons.classes.replay import Replay, replayed
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.numbers import quoted
from lessons.grammar.problem import Problem
from lessons.problems.points import Points
from lessons.problems.problem_sets import ProblemSet, SetProblem
from lessons.problems.seeds import TooRare
from lessons.problems.sets import Shelf
from lessons.problems.variants import code_of, folded, is_same
from lessons.saved.records import BadRecord, sheet_from_record

FIRST_OF_ALL = datetime.min.replace(tzinfo=UTC)
CANNOT = "The sheet of “{title}” could not be marked: what stands on it leads nowhere."
STRANGE = (ArithmeticError, LookupError, TypeError, ValueError, RecursionError)
"""What a made-up sheet may bring about that no student can."""


@dataclass(frozen=True)
class Filed:
    """A file, and what is said of it where it does not count."""

    file: str
    sentence: str = ""
    name: str = ""


@dataclass(frozen=True)
class MarkedSheet:
    """A sheet of a problem of the set, done again."""

    item: SetProblem
    replay: Replay

    def points(self, table: Points) -> float:
        """What it has earned."""
        return round(sum(step.points(table) for step in self.replay.steps), 6)


@dataclass(frozen=True)
class Student:
    """What counts of a student. saved : None where the file does not say when.  version : of the set.

    remarks : what the instructor should look at."""

    name: str
    file: str
    saved: datetime | None
    version: int
    sheets: tuple[MarkedSheet, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class ClassMarks:
    """All of a class's hand-ins of one set. superseded : a student's older files.  refused : files without a place.

    missing : names of the class list who handed in nothing."""

    set: ProblemSet
    students: tuple[Student, ...]
    superseded: tuple[Filed, ...] = ()
    refused: tuple[Filed, ...] = ()
    missing: tuple[str, ...] = ()


def mark_class(
    files: Iterable[tuple[str, Path]], shelf: Shelf, catalogue: Catalogue, names: Sequence[str] = ()
) -> tuple[tuple[ClassMarks, ...], tuple[Filed, ...]]:
    """The marks of each set that was handed in, and the files that are of none of them.

    files : how each is called, and where it is.  names : a class list, to say who is missing. Never raises."""
    read, refused = _read(files, shelf)
    found = []
    for one in shelf:
        mine = [(file, hand_in) for file, hand_in in read if hand_in.set_key == one.key]
        if mine:
            found.append(_marked(one, mine, tuple(refused), catalogue, names))
    return tuple(found), tuple(refused)


def _read(files: Iterable[tuple[str, Path]], shelf: Shelf) -> tuple[list[tuple[str, HandIn]], list[Filed]]:
    read: list[tuple[str, HandIn]] = []
    refused = []
    for file, path in files:
        try:
            hand_in = read_file(path)
            if shelf.find(hand_in.set_key) is None:
                raise BadHandIn(
                    f"This is of the set {quoted(hand_in.set_key)}, which is not at hand: name its folder with --sets."
                )
            read.append((file, hand_in))
        except BadHandIn as fault:
            refused.append(Filed(visible(file), str(fault)))
    return read, refused


def _marked(
    one: ProblemSet,
    read: Sequence[tuple[str, HandIn]],
    refused: tuple[Filed, ...],
    catalogue: Catalogue,
    names: Sequence[str],
) -> ClassMarks:
    counting, superseded = _newest(read)
    variants = _Variants(one, {hand_in.who: hand_in.name for _, hand_in in counting})
    students = tuple(_student(one, file, hand_in, variants, catalogue) for file, hand_in in counting)
    there = {hand_in.who for _, hand_in in counting}
    return ClassMarks(
        one,
        tuple(sorted(students, key=lambda student: (student.name.casefold(), student.file))),
        superseded,
        refused,
        tuple(name for name in names if folded(name) and folded(name) not in there),
    )


def _newest(read: Sequence[tuple[str, HandIn]]) -> tuple[list[tuple[str, HandIn]], tuple[Filed, ...]]:
    """A student's newest file, and a sentence for each other one."""
    by_student: dict[str, list[tuple[str, HandIn]]] = {}
    for file, hand_in in read:
        by_student.setdefault(hand_in.who, []).append((file, hand_in))
    counting, superseded = [], []
    for files in by_student.values():
        *older, newest = sorted(files, key=lambda one: (one[1].saved or FIRST_OF_ALL, one[0]))
        counting.append(newest)
        for file, hand_in in older:
            how = "The same is" if hand_in == newest[1] else "A newer hand-in of the same student is"
            superseded.append(
                Filed(visible(file), f"{how} in {visible(newest[0])}, which counts.", hand_in.name)
            )
    return counting, tuple(superseded)


class _Variants:
    """Which student of the class has which variant."""

    def __init__(self, one: ProblemSet, names: Mapping[str, str]) -> None:
        self._set, self._names = one, names
        self._made: dict[tuple[str, str], Problem | None] = {}

    def of(self, item: SetProblem, who: str) -> Problem | None:
        """The variant of a name, None where its bounds leave none."""
        key = (item.problem.key, who)
        if key not in self._made:
            try:
                self._made[key] = self._set.variant(item, code_of(self._set.key, who))
            except TooRare:
                self._made[key] = None
        return self._made[key]

    def others(self, item: SetProblem, problem: Problem, who: str) -> list[str]:
        """Names of the others in the class whose variant a problem is."""
        return [
            name
            for other, name in self._names.items()
            if other != who and (found := self.of(item, other)) and is_same(found, problem)
        ]


def _student(
    one: ProblemSet, file: str, hand_in: HandIn, variants: _Variants, catalogue: Catalogue
) -> Student:
    remarks: list[str] = []
    if hand_in.saved is None:
        remarks.append("The file does not say when it was saved.")
    if hand_in.set_version != one.version:
        remarks.append(
            f"Handed in on version {hand_in.set_version} of the set, not {one.version}: marked by its own problems."
        )
    sheets: dict[str, MarkedSheet] = {}
    for key, record in hand_in.sheets:
        sheet = _sheet(one, key, record, catalogue, remarks)
        if sheet is None:
            continue
        title = sheet.item.problem.title
        if key in sheets:
            remarks.append(f"There are two sheets of “{title}”: the later one counts.")
        if hand_in.set_version == one.version:
            remarks += _of_whom(sheet, hand_in, variants)
        remarks += [f"“{title}”: {remark}" for remark in sheet.replay.remarks]
        sheets[key] = sheet
    in_order = tuple(sheets[item.problem.key] for item in one.items if item.problem.key in sheets)
    return Student(
        hand_in.name,
        visible(file),
        hand_in.saved,
        hand_in.set_version,
        in_order,
        tuple(dict.fromkeys(remarks)),
    )


def _sheet(
    one: ProblemSet, key: str, record: Any, catalogue: Catalogue, remarks: list[str]
) -> MarkedSheet | None:
    """A sheet done again; None, and a remark, where it cannot be."""
    item = one.find(key)
    if item is None:
        remarks.append(f"The set has no problem {quoted(key)}, so the sheet of it is left out.")
        return None
    title = item.problem.title
    try:
        sheet = sheet_from_record(record, catalogue)
        if sheet.lesson.key != item.lesson.key:
            remarks.append(f"The sheet of “{title}” is one of another lesson, so it is left out.")
            return None
        return MarkedSheet(item, replayed(sheet))
    except BadRecord as fault:
        remarks.append(f"The sheet of “{title}” is left out. {fault}")
    except STRANGE:
        remarks.append(CANNOT.format(title=title))
    return None


def _of_whom(sheet: MarkedSheet, hand_in: HandIn, variants: _Variants) -> Iterator[str]:
    """A remark where a sheet is not of its student's variant, with the names of those whose it is."""
    problem, title = sheet.replay.sheet.problem, sheet.item.problem.title
    due = variants.of(sheet.item, hand_in.who)
    if due is None or is_same(due, problem):
        return
    others = variants.others(sheet.item, problem, hand_in.who)
    whose = f"the variant of {' and '.join(others[:3])}" if others else "not the variant of this name"
    yield f"The sheet of “{title}” is {whose}: marked by its own numbers."
