"""Primers of lessons: what is behind each, before its first problem."""

from __future__ import annotations

from lessons.course.figures import CLOCKWISE, HALF_TURN, HALF_WAVE, PURE_REACTANCE
from lessons.grammar.primer import Primer

ALONG_THE_LINE = Primer(
    (
        "A wave that runs to the load comes back from it, smaller and turned. At each place the two add up another "
        "way, so at each place the line shows another impedance.",
        "On the chart that is a walk: the point goes round the centre, clockwise toward the generator, and keeps its "
        "distance from it as long as the line has no loss.",
    ),
    HALF_WAVE,
)

IMPEDANCE_AND_ADMITTANCE = Primer(
    (
        "Parts one after the other add their impedances, parts side by side their admittances. So whatever is hung "
        "across a line is reckoned in admittance, one over the impedance.",
        "On the chart nobody has to divide for it: z and 1/z stand opposite each other, as far from the centre on "
        "either side.",
    ),
    HALF_TURN,
)

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

WAVELENGTHS_TO_COPPER = Primer(
    (
        "The chart counts in waves, and a wave has another length on every line. On a board it depends on the strip: "
        "its field is partly in the board, partly in the air, and the wave meets something between the two.",
        "So the board comes first: how wide the strip is, what its wave meets, and how long that wave is. Then {d} and "
        "{l} are millimetres.",
        "Two things are left between the number and the copper. An open end acts longer than it is, a short does not; "
        "and a cutter moves in steps. Both can be reckoned, and so can what they cost.",
    ),
)
