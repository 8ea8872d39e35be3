"""The steps at the cutter: millimetres, the end's correction, whole steps, and what they cost."""

from __future__ import annotations

from collections.abc import Iterator

from core.chart import OPEN_POINT, SHORT_POINT, walk
from lessons.course import copper_slips, cutting_slips
from lessons.course.copper_values import (
    PIECES,
    as_cut,
    built,
    copper,
    cost,
    cut,
    cut_alike,
    end_effect,
    load_reflection,
    metric,
    open_end,
    step_mm,
    waves,
)
from lessons.course.distance_step import DISTANCE
from lessons.course.stub_steps import STUB_LENGTH
from lessons.grammar.kinds import Dimension, StandingWaveRatio
from lessons.grammar.lesson import Field, Step, Work
from lessons.grammar.strokes import Point, Stroke, Way

END_KNOWN = 0.02  # of what an open end adds
TAKEN_OFF = 0.1  # the same, after a subtraction
ON_STEP = 0.05  # of a step, within which a length is on it
SYMBOLS = {"distance": DISTANCE, "length": STUB_LENGTH}
WORDS = {"distance": "Distance {d}", "length": "Stub {l}"}


def _written(work: Work, piece: str) -> str:
    """A length of the design, with a digit more than usual."""
    return work.notation.wavelengths(waves(work.problem, piece), 1)


def _way(work: Work, piece: str) -> Iterator[Stroke]:
    """The walk of the design that a piece is for."""
    if piece == "distance":
        way, words = (
            walk(load_reflection(work), waves(work.problem, piece)),
            "the line from the load to the stub",
        )
    else:
        start = SHORT_POINT if work["end"] == "short" else OPEN_POINT
        way, words = walk(start, waves(work.problem, piece)), "the stub, from its end along the rim"
    symbol, written = work.notation.symbol(SYMBOLS[piece].key), _written(work, piece)
    read_as = "impedance" if piece == "distance" else "admittance"
    yield Way(way, "first", read_as, symbol, f"The design: {words}, {written}.", written)  # type: ignore[arg-type]


def _metric(piece: str) -> Field:
    mark = SYMBOLS[piece].key
    return Field(
        quantity=f"metric.{piece}",
        label=f"{WORDS[piece]} in mm",
        names=(f"{{{mark}}} in mm", f"{{{mark}}} mm", f"{{{mark}}}", f"{piece} in mm"),
        symbol=SYMBOLS[piece],
        element=PIECES.index(piece),
        kind=lambda w: Dimension(),
        value=lambda w: metric(w, piece),
        slips=copper_slips.metric_slips_of(piece),
        strokes=lambda w: _way(w, piece),
    )


METRIC = Step(
    key="metric",
    title="Turn the design into millimetres",
    ask="The design has {d} = {distance_wanted} and {l} = {length_wanted}. How long are both in millimetres?",
    goal="A length of the design is a part of one wave on the strip.",
    rule="Multiply each by the wave on the strip.",
    numbers=lambda w: (
        f"The wave is {w.write('wave')}; the lengths are {_written(w, 'distance')} and {_written(w, 'length')}"
        + (", of 360° in a wave." if w.notation.length == "degrees" else ".")
    ),
    because="On another board, or at another frequency, the same design has other lengths.",
    fields=tuple(map(_metric, PIECES)),
)
END_EFFECT = Step(
    key="end_effect",
    title="Ask what the end adds",
    ask="This stub ends in {an_end} circuit. By how much does it act longer than its copper? Write 0 if it does not.",
    goal="A line acts as long as its field reaches, and that may be farther than its copper.",
    rule="A short ends where it is. An open end acts longer by h · 0.412 (ε_eff + 0.3)(w/h + 0.264) / "
    "((ε_eff − 0.258)(w/h + 0.8)).",
    numbers=lambda w: (
        w.say("The end is {end}; h is {height} mm, ")
        + f"w/h is {w.write('strip.ratio')} and ε_eff is {w.write('effective')}."
    ),
    because="At an open end the field bulges out past the copper. The formula is good to some 5 to 10 %.",
    fields=(
        Field(
            quantity="end_effect",
            label="Longer by",
            names=("Δl", "delta l", "end correction", "open end", "correction"),
            kind=lambda w: Dimension(example="0.75", decimals=3, within_mm=END_KNOWN * open_end(w)),
            value=end_effect,
            slips=cutting_slips.END,
        ),
    ),
)
COPPER = Step(
    key="copper",
    title="Give the stub's copper its length",
    ask="How long must the stub's copper be, so that with its end it acts as long as the design wants?",
    goal="What counts is how long the stub acts: copper and end together.",
    rule="Take what the end adds off the stub's length. If nothing is left, add half a wave: a stub repeats with it.",
    numbers=lambda w: (
        f"The stub is to act {w.write('metric.length')} long; its end adds {w.write('end_effect')}."
    ),
    because="The line between load and stub has no end of its own: its length stays as it is.",
    fields=(
        Field(
            quantity="copper",
            label="Copper of the stub",
            names=(
                "copper",
                "copper length",
                "stub copper",
                "{l} copper",
                "corrected length",
                "{l} corrected",
            ),
            kind=lambda w: Dimension(within_mm=TAKEN_OFF * open_end(w)),
            value=copper,
            slips=cutting_slips.COPPER,
        ),
    ),
)


