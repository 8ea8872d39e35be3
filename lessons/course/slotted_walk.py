"""The steps from a voltage minimum back to the load: which way round, what stands there, and in ohms."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from core.chart import mismatch_circle, walk
from core.line import impedance_from_reflection, wrap_half_wave
from lessons.course import walk_steps
from lessons.course.slotted_values import (
    CLOCKWISE,
    COUNTER,
    OTHER,
    drawn_size,
    load_point,
    load_z,
    load_z_by_lowest,
    point_after,
    sense,
    way,
)
from lessons.course.walk_slips import TO_OHMS, misread
from lessons.grammar import slips as made
from lessons.grammar.kinds import Choice, Immittance
from lessons.grammar.kinds.lengths import HALF_WAVE
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.side import reflection_of
from lessons.grammar.strokes import Point, PointOnCircle, Ray, Stroke, Way

SENSE = Step(
    key="sense",
    title="Choose the way back",
    ask="Start on the chart at the minimum with the load. Which way round does the walk lead to the load's own place?",
    goal="The chart now shows what stands at the minimum. What is asked stands at {first}, where the short had its "
    "own.",
    rule="Walk from the minimum to where the short's minimum was: back against the way in which it has moved. Toward "
    "the generator is clockwise, toward the load counter-clockwise.",
    numbers=lambda w: f"The minimum has moved toward the {w['shift.toward']}; go the other way.",
    because="The other way round leads to a place as far beyond the minimum, where z has the opposite reactance.",
    fields=(
        Field(
            quantity="sense",
            label="The walk leads",
            names=("sense", "way round", "walk", "turn"),
            kind=lambda w: Choice(((CLOCKWISE, CLOCKWISE), (COUNTER, COUNTER))),
            value=sense,
            slips=(
                Slip(
                    key="the minimum's way",
                    doing="walking on in the direction in which the minimum has moved",
                    question="Where does the walk begin, and where does it end?",
                    remedy="It begins at the minimum and leads back to {first}: against the way the minimum has moved.",
                    predict=lambda w: OTHER[sense(w)],
                    usual=3,
                ),
            ),
        ),
    ),
)


def _at(work: Work, walked: float, radius: float | None = None) -> complex:
    return complex(impedance_from_reflection(point_after(work, walked, radius)))


def _walked(
    key: str, doing: str, question: str, remedy: str, change: Callable[[float], float], *out: str
) -> Slip:
    """A slip of walking from the minimum's point otherwise."""

    def predict(work: Work) -> complex | None:
        wrong, right = change(way(work)), way(work)
        off = wrap_half_wave(wrong - right)
        return None if min(off, HALF_WAVE - off) < 1e-9 else _at(work, wrong)

    return Slip(key, doing, question, remedy, predict, ruled_out_by=out)


SLIPS = (
    _walked(
        "other way round",
        "walking the other way round",
        "Which way did you walk?",
        "Go back against the way the minimum has moved: clockwise is toward the generator.",
        lambda way: -way,
        "sense",
    ),
    _walked(
        "from the maximum",
        "starting at the voltage maximum",
        "On which side of the centre did you start?",
        "The walk begins where the voltage is lowest: at the left of the centre.",
        lambda way: way + 0.25,
    ),
    _walked(
        "half the length",
        "counting one turn of the chart as a whole wavelength",
        "How many wavelengths is one full turn of the chart?",
        made.ONE_TURN,
        lambda way: way / 2,
    ),
    _walked(
        "double the length",
        "counting one turn of the chart as a quarter wavelength",
        "Did you double the length?",
        made.ONE_TURN,
        lambda way: 2 * way,
    ),
    *misread(load_z),
    Slip(
        key="not walked",
        doing="giving z at the minimum",
        question="Is that z at the minimum, or at the load?",
        remedy="Read z where the walk ends.",
        predict=lambda w: made.unless_same(complex(w["circle.lowest"]), load_z(w)),
    ),
    Slip(
        key="on the rim",
        doing="reading on the rim",
        question="Did you read on the circle, or on the rim?",
        remedy="The point is on the circle, where the line to the reading meets it.",
        predict=lambda w: complex(0, _at(w, way(w), 1 - 1e-12).imag),
        usual=1,
        spread=lambda w: 1 / max(drawn_size(w), 0.1),
    ),
)


def _strokes(work: Work) -> Iterator[Stroke]:
    walked, z, end = way(work), work["there"], load_point(work)
    turn, forward = float(wrap_half_wave(abs(walked))), walked > 0
    length = work.notation.wavelengths(turn)
    spoken = f"The walk from the minimum to the load, {length} {work['sense']}."
    yield Way(
        walk(point_after(work, 0.0), turn if forward else -turn), "first", "impedance", "", spoken, length
    )
    spoken = f"The reading at its end on the scale toward the {scale(work)}."
    yield Ray(end, "first", "impedance", "", spoken, length)
    spoken = f"The load, where z is {work.write('there')}."
    yield Point(reflection_of(z), "load", "impedance", "z_L", spoken, work.notation.rectangular(z, 2))


def scale(work: Work) -> str:
    """The end that the scale is named after on which the walk back counts from zero up."""
    return "generator" if work["sense"] == CLOCKWISE else "load"


def _numbers(work: Work) -> str:
    length = work.notation.wavelengths(float(wrap_half_wave(work["shift.waves"])))
    return (
        f"From z = {work.write('circle.lowest')} go {length} {work['sense']}. Both scales are zero there: the one "
        f"toward the {scale(work)} reads {length} at the end."
    )


THERE = Step(
    key="there",
    title="Walk to the load and read z",
    ask="Walk from the minimum along the circle as far as it has moved. Which normalised impedance stands there?",
    goal="The walk ends at the load's own place, so the point where it ends is the load.",
    rule="Begin at the left end of the circle. Walk by the length found, the way round that you chose, and read r and "
    "x on the impedance grid. One full turn is {half_wave}: take that off as often as it fits.",
    numbers=_numbers,
    because="No meter was at the load: a probe, a short and a ruler were enough.",
    fields=(
        Field(
            quantity="there",
            label="Normalised load impedance z",
            names=("z", "zL", "z load", "normalised load", "normalised impedance"),
            kind=lambda w: Immittance("impedance", w["line"]),
            value=load_z,
            routes=(load_z_by_lowest,),
            slips=SLIPS,
            strokes=_strokes,
            gesture=lambda w: PointOnCircle(mismatch_circle(drawn_size(w)), "impedance"),
        ),
    ),
)
OHMS = replace(
    walk_steps.OHMS,
    because="Found once, the load's impedance is what every matching starts from.",
    fields=(
        replace(
            walk_steps.OHMS.fields[0],
            slips=(
                *TO_OHMS,
                made.other_quantity(
                    "minimum",
                    "giving the impedance at the minimum",
                    "Is that Z of the load, or at the minimum?",
                    "Multiply z of the load by {line}.",
                    lambda w: complex(w["circle.lowest"] * w["line"]),
                    lambda w: complex(w["there"] * w["line"]),
                ),
            ),
        ),
    ),
)
