"""An unknown load on a slotted line: found from a standing-wave ratio and from where the minima stand."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from core.elements import Section
from core.line import half_wave_difference
from core.measure import load_from_minimum_shift
from core.network import MatchingNetwork
from lessons.course import primers
from lessons.course.givens import LINE, instructive_swr
from lessons.course.glossary import STANDING_TERMS
from lessons.course.slotted_shift import SHIFT
from lessons.course.slotted_steps import CIRCLE, WAVE
from lessons.course.slotted_values import first_minimum, moved, true_wavelength
from lessons.course.slotted_walk import OHMS, SENSE, THERE
from lessons.grammar.branch import Branch
from lessons.grammar.dice import Dice
from lessons.grammar.given_kinds import Factor, Word
from lessons.grammar.given_positions import Position
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.lesson import Lesson, Problem, Work
from lessons.grammar.problem import Given
from lessons.grammar.term import Term

SHORTEST = 0.03  # wavelengths, also from a whole half: less is hardly a move
Values = Mapping[str, Any]


def _draw_second(dice: Dice, values: Values) -> float:
    """The next minimum, half a wave of some centimetres on."""
    half = dice.pick(
        (4.0, 6.0, 8.0, 10.0, 12.5, 16.0, 20.0, 28.0),
        if_round=(10.0, 20.0, 40.0),
        if_hard=(5.7, 7.3, 9.1, 11.6, 13.9, 18.7, 26.3),
    )
    return round(values["first"] + half, 1)


def _draw_minimum(dice: Dice, values: Values) -> float:
    """Somewhere between the two, or half a wave on now and then."""
    half = values["second"] - values["first"]
    twentieths = dice.pick(range(1, 20), if_round=range(2, 19, 2))
    return round(values["first"] + half * (twentieths / 20 + dice.pick((0, 0, 0, 1), if_hard=(0, 1, 2))), 1)


def _position(key: str, label: str, name: str, usual: float, draw: Any) -> Given:
    kind = Position(name)
    return Given(key, label, kind, lambda values: usual, kind.write(usual), must_stand=True, draw=draw)


SWR = Given(
    key="swr",
    label="Standing-wave ratio with the load",
    kind=Factor("standing-wave ratio", 1, 1000, "2"),
    usual=lambda values: 2.0,
    example="2",
    must_stand=True,
    draw=lambda dice, values: (
        dice.pick(range(16, 51), if_round=(20, 25, 30, 40, 50), if_hard=[n for n in range(41, 150) if n % 5])
        / 10
    ),
)
FIRST = _position(
    "first", "A minimum with the short, cm", "place of the first minimum", 4.0,
    lambda dice, values: (
        dice.pick(range(5, 201, 5), if_round=range(10, 201, 10), if_hard=[n for n in range(5, 200) if n % 5]) / 10
    ),
)  # fmt: skip
SECOND = _position(
    "second", "The next minimum with the short, cm", "place of the next minimum", 24.0, _draw_second
)
MINIMUM = _position(
    "minimum", "A minimum with the load, cm", "place of the minimum with the load", 11.0, _draw_minimum
)
COUNTED = Given(
    key="counted",
    label="The scale counts from the",
    kind=Word("end that the scale counts from", (("load", "load"), ("generator", "generator"))),
    usual=lambda values: "load",
    draw=lambda dice, values: dice.pick(("load", "load", "generator"), if_hard=("load", "generator")),
)


def true_load(problem: Problem) -> complex:
    """The load in ohms, by the solver."""
    way = "generator" if moved(problem) > 0 else "load"
    shift = abs(moved(problem)) / true_wavelength(problem)
    return complex(load_from_minimum_shift(problem["swr"], shift, problem["line"], way))


def _is_instructive(problem: Problem) -> bool:
    shift = abs(float(half_wave_difference(moved(problem) / true_wavelength(problem), 0.0)))
    least, most = instructive_swr(problem.difficulty)
    return shift >= SHORTEST and least <= problem["swr"] <= most


def _refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    if problem["first"] == problem["second"]:
        return (
            "The two minima with the short stand at one place: give two neighbouring ones, half a wave apart."
        )
    if not moved(problem):
        return (
            "The minimum has not moved: with the load it stands where the short had its own, so the load is real and "
            "below the line's impedance, and no walk is needed. Give another place."
        )
    if abs(moved(problem)) > MOST_WAVES * true_wavelength(problem):
        return f"The minimum with the load is more than {MOST_WAVES} wavelengths away: take one nearer to the short's."
    if problem["swr"] < 1.01:
        return (
            "Next to nothing comes back from this load: the voltage is nearly the same everywhere, and no minimum can "
            "be found."
        )
    return ""


def _found_load(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """The load that was found, and the line up to the first minimum; nothing while it is asked."""
    if "ohms" not in settled:
        return None
    return MatchingNetwork(work["ohms"], work["line"], (Section(first_minimum(work), work["line"]),))


def _closing(work: Work) -> str:
    """What the load is, by the solver, whatever stands on the sheet."""
    kind = work.lesson.field("ohms").kind(work)
    return f"The load is {kind.write(true_load(work.problem), work.notation)}, found without a meter at its place."


LESSON = Lesson(
    key="unknown-load",
    title="An unknown load",
    purpose="A probe on a line, a short and a ruler are enough to find an impedance: from where the voltage is lowest.",
    task="On a slotted line of {line} a short in the load's place gives neighbouring minima at {first} and {second}. "
    "With the load the standing-wave ratio is {swr} and a minimum stands at {minimum}. The scale counts from the "
    "{counted}. Find the load.",
    brief="SWR {swr}, minima {first}, {second} and {minimum}, on {line}",
    givens=(SWR, FIRST, SECOND, MINIMUM, COUNTED, LINE),
    steps=(WAVE, CIRCLE, SHIFT, SENSE, THERE, OHMS),
    refuses=_refuses,
    network=_found_load,
    closing=_closing,
    words=lambda work: {"known": "minimum", "asked": "load", "asked_mark": "L"},
    instructive=_is_instructive,
    places=(
        "At {place} nobody owns a bridge, but there is an old slotted line with a probe.",
        "The antenna at {place} hangs where no meter can be carried; the line below it has a slot.",
        "A volunteer at {place} has built a slotted line from two pipes and wants to try it.",
        "The part from the drawer at {place} bears no label. Find out what it is.",
    ),
    terms=(
        *STANDING_TERMS,
        Term(
            ("slotted line",),
            "A line with a slot along it, in which a probe shows the voltage at every place.",
        ),
    ),
    primer=primers.UNKNOWN_LOAD,
    needs=("standing-wave",),
)
