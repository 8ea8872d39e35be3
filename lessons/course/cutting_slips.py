"""What goes wrong at the cutter: the end that is corrected and the sense of it, rounding, and what is built in mind."""

from __future__ import annotations

from lessons.course.copper_slips import ValueOf, Wrong, told
from lessons.course.copper_values import (
    as_cut,
    before_rounding,
    copper,
    cost,
    cut,
    end_effect,
    next_cut,
    open_end,
    ratio_with,
    rounded,
    step_mm,
    waves,
)
from lessons.grammar.lesson import Slip, Work

TAKEN_OFF = "The end acts longer by so much: make the copper shorter by that, once."


def _if_open(wrong: ValueOf) -> Wrong:
    return lambda w: wrong(w) if w["end"] == "open" else None


SHORTED = "correcting a shorted end"
SHORTED_REMEDY = "A short ends where it is: nothing bulges out past it, and there is nothing to correct."
END = (
    told(
        end_effect,
        "shorted end corrected",
        SHORTED,
        "How does this stub end?",
        SHORTED_REMEDY,
        lambda w: None if w["end"] == "open" else open_end(w),
        usual=3,
    ),
    told(
        end_effect,
        "not corrected",
        "leaving the open end without its correction",
        "How does this stub end?",
        "Past an open end the field bulges out: it acts longer than it is.",
        _if_open(lambda w: 0.0),
    ),
    told(
        end_effect,
        "in heights",
        "giving it in heights of the board",
        "Is that in millimetres?",
        "The formula counts in heights: multiply by {height} mm.",
        _if_open(lambda w: open_end(w) / w["height"]),
        usual=1,
    ),
    told(
        end_effect,
        "times the width",
        "multiplying by the width",
        "What did you multiply by?",
        "The formula counts in heights of the board, not in widths of the strip.",
        _if_open(lambda w: open_end(w) * w["strip.ratio"]),
        usual=1,
    ),
    told(
        end_effect,
        "for both ends",
        "counting the correction twice",
        "How many ends are open?",
        "Only one end of the stub is open; the other one is at the junction.",
        _if_open(lambda w: 2 * open_end(w)),
    ),
)


def _less(work: Work, times: float) -> float:
    return float(work["metric.length"] - times * work["end_effect"])


COPPER = (
    told(
        copper,
        "added",
        "adding the correction",
        "Is the copper to be longer, or shorter?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, -1)),
        usual=3,
    ),
    told(
        copper,
        "not taken off",
        "leaving the length as it was",
        "Did you take the correction off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 0)),
    ),
    told(
        copper,
        "taken off twice",
        "taking the correction off twice",
        "How often did you take it off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 2)),
        usual=1,
    ),
    told(
        copper,
        "half taken off",
        "taking half of the correction off",
        "How much did you take off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 1 / 2)),
        usual=1,
    ),
    told(
        copper,
        "shorted end corrected",
        SHORTED,
        "How does this stub end?",
        SHORTED_REMEDY,
        lambda w: None if w["end"] == "open" else w["metric.length"] - open_end(w),
        usual=3,
        ruled_out_by=("end_effect",),
    ),
)


def cut_slips_of(piece: str) -> tuple[Slip, ...]:
    """Slips of a piece's length as it is cut."""

    def value(work: Work) -> float:
        return cut(work, piece)

    def uncorrected(work: Work) -> float | None:
        return rounded(work["metric.length"], step_mm(work)) if piece == "length" else None

    before = told(
        value,
        "before the correction",
        "rounding the length before its end was corrected",
        "Which length did you round?",
        "Round the copper's length, with the end's correction taken off.",
        uncorrected,
        usual=1,
    )
    return (
        told(
            value,
            "wrong way",
            "rounding the wrong way",
            "Is that the nearest step?",
            "Take the step that is nearest, up or down.",
            lambda w: next_cut(w, piece),
            usual=1,
        ),
        told(
            value,
            "not rounded",
            "giving the length before it is rounded",
            "Can the cutter do that?",
            "The cutter does whole steps of {cut_step}.",
            lambda w: before_rounding(w, piece),
            usual=1,
        ),
        told(
            value,
            "whole millimetres",
            "rounding to whole millimetres",
            "How fine is the cutter?",
            "The cutter does steps of {cut_step}: there is no need to give that away.",
            lambda w: rounded(before_rounding(w, piece), 1.0),
            usual=1,
        ),
        *((before,) if piece == "length" else ()),
    )


def _cost_with(distance: ValueOf, length: ValueOf) -> ValueOf:
    return lambda w: ratio_with(w.problem, distance(w), length(w))


def _wanted(piece: str) -> ValueOf:
    return lambda w: waves(w.problem, piece)


def _made(piece: str) -> ValueOf:
    return lambda w: as_cut(w, piece)


COST = (
    told(
        cost,
        "match taken for granted",
        "writing down the match that was designed",
        "Did you reckon with the lengths as cut?",
        "Go back from the lengths as cut to wavelengths: they are not quite those of the design.",
        lambda w: 1.0,
        usual=1,
    ),
    told(
        cost,
        "stub as designed",
        "rounding the distance alone",
        "Are both lengths as cut?",
        "The stub is cut, too: take both lengths as they are.",
        _cost_with(_made("distance"), _wanted("length")),
        usual=1,
    ),
    told(
        cost,
        "distance as designed",
        "rounding the stub alone",
        "Are both lengths as cut?",
        "The line up to the stub is cut, too: take both lengths as they are.",
        _cost_with(_wanted("distance"), _made("length")),
        usual=1,
    ),
    told(
        cost,
        "end left out",
        "taking the copper's length for the stub's",
        "How long does the stub act?",
        "An open end acts longer than its copper: add the correction again before you reckon.",
        _if_open(_cost_with(_made("distance"), lambda w: max(0.0, w["cut.length"]) / w["wave"])),
        usual=1,
    ),
    told(
        cost,
        "size of reflection",
        "giving the size of the reflection",
        "Is that the SWR, or |Γ|?",
        "The SWR is (1 + |Γ|) / (1 − |Γ|).",
        lambda w: (cost(w) - 1) / (cost(w) + 1),
    ),
)
