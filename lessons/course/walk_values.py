"""The values of a walk along a line from the end whose impedance is known to the end where it is asked."""

from __future__ import annotations

from core.chart import rim_position, rim_reflection
from core.line import impedance_from_reflection, wrap_half_wave
from lessons.course.stub_values import load_reflection
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import reflection_of


def is_load_asked(problem: Problem) -> bool:
    """Whether the walk leads back: from the input, where the impedance is known, to the load."""
    return problem["load"] is None


def toward(work: Work) -> str:
    """The end that the walk leads to, and the name of the scale that counts it: "generator" or "load"."""
    return "load" if is_load_asked(work.problem) else "generator"


def sense(work: Work) -> int:
    """1 for a walk toward the generator, clockwise; -1 for one toward the load."""
    return -1 if is_load_asked(work.problem) else 1


def words(work: Work) -> dict[str, str]:
    """What texts call the two ends and the way between them."""
    if not is_load_asked(work.problem):
        return {
            "asked": "input",
            "asked_mark": "in",
            "way": "generator",
            "back": "load",
            "sense": "clockwise",
        }
    known = {"known": "input", "ohms": work.notation.ohms(work["input"]), "mark": "in"}
    way = {"way": "load", "back": "generator", "sense": "counter-clockwise"}
    return {**known, **way, "asked": "load", "asked_mark": "L"}


# --- the length ---


def wavelength(work: Work) -> float:
    """Of a wave on the line, in millimetres. Raises Impossible without a frequency."""
    if work.wavelength_mm is None:
        raise Impossible(
            "Without a frequency nobody knows how long a wave is: add it to the problem.", "waves"
        )
    return work.wavelength_mm


def in_wavelengths(work: Work, wavelength_mm: float | None = None) -> float:
    """The line's length; of one stated in millimetres by the student's own wavelength, or by this one.

    Raises Impossible where that makes more of it than a line can be long here."""
    stated = work["along"]
    metric = stated.unit == "millimetres"
    length = float(stated.wavelengths((wavelength_mm or work["wave"]) if metric else None))
    if length > MOST_WAVES:
        raise Impossible(
            f"With that wavelength the line would be {length:.0f} wavelengths long: go back to it.", "waves"
        )
    return length


# --- the readings ---


def reading(work: Work, reflection: complex) -> float:
    """What the scale of this walk says beside a point; its zero is at the left end of the axis."""
    return float(wrap_half_wave(sense(work) * rim_position(reflection)))


def start_reading(work: Work) -> float:
    return reading(work, load_reflection(work))


def start_of_placed(work: Work) -> float:
    """The same beside the point that the student has placed."""
    return reading(work, work["place"])


def end_after(start: float, length: float) -> float:
    """The reading where a walk ends."""
    return float(wrap_half_wave(start + length))


def end_reading(work: Work) -> float:
    return end_after(work["start"], work["waves"])


# --- what stands there ---


def point_at(work: Work, read: float, size: float | None = None) -> complex:
    """The point of the mismatch circle (or of another one) at a reading of this walk's scale."""
    radius = abs(load_reflection(work)) if size is None else size
    return complex(radius * rim_reflection(sense(work) * read))


def start_point(work: Work) -> complex:
    return point_at(work, work["start"])


def end_point(work: Work) -> complex:
    return point_at(work, work["end"])


def impedance_at(work: Work, read: float, size: float | None = None) -> complex:
    return complex(impedance_from_reflection(point_at(work, read, size)))


def impedance_there(work: Work) -> complex:
    return impedance_at(work, work["end"])


def impedance_on_drawn(work: Work) -> complex:
    """The same on the circle that the student has drawn."""
    return impedance_at(work, work["end"], reflection_of(work["mismatch"]).real)


def impedance_on_placed(work: Work) -> complex:
    """The same on the circle through the point that the student has placed."""
    return impedance_at(work, work["end"], abs(work["place"]))


def in_ohms(work: Work) -> complex:
    return complex(work["there"] * work["line"])


def shown_readings(work: Work) -> tuple[str, str, str]:
    """Start, end and the length walked, in writing. They add up as they are shown, but for whole turns of the chart,
    which are part of the length where the walk ends as far as the line is long."""
    start, end = work.notation.adding_up(work["start"], [work["end"]])
    walked = float(wrap_half_wave(work["end"] - work["start"]))
    turns = max(0, round(2 * (work["waves"] - walked)))
    return start, end, work.notation.wavelengths(walked + turns / 2)
