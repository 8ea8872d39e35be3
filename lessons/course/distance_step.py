"""The step that measures how far something stands from the load: the walk along the line to its place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from core.chart import walk
from lessons.course.near_and_far import CROSSINGS, FAR, NEAR
from lessons.course.pairs import Pair
from lessons.course.stub_values import StubValues
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import LengthOfLine
from lessons.grammar.lesson import Impossible, Slip, Step, Text, Work, by_grid
from lessons.grammar.notation import Symbol
from lessons.grammar.side import Side
from lessons.grammar.strokes import DragAlong, Ray, Stroke, Way, scale_reading

DISTANCE = Symbol("d", "distance")


@dataclass(frozen=True)
class Walk:
    """The walks from the load to the places of two solutions.

    start, end : reflections on the line; they raise Impossible where there is none.  side : whose grid is read.
    place : what is walked to, in words."""

    pair: Pair
    side: Side
    start: Callable[[Work], complex]
    end: Callable[[Work, Branch], complex]
    place: Callable[[Branch], str]

    def reading(self, work: Work, reflection: complex) -> float:
        """The scale's reading beside a point."""
        return scale_reading(reflection, self.side.immittance, work.notation.admittance)

    def readings(self, work: Work, known: Iterable[Branch]) -> tuple[str, ...]:
        """The scale's readings at the load and at these ends, in writing, with differences that add up."""
        ends = [self.reading(work, self.end(work, one)) for one in known]
        return work.notation.adding_up(self.reading(work, self.start(work)), ends)

    def known(self, work: Work) -> list[Branch]:
        """The solutions whose place is known, or follows."""
        return [one for one in self.pair.branches if self._is_known(work, one)]

    def _is_known(self, work: Work, branch: Branch) -> bool:
        try:
            return bool(np.isfinite(self.end(work, branch)))
        except Impossible:
            return False

    def strokes(self, work: Work, branch: Branch) -> Iterable[Stroke]:
        """Rays to the scale at both ends of a walk, and the walk."""
        start, read_as, length = self.start(work), self.side.immittance, work.write_of("distance", branch)
        known, place = self.known(work), self.place(branch)
        at_load, *at_ends = self.readings(work, known)
        of_load = "The load's reading on the scale toward the generator."
        yield Ray(start, "construction", read_as, "", of_load, at_load)
        yield Way(
            walk(start, work.of("distance", branch)),
            branch.role,
            read_as,
            work.notation.symbol(DISTANCE.key),
            f"The walk from the load to the {place}, {length} toward the generator.",
            length,
        )
        if branch in known:
            spoken = f"The {place}'s reading on the same scale."
            yield Ray(self.end(work, branch), branch.role, read_as, "", spoken, at_ends[known.index(branch)])


def distance_step(
    along: Walk,
    *,
    to: str,
    what: str,
    beside: str,
    value: Callable[[Work, Branch], float],
    slips: Callable[[Branch], tuple[Slip, ...]],
    numbers: Callable[[Work, str, Sequence[str]], str],
    because: str,
    **more: Any,
) -> Step:
    """to, what, beside : where the walk leads, what stands there, and where the scale is read at its end.

    numbers : the hint, from the readings at the load and at the ends."""

    def with_readings(work: Work) -> str:
        at_load, *at_ends = along.readings(work, along.pair.branches)
        return numbers(work, at_load, at_ends)

    return Step(
        key="distance",
        title="Measure the distance from the load",
        ask=f"How far is it from the load to {to}? Walk clockwise, toward the generator, and give {{d}}.",
        goal=f"The angle walked on the chart is the length of line between load and {what}.",
        rule=f"Read the scale toward the generator beside {along.side.symbol} and beside {beside}, and subtract. If "
        "the difference is negative, the scale has started again in between: add {half_wave}.",
        numbers=with_readings,
        because=because,
        fields=along.pair.fields(
            quantity="distance",
            label="distance {d}",
            symbol=DISTANCE,
            kind=lambda w: LengthOfLine(),
            value=value,
            slips=slips,
            strokes=along.strokes,
            gesture=lambda w, branch: DragAlong(along.start(w), along.side.immittance),
            names=("{d}", "{d}/λ", "distance", "distance {d}", "d"),
            **more,
        ),
    )


def distance(values: StubValues) -> Step:
    """To the two crossings of a stub's lesson."""
    side = values.side
    return distance_step(
        Walk(CROSSINGS, side, values.start, values.crossing_reflection, lambda one: f"{one.word} crossing"),
        to="each crossing",
        what="stub",
        beside="the crossing",
        value=values.distance,
        routes=lambda branch: (lambda w: values.distance_from_drawn(w, branch),),
        slips=lambda branch: _distance_slips(values, branch),
        numbers=lambda w, at_load, ends: (
            f"The scale reads {at_load} beside {side.symbol}, {ends[0]} beside the near crossing and {ends[1]} beside "
            "the far one."
        ),
        because="Half a wavelength more would do as well: the circle closes.",
        element=0,
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
