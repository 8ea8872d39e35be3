"""The steps to the junction of a match in which something is off: what acts how long, and what it then shows."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from math import pi, tan

from core.chart import mismatch_circle, walk
from lessons.course import which_back_slips, which_slips
from lessons.course.admittance_step import ADMITTANCE as ON_THE_CHART
from lessons.course.distance_step import DISTANCE
from lessons.course.near_and_far import BOTH, near_and_far
from lessons.course.stub_steps import STUB_LENGTH
from lessons.course.stub_values import stub_end
from lessons.course.which_values import acting, arriving, designed, is_off, shows, side, start, total
from lessons.grammar.branch import Branch
from lessons.grammar.kinds import ImaginaryPart, Immittance, LengthOfLine
from lessons.grammar.lesson import Step, Work
from lessons.grammar.notation import Symbol
from lessons.grammar.strokes import Curve, Point, Reading, Stroke, Way

BEYOND = 1e6  # a tangent at a quarter wave
CALCULATE = "Calculate: a chart is too coarse for it."


def each(said: Callable[[Branch], str]) -> str:
    """What is said of both solutions, one after the other."""
    return "; ".join(f"{one.word} {said(one)}" for one in BOTH)


ADMITTANCE = replace(
    ON_THE_CHART,
    rule="y is the conjugate of z, divided by |z|².",
    ask=f"What is the load's normalised admittance, y = 1 / z? {CALCULATE}",
    fields=(
        replace(
            ON_THE_CHART.fields[0],
            kind=lambda w: Immittance("admittance", w["line"], arithmetic=True),
            routes=(),
            gesture=lambda w: None,
        ),
    ),
    applies=lambda problem: problem["method"] == "shunt",
)


def _way(work: Work, branch: Branch, piece: str) -> Iterable[Stroke]:
    begin, read_as = (start(work), side(work).immittance) if piece == "distance" else _on_rim(work)
    length, written = work.of(f"{piece}_off", branch), work.write_of(f"{piece}_off", branch)
    what = "line from the load to the stub" if piece == "distance" else "stub along the rim"
    symbol = work.notation.symbol({"distance": DISTANCE, "length": STUB_LENGTH}[piece].key)
    spoken = f"The {branch.word} {what} as it acts now, {written} clockwise."
    yield Way(walk(begin, length), branch.role, read_as, symbol, spoken, written)


def _on_rim(work: Work) -> tuple[complex, Reading]:
    return stub_end(work), side(work).immittance


def _acts(piece: str, symbol: Symbol, what: str, title: str, names: tuple[str, ...]) -> Step:
    """How long a piece acts. what : the piece in words."""
    return Step(
        key=f"{piece}_off",
        title=title,
        ask=lambda w: (
            f"How long does the {what} act then, in either solution?"
            if w["off"] == "frequency" and piece == "length"
            else f"{{off_said}}. How long does the {what} act then, in either solution?"
        ),
        goal="What counts is which part of a wave a piece is, and that is no longer as designed.",
        rule="{why}. Multiply by {factor}.",
        numbers=lambda w: (
            f"Designed: {each(lambda one: w.notation.wavelengths(designed(w.problem, one, piece), 1))}."
        ),
        because="{changed}",
        fields=near_and_far(
            quantity=f"{piece}_off",
            label=f"{what} {{{symbol.key}}}",
            symbol=symbol,
            element=0 if piece == "distance" else 1,
            kind=lambda w: LengthOfLine("0.4317", arithmetic=True),
            value=lambda w, branch: acting(w.problem, branch, piece),
            slips=which_slips.length_slips(piece),
            strokes=lambda w, branch: _way(w, branch, piece),
            names=(f"{{{symbol.key}}}", f"{{{symbol.key}}}/λ", *names),
        ),
        applies=lambda problem: is_off(problem, piece),
    )


LINE = _acts("distance", DISTANCE, "line", "Find how long the line acts", ("distance", "line"))
STUB = _acts("length", STUB_LENGTH, "stub", "Find how long the stub acts", ("stub length", "length"))


def _tangent(work: Work, length: float) -> str:
    found = tan(2 * pi * length)
    return work.notation.number(found if abs(found) < BEYOND else float("inf"))


def _immittance(work: Work) -> Immittance:
    return Immittance(side(work).immittance, work["line"], "1.35 + {j}0.40", arithmetic=True)


def _arriving_strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
    reflection = side(work).reflection_at(work.of("arriving", branch))
    if branch is BOTH[0]:
        spoken = "The load's circle, on which every length of line ends."
        yield Curve(mismatch_circle(start(work)), "mismatch", "impedance", "SWR", spoken)
    y = side(work).symbol
    written = work.write_of("arriving", branch)
    spoken = f"What the line shows at the {branch.word} junction, {written}."
    yield Point(reflection, branch.role, side(work).immittance, f"{y}_{branch.word}", spoken, written)


ARRIVING = Step(
    key="arriving",
    title="Walk to the junction",
    ask=f"Which {{y}} does the line show at the junction then, without the stub? {CALCULATE}",
    goal="A walk along the line turns the load's point about the centre, by as much as the line is long now.",
    rule="Let t be the tangent of the line's length, with 360° a wavelength. Of the load's {y} it makes "
    "({y} + {j}t) / (1 + {j}t {y}).",
    numbers=lambda w: (
        w.say("The load's {y} is ")
        + f"{w.notation.rectangular(w['admittance' if w['method'] == 'shunt' else 'normalise'])}; t is "
        + f"{each(lambda one: _tangent(w, w.of('distance_off', one)))}."
    ),
    because=lambda w: (
        "The {real} is not 1 here, and no stub can put that right."
        if is_off(w.problem, "distance")
        else "The line is as designed: the {real} is 1, and all that can be left over is {part}."
    ),
    fields=near_and_far(
        quantity="arriving",
        label="{y} of the line",
        kind=_immittance,
        value=arriving,
        unmixed_by=("distance_off",),
        slips=which_slips.arriving_slips,
        strokes=_arriving_strokes,
        names=("{y} line", "{y} of the line", "{y} without the stub", "{y} before the stub", "{y} arriving"),
    ),
)


def _shows_strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
    at, written = side(work), work.write_of("shows", branch)
    reflection = at.reflection_at(complex(0, work.of("shows", branch)))
    spoken = f"What the {branch.word} stub adds, {written}, on the rim."
    yield Point(reflection, branch.role, at.immittance, f"{at.part_symbol}_{branch.word}", spoken, written)


SHOWS = Step(
    key="shows",
    title="Ask what the stub adds",
    ask="Which {part} does the stub add then?",
    goal="A stub shows what its length and its end make of it, whatever it was meant for.",
    rule="With 360° a wavelength, {b} of a stub that ends in {an_end} circuit is {shown_by} of its length.",
    numbers=lambda w: (
        "The tangent of the length is " + each(lambda one: _tangent(w, w.of("length_off", one))) + "."
    ),
    because="The farther {b} is from zero, the more an error of the length changes it.",
    fields=near_and_far(
        quantity="shows",
        label="{b} of the stub",
        kind=lambda w: ImaginaryPart(side(w).immittance, w["line"], arithmetic=True),
        value=shows,
        unmixed_by=("length_off",),
        slips=which_slips.shows_slips,
        strokes=_shows_strokes,
        names=("{b}s", "{b} stub", "{b} of the stub", "stub {part}", "{y} stub"),
    ),
)


def _total_strokes(work: Work, branch: Branch) -> Iterable[Stroke]:
    at, written = side(work), work.write_of("total", branch)
    spoken = f"The {branch.word} junction's total, {written}."
    yield Point(
        at.reflection_at(work.of("total", branch)),
        branch.role,
        at.immittance,
        f"{at.symbol}_total {branch.word}",
        spoken,
    )


TOTAL = Step(
    key="total",
    title="Add up at the junction",
    ask="What do line and stub have together, in either solution?",
    goal="As designed it would be 1. By what it is now you see what comes back.",
    rule="Add {y} of the line and {j} times {b} of the stub.",
    numbers=lambda w: (
        each(
            lambda one: (
                f"{w.write_of('arriving', one)} and {w.notation.imaginary}({w.write_of('shows', one)})"
            )
        )
        + "."
    ),
    because="As designed it would stand in the centre of the chart. Now it stands beside it.",
    fields=near_and_far(
        quantity="total",
        label="total {y}",
        kind=_immittance,
        value=total,
        mixable=False,
        slips=which_back_slips.total_slips,
        strokes=_total_strokes,
        names=("{y} total", "{y}t", "{y} tot", "{y} sum", "total", "total {immittance}"),
    ),
)
