"""Matching a load with a single shunt stub: the derivation, step by step, and how it goes wrong."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np

from core.board import guide_wavelength_m
from core.chart import (
    OPEN_POINT,
    RIM,
    SHORT_POINT,
    UNIT_CONDUCTANCE_CIRCLE,
    crossings,
    mismatch_circle,
    rim_position,
    walk,
)
from core.line import admittance_from_reflection, swr, wrap_half_wave
from core.network import MatchingNetwork, Section, Stub
from core.stubs import NO_SOLUTION, stub_length_for, stub_susceptance
from lessons import slips as made
from lessons.kinds import Choice, Immittance, LengthOfLine, Millimetres, Reflection, StandingWaveRatio, Susceptance
from lessons.lesson import SIDES, Field, Impossible, Lesson, Problem, Slip, Step, Work
from lessons.strokes import (
    Curve,
    DragAlong,
    DragRadius,
    HalfTurn,
    PickPoint,
    PlacePoint,
    Point,
    PointOnCircle,
    Ray,
    Stroke,
    Way,
    scale_reading,
)

# --- the derivation: each value from the ones before it ----------------------------------------------------------


def normalised_load(work: Work) -> complex:
    return work.problem.load_impedance / work.problem.line_impedance


def load_reflection(work: Work) -> complex:
    return _reflection(work["normalise"])


def load_swr(work: Work) -> float:
    return float(swr(work["place"]))


def load_admittance(work: Work) -> complex:
    return _inverse(work["normalise"])


def admittance_reflection(work: Work) -> complex:
    """Reflection on the line of the student's load admittance."""
    return -_reflection(work["admittance"])


def crossing(work: Work, side: str) -> complex:
    """Admittance where the mismatch circle meets the unit-conductance circle, near or far."""
    start = admittance_reflection(work)
    found = crossings(mismatch_circle(start), UNIT_CONDUCTANCE_CIRCLE) if abs(start) < 1 else ()
    if not found:
        raise Impossible(
            f"With {work.write('admittance')} for the load's admittance the mismatch circle does not cross the "
            "unit-conductance circle: go back to that step.",
            "admittance",
        )
    met = sorted(found, key=lambda point: _clockwise(start, point))
    return complex(1, admittance_from_reflection(met[SIDES.index(side) % len(met)]).imag)


def susceptance(work: Work, side: str) -> float:
    return float(work[f"crossing.{side}"].imag)


def distance(work: Work, side: str) -> float:
    return _clockwise(admittance_reflection(work), crossing_reflection(work, side))


def crossing_reflection(work: Work, side: str) -> complex:
    return -_reflection(work[f"crossing.{side}"])


def stub_needed(work: Work, side: str) -> float:
    return -work[f"susceptance.{side}"]


def on_stub_chart(work: Work, side: str) -> float:
    return work[f"needed.{side}"] * work.problem.stub_impedance / work.problem.line_impedance


def stub_length(work: Work, side: str) -> float:
    return float(stub_length_for(work[f"own.{side}"], "shunt", work.problem.end))


def total_admittance(work: Work, side: str) -> complex:
    shown = stub_susceptance(work[f"length.{side}"], "shunt", work.problem.end)
    return work[f"crossing.{side}"] + 1j * shown * work.problem.line_impedance / work.problem.stub_impedance


def in_millimetres(work: Work, what: str) -> float:
    return work[f"{what}.{work['choose.which']}"] * wavelength_mm(work)


def wavelength_mm(work: Work) -> float:
    return 1e3 * float(guide_wavelength_m(work.problem.frequency, work.problem.velocity_factor))


def built(work: Work, side: str) -> MatchingNetwork:
    """The network with the lengths in this work, for the solver to judge and the drawings to show."""
    problem = work.problem
    section = Section(float(wrap_half_wave(work[f"distance.{side}"])), problem.line_impedance)
    stub = Stub(float(wrap_half_wave(work[f"length.{side}"])), problem.stub_impedance, "shunt", problem.end)
    return MatchingNetwork(problem.load_impedance, problem.line_impedance, (section, stub))


