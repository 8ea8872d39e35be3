"""The solver: transmission lines, the chart's geometry, networks, and the designers that match a load.

A module is read when one of its names is first asked for, so that whoever wants one designer does not wait for
all chapters.
"""

import importlib
import typing

if typing.TYPE_CHECKING:
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
        local_scale,
        mismatch_circle,
        reactance_arc,
        reactance_circle,
        resistance_arc,
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
    from core.elements import Reactance, Section, Stub
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
        reflection_from_return_loss,
        reflection_from_swr,
        return_loss_db,
        swr,
        toward_generator,
        toward_load,
        wrap_half_wave,
    )
    from core.loads import ConstantLoad, ParallelLoad, SeriesLoad
    from core.lossy import lossy_single_stub
    from core.lossy_l import LossyLNetwork, lossy_l_network
    from core.lossy_parts import LossyPart, with_part_quality
    from core.lossy_stub_pairs import lossy_double_stub
    from core.lumped import LNetwork, LumpedPart, l_network
    from core.measure import load_from_minimum_shift, load_from_standing_wave
    from core.microstrip import Microstrip
    from core.multisection import MultiSection, binomial_transformer, chebyshev_transformer
    from core.network import MatchingNetwork
    from core.pi_and_t import PiNetwork, TNetwork, pi_network, t_network
    from core.power import power_flow
    from core.preferred import nearest_preferred, preferred_beside
    from core.ranking import rank_solutions
    from core.real_line import DistributedLine, LossyLine
    from core.real_pieces import RealSection, RealStub, cut_from_line
    from core.response import bandwidth, frequency_response
    from core.sampled_load import SampledLoad
    from core.series_stubs import SeriesDoubleStub, series_double_stub
    from core.solutions import Solutions
    from core.source import ConjugateMatch, power_reflection
    from core.standing_wave import peak_voltage, standing_waves, waves_along
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

_NAMES = {
    "attenuation": (
        "attenuation_from_db attenuation_from_db_per_m attenuation_in_db attenuation_in_db_per_m "
        "with_attenuation"
    ),
    "board": "Cable guide_wavelength_m lay_out",
    "board_loss": "MicrostripLine StriplineLine strip_line",
    "cables": "fit_attenuation usual_cable",
    "chart": (
        "Arc Circle arc_between conductance_circle crossings local_scale mismatch_circle reactance_arc "
        "reactance_circle resistance_arc resistance_circle rim_position rim_reflection susceptance_circle walk"
    ),
    "coaxial": "CoaxialLine skin_depth_m surface_resistance",
    "conjugate_stub": "ConjugateSingleStub conjugate_single_stub",
    "conjugate_transformers": (
        "ConjugateQuarterWave ConjugateSection conjugate_quarter_wave conjugate_section"
    ),
    "double_stubs": "DoubleStub double_stub",
    "elements": "Reactance Section Stub",
    "equal_stubs": "EqualStubs two_equal_stubs",
    "errors": (
        "CoreError NegativeResistance NotACircle NotALength NotANetwork NotAnImpedance NotATouchstoneFile "
        "OutOfRange ShapesDiffer UnknownChoice"
    ),
    "faults": "find_faults impedance_profile",
    "forbidden": "conductance_limit forbidden_circle least_extra_line rotated_unit_circle",
    "l_between": "ConjugateLNetwork conjugate_l_network",
    "line": (
        "admittance_from_reflection distance_to_maximum distance_to_minimum half_wave_difference "
        "impedance_from_reflection input_impedance reflection_coefficient reflection_from_return_loss "
        "reflection_from_swr return_loss_db swr "
        "toward_generator toward_load wrap_half_wave"
    ),
    "loads": "ConstantLoad ParallelLoad SeriesLoad",
    "lossy": "lossy_single_stub",
    "lossy_stub_pairs": "lossy_double_stub",
    "lossy_l": "LossyLNetwork lossy_l_network",
    "lossy_parts": "LossyPart with_part_quality",
    "lumped": "LNetwork LumpedPart l_network",
    "measure": "load_from_minimum_shift load_from_standing_wave",
    "microstrip": "Microstrip",
    "multisection": "MultiSection binomial_transformer chebyshev_transformer",
    "network": "MatchingNetwork",
    "pi_and_t": "PiNetwork TNetwork pi_network t_network",
    "power": "power_flow",
    "preferred": "nearest_preferred preferred_beside",
    "ranking": "rank_solutions",
    "real_line": "DistributedLine LossyLine",
    "real_pieces": "RealSection RealStub cut_from_line",
    "response": "bandwidth frequency_response",
    "sampled_load": "SampledLoad",
    "series_stubs": "SeriesDoubleStub series_double_stub",
    "solutions": "Solutions",
    "source": "ConjugateMatch power_reflection",
    "standing_wave": "peak_voltage standing_waves waves_along",
    "stripline": "Stripline",
    "stub_at_load": "StubAndSection stub_and_section",
    "stubs": "SingleStub single_stub stub_length_for stub_susceptance",
    "tapers": "Taper exponential_taper optimum_taper taper_reflection triangular_taper",
    "three_stubs": "TripleStub triple_stub",
    "time_domain": "echoes step_response",
    "tolerance": "Errors monte_carlo worst_case",
    "touchstone": "OnePort parse_touchstone read_touchstone",
    "touchstone_writing": "format_touchstone write_touchstone",
    "transformers": "OneSection QuarterWave one_section_transformer quarter_wave",
    "two_port": "TwoPort",
    "two_port_file": "parse_two_port read_two_port",
    "two_port_parts": "line_two_port network_two_port two_port_from two_port_parameters",
    "widest_band": "bandwidth_limit reflection_limit share_of_limit",
}
"""Of each module that offers anything what it offers."""

_HOMES = {name: module for module, names in _NAMES.items() for name in names.split()}
__all__ = sorted(_HOMES)


def __getattr__(name: str) -> typing.Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'core' has no attribute {name!r}")
    thing = globals()[name] = getattr(importlib.import_module(f"core.{_HOMES[name]}"), name)
    return thing


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
