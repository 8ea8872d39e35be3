"""How quick undo is on a long sheet: `python -m tests.bench.bench_undo` prints it beside one marking of the sheet.

The time is that of the processor.
"""

from itertools import product
from math import ceil
from time import process_time

from lessons import catalogue
from lessons.grammar.lesson import Lesson
from lessons.working.sheet import Sheet

ATTEMPTS, GOAL_MS = 200, 100


def main() -> None:
    for lesson in catalogue():
        sheet = long_sheet(lesson)
        marking, undo = _ms(lambda one: one.verdicts, sheet), _ms(lambda one: one.undone, sheet)
        print(
            f"{lesson.key}: undo after {ATTEMPTS} attempts {undo:.0f} ms, {undo / marking:.0f} times one marking "
            f"(goal < {GOAL_MS} ms)"
        )


def long_sheet(lesson: Lesson) -> Sheet:
    """A sheet on which every field was tried several times, each time otherwise, before it was right."""
    sheet = Sheet(lesson, lesson.problem({"load": 60 - 80j, "line": 50.0, "frequency": 868e6}))
    keys = [one.key for step in sheet.steps for one in step.fields]
    tries = ceil(ATTEMPTS / len(keys))
    for key, number in product(keys, range(tries)):
        sheet = sheet.enter(key, sheet.write(key) if number == tries - 1 else f"0.{number + 1}")
    return sheet


def _ms(act, sheet: Sheet) -> float:
    """Of an act on a sheet of which nothing is known yet."""
    fresh = Sheet(sheet.lesson, sheet.problem, sheet.notation, sheet.entries, attempts=sheet.attempts)
    began = process_time()
    act(fresh)
    return 1000 * (process_time() - began)


if __name__ == "__main__":
    main()
