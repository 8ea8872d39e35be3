"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load."""

from core.board import guide_wavelength_m
from core.errors import CoreError, NegativeResistance, NotALength, NotAnImpedance, OutOfRange, UnknownChoice
from core.line import (
    admittance_from_reflection,
    impedance_from_reflection,
    input_impedance,
    reflection_coefficient,
    return_loss_db,
    swr,
    toward_generator,
    toward_load,
)
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.stubs import SingleStub, Solutions, single_stub

__all__ = [
    "CoreError",
    "MatchingNetwork",
    "NegativeResistance",
    "NotALength",
    "NotAnImpedance",
    "OutOfRange",
    "Reactance",
    "Section",
    "SingleStub",
    "Solutions",
    "Stub",
    "UnknownChoice",
    "admittance_from_reflection",
    "guide_wavelength_m",
    "impedance_from_reflection",
    "input_impedance",
    "reflection_coefficient",
    "return_loss_db",
    "single_stub",
    "swr",
    "toward_generator",
    "toward_load",
]