REASONS: tuple[tuple[str, str, Callable[[MatchingNetwork], float]], ...] = (
    ("shorter distance", "it stands nearer the load", lambda n: n.elements[0].length),
    ("shorter stub", "its stub is shorter", lambda n: n.elements[1].length),
    ("less line", "it takes less line in all", lambda n: n.total_line),
    ("wider band", "it reflects less when the frequency is off by 5 %",
     lambda n: float(np.max(np.abs(n.input_reflection(np.array([0.95, 1.05])))))),
)  # fmt: skip


def true_reasons(work: Work) -> tuple[str, ...]:
    """What speaks for the chosen solution."""
    chosen, other = (built(work, s) for s in _chosen_first(work))
    return tuple(key for key, _, cost in REASONS if cost(chosen) <= cost(other))


def refuses(problem: Problem) -> str:
    """Why a problem has nothing to solve, or nothing."""
    load = problem.load_impedance
    if np.isinf(load) or load.real == 0:
        return NO_SOLUTION
    if abs(_reflection(load / problem.line_impedance)) < 1e-3:
        return "This load is matched already: nothing is reflected, and there is nothing for a stub to do."
    return ""


# --- small help ---------------------------------------------------------------------------------------------------


def _reflection(normalised: complex) -> complex:
    return 1 + 0j if np.isinf(normalised) else (normalised - 1) / (normalised + 1)


def _inverse(normalised: complex) -> complex:
    return complex(np.inf) if normalised == 0 else 1 / normalised


def _clockwise(start: complex, end: complex) -> float:
    """Wavelengths toward the generator from one point of a mismatch circle to another."""
    there = float(wrap_half_wave(rim_position(end) - rim_position(start)))
    return 0.0 if there > 0.5 - 1e-9 else there


def _other(side: str) -> str:
    return SIDES[1 - SIDES.index(side)]


def _chosen_first(work: Work) -> tuple[str, str]:
    return work["choose.which"], _other(work["choose.which"])


def _reading(work: Work, reflection: complex) -> float:
    return scale_reading(reflection, "admittance", work.notation.admittance)


def _stub_end(work: Work) -> complex:
    return SHORT_POINT if work.problem.end == "short" else OPEN_POINT


def _stub_reflection(work: Work, side: str) -> complex:
    """Where the stub's own input stands on the rim of its own chart."""
    return -_reflection(1j * work[f"own.{side}"])


def _both(
    key: str,
    label: str,
    kind: Callable[[Work], Any],
    value: Callable[[Work, str], Any],
    slips: Callable[[str], tuple[Slip, ...]],
    strokes: Callable[[Work, str], Iterable[Stroke]] = lambda work, side: (),
    gesture: Callable[[Work, str], Any] = lambda work, side: None,
) -> tuple[Field, Field]:
    """The near and the far field of a step."""

    def one(side: str) -> Field:
        mixed = made.branches_mixed(lambda work: value(work, _other(side)), side)
        return Field(
            f"{key}.{side}",
            f"{side.capitalize()}: {label}",
            kind,
            lambda work: value(work, side),
            (*slips(side), mixed),
            lambda work: strokes(work, side),
            lambda work: gesture(work, side),
        )

    return one("near"), one("far")


# --- the steps --------------------------------------------------------------------------------------------------

NORMALISE = Step(
    "normalise",
    "Normalise the load",
    "The chart is drawn for a line of 1. Divide the load {load} by the line impedance {line}.",
    "The chart knows no ohms: write the load as a multiple of the line impedance.",
    "z = Z / Z₀, the real and the imaginary part alike.",
    lambda w: w.say("z = ({load}) / {line}; divide both parts by ") + f"{w.problem.line_impedance:g}.",
    "One chart now serves every line.",
    (
        Field(
            "normalise",
            "Normalised load impedance z",
            lambda w: Immittance(),
            normalised_load,
            (
                Slip("not normalised", "leaving the load in ohms", "Did you divide by the line impedance?",
                      "Divide both parts by the line impedance, {line}.", lambda w: w.problem.load_impedance),
                Slip("stub's impedance", "dividing by the stub's impedance", "Which impedance did you divide by?",
                      "The load hangs on the line, so divide by {line}.",
                      lambda w: w.problem.load_impedance / w.problem.stub_impedance
                      if w.problem.stub_impedance != w.problem.line_impedance else None),
                Slip("upside down", "dividing the line impedance by the load", "Which one did you divide by which?",
                      "The load goes on top: z = Z / Z₀.", lambda w: _inverse(normalised_load(w))),
                made.sign_lost(normalised_load, "reactance"),
            ),
        ),
    ),
)  # fmt: skip

