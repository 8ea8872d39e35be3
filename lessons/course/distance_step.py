"""The step that measures how far a stub stands from the load: the walk along the line to a crossing."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from core.chart import walk
from lessons.course.near_and_far import BOTH, FAR, NEAR, near_and_far
from lessons.course.stub_values import StubValues
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import LengthOfLine
from lessons.grammar.lesson import Slip, Step, Text, Work, by_grid
from lessons.grammar.notation import Symbol
from lessons.grammar.strokes import DragAlong, Ray, Stroke, Way

DISTANCE = Symbol("d", "distance")


def distance(values: StubValues) -> Step:
    side = values.side

    def readings(work: Work, known: Iterable[Branch]) -> tuple[str, ...]:
        """The scale's readings at the load and at crossings."""
        return values.readings(
            work, values.start(work), [values.crossing_reflection(work, one) for one in known]
        )

    def strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
        start = values.start(work)
        length, read_as = work.write_of("distance", branch), side.immittance
        of_load = "The load's reading on the scale toward the generator."
        known = [one for one in BOTH if values.crosses(work, one)]
        at_load, *at_crossings = readings(work, known)
        yield Ray(start, "construction", read_as, "", of_load, at_load)
        yield Way(
            walk(start, work.of("distance", branch)),
            branch.role,
            read_as,
            work.notation.symbol("d"),
            f"The walk from the load to the {branch.word} crossing, {length} toward the generator.",
            length,
        )
        if branch in known:
            end = values.crossing_reflection(work, branch)
            of_crossing = f"The {branch.word} crossing's reading on the same scale."
            yield Ray(end, branch.role, read_as, "", of_crossing, at_crossings[known.index(branch)])

    return Step(
        key="distance",
        title="Measure the distance from the load",
        ask="How far is it from the load to each crossing? Walk clockwise, toward the generator, and give {d}.",
        goal="The angle walked on the chart is the length of line between load and stub.",
        rule=f"Read the scale toward the generator beside {side.symbol} and beside the crossing, and subtract. If the "
        "difference is negative, the scale has started again in between: add {half_wave}.",
        numbers=lambda w: (
            "The scale reads {} beside {}, {} beside the near crossing and {} beside the far one.".format(
                readings(w, BOTH)[0], side.symbol, *readings(w, BOTH)[1:]
            )
        ),
        because="Half a wavelength more would do as well: the circle closes.",
        fields=near_and_far(
            quantity="distance",
            label="distance {d}",
            symbol=DISTANCE,
            element=0,
            kind=lambda w: LengthOfLine(),
            value=values.distance,
            routes=lambda branch: (lambda w: values.distance_from_drawn(w, branch),),
            slips=lambda branch: _distance_slips(values, branch),
            strokes=strokes,
            gesture=lambda w, branch: DragAlong(values.start(w), side.immittance),
            names=("{d}", "{d}/λ", "distance", "distance {d}", "d"),
        ),
    )


def _distance_slips(values: StubValues, branch: Branch) -> tuple[Slip, ...]:
    side = values.side

    def value(work: Work) -> float:
        return values.distance(work, branch)

    def at_start(work: Work) -> float:
        return values.reading(work, values.start(work))

    def at_end(work: Work) -> float:
        return values.reading(work, values.crossing_reflection(work, branch))

    return (
        made.wrong_way(value),
        made.end_reading(value, at_end),
        made.start_reading(value, at_start),
        made.only_to_the_mark(value, at_start),
        made.other_scale(value, at_start, at_end),
        made.made_positive(at_start, at_end),
        *(_from_the_near_one(values, value) if branch is FAR else ()),
        made.other_quantity(
            "stub length",
            "giving the stub's length for the distance",
            "Is that the distance, or the stub's length?",
            "The distance is the line between load and stub.",
            lambda w: values.stub_length(w, branch),
            value,
        ),
        made.start_off_by_quarter(
            value,
            *_start_texts(side.symbol),
        ),
        made.double_angle(value),
        made.half_angle(value),
    )


def _start_texts(symbol: str) -> tuple[Text, Text, Text]:
    """What is said of a walk that begins on the other side of the chart: what is done, the question, the remedy."""
    if symbol == "z":
        return (
            "starting a quarter wavelength off, where the impedance grid shows 1 / z",
            "Did you start at z, or at 1 / z?",
            "Start at z: that point is what the line moves.",
        )
    return (
        by_grid(
            "starting from the impedance where the admittance is needed",
            "starting a quarter wavelength off the load's point",
        ),
        by_grid("Did you start at y, or at z?", "Did you take the scale's reading a quarter wavelength off?"),
        by_grid(
            "Start at y: that point is what the line moves.",
            "Start at the load's own point: y is read there, on the dotted grid.",
        ),
    )


def _from_the_near_one(values: StubValues, value: Callable[[Work], float]) -> tuple[Slip, ...]:
    return (
        made.other_quantity(
            "from the near crossing",
            "measuring from the near crossing to the far one",
            "From where did you measure?",
            "Both distances begin at the load.",
            lambda w: values.distance(w, FAR) - values.distance(w, NEAR),
            value,
        ),
    )
