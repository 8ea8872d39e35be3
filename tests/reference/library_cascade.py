"""A network of ours built again from the parts of scikit-rf, a general-purpose library, and cascaded by it."""

from functools import reduce
from typing import Any

import numpy as np
import skrf

from core import ConjugateMatch, LossyPart, LumpedPart, MatchingNetwork, Section, Stub

DESIGN_FREQUENCY = 434e6
SPEED = 299_792_458.0
RATIOS = np.geomspace(0.503, 1.987, 31)
"""Two octaves, uneven: the library shifts a line of whole half waves by 1e-9 to keep its matrices regular."""


def cascaded_reflection(network: MatchingNetwork, ratios: Any) -> Any:
    """Input reflection of a network of scalars at these frequency ratios, its load constant, by scikit-rf.

    Of a network between a load and a source it is that of power waves, which the library has too."""
    frequency = skrf.Frequency.from_f(np.asarray(ratios) * DESIGN_FREQUENCY, unit="Hz")
    load = skrf.Network(
        frequency=frequency, z=np.full((len(ratios), 1, 1), network.load_impedance), z0=network.line_impedance
    )
    parts = [_part(element, frequency, network.line_impedance) for element in network.elements]
    whole = reduce(lambda seen, part: part**seen, parts, load)
    if isinstance(network, ConjugateMatch):
        whole.renormalize(network.source_impedance, s_def="power")
    return whole.s[:, 0, 0]


def cascaded_gain(network: MatchingNetwork) -> float:
    """Delivered over available power at the design frequency between a real source and a real load, by scikit-rf."""
    frequency = skrf.Frequency.from_f([DESIGN_FREQUENCY], unit="Hz")
    parts = [_part(element, frequency, network.line_impedance) for element in reversed(network.elements)]
    whole = reduce(lambda left, right: left**right, parts)
    whole.renormalize([network.line_impedance, network.load_impedance])
    return float(np.abs(whole.s[0, 1, 0]) ** 2)


def _medium(frequency: Any, impedance: float) -> Any:
    return skrf.media.DefinedGammaZ0(frequency, z0=impedance, gamma=2j * np.pi * frequency.f / SPEED)


def _part(element: Any, frequency: Any, impedance: float) -> Any:
    medium = _medium(frequency, impedance)
    if isinstance(element, LumpedPart):
        return _lumped(element, medium)
    own, length = _medium(frequency, element.impedance), element.length * SPEED / DESIGN_FREQUENCY
    if isinstance(element, Stub):
        branch = own.line(length, "m") ** (own.short() if element.end == "short" else own.open())
        branch.renormalize(impedance)
        return medium.shunt(branch) if element.placement == "shunt" else _in_line(branch, impedance)
    assert isinstance(element, Section)
    line = own.line(length, "m")
    if element.impedance != impedance:
        line.renormalize(impedance)
    return line


def _lumped(part: LumpedPart, medium: Any) -> Any:
    if part.kind == "none":
        return medium.thru()
    value = part.inductance if part.kind == "inductor" else part.capacitance
    if isinstance(part, LossyPart):
        branch = medium.resistor(part.resistance) ** getattr(medium, part.kind)(value)
        return branch if part.placement == "series" else medium.shunt(branch ** medium.short())
    prefix = "shunt_" if part.placement == "shunt" else ""
    return getattr(medium, f"{prefix}{part.kind}")(value)


def _in_line(branch: Any, impedance: float) -> Any:
    """A one-port made a series branch, by its chain matrix."""
    chain = np.tile(np.eye(2, dtype=complex), (len(branch.f), 1, 1))
    chain[:, 0, 1] = branch.z[:, 0, 0]
    return skrf.Network(frequency=branch.frequency, s=skrf.network.a2s(chain, impedance), z0=impedance)
