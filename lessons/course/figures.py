"""The figures of the course's primers: each has one thing to move, and says one thing."""

from __future__ import annotations

import numpy as np

from core.chart import mismatch_circle
from core.line import (
    admittance_from_reflection,
    impedance_from_reflection,
    reflection_coefficient,
    swr,
    toward_generator,
)
from lessons.grammar.figure import CHART, Dot, Figure, Mark, Panel, Pose, Trace
from lessons.grammar.notation import Notation

EXAMPLE_LOAD = 0.5 - 0.7j
"""The load of the figures that need one, normalised."""
EXAMPLE = complex(reflection_coefficient(EXAMPLE_LOAD, 1.0))
LINE = Panel("line", -0.82, 0.12, -0.75, 2.0, across="← toward the generator")
WAVES = Panel("waves", -1.2, 1.2, -1.2, 1.2)
SHARES = Panel("shares", -0.1, 1.1, -0.5, 0.9)
LONGEST = 0.75
QUARTER, HALF = 0.25, 0.5
REACTANCE = 0.8


def points(values: object) -> tuple[complex, ...]:
    return tuple(np.asarray(values, dtype=complex).ravel().tolist())


def places(first: float, last: float, count: int) -> tuple[float, ...]:
    """As many places for the hand, evenly from the first to the last."""
    return tuple(np.round(np.linspace(first, last, count), 6).tolist())


def circle(radius: float) -> tuple[complex, ...]:
    return points(radius * np.exp(2j * np.pi * np.linspace(0.0, 1.0, 73)))


def turned(start: complex, distance: float) -> Trace:
    """The way clockwise from a reflection, as a line of that length turns it."""
    many = 2 + int(96 * distance)
    return Trace(
        "chart", points(toward_generator(start, np.linspace(0.0, distance, many))), "first", ends="arrow"
    )


def _voltage(distance: np.ndarray | float) -> np.ndarray:
    """Voltage on the line over that of the coming wave."""
    return np.abs(1 + np.asarray(toward_generator(EXAMPLE, distance)))


# --- why the circle closes after half a wave ------------------------------------------------------------------------


def _along_the_line(distance: float, notation: Notation) -> Pose:
    there_and_back = (-distance - 0.25j, -0.25j, -0.5j, -distance - 0.5j)
    length, way = notation.wavelengths(distance), notation.wavelengths(2 * distance)
    said = (
        f"{length} from the load. To the load and back are {way}, so the reflection has turned "
        f"{notation.angle_of(4 * np.pi * distance)} clockwise."
    )
    if np.isclose(distance, HALF):
        said += " That is one whole turn: the line shows the load again."
    elif np.isclose(distance, QUARTER):
        said += " That is half a turn: the point has crossed the centre."
    return Pose(
        Dot("line", complex(-distance, float(_voltage(distance))), "first"),
        (
            Trace("line", there_and_back, "first", way, "arrow"),
            turned(EXAMPLE, distance),
            Dot("chart", complex(toward_generator(EXAMPLE, distance)), "first"),
        ),
        said,
    )


def _line_at_rest(notation: Notation) -> tuple[Mark, ...]:
    distance = np.linspace(0.0, 0.8, 121)
    return (
        Trace("line", points(-distance + 1j * _voltage(distance)), "mismatch", "voltage"),
        Trace("line", (-0.8 + 0j, 0j), "construction"),
        Dot("line", 0j, "load", "load"),
        Trace("chart", circle(abs(EXAMPLE)), "mismatch"),
        Dot("chart", EXAMPLE, "load", "load"),
    )


HALF_WAVE = Figure(
    title="Why the circle closes after half a wavelength",
    holds="Place on the line",
    panels=(LINE, CHART),
    places=places(0.0, LONGEST, 61),
    pose=_along_the_line,
    still=_line_at_rest,
    start=10,
)


# --- why toward the generator is clockwise --------------------------------------------------------------------------


def _both_waves(distance: float, notation: Notation) -> Pose:
    turn = np.exp(2j * np.pi * distance)
    coming, returned = complex(turn), complex(EXAMPLE / turn)
    there = complex(toward_generator(EXAMPLE, distance))
    half, whole = notation.angle_of(2 * np.pi * distance), notation.angle_of(4 * np.pi * distance)
    said = (
        f"{notation.wavelengths(distance)} nearer the generator the wave that comes is {half} ahead of what it is at "
        f"the load: it still has that way to go. The one that returns is {half} behind: it has gone that way. "
        f"The second over the first, the reflection, has turned {whole} clockwise."
    )
    if distance == 0:
        said = "At the load: the wave that comes, the one that returns, and the second over the first."
    return Pose(
        Dot("chart", there, "first", "reflection"),
        (
            Trace("waves", (0j, coming), "unit", "comes", "arrow"),
            Trace("waves", (0j, returned), "second", "returns", "arrow"),
            turned(EXAMPLE, distance),
        ),
        said,
    )


