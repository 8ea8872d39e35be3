"""The steps of a stub up to the junction: the unit circle, the crossings, and what is left there."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from core.chart import mismatch_circle
from lessons.course.near_and_far import FAR, NEAR, near_and_far
from lessons.course.stub_values import StubValues
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import Choice, ImaginaryPart, Immittance, inverse
from lessons.grammar.lesson import Field, Slip, Step, Work, by_grid
from lessons.grammar.strokes import Curve, Point, PointOnCircle, Stroke


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
            spread=lambda w: _beside_nothing(values.crossing(w, branch).imag),
        ),
        *(_impedance_there(values, branch) if side.immittance == "admittance" else ()),
        Slip(
            key="on the axis",
            doing="stopping where the mismatch circle meets the axis",
            question="Which two curves meet there?",
            remedy=f"Look where the mismatch circle meets {side.real_symbol} = 1: the axis meets it where "
            f"{side.part_symbol} is 0.",
            predict=lambda w: (complex(w["mismatch"], 0), complex(1 / w["mismatch"], 0)),
            usual=1,
        ),
    )


def _impedance_there(values: StubValues, branch: Branch) -> tuple[Slip, ...]:
    return (
        Slip(
            key="impedance there",
            doing="giving the impedance at the crossing",
            question="Is that the impedance there, or the admittance?",
            remedy="At a crossing g is 1: give y, not z.",
            predict=lambda w: inverse(values.crossing(w, branch)),
            usual=1,
        ),
    )


def _beside_nothing(part: float) -> float:
    """How many tolerances an imaginary part read on the unit circle, one tolerance off, is off on the rim."""
    return (4 + part**2) / (1 + part**2)


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
            unmixed_by=("crossing",),
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
