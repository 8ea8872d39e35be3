"""The steps of the stub itself, wherever it stands: its own chart, its end, and its length."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from core.chart import OPEN_POINT, SHORT_POINT, walk
from core.stubs import stub_length_for
from lessons.course import stub_values as values
from lessons.grammar import slips as made
from lessons.grammar.branches import near_and_far
from lessons.grammar.kinds import Choice, LengthOfLine, Susceptance
from lessons.grammar.lesson import Field, Side, Slip, Step, Work
from lessons.grammar.strokes import DragAlong, PickPoint, Point, Stroke, Way


def _own_slips(side: Side) -> tuple[Slip, ...]:
    return (
        Slip(
            key="ratio ignored",
            doing="using the line's normalisation for the stub",
            question="Whose impedance is this normalised by?",
            remedy="The stub is {stub}, the line {line}: multiply by the stub's and divide by the line's.",
            predict=lambda w: w[f"needed.{side}"],
        ),
        Slip(
            key="ratio inverted",
            doing="turning the ratio of the impedances over",
            question="Which impedance is on top?",
            remedy="A higher stub impedance means a larger normalised susceptance: multiply by {stub} / {line}.",
            predict=lambda w: w[f"needed.{side}"] * w.problem.line_impedance / w.problem.stub_impedance,
        ),
        made.sign_lost(lambda w: values.on_stub_chart(w, side), "susceptance"),
    )


OWN = Step(
    key="own",
    title="Go over to the stub's own chart",
    ask="The stub is a line of {stub}, not {line}. What is its susceptance, normalised to the stub?",
    goal="Each line has a chart of its own, normalised by its own impedance.",
    rule="The same siemens count differently: multiply by the stub impedance and divide by the line impedance.",
    numbers=lambda w: (
        w.say("Multiply ")
        + f"{w.write('needed.near')} and {w.write('needed.far')}"
        + w.say(" by {stub} / {line}.")
    ),
    because="Now the rim of the stub's chart can be read.",
    fields=near_and_far(
        "own",
        "susceptance on the stub's chart",
        lambda w: Susceptance(),
        values.on_stub_chart,
        _own_slips,
        names=("bs", "ys", "b own", "y own", "b stub", "y stub"),
        per="stub",
    ),
    applies=lambda problem: problem.stub_impedance != problem.line_impedance,
)

START = Step(
    key="start",
    title="Find where the stub starts",
    ask="This stub ends in {an_end} circuit. Where on the chart is that end, and which way leads to the junction?",
    goal="A stub is measured from its end, and its end is a point of the rim.",
    rule="A short circuit is y = ∞, an open circuit y = 0. From the end to the junction is toward the generator.",
    numbers=lambda w: w.say("This stub's end is {end}; its walk ends at the junction, nearer the generator."),
    because="A lossless stub never leaves the rim.",
    fields=(
        Field(
            key="start.point",
            label="The stub starts at",
            names=("start", "starts at", "stub starts at", "starting point"),
            kind=lambda w: Choice(
                (
                    ("short", "the short point, y = ∞"),
                    ("open", "the open point, y = 0"),
                    ("match", "the match point, y = 1"),
                    ("load", "the load, y"),
                )
            ),
            value=lambda w: w.problem.end,
            slips=(
                Slip(
                    key="wrong start",
                    doing="starting at the other kind of end",
                    question="Is this stub's end short or open?",
                    remedy="This stub's end is {end}.",
                    predict=lambda w: "open" if w.problem.end == "short" else "short",
                ),
                Slip(
                    key="match point",
                    doing="starting where the stub should lead",
                    question="Where does the stub begin?",
                    remedy="Start at the stub's end and walk to its input.",
                    predict=lambda w: "match",
                ),
                Slip(
                    key="load point",
                    doing="taking the stub for a continuation of the line",
                    question="Is the load on the stub?",
                    remedy="The stub is a branch of its own, with nothing at its end but {an_end} circuit.",
                    predict=lambda w: "load",
                ),
            ),
            strokes=lambda w: (
                Point(
                    values.stub_end(w),
                    "construction",
                    "admittance",
                    w.problem.end,
                    w.say("The {end} end of the stub, on the rim."),
                ),
            ),
            gesture=lambda w: PickPoint(
                (
                    ("short", SHORT_POINT),
                    ("open", OPEN_POINT),
                    ("match", 0j),
                    ("load", values.admittance_reflection(w)),
                ),
                "admittance",
            ),
        ),
        Field(
            key="start.sense",
            label="and is walked",
            names=("direction", "way", "sense", "walked"),
            kind=lambda w: Choice(
                (
                    ("clockwise", "clockwise, toward the generator"),
                    ("counter-clockwise", "counter-clockwise, toward the load"),
                )
            ),
            value=lambda w: "clockwise",
            slips=(
                Slip(
                    key="wrong way",
                    doing="walking toward the load",
                    question="At which end of the stub is the junction?",
                    remedy="Seen from the stub's end, the junction is on the generator's side: clockwise.",
                    predict=lambda w: "counter-clockwise",
                ),
            ),
        ),
    ),
)


def _length_strokes(work: Work, side: Side) -> Iterable[Stroke]:
    length = work.write(f"length.{side}")
    yield Way(
        walk(values.stub_end(work), work[f"length.{side}"]),
        side,
        "admittance",
        work.notation.stub_length,
        work.say(f"The {side} stub: from the {{end}} point {length} clockwise along the rim."),
        length,
    )
    yield Point(
        values.stub_reflection(work, side),
        side,
        "admittance",
        "b",
        f"The {side} stub's input on the rim.",
        work.notation.number(work[f"own.{side}"], 2),
    )


def _length_slips(side: Side) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return values.stub_length(work, side)

    def for_susceptance(wanted: Callable[[Work], float]) -> Callable[[Work], Any]:
        def predict(work: Work) -> Any:
            length = float(stub_length_for(wanted(work), "shunt", work.problem.end))
            return made.unless_same(length, value(work))

        return predict

    return (
        made.wrong_way(value),
        made.start_off_by_quarter(
            value,
            "starting at the other kind of end",
            "Is this stub's end short or open?",
            "This stub's end is {end}: start there.",
        ),
        made.end_reading(value, lambda w: values.reading(w, values.stub_reflection(w, side))),
        made.made_positive(
            lambda w: values.reading(w, values.stub_end(w)),
            lambda w: values.reading(w, values.stub_reflection(w, side)),
        ),
        made.double_angle(value),
        made.half_angle(value),
        Slip(
            key="sign not flipped",
            doing="cancelling with the same sign",
            question="Did you flip the sign of b?",
            remedy="The stub must show minus what the line shows.",
            predict=for_susceptance(lambda w: -w[f"own.{side}"]),
        ),
        Slip(
            key="ratio ignored",
            doing="forgetting that the stub has an impedance of its own",
            question="Whose impedance is the susceptance normalised by?",
            remedy="Use the susceptance on the stub's own chart.",
            predict=for_susceptance(lambda w: w[f"needed.{side}"]),
        ),
        Slip(
            key="ratio inverted",
            doing="turning the ratio of stub and line impedance over",
            question="Which impedance is on top?",
            remedy="Multiply by {stub} / {line}.",
            predict=for_susceptance(
                lambda w: w[f"needed.{side}"] * w.problem.line_impedance / w.problem.stub_impedance
            ),
        ),
    )


LENGTH = Step(
    key="length",
    title="Walk the rim for the stub's length",
    ask="Start at the {end} point and walk clockwise along the rim to the susceptance needed. Give {l} for each.",
    goal="The stub must be long enough to show that susceptance at the junction, and no longer.",
    rule="Read the scale where b stands on the rim, less its reading at the stub's end; if negative, add 0.5.",
    numbers=lambda w: (
        w.say("From the {end} point, ")
        + f"{w.notation.wavelengths(values.reading(w, values.stub_end(w)))} on the scale, to b = {w.write('own.near')} "
        f"for the near stub and to b = {w.write('own.far')} for the far one."
    ),
    because="The stub stays shorter than half a wavelength; longer ones repeat.",
    fields=near_and_far(
        "length",
        "stub length {l}",
        lambda w: LengthOfLine(),
        values.stub_length,
        _length_slips,
        _length_strokes,
        lambda w, side: DragAlong(values.stub_end(w), "admittance"),
        names=("{l}", "{l}/λ", "stub length", "stub length {l}", "length", "l", "ls", "l stub"),
    ),
)
