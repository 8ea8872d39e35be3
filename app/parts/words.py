"""Words that every view says alike: the problem, a verdict, the cautions."""

from __future__ import annotations

from app.parts.messages.shared import Branch, Choice, Option, ProblemWords, VerdictWords
from app.parts.messages.working import Writing
from lessons.grammar.lesson import SIDES, Problem, Work
from lessons.problems.seeds import shipped_problems
from lessons.working.marking import Verdict

WORDS = {"right": ("✓", "Right"), "close": ("≈", "Close"), "slip": ("✗", "A slip"), "wrong": ("✗", "Not yet"),
         "unreadable": ("?", "Not read"), "impossible": ("✗", "Cannot follow")}  # fmt: skip
CAUTION = (
    "Results are ideal and for study. A high standing-wave ratio and an open stub end mean high voltage even at "
    "modest power: switch off before touching. Keep to the exposure limits and licence rules of your country, and ask "
    "a qualified person before building at power. Open stubs radiate; measure before you trust."
)


def branch_wire(side: str) -> Branch | None:
    """One of a lesson's solutions as the browser knows it; None for what belongs to no single one."""
    if not side:
        return None
    return {"key": side, "word": side, "role": ("first", "second")[SIDES.index(side)]}


def branch_word(side: str) -> str:
    """What one of a lesson's solutions is called, or nothing."""
    branch = branch_wire(side)
    return branch["word"] if branch else ""


def problem_words(problem: Problem, work: Work) -> ProblemWords:
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


def verdict_words(verdict: Verdict, settled: bool) -> VerdictWords:
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


def writing_words(glossary: list[Option]) -> Writing:
    """How lines of a working may be written, with the names of each quantity."""
    words = [branch_word(side) for side in SIDES]
    return {
        "examples": ["zL = 0.5 − j1", f"d {words[0]} = 0.172 λ", "l2: 62°"],
        "glossary": glossary,
        "note": "Values in ohms or siemens, in wavelengths, degrees of line or millimetres, with j or i, as a + jb or "
        f"size and angle. Say {' or '.join(words)}, 1 or 2, or nothing: then the line is taken for the solution it "
        "fits best.",
    }


def problem_choices() -> list[Choice]:
    """The problems that come with the program, to choose from."""
    return [{"key": problem.key, "title": problem.title} for problem in shipped_problems()]
