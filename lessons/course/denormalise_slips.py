"""What goes wrong on the way back from the chart's numbers to ohms."""

from __future__ import annotations

from lessons.course.chart_steps import HABITUAL
from lessons.grammar.lesson import Slip
from lessons.grammar.slips import ValueOf


def denormalising(normalised: ValueOf, symbols: tuple[str, str] = ("z", "Z")) -> tuple[Slip, ...]:
    """Slips of a value in ohms. normalised : what it is on the chart.  symbols : how that and the ohms are called."""
    small, large = symbols
    return (
        Slip(
            key="not denormalised",
            doing=f"leaving {small} as the chart shows it",
            question=f"Is that {small}, or {large} in ohms?",
            remedy=f"Multiply {small} by the line impedance, {{line}}.",
            predict=normalised,
            usual=3,
        ),
        Slip(
            key="divided again",
            doing="dividing by the line impedance",
            question="Did you multiply or divide?",
            remedy="Normalising divided by {line}; the way back multiplies by it.",
            predict=lambda w: normalised(w) / w["line"],
        ),
        Slip(
            key="50 ohm by habit",
            doing="multiplying by 50 Ω out of habit",
            question="Which impedance did you multiply by?",
            remedy="This line is {line}: multiply by that.",
            predict=lambda w: normalised(w) * HABITUAL if w["line"] != HABITUAL else None,
            usual=3,
        ),
    )
