"""The derivation of a match with a single stub, from which the shunt and the series lesson are made."""

from __future__ import annotations

from lessons.course import choosing_steps, crossing_steps, distance_step, junction_steps, stub_steps
from lessons.course.admittance_step import ADMITTANCE
from lessons.course.chart_steps import MISMATCH, NORMALISE, PLACE
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
)
from lessons.course.glossary import TERMS
from lessons.course.near_and_far import BOTH
from lessons.course.stub_values import StubValues, bare, refuses
from lessons.grammar.lesson import Lesson, Work
from lessons.grammar.primer import Primer
from lessons.grammar.side import Side


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
        task=lambda work: _with_frequency(work, task),
        brief=_brief,
        givens=(LOAD, LINE, STUB, FREQUENCY, VELOCITY, END),
        branches=BOTH,
        steps=(
            NORMALISE,
            PLACE,
            MISMATCH,
            *((ADMITTANCE,) if side.immittance == "admittance" else ()),
            crossing_steps.unit_circle(values),
            crossing_steps.crossings(values),
            crossing_steps.part_there(values),
            distance_step.distance(values),
            junction_steps.needed(values),
            stub_steps.own(values),
            stub_steps.start(values),
            stub_steps.length(values),
            junction_steps.total(values),
            choosing_steps.choose(values),
            choosing_steps.millimetres(distance_step.DISTANCE, stub_steps.STUB_LENGTH),
        ),
        refuses=refuses,
        network=values.network,
        bare=bare,
        matches=True,
        wavelength_mm=wavelength_mm,
        instructive=is_instructive,
        places=tuple(f"{place} Match it with one stub." for place in PLACES),
        terms=TERMS,
        primer=primer,
        needs=needs,
        waves_after="mismatch",
        former_keys=former_keys,
    )


def _with_frequency(work: Work, task: str) -> str:
    if not work["frequency"]:
        return task
    return f"{task} The frequency is {{frequency}}, the velocity factor {{velocity}}."


def _brief(work: Work) -> str:
    of_its_own = " of {stub}" if work["stub"] != work["line"] else ""
    kind = {"short": "shorted", "open": "open"}[work["end"]]
    return f"Load {{load}} on {{line}}, {kind} stub{of_its_own}"
