"""The standing wave: where on the line the voltage is highest and lowest, what stands there, and how many volts."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

import numpy as np

from core.elements import Section
from core.line import swr, wrap_half_wave
from core.network import MatchingNetwork
from lessons.course import primers
from lessons.course.axis_steps import ENDS, RESISTANCE, WALK, distance_slips, readings_told
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.distance_step import distance_step
from lessons.course.givens import LINE, LOAD, is_instructive
from lessons.course.glossary import STANDING_TERMS
from lessons.course.maximum_and_minimum import MAXIMUM, MINIMUM, PLACES, distance, distance_routes
from lessons.course.stub_values import LARGEST_SWR, SMALLEST_SWR, bare
from lessons.course.voltage_ratio import RATIO
from lessons.course.voltage_steps import OHMS, VOLTAGE, crest
from lessons.grammar.branch import Branch
from lessons.grammar.given_kinds import Power
from lessons.grammar.lesson import Lesson, Problem, Work
from lessons.grammar.problem import Given
from lessons.grammar.side import reflection_of
from lessons.grammar.term import Term

POWER = Given(
    key="power",
    label="Power that the load takes, W",
    kind=Power(),
    usual=lambda values: 10.0,
    example="10 W",
    draw=lambda dice, values: float(
        dice.pick((0.5, 1, 2, 5, 10, 25, 50), if_round=(1, 10, 100), if_hard=(0.7, 3, 7, 15, 35, 80))
    ),
)


def _swing(work: Work) -> str:
    """Between what the voltage lies, beside that of the wave toward the load alone."""
    size = abs(work["place"])
    least, most = (work.notation.number(one, 2) for one in (1 - size, 1 + size))
    return (
        f"|Γ| = {work.notation.number(size)}: the voltage lies between {least} and {most} times that of the wave "
        "toward the load alone."
    )


WHICH_END = replace(
    ENDS,
    title="Find maximum and minimum",
    ask="The circle meets the axis of the chart twice. At which of the two is the voltage on the line highest?",
    goal="Along the line the two waves add here and take from each other there, so the voltage stands in highs and "
    "lows.",
    rule="Where the reflection is positive both waves add: the voltage is at its highest, and z is a resistance above "
    "1. Where it is negative they take from each other.",
    numbers=_swing,
    because="The current does the opposite: it is lowest where the voltage is highest.",
    fields=ENDS.fields[1:],
)
DISTANCES = distance_step(
    WALK,
    value=distance,
    to="the first maximum and to the first minimum of voltage",
    what="that place",
    beside="each end of the axis",
    numbers=readings_told,
    because="From a maximum to the next minimum it is always a quarter wavelength; after half a wavelength all comes "
    "again.",
    routes=distance_routes,
    slips=distance_slips,
    element=0,
)
AXIS = replace(
    RESISTANCE,
    goal="At the maximum the two waves are in step, at the minimum they are opposed: both leave voltage and current in "
    "step, so z has no reactance.",
    fields=tuple(
        replace(one, names=("r", "z", "normalised resistance", "resistance r")) for one in RESISTANCE.fields
    ),
)


def _refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    load = problem["load"]
    if np.isinf(load) or load.real == 0:
        return (
            "This load takes no power: all of the wave comes back, and at the minima the voltage is zero. Choose one "
            "with a resistance."
        )
    mismatch = swr(reflection_of(load / problem["line"]))
    if mismatch > LARGEST_SWR:
        return (
            "Next to all of the wave comes back here, so the circle cannot be told from the rim. Choose a load with "
            "more resistance."
        )
    if mismatch < SMALLEST_SWR:
        return "This is the line's own impedance: nothing comes back, and the voltage is the same everywhere."
    return ""


def _line_up_to(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """The line from the load to a place, as soon as it is known where that is."""
    if not branch or f"distance.{branch.key}" not in settled:
        return None
    length = float(wrap_half_wave(work.of("distance", branch)))
    return MatchingNetwork(work["load"], work["line"], (Section(length, work["line"]),))


def _closing(work: Work) -> str:
    """What the voltages are by the solver, whatever stands on the sheet; and the caution that belongs to them."""
    true = Work(work.lesson, work.problem, work.notation)
    highest, lowest = (true.write_of("voltage", one) for one in (MAXIMUM, MINIMUM))
    matched = true.notation.number(crest(true, true["line"]), 2)
    return (
        f"Along half a wavelength of this line the peak voltage swings between {lowest} and {highest}; on a matched "
        f"line it would be {matched} V everywhere. A high standing-wave ratio makes high "
        "voltage of modest power: switch off before you touch such a line."
    )


LESSON = Lesson(
    key="standing-wave",
    title="The standing wave",
    purpose="Two waves on one line make places of high and of low voltage: find where they are, and how high it is.",
    task="A line of {line} ends in {load}, which takes {power}. Find the first maximum and the first minimum of "
    "voltage, and the peak voltage at both.",
    brief="{load} on {line}, {power}",
    givens=(LOAD, LINE, POWER),
    branches=PLACES.branches,
    steps=(NORMALISE, PLACE, MISMATCH, WHICH_END, DISTANCES, AXIS, OHMS, VOLTAGE, RATIO),
    refuses=_refuses,
    network=_line_up_to,
    bare=bare,
    closing=_closing,
    instructive=is_instructive,
    places=(
        "The cable at {place} grows warm in some places and not in others.",
        "Before the feeder at {place} gets its new transmitter, somebody wants to know what its insulation must stand.",
        "A probe is slid along the line at {place}, and its needle rises and falls.",
        "A surge arrester is to hang across the line at {place}, and must not fire while the radio sends.",
    ),
    terms=(
        *STANDING_TERMS,
        Term(
            ("peak voltage", "peak values", "peak"),
            "How high the voltage is at the crest of its wave; the rms value that most meters show is √2 times less.",
        ),
    ),
    primer=primers.STANDING_WAVE,
    needs=("along-the-line",),
)
