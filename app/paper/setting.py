"""What is to be printed: which problem or how many random ones, on which paper, in which notation; and its link.

Whatever comes in is checked. A text that cannot be meant gets one sentence, and the usual value takes its place.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from urllib.parse import urlencode

from app.parts.template import at
from app.parts.worksheet import DRAWINGS, SIZES
from core import CoreError
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.difficulty import ANY, Difficulty, difficulty_of
from lessons.grammar.lesson import Lesson
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.numbers import Unreadable, quoted
from lessons.grammar.problem import Draw, Given, Problem
from lessons.problems.seeds import TooRare, random_problem
from lessons.problems.sets import problems_of, shipped_problem
from lessons.problems.texts import read_problem, required, write_problem
from lessons.saved.notations import notation_from, write_notation

MOST_SHEETS, LARGEST_SEED = 240, 999_999
EVERY = "every."  # before the key of a given: its value on every sheet of random problems
USUAL = "usual"
NEVER_SET = "With this on every sheet no problem can be marked without doubt: leave some of it to chance."
KEYS = ("with", "without", "only")
HARDS = "The difficulty is round, any or hard"


@dataclass(frozen=True)
class Setting:
    """Sheets to print.

    seed : number of the first of `count` random problems, or None for the one `problem`.  difficulty : of these.
    key : one of KEYS.
    every : texts of the givens that all random problems have alike, USUAL for what is usual; others are drawn."""

    lesson: Lesson
    problem: Problem
    seed: int | None = None
    count: int = 1
    size: str = "A4"
    drawn: str = "blank"
    key: str = "with"
    notation: Notation = STANDARD
    every: Mapping[str, str] = field(default_factory=dict, hash=False)
    difficulty: Difficulty = ANY

    @property
    def seeds(self) -> tuple[int | None, ...]:
        """The number of each sheet; a problem that is no random one has none."""
        return (None,) if self.seed is None else tuple(range(self.seed, self.seed + self.count))

    def problem_of(self, seed: int | None) -> Problem:
        """The problem on the sheet of that number. Raises TooRare where what all have alike leaves none to be set."""
        if seed is None:
            return self.problem
        alike = {
            one.key: _drawn_as(one, self.every[one.key])
            for one in alikes(self.lesson)
            if one.key in self.every
        }
        return random_problem(seed, self.lesson, alike, self.difficulty)


def alikes(lesson: Lesson) -> tuple[Given, ...]:
    """What random problems may have alike: all that is drawn, but for what is put on the chart."""
    return tuple(one for one in lesson.givens if one.draw and not one.put)


def _drawn_as(given: Given, text: str) -> Draw:
    """In place of a draw: the value that a text names."""
    if text == USUAL:
        return lambda dice, givens: given.usual(givens)
    value = given.kind.read(text)
    return lambda dice, givens: value


def read_setting(texts: Mapping[str, str], catalogue: Catalogue) -> tuple[Setting, dict[str, str]]:
    """The setting of a link's or a form's texts, and one sentence for each text that could not be used.

    A `seed` asks for random problems of the `lesson`, its first given for one's own problem, else `problem`
    is the key of one that comes with the program; other texts of a problem count for one's own only."""
    faults: dict[str, str] = {}

    def one_of(key: str, usual: str, fits: Callable[[str], bool], sentence: str) -> str:
        text = texts.get(key, "").strip() or usual
        if fits(text):
            return text
        faults[key] = f"{sentence}, not {quoted(text)}."
        return usual

    lesson = _lesson(texts, catalogue, faults)
    problem = _problem(texts, lesson, catalogue, faults)
    lesson = catalogue.find(problem.lesson) or lesson
    notation, notation_faults = notation_from(texts, lesson.symbols)
    setting = Setting(
        lesson=lesson,
        problem=problem,
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
        how = one_of("difficulty", ANY.key, lambda text: difficulty_of(text) is not None, HARDS)
        difficulty = difficulty_of(how) or ANY
        every = _every(texts, lesson, faults)
        setting = replace(setting, seed=int(seed), count=int(count), every=every, difficulty=difficulty)
        faults |= never_set(setting)
    return setting, {**faults, **notation_faults}


def refused(setting: Setting) -> dict[str, str]:
    """A sentence beside the first given where the lesson has nothing to solve: it is printed all the same."""
    refusal = "" if setting.seed is not None else setting.lesson.refuses(setting.problem)
    return {setting.lesson.givens[0].key: refusal} if refusal else {}


def never_set(setting: Setting) -> dict[str, str]:
    """A sentence where no random problem has what all are to have alike, beside the first of it."""
    try:
        setting.problem_of(setting.seed)
    except TooRare:
        return rare(setting)
    return {}


def rare(setting: Setting) -> dict[str, str]:
    """The sentence for it, beside what may be to blame."""
    blamed = next((f"{EVERY}{key}" for key in setting.every), "difficulty")
    return {blamed: NEVER_SET}


def _every(texts: Mapping[str, str], lesson: Lesson, faults: dict[str, str]) -> dict[str, str]:
    """What all random problems have alike, each as its kind writes it."""
    found = {}
    for one in alikes(lesson):
        text = texts.get(f"{EVERY}{one.key}", "").strip()
        try:
            if text:
                found[one.key] = USUAL if text == USUAL else one.kind.write(one.kind.read(text))
        except (Unreadable, CoreError) as fault:
            faults[f"{EVERY}{one.key}"] = str(fault)
    return found


def write_setting(setting: Setting, catalogue: Catalogue) -> dict[str, str]:
    """The texts that give this setting back: what is to be printed, and whatever else is not usual."""
    lesson = setting.lesson
    shipped = {problem.key for problem in problems_of(lesson, catalogue)}
    named = {} if lesson is catalogue.usual else {"lesson": lesson.key}
    if setting.seed is not None:
        texts = {"seed": str(setting.seed)} | ({"count": str(setting.count)} if setting.count > 1 else {})
        texts |= setting.difficulty.texts
        texts |= {f"{EVERY}{key}": text for key, text in setting.every.items()}
    elif setting.problem.key in shipped:
        texts = {"problem": setting.problem.key}
    else:
        texts = write_problem(setting.problem, lesson)
    usual = Setting(lesson, setting.problem)
    names = ("size", "drawn", "key")
    texts |= {
        name: getattr(setting, name) for name in names if getattr(setting, name) != getattr(usual, name)
    }
    return named | texts | write_notation(setting.notation)


def link(setting: Setting, catalogue: Catalogue) -> str:
    """The address that opens the paper view with this setting."""
    return at(f"/paper?{urlencode(write_setting(setting, catalogue))}")


def _lesson(texts: Mapping[str, str], catalogue: Catalogue, faults: dict[str, str]) -> Lesson:
    wanted = texts.get("lesson", "").strip()
    found = catalogue.find(wanted or catalogue.unsaid)
    if found is None:
        faults["lesson"] = f"Halfturn has no lesson {quoted(wanted)}: choose one of the list."
    return found or catalogue.usual


def _problem(
    texts: Mapping[str, str], lesson: Lesson, catalogue: Catalogue, faults: dict[str, str]
) -> Problem:
    """One's own problem, or one that comes with the program; where seeds are asked for it stays unused."""
    first = problems_of(lesson, catalogue)[0]
    if "seed" in texts:
        return first
    if any(key in texts for key in required(lesson)[:1]):
        reading = read_problem(texts, lesson)
        faults |= reading.faults
        return reading.problem
    wanted = texts.get("problem", "").strip() or first.key
    found = shipped_problem(wanted, catalogue) or (first if wanted == first.key else None)
    if found is None:
        faults["problem"] = f"Halfturn brings no problem {quoted(wanted)}: choose one of the list."
    return found or first


def _is_whole(text: str, least: int, most: int) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= len(str(most)) and least <= int(text) <= most
