"""The walkthrough of a lesson: one construction after another, for whoever shows it to a room.

A frame is made from a step of the lesson and the solver's values for the problem. What the audience is to find out
(`numbers`, `because`, `outcomes`, and the values of the strokes) stands apart from what they may see at once.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from math import floor, log10
from typing import Literal

import numpy as np

from core.line import impedance_from_reflection
from lessons.grammar.lesson import SIDES, Field, Lesson, Problem, Side, Slip, Step, Work
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.strokes import Curve, HalfTurn, Point, Ray, Stroke, Way
from lessons.working.marking import CLOSE, predicted

Showing = Literal["side by side", "in turn", "near", "far"]
SHOWINGS: tuple[Showing, ...] = ("side by side", "in turn", "near", "far")
"""How the near and the far solution are shown: both in one frame, near then far, or one of them alone."""
STROKE_NAMES: dict[type, str] = {
    Point: "point",
    Curve: "circle",
    Way: "walk",
    HalfTurn: "half turn",
    Ray: "line to the scale",
}


@dataclass(frozen=True)
class Outcome:
    """A value that a frame leads to: what it is, of which solution (or ""), and how the course writes it."""

    label: str
    side: Side | Literal[""]
    text: str


@dataclass(frozen=True)
class UsualSlip:
    """A mistake to warn of: "You are `doing`", what helps, and the values that somebody making it comes up with."""

    doing: str
    remedy: str
    gives: tuple[str, ...]


@dataclass(frozen=True)
class Frame:
    """One construction: what is asked and how it is done, what comes out, and what is drawn.

    key : of the step, with the side where a frame shows but one.  number : of the step, from 1; 0 for the opening.
    spoken, spoken_values : the frame in words, without and with what is to be found out."""

    key: str
    number: int
    title: str
    side: Side | Literal[""] = ""
    ask: str = ""
    rule: str = ""
    numbers: str = ""
    because: str = ""
    outcomes: tuple[Outcome, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    slips: tuple[UsualSlip, ...] = ()
    spoken: str = ""
    spoken_values: str = ""


def walkthrough(
    lesson: Lesson, problem: Problem, notation: Notation = STANDARD, showing: Showing = "side by side"
) -> tuple[Frame, ...]:
    """The frames of a lesson for a problem, the opening first and what the design achieves last.

    Empty where the lesson refuses the problem. A stroke that an earlier frame has drawn is not drawn again."""
    if lesson.refuses(problem):
        return ()
    work = Work(lesson, problem, notation)
    frames = [
        _opening(work),
        *(
            _frame(work, step, number, side, fields)
            for number, step in enumerate(lesson.steps_of(problem), 1)
            for side, fields in _parts(step, showing)
        ),
        _closing(work),
    ]
    return tuple(_drawn_once(frames))


def without_value(stroke: Stroke) -> str:
    """A stroke in words that keep its value back."""
    words = f"{STROKE_NAMES[type(stroke)]} {stroke.label}".strip()
    return f"{words}, {stroke.role}" if stroke.role in SIDES else words


def load_at(reflection: complex, line_impedance: float) -> complex:
    """The load in ohms that a point put on the chart by hand stands for: in round numbers, never below zero."""
    load = complex(impedance_from_reflection(reflection)) * line_impedance
    if np.isinf(load):
        return complex(np.inf)
    step = 10.0 ** floor(log10(line_impedance / 20))
    digits = max(0, -floor(log10(step)))
    resistance, reactance = (round(round(part / step) * step, digits) for part in (load.real, load.imag))
    return complex(max(resistance, 0.0), reactance + 0.0)


def _opening(work: Work) -> Frame:
    problem, lesson = work.problem, work.lesson
    spoken = " ".join(part for part in (lesson.title + ".", problem.story, lesson.purpose) if part)
    return Frame("opening", 0, lesson.title, ask=problem.story, rule=lesson.purpose, spoken=spoken)


def _closing(work: Work) -> Frame:
    title, achieved = "What it achieves", work.lesson.closing(work)
    number = len(work.lesson.steps_of(work.problem)) + 1
    return Frame(
        "closing",
        number,
        title,
        ask="What does the line see now?",
        numbers=achieved,
        spoken=f"{title}. What does the line see now?",
        spoken_values=achieved,
    )


def _parts(step: Step, showing: Showing) -> Iterator[tuple[Side | Literal[""], tuple[Field, ...]]]:
    """The fields of a step, frame by frame, each with the side that its frame is about."""
    sided = {side: tuple(f for f in step.fields if f.side == side) for side in SIDES}
    if not any(sided.values()) or showing == "side by side":
        yield "", step.fields
        return
    for side in SIDES:
        if showing in (side, "in turn"):
            yield side, sided[side]


def _frame(work: Work, step: Step, number: int, side: Side | Literal[""], fields: tuple[Field, ...]) -> Frame:
    outcomes = tuple(_outcome(work, field) for field in fields)
    ask, rule, because = (work.say(text) for text in (step.ask, step.rule, step.because))
    about = f" ({side})" if side else ""
    values = " ".join(f"{' '.join((o.side.capitalize(), o.label)).strip()}: {o.text}." for o in outcomes)
    return Frame(
        key=f"{step.key}.{side}" if side else step.key,
        number=number,
        title=step.title,
        side=side,
        ask=ask,
        rule=rule,
        numbers=step.numbers(work),
        because=because,
        outcomes=outcomes,
        strokes=tuple(dict.fromkeys(stroke for field in fields for stroke in field.strokes(work))),
        slips=_usual_slips(work, fields),
        spoken=f"Step {number}: {step.title}{about}. {ask} {rule}",
        spoken_values=f"{step.numbers(work)} {values} {because}",
    )


def _outcome(work: Work, field: Field) -> Outcome:
    side = field.side
    label = work.say(field.label).removeprefix(f"{side.capitalize()}: ") if side else work.say(field.label)
    return Outcome(label, side, work.write(field.key))


def _usual_slips(work: Work, fields: Collection[Field]) -> tuple[UsualSlip, ...]:
    """The slips that can be made here, those of near and far in one, each with the values that betray it."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for field in fields:
        for slip in field.slips:
            value = _betrayed_by(work, field, slip)
            if value is not None:
                told = (work.say(slip.doing), work.say(slip.remedy))
                beside = f"{field.side} {value}".strip() if len(fields) > 1 else value
                found[told] = (*found.get(told, ()), beside)
    return tuple(UsualSlip(doing, remedy, gives) for (doing, remedy), gives in found.items())


def _betrayed_by(work: Work, field: Field, slip: Slip) -> str | None:
    """What somebody making the slip writes; None where it cannot be made, or not be told from the right value."""
    kind, value = field.kind(work), predicted(slip, work)
    if value is None or kind.off_by(value, work[field.key], work.problem.accuracy) <= CLOSE:
        return None
    return kind.write(value, work.notation)


def _drawn_once(frames: list[Frame]) -> Iterator[Frame]:
    drawn: set[Stroke] = set()
    for frame in frames:
        yield replace(frame, strokes=tuple(stroke for stroke in frame.strokes if stroke not in drawn))
        drawn.update(frame.strokes)
