"""Where a stub begins and which way it is walked: what is asked of it wherever a stub is, and what goes wrong."""

from __future__ import annotations

from lessons.grammar.kinds import Choice
from lessons.grammar.lesson import Field, Slip

OPPOSITE_END = {"short": "open", "open": "short"}
OTHER_END_CHOSEN = Slip(
    key="wrong end",
    doing="starting at the other kind of end",
    question="Is this stub's end short or open?",
    remedy="This stub's end is {end}.",
    predict=lambda w: OPPOSITE_END[w["end"]],
)


def sense(quantity: str, question: str, remedy: str) -> Field:
    """Which way the rim is walked. question, remedy : what is said to who walks it the wrong way."""
    return Field(
        quantity=quantity,
        label="It is walked",
        names=("direction", "way", "sense", "walked"),
        kind=lambda w: Choice(
            (
                ("clockwise", "clockwise, toward the generator"),
                ("counter-clockwise", "counter-clockwise, toward the load"),
            )
        ),
        value=lambda w: "clockwise",
        slips=(
            Slip(
                key="wrong way",
                doing="walking toward the load",
                question=question,
                remedy=remedy,
                predict=lambda w: "counter-clockwise",
            ),
        ),
    )
