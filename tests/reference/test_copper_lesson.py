"""The lesson from wavelengths to copper against print, another published closed form, and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest
import skrf
from skrf.media import DefinedGammaZ0

from core import Microstrip
from lessons import open_sheet
from lessons.course.wavelengths_to_copper import LESSON
from tests.lessons.solving import shipped_problems

LIGHT = 299_792_458.0  # metres a second, by definition


def on_board(permittivity: str, height: str, frequency: str, **others: str):
    """A sheet of a load on 50 ohm, made on this board."""
    board = {"permittivity": permittivity, "height": height, "frequency": frequency}
    return open_sheet("wavelengths-to-copper", {"load": "60-80j", "line": "50", **board, **others})


@pytest.mark.parametrize(
    ("board", "ratio", "width", "effective", "wave"),
    [
        pytest.param(
            ("9.9", "0.5", "10 GHz"), "0.9654", "0.483", "6.665", 8.72 / 0.75,
            id="Pozar, Microwave Engineering, 4th ed., example 3.7: 50 ohm on alumina, 270 degrees are 8.72 mm",
        ),
        pytest.param(
            ("2.2", "1.27", "2.5 GHz"), "3.081", "3.91", "1.87", 4 * 21.9,
            id="Pozar, Microwave Engineering, 2nd and 3rd ed., example 3.7: 50 ohm, 90 degrees are 21.9 mm",
        ),
    ],
)  # fmt: skip
def test_against_print(board, ratio, width, effective, wave):
    """Whoever writes the printed width, permittivity and wavelength is right (from memory)."""
    sheet = on_board(*board)
    printed = {"strip.ratio": ratio, "strip.width": width, "effective": effective, "wave": f"{wave:.2f}"}
    for key, text in printed.items():
        sheet = sheet.enter(key, text)
        assert "right" == sheet.verdicts[key].judgement, key
        assert pytest.approx(float(text), rel=4e-3) == sheet.solution[key]


@pytest.mark.parametrize(("solution", "distance", "length"), [("near", 0.110, 0.095), ("far", 0.260, 0.405)])
def test_the_design_is_the_printed_one(solution, distance, length):
    """60 - j80 ohm on 50 ohm with a shorted stub is made of the printed parts of a wave.

    Source: Pozar, Microwave Engineering, 4th ed., example 5.2 (from memory)."""
    found = on_board("4.4", "1.6", "868 MHz", end="short", design=solution).solution
    parts = [found[f"metric.{piece}"] / found["wave"] for piece in ("distance", "length")]

    assert [distance, length] == pytest.approx(parts, abs=1e-3)


@pytest.mark.parametrize("given", shipped_problems(LESSON), ids=lambda given: given.key)
def test_open_end_by_another_formula(given):
    """What an open end adds is within 10 % of what Kirschning, Jansen and Koster give (1981, from memory)."""
    accurate = Microstrip(given["permittivity"], given["height"])
    sheet = open_sheet(LESSON, {one.key: one.kind.write(given[one.key]) for one in LESSON.givens})
    expected = accurate.open_end_mm(given["line"]) if given["end"] == "open" else 0.0

    assert expected == pytest.approx(sheet.solution["end_effect"], rel=0.1)


@pytest.mark.parametrize("given", shipped_problems(LESSON), ids=lambda given: given.key)
def test_cost_by_scikit_rf(given):
    """The SWR of the lengths as cut is that of scikit-rf's lines. Source: scikit-rf, general-purpose library."""
    sheet = open_sheet(LESSON, {one.key: one.kind.write(given[one.key]) for one in LESSON.givens})
    solution, line = sheet.solution, given["line"]
    extra = solution["end_effect"]
    frequency = skrf.Frequency.from_f([given["frequency"]], unit="Hz")
    gamma = 2j * np.pi * given["frequency"] * np.sqrt(solution["effective"]) / LIGHT
    media = DefinedGammaZ0(frequency, z0=line, gamma=gamma)
    end = media.short() if given["end"] == "short" else media.open()
    stub = media.line((solution["cut.length"] + extra) * 1e-3, "m") ** end
    along = media.line(solution["cut.distance"] * 1e-3, "m") ** media.load(
        (given["load"] - line) / (given["load"] + line)
    )
    admittance = sum((1 - one.s[0, 0, 0]) / (1 + one.s[0, 0, 0]) for one in (stub, along))
    size = abs((1 - admittance) / (1 + admittance))

    assert (1 + size) / (1 - size) == pytest.approx(solution["cost"], rel=1e-9)
