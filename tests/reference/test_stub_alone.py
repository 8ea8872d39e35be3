"""The lesson of a stub alone against print and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest
import skrf

from lessons import open_sheet

WAVES = [0.03, 0.1, 0.17, 0.24, 0.31, 0.45, 0.7]


@pytest.mark.parametrize("accuracy", ["chart", "calculated"])
@pytest.mark.parametrize(
    ("givens", "field", "printed"),
    [
        pytest.param(
            {"line": "50", "along": "0.125", "end": "short"}, "ohms", "50",
            id="Pozar, 4th ed., section 2.3, eq. 2.45c, at an eighth of a wave: jZ0 (from memory)",
        ),
        pytest.param(
            {"line": "50", "along": "0.125", "end": "open"}, "ohms", "-50",
            id="Pozar, 4th ed., section 2.3, eq. 2.46c, at an eighth of a wave: -jZ0 (from memory)",
        ),
        pytest.param(
            {"line": "50", "wanted": "66.5", "end": "open"}, "length", "0.397",
            id="Pozar, 4th ed., Ex 5.3: open series stub that shows x = 1.33 (from memory)",
        ),
        pytest.param(
            {"line": "50", "wanted": "-66.5", "end": "open"}, "length", "0.103",
            id="Pozar, 4th ed., Ex 5.3: the other one, x = -1.33 (from memory)",
        ),
        pytest.param(
            {"line": "100", "along": "30°", "end": "short"}, "ohms", "57.7",
            id="tangent of 30 degrees in every handbook of mathematics: 0.577",
        ),
        pytest.param(
            {"line": "100", "along": "60°", "end": "open"}, "ohms", "-57.7",
            id="cotangent of 60 degrees in every handbook of mathematics: 0.577",
        ),
    ],
)  # fmt: skip
def test_against_print(givens, field, printed, accuracy):
    """Whoever writes the printed value is right, by either accuracy."""
    sheet = open_sheet("stub-alone", {**givens, "accuracy": accuracy})

    assert float(printed) == pytest.approx(sheet.solution[field], rel=5e-3)
    assert "right" == sheet.enter(field, printed).verdicts[field].judgement


@pytest.mark.parametrize("end", ["short", "open"])
@pytest.mark.parametrize("waves", WAVES)
def test_agrees_with_scikit_rf(end, waves):
    """Reactance, and reactance when cut too long, are those of scikit-rf's line with that end.

    Source: scikit-rf, general-purpose library."""
    sheet = open_sheet("stub-alone", {"line": "75", "along": str(waves), "end": end})
    media = skrf.media.DefinedGammaZ0(skrf.Frequency(1, 1, 1, unit="GHz"), gamma=2j * np.pi, z0=75)

    def shown(length: float) -> float:
        stub = media.delay_short(length, "m") if end == "short" else media.delay_open(length, "m")
        return float(stub.z[0, 0, 0].imag)

    assert shown(waves) == pytest.approx(sheet.solution["ohms"], rel=1e-9)
    assert shown(waves + 0.02) == pytest.approx(sheet.solution["longer"], rel=1e-9)


@pytest.mark.parametrize("end", ["short", "open"])
@pytest.mark.parametrize("wanted", [-200, -35, 20, 90])
def test_the_length_shows_what_is_wanted(end, wanted):
    """A line of the length found with that end shows the reactance wanted in scikit-rf.

    Source: scikit-rf, general-purpose library."""
    sheet = open_sheet("stub-alone", {"line": "50", "wanted": str(wanted), "end": end})
    media = skrf.media.DefinedGammaZ0(skrf.Frequency(1, 1, 1, unit="GHz"), gamma=2j * np.pi, z0=50)
    length = sheet.solution["length"]
    stub = media.delay_short(length, "m") if end == "short" else media.delay_open(length, "m")

    assert wanted == pytest.approx(stub.z[0, 0, 0].imag, rel=1e-9)
