"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load."""

from core.attenuation import (
    attenuation_from_db,
    attenuation_from_db_per_m,
    attenuation_in_db,
    attenuation_in_db_per_m,
    with_attenuation,
)
from core.board import Cable, guide_wavelength_m, lay_out
from core.double_stub import DoubleStub, double_stub
from core.errors import (
    CoreError,
    NegativeResistance,
    NotALength,
    NotAnImpedance,
    NotATouchstoneFile,
    OutOfRange,
    UnknownChoice,
)
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
from core.loads import ConstantLoad, ParallelLoad, SampledLoad, SeriesLoad
from core.lossy import lossy_single_stub
from core.lossy_double_stub import lossy_double_stub
from core.lumped import LNetwork, LumpedPart, l_network
from core.measure import load_from_minimum_shift, load_from_standing_wave
from core.microstrip import Microstrip
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.power import power_flow
from core.preferred import nearest_preferred
from core.ranking import rank_solutions
from core.response import bandwidth, frequency_response
from core.standing_wave import peak_voltage, standing_waves
from core.stripline import Stripline
from core.stubs import SingleStub, Solutions, single_stub
from core.tolerance import Errors, monte_carlo, worst_case
from core.touchstone import parse_touchstone, read_touchstone
from core.transformers import OneSection, QuarterWave, one_section_transformer, quarter_wave

__all__ = [
    "Cable",
    "ConstantLoad",
    "CoreError",
    "DoubleStub",
    "Errors",
    "LNetwork",
    "LumpedPart",
    "MatchingNetwork",
    "Microstrip",
    "NegativeResistance",
    "NotALength",
    "NotATouchstoneFile",
    "NotAnImpedance",
    "OneSection",
    "OutOfRange",
    "ParallelLoad",
    "QuarterWave",
    "Reactance",
    "SampledLoad",
    "Section",
    "SeriesLoad",
    "SingleStub",
    "Solutions",
    "Stripline",
    "Stub",
    "UnknownChoice",
    "admittance_from_reflection",
    "attenuation_from_db",
    "attenuation_from_db_per_m",
    "attenuation_in_db",
    "attenuation_in_db_per_m",
    "bandwidth",
    "double_stub",
    "frequency_response",
    "guide_wavelength_m",
    "impedance_from_reflection",
    "input_impedance",
    "l_network",
    "lay_out",
    "least_extra_line",
    "load_from_minimum_shift",
    "load_from_standing_wave",
    "lossy_double_stub",
    "lossy_single_stub",
    "monte_carlo",
    "nearest_preferred",
    "one_section_transformer",
    "parse_touchstone",
    "peak_voltage",
    "power_flow",
    "quarter_wave",
    "rank_solutions",
    "read_touchstone",
    "reflection_coefficient",
    "return_loss_db",
    "single_stub",
    "standing_waves",
    "swr",
    "toward_generator",
    "toward_load",
    "with_attenuation",
    "worst_case",
]
