"""From wavelengths to copper: a solved design of line and stub, made on a board."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from core.line import swr
from core.network import MatchingNetwork
from lessons.course import primers, stub_values
from lessons.course.copper_cuts import AT_THE_CUTTER
from lessons.course.copper_steps import ON_THE_BOARD
from lessons.course.copper_values import (
    PIECES,
    STEP_WORDS,
    STEPS_MM,
    as_etched,
    board,
    built,
    height_refused,
    step_mm,
    wave_mm,
    waves,
)
from lessons.course.givens import END, FREQUENCY, LINE, LOAD, is_instructive
from lessons.course.glossary import COPPER_TERMS
from lessons.course.near_and_far import BOTH
from lessons.grammar.branch import Branch
from lessons.grammar.given_kinds import Factor, Word
from lessons.grammar.lesson import Impossible, Lesson, Work
from lessons.grammar.problem import Given, Problem

SHORTEST = 0.03  # wavelengths, also from a whole half: shorter pieces are hardly lines
HALFWAY, CLEAR = 0.5, 0.1  # of a step: what lies so near the middle of two steps is rounded either way
Values = Mapping[str, Any]

HERTZ = replace(
    FREQUENCY,
    usual=lambda values: 868e6,
    example="868 MHz",
    must_stand=True,
    draw=lambda dice, values: dice.pick((434e6, 868e6, 868e6, 2.4e9, 2.4e9, 2.4e9), if_round=(1e9, 2e9)),
)
STUB_END = replace(END, draw=lambda dice, values: dice.pick(("short", "open", "open")))
SOLUTION = Given(
    key="design",
    label="Solution to make",
    kind=Word("solution", tuple((one.key, f"the {one.named('one')}") for one in BOTH)),
    usual=lambda values: BOTH[0].key,
    draw=lambda dice, values: dice.pick(BOTH).key,
)
HEIGHT = Given(
    key="height",
    label="Height of the board, mm",
    kind=Factor("height of the board in millimetres", 0, 20, "1.6"),
    usual=lambda values: 1.6,
    example="1.6",
    must_stand=True,
    draw=lambda dice, values: dice.pick((0.6, 0.8, 1.2, 1.6, 2.4), if_round=(1.0, 2.0)),
)
PERMITTIVITY = Given(
    key="permittivity",
    label="Relative permittivity of the board",
    kind=Factor("relative permittivity", 1, 16, "4.4"),
    usual=lambda values: 4.4,
    example="4.4",
    must_stand=True,
    draw=lambda dice, values: dice.pick(
        (2.3, 2.9, 3.4, 4.2, 4.4, 6.2, 9.8),
        if_round=(3.0, 4.0, 6.0, 10.0),
        if_hard=(2.35, 3.27, 4.55, 6.45, 9.15),
    ),
)
CUTTER = Given(
    key="cutter",
    label="Step of the cutter",
    kind=Word("step of the cutter", tuple((key, f"{size:g} mm") for key, size in STEPS_MM.items())),
    usual=lambda values: "tenth",
    draw=lambda dice, values: dice.pick(("tenth", "half", "half")),
)


def drawn_mm(problem: Problem) -> float | None:
    """The wave by which the drawing has millimetres: none at an open end, where a piece acts longer than its copper."""
    return wave_mm(problem) if problem["end"] == "short" else None


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to make, or nothing."""
    if refusal := stub_values.refuses(problem):
        return refusal
    return _no_strip(problem) if wave_mm(problem) is None else height_refused(problem)


def _no_strip(problem: Problem) -> str:
    made = board(problem)
    high, low = (float(np.real(made.impedance(width))) for width in made.widths_mm())
    return (
        f"On this board a strip has from {low:.0f} to {high:.0f} ohms, where the formulas hold: no strip has "
        f"{problem['line']:g}. Choose another line or another board."
    )


def instructive(problem: Problem) -> bool:
    """Whether both pieces are lines that can be seen, and it is clear to which step they are rounded."""
    if not is_instructive(problem) or refuses(problem):
        return False
    work = _solver(problem)
    wanted = (work["metric.distance"], work["copper"])
    return all(SHORTEST <= waves(problem, one) <= HALFWAY - SHORTEST for one in PIECES) and all(
        abs(length / step_mm(problem) % 1 - HALFWAY) > CLEAR for length in wanted
    )


def _solver(problem: Problem) -> Work:
    """The solver's values."""
    return Work(LESSON, problem)


def _network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork:
    """The design, and each piece whose length at the cutter is known as it acts on the problem's own board."""
    pieces = [one for one in PIECES if f"cut.{one}" in settled]
    try:
        return as_etched(work, pieces) if pieces else _designed(work.problem)
    except Impossible:
        return _designed(work.problem)


def _designed(problem: Problem) -> MatchingNetwork:
    return built(problem, *(waves(problem, one) for one in PIECES))


def _words(work: Work) -> Mapping[str, str]:
    solved = not stub_values.refuses(work.problem)
    wanted = {
        f"{one}_wanted": work.notation.wavelengths(waves(work.problem, one), 1) if solved else "none"
        for one in PIECES
    }
    return {"cut_step": STEP_WORDS[work["cutter"]], **wanted}


def _task(work: Work) -> str:
    design = (
        "On a line of {line}, a shunt stub with {an_end} circuit at its end is to match {load} at {frequency}"
    )
    if not stub_values.refuses(work.problem):
        design += ": the {design} solution has {d} = {distance_wanted} and {l} = {length_wanted}"
    return (
        f"{design}. Make it of strips of {{line}} on a board {{height}} mm high, ε_r = {{permittivity}}, with a cutter "
        "that moves in steps of {cut_step}."
    )


def _closing(work: Work) -> str:
    """What the pieces do on the problem's own board, whatever the sheet has made of it."""
    try:
        left = work.notation.number(float(swr(as_etched(work).input_reflection())), 3)
        wide, first, second = (work.write(one) for one in ("strip.width", *(f"cut.{one}" for one in PIECES)))
    except Impossible:
        return "By this sheet nothing can be cut."
    return f"Strips {wide} wide, line and stub cut to {first} and {second}, leave a standing-wave ratio of {left}."


LESSON = Lesson(
    key="wavelengths-to-copper",
    title="From wavelengths to copper",
    purpose="A design in wavelengths is no copper yet: find the strip, its wave, and what a cutter can make of it.",
    task=_task,
    brief="Stub for {load} on a board of ε_r = {permittivity}, {height} mm",
    givens=(LOAD, LINE, HERTZ, STUB_END, SOLUTION, HEIGHT, PERMITTIVITY, CUTTER),
    steps=(*ON_THE_BOARD, *AT_THE_CUTTER),
    refuses=refuses,
    network=_network,
    bare=stub_values.bare,
    closing=_closing,
    wavelength_mm=drawn_mm,
    words=_words,
    instructive=instructive,
    places=(
        "At {place} a volunteer has solved the match on paper, and now it is to be etched.",
        "The board shop next to {place} has this board in stock, and a cutter that is not the best.",
        "The last match at {place} was cut for another board, and nothing fitted. Do it anew for this one.",
        "The radio at {place} gets its match on its own board; the design is done, the copper is not.",
    ),
    terms=COPPER_TERMS,
    primer=primers.WAVELENGTHS_TO_COPPER,
    needs=("shunt-stub",),
)
