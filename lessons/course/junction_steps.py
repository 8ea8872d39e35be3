"""The steps at a stub's junction, shunt or series: what the stub must show there, and the check of the whole."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from lessons.course.near_and_far import FAR, NEAR, near_and_far
from lessons.course.stub_values import StubValues, has_own_impedance
from lessons.grammar import slips as made
from lessons.grammar.kinds import ImaginaryPart, Immittance
from lessons.grammar.lesson import Slip, Step, Work
from lessons.grammar.side import Side
from lessons.grammar.strokes import Point

AT_THE_CENTRE = "A total of 1 is the centre of the chart: there nothing comes back."
TOGETHER = {"shunt": "in parallel", "series": "in series"}


def sees_its_own(side: Side) -> str:
    """What the check of a whole design is for."""
    return (
        f"If all is well the line from the generator sees its own {side.immittance}, and nothing comes back."
    )


def stub_left_out(part: str, without: Callable[[Work], Any]) -> Slip:
    """Giving the junction's total as it is without the stub."""
    return Slip(
        key="stub left out",
        doing="leaving the stub out",
        question="Did you add the stub?",
        remedy=f"Add the stub's {part}.",
        predict=without,
    )


def part_alone(key: str, part: str, remedy: str, predict: Callable[[Work], Any]) -> Slip:
    """Giving the junction's total without its real part."""
    return Slip(key, f"giving the {part} alone", "What is the real part?", remedy, predict)


def taken_for_granted(remedy: str, value: Callable[[Work], complex]) -> Slip:
    """Giving 1 for the junction's total, whatever was found before."""
    return Slip(
        key="total taken for granted",
        doing="writing down the match that should come out",
        question="Did you add your own values?",
        remedy=remedy,
        predict=lambda w: made.unless_same(1 + 0j, value(w)),
        usual=1,
    )


def needed(values: StubValues) -> Step:
    side = values.side
    b, y, shows = side.part_symbol, side.symbol, f"{side.part}s"
    across = "Admittances across" if side.placement == "shunt" else "Impedances in"
    return Step(
        key="needed",
        title=f"Cancel the {side.part}",
        ask=f"Which {side.part} must the stub add at each crossing?",
        goal=f"The two {TOGETHER[side.placement]} must leave nothing but 1.",
        rule=f"{across} the line add up: {b} of the line and {b} of the stub together must be zero.",
        numbers=lambda w: (
            f"The line shows {w.write_of(side.part, NEAR)} at the near crossing and "
            f"{w.write_of(side.part, FAR)} at the far one."
        ),
        because=f"Equal and opposite {shows} resonate, and the line sees a pure {side.real}.",
        fields=near_and_far(
            quantity="needed",
            label=f"stub {side.part}",
            kind=lambda w: ImaginaryPart(side.immittance, w["line"], 1.0, arithmetic=True),
            value=values.needed,
            unmixed_by=("crossing", side.part),
            routes=lambda branch: (lambda w: -w.of("crossing", branch).imag,),
            slips=lambda branch: (
                Slip(
                    key="sign not flipped",
                    doing="leaving the sign as it was",
                    question="Did you flip the sign?",
                    remedy=f"The stub must cancel {b}, so it shows the opposite.",
                    predict=lambda w: w.of(side.part, branch),
                    usual=3,
                ),
            ),
            names=(
                f"{b}s",
                f"{y}s",
                f"{b} stub",
                f"{y} stub",
                f"stub {side.part}",
                f"stub {side.immittance}",
            ),
        ),
    )


def total(values: StubValues) -> Step:
    side = values.side
    y, b, g = side.symbol, side.part_symbol, side.real
    return Step(
        key="total",
        title="Check the junction",
        ask=f"Add the line's {side.immittance} and the stub's at the junction. What is the total?",
        goal=sees_its_own(side),
        rule=f"Add {y} at the crossing and {{j}} times the stub's {side.part}.",
        numbers=lambda w: (
            f"Near: {w.write_of('crossing', NEAR)} and {w.notation.imaginary}({w.write_of('needed', NEAR)})."
        ),
        because=AT_THE_CENTRE,
        fields=near_and_far(
            quantity="total",
            label=f"total {side.immittance} {y}",
            kind=lambda w: Immittance(side.immittance, w["line"], "1.00 + {j}0.40"),
            value=values.total,
            routes=lambda branch: (
                lambda w: values.total_as_needed(w, branch),
                lambda w: values.totals_as_read(w, branch),
            ),
            own_only=True,
            slips=lambda branch: (
                stub_left_out(side.part, lambda w: w.of("crossing", branch)),
                Slip(
                    key="added, not cancelled",
                    doing=f"adding {b} twice in place of cancelling it",
                    question=f"Is the stub's sign opposite to {b}?",
                    remedy=f"The stub's {side.part} is the opposite of {b}.",
                    predict=lambda w: w.of("crossing", branch) + 1j * w.of("crossing", branch).imag,
                ),
                part_alone(
                    f"{g} lost",
                    side.part,
                    f"The {g} 1 is still there.",
                    lambda w: (complex(0, values.total(w, branch).imag), 0j),
                ),
                taken_for_granted(
                    f"Add {y} at your crossing and what your own stub shows: with these lengths it is not 1.",
                    lambda w: values.total(w, branch),
                ),
                Slip(
                    key="stub's own chart",
                    doing=f"adding the {side.part} of the stub's own chart",
                    question="On whose chart did you read what the stub shows?",
                    remedy="At the junction all counts on the line's chart: {line}.",
                    predict=lambda w: (
                        w.of("crossing", branch) + 1j * w.of("own", branch) if has_own_impedance(w) else None
                    ),
                ),
            ),
            strokes=lambda w, branch: (
                Point(
                    side.reflection_at(w.of("total", branch)),
                    branch.role,
                    side.immittance,
                    f"{y}_total",
                    f"The {branch.word} junction's total, {w.write_of('total', branch)}.",
                ),
            ),
            mixable=False,
            names=(
                *(f"{y}{rest}" for rest in (" total", "t", "tot", " sum", "in")),
                "total",
                f"total {side.immittance}",
            ),
        ),
    )
