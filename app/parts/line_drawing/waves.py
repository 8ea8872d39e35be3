"""Voltage and current along the line, as plain data: what the drawing shows under it, computed by `core`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from core.line import distance_to_minimum, reflection_coefficient
from core.network import MatchingNetwork
from core.standing_wave import StandingWave, waves_along
from lessons.grammar.notation import Notation
from lessons.grammar.plan import Plan

POINTS = 97  # along half a wavelength: what is read between two of them is right to two decimals
HALF_WAVE = 0.5
EVEN = 0.02  # of the wave that comes: where it goes up and down by less, nobody sees it


def waves_of(plans: Sequence[Plan], network: MatchingNetwork) -> dict[str, Any]:
    """The load alone on its line over half a wavelength, and each plan that is complete, piece by piece.

    Over what there would be without a reflection. Of a plan: a list with the index of each section, then the line to
    the generator over half a wavelength, as None; None where it is not complete, or changes nothing.
    beside : what the load alone is beside the plan of this network, in words."""
    bare = MatchingNetwork(network.load_impedance, network.line_impedance, ())
    (before,) = waves_along(bare, POINTS, HALF_WAVE)
    return {
        "before": _sizes(before, network),
        "beside": "load alone" if Plan(None, network).is_design else "without loss",
        "after": [
            _pieces(plan.network) if plan.complete and (plan.is_design or _is_lossy(plan.network)) else None
            for plan in plans
        ],
    }


def _is_lossy(network: MatchingNetwork) -> bool:
    return any(getattr(one, "attenuation", 0.0) for one in network.elements)


def _pieces(network: MatchingNetwork) -> list[dict[str, Any]] | None:
    waves = waves_along(network, POINTS, HALF_WAVE)
    indices = {id(element): index for index, element in enumerate(network.elements)}
    if not all(np.isfinite(one.voltage).all() and np.isfinite(one.current).all() for one in waves):
        return None
    return [
        {"element": indices.get(id(one.element)), **_sizes(one, network)}
        for one in waves
        if not hasattr(one.element, "placement")
    ]


def _sizes(wave: StandingWave, network: MatchingNetwork) -> dict[str, list[float]]:
    return {
        "voltage": np.abs(wave.voltage).round(4).tolist(),
        "current": np.abs(wave.current * network.line_impedance).round(4).tolist(),
    }


def said_waves(waves: dict[str, Any], current: int, network: MatchingNetwork, notation: Notation) -> str:
    """The plot in words."""
    low, high = min(waves["before"]["voltage"]), max(waves["before"]["voltage"])
    told = (
        f"Along the line with the load alone the voltage goes from {low:.2f} to {high:.2f} of what it would be without "
        "a reflection, and the current is least where the voltage is most."
    )
    if high - low > EVEN:
        back = reflection_coefficient(network.load_impedance, network.line_impedance)
        least = notation.wavelengths(float(distance_to_minimum(back)))
        told += f" The voltage is least {least} from the load, and each half wavelength further."
    after = waves["after"][current] if current < len(waves["after"]) else None
    if not after:
        return told
    feed = after[-1]["voltage"]
    with_it = "the design" if Plan(None, network).is_design else "the loss of the line"
    return (
        f"{told} With {with_it} it goes from {min(feed):.2f} to {max(feed):.2f} on the line to the generator."
    )
