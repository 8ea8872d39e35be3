"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load."""

from core.attenuation import (
    attenuation_from_db,
    attenuation_from_db_per_m,
    attenuation_in_db,
    attenuation_in_db_per_m,
    with_attenuation,
)
from core.board import Cable, guide_wavelength_m, lay_out
from core.board_loss import MicrostripLine, StriplineLine, strip_line
from core.cables import fit_attenuation, usual_cable
from core.chart import (
    Arc,
    Circle,
    arc_between,
    conductance_circle,
    crossings,
    mismatch_circle,
    reactance_circle,
    resistance_circle,
    rim_position,
    rim_reflection,
    susceptance_circle,
    walk,
)
from core.coaxial import CoaxialLine, skin_depth_m, surface_resistance
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
    NotACircle,
    NotALength,
    NotANetwork,
    NotAnImpedance,
    NotATouchstoneFile,
    OutOfRange,
    ShapesDiffer,
    UnknownChoice,
)
from core.faults import find_faults, impedance_profile
from core.forbidden import conductance_limit, forbidden_circle, least_extra_line, rotated_unit_circle
from core.l_between import ConjugateLNetwork, conjugate_l_network
from core.line import (
    admittance_from_reflection,
    distance_to_maximum,
    distance_to_minimum,
    half_wave_difference,
    impedance_from_reflection,
    input_impedance,
    reflection_coefficient,
    return_loss_db,
    swr,
    toward_generator,
    toward_load,
    wrap_half_wave,
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
from core.real_line import DistributedLine, LossyLine
from core.real_pieces import RealSection, RealStub, cut_from_line
from core.response import bandwidth, frequency_response
from core.series_stubs import SeriesDoubleStub, series_double_stub
from core.solutions import Solutions
from core.source import ConjugateMatch, power_reflection
from core.standing_wave import peak_voltage, standing_waves
from core.stripline import Stripline
from core.stub_at_load import StubAndSection, stub_and_section
from core.stubs import SingleStub, single_stub, stub_length_for, stub_susceptance
from core.tapers import Taper, exponential_taper, optimum_taper, taper_reflection, triangular_taper
from core.three_stubs import TripleStub, triple_stub
from core.time_domain import echoes, step_response
from core.tolerance import Errors, monte_carlo, worst_case
from core.touchstone import OnePort, parse_touchstone, read_touchstone
from core.touchstone_writing import format_touchstone, write_touchstone
from core.transformers import OneSection, QuarterWave, one_section_transformer, quarter_wave
from core.two_port import TwoPort
from core.two_port_file import parse_two_port, read_two_port
from core.two_port_parts import line_two_port, network_two_port, two_port_from, two_port_parameters
from core.widest_band import bandwidth_limit, reflection_limit, share_of_limit

__all__ = [
    "Arc",
    "Cable",
    "Circle",
    "CoaxialLine",
    "ConjugateLNetwork",
    "ConjugateMatch",
    "ConjugateQuarterWave",
    "ConjugateSection",
    "ConjugateSingleStub",
    "ConstantLoad",
    "CoreError",
    "DistributedLine",
    "DoubleStub",
    "EqualStubs",
    "Errors",
    "LNetwork",
    "LossyLNetwork",
    "LossyLine",
    "LossyPart",
    "LumpedPart",
    "MatchingNetwork",
    "Microstrip",
    "MicrostripLine",
    "MultiSection",
    "NegativeResistance",
    "NotACircle",
    "NotALength",
    "NotANetwork",
    "NotATouchstoneFile",
    "NotAnImpedance",
    "OnePort",
    "OneSection",
    "OutOfRange",
    "ParallelLoad",
    "PiNetwork",
    "QuarterWave",
    "Reactance",
    "RealSection",
    "RealStub",
    "SampledLoad",
    "Section",
    "SeriesDoubleStub",
    "SeriesLoad",
    "ShapesDiffer",
    "SingleStub",
    "Solutions",
    "Stripline",
    "StriplineLine",
    "Stub",
    "StubAndSection",
    "TNetwork",
    "Taper",
    "TripleStub",
    "TwoPort",
    "UnknownChoice",
    "admittance_from_reflection",
    "arc_between",
    "attenuation_from_db",
    "attenuation_from_db_per_m",
    "attenuation_in_db",
    "attenuation_in_db_per_m",
    "bandwidth",
    "bandwidth_limit",
    "binomial_transformer",
    "chebyshev_transformer",
    "conductance_circle",
    "conductance_limit",
    "conjugate_l_network",
    "conjugate_quarter_wave",
    "conjugate_section",
    "conjugate_single_stub",
    "crossings",
    "cut_from_line",
    "distance_to_maximum",
    "distance_to_minimum",
    "double_stub",
    "echoes",
    "exponential_taper",
    "find_faults",
    "fit_attenuation",
    "forbidden_circle",
    "format_touchstone",
    "frequency_response",
    "guide_wavelength_m",
    "half_wave_difference",
    "impedance_from_reflection",
    "impedance_profile",
    "input_impedance",
    "l_network",
    "lay_out",
    "least_extra_line",
    "line_two_port",
    "load_from_minimum_shift",
    "load_from_standing_wave",
    "lossy_l_network",
    "lossy_single_stub",
    "mismatch_circle",
    "monte_carlo",
    "nearest_preferred",
    "network_two_port",
    "one_section_transformer",
    "optimum_taper",
    "parse_touchstone",
    "parse_two_port",
    "peak_voltage",
    "pi_network",
    "power_flow",
    "power_reflection",
    "quarter_wave",
    "rank_solutions",
    "reactance_circle",
    "read_touchstone",
    "read_two_port",
    "reflection_coefficient",
    "reflection_limit",
    "resistance_circle",
    "return_loss_db",
    "rim_position",
    "rim_reflection",
    "rotated_unit_circle",
    "series_double_stub",
    "share_of_limit",
    "single_stub",
    "skin_depth_m",
    "standing_waves",
    "step_response",
    "strip_line",
    "stub_and_section",
    "stub_length_for",
    "stub_susceptance",
    "surface_resistance",
    "susceptance_circle",
    "swr",
    "t_network",
    "taper_reflection",
    "toward_generator",
    "toward_load",
    "triangular_taper",
    "triple_stub",
    "two_equal_stubs",
    "two_port_from",
    "two_port_parameters",
    "usual_cable",
    "walk",
    "with_attenuation",
    "with_part_quality",
    "worst_case",
    "wrap_half_wave",
    "write_touchstone",
]
