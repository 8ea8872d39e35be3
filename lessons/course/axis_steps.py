"""The steps to voltage maximum and minimum: which places they are, the resistance there, how far they are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.chart import mismatch_circle
from core.line import wrap_half_wave
from lessons.course.distance_step import Walk, distance_step
from lessons.course.maximum_and_minimum import (
    MAXIMUM,
    PLACES,
    distance,
    distance_routes,
    end,
    resistance,
    resistance_reflection,
    resistance_routes,
    start,
)
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, Resistance
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.side import SERIES
from lessons.grammar.strokes import PickPoint, Point, PointOnCircle

ENDS = Step(
    key="ends",
    title="Find where the impedance is real",
    ask="Where on its circle is the load's impedance a pure resistance? And which of these places is the voltage "
    "maximum?",
    goal="A quarter wave of line turns a resistance into a resistance. Walk there first.",
    rule="A resistance has x = 0: it lies on the axis of the chart. The voltage is highest where the two waves add, "
    "and there r is above 1.",
    numbers=lambda w: (
        f"The circle has the radius {w.notation.number(abs(w['place']), 2)}. It meets the axis that far from the "
        "centre, on either side."
    ),
    because="At the maximum the current is lowest, so the impedance is at its highest; at the minimum it is the other "
    "way round.",
    fields=(
        Field(
            quantity="ends.where",
            label="The impedance is real",
            names=("real", "impedance is real", "real at"),
            kind=lambda w: Choice(
                (
                    ("axis", "where the circle meets the axis of the chart"),
                    ("unit circle", "where the circle meets r = 1"),
                    ("beside the centre", "straight above and below the centre"),
                    ("load's r", "where the circle meets the load's own r again"),
                )
            ),
            value=lambda w: "axis",
            slips=(
                Slip(
                    key="unit circle",
                    doing="going to r = 1, as for a stub",
                    question="What is x there?",
                    remedy="At r = 1 a reactance is left, and a quarter wave does not cancel it: look for x = 0.",
                    predict=lambda w: "unit circle",
                ),
                Slip(
                    key="beside the centre",
                    doing="going where the reactance is not zero",
                    question="What is x there?",
                    remedy="Every arc of x off the axis is a reactance: look for x = 0.",
                    predict=lambda w: "beside the centre",
                ),
                Slip(
                    key="constant r",
                    doing="keeping the load's resistance in place of losing its reactance",
                    question="Which part must be gone?",
                    remedy="The reactance must be gone, and r may be what it will: look for x = 0.",
                    predict=lambda w: "load's r",
                ),
            ),
        ),
        Field(
            quantity="ends.highest",
            label="The voltage is highest",
            names=("highest voltage", "voltage is highest", "highest at"),
            kind=lambda w: Choice(
                (("right", "at the right of the centre"), ("left", "at the left of the centre"))
            ),
            value=lambda w: "right",
            slips=(
                Slip(
                    key="ends exchanged",
                    doing="exchanging the maximum and the minimum",
                    question="Do the two waves add there?",
                    remedy="At the right the reflection is positive: both waves add, and the voltage is highest.",
                    predict=lambda w: "left",
                ),
            ),
            gesture=lambda w: PickPoint(
                (("right", abs(start(w)) + 0j), ("left", -abs(start(w)) + 0j)), "impedance"
            ),
        ),
    ),
)


def _resistance_slips(branch: Branch) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return resistance(work, branch)

    read_there = "On the way along the line z changes: read r where the circle meets the axis."
    return (
        made.other_quantity(
            "size of impedance",
            "taking the size of the load's z",
            "Is that the size of z, or r on the axis?",
            read_there,
            lambda w: abs(w["normalise"]),
            value,
        ),
        made.other_quantity(
            "load's resistance",
            "keeping the load's own r",
            "Did you read r at the load, or on the axis?",
            read_there,
            lambda w: w["normalise"].real,
            value,
        ),
        made.other_quantity(
            "size of reflection",
            "giving |Γ| itself",
            "Is that |Γ|, or r?",
            "Read the grid's own numbers along the axis: they are r.",
            lambda w: abs(w["place"]),
            value,
        ),
        made.other_quantity(
            "in ohms",
            "giving ohms where the chart's r is asked",
            "Is that r, or R in ohms?",
            "Read r as it stands on the axis: R in ohms is r times {line}.",
            lambda w: value(w) * w["line"],
            value,
        ),
    )


def _resistance_point(work: Work, branch: Branch) -> Iterator[Point]:
    yield Point(
        resistance_reflection(work, branch),
        branch.role,
        "impedance",
        f"r_{branch.also[0]}",
        f"The voltage {branch.word}, r = {work.write_of('resistance', branch)}.",
        work.notation.number(work.of("resistance", branch), 2),
    )


RESISTANCE = Step(
    key="resistance",
    title="Read the resistance there",
    ask="Read r at the voltage maximum and at the minimum.",
    goal="What the line shows there, a quarter wave has to turn into the line's own impedance.",
    rule="Read r on the axis, where the circle meets it: at the right for the maximum, at the left for the minimum.",
    numbers=lambda w: (
        f"The standing-wave ratio is {w.write('mismatch')}. One of the two is the ratio itself, the other one over it."
    ),
    because="Highest voltage over lowest current, and lowest over highest: so the two are the ratio and one over it.",
    fields=PLACES.fields(
        quantity="resistance",
        label="resistance r",
        kind=lambda w: Resistance(w["line"]),
        value=resistance,
        routes=resistance_routes,
        slips=_resistance_slips,
        strokes=_resistance_point,
        gesture=lambda w, branch: PointOnCircle(mismatch_circle(start(w)), "impedance"),
        names=("r", "z", "R", "resistance"),
    ),
)


# --- how far it is ---


def distance_slips(branch: Branch) -> tuple[Slip, ...]:
    """What goes wrong on the walk from the load to one of the two places."""

    def value(work: Work) -> float:
        return distance(work, branch)

    def at_start(work: Work) -> float:
        return WALK.reading(work, start(work))

    return (
        made.wrong_way(value),
        *((made.start_reading(value, at_start),) if branch is MAXIMUM else ()),  # else it is the wrong way
        made.end_reading(value, lambda work: WALK.reading(work, end(branch))),
        made.double_angle(value),
        made.half_angle(value),
    )


def _distance_slips(branch: Branch) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return distance(work, branch)

    return (
        *distance_slips(branch),
        Slip(
            key="quarter wave counted in",
            doing="counting the section's own quarter wavelength in",
            question="Does your walk end where the section begins, or where it ends?",
            remedy="The distance ends where the section begins: the section comes after it.",
            predict=lambda work: made.unless_same(wrap_half_wave(value(work) + 0.25), value(work)),
            ruled_out_by=tuple(f"distance.{one.key}" for one in PLACES.branches),
        ),
    )


WALK = Walk(PLACES, SERIES, start, lambda work, branch: end(branch), lambda one: f"voltage {one.word}")


def readings_told(work: Work, at_load: str, ends: Sequence[str]) -> str:
    """The hint with the readings, and what there is to say of a load that stands on the axis already."""
    real = "" if start(work).imag else " The load is real: it stands at one of the two already."
    return (
        f"The scale reads {at_load} beside z, {ends[0]} beside the maximum and {ends[1]} beside the minimum."
        + real
    )


DISTANCES = distance_step(
    WALK,
    value=distance,
    to="each of the two",
    what="section",
    beside="each end of the axis",
    numbers=readings_told,
    because="From a maximum to the next minimum it is always a quarter wavelength.",
    routes=distance_routes,
    slips=_distance_slips,
    element=0,
)
