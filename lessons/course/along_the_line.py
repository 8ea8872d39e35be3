"""Along a line: what its input shows of the load, and back from there to the load."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from core.elements import Section
from core.line import swr
from core.network import MatchingNetwork
from lessons.course import primers, walk_steps
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.givens import (
    LINE,
    LOAD,
    VELOCITY,
    draw_load,
    wavelength_mm,
    with_frequency,
)
from lessons.course.glossary import WALK_TERMS
from lessons.course.stub_values import known_impedance
from lessons.course.walk_givens import ALONG, OFTEN_NONE, is_instructive, refuses_walk
from lessons.course.walk_values import in_wavelengths, is_load_asked, words
from lessons.grammar.branch import Branch
from lessons.grammar.dice import Dice
from lessons.grammar.given_kinds import Impedance
from lessons.grammar.kinds import CLOSE
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Problem
from lessons.grammar.side import reflection_of

Values = Mapping[str, Any]


def _draw_input(dice: Dice, values: Values) -> complex | None:
    """One problem in three leads back to the load."""
    return draw_load(dice, values) if dice.pick((True, False, False)) else None


KNOWN_LOAD = replace(
    LOAD,
    usual=lambda values: 25 - 35j if values.get("input") is None else None,
    example="none: it is asked",
    must_stand=False,
    draw=lambda dice, values: draw_load(dice, values) if values["input"] is None else None,
)
INPUT = replace(
    LOAD,
    key="input",
    label="Impedance at the input, Ω",
    kind=Impedance("impedance at the input"),
    usual=lambda values: None,
    example="none: it is asked",
    must_stand=False,
    draw=_draw_input,
)


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    if problem["load"] is not None and problem["input"] is not None:
        return (
            "Both ends are given, so nothing is asked: leave the load empty, or the impedance at the input."
        )
    return refuses_walk(problem)


def line_between(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """The line with its load, as far as the sheet has come; nothing of it while the load itself is asked."""
    if is_load_asked(work.problem) and "ohms" not in settled:
        return None
    load = work["ohms"] if is_load_asked(work.problem) else work["load"]
    told = work["along"].unit == "wavelengths" or "waves" in settled or "end" in settled
    return MatchingNetwork(
        load, work["line"], (Section(in_wavelengths(work) if told else np.nan, work["line"]),)
    )


def _task(work: Work) -> str:
    task = (
        "A line of {line}, {along} long, shows {ohms} at its input. Find the load at its end."
        if is_load_asked(work.problem)
        else "A line of {line}, {along} long, ends in {load}. Find the impedance at its input."
    )
    return with_frequency(work, task)


def _closing(work: Work) -> str:
    """What was found; of a wrong value no more than that it stands on the sheet."""
    true = Work(work.lesson, work.problem, work.notation)["ohms"]
    kind = work.lesson.field("ohms").kind(work)
    found = "the line ends in" if is_load_asked(work.problem) else "the input of the line shows"
    if kind.off_by(work["ohms"], true, work.problem.accuracy) > CLOSE:
        return f"By this sheet {found} {work.write('ohms')}."
    ratio = work.notation.number(float(swr(reflection_of(known_impedance(work) / work["line"]))), 2)
    return f"{found[0].upper()}{found[1:]} {work.write('ohms')}; the standing-wave ratio is {ratio} all along it."


LESSON = Lesson(
    key="along-the-line",
    title="Along the line",
    purpose="A line shows its load as another impedance at every place: find what stands at its other end.",
    task=_task,
    brief=lambda work: (
        "{ohms} at the input of {along}, {line}"
        if is_load_asked(work.problem)
        else "{load} behind {along}, {line}"
    ),
    givens=(KNOWN_LOAD, INPUT, LINE, ALONG, OFTEN_NONE, VELOCITY),
    steps=(
        NORMALISE,
        PLACE,
        MISMATCH,
        walk_steps.WAVES,
        walk_steps.START,
        walk_steps.END,
        walk_steps.THERE,
        walk_steps.OHMS,
    ),
    refuses=refuses,
    network=line_between,
    closing=_closing,
    wavelength_mm=wavelength_mm,
    words=words,
    instructive=is_instructive,
    places=(
        "At {place} only one end of this line can be reached with the bridge.",
        "The feeder at {place} was measured from one side; the other end is what counts.",
        "Between hut and mast at {place} lies this piece of line, and one of its ends was measured.",
        "A volunteer at {place} wants to know what stands at the far end of this cable.",
    ),
    terms=WALK_TERMS,
    primer=primers.ALONG_THE_LINE,
    needs=("reading-the-chart",),
)
