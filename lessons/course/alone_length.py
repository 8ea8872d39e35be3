"""The steps to the length of a stub: from the reactance wanted to its place on the rim, and back to the stub's end."""

from __future__ import annotations

from lessons.course import alone_slips as slips
from lessons.course import alone_values as values
from lessons.course import walk_steps
from lessons.course.alone_steps import RIM_CIRCLE, input_point, input_stroke, way
from lessons.course.stub_values import stub_end
from lessons.grammar.kinds import ImaginaryPart, LengthOfLine, ScaleReading
from lessons.grammar.lesson import Field, Step
from lessons.grammar.strokes import DragAlong, PointOnCircle, Ray

NEEDED = Step(
    key="needed",
    title="Normalise the reactance",
    ask="The chart is drawn for a line of 1. Divide {wanted} by the stub's impedance {line}: what is x?",
    goal="The chart knows no ohms: write the reactance as a multiple of the stub's impedance.",
    rule="x = X / Z₀, with its sign.",
    numbers=lambda w: w.say("X is {wanted}; divide it by ") + f"{w['line']:g}.",
    because="A stub is a line like any other: its own impedance belongs to the centre of its chart.",
    fields=(
        Field(
            quantity="needed",
            label="Normalised reactance x",
            names=("x", "x needed", "normalised reactance"),
            kind=lambda w: ImaginaryPart("impedance", w["line"], arithmetic=True),
            value=values.normalised_wanted,
            slips=slips.NEEDED,
        ),
    ),
    applies=values.is_length_asked,
)


RIM = Step(
    key="rim",
    title="Find x on the rim",
    ask="Where on the rim does x stand, and what does the scale toward the generator read there?",
    goal="The walk ends where the stub shows what is wanted.",
    rule="Follow the arc of x out to the rim: above the axis if x is positive, else below. Read the scale whose "
    "numbers grow clockwise.",
    numbers=lambda w: (
        f"The arc is x = {w.write('needed')}; at the left end of the axis x is 0, at the right end ∞."
    ),
    because="Every reactance has one place on the rim.",
    fields=(
        Field(
            quantity="rim",
            label="Reading at x",
            names=("reading at x", "rim reading", "end reading", "end"),
            kind=lambda w: ScaleReading("0.427"),
            value=values.wanted_reading,
            slips=slips.RIM,
            strokes=lambda w: (
                *input_stroke(w),
                Ray(input_point(w), "first", "impedance", "", "The reading beside x.", w.write("rim")),
            ),
            gesture=lambda w: PointOnCircle(RIM_CIRCLE, "impedance"),
        ),
    ),
    applies=values.is_length_asked,
)


LENGTH = Step(
    key="length",
    title="Take the length",
    ask="How long is the stub, {l}, from its end clockwise to x?",
    goal="The stub must be long enough to show that reactance, and no longer.",
    rule="The length is the reading at x less the reading at the stub's end; if negative, add {half_wave}.",
    numbers=lambda w: f"The walk begins at {w.write('start')} and ends at {w.write('rim')}.",
    because="Half a wavelength more would show the same: the shortest is usual.",
    fields=(
        Field(
            quantity="length",
            label="Stub length {l}",
            names=("{l}", "{l}/λ", "stub length", "stub length {l}", "length", "l"),
            symbol=walk_steps.LENGTH,
            element=0,
            kind=lambda w: LengthOfLine(),
            value=values.length,
            routes=(values.length_for_part,),
            slips=slips.LENGTH,
            strokes=lambda w: way(w, values.sense(w) * w["length"], w.write("length")),
            gesture=lambda w: DragAlong(stub_end(w), "impedance"),
        ),
    ),
    applies=values.is_length_asked,
)
