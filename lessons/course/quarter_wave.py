"""Matching a load with a quarter wave of line of another impedance."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from core.elements import Section
from core.line import wrap_half_wave
from core.network import MatchingNetwork
from lessons.course import primers
from lessons.course.axis_steps import DISTANCES, ENDS, RESISTANCE
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.choosing_steps import (
    MORE_ROOM,
    NEARER,
    WIDER_BAND,
    Cut,
    Reason,
    asked_before,
    choose,
    millimetres,
)
from lessons.course.distance_step import DISTANCE
from lessons.course.givens import (
    FREQUENCY,
    LINE,
    LOAD,
    PLACES,
    VELOCITY,
    is_instructive,
    wavelength_mm,
    with_frequency,
)
from lessons.course.glossary import QUARTER_TERMS
from lessons.course.maximum_and_minimum import PLACES as BOTH
from lessons.course.quarter_check import TOTAL, TURNED
from lessons.course.quarter_steps import IMPEDANCE, OWN
from lessons.course.quarter_values import QUARTER
from lessons.course.stub_values import bare, refuses
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Lesson, Work

DRAWN_FROM = ("resistance", "distance", "section")


def _network(work: Work, branch: Branch | None, settled: Collection[str]) -> MatchingNetwork | None:
    """The line up to the section, and the section as soon as its impedance is known."""
    known = [one for one in DRAWN_FROM if branch and f"{one}.{branch.key}" in settled]
    if not branch or not known:
        return None
    distance = float(wrap_half_wave(work.of("distance", branch))) if "distance" in known else np.nan
    section = (Section(QUARTER, float(work.of("section", branch))),) if "section" in known else ()
    return MatchingNetwork(work["load"], work["line"], (Section(distance, work["line"]), *section))


def _section_of(network: MatchingNetwork) -> float:
    section = network.elements[-1]
    assert isinstance(section, Section)
    return float(section.impedance)


LESSON = Lesson(
    key="quarter-wave",
    title="Matching with a quarter wave",
    purpose="A quarter wavelength of line turns one resistance into another: find where it starts, and its impedance.",
    task=lambda work: with_frequency(
        work, "Match {load} to a line of {line} with a quarter wave of line of another impedance."
    ),
    brief="Load {load} on {line}, quarter wave",
    givens=(LOAD, LINE, FREQUENCY, VELOCITY),
    branches=BOTH.branches,
    steps=(
        NORMALISE,
        PLACE,
        MISMATCH,
        ENDS,
        RESISTANCE,
        DISTANCES,
        IMPEDANCE,
        OWN,
        TURNED,
        TOTAL,
        choose(
            (
                NEARER,
                MORE_ROOM,
                WIDER_BAND,
                Reason("lower impedance", "its section is a wider strip, which loses less", _section_of),
                Reason(
                    "higher impedance",
                    "its section is a narrower strip, which takes less of the board",
                    lambda network: -_section_of(network),
                ),
            ),
            "Less line usually means less loss and a wider band. A low impedance is a wide strip, a high one a narrow "
            "strip.",
            "Nearer the load is the usual choice. A very narrow strip is hard to etch, and a very wide one is hardly a "
            "line any more.",
            lambda work, branch: (
                f"{work.write_of('distance', branch)} and then {work.write_of('section', branch)}"
            ),
        ),
        millimetres(
            BOTH,
            asked_before("distance", "distance", DISTANCE),
            Cut(
                "section",
                "section's length",
                ("section in mm", "section length in mm", "section mm", "quarter wave in mm"),
                lambda work, branch: QUARTER,
                differs=False,
            ),
            (
                "exchanging the distance and the section's length",
                "Is this the distance, or the section's length?",
                "The distance is the line before the section; the section itself is a quarter wavelength.",
            ),
        ),
    ),
    refuses=refuses,
    network=_network,
    bare=bare,
    matches=True,
    wavelength_mm=wavelength_mm,
    instructive=is_instructive,
    places=tuple(f"{place} Match it with a quarter wave." for place in PLACES),
    terms=QUARTER_TERMS,
    needs=("along-the-line",),
    primer=primers.QUARTER_WAVE,
)
