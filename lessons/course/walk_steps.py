"""The steps of a walk along a line: its length, the readings at both ends, and what stands where it leads to."""

from __future__ import annotations

from collections.abc import Iterable

from core.chart import mismatch_circle, walk
from lessons.course import walk_slips
from lessons.course.stub_values import load_reflection
from lessons.course.walk_values import (
    end_point,
    end_reading,
    impedance_on_drawn,
    impedance_on_placed,
    impedance_there,
    in_ohms,
    in_wavelengths,
    sense,
    shown_readings,
    start_of_placed,
    start_point,
    start_reading,
    toward,
    wavelength,
)
from lessons.grammar.kinds import Immittance, LengthOfLine, Ohms, ScaleReading, Wavelength
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.strokes import DragAlong, Point, PointOnCircle, Ray, Stroke, Way

LENGTH = Symbol("l", "length of the line")


WAVES = Step(
    key="waves",
    title="Turn the length into wavelengths",
    ask="How long is a wave on this line at {frequency}, and how many of them is the line long? "
    "Its velocity factor is {velocity}.",
    goal="The chart counts in wavelengths, so the wave on this line is the measure of its length.",
    rule="The wavelength on the line is the velocity factor times 299 792 458 m/s divided by the frequency. "
    "Divide the length by it.",
    numbers=lambda w: w.say(
        "The wavelength is {velocity} times 299 792 458 m/s divided by {frequency}; the length is {along} divided "
        "by that."
    ),
    because="The same piece of line is longer in wavelengths at a higher frequency.",
    fields=(
        Field(
            quantity="wave",
            label="Wavelength on the line",
            names=("λ", "λg", "wavelength", "guide wavelength"),
            kind=lambda w: Wavelength(wavelength(w)),
            value=wavelength,
            slips=walk_slips.WAVE,
        ),
        Field(
            quantity="waves",
            label="Length of the line {l}",
            names=("{l}", "{l}/λ", "length", "length {l}", "line length", "electrical length"),
            symbol=LENGTH,
            element=0,
            kind=lambda w: LengthOfLine(),
            value=in_wavelengths,
            slips=walk_slips.WAVES,
        ),
    ),
    applies=lambda problem: problem["along"].unit == "millimetres",
)


def _start_strokes(work: Work) -> Iterable[Stroke]:
    spoken = work.say("The reading beside the {known}'s point on the scale toward the {way}.")
    yield Ray(start_point(work), "construction", "impedance", "", spoken, shown_readings(work)[0])


START = Step(
    key="start",
    title="Read the scale where the walk begins",
    ask="Draw the line from the centre through z to the rim. What does the scale toward the {way} read there?",
    goal="The scales on the rim count the line in wavelengths, and the walk begins where z stands on them.",
    rule="From the {known} the walk leads toward the {way}, {sense}: take the scale whose numbers grow that way.",
    numbers=lambda w: (
        f"The point stands at an angle of {w.notation.polar(load_reflection(w)).partition('∠ ')[2]}. Both scales are "
        f"zero at the left end of the axis and reach {w.notation.half_wave} after a full turn."
    ),
    because="One reading alone says nothing of the line; the difference of two is a length.",
    fields=(
        Field(
            quantity="start",
            label="Reading at the {known}",
            names=("start", "start reading", "reading at the {known}", "{known} reading", "{known} scale"),
            kind=lambda w: ScaleReading("0.172", toward=toward(w)),
            value=start_reading,
            routes=(start_of_placed,),
            slips=walk_slips.START,
            strokes=_start_strokes,
        ),
    ),
)


def _end_strokes(work: Work) -> Iterable[Stroke]:
    _, end, length = shown_readings(work)
    is_all = length == work.notation.wavelengths(work["waves"])
    yield Way(
        walk(start_point(work), sense(work) * ((work["end"] - work["start"]) % 0.5)),
        "first",
        "impedance",
        work.notation.symbol("l") if is_all else "",
        work.say("The walk from the {known} to the {asked}, ") + f"{length} " + work.say("toward the {way}."),
        length,
    )
    spoken = work.say("The reading at the end of the walk, on the same scale.")
    yield Ray(end_point(work), "first", "impedance", "", spoken, end)


