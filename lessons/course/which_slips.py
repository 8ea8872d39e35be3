"""What goes wrong with the lengths of what is off, and with what line and stub then show."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from core.stubs import stub_susceptance
from lessons.course import which_values as values
from lessons.course.copper_slips import told
from lessons.course.single_stub import EXCHANGED
from lessons.course.stub_ends import OPPOSITE_END
from lessons.course.which_values import PIECES, acting, designed, factor
from lessons.grammar import slips as made
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import inverse
from lessons.grammar.lesson import Slip, Text, Work

Wrong = Callable[[Work], Any]
WHICH = "Is that as designed, or as it acts now?"
ONCE = "Take {by} of the piece, once: multiply by {factor}."


def _shares(work: Work) -> float:
    return factor(work.problem) - 1


def _if_any(length: float) -> float | None:
    """A length, where it is one."""
    return length if length > 0 else None


def length_slips(piece: str) -> Callable[[Branch], tuple[Slip, ...]]:
    """Slips of the length that a piece of the design acts by."""

    def slips(branch: Branch) -> tuple[Slip, ...]:
        def value(work: Work) -> float:
            return acting(work.problem, branch, piece)

        def waves(work: Work) -> float:
            return designed(work.problem, branch, piece)

        def slip(key: str, doing: Text, question: Text, remedy: Text, wrong: Wrong, **more: Any) -> Slip:
            return told(value, key, doing, question, remedy, wrong, **more)

        other = PIECES[1 - PIECES.index(piece)]
        return (
            slip(
                "as designed",
                "giving the length of the design",
                WHICH,
                "{why}: multiply by {factor}.",
                waves,
                usual=3,
                of_method=True,
            ),
            Slip(
                "other way",
                "changing the length the other way",
                "Is the piece more of a wave now, or less?",
                "{why}: multiply by {factor}.",
                lambda w: (waves(w) / factor(w.problem), waves(w) * (1 - _shares(w))),
                usual=3,
                of_method=True,
            ),
            slip(
                "twice",
                "applying the percentage twice",
                "How often did you apply the percentage?",
                ONCE,
                lambda w: value(w) * factor(w.problem),
                usual=1,
                of_method=True,
            ),
            slip(
                "tenfold",
                "taking ten times the percentage",
                "How much is {by} of something?",
                ONCE,
                lambda w: _if_any(waves(w) * (1 + 10 * _shares(w))),
                usual=1,
                of_method=True,
            ),
            slip(
                "change alone",
                "giving the change alone",
                "Is that the whole length?",
                "Give the length with its change: multiply by {factor}.",
                lambda w: waves(w) * abs(_shares(w)),
                usual=1,
                of_method=True,
            ),
            slip(
                "of a wave",
                "adding {by} of a whole wave",
                "Of what did you take {by}?",
                ONCE,
                lambda w: _if_any(waves(w) + _shares(w)),
                of_method=True,
            ),
            slip("lengths exchanged", *EXCHANGED, lambda w: acting(w.problem, branch, other), usual=1),
        )

    return slips


def _with(slip: Slip, predict: Wrong, **changes: Any) -> Slip:
    """A usual slip of a length or of its end, in what follows from it."""
    return replace(slip, predict=predict, **changes)


def arriving_slips(branch: Branch) -> tuple[Slip, ...]:
    """Slips of what the line shows at the junction."""

    def value(work: Work) -> complex:
        return values.arriving(work, branch)

    def after(length: Callable[[Work], float]) -> Wrong:
        return lambda w: made.unless_same(values.walked(w, length(w)), value(w))

    def own(work: Work) -> float:
        return float(work.of("distance_off", branch))

    def unused(work: Work) -> float:
        return 0.0

    return (
        Slip(
            "as designed",
            "walking the length of the design",
            WHICH,
            "Walk as far as the line acts now, not as far as it was designed.",
            after(lambda w: designed(w.problem, branch, "distance")),
            usual=3,
        ),
        _with(made.wrong_way(unused), after(lambda w: -own(w))),
        _with(made.double_angle(unused), after(lambda w: own(w) / 2), spread=1.0),
        _with(made.half_angle(unused), after(lambda w: 2 * own(w))),
        Slip(
            "not walked",
            "giving {y} of the load",
            "Did you walk at all?",
            "Between the load and the junction there is line: walk along it first.",
            after(lambda w: 0.0),
        ),
        Slip(
            "one over it",
            "giving one over what is asked",
            "Is that {y}, or one over it?",
            "What stands {where} the line adds as {immittance}: give {y}.",
            lambda w: made.unless_same(inverse(value(w)), value(w)),
        ),
        _with(
            made.sign_lost(value, "susceptance"),
            lambda w: made.unless_same(value(w).conjugate(), value(w)),
            key="sign lost",
            doing="losing the sign of the {part}",
            question="Did you keep the sign of the {part}?",
            remedy=lambda w: made.BELOW_IF_DOTTED(w) if w["method"] == "shunt" else made.ABOVE,  # type: ignore[operator]
        ),
    )


def shows_slips(branch: Branch) -> tuple[Slip, ...]:
    """Slips of what the stub adds."""

    def value(work: Work) -> float:
        return values.shows(work, branch)

    def of(length: Callable[[Work], float]) -> Wrong:
        return lambda w: made.unless_same(values.stub_of(w, length(w)), value(w))

    def own(work: Work) -> float:
        return float(work.of("length_off", branch))

    def at_other_end(work: Work) -> float:
        return float(stub_susceptance(own(work), values.side(work).placement, OPPOSITE_END[work["end"]]))

    return (
        Slip(
            "as designed",
            "taking the stub as designed",
            WHICH,
            "Take the stub as long as it acts now.",
            of(lambda w: designed(w.problem, branch, "length")),
            usual=3,
        ),
        Slip(
            "sign lost",
            "losing the sign of the {part}",
            "Did you keep the sign of the {part}?",
            "{b} of this stub is {shown_by} of its length, with the sign that it has.",
            lambda w: -value(w),
            usual=3,
        ),
        _with(
            made.wrong_end(value),
            at_other_end,
            doing="reckoning with the other kind of end",
            remedy="This stub's end is {end}: {b} is {shown_by} of its length.",
        ),
        _with(made.half_angle(value), of(lambda w: 2 * own(w))),
        _with(made.double_angle(value), of(lambda w: own(w) / 2), spread=1.0),
        told(value, "lengths exchanged", *EXCHANGED, of(lambda w: w.of("distance_off", branch)), usual=1),
    )
