"""The steps of a stub by itself: from its end along the rim to its input."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from core.chart import OPEN_POINT, SHORT_POINT, mismatch_circle, rim_reflection, walk
from lessons.course import alone_slips as slips
from lessons.course import alone_values as values
from lessons.course import stub_ends, walk_steps
from lessons.course.stub_values import stub_end
from lessons.grammar.kinds import Choice, ImaginaryPart, ScaleReading
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.side import reflection_of
from lessons.grammar.strokes import DragAlong, PickPoint, Point, PointOnCircle, Ray, Stroke, Way

RIM_CIRCLE = mismatch_circle(1 + 0j)


def input_point(work: Work) -> complex:
    """Where the stub's input stands on the rim."""
    return reflection_of(1j * values.shown(work))


WAVES = replace(walk_steps.WAVES, applies=values.has_metric_length)

BEGIN = Step(
    key="begin",
    title="Find where the stub starts",
    ask="This stub ends in {an_end} circuit. Where on the chart is that end, and which way leads to its input?",
    goal="A stub is measured from its end, and its end is a point of the rim.",
    rule="A short circuit is z = 0, an open circuit z = ∞. From the end to the input is toward the generator.",
    numbers=lambda w: w.say("This stub's end is {end}; at its input the wave comes in, from the generator."),
    because="A lossless stub takes no power: all of the wave comes back, so it never leaves the rim.",
    fields=(
        Field(
            quantity="begin.point",
            label="The stub starts at",
            names=("starts at", "stub starts at", "starting point"),
            kind=lambda w: Choice(
                (
                    ("short", "the short point, z = 0"),
                    ("open", "the open point, z = ∞"),
                    ("match", "the match point, z = 1"),
                )
            ),
            value=lambda w: w["end"],
            slips=slips.BEGIN,
            strokes=lambda w: (
                Point(
                    stub_end(w),
                    "load",
                    "impedance",
                    w["end"],
                    w.say("The {end} end of the stub, on the rim."),
                ),
            ),
            gesture=lambda w: PickPoint(
                (("short", SHORT_POINT), ("open", OPEN_POINT), ("match", 0j)), "impedance"
            ),
        ),
        stub_ends.sense(
            "begin.sense",
            "At which end of the stub does the wave come in?",
            "From the stub's end to its input is toward the generator: clockwise.",
        ),
    ),
)


def _start_point(work: Work) -> complex:
    return complex(rim_reflection(work["start"]))


START = Step(
    key="start",
    title="Read the scale at the stub's end",
    ask="What does the scale toward the generator read beside the stub's end?",
    goal="The scale on the rim counts the line in wavelengths, and the walk begins where the stub's end stands on it.",
    rule="Read the scale whose numbers grow clockwise: it is zero at the left end of the axis, and a full turn is "
    "{half_wave}.",
    numbers=lambda w: (
        w.say("The {end} point is at the ") + f"{'left' if w['end'] == 'short' else 'right'} end."
    ),
    because="Only the difference of two readings is a length, so the first one counts as well.",
    fields=(
        Field(
            quantity="start",
            label="Reading at the stub's end",
            names=("start", "start reading", "reading at the end", "reading at the stub's end"),
            kind=lambda w: ScaleReading("0.125"),
            value=values.start_reading,
            slips=slips.START,
            strokes=lambda w: (
                Ray(
                    _start_point(w),
                    "construction",
                    "impedance",
                    "",
                    "The reading beside the stub's end.",
                    w.write("start"),
                ),
            ),
        ),
    ),
)


def way(work: Work, length: float, written: str) -> Iterable[Stroke]:
    yield Way(
        walk(_start_point(work), length % 0.5 if length > 0 else length),
        "first",
        "impedance",
        work.notation.symbol("l"),
        f"The stub, {written}, from its end along the rim.",
        written,
    )


REACHED = Step(
    key="reached",
    title="Walk along the rim",
    ask="Walk {along} from the stub's end along the rim, toward the generator. What does the scale read there?",
    goal="The stub turns the point about the centre, and on the rim it stays.",
    rule="Go clockwise. Add the length to the reading at the stub's end; the scale starts again at {half_wave}, so "
    "take that off as often as it fits.",
    numbers=lambda w: (
        f"The walk begins at {w.write('start')} and is {w.notation.wavelengths(w['waves'])} long."
    ),
    because="After half a wavelength the stub shows its own end again.",
    fields=(
        Field(
            quantity="reached",
            label="Reading at the stub's input",
            names=("end", "end reading", "reading at the input", "input reading"),
            kind=lambda w: ScaleReading("0.427", w["start"]),
            value=values.end_reading,
            slips=slips.REACHED,
            strokes=lambda w: (
                *way(w, values.sense(w) * w["waves"], w.notation.wavelengths(w["waves"])),
                Ray(
                    complex(rim_reflection(w["reached"])),
                    "first",
                    "impedance",
                    "",
                    "The reading where the walk ends.",
                    w.write("reached"),
                ),
            ),
            gesture=lambda w: DragAlong(_start_point(w), "impedance"),
        ),
    ),
    applies=values.is_reactance_asked,
)


def input_stroke(work: Work) -> Iterable[Stroke]:
    part = work.notation.number(values.shown(work), 2)
    yield Point(
        input_point(work), "first", "impedance", "x", f"The stub's input on the rim, where x is {part}.", part
    )


REACTANCE = Step(
    key="reactance",
    title="Read x where the walk ends",
    ask="Which normalised reactance x stands on the rim at that reading?",
    goal="The point where the walk ends is what the stub shows at its input.",
    rule="On the rim r is zero, and the arc of x that ends there is the reactance: above the axis it is positive.",
    numbers=lambda w: (
        f"The reading is {w.write('reached')}; at the left end of the axis x is 0, at the right end ∞."
    ),
    because="A piece of line without any resistance has made a reactance of nothing.",
    fields=(
        Field(
            quantity="reactance",
            label="Normalised reactance x",
            names=("x", "x in", "normalised reactance", "z", "z in"),
            kind=lambda w: ImaginaryPart("impedance", w["line"], alone=True),
            value=values.reactance,
            slips=slips.REACTANCE,
            strokes=input_stroke,
            gesture=lambda w: PointOnCircle(RIM_CIRCLE, "impedance"),
        ),
    ),
    applies=values.is_reactance_asked,
)
