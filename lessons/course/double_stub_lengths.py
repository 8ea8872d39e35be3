"""The lengths of two stubs: the walk along the rim, for each stub in each solution."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from core.chart import walk
from lessons.course import double_stub_values as values
from lessons.course.double_stub_values import HIGHER, LOWER, each
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import LengthOfLine
from lessons.grammar.lesson import Slip, Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import DragAlong, Stroke, Way

LENGTHS = {
    "first": Symbol("l1", "length of the first stub"),
    "second": Symbol("l2", "length of the second stub"),
}
ELEMENTS = {"first": 0, "second": 2}


def length_step(which: str) -> Step:
    """The length of one of the stubs, in either solution."""
    symbol, others = LENGTHS[which], "second" if which == "first" else "first"
    key, kinds = f"{which}_length", f"{{{which}_end}}"
    own = f" On its own chart, of {{{which}_stub}}, its b counts {{{which}_stub}} / {{line}} times."

    def own_chart(work: Work) -> str:
        return work.say(own) if work[f"{which}_stub"] != work["line"] else ""

    return Step(
        key=key,
        title=f"Walk the rim for the {which} stub",
        ask=lambda w: (
            f"The {which} stub ends in {{an_{which}_end}} circuit. Walk the rim from there, clockwise, to what it must "
            f"show, and give {{{symbol.key}}} for each solution." + (own if own_chart(w) else "")
        ),
        goal="A stub must be long enough to show that susceptance at its place, and no longer.",
        rule="A short circuit is y = ∞, an open circuit y = 0. Read the scale where b stands on the rim, less its "
        "reading at the stub's end; if negative, add {half_wave}.",
        numbers=lambda w: (
            w.say(f"From the {kinds} point to b = ")
            + f"{w.notation.number(values.on_own_chart(w, which, HIGHER))} for the higher solution and to b = "
            f"{w.notation.number(values.on_own_chart(w, which, LOWER))} for the lower one."
        ),
        because="Lengths repeat every half wavelength; the shortest is usual.",
        fields=each(
            quantity=key,
            label=f"length {{{symbol.key}}}",
            symbol=symbol,
            element=ELEMENTS[which],
            kind=lambda w: LengthOfLine(),
            value=lambda w, branch: values.stub_length(w, which, branch),
            unmixed_by=(f"{which}_part",),
            slips=lambda branch: _length_slips(which, others, branch),
            strokes=lambda w, branch: _length_strokes(w, which, branch),
            gesture=lambda w, branch: DragAlong(values.stub_end(w, which), "admittance"),
            names=(
                f"{{{symbol.key}}}",
                f"{{{symbol.key}}}/λ",
                f"{which} stub length",
                f"length of the {which} stub",
            ),
        ),
        applies=values.is_matchable,
    )


def _length_strokes(work: Work, which: str, branch: Branch) -> Iterable[Stroke]:
    written = work.write_of(f"{which}_length", branch)
    yield Way(
        walk(values.stub_end(work, which), work.of(f"{which}_length", branch)),
        branch.role,
        "admittance",
        work.notation.symbol(LENGTHS[which].key),
        work.say(
            f"The {which} stub, {branch.word}: from the {{{which}_end}} point {written} clockwise along the rim."
        ),
        written,
    )


def _length_slips(which: str, others: str, branch: Branch) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return values.stub_length(work, which, branch)

    def for_part(part: Callable[[Work], float]) -> Callable[[Work], Any]:
        return lambda work: made.unless_same(values.length_for(work, which, part(work)), value(work))

    def unscaled(work: Work) -> Any:
        part = work.of(f"{which}_part", branch)
        return made.unless_same(values.unscaled_length(work, which, part), value(work))

    def at_start(work: Work) -> float:
        return values.reading(work, values.stub_end(work, which))

    def at_end(work: Work) -> float:
        return values.reading(work, SHUNT.reflection_at(1j * values.on_own_chart(work, which, branch)))

    return (
        made.wrong_way(value),
        made.wrong_end(value, f"This stub's end is {{{which}_end}}: start there."),
        made.end_reading(value, at_end),
        made.start_reading(value, at_start),
        made.made_positive(at_start, at_end),
        made.double_angle(value),
        made.half_angle(value),
        Slip(
            key="sign not flipped",
            doing="walking to b with the other sign",
            question="Which sign has b of this stub?",
            remedy="Go to the b that the stub must add, with its sign: above the axis, or below it.",
            predict=for_part(lambda w: -w.of(f"{which}_part", branch)),
            usual=3,
            ruled_out_by=(f"{which}_part.{branch.key}",),
        ),
        made.other_quantity(
            "other stub",
            f"giving the {others} stub's length",
            "Which stub is this?",
            "The first stub stands nearer the load.",
            lambda w: values.stub_length(w, others, branch),
            value,
        ),
        Slip(
            key="ratio ignored",
            doing="using the line's normalisation for the stub",
            question="Whose impedance is this normalised by?",
            remedy=f"The stub is {{{which}_stub}}, the line {{line}}: multiply b by the one and divide by the other.",
            predict=unscaled,
        ),
    )


FIRST_LENGTH, SECOND_LENGTH = length_step("first"), length_step("second")
