"""What goes wrong with two reactances: each slip computes what a student who makes it would write."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt

from lessons.course.quarter_values import slips_of
from lessons.course.two_values import Arrangement, ways
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import inverse
from lessons.grammar.lesson import Slip, Work

WAYS = (
    Slip(
        key="circles exchanged",
        doing="exchanging the two unit circles",
        question="Which of the two circles is the load inside of?",
        remedy="Inside r = 1 the part across the line must come first, inside g = 1 the part in the line.",
        predict=lambda w: {"shunt": "series", "series": "shunt"}.get(ways(w)),
    ),
    Slip(
        key="circle overlooked",
        doing="overlooking the circle that the load is inside of",
        question="Is the load inside of one of the unit circles?",
        remedy="From inside a unit circle its own grid's walk never comes out: that part cannot come first.",
        predict=lambda w: "either" if ways(w) != "either" else None,
    ),
    Slip(
        key="one left out",
        doing="leaving one of the arrangements out",
        question="Is the load inside of a circle at all?",
        remedy="Outside both circles either part can come first.",
        predict=lambda w: ("shunt", "series") if ways(w) == "either" else None,
    ),
    Slip(
        key="none seen",
        doing="taking it that two parts cannot match this load",
        question="Can you walk to a unit circle of the other grid?",
        remedy="A load that takes power can always be matched with two parts.",
        predict=lambda w: "none",
    ),
)


def meet_slips(way: Arrangement, branch: Branch) -> tuple[Slip, ...]:
    near, sign = way.near, 1 if branch is way.pair.branches[0] else -1
    g = near.real_symbol

    def value(work: Work) -> complex:
        return way.meet(work, branch)

    def root_of(left: Callable[[float], float]) -> Callable[[Work], complex | None]:
        """The real part kept, and an imaginary one by another root than the right one."""

        def predict(work: Work) -> complex | None:
            real = way.start(work).real
            return made.unless_same(complex(real, sign * sqrt(abs(left(real)))), value(work))

        return predict

    return (
        Slip(
            key="mismatch circle",
            doing="walking along the mismatch circle",
            question="Along which circle did you walk?",
            remedy=f"That is a piece of line. A part {near.where} the line leaves {g} as it is: follow the circle "
            f"of constant {g}.",
            predict=way.met_by_mismatch,
        ),
        Slip(
            key="other grid read",
            doing="reading the other grid there",
            question="Which grid did you read?",
            remedy=f"The point that is asked for is read as {near.symbol}.",
            predict=lambda w: made.unless_same(inverse(value(w)), value(w)),
        ),
        Slip(
            key="own unit circle",
            doing=f"going to where {g} is 1",
            question=f"Is {g} at your point still that of the load?",
            remedy=f"Along the circle of constant {g} it never becomes 1: stop at the other grid's unit circle.",
            predict=lambda w: complex(1, value(w).imag),
        ),
        Slip(
            key="square forgotten",
            doing=f"taking the root of {g} without taking its square away",
            question="What stands under the root?",
            remedy=f"In numbers, the imaginary part is the root of {g} less its square.",
            predict=root_of(lambda real: real),
            usual=1,
        ),
        Slip(
            key="axis",
            doing="walking to the axis of the chart",
            question="Where does the walk end?",
            remedy="Walk on to the unit circle: on the axis nothing is matched yet.",
            predict=lambda w: complex(value(w).real, 0.0),
            usual=1,
        ),
    )


def near_slips(way: Arrangement, branch: Branch) -> tuple[Slip, ...]:
    b = way.near.part_symbol
    what = f"The load has {b} of its own: the part adds the difference."
    return slips_of(
        lambda w: way.near_part(w, branch),
        (
            "all of it",
            f"giving all of {b} there in place of the difference",
            "What does the load bring along already?",
            what,
            lambda w: float(way.at(w, "meet", branch).imag),
        ),
        (
            "sign not flipped",
            "subtracting the wrong way round",
            "Which one did you subtract from which?",
            f"Take {b} at the crossing less {b} of the load.",
            lambda w: -way.near_part(w, branch),
        ),
        (
            "added",
            "adding both in place of subtracting",
            "Did you add, or subtract?",
            what,
            lambda w: float((way.at(w, "meet", branch) + way.start(w)).imag),
        ),
        usual=("all of it",),
    )


def turn_slips(way: Arrangement, branch: Branch) -> tuple[Slip, ...]:
    def value(work: Work) -> complex:
        return way.turned(work, branch)

    def by_parts(work: Work) -> complex | None:
        there = way.at(work, "meet", branch)
        return complex(1 / there.real, -1 / there.imag) if there.real and there.imag else None

    return (
        Slip(
            key="not turned",
            doing=f"giving {way.near.symbol} for {way.far.symbol}",
            question="Which of the two is asked for?",
            remedy="The next part stands the other way to the line: read the other grid.",
            predict=lambda w: way.at(w, "meet", branch),
        ),
        made.sign_lost(value, way.far.part),
        Slip(
            key="parts inverted",
            doing="inverting the real and the imaginary part each by itself",
            question="Did you invert the two parts one by one?",
            remedy="One over a complex number is not one over each of its parts.",
            predict=by_parts,
        ),
    )


def far_slips(way: Arrangement, branch: Branch) -> tuple[Slip, ...]:
    x, b = way.far.part_symbol, way.near.part_symbol
    return slips_of(
        lambda w: way.far_part(w, branch),
        (
            "sign not flipped",
            "adding what is there once more",
            f"Did you flip the sign of {x}?",
            f"The part must cancel {x}: it has the other sign.",
            lambda w: float(way.at(w, "turn", branch).imag),
        ),
        (
            "first part again",
            "giving the first part's value",
            "Which of the two parts is this?",
            f"Cancel what is left as {x} at the unit circle.",
            lambda w: float(way.at(w, "near", branch).real),
        ),
        (
            "other grid",
            f"cancelling {b} in place of {x}",
            "Which grid did you read?",
            f"This part stands {way.far.where} the line: its {x} is read on the other grid.",
            lambda w: -float(way.at(w, "meet", branch).imag),
        ),
        usual=("sign not flipped",),
    )
