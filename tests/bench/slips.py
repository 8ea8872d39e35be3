"""How well mistakes are named: simulated students take every lesson, and what was said of them is counted.

Run with `python -m tests.bench.slips [--count N] [--seed S] [--fields]`; N students a lesson, 20,000 without it.

What the students write is worked out apart from the lessons (tests/bench/students). A mistake is noise on the readings
first and the mistake after it. Two mistakes can be told apart where, without those that the sheet rules out, their
answers differ by more than both windows; a window is how far a reading one tolerance off, and rounding, can bring the
answer. A number out of the blue is any in the field's range; a misread one is off by three to eight tolerances.
"""

from __future__ import annotations

import argparse
import os
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cached_property
from time import perf_counter

from lessons import catalogue
from lessons.grammar.lesson import Lesson
from tests.bench.students import TAKERS
from tests.bench.students.play import Answer, play

STUDENTS, AT_ONCE = 20_000, 2
MOST_CALLED = 1.1  # times as often as the windows cover the range
MOST_SURE = 0.1  # percent: two parts at once come that near by chance
KINDS = {
    "alone": "can be told apart",
    "tied": "give the same number as others",
    "hidden": "come too near the right answer",
    "ruled out": "are ruled out by the sheet",
}
OUTCOMES = ("named", "other", "asked", "asked others", "unnamed", "unreadable", "accepted")


@dataclass(frozen=True)
class Goal:
    """A share in percent (or a ratio), and what it must come to. n : of how many it is the share."""

    what: str
    value: float
    least: float
    most: float
    n: int

    @property
    def met(self) -> bool:
        """Whether it is met."""
        return self.least <= self.value <= self.most

    @property
    def nearly_met(self) -> bool:
        """Whether it is met but for chance: three standard deviations of a share (or of a count) of so many."""
        if self.least == self.most:
            return self.met
        bound = self.least if self.most == 100 else self.most
        share = bound / 100
        deviation = self.n**-0.5 if self.is_ratio else 100 * (share * (1 - share) / self.n) ** 0.5
        return self.least - 3 * deviation <= self.value <= self.most + 3 * deviation

    @property
    def is_ratio(self) -> bool:
        """Whether it is no share in percent."""
        return self.most == MOST_CALLED


@dataclass(frozen=True)
class Tally:
    """All answers of a lesson."""

    answers: tuple[Answer, ...]

    def of(self, *doing: str, **facts: str) -> list[Answer]:
        """Answers of these doings, with these facts."""
        return [
            one
            for one in self.answers
            if one.doing in doing and all(getattr(one, name) == fact for name, fact in facts.items())
        ]

    @cached_property
    def apart(self) -> list[Answer]:
        """Mistakes that can be told apart and can be written at all."""
        return [one for one in self.of("slip", kind="alone") if one.outcome != "unreadable"]

    @cached_property
    def wrong_numbers(self) -> list[Answer]:
        """Numbers that nobody's mistake gives."""
        return [
            one
            for one in self.of("number", "misread", "unlisted")
            if one.outcome not in ("accepted", "unreadable")
        ]

    def goals(self) -> Iterator[Goal]:
        """What the naming must come to."""
        apart = self.apart
        yield Goal("told apart: named", percent(apart, "named"), 97, 100, len(apart))
        yield Goal("told apart: named wrongly", percent(apart, "other", "asked others"), 0, 1, len(apart))
        yield Goal("told apart: asked about", percent(apart, "asked"), 0, 8, len(apart))
        right = self.of("right")
        yield Goal("right answers refused", 100 - percent(right, "accepted"), 0, 0.05, len(right))
        for doing in ("typed", "drawn"):
            after = self.of(doing)
            yield Goal(f"follow-through, {doing}", percent(after, "accepted"), 100, 100, len(after))
        numbers = self.wrong_numbers
        covered = max(1, sum(one.covered for one in numbers))
        called = sum(one.outcome in ("other", "asked others") for one in numbers)
        yield Goal(
            "wrong numbers called a slip, by windows covering them", called / covered, 0, MOST_CALLED, covered
        )
        blue = [
            one for one in numbers if one.doing != "unlisted"
        ]  # a mistake on no list may be another's very number
        sure = 100 * sum(one.opening == "sure" for one in blue) / max(1, len(blue))
        yield Goal("numbers out of the blue said to look like a slip", sure, 0, MOST_SURE, len(blue))


def percent(answers: list[Answer], *outcomes: str) -> float:
    """Share of these outcomes."""
    return 100 * sum(one.outcome in outcomes for one in answers) / max(1, len(answers))


