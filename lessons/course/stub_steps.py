"""The steps of the stub itself, shunt or series: its own chart, its end, and its length."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from core.chart import OPEN_POINT, SHORT_POINT, walk
from core.line import wrap_half_wave
from lessons.course import stub_ends
from lessons.course.near_and_far import FAR, NEAR, near_and_far
from lessons.course.stub_values import StubValues, has_own_impedance, stub_end
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, ImaginaryPart, LengthOfLine
from lessons.grammar.lesson import Field, Slip, Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.strokes import DragAlong, PickPoint, Point, Stroke, Way

OWN_CHART = "Each line has a chart of its own, normalised by its own impedance."
STUB_LENGTH = Symbol("l", "stub length")


def own(values: StubValues) -> Step:
    side = values.side
    b, y = side.part_symbol, side.symbol
    top, below = ("{stub}", "{line}") if side.placement == "shunt" else ("{line}", "{stub}")
    same = "siemens" if side.placement == "shunt" else "ohms"
    return Step(
        key="own",
        title="Go over to the stub's own chart",
        ask=f"The stub is a line of {{stub}}, not {{line}}. What is its {side.part}, normalised to the stub?",
        goal=OWN_CHART,
        rule=f"The same {same} count differently: multiply by {top} and divide by {below}.",
        numbers=lambda w: (
            f"Multiply {w.write_of('needed', NEAR)} and {w.write_of('needed', FAR)} by "
            + w.say(f"{top} / {below}.")
        ),
        because="Now the rim of the stub's chart can be read.",
        fields=near_and_far(
            quantity="own",
            label=f"{side.part} on the stub's chart",
            kind=lambda w: ImaginaryPart(side.immittance, w["stub"], arithmetic=True),
            value=values.on_stub_chart,
            unmixed_by=("crossing", side.part, "needed"),
            slips=lambda branch: (
                *_ratio_slips(values, lambda part: part, branch),
                made.sign_lost(lambda w: values.on_stub_chart(w, branch), side.part),
            ),
            names=(f"{b}s", f"{y}s", f"{b} own", f"{y} own", f"{b} stub", f"{y} stub"),
        ),
        applies=lambda problem: problem["stub"] != problem["line"],
    )


def _ratio_slips(values: StubValues, from_part: Callable[[Any], Any], branch: Branch) -> tuple[Slip, Slip]:
    """Forgetting the ratio of the two impedances, and turning it over; as `from_part` makes the answer of it."""
    side = values.side
    top, below = ("{stub}", "{line}") if side.placement == "shunt" else ("{line}", "{stub}")

    def inverted(work: Work) -> float:
        return side.scaled(work.of("needed", branch), work["stub"], work["line"])

    return (
        Slip(
            key="ratio ignored",
            doing="using the line's normalisation for the stub",
            question="Whose impedance is this normalised by?",
            remedy=f"The stub is {{stub}}, the line {{line}}: multiply by {top} and divide by {below}.",
            predict=lambda w: from_part(w.of("needed", branch)) if has_own_impedance(w) else None,
        ),
        Slip(
            key="ratio inverted",
            doing="turning the ratio of the impedances over",
            question="Which impedance is on top?",
            remedy=f"On the stub's own chart the {side.part} counts {top} / {below} times.",
            predict=lambda w: from_part(inverted(w)) if has_own_impedance(w) else None,
        ),
    )


def start(values: StubValues) -> Step:
    side = values.side
    y = side.symbol
    return Step(
        key="start",
        title="Find where the stub starts",
        ask="This stub ends in {an_end} circuit. Where on the chart is that end, and which way leads to the junction?",
        goal="A stub is measured from its end, and its end is a point of the rim.",
        rule=f"A short circuit is {y} = {side.at_short}, an open circuit {y} = {side.at_open}. From the end to the "
        "junction is toward the generator.",
        numbers=lambda w: w.say(
            "This stub's end is {end}; its walk ends at the junction, nearer the generator."
        ),
        because="A lossless stub never leaves the rim.",
        fields=(
            Field(
                quantity="start.point",
                label="The stub starts at",
                names=("start", "starts at", "stub starts at", "starting point"),
                kind=lambda w: Choice(
                    (
                        ("short", f"the short point, {y} = {side.at_short}"),
                        ("open", f"the open point, {y} = {side.at_open}"),
                        ("match", f"the match point, {y} = 1"),
                        ("load", f"the load, {y}"),
                    )
                ),
                value=lambda w: w["end"],
                slips=(
                    stub_ends.OTHER_END_CHOSEN,
                    Slip(
                        key="match point",
                        doing="starting where the stub should lead",
                        question="Where does the stub begin?",
                        remedy="Start at the stub's end and walk to its input.",
                        predict=lambda w: "match",
                    ),
                    Slip(
                        key="load point",
                        doing="taking the stub for a continuation of the line",
                        question="Is the load on the stub?",
                        remedy="The stub is a branch of its own, with nothing at its end but {an_end} circuit.",
                        predict=lambda w: "load",
                    ),
                ),
                strokes=lambda w: (
                    Point(
                        stub_end(w),
                        "construction",
                        side.immittance,
                        w["end"],
                        w.say("The {end} end of the stub, on the rim."),
                    ),
                ),
                gesture=lambda w: PickPoint(
                    (
                        ("short", SHORT_POINT),
                        ("open", OPEN_POINT),
                        ("match", 0j),
                        ("load", values.start(w)),
                    ),
                    side.immittance,
                ),
            ),
            stub_ends.sense(
                "start.sense",
                "At which end of the stub is the junction?",
                "Seen from the stub's end, the junction is on the generator's side: clockwise.",
            ),
        ),
    )


def length(values: StubValues) -> Step:
    side = values.side
    b = side.part_symbol

    def strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
        written = work.write_of("length", branch)
        yield Way(
            walk(stub_end(work), work.of("length", branch)),
            branch.role,
            side.immittance,
            work.notation.symbol("l"),
            work.say(f"The {branch.word} stub: from the {{end}} point {written} clockwise along the rim."),
            written,
        )
        yield Point(
            values.stub_reflection(work, branch),
            branch.role,
            side.immittance,
            f"{b}_{branch.word}",
            f"The {branch.word} stub's input on the rim.",
            work.notation.number(work.of("own", branch), 2),
        )

    return Step(
        key="length",
        title="Walk the rim for the stub's length",
        ask=f"Start at the {{end}} point and walk clockwise along the rim to the {side.part} needed. Give {{l}} for "
        "each.",
        goal=f"The stub must be long enough to show that {side.part} at the junction, and no longer.",
        rule=f"Read the scale where {b} stands on the rim, less its reading at the stub's end; if negative, add "
        "{half_wave}.",
        numbers=lambda w: (
            w.say("From the {end} point, ")
            + f"{w.notation.wavelengths(values.reading(w, stub_end(w)))} on the scale, to {b} = "
            f"{w.write_of('own', NEAR)} for the near stub and to {b} = {w.write_of('own', FAR)} for the far one."
        ),
        because="The stub stays shorter than half a wavelength; longer ones repeat.",
        fields=near_and_far(
            quantity="length",
            label="stub length {l}",
            symbol=STUB_LENGTH,
            element=1,
            kind=lambda w: LengthOfLine(),
            value=values.stub_length,
            routes=lambda branch: (lambda w: values.length_from_chosen(w, branch),),
            slips=lambda branch: _length_slips(values, branch),
            strokes=strokes,
            gesture=lambda w, branch: DragAlong(stub_end(w), side.immittance),
            names=("{l}", "{l}/λ", "stub length", "stub length {l}", "length", "l", "ls", "l stub"),
        ),
    )


def _length_slips(values: StubValues, branch: Branch) -> tuple[Slip, ...]:
    b = values.side.part_symbol

    def value(work: Work) -> float:
        return values.stub_length(work, branch)

    def for_part(wanted: Callable[[Work], float]) -> Callable[[Work], Any]:
        return lambda work: made.unless_same(values.length_for(work, wanted(work)), value(work))

    def scaled_back(slip: Slip) -> Slip:
        def predict(work: Work) -> Any:
            part = slip.predict(work)
            return None if part is None else made.unless_same(values.length_for(work, part), value(work))

        return replace(slip, predict=predict, ruled_out_by=(f"own.{branch.key}",))

    def at_start(work: Work) -> float:
        return values.reading(work, stub_end(work))

    def at_end(work: Work) -> float:
        return values.reading(work, values.stub_reflection(work, branch))

    return (
        made.wrong_way(value, ruled_out_by=("start.sense",)),
        made.wrong_end(value, ruled_out_by=("start.point",)),
        made.end_reading(value, at_end),
        replace(
            made.start_reading(value, at_start),
            doing="giving the scale reading at the stub's end, or the way from there to the mark, for the whole walk",
        ),
        made.made_positive(at_start, at_end),
        made.double_angle(value),
        made.half_angle(value),
        made.other_quantity(
            "quarter less",
            "taking the length from a quarter wavelength",
            "From where did you count?",
            "Count from the stub's own end, not back from a quarter wavelength.",
            lambda w: wrap_half_wave(0.25 - value(w)),
            value,
        ),
        made.other_quantity(
            "distance",
            "giving the distance for the stub's length",
            "Is that the stub's length, or the distance?",
            "The stub's length is measured on the rim, from its end.",
            lambda w: w.of("distance", branch),
            value,
        ),
        Slip(
            key="sign not flipped",
            doing="cancelling with the same sign",
            question=f"Did you flip the sign of {b}?",
            remedy="The stub must show minus what the line shows.",
            predict=for_part(lambda w: -w.of("own", branch)),
            usual=3,
            ruled_out_by=(f"needed.{branch.key}",),
        ),
        *map(scaled_back, _ratio_slips(values, lambda part: part, branch)),
    )
