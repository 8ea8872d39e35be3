"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load."""

from core.board import guide_wavelength_m
from core.double_stub import DoubleStub, double_stub
from core.errors import CoreError, NegativeResistance, NotALength, NotAnImpedance, OutOfRange, UnknownChoice
from core.forbidden import least_extra_line
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
from core.lumped import LNetwork, LumpedPart, l_network
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.preferred import nearest_preferred
from core.stubs import SingleStub, Solutions, single_stub
from core.transformers import OneSection, QuarterWave, one_section_transformer, quarter_wave

__all__ = [
    "CoreError",
    "DoubleStub",
    "LNetwork",
    "LumpedPart",
    "MatchingNetwork",
    "NegativeResistance",
    "NotALength",
    "NotAnImpedance",
    "OneSection",
    "OutOfRange",
    "QuarterWave",
    "Reactance",
    "Section",
    "SingleStub",
    "Solutions",
    "Stub",
    "UnknownChoice",
    "admittance_from_reflection",
    "double_stub",
    "guide_wavelength_m",
    "impedance_from_reflection",
    "input_impedance",
    "l_network",
    "least_extra_line",
    "nearest_preferred",
    "one_section_transformer",
    "quarter_wave",
    "reflection_coefficient",
    "return_loss_db",
    "single_stub",
    "swr",
    "toward_generator",
    "toward_load",
]
