"""Between a sheet and a chart: the strokes that stand on it, what can be drawn as an answer, and what can be built."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Field, Impossible, Lesson, Step, Work
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan
from lessons.grammar.strokes import (
    Curve,
    DragAlong,
    DragRadius,
    Gesture,
    PickPoint,
    PlacePoint,
    Point,
    PointOnCircle,
    Stroke,
    WalkCircle,
    Way,
)
from lessons.working.refused import worked_to_the_end
from lessons.working.sheet import Sheet
from lessons.working.undoing import standing


def stroke_groups(sheet: Sheet) -> list[tuple[str, tuple[Stroke, ...]]]:
    """The strokes of every settled field, by step, with the step's key, in the order of the derivation.

    Of a problem that the lesson refuses, all that can be drawn before it ends."""
    sheet = worked_to_the_end(sheet)
    drawn = ((step.key, tuple(_settled_strokes(sheet, step))) for step in sheet.steps)
    return [(key, strokes) for key, strokes in drawn if strokes]


def wrong_drawings(sheet: Sheet) -> list[Stroke]:
    """What the student drew and has not put right yet: the point, circle or walk of each such answer, as a slip."""
    done = (sheet.attempts[i] for i in standing(sheet.attempts))
    last = {one.at: one.doing for one in done if one.doing in ("enter", "draw")}
    drawn = (one for step in sheet.steps for one in step.fields if last.get(one.key) == "draw")
    return [stroke for one in drawn if not sheet.settled(one.key) for stroke in _ghosts(sheet, one)]


DRAWN_BY: dict[type, type] = {
    PlacePoint: Point,
    PointOnCircle: Point,
    WalkCircle: Point,
    DragRadius: Curve,
    DragAlong: Way,
}
"""What the hand of each gesture leaves on the chart."""


def _ghosts(sheet: Sheet, one: Field) -> Iterator[Stroke]:
    verdict = sheet.verdicts.get(one.key)
    if verdict is None or verdict.value is None:
        return
    work = Work(sheet.lesson, sheet.problem, sheet.notation, {**sheet.work.given, one.key: verdict.value})
    with suppress(Impossible):
        gesture, spoken = one.gesture(work), f"Your drawing, to be put right: {work.write(one.key)}."
        if isinstance(gesture, PickPoint):
            at = dict(gesture.points).get(verdict.value)
            if at is not None:
                yield Point(at, "slip", gesture.read_as, "", spoken)
            return
        for stroke in one.strokes(work):
            if isinstance(stroke, DRAWN_BY[type(gesture)]):
                yield replace(stroke, role="slip", label=f"{stroke.label}?", value="", spoken=spoken)


def plans(sheet: Sheet) -> tuple[Plan, ...]:
    """What can be drawn of each branch's network, as far as the sheet has come; at least the load on its line.

    Empty where the lesson has no network at all."""
    lesson = sheet.lesson
    found: list[Plan] = []
    if not lesson.refuses(sheet.problem):
        settled = {one.key for step in sheet.steps for one in step.fields if sheet.settled(one.key)}
        for branch in lesson.branches_of(sheet.problem) or (None,):
            network = lesson.network(sheet.work, branch, settled)
            if network is not None:
                found.append(Plan(branch, network, element_symbols(lesson, branch, sheet.notation)))
    if not found and lesson.bare is not None:
        found.append(Plan(None, lesson.bare(sheet.problem)))
    return tuple(found)


def element_symbols(lesson: Lesson, branch: Branch | None, notation: Notation) -> tuple[str, ...]:
    """How the course calls the length of each element of a branch's network, "" where it has no name."""
    named = {
        one.element: notation.symbol(one.symbol.key)
        for one in lesson.fields.values()
        if one.element is not None and one.gives == "length" and one.symbol and one.branch in (branch, None)
    }
    return tuple(named.get(index, "") for index in range(max(named, default=-1) + 1))


def gesture_for(sheet: Sheet, key: str) -> Gesture | None:
    """The gesture that answers a field, where it can be drawn and is still open."""
    if not key or sheet.settled(key) or sheet.lesson.refuses(sheet.problem):
        return None
    try:
        return sheet.lesson.field(key).gesture(sheet.work)
    except Impossible:
        return None


def moved_by(sheet: Sheet, key: str) -> dict[str, str | int | None] | None:
    """Which element of which branch's network has the length that a drawing for this field changes, if one has."""
    one = sheet.lesson.fields.get(key)
    if one is None or one.element is None:
        return None
    return {"branch": one.branch.key if one.branch else None, "element": one.element}


def _settled_strokes(sheet: Sheet, step: Step) -> Iterator[Stroke]:
    for one in step.fields:
        if sheet.settled(one.key):
            try:
                yield from one.strokes(sheet.work)
            except Impossible:  # what the rest of it would be drawn from is not there
                continue
