"""The steps that tell what two stubs can match: the forbidden region, the way out of it, the rotated unit circle."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin

from core.chart import UNIT_CONDUCTANCE_CIRCLE, walk
from core.line import toward_generator
from lessons.course import double_stub_values as values
from lessons.grammar import slips as made
from lessons.grammar.kinds import Choice, LengthOfLine, Number
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import Curve, DragAlong, Point, Region, Way


def _of_spacing(change: Callable[[float], float]) -> Callable[[Work], float | None]:
    """What another function of the spacing gives in place of the limit; None where it gives no number, or the limit."""

    def predict(work: Work) -> float | None:
        try:
            return made.unless_same(change(work["spacing"]), values.limit(work))
        except ZeroDivisionError:
            return None

    return predict


LIMIT = Field(
    quantity="limit",
    label="Largest conductance g",
    names=("g max", "gmax", "limit", "largest g", "largest conductance"),
    kind=lambda w: Number(
        example="3.0", tolerance=0.05, least=0.0, impossible="A conductance is never below zero."
    ),
    value=values.limit,
    slips=(
        Slip(
            key="sine not squared",
            doing="leaving the square out",
            question="Did you square the sine?",
            remedy="It is one over the square of the sine.",
            predict=_of_spacing(lambda s: 1 / abs(sin(2 * pi * s))),
        ),
        Slip(
            key="angle of the chart",
            doing="taking the angle on the chart for the angle of the line",
            question="Is that the angle of line, or the angle on the chart?",
            remedy="A wavelength of line is 360°, and the chart turns twice as far: the sine wants the angle of line.",
            predict=_of_spacing(lambda s: 1 / sin(4 * pi * s) ** 2),
        ),
        Slip(
            key="upside down",
            doing="giving the square of the sine itself",
            question="Which way up is the fraction?",
            remedy="The limit is one over the square of the sine: never below 1.",
            predict=_of_spacing(lambda s: sin(2 * pi * s) ** 2),
        ),
        Slip(
            key="cosine",
            doing="taking the cosine for the sine",
            question="Sine, or cosine?",
            remedy="With a quarter wavelength between the stubs the limit is 1: it is the sine that is 1 there.",
            predict=_of_spacing(lambda s: 1 / cos(2 * pi * s) ** 2),
            usual=1,
        ),
    ),
    strokes=lambda w: (
        Region(
            values.region_circle(w),
            True,
            "admittance",
            "forbidden",
            f"The forbidden region, inside the circle of g = {w.write('limit')}.",
        ),
        Curve(
            values.region_circle(w),
            "construction",
            "admittance",
            "g",
            f"The boundary of the region, the circle of g = {w.write('limit')}.",
            w.write("limit"),
        ),
    ),
)

REGION = Step(
    key="region",
    title="Draw the forbidden region",
    ask="Which conductance is the largest that two stubs {spacing} apart can match, and where does y lie?",
    goal="The first stub changes b alone. If the load's g is too large, its circle never meets the one that leads on.",
    rule="The largest g is one over the square of the sine of the spacing, taken as an angle of line: 360° are a "
    "wavelength. The circle of that g encloses the region.",
    numbers=lambda w: w.say(
        f"The spacing is {{spacing}}; the load's g is {w.notation.number(w['admittance'].real)}."
    ),
    because="Inside of that circle no first stub helps; outside of it two do.",
    fields=(
        LIMIT,
        Field(
            quantity="region",
            label="The load's y lies",
            names=("region", "y lies", "load lies"),
            kind=lambda w: Choice(
                (("outside", "outside: two stubs can match it"), ("inside", "inside: it is forbidden"))
            ),
            value=values.region,
            slips=(
                Slip(
                    key="other side",
                    doing="taking one side of the boundary for the other",
                    question="Is the load's g above the limit, or below it?",
                    remedy="Compare the load's g with the limit: above it is inside, where two stubs match nothing.",
                    predict=lambda w: "outside" if values.region(w) == "inside" else "inside",
                ),
            ),
        ),
    ),
)

WAY_OUT = Step(
    key="way_out",
    title="Lead out of the region",
    ask="How much line, at least, must stand between the load and the first stub to lead out of the region?",
    goal="Two stubs cannot change this g. A piece of line can.",
    rule="Walk clockwise on the mismatch circle from y to the circle of the largest g, and measure the walk.",
    numbers=lambda w: f"From y = {w.write('admittance')} clockwise to g = {w.write('limit')}.",
    because="With a little more line than that there are two solutions again.",
    fields=(
        Field(
            quantity="way_out",
            label="Least line",
            names=("line", "least line", "extra line", "way out"),
            kind=lambda w: LengthOfLine(),
            value=values.way_out,
            slips=(
                made.wrong_way(values.way_out),
                made.double_angle(values.way_out),
                made.half_angle(values.way_out),
                made.start_reading(values.way_out, lambda w: values.reading(w, values.load_point(w))),
                made.end_reading(values.way_out, lambda w: values.reading(w, values.led_out(w))),
                made.start_off_by_quarter(
                    values.way_out,
                    "walking on from the impedance's side of the chart",
                    "Did you start at y?",
                    "The walk begins at y and ends on the boundary of the region.",
                ),
                made.other_quantity(
                    "spacing",
                    "giving the spacing of the stubs",
                    "Is that the line before the stubs, or between them?",
                    "The spacing stays: line is added between the load and the first stub.",
                    lambda w: w["spacing"],
                    values.way_out,
                ),
                Slip(
                    key="far side",
                    doing="walking on to where the circle comes in again",
                    question="Did you stop where the circle first leaves the region?",
                    remedy="The first point of the boundary, clockwise from y, is the nearest way out.",
                    predict=values.to_the_far_side,
                    usual=1,
                ),
            ),
            strokes=lambda w: (
                Way(
                    walk(values.load_point(w), w["way_out"]),
                    "first",
                    "admittance",
                    "",
                    f"The walk out of the region, {w.write('way_out')} toward the generator.",
                    w.write("way_out"),
                ),
                Point(
                    complex(toward_generator(values.load_point(w), w["way_out"])),
                    "first",
                    "admittance",
                    "y_1",
                    "Where the walk ends, on the boundary of the region.",
                ),
            ),
            gesture=lambda w: DragAlong(values.load_point(w), "admittance"),
        ),
    ),
    applies=values.is_forbidden,
)

TURNS = {
    "toward load": "g = 1 turned counter-clockwise, toward the load, by {spacing}",
    "toward generator": "g = 1 turned clockwise, toward the generator, by {spacing}",
    "unturned": "g = 1 itself",
    "resistance": "r = 1 turned counter-clockwise, toward the load, by {spacing}",
}

ROTATED = Step(
    key="rotated",
    title="Draw the rotated unit circle",
    ask="On which circle must y lie behind the first stub, so that the line between the stubs brings it to g = 1?",
    goal="The second stub finishes the match only from g = 1. Go back from there by the spacing.",
    rule="What that line moves toward the generator comes from points that lie as far toward the load.",
    numbers=lambda w: w.say(
        "The spacing is {spacing}; all of the circle g = 1 is turned by it about the centre."
    ),
    because="Each point of that circle is brought to g = 1 by the line between the stubs.",
    fields=(
        Field(
            quantity="rotated",
            label="The circle",
            names=("circle", "rotated circle", "turned circle"),
            kind=lambda w: Choice(tuple((key, w.say(words)) for key, words in TURNS.items())),
            value=lambda w: "toward load",
            slips=(
                Slip(
                    key="turned the other way",
                    doing="turning the circle the way the wave is walked",
                    question="Which of the two stubs does the circle belong to?",
                    remedy="It is drawn at the first stub, nearer the load: turn g = 1 back, toward the load.",
                    predict=lambda w: "toward generator",
                    usual=3,
                ),
                Slip(
                    key="not turned",
                    doing="aiming for g = 1 before the line between the stubs",
                    question="What does the line between the stubs do to it?",
                    remedy="The line between the stubs moves every point on: turn g = 1 back by the spacing.",
                    predict=lambda w: "unturned",
                ),
                Slip(
                    key="impedance kept",
                    doing="using the impedance where the admittance is needed",
                    question="Are the stubs in the line or across it?",
                    remedy=f"A stub {SHUNT.where} the line adds to admittance: it is g that must become 1.",
                    predict=lambda w: "resistance",
                ),
            ),
            strokes=lambda w: (
                Curve(
                    UNIT_CONDUCTANCE_CIRCLE,
                    "unit",
                    "admittance",
                    "g = 1",
                    "The unit-conductance circle, g = 1.",
                ),
                Curve(
                    values.rotated(w),
                    "unit",
                    "admittance",
                    "g = 1, rotated",
                    w.say("The unit-conductance circle, turned toward the load by {spacing}."),
                ),
            ),
        ),
    ),
    applies=values.is_matchable,
)
