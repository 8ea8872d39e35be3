"""Reading the chart: where a load stands, and what its distance from the centre says about the wave that comes back."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from core.line import swr
from lessons.course import primers
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.givens import LINE, LOAD, is_instructive
from lessons.course.glossary import READING_TERMS
from lessons.course.reading_steps import LOSS, SHARE
from lessons.course.stub_values import LARGEST_SWR, SMALLEST_SWR, bare
from lessons.grammar.lesson import Lesson, Problem, Work
from lessons.grammar.side import reflection_of

READ = replace(
    PLACE,
    title="Place it, and read |Γ| and its angle",
    ask="Put the {known}'s point where z stands on the impedance grid, or write how large its reflection |Γ| is and at "
    "which angle it stands.",
    goal="Every impedance has one place on the chart, and every place has a distance from the centre and an angle.",
    rule="Follow the circle of constant r to the arc of constant x: above the axis if inductive, else below. |Γ| is "
    "the distance from the centre, the rim being 1; the angle is counted from the right end of the axis, upward above "
    "zero. In numbers, the reflection is (z − 1) / (z + 1).",
)


def _refuses(problem: Problem) -> str:
    """Why a problem has nothing to read, or nothing."""
    load = problem["load"]
    if np.isinf(load) or load.real == 0:
        return (
            "This load takes no power, so all of the wave comes back: it stands on the rim, and the scales end there. "
            "Choose one with a resistance."
        )
    mismatch = swr(reflection_of(load / problem["line"]))
    if mismatch > LARGEST_SWR:
        return "This load stands on the rim of the chart, as far as an eye can tell. Choose one with more resistance."
    if mismatch < SMALLEST_SWR:
        return (
            "This load is the line's own impedance: nothing comes back, and in the centre there is no angle."
        )
    return ""


def _closing(work: Work) -> str:
    """What becomes of the wave, by the solver, whatever stands on the sheet."""
    true = Work(work.lesson, work.problem, work.notation)
    kept = work.lesson.field("share").kind(true).write(100 - true["share"], work.notation)
    return (
        f"Of the power that arrives, {true.write('share')} comes back and {kept} goes into the load. The standing-wave "
        f"ratio on the line is {true.write('mismatch')}, the return loss {true.write('loss')}."
    )


LESSON = Lesson(
    key="reading-the-chart",
    title="Reading the chart",
    purpose="A load has one place on the chart. Read from there how much of the wave comes back.",
    task="Place {load} on the chart of a line of {line}. Read its reflection, the standing-wave ratio, the return "
    "loss, and how much of the power comes back.",
    brief="{load} on {line}, read",
    givens=(LOAD, LINE),
    steps=(NORMALISE, READ, MISMATCH, LOSS, SHARE),
    refuses=_refuses,
    bare=bare,
    closing=_closing,
    instructive=is_instructive,
    places=(
        "The bridge at {place} gives ohms; the log wants to know how much of the wave comes back.",
        "A volunteer at {place} holds a chart for the first time and has measured this load.",
        "The transmitter at {place} shuts down when too much comes back. What does this load send back?",
        "Two sheets from {place} disagree about this load, one in decibels, one in percent.",
    ),
    terms=READING_TERMS,
    primer=primers.READING_THE_CHART,
)
