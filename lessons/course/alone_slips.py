"""What goes wrong on the way along a stub: each slip computes what a student who makes it would write."""

from __future__ import annotations

from collections.abc import Callable

from core.line import wrap_half_wave
from lessons.course import alone_values as values
from lessons.course.chart_steps import HABITUAL
from lessons.course.stub_ends import OTHER_END_CHOSEN
from lessons.course.walk_detours import DETOURS, Detour
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Work

WALKS = tuple(
    one for one in DETOURS if one.key != "other scale"
)  # both ends of a stub read alike on both scales


def _there(detour: Detour) -> Callable[[Work], float | None]:
    def predict(work: Work) -> float | None:
        end = detour.end(work)
        return None if end is None else made.unless_same(values.part_at(end), values.reactance(work))

    return predict


BEGIN = (
    OTHER_END_CHOSEN,
    Slip(
        key="match point",
        doing="starting at the centre",
        question="Does anything take power at the stub's end?",
        remedy="Nothing but {an_end} circuit is there, and all of the wave comes back: start on the rim.",
        predict=lambda w: "match",
    ),
)
START = (
    Slip(
        key="other end of the axis",
        doing="reading at the other end of the axis",
        question="Which end of the axis stands for the stub's end?",
        remedy="A short circuit is the left end of the axis, an open circuit the right end.",
        predict=made.changed(values.start_reading, lambda v: wrap_half_wave(v + 0.25)),
        usual=3,
    ),
)
REACHED = (
    *(one.slip(one.end) for one in WALKS),
    made.other_quantity(
        "start reading",
        "giving the reading where the walk begins",
        "Is that where the walk begins, or where it ends?",
        "Add the length of the stub to it.",
        lambda w: w["start"],
        values.end_reading,
    ),
)
REACTANCE = (
    *(one.slip(_there(one), "reached") for one in WALKS),
    made.sign_lost(values.reactance, "reactance"),
    Slip(
        key="admittance read",
        doing="reading where the susceptance stands",
        question="Is that x, or b?",
        remedy="Read x at the end of the walk itself.",
        predict=lambda w: made.unless_same(-1 / values.reactance(w), values.reactance(w)),
    ),
    Slip(
        key="in ohms",
        doing="giving ohms where x is asked",
        question="Is that x, or X in ohms?",
        remedy="Read x as the chart shows it; ohms come after it.",
        predict=lambda w: values.reactance(w) * w["line"],
        usual=1,
    ),
)
NEEDED = (
    Slip(
        key="not normalised",
        doing="leaving the reactance in ohms",
        question="Did you divide by the stub's impedance?",
        remedy="Divide by the stub's impedance, {line}.",
        predict=lambda w: made.unless_same(w["wanted"], values.normalised_wanted(w)),
    ),
    Slip(
        key="upside down",
        doing="dividing the stub's impedance by the reactance",
        question="Which one did you divide by which?",
        remedy="The stub's impedance goes below: x = X / Z₀.",
        predict=lambda w: made.unless_same(1 / values.normalised_wanted(w), values.normalised_wanted(w)),
    ),
    Slip(
        key="50 ohm by habit",
        doing="dividing by 50 Ω out of habit",
        question="Which impedance did you divide by?",
        remedy="This stub is a line of {line}: divide by that.",
        predict=lambda w: w["wanted"] / HABITUAL if w["line"] != HABITUAL else None,
        usual=3,
    ),
    made.sign_lost(values.normalised_wanted, "reactance"),
)
RIM = (
    Slip(
        key="sign of the reactance lost",
        doing="looking for x with the other sign",
        question="Did you keep the sign of x?",
        remedy=made.ABOVE,
        predict=made.changed(values.wanted_reading, lambda v: wrap_half_wave(-v)),
        usual=3,
    ),
    Slip(
        key="admittance place",
        doing="looking for x where b stands",
        question="Did you read beside x, or beside b?",
        remedy="Look for x itself on the rim.",
        predict=made.changed(values.wanted_reading, lambda v: wrap_half_wave(v + 0.25)),
    ),
    Slip(
        key="from the right end",
        doing="counting from the right end of the axis",
        question="At which end of the axis is the scale zero?",
        remedy="The scale is zero at the left end, where x = 0.",
        predict=made.changed(values.wanted_reading, lambda v: wrap_half_wave(0.25 - v)),
        usual=1,
    ),
)
LENGTH = (
    made.wrong_way(values.length, ruled_out_by=("begin.sense",)),
    made.wrong_end(values.length, ruled_out_by=("begin.point", "start")),
    made.end_reading(values.length, lambda w: w["rim"]),
    made.made_positive(lambda w: w["start"], lambda w: w["rim"]),
    made.double_angle(values.length),
    made.half_angle(values.length),
    made.other_quantity(
        "quarter less",
        "taking the length from a quarter wavelength",
        "From where did you count?",
        "Count from the stub's own end, not back from a quarter wavelength.",
        lambda w: wrap_half_wave(0.25 - values.length(w)),
        values.length,
    ),
)
