"""Which of two solutions to build: what comes back from either when the frequency is off, or a piece is cut wrong."""

from __future__ import annotations

from collections.abc import Mapping

from lessons.course import primers, stub_values
from lessons.course.chart_steps import NORMALISE, PLACE
from lessons.course.givens import END, LINE, LOAD, is_instructive
from lessons.course.glossary import STUB_TERMS
from lessons.course.near_and_far import BOTH
from lessons.course.which_back import BACK, CHOOSE, LIMIT, REACH, percent
from lessons.course.which_steps import ADMITTANCE, ARRIVING, SHOWS, TOTAL
from lessons.course.which_steps import LINE as LINE_ACTS
from lessons.course.which_steps import STUB as STUB_ACTS
from lessons.course.which_values import (
    PIECES,
    acting,
    comes_back,
    designed,
    exact_reach,
    factor,
    network,
    ratio_of,
    side,
)
from lessons.grammar.branch import Branch
from lessons.grammar.given_kinds import Factor, Percent, Word
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Given, Problem

SHORTEST, LONGEST = 0.03, 0.47  # wavelengths, of a piece that can be seen and is no half wave
LEAST_BACK, MOST_BACK = 0.04, 0.6  # |Γ| that can be told from a match, and from no match at all
APART = 0.05  # |Γ| by which the solutions differ
IN_PROPORTION = 0.25  # of |Γ| allowed, by which the estimate misses it at most

METHOD = Given(
    key="method",
    label="Matched with",
    kind=Word("method", (("shunt", "a shunt stub"), ("series", "a series stub"))),
    usual=lambda values: "shunt",
    draw=lambda dice, values: dice.pick(("shunt", "shunt", "series")),
)
OFF = Given(
    key="off",
    label="What is off",
    kind=Word(
        "thing that is off",
        (("frequency", "the frequency"), ("line", "the line, cut wrong"), ("stub", "the stub, cut wrong")),
    ),
    usual=lambda values: "frequency",
    draw=lambda dice, values: dice.pick(("frequency", "frequency", "frequency", "line", "stub")),
)
BY = Given(
    key="by",
    label="Off by, % (below zero: too low, too short)",
    kind=Percent("error", 0.5, 20, "5"),
    usual=lambda values: 5.0,
    example="5 or −5",
    draw=lambda dice, values: float(dice.pick((-10, -5, -5, 5, 5, 10), if_hard=(-6, -4, -3, -2, 2, 3, 4, 6))),
)
ALLOWED = Given(
    key="allowed",
    label="Standing-wave ratio allowed",
    kind=Factor("standing-wave ratio allowed", 1, 3, "1.5"),
    usual=lambda values: 1.5,
    example="1.5",
    draw=lambda dice, values: dice.pick(
        (1.25, 1.3, 1.5, 1.5, 2.0), if_round=(1.5, 2.0), if_hard=(1.2, 1.35, 1.6, 1.8, 2.2)
    ),
)

# --- words ---

SAID = {
    "frequency": ("The frequency is {by} below the design's", "The frequency is {by} above the design's"),
    "line": (
        "The line up to the stub was cut {by} too short",
        "The line up to the stub was cut {by} too long",
    ),
    "stub": ("The stub was cut {by} too short", "The stub was cut {by} too long"),
}
WHY = {
    "frequency": (
        "At a lower frequency waves are longer, so a piece is less of a wave",
        "At a higher frequency waves are shorter, so a piece is more of a wave",
    ),
    "cut": ("A piece cut too short is less of a wave", "A piece cut too long is more of a wave"),
}
WAYS = {"frequency": ("below", "above"), "cut": ("too short", "too long")}


def _words(work: Work) -> Mapping[str, str]:
    at, problem, kind, way = side(work), work.problem, _kind(work.problem), int(work["by"] > 0)
    pole = (problem["end"] == "short") == (problem["method"] == "shunt")
    return {
        "y": at.symbol,
        "b": at.part_symbol,
        "g": at.real_symbol,
        "part": at.part,
        "real": at.real,
        "immittance": at.immittance,
        "where": at.where,
        "shown_by": "minus one over the tangent" if pole else "the tangent",
        "factor": f"{factor(problem):g}",
        "off_said": SAID[problem["off"]][way].format(by=f"{abs(problem['by']):g} %"),
        "why": WHY[kind][way],
        "changed": "The wave has changed, the copper has not."
        if kind == "frequency"
        else "The copper has changed, the wave has not.",
        "this_way": WAYS[kind][way],
    }


def _kind(problem: Problem) -> str:
    return "frequency" if problem["off"] == "frequency" else "cut"