def tally(lesson: Lesson, students: int, seed: int = 1) -> Tally:
    """So many students' answers, or a few more: the last class is not sent home early."""
    found: list[Answer] = []
    number = seed * 1_000_000
    while len(found) < students:
        found += play(lesson, number)
        number += 1
    return Tally(tuple(found))


def _classes(key: str, first: int, last: int) -> list[Answer]:
    lesson = catalogue().find(key)
    assert lesson is not None
    return [answer for number in range(first, last) for answer in play(lesson, number)]


def tally_at_once(lesson: Lesson, students: int, seed: int, pool: ProcessPoolExecutor) -> Tally:
    """The same on all processors."""
    found: list[Answer] = []
    first = seed * 1_000_000
    while len(found) < students:
        left = (students - len(found)) / 260  # about as many answers as a class has
        size = max(1, round(left / AT_ONCE / 2))
        starts = range(first, first + AT_ONCE * 2 * size, size)
        for answers in pool.map(
            _classes, *zip(*((lesson.key, one, one + size) for one in starts), strict=True)
        ):
            found += answers
        first += AT_ONCE * 2 * size
    return Tally(tuple(found))


def main() -> None:
    """Play every lesson and print its table."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.bench.slips", description="How well mistakes are named."
    )
    parser.add_argument("--count", type=int, default=STUDENTS, help="students a lesson")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument(
        "--fields", action="store_true", help="print every mistake's line, not only each field's"
    )
    asked = parser.parse_args()
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        for lesson in catalogue():
            if lesson.key not in TAKERS:
                print(
                    f"\n=== {lesson.title}: nobody plays it, as no independent derivation of it stands here"
                )
                continue
            began = perf_counter()
            found = tally_at_once(lesson, asked.count, asked.seed, pool)
            seconds = perf_counter() - began
            print(f"\n=== {lesson.title}: {len(found.answers):,} students in {seconds:.0f} s")
            print("\n".join(table(found, each=asked.fields)))


def table(found: Tally, *, each: bool = False) -> Iterator[str]:
    """What was said of the mistakes of each field, of what can be told apart and what cannot, and the goals."""
    yield f"\n{'mistakes that can be told apart':46}{'':8}" + "".join(f"{one:>13}" for one in OUTCOMES)
    apart = found.of("slip", kind="alone")
    for name in dict.fromkeys(one.field.split(".")[0] for one in found.of("slip")):
        of_field = [one for one in apart if one.field.split(".")[0] == name]
        yield line(name, of_field)
        wrongly = Counter(
            (one.slip, one.named or one.outcome)
            for one in of_field
            if one.outcome in ("other", "asked", "asked others")
        )
        yield from (
            f"      {slip} taken for {taken}: {times}" for (slip, taken), times in wrongly.most_common()
        )
        if each:
            slips = dict.fromkeys(one.slip for one in of_field)
            yield from (line(f"  {slip}", [one for one in of_field if one.slip == slip]) for slip in slips)
    yield ""
    everybody = found.of("slip")
    for kind, words in KINDS.items():
        some = [one for one in everybody if one.kind == kind]
        yield line(f"{100 * len(some) / len(everybody):.0f} % {words}", some)
    yield line("all mistakes of the list", everybody)
    yield line("mistakes that are on no list", found.of("unlisted"))
    yield ""
    yield from _numbers(found)
    yield ""
    yield from goal_lines(found.goals())


def _numbers(found: Tally) -> Iterator[str]:
    for doing, words in (("number", "numbers out of the blue"), ("misread", "misread by 3 to 8 tolerances")):
        some = [one for one in found.wrong_numbers if one.doing == doing]
        called = [one for one in some if one.outcome in ("other", "asked others")]
        covered = sum(one.covered for one in some)
        sure = sum(one.opening == "sure" for one in called)
        yield (
            f"{words}: {len(some)}; in a window {100 * covered / max(1, len(some)):.1f} %, called a slip "
            f"{100 * len(called) / max(1, len(some)):.1f} %, of these {sure} as 'looks like'"
        )


def line(name: str, answers: list[Answer]) -> str:
    """How many, and the share of each outcome."""
    shares = "".join(f"{percent(answers, one):12.1f}%" if answers else f"{'-':>13}" for one in OUTCOMES)
    return f"{name:46}{len(answers):8}{shares}"


def goal_lines(goals: Iterable[Goal]) -> Iterator[str]:
    """Each goal with what came of it."""
    for one in goals:
        bounds = f"at least {one.least:g}" if one.most == 100 else f"at most {one.most:g}"
        yield f"{'met   ' if one.met else 'MISSED'} {one.what:56}{one.value:9.3f}   {bounds}, of {one.n:,}"


if __name__ == "__main__":
    main()
