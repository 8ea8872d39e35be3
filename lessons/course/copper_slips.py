"""What goes wrong on a board: the impedance and the permittivity taken, the formula, the root, the unit."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from typing import Any

from lessons.course.copper_values import (
    PIECES,
    board,
    effective,
    free_wave,
    metric,
    ratio,
    ratio_on,
    wave,
    waves,
    width,
)
from lessons.course.metric_slips import powers_of_ten
from lessons.grammar import slips as made
from lessons.grammar.lesson import Slip, Text, Work

ValueOf = Callable[[Work], float]
Wrong = Callable[[Work], float | None]
HABIT = 50.0  # ohms
WHICH = "Which permittivity does the wave meet?"
EFFECTIVE = "The wave runs partly in air: take ε_eff."
ROOT = "What did you do with ε_eff?"


def told(
    value: ValueOf, key: str, doing: Text, question: Text, remedy: Text, wrong: Wrong, **more: Any
) -> Slip:
    """A mistake of a value by what is written then; None where it cannot be made."""

    def predict(work: Work) -> float | None:
        found = wrong(work)
        return None if found is None else made.unless_same(found, value(work))

    return Slip(key, doing, question, remedy, predict, **more)


def _narrower(work: Work) -> float | None:
    line = work["line"]
    return None if line == HABIT else ratio_on(board(work.problem), HABIT)


RATIO = (
    told(
        ratio,
        "upside down",
        "dividing the height by the width",
        "Which one is on top?",
        "w/h is the width in heights: the width goes on top.",
        lambda w: 1 / ratio(w),
    ),
    told(
        ratio,
        "permittivity left out",
        "reckoning as if there were no board",
        "Where does ε_r come in?",
        "The board makes the strip narrower: put ε_r = {permittivity} into the formula.",
        lambda w: ratio_on(board(w.problem, 1.0), w["line"]),
    ),
    told(
        ratio,
        "50 ohm by habit",
        "giving the width for 50 ohm",
        "For which impedance is that?",
        "The line here is one of {line}.",
        _narrower,
    ),
    told(
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
    told(
        width,
        "ratio again",
        "giving w/h itself",
        "Is that in millimetres?",
        "w/h counts in heights: multiply by {height} mm.",
        lambda w: w["strip.ratio"],
        usual=1,
    ),
    told(
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
    told(
        effective,
        "relative permittivity",
        "giving the board's own permittivity",
        WHICH,
        EFFECTIVE,
        lambda w: w["permittivity"],
        usual=3,
    ),
    told(
        effective,
        "half in air",
        "taking the middle between board and air",
        "Where is the second part of the sum?",
        f"More of the field is in the board than above it: {BETWEEN}",
        lambda w: _part(w, lambda u: 0.0),
    ),
    told(
        effective,
        "upside down",
        "putting w/h where h/w stands",
        "Is that w/h or h/w under the root?",
        "Under the root stands 12 times the height over the width.",
        lambda w: _part(w, lambda u: 1 / sqrt(1 + 12 * u)),
    ),
    told(
        effective,
        "root forgotten",
        "forgetting the root in the formula",
        "Did you take the root?",
        "The second part is divided by the root of 1 + 12 h/w.",
        lambda w: _part(w, lambda u: 1 / (1 + 12 / u)),
    ),
    told(
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
        told(
            value,
            "free space",
            "using the wavelength of free space",
            "Is a wave on the strip as long as in free space?",
            "On the strip waves are slower and shorter: divide by the root of ε_eff.",
            divided(0),
            usual=3,
            ruled_out_by=against,
        ),
        told(
            value,
            "relative permittivity",
            "using the board's own permittivity",
            WHICH,
            EFFECTIVE,
            lambda w: length(w) * free_wave(w.problem) / sqrt(w["permittivity"]),
            usual=3,
            ruled_out_by=against,
        ),
        told(
            value,
            "root forgotten",
            "dividing by ε_eff without its root",
            ROOT,
            "A wave is slower by the root of ε_eff.",
            divided(1),
            ruled_out_by=against,
        ),
        told(
            value,
            "multiplied",
            "multiplying by the root of ε_eff",
            ROOT,
            "A wave on the strip is shorter than in free space: divide by the root.",
            divided(-0.5),
            ruled_out_by=against,
        ),
        powers_of_ten(value, against),
        told(
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
        told(
            lambda w: metric(w, piece),
            "lengths exchanged",
            "exchanging the distance and the stub's length",
            "Is this the distance, or the stub's length?",
            _EXCHANGED[piece],
            lambda w: metric(w, other),
            usual=1,
        ),
    )
