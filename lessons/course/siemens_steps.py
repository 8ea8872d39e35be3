"""The steps about an admittance: where one over z stands, the admittance in siemens, and the two parts side by side."""

from __future__ import annotations

from math import inf

from lessons.course.stub_values import load_reflection
from lessons.grammar import slips as made
from lessons.grammar.kinds import Choice, Reflection, Resistance, Siemens
from lessons.grammar.lesson import Field, Slip, Step, Work, by_grid
from lessons.grammar.strokes import PlacePoint

MILLI = 1e3
COIL, CAPACITOR, NOTHING = "coil", "capacitor", "nothing"


def opposite(work: Work) -> complex:
    """The reflection of one over z."""
    return -load_reflection(work)


def siemens(work: Work) -> complex:
    """The load's admittance in millisiemens, from the student's own y."""
    return complex(work["admittance"]) * MILLI / float(work["line"])


def resistor(work: Work) -> float:
    """The resistor that takes the load's power across the line, in ohms."""
    conductance = work["siemens"].real
    return MILLI / conductance if conductance else inf


def part(work: Work) -> str:
    """What stands beside it."""
    susceptance = work["siemens"].imag
    return CAPACITOR if susceptance > 0 else COIL if susceptance < 0 else NOTHING


OPPOSITE = Step(
    key="opposite",
    title="Find where 1 / z stands",
    ask="Put 1 / z in the place of z: which reflection has it, by size and angle?",
    goal="If the places of z and of 1 / z are known from each other, the chart does the division.",
    rule="(1/z − 1) / (1/z + 1) is (1 − z) / (1 + z): the load's reflection with the other sign.",
    numbers=lambda w: f"The load's own reflection is {w.notation.polar(load_reflection(w))}.",
    because=by_grid(
        "So 1 / z stands straight opposite on the same circle: half a turn, and the grid there is read as y.",
        "So all admittances stand opposite their impedances. The dotted grid is the same grid, drawn the other way "
        "round, for y to be read where z stands.",
    ),
    fields=(
        Field(
            quantity="opposite",
            label="Reflection of 1 / z",
            names=("reflection of 1/z", "opposite reflection", "-Γ", "opposite"),
            kind=lambda w: Reflection(*(("0.45 ∠ 2.1 rad",) if w.notation.angle == "radians" else ())),
            value=opposite,
            routes=(lambda w: -w["place"],),
            slips=(
                Slip(
                    key="not moved",
                    doing="giving the reflection of z itself",
                    question="Is that the reflection of z, or of 1 / z?",
                    remedy="Change the sign of the whole reflection.",
                    predict=lambda w: made.unless_same(load_reflection(w), opposite(w)),
                ),
                Slip(
                    key="mirrored in the axis",
                    doing="changing the sign of the angle alone",
                    question="What did you change the sign of?",
                    remedy="That is where z stands with its reactance turned over. Change the sign of both parts.",
                    predict=lambda w: made.unless_same(load_reflection(w).conjugate(), opposite(w)),
                ),
                Slip(
                    key="mirrored across",
                    doing="changing the sign of the real part alone",
                    question="What did you change the sign of?",
                    remedy="Both parts of the reflection change their sign, the imaginary one as well.",
                    predict=lambda w: made.unless_same(-load_reflection(w).conjugate(), opposite(w)),
                ),
                Slip(
                    key="right angle",
                    doing="moving the point by a right angle",
                    question="How far did you go round?",
                    remedy="The other sign is the opposite direction, not one at right angles.",
                    predict=lambda w: (1j * load_reflection(w), -1j * load_reflection(w)),
                    usual=1,
                ),
            ),
            gesture=lambda w: PlacePoint("impedance"),
        ),
    ),
)


