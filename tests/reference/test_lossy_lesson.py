"""The lesson of a lossy line against print, scikit-rf and the network evaluator.

What is printed was recalled from memory, not read from the books; each value was recomputed and agrees.
"""

import numpy as np
import pytest
import skrf

from core.power import power_flow
from lessons import open_sheet
from lessons.course.lossy_line import LESSON
from tests.lessons.solving import blank, random_problem, shipped_problems

CURVES = "curves of the loss that standing waves add, as handbooks print them, read to 0.1 dB (from memory)"


@pytest.mark.parametrize(
    ("ratio", "loss", "printed"),
    [
        pytest.param(2, 3, 0.4, id=CURVES + ", 2:1 at 3 dB"),
        pytest.param(3, 3, 1.0, id=CURVES + ", 3:1 at 3 dB"),
        pytest.param(5, 1, 1.1, id=CURVES + ", 5:1 at 1 dB"),
    ],
)
def test_added_loss(ratio, loss, printed):
    """What the mismatch adds is what the curve for that standing-wave ratio says."""
    sheet = open_sheet(
        "lossy-line", {"load": f"{50 * ratio}", "line": "50", "along": "0.3", "loss": f"{loss}"}
    )

    assert printed == pytest.approx(sheet.solution["extra"], abs=0.05)


@pytest.mark.parametrize(("load", "loss"), [("25-35j", 2.0), ("150-60j", 0.7), ("10+40j", 4.0)])
def test_against_the_printed_formula(load, loss):
    """The whole loss is 10 log of (a² − |Γ|²) / (a (1 − |Γ|²)), a being 10 to the power of loss / 10.

    Source: ARRL Antenna Book, formula of the total mismatched line loss (from memory)."""
    sheet = open_sheet("lossy-line", {"load": load, "line": "50", "along": "0.3", "loss": f"{loss}"})
    a, back = 10 ** (loss / 10), abs((complex(load) - 50) / (complex(load) + 50)) ** 2

    assert 10 * np.log10((a**2 - back) / (a * (1 - back))) == pytest.approx(sheet.solution["total"])


@pytest.mark.parametrize(("load", "along", "loss"), [("25-35j", 0.3, 2.0), ("150-60j", 0.72, 1.0)])
def test_agrees_with_scikit_rf(load, along, loss):
    """Reflection at the input, its ratio, and the power that arrives are those of a lossy line in scikit-rf.

    Source: scikit-rf, general-purpose library."""
    given = {"load": load, "line": "50", "along": f"{along}", "loss": f"{loss}"}
    solution = open_sheet("lossy-line", given).solution
    band = skrf.Frequency(1, 1, 1, "ghz")
    media = skrf.media.DefinedGammaZ0(band, z0=50, gamma=loss * np.log(10) / 20 + 2j * np.pi * along)
    line = media.line(1, "m")
    back = (complex(load) - 50) / (complex(load) + 50)
    seen = (line ** media.load(back)).s[0, 0, 0]
    wave = line.s[0, 1, 0] / (1 - line.s[0, 1, 1] * back)  # that arrives at the load, of one that sets out

    assert abs(seen) == pytest.approx(solution["size"])
    assert (1 + abs(seen)) / (1 - abs(seen)) == pytest.approx(solution["ratio"])
    arrives = abs(wave) ** 2 * (1 - abs(back) ** 2) / (1 - abs(seen) ** 2)
    assert 100 * arrives == pytest.approx(solution["share"])


PROBLEMS = [*shipped_problems(LESSON), *(random_problem(seed, LESSON) for seed in range(5))]


@pytest.mark.parametrize("given", PROBLEMS, ids=lambda one: one.key)
def test_the_evaluator_agrees(given):
    """The network of every problem reflects and delivers what the lesson says, by its element list alone."""
    work = blank(given).truth
    network = LESSON.network(work, None, LESSON.fields)
    assert network is not None
    seen = network.input_reflection()

    assert work["size"] == pytest.approx(abs(seen))
    assert 100 * power_flow(network).efficiency == pytest.approx(work["share"])
    reading = (0.25 - np.angle(seen) / (4 * np.pi)) % 0.5
    assert abs((reading - work["end"] + 0.25) % 0.5 - 0.25) < 1e-9
