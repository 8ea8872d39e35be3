"""The last steps of two reactances, for the solution chosen: henries and farads, what is bought, what it costs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from core.preferred import SERIES
from lessons.course import two_bought as bought
from lessons.course import two_part_slips as slips
from lessons.course.two_steps import PLACES
from lessons.course.two_values import PARTS
from lessons.grammar.dice import Dice
from lessons.grammar.given_kinds import Word
from lessons.grammar.kinds import PartValue, StandingWaveRatio
from lessons.grammar.kinds.part_values import OF_A_SERIES
from lessons.grammar.lesson import Field, Problem, Step, Work
from lessons.grammar.problem import Given
from lessons.grammar.strokes import Point, Stroke

FIRSTS = ("shunt", "series")
BOUGHT = {"near": "Nearer one", "far": "Farther one"}
LABELS = {"near": "Part nearer the load", "far": "Part farther from it"}


def _draw_series(values: Mapping[str, Any]) -> str:
    """By dice of its own, so that a seed draws the load, the line and the story that it always drew."""
    load = values["load"]
    return Dice(int(1009 * load.real + abs(load.imag))).pick(tuple(one.lower() for one in SERIES))


E_SERIES = Given(
    key="e_series",
    label="Series of preferred values",
    kind=Word("series of preferred values", tuple((one.lower(), one) for one in SERIES)),
    usual=lambda values: "e12",
    draw=lambda dice, values: _draw_series(values),
)


def _has_frequency(problem: Problem) -> bool:
    return bool(problem["frequency"])


def _which(work: Work) -> str:
    """Of which solution, where that has to be said."""
    if work.problem.solution:
        return ""
    if "choose" in work.problem.without:
        return f"Take the {bought.chosen(work).named('solution')}. "
    return "Take the solution that you chose. "


def _each(work: Work, written: Any) -> str:
    """What is said of both parts, each with its place."""
    said = [f"{PLACES[bought.way(work).side_of(one).placement]} {written(one)}" for one in PARTS]
    return f"{said[0][0].upper()}{said[0][1:]}, {said[1]}."


def _value(which: str) -> Field:
    return Field(
        quantity=f"value.{which}",
        label=LABELS[which],
        names=(
            f"{which} part",
            f"value {which}",
            "L",
            "C",
            *(f"{first} {what} {which}" for first in FIRSTS for what in ("part", "value")),
        ),
        element=PARTS.index(which),
        kind=lambda w: PartValue(),
        value=lambda w: bought.value(w, which),
        slips=slips.value_slips(which),
        formerly={
            f"{first}_{side}": f"{first}_{which}_value.{first}_{side}"
            for first in FIRSTS
            for side in ("high", "low")
        },
    )


def _part_written(work: Work, which: str) -> str:
    way = bought.way(work)
    symbol = way.side_of(which).part_symbol
    return f"has {symbol} = {work.write_of(f'{way.key}_{which}', bought.chosen(work))}"


VALUE = Step(
    key="value",
    title="Give both parts their values",
    ask=lambda w: (
        f"{_which(w)}Which coil or capacitor is each of the two parts at {{frequency}}? Give each value with its unit."
    ),
    goal="A shop sells henries and farads, not reactances.",
    rule="First ohms: in the line X = x Z₀, across it X = −Z₀ / b. A positive X is a coil, L = X / (2πf); a negative "
    "one a capacitor, C = 1 / (2πf |X|).",
    numbers=lambda w: _each(w, lambda one: _part_written(w, one)) + w.say(" Z₀ is {line}, f is {frequency}."),
    because="At another frequency the same part has another reactance: the match holds at one.",
    fields=tuple(map(_value, PARTS)),
    applies=_has_frequency,
    formerly=tuple(f"{first}_{which}_value" for first in FIRSTS for which in PARTS),
)


def _preferred(which: str) -> Field:
    return Field(
        quantity=f"preferred.{which}",
        label=f"{BOUGHT[which]}, as bought",
        names=(
            f"{which} part as bought",
            f"{which} part bought",
            f"{which} preferred",
            "L bought",
            "C bought",
            "L preferred",
            "C preferred",
            "L",
            "C",
        ),
        kind=lambda w: PartValue("36 nH or 7.5 pF", within=OF_A_SERIES),
        value=lambda w: bought.preferred(w, which),
        routes=(lambda w: bought.as_near(w, which),),
        slips=slips.preferred_slips(which),
    )


def _between(work: Work, which: str) -> str:
    kind = PartValue()
    below, above = (kind.write(one, work.notation) for one in bought.beside(work, which, bought.shelf(work)))
    exact = work.write(f"value.{which}")
    return f"{exact} is in the series" if below == above else f"{exact} lies between {below} and {above}"


def _digits(work: Work) -> str:
    *most, last = map(str, SERIES[bought.shelf(work)])
    return f"{', '.join(most)} and {last}"


PREFERRED = Step(
    key="preferred",
    title="Take what can be bought",
    ask="Parts come in preferred values, here in those of {shelf}. Which one is nearest to each of your two?",
    goal="What is bought is never quite what was calculated; it should be as near as it can be.",
    rule=lambda w: (
        f"The digits of {bought.shelf(w)} are {_digits(w)}, the same in each factor of ten. Take the value that is off "
        "by the least, up or down."
    ),
    numbers=lambda w: "; ".join(_between(w, one) for one in PARTS) + ".",
    because="The values of a series are alike in ratio: the more it has, the less any part is off.",
    fields=tuple(map(_preferred, PARTS)),
    applies=_has_frequency,
)


def _added(work: Work, which: str) -> str:
    symbol = bought.way(work).side_of(which).part_symbol
    return f"has {symbol} = {work.notation.number(bought.added(work, which), 3)}"


def _as_bought(work: Work) -> Iterator[Stroke]:
    reflection = complex(
        bought.built(work, *(float(work[f"preferred.{one}"]) for one in PARTS)).input_reflection()
    )
    role = bought.chosen(work).role
    spoken = f"What the line sees with the parts as bought: standing-wave ratio {work.write('cost')}."
    yield Point(reflection, role, "impedance", "as bought", spoken)


COST = Step(
    key="cost",
    title="See what the nearest values cost",
    ask="With both parts as bought, which SWR does the line see at {frequency}? Calculate: a chart is too coarse for "
    "it.",
    goal="The match was for the exact values: with others the walk ends beside the centre.",
    rule="Go back to ohms: X = 2πf L for a coil, −1 / (2πf C) for a capacitor. From the load on, a part in the line "
    "adds {j}X / Z₀ to z, one across it −{j}Z₀ / X to y. Of what comes out, |Γ| is |z − 1| / |z + 1|, and the SWR "
    "(1 + |Γ|) / (1 − |Γ|).",
    numbers=lambda w: "As bought, " + _lowered(_each(w, lambda one: _added(w, one))) + _begins(w),
    because="A part is sold to within some percent of its value: that may cost as much again.",
    fields=(
        Field(
            quantity="cost",
            label="SWR as bought",
            names=("SWR", "VSWR", "S", "standing-wave ratio", "SWR as bought"),
            kind=lambda w: StandingWaveRatio("1.2", arithmetic=True),
            value=bought.cost,
            slips=slips.COST,
            strokes=_as_bought,
        ),
    ),
    applies=_has_frequency,
)


def _lowered(sentence: str) -> str:
    return f"{sentence[0].lower()}{sentence[1:]}"


def _begins(work: Work) -> str:
    """The load as the first part meets it."""
    near, start = bought.way(work).near, bought.way(work).load_at(work.problem)
    return f" The load has {near.symbol} = {work.notation.rectangular(start)}."


AFTER_THE_CHOICE = (VALUE, PREFERRED, COST)