SIEMENS = Step(
    key="siemens",
    title="Give it in siemens",
    ask="What is the load's admittance Y in millisiemens?",
    goal="y counts in multiples of the line's admittance, and that is one over {line}.",
    rule="Y = y / Z₀, and a thousand millisiemens are one siemens.",
    numbers=lambda w: w.say("Divide ") + w.write("admittance") + w.say(" by {line}, and multiply by 1000."),
    because="In siemens it can be added to anything else that hangs across the line.",
    fields=(
        Field(
            quantity="siemens",
            label="Admittance Y",
            names=("Y", "YL", "Y load", "Y in mS", "admittance in mS", "load admittance in mS"),
            kind=lambda w: Siemens(per=w["line"]),
            value=siemens,
            slips=(
                Slip(
                    key="multiplied",
                    doing="multiplying by the line's impedance",
                    question="Did you multiply by {line}, or divide?",
                    remedy="An impedance is multiplied by Z₀, an admittance divided by it.",
                    predict=lambda w: w["admittance"] * w["line"],
                ),
                Slip(
                    key="power of ten",
                    doing="slipping by powers of ten between siemens and millisiemens",
                    question="Is that in millisiemens?",
                    remedy="One siemens is 1000 mS.",
                    predict=lambda w: (siemens(w) / 1e3, siemens(w) * 1e3, siemens(w) / 10, siemens(w) * 10),
                ),
                Slip(
                    key="normalised",
                    doing="giving y itself",
                    question="Is that y, or Y?",
                    remedy="Divide y by {line} to have siemens.",
                    predict=lambda w: made.unless_same(w["admittance"], siemens(w)),
                ),
                Slip(
                    key="impedance taken",
                    doing="dividing z by the line's impedance",
                    question="Did you start from y, or from z?",
                    remedy="Start from y.",
                    predict=lambda w: w["normalise"] * MILLI / w["line"],
                ),
                made.sign_lost(siemens, "susceptance"),
            ),
        ),
    ),
)

PARALLEL = Step(
    key="parallel",
    title="See two parts side by side",
    ask="The same load can be drawn as a resistor across the line and another part beside it. How large is the "
    "resistor, and what is the other part?",
    goal="Admittances add side by side: Y is the sum of a conductance and a susceptance.",
    rule="The resistor is one over G, the real part of Y. A capacitor across the line has B above zero, a coil below "
    "zero.",
    numbers=lambda w: f"Y is {w.write('siemens')}; one over a millisiemens is 1000 Ω.",
    because="In series the same load has another resistance: each form has numbers of its own.",
    fields=(
        Field(
            quantity="parallel.resistor",
            label="The resistor",
            names=("Rp", "R parallel", "parallel resistance", "resistor"),
            kind=lambda w: Resistance(w["line"], in_ohms=True, example="120", arithmetic=True),
            value=resistor,
            slips=(
                Slip(
                    key="series resistance",
                    doing="giving the resistance of the series form",
                    question="Is that the R of the impedance, or one over G?",
                    remedy="Side by side the resistor is one over G.",
                    predict=lambda w: made.unless_same(w["load"].real, resistor(w)),
                ),
                Slip(
                    key="size of admittance",
                    doing="taking one over the size of Y",
                    question="Did you take all of Y, or its real part?",
                    remedy="The resistor has to do with G alone.",
                    predict=lambda w: made.unless_same(MILLI / abs(w["siemens"]), resistor(w)),
                ),
                Slip(
                    key="one over B",
                    doing="taking one over the susceptance",
                    question="Which part of Y did you take?",
                    remedy="G is the real part, B the imaginary one: take G.",
                    predict=lambda w: MILLI / abs(w["siemens"].imag),
                ),
                Slip(
                    key="milli forgotten",
                    doing="forgetting that G is in millisiemens",
                    question="Did you mind the milli?",
                    remedy="One over a millisiemens is 1000 Ω.",
                    predict=lambda w: resistor(w) / MILLI,
                ),
                Slip(
                    key="normalised",
                    doing="giving one over g, without ohms",
                    question="Is that in ohms?",
                    remedy="One over g is normalised: take G in siemens.",
                    predict=lambda w: made.unless_same(1 / w["admittance"].real, resistor(w)),
                ),
            ),
        ),
        Field(
            quantity="parallel.part",
            label="The other part is",
            names=("other part", "part beside it", "parallel part"),
            kind=lambda w: Choice(
                ((CAPACITOR, "a capacitor"), (COIL, "a coil"), (NOTHING, "none: the load is real"))
            ),
            value=part,
            slips=(
                Slip(
                    key="sign of B",
                    doing="reading the susceptance as if it were a reactance",
                    question="Is that for a part in the line, or across it?",
                    remedy="A coil has X above zero, and so B below zero; a capacitor the other way round.",
                    predict=lambda w: {COIL: CAPACITOR, CAPACITOR: COIL}.get(part(w)),
                    usual=3,
                ),
                Slip(
                    key="left out",
                    doing="leaving the susceptance out",
                    question="Is B zero?",
                    remedy="B is not zero here, so something stands beside the resistor.",
                    predict=lambda w: None if part(w) == NOTHING else NOTHING,
                ),
            ),
        ),
    ),
)