PLACE = Step(
    "place",
    "Place it on the chart",
    "Find z on the impedance grid and put the load's point there, or write its reflection coefficient as size and angle.",
    "Every impedance has one place on the chart: where its circle of r meets its arc of x.",
    "Follow the circle of constant r to the arc of constant x: inductive loads lie above the axis, capacitive below. "
    "In numbers, the reflection is (z − 1) / (z + 1).",
    lambda w: f"Circle r = {w.notation.number(w['normalise'].real)}, arc x = {w.notation.number(w['normalise'].imag)}.",
    "The distance from the centre is |Γ|, the part of the wave that comes back.",
    (
        Field(
            "place",
            "Reflection coefficient Γ",
            lambda w: Reflection(),
            load_reflection,
            (
                made.sign_lost(load_reflection, "reactance"),
                Slip("admittance place", "placing the load where its admittance stands", "Which grid did you read?",
                      "The load's impedance is read on the impedance grid.", lambda w: -load_reflection(w)),
                Slip("ruler", "measuring r and x off with a ruler", "Did you follow the curves of the grid?",
                      "r and x are read along the curved grid, not across and up.", lambda w: w["normalise"]),
            ),
            lambda w: (
                Point(w["place"], "load", "impedance", "z", f"The load at {w.notation.polar(w['place'])}.",
                      w.notation.complex(w["normalise"], 2)),
            ),
            lambda w: PlacePoint("impedance"),
        ),
    ),
)  # fmt: skip

MISMATCH = Step(
    "mismatch",
    "Draw the constant-mismatch circle",
    "Draw the circle about the centre through the load, and read its standing-wave ratio.",
    "Moving along a lossless line changes the phase of the reflection and nothing else, so all that this line can show "
    "lies on one circle.",
    "The circle is centred on the match point. Where it cuts the axis at the right, r is the standing-wave ratio.",
    lambda w: f"|Γ| = {w.notation.number(abs(w['place']))}, and the ratio is (1 + |Γ|) / (1 − |Γ|).",
    "Everything the line can do to this load is on that circle.",
    (
        Field(
            "mismatch",
            "Standing-wave ratio",
            lambda w: StandingWaveRatio(),
            load_swr,
            (
                Slip("left side", "reading the circle on the left of the centre",
                      "On which side of the centre did you read?",
                      "The ratio is 1 or more: read r where the circle cuts the axis at the right.",
                      lambda w: 1 / load_swr(w)),
                Slip("size of reflection", "giving |Γ| itself", "Is that |Γ| or the standing-wave ratio?",
                      "Turn it into the ratio (1 + |Γ|) / (1 − |Γ|).", lambda w: abs(w["place"])),
                Slip("constant r", "following the circle of constant r in place of the mismatch circle",
                      "About which point is your circle drawn?",
                      "The mismatch circle has its centre at the match point.", lambda w: w["normalise"].real),
                Slip("size of impedance", "taking the size of z for the ratio", "Did you draw the circle at all?",
                      "Draw the circle through the load and read it on the axis.", lambda w: abs(w["normalise"])),
                Slip("decibels", "giving the ratio in decibels", "Is that a ratio or decibels?",
                      "Give the plain ratio.", lambda w: 20 * float(np.log10(load_swr(w)))),
            ),
            lambda w: (
                Curve(mismatch_circle((w["mismatch"] - 1) / (w["mismatch"] + 1)), "mismatch", "impedance", "SWR",
                      f"The constant-mismatch circle, standing-wave ratio {w.write('mismatch')}.", w.write("mismatch")),
            ),
            lambda w: DragRadius(),
        ),
    ),
)  # fmt: skip

