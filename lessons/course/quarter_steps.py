"""The steps of a quarter-wave section: its impedance, and what it starts from on its own chart."""

from __future__ import annotations

from math import sqrt

from lessons.course.maximum_and_minimum import PLACES
from lessons.course.quarter_values import ValueOf, at_both, ohms, own, section, slips_of
from lessons.course.stub_steps import OWN_CHART
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Resistance
from lessons.grammar.lesson import Slip, Step
from lessons.grammar.notation import Symbol
from lessons.grammar.side import reflection_of
from lessons.grammar.strokes import Point

SECTION = Symbol("ZT", "impedance of the section")


def _section_slips(branch: Branch) -> tuple[Slip, ...]:
    """What is not a geometric mean, and what is one of something else."""

    def mean_with(other: ValueOf) -> ValueOf:
        return lambda w: sqrt(other(w) * w["line"])

    mean, place = "What did you do with the two resistances?", "Of which resistance did you take the root?"
    there = f"The section starts at the {branch.word}: take R there."
    return slips_of(
        lambda w: section(w, branch),
        (
            "arithmetic mean",
            "taking the arithmetic mean",
            mean,
            "Multiply the two and take the root: half of their sum is too much.",
            lambda w: (ohms(w, branch) + w["line"]) / 2,
        ),
        (
            "root alone",
            "giving the root of r, without the line's impedance",
            "Is that in ohms?",
            "The root of r is normalised: multiply it by {line}.",
            lambda w: sqrt(w.of("resistance", branch)),
        ),
        (
            "mixed units",
            "putting the normalised r beside ohms under the root",
            "Are both under the root in ohms?",
            "Under the root both are in ohms: R is r times {line}.",
            lambda w: sqrt(w.of("resistance", branch) * w["line"]),
        ),
        (
            "no root",
            "multiplying without taking the root",
            "Did you take the root?",
            "Ohms times ohms are no ohms: take the root of the product.",
            lambda w: ohms(w, branch) * w["line"],
        ),
        (
            "resistance itself",
            "giving the section the resistance that it has to transform",
            mean,
            "A line of that impedance would leave it as it is: the section lies between R and {line}.",
            lambda w: ohms(w, branch),
        ),
        (
            "size of the load",
            "taking the size of the load's impedance for the resistance",
            place,
            there,
            mean_with(lambda w: abs(w["normalise"]) * w["line"]),
        ),
        (
            "load's resistance",
            "taking the load's own resistance",
            place,
            there,
            mean_with(lambda w: w["normalise"].real * w["line"]),
        ),
        (
            "divided by the root",
            "dividing {line} by the root of r",
            "Did you multiply by the root, or divide?",
            "Multiply {line} by the root of r.",
            lambda w: w["line"] / sqrt(w.of("resistance", branch)),
        ),
        usual=("arithmetic mean",),
    )


IMPEDANCE = Step(
    key="section",
    title="Find the section's impedance",
    ask="Which impedance {ZT} must a quarter wave of line have to match the resistance at each place to {line}?",
    goal="The section stands between two resistances, and its impedance must lie between them as well.",
    rule="Take the geometric mean, the root of the product: {ZT} = √(R · Z₀), with R = r · Z₀ in ohms.",
    numbers=lambda w: (
        at_both(lambda one: f"R is {w.notation.number(ohms(w, one), 1)} Ω") + w.say(" Z₀ is {line}.")
    ),
    because="Now R is to {ZT} as {ZT} is to {line}.",
    fields=PLACES.fields(
        quantity="section",
        label="impedance {ZT}",
        symbol=SECTION,
        element=1,
        gives="impedance",
        kind=lambda w: Resistance(w["line"], in_ohms=True, example="70.7", arithmetic=True),
        value=section,
        unmixed_by=("resistance",),
        slips=_section_slips,
        names=("{ZT}", "ZT", "section impedance", "transformer impedance", "Z section", "Zq", "Z"),
    ),
)


def _own_slips(branch: Branch) -> tuple[Slip, ...]:
    whose = "Whose impedance is this normalised by?"
    return slips_of(
        lambda w: own(w, branch),
        (
            "line's normalisation",
            "keeping what is normalised to the line",
            whose,
            "On the section's own chart R counts in multiples of {ZT}.",
            lambda w: w.of("resistance", branch),
        ),
        (
            "upside down",
            "dividing {ZT} by R",
            "Which one did you divide by which?",
            "R goes on top, {ZT} below.",
            lambda w: 1 / own(w, branch),
        ),
        (
            "normalised twice",
            "dividing the normalised r by ohms",
            whose,
            "Start from R in ohms: r has been divided by {line} already.",
            lambda w: w.of("resistance", branch) / w.of("section", branch),
        ),
        (
            "in ohms",
            "giving R in ohms",
            "Did you divide by {ZT}?",
            "Divide R by {ZT}.",
            lambda w: ohms(w, branch),
        ),
    )


OWN = Step(
    key="own",
    title="Go over to the section's own chart",
    ask="The section is a line of {ZT}, not of {line}. What is R, normalised to the section?",
    goal=OWN_CHART,
    rule="Divide R by {ZT}, both in ohms.",
    numbers=lambda w: at_both(
        lambda one: f"divide {w.notation.number(ohms(w, one), 1)} Ω by {w.write_of('section', one)}"
    ),
    because="Now the section can be walked like any other line.",
    fields=PLACES.fields(
        quantity="own",
        label="r on the section's chart",
        kind=lambda w: Resistance(1.0, example="1.6", arithmetic=True),
        value=own,
        mixable=False,
        slips=_own_slips,
        strokes=lambda w, branch: (
            Point(
                reflection_of(w.of("own", branch)),
                branch.role,
                "impedance",
                f"r′_{branch.also[0]}",
                f"R at the {branch.word} on the section's own chart, {w.write_of('own', branch)}.",
                w.notation.number(w.of("own", branch), 2),
            ),
        ),
        names=("r own", "z own", "r on the section's chart", "z on the section's chart", "rs", "zs"),
    ),
)
