"""What a design achieves, against a general-purpose minimiser and the printed example."""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from core import single_stub
from core.network import MatchingNetwork, Section, Stub
from core.stubs import SingleStub
from lessons.working.achieved import Achieved, achieved


def built(distance: float, length: float, load: complex = 60 - 80j) -> SingleStub:
    """A shorted stub of 50 ohm across a line of 50 ohm."""
    return SingleStub(load, 50.0, (Section(distance, 50.0), Stub(length, 50.0, "shunt", "short")))


def judged(distance: float, length: float, load: complex = 60 - 80j, side: int = 0) -> Achieved:
    """What such a design achieves, beside the solver's near or far one, lengths read from a chart."""
    return achieved(built(distance, length, load), single_stub(load, 50)[side], "chart")


class TestRatio:
    def test_printed_lengths(self):
        """The lengths printed in Pozar, 4th ed., Ex 5.2 (from memory), are as good as read from a chart."""
        assert judged(0.110, 0.095) == pytest.approx(judged(0.110, 0.095))
        assert "right" == judged(0.110, 0.095).judgement
        assert "right" == judged(0.260, 0.405, side=1).judgement

    def test_wrong_way_round(self):
        """The stub walked counter-clockwise, 0.405 for 0.095, leaves |reflection| 0.827, a ratio of 10.6
        (references: an independent solver)."""
        result = judged(0.1104, 0.405)

        assert "wrong" == result.judgement
        assert pytest.approx((1 + 0.827) / (1 - 0.827), abs=0.05) == result.ratio

    def test_tolerances(self):
        """Both lengths within the reading tolerance are right, within twice that close, and beyond it wrong."""
        near = single_stub(60 - 80j, 50)[0]
        found = [judged(near.distance + off, near.stub_length).judgement for off in (0.003, 0.007, 0.02)]

        assert ["right", "close", "wrong"] == found

    def test_total_reflection(self):
        """A stub that shorts the line leaves an infinite ratio."""
        assert judged(0.1, 0.0).ratio > 1e6


class TestLengths:
    def test_a_match_is_best(self):
        """At a match each length is the best for the other, to a billionth of a wavelength."""
        for load in (60 - 80j, 15 + 10j, 100 + 50j):
            for network in single_stub(load, 50):
                result = achieved(network, network, "calculated")
                assert [0, 0] == pytest.approx([one.excess for one in result.lengths], abs=1e-6)
                assert [1, 1] == pytest.approx([one.ratio for one in result.lengths], abs=1e-5)

    @pytest.mark.parametrize("index", [0, 1], ids=["distance", "stub"])
    def test_against_a_minimiser(self, index: int):
        """With one length held, the best other one is the one that scipy.optimize finds."""
        dice = np.random.default_rng(20)
        for _ in range(30):
            load = complex(dice.uniform(5, 200), dice.uniform(-150, 150))
            lengths = [float(length) for length in dice.uniform(0.02, 0.48, 2)]
            result = judged(lengths[0], lengths[1], load)

            def back(length: float, load=load, lengths=lengths) -> float:
                tried = [length if i == index else own for i, own in enumerate(lengths)]
                return float(abs(built(tried[0] % 0.5, tried[1] % 0.5, load).input_reflection()))

            start = min(np.linspace(0, 0.5, 51), key=back)
            best = minimize_scalar(
                back, bounds=(start - 0.02, start + 0.02), method="bounded", options={"xatol": 1e-10}
            )
            off = (result.lengths[index].length - best.x + 0.25) % 0.5 - 0.25
            assert pytest.approx(0, abs=2e-6) == off
            assert back(result.lengths[index].length) <= best.fun + 1e-9

    def test_sense_of_the_excess(self):
        """A length that is too long has an excess above zero, also across the half wavelength."""
        near = single_stub(60 - 80j, 50)[0]

        assert judged(near.distance + 0.01, near.stub_length).lengths[0].excess > 0
        assert judged(near.distance - 0.01, near.stub_length).lengths[0].excess < 0
        across = MatchingNetwork(
            50 / (1 + 1j), 50.0, (Section(0.495, 50.0), Stub(0.125, 50.0, "shunt", "short"))
        )
        assert pytest.approx(-0.005, abs=1e-6) == achieved(across, across, "chart").lengths[0].excess
