"""The steps of a stub up to the junction: the unit circle, the crossings, what is left there, the way there."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from core.chart import mismatch_circle, walk
from lessons.course.near_and_far import BOTH, FAR, NEAR, near_and_far
from lessons.course.stub_values import StubValues
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, ImaginaryPart, Immittance, LengthOfLine, inverse
from lessons.grammar.lesson import Field, Slip, Step, Work, by_grid
from lessons.grammar.notation import Symbol
from lessons.grammar.strokes import Curve, DragAlong, Point, PointOnCircle, Ray, Stroke, Way

DISTANCE = Symbol("d", "distance")


def unit_circle(values: StubValues) -> Step:
    side = values.side
    other = "impedance" if side.immittance == "admittance" else "admittance"
    kept = {
        "admittance": ("unit conductance", "unit resistance"),
        "impedance": ("unit resistance", "unit conductance"),
    }
    right, wrong = kept[side.immittance]
    words = {
        "unit conductance": "g = 1, the unit-conductance circle",
        "unit resistance": "r = 1, the unit-resistance circle",
        "axis": f"{side.part_symbol} = 0, the axis of the chart",
        f"load {side.real}": f"the circle of the load's own {side.real_symbol}",
    }
    return Step(
        key="unit_circle",
        title="Draw the unit circle",
        ask=f"On which circle must the {side.immittance} lie for a stub to finish the match?",
        goal=f"A lossless stub can cancel a {side.part}, but it can add no {side.real}.",
        rule=f"The match is {side.symbol} = 1. The stub takes care of the imaginary part, so the real part must be 1 "
        "already.",
        numbers=lambda w: w.say(
            f"Look for all {side.symbol} = 1 + {{j}}{side.part_symbol}, whatever {side.part_symbol} is: a circle "
            "through the centre of the chart."
        ),
        because="From any point of it a stub leads to the centre.",
        fields=(
            Field(
                quantity="unit_circle",
                label="The circle",
                names=("circle", "unit circle", "the circle"),
                kind=lambda w: Choice(tuple(words.items())),
                value=lambda w: right,
                slips=(
                    Slip(
                        key=f"{other} kept",
                        doing=f"using the {other} where the {side.immittance} is needed",
                        question="Is the stub in the line or across it?",
                        remedy=f"A stub {side.where} the line adds to {side.immittance}: {side.real_symbol} must be 1.",
                        predict=lambda w: wrong,
                    ),
                    Slip(
                        key="axis",
                        doing="cancelling the wrong part",
                        question="Which part can a stub cancel?",
                        remedy=f"On the axis there is no {side.part} left to cancel, and {side.real_symbol} is not 1 "
                        "there.",
                        predict=lambda w: "axis",
                    ),
                    Slip(
                        key=f"constant {side.real_symbol}",
                        doing=f"following the load's own {side.real}",
                        question=f"What must {side.real_symbol} be for a match?",
                        remedy=f"{side.real_symbol} must become 1, and only walking along the line changes it.",
                        predict=lambda w: f"load {side.real}",
                    ),
                ),
                strokes=lambda w: (
                    Curve(
                        side.unit_circle,
                        "unit",
                        side.immittance,
                        f"{side.real_symbol} = 1",
                        f"The unit-{side.real} circle, {side.real_symbol} = 1.",
                    ),
                ),
            ),
        ),
    )


def crossings(values: StubValues) -> Step:
    side = values.side
    start = f"{side.symbol}_L"

    def strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
        yield Point(
            values.crossing_reflection(work, branch),
            branch.role,
            side.immittance,
            f"{side.symbol}_{branch.word}",
            f"The {branch.word} crossing, {work.write_of('crossing', branch)}.",
            work.notation.rectangular(work.of("crossing", branch), 2),
        )

    return Step(
        key="crossing",
        title="Find the two crossings",
        ask=f"Where does the mismatch circle meet {side.real_symbol} = 1? Walking clockwise from the load's "
        f"{side.symbol}, the first one met is the near crossing.",
        goal=f"The line takes {side.symbol} along its circle; stop where {side.real_symbol} is 1.",
        rule=f"Two circles meet in two points, one with {side.part_symbol} above zero and one below. Both serve.",
        numbers=lambda w: (
            f"Both are 1 ± {w.notation.imaginary}{side.part_symbol} on the circle of SWR {w.write('mismatch')}. "
            f"Start at {start.replace('_', '')} and walk clockwise: which comes first?"
        ),
        because=f"At a crossing only the {side.part} is left to cancel.",
        fields=near_and_far(
            quantity="crossing",
            label=f"{side.immittance} {side.symbol}",
            kind=lambda w: Immittance(side.immittance, w["line"], "1.00 + {j}0.80"),
            value=values.crossing,
            routes=values.crossing_routes,
            slips=lambda branch: _crossing_slips(values, branch),
            strokes=strokes,
            gesture=lambda w, branch: PointOnCircle(mismatch_circle(values.start(w)), side.immittance),
            names=(
                *(f"{side.symbol}{rest}" for rest in ("", "{d}", " crossing", " line", " junction", "in")),
                "crossing",
            ),
        ),
    )


def _crossing_slips(values: StubValues, branch: Branch) -> tuple[Slip, ...]:
    side = values.side

    def only_part(work: Work) -> tuple[complex, ...]:
        part = values.crossing(work, branch).imag
        return complex(part, 0), complex(0, part)

    return (
        *_wrong_curves(values),
        Slip(
            key="only the imaginary part",
            doing=f"giving the {side.part} alone",
            question="What is the real part?",
            remedy=f"On the circle {side.real_symbol} = 1 the real part is 1: give both parts.",
            predict=only_part,
        ),
    )


def _own_circle(values: StubValues) -> Callable[[Work], tuple[complex, ...] | None]:
    """Where the circle of the load's constant r (for a shunt stub; g for a series one) meets the unit circle."""

    def predict(work: Work) -> tuple[complex, ...] | None:
        z = work["normalise"]
        real = z.real if values.side.immittance == "admittance" else inverse(z).real
        if not 0 < real < 1:
            return None
        part = (1 / real - 1) ** 0.5
        return complex(1, part), complex(1, -part)

    return predict


