"""The figure of a primer: what comes back from both solutions of a stub as the frequency is led past the design's."""

from __future__ import annotations

import numpy as np

from core.line import reflection_from_swr
from core.stubs import single_stub
from lessons.course.figures import EXAMPLE_LOAD, circle, points
from lessons.grammar.figure import Dot, Figure, Mark, Panel, Pose, Trace
from lessons.grammar.notation import Notation

NEAR, FAR = single_stub(EXAMPLE_LOAD, 1.0)
ALLOWED = 1.5
FARTHEST = 0.1  # of the frequency
ACROSS, HIGH = 6.0, 2.0  # of the panel's units, for an error and for |Γ|
BAND = Panel("band", -0.65, 0.9, -0.35, 1.2, across="← lower frequency, higher →")
MIDDLE = Panel("middle", -0.6, 0.6, -0.62, 0.58, across="the middle of the chart")
LABEL = 0.045  # of the frequency: between the curves there is room for what is allowed
TOLD_APART = 0.015  # of the frequency, from which on two labels have room beside each other
ERRORS = np.round(np.linspace(-FARTHEST, FARTHEST, 41), 6)


def _seen(error: float) -> tuple[complex, complex]:
    """What the line sees of both, the load as it was."""
    return complex(NEAR.input_reflection(1 + error)), complex(FAR.input_reflection(1 + error))


def _at(error: float, size: float) -> complex:
    return complex(ACROSS * error, HIGH * size)


def _off(error: float, notation: Notation) -> Pose:
    (near, far), told = _seen(error), abs(error) > TOLD_APART
    percent = f"{100 * abs(error):.1f} % {'below' if error < 0 else 'above'} the design's"
    lengths = [notation.wavelengths(float(one.total_line)) for one in (NEAR, FAR)]
    said = (
        f"{percent}: |Γ| is {notation.number(abs(near), 2)} for the near one, which has {lengths[0]} of line in all, "
        f"and {notation.number(abs(far), 2)} for the far one, which has {lengths[1]}."
    )
    if not error:
        said = "At the design's frequency nothing comes back from either: both are in the centre."
    return Pose(
        Dot("band", _at(error, 0.0), "load"),
        (
            Trace("band", (_at(error, 0.0), _at(error, max(abs(near), abs(far)))), "construction"),
            Dot("band", _at(error, abs(far)), "second", "far" if told else ""),
            Dot("band", _at(error, abs(near)), "first", "near" if told else ""),
            Dot("middle", far, "second"),
            Dot("middle", near, "first"),
        ),
        said,
    )


def _at_rest(notation: Notation) -> tuple[Mark, ...]:
    """Both curves over the frequency, both ways about the centre of the chart, and what is allowed."""
    allowed = float(reflection_from_swr(ALLOWED))
    near, far = (one.input_reflection(1 + ERRORS) for one in (NEAR, FAR))
    end = FARTHEST * 1.05
    return (
        Trace("band", (_at(-end, 0.0), _at(end, 0.0)), "construction"),
        Trace(
            "band",
            (_at(-end, allowed), _at(-LABEL, allowed), _at(end, allowed)),
            "unit",
            f"SWR {notation.number(ALLOWED, 1)}",
        ),
        Trace("band", points(ACROSS * ERRORS + 1j * HIGH * np.abs(near)), "first"),
        Trace("band", points(ACROSS * ERRORS + 1j * HIGH * np.abs(far)), "second"),
        Trace("middle", (-0.55 + 0j, 0.55 + 0j), "construction"),
        Trace("middle", circle(allowed), "unit"),
        Trace("middle", points(near), "first"),
        Trace("middle", points(far), "second"),
    )


OFF_DESIGN = Figure(
    title="Two matches, and what is left of them at another frequency",
    holds="Frequency",
    panels=(BAND, MIDDLE),
    places=tuple(ERRORS.tolist()),
    pose=_off,
    still=_at_rest,
    start=30,
)
