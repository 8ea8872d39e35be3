"""The quarter-wave lesson against published worked examples and scikit-rf: step by step it arrives at what is printed.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import pytest

from lessons import open_sheet
from lessons.course.quarter_wave import LESSON
from lessons.grammar.lesson import Work
from tests.reference.library_cascade import RATIOS, cascaded_reflection


def work(load: complex, line: float) -> Work:
    """The lesson's own derivation."""
    return Work(LESSON, LESSON.problem({"load": complex(load), "line": float(line)}))


@pytest.mark.parametrize(
    ("load", "line", "field", "printed", "half_digit"),
    [
        pytest.param(10, 50, "section.minimum", 22.36, 0.005, id="Pozar, 4th ed., Ex 5.5 (from memory)"),
        pytest.param(100, 50, "section.maximum", 70.71, 0.005, id="Pozar, 4th ed., Ex 2.5 (from memory)"),
        pytest.param(64, 100, "section.minimum", 80.0, 0.5, id="Cheng, 2nd ed. (from memory): 64 to 100 ohm"),
        pytest.param(25 + 50j, 50, "mismatch", 4.26, 0.01, id="Ulaby (from memory): SWR of 25 + j50 on 50 ohm"),
        pytest.param(25 + 50j, 50, "distance.maximum", 0.115, 0.0005, id="Ulaby (from memory): its voltage maximum"),
        pytest.param(25 + 50j, 50, "distance.minimum", 0.365, 0.0005, id="Ulaby (from memory): its voltage minimum"),
    ],
)  # fmt: skip
def test_against_print(load, line, field, printed, half_digit):
    """The lesson's value is the printed one, to its last digit."""
    assert printed == pytest.approx(work(load, line)[field], abs=half_digit)


@pytest.mark.parametrize("accuracy", ["chart", "calculated"])
@pytest.mark.parametrize(
    ("load", "line", "field", "printed"),
    [
        (10, 50, "section.minimum", "22.36"),
        (100, 50, "section.maximum", "70.71"),
        (25 + 50j, 50, "distance.maximum", "0.115"),
    ],
    ids=["Pozar, Ex 5.5", "Pozar, Ex 2.5", "Ulaby"],
)  # fmt: skip
def test_what_is_printed_is_marked_right(load, line, field, printed, accuracy):
    """Whoever writes the book's value on a sheet is right, by either accuracy. All from memory."""
    texts = {"load": str(complex(load)).strip("()"), "line": str(line), "accuracy": accuracy}

    assert "right" == open_sheet("quarter-wave", texts).enter(field, printed).verdicts[field].judgement


@pytest.mark.parametrize("place", LESSON.branches, ids=lambda one: one.word)
@pytest.mark.parametrize("load", [60 - 80j, 25 + 50j, 15 - 5j, 130 + 20j, 100, 20])
def test_agrees_with_scikit_rf(load, place):
    """Over two octaves what the lesson builds reflects as the same cascade in scikit-rf, and not at all in between.

    Source: scikit-rf, general-purpose library."""
    network = LESSON.network(work(load, 50), place, LESSON.fields)
    assert network is not None

    assert cascaded_reflection(network, RATIOS) == pytest.approx(network.input_reflection(RATIOS), abs=1e-12)
    assert abs(cascaded_reflection(network, [1.0])[0]) < 1e-9