def _wrong_curves(values: StubValues) -> tuple[Slip, ...]:
    side = values.side
    question = "Along which curve did you move?"
    other_real = "r" if side.immittance == "admittance" else "g"
    own_circle = Slip(
        key=f"constant {other_real}",
        doing=f"following the load's circle of constant {other_real} to {side.real_symbol} = 1",
        question=question,
        remedy=f"A line moves {side.symbol} along the mismatch circle.",
        predict=_own_circle(values),
    )
    if side.immittance == "impedance":
        return (
            own_circle,
            Slip(
                key="constant x",
                doing="following the load's arc of constant reactance to r = 1",
                question=question,
                remedy="A line moves z along the mismatch circle.",
                predict=lambda w: complex(1, w["normalise"].imag),
            ),
        )
    return (
        own_circle,
        Slip(
            key="constant b",
            doing="following the load's arc of constant susceptance to g = 1",
            question=question,
            remedy="A line moves y along the mismatch circle.",
            predict=lambda w: complex(1, w["admittance"].imag),
        ),
        Slip(
            key="constant x",
            doing="following the load's arc of constant reactance",
            question=question,
            remedy="A line moves the point along the mismatch circle.",
            predict=lambda w: complex(1, w["normalise"].imag),
        ),
    )


def part_there(values: StubValues) -> Step:
    side = values.side
    b = side.part_symbol
    return Step(
        key=side.part,
        title=f"Read the {side.part} there",
        ask=f"Read {b} at each crossing.",
        goal=f"What the stub must cancel is the imaginary part of {side.symbol}.",
        rule=f"At a crossing {side.symbol} = 1 + {{j}}{b}: {b} is read on the arc through it, above the axis positive, "
        "below it negative."
        if side.immittance == "impedance"
        else by_grid(
            f"At a crossing y = 1 + {{j}}{b}: {b} is read on the arc through it, above the axis positive, below it "
            "negative.",
            f"At a crossing y = 1 + {{j}}{b}: {b} is read on the dotted arc through it, below the axis positive, above "
            "it negative.",
        ),
        numbers=lambda w: (
            f"The crossings are {w.write_of('crossing', NEAR)} and {w.write_of('crossing', FAR)}."
        ),
        because=f"This {side.part} is what keeps the line from a match, and what the stub has to cancel.",
        fields=near_and_far(
            quantity=side.part,
            label=f"{side.part} {b}",
            kind=lambda w: ImaginaryPart(side.immittance, w["line"], 1.0),
            value=values.part,
            slips=lambda branch: (
                made.sign_lost(lambda w: values.part(w, branch), side.part),
                made.other_quantity(
                    f"load {side.part}",
                    f"taking the load's own {side.part}",
                    "Did you read it at the crossing, or at the load?",
                    f"Read {b} at the crossing: the line has changed it on the way.",
                    lambda w: w[values.start_key].imag,
                    lambda w: values.part(w, branch),
                ),
            ),
            names=(b, f"{b}{{d}}", f"{b} line", f"{b} crossing", side.part),
        ),
    )


