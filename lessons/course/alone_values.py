"""The derivation of a stub by itself: a walk along the rim from its end, to what it shows or back from there."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from core.chart import SHORT_POINT, rim_position
from core.elements import Section
from core.line import wrap_half_wave
from core.network import MatchingNetwork
from core.stubs import stub_susceptance
from lessons.course.givens import wavelength_mm
from lessons.course.stub_ends import OPPOSITE_END
from lessons.course.stub_values import stub_end
from lessons.course.walk_values import end_after, in_wavelengths
from lessons.grammar.branch import Branch
from lessons.grammar.kinds.lengths import MOST_WAVES
from lessons.grammar.lesson import Impossible, Problem, Work
from lessons.grammar.side import reflection_of

TOO_LONG = 0.02  # wavelengths that a stub is cut too long to see what that does
LARGEST_PART = 50.0  # normalised: beyond, an open circuit and a reactance cannot be told apart on a chart
COIL, CAPACITOR = "coil", "capacitor"


def is_length_asked(problem: Problem) -> bool:
    """Whether the reactance is given and the length asked, and not the other way round."""
    return problem["wanted"] is not None


def is_reactance_asked(problem: Problem) -> bool:
    return not is_length_asked(problem)


def has_metric_length(problem: Problem) -> bool:
    return is_reactance_asked(problem) and problem["along"].unit == "millimetres"


def words(work: Work) -> dict[str, str]:
    """What texts call both ends of the walk, and the little that is cut too long."""
    ends = {"known": "stub's end", "asked": "junction", "way": "generator", "back": "load"}
    return {**ends, "sense": "clockwise", "more": work.notation.wavelengths(TOO_LONG)}


# --- the walk ---


def start_reading(work: Work) -> float:
    """What the scale says beside the end that the student has chosen. Raises Impossible where that is none."""
    chosen = work["begin.point"]
    if chosen not in OPPOSITE_END:
        raise Impossible("A stub ends in a short or an open circuit: none starts there.", "begin")
    return 0.0 if chosen == "short" else 0.25


def sense(work: Work) -> int:
    """1 where the student walks clockwise, else -1."""
    return 1 if work["begin.sense"] == "clockwise" else -1


def end_reading(work: Work) -> float:
    return end_after(work["start"], sense(work) * work["waves"])


def part_at(reading: float) -> float:
    """The normalised reactance beside a reading of the rim; infinite at the open point."""
    return float(stub_susceptance(reading % 0.5, "series", "short"))


def reactance(work: Work) -> float:
    return part_at(work["reached"])


def normalised_wanted(work: Work) -> float:
    return float(work["wanted"] / work["line"])


def reading_of(part: float) -> float:
    """What the scale says where a normalised reactance stands on the rim."""
    return float(rim_position(reflection_of(1j * part)))


def wanted_reading(work: Work) -> float:
    return reading_of(work["needed"])


def length(work: Work) -> float:
    """How long the stub must be: the difference of both readings, in the sense that the student walks."""
    return float(wrap_half_wave(sense(work) * (work["rim"] - work["start"])))


def length_for_part(work: Work) -> float:
    """The same from the reactance itself."""
    return float(wrap_half_wave(sense(work) * (wanted_reading(work) - work["start"])))


# --- what it shows ---


def shown(work: Work) -> float:
    """The normalised reactance, as given or as found."""
    return float(work["needed"] if is_length_asked(work.problem) else work["reactance"])


def susceptance(work: Work) -> float:
    part = shown(work)
    if part == 0:
        raise Impossible(
            "A short circuit has no susceptance to be written: go back to the reactance.", _source(work)
        )
    return 0.0 - 1 / part


def _source(work: Work) -> str:
    return "needed" if is_length_asked(work.problem) else "reactance"


def in_ohms(work: Work) -> float:
    return float(work["reactance"] * work["line"])


def is_part(work: Work) -> str:
    return COIL if shown(work) > 0 else CAPACITOR


def whole_length(work: Work) -> float:
    return float(work["length"] if is_length_asked(work.problem) else work["waves"])


def beside_quarter(work: Work) -> str:
    """Whether the length, less whole halves of a wave, is less or more than a quarter of one."""
    return "less" if whole_length(work) % 0.5 < 0.25 else "more"


def shown_after(work: Work, more: float) -> float:
    """The reactance in ohms after so much more of line."""
    return part_at(reading_of(shown(work)) + more) * float(work["line"])


def longer(work: Work) -> float:
    return shown_after(work, TOO_LONG)


# --- what can be set, and what is drawn ---


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to find, or nothing."""
    wanted, along = problem["wanted"], problem["along"]
    if (wanted is None) == (along is None):
        return (
            "Give either the length of the stub or the reactance that it shall show: the other one is asked."
        )
    if along is not None:
        if along.unit == "millimetres" and not problem["frequency"]:
            return "Millimetres say something only with a frequency: add it, or give wavelengths or degrees of line."
        if along.wavelengths(wavelength_mm(problem)) > MOST_WAVES:
            return (
                f"This stub is more than {MOST_WAVES} wavelengths long at this frequency: take a shorter one."
            )
    part = abs(true_part(problem))
    if part > LARGEST_PART:
        return (
            "Here the stub is as good as an open circuit: its reactance is beyond what can be read. A shorted stub is "
            "that at a quarter wave, an open one at half a wave. Take another length."
        )
    if part < 1 / LARGEST_PART:
        return (
            "Here the stub is as good as a short circuit: its reactance is too small to be read. An open stub is that "
            "at a quarter wave, a shorted one at half a wave. Take another length."
        )
    return ""


def true_part(problem: Problem) -> float:
    """The normalised reactance that the stub shows."""
    if problem["wanted"] is not None:
        return float(problem["wanted"] / problem["line"])
    length = problem["along"].wavelengths(wavelength_mm(problem))
    return part_at(length + (0.0 if problem["end"] == "short" else 0.25))


def network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork:
    """The stub as a line with its end, its length as far as it is known."""
    if is_length_asked(work.problem):
        known = "length" in settled
        length = float(wrap_half_wave(work["length"])) if known else np.nan
    else:
        known = not has_metric_length(work.problem) or "waves" in settled
        length = in_wavelengths(work) if known else np.nan
    end = 0j if stub_end(work) == SHORT_POINT else complex(np.inf)
    return MatchingNetwork(end, work["line"], (Section(length, work["line"]),))
