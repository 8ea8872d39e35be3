"""What goes wrong on a walk along a line: each slip computes what a student who makes it would write."""

from __future__ import annotations

from collections.abc import Callable
from math import copysign

from core.line import wrap_half_wave
from lessons.course.denormalise_slips import denormalising
from lessons.course.metric_slips import metric_slips
from lessons.course.stub_values import known_impedance, load_reflection
from lessons.course.walk_detours import DETOURS, IN_FREE_SPACE, is_slowed_metric
from lessons.course.walk_values import (
    end_reading,
    impedance_at,
    impedance_there,
    in_ohms,
    in_wavelengths,
    start_reading,
    wavelength,
)
from lessons.grammar import slips as made
from lessons.grammar.kinds import inverse
from lessons.grammar.lesson import Slip, Work

WAVE = metric_slips(wavelength, "Give the whole wavelength: after it the wave repeats, sign and all.")


def _by_other_wave(power: float) -> Callable[[Work], float | None]:
    """The length by a wavelength that is off by a power of the velocity factor."""
    return lambda w: (
        in_wavelengths(w, wavelength(w) * w["velocity"] ** power) if is_slowed_metric(w) else None
    )


WAVES = (
    Slip(
        key="velocity ignored",
        doing="counting in wavelengths of free space",
        question="In which wavelengths did you count?",
        remedy=IN_FREE_SPACE,
        predict=_by_other_wave(-1),
        usual=3,
        ruled_out_by=("wave",),
    ),
    Slip(
        key="velocity inverted",
        doing="counting in wavelengths that were divided by the velocity factor",
        question="Is a wave on the line longer or shorter?",
        remedy="The wavelength on the line is the shorter one: multiply that of free space by the velocity factor.",
        predict=_by_other_wave(-2),
        ruled_out_by=("wave",),
    ),
    Slip(
        key="upside down",
        doing="dividing the wavelength by the length",
        question="Which one did you divide by which?",
        remedy="How many waves the line is long is the length divided by the wavelength.",
        predict=lambda w: 1 / in_wavelengths(w),
    ),
    Slip(
        key="in half waves",
        doing="counting in half wavelengths",
        question="Did you divide by the whole wavelength?",
        remedy="Divide by the whole wavelength, though the chart repeats after half of it.",
        predict=lambda w: 2 * in_wavelengths(w),
        usual=1,
    ),
)

START = (
    Slip(
        key="other scale",
        doing="reading the scale toward the {back}",
        question="On which of the two scales did you read?",
        remedy="The walk leads toward the {way}: read the scale that is named so.",
        predict=made.changed(start_reading, lambda v: wrap_half_wave(-v)),
        usual=3,
    ),
    Slip(
        key="admittance place",
        doing="reading beside the point where 1 / z stands on the impedance grid",
        question="Did you read beside z, or beside 1 / z?",
        remedy="The line from the centre must go through z itself.",
        predict=made.changed(start_reading, lambda v: wrap_half_wave(v + 0.25)),
    ),
    Slip(
        key="from the right end",
        doing="counting from the right end of the axis",
        question="At which end of the axis is the scale zero?",
        remedy="Both scales are zero at the left end, where z = 0.",
        predict=made.changed(start_reading, lambda v: wrap_half_wave(0.25 - v)),
        usual=1,
    ),
)


END = (
    *(one.slip(one.end) for one in DETOURS),
    made.other_quantity(
        "start reading",
        "giving the reading where the walk begins",
        "Is that where the walk begins, or where it ends?",
        "Add the length of the line to it.",
        lambda w: w["start"],
        end_reading,
    ),
)


def _on_the_rim(work: Work) -> complex:
    """What stands at the end's reading where the rim is, and not the circle."""
    return complex(0, impedance_at(work, work["end"], 1 - 1e-12).imag)


def misread(value: made.ValueOf) -> tuple[Slip, ...]:
    """What goes wrong in reading z at a point of the chart, wherever it stands."""

    def parts_exchanged(work: Work) -> complex | None:
        """r is never below zero, and x keeps its sign."""
        right = value(work)
        return made.unless_same(complex(abs(right.imag), copysign(right.real, right.imag)), right)

    return (
        made.sign_lost(value, "reactance"),
        made.parts_exchanged(parts_exchanged),
        Slip(
            key="in ohms",
            doing="giving ohms where z is asked",
            question="Is that z, or Z in ohms?",
            remedy="Read z as the chart shows it; ohms come after it.",
            predict=lambda w: value(w) * w["line"],
            usual=1,
        ),
    )


THERE = (
    *(one.slip(one.there, "end") for one in DETOURS),
    *misread(impedance_there),
    Slip(
        key="mirrored reading",
        doing="looking for the reading on the scale toward the {back}",
        question="On which scale did you look for the reading?",
        remedy="Draw the line to it on the scale toward the {way}.",
        predict=made.changed(impedance_there, lambda v: v.conjugate()),
    ),
    Slip(
        key="admittance read",
        doing="reading where 1 / z stands",
        question="Did you read at the end of the walk, or a quarter wavelength from it?",
        remedy="Read the point itself: z stands where the walk ends.",
        predict=lambda w: made.unless_same(inverse(impedance_there(w)), impedance_there(w)),
    ),
    Slip(
        key="not walked",
        doing="giving z of the {known}",
        question="Is that z of the {known}, or of the {asked}?",
        remedy="Read z where the walk ends.",
        predict=lambda w: made.unless_same(w["normalise"], impedance_there(w)),
        usual=1,
    ),
    Slip(
        key="on the rim",
        doing="reading on the rim",
        question="Did you read on the circle, or on the rim?",
        remedy="On the line to the reading, the point is where the mismatch circle is met.",
        predict=_on_the_rim,
        usual=1,
        spread=lambda w: 1 / max(abs(load_reflection(w)), 0.1),  # on the way to the rim a reading error grows
    ),
)


def _one_part(work: Work) -> tuple[complex, ...]:
    z, ohms = work["there"], in_ohms(work)
    return complex(z.real, ohms.imag), complex(ohms.real, z.imag)


TO_OHMS = (
    *denormalising(lambda w: w["there"]),
    Slip(
        key="one part multiplied",
        doing="multiplying one of the two parts only",
        question="Did you multiply both parts?",
        remedy="Multiply the resistance and the reactance alike.",
        predict=_one_part,
        usual=1,
    ),
    made.sign_lost(in_ohms, "reactance"),
)
"""What goes wrong on the way from z to ohms, wherever z came from."""

OHMS = (
    *TO_OHMS,
    made.other_quantity(
        "not walked",
        "giving the impedance of the {known}",
        "Is that the impedance of the {known}, or of the {asked}?",
        "The {asked} is asked: multiply z there by {line}.",
        known_impedance,
        in_ohms,
    ),
)
