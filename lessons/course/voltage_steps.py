"""The steps from the resistance at voltage maximum and minimum to the voltages there, for a power into the load."""

from __future__ import annotations

from math import sqrt

from lessons.course.denormalise_slips import denormalising
from lessons.course.maximum_and_minimum import MINIMUM, PLACES
from lessons.course.quarter_values import at_both, ohms, slips_of
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Number, Resistance
from lessons.grammar.lesson import Slip, Step, Work


def voltage(work: Work, branch: Branch) -> float:
    """The crest of the voltage at a place, in volts: there P = V² / 2R."""
    return crest(work, work.of("ohms", branch))


def crest(work: Work, resistance: float) -> float:
    """The crest of the voltage across a resistance that takes the problem's power."""
    return sqrt(2 * work["power"] * resistance)


def voltage_at(work: Work, branch: Branch) -> float:
    """The student's voltage at a place."""
    return float(work.of("voltage", branch))


def _ohms_slips(branch: Branch) -> tuple[Slip, ...]:
    there = f"Take r at the {branch.word} and multiply it by {{line}}."
    return (
        *denormalising(lambda w: w.of("resistance", branch), ("r", "R")),
        *slips_of(
            lambda w: ohms(w, branch),
            (
                "load's resistance",
                "giving the resistance of the load",
                "Is that R of the load, or of this place?",
                there,
                lambda w: w["load"].real,
            ),
            (
                "size of the load",
                "giving the size of the load's impedance",
                "Is that the size of Z, or R at this place?",
                there,
                lambda w: abs(w["load"]),
            ),
        ),
    )


OHMS = Step(
    key="ohms",
    title="Give it in ohms",
    ask="Which resistance R is that in ohms, at the maximum and at the minimum?",
    goal="Volts and watts go with ohms: undo what normalising did.",
    rule="R = r Z₀.",
    numbers=lambda w: (
        w.say("Multiply by {line}. ") + at_both(lambda one: f"r is {w.write_of('resistance', one)}")
    ),
    because="The line shows these two pure resistances again and again, at every further half wavelength.",
    fields=PLACES.fields(
        quantity="ohms",
        label="resistance R in ohms",
        kind=lambda w: Resistance(w["line"], in_ohms=True, example="120.0", arithmetic=True),
        value=ohms,
        slips=_ohms_slips,
        unmixed_by=("resistance",),
        names=("R", "Z", "resistance", "resistance in ohms", "R in ohms"),
    ),
)


def _voltage_slips(branch: Branch) -> tuple[Slip, ...]:
    def of(resistance: float, work: Work) -> float:
        return crest(work, resistance)

    there = f"The resistance at the {branch.word} is the one to take."
    which = "Of which resistance is that the voltage?"
    halves = "With peak values P = V² / (2R): multiply by 2 before the root is taken."
    return slips_of(
        lambda w: voltage(w, branch),
        (
            "rms",
            "giving the rms value",
            "Is that the rms value, or the peak?",
            "The peak is √2 times as high: it is the crest that makes an insulator fail.",
            lambda w: voltage(w, branch) / sqrt(2),
        ),
        (
            "peak to peak",
            "giving the voltage from crest to trough",
            "From where to where is that?",
            "The peak counts from zero to the crest: half of it.",
            lambda w: 2 * voltage(w, branch),
        ),
        (
            "two below",
            "dividing by 2 under the root",
            "Did you multiply by 2, or divide?",
            halves,
            lambda w: voltage(w, branch) / 2,
        ),
        (
            "no root",
            "leaving the root out",
            "Is that V, or V²?",
            "2 P R is the square of the voltage: take the root.",
            lambda w: voltage(w, branch) ** 2,
        ),
        (
            "normalised resistance",
            "taking the normalised r",
            "Is the resistance under the root in ohms?",
            "Watts want ohms: take R, not r.",
            lambda w: of(w.of("ohms", branch) / w["line"], w),
        ),
        (
            "matched line",
            "giving the voltage of a matched line",
            which,
            there,
            lambda w: of(w["line"], w),
        ),
        (
            "load's resistance",
            "taking the load's own resistance",
            which,
            there,
            lambda w: of(w["load"].real, w),
        ),
        (
            "current",
            "dividing by the resistance, which gives the current",
            "Is that volts, or amperes?",
            "V² = 2 P R; divided by R it would be the current that is squared.",
            lambda w: sqrt(2 * w["power"] / w.of("ohms", branch)),
        ),
        (
            "whole ratio",
            "changing the voltage of a matched line by the whole standing-wave ratio",
            "By how much does the ratio of {line} to R change the voltage?",
            "R differs from {line} by the whole ratio, but the voltage goes with the root of R.",
            lambda w: of(w["line"], w) * w.of("ohms", branch) / w["line"],
        ),
        *(
            (
                (
                    "nothing left",
                    "taking the minimum for zero",
                    "Does all of the wave come back?",
                    "The load takes power, so less comes back than goes out, and the two never cancel.",
                    lambda w: 0.0,
                ),
            )
            if branch is MINIMUM
            else ()
        ),
        usual=("rms",),
    )


VOLTAGE = Step(
    key="voltage",
    title="Find the voltage there",
    ask="The load takes {power}. How high is the voltage at the maximum and at the minimum? Give peak values: from "
    "zero to the crest.",
    goal="What a resistance takes says how high its voltage is, and at these two places the line shows a resistance.",
    rule="A lossless line carries the same power at every place. With a peak voltage V a resistance R takes "
    "P = V² / (2R), so V = √(2 P R).",
    numbers=lambda w: w.say("P is {power}. ") + at_both(lambda one: f"R is {w.write_of('ohms', one)}"),
    because=lambda w: (
        f"A matched line would carry the same power with {w.notation.number(crest(w, w['line']), 2)} V everywhere."
    ),
    fields=PLACES.fields(
        quantity="voltage",
        label="peak voltage",
        kind=lambda w: Number(
            "V", "36.5", least=0.0, impossible="A peak voltage is counted from zero up: it is never negative."
        ),
        value=voltage,
        slips=_voltage_slips,
        unmixed_by=("ohms",),
        names=("V", "U", "voltage", "peak voltage", "V peak", "|V|"),
    ),
)
