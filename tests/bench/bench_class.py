"""How fast a class is marked and its paper made: thirty students who handed in ten problems each, with planted slips.

Run with `python -m tests.bench.bench_class`. The time is that of the processor.
"""

from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

from app.paper.for_class import key, pupils, worksheets
from app.report.feedback import feedback
from app.report.report import report
from lessons.classes.marks import mark_class
from lessons.classes.table import marks_csv
from lessons.course.catalogue import CATALOGUE
from lessons.problems.set_files import read_set
from lessons.problems.sets import Shelf
from tests.lessons.classes.simulated import begun, hand_in, solved, write

STUDENTS, PROBLEMS, GOAL_S = 30, 10, 20.0
PRINTED, GOAL_PRINTED_S = 120, 10.0
SLIPS = ("wrong way", "sign of the reactance lost", "double angle")
TEXT = 'key = "long"\ntitle = "Long"\n' + "".join(
    f"""
[[problem]]
key = "p{number}"
lesson = "{CATALOGUE[number % len(CATALOGUE)].key}"
title = "Problem {number}"
story = "Solve it."
{{stated}}
"""
    for number in range(PROBLEMS)
)
VARIED = """load = "25 - j40"
line = 50
[problem.vary]
load = { from = "20-60j", to = "80-20j", step = 5 }"""


def text() -> str:
    """A set of ten problems over the lessons that match a load to a line."""
    matching = [
        one.key for one in CATALOGUE if {"load", "line", "end"} <= {given.key for given in one.givens}
    ]
    lessons = {one.key: matching[number % len(matching)] for number, one in enumerate(CATALOGUE)}
    found = TEXT
    for lesson, other in lessons.items():
        found = found.replace(f'lesson = "{lesson}"', f'lesson = "{other}"')
    return found.replace("{stated}", VARIED)


def main() -> None:
    """Mark them, and write all that is written."""
    one = read_set(text(), "long.toml", CATALOGUE)
    with TemporaryDirectory() as name:
        for number in range(STUDENTS):
            who = f"Student {number}"
            sheets = {item.problem.key: solved(begun(one, item, who), SLIPS) for item in one.items}
            write(Path(name), f"{number}.json", hand_in(one, who, sheets))
        start = process_time()
        (marks,), _ = mark_class(
            [(path.name, path) for path in Path(name).iterdir()], Shelf((one,)), CATALOGUE
        )
        marked = process_time() - start
        written = (
            len(report(marks)) + len(marks_csv(marks)) + sum(len(feedback(marks, s)) for s in marks.students)
        )
        whole = process_time() - start
    sheets_marked = sum(len(student.sheets) for student in marks.students)
    print(
        f"{sheets_marked} sheets marked in {marked:.1f} s, with all that is written ({written} characters) in"
    )
    print(f"{whole:.1f} s: {whole / GOAL_S:.2f} of what is allowed ({GOAL_S:g} s).")
    start = process_time()
    class_ = pupils(one, [f"Student {number}" for number in range(PRINTED)])
    pages = sum(piece.count('<svg class="page"') for piece in worksheets(one.title, class_, "A4", "blank"))
    letters = sum(map(len, key(one.title, class_)))
    printed = process_time() - start
    print(
        f"{pages} pages for {PRINTED} students, and a key of {letters} characters, in {printed:.1f} s: ",
        end="",
    )
    print(f"{printed / GOAL_PRINTED_S:.2f} of what is allowed ({GOAL_PRINTED_S:g} s).")


if __name__ == "__main__":
    main()
