"""Lines and stubs over frequency against scikit-rf (1.3 or later), a general-purpose library for RF networks.

Each piece of line is one of its media with a propagation constant and an impedance of its own, all ports at the line's
impedance; its cascade operator does the rest. Frequencies and loads are from the Aldermoor River Watch.
"""

from functools import reduce
from operator import pow as cascade
from typing import Any

import numpy as np
import pytest
import skrf
from skrf.media import DefinedGammaZ0
from skrf.network import a2s

from core import (
    MatchingNetwork,
    Section,
    Stub,
    input_impedance,
    reflection_coefficient,
    single_stub,
    toward_generator,
)
from tests.reference import loads

LINE = 50.0
DESIGN = 434e6
SWEEP = skrf.Frequency(234, 634, 201, unit="MHz")  # the design frequency is among them
RATIOS = SWEEP.f / DESIGN
WHIP = 60 - 80j
AGREED = 1e-11  # scattering parameters lose a digit or two where a stub is almost a short

both_ends = pytest.mark.parametrize("end", ["short", "open"])
both_placements = pytest.mark.parametrize("placement", ["shunt", "series"])
with_loss = pytest.mark.parametrize(
    "attenuation", [0.0, 0.02, 0.7], ids=["lossless", "low loss", "high loss"]
)


def medium(line: Section | Stub) -> DefinedGammaZ0:
    """A line whose design wavelength is one metre."""
    gamma = line.attenuation + 2j * np.pi * RATIOS
    return DefinedGammaZ0(SWEEP, gamma=gamma, z0=line.impedance, z0_port=LINE)


def one_port(impedance: complex) -> Any:
    """A load that is the same at all frequencies."""
    return skrf.Network.from_z(np.full((SWEEP.npoints, 1, 1), impedance), frequency=SWEEP, z0=LINE)


def two_port(element: Any) -> Any:
    """The element between two ports."""
    if isinstance(element, Section):
        return medium(element).line(element.length, "m")
    if element.placement == "shunt":
        if element.end == "short":
            return medium(element).shunt_delay_short(element.length, "m")
        return medium(element).shunt_delay_open(element.length, "m")
    delay = medium(element).delay_short if element.end == "short" else medium(element).delay_open
    return in_line(delay(element.length, "m"))


def in_line(branch: Any) -> Any:
    """A one-port made a series branch, by its chain matrix."""
    chain = np.tile(np.eye(2, dtype=complex), (SWEEP.npoints, 1, 1))
    chain[:, 0, 1] = branch.z[:, 0, 0]
    return skrf.Network(frequency=SWEEP, s=a2s(chain, LINE), z0=LINE)


def reflected(network: MatchingNetwork) -> Any:
    """Input reflection of the network as scikit-rf sees it: from the generator to the load."""
    chain = [two_port(element) for element in reversed(network.elements)]
    return reduce(cascade, [*chain, one_port(network.load_impedance)]).s[:, 0, 0]


@with_loss
@pytest.mark.parametrize("load", [WHIP, 25 + 50j, 5, 400 - 300j])
@pytest.mark.parametrize("length", [0.1, 1.37])
def test_terminated_line(load, length, attenuation):
    """A terminated line shows the reflection and the impedance of scikit-rf's, at every frequency."""
    line = Section(length, LINE, attenuation)
    whole = two_port(line) ** one_port(load)
    walked = toward_generator(reflection_coefficient(load, LINE), length * RATIOS, attenuation / RATIOS)

    assert pytest.approx(whole.s[:, 0, 0], abs=AGREED) == walked
    assert pytest.approx(whole.z[:, 0, 0], rel=AGREED) == input_impedance(
        load, LINE, length * RATIOS, attenuation / RATIOS
    )
    assert pytest.approx(whole.s[:, 0, 0], abs=AGREED) == MatchingNetwork(
        load, LINE, (line,)
    ).input_reflection(RATIOS)


@with_loss
@both_placements
@both_ends
@pytest.mark.parametrize("stub_impedance", [50.0, 75.0])
@pytest.mark.parametrize("load", [WHIP, 15 + 10j, 100 + 80j])
def test_single_stub(load, stub_impedance, placement, end, attenuation):
    """Both solutions reflect over frequency as scikit-rf's cascade of line and stub does, with loss too."""
    for solution in single_stub(load, LINE, stub_impedance, placement, end):
        section = Section(solution.distance, LINE, attenuation)
        stub = Stub(solution.stub_length, stub_impedance, placement, end, attenuation)
        network = MatchingNetwork(load, LINE, (section, stub))

        assert np.abs(reflected(network) - network.input_reflection(RATIOS)).max() < AGREED


@pytest.mark.parametrize("seed", range(20))
def test_random_cascades(seed):
    """So do chains of one to five sections and stubs of any length, impedance, loss, placement and end."""
    rng = loads.random(60 + seed)
    elements = []
    for _ in range(rng.integers(1, 6)):
        length, impedance, attenuation = rng.uniform(0, 0.9), rng.uniform(20, 150), rng.uniform(0, 0.3)
        placement, end = str(rng.choice(["shunt", "series"])), str(rng.choice(["short", "open"]))
        stub = Stub(length, impedance, placement, end, attenuation)
        elements.append(stub if rng.integers(2) else Section(length, impedance, attenuation))
    network = MatchingNetwork(complex(LINE * loads.anywhere(rng, 1)[0]), LINE, tuple(elements))

    assert np.abs(reflected(network) - network.input_reflection(RATIOS)).max() < AGREED


def test_match_at_the_design_frequency():
    """scikit-rf too finds both solutions of the whip matched at the frequency they are made for, and at no other."""
    at_design = np.abs(RATIOS - 1).argmin()
    for solution in single_stub(WHIP, LINE):
        size = np.abs(reflected(solution))

        assert size[at_design] < AGREED
        assert size.argmin() == at_design
