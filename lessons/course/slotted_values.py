"""The values of an unknown load, from where a probe on a slotted line finds the voltage lowest."""

from __future__ import annotations

from core.chart import rim_reflection
from core.line import impedance_from_reflection, wrap_half_wave
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import reflection_of

CLOCKWISE, COUNTER = "clockwise", "counter-clockwise"
OTHER = {"generator": "load", "load": "generator", CLOCKWISE: COUNTER, COUNTER: CLOCKWISE}


def true_wavelength(problem: Problem) -> float:
    """Twice the distance of the two minima with the short, in centimetres."""
    return 2 * abs(problem["second"] - problem["first"])


def wavelength(work: Work) -> float:
    return float(true_wavelength(work.problem))


def moved(problem: Problem) -> float:
    """How far the minimum with the load stands from the first one with the short, in centimetres toward the generator:
    the direction in which a scale rises that counts from the load."""
    return float((problem["minimum"] - problem["first"]) * (1 if problem["counted"] == "load" else -1))


def toward(work: Work) -> str:
    """The end of the line that the minimum has moved toward."""
    return "generator" if moved(work.problem) > 0 else "load"


def shift(work: Work) -> float:
    """The same in wavelengths. Raises Impossible where the student's wave makes more of it than can be meant."""
    wave = float(work["wave"])
    if wave <= 0 or abs(moved(work.problem)) / wave > MOST_WAVES:
        raise Impossible(
            f"With a wavelength of {work.write('wave')} the shift is more than {MOST_WAVES} waves: go back to it.",
            "wave",
        )
    return abs(moved(work.problem)) / wave


def size(work: Work) -> float:
    """|Γ| of the standing-wave ratio."""
    return abs(reflection_of(work["swr"]))


def lowest(work: Work) -> float:
    """What the line shows at a minimum, normalised, by the circle drawn."""
    return (1 - drawn_size(work)) / (1 + drawn_size(work))


def drawn_size(work: Work) -> float:
    """The radius of the student's circle. Raises Impossible for none that goes round the centre inside of the rim."""
    found = float(work["circle.size"])
    if not 0 < found < 1:
        raise Impossible(
            f"With |Γ| = {work.write('circle.size')} there is no circle between centre and rim: go back to that step.",
            "circle",
        )
    return found


def size_by_lowest(work: Work) -> float:
    """The radius of the circle through the minimum's point as the student has it."""
    return float((1 - work["circle.lowest"]) / (1 + work["circle.lowest"]))


def sense(work: Work) -> str:
    """Round the chart, from the minimum back to the load's place: against the way the minimum has moved."""
    return COUNTER if work["shift.toward"] == "generator" else CLOCKWISE


def way(work: Work, walked: float | None = None) -> float:
    """The walk on the chart in wavelengths, above zero where it is clockwise."""
    length = float(work["shift.waves"]) if walked is None else walked
    return length if work["sense"] == CLOCKWISE else -length


def point_after(work: Work, walked: float, radius: float | None = None) -> complex:
    """Where a clockwise walk from the minimum's point ends."""
    return complex((drawn_size(work) if radius is None else radius) * rim_reflection(wrap_half_wave(walked)))


def load_point(work: Work) -> complex:
    return point_after(work, way(work))


def load_z(work: Work) -> complex:
    return complex(impedance_from_reflection(load_point(work)))


def load_z_by_lowest(work: Work) -> complex:
    """The same on the circle through the minimum's point as the student has it."""
    return complex(impedance_from_reflection(point_after(work, way(work), size_by_lowest(work))))


def first_minimum(work: Work) -> float:
    """Distance of the minimum that is nearest to the load, in wavelengths."""
    return float(wrap_half_wave(way(work) * -1))
