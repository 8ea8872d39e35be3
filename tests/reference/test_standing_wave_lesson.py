"""The lesson of the standing wave against print, the network evaluator and scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

from math import sqrt

import numpy as np
import pytest
import skrf

from core.elements import Section
from core.network import MatchingNetwork
from core.standing_wave import standing_waves
from lessons import open_sheet
from lessons.course.standing_wave import LESSON

LOADS = ["25-35j", "60-80j", "130+20j", "15+5j", "200"]


def solution(load: str, line: str = "50", power: str = "10 W"):
    """The solver's values, by field."""
    return open_sheet("standing-wave", {"load": load, "line": line, "power": power}).solution


@pytest.mark.parametrize(
    ("load", "line", "field", "printed", "half_digit"),
    [
        pytest.param("25+50j", "50", "mismatch", 4.26, 0.01, id="Ulaby (from memory): SWR of 25 + j50 on 50 ohm"),
        pytest.param("25+50j", "50", "distance.maximum", 0.115, 0.0005, id="Ulaby (from memory): its maximum"),
        pytest.param("25+50j", "50", "distance.minimum", 0.365, 0.0005, id="Ulaby (from memory): its minimum"),
        pytest.param("30-40j", "50", "mismatch", 3.0, 1e-9, id="Ulaby, slotted line (from memory): SWR 3"),
        pytest.param("30-40j", "50", "distance.minimum", 0.125, 1e-9, id="Ulaby (from memory): minimum 5 of 40 cm"),
        pytest.param("40+70j", "100", "mismatch", 3.87, 0.005, id="Pozar, 4th ed., Ex 2.2 (from memory): SWR"),
    ],
)  # fmt: skip
def test_against_print(load, line, field, printed, half_digit):
    """The lesson's value is the printed one, to its last digit."""
    assert printed == pytest.approx(solution(load, line)[field], abs=half_digit)


@pytest.mark.parametrize("load", LOADS)
def test_voltages_by_the_evaluator(load):
    """Along half a wavelength of line the crest of the voltage is between the lesson's two, and highest and lowest at
    its two places. Source: the evaluator of networks, which adds up two travelling waves."""
    found = solution(load)
    (wave,) = standing_waves(MatchingNetwork(complex(load), 50, (Section(0.5, 50),)), power=10, points=20_001)
    crests = np.abs(wave.voltage)
    highest, lowest = wave.distance[np.argmax(crests)], wave.distance[np.argmin(crests)]

    assert crests.max() == pytest.approx(found["voltage.maximum"], rel=1e-6)
    assert crests.min() == pytest.approx(found["voltage.minimum"], rel=1e-6)
    assert 0 == pytest.approx((highest - found["distance.maximum"] + 0.25) % 0.5 - 0.25, abs=1e-4)
    assert 0 == pytest.approx((lowest - found["distance.minimum"] + 0.25) % 0.5 - 0.25, abs=1e-4)


@pytest.mark.parametrize("place", LESSON.branches, ids=lambda one: one.word)
@pytest.mark.parametrize("load", LOADS)
def test_agrees_with_scikit_rf(load, place):
    """At the end of the lesson's distance scikit-rf has the lesson's pure resistance, in which the voltage makes the
    power. Source: scikit-rf, general-purpose library."""
    found = solution(load)
    medium = skrf.media.DefinedGammaZ0(skrf.Frequency(1, 1, 1, "GHz"), gamma=2j * np.pi, z0=50)
    end = medium.load((complex(load) - 50) / (complex(load) + 50))
    seen = (medium.line(found[f"distance.{place.key}"], "m") ** end).z[0, 0, 0]

    assert found[f"ohms.{place.key}"] == pytest.approx(seen)
    assert 10 == pytest.approx((found[f"voltage.{place.key}"] / sqrt(2)) ** 2 / seen.real)
