"""What the problems of a walk along a line give: its length, in whatever unit, and the frequency that one needs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from core.board import guide_wavelength_m
from core.line import half_wave_difference, swr
from lessons.course.givens import (
    FREQUENCIES,
    FREQUENCY,
    ROUND_FREQUENCIES,
    has_instructive_swr,
    wavelength_mm,
)
from lessons.course.stub_values import LARGEST_SWR, SMALLEST_SWR, known_impedance
from lessons.grammar.dice import Dice
from lessons.grammar.given_lengths import Stated, StatedLength
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.problem import Given, Problem
from lessons.grammar.side import reflection_of

LONG_MM = 400
SHORTEST = 0.03  # wavelengths, also from a whole half: less is hardly a walk
Values = Mapping[str, Any]


def draw_length(dice: Dice, values: Values, longest: int = 45, coarse_mm: int = 10) -> Stated:
    """Millimetres where there is a frequency, else wavelengths or degrees; now and then more than half a wave.

    longest : the usual one, in hundredths of a wave.  coarse_mm : steps of millimetres where the wave is long."""
    hundredths = _draw_hundredths(dice, longest)
    if values["frequency"]:
        wave = 1e3 * float(guide_wavelength_m(values["frequency"], values["velocity"]))
        step = dice.difficulty.of(coarse_mm if wave > LONG_MM else 1, if_hard=1)
        return Stated(float(step * max(1, round(hundredths / 100 * wave / step))), "millimetres")
    if dice.pick((True, False, False)):
        step = dice.difficulty.of(5, if_round=45, if_hard=1)
        return Stated(float(step * max(1, round(3.6 * hundredths / step))), "degrees")
    return Stated(hundredths / 100, "wavelengths")


def _draw_hundredths(dice: Dice, longest: int) -> float:
    """Of a wave: any whole number of them; fives of them where round, thousandths of a wave where hard."""
    most = dice.pick((longest, longest, longest, 95), if_round=(45,), if_hard=(longest, 95))
    draw = dice.difficulty.of(dice.multiple, if_hard=dice.between)
    usual = draw(*dice.difficulty.of((1, most), if_round=(5, most), if_hard=(10, 10 * most)))
    return usual / dice.difficulty.of(1, if_hard=10)


ALONG = Given(
    key="along",
    label="Length of the line",
    kind=StatedLength(),
    usual=lambda values: Stated(0.15, "wavelengths"),
    example="0.15, 54° or, with a frequency, 86 mm",
    must_stand=True,
    draw=draw_length,
)
OFTEN_NONE = replace(
    FREQUENCY,
    example="868 MHz, if the length is in mm",
    draw=lambda dice, values: dice.pick(
        (*[None] * 5, 169e6, 434e6, 868e6, 2.4e9),
        if_round=(None, None, *ROUND_FREQUENCIES),
        if_hard=FREQUENCIES,
    ),
)


def is_instructive(problem: Problem) -> bool:
    """Whether the circle can be read well, and the walk leads somewhere else."""
    length = abs(float(half_wave_difference(problem["along"].wavelengths(wavelength_mm(problem)), 0.0)))
    return length >= SHORTEST and has_instructive_swr(
        known_impedance(problem), problem["line"], problem.difficulty
    )


def refuses_walk(problem: Problem) -> str:
    """Why there is nothing to walk, or nothing."""
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
