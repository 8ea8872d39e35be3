"""`halfturn quiz FILE`: a set as a quiz for a learning platform, in packages of the open standard QTI 2.1 and 3.0."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands.readers import whole
from app.commands.refusing import carried_out
from app.parts.worksheet_chart import blank_chart_svg
from lessons.classes.packages import left_out, package, quiz_of
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set_file

VERSIONS = ("2.1", "3.0")
MOST_VARIANTS = 100


def main(arguments: list[str]) -> int:
    """Write both packages; 1 if the set cannot be used."""
    options = _parser().parse_args(arguments)
    return carried_out(lambda: _write(options), "a variant cannot be had")


def _write(options: argparse.Namespace) -> int:
    one = read_set_file(options.file, CATALOGUE)
    quiz, chart = quiz_of(one, options.variants), blank_chart_svg()
    options.into.mkdir(parents=True, exist_ok=True)
    for version in VERSIONS:
        path = options.into / f"{one.key}-qti-{version}.zip"
        path.write_bytes(package(quiz, version, chart))
        print(f"QTI {version}: {path}, {len(quiz.items)} items of {len(quiz.problems)} problems.")
    for sentence in left_out(quiz):
        print(sentence)
    print(
        "In a quiz every answer is judged beside the solver's: it cannot follow a student's earlier values."
    )
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn quiz",
        description="A set as a quiz: packages of QTI 2.1 and 3.0, with tolerances, and feedback that names slips.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="the set: a TOML file")
    parser.add_argument(
        "--variants",
        type=whole(1, MOST_VARIANTS, "the count of variants"),
        default=3,
        metavar="N",
        help="of each problem that varies, one of which a student gets by lot (default %(default)s)",
    )
    parser.add_argument(
        "--into", type=Path, default=Path(), metavar="DIR", help="where to write (default: here)"
    )
    return parser
