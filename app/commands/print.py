"""`halfturn print`: a class's worksheets, each with its name on it, and the key that finds them.

With FILE they are a set's, a variant a name; with --lesson a random problem a name, the same from the same numbers.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from app.commands.class_list import read_class_list
from app.commands.refusing import carried_out
from app.paper.for_class import Pupil, at_random, key, pupils, worksheets
from app.paper.setting import LARGEST_SEED
from app.parts.words import count_of
from app.parts.worksheet import DRAWINGS, SIZES
from lessons.course.catalogue import CATALOGUE
from lessons.grammar.difficulty import ANY, DIFFICULTIES, difficulty_of
from lessons.problems.set_files import read_set_file

Printed = tuple[str, str, tuple[Pupil, ...]]
"""What files are called, their title, and whose sheets stand in them."""


def main(arguments: list[str]) -> int:
    """Write the files; 1 if the set or the class list cannot be used."""
    parser = _parser()
    options = parser.parse_args(arguments)
    if (options.file is None) == (options.lesson is None):
        parser.error("give either the FILE of a set, or --lesson for random problems of that lesson.")
    if options.file and (options.seed is not None or options.difficulty):
        parser.error("--seed and --difficulty are for random problems; what a set varies stands in its file.")
    return carried_out(lambda: _write(options))


def _write(options: argparse.Namespace) -> int:
    names = read_class_list(options.class_list)
    called, title, class_ = _of_a_set(options, names) if options.file else _at_random(options, names)
    options.into.mkdir(parents=True, exist_ok=True)
    pages = worksheets(title, class_, options.size, options.drawn)
    sheets = _written(options.into / f"{called}-worksheets.html", pages)
    answers = _written(options.into / f"{called}-key.html", key(title, class_))
    print(f"{len(class_)} names, {count_of(len(class_[0].problems), 'problem')} each.")
    print(
        f"Print {sheets} from a browser at 100 % (true size), on both sides if you can. The key is {answers}."
    )
    return 0


def _of_a_set(options: argparse.Namespace, names: tuple[str, ...]) -> Printed:
    one = read_set_file(options.file, CATALOGUE)
    return one.key, one.title, pupils(one, names)


def _at_random(options: argparse.Namespace, names: tuple[str, ...]) -> Printed:
    """Raises ValueError with a sentence where the numbers would not do for the class."""
    lesson, difficulty = CATALOGUE.find(options.lesson), difficulty_of(options.difficulty) or ANY
    assert lesson is not None  # as the parser offers no other
    seed, most = options.seed or 0, LARGEST_SEED - len(names) + 1
    if not 0 <= seed <= most:
        raise ValueError(f"The first number is a whole one from 0 to {most} for a class of {len(names)}.")
    called = "-".join((lesson.key, str(seed), *difficulty.texts.values()))
    return called, difficulty.after(lesson.title), at_random(lesson, names, seed, difficulty)


def _written(path: Path, pieces: Iterator[str]) -> Path:
    with path.open("w", encoding="utf-8") as file:
        file.writelines(pieces)
    return path


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn print",
        description="Worksheets for a class, with names on them, and their key: of a set, or with random problems.",
    )
    parser.add_argument("file", type=Path, nargs="?", metavar="FILE", help="the set: a TOML file")
    parser.add_argument(
        "--class", dest="class_list", type=Path, required=True, metavar="LIST",
        help="a text file with a name or number a line",
    )  # fmt: skip
    parser.add_argument(
        "--lesson", choices=[one.key for one in CATALOGUE], metavar="LESSON",
        help=f"in place of FILE, a random problem a name; one of {', '.join(one.key for one in CATALOGUE)}",
    )  # fmt: skip
    parser.add_argument(
        "--seed", type=int, metavar="NUMBER",
        help="the first sheet's number, which with the difficulty gives the same sheets again (default 0)",
    )  # fmt: skip
    meanings = " ".join(f"{one.key}: {one.means}" for one in DIFFICULTIES)
    parser.add_argument(
        "--difficulty", choices=[one.key for one in DIFFICULTIES],
        help=f"of the random problems (default {ANY.key}). {meanings}",
    )  # fmt: skip
    parser.add_argument(
        "--into", type=Path, default=Path(), metavar="DIR", help="where to write (default: here)"
    )
    parser.add_argument("--size", choices=list(SIZES), default="A4", help="paper (default %(default)s)")
    parser.add_argument(
        "--drawn", choices=DRAWINGS, default="blank",
        help="chart blank, or the first half worked and drawn (default %(default)s)",
    )  # fmt: skip
    return parser
