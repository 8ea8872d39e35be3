"""The steps of a shunt stub up to the junction: the unit-conductance circle, the crossings, the susceptance there."""

from __future__ import annotations

from collections.abc import Iterable

from core.chart import UNIT_CONDUCTANCE_CIRCLE, mismatch_circle
from lessons.course import stub_values as values
from lessons.grammar import slips as made
from lessons.grammar.branches import near_and_far
from lessons.grammar.kinds import Choice, Immittance, Susceptance
from lessons.grammar.lesson import Field, Side, Slip, Step, Work
from lessons.grammar.strokes import Curve, Point, PointOnCircle, Stroke

UNIT_CIRCLE = Step(
    key="unit_circle",
    title="Draw the unit circle",
    ask="On which circle must the admittance lie for a stub to finish the match?",
    goal="A lossless stub can cancel a susceptance, but it can add no conductance.",
    rule="The match is y = 1. The stub takes care of the imaginary part, so the real part must be 1 already.",
    numbers=lambda w: w.say(
        "Look for all y = 1 + {j}b, whatever b is: a circle through the centre of the chart."
    ),
    because="From any point of it a stub leads to the centre.",
    fields=(
        Field(
            key="unit_circle",
            label="The circle",
            names=("circle", "unit circle", "the circle"),
            kind=lambda w: Choice(
                (
                    ("unit conductance", "g = 1, the unit-conductance circle"),
                    ("unit resistance", "r = 1, the unit-resistance circle"),
                    ("axis", "b = 0, the axis of the chart"),
                    ("load conductance", "the circle of the load's own g"),
                )
            ),
            value=lambda w: "unit conductance",
            slips=(
                Slip(
                    key="impedance kept",
                    doing="using the impedance where the admittance is needed",
                    question="Is the stub in the line or across it?",
                    remedy="A stub across the line adds to admittance: g must be 1.",
                    predict=lambda w: "unit resistance",
                ),
                Slip(
                    key="axis",
                    doing="cancelling the wrong part",
                    question="Which part can a stub cancel?",
                    remedy="On the axis there is no susceptance left to cancel, and g is not 1 there.",
                    predict=lambda w: "axis",
                ),
                Slip(
                    key="constant g",
                    doing="following the load's own conductance",
                    question="What must g be for a match?",
                    remedy="g must become 1, and only walking along the line changes it.",
                    predict=lambda w: "load conductance",
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
            ),
        ),
    ),
)


def _crossing_strokes(work: Work, side: Side) -> Iterable[Stroke]:
    where = work.write(f"crossing.{side}")
    yield Point(
        values.crossing_reflection(work, side),
        side,
        "admittance",
        "y",
        f"The {side} crossing, {where}.",
        work.notation.rectangular(work[f"crossing.{side}"], 2),
    )


CROSSINGS = Step(
    key="crossing",
    title="Find the two crossings",
    ask="Where does the mismatch circle meet g = 1? Walking clockwise from y, the first one met is the near crossing.",
    goal="The line takes y along its circle; stop where g is 1.",
    rule="Two circles meet in two points, one with b above zero and one below. Both serve.",
    numbers=lambda w: (
        f"Both are 1 ± {w.notation.imaginary}b on the circle of SWR {w.write('mismatch')}. "
        "Start at y and walk clockwise: which comes first?"
    ),
    because="At a crossing only the susceptance is left to cancel.",
    fields=near_and_far(
        "crossing",
        "admittance y",
        lambda w: Immittance("1.00 + {j}0.80"),
        values.crossing,
        lambda side: (
            Slip(
                key="constant b",
                doing="following the load's arc of constant susceptance to g = 1",
                question="Along which curve did you move?",
                remedy="A line moves y along the mismatch circle.",
                predict=lambda w: complex(1, w["admittance"].imag),
            ),
            Slip(
                key="constant x",
                doing="following the load's arc of constant reactance",
                question="Along which curve did you move?",
                remedy="A line moves the point along the mismatch circle.",
                predict=lambda w: complex(1, w["normalise"].imag),
            ),
        ),
        _crossing_strokes,
        lambda w, side: PointOnCircle(mismatch_circle(values.admittance_reflection(w)), "admittance"),
        names=("y", "y{d}", "y crossing", "y line", "y junction", "yin", "crossing"),
    ),
)

SUSCEPTANCE = Step(
    key="susceptance",
    title="Read the susceptance there",
    ask="Read b at each crossing.",
    goal="What the stub must cancel is the imaginary part of y.",
    rule="At a crossing y = 1 + {j}b: b is read on the arc through it, above the axis positive, below it negative.",
    numbers=lambda w: f"The crossings are {w.write('crossing.near')} and {w.write('crossing.far')}.",
    because="This much is too much, and the stub has to take it away.",
    fields=near_and_far(
        "susceptance",
        "susceptance b",
        lambda w: Susceptance(1.0),
        values.susceptance,
        lambda side: (made.sign_lost(lambda w: values.susceptance(w, side), "susceptance"),),
        names=("b", "b{d}", "b line", "b crossing", "susceptance"),
    ),
)
