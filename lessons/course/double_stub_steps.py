"""The steps from stub to stub: along g to the rotated circle, through the spacing, and both stubs' lengths."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from core.chart import (
    UNIT_CONDUCTANCE_CIRCLE,
    arc_between,
    conductance_circle,
    mismatch_circle,
    walk,
)
from core.line import toward_load
from lessons.course import double_stub_values as values
from lessons.course.double_stub_values import BOTH, HIGHER, LOWER
from lessons.course.in_each import in_each
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import ImaginaryPart, Immittance, LengthOfLine, inverse
from lessons.grammar.lesson import Field, Problem, Slip, Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.side import SHUNT
from lessons.grammar.strokes import DragAlong, Point, PointOnCircle, Stroke, WalkCircle, Way

TOLD_APART = "The higher solution has the greater b behind the first stub, the lower one the lesser."
LENGTHS = {
    "first": Symbol("l1", "length of the first stub"),
    "second": Symbol("l2", "length of the second stub"),
}
ELEMENTS = {"first": 0, "second": 2}


def _allowed(problem: Problem) -> bool:
    return not values.is_forbidden(problem)


def each(**asked: Any) -> tuple[Field, ...]:
    """The field of either solution."""
    return in_each(BOTH, TOLD_APART, **asked)


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
                key="not turned",
                doing="stopping at the unit circle itself",
                question="Is that the rotated circle?",
                remedy="The line between the stubs is still to come: stop at the rotated circle.",
                predict=_on_other_circle(lambda w: UNIT_CONDUCTANCE_CIRCLE, branch),
            ),
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
    applies=_allowed,
)


# --- what the stubs add ---


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
        applies=_allowed,
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
    applies=_allowed,
)


# --- the lengths ---


def length_step(which: str) -> Step:
    """The length of one of the stubs, in either solution."""
    symbol, others = LENGTHS[which], "second" if which == "first" else "first"
    key, kinds = f"{which}_length", f"{{{which}_end}}"
    own = f" On its own chart, of {{{which}_stub}}, its b counts {{{which}_stub}} / {{line}} times."

    def own_chart(work: Work) -> str:
        return work.say(own) if work[f"{which}_stub"] != work["line"] else ""

    return Step(
        key=key,
        title=f"Walk the rim for the {which} stub",
        ask=lambda w: (
            f"The {which} stub ends in {{an_{which}_end}} circuit. Walk the rim from there, clockwise, to what it must "
            f"show, and give {{{symbol.key}}} for each solution." + (own if own_chart(w) else "")
        ),
        goal="A stub must be long enough to show that susceptance at its place, and no longer.",
        rule="A short circuit is y = ∞, an open circuit y = 0. Read the scale where b stands on the rim, less its "
        "reading at the stub's end; if negative, add {half_wave}.",
        numbers=lambda w: (
            w.say(f"From the {kinds} point to b = ")
            + f"{w.notation.number(values.on_own_chart(w, which, HIGHER))} for the higher solution and to b = "
            f"{w.notation.number(values.on_own_chart(w, which, LOWER))} for the lower one."
        ),
        because="Lengths repeat every half wavelength; the shortest is usual.",
        fields=each(
            quantity=key,
            label=f"length {{{symbol.key}}}",
            symbol=symbol,
            element=ELEMENTS[which],
            kind=lambda w: LengthOfLine(),
            value=lambda w, branch: values.stub_length(w, which, branch),
            unmixed_by=(f"{which}_part",),
            slips=lambda branch: _length_slips(which, others, branch),
            strokes=lambda w, branch: _length_strokes(w, which, branch),
            gesture=lambda w, branch: DragAlong(values.stub_end(w, which), "admittance"),
            names=(
                f"{{{symbol.key}}}",
                f"{{{symbol.key}}}/λ",
                f"{which} stub length",
                f"length of the {which} stub",
            ),
        ),
        applies=_allowed,
    )


def _length_strokes(work: Work, which: str, branch: Branch) -> Iterable[Stroke]:
    written = work.write_of(f"{which}_length", branch)
    yield Way(
        walk(values.stub_end(work, which), work.of(f"{which}_length", branch)),
        branch.role,
        "admittance",
        work.notation.symbol(LENGTHS[which].key),
        work.say(
            f"The {which} stub, {branch.word}: from the {{{which}_end}} point {written} clockwise along the rim."
        ),
        written,
    )


def _length_slips(which: str, others: str, branch: Branch) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return values.stub_length(work, which, branch)

    def for_part(part: Callable[[Work], float]) -> Callable[[Work], Any]:
        return lambda work: made.unless_same(values.length_for(work, which, part(work)), value(work))

    def unscaled(work: Work) -> Any:
        part = work.of(f"{which}_part", branch)
        return made.unless_same(values.unscaled_length(work, which, part), value(work))

    def at_start(work: Work) -> float:
        return values.reading(work, values.stub_end(work, which))

    def at_end(work: Work) -> float:
        return values.reading(work, SHUNT.reflection_at(1j * values.on_own_chart(work, which, branch)))

    return (
        made.wrong_way(value),
        made.wrong_end(value, f"This stub's end is {{{which}_end}}: start there."),
        made.end_reading(value, at_end),
        made.start_reading(value, at_start),
        made.made_positive(at_start, at_end),
        made.double_angle(value),
        made.half_angle(value),
        Slip(
            key="sign not flipped",
            doing="walking to b with the other sign",
            question="Which sign has b of this stub?",
            remedy="Go to the b that the stub must add, with its sign: above the axis, or below it.",
            predict=for_part(lambda w: -w.of(f"{which}_part", branch)),
            usual=3,
            ruled_out_by=(f"{which}_part.{branch.key}",),
        ),
        made.other_quantity(
            "other stub",
            f"giving the {others} stub's length",
            "Which stub is this?",
            "The first stub stands nearer the load.",
            lambda w: values.stub_length(w, others, branch),
            value,
        ),
        Slip(
            key="ratio ignored",
            doing="using the line's normalisation for the stub",
            question="Whose impedance is this normalised by?",
            remedy=f"The stub is {{{which}_stub}}, the line {{line}}: multiply b by the one and divide by the other.",
            predict=unscaled,
        ),
    )


FIRST_LENGTH, SECOND_LENGTH = length_step("first"), length_step("second")
