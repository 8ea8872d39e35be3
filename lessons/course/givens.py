"""What the problems of several lessons give: a load, a line, a stub, a frequency; and how they are drawn at random."""

from __future__ import annotations

from collections.abc import Mapping
from math import floor, log10
from typing import Any

import numpy as np

from core.board import guide_wavelength_m
from core.line import impedance_from_reflection
from lessons.grammar.dice import Dice
from lessons.grammar.given_kinds import Factor, Frequency, LineOhms, Load, Word
from lessons.grammar.lesson import Work
from lessons.grammar.problem import Given, Problem

SMALLEST_SWR, LARGEST_SWR = 1.5, 5
STEP_OHMS = 5
LINES = (50, 50, 50, 75, 100)
STUBS = (50, 75, 100)
FREQUENCIES = (None, 169e6, 434e6, 868e6, 2.4e9)
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
    """An impedance in round numbers; below the line's impedance as often as above."""
    line = int(values["line"])
    largest = dice.pick((line, LARGEST_SWR * line))
    resistance = dice.multiple(STEP_OHMS, largest)
    return complex(resistance, dice.multiple(STEP_OHMS, LARGEST_SWR * line // 2) * dice.pick((1, -1)))


def _draw_stub(dice: Dice, values: Values) -> float:
    line, other = values["line"], dice.pick(STUBS)
    return float(dice.pick((line, line, line, other)))


def is_instructive(problem: Problem) -> bool:
    """Whether the SWR of the load is neither too small to see nor too large to read."""
    return has_instructive_swr(problem["load"], problem["line"])


def has_instructive_swr(load: complex, line: float) -> bool:
    """The same of any impedance at the end of a line: in whole numbers, so exact everywhere.

    SWR <= s just when |Z - Z0| <= (s - 1) / (s + 1) |Z + Z0|."""
    back = (load.real - line) ** 2 + load.imag**2
    all_of_it = (load.real + line) ** 2 + load.imag**2
    at_least = back * (SMALLEST_SWR + 1) ** 2 >= all_of_it * (SMALLEST_SWR - 1) ** 2
    return at_least and back * (LARGEST_SWR + 1) ** 2 <= all_of_it * (LARGEST_SWR - 1) ** 2


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
    draw=lambda dice, values: float(dice.pick(LINES)),
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
    draw=lambda dice, values: dice.pick(FREQUENCIES),
)
VELOCITY = Given(
    key="velocity",
    label="Velocity factor",
    kind=Factor("velocity factor", 0, 1, "0.66"),
    usual=lambda values: 1.0,
    example="0.66",
    draw=lambda dice, values: dice.pick(VELOCITIES) if values["frequency"] else 1.0,
)
END = Given(
    key="end",
    label="Stub's end",
    kind=Word("stub's end", (("short", "short circuit"), ("open", "open circuit"))),
    usual=lambda values: "short",
    draw=lambda dice, values: dice.pick(("short", "short", "short", "open")),
)
