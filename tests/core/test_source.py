"""A source of any impedance: power waves, and networks that end at it in every tool that takes a network."""

import numpy as np
import pytest

import core
from core import ConjugateMatch, MatchingNetwork, NegativeResistance, NotAnImpedance, power_reflection

LOAD, SOURCE = 60 - 80j, 35 + 12j
EVERY = [
    *core.conjugate_single_stub(LOAD, SOURCE, 50, source_distance=0.1),
    *core.conjugate_quarter_wave(LOAD, SOURCE, 50),
    *core.conjugate_section(150 + 20j, SOURCE),
    *core.conjugate_l_network(LOAD, SOURCE, 434e6),
    *core.pi_network(LOAD, SOURCE, 5.0),
]


class TestPowerReflection:
    def test_open_short_and_conjugate(self):
        """An open circuit reflects 1, a short as much turned, the conjugate nothing."""
        assert 1 == power_reflection(np.inf, SOURCE)
        assert 1 == pytest.approx(abs(power_reflection(0, SOURCE)), abs=1e-15)
        assert 0 == power_reflection(SOURCE.conjugate(), SOURCE)

    def test_of_a_line_it_is_the_reflection(self):
        """Of a real source it is the reflection coefficient of the load on such a line."""
        loads = np.array([25 + 5j, 60 - 80j, 0, np.inf])

        assert core.reflection_coefficient(loads, 50) == pytest.approx(power_reflection(loads, 50), abs=1e-15)

    @pytest.mark.parametrize(
        ("source", "error", "sentence"),
        [
            (-5, NegativeResistance, "source impedance has a resistance of -5 ohm"),
            (20j, NotAnImpedance, "source impedance must have a resistance above zero"),
            (np.inf, NotAnImpedance, "source impedance must have a resistance above zero"),
            (np.nan, NotAnImpedance, "source impedance must be a number"),
            ("fifty", NotAnImpedance, "source impedance must be a number"),
        ],
    )
    def test_bad_source(self, source, error, sentence):
        """A source that gives no power, or is no number, is refused in a sentence that names it."""
        with pytest.raises(error, match=sentence):
            power_reflection(50, source)


@pytest.mark.parametrize("network", EVERY, ids=lambda network: type(network).__name__)
class TestConjugateMatch:
    def test_all_power_arrives(self, network):
        """The source gives all it has, and a lossless network brings it all to the load."""
        flow = core.power_flow(network)

        assert 1 == pytest.approx(flow.delivered, abs=1e-12)

    def test_path_ends_at_the_conjugate(self, network):
        """On the chart of its lines the way ends where the source's conjugate is."""
        end = list(network.path(5))[-1][-1]
        expected = core.reflection_coefficient(SOURCE.conjugate(), network.line_impedance)

        assert expected == pytest.approx(end, abs=1e-13)

    def test_detuned_is_the_network_at_that_frequency(self, network):
        """Detuned it reflects as it does at that frequency, with the same source."""
        detuned = network.detuned(1.1)

        assert isinstance(detuned, ConjugateMatch)
        assert network.input_reflection(1.1) == pytest.approx(detuned.input_reflection(), abs=1e-14)

    def test_band_ends_where_the_limit_is_reached(self, network):
        """At the edges of its band the reflection of power waves is that of the limit."""
        band = core.bandwidth(network, 2.0)

        edges = [edge for edge in (band.lower, band.upper) if 0 < edge < np.inf]
        assert edges
        assert np.abs(network.input_reflection(edges)) == pytest.approx(1 / 3, abs=1e-10)

    def test_built_with_errors(self, network):
        """Built without errors it matches as designed; with them it does not."""
        as_built = network.as_built(np.zeros((len(network.elements), 3)))
        off = network.as_built(impedance_errors=0.05)

        assert (3,) == np.shape(as_built.input_reflection())
        assert 0 == pytest.approx(np.abs(as_built.input_reflection()).max(), abs=1e-12)
        assert abs(off.input_reflection()) > 1e-3

    def test_repr_names_the_source(self, network):
        """It prints with the source that it is matched to."""
        assert repr(network).endswith("matched to a source of: 35+12j ohm)")


def test_arrays_of_sources_have_errors_too():
    """Loads and sources in an array keep each their own source when built with errors."""
    sources = np.array([35 + 12j, 80 - 5j])
    network = core.conjugate_l_network(LOAD, sources)[0]
    built = network.as_built(np.zeros((2, 4)))

    assert (2, 4) == np.shape(built.input_reflection())
    assert 0 == pytest.approx(np.abs(built.input_reflection()).max(), abs=1e-13)


def test_ranking_takes_networks_to_a_source():
    """Solutions between a load and a source can be ranked."""
    ranking = core.rank_solutions(core.conjugate_single_stub(LOAD, SOURCE, 50))

    assert ranking.sentences