def _task(work: Work) -> str:
    matched = "Matched with a {method} stub that ends in {an_end} circuit, {load} on a line of {line} has two solutions"
    if stub_values.refuses(work.problem):
        return f"{matched}. {{off_said}}. Which one is to be built?"
    told = "; ".join(
        f"{one.word}, {{d}} = {_waves(work, one, 'distance')} and {{l}} = {_waves(work, one, 'length')}"
        for one in BOTH
    )
    stays = " The load is taken to stay as it is." if work["off"] == "frequency" else ""
    return (
        f"{matched}: {told}. {{off_said}}.{stays} Find what comes back from either, how far off it may be where a "
        "standing-wave ratio of {allowed} is allowed, and which one to build."
    )


def _waves(work: Work, branch: Branch, piece: str) -> str:
    return work.notation.wavelengths(designed(work.problem, branch, piece), 1)


def _closing(work: Work) -> str:
    """What comes back and how far off it may be, by the solver, whatever stands on the sheet."""
    problem, number = work.problem, work.notation.number
    if stub_values.refuses(problem):
        return ""
    sizes = [float(comes_back(problem, one, factor(problem) - 1)) for one in BOTH]
    ratios = " and ".join(
        f"{number(size, 3)} ({one.word}, a standing-wave ratio of {number(ratio_of(size), 2)})"
        for one, size in zip(BOTH, sizes, strict=True)
    )
    low, high = WAYS[_kind(problem)]
    bands = " and ".join(
        f"from {percent(work, below)} {low} to {percent(work, above)} {high} with the {one.named('one')}"
        for one in BOTH
        for below, above in (exact_reach(problem, one),)
    )
    stays = "The load was taken to stay as it is. " if _kind(problem) == "frequency" else ""
    return (
        f"{{off_said}}: |Γ| is {ratios}. {stays}By the solver the ratio stays within {{allowed}} {bands}. "
        f"{_verdict(problem)}"
    )


def _verdict(problem: Problem) -> str:
    (low, high), (other_low, other_high) = (exact_reach(problem, one) for one in BOTH)
    if low > other_low and high > other_high:
        return f"The {BOTH[0].named('one')} bears more, either way."
    if low < other_low and high < other_high:
        return f"The {BOTH[1].named('one')} bears more, either way."
    return "Which one bears more depends on the way it is off."


# --- random problems ---


def _instructive(problem: Problem) -> bool:
    """Whether the pieces can be seen, the solutions differ clearly, and the estimate is not far off."""
    if not is_instructive(problem) or stub_values.refuses(problem):
        return False
    lengths = [find(problem, one, piece) for find in (designed, acting) for one in BOTH for piece in PIECES]
    if not all(SHORTEST <= one <= LONGEST for one in lengths):
        return False
    near, far = (float(comes_back(problem, one, factor(problem) - 1)) for one in BOTH)
    return (
        LEAST_BACK <= min(near, far)
        and max(near, far) <= MOST_BACK
        and abs(near - far) >= APART
        and all(_is_in_proportion(problem, one, size) for one, size in zip(BOTH, (near, far), strict=True))
    )


def _is_in_proportion(problem: Problem, branch: Branch, size: float) -> bool:
    allowed = (problem["allowed"] - 1) / (problem["allowed"] + 1)
    found = float(comes_back(problem, branch, (factor(problem) - 1) * allowed / size))
    return abs(found - allowed) <= IN_PROPORTION * allowed


LESSON = Lesson(
    key="which-one-to-build",
    title="Which one to build",
    purpose="As designed both solutions match. Find what comes back when something is off, and build the one that "
    "bears it.",
    task=_task,
    brief="{load} on {line} with a {method} stub: {off} off by {by}",
    givens=(LOAD, LINE, METHOD, END, OFF, BY, ALLOWED),
    branches=BOTH,
    steps=(
        NORMALISE,
        PLACE,
        ADMITTANCE,
        LINE_ACTS,
        STUB_ACTS,
        ARRIVING,
        SHOWS,
        TOTAL,
        BACK,
        LIMIT,
        REACH,
        CHOOSE,
    ),
    refuses=stub_values.refuses,
    network=network,
    bare=stub_values.bare,
    closing=_closing,
    words=_words,
    instructive=_instructive,
    places=(
        "At {place} both solutions are on paper, and only one will be built.",
        "The saw at {place} is not to be trusted, and the radio moves between channels.",
        "The last match at {place} was good on the bench and poor in the field. Look before this one is cut.",
        "The volunteers at {place} quarrel over which of the two to build. Settle it by numbers.",
    ),
    terms=STUB_TERMS,
    primer=primers.WHICH_ONE,
    needs=("shunt-stub", "series-stub"),
)
