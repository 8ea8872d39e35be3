"""The walk along a line against print and against another library: the lesson's own steps, there and back.

Published values are from memory, at the digits printed; what was read from a printed chart may be off by one in the
last digit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
import skrf

from lessons.course.along_the_line import LESSON
from lessons.grammar.given_lengths import Stated
from lessons.grammar.lesson import Work
from lessons.problems.seeds import random_problem

SEEDS = 200


@dataclass(frozen=True)
class Printed:
    """A worked example: what it gives, its readings toward the generator, and what it finds at the input."""

    load: complex
    line: float
    length: float
    start: float
    end: float
    normalised: complex
    digits: float
    ratio: float


EXAMPLES = [
    pytest.param(
        Printed(40 + 70j, 100, 0.3, 0.106, 0.406, 0.365 - 0.611j, 0.0015, 3.87),
        id="Pozar, Microwave Engineering, 4th ed., example 2.2 (from memory)",
    ),
    pytest.param(
        Printed(25 + 50j, 50, 3.3, 0.135, 0.435, 0.28 - 0.40j, 0.01, 4.26),
        id="Ulaby, Fundamentals of Applied Electromagnetics, the example of 25 + j50 on 3.3 wavelengths (from memory)",
    ),
]


@pytest.mark.parametrize("example", EXAMPLES)
class TestPrinted:
    def test_from_the_load(self, example: Printed):
        """Readings, standing-wave ratio and impedance at the input are those of the book."""
        work = _work(load=example.load, line=example.line, along=Stated(example.length, "wavelengths"))

        assert pytest.approx(example.start, abs=0.001) == work["start"]
        assert pytest.approx(example.end, abs=0.001) == work["end"]
        assert pytest.approx(example.ratio, abs=0.01) == work["mismatch"]
        assert pytest.approx(example.normalised, abs=example.digits) == work["there"]
        assert (
            pytest.approx(example.normalised * example.line, abs=example.digits * example.line)
            == work["ohms"]
        )

    def test_back_from_the_input(self, example: Printed):
        """From the book's impedance at the input the walk back ends at its load, as near as the digits printed let."""
        seen = example.normalised * example.line
        work = _work(input=seen, line=example.line, along=Stated(example.length, "wavelengths"))
        found, printed = (_reflection(ohms, example.line) for ohms in (work["ohms"], example.load))

        assert pytest.approx(printed, abs=0.01) == found


def test_readings_of_the_scale_toward_the_load():
    """Walking back, the scale toward the load is read: half a wavelength less the one toward the generator."""
    there = _work(load=40 + 70j, line=100.0, along=Stated(0.3, "wavelengths"))
    back = _work(input=there["ohms"], line=100.0, along=Stated(0.3, "wavelengths"))

    assert pytest.approx(0.5 - 0.406, abs=0.001) == back["start"]
    assert pytest.approx(0.5 - 0.106, abs=0.001) == back["end"]


def test_against_scikit_rf():
    """On random problems both ways, in every unit, scikit-rf's line with the lesson's load shows the lesson's input."""
    for seed in range(SEEDS):
        problem = random_problem(seed, LESSON)
        work = Work(LESSON, problem)
        known = problem["load"] if problem["load"] is not None else problem["input"]
        ends = (known, work["ohms"]) if problem["load"] is not None else (work["ohms"], known)
        wave = LESSON.wavelength_mm(problem)

        assert pytest.approx(ends[1], abs=1e-6) == _seen(ends[0], problem["line"], problem["along"], wave)


def _seen(load: complex, line: float, along: Stated, wavelength_mm: float | None) -> complex:
    """The input of a line by scikit-rf, its length in metres of a line whose wave is a metre long."""
    of_unit = {"wavelengths": 1.0, "degrees": 1 / 360, "millimetres": 1 / (wavelength_mm or np.nan)}
    frequency = skrf.Frequency(1, 1, 1, unit="ghz")
    medium = skrf.media.DefinedGammaZ0(frequency, z0=line, gamma=2j * np.pi)
    ends_in = medium.load(_reflection(load, line))
    return complex((medium.line(along.value * of_unit[along.unit], "m") ** ends_in).z[0, 0, 0])


def _reflection(ohms: complex, line: float) -> complex:
    return (ohms - line) / (ohms + line)


def _work(**givens: object) -> Work:
    return Work(LESSON, LESSON.problem(givens))
