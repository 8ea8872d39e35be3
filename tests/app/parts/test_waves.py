"""What the drawing is told of voltage and current along the line: closed forms, and words."""

import cmath
import math

import pytest

from app.parts.line_drawing import picture, wave_picture
from core import MatchingNetwork, Section, Stub, single_stub
from lessons.course.near_and_far import FAR, NEAR
from lessons.grammar.notation import STANDARD
from lessons.grammar.plan import Plan

LOAD = 60 - 80j
GAMMA = (LOAD - 50) / (LOAD + 50)
NEAR_NETWORK, FAR_NETWORK = single_stub(LOAD, 50)


def pictured(*networks: MatchingNetwork, waves: bool = True) -> dict:
    """The picture of solutions."""
    branches = (NEAR, FAR)[: len(networks)] if len(networks) > 1 else (None,)
    plans = [Plan(branch, network) for branch, network in zip(branches, networks, strict=True)]
    return picture(plans, "near" if len(networks) > 1 else None, STANDARD, waves=waves)


class TestWaves:
    """|V| = |1 + Γ exp(-j4πd)| and |I| Z0 = |1 - Γ exp(-j4πd)| (common practice, no source)."""

    def test_load_alone(self):
        """Over half a wavelength the load's own pattern is told, in the units of the wave that comes."""
        before = pictured(MatchingNetwork(LOAD, 50, ()))["waves"]["before"]
        last = len(before["voltage"]) - 1

        for index, (voltage, current) in enumerate(zip(before["voltage"], before["current"], strict=True)):
            turned = GAMMA * cmath.exp(-2j * math.pi * index / last)
            assert abs(abs(1 + turned) - voltage) < 1e-4
            assert abs(abs(1 - turned) - current) < 1e-4

    def test_design(self):
        """With the design the section keeps the load's pattern, larger, and the line to the generator is even."""
        section, feed = pictured(NEAR_NETWORK, FAR_NETWORK)["waves"]["after"][0]

        assert (0, None) == (section["element"], feed["element"])
        assert {1.0} == set(feed["voltage"]) == set(feed["current"])
        assert abs(1 - section["voltage"][-1]) < 1e-4
        assert abs(abs(1 + GAMMA) / abs(1 - GAMMA) - section["voltage"][0] / section["current"][0]) < 1e-3

    def test_not_known_yet(self):
        """Of a solution that is not complete only the load alone is told."""
        waves = pictured(MatchingNetwork(LOAD, 50, (Section(0.1, 50), Stub(math.nan, 50))))["waves"]

        assert [None] == waves["after"]
        assert waves["before"]

    def test_line_alone(self):
        """A line without loss changes nothing; one with loss is told beside the same without it."""
        plain, lossy = (
            pictured(MatchingNetwork(LOAD, 50, (Section(0.3, 50, attenuation),)))
            for attenuation in (0.0, 0.2)
        )

        assert [None] == plain["waves"]["after"]
        assert "With the loss of the line" in lossy["spoken"]
        assert "without loss" == lossy["waves"]["beside"]

    def test_by_itself(self):
        """By itself it has no copper and no caution, and names its solution in words."""
        alone = wave_picture(Plan(NEAR, NEAR_NETWORK), STANDARD)

        assert ("waves", "", "") == (alone["only"], alone["caption"], alone["note"])
        assert alone["spoken"].startswith("This is the near solution. Along the line")

    @pytest.mark.parametrize("load", [0, math.inf, 50j])
    def test_all_comes_back(self, load: complex):
        """Where all comes back the voltage goes from nothing to twice that of the wave."""
        before = pictured(MatchingNetwork(load, 50, ()))["waves"]["before"]

        assert abs(2 - max(before["voltage"])) < 3e-3
        assert min(before["voltage"]) < 0.04

    def test_in_words(self):
        """Who does not see the plot is told it; where it is withheld, nothing of it is said."""
        told, quiet = (pictured(NEAR_NETWORK, FAR_NETWORK, waves=waves)["spoken"] for waves in (True, False))

        assert "from 0.41 to 1.59" in told
        least = (cmath.phase(GAMMA) + math.pi) / (4 * math.pi) % 0.5  # where 1 + Γ exp(-j4πd) is least
        assert f"least {least:.3f} λ from the load" in told
        assert "from 1.00 to 1.00 on the line to the generator" in told
        assert "voltage" not in quiet
