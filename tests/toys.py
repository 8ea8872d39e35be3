"""Two lessons that exist for tests alone: what a lesson needs, and that nobody else needs to know it.

The first has no branches and no stub; the second has four branches and a kind of answer of its own.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from core.chart import mismatch_circle, walk
from core.elements import Section
from core.line import input_impedance, toward_generator
from core.network import MatchingNetwork
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.givens import LINE, LOAD, is_instructive
from lessons.course.stub_values import load_reflection
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.catalogue import Catalogue
from lessons.grammar.given_kinds import Factor
from lessons.grammar.given_lengths import LineLength
from lessons.grammar.kinds import Accuracy, Kind, Ohms
from lessons.grammar.lesson import Field, Lesson, Step, Work
from lessons.grammar.notation import Notation, Symbol
from lessons.grammar.numbers import Unreadable, read_real
from lessons.grammar.problem import Given
from lessons.grammar.strokes import Curve, Point, PointOnCircle, Way

# --- start of the lesson shown to developers ---
LENGTH = Given(
    key="along",
    label="Length of the line, λ",
    kind=LineLength(),
    usual=lambda values: 0.3,
    example="0.3",
    must_stand=True,
    draw=lambda dice, values: dice.pick((0.1, 0.15, 0.2, 0.3, 0.35, 0.4)),
)


def at_input(work: Work) -> complex:
    """The impedance at the input, in ohms, from the student's own z."""
    return complex(input_impedance(work["normalise"], 1.0, work["along"])) * work["line"]


def walked(work: Work) -> complex:
    """Where the walk along the line ends on the chart."""
    return complex(toward_generator(load_reflection(work), work["along"]))


WALK = Step(
    key="walk",
    title="Walk along the line",
    ask="Walk {along} toward the generator, and read the impedance at the input in ohms.",
    goal="The line turns the reflection about the centre; it does not shrink it.",
    rule="Go clockwise by the length, read z there, and multiply by {line}.",
    numbers=lambda w: f"On the circle of SWR {w.write('mismatch')}, from z_L on.".replace("_", ""),
    because="Half a wavelength farther all would be as at the load.",
    fields=(
        Field(
            quantity="input",
            label="Impedance at the input Z",
            names=("Zin", "Z in", "input impedance"),
            kind=lambda w: Ohms(per=w["line"]),
            value=at_input,
            gesture=lambda w: PointOnCircle(mismatch_circle(load_reflection(w)), "impedance"),
            slips=(
                made.sign_lost(at_input, "reactance"),
                made.other_quantity(
                    "load again",
                    "giving the load's own impedance",
                    "Did you walk at all?",
                    "Walk along the line first: its input shows another impedance.",
                    lambda w: w["load"],
                    at_input,
                ),
            ),
            strokes=lambda w: (
                Way(
                    walk(load_reflection(w), w["along"]),
                    "first",
                    "impedance",
                    "walk",
                    "The walk along the line.",
                ),
                Point(walked(w), "first", "impedance", "z_in", f"The input, {w.write('input')}."),
            ),
        ),
    ),
)


def line_and_load(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork:
    """The picture: the load behind its line, nothing else."""
    return MatchingNetwork(work["load"], work["line"], (Section(work["along"], work["line"]),))


ALONG = Lesson(
    key="along-a-line",
    title="The impedance at the input of a line",
    purpose="A line shows its load another way at every place: find what its input shows.",
    task="Find the input impedance of {along} of line of {line} that ends in {load}.",
    brief="{load} behind {along} of {line}",
    givens=(LOAD, LINE, LENGTH),
    steps=(NORMALISE, PLACE, MISMATCH, WALK),
    network=line_and_load,
    instructive=is_instructive,
    places=("A cable of the river watch at {place} is measured at its near end.",),
    closing=lambda w: f"At the input the line shows {w.write('input')}.",
)
# --- end of the lesson shown to developers ---


@dataclass(frozen=True)
class Turns(Kind):
    """A kind of its own: a turn of the chart in quarters of it."""

    example: str = "2.5 q"

    def read(self, text: str, notation: Notation) -> float:
        value = read_real(text.strip().removesuffix("q").strip(), "2.5")
        if not 0 <= value <= 4:
            raise Unreadable("A turn is 0 to 4 quarters of the chart, such as 2.5.")
        return value

    def write(self, value: float, notation: Notation) -> str:
        return f"{notation.number(value, 2)} q"

    def off_by(self, value: float, other: float, accuracy: Accuracy) -> float:
        return abs(value - other) / 0.02

    def unit(self, notation: Notation) -> str:
        return "q"


COMPASS = (
    Branch("n", "northern", "first"),
    Branch("e", "eastern", "second"),
    Branch("s", "southern", "third"),
    Branch("w", "western", "fourth"),
)
GAIN = Given(
    key="gain",
    label="Gain of the toy",
    kind=Factor("gain", 0, 3, "0.5"),
    usual=lambda values: 0.5,
    must_stand=True,
    draw=lambda dice, values: dice.pick((0.2, 0.25, 0.4, 0.6, 0.7)),
)
QUARTERS = Symbol("q", "number of quarters")


def quarters(work: Work, branch: Branch) -> float:
    """Quarters turned to a point of the compass."""
    return COMPASS.index(branch) + work["gain"] / 2


FOURFOLD = Lesson(
    key="fourfold",
    title="A toy with four ways",
    purpose="It has four branches and a kind of its own.",
    task="Turn to the four points for a gain of {gain}.",
    brief="Gain {gain}",
    givens=(GAIN,),
    branches=COMPASS,
    steps=(
        Step(
            key="turn",
            title="Turn to each point",
            ask="How many quarters is it to each? Give {q}.",
            goal="All the way round is four quarters.",
            rule="Count the whole quarters, and add half the gain.",
            numbers=lambda w: w.say("Half the gain is what {gain} says, halved."),
            because="Every quarter looks alike.",
            fields=tuple(
                Field(
                    quantity="turn",
                    label="quarters {q}",
                    names=("{q}", "turn"),
                    symbol=QUARTERS,
                    kind=lambda w: Turns(),
                    value=lambda w, branch=branch: quarters(w, branch),  # type: ignore[misc]
                    branch=branch,
                    strokes=lambda w, branch=branch: (  # type: ignore[misc]
                        Point(
                            0.5 * 1j ** quarters(w, branch),
                            branch.role,
                            "impedance",
                            f"q_{branch.key}",
                            "A point.",
                        ),
                    ),
                )
                for branch in COMPASS
            ),
        ),
        Step(
            key="circle",
            title="Draw the circle",
            ask="Choose the circle through all four.",
            goal="They are equally far from the centre.",
            rule="Take the one of half the radius.",
            numbers=lambda w: "The radius is 0.5.",
            because="So they share one mismatch.",
            fields=(
                Field(
                    quantity="circle",
                    label="Its radius",
                    names=("radius",),
                    kind=lambda w: Turns(example="1"),
                    value=lambda w: 0.5,
                    strokes=lambda w: (
                        Curve(mismatch_circle(0.5), "mismatch", "impedance", "", "The circle."),
                    ),
                ),
            ),
        ),
    ),
    places=("Nobody in {place} needs it.",),
    closing=lambda w: "All four are found.",
)

TOYS = Catalogue((ALONG, FOURFOLD), unsaid="along-a-line")


def answers(lesson: Lesson, problem: Any, notation: Notation = Notation()) -> dict[str, str]:  # noqa: B008
    """The solver's answers as they are written."""
    work = Work(lesson, problem, notation)
    return {one.key: work.write(one.key) for step in lesson.steps_of(problem) for one in step.fields}
