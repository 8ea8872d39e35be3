"""Primers of lessons: what is behind each, before its first problem."""

from __future__ import annotations

from lessons.course.figures import CLOCKWISE, HALF_TURN, HALF_WAVE, PURE_REACTANCE
from lessons.course.line_figures import SPIRAL, STRIP
from lessons.course.off_design_figure import OFF_DESIGN
from lessons.course.stub_figures import FORBIDDEN, STUB_LENGTH
from lessons.course.two_figure import FIRST_PART
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

READING_THE_CHART = Primer(
    (
        "A load that is not its line's impedance sends part of each wave back. How large that part is, and how it is "
        "turned, is one complex number. The chart is a map of all of them, with the impedances written on it.",
        "So one point says many things. Its distance from the centre is the part that comes back; from that alone "
        "follow the standing-wave ratio, the return loss and the share of the power. Its direction is the angle.",
        "At the centre nothing comes back. On the rim all of it does.",
    ),
    PURE_REACTANCE,
)

STANDING_WAVE = Primer(
    (
        "The wave that runs to the load and the one that comes back add up. At some places they meet in step, and the "
        "voltage is large; a quarter of a wave farther they meet out of step, and it is small.",
        "These places stand still. On the chart they are where the walk along the line crosses the axis: at the right "
        "the voltage is at its highest, at the left at its lowest.",
        "The same power makes higher voltages where more comes back. That breaks down cables and burns fingers.",
    ),
    HALF_WAVE,
)

UNKNOWN_LOAD = Primer(
    (
        "A load can be found without touching it, from the wave that stands before it. How deep the minima are says "
        "how far the load's point is from the centre. Where they stand says in which direction.",
        "A short at the load's place shows where that place is, as seen along the line: its minima lie whole half "
        "waves from it. Then the load is put back, and the minima have moved.",
        "By how much, and toward which end: the chart turns that into the load.",
    ),
    CLOCKWISE,
)

STUB_ALONE = Primer(
    (
        "A piece of line that ends in a short or an open circuit sends everything back. It takes no power, and what it "
        "shows has no real part: it acts like a coil or like a capacitor, whichever its length makes it.",
        "On the chart it never leaves the rim. It starts at its end, and its length is the walk from there, clockwise.",
        "Near a quarter of a wave a short looks like an open circuit, and an open circuit like a short. There a little "
        "length changes much.",
    ),
    STUB_LENGTH,
)

QUARTER_WAVE = Primer(
    (
        "A quarter of a wave of line is half a turn of the chart. On a chart of its own, normalised by its own "
        "impedance, it makes one over z of z.",
        "So it turns one resistance into another, and the impedance that does it is the geometric mean of the two. It "
        "does that for resistances alone.",
        "Any other load is first walked along the line to where its impedance is real. There are two such places in "
        "each half of a wave, and either will do.",
    ),
    HALF_TURN,
)

TWO_REACTANCES = Primer(
    (
        "Where there is no room for line, two parts do the same: one across the line, one in it. Neither takes power.",
        "The part at the load moves the point along a circle of constant r or g, until it meets the unit circle of the "
        "other grid. The second part takes away what is left.",
        "Not every order can do it. A point inside of r = 1, or inside of g = 1, can be led out in one order "
        "only; from anywhere else either order does.",
    ),
    FIRST_PART,
)

DOUBLE_STUB = Primer(
    (
        "A single stub has to stand at the right place. Two stubs can stay where they are: only their lengths change, "
        "so they can be built in once and set for any load that they can match.",
        "The second stub finishes the match, from any point of g = 1. Seen from the first stub, through the line "
        "between them, that circle lies turned toward the load. The first stub has to lead onto it.",
        "It cannot always. A stub changes b and never g; where g is too large, no length leads there. That is the "
        "forbidden region.",
    ),
    FORBIDDEN,
)

LOSSY_LINE = Primer(
    (
        "On a real line each wave fades on its way, and the one that comes back fades twice over. So the walk along "
        "the line is no circle: it is a spiral, inward, toward the centre.",
        "Far from the load any line looks matched. That is no merit: the power went into the line.",
        "A mismatch makes it worse. What comes back and runs again is charged again, so the line loses more than its "
        "own figure says.",
    ),
    SPIRAL,
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
    STRIP,
)

WHICH_ONE = Primer(
    (
        "A stub matches a load in two ways, and as designed one is as good as the other. But a saw slips, and a radio "
        "works on more than one frequency. What comes back then is not the same for both.",
        "On the chart nothing is new. Lengths count as parts of a wave: at a higher frequency every piece is more of a "
        "wave, and a piece cut too short is less of one. Walk along the line as it is now, add the stub as it is now.",
        "Near the match |Γ| grows about in proportion to how far it is off. So what comes back at one error says, "
        "roughly, how far off it may be. Less line turns less; yet it is not always the one with less line that bears "
        "more.",
    ),
    OFF_DESIGN,
)
