"""What goes wrong between wavelengths and copper: the permittivity taken, its root, and the end that is corrected."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from typing import Any

from lessons.course.copper_values import (
    PIECES,
    as_cut,
    before_rounding,
    board,
    copper,
    cost,
    cut,
    effective,
    end_effect,
    free_wave,
    metric,
    next_cut,
    open_end,
    ratio,
    ratio_on,
    ratio_with,
    rounded,
    step_mm,
    wave,
    waves,
    width,
)
from lessons.course.metric_slips import powers_of_ten
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Work

ValueOf = Callable[[Work], float]
Wrong = Callable[[Work], float | None]
HABIT = 50.0  # ohms
WHICH = "Which permittivity does the wave meet?"
EFFECTIVE = "The wave runs partly in air: take ε_eff."
ROOT = "What did you do with ε_eff?"
TAKEN_OFF = "The end acts longer by so much: make the copper shorter by that, once."


def _told(
    value: ValueOf, key: str, doing: str, question: str, remedy: str, wrong: Wrong, **more: Any
) -> Slip:
    """A mistake by what is written then; None where it cannot be made."""

    def predict(work: Work) -> float | None:
        found = wrong(work)
        return None if found is None else made.unless_same(found, value(work))

    return Slip(key, doing, question, remedy, predict, **more)


def _narrower(work: Work) -> float | None:
    line = work["line"]
    return None if line == HABIT else ratio_on(board(work.problem), HABIT)


RATIO = (
    _told(
        ratio,
        "upside down",
        "dividing the height by the width",
        "Which one is on top?",
        "w/h is the width in heights: the width goes on top.",
        lambda w: 1 / ratio(w),
    ),
    _told(
        ratio,
        "permittivity left out",
        "reckoning as if there were no board",
        "Where does ε_r come in?",
        "The board makes the strip narrower: put ε_r = {permittivity} into the formula.",
        lambda w: ratio_on(board(w.problem, 1.0), w["line"]),
    ),
    _told(
        ratio,
        "50 ohm by habit",
        "giving the width for 50 ohm",
        "For which impedance is that?",
        "The line here is one of {line}.",
        _narrower,
    ),
    _told(
        ratio,
        "in millimetres",
        "giving the width in millimetres",
        "Is that in heights of the board?",
        "w/h has no unit: the millimetres come after it.",
        lambda w: ratio(w) * w["height"],
        usual=1,
    ),
)
WIDTH = (
    _told(
        width,
        "ratio again",
        "giving w/h itself",
        "Is that in millimetres?",
        "w/h counts in heights: multiply by {height} mm.",
        lambda w: w["strip.ratio"],
        usual=1,
    ),
    _told(
        width,
        "divided by the height",
        "dividing by the height",
        "Did you multiply by the height, or divide?",
        "The width is w/h times the height.",
        lambda w: w["strip.ratio"] / w["height"],
        usual=1,
    ),
    powers_of_ten(width),
)


def _part(work: Work, shape: Callable[[float], float]) -> float:
    """The effective permittivity with another share of the board in it, from w/h."""
    above, below = (work["permittivity"] + 1) / 2, (work["permittivity"] - 1) / 2
    return float(above + below * shape(work["strip.ratio"]))


BETWEEN = "ε_eff lies above the middle between 1 and ε_r, and below ε_r."
EFFECTIVE_SLIPS = (
    _told(
        effective,
        "relative permittivity",
        "giving the board's own permittivity",
        WHICH,
        EFFECTIVE,
        lambda w: w["permittivity"],
        usual=3,
    ),
    _told(
        effective,
        "half in air",
        "taking the middle between board and air",
        "Where is the second part of the sum?",
        f"More of the field is in the board than above it: {BETWEEN}",
        lambda w: _part(w, lambda u: 0.0),
    ),
    _told(
        effective,
        "upside down",
        "putting w/h where h/w stands",
        "Is that w/h or h/w under the root?",
        "Under the root stands 12 times the height over the width.",
        lambda w: _part(w, lambda u: 1 / sqrt(1 + 12 * u)),
    ),
    _told(
        effective,
        "root forgotten",
        "forgetting the root in the formula",
        "Did you take the root?",
        "The second part is divided by the root of 1 + 12 h/w.",
        lambda w: _part(w, lambda u: 1 / (1 + 12 / u)),
    ),
    _told(
        effective,
        "root taken",
        "giving the root of ε_eff",
        "Is that ε_eff, or its root?",
        "Give ε_eff itself; its root is for the wavelength.",
        lambda w: sqrt(effective(w)),
    ),
)


def _wave_slips(
    value: ValueOf, length: Callable[[Work], float], against: tuple[str, ...]
) -> tuple[Slip, ...]:
    """Slips of a length on the strip. length : the same in wavelengths, 1 for the wave itself."""

    def divided(power: float) -> Wrong:
        return lambda w: length(w) * free_wave(w.problem) / w["effective"] ** power

    return (
        _told(
            value,
            "free space",
            "using the wavelength of free space",
            "Is a wave on the strip as long as in free space?",
            "On the strip waves are slower and shorter: divide by the root of ε_eff.",
            divided(0),
            usual=3,
            ruled_out_by=against,
        ),
        _told(
            value,
            "relative permittivity",
            "using the board's own permittivity",
            WHICH,
            EFFECTIVE,
            lambda w: length(w) * free_wave(w.problem) / sqrt(w["permittivity"]),
            usual=3,
            ruled_out_by=against,
        ),
        _told(
            value,
            "root forgotten",
            "dividing by ε_eff without its root",
            ROOT,
            "A wave is slower by the root of ε_eff.",
            divided(1),
            ruled_out_by=against,
        ),
        _told(
            value,
            "multiplied",
            "multiplying by the root of ε_eff",
            ROOT,
            "A wave on the strip is shorter than in free space: divide by the root.",
            divided(-0.5),
            ruled_out_by=against,
        ),
        powers_of_ten(value, against),
        _told(
            value,
            "halved",
            "taking half of the wavelength for the whole",
            "Is that a half of it?",
            "Lengths are counted in whole waves: take all of it.",
            lambda w: value(w) / 2,
            usual=1,
            ruled_out_by=against,
        ),
    )


WAVE = _wave_slips(wave, lambda w: 1.0, ())
_EXCHANGED = {
    "distance": "The distance is the line between load and stub.",
    "length": "The stub hangs on the end of the distance.",
}


def metric_slips_of(piece: str) -> tuple[Slip, ...]:
    """Slips of a piece's length in millimetres."""
    other = PIECES[1 - PIECES.index(piece)]
    return (
        *_wave_slips(lambda w: metric(w, piece), lambda w: waves(w.problem, piece), ("wave",)),
        _told(
            lambda w: metric(w, piece),
            "lengths exchanged",
            "exchanging the distance and the stub's length",
            "Is this the distance, or the stub's length?",
            _EXCHANGED[piece],
            lambda w: metric(w, other),
            usual=1,
        ),
    )


