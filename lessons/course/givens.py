"""What the problems of several lessons give: a load, a line, a stub, a frequency; and how they are drawn at random."""

from __future__ import annotations

from collections.abc import Mapping
from math import floor, log10
from typing import Any

import numpy as np

from core.board import guide_wavelength_m
from core.line import impedance_from_reflection
from lessons.grammar.dice import Dice
from lessons.grammar.difficulty import ANY, Difficulty
from lessons.grammar.given_kinds import Factor, Frequency, LineOhms, Load, Word
from lessons.grammar.lesson import Work
from lessons.grammar.problem import Given, Problem

SMALLEST_SWR, LARGEST_SWR = 1.5, 5
HARD_SWR = (4, 15)
STEP_OHMS = 5
ROUND_TENTHS = (*range(1, 11), 12, 14, 15, 16, 18, 20, 25, 30, 40)  # of r and x: a chart has their lines
LINES, ROUND_LINES = (50, 50, 50, 75, 100), (50, 50, 100)
HARD_LINES = (60, 75, 75, 93, 120)  # of older and of special cables: common practice, no source
STUBS, NEARLY_ALIKE = (50, 75, 100), 1.25
FREQUENCIES = (None, 169e6, 434e6, 868e6, 2.4e9)
ROUND_FREQUENCIES = (None, 300e6)  # a wave of very nearly a metre on an air line
VELOCITIES = (0.66, 0.7, 0.82)  # solid and foamed cable: common practice, no source
PLACES = (
    "The whip over the float at {place} shows this load to its feeder.",
    "The wire loop in the culvert at {place} was measured at the end of its cable.",
    "The patch on the gauge hut at {place} is far from the impedance of its line.",
    "The input of the receiver at {place} has to be matched to the line from the antenna.",
    "The long feeder to the hilltop mast above {place} ends in this load.",
)
"""Where random loads hang in the river watch; `{place}` is one of its villages."""
Values = Mapping[str, Any]


def draw_load(dice: Dice, values: Values) -> complex:
    """An impedance of whole ohms; below the line's impedance as often as above."""
    draw = dice.difficulty.of(_usual_load, if_round=_round_load, if_hard=_awkward_load)
    return draw(dice, int(values["line"]))


def _usual_load(dice: Dice, line: int) -> complex:
    largest = dice.pick((line, LARGEST_SWR * line))
    resistance = dice.multiple(STEP_OHMS, largest)
    return complex(resistance, dice.multiple(STEP_OHMS, LARGEST_SWR * line // 2) * dice.pick((1, -1)))


def _round_load(dice: Dice, line: int) -> complex:
    """Both parts, normalised, are values whose circles a chart bears."""
    return complex(
        dice.pick(ROUND_TENTHS) * line / 10, dice.pick(ROUND_TENTHS) * line / 10 * dice.pick((1, -1))
    )


def _awkward_load(dice: Dice, line: int) -> complex:
    """Neither part in steps of 5 ohms, most points near the rim; as often below the line's impedance as above."""
    resistance, reactance = dice.pick(((line // 2, 2 * line), (5 * line, 5 * line)))
    return complex(
        dice.between(STEP_OHMS, resistance), dice.between(STEP_OHMS, reactance) * dice.pick((1, -1))
    )


def _draw_stub(dice: Dice, values: Values) -> float:
    line, other = values["line"], dice.pick(STUBS, if_round=ROUND_LINES)
    apart = [one for one in STUBS if not line / NEARLY_ALIKE <= one <= line * NEARLY_ALIKE]
    return float(dice.pick((line, line, line, other), if_hard=apart))


def is_instructive(problem: Problem) -> bool:
    """Whether the SWR of the load is neither too small to see nor too large to read."""
    return has_instructive_swr(problem["load"], problem["line"], problem.difficulty)


def instructive_swr(difficulty: Difficulty) -> tuple[float, float]:
    """The least and the greatest SWR of a random problem."""
    return difficulty.of((SMALLEST_SWR, LARGEST_SWR), if_hard=HARD_SWR)


def has_instructive_swr(load: complex, line: float, difficulty: Difficulty = ANY) -> bool:
    """The same of any impedance at the end of a line: in whole numbers, so exact everywhere.

    SWR <= s just when |Z - Z0| <= (s - 1) / (s + 1) |Z + Z0|."""
    back = (load.real - line) ** 2 + load.imag**2
    all_of_it = (load.real + line) ** 2 + load.imag**2
    least, most = instructive_swr(difficulty)
    at_least = back * (least + 1) ** 2 >= all_of_it * (least - 1) ** 2
    return at_least and back * (most + 1) ** 2 <= all_of_it * (most - 1) ** 2


def wavelength_mm(problem: Problem) -> float | None:
    """On the problem's line, None without a frequency."""
    frequency = problem.givens.get("frequency")
    return 1e3 * float(guide_wavelength_m(frequency, problem["velocity"])) if frequency else None


def with_frequency(work: Work, task: str) -> str:
    """A lesson's task, and the frequency and the velocity factor where the problem has them."""
    if not work["frequency"]:
        return task
    return f"{task} The frequency is {{frequency}}, the velocity factor {{velocity}}."


def load_at(reflection: complex, line_impedance: float) -> complex:
    """The load in ohms that a point put on the chart by hand stands for: in round numbers, never below zero."""
    load = complex(impedance_from_reflection(reflection)) * line_impedance
    if np.isinf(load):
        return complex(np.inf)
    step = 10.0 ** floor(log10(line_impedance / 20))
    digits = max(0, -floor(log10(step)))
    resistance, reactance = (round(round(part / step) * step, digits) for part in (load.real, load.imag))
    return complex(max(resistance, 0.0), reactance + 0.0)


LOAD = Given(
    key="load",
    label="Load impedance, Ω",
    kind=Load(),
    usual=lambda values: 25 - 35j,
    example="60 − j80",
    must_stand=True,
    draw=draw_load,
    put=lambda reflection, values: load_at(reflection, values["line"]),
    stands_at="place",
)
LINE = Given(
    key="line",
    label="Line impedance, Ω",
    kind=LineOhms(),
    usual=lambda values: 50.0,
    example="50",
    must_stand=True,
    draw=lambda dice, values: float(dice.pick(LINES, if_round=ROUND_LINES, if_hard=HARD_LINES)),
)
STUB = Given(
    key="stub",
    label="Stub impedance, Ω",
    kind=LineOhms("stub impedance"),
    usual=lambda values: values["line"],
    example="the line's",
    draw=_draw_stub,
)
FREQUENCY = Given(
    key="frequency",
    label="Frequency",
    kind=Frequency(),
    usual=lambda values: None,
    example="868 MHz, if lengths in mm are wanted",
    draw=lambda dice, values: dice.pick(FREQUENCIES, if_round=ROUND_FREQUENCIES, if_hard=FREQUENCIES[1:]),
)
VELOCITY = Given(
    key="velocity",
    label="Velocity factor",
    kind=Factor("velocity factor", 0, 1, "0.66"),
    usual=lambda values: 1.0,
    example="0.66",
    draw=lambda dice, values: dice.pick(VELOCITIES, if_round=(1.0,)) if values["frequency"] else 1.0,
)
END = Given(
    key="end",
    label="Stub's end",
    kind=Word("stub's end", (("short", "short circuit"), ("open", "open circuit"))),
    usual=lambda values: "short",
    draw=lambda dice, values: dice.pick(("short", "short", "short", "open"), if_hard=("short", "open")),
)
