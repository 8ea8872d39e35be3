"""The steps on the board: how wide the strip is, what a wave on it meets, and how long the wave is."""

from __future__ import annotations

from collections.abc import Iterator

from core.chart import mismatch_circle
from lessons.course import copper_slips
from lessons.course.copper_values import (
    effective,
    free_wave,
    load_reflection,
    ratio,
    wave,
    wave_mm,
    width,
)
from lessons.grammar.kinds import Dimension, Number, Wavelength
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.strokes import Curve, Point, Stroke

NARROW = 2.0  # heights, below which the first formula holds


def _load_strokes(work: Work) -> Iterator[Stroke]:
    """What the design is for stands on the chart from the first answer on."""
    reflection = load_reflection(work)
    yield Point(reflection, "load", "impedance", "z", work.say("The load, {load} on a line of {line}."))
    yield Curve(
        mismatch_circle(reflection),
        "mismatch",
        "impedance",
        "SWR",
        "The circle on which the line moves the load, up to the stub.",
    )


def _which_formula(work: Work) -> str:
    which = (
        "first formula gives less than 2, so it"
        if ratio(work) < NARROW
        else "first formula gives no width below 2, so the second"
    )
    return work.say("Z₀ is {line} and ε_r is {permittivity}. Here the ") + f"{which} holds."


STRIP = Step(
    key="strip",
    title="Find the strip's width",
    ask="The board is {height} mm high, with ε_r = {permittivity}. How wide is a strip of {line} on it: w/h, and in "
    "millimetres?",
    goal="The wider the strip, the lower its impedance: one width alone makes the line that was designed.",
    rule="With A = Z₀/60 · √((ε_r + 1)/2) + (ε_r − 1)/(ε_r + 1) · (0.23 + 0.11/ε_r), w/h = 8 e^A / (e^2A − 2), as long "
    "as that is below 2. Else, with B = 377 π / (2 Z₀ √ε_r), w/h = 2/π · [B − 1 − ln(2B − 1) + (ε_r − 1)/(2 ε_r) · "
    "(ln(B − 1) + 0.39 − 0.61/ε_r)].",
    numbers=_which_formula,
    because="Such formulas agree with each other within a percent or so; a board's ε_r is often known no better.",
    fields=(
        Field(
            quantity="strip.ratio",
            label="Width over height w/h",
            names=("w/h", "W/h", "width over height", "ratio w/h"),
            kind=lambda w: Number(example="1.4", decimals=3, least=1e-3, most=1e3),
            value=ratio,
            slips=copper_slips.RATIO,
            strokes=_load_strokes,
        ),
        Field(
            quantity="strip.width",
            label="Width w",
            names=("w", "width", "strip width", "w in mm"),
            kind=lambda w: Dimension(example="2.15", decimals=3),
            value=width,
            slips=copper_slips.WIDTH,
        ),
    ),
)
EFFECTIVE = Step(
    key="effective",
    title="Find the effective permittivity",
    ask="Which permittivity ε_eff does the wave on this strip meet?",
    goal="A strip's field is partly in the board and partly in the air above: the wave meets something between.",
    rule="ε_eff = (ε_r + 1)/2 + (ε_r − 1)/2 · 1/√(1 + 12 h/w).",
    numbers=lambda w: (
        w.say("ε_r is {permittivity}, and w/h is ") + f"{w.write('strip.ratio')}: h/w is one over that."
    ),
    because="A wider strip has more of its field in the board, and a higher ε_eff.",
    fields=(
        Field(
            quantity="effective",
            label="Effective permittivity ε_eff",
            names=("ε_eff", "εeff", "eps_eff", "er_eff", "effective permittivity", "ε_r eff"),
            kind=lambda w: Number(
                example="2.7",
                decimals=3,
                least=1.0,
                most=16.0,
                impossible="No wave is faster than in air, and none slower than in the board alone: ε_eff lies from 1 "
                "to ε_r.",
            ),
            value=effective,
            slips=copper_slips.EFFECTIVE_SLIPS,
        ),
    ),
)
WAVE = Step(
    key="wave",
    title="Find how long a wave is on the strip",
    ask="How long is one wave on this strip at {frequency}?",
    goal="The design counts in waves, a cutter in millimetres: the wave on this strip is what joins the two.",
    rule="In free space it is 299 792 458 m/s divided by the frequency; on the strip it is divided by the root of "
    "ε_eff as well.",
    numbers=lambda w: (
        f"In free space it is {w.notation.number(free_wave(w.problem), 1)} mm; ε_eff is {w.write('effective')}."
    ),
    because="Every length of the design is a part of it.",
    fields=(
        Field(
            quantity="wave",
            label="Wave on the strip",
            names=("λg", "guide wavelength", "wavelength", "wavelength on the strip", "wave", "λ"),
            kind=lambda w: Wavelength(wave_mm(w.problem) or float("nan"), example="142.5"),
            value=wave,
            slips=copper_slips.WAVE,
        ),
    ),
)
ON_THE_BOARD = (STRIP, EFFECTIVE, WAVE)