ADMITTANCE = Step(
    "admittance",
    "Cross to the admittance side",
    "A shunt stub adds to admittance. Read the load's normalised admittance y = 1 / z.",
    "Branches across the line add as admittances, so leave impedance behind here.",
    "With the half turn: go from z straight through the centre to the other side of the circle and read y on the same "
    "grid. With the overlay: stay, and read the dotted grid.",
    lambda w: f"y = 1 / ({w.notation.complex(w['normalise'])}).",
    "A quarter wavelength of line does the same: half a turn.",
    (
        Field(
            "admittance",
            "Normalised load admittance y",
            lambda w: Immittance(),
            load_admittance,
            (
                Slip("impedance kept", "using the impedance where the admittance is needed",
                      "Is that the impedance or the admittance?", "Cross the centre and read again: y = 1 / z.",
                      lambda w: w["normalise"]),
                made.sign_lost(load_admittance, "susceptance"),
                Slip("mirrored", "mirroring z in the axis in place of crossing the centre",
                      "Did you cross the centre, or the axis?", "The way leads through the centre of the chart.",
                      lambda w: w["normalise"].conjugate()),
                Slip("not normalised", "inverting the load in ohms", "Did you start from z, or from ohms?",
                      "Invert the normalised z.", lambda w: _inverse(w.problem.load_impedance)),
                Slip("stub's impedance", "normalising by the stub's impedance", "Which impedance did you normalise by?",
                      "Up to the junction all is line: use {line}.",
                      lambda w: w.problem.stub_impedance / w.problem.load_impedance
                      if w.problem.stub_impedance != w.problem.line_impedance else None),
            ),
            lambda w: (
                HalfTurn(admittance_reflection(w), "construction", "",
                         "Half a turn, from the impedance to its admittance."),
                Point(admittance_reflection(w), "load", "admittance", "y",
                      f"The load's admittance {w.write('admittance')}.", w.notation.complex(w["admittance"], 2)),
            ),
            lambda w: PlacePoint("admittance"),
        ),
    ),
)  # fmt: skip

UNIT_CIRCLE = Step(
    "unit_circle",
    "Draw the unit circle",
    "On which circle must the admittance lie for a stub to finish the match?",
    "A lossless stub can cancel a susceptance, but it can add no conductance.",
    "The match is y = 1. The stub takes care of the imaginary part, so the real part must be 1 already.",
    lambda w: "Look for all y = 1 + jb, whatever b is: a circle through the centre of the chart.",
    "From any point of it a stub leads to the centre.",
    (
        Field(
            "unit_circle",
            "The circle",
            lambda w: Choice((
                ("unit conductance", "g = 1, the unit-conductance circle"),
                ("unit resistance", "r = 1, the unit-resistance circle"),
                ("axis", "b = 0, the axis of the chart"),
                ("load conductance", "the circle of the load's own g"),
            )),
            lambda w: "unit conductance",
            (
                Slip("impedance kept", "using the impedance where the admittance is needed",
                      "Is the stub in the line or across it?", "A stub across the line adds to admittance: g must be 1.",
                      lambda w: "unit resistance"),
                Slip("axis", "cancelling the wrong part", "Which part can a stub cancel?",
                      "On the axis there is no susceptance left to cancel, and g is not 1 there.", lambda w: "axis"),
                Slip("constant g", "following the load's own conductance", "What must g be for a match?",
                      "g must become 1, and only walking along the line changes it.", lambda w: "load conductance"),
            ),
            lambda w: (
                Curve(UNIT_CONDUCTANCE_CIRCLE, "unit", "admittance", "g = 1", "The unit-conductance circle, g = 1."),
            ),
        ),
    ),
)  # fmt: skip


def _crossing_strokes(work: Work, side: str) -> Iterable[Stroke]:
    where = work.write(f"crossing.{side}")
    yield Point(crossing_reflection(work, side), side, "admittance", "y", f"The {side} crossing, {where}.",
                work.notation.complex(work[f"crossing.{side}"], 2))  # fmt: skip