class TestReasons:
    def test_out_of_reach(self):
        """Where the load's line never shows what the source asks for, the reason gives both, and line before the
        source helps."""
        found = core.conjugate_single_stub(60, 50 + 400j, 50)
        moved = core.conjugate_single_stub(60, 50 + 400j, 50, source_distance=np.linspace(0, 0.5, 101))

        assert 0 == len(found)
        assert "asks for a conductance of 0.01538" in found.reason
        assert "shows 0.8333 to 1.2 only" in found.reason
        assert "Some of these sources" in moved.reason
        assert not np.isnan(moved[0].distance).all()

    def test_no_angle(self):
        """A small mismatch never has a large angle: the quarter wave needs the stub, and the reason says so."""
        found = core.conjugate_quarter_wave(60, 50 + 400j, 50)

        assert 2 == len(found)
        assert "Nowhere on its line" in found.reason
        stubs = [one.before for one in found if isinstance(one.before, core.Stub)]
        assert {"short", "open"} == {stub.end for stub in stubs}

    def test_a_real_load_and_a_real_source_need_the_quarter_wave_alone(self):
        """Between two resistances the quarter wave starts at the load, or a quarter wave further on."""
        near, far = core.conjugate_quarter_wave(100, 25, 50)

        assert near.before is None
        assert 50 == pytest.approx(near.section_impedance, rel=1e-14)
        assert (0.0, 0.25) == (near.distance, far.distance)

    def test_a_load_like_the_line_needs_the_quarter_wave_alone(self):
        """Of a load equal to the line only the quarter wave at the load is given: elsewhere it is the same."""
        (alone,) = core.conjugate_quarter_wave(50, 80, 50)

        assert np.sqrt(50 * 80) == pytest.approx(alone.section_impedance, rel=1e-14)
        assert "adds nothing" in core.conjugate_quarter_wave(50, 50, 50).reason

    def test_a_single_part_is_named_once(self):
        """A single part is the same network in either order of the parts, and is given once."""
        found = core.conjugate_l_network(35 + 30j, SOURCE)
        single = [n for n in found if any(part.kind == "none" for part in n.elements)]

        assert (3, 1) == (len(found), len(single))
        assert -42 == pytest.approx(single[0].series.reactance, rel=1e-13)

    def test_already_the_conjugate(self):
        """For the conjugate of the source the designers say that nothing is needed."""
        for designer in (core.conjugate_section, core.conjugate_l_network):
            assert "conjugate of the source already" in designer(35 - 12j, SOURCE).reason

    def test_a_load_equal_to_its_source(self):
        """A load equal to the source is turned into the conjugate by any section: the quarter wave is shown."""
        found = core.conjugate_section(SOURCE, SOURCE)

        assert 0.25 == found[0].section_length
        assert "any impedance" in found.reason
        assert abs(found[0].input_reflection()) < 1e-15
        for own in (20.0, 90.0):
            gammas = [(v - own) / (v + own) for v in (SOURCE, SOURCE.conjugate())]
            length = np.angle(gammas[0] / gammas[1]) / (4 * np.pi) % 0.5
            network = ConjugateMatch(SOURCE, 50, (core.Section(length, own),), SOURCE)
            assert abs(network.input_reflection()) < 1e-15

    def test_no_section(self):
        """Where no section exists the reason says so."""
        found = core.conjugate_section(50 + 30j, 50 - 60j)

        assert 0 == len(found)
        assert "No single section" in found.reason

    def test_one_way_round(self):
        """Where only one order of the parts matches, the reason says which."""
        found = core.conjugate_l_network(1000, 50)

        assert 2 == len(found)
        assert "Only with the shunt part nearer the load" in found.reason
        assert "a single part does" in core.conjugate_l_network(SOURCE, SOURCE).reason


def test_with_a_source_like_the_line_the_designers_agree():
    """Of a source equal to the line the matches are those of the designers for a line."""
    loads = np.array([60 - 80j, 20 + 5j, 150])
    pairs: list[tuple[core.Solutions, core.Solutions]] = [
        (core.conjugate_single_stub(loads, 50, 50), core.single_stub(loads, 50)),
        (core.conjugate_quarter_wave(loads, 50, 50), core.quarter_wave(loads, 50)),
        (core.conjugate_section(loads, 50), core.one_section_transformer(loads, 50)),
        (core.conjugate_l_network(loads, 50), core.l_network(loads, 50)),
    ]
    for ours, theirs in pairs:
        frequency = np.array([0.8, 1.1])
        got, expected = (np.array([n.input_reflection(frequency) for n in found]) for found in (ours, theirs))

        assert expected == pytest.approx(got, abs=1e-13, nan_ok=True)


def test_a_plain_network_reflects_as_before():
    """A network to a line keeps its reflection with respect to the line."""
    network = MatchingNetwork(100, 50, ())

    assert 1 / 3 == pytest.approx(network.input_reflection(), abs=1e-15)
