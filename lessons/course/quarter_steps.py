"""The steps of a quarter-wave section: its impedance, the walk on its own chart, and what the line sees then."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import sqrt

from core.chart import mismatch_circle, walk
from lessons.course.junction_steps import AT_THE_CENTRE, sees_its_own
from lessons.course.maximum_and_minimum import MAXIMUM, MINIMUM, PLACES
from lessons.course.stub_steps import OWN_CHART
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Resistance
from lessons.grammar.lesson import Slip, Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.side import SERIES, reflection_of
from lessons.grammar.strokes import Point, Stroke, WalkCircle, Way

QUARTER = 0.25
SECTION = Symbol("ZT", "impedance of the section")
ValueOf = Callable[[Work], float]


def ohms(work: Work, branch: Branch) -> float:
    """The resistance at the section's load side, in ohms."""
    return float(work.of("resistance", branch) * work["line"])


def section(work: Work, branch: Branch) -> float:
    """The impedance of the section: the geometric mean of both resistances."""
    return sqrt(ohms(work, branch) * work["line"])


def own(work: Work, branch: Branch) -> float:
    """The resistance at its load side, normalised to the section."""
    return ohms(work, branch) / float(work.of("section", branch))


def turned(work: Work, branch: Branch) -> float:
    """The same a quarter wave further on."""
    return 1 / float(work.of("own", branch))


def total(work: Work, branch: Branch) -> float:
    """What the line sees before the section, normalised to the line."""
    return float(work.of("turned", branch) * work.of("section", branch)) / float(work["line"])


def _slips(
    value: ValueOf, *told: tuple[str, str, str, str, ValueOf], usual: tuple[str, ...] = ()
) -> tuple[Slip, ...]:
    """Slips of a value: key, what is done, the question, the remedy, and what is written then."""
    return tuple(
        Slip(
            key,
            doing,
            question,
            remedy,
            lambda w, wrong=wrong: made.unless_same(wrong(w), value(w)),  # type: ignore[misc]
            usual=3 if key in usual else 2,
        )
        for key, doing, question, remedy, wrong in told
    )


def _both(written: Callable[[Branch], str]) -> str:
    return f"At the maximum {written(MAXIMUM)}, at the minimum {written(MINIMUM)}."


# --- its impedance ---


def _section_slips(branch: Branch) -> tuple[Slip, ...]:
    """What is not a geometric mean, and what is one of something else."""

    def mean_with(other: ValueOf) -> ValueOf:
        return lambda w: sqrt(other(w) * w["line"])

    mean, place = "What did you do with the two resistances?", "Of which resistance did you take the root?"
    there = f"The section starts at the {branch.word}: take R there."
    return _slips(
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
        _both(lambda one: f"R is {w.notation.number(ohms(w, one), 1)} Ω") + w.say(" Z₀ is {line}.")
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


# --- on its own chart ---


def _own_slips(branch: Branch) -> tuple[Slip, ...]:
    whose = "Whose impedance is this normalised by?"
    return _slips(
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
    numbers=lambda w: _both(
        lambda one: f"{w.notation.number(ohms(w, one), 1)} Ω by {w.write_of('section', one)}"
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
                f"own_{branch.also[0]}",
                f"R at the {branch.word} on the section's own chart, {w.write_of('own', branch)}.",
                w.notation.number(w.of("own", branch), 2),
            ),
        ),
        names=("r own", "z own", "r on the section's chart", "z on the section's chart", "rs", "zs"),
    ),
)


def _turned_slips(branch: Branch) -> tuple[Slip, ...]:
    far = "How far did you walk?"
    return _slips(
        lambda w: turned(w, branch),
        (
            "not walked",
            "giving where the walk starts, after a whole turn or none",
            far,
            "A quarter wavelength is half a turn: it ends on the other side of the centre.",
            lambda w: w.of("own", branch),
        ),
        (
            "on the line's chart",
            "walking on the line's chart",
            "On whose chart did you walk?",
            "In the section the walk is on the section's own chart.",
            lambda w: 1 / w.of("resistance", branch),
        ),
        (
            "to the centre",
            "walking to the centre of the section's chart",
            "Is the section itself to be matched?",
            "The centre of this chart is {ZT}, and no line leads there: walk along the circle.",
            lambda w: 1.0,
        ),
    )


