"""Between a sheet and a chart: the strokes that stand on it, and what a drawn answer says in writing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from core.line import admittance_from_reflection, impedance_from_reflection, swr
from core.network import MatchingNetwork
from lessons.grammar.kinds import Kind, Reflection, StandingWaveRatio, Value
from lessons.grammar.lesson import SIDES, Impossible, Side, Step
from lessons.grammar.strokes import DragAlong, DragRadius, Gesture, PickPoint, Stroke
from lessons.working.sheet import Sheet


def stroke_groups(sheet: Sheet) -> list[tuple[str, tuple[Stroke, ...]]]:
    """The strokes of every settled field, by step, with the step's key, in the order of the derivation."""
    if sheet.lesson.refuses(sheet.problem):
        return []
    drawn = ((step.key, tuple(_settled_strokes(sheet, step))) for step in sheet.steps)
    return [(key, strokes) for key, strokes in drawn if strokes]


def networks(sheet: Sheet) -> dict[Side, MatchingNetwork]:
    """The near and the far network, each as far as the sheet has come with it."""
    if sheet.lesson.refuses(sheet.problem):
        return {}
    settled = {one.key for step in sheet.steps for one in step.fields if sheet.settled(one.key)}
    found = {side: sheet.lesson.design(sheet.work, side, settled) for side in SIDES}
    return {side: network for side, network in found.items() if network is not None}


def gesture_for(sheet: Sheet, key: str) -> Gesture | None:
    """The gesture that answers a field, where it can be drawn and is still open."""
    if not key or sheet.settled(key) or sheet.lesson.refuses(sheet.problem):
        return None
    return sheet.lesson.field(key).gesture(sheet.work)


def in_writing(sheet: Sheet, key: str, answer: Any) -> str:
    """A drawn answer as the student would write it in the field's box.

    answer : a reflection (complex) for a placed point, |reflection| for a radius, wavelengths for a walk, and for a
    picked point its key.  Raises KeyError for an unknown field, TypeError for an answer of another gesture."""
    field = sheet.lesson.field(key)
    gesture, kind = field.gesture(sheet.work), field.kind(sheet.work)
    if gesture is None or isinstance(answer, str) != isinstance(gesture, PickPoint):
        raise TypeError(f"{key} is not answered by {answer!r}")
    if isinstance(gesture, PickPoint):
        return str(answer)
    return kind.write(_value(gesture, kind, answer), sheet.notation)


def _settled_strokes(sheet: Sheet, step: Step) -> Iterator[Stroke]:
    for one in step.fields:
        if sheet.settled(one.key):
            try:
                yield from one.strokes(sheet.work)
            except Impossible:  # what the rest of it would be drawn from is not there
                continue


def _value(gesture: Gesture, kind: Kind, answer: Any) -> Value:
    if isinstance(gesture, DragAlong | PickPoint):
        return abs(float(answer))  # a way is as long as it is, whichever way round; marking asks which it was
    if isinstance(gesture, DragRadius) or isinstance(kind, StandingWaveRatio):
        return float(swr(answer))
    if isinstance(kind, Reflection):
        return complex(answer)
    immittance = admittance_from_reflection if gesture.read_as == "admittance" else impedance_from_reflection
    return complex(immittance(answer))
