"""The steps of a lossy line: the spiral in, what the input shows of the mismatch, and what becomes of the power."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import log

from core.chart import mismatch_circle
from core.spiral import spiral
from lessons.course import lossy_slips as slips
from lessons.course.chart_steps import MISMATCH
from lessons.course.lossy_values import (
    decibels_lost,
    decibels_off,
    drawn_load_size,
    input_ratio,
    input_size,
    kept,
    load_size,
    share,
    share_by_ratios,
    share_off,
)
from lessons.course.walk_steps import END
from lessons.course.walk_values import end_point, point_at, shown_readings, start_point
from lessons.grammar.kinds import Number, ReflectionSize, StandingWaveRatio
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.strokes import Curve, DragRadius, Point, Ray, Stroke, Way

MOST_TURNS = 1.5  # wavelengths of line that a spiral is drawn of, before whole half waves are left out

AT_LOAD = replace(
    MISMATCH,
    title="Read the standing-wave ratio at the load",
    ask="Draw the circle about the centre through the {known}'s point. Which standing-wave ratio has the load?",
    because="Without loss the whole line would be on this circle; with loss it leaves it inward.",
)


def _end_strokes(work: Work) -> Iterable[Stroke]:
    spoken = work.say("The reading beside the end of the walk, on the same scale.")
    yield Ray(end_point(work), "construction", "impedance", "", spoken, shown_readings(work)[1])


TURN = replace(
    END,
    title="Turn by the length of the line",
    ask="The line is {along} long. Turn by that toward the {way}: what does the same scale read then?",
    goal="Loss does not change how far the point turns: the angle goes with the length, as on any line.",
    because="The angle is found; how near to the centre the point has come is the next question.",
    fields=(replace(END.fields[0], strokes=_end_strokes),),
)


def _spiral(work: Work) -> Iterable[Stroke]:
    """The spiral in pieces, whole half waves of a long line left out, and the point where it ends."""
    size, length = work["size"], work["waves"]
    short = length <= MOST_TURNS
    drawn = (work["end"] - work["start"]) % 0.5 + (length // 0.5 * 0.5 if short else MOST_TURNS - 0.5)
    first = work.say("The spiral from the {known} inward, toward the {way}, to |Γ| = ") + work.write("size")
    spoken = f"{first}." if short else f"{first}; whole half waves of it are left out."
    start = start_point(work)
    if 0 < size < abs(start) and drawn > 0:
        nepers = log(abs(start) / size) / 2  # there and back
        for arc in spiral(start, drawn, nepers / drawn):
            yield Way(arc, "first", "impedance", "", spoken)
            spoken = "The spiral goes on inward."
    at_end = point_at(work, work["end"], min(size, 1.0))
    yield Point(
        at_end, "first", "impedance", "z_in", work.say("The input, at |Γ| = ") + f"{work.write('size')}."
    )


INWARD = Step(
    key="inward",
    title="Spiral in by the loss",
    ask="A wave loses {loss} on its way along this line. How large is |Γ| at the input, and which standing-wave ratio "
    "is that?",
    goal="What comes back at the input has run along the line twice and lost twice: |Γ| is smaller than at the load.",
    rule="|Γ| shrinks by twice the line's decibels. In decibels: the return loss at the input is that at the load and "
    "twice the loss of the line. As a factor it is 10 to the power of −loss / 10.",
    numbers=lambda w: w.say(
        f"At the {{known}} |Γ| is {w.notation.number(load_size(w))}, and 10 to the power of −{w['loss']:g} / 10 is "
        f"{w.notation.number(kept(w['loss']))}."
    ),
    because="Loss makes a bad load look better from the far end: a low standing-wave ratio there proves nothing.",
    fields=(
        Field(
            quantity="size",
            label="|Γ| at the input",
            names=("|Γ in|", "|Γin|", "|gamma in|", "input reflection", "|Γ| at the input"),
            kind=lambda w: ReflectionSize(example="0.31", least=0.0),
            value=input_size,
            routes=(lambda w: drawn_load_size(w) * kept(w["loss"]),),
            slips=slips.SIZE,
            strokes=_spiral,
        ),
        Field(
            quantity="ratio",
            label="Standing-wave ratio at the input",
            names=("SWR in", "VSWR in", "SWR at the input", "input SWR", "standing-wave ratio at the input"),
            kind=lambda w: StandingWaveRatio("1.9"),
            value=input_ratio,
            slips=slips.RATIO,
            strokes=lambda w: (
                Curve(
                    mismatch_circle(1 - 2 / (max(w["ratio"], 1.0) + 1)),
                    "second",
                    "impedance",
                    "SWR_in",
                    f"The circle of the input, standing-wave ratio {w.write('ratio')}.",
                    w.write("ratio"),
                ),
            ),
            gesture=lambda w: DragRadius(),
        ),
    ),
)

ARRIVES = Step(
    key="arrives",
    title="Find what arrives at the load",
    ask="Of the power that goes into the line, how much does the {known} take, in percent?",
    goal="Power that goes in is what arrives there less what comes back there; the same holds at the load.",
    rule="At the load 1 − |Γ|² of the arriving wave's power goes in, with |Γ| of the load; at the input 1 − |Γ|², with "
    "|Γ| there. The wave's own power has shrunk on its way by 10 to the power of −loss / 10. Multiply by that, and "
    "divide what goes in at the load by what goes in at the input.",
    numbers=lambda w: (
        f"{w.notation.number(kept(w['loss']))} times (1 − {w.notation.number(load_size(w))}²) divided by "
        f"(1 − {w.notation.number(w['size'])}²)."
    ),
    because="The rest warms the line: the wave that came back was paid for twice.",
    fields=(
        Field(
            quantity="share",
            label="Power that arrives",
            names=("efficiency", "power that arrives", "power delivered", "share delivered"),
            kind=lambda w: Number(
                "%", "71", 1, share_off(w), 0.0, impossible="A share of the power is never below zero."
            ),
            value=share,
            routes=(share_by_ratios,),
            slips=slips.SHARE,
        ),
    ),
)

ADDED = Step(
    key="added",
    title="What the mismatch adds",
    ask="How many decibels is that, and how many of them are there only because of the mismatch?",
    goal="Behind a matched load the line would take {loss}. Whatever is lost beyond that, the mismatch costs.",
    rule="A share of power is −10 log of it in decibels. Take {loss} off.",
    numbers=lambda w: w.say(f"−10 log {w.notation.number(w['share'] / 100)}, and then less {{loss}}."),
    because="On a short line of little loss even a bad mismatch adds next to nothing; on a long one it costs dearly.",
    fields=(
        Field(
            quantity="total",
            label="Loss with this load",
            names=("total loss", "total loss in dB", "loss with this load"),
            kind=lambda w: Number("dB", "3.4", 2, decibels_off(w), -400.0, 400.0),
            value=lambda w: decibels_lost(w["share"]),
            slips=slips.TOTAL,
        ),
        Field(
            quantity="extra",
            label="Added by the mismatch",
            names=("additional loss", "extra loss", "added loss", "added by the mismatch"),
            kind=lambda w: Number("dB", "0.4", 2, decibels_off(w), -400.0, 400.0),
            value=lambda w: w["total"] - w["loss"],
            slips=slips.EXTRA,
        ),
    ),
)