def _cut(piece: str) -> Field:
    mark = SYMBOLS[piece].key
    return Field(
        quantity=f"cut.{piece}",
        label=f"{WORDS[piece]} as cut",
        names=(f"{{{mark}}} as cut", f"{{{mark}}} cut", f"{{{mark}}} rounded", f"{piece} as cut"),
        kind=lambda w: Dimension(example="23.0", decimals=1, within_mm=ON_STEP * step_mm(w)),
        value=lambda w: cut(w, piece),
        routes=(lambda w: cut_alike(w, piece),),
        slips=cutting_slips.cut_slips_of(piece),
    )


CUT = Step(
    key="cut",
    title="Round to what can be cut",
    ask="The cutter moves in steps of {cut_step}. To which lengths are line and stub cut?",
    goal="What is made is never quite what was calculated; it should be as near as it can be.",
    rule="Take the multiple of the step that is nearest, up or down.",
    numbers=lambda w: (
        f"The line up to the stub is {w.write('metric.distance')} long, the stub's copper {w.write('copper')}; "
        + w.say("the step is {cut_step}.")
    ),
    because="Nothing is off by more than half a step.",
    fields=tuple(map(_cut, PIECES)),
)


def _cost_strokes(work: Work) -> Iterator[Stroke]:
    reflection = complex(built(work.problem, *(as_cut(work, one) for one in PIECES)).input_reflection())
    spoken = f"What the line sees with the lengths as cut: standing-wave ratio {work.write('cost')}."
    yield Point(reflection, "second", "impedance", "as cut", spoken)


COST = Step(
    key="cost",
    title="See what the rounding costs",
    ask="With both lengths as cut, which SWR does the line see? Calculate: a chart is too coarse for it.",
    goal="A step is a small part of a wave, or not so small: the SWR tells.",
    rule="Divide the lengths as cut by the wave, with what the end adds put back. Turn the load's reflection clockwise "
    "by the distance, a full turn each half wave, and go over to y; add the stub's {j}b: b is minus one over the "
    "tangent for a short, the tangent for an open end, of its length as an angle with 360° a wave. Of the sum, "
    "|Γ| is |1 − y| / |1 + y|, and the SWR (1 + |Γ|) / (1 − |Γ|).",
    numbers=lambda w: (
        f"The load's reflection is {w.notation.polar(load_reflection(w))}. As cut, the line up to the stub is "
        f"{w.notation.wavelengths(as_cut(w, 'distance'), 1)} long, and the stub acts "
        f"{w.notation.wavelengths(as_cut(w, 'length'), 1)} long."
    ),
    because="The higher the frequency, the more a step costs. How far the board's ε_r is off may cost more than that.",
    fields=(
        Field(
            quantity="cost",
            label="SWR as cut",
            names=("SWR", "VSWR", "S", "standing-wave ratio", "SWR as cut"),
            kind=lambda w: StandingWaveRatio("1.2", arithmetic=True),
            value=cost,
            slips=cutting_slips.COST,
            strokes=_cost_strokes,
        ),
    ),
)
AT_THE_CUTTER = (METRIC, END_EFFECT, COPPER, CUT, COST)
