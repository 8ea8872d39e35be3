"""Along a line: what its input shows of the load, and back from there to the load."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from core.board import guide_wavelength_m
from core.elements import Section
from core.line import half_wave_difference, swr
from core.network import MatchingNetwork
from lessons.course import primers, walk_steps
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.givens import (
    FREQUENCY,
    LINE,
    LOAD,
    VELOCITY,
    draw_load,
    has_instructive_swr,
    wavelength_mm,
    with_frequency,
)
from lessons.course.glossary import WALK_TERMS
from lessons.course.stub_values import LARGEST_SWR, SMALLEST_SWR, known_impedance
from lessons.course.walk_values import in_wavelengths, is_load_asked, words
from lessons.grammar.branch import Branch
from lessons.grammar.dice import Dice
from lessons.grammar.given_kinds import Impedance, Stated, StatedLength
from lessons.grammar.kinds import CLOSE
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.problem import Given, Problem
from lessons.grammar.side import reflection_of

SHORTEST = 0.03  # wavelengths, also from a whole half: less is hardly a walk
Values = Mapping[str, Any]


def _draw_input(dice: Dice, values: Values) -> complex | None:
    """One problem in three leads back to the load."""
    return draw_load(dice, values) if dice.pick((True, False, False)) else None


def _draw_length(dice: Dice, values: Values) -> Stated:
    """Millimetres where there is a frequency, else wavelengths or degrees; now and then more than half a wave."""
    hundredths = dice.multiple(1, dice.pick((45, 45, 45, 95)))
    if values["frequency"]:
        wave = 1e3 * float(guide_wavelength_m(values["frequency"], values["velocity"]))
        step = 10 if wave > 400 else 1
        return Stated(float(step * max(1, round(hundredths / 100 * wave / step))), "millimetres")
    if dice.pick((True, False, False)):
        return Stated(float(5 * max(1, round(0.72 * hundredths))), "degrees")
    return Stated(hundredths / 100, "wavelengths")


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
ALONG = Given(
    key="along",
    label="Length of the line",
    kind=StatedLength(),
    usual=lambda values: Stated(0.15, "wavelengths"),
    example="0.15, 54° or, with a frequency, 86 mm",
    must_stand=True,
    draw=_draw_length,
)
OFTEN_NONE = replace(
    FREQUENCY,
    example="868 MHz, if the length is in mm",
    draw=lambda dice, values: dice.pick((*[None] * 5, 169e6, 434e6, 868e6, 2.4e9)),
)


def is_instructive(problem: Problem) -> bool:
    """Whether the circle can be read well, and the walk leads somewhere else."""
    length = abs(float(half_wave_difference(problem["along"].wavelengths(wavelength_mm(problem)), 0.0)))
    return length >= SHORTEST and has_instructive_swr(known_impedance(problem), problem["line"])


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    if problem["load"] is not None and problem["input"] is not None:
        return (
            "Both ends are given, so nothing is asked: leave the load empty, or the impedance at the input."
        )
    if problem["along"].unit == "millimetres" and not problem["frequency"]:
        return "Millimetres say something only with a frequency: add it, or give the length in wavelengths or degrees."
    if problem["along"].wavelengths(wavelength_mm(problem)) > MOST_WAVES:
        return f"This line is more than {MOST_WAVES} wavelengths long at this frequency: take a shorter one."
    mismatch = swr(reflection_of(known_impedance(problem) / problem["line"]))
    if mismatch > LARGEST_SWR:
        return (
            "Next to all of the wave comes back here: the circle cannot be told from the rim of the chart, and its "
            "standing-wave ratio cannot be read. Choose an impedance with more resistance."
        )
    if mismatch < SMALLEST_SWR:
        return "This is the impedance of the line itself: it shows the same everywhere, so there is nothing to walk."
    return ""


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
)
