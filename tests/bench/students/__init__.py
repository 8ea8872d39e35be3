"""Simulated students, whose arithmetic is their own: a lesson's name, and who takes it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from random import Random
from typing import Any

from tests.bench.students import (
    admittance,
    along_the_line,
    copper,
    double_mistakes,
    double_stub,
    lossy,
    quarter_mistakes,
    reading,
    standing_wave,
    stub_alone,
    stub_mistakes,
    two_reactances,
    unknown_load,
    which_one,
)
from tests.bench.students.on_chart import ChartStudent
from tests.bench.students.people import Mistake
from tests.bench.students.quarter_wave import QuarterStudent
from tests.bench.students.single_stub import StubStudent


@dataclass(frozen=True)
class Taker:
    """Who takes a lesson.

    student : somebody with a problem, from its givens.  mistakes : what can go wrong in a field.
    problem : any problem of the lesson, made of one that gives a load, a line and a stub."""

    student: Callable[..., ChartStudent]
    mistakes: Callable[[Any, str], list[Mistake]]
    problem: Callable[[Random, Mapping[str, Any]], Mapping[str, Any]] = lambda chance, usual: usual


def _with_stub(shunt: bool) -> Taker:
    def student(givens: Mapping[str, Any], overlay: bool) -> StubStudent:
        return StubStudent(**givens, shunt=shunt, overlay=overlay)

    return Taker(student, stub_mistakes.mistakes)


def _with_quarter_wave(givens: Mapping[str, Any], overlay: bool) -> QuarterStudent:
    return QuarterStudent(**givens, overlay=overlay)


def _along_the_line(givens: Mapping[str, Any], overlay: bool) -> along_the_line.LineStudent:
    known = {key: value for key, value in givens.items() if key not in ("load", "input")}
    back = givens["load"] is None
    load = givens["input"] if back else givens["load"]
    return along_the_line.LineStudent(**known, load=load, back=back, overlay=overlay)


def _admittance(givens: Mapping[str, Any], overlay: bool) -> admittance.AdmittanceStudent:
    return admittance.AdmittanceStudent(**givens, frequency=None, velocity=1.0, overlay=overlay)


def _stub_alone(givens: Mapping[str, Any], overlay: bool) -> stub_alone.StubAloneStudent:
    return stub_alone.StubAloneStudent(**givens, overlay=overlay)


def _two_reactances(givens: Mapping[str, Any], overlay: bool) -> two_reactances.TwoStudent:
    return two_reactances.TwoStudent(**givens, velocity=1.0, overlay=overlay)


def _lossy(givens: Mapping[str, Any], overlay: bool) -> lossy.LossyStudent:
    return lossy.LossyStudent(**givens, back=False, overlay=overlay)


def _reading(givens: Mapping[str, Any], overlay: bool) -> reading.ReadingStudent:
    return reading.ReadingStudent(**givens, frequency=None, velocity=1.0, overlay=overlay)


def _with_two_stubs(givens: Mapping[str, Any], overlay: bool) -> double_stub.TwoStubStudent:
    stubs, ends = (
        {which: givens[f"{which}_{what}"] for which in ("first", "second")} for what in ("stub", "end")
    )
    known = {key: givens[key] for key in ("load", "line", "spacing")}
    return double_stub.TwoStubStudent(
        **known, stubs=stubs, ends=ends, frequency=None, velocity=1.0, overlay=overlay
    )


def _with_a_board(givens: Mapping[str, Any], overlay: bool) -> copper.CopperStudent:
    return copper.CopperStudent(**givens, overlay=overlay)


def _which_one(givens: Mapping[str, Any], overlay: bool) -> which_one.WhichStudent:
    return which_one.WhichStudent(**givens, frequency=None, velocity=1.0, overlay=overlay)


TAKERS: dict[str, Taker] = {
    "reading-the-chart": Taker(_reading, reading.mistakes),
    "along-the-line": Taker(_along_the_line, along_the_line.mistakes, along_the_line.problem),
    "impedance-and-admittance": Taker(_admittance, admittance.mistakes),
    "standing-wave": Taker(standing_wave.student, standing_wave.mistakes, standing_wave.problem),
    "unknown-load": Taker(unknown_load.student, unknown_load.mistakes, unknown_load.problem),
    "stub-alone": Taker(_stub_alone, stub_alone.mistakes, stub_alone.problem),
    "shunt-stub": _with_stub(True),
    "series-stub": _with_stub(False),
    "quarter-wave": Taker(_with_quarter_wave, quarter_mistakes.mistakes),
    "two-reactances": Taker(_two_reactances, two_reactances.mistakes, two_reactances.problem),
    "lossy-line": Taker(_lossy, lossy.mistakes, lossy.problem),
    "double-stub": Taker(_with_two_stubs, double_mistakes.mistakes, double_stub.problem),
    "wavelengths-to-copper": Taker(_with_a_board, copper.mistakes, copper.problem),
    "which-one-to-build": Taker(_which_one, which_one.mistakes, which_one.problem),
}
"""Who takes which lesson; a lesson that stands not here is played by nobody, and the table says so."""

__all__ = ["TAKERS", "Taker"]
