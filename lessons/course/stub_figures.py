"""Figures of primers on stubs: what their length makes of them, and where two of them cannot match."""

from __future__ import annotations

import numpy as np

from core.chart import (
    OPEN_POINT,
    RIM,
    SHORT_POINT,
    UNIT_CONDUCTANCE_CIRCLE,
    Circle,
    conductance_circle,
    crossings,
)
from core.forbidden import conductance_limit, forbidden_circle, rotated_unit_circle
from core.line import reflection_coefficient, toward_generator
from core.stubs import stub_susceptance
from lessons.course.figures import places, points, turned
from lessons.grammar.branch import Role
from lessons.grammar.figure import CHART, Dot, Figure, Mark, Panel, Pose, Trace
from lessons.grammar.notation import Notation

QUARTER, HALF = 0.25, 0.5
MOST = 3.0  # of the reactance that is drawn
REACTANCE = Panel("reactance", -0.04, 0.53, -3.7, 3.3, across="longer stub →")
SPACING = 1 / 8
LIMIT = float(conductance_limit(SPACING))


# --- what the length of a stub makes of it --------------------------------------------------------------------------


def _reactance(length: np.ndarray | float) -> np.ndarray:
    """Of a shorted stub over its own impedance: what its susceptance in the line would be."""
    return np.asarray(stub_susceptance(length, "series", "short"))


def _longer_stub(length: float, notation: Notation) -> Pose:
    point = complex(toward_generator(SHORT_POINT, length))
    return Pose(
        Dot("chart", point, "first"),
        (turned(SHORT_POINT, length), *_on_curve(length)),
        _said_of_stub(length, notation),
    )


def _on_curve(length: float) -> tuple[Mark, ...]:
    """Where its reactance stands on the curve, if it has one that is drawn."""
    value = np.inf if np.isclose(length, QUARTER) else float(_reactance(length))
    return (Dot("reactance", complex(length, value), "first"),) if abs(value) <= MOST else ()


def _said_of_stub(length: float, notation: Notation) -> str:
    far = notation.wavelengths(length)
    if length == 0:
        return "No stub yet, only its end: a short. All that comes is sent back, so it is on the rim."
    if np.isclose(length, QUARTER):
        return f"{far}, a quarter of a wave: the short looks like an open circuit. It is still on the rim."
    if np.isclose(length, HALF):
        return f"{far}, half a wave: once round, and it is a short again."
    value = float(_reactance(length))
    sign, kind = ("−", "a capacitor") if value < 0 else ("", "a coil")
    return (
        f"{far}: z = {sign}{notation.imaginary}{notation.number(abs(value), 2)}, like {kind}. There is no resistance "
        "that could take power: all of it comes back, and the point stays on the rim."
    )


def _rim_and_curve(notation: Notation) -> tuple[Mark, ...]:
    """The halves of the rim, and the reactance over the length, with a gap where it has no bounds."""
    edge = float(np.arctan(MOST) / (2 * np.pi))
    coil, capacitor = np.linspace(0.0, edge, 41), np.linspace(HALF - edge, HALF, 41)
    upper, lower = RIM.at(np.linspace(np.pi, 0.0, 37)), RIM.at(np.linspace(0.0, -np.pi, 37))
    return (
        Trace("chart", points(upper), "construction", "coil"),
        Trace("chart", points(lower), "construction", "capacitor"),
        Dot("chart", SHORT_POINT, "load", "short"),
        Trace("chart", (0.45 + 0j, OPEN_POINT), "construction", "open"),
        Trace("reactance", (0j, HALF + 0j), "construction"),
        Trace("reactance", points(coil + 1j * _reactance(coil)), "mismatch", "x"),
        Trace("reactance", points(capacitor + 1j * _reactance(capacitor)), "mismatch"),
    )


STUB_LENGTH = Figure(
    title="What its length makes of a shorted stub",
    holds="Length of the stub",
    panels=(CHART, REACTANCE),
    places=places(0.0, HALF, 41),
    pose=_longer_stub,
    still=_rim_and_curve,
    start=7,
)


# --- where two stubs cannot match -----------------------------------------------------------------------------------


def _plotted(circle: Circle, notation: Notation) -> Circle:
    """A circle of the admittance grid where the course shows it."""
    return circle.half_turned if notation.admittance == "half turn" else circle


def _more_conductance(conductance: float, notation: Notation) -> Pose:
    along, goal = (
        _plotted(one, notation) for one in (conductance_circle(conductance), rotated_unit_circle(SPACING))
    )
    sign = 1 if notation.admittance == "half turn" else -1
    place = sign * complex(reflection_coefficient(conductance, 1.0))
    met = crossings(along, goal)
    roles: tuple[Role, ...] = ("first", "second")
    how = {
        2: "It meets the turned circle at two points: two matches.",
        1: "It only touches the turned circle: one match, the last.",
        0: "It meets the turned circle nowhere: whatever the stub's length, there is no match. That is forbidden.",
    }
    return Pose(
        Dot("chart", place, "load"),
        (
            Trace("chart", points(along.whole.points(73)), "load"),
            *(Dot("chart", one, role) for one, role in zip(met, roles, strict=False)),
        ),
        f"g = {notation.number(conductance, 2)}: the first stub leads along this circle and never off it. "
        f"{how[len(met)]}",
    )


def _turned_circle(notation: Notation) -> tuple[Mark, ...]:
    """The unit circle, as it is seen through the line between the stubs, and the region that it never reaches."""
    unit, turned_unit, region = (
        _plotted(one, notation)
        for one in (UNIT_CONDUCTANCE_CIRCLE, rotated_unit_circle(SPACING), forbidden_circle(SPACING))
    )
    return (
        Trace("chart", _labelled_at(unit, -np.pi / 2), "construction", "g = 1"),
        Trace("chart", _labelled_at(turned_unit, np.pi / 2), "unit", "g = 1, turned"),
        Trace("chart", _labelled_at(region, np.pi), "second", "forbidden"),
    )


def _labelled_at(one: Circle, angle: float) -> tuple[complex, ...]:
    """A circle whose label stands at this angle, which is half way round."""
    return points(one.at(angle + np.linspace(-np.pi, np.pi, 73)))


FORBIDDEN = Figure(
    title="Which loads two stubs an eighth of a wave apart cannot match",
    holds="Conductance of the load",
    panels=(CHART,),
    places=tuple(np.round(np.geomspace(LIMIT / 8, 2 * LIMIT, 41), 3).tolist()),
    pose=_more_conductance,
    still=_turned_circle,
    start=9,
)
