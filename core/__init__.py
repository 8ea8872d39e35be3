"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load."""

from core.attenuation import (
    attenuation_from_db,
    attenuation_from_db_per_m,
    attenuation_in_db,
    attenuation_in_db_per_m,
    with_attenuation,
)
from core.board import Cable, guide_wavelength_m, lay_out
from core.conjugate_stub import ConjugateSingleStub, conjugate_single_stub
from core.conjugate_transformers import (
    ConjugateQuarterWave,
    ConjugateSection,
    conjugate_quarter_wave,
    conjugate_section,
)
from core.double_stubs import DoubleStub, double_stub
from core.equal_stubs import EqualStubs, two_equal_stubs
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
from core.l_between import ConjugateLNetwork, conjugate_l_network
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
from core.lossy_l import LossyLNetwork, lossy_l_network
from core.lossy_parts import LossyPart, with_part_quality
from core.lumped import LNetwork, LumpedPart, l_network
from core.measure import load_from_minimum_shift, load_from_standing_wave
from core.microstrip import Microstrip
from core.multisection import MultiSection, binomial_transformer, chebyshev_transformer
from core.network import MatchingNetwork, Reactance, Section, Stub
from core.pi_and_t import PiNetwork, TNetwork, pi_network, t_network
from core.power import power_flow
from core.preferred import nearest_preferred
from core.ranking import rank_solutions
from core.response import bandwidth, frequency_response
from core.series_stubs import SeriesDoubleStub, series_double_stub
from core.solutions import Solutions
from core.source import ConjugateMatch, power_reflection
from core.standing_wave import peak_voltage, standing_waves
from core.stripline import Stripline
from core.stub_at_load import StubAndSection, stub_and_section
from core.stubs import SingleStub, single_stub
from core.tapers import Taper, exponential_taper, optimum_taper, taper_reflection, triangular_taper
from core.three_stubs import TripleStub, triple_stub
from core.tolerance import Errors, monte_carlo, worst_case
from core.touchstone import parse_touchstone, read_touchstone
from core.transformers import OneSection, QuarterWave, one_section_transformer, quarter_wave
from core.widest_band import bandwidth_limit, reflection_limit, share_of_limit

__all__ = [
    "Cable",
    "ConjugateLNetwork",
    "ConjugateMatch",
    "ConjugateQuarterWave",
    "ConjugateSection",
    "ConjugateSingleStub",
    "ConstantLoad",
    "CoreError",
    "DoubleStub",
    "EqualStubs",
    "Errors",
    "LNetwork",
    "LossyLNetwork",
    "LossyPart",
    "LumpedPart",
    "MatchingNetwork",
    "Microstrip",
    "MultiSection",
    "NegativeResistance",
    "NotALength",
    "NotATouchstoneFile",
    "NotAnImpedance",
    "OneSection",
    "OutOfRange",
    "ParallelLoad",
    "PiNetwork",
    "QuarterWave",
    "Reactance",
    "SampledLoad",
    "Section",
    "SeriesDoubleStub",
    "SeriesLoad",
    "SingleStub",
    "Solutions",
    "Stripline",
    "Stub",
    "StubAndSection",
    "TNetwork",
    "Taper",
    "TripleStub",
    "UnknownChoice",
    "admittance_from_reflection",
    "attenuation_from_db",
    "attenuation_from_db_per_m",
    "attenuation_in_db",
    "attenuation_in_db_per_m",
    "bandwidth",
    "bandwidth_limit",
    "binomial_transformer",
    "chebyshev_transformer",
    "conjugate_l_network",
    "conjugate_quarter_wave",
    "conjugate_section",
    "conjugate_single_stub",
    "double_stub",
    "exponential_taper",
    "frequency_response",
    "guide_wavelength_m",
    "impedance_from_reflection",
    "input_impedance",
    "l_network",
    "lay_out",
    "least_extra_line",
    "load_from_minimum_shift",
    "load_from_standing_wave",
    "lossy_l_network",
    "lossy_single_stub",
    "monte_carlo",
    "nearest_preferred",
    "one_section_transformer",
    "optimum_taper",
    "parse_touchstone",
    "peak_voltage",
    "pi_network",
    "power_flow",
    "power_reflection",
    "quarter_wave",
    "rank_solutions",
    "read_touchstone",
    "reflection_coefficient",
    "reflection_limit",
    "return_loss_db",
    "series_double_stub",
    "share_of_limit",
    "single_stub",
    "standing_waves",
    "stub_and_section",
    "swr",
    "t_network",
    "taper_reflection",
    "toward_generator",
    "toward_load",
    "triangular_taper",
    "triple_stub",
    "two_equal_stubs",
    "with_attenuation",
    "with_part_quality",
    "worst_case",
]