def _end_numbers(work: Work) -> str:
    start, *_ = shown_readings(work)
    length = work.notation.wavelengths(work["waves"])
    if work["along"].unit == "degrees" and work.notation.length == "wavelengths":
        return work.say("{along} of line is {along} of 360°: ") + f"{length}. The walk begins at {start}."
    return f"The walk begins at {start} and is {length} long."


END = Step(
    key="end",
    title="Walk along the line",
    ask="Walk {along} of line along the circle, toward the {way}. What does the same scale read where the walk ends?",
    goal="The line turns the point about the centre; its distance from there stays, as nothing is lost on the way.",
    rule="Go {sense}. Add the length to the reading where the walk begins; the scale starts again at {half_wave}, so "
    "take that off as often as it fits.",
    numbers=_end_numbers,
    because="After half a wavelength the circle closes: the wave has gone there and back, a whole one.",
    fields=(
        Field(
            quantity="end",
            label="Reading at the {asked}",
            names=("end", "end reading", "reading at the {asked}", "{asked} reading", "{asked} scale"),
            kind=lambda w: ScaleReading("0.427", w["start"], toward(w)),
            value=end_reading,
            slips=walk_slips.END,
            strokes=_end_strokes,
            gesture=lambda w: DragAlong(start_point(w), "impedance"),
        ),
    ),
)

THERE = Step(
    key="there",
    title="Read z where the walk ends",
    ask="Which normalised impedance stands on the circle at that reading?",
    goal="The point where the walk ends is what stands at the {asked}.",
    rule="Draw the line from the centre to the reading at the {asked}. Where it meets the mismatch circle, read r and "
    "x on the impedance grid.",
    numbers=lambda w: (
        f"On the circle of standing-wave ratio {w.write('mismatch')}, on the line to {shown_readings(w)[1]}."
    ),
    because="The standing-wave ratio is the same at both ends; only the angle has changed.",
    fields=(
        Field(
            quantity="there",
            label="Normalised {asked} impedance z",
            names=("z{asked_mark}", "z {asked}", "normalised {asked}", "normalised {asked} impedance"),
            kind=lambda w: Immittance("impedance", w["line"]),
            value=impedance_there,
            routes=(impedance_on_drawn, impedance_on_placed),
            slips=walk_slips.THERE,
            strokes=lambda w: (
                Point(
                    end_point(w),
                    "first",
                    "impedance",
                    w.say("z_{asked_mark}"),
                    w.say("The {asked}, where z is ") + f"{w.write('there')}.",
                    w.notation.rectangular(w["there"], 2),
                ),
            ),
            gesture=lambda w: PointOnCircle(mismatch_circle(load_reflection(w)), "impedance"),
        ),
    ),
)

OHMS = Step(
    key="ohms",
    title="Back to ohms",
    ask="Which impedance is that in ohms, Z at the {asked}?",
    goal="The chart was drawn for a line of 1: undo what normalising did.",
    rule="Z = z Z₀, the real and the imaginary part alike.",
    numbers=lambda w: f"Z = ({w.write('there')}) · " + w.say("{line}."),
    because="A length of line alone has changed the impedance: no part was added.",
    fields=(
        Field(
            quantity="ohms",
            label="Impedance at the {asked} Z",
            names=(
                "Z{asked_mark}",
                "Z {asked}",
                "{asked} impedance",
                "{asked} impedance in ohms",
                "{asked}",
                "Z",
            ),
            kind=lambda w: Ohms(per=w["line"]),
            value=in_ohms,
            slips=walk_slips.OHMS,
        ),
    ),
)
