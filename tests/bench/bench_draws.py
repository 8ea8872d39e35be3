"""How long a random problem takes to draw, in each lesson and of each difficulty.

`python -m tests.bench.bench_draws` prints it. The time is that of the processor, and nothing is remembered from one
draw to the next.
"""

from collections.abc import Iterator
from time import process_time

from lessons import catalogue
from lessons.grammar.difficulty import DIFFICULTIES, Difficulty
from lessons.grammar.lesson import Lesson
from lessons.problems import seeds
from tests.bench.figures import Figure, show

DRAWS, GOAL_MS = 300, 50


def main() -> list[Figure]:
    """Print each; the slowest alone goes into the table."""
    found = show(figures())
    slowest = max(found, key=lambda one: one.value)
    return [
        Figure(f"a random problem drawn, 99 of 100, slowest: {slowest.what}", slowest.value, "ms", GOAL_MS)
    ]


def figures() -> Iterator[Figure]:
    for lesson in catalogue():
        for difficulty in DIFFICULTIES:
            yield Figure(f"{lesson.key}, {difficulty.key}", slow_one(lesson, difficulty), "ms", GOAL_MS)


def slow_one(lesson: Lesson, difficulty: Difficulty, draws: int = DRAWS) -> float:
    """Milliseconds within which 99 of 100 draws are done."""
    return sorted(_ms(seed, lesson, difficulty) for seed in range(draws))[int(0.99 * draws)]


def _ms(seed: int, lesson: Lesson, difficulty: Difficulty) -> float:
    seeds._can_be_set.cache_clear()
    began = process_time()
    seeds.random_problem(seed, lesson, difficulty=difficulty)
    return 1000 * (process_time() - began)


if __name__ == "__main__":
    main()