def _if_open(wrong: ValueOf) -> Wrong:
    return lambda w: wrong(w) if w["end"] == "open" else None


SHORTED = "correcting a shorted end"
SHORTED_REMEDY = "A short ends where it is: nothing bulges out past it, and there is nothing to correct."
END = (
    _told(
        end_effect,
        "shorted end corrected",
        SHORTED,
        "How does this stub end?",
        SHORTED_REMEDY,
        lambda w: None if w["end"] == "open" else open_end(w),
        usual=3,
    ),
    _told(
        end_effect,
        "not corrected",
        "leaving the open end without its correction",
        "How does this stub end?",
        "Past an open end the field bulges out: it acts longer than it is.",
        _if_open(lambda w: 0.0),
    ),
    _told(
        end_effect,
        "in heights",
        "giving it in heights of the board",
        "Is that in millimetres?",
        "The formula counts in heights: multiply by {height} mm.",
        _if_open(lambda w: open_end(w) / w["height"]),
        usual=1,
    ),
    _told(
        end_effect,
        "times the width",
        "multiplying by the width",
        "What did you multiply by?",
        "The formula counts in heights of the board, not in widths of the strip.",
        _if_open(lambda w: open_end(w) * w["strip.ratio"]),
        usual=1,
    ),
    _told(
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
    _told(
        copper,
        "added",
        "adding the correction",
        "Is the copper to be longer, or shorter?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, -1)),
        usual=3,
    ),
    _told(
        copper,
        "not taken off",
        "leaving the length as it was",
        "Did you take the correction off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 0)),
    ),
    _told(
        copper,
        "taken off twice",
        "taking the correction off twice",
        "How often did you take it off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 2)),
        usual=1,
    ),
    _told(
        copper,
        "half taken off",
        "taking half of the correction off",
        "How much did you take off?",
        TAKEN_OFF,
        _if_open(lambda w: _less(w, 1 / 2)),
        usual=1,
    ),
    _told(
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

    before = _told(
        value,
        "before the correction",
        "rounding the length before its end was corrected",
        "Which length did you round?",
        "Round the copper's length, with the end's correction taken off.",
        uncorrected,
        usual=1,
    )
    return (
        _told(
            value,
            "wrong way",
            "rounding the wrong way",
            "Is that the nearest step?",
            "Take the step that is nearest, up or down.",
            lambda w: next_cut(w, piece),
            usual=1,
        ),
        _told(
            value,
            "not rounded",
            "giving the length before it is rounded",
            "Can the cutter do that?",
            "The cutter does whole steps of {cut_step}.",
            lambda w: before_rounding(w, piece),
            usual=1,
        ),
        _told(
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
    _told(
        cost,
        "match taken for granted",
        "writing down the match that was designed",
        "Did you reckon with the lengths as cut?",
        "Go back from the lengths as cut to wavelengths: they are not quite those of the design.",
        lambda w: 1.0,
        usual=1,
    ),
    _told(
        cost,
        "stub as designed",
        "rounding the distance alone",
        "Are both lengths as cut?",
        "The stub is cut, too: take both lengths as they are.",
        _cost_with(_made("distance"), _wanted("length")),
        usual=1,
    ),
    _told(
        cost,
        "distance as designed",
        "rounding the stub alone",
        "Are both lengths as cut?",
        "The line up to the stub is cut, too: take both lengths as they are.",
        _cost_with(_wanted("distance"), _made("length")),
        usual=1,
    ),
    _told(
        cost,
        "end left out",
        "taking the copper's length for the stub's",
        "How long does the stub act?",
        "An open end acts longer than its copper: add the correction again before you reckon.",
        _if_open(_cost_with(_made("distance"), lambda w: max(0.0, w["cut.length"]) / w["wave"])),
        usual=1,
    ),
    _told(
        cost,
        "size of reflection",
        "giving the size of the reflection",
        "Is that the SWR, or |Γ|?",
        "The SWR is (1 + |Γ|) / (1 − |Γ|).",
        lambda w: (cost(w) - 1) / (cost(w) + 1),
    ),
)
