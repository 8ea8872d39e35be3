"""Terms that the course's texts use, each in one sentence."""

from __future__ import annotations

from lessons.grammar.term import Term

LINE_TERMS = (
    Term(
        ("normalised", "normalise"),
        "Divided by the impedance of the line, so that one chart serves every line.",
    ),
    Term(("impedance", "impedances"), "Voltage over current; in series with each other, impedances add."),
    Term(
        ("admittance", "admittances"),
        "One over the impedance; what is connected across a line adds as admittance.",
    ),
    Term(("resistance",), "The real part of an impedance: what takes power."),
    Term(
        ("reactance", "reactances"),
        "The imaginary part of an impedance: it stores energy and takes no power.",
    ),
    Term(("conductance",), "The real part of an admittance: what takes power."),
    Term(
        ("susceptance", "susceptances"),
        "The imaginary part of an admittance: it stores energy and takes no power.",
    ),
    Term(
        ("reflection coefficient", "reflection"),
        "The wave that comes back over the wave that arrives, with its size and its angle.",
    ),
    Term(
        ("standing-wave ratio", "SWR"),
        "The largest voltage along the line over the smallest one, also called VSWR: 1 where nothing comes back.",
    ),
    Term(
        ("constant-mismatch circle", "mismatch circle"),
        "The circle about the centre on which a lossless line moves what it shows; others call it the SWR circle.",
    ),
    Term(("toward the generator",), "Along the line away from the load: clockwise on the chart."),
    Term(("rim",), "The edge of the chart, where all of the wave comes back."),
    Term(("match point",), "The centre of the chart, where nothing comes back."),
    Term(("velocity factor",), "How fast waves are on the line, as a part of the speed of light."),
)
READING_TERMS = (
    *LINE_TERMS,
    Term(
        ("return loss",),
        "By how many decibels the wave that comes back is weaker than the one that arrives: large where little does.",
    ),
)
WALK_TERMS = (
    *LINE_TERMS,
    Term(("toward the load",), "Along the line away from the generator: counter-clockwise on the chart."),
    Term(("input",), "The end of a line where it is fed, and what the line shows there of its load."),
)
LOSSY_TERMS = (
    *WALK_TERMS,
    Term(
        ("matched loss",),
        "What a line takes from a wave that runs along it once; all that is lost where nothing comes back.",
    ),
)
STUB_TERMS = (
    *LINE_TERMS,
    Term(("unit-conductance circle",), "All points of the chart whose normalised conductance is 1."),
    Term(("unit-resistance circle",), "All points of the chart whose normalised resistance is 1."),
    Term(
        ("crossing", "crossings"),
        "A point where the mismatch circle meets the unit circle: a stub can match there.",
    ),
    Term(
        ("stub", "stubs"),
        "A piece of line that is joined to the main one and ends in a short or an open circuit.",
    ),
    Term(("junction",), "The place on the line where the stub is joined to it."),
)
STUB_ALONE_TERMS = (
    *(one for one in LINE_TERMS if "constant-mismatch circle" not in one.words),
    Term(("stub", "stubs"), "A piece of line that ends in a short or an open circuit."),
    Term(("input",), "The end of a stub where it is joined to something, and what it shows there."),
)
STANDING_TERMS = (
    *LINE_TERMS,
    Term(
        ("voltage maximum", "maximum"),
        "A place on the line where the two waves add: the voltage is highest there, the current lowest.",
    ),
    Term(
        ("voltage minimum", "minimum"),
        "A place on the line where the two waves take from each other: lowest voltage, highest current.",
    ),
)
QUARTER_TERMS = (
    *STANDING_TERMS,
    Term(
        ("quarter wave",),
        "A quarter wavelength of line, here of another impedance; others call it a quarter-wave transformer.",
    ),
    Term(("geometric mean",), "The root of the product of two numbers."),
)
TWO_REACTANCES_TERMS = (
    *(one for one in STUB_TERMS if not {"crossing", "stub", "junction", "rim"} & set(one.words)),
    Term(
        ("crossing", "crossings"), "A point where the load's circle of constant r or g meets a unit circle."
    ),
    Term(
        ("coil", "coils"),
        "A part with inductance, in henries: its reactance is above zero.",
    ),
    Term(("capacitor", "capacitors"), "A part with capacitance, in farads: its reactance is below zero."),
)
DOUBLE_STUB_TERMS = (
    *(one for one in STUB_TERMS if "crossing" not in one.words),
    Term(
        ("forbidden region",),
        "All admittances whose conductance is too large for two stubs of this spacing.",
    ),
    Term(
        ("rotated unit circle", "rotated circle"),
        "The unit-conductance circle, turned toward the load by the spacing of two stubs.",
    ),
    Term(
        ("crossing", "crossings"),
        "A point where the load's circle of constant g meets the rotated unit circle.",
    ),
    Term(("spacing",), "The length of line between the two stubs."),
)
COPPER_TERMS = (
    *(one for one in STUB_TERMS if "velocity factor" not in one.words and "crossing" not in one.words),
    Term(
        ("effective permittivity",),
        "What a wave on a strip meets: between that of air, 1, and that of the board, as it is partly in both.",
    ),
    Term(
        ("relative permittivity", "permittivity"),
        "How much more field a material stores than a vacuum does: waves in it are slower by its root.",
    ),
    Term(("strip", "strips"), "A flat line of copper on a board, whose other side is copper all over."),
    Term(("free space",), "Where there is nothing but air: waves there have the speed of light."),
)
