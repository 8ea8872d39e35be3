"""The grammar of a lesson: a derivation, written once.

A lesson is a list of steps; a step has one or more fields; a field knows how its value follows from the values before
it. Everything else - the guided practice, the walkthrough, the marking of a student's own working, the printed key -
is made from that. `Work` evaluates the derivation, either from nothing (the solver's own answer) or from what a student
has entered so far (so that later values follow from the student's earlier ones).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from core.network import MatchingNetwork
from lessons.grammar.kinds import Accuracy, Kind, Value
from lessons.grammar.notation import STANDARD, Notation
from lessons.grammar.strokes import Gesture, Stroke

Side = Literal["near", "far"]
TO_ADMITTANCE = {
    "half turn": "Go from z through the centre to the other side of the circle, and read y there on the same grid.",
    "overlay": "Stay at the load's point, and read y there on the dotted grid.",
}
SIDES: tuple[Side, Side] = ("near", "far")


def other_side(side: Side) -> Side:
    """Far for near, near for far."""
    return SIDES[1 - SIDES.index(side)]


class Impossible(Exception):
    """A value that cannot follow from the ones before it; `.step` is the one to go back to."""

    def __init__(self, sentence: str, step: str) -> None:
        super().__init__(sentence)
        self.step = step


@dataclass(frozen=True)
class Problem:
    """A load to match. Impedances in ohms, frequency in hertz; `without` names steps that are switched off."""

    load_impedance: complex
    line_impedance: float = 50.0
    stub_impedance: float = 50.0
    end: str = "short"
    frequency: float | None = None
    velocity_factor: float = 1.0
    accuracy: Accuracy = "chart"
    key: str = ""
    title: str = ""
    story: str = ""
    without: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Slip:
    """A recognisable mistake: what it is, the question that finds it, and what a student making it would enter.

    doing : completes "You are ..." and "This looks like ...".  question : asked where two slips give one number.
    predict : the value entered, or None where the mistake changes nothing or cannot be made."""

    key: str
    doing: str
    question: str
    remedy: str
    predict: Callable[[Work], Value | None]


@dataclass(frozen=True)
class Field:
    """One entry of a step: what is asked, how its value follows from earlier ones, how it can be drawn.

    names : what students call it, its usual symbol first; `{d}` and `{l}` stand for the course's symbols.
    per : whose impedance it is normalised by."""

    key: str
    label: str
    kind: Callable[[Work], Kind]
    value: Callable[[Work], Value]
    slips: tuple[Slip, ...] = ()
    strokes: Callable[[Work], Iterable[Stroke]] = lambda work: ()
    gesture: Callable[[Work], Gesture | None] = lambda work: None
    accepts: Callable[[Work], tuple[Value, ...]] | None = None
    names: tuple[str, ...] = ()
    per: Literal["line", "stub"] = "line"

    @property
    def side(self) -> Side | Literal[""]:
        """The solution that the field belongs to, as its key says; "" where it is about both."""
        last = self.key.rpartition(".")[2]
        return next((side for side in SIDES if side == last), "")


@dataclass(frozen=True)
class Step:
    """One construction step. `goal`, `rule` and `numbers` are the first three hints; the fourth draws the answer."""

    key: str
    title: str
    ask: str
    goal: str
    rule: str
    numbers: Callable[[Work], str]
    because: str
    fields: tuple[Field, ...]
    strokes: Callable[[Work], Iterable[Stroke]] = lambda work: ()
    applies: Callable[[Problem], bool] = lambda problem: True


@dataclass(frozen=True)
class Lesson:
    """A derivation with its name.

    refuses : the sentence for a problem that the method cannot solve, or "".
    design : the near or far network of a sheet, as far as its settled fields go.
    closing : what that design achieves, in a sentence."""

    key: str
    title: str
    purpose: str
    steps: tuple[Step, ...]
    refuses: Callable[[Problem], str]
    design: Callable[[Work, Side, Collection[str]], MatchingNetwork | None]
    closing: Callable[[Work], str]

    def steps_of(self, problem: Problem) -> tuple[Step, ...]:
        """The steps that this problem asks for."""
        return tuple(s for s in self.steps if s.key not in problem.without and s.applies(problem))

    def field(self, key: str) -> Field:
        """The field of that key. Raises KeyError."""
        for step in self.steps:
            for one in step.fields:
                if one.key == key:
                    return one
        raise KeyError(key)


@dataclass(frozen=True)
class Work:
    """The values of a derivation: those given, and whatever follows from them."""

    lesson: Lesson
    problem: Problem
    notation: Notation = STANDARD
    given: Mapping[str, Value] = field(default_factory=dict)
    _known: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)

    def __getitem__(self, key: str) -> Any:
        """The given value of a field, or the one that follows from earlier values. Raises Impossible."""
        if key in self.given:
            return self.given[key]
        if key not in self._known:
            self._known[key] = self.lesson.field(key).value(self)
        return self._known[key]

    def following(self, key: str) -> Any:
        """The value of a field as it follows from earlier ones, whatever was entered for it. Raises Impossible."""
        return self.lesson.field(key).value(self)

    def write(self, key: str) -> str:
        """A field's value in the course's notation."""
        return self.lesson.field(key).kind(self).write(self[key], self.notation)

    def say(self, text: str) -> str:
        """A text of the lesson with the course's symbols and this problem's words put in."""
        return text.format(
            d=self.notation.distance,
            l=self.notation.stub_length,
            j=self.notation.imaginary,
            end=self.problem.end,
            to_admittance=TO_ADMITTANCE[self.notation.admittance],
            an_end="a short" if self.problem.end == "short" else "an open",
            load=self.notation.ohms(self.problem.load_impedance),
            line=self.notation.ohms(self.problem.line_impedance),
            stub=self.notation.ohms(self.problem.stub_impedance),
        )
