"""Words that every view says alike: the problem, a verdict, the cautions."""

from __future__ import annotations

from typing import Any

from lessons.grammar.lesson import Problem, Work
from lessons.problems.seeds import shipped_problems
from lessons.working.marking import Verdict

WORDS = {"right": ("✓", "Right"), "close": ("≈", "Close"), "slip": ("✗", "A slip"), "wrong": ("✗", "Not yet"),
         "unreadable": ("?", "Not read"), "impossible": ("✗", "Cannot follow")}  # fmt: skip
CAUTION = (
    "Results are ideal and for study. A high standing-wave ratio and an open stub end mean high voltage even at "
    "modest power: switch off before touching. Keep to the exposure limits and licence rules of your country, and ask "
    "a qualified person before building at power. Open stubs radiate; measure before you trust."
)


def problem_words(problem: Problem, work: Work) -> dict[str, str]:
    """A problem in words: its key, title and story, and what is given."""
    given = work.say("Match {load} to a line of {line} with ")
    given += work.say("a shunt stub of {stub}, ending in {an_end} circuit.")
    if problem.frequency:
        given += f" The frequency is {problem.frequency / 1e6:g} MHz, the velocity factor {problem.velocity_factor:g}."
    return {
        "key": problem.key,
        "title": problem.title or "Your own load",
        "story": problem.story,
        "given": given,
    }


def verdict_words(verdict: Verdict, settled: bool) -> dict[str, Any]:
    """A verdict in words, and what may be done about it; `settled` where the student is past it."""
    sign, word = WORDS[verdict.judgement]
    sentence = verdict.sentence.removeprefix("Right.").removeprefix("Close:").strip()
    return {
        "judgement": verdict.judgement,
        "sign": sign,
        "word": word,
        "sentence": sentence[:1].upper() + sentence[1:],
        "canCarry": verdict.value is not None and not verdict.accepted and not settled,
        "carried": settled and not verdict.accepted,
        "backTo": verdict.back_to,
    }


def problem_choices() -> list[dict[str, str]]:
    """The problems that come with the program, to choose from."""
    return [{"key": problem.key, "title": problem.title} for problem in shipped_problems()]
