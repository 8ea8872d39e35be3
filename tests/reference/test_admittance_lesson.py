"""The lesson of impedance and admittance against print and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest
import skrf

from lessons import open_sheet


@pytest.mark.parametrize("accuracy", ["chart", "calculated"])
@pytest.mark.parametrize(
    ("load", "line", "printed"),
    [
        pytest.param("100+50j", "50", "0.4-0.2j", id="Pozar, 4th ed., Ex 2.3 (from memory)"),
        pytest.param("60-80j", "50", "0.3+0.4j", id="Pozar, 4th ed., Ex 5.2 (from memory)"),
    ],
)
def test_against_print(load, line, printed, accuracy):
    """The normalised admittance is the printed one, and whoever writes it is right."""
    sheet = open_sheet("impedance-and-admittance", {"load": load, "line": line, "accuracy": accuracy})

    assert complex(printed) == pytest.approx(sheet.solution["admittance"], abs=1e-12)
    assert "right" == sheet.enter("admittance", printed).verdicts["admittance"].judgement


@pytest.mark.parametrize("load", ["25-35j", "60-80j", "140+90j", "20"])
def test_agrees_with_scikit_rf(load):
    """Admittance in siemens and both reflections are those of scikit-rf. Source: scikit-rf, general-purpose library."""
    solution = open_sheet("impedance-and-admittance", {"load": load, "line": "50"}).solution
    impedance = np.array([[[complex(load)]]])
    admittance = skrf.network.z2y(impedance)

    assert admittance[0, 0, 0] * 1000 == pytest.approx(solution["siemens"])
    assert skrf.network.z2s(impedance, 50)[0, 0, 0] == pytest.approx(solution["place"])
    assert skrf.network.z2s(admittance * 2500, 50)[0, 0, 0] == pytest.approx(solution["opposite"])
