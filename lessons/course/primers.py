"""Primers of the lessons on a single stub: what is behind it, before the first problem."""

from __future__ import annotations

from lessons.course.figures import CLOCKWISE, PURE_REACTANCE
from lessons.grammar.primer import Primer

SHUNT_STUB = Primer(
    (
        "A load unlike its line sends part of each wave back. On a line without loss that part keeps its size and "
        "turns: the line shows other impedances at other places, all on one circle about the centre.",
        "Somewhere on it the conductance is just the line's. A susceptance is left over there, and a piece of line "
        "across the main one, shorted or open at its end, can have any: also the opposite.",
        "So a match takes two lengths: {d}, from the load to that place, and {l}, of the stub. None of it takes power, "
        "which has to go into the load.",
    ),
    PURE_REACTANCE,
)

SERIES_STUB = Primer(
    (
        "What stands in the line one after the other adds as impedance. So all of this lesson is read on the "
        "impedance grid, and no half turn is needed.",
        "On the load's circle there are places where the resistance is just the line's. A reactance is left over "
        "there, and a stub set into the line adds one of the same size and the other sign.",
        "Again it is two lengths: {d}, from the load to that place, and {l}, of the stub. Both are walked toward the "
        "generator, and that is clockwise.",
    ),
    CLOCKWISE,
)
