"""Slips that belong to the chart and the line, whatever the lesson: each made from the value it spoils.

A maker takes the function that gives the right value, so that a lesson says only where a slip can happen.
"""

from __future__ import annotations

from collections.abc import Callable

from core.line import wrap_half_wave
from lessons.grammar.kinds import Value
from lessons.grammar.lesson import Side, Slip, Work, other_side

ROUNDING = 1e-9
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


def sign_lost(value: ValueOf, what: str) -> Slip:
    return Slip(
        key="sign lost",
        doing=f"losing the sign of the {what}",
        question=f"Did you keep the sign of the {what}?",
        remedy="Above the axis of the chart it is positive, below it negative.",
        predict=changed(value, lambda v: v.conjugate() if isinstance(v, complex) else -v),
    )


def wrong_way(value: ValueOf) -> Slip:
    return Slip(
        key="wrong way",
        doing="walking toward the load, counter-clockwise",
        question="Which way did you walk?",
        remedy="From the load and from a stub's end alike, the way is toward the generator: clockwise.",
        predict=changed(value, lambda v: wrap_half_wave(-v)),
    )


def double_angle(value: ValueOf) -> Slip:
    return Slip(
        key="double angle",
        doing="counting one turn of the chart as a whole wavelength",
        question="How many wavelengths is one full turn of the chart?",
        remedy="One full turn is half a wavelength, since the wave goes there and back.",
        predict=changed(value, lambda v: wrap_half_wave(2 * v)),
    )


def half_angle(value: ValueOf) -> Slip:
    return Slip(
        key="half angle",
        doing="counting one turn of the chart as a quarter wavelength",
        question="How many wavelengths is one full turn of the chart?",
        remedy="One full turn is half a wavelength: 0.5 on the outer scale.",
        predict=changed(value, lambda v: v / 2),
    )


def end_reading(value: ValueOf, reading: Callable[[Work], float]) -> Slip:
    return Slip(
        key="end reading",
        doing="taking the scale reading at the end of the walk for its length",
        question="Did you subtract the reading where the walk starts?",
        remedy="A length is the difference of two readings: where the walk ends less where it starts.",
        predict=lambda work: unless_same(reading(work), value(work)),
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
        remedy="Where the scale starts again in between, add 0.5 to the difference; do not just drop its sign.",
        predict=predict,
    )


def start_off_by_quarter(value: ValueOf, doing: str, question: str, remedy: str) -> Slip:
    return Slip(
        key="wrong start",
        doing=doing,
        question=question,
        remedy=remedy,
        predict=changed(value, lambda v: wrap_half_wave(v + 0.25)),
    )


def branches_mixed(other: ValueOf, side: Side) -> Slip:
    wrong = other_side(side)
    return Slip(
        key="branches mixed",
        doing=f"giving the value of the {wrong} solution for the {side} one",
        question=f"Is this the {side} crossing, or the {wrong} one?",
        remedy="The near crossing is the first one met when walking clockwise from the load.",
        predict=lambda work: other(work),
    )