CROSSINGS = Step(
    "crossing",
    "Find the two crossings",
    "Where does the mismatch circle meet g = 1? Walking clockwise from y, the first one met is the near crossing.",
    "The line takes y along its circle; stop where g is 1.",
    "Two circles meet in two points, one with b above zero and one below. Both serve.",
    lambda w: f"Both are 1 ± {w.notation.imaginary}b on the circle of SWR {w.write('mismatch')}. "
    "Start at y and walk clockwise: which comes first?",
    "At a crossing only the susceptance is left to cancel.",
    _both(
        "crossing", "admittance y", lambda w: Immittance("1.00 + j0.80"), crossing,
        lambda side: (
            Slip("constant b", "following the load's arc of constant susceptance to g = 1",
                  "Along which curve did you move?", "A line moves y along the mismatch circle.",
                  lambda w: complex(1, w["admittance"].imag)),
            Slip("constant x", "following the load's arc of constant reactance", "Along which curve did you move?",
                  "A line moves the point along the mismatch circle.", lambda w: complex(1, w["normalise"].imag)),
        ),
        _crossing_strokes,
        lambda w, side: PointOnCircle(mismatch_circle(admittance_reflection(w)), "admittance"),
    ),
)  # fmt: skip

SUSCEPTANCE = Step(
    "susceptance",
    "Read the susceptance there",
    "Read b at each crossing.",
    "What the stub must cancel is the imaginary part of y.",
    "At a crossing y = 1 + {j}b: b is the value of the arc through it, above the axis positive, below it negative.",
    lambda w: f"The crossings are {w.write('crossing.near')} and {w.write('crossing.far')}.",
    "This much is too much, and the stub has to take it away.",
    _both("susceptance", "susceptance b", lambda w: Susceptance(1.0), susceptance,
          lambda side: (made.sign_lost(lambda w: susceptance(w, side), "susceptance"),)),
)  # fmt: skip


def _distance_strokes(work: Work, side: str) -> Iterable[Stroke]:
    start = admittance_reflection(work)
    length = work.write(f"distance.{side}")
    yield Ray(start, "construction", "admittance", "", "The load's reading on the scale toward the generator.",
              work.notation.wavelengths(_reading(work, start)))  # fmt: skip
    yield Way(walk(start, work[f"distance.{side}"]), side, "admittance", work.notation.distance,
              f"The walk from the load to the {side} crossing, {length} toward the generator.", length)  # fmt: skip
    end = crossing_reflection(work, side)
    yield Ray(end, side, "admittance", "", f"The {side} crossing's reading on the same scale.",
              work.notation.wavelengths(_reading(work, end)))  # fmt: skip


def _distance_slips(side: str) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return distance(work, side)

    return (
        made.wrong_way(value),
        made.end_reading(value, lambda w: _reading(w, crossing_reflection(w, side))),
        made.start_off_by_quarter(value, "starting from the impedance where the admittance is needed",
                                  "Did you start at y, or at z?", "Start at y: that point is what the line moves."),
        made.double_angle(value),
        made.half_angle(value),
    )  # fmt: skip


DISTANCE = Step(
    "distance",
    "Measure the distance from the load",
    "How far is it from the load to each crossing? Walk clockwise, toward the generator, and give {d}.",
    "The angle walked on the chart is the length of line between load and stub.",
    "Read the outer scale of wavelengths toward the generator beside y and beside the crossing, and subtract. If the "
    "difference is negative the scale has started again in between: add 0.5.",
    lambda w: f"The scale reads {w.notation.wavelengths(_reading(w, admittance_reflection(w)))} beside y, "
    f"{w.notation.wavelengths(_reading(w, crossing_reflection(w, 'near')))} beside the near crossing and "
    f"{w.notation.wavelengths(_reading(w, crossing_reflection(w, 'far')))} beside the far one.",
    "Half a wavelength more would do as well: the circle closes.",
    _both("distance", "distance {d}", lambda w: LengthOfLine(), distance, _distance_slips, _distance_strokes,
          lambda w, side: DragAlong(admittance_reflection(w), "admittance")),
)  # fmt: skip

