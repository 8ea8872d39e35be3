"""`halfturn sets check FILE ...`: what is wrong with a problem set, by line and key; or what it will give a class."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

from app.parts.words import count_of
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.lesson import Work
from lessons.problems.problem_sets import BadSet, ProblemSet, SetProblem
from lessons.problems.seeds import TooRare, ambiguities
from lessons.problems.set_files import read_set_file
from lessons.problems.variants import code_of

TRIED = 40  # names for which variants are drawn, to see whether they differ


def main(arguments: list[str]) -> int:
    """Check the files; 1 if one of them cannot be used."""
    options = _parser().parse_args(arguments)
    good = [_check(file) for file in options.files]
    return 0 if all(good) else 1


def _check(file: Path) -> bool:
    try:
        found = read_set_file(file, CATALOGUE)
    except BadSet as fault:
        print(fault, file=sys.stderr)
        return False
    print("\n".join(described(found)))
    return True


def described(found: ProblemSet) -> Iterator[str]:
    """What a set gives a class: a line for the set, one for each problem, and a word of caution where one is due."""
    yield f"{found.title} ({found.key}, version {found.version}): {count_of(len(found.items), 'problem')}."
    for number, item in enumerate(found.items, 1):
        problem, lesson = item.problem, item.lesson
        brief = Work(lesson, problem).say(lesson.brief)
        steps = len(lesson.steps_of(problem))
        only = f", {lesson.branch(problem.solution).word} alone" if problem.solution else ""  # type: ignore[union-attr]
        yield f"  {number}. {problem.title} ({lesson.title}): {brief}; {steps} steps{only}. {_variety(found, item)}"
        for doubt in ambiguities(problem, lesson) if not item.vary else ():
            field, _, slip = doubt.partition(": ")
            yield f"     Caution: in {field} the slip “{slip}” gives nearly the right answer, and cannot be told."
    yield "Points are given." if found.points else "No points are given."
    yield "This file can be used: halfturn --sets with its folder serves it."


def _variety(found: ProblemSet, item: SetProblem) -> str:
    if not item.vary:
        return "The same for all."
    try:
        drawn = [found.variant(item, code_of(found.key, f"student {n}")) for n in range(TRIED)]
    except TooRare:
        return f"Its bounds are so narrow that some of {TRIED} names have no variant: widen them."
    different = len({str(sorted(one.givens.items(), key=str)) for one in drawn})
    return f"Varies in {', '.join(item.vary)}: {TRIED} names get {different} different variants."


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn sets", description="Look at problem sets before a class does."
    )
    acts = parser.add_subparsers(required=True, metavar="check")
    check = acts.add_parser(
        "check", help="say what is wrong with a set, by line and key, or what it gives a class"
    )
    check.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a set: a TOML file")
    return parser