def distance(values: StubValues) -> Step:
    side = values.side

    def readings(work: Work, known: Iterable[Branch]) -> tuple[str, ...]:
        """The scale's readings at the load and at crossings."""
        return values.readings(
            work, values.start(work), [values.crossing_reflection(work, one) for one in known]
        )

    def strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
        start = values.start(work)
        length, read_as = work.write_of("distance", branch), side.immittance
        of_load = "The load's reading on the scale toward the generator."
        known = [one for one in BOTH if values.crosses(work, one)]
        at_load, *at_crossings = readings(work, known)
        yield Ray(start, "construction", read_as, "", of_load, at_load)
        yield Way(
            walk(start, work.of("distance", branch)),
            branch.role,
            read_as,
            work.notation.symbol("d"),
            f"The walk from the load to the {branch.word} crossing, {length} toward the generator.",
            length,
        )
        if branch in known:
            end = values.crossing_reflection(work, branch)
            of_crossing = f"The {branch.word} crossing's reading on the same scale."
            yield Ray(end, branch.role, read_as, "", of_crossing, at_crossings[known.index(branch)])

    return Step(
        key="distance",
        title="Measure the distance from the load",
        ask="How far is it from the load to each crossing? Walk clockwise, toward the generator, and give {d}.",
        goal="The angle walked on the chart is the length of line between load and stub.",
        rule=f"Read the scale toward the generator beside {side.symbol} and beside the crossing, and subtract. If the "
        "difference is negative, the scale has started again in between: add {half_wave}.",
        numbers=lambda w: (
            "The scale reads {} beside {}, {} beside the near crossing and {} beside the far one.".format(
                readings(w, BOTH)[0], side.symbol, *readings(w, BOTH)[1:]
            )
        ),
        because="Half a wavelength more would do as well: the circle closes.",
        fields=near_and_far(
            quantity="distance",
            label="distance {d}",
            symbol=DISTANCE,
            element=0,
            kind=lambda w: LengthOfLine(),
            value=values.distance,
            routes=lambda branch: (lambda w: values.distance_from_drawn(w, branch),),
            slips=lambda branch: _distance_slips(values, branch),
            strokes=strokes,
            gesture=lambda w, branch: DragAlong(values.start(w), side.immittance),
            names=("{d}", "{d}/λ", "distance", "distance {d}", "d"),
        ),
    )


def _distance_slips(values: StubValues, branch: Branch) -> tuple[Slip, ...]:
    side = values.side
    other = "impedance" if side.immittance == "admittance" else "admittance"

    def value(work: Work) -> float:
        return values.distance(work, branch)

    def at_start(work: Work) -> float:
        return values.reading(work, values.start(work))

    def at_end(work: Work) -> float:
        return values.reading(work, values.crossing_reflection(work, branch))

    return (
        made.wrong_way(value),
        made.end_reading(value, at_end),
        made.start_reading(value, at_start),
        made.only_to_the_mark(value, at_start),
        made.other_scale(value, at_start, at_end),
        made.made_positive(at_start, at_end),
        *(_from_the_near_one(values, value) if branch is FAR else ()),
        made.other_quantity(
            "stub length",
            "giving the stub's length for the distance",
            "Is that the distance, or the stub's length?",
            "The distance is the line between load and stub.",
            lambda w: values.stub_length(w, branch),
            value,
        ),
        made.start_off_by_quarter(
            value,
            f"starting from the {other} where the {side.immittance} is needed",
            f"Did you start at {side.symbol}, or at {'z' if side.symbol == 'y' else 'y'}?"
            if side.symbol == "z"
            else by_grid(
                "Did you start at y, or at z?", "Did you take the scale's reading a quarter wave off?"
            ),
            f"Start at {side.symbol}: that point is what the line moves.",
        ),
        made.double_angle(value),
        made.half_angle(value),
    )


def _from_the_near_one(values: StubValues, value: Callable[[Work], float]) -> tuple[Slip, ...]:
    return (
        made.other_quantity(
            "from the near crossing",
            "measuring from the near crossing to the far one",
            "From where did you measure?",
            "Both distances begin at the load.",
            lambda w: values.distance(w, FAR) - values.distance(w, NEAR),
            value,
        ),
    )
