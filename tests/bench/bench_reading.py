"""How fast a student's own lines are read and fitted: texts of 20,000 characters, beside a page of twenty lines.

Run with `python -m tests.bench.bench_reading`. The time is that of the processor.
"""

from time import process_time

from lessons.course.shunt_stub import LESSON
from lessons.homework.working import LONGEST_WORKING, Working
from tests.lessons.homework.test_corpus import HABITS

GOAL_S, TIMES = 1.0, 3
FEEDER = {"load": 60 - 80j, "line": 50.0, "frequency": 868e6, "velocity": 0.66}
CORPUS = "\n".join(line.text for habit in HABITS for working in habit.workings for line in working)
SIX = "d1 = 0.110, d2 = 0.26, l1 = 0.095, l2 = 0.405, y1 = 1+j1.47, y2 = 1-j1.47"
TEXTS = {
    "twenty lines": "\n".join(CORPUS.splitlines()[:20]),
    "the corpus": CORPUS,
    "the corpus over and over": f"{CORPUS}\n" * 9,
    "one short line over and over": "d = 0.1\n" * 2_500,
    "six values a line": f"{SIX}\n" * 250,
    "unmarked, all different": "\n".join(f"d = {0.0001 * k:.4f}, l = {0.0002 * k:.4f}" for k in range(700)),
    "brackets": "z = " + "(" * LONGEST_WORKING,
    "commas": "d = " + "0.1, " * 4_000,
    "fractions": "\\frac{" * 3_300,
}


def main() -> None:
    print(f"{'text':<30}{'characters':>11}{'lines read':>11}{'s':>8}{'ratio':>8}   (goal < {GOAL_S:g} s)")
    first = 0.0
    for name, text in TEXTS.items():
        text = text[:LONGEST_WORKING]
        seconds = min(_seconds(text) for _ in range(TIMES))
        first = first or seconds
        lines = len(Working(LESSON, LESSON.problem(FEEDER), text=text).lines)
        print(f"{name:<30}{len(text):>11}{lines:>11}{seconds:>8.3f}{seconds / first:>8.1f}")


def _seconds(text: str) -> float:
    """Processor time until every line has its verdict."""
    own = Working(LESSON, LESSON.problem(FEEDER), text=text)
    start = process_time()
    assert len(own.lines) >= 0
    assert len(own.remarks) >= 0
    return process_time() - start


if __name__ == "__main__":
    main()
