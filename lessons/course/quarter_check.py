"""The steps through a quarter-wave section: the walk on its own chart, and what the line sees then."""

from __future__ import annotations

from collections.abc import Iterator

from core.chart import mismatch_circle, walk
from lessons.course.junction_steps import AT_THE_CENTRE, sees_its_own
from lessons.course.maximum_and_minimum import PLACES
from lessons.course.quarter_values import QUARTER, at_both, slips_of, total, turned
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Resistance
from lessons.grammar.lesson import Slip, Step, Work
from lessons.grammar.side import SERIES, reflection_of
from lessons.grammar.strokes import Point, Stroke, WalkCircle, Way


def _turned_slips(branch: Branch) -> tuple[Slip, ...]:
    far = "How far did you walk?"
    return slips_of(
        lambda w: turned(w, branch),
        (
            "not walked",
            "giving where the walk starts, after a whole turn or none",
            far,
            "A quarter wavelength leads straight opposite, at the same distance from the centre.",
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
        f"r″_{branch.also[0]}",
        f"Its end on that chart, {work.write_of('turned', branch)}.",
        work.notation.number(work.of("turned", branch), 2),
    )


TURNED = Step(
    key="turned",
    title="Walk the quarter wave",
    ask="Walk a quarter wavelength on that chart. Which r do you come to?",
    goal="The section does to R what every line does: it walks it along a circle of its own chart.",
    rule="A quarter wavelength leads straight opposite, at the same distance from the centre: from r to 1 / r.",
    numbers=lambda w: at_both(lambda one: f"you start at {w.write_of('own', one)}"),
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


def _total_slips(branch: Branch) -> tuple[Slip, ...]:
    whose = "Whose impedance is this normalised by?"
    return slips_of(
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
        at_both(lambda one: f"multiply {w.write_of('turned', one)} by {w.write_of('section', one)}")
        + w.say(" Then divide by {line}.")
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