CLOCKWISE = Figure(
    title="Why toward the generator is clockwise",
    holds="Distance toward the generator",
    panels=(WAVES, CHART),
    places=places(0.0, HALF, 41),
    pose=_both_waves,
    still=lambda notation: (
        Trace("waves", (0j, 1 + 0j), "construction"),
        Trace("waves", (0j, EXAMPLE), "construction"),
        Trace("chart", circle(abs(EXAMPLE)), "mismatch"),
        Dot("chart", EXAMPLE, "load", "load"),
    ),
    start=6,
)


# --- why 1/z is half a turn -----------------------------------------------------------------------------------------


def _two_chords(angle: float, notation: Notation) -> Pose:
    point = complex(0.6 * np.exp(1j * angle))
    z, y = complex(impedance_from_reflection(point)), complex(admittance_from_reflection(point))
    longer, shorter = notation.number(abs(1 + point), 2), notation.number(abs(1 - point), 2)
    where = (
        "read there as an impedance would be, it is the admittance"
        if notation.admittance == "half turn"
        else "it is what the second grid says at the point itself"
    )
    return Pose(
        Dot("chart", point, "first", "z"),
        (
            Trace("chart", (-1 + 0j, point), "first", "1 + Γ"),
            Trace("chart", (point, 1 + 0j), "first", "1 − Γ"),
            Trace("chart", (-1 + 0j, -point), "second", "1 − Γ"),
            Trace("chart", (-point, 1 + 0j), "second", "1 + Γ"),
            Trace("chart", (point, -point), "construction"),
            Dot("chart", -point, "second", "1/z"),
        ),
        f"At the point, z = (1 + Γ) / (1 − Γ) = {notation.rectangular(z, 2)}, lines of {longer} and {shorter}. At the "
        f"opposite point the two have changed places: 1/z = {notation.rectangular(y, 2)}, and {where}.",
    )


HALF_TURN = Figure(
    title="Why 1/z is half a turn",
    holds="Angle of the point",
    panels=(CHART,),
    places=tuple(np.linspace(-np.pi, np.pi, 61).tolist()),
    pose=_two_chords,
    start=40,
)


# --- why a pure reactance cannot be matched -------------------------------------------------------------------------


def _less_resistance(resistance: float, notation: Notation) -> Pose:
    impedance = complex(resistance, REACTANCE)
    point = complex(reflection_coefficient(impedance, 1.0))
    stays = 1 - abs(point) ** 2 if resistance else 0.0
    said = (
        f"z = {notation.rectangular(impedance, 2)}: {100 * stays:.0f} % of the power stays. Line without loss leads "
        f"round the circle, SWR {notation.number(float(swr(point)), 1)}."
    )
    if not resistance:
        said = (
            f"z = {notation.imaginary}{notation.number(REACTANCE, 2)}, no resistance: all of the power comes back, and "
            "the circle is the rim. Nothing without loss takes power either: whatever is built shows the rim, too."
        )
    return Pose(
        Dot("chart", point, "load", "load"),
        (
            Trace("chart", circle(float(mismatch_circle(point).radius)), "mismatch"),
            Trace("shares", (0.5j, complex(stays, 0.5)), "first", "stays", "area"),
            Trace("shares", (0j, complex(1 - stays, 0.0)), "second", "comes back", "area"),
        ),
        said,
    )


def _one_reactance(notation: Notation) -> tuple[Mark, ...]:
    """The circle that the load's point moves on, and the frames of the two shares."""
    place = reflection_coefficient(np.linspace(0.0, 2.0, 41) + 1j * REACTANCE, 1.0)
    return (
        Trace("chart", points(place), "construction"),
        Trace("shares", (0.5j, 1 + 0.5j), "construction"),
        Trace("shares", (0j, 1 + 0j), "construction"),
    )


PURE_REACTANCE = Figure(
    title="Why a pure reactance cannot be matched",
    holds="Resistance of the load",
    panels=(CHART, SHARES),
    places=places(0.0, 2.0, 41),
    pose=_less_resistance,
    still=_one_reactance,
    start=12,
)
