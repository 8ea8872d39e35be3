"""The step from impedance across to admittance, for what is connected across the line."""

from __future__ import annotations

from lessons.course.stub_values import load_admittance
from lessons.grammar import slips as made
from lessons.grammar.kinds import Immittance, inverse
from lessons.grammar.lesson import Field, Slip, Step, Work, by_grid
from lessons.grammar.side import SERIES, SHUNT, reflection_of
from lessons.grammar.strokes import HalfTurn, PlacePoint, Point


def _parts_inverted(work: Work) -> tuple[complex, ...] | None:
    """1/r and 1/x, with either sign: what inverting each part by itself gives."""
    z = work["normalise"]
    if not z.real or not z.imag:
        return None
    return complex(1 / z.real, 1 / z.imag), complex(1 / z.real, -1 / z.imag)


def _after_quarter_turn(work: Work) -> tuple[complex, ...] | None:
    """What stands a quarter of the chart from the load, either way; on overlaid grids nobody turns."""
    if work.notation.admittance != "half turn":
        return None
    at = reflection_of(work["normalise"])
    return tuple(SERIES.value_at(way * at) for way in (1j, -1j))


def admittance_reflection(work: Work) -> complex:
    """Reflection on the line of the student's load admittance."""
    return SHUNT.reflection_at(work["admittance"])


ADMITTANCE = Step(
    key="admittance",
    title="Cross to the admittance side",
    ask="Read the load's normalised admittance, y = 1 / z.",
    goal="Branches across the line add as admittances, so leave impedance behind here.",
    rule=by_grid(
        "Go from z through the centre to the other side of the circle, and read y there on the same grid.",
        "Stay at the load's point, and read y there on the dotted grid.",
    ),
    numbers=lambda w: f"y = 1 / ({w.notation.rectangular(w['normalise'])}).",
    because=by_grid(
        "A quarter wavelength of line does the same: half a turn.",
        "A quarter wavelength of line does the same to a value: it makes 1 / z of z.",
    ),
    fields=(
        Field(
            quantity="admittance",
            label="Normalised load admittance y",
            names=("y", "yL", "y load", "load admittance", "normalised admittance"),
            kind=lambda w: Immittance("admittance", w["line"]),
            value=load_admittance,
            routes=(lambda w: SHUNT.value_at(w["place"]),),
            slips=(
                Slip(
                    key="impedance kept",
                    doing="using the impedance where the admittance is needed",
                    question="Is that the impedance or the admittance?",
                    remedy=by_grid(
                        "Cross the centre and read again: y = 1 / z.",
                        "Read the dotted grid at the same point: y = 1 / z.",
                    ),
                    predict=lambda w: w["normalise"],
                ),
                made.sign_lost(load_admittance, "susceptance"),
                Slip(
                    key="mirrored",
                    doing=by_grid(
                        "mirroring z in the axis in place of crossing the centre",
                        "mirroring z in the axis in place of reading the dotted grid",
                    ),
                    question=by_grid(
                        "Did you cross the centre, or the axis?",
                        "Did you change the grid, or mirror the point?",
                    ),
                    remedy=by_grid(
                        "The way leads through the centre of the chart.",
                        "The point stays where it is: only the grid that is read changes.",
                    ),
                    predict=lambda w: w["normalise"].conjugate(),
                ),
                Slip(
                    key="parts inverted",
                    doing="inverting the real and the imaginary part each by itself",
                    question="Did you invert the two parts one by one?",
                    remedy="1 / z is not 1/r and 1/x: divide the conjugate of z by |z|².",
                    predict=_parts_inverted,
                    usual=3,
                ),
                Slip(
                    key="divided by the size",
                    doing="dividing the conjugate by |z| in place of |z|²",
                    question="By what did you divide the conjugate?",
                    remedy="y is the conjugate of z divided by |z|².",
                    predict=lambda w: made.unless_same(
                        w["normalise"].conjugate() / abs(w["normalise"]), load_admittance(w)
                    ),
                ),
                Slip(
                    key="not normalised",
                    doing="inverting the load in ohms",
                    question="Did you start from z, or from ohms?",
                    remedy="Invert the normalised z.",
                    predict=lambda w: inverse(w["load"]),
                ),
                Slip(
                    key="quarter turn",
                    doing=by_grid("turning by a quarter of the chart", "moving the point by a right angle"),
                    question=by_grid("How far did you turn?", "Did you move the point?"),
                    remedy=by_grid(
                        "From an impedance to its admittance it is half a turn of the chart.",
                        "The point stays where it is: only the grid that is read changes.",
                    ),
                    predict=_after_quarter_turn,
                    usual=1,
                ),
            ),
            strokes=lambda w: (
                HalfTurn(
                    admittance_reflection(w),
                    "construction",
                    "",
                    w.say(
                        by_grid(
                            "Half a turn, from the impedance to its admittance.",
                            "The same point, from now on read on the dotted grid.",
                        )
                    ),
                ),
                Point(
                    admittance_reflection(w),
                    "load",
                    "admittance",
                    "y_L",
                    f"The load's admittance {w.write('admittance')}.",
                    w.notation.rectangular(w["admittance"], 2),
                ),
            ),
            gesture=lambda w: PlacePoint("admittance"),
        ),
    ),
)
