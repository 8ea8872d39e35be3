"""The spiral of a lossy line, against the definition of the reflection along it."""

import numpy as np
import pytest

from core.chart import walk
from core.spiral import spiral


@pytest.mark.parametrize("reflection", [0.6 + 0j, -0.3 + 0.5j, 0.2 - 0.7j])
@pytest.mark.parametrize(("length", "nepers"), [(0.03, 1.0), (0.3, 0.4), (1.37, 0.1)])
def test_it_stays_on_the_spiral(reflection, length, nepers):
    """Every point of the arcs is one of exp(-2 (a + j 2 pi) s) times the reflection, to 1/1000."""
    points = np.concatenate([arc.points(41) for arc in spiral(reflection, length, nepers)])
    s = -np.unwrap(np.angle(points / reflection)) / (4 * np.pi)
    exact = reflection * np.exp(-2 * (nepers + 2j * np.pi) * s)

    assert length == pytest.approx(s[-1])
    assert np.abs(points - exact).max() < 1e-3
    assert points[0] == pytest.approx(reflection, abs=1e-12)
    assert points[-1] == pytest.approx(exact[-1], abs=1e-12)


def test_without_loss_it_is_a_circle():
    """A line without loss walks along the mismatch circle."""
    arcs, whole = spiral(0.5j, 0.25), walk(0.5j, 0.25)

    assert [pytest.approx(0.5)] * 2 == [arc.circle.radius for arc in arcs]
    assert whole.sweep == pytest.approx(sum(arc.sweep for arc in arcs))


@pytest.mark.parametrize(("reflection", "length"), [(0j, 0.3), (0.5 + 0j, 0.0)])
def test_nothing_to_walk(reflection, length):
    """No arc where nothing comes back, or on no line."""
    assert () == spiral(reflection, length, 0.1)
