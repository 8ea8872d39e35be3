"""The step that measures how far a voltage minimum has moved when the short gave way to the load."""

from __future__ import annotations

from lessons.course.quarter_values import slips_of
from lessons.course.slotted_values import OTHER, shift, toward
from lessons.grammar.kinds import Choice, LengthOfLine
from lessons.grammar.lesson import Field, Slip, Step, Work


def _in_unit(work: Work) -> str:
    return " A wavelength is 360°." if work.notation.length == "degrees" else ""


SHIFT = Step(
    key="shift",
    title="Measure how the minimum has moved",
    ask="The scale counts from the {counted}. With the load in place a minimum stands at {minimum}; with the short "
    "one stood at {first}. Toward which end has it moved, and how far, as a part of a wavelength?",
    goal="What the line shows comes again every half wavelength: where the short has a minimum, the line shows just "
    "what stands at its end.",
    rule=lambda w: (
        "On a scale that counts from the load, larger numbers lie toward the generator; on one that counts from the "
        "generator it is the other way round. Divide the centimetres of the move by the wavelength."
        + _in_unit(w)
    ),
    numbers=lambda w: w.say("From {first} to {minimum}, on a wave of ") + w.write("wave") + ".",
    because="The place of the short's minimum serves for the load's own place, which no probe can reach.",
    fields=(
        Field(
            quantity="shift.toward",
            label="It has moved toward the",
            names=("moved toward", "direction", "shift toward"),
            kind=lambda w: Choice((("generator", "generator"), ("load", "load"))),
            value=toward,
            slips=(
                Slip(
                    key="scale turned round",
                    doing="reading the scale as if it counted from the other end",
                    question="From which end does this scale count?",
                    remedy="It counts from the {counted}: there its numbers are small.",
                    predict=lambda w: OTHER[toward(w)],
                    usual=3,
                ),
            ),
        ),
        Field(
            quantity="shift.waves",
            label="How far it has moved",
            names=("shift", "move", "how far", "distance", "d", "shift/λ", "d/λ"),
            kind=lambda w: LengthOfLine(),
            value=shift,
            slips=slips_of(
                shift,
                (
                    "half waves",
                    "dividing by half a wavelength",
                    "Did you divide by the whole wavelength?",
                    "Divide by the whole wavelength, though the minima repeat after half of it.",
                    lambda w: 2 * shift(w),
                ),
                (
                    "other minimum",
                    "measuring from the minimum at {second}",
                    "From which of the short's minima did you measure?",
                    "Measure from {first}; from the other one it is another way, and in another direction perhaps.",
                    lambda w: abs(w["minimum"] - w["second"]) / w["wave"],
                ),
                (
                    "place itself",
                    "dividing the place itself by the wavelength",
                    "Did you take the difference of two places?",
                    "Subtract {first} first: the scale's zero may lie anywhere.",
                    lambda w: w["minimum"] / w["wave"],
                ),
                (
                    "upside down",
                    "dividing the wavelength by the move",
                    "Which one did you divide by which?",
                    "Divide the move by the wavelength.",
                    lambda w: 1 / shift(w),
                ),
                (
                    "to the middle",
                    "halving the move",
                    "Did you halve it?",
                    "The chart's scale counts wavelengths of line already: nothing is halved.",
                    lambda w: shift(w) / 2,
                ),
            ),
        ),
    ),
)
