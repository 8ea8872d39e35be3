"""A lossy line: its point spirals in, its input hides the mismatch, and the mismatch adds to what is lost."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

import numpy as np

from core.attenuation import attenuation_from_db
from core.elements import Section
from core.network import MatchingNetwork
from lessons.course import primers, walk_givens, walk_steps
from lessons.course.chart_steps import NORMALISE, PLACE
from lessons.course.givens import LINE, LOAD, VELOCITY, wavelength_mm, with_frequency
from lessons.course.glossary import LOSSY_TERMS
from lessons.course.lossy_steps import ADDED, ARRIVES, AT_LOAD, INWARD, TURN
from lessons.course.lossy_values import decibels_lost, kept, share_of
from lessons.course.walk_values import in_wavelengths, words
from lessons.grammar.branch import Branch
from lessons.grammar.given_kinds import Decibels
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Given, Problem
from lessons.grammar.side import reflection_of

LEAST_ADDED = 0.1  # dB; less is nothing to find

LOSS = Given(
    key="loss",
    label="Matched loss of the line, dB",
    kind=Decibels("matched loss", 0, 20, "1.5 dB"),
    usual=lambda values: 2.0,
    example="1.5 dB",
    must_stand=True,
    draw=lambda dice, values: dice.pick(
        (0.5, 1.0, 1.5, 2.0, 2.5, 3.0), if_round=(1.0, 2.0, 3.0), if_hard=(0.7, 1.3, 1.8, 2.6, 3.4, 4.2)
    ),
)


def _added(problem: Problem) -> float:
    """The decibels that the mismatch adds."""
    size, part = abs(reflection_of(problem["load"] / problem["line"])), kept(problem["loss"])
    return decibels_lost(share_of(size, size * part, part)) - float(problem["loss"])


def _instructive(problem: Problem) -> bool:
    return walk_givens.is_instructive(problem) and _added(problem) >= LEAST_ADDED


def _line(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork:
    """The line with its load and its loss, as far as the sheet has come."""
    told = work["along"].unit == "wavelengths" or "waves" in settled or "end" in settled
    length = in_wavelengths(work) if told else np.nan
    loss = attenuation_from_db(work["loss"] / length) if told else 0.0
    return MatchingNetwork(work["load"], work["line"], (Section(length, work["line"], loss),))


def _task(work: Work) -> str:
    return with_frequency(
        work,
        "{along} of a line of {line} has a matched loss of {loss} and ends in {load}. Find the standing-wave ratio at "
        "its input, what arrives at the load, and what the mismatch adds to the loss.",
    )


def _closing(work: Work) -> str:
    """What the line does, by the solver, whatever stands on the sheet."""
    true = Work(work.lesson, work.problem, work.notation)
    return (
        f"Of the power that goes in, {true.write('share')} arrives. The line's own {{loss}} became "
        f"{true.write('total')}: the mismatch adds {true.write('extra')}. At the load the standing-wave ratio is "
        f"{true.write('mismatch')}, at the input it looks like {true.write('ratio')}."
    )


LESSON = Lesson(
    key="lossy-line",
    title="A line with loss",
    purpose="Loss leads the point inward: the input looks better than the load is, and the mismatch costs power.",
    task=_task,
    brief="{load} behind {along} of {line}, {loss}",
    givens=(LOAD, LINE, walk_givens.ALONG, LOSS, walk_givens.OFTEN_NONE, VELOCITY),
    steps=(
        NORMALISE,
        PLACE,
        AT_LOAD,
        walk_steps.WAVES,
        replace(
            walk_steps.START, because="The walk is measured from here, whether the line has loss or not."
        ),
        TURN,
        INWARD,
        ARRIVES,
        ADDED,
    ),
    refuses=walk_givens.refuses_walk,
    network=_line,
    closing=_closing,
    wavelength_mm=wavelength_mm,
    words=words,
    instructive=_instructive,
    places=(
        "At {place} the ratio at the hut looks fine, and yet the signal is weak.",
        "The old cable at {place} has taken water. Its loss was measured with a matched load at its end.",
        "At {place} the thin cable was the only one that went through the pipe.",
        "Before a better cable is bought for {place}, somebody should know what the mismatch costs on this one.",
    ),
    terms=LOSSY_TERMS,
    needs=("reading-the-chart", "along-the-line"),
    primer=primers.LOSSY_LINE,
)
