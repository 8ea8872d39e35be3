"""Lossy networks with loads over frequency, built from the parts of scikit-rf and cascaded by it."""

from functools import reduce
from typing import Any

import numpy as np
import skrf

from core import MatchingNetwork, Reactance, Section, Stub

DESIGN_FREQUENCY = 434e6
SPEED = 299_792_458.0


def cascade(network: MatchingNetwork, ratios: Any, load_impedance: Any = None) -> Any:
    """Input reflection of a network of scalars at these frequency ratios, with its load's impedance at
    each."""
    ratios = np.asarray(ratios, dtype=float)
    frequency = skrf.Frequency.from_f(ratios * DESIGN_FREQUENCY, unit="Hz")
    load = np.broadcast_to(network.load_impedance if load_impedance is None else load_impedance, ratios.shape)
    seen = skrf.Network(
        frequency=frequency, z=load.reshape(-1, 1, 1).astype(complex), z0=network.line_impedance
    )
    parts = [_part(element, frequency, network.line_impedance) for element in network.elements]
    return reduce(lambda behind, part: part**behind, parts, seen).s[:, 0, 0]


def medium(frequency: Any, impedance: float, attenuation: float = 0.0) -> Any:
    """A line of this attenuation in nepers per wavelength at the design frequency, the same at all others."""
    loss = attenuation * DESIGN_FREQUENCY / SPEED
    return skrf.media.DefinedGammaZ0(
        frequency, z0=impedance, gamma=loss + 2j * np.pi * np.asarray(frequency.f) / SPEED
    )


def _part(element: Any, frequency: Any, impedance: float) -> Any:
    around = medium(frequency, impedance)
    if isinstance(element, Reactance):
        return _lumped(element, around)
    own = medium(frequency, element.impedance, element.attenuation)
    length = element.length * SPEED / DESIGN_FREQUENCY
    if isinstance(element, Section):
        line = own.line(length, "m")
        line.renormalize(impedance)
        return line
    assert isinstance(element, Stub)
    branch = own.line(length, "m") ** (own.short() if element.end == "short" else own.open())
    branch.renormalize(impedance)
    return around.shunt(branch) if element.placement == "shunt" else _in_series(branch, around, impedance)


def _in_series(branch: Any, around: Any, impedance: float) -> Any:
    """The two-port of a branch in the line: S11 = Z / (Z + 2 Z0), S21 = 2 Z0 / (Z + 2 Z0), by definition of
    S."""
    branch_impedance = branch.z[:, 0, 0]
    reflected = branch_impedance / (branch_impedance + 2 * impedance)
    s = np.stack([np.stack([reflected, 1 - reflected], -1), np.stack([1 - reflected, reflected], -1)], -2)
    return skrf.Network(frequency=around.frequency, s=s, z0=impedance)


def _lumped(part: Reactance, around: Any) -> Any:
    speed = 2 * np.pi * DESIGN_FREQUENCY
    prefix = "shunt_" if part.placement == "shunt" else ""
    if part.reactance > 0:
        return getattr(around, f"{prefix}inductor")(part.reactance / speed)
    return getattr(around, f"{prefix}capacitor")(-1 / (speed * part.reactance))
