"""The step that checks the highest and the lowest voltage by their ratio."""

from __future__ import annotations

from lessons.course.chart_mistakes import decibels
from lessons.course.maximum_and_minimum import MAXIMUM, MINIMUM
from lessons.course.quarter_values import at_both, slips_of
from lessons.course.voltage_steps import crest, voltage_at
from lessons.grammar import slips as made
from lessons.grammar.kinds import StandingWaveRatio
from lessons.grammar.lesson import Field, Impossible, Slip, Step, Work


def ratio(work: Work) -> float:
    """The highest voltage over the lowest. Raises Impossible where the student has none at the minimum."""
    lowest = voltage_at(work, MINIMUM)
    if not lowest:
        raise Impossible("Nothing can be divided by 0 V: go back to the voltage at the minimum.", "voltage")
    return voltage_at(work, MAXIMUM) / lowest


RATIO = Step(
    key="ratio",
    title="Check it with their ratio",
    ask="What is your highest voltage over your lowest?",
    goal="Two voltages were found one by one; one number says whether they belong to this circle.",
    rule="Divide the voltage at the maximum by the voltage at the minimum.",
    numbers=lambda w: at_both(lambda one: f"it is {w.write_of('voltage', one)}"),
    because="Highest over lowest voltage is what a standing-wave ratio means: it should be the circle's.",
    fields=(
        Field(
            quantity="ratio",
            label="Ratio of the two voltages",
            names=("voltage ratio", "ratio of voltages", "ratio of the two voltages", "ratio"),
            kind=lambda w: StandingWaveRatio("3.1"),
            value=ratio,
            slips=(
                *slips_of(
                    ratio,
                    (
                        "upside down",
                        "dividing the lowest by the highest",
                        "Which one did you divide by which?",
                        "Divide the highest by the lowest: the ratio is 1 or more.",
                        lambda w: 1 / ratio(w),
                    ),
                    (
                        "ratio of the resistances",
                        "giving the ratio of the two resistances",
                        "Is that of the voltages, or of the resistances?",
                        "The voltages go with the root of R: divide volts by volts.",
                        lambda w: ratio(w) ** 2,
                    ),
                    (
                        "difference",
                        "subtracting the two",
                        "Did you divide, or subtract?",
                        "A ratio is a quotient: divide the one by the other.",
                        lambda w: voltage_at(w, MAXIMUM) - voltage_at(w, MINIMUM),
                    ),
                    (
                        "decibels",
                        "giving the ratio in decibels",
                        "Is that a ratio or decibels?",
                        "Give the plain ratio.",
                        lambda w: decibels(ratio(w)),
                    ),
                ),
                Slip(
                    key="to the matched line",
                    doing="dividing by the voltage of a matched line",
                    question="By which voltage did you divide?",
                    remedy="Divide by the voltage at the minimum.",
                    predict=lambda w: made.unless_same(
                        voltage_at(w, MAXIMUM) / crest(w, w["line"]), ratio(w)
                    ),
                    usual=1,
                ),
            ),
        ),
    ),
)
