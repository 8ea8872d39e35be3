"""`halfturn mark DIR`: marks the hand-ins of a class that lie in a folder, and writes what came of it beside them."""

from __future__ import annotations

import argparse
import re
import sys
import unicodedata
from collections.abc import Iterator, Sequence
from pathlib import Path

from app.commands.class_list import read_class_list
from app.commands.readers import shown
from app.commands.refusing import carried_out
from app.parts.words import count_of
from app.report.feedback import feedback
from app.report.report import report
from lessons.classes.marks import ClassMarks, Filed, mark_class
from lessons.classes.table import marks_csv
from lessons.course.catalogue import CATALOGUE
from lessons.problems.sets import shelf

MARKED = "marked"
LONGEST_SLUG = 40


def main(arguments: list[str]) -> int:
    """Mark the folder; 1 if nothing in it could be marked."""
    options = _parser().parse_args(arguments)
    if not options.folder.is_dir():
        print(
            f"{shown(str(options.folder))} is no folder: name the one that holds the hand-ins.",
            file=sys.stderr,
        )
        return 1
    return carried_out(lambda: _mark(options))


def _mark(options: argparse.Namespace) -> int:
    into = options.into or options.folder / MARKED
    names = read_class_list(options.class_list) if options.class_list else ()
    sets = shelf(CATALOGUE, _folders_of_sets(options.folder, options.sets))
    found, refused = mark_class(_files(options.folder, into, options.class_list), sets, CATALOGUE, names)
    written = [_write(marks, into / marks.set.key) for marks in found]
    for line in (*_told(found, refused), *written):
        print(line)
    if not found:
        print("No hand-in was marked.", file=sys.stderr)
    return 0 if found else 1


def _folders_of_sets(folder: Path, named: Sequence[Path]) -> list[Path]:
    """Where sets are looked for: beside the hand-ins, and in the folders named."""
    return list(dict.fromkeys(one.resolve() for one in (folder, *named)))


def _files(folder: Path, into: Path, names: Path | None) -> Iterator[tuple[str, Path]]:
    """All that lies in the folder, at whatever depth, but sets, the class list and what an earlier marking wrote."""
    for path in sorted(folder.rglob("*")):
        is_ours = path.suffix == ".toml" or path.is_relative_to(into) or (names and path.samefile(names))
        if path.is_dir() or is_ours:
            continue
        yield str(path.relative_to(folder)), path


def _write(marks: ClassMarks, into: Path) -> str:
    """The table, both reports and a sheet of feedback for each student; where they are."""
    sheets = into / "feedback"
    sheets.mkdir(parents=True, exist_ok=True)
    (into / "marks.csv").write_text(marks_csv(marks), "utf-8", newline="")
    (into / "report.html").write_text(report(marks), "utf-8")
    (into / "report-without-names.html").write_text(report(marks, with_names=False), "utf-8")
    for number, student in enumerate(marks.students, 1):
        (sheets / f"{number:03d}-{slug(student.name)}.html").write_text(feedback(marks, student), "utf-8")
    return f"Written to {into}: report.html, report-without-names.html to project, marks.csv, feedback/."


def slug(name: str) -> str:
    """A name as part of the name of a file, on any system: letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST_SLUG].strip("-") or "student"


def _told(found: Sequence[ClassMarks], refused: Sequence[Filed]) -> Iterator[str]:
    """What was marked, and a sentence for each file that does not count and each sheet to look at."""
    for marks in found:
        sheets = sum(len(student.sheets) for student in marks.students)
        yield f"{marks.set.title}: {count_of(len(marks.students), 'student')}, {count_of(sheets, 'sheet')}."
        for student in marks.students:
            yield from (f"  {student.name} ({student.file}): {remark}" for remark in student.remarks)
        yield from (f"  {one.file}: {one.sentence}" for one in marks.superseded)
    yield from (f"{one.file}: {one.sentence}" for one in refused)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="halfturn mark",
        description="Mark the hand-ins of a class, which students save on the set's page.",
    )
    parser.add_argument("folder", type=Path, metavar="DIR", help="the folder that holds the hand-ins")
    parser.add_argument(
        "--sets", type=Path, action="append", default=[], metavar="DIR",
        help="a folder with their set; sets in DIR itself, and those that come with the program, are found without it",
    )  # fmt: skip
    parser.add_argument(
        "--class", dest="class_list", type=Path, metavar="FILE",
        help="a class list, a name or number a line, to see who is missing",
    )  # fmt: skip
    parser.add_argument("--into", type=Path, metavar="DIR", help=f"where to write (default: {MARKED} in DIR)")
    return parser
