"""The same load as an impedance and as an admittance: why one over z stands opposite, and what it is in siemens."""

from __future__ import annotations

import numpy as np

from core.line import swr
from lessons.course import primers
from lessons.course.admittance_step import ADMITTANCE
from lessons.course.chart_steps import NORMALISE, PLACE
from lessons.course.givens import LINE, LOAD, is_instructive
from lessons.course.glossary import LINE_TERMS
from lessons.course.siemens_steps import COIL, NOTHING, OPPOSITE, PARALLEL, SIEMENS
from lessons.course.stub_values import LARGEST_SWR, SMALLEST_SWR, bare
from lessons.grammar.lesson import Lesson, Problem, Work
from lessons.grammar.side import reflection_of


def _refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    load = problem["load"]
    if np.isinf(load) or load.real == 0:
        return (
            "This load takes no power: there is no resistor in it to be found. Choose one with a resistance."
        )
    mismatch = swr(reflection_of(load / problem["line"]))
    if mismatch > LARGEST_SWR:
        return "This load stands on the rim of the chart, as far as an eye can tell. Choose one with more resistance."
    if mismatch < SMALLEST_SWR:
        return "This load is the line's own impedance. It stands in the centre, and one over it does as well."
    return ""


def _closing(work: Work) -> str:
    """What the load is, by the solver, whatever stands on the sheet."""
    true = Work(work.lesson, work.problem, work.notation)
    part = {COIL: "a coil", NOTHING: "nothing"}.get(true["parallel.part"], "a capacitor")
    return (
        f"One load, said twice: {{load}} in series, or {true.write('parallel.resistor')} with {part} beside it. "
        f"Its admittance is {true.write('siemens')}."
    )


LESSON = Lesson(
    key="impedance-and-admittance",
    title="Impedance and admittance",
    purpose="What is in the line adds as impedance, what is across it as admittance: find the one from the other.",
    task="Find the admittance of {load} on a line of {line}, on the chart and in millisiemens.",
    brief="Admittance of {load} on {line}",
    givens=(LOAD, LINE),
    steps=(NORMALISE, PLACE, OPPOSITE, ADMITTANCE, SIEMENS, PARALLEL),
    refuses=_refuses,
    bare=bare,
    closing=_closing,
    instructive=is_instructive,
    places=(
        "At {place} something is to be hung across the line where this load stands.",
        "The bridge at {place} shows impedances, and the part to be added lies across the line.",
        "The antenna at {place} was measured in series form; the drawing shows two parts side by side.",
        "Two loads are to share the line at {place}. Begin with this one.",
    ),
    terms=LINE_TERMS,
    primer=primers.IMPEDANCE_AND_ADMITTANCE,
    needs=("reading-the-chart",),
)
