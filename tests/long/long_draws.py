"""300 random problems of each lesson and each difficulty: each is found, can be solved, and is marked without doubt."""

from collections import Counter
from collections.abc import Mapping

from lessons.course.catalogue import CATALOGUE
from lessons.grammar.difficulty import DIFFICULTIES, Difficulty
from lessons.grammar.lesson import Lesson
from lessons.problems.drills import drill_problem
from lessons.problems.seeds import TooRare, ambiguities, random_problem

SEEDS, DRILLS = range(300), range(10)


def main() -> Mapping[str, int]:
    """Count what is drawn, and what should not be."""
    counts: Counter[str] = Counter({"failed draws": 0, "failed drills": 0})
    for lesson in CATALOGUE:
        for difficulty in DIFFICULTIES:
            counts.update(_drawn(lesson, difficulty) + _drilled(lesson, difficulty))
    return counts


def _drawn(lesson: Lesson, difficulty: Difficulty) -> Counter[str]:
    counts: Counter[str] = Counter()
    for seed in SEEDS:
        try:
            problem = random_problem(seed, lesson, difficulty=difficulty)
            fails = bool(lesson.refuses(problem) or ambiguities(problem, lesson))
        except TooRare as fault:
            print(f"  {fault}")
            fails = True
        counts["failed draws" if fails else "problems"] += 1
    return counts


def _drilled(lesson: Lesson, difficulty: Difficulty) -> Counter[str]:
    """Problems that ask for a step, of every step."""
    counts: Counter[str] = Counter()
    for step in lesson.steps:
        for seed in DRILLS:
            try:
                drill_problem(seed, lesson, step, difficulty)
                counts["drills"] += 1
            except TooRare as fault:
                print(f"  {fault}")
                counts["failed drills"] += 1
    return counts


if __name__ == "__main__":
    main()
