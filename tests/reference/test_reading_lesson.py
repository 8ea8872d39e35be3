"""The lesson of reading the chart against print and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees as printed.
"""

import numpy as np
import pytest
import skrf

from lessons import open_sheet

KEY = "reading-the-chart"
NUMBERS = ("mismatch", "loss", "share")
TABLE = (
    "tables of standing-wave ratio, return loss and reflected power, as handbooks print them (from memory)"
)


@pytest.mark.parametrize(
    ("load", "line", "printed"),
    [
        pytest.param(
            "40+70j",
            "100",
            {"normalise": "0.4+0.7j", "place": "0.59 < 104 deg", "mismatch": "3.87", "loss": "4.6"},
            id="Pozar, 4th ed., Ex 2.2 (from memory)",
        ),
        pytest.param("100", "50", {"mismatch": "2.0", "loss": "9.54", "share": "11.1"}, id=TABLE + ", 2:1"),
        pytest.param("75", "50", {"mismatch": "1.5", "loss": "13.98", "share": "4.0"}, id=TABLE + ", 1.5:1"),
        pytest.param("150", "50", {"mismatch": "3.0", "loss": "6.02", "share": "25.0"}, id=TABLE + ", 3:1"),
    ],
)
def test_against_print(load, line, printed):
    """Whoever writes what is printed is right; the lesson's own values are the printed ones, rounded."""
    sheet = open_sheet(KEY, {"load": load, "line": line, "accuracy": "calculated"})
    for key, text in printed.items():
        sheet = sheet.enter(key, text)

    assert dict.fromkeys(printed, "right") == {key: sheet.verdicts[key].judgement for key in printed}
    rounded = {
        key: round(sheet.solution[key], len(printed[key].partition(".")[2]))
        for key in printed
        if key in NUMBERS
    }
    assert rounded == {key: float(printed[key]) for key in rounded}


@pytest.mark.parametrize("load", ["25-35j", "60-80j", "140+90j", "20"])
def test_agrees_with_scikit_rf(load):
    """Reflection, standing-wave ratio, return loss and share of power are those of scikit-rf.

    Source: scikit-rf, general-purpose library."""
    solution = open_sheet(KEY, {"load": load, "line": "50"}).solution
    network = skrf.Network(s=skrf.network.z2s(np.array([[[complex(load)]]]), 50), f=[1.0], z0=50)

    assert network.s[0, 0, 0] == pytest.approx(solution["place"])
    assert network.s_vswr[0, 0, 0] == pytest.approx(solution["mismatch"])
    assert -network.s_db[0, 0, 0] == pytest.approx(solution["loss"])
    assert 100 * network.s_mag[0, 0, 0] ** 2 == pytest.approx(solution["share"])
