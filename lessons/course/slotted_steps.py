"""The steps from what a probe on a slotted line shows to its wavelength and to a circle on the chart."""

from __future__ import annotations

from core.chart import mismatch_circle
from lessons.course.quarter_values import slips_of
from lessons.course.slotted_values import (
    drawn_size,
    lowest,
    size,
    true_wavelength,
    wavelength,
)
from lessons.grammar.kinds import ReflectionSize, Resistance, Wavelength
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.side import reflection_of
from lessons.grammar.strokes import Curve, DragRadius, Point, PointOnCircle

WAVE = Step(
    key="wave",
    title="Find the wavelength",
    ask="With a short in the load's place, two neighbouring minima stand at {first} and {second}. How long is a wave "
    "on this line, in centimetres?",
    goal="The chart counts in wavelengths, so the centimetres of the probe need a measure.",
    rule="All of the wave comes back from a short, and the voltage is zero every half wavelength. So two neighbouring "
    "minima are half a wavelength apart.",
    numbers=lambda w: w.say("From {first} to {second} it is half of what is asked."),
    because="The minima of a short are sharp, and those of a load are flat: so the short serves as the measure.",
    fields=(
        Field(
            quantity="wave",
            label="Wavelength on the line",
            names=("λ", "λg", "wavelength", "guide wavelength"),
            kind=lambda w: Wavelength(true_wavelength(w.problem), "41.2", "cm"),
            value=wavelength,
            slips=(
                *slips_of(
                    wavelength,
                    (
                        "half of it",
                        "taking the distance of two minima for a whole wavelength",
                        "How far apart are two neighbouring minima?",
                        "They are half a wavelength apart: double the distance.",
                        lambda w: wavelength(w) / 2,
                    ),
                    (
                        "quarter wave",
                        "taking two neighbouring minima for a quarter wavelength apart",
                        "How far apart are two neighbouring minima?",
                        "A quarter wavelength is from a minimum to the next maximum; two minima are half a wave apart.",
                        lambda w: 2 * wavelength(w),
                    ),
                    (
                        "sum",
                        "adding the two places",
                        "Did you take the difference of the two, or the sum?",
                        "Subtract one place from the other: the scale's zero may lie anywhere.",
                        lambda w: w["first"] + w["second"],
                    ),
                    usual=("half of it",),
                ),
                Slip(
                    key="place itself",
                    doing="doubling a place on the scale",
                    question="Is the scale's zero itself a minimum?",
                    remedy="The scale's zero may lie anywhere: take the difference of two minima.",
                    predict=lambda w: (2 * w["first"], 2 * w["second"]),
                ),
                Slip(
                    key="to the load's minimum",
                    doing="measuring to the minimum with the load",
                    question="Which two minima did you take?",
                    remedy="Take the two minima with the short: the one with the load stands elsewhere.",
                    predict=lambda w: tuple(2 * abs(w["minimum"] - w[one]) for one in ("first", "second")),
                    usual=1,
                ),
            ),
        ),
    ),
)


def _circle(work: Work) -> Curve:
    ratio = work.notation.number(work["swr"], 2)
    spoken = f"The constant-mismatch circle, standing-wave ratio {ratio}."
    return Curve(mismatch_circle(drawn_size(work)), "mismatch", "impedance", "SWR", spoken, ratio)


def _minimum(work: Work) -> Point:
    z = work["circle.lowest"]
    spoken = f"The voltage minimum, z = {work.write('circle.lowest')}."
    return Point(reflection_of(z), "second", "impedance", "z_min", spoken, work.notation.number(z, 2))


CIRCLE = Step(
    key="circle",
    title="Draw the circle of the standing wave",
    ask="The probe shows a standing-wave ratio of {swr} with the load. Draw its circle and give |Γ|, its radius. "
    "What does the line show at a voltage minimum, as a normalised z?",
    goal="Everything that this line can show of its load lies on one circle about the centre.",
    rule="The circle cuts the axis at the right where r is the standing-wave ratio S, and |Γ| = (S − 1) / (S + 1). It "
    "cuts it once more at the left: there the voltage is lowest.",
    numbers=lambda w: w.say(
        "S is {swr}: one less over one more is the radius, and one over S is what stands at the left."
    ),
    because="At a minimum voltage and current are in step, so z has no reactance there: the walk can begin.",
    fields=(
        Field(
            quantity="circle.size",
            label="Radius of the circle |Γ|",
            names=("|Γ|", "|gamma|", "|rho|", "radius"),
            kind=lambda w: ReflectionSize(
                least=0.0,
                most=1.0,
                impossible="No more can come back than went out: |Γ| lies between 0 and 1.",
            ),
            value=size,
            slips=slips_of(
                size,
                (
                    "one over the ratio",
                    "giving one over the standing-wave ratio",
                    "Is that r at the left of the circle, or its radius?",
                    "The radius is (S − 1) / (S + 1).",
                    lambda w: 1 / w["swr"],
                ),
                (
                    "ratio over one more",
                    "leaving out the − 1 above",
                    "What stands above in the fraction?",
                    "Above stands S − 1: with a ratio of 1 nothing comes back.",
                    lambda w: w["swr"] / (w["swr"] + 1),
                ),
                (
                    "less one over the ratio",
                    "dividing by S in place of S + 1",
                    "What stands below in the fraction?",
                    "Below stands S + 1.",
                    lambda w: (w["swr"] - 1) / w["swr"],
                ),
                (
                    "power",
                    "giving the part of the power that comes back",
                    "Is that of the wave, or of its power?",
                    "|Γ| is of the wave's voltage: its square is the power's.",
                    lambda w: size(w) ** 2,
                ),
            ),
            strokes=lambda w: (_circle(w),),
            gesture=lambda w: DragRadius(),
        ),
        Field(
            quantity="circle.lowest",
            label="Normalised z at a minimum",
            names=("zmin", "z min", "rmin", "r min", "z at a minimum", "z at the minimum"),
            kind=lambda w: Resistance(w["line"], example="0.62"),
            value=lowest,
            routes=(lambda w: 1 / w["swr"],),
            slips=slips_of(
                lowest,
                (
                    "maximum",
                    "giving what stands at a voltage maximum",
                    "Is the voltage low there, or high?",
                    "Low voltage over high current is a small z: at the left of the centre.",
                    lambda w: 1 / lowest(w),
                ),
                (
                    "radius",
                    "giving |Γ| itself",
                    "Is that |Γ|, or r on the axis?",
                    "Read the grid's own numbers along the axis: they are r.",
                    lambda w: drawn_size(w),
                ),
                (
                    "what is left",
                    "giving 1 − |Γ|",
                    "Is that the voltage's part, or z?",
                    "1 − |Γ| is how low the voltage is. The current is 1 + |Γ|, and z is the one over the other.",
                    lambda w: 1 - drawn_size(w),
                ),
                (
                    "in ohms",
                    "giving ohms where z is asked",
                    "Is that z, or Z in ohms?",
                    "Read z as the chart shows it; ohms come at the end.",
                    lambda w: lowest(w) * w["line"],
                ),
            ),
            strokes=lambda w: (_minimum(w),),
            gesture=lambda w: PointOnCircle(mismatch_circle(drawn_size(w)), "impedance"),
        ),
    ),
)
