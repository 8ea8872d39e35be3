"""What each of two stubs must add: the difference at the first, and what is left at the second."""

from __future__ import annotations

from typing import Any

from lessons.course import double_stub_values as values
from lessons.course.double_stub_values import HIGHER, LOWER, each
from lessons.grammar import slips as made
from lessons.grammar.kinds import ImaginaryPart
from lessons.grammar.lesson import Slip, Step


def part_step(
    which: str, title: str, ask: str, goal: str, rule: str, numbers: Any, because: str, **own: Any
) -> Step:
    """What one of the stubs must add."""
    return Step(
        key=f"{which}_part",
        title=title,
        ask=ask,
        goal=goal,
        rule=rule,
        numbers=numbers,
        because=because,
        fields=each(
            quantity=f"{which}_part",
            label=f"b of the {which} stub",
            kind=lambda w: ImaginaryPart("admittance", w["line"], 1.0, arithmetic=True),
            unmixed_by=("after",) if which == "first" else ("after", "arriving"),
            names=(
                *(f"{name}{'12'[which == 'second']}" for name in ("bs", "ys", "b stub ")),
                f"b {which} stub",
                f"{which} stub susceptance",
            ),
            **own,
        ),
        applies=values.is_matchable,
    )


FIRST_PART = part_step(
    "first",
    "Read what the first stub adds",
    "How much susceptance must the first stub add, to go from the load's y to either crossing?",
    "A stub adds what is missing, no more.",
    "Subtract: b at the crossing less b of the load.",
    lambda w: (
        f"The load has b = {w.notation.number(w['admittance'].imag)}; the crossings "
        f"{w.notation.number(w.of('after', HIGHER).imag)} and {w.notation.number(w.of('after', LOWER).imag)}."
    ),
    "Positive where it acts like a capacitor, negative where it acts like a coil.",
    value=values.first_part,
    slips=lambda branch: (
        Slip(
            key="all of it",
            doing="giving all of b there in place of the difference",
            question="What does the load bring along already?",
            remedy="The load has a b of its own: the stub adds only the difference.",
            predict=lambda w: made.unless_same(
                float(w.of("after", branch).imag), values.first_part(w, branch)
            ),
            usual=3,
        ),
        Slip(
            key="sign not flipped",
            doing="subtracting the wrong way round",
            question="Which one did you subtract from which?",
            remedy="b at the crossing less b of the load.",
            predict=lambda w: made.unless_same(-values.first_part(w, branch), values.first_part(w, branch)),
        ),
        Slip(
            key="added up",
            doing="adding the two in place of subtracting",
            question="Sum, or difference?",
            remedy="b at the crossing less b of the load.",
            predict=lambda w: made.unless_same(
                float((w.of("after", branch) + w["admittance"]).imag), values.first_part(w, branch)
            ),
            usual=1,
        ),
        Slip(
            key="load cancelled",
            doing="cancelling the load's b",
            question="Must the first stub leave no b at all?",
            remedy="It must lead to the rotated circle, and b is not zero there.",
            predict=lambda w: made.unless_same(float(-w["admittance"].imag), values.first_part(w, branch)),
        ),
    ),
)

SECOND_PART = part_step(
    "second",
    "Cancel what is left",
    "Which susceptance must the second stub add?",
    "The second stub must leave nothing but 1.",
    "Admittances across the line add up: b arriving and b of the stub together must be zero.",
    lambda w: f"There arrive {w.write_of('arriving', HIGHER)} and {w.write_of('arriving', LOWER)}.",
    "Equal and opposite susceptances resonate, and the line sees a pure conductance.",
    value=values.second_part,
    routes=lambda branch: (lambda w: -w.of("arriving", branch).imag,),
    slips=lambda branch: (
        Slip(
            key="sign not flipped",
            doing="leaving the sign as it was",
            question="Did you flip the sign?",
            remedy="The stub must cancel b, so it shows the opposite.",
            predict=lambda w: float(w.of("arriving", branch).imag),
            usual=3,
        ),
        Slip(
            key="before the line",
            doing="cancelling b as it is before the line between the stubs",
            question="Did you walk through the spacing first?",
            remedy="The second stub stands behind the line between them: cancel what arrives there.",
            predict=lambda w: made.unless_same(
                -float(w.of("after", branch).imag), values.second_part(w, branch)
            ),
        ),
    ),
)
