"""Which one to build against print, the closed form of a stub's error, and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

from math import pi, tan

import numpy as np
import pytest
import skrf
from skrf.media import DefinedGammaZ0

from lessons import open_sheet
from lessons.course.near_and_far import FAR, NEAR
from lessons.course.which_one_to_build import LESSON
from lessons.course.which_values import PIECES, designed
from lessons.grammar.problem import Problem
from tests.lessons.solving import random_problem, shipped_problems

SOME = [*shipped_problems(LESSON), *(random_problem(seed, LESSON) for seed in range(1, 9))]
SIDES = ("near", "far")
DESIGN = 868e6  # hertz; any will do
LIGHT = 299_792_458.0  # metres a second, by definition
every_problem = pytest.mark.parametrize("given", SOME, ids=lambda given: given.key)


def sheet_of(given: Problem):
    """A sheet of the problem, opened as a form does."""
    return open_sheet(LESSON, {one.key: one.kind.write(given[one.key]) for one in LESSON.givens})


class TestAgainstPrint:
    """60 - j80 ohm on 50 ohm, matched by a shorted shunt stub.

    Source: Pozar, Microwave Engineering, 4th ed., example 5.2 (from memory): d = 0.110 and l = 0.095, or d = 0.260 and
    l = 0.405 of a wave; "solution 1 has a significantly better bandwidth than solution 2; this is because both d and l
    are shorter, which reduces the frequency variation of the match"."""

    def test_the_designs_are_the_printed_ones(self):
        """The task tells the printed lengths, one decimal more exactly."""
        sheet = open_sheet(LESSON, {"load": "60-80j", "line": "50"})
        told = sheet.truth.say(LESSON.task)

        assert "near, d = 0.1104 λ and l = 0.0950 λ" in told
        assert "far, d = 0.2594 λ and l = 0.4050 λ" in told

    @pytest.mark.parametrize("by", ["-10", "-5", "5", "10"])
    def test_the_first_has_the_wider_band(self, by):
        """On either side of the design's frequency less comes back from the solution with shorter lines."""
        solution = open_sheet(LESSON, {"load": "60-80j", "line": "50", "by": by}).solution

        assert solution["back.near"] < 0.75 * solution["back.far"]
        assert "near" == solution["choose.which"]
        assert solution["reach.near"] > solution["reach.far"]


class TestASeriesStubInPrint:
    """100 + j80 ohm on 50 ohm, matched by an open stub in the line.

    Source: Pozar, Microwave Engineering, 4th ed., example 5.3 (from memory): d = 0.120 and l = 0.397, or d = 0.463 and
    l = 0.103 of a wave."""

    @pytest.mark.parametrize(("branch", "distance", "length"), [(NEAR, 0.120, 0.397), (FAR, 0.463, 0.103)])
    def test_the_designs_are_the_printed_ones(self, branch, distance, length):
        """The designs that the task tells have the printed lengths."""
        given = LESSON.problem({"load": 100 + 80j, "line": 50.0, "method": "series", "end": "open"})
        found = [designed(given, branch, piece) for piece in PIECES]

        assert [distance, length] == pytest.approx(found, abs=1e-3)


@every_problem
def test_what_comes_back_by_scikit_rf(given):
    """|Γ| of both solutions is that of scikit-rf's lines. Source: scikit-rf, general-purpose library.

    Of a wrong frequency the network is cut for the design's and looked at 5 % above it, say; a piece that is cut wrong
    is looked at where it was designed for."""
    solution, line, share = sheet_of(given).truth, given["line"], 1 + given["by"] / 100
    metres = LIGHT / DESIGN
    looked_at = DESIGN * (share if given["off"] == "frequency" else 1.0)
    frequency = skrf.Frequency.from_f([looked_at], unit="Hz")
    media = DefinedGammaZ0(frequency, z0=line, gamma=2j * np.pi * looked_at / LIGHT)
    end = media.short() if given["end"] == "short" else media.open()
    load = media.load((given["load"] - line) / (given["load"] + line))
    for side in SIDES:
        acting = [solution[f"{piece}_off.{side}"] for piece in ("distance", "length")]
        cut = [one / share if given["off"] == "frequency" else one for one in acting]
        along, stub = media.line(cut[0] * metres, "m") ** load, media.line(cut[1] * metres, "m") ** end
        z = [(1 + one.s[0, 0, 0]) / (1 - one.s[0, 0, 0]) for one in (along, stub)]
        total = sum(z) if given["method"] == "series" else 1 / sum(1 / one for one in z)

        assert abs((total - 1) / (total + 1)) == pytest.approx(solution[f"back.{side}"], rel=1e-9)


@every_problem
def test_the_sum_by_the_tangents(given):
    """The junction's total is the load's after the line, and the stub's, by the tangents of their lengths.

    Source: Pozar, Microwave Engineering, 4th ed., eq. 2.44 to 2.46 (from memory)."""
    solution = sheet_of(given).truth
    z = given["load"] / given["line"]
    for side in SIDES:
        t, u = (tan(2 * pi * solution[f"{piece}_off.{side}"]) for piece in ("distance", "length"))
        line = (z + 1j * t) / (1 + 1j * t * z)
        stub = 1j * u if given["end"] == "short" else -1j / u
        total = line + stub if given["method"] == "series" else 1 / line + 1 / stub

        assert total == pytest.approx(solution[f"total.{side}"], rel=1e-9)


@pytest.mark.parametrize("given", [one for one in SOME if one["off"] == "stub"], ids=lambda given: given.key)
def test_a_stub_cut_wrong_by_its_closed_form(given):
    """With the line right what is left over is an imaginary e beside 1: |Γ| = e / √(4 + e²).

    Source: arithmetic, from |Γ| = |jΔb| / |2 + jΔb|."""
    solution = sheet_of(given).truth
    for side in SIDES:
        left = abs(solution[f"arriving.{side}"].imag + solution[f"shows.{side}"])

        assert left / (4 + left**2) ** 0.5 == pytest.approx(solution[f"back.{side}"])
