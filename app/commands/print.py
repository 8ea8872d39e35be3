"""`halfturn print FILE`: the worksheets of a set for a class, each with its name on it, and the key that finds them."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from app.commands.class_list import read_class_list
from app.commands.refusing import carried_out
from app.paper.for_class import key, pupils, worksheets
from app.parts.worksheet import DRAWINGS, SIZES
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set_file


def main(arguments: list[str]) -> int:
    """Write the files; 1 if the set or the class list cannot be used."""
    options = _parser().parse_args(arguments)
    return carried_out(lambda: _write(options))


def _write(options: argparse.Namespace) -> int:
    one = read_set_file(options.file, CATALOGUE)
    class_ = pupils(one, read_class_list(options.class_list))
    options.into.mkdir(parents=True, exist_ok=True)
    pages = worksheets(one.title, class_, options.size, options.drawn)
    sheets = _written(options.into / f"{one.key}-worksheets.html", pages)
    answers = _written(options.into / f"{one.key}-key.html", key(one.title, class_))
    print(f"{len(class_)} names, {len(one.items)} problems each.")
    print(
        f"Print {sheets} from a browser at 100 % (true size), on both sides if you can. The key is {answers}."
    )
    return 0


def _written(path: Path, pieces: Iterator[str]) -> Path:
    with path.open("w", encoding="utf-8") as file:
        file.writelines(pieces)
    return path


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn print",
        description="Worksheets of a set for a class, with names on them, and their key.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="the set: a TOML file")
    parser.add_argument(
        "--class", dest="class_list", type=Path, required=True, metavar="LIST",
        help="a text file with a name or number a line",
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
