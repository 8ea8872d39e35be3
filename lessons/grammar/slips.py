"""Slips that belong to the chart and the line, whatever the lesson: each made from the value it spoils.

A maker takes the function that gives the right value, so that a lesson says only where a slip can happen.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from core.line import wrap_half_wave
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Slip, Text, Work, by_grid

ROUNDING = 1e-9
ABOVE = "Above the axis of the chart it is positive, below it negative."
BELOW_IF_DOTTED = by_grid(ABOVE, "On the dotted grid it is positive below the axis, negative above it.")
ONE_TURN = (
    "One full turn is half a wavelength, since the wave goes there and back: {half_wave} on the outer scale."
)
DIFFERENCE = "A length is the difference of two readings: where the walk ends less where it starts."
ValueOf = Callable[[Work], Value]


def changed(value: ValueOf, change: Callable[[Value], Value]) -> Callable[[Work], Value | None]:
    """A prediction: the right value, changed; None where the change changes nothing."""

    def predict(work: Work) -> Value | None:
        right = value(work)
        return unless_same(change(right), right)

    return predict


def unless_same(wrong: Value, right: Value) -> Value | None:
    """The wrong value, or None where only rounding keeps it from the right one: then nobody goes wrong by it."""
    return None if wrong == right or abs(wrong - right) <= ROUNDING else wrong


def sign_lost(value: ValueOf, what: str, **more: Any) -> Slip:
    return Slip(
        key=f"sign of the {what} lost",
        doing=f"losing the sign of the {what}",
        question=f"Did you keep the sign of the {what}?",
        remedy=BELOW_IF_DOTTED if what == "susceptance" else ABOVE,
        predict=changed(value, lambda v: v.conjugate() if isinstance(v, complex) else -v),
        usual=3,
        **more,
    )


def parts_exchanged(predict: Callable[[Work], Value | None]) -> Slip:
    return Slip(
        key="parts exchanged",
        doing="exchanging r and x",
        question="Which part is which?",
        remedy="The circles that touch the right end of the axis are those of r; the arcs are those of x.",
        predict=predict,
        usual=1,
    )


def wrong_way(value: ValueOf, **more: Any) -> Slip:
    return Slip(
        key="wrong way",
        doing="walking toward the load, counter-clockwise",
        question="Which way did you walk?",
        remedy="Wherever a walk begins, it leads toward the generator: clockwise.",
        predict=changed(value, lambda v: wrap_half_wave(-v)),
        usual=3,
        of_method=True,
        **more,
    )


def double_angle(value: ValueOf) -> Slip:
    return Slip(
        key="double angle",
        doing="counting one turn of the chart as a whole wavelength",
        question="How many wavelengths is one full turn of the chart?",
        remedy=ONE_TURN,
        predict=changed(value, lambda v: wrap_half_wave(2 * v)),
        spread=2.0,
        of_method=True,
    )


def half_angle(value: ValueOf) -> Slip:
    return Slip(
        key="half angle",
        doing="counting one turn of the chart as a quarter wavelength",
        question="How many wavelengths is one full turn of the chart?",
        remedy=ONE_TURN,
        predict=changed(value, lambda v: v / 2),
        usual=1,
        of_method=True,
    )


def end_reading(value: ValueOf, reading: Callable[[Work], float]) -> Slip:
    return Slip(
        key="end reading",
        doing="taking the scale reading at the end of the walk for its length",
        question="Did you subtract the reading where the walk starts?",
        remedy=DIFFERENCE,
        predict=lambda work: unless_same(reading(work), value(work)),
    )


def start_reading(value: ValueOf, reading: Callable[[Work], float]) -> Slip:
    return Slip(
        key="start reading",
        doing="giving the scale reading where the walk starts",
        question="Is that where the walk starts, or how long it is?",
        remedy=DIFFERENCE,
        predict=lambda work: unless_same(reading(work), value(work)) if reading(work) > ROUNDING else None,
        usual=1,
    )


def only_to_the_mark(value: ValueOf, start: Callable[[Work], float]) -> Slip:
    return Slip(
        key="only to the mark",
        doing="stopping at the mark where the scale starts again",
        question="Did you walk on past the mark where the scale starts again?",
        remedy="Add both parts: from the start to {half_wave}, and from there on to the end.",
        predict=lambda work: unless_same(0.5 - start(work), value(work)) if start(work) > ROUNDING else None,
        usual=1,
    )


def other_scale(value: ValueOf, start: Callable[[Work], float], end: Callable[[Work], float]) -> Slip:
    return Slip(
        key="other scale",
        doing="reading one of the two points on the scale toward the load",
        question="On which of the two scales did you read each point?",
        remedy="Read both points on the scale toward the generator.",
        predict=lambda work: unless_same(wrap_half_wave(-end(work) - start(work)), value(work)),
        usual=1,
    )


def made_positive(start: Callable[[Work], float], end: Callable[[Work], float]) -> Slip:
    """start, end : readings of the scale where the walk starts and ends."""

    def predict(work: Work) -> float | None:
        less = start(work) - end(work)
        return less if less > ROUNDING else None

    return Slip(
        key="made positive",
        doing="dropping the minus sign of a negative difference",
        question="Did the scale start again between your two readings?",
        remedy="Where the scale starts again in between, add {half_wave} to the difference; do not just drop its sign.",
        predict=predict,
    )


def start_off_by_quarter(value: ValueOf, doing: Text, question: Text, remedy: Text) -> Slip:
    return Slip(
        key="wrong start",
        doing=doing,
        question=question,
        remedy=remedy,
        predict=changed(value, lambda v: wrap_half_wave(v + 0.25)),
        of_method=True,
    )


def wrong_end(value: ValueOf, remedy: Text = "This stub's end is {end}: start there.", **more: Any) -> Slip:
    return Slip(
        key="wrong end",
        doing="starting at the other kind of end",
        question="Is this stub's end short or open?",
        remedy=remedy,
        predict=changed(value, lambda v: wrap_half_wave(v + 0.25)),
        usual=3,
        of_method=True,
        **more,
    )


def branches_mixed(
    other: ValueOf, branch: Branch, wrong: Branch, noun: str, remedy: Text, **more: Any
) -> Slip:
    """Giving one branch's value for another's. noun : what each of them is, such as a crossing."""
    return Slip(
        key="branches mixed",
        doing=f"giving the value of the {wrong.named('solution')} for the {branch.named('one')}",
        question=f"Is this the {branch.named(noun)}, or the {wrong.named('one')}?",
        remedy=remedy,
        predict=lambda work: other(work),
        **more,
    )


def other_quantity(key: str, doing: str, question: str, remedy: str, other: ValueOf, value: ValueOf) -> Slip:
    """Giving the value of another quantity of the sheet."""
    return Slip(key, doing, question, remedy, lambda work: unless_same(other(work), value(work)), usual=1)