NEEDED = Step(
    "needed",
    "Cancel the susceptance",
    "Which susceptance must the stub add at each crossing?",
    "The two in parallel must leave nothing but 1.",
    "Admittances across the line add up: b of the line and b of the stub together must be zero.",
    lambda w: f"The line shows {w.write('susceptance.near')} at the near crossing and "
    f"{w.write('susceptance.far')} at the far one.",
    "Equal and opposite: they resonate, and the line sees a pure conductance.",
    _both("needed", "stub susceptance", lambda w: Susceptance(1.0), stub_needed, lambda side: (
        Slip("sign not flipped", "leaving the sign as it was",
              "Did you flip the sign?", "The stub must cancel b, so it shows the opposite.",
              lambda w: w[f"susceptance.{side}"]),
    )),
)  # fmt: skip


def _own_slips(side: str) -> tuple[Slip, ...]:
    return (
        Slip("ratio ignored", "using the line's normalisation for the stub", "Whose impedance is this normalised by?",
              "The stub is {stub}, the line {line}: multiply by the stub's and divide by the line's.",
              lambda w: w[f"needed.{side}"]),
        Slip("ratio inverted", "turning the ratio of the impedances over", "Which impedance is on top?",
              "A higher stub impedance means a larger normalised susceptance: multiply by {stub} / {line}.",
              lambda w: w[f"needed.{side}"] * w.problem.line_impedance / w.problem.stub_impedance),
        made.sign_lost(lambda w: on_stub_chart(w, side), "susceptance"),
    )  # fmt: skip


OWN = Step(
    "own",
    "Go over to the stub's own chart",
    "The stub is a line of {stub}, not {line}. What is its susceptance, normalised to the stub?",
    "Each line has a chart of its own, normalised by its own impedance.",
    "The same siemens count differently: multiply by the stub impedance and divide by the line impedance.",
    lambda w: w.say("Multiply ") + f"{w.write('needed.near')} and {w.write('needed.far')}" + w.say(" by {stub} / {line}."),
    "Now the rim of the stub's chart can be read.",
    _both("own", "susceptance on the stub's chart", lambda w: Susceptance(), on_stub_chart, _own_slips),
    applies=lambda problem: problem.stub_impedance != problem.line_impedance,
)  # fmt: skip

START = Step(
    "start",
    "Find where the stub starts",
    "A stub is a line of its own, and this one ends in {an_end} circuit. Where on the chart is that end, and which way leads to the junction?",
    "A stub is measured from its end, and its end is a point of the rim.",
    "A short circuit is y = ∞, an open circuit y = 0. From the end to the junction is toward the generator.",
    lambda w: w.say("This stub's end is {end}; its walk ends at the junction, nearer the generator."),
    "A lossless stub never leaves the rim.",
    (
        Field(
            "start.point", "The stub starts at",
            lambda w: Choice((
                ("short", "the short point, y = ∞"), ("open", "the open point, y = 0"),
                ("match", "the match point, y = 1"), ("load", "the load, y"),
            )),
            lambda w: w.problem.end,
            (
                Slip("wrong start", "starting at the other kind of end", "Is this stub's end short or open?",
                      "This stub's end is {end}.", lambda w: "open" if w.problem.end == "short" else "short"),
                Slip("match point", "starting where the stub should lead", "Where does the stub begin?",
                      "Start at the stub's end and walk to its input.", lambda w: "match"),
                Slip("load point", "taking the stub for a continuation of the line", "Is the load on the stub?",
                      "The stub is a branch of its own, with nothing at its end but {an_end} circuit.", lambda w: "load"),
            ),
            lambda w: (Point(_stub_end(w), "construction", "admittance", w.problem.end,
                             w.say("The {end} end of the stub, on the rim.")),),
            lambda w: PickPoint((("short", SHORT_POINT), ("open", OPEN_POINT), ("match", 0j),
                                 ("load", admittance_reflection(w))), "admittance"),
        ),
        Field(
            "start.sense", "and is walked",
            lambda w: Choice((("clockwise", "clockwise, toward the generator"),
                              ("counter-clockwise", "counter-clockwise, toward the load"))),
            lambda w: "clockwise",
            (
                Slip("wrong way", "walking toward the load", "At which end of the stub is the junction?",
                      "Seen from the stub's end, the junction is on the generator's side: clockwise.",
                      lambda w: "counter-clockwise"),
            ),
        ),
    ),
)  # fmt: skip


