"""Matching a load with a single shunt stub: the derivation, step by step, and how it goes wrong."""

from __future__ import annotations

from collections.abc import Iterable

from core.chart import walk
from core.line import swr
from lessons.course import stub_values as values
from lessons.course.chart_steps import ADMITTANCE, MISMATCH, NORMALISE, PLACE
from lessons.course.choosing_steps import CHOOSE, MILLIMETRES
from lessons.course.crossing_steps import CROSSINGS, SUSCEPTANCE, UNIT_CIRCLE
from lessons.course.stub_steps import LENGTH, OWN, START
from lessons.grammar import slips as made
from lessons.grammar.branches import near_and_far
from lessons.grammar.kinds import Immittance, LengthOfLine, Susceptance, reflection_of
from lessons.grammar.lesson import SIDES, Lesson, Side, Slip, Step, Work
from lessons.grammar.strokes import DragAlong, Point, Ray, Stroke, Way


def _scale(work: Work, reflection: complex) -> str:
    return work.notation.wavelengths(values.reading(work, reflection))


def _distance_strokes(work: Work, side: Side) -> Iterable[Stroke]:
    start = values.admittance_reflection(work)
    length = work.write(f"distance.{side}")
    yield Ray(
        start,
        "construction",
        "admittance",
        "",
        "The load's reading on the scale toward the generator.",
        _scale(work, start),
    )
    yield Way(
        walk(start, work[f"distance.{side}"]),
        side,
        "admittance",
        work.notation.distance,
        f"The walk from the load to the {side} crossing, {length} toward the generator.",
        length,
    )
    end = values.crossing_reflection(work, side)
    yield Ray(
        end,
        side,
        "admittance",
        "",
        f"The {side} crossing's reading on the same scale.",
        _scale(work, end),
    )


def _distance_slips(side: Side) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return values.distance(work, side)

    return (
        made.wrong_way(value),
        made.end_reading(value, lambda w: values.reading(w, values.crossing_reflection(w, side))),
        made.made_positive(
            lambda w: values.reading(w, values.admittance_reflection(w)),
            lambda w: values.reading(w, values.crossing_reflection(w, side)),
        ),
        made.start_off_by_quarter(
            value,
            "starting from the impedance where the admittance is needed",
            "Did you start at y, or at z?",
            "Start at y: that point is what the line moves.",
        ),
        made.double_angle(value),
        made.half_angle(value),
    )


DISTANCE = Step(
    key="distance",
    title="Measure the distance from the load",
    ask="How far is it from the load to each crossing? Walk clockwise, toward the generator, and give {d}.",
    goal="The angle walked on the chart is the length of line between load and stub.",
    rule="Read the scale of wavelengths toward the generator beside y and beside the crossing, and subtract. If the "
    "difference is negative, the scale has started again in between: add 0.5.",
    numbers=lambda w: (
        f"The scale reads {_scale(w, values.admittance_reflection(w))} beside y, "
        f"{_scale(w, values.crossing_reflection(w, 'near'))} beside the near crossing and "
        f"{_scale(w, values.crossing_reflection(w, 'far'))} beside the far one."
    ),
    because="Half a wavelength more would do as well: the circle closes.",
    fields=near_and_far(
        "distance",
        "distance {d}",
        lambda w: LengthOfLine(),
        values.distance,
        _distance_slips,
        _distance_strokes,
        lambda w, side: DragAlong(values.admittance_reflection(w), "admittance"),
        names=("{d}", "{d}/λ", "distance", "distance {d}", "d"),
    ),
)

NEEDED = Step(
    key="needed",
    title="Cancel the susceptance",
    ask="Which susceptance must the stub add at each crossing?",
    goal="The two in parallel must leave nothing but 1.",
    rule="Admittances across the line add up: b of the line and b of the stub together must be zero.",
    numbers=lambda w: (
        f"The line shows {w.write('susceptance.near')} at the near crossing and "
        f"{w.write('susceptance.far')} at the far one."
    ),
    because="Equal and opposite: they resonate, and the line sees a pure conductance.",
    fields=near_and_far(
        "needed",
        "stub susceptance",
        lambda w: Susceptance(1.0),
        values.stub_needed,
        lambda side: (
            Slip(
                key="sign not flipped",
                doing="leaving the sign as it was",
                question="Did you flip the sign?",
                remedy="The stub must cancel b, so it shows the opposite.",
                predict=lambda w: w[f"susceptance.{side}"],
            ),
        ),
        names=("bs", "ys", "b stub", "y stub", "stub susceptance", "stub admittance"),
    ),
)


TOTAL = Step(
    key="total",
    title="Check the junction",
    ask="Add the line's admittance and the stub's at the junction. What is the total?",
    goal="If all is well the line from the generator sees its own admittance, and nothing comes back.",
    rule="Add y at the crossing and {j} times the stub's susceptance.",
    numbers=lambda w: (
        f"Near: {w.write('crossing.near')} and {w.notation.imaginary}({w.write('needed.near')})."
    ),
    because="At the centre of the chart: matched.",
    fields=near_and_far(
        "total",
        "total admittance y",
        lambda w: Immittance("1.00 + {j}0.00"),
        values.total_admittance,
        lambda side: (
            Slip(
                key="stub left out",
                doing="leaving the stub out",
                question="Did you add the stub?",
                remedy="Add the stub's susceptance.",
                predict=lambda w: w[f"crossing.{side}"],
            ),
            Slip(
                key="sign not flipped",
                doing="adding b twice in place of cancelling it",
                question="Is the stub's sign opposite to b?",
                remedy="The stub's susceptance is the opposite of b.",
                predict=lambda w: w[f"crossing.{side}"] + 1j * w[f"crossing.{side}"].imag,
            ),
            Slip(
                key="conductance lost",
                doing="giving the susceptance alone",
                question="What is the real part?",
                remedy="The conductance 1 is still there.",
                predict=lambda w: complex(0, values.total_admittance(w, side).imag),
            ),
        ),
        lambda w, side: (
            Point(
                -reflection_of(w[f"total.{side}"]),
                side,
                "admittance",
                "y",
                f"The {side} junction's total, {w.write(f'total.{side}')}.",
            ),
        ),
        mixable=False,
        names=("y total", "yt", "ytot", "total", "total admittance", "y sum", "yin"),
    ),
)


def closing(work: Work) -> str:
    """What the finished design achieves, by the solver and for the load as given."""
    achieved = {side: float(swr(values.built(work, side).input_reflection())) for side in SIDES}
    ratios = " and ".join(f"{work.notation.number(ratio, 2)} ({side})" for side, ratio in achieved.items())
    return f"Built with the lengths on this sheet, the line sees a standing-wave ratio of {ratios}."


LESSON = Lesson(
    "shunt_stub",
    "Matching with a single shunt stub",
    "A short piece of line across the main one cancels what the load sends back. Find its place and its length.",
    (
        NORMALISE,
        PLACE,
        MISMATCH,
        ADMITTANCE,
        UNIT_CIRCLE,
        CROSSINGS,
        SUSCEPTANCE,
        DISTANCE,
        NEEDED,
        OWN,
        START,
        LENGTH,
        TOTAL,
        CHOOSE,
        MILLIMETRES,
    ),
    values.refuses,
    values.design,
    closing,
)
