"""What goes wrong in reading what a stub shows: each slip computes what a student who makes it would write."""

from __future__ import annotations

from lessons.course import alone_values as values
from lessons.course.alone_values import CAPACITOR, COIL, TOO_LONG
from lessons.course.chart_steps import HABITUAL
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Work, by_grid

HOW_FAR = "How far does the point move for the little that is too long?"

OHMS = (
    Slip(
        key="not denormalised",
        doing="leaving x as the chart shows it",
        question="Is that x, or X in ohms?",
        remedy="Multiply x by the stub's impedance, {line}.",
        predict=lambda w: w["reactance"],
        usual=3,
    ),
    Slip(
        key="divided again",
        doing="dividing by the stub's impedance",
        question="Did you multiply or divide?",
        remedy="X is x times {line}.",
        predict=lambda w: w["reactance"] / w["line"],
    ),
    Slip(
        key="50 ohm by habit",
        doing="multiplying by 50 Ω out of habit",
        question="Which impedance did you multiply by?",
        remedy="This stub is a line of {line}: multiply by that.",
        predict=lambda w: w["reactance"] * HABITUAL if w["line"] != HABITUAL else None,
        usual=3,
    ),
    Slip(
        key="susceptance taken",
        doing="multiplying b by the stub's impedance",
        question="Did you start from x, or from b?",
        remedy="Ohms are made of x.",
        predict=lambda w: made.unless_same(w["susceptance"] * w["line"], values.in_ohms(w)),
    ),
    made.sign_lost(values.in_ohms, "reactance"),
)
SUSCEPTANCE = (
    Slip(
        key="sign not turned",
        doing="inverting without turning the sign",
        question="What becomes of the {j} when it goes below?",
        remedy="One over {j}x is −{j} times one over x: the sign turns.",
        predict=lambda w: 1 / values.shown(w),
        usual=3,
    ),
    Slip(
        key="not inverted",
        doing="turning the sign without inverting",
        question="Did you divide?",
        remedy="b is minus one over x.",
        predict=lambda w: made.unless_same(-values.shown(w), values.susceptance(w)),
    ),
    Slip(
        key="reactance kept",
        doing="giving x for b",
        question="Is that x, or b?",
        remedy=by_grid("Cross the centre and read again.", "Read the dotted grid at the same point."),
        predict=lambda w: values.shown(w),
    ),
    Slip(
        key="not normalised",
        doing="inverting the reactance in ohms",
        question="Did you start from x, or from ohms?",
        remedy="Invert the normalised x.",
        predict=lambda w: values.susceptance(w) / w["line"],
    ),
)
PART = (
    Slip(
        key="sign of the reactance",
        doing="taking the sign of the reactance the wrong way round",
        question="Which sign has the reactance of a coil?",
        remedy="A coil has a reactance above zero, a capacitor one below zero.",
        predict=lambda w: CAPACITOR if values.is_part(w) == COIL else COIL,
        usual=3,
    ),
    Slip(
        key="named by the end",
        doing="calling a shorted stub a coil and an open one a capacitor, whatever its length",
        question="Did you look at the length as well?",
        remedy="Past a quarter wavelength a shorted stub is no coil any more, and an open one no capacitor.",
        predict=lambda w: _named_by_end(w) if _named_by_end(w) != values.is_part(w) else None,
    ),
)
BESIDE = (
    Slip(
        key="quarter missed",
        doing="taking a length below a quarter wavelength for one above it, or the other way round",
        question="Is that the length, or the reading where the walk ends?",
        remedy="The length is what is walked from the stub's end, less whole halves of a wavelength.",
        predict=lambda w: {"less": "more", "more": "less"}[values.beside_quarter(w)],
    ),
)


def _named_by_end(work: Work) -> str:
    return COIL if work["end"] == "short" else CAPACITOR


def _proportional(work: Work) -> float | None:
    length = values.whole_length(work) % 0.5
    right = values.longer(work)
    return made.unless_same(values.shown_after(work, 0) * (1 + TOO_LONG / length), right) if length else None


LONGER = (
    Slip(
        key="not walked on",
        doing="giving the reactance of the stub as it should be",
        question="Did you walk on?",
        remedy="Walk on by {more}, clockwise, and read again.",
        predict=lambda w: values.shown_after(w, 0),
    ),
    Slip(
        key="cut short",
        doing="walking back, as if the stub were cut too short",
        question="Is the stub too long, or too short?",
        remedy="A longer stub ends farther on, clockwise.",
        predict=lambda w: values.shown_after(w, -TOO_LONG),
    ),
    Slip(
        key="in proportion",
        doing="letting the reactance grow in proportion to the length",
        question=HOW_FAR,
        remedy="The reactance follows the arcs of x along the rim: it does not grow evenly.",
        predict=_proportional,
    ),
    Slip(
        key="double angle",
        doing="counting one turn of the chart as a quarter wavelength",
        question=HOW_FAR,
        remedy=made.ONE_TURN,
        predict=lambda w: values.shown_after(w, 2 * TOO_LONG),
    ),
    Slip(
        key="not denormalised",
        doing="leaving x as the chart shows it",
        question="Is that x, or X in ohms?",
        remedy="Multiply x by the stub's impedance, {line}.",
        predict=lambda w: values.longer(w) / w["line"],
    ),
    made.sign_lost(values.longer, "reactance"),
)