def _length_strokes(work: Work, side: str) -> Iterable[Stroke]:
    length = work.write(f"length.{side}")
    yield Way(walk(_stub_end(work), work[f"length.{side}"]), side, "admittance", work.notation.stub_length,
              work.say(f"The {side} stub: from the {{end}} point {length} clockwise along the rim."), length)  # fmt: skip
    yield Point(_stub_reflection(work, side), side, "admittance", "b", f"The {side} stub's input on the rim.",
                work.notation.number(work[f"own.{side}"], 2))  # fmt: skip


def _length_slips(side: str) -> tuple[Slip, ...]:
    def value(work: Work) -> float:
        return stub_length(work, side)

    def for_susceptance(wanted: Callable[[Work], float]) -> Callable[[Work], Any]:
        def predict(work: Work) -> Any:
            length = float(stub_length_for(wanted(work), "shunt", work.problem.end))
            return None if length == value(work) else length

        return predict

    return (
        made.wrong_way(value),
        made.start_off_by_quarter(value, "starting at the other kind of end", "Is this stub's end short or open?",
                                  "This stub's end is {end}: start there."),
        made.end_reading(value, lambda w: _reading(w, _stub_reflection(w, side))),
        made.double_angle(value),
        made.half_angle(value),
        Slip("sign not flipped", "cancelling with the same sign", "Did you flip the sign of b?",
              "The stub must show minus what the line shows.", for_susceptance(lambda w: -w[f"own.{side}"])),
        Slip("ratio ignored", "forgetting that the stub has an impedance of its own",
              "Whose impedance is the susceptance normalised by?", "Use the susceptance on the stub's own chart.",
              for_susceptance(lambda w: w[f"needed.{side}"])),
        Slip("ratio inverted", "turning the ratio of stub and line impedance over", "Which impedance is on top?",
              "Multiply by {stub} / {line}.",
              for_susceptance(lambda w: w[f"needed.{side}"] * w.problem.line_impedance / w.problem.stub_impedance)),
    )  # fmt: skip


LENGTH = Step(
    "length",
    "Walk the rim for the stub's length",
    "Start at the {end} point and walk clockwise along the rim to the susceptance needed. Give {l} for each.",
    "The stub must be long enough to show that susceptance at the junction, and no longer.",
    "Read the outer scale where b stands on the rim, less its reading at the stub's end; add 0.5 if that is negative.",
    lambda w: w.say("From the {end} point")
    + f" ({w.notation.wavelengths(_reading(w, _stub_end(w)))} on the scale) to b = {w.write('own.near')} for the near "
    f"stub, and to b = {w.write('own.far')} for the far one.",
    "The stub stays shorter than half a wavelength; longer ones repeat.",
    _both("length", "stub length {l}", lambda w: LengthOfLine(), stub_length, _length_slips, _length_strokes,
          lambda w, side: DragAlong(_stub_end(w), "admittance")),
)  # fmt: skip

TOTAL = Step(
    "total",
    "Check the junction",
    "Add the line's admittance and the stub's at the junction. What is the total?",
    "If all is well the line from the generator sees its own admittance, and nothing comes back.",
    "Add y at the crossing and {j} times the stub's susceptance.",
    lambda w: f"Near: {w.write('crossing.near')} and {w.notation.imaginary}({w.write('needed.near')}).",
    "At the centre of the chart: matched.",
    _both("total", "total admittance y", lambda w: Immittance("1.00 + j0.00"), total_admittance, lambda side: (
        Slip("stub left out", "leaving the stub out", "Did you add the stub?", "Add the stub's susceptance.",
              lambda w: w[f"crossing.{side}"]),
        Slip("sign not flipped", "adding b twice in place of cancelling it", "Is the stub's sign opposite to b?",
              "The stub's susceptance is the opposite of b.",
              lambda w: w[f"crossing.{side}"] + 1j * w[f"crossing.{side}"].imag),
        Slip("conductance lost", "giving the susceptance alone", "What is the real part?",
              "The conductance 1 is still there.", lambda w: complex(0, total_admittance(w, side).imag)),
    ), lambda w, side: (Point(-_reflection(w[f"total.{side}"]), side, "admittance", "y",
                              f"The {side} junction's total, {w.write(f'total.{side}')}."),)),
)  # fmt: skip


