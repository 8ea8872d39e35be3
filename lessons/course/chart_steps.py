"""The steps that a matching lesson begins with: onto the chart, its circle, and across to admittance."""

from __future__ import annotations

from core.chart import mismatch_circle
from core.line import swr
from lessons.course import ratio_slips
from lessons.course.chart_mistakes import (
    angle_times,
    decibels,
    made_of_ratio,
    one_part_divided,
    parts_exchanged,
    return_loss,
)
from lessons.course.stub_values import known_impedance, load_reflection, load_swr, normalised_load
from lessons.grammar import slips as made
from lessons.grammar.kinds import Immittance, Reflection, StandingWaveRatio, inverse
from lessons.grammar.lesson import Field, Slip, Step
from lessons.grammar.side import reflection_of
from lessons.grammar.strokes import Curve, DragRadius, PlacePoint, Point

HABITUAL = 50.0  # ohms; the usual impedance of coaxial cable for radio, common practice, no source


NORMALISE = Step(
    key="normalise",
    title="Normalise the impedance",
    ask="The chart is drawn for a line of 1. Divide {ohms} by the line impedance {line}.",
    goal="The chart knows no ohms: write the impedance as a multiple of the line's.",
    rule="z = Z / Z₀, the real and the imaginary part alike.",
    numbers=lambda w: w.say("z = ({ohms}) / {line}; divide both parts by ") + f"{w['line']:g}.",
    because="One chart now serves every line.",
    fields=(
        Field(
            quantity="normalise",
            label="Normalised {known} impedance z",
            names=(
                "z",
                "z{mark}",
                "z {known}",
                "{known} impedance",
                "normalised {known}",
                "normalised impedance",
            ),
            kind=lambda w: Immittance("impedance", w["line"], arithmetic=True),
            value=normalised_load,
            slips=(
                Slip(
                    key="not normalised",
                    doing="leaving the {known} in ohms",
                    question="Did you divide by the line impedance?",
                    remedy="Divide both parts by the line impedance, {line}.",
                    predict=known_impedance,
                ),
                Slip(
                    key="upside down",
                    doing="dividing the line impedance by the {known}",
                    question="Which one did you divide by which?",
                    remedy="The line impedance goes below: z = Z / Z₀.",
                    predict=lambda w: inverse(normalised_load(w)),
                ),
                made.sign_lost(normalised_load, "reactance"),
                Slip(
                    key="parts exchanged",
                    doing="exchanging the real and the imaginary part",
                    question="Which part is which?",
                    remedy="The resistance stays the real part, the reactance the imaginary one.",
                    predict=lambda w: made.unless_same(
                        complex(normalised_load(w).imag, normalised_load(w).real), normalised_load(w)
                    ),
                    usual=1,
                ),
                Slip(
                    key="50 ohm by habit",
                    doing="dividing by 50 Ω out of habit",
                    question="Which impedance did you divide by?",
                    remedy="This line is {line}: divide by that.",
                    predict=lambda w: known_impedance(w) / HABITUAL if w["line"] != HABITUAL else None,
                    usual=3,
                ),
                Slip(
                    key="one part divided",
                    doing="dividing one of the two parts only",
                    question="Did you divide both parts?",
                    remedy="Divide the resistance and the reactance alike.",
                    predict=one_part_divided,
                    usual=1,
                ),
            ),
        ),
    ),
)

