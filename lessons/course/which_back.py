"""The steps from what comes back to a choice: beside what is allowed, and how far off it may be."""

from __future__ import annotations

import numpy as np

from core.chart import mismatch_circle
from lessons.course import single_stub, which_back_slips
from lessons.course.choosing_steps import Reason, choose
from lessons.course.near_and_far import near_and_far
from lessons.course.which_steps import each
from lessons.course.which_values import PIECES, back, designed, exact_reach, limit, ratio_of, reach
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Number, ReflectionSize
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.strokes import Curve

SIZE_KNOWN, REACH_KNOWN = 0.005, 0.05  # of |Γ|, and percent


BACK = Step(
    key="back",
    title="See what comes back",
    ask="How large is |Γ| on the line to the generator, in either solution?",
    goal="The farther the total stands from the centre, the more comes back.",
    rule="|Γ| = |{y} − 1| / |{y} + 1|, with {y} the total.",
    numbers=lambda w: f"The totals are {each(lambda one: w.write_of('total', one))}.",
    because=lambda w: (
        "As standing-wave ratios: "
        + each(lambda one: w.notation.number(ratio_of(w.of("back", one)), 2))
        + "."
    ),
    fields=near_and_far(
        quantity="back",
        label="|Γ|",
        kind=lambda w: ReflectionSize(example="0.35", tolerance=SIZE_KNOWN, worked_out=True, least=0.0),
        value=back,
        unmixed_by=("total",),
        slips=which_back_slips.back_slips,
        strokes=lambda w, branch: (
            Curve(
                mismatch_circle(min(w.of("back", branch), 1.0)),
                branch.role,
                "impedance",
                f"|Γ| {branch.word}",
                f"The circle of what comes back from the {branch.word} one, |Γ| = {w.write_of('back', branch)}.",
                w.write_of("back", branch),
            ),
        ),
        names=("|Γ|", "|gamma|", "|Γ| total", "Γ total"),
    ),
)


def _inside(work: Work) -> str:
    """Who stays within what is allowed, by the sheet."""
    return "By these values: " + each(
        lambda one: "inside of it" if work.of("back", one) <= work["limit"] else "outside"
    )


LIMIT = Step(
    key="limit",
    title="Turn the ratio allowed into |Γ|",
    ask="A standing-wave ratio of {allowed} is allowed. How large is |Γ| there?",
    goal="|Γ| can be compared with |Γ| only.",
    rule="|Γ| = (SWR − 1) / (SWR + 1).",
    numbers=lambda w: w.say("({allowed} − 1) / ({allowed} + 1)."),
    because=lambda w: f"That is a circle about the centre. {_inside(w)}.",
    fields=(
        Field(
            quantity="limit",
            label="|Γ| allowed",
            names=("|Γ| allowed", "|Γ| max", "Γ allowed", "Γ max", "allowed |Γ|"),
            kind=lambda w: ReflectionSize(example="0.35", tolerance=SIZE_KNOWN, worked_out=True, least=0.0),
            value=limit,
            slips=which_back_slips.LIMIT,
            strokes=lambda w: (
                Curve(
                    mismatch_circle(min(w["limit"], 1.0)),
                    "unit",
                    "impedance",
                    "allowed",
                    w.say("The circle of the ratio allowed, {allowed}."),
                ),
            ),
        ),
    ),
)


def percent(work: Work, part: float) -> str:
    """A part of one in percent, as far as it was followed."""
    return f"{work.notation.number(100 * part, 1)} %" if np.isfinite(part) else "more than 50 %"


def _exactly(work: Work) -> str:
    """The solver's own, on the side that the problem is about."""
    way = int(work["by"] > 0)
    return each(lambda one: f"{percent(work, exact_reach(work.problem, one)[way])} {{this_way}}")


REACH = Step(
    key="reach",
    title="Estimate how far off it may be",
    ask="By how many percent may it be off until the ratio allowed is reached? Take |Γ| to grow in proportion to how "
    "far it is off, and give the estimate.",
    goal="Near the match |Γ| grows about in proportion to how far it is off: half the error, half of |Γ|.",
    rule="Multiply {by} by |Γ| allowed, and divide by the |Γ| that comes back.",
    numbers=lambda w: (
        w.say("{by} · ") + f"{w.write('limit')}, divided by {each(lambda one: w.write_of('back', one))}."
    ),
    because=lambda w: f"An estimate, no more. Exactly: {_exactly(w)}.",
    fields=near_and_far(
        quantity="reach",
        label="may be off by",
        kind=lambda w: Number("%", "3.6", 2, REACH_KNOWN, worked_out=True),
        value=reach,
        unmixed_by=("back",),
        slips=which_back_slips.reach_slips,
        names=("off", "off by", "may be off by", "reach", "band"),
    ),
)


def _told(work: Work, branch: Branch) -> str:
    length = sum(designed(work.problem, branch, piece) for piece in PIECES)
    line = work.notation.wavelengths(length)
    return f"|Γ| = {work.write_of('back', branch)}, and {line} of line in all, as designed"


CHOOSE = choose(
    (
        Reason("less comes back", "less comes back from it with this error", quantity="back"),
        *single_stub.BY_LENGTH,
    ),
    single_stub.RULE,
    "What is made is never quite what was designed: take the solution that bears it.",
    _told,
    least=lambda w, branch: float(w.of("back", branch)),
    ask="As designed both solutions match. Which would you build, now that you know this, and why?",
)
