"""The lesson of an unknown load against printed worked examples and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import numpy as np
import pytest
import skrf

from lessons import open_sheet

POZAR = {
    "swr": "1.5",
    "first": "2.2",
    "second": "4.2",
    "minimum": "2.72",
    "counted": "generator",
    "line": "50",
}
SPHERE = {"swr": "3", "first": "0", "second": "20", "minimum": "5", "counted": "load", "line": "50"}
ULABY = {"swr": "3", "first": "0", "second": "36", "minimum": "20.9", "counted": "load", "line": "140"}
PRINTED = [
    pytest.param(POZAR, 47.3 + 19.7j, 0.06, id="Pozar, 4th ed., Ex 2.4 (from memory)"),
    pytest.param(SPHERE, 30 - 40j, 1e-9, id="Ulaby, slotted line, wave of 40 cm, minimum at 5 cm (from memory)"),
    pytest.param(ULABY, 280 + 182j, 3.5, id="Ulaby, exercise on 280 + j182 ohm, wave of 72 cm (from memory)"),
]  # fmt: skip


@pytest.mark.parametrize(("givens", "printed", "close"), PRINTED)
def test_against_print(givens, printed, close):
    """The lesson's load is the printed one, as well as its digits were read."""
    found = open_sheet("unknown-load", givens).solution["ohms"]

    assert printed == pytest.approx(found, abs=close * 2**0.5)


@pytest.mark.parametrize("minimum", ["2.72", "4.72", "0.72"])
def test_any_minimum(minimum):
    """Each of the minima that the example lists leads to its load. Source: Pozar, 4th ed., Ex 2.4 (from memory)."""
    found = open_sheet("unknown-load", {**POZAR, "minimum": minimum}).solution["ohms"]

    assert 47.3 + 19.7j == pytest.approx(found, abs=0.09)


@pytest.mark.parametrize("accuracy", ["chart", "calculated"])
@pytest.mark.parametrize(
    ("field", "printed"),
    [
        ("wave", "4.0 cm"),
        ("wave", "40 mm"),
        ("circle.size", "0.2"),
        ("shift.waves", "0.13"),
        ("ohms", "47.3 + 19.7j"),
    ],
)
def test_what_is_printed_is_marked_right(field, printed, accuracy):
    """Whoever writes the book's value is right, by either accuracy. Source: Pozar, 4th ed., Ex 2.4 (from memory)."""
    sheet = open_sheet("unknown-load", {**POZAR, "accuracy": accuracy}).enter(field, printed)

    assert "right" == sheet.verdicts[field].judgement


@pytest.mark.parametrize("counted", ["load", "generator"])
@pytest.mark.parametrize("minimum", [3.0, 9.5, 13.0, 21.7])
def test_agrees_with_scikit_rf(minimum, counted):
    """Behind as much line as the minimum is from the place of the load, scikit-rf has the lesson's load at a voltage
    minimum of that standing-wave ratio. Source: scikit-rf, general-purpose library."""
    givens = {
        "swr": "2.6",
        "first": "8",
        "second": "18",
        "minimum": str(minimum),
        "counted": counted,
        "line": "50",
    }
    load = open_sheet("unknown-load", givens).solution["ohms"]
    medium = skrf.media.DefinedGammaZ0(skrf.Frequency(1, 1, 1, "GHz"), gamma=2j * np.pi, z0=50)
    length = (minimum - 8) / 20 * (1 if counted == "load" else -1)
    seen = medium.line(length % 0.5, "m") ** medium.load((load - 50) / (load + 50))

    assert 50 / 2.6 == pytest.approx(seen.z[0, 0, 0])