PLACE = Step(
    key="place",
    title="Place it on the chart",
    ask="Put the {known}'s point where z stands on the impedance grid, or write its reflection as size and angle.",
    goal="Every impedance has one place on the chart: where its circle of r meets its arc of x.",
    rule="Follow the circle of constant r to the arc of constant x: above the axis if inductive, else below. "
    "In numbers, the reflection is (z − 1) / (z + 1).",
    numbers=lambda w: (
        f"Circle r = {w.notation.number(w['normalise'].real)}, arc x = {w.notation.number(w['normalise'].imag)}."
    ),
    because="The distance from the centre is |Γ|, the part of the wave that comes back.",
    fields=(
        Field(
            quantity="place",
            label="Reflection coefficient Γ",
            names=("Γ", "Γ{mark}", "gamma", "gamma {mark}", "rho", "reflection", "reflection coefficient"),
            kind=lambda w: Reflection(*(("0.45 ∠ −1.05 rad",) if w.notation.angle == "radians" else ())),
            value=load_reflection,
            slips=(
                made.sign_lost(load_reflection, "reactance"),
                Slip(
                    key="admittance place",
                    doing="placing the {known} where 1 / z stands on the impedance grid",
                    question="Does z stand there, or 1 / z?",
                    remedy="Read z itself, on the impedance grid.",
                    predict=lambda w: -load_reflection(w),
                ),
                Slip(
                    key="angle doubled",
                    doing="doubling the angle",
                    question="Did you read the angle as it stands?",
                    remedy="The angle of the reflection is read on the scale of angles as it stands.",
                    predict=angle_times(2),
                    usual=1,
                    spread=2.0,
                ),
                Slip(
                    key="angle halved",
                    doing="halving the angle",
                    question="Did you read the angle as it stands?",
                    remedy="The angle of the reflection is read on the scale of angles as it stands.",
                    predict=angle_times(0.5),
                    usual=1,
                ),
                Slip(
                    key="ruler",
                    doing="measuring r and x off with a ruler",
                    question="Did you follow the curves of the grid?",
                    remedy="r and x are read along the curved grid, not across and up.",
                    predict=lambda w: w["normalise"],
                ),
                made.parts_exchanged(parts_exchanged),
            ),
            strokes=lambda w: (
                Point(
                    w["place"],
                    "load",
                    "impedance",
                    w.say("z_{mark}"),
                    w.say("The {known} at ") + f"{w.notation.polar(w['place'])}.",
                    w.notation.rectangular(w["normalise"], 2),
                ),
            ),
            gesture=lambda w: PlacePoint("impedance"),
        ),
    ),
)

MISMATCH = Step(
    key="mismatch",
    title="Draw the constant-mismatch circle",
    ask="Draw the circle about the centre through the {known}'s point, and read its standing-wave ratio.",
    goal="A walk along a lossless line turns the reflection and does not shrink it: a circle about the centre.",
    rule="The circle is centred on the match point. Where it cuts the axis at the right, r is the standing-wave ratio.",
    numbers=lambda w: f"|Γ| = {w.notation.number(abs(w['place']))}, and the ratio is (1 + |Γ|) / (1 − |Γ|).",
    because="Everything this line can show is on that circle.",
    fields=(
        Field(
            quantity="mismatch",
            label="Standing-wave ratio",
            names=("SWR", "VSWR", "S", "standing-wave ratio", "|Γ|", "|Γ{mark}|", "|gamma|"),
            kind=lambda w: StandingWaveRatio(),
            value=load_swr,
            routes=(lambda w: float(swr(reflection_of(w["normalise"]))),),
            slips=(
                ratio_slips.left_side(load_swr, spread=made_of_ratio(lambda ratio: 1 / ratio)),
                ratio_slips.size_given(lambda w: abs(w["place"])),
                Slip(
                    key="constant r",
                    doing="following the circle of constant r in place of the mismatch circle",
                    question="About which point is your circle drawn?",
                    remedy="The mismatch circle has its centre at the match point.",
                    predict=lambda w: w["normalise"].real,
                ),
                Slip(
                    key="size of impedance",
                    doing="taking the size of z for the ratio",
                    question="Did you draw the circle at all?",
                    remedy="Draw the circle through the {known}'s point and read it on the axis.",
                    predict=lambda w: abs(w["normalise"]),
                ),
                Slip(
                    key="less one",
                    doing="giving the ratio less one",
                    question="Is a matched load's ratio 0, or 1?",
                    remedy="A matched load has a ratio of 1: read r itself, nothing taken off.",
                    predict=lambda w: load_swr(w) - 1,
                    usual=1,
                    spread=made_of_ratio(lambda ratio: ratio - 1),
                ),
                ratio_slips.not_divided(lambda w: abs(w["place"])),
                Slip(
                    key="decibels",
                    doing="giving the ratio in decibels",
                    question="Is that a ratio or decibels?",
                    remedy="Give the plain ratio.",
                    predict=lambda w: decibels(load_swr(w)),
                    spread=made_of_ratio(decibels),
                ),
                Slip(
                    key="return loss",
                    doing="giving the return loss in decibels",
                    question="Is that the return loss or the standing-wave ratio?",
                    remedy="Give the ratio (1 + |Γ|) / (1 − |Γ|), without decibels.",
                    predict=lambda w: return_loss(load_swr(w)),
                    usual=1,
                    spread=made_of_ratio(return_loss),
                ),
            ),
            strokes=lambda w: (
                Curve(
                    mismatch_circle(
                        1 - 2 / (w["mismatch"] + 1)
                    ),  # so written, an infinite ratio has its circle, the rim
                    "mismatch",
                    "impedance",
                    "SWR",
                    f"The constant-mismatch circle, standing-wave ratio {w.write('mismatch')}.",
                    w.write("mismatch"),
                ),
            ),
            gesture=lambda w: DragRadius(),
        ),
    ),
)