def _untrue(key: str, words: str) -> Slip:
    return Slip(f"untrue {key}", f"giving a reason that is not so: {words} only for the other solution",
                 "Does that hold for the solution you chose?", "Compare the two solutions' lengths on your sheet.",
                 lambda w: None if key in true_reasons(w) else key)  # fmt: skip


CHOOSE = Step(
    "choose",
    "Choose one",
    "Both solutions match. Which would you build, and why?",
    "There is no wrong choice here, but there are untrue reasons.",
    "Less line in all usually means less loss and a wider band; a longer stub may be easier to make.",
    lambda w: f"Near: {w.write('distance.near')} and {w.write('length.near')}. "
    f"Far: {w.write('distance.far')} and {w.write('length.far')}.",
    "A short stub near the load is the usual choice, and a shorted one radiates less and is easily made.",
    (
        Field("choose.which", "I would build", lambda w: Choice((("near", "the near one"), ("far", "the far one"))),
              lambda w: min(SIDES, key=lambda side: built(w, side).total_line), accepts=lambda w: SIDES),
        Field("choose.why", "because", lambda w: Choice(tuple((key, words) for key, words, _ in REASONS)),
              lambda w: (true_reasons(w) or ("less line",))[0],
              tuple(_untrue(key, words) for key, words, _ in REASONS),
              accepts=lambda w: true_reasons(w)),
    ),
)  # fmt: skip


def _metric(what: str, label: str) -> Field:
    def value(work: Work) -> float:
        return in_millimetres(work, what)

    def slip(key: str, doing: str, question: str, remedy: str, factor: Callable[[float], float]) -> Slip:
        return Slip(key, doing, question, remedy,
                     lambda w: value(w) * factor(w.problem.velocity_factor)
                     if w.problem.velocity_factor != 1 else None)  # fmt: skip

    return Field(
        f"millimetres.{what}", label, lambda w: Millimetres(wavelength_mm(w)), value,
        (
            slip("velocity ignored", "using the wavelength of free space", "Did you use the velocity factor?",
                 "On the line waves are slower and wavelengths shorter: multiply by the velocity factor.",
                 lambda v: 1 / v),
            slip("velocity inverted", "dividing by the velocity factor", "Is a wave on the line longer or shorter?",
                 "Multiply by the velocity factor.", lambda v: 1 / v**2),
            made.branches_mixed(lambda w: w[f"{what}.{_chosen_first(w)[1]}"] * wavelength_mm(w), "chosen"),
        ),
    )  # fmt: skip


MILLIMETRES = Step(
    "millimetres",
    "Give the lengths in millimetres",
    "For the solution you chose, give both lengths in millimetres.",
    "The chart counts in wavelengths; a saw counts in millimetres.",
    "The wavelength on the line is the velocity factor times 299 792 458 m/s divided by the frequency.",
    lambda w: f"The wavelength on the line is {w.notation.number(wavelength_mm(w), 1)} mm; the lengths are "
    f"{w.write('distance.' + w['choose.which'])} and {w.write('length.' + w['choose.which'])}.",
    "Cut a little long and trim: a real line ends where you measure that it does.",
    (_metric("distance", "distance {d} in mm"), _metric("length", "stub length {l} in mm")),
    applies=lambda problem: problem.frequency is not None,
)

def closing(work: Work) -> str:
    """What the finished design achieves, by the solver and for the load as given."""
    ratios = (f"{side} {work.notation.number(float(swr(built(work, side).input_reflection())), 2)}" for side in SIDES)
    return f"Built with the lengths on this sheet, the solver finds a standing-wave ratio of {', '.join(ratios)}."


LESSON = Lesson(
    "shunt_stub",
    "Matching with a single shunt stub",
    "A short piece of line across the main line cancels what the load sends back. Find where it goes and how long it is.",
    (NORMALISE, PLACE, MISMATCH, ADMITTANCE, UNIT_CIRCLE, CROSSINGS, SUSCEPTANCE, DISTANCE, NEEDED, OWN, START, LENGTH,
     TOTAL, CHOOSE, MILLIMETRES),
    refuses,
    built,
    closing,
)  # fmt: skip
