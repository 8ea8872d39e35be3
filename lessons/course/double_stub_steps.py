"""The steps from stub to stub: along g to the rotated circle, through the spacing, and both stubs' lengths."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from core.chart import (
    arc_between,
    conductance_circle,
    mismatch_circle,
    walk,
)
from core.line import toward_load
from lessons.course import double_stub_values as values
from lessons.course.double_stub_values import BOTH, HIGHER, LOWER, each
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Immittance, inverse
from lessons.grammar.lesson import Slip, Step, Work
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import Point, PointOnCircle, Stroke, WalkCircle, Way

# --- along g ---


def _on_other_circle(circle: Callable[[Work], Any], branch: Branch) -> Callable[[Work], complex | None]:
    """Where the load's circle of g meets another circle than the rotated one."""

    def predict(work: Work) -> complex | None:
        found = values.met_or_none(work, circle(work))
        return None if found is None else found[min(BOTH.index(branch), len(found) - 1)]

    return predict


def _on_mismatch_circle(work: Work) -> tuple[complex, ...] | None:
    return values.met_by_mismatch(work) or None


def _after_strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
    start, end = values.load_point(work), values.after_reflection(work, branch)
    falling = work.of("after", branch).imag < work["admittance"].imag
    yield Way(
        arc_between(conductance_circle(work["admittance"].real), start, end, clockwise=not falling),
        branch.role,
        "admittance",
        "",
        f"Along the circle of constant g to the {branch.word} crossing.",
    )
    yield Point(
        end,
        branch.role,
        "admittance",
        f"y_1 {branch.word}",
        f"Behind the first stub, {branch.word}: {work.write_of('after', branch)}.",
        work.notation.rectangular(work.of("after", branch), 2),
    )


AFTER = Step(
    key="after",
    title="Go along g to the rotated circle",
    ask="The first stub changes b alone. Where does the load's circle of constant g meet the rotated circle? The "
    "higher crossing has the greater b.",
    goal="The first stub moves y along its circle of constant g; stop where the line between the stubs takes over.",
    rule="Two circles meet in two points. Both serve; at both g is the load's own.",
    numbers=lambda w: (
        f"Follow g = {w.notation.number(w['admittance'].real)} to the rotated circle, both ways."
    ),
    because="A stub across the line adds no conductance.",
    fields=each(
        quantity="after",
        label="y behind the first stub",
        kind=lambda w: Immittance("admittance", w["line"], "0.40 + {j}1.20"),
        value=values.after_first,
        slips=lambda branch: (
            Slip(
                key="turned the other way",
                doing="using the unit circle turned toward the generator",
                question="Which way was the unit circle turned?",
                remedy="At the first stub the circle is turned toward the load, counter-clockwise.",
                predict=_on_other_circle(values.turned_toward_generator, branch),
                usual=3,
                ruled_out_by=("rotated",),
            ),
            Slip(
                key="mismatch circle",
                doing="following the mismatch circle in place of the circle of constant g",
                question="Along which curve does a stub move y?",
                remedy="Only a line moves y along the mismatch circle; a stub keeps g.",
                predict=_on_mismatch_circle,
            ),
            made.sign_lost(lambda w: values.after_first(w, branch), "susceptance"),
            Slip(
                key="impedance there",
                doing="giving the impedance there",
                question="Is that the impedance there, or the admittance?",
                remedy="Its real part is the load's own g: give y, not z.",
                predict=lambda w: inverse(values.after_first(w, branch)),
                usual=1,
            ),
        ),
        strokes=_after_strokes,
        gesture=lambda w, branch: WalkCircle(
            conductance_circle(w["admittance"].real), values.load_point(w), "admittance"
        ),
        names=("y1", "y a", "y behind first stub", "y after first stub", "y1'"),
    ),
    applies=values.is_matchable,
)


# --- through the spacing ---


def _arriving_strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
    yield Way(
        walk(values.after_reflection(work, branch), work["spacing"]),
        branch.role,
        "admittance",
        "",
        work.say(f"Through the spacing, {{spacing}} toward the generator, {branch.word}."),
    )
    yield Point(
        SHUNT.reflection_at(work.of("arriving", branch)),
        branch.role,
        "admittance",
        f"y_2 {branch.word}",
        f"Arriving at the second stub, {branch.word}: {work.write_of('arriving', branch)}.",
        work.notation.rectangular(work.of("arriving", branch), 2),
    )


ARRIVING = Step(
    key="arriving",
    title="Walk through the spacing",
    ask="Walk {spacing} toward the generator from each crossing. Which y arrives at the second stub?",
    goal="The line between the stubs brings both points to g = 1: that is what the rotated circle was for.",
    rule="Go clockwise about the centre by the spacing; both walks end on g = 1.",
    numbers=lambda w: (
        f"From {w.write_of('after', HIGHER)} and {w.write_of('after', LOWER)}; "
        + w.say("walk {spacing} each.")
    ),
    because="From g = 1 a stub leads to the centre.",
    fields=each(
        quantity="arriving",
        label="y before the second stub",
        kind=lambda w: Immittance("admittance", w["line"], "1.00 + {j}0.80"),
        value=values.at_second,
        unmixed_by=("after",),
        slips=lambda branch: (
            Slip(
                key="wrong way",
                doing="walking toward the load, counter-clockwise",
                question="Which way did you walk?",
                remedy="The second stub stands nearer the generator: walk clockwise.",
                predict=lambda w: made.unless_same(
                    SHUNT.value_at(complex(toward_load(values.after_reflection(w, branch), w["spacing"]))),
                    values.at_second(w, branch),
                ),
                usual=3,
                of_method=True,
            ),
            Slip(
                key="not walked",
                doing="leaving the line between the stubs out",
                question="What does the line between the stubs do?",
                remedy="Walk on by the spacing before the second stub.",
                predict=lambda w: w.of("after", branch),
            ),
            Slip(
                key="half angle",
                doing="counting one turn of the chart as a whole wavelength",
                question="How many wavelengths is one full turn of the chart?",
                remedy=made.ONE_TURN,
                predict=lambda w: values.through(w, branch, w["spacing"] / 2),
                of_method=True,
            ),
            made.sign_lost(lambda w: values.at_second(w, branch), "susceptance"),
        ),
        strokes=_arriving_strokes,
        gesture=lambda w, branch: PointOnCircle(
            mismatch_circle(values.after_reflection(w, branch)), "admittance"
        ),
        names=("y2", "y b", "y before second stub", "y arriving"),
    ),
    applies=values.is_matchable,
)
