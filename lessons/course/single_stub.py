"""The derivation of a match with a single stub, from which the shunt and the series lesson are made."""

from __future__ import annotations

from lessons.course import choosing_steps, crossing_steps, distance_step, junction_steps, stub_steps
from lessons.course.admittance_step import ADMITTANCE
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
from lessons.course.choosing_steps import (
    LESS_LINE,
    LONGER_STUB,
    MORE_ROOM,
    NEARER,
    SHORTER_STUB,
    WIDER_BAND,
    asked_before,
)
from lessons.course.givens import (
    END,
    FREQUENCY,
    LINE,
    LOAD,
    PLACES,
    STUB,
    VELOCITY,
    is_instructive,
    wavelength_mm,
    with_frequency,
)
from lessons.course.glossary import STUB_TERMS
from lessons.course.near_and_far import BOTH, CROSSINGS
from lessons.course.stub_values import StubValues, bare, has_own_impedance, refuses
from lessons.grammar.branch import Branch
from lessons.grammar.lesson import Lesson, Slip, Work
from lessons.grammar.primer import Primer
from lessons.grammar.side import Side

BY_THE_STUB = Slip(
    key="stub's impedance",
    doing="dividing by the stub's impedance",
    question="Which impedance did you divide by?",
    remedy="The load hangs on the line, so divide by {line}.",
    predict=lambda w: w["load"] / w["stub"] if has_own_impedance(w) else None,
)
BY_THE_STUBS_LINE = Slip(
    key="stub's impedance",
    doing="normalising by the stub's impedance",
    question="Which impedance did you normalise by?",
    remedy="Up to the junction all is line: use {line}.",
    predict=lambda w: w["stub"] / w["load"] if has_own_impedance(w) else None,
)
BY_LENGTH = (NEARER, SHORTER_STUB, LESS_LINE, LONGER_STUB, MORE_ROOM)
RULE = "Less line in all usually means less loss and a wider band; a longer stub may be easier to make."
BECAUSE = (
    "Less line in all is the usual choice; a shorted end radiates less than an open one and is easy to make."
)
EXCHANGED = (
    "exchanging the distance and the stub's length",
    "Is this the distance, or the stub's length?",
    "The distance is the line between load and stub; the stub hangs on its end.",
)


def single_stub(
    side: Side,
    *,
    key: str,
    title: str,
    purpose: str,
    task: str,
    primer: Primer,
    needs: tuple[str, ...] = (),
    former_keys: tuple[str, ...] = (),
) -> Lesson:
    """The lesson of a single stub on one side of the line; what hangs across it needs the admittance first."""
    values = StubValues(side)
    return Lesson(
        key=key,
        title=title,
        purpose=purpose,
        task=lambda work: with_frequency(work, task),
        brief=_brief,
        givens=(LOAD, LINE, STUB, FREQUENCY, VELOCITY, END),
        branches=BOTH,
        steps=(
            NORMALISE.with_slips(BY_THE_STUB),
            PLACE,
            MISMATCH,
            *((ADMITTANCE.with_slips(BY_THE_STUBS_LINE),) if side.immittance == "admittance" else ()),
            crossing_steps.unit_circle(values),
            crossing_steps.crossings(values),
            crossing_steps.part_there(values),
            distance_step.distance(values),
            junction_steps.needed(values),
            stub_steps.own(values),
            stub_steps.start(values),
            stub_steps.length(values),
            junction_steps.total(values),
            choosing_steps.choose((*BY_LENGTH, WIDER_BAND), RULE, BECAUSE, _lengths),
            choosing_steps.millimetres(
                CROSSINGS,
                asked_before("distance", "distance", distance_step.DISTANCE),
                asked_before("length", "stub length", stub_steps.STUB_LENGTH),
                EXCHANGED,
            ),
        ),
        refuses=refuses,
        network=values.network,
        bare=bare,
        matches=True,
        wavelength_mm=wavelength_mm,
        instructive=is_instructive,
        places=tuple(f"{place} Match it with one stub." for place in PLACES),
        terms=STUB_TERMS,
        primer=primer,
        needs=needs,
        waves_after="mismatch",
        former_keys=former_keys,
    )


def _brief(work: Work) -> str:
    of_its_own = " of {stub}" if work["stub"] != work["line"] else ""
    kind = {"short": "shorted", "open": "open"}[work["end"]]
    return f"Load {{load}} on {{line}}, {kind} stub{of_its_own}"


def _lengths(work: Work, branch: Branch) -> str:
    return " and ".join(work.write_of(quantity, branch) for quantity in ("distance", "length"))
