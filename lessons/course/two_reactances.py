"""Matching with two reactances, one in the line and one across it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from core.network import MatchingNetwork, Reactance
from lessons.course import primers, two_bought, two_shelf, two_slips, two_steps
from lessons.course import two_values as values
from lessons.course.admittance_step import ADMITTANCE
from lessons.course.chart_steps import NORMALISE, PLACE
from lessons.course.choosing_steps import ANYWAY, WIDER_BAND, Reason, choose
from lessons.course.givens import FREQUENCY, LINE, LOAD, PLACES, is_instructive
from lessons.course.glossary import TWO_REACTANCES_TERMS
from lessons.course.stub_values import bare
from lessons.grammar.branch import Branch
from lessons.grammar.dice import Dice
from lessons.grammar.kinds import Choice
from lessons.grammar.lesson import Field, Lesson, Problem, Step, Work
from lessons.grammar.side import SERIES, SHUNT
from lessons.grammar.strokes import Curve

LEAST, MOST = 0.15, 4.0  # normalised: what a part can be read to add
BESIDE_CIRCLE = 0.1  # of r or g: nearer to a unit circle it cannot be told which side a load is on


def _coils(network: MatchingNetwork) -> float:
    return sum(1.0 for one in network.elements if isinstance(one, Reactance) and np.all(one.reactance > 0))


def _is_instructive(problem: Problem) -> bool:
    """Whether it is clear on which side of the circles the load is, and every part is of a size that can be read."""
    if not is_instructive(problem):
        return False
    if any(abs(one.load_at(problem).real - 1) < BESIDE_CIRCLE for one in values.BOTH):
        return False
    work = Work(LESSON, problem)
    parts = [
        abs(work.of(f"{values.arrangement_of(one).key}_{which}", one))
        for one in LESSON.branches_of(problem)
        for which in values.PARTS
    ]
    return all(LEAST <= part <= MOST for part in parts)


def _draw_frequency(dice: Dice, given: Mapping[str, Any]) -> float | None:
    return dice.pick((169e6, 434e6, 868e6, 2.4e9))


WAYS = Step(
    key="ways",
    title="See which arrangements exist",
    ask="One part stands in the line, one across it. Which of them can stand nearer the load here?",
    goal="The first part leads to a unit circle of the other grid, and not every load can get there.",
    rule="Inside the circle r = 1 the part across the line must come first, inside g = 1 the part in the line; outside "
    "both either can.",
    numbers=lambda w: (
        f"r is {w.notation.number(w['normalise'].real)} and g is {w.notation.number(w['admittance'].real)}."
    ),
    because="A part in the line never changes r, one across it never changes g.",
    fields=(
        Field(
            quantity="ways",
            label="Nearer the load can stand",
            names=("ways", "nearer the load", "arrangements"),
            kind=lambda w: Choice(
                (
                    ("shunt", "only the part across the line"),
                    ("series", "only the part in the line"),
                    ("either", "either of them"),
                    ("none", "neither: two parts cannot match it"),
                )
            ),
            value=values.ways,
            slips=two_slips.WAYS,
            strokes=lambda w: (
                Curve(SERIES.unit_circle, "unit", "impedance", "r = 1", "The unit-resistance circle, r = 1."),
                Curve(
                    SHUNT.unit_circle,
                    "construction",
                    "admittance",
                    "g = 1",
                    "The unit-conductance circle, g = 1.",
                ),
            ),
        ),
    ),
)


def _told(work: Work, branch: Branch) -> str:
    """Both parts of a solution."""
    way = values.arrangement_of(branch)
    return " and ".join(
        f"{way.side_of(which).part_symbol} = {work.write_of(f'{way.key}_{which}', branch)}"
        for which in values.PARTS
    )


def _task(work: Work) -> str:
    task = "Match {load} to a line of {line} with two reactances, one in the line and one across it."
    return task + (" Build it for {frequency}, of parts with values of {shelf}." if work["frequency"] else "")


LESSON = Lesson(
    key="two-reactances",
    title="Matching with two reactances",
    purpose="A coil and a capacitor, or two of a kind, match nearly any load in little room: find all pairs.",
    task=_task,
    brief="Load {load} on {line}, two reactances",
    givens=(
        LOAD,
        LINE,
        replace(FREQUENCY, example="868 MHz, if henries and farads are wanted", draw=_draw_frequency),
        two_shelf.E_SERIES,
    ),
    branches=values.BRANCHES,
    steps=(
        NORMALISE,
        PLACE,
        ADMITTANCE,
        WAYS,
        *two_steps.steps_of(values.SHUNT_FIRST),
        *two_steps.steps_of(values.SERIES_FIRST),
        choose(
            (
                WIDER_BAND,
                Reason("fewest coils", "no other takes fewer coils, which lose more than capacitors", _coils),
                ANYWAY,
            ),
            "Small reactances store little and leave a wide band. Coils lose more than capacitors and cost more.",
            "A coil in the line and a capacitor across it also keep harmonics back.",
            _told,
            "Each solution matches. Which would you build, and why?",
            "only for another solution",
        ),
        *two_shelf.AFTER_THE_CHOICE,
    ),
    refuses=values.refuses,
    network=values.network,
    bare=bare,
    matches=True,
    besides=two_bought.told,
    words=lambda work: {"shelf": two_bought.shelf(work)},
    instructive=_is_instructive,
    places=tuple(f"{place} There is room for two parts, and for no stub." for place in PLACES),
    terms=TWO_REACTANCES_TERMS,
    primer=primers.TWO_REACTANCES,
    needs=("impedance-and-admittance",),
)
