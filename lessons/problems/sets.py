"""The sets at hand: those that come with the program, and those in a teacher's folders."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from lessons.grammar.catalogue import Catalogue
from lessons.grammar.lesson import Lesson
from lessons.grammar.problem import Problem
from lessons.problems.problem_sets import BadSet, ProblemSet
from lessons.problems.set_files import read_set, read_set_file

SHIPPED = Path(__file__).parents[1] / "sets"


@dataclass(frozen=True)
class Shelf(Sequence[ProblemSet]):
    """The sets that a program has at hand, in their order."""

    sets: tuple[ProblemSet, ...] = ()

    def __len__(self) -> int:
        return len(self.sets)

    def __getitem__(self, index):
        return self.sets[index]

    def __iter__(self) -> Iterator[ProblemSet]:
        return iter(self.sets)

    def find(self, key: object) -> ProblemSet | None:
        """The set of that key."""
        return next((one for one in self.sets if one.key == key), None)


def shelf(catalogue: Catalogue, folders: Iterable[Path] = ()) -> Shelf:
    """The sets in these folders, by the names of their files, then those that come with the program.

    Raises BadSet with every fault of every file, and where two sets have one key."""
    files = [file for folder in folders for file in sorted(folder.glob("*.toml"))]
    return Shelf((*_read_all(files, catalogue), *shipped_sets(catalogue)))


def _read_all(files: Sequence[Path], catalogue: Catalogue) -> tuple[ProblemSet, ...]:
    found: dict[str, ProblemSet] = {one.key: one for one in shipped_sets(catalogue)}
    read, faults = [], []
    for file in files:
        try:
            one = read_set_file(file, catalogue)
        except BadSet as fault:
            faults.append(str(fault))
            continue
        if one.key in found:
            faults.append(f"{file.name}, key: Another set at hand has the key {one.key}; each needs its own.")
        found[one.key] = one
        read.append(one)
    if faults:
        raise BadSet("\n".join(faults))
    return tuple(read)


@cache
def shipped_sets(catalogue: Catalogue) -> tuple[ProblemSet, ...]:
    """The sets of the Aldermoor River Watch in the order of the course, without problems of lessons that the catalogue
    does not have."""
    files, order = sorted(SHIPPED.glob("*.toml")), [lesson.key for lesson in catalogue]
    read = (read_set(file.read_text("utf-8"), file.name, catalogue, True) for file in files)
    found = (one for one in read if one.items)
    return tuple(sorted(found, key=lambda one: order.index(one.problems[0].lesson)))


@cache
def shipped_problems(catalogue: Catalogue) -> tuple[Problem, ...]:
    """The problems of the shipped sets, by lesson in the order of the course, from the easiest on."""
    found = [problem for one in shipped_sets(catalogue) for problem in one.problems]
    order = [lesson.key for lesson in catalogue]
    return tuple(sorted(found, key=lambda problem: order.index(problem.lesson)))


def problems_of(lesson: Lesson, catalogue: Catalogue) -> tuple[Problem, ...]:
    """The shipped problems of one lesson; its usual problem where there is none."""
    found = tuple(one for one in shipped_problems(catalogue) if one.lesson == lesson.key)
    return found or (lesson.problem(key="usual", title=lesson.title),)


def shipped_problem(key: str, catalogue: Catalogue) -> Problem | None:
    """The one of that key, if there is one."""
    return next((problem for problem in shipped_problems(catalogue) if problem.key == key), None)