def _turned_strokes(work: Work, branch: Branch) -> Iterator[Stroke]:
    yield Way(
        walk(reflection_of(work.of("own", branch)), QUARTER),
        branch.role,
        "impedance",
        work.notation.wavelengths(QUARTER),
        f"The quarter wave from the {branch.word}, on the section's own chart.",
    )
    yield Point(
        reflection_of(work.of("turned", branch)),
        branch.role,
        "impedance",
        f"end_{branch.also[0]}",
        f"Its end on that chart, {work.write_of('turned', branch)}.",
        work.notation.number(work.of("turned", branch), 2),
    )


TURNED = Step(
    key="turned",
    title="Walk the quarter wave",
    ask="Walk a quarter wavelength on that chart. Which r do you come to?",
    goal="The section does to R what every line does: it walks it along a circle of its own chart.",
    rule="A quarter wavelength is half a turn, straight across the centre: from r to 1 / r.",
    numbers=lambda w: _both(lambda one: f"you start at {w.write_of('own', one)}"),
    because="So a quarter wave makes a low resistance of a high one, and a high one of a low one.",
    fields=PLACES.fields(
        quantity="turned",
        label="r after the quarter wave",
        kind=lambda w: Resistance(1.0, example="0.62"),
        value=turned,
        mixable=False,
        slips=_turned_slips,
        strokes=_turned_strokes,
        gesture=lambda w, branch: WalkCircle(
            mismatch_circle(reflection_of(w.of("own", branch))),
            reflection_of(w.of("own", branch)),
            "impedance",
        ),
        names=("r after", "z after", "r after the quarter wave", "z after the quarter wave", "r turned"),
    ),
)


# --- back on the line ---


def _total_slips(branch: Branch) -> tuple[Slip, ...]:
    whose = "Whose impedance is this normalised by?"
    return _slips(
        lambda w: total(w, branch),
        (
            "section's chart",
            "staying on the section's chart",
            whose,
            "Go back to the line's chart: multiply by {ZT} and divide by {line}.",
            lambda w: w.of("turned", branch),
        ),
        (
            "ratio inverted",
            "turning the ratio of the impedances over",
            "Which impedance is on top?",
            "{ZT} goes on top, {line} below.",
            lambda w: w.of("turned", branch) * w["line"] / w.of("section", branch),
        ),
        (
            "in ohms",
            "giving ohms where the normalised value is asked",
            "Did you divide by the line's impedance?",
            "Divide by {line}.",
            lambda w: w.of("turned", branch) * w.of("section", branch),
        ),
        (
            "section left out",
            "giving the resistance behind the section",
            "On which side of the section is that?",
            "The line ends in front of the section: give what is seen there.",
            lambda w: w.of("resistance", branch),
        ),
        (
            "total taken for granted",
            "writing down the match that should come out",
            "Did you reckon with your own values?",
            "Go back from your own value on the section's chart: with it the total is not 1.",
            lambda w: 1.0,
        ),
    )


TOTAL = Step(
    key="total",
    title="Check what the line sees",
    ask="Go back to the line's chart. What does the line see in front of the section, normalised to {line}?",
    goal=sees_its_own(SERIES),
    rule="Multiply by {ZT}, which gives ohms, and divide by {line}.",
    numbers=lambda w: (
        _both(lambda one: f"{w.write_of('turned', one)} times {w.write_of('section', one)}")
        + w.say(" Divide by {line}.")
    ),
    because=AT_THE_CENTRE,
    fields=PLACES.fields(
        quantity="total",
        label="what the line sees, r",
        kind=lambda w: Resistance(w["line"], example="1.2"),
        value=total,
        mixable=False,
        own_only=True,
        slips=_total_slips,
        strokes=lambda w, branch: (
            Point(
                reflection_of(w.of("total", branch)),
                branch.role,
                "impedance",
                f"total_{branch.also[0]}",
                f"What the line sees with the section at the {branch.word}, {w.write_of('total', branch)}.",
            ),
        ),
        names=("r total", "z total", "total", "r in", "z in", "total impedance"),
    ),
)
