"""What is to be printed: which problem or how many random ones, on which paper, in which notation; and its link.

Whatever comes in is checked. A text that cannot be meant gets one sentence, and the usual value takes its place.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from app.parts.template import at
from app.parts.worksheet import DRAWINGS, SIZES
from lessons.course.shunt_stub import LESSON
from lessons.grammar.lesson import Lesson, Problem
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import quoted
from lessons.problems.seeds import random_problem, read_problem, shipped_problems, write_problem
from lessons.saved.records import notation_from, write_notation

MOST_SHEETS, LARGEST_SEED = 60, 999_999
KEYS = ("with", "without", "only")


@dataclass(frozen=True)
class Setting:
    """Sheets to print.

    seed : number of the first of `count` random problems, or None for the one `problem`.  key : one of KEYS."""

    problem: Problem
    seed: int | None = None
    count: int = 1
    size: str = "A4"
    drawn: str = "blank"
    key: str = "with"
    notation: Notation = STANDARD

    @property
    def seeds(self) -> tuple[int | None, ...]:
        """The number of each sheet; a problem that is no random one has none."""
        return (None,) if self.seed is None else tuple(range(self.seed, self.seed + self.count))

    def problem_of(self, seed: int | None) -> Problem:
        """The problem on the sheet of that number."""
        return self.problem if seed is None else random_problem(seed)


def read_setting(texts: Mapping[str, str], lesson: Lesson = LESSON) -> tuple[Setting, dict[str, str]]:
    """The setting of a link's or a form's texts, and one sentence for each text that could not be used.

    A `seed` asks for random problems, a `load` for one's own, else `problem` is the key of one that comes with the
    program; other texts of a problem count for one's own load only."""
    faults: dict[str, str] = {}

    def one_of(key: str, usual: str, fits: Callable[[str], bool], sentence: str) -> str:
        text = texts.get(key, "").strip() or usual
        if fits(text):
            return text
        faults[key] = f"{sentence}, not {quoted(text)}."
        return usual

    notation, notation_faults = notation_from(texts)
    setting = Setting(
        problem=_problem(texts, lesson, faults),
        size=one_of("size", "A4", lambda text: text in SIZES, f"The paper is {' or '.join(SIZES)}"),
        drawn=one_of(
            "drawn", "blank", lambda text: text in DRAWINGS, f"The chart is {' or '.join(DRAWINGS)}"
        ),
        key=one_of("key", "with", lambda text: text in KEYS, "The key is with, without or only"),
        notation=notation,
    )
    if "seed" in texts:
        seeds = f"The first number is a whole one from 0 to {LARGEST_SEED}"
        counts = f"The number of sheets is a whole one from 1 to {MOST_SHEETS}"
        seed = one_of("seed", "0", lambda text: _is_whole(text, 0, LARGEST_SEED), seeds)
        count = one_of("count", "1", lambda text: _is_whole(text, 1, MOST_SHEETS), counts)
        setting = replace(setting, seed=int(seed), count=int(count))
    return setting, {**faults, **notation_faults}


def write_setting(setting: Setting) -> dict[str, str]:
    """The texts that give this setting back: what is to be printed, and whatever else is not usual."""
    shipped = {problem: problem.key for problem in shipped_problems()}
    if setting.seed is not None:
        texts = {"seed": str(setting.seed)} | ({"count": str(setting.count)} if setting.count > 1 else {})
    elif setting.problem in shipped:
        texts = {"problem": shipped[setting.problem]}
    else:
        texts = write_problem(setting.problem)
    usual = Setting(setting.problem)
    names = ("size", "drawn", "key")
    texts |= {
        name: getattr(setting, name) for name in names if getattr(setting, name) != getattr(usual, name)
    }
    return texts | write_notation(setting.notation)


def link(setting: Setting) -> str:
    """The address that opens the paper view with this setting."""
    return at(f"/paper?{urlencode(write_setting(setting))}")


def _problem(texts: Mapping[str, str], lesson: Lesson, faults: dict[str, str]) -> Problem:
    """One's own load, or a problem that comes with the program; where seeds are asked for it stays unused."""
    shipped = {problem.key: problem for problem in shipped_problems()}
    first = next(iter(shipped.values()))
    if "seed" in texts:
        return first
    if "load" in texts:
        reading = read_problem(texts, lesson)
        refusal = lesson.refuses(reading.problem)
        faults |= reading.faults or ({"load": refusal} if refusal else {})
        return first if refusal else reading.problem
    wanted = texts.get("problem", "").strip() or first.key
    if wanted not in shipped:
        faults["problem"] = f"Halfturn brings no problem {quoted(wanted)}: choose one of the list."
    return shipped.get(wanted, first)


def _is_whole(text: str, least: int, most: int) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= len(str(most)) and least <= int(text) <= most
