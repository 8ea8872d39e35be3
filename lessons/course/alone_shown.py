"""The steps of what a stub by itself shows: read both ways, in ohms, as a part, and when it is cut too long."""

from __future__ import annotations

from lessons.course import alone_shown_slips as slips
from lessons.course import alone_values as values
from lessons.course.alone_steps import RIM_CIRCLE, input_point
from lessons.course.metric_slips import metric_slips
from lessons.grammar.kinds import Choice, ImaginaryPart, Millimetres, Reactance
from lessons.grammar.lesson import Field, Step, by_grid
from lessons.grammar.strokes import HalfTurn, Point, PointOnCircle

SUSCEPTANCE = Step(
    key="susceptance",
    title="See it as a susceptance",
    ask="The same stub across a line is added as a susceptance. Which b does it show, normalised to the stub?",
    goal="One stub, two readings: x for where it stands in the line, b for where it stands across it.",
    rule=by_grid(
        "Cross the centre to the other side of the rim, and read b there on the same grid. In numbers, b = −1 / x.",
        "Stay at the point, and read b there on the dotted grid. In numbers, b = −1 / x.",
    ),
    numbers=lambda w: f"x is {w.notation.number(values.shown(w))}; divide one by it, and turn the sign.",
    because="The sign turns, as one over {j} is −{j}: a coil has b below zero.",
    fields=(
        Field(
            quantity="susceptance",
            label="Normalised susceptance b",
            names=("b", "y", "normalised susceptance"),
            kind=lambda w: ImaginaryPart("admittance", w["line"], alone=True),
            value=values.susceptance,
            slips=slips.SUSCEPTANCE,
            strokes=lambda w: (
                HalfTurn(input_point(w), "construction", "", "From x to b."),
                Point(
                    input_point(w),
                    "second",
                    "admittance",
                    "b",
                    f"The stub's input read as an admittance, b {w.write('susceptance')}.",
                    w.notation.number(w["susceptance"], 2),
                ),
            ),
        ),
    ),
)

OHMS = Step(
    key="ohms",
    title="Back to ohms",
    ask="Which reactance X is that in ohms?",
    goal="The chart was drawn for a line of 1: undo what normalising did.",
    rule="X = x Z₀, with its sign.",
    numbers=lambda w: f"X = {w.write('reactance')} · " + w.say("{line}."),
    because="A stub of twice the impedance shows twice the reactance at the same length.",
    fields=(
        Field(
            quantity="ohms",
            label="Reactance X",
            names=("X", "X in ohms", "reactance in ohms"),
            kind=lambda w: Reactance(w["line"], arithmetic=True),
            value=values.in_ohms,
            slips=slips.OHMS,
        ),
    ),
    applies=values.is_reactance_asked,
)

PART = Step(
    key="part",
    title="Coil or capacitor",
    ask="At this frequency, what part is the stub like, and is it shorter or longer than a quarter wavelength?",
    goal="Which part a stub is like is a matter of its length as much as of its end.",
    rule="A coil has a reactance above zero, a capacitor one below zero. Each quarter wavelength turns one into the "
    "other; take whole halves off a long stub first.",
    numbers=lambda w: (
        f"x is {w.notation.number(values.shown(w))}, the length {w.notation.wavelengths(values.whole_length(w))}."
    ),
    because="Up to a quarter wavelength a shorted stub is a coil and an open one a capacitor; past "
    "it they change places.",
    fields=(
        Field(
            quantity="part.like",
            label="The stub is like",
            names=("part", "like", "stub is like"),
            kind=lambda w: Choice(((values.COIL, "a coil"), (values.CAPACITOR, "a capacitor"))),
            value=values.is_part,
            slips=slips.PART,
        ),
        Field(
            quantity="part.beside",
            label="Less whole halves, its length is",
            names=("beside a quarter", "length beside a quarter"),
            kind=lambda w: Choice(
                (("less", "less than a quarter wavelength"), ("more", "more than a quarter wavelength"))
            ),
            value=values.beside_quarter,
            slips=slips.BESIDE,
        ),
    ),
)

LONGER = Step(
    key="longer",
    title="Cut a little too long",
    ask="The saw slips, and the stub is {more} too long. Which reactance in ohms does it show then?",
    goal="The same little length changes much near an open circuit and little near a short.",
    rule="Walk on clockwise by {more}, read x on the rim, and multiply by {line}.",
    numbers=lambda w: w.say("From x = ") + f"{w.notation.number(values.shown(w))} on by " + w.say("{more}."),
    because="Near a quarter wave of a shorted stub, or half a wave of an open one, the reactance runs away and turns "
    "its sign: such a stub is cut with care.",
    fields=(
        Field(
            quantity="longer",
            label="Reactance when too long",
            names=("X too long", "X longer", "reactance when too long"),
            kind=lambda w: Reactance(w["line"]),
            value=values.longer,
            slips=slips.LONGER,
            gesture=lambda w: PointOnCircle(RIM_CIRCLE, "impedance"),
        ),
    ),
)

MILLIMETRES = Step(
    key="millimetres",
    title="Give it in millimetres",
    ask="How long is the stub in millimetres at {frequency}? Its velocity factor is {velocity}.",
    goal="The chart counts in wavelengths; a saw counts in millimetres.",
    rule="The wavelength on the line is the velocity factor times 299 792 458 m/s divided by the frequency.",
    numbers=lambda w: (
        f"The wavelength on the line is {w.notation.number(w.wavelength_mm or 0.0, 1)} mm; the length is "
        f"{w.write('length')}."
    ),
    because="Cut a little long and trim: a real stub ends where you measure that it does.",
    fields=(
        Field(
            quantity="millimetres",
            label="Stub length in mm",
            names=("{l} in mm", "length in mm", "stub length in mm", "{l} mm"),
            kind=lambda w: Millimetres(w.wavelength_mm or float("nan")),
            value=lambda w: w["length"] * (w.wavelength_mm or float("nan")),
            same_as="length",
            slips=metric_slips(
                lambda w: w["length"] * (w.wavelength_mm or float("nan")),
                "The length is a part of the whole wavelength: multiply by all of it.",
            ),
        ),
    ),
    applies=lambda problem: values.is_length_asked(problem) and bool(problem["frequency"]),
)
