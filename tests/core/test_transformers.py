"""The quarter wave and the section of general length: every match found, none invented."""

import numpy as np
import pytest
from mpmath.ctx_mp import MPContext

from core import (
    NegativeResistance,
    NotAnImpedance,
    OneSection,
    QuarterWave,
    Section,
    Stub,
    one_section_transformer,
    quarter_wave,
    reflection_coefficient,
    swr,
)
from core.line import distance_to_maximum, distance_to_minimum
from tests.core import brute_force

EXACT = MPContext()
EXACT.dps = 50
KINDS = ["near", "far", "shorted stub", "open stub"]


class TestQuarterWave:
    @pytest.mark.parametrize("which", range(4), ids=KINDS)
    def test_every_network_matches(self, which):
        """Of 100,000 random loads every returned network is matched, by the evaluator."""
        load, line = brute_force.line_loads(100_000, seed=11)

        assert np.abs(quarter_wave(load, line)[which].input_reflection()).max() <= 1e-10

    def test_search_along_the_line_finds_the_same(self):
        """A search along the line for real impedances finds the first two and no others, for 4,000 loads."""
        load, line = brute_force.line_loads(4_000, seed=12)

        def phase(case, distance):
            parts = [brute_force.line(distance, line[case])]
            return brute_force.seen(load[case], parts).imag / np.abs(brute_force.seen(load[case], parts))

        rows, distance = brute_force.all_roots(phase, 4_000, np.linspace(0, 0.5, 129) - 1e-3)
        seen = brute_force.seen(load[rows], [brute_force.line(distance, line[rows])])
        impedance = np.sqrt(line[rows] * seen.real)
        parts = brute_force.line(distance, line[rows]), brute_force.line(0.25, impedance)
        solutions = [
            (network.distance, network.section_impedance) for network in quarter_wave(load, line)[:2]
        ]
        surplus, apart = brute_force.matches(rows, (distance, impedance), 4_000, solutions, (0.5, 0))

        assert np.abs(brute_force.reflection(load[rows], parts, line[rows])).max() < 1e-9
        assert not surplus.any()
        assert apart < 1e-9

    @pytest.mark.parametrize("end", ["short", "open"])
    def test_search_along_the_stub_finds_the_same(self, end):
        """A search along a stub at the load finds that one length makes it real, for 4,000 loads."""
        load, line = brute_force.line_loads(4_000, seed=13)

        def phase(case, length):
            y = 1 / brute_force.seen(load[case], [brute_force.stub(length, line[case], end)])
            return y.imag / np.abs(y)

        grid = np.linspace(0, 0.5, 1_001)[1:-1] + (0.0 if end == "short" else 0.25)
        rows, length = brute_force.all_roots(phase, 4_000, grid)
        stub = brute_force.stub(length, line[rows], end)
        impedance = np.sqrt(line[rows] * brute_force.seen(load[rows], [stub]).real)
        left_over = brute_force.reflection(load[rows], (stub, brute_force.line(0.25, impedance)), line[rows])
        network = quarter_wave(load, line)[KINDS.index("shorted stub" if end == "short" else "open stub")]
        solutions = [(network.stub_length, network.section_impedance)]
        surplus, apart = brute_force.matches(rows, (length, impedance), 4_000, solutions, (0.5, 0))

        assert np.abs(left_over).max() < 1e-9
        assert not surplus.any()
        assert apart < 1e-9

    def test_agrees_with_fifty_digits(self):
        """Distances, stub lengths and impedances agree with the textbook at fifty digits, to 1e-12."""
        load, line = brute_force.line_loads(300, seed=14)
        near, far, short, open_ended = quarter_wave(load, line)
        assert short.stub_length is not None
        assert open_ended.stub_length is not None
        got = [near.distance, near.section_impedance, far.distance, far.section_impedance]
        got += [short.stub_length, open_ended.stub_length, short.section_impedance]
        errors = [
            abs(EXACT.mpf(float(value[i])) - expected) / abs(expected)
            for i in range(300)
            for value, expected in zip(got, textbook_quarter_waves(load[i], line[i]), strict=True)
        ]

        assert max(errors) < 1e-12

    def test_positions_are_those_of_the_standing_wave(self):
        """The distances are those to the voltage maximum and minimum, and the resistances the line's times and
        over the SWR."""
        gamma = reflection_coefficient(30 + 40j, 50)
        near, far = quarter_wave(30 + 40j, 50)[:2]

        assert distance_to_maximum(gamma) == pytest.approx(near.distance, abs=1e-15)
        assert distance_to_minimum(gamma) == pytest.approx(far.distance, abs=1e-15)
        assert [50 * swr(gamma), 50 / swr(gamma)] == pytest.approx(
            [near.resistance, far.resistance], rel=1e-13
        )
        assert ["voltage maximum", "voltage minimum"] == [near.position, far.position]

    def test_smaller_distance_first(self):
        """The first solution is nearer, less than a quarter wave from the load; the second a quarter wave on."""
        near, far = quarter_wave(*brute_force.line_loads(10_000, seed=15))[:2]

        assert 0 <= near.distance.min() < near.distance.max() < 0.25
        assert near.distance + 0.25 == pytest.approx(far.distance, abs=1e-15)
        assert {"voltage maximum", "voltage minimum"} == set(near.position.tolist())

    def test_stub_cancels_the_susceptance(self):
        """The stub's susceptance is minus that of the load, and the quarter wave sees one over its conductance."""
        for network in quarter_wave(30 + 40j, 50)[2:]:
            assert -network.load_admittance.imag == pytest.approx(network.stub_susceptance, rel=1e-13)
            assert 50 / network.load_admittance.real == pytest.approx(network.resistance, rel=1e-13)
            assert 0.0 == network.distance
            assert isinstance(network.before, Stub)

    @pytest.mark.parametrize("load", [10, 200, complex(10, -0.0), 200.0])
    def test_real_load(self, load):
        """A real load needs the quarter wave alone; a second solution starts a quarter wave further on."""
        found = quarter_wave(load, 50)
        alone, after = found

        assert (Section(0.25, np.sqrt(50 * load.real)),) == alone.elements
        assert alone.before is None
        assert 0.0 == alone.distance
        assert 0.25 == after.distance
        assert "a quarter wave alone matches it" in found.reason
        assert max(abs(network.input_reflection()) for network in found) < 1e-15

    def test_matched_load(self):
        """A matched load needs nothing: one solution, of the line's own impedance."""
        found = quarter_wave(50, 50)

        assert [50.0] == [network.section_impedance for network in found]
        assert "matched already" in found.reason

    @pytest.mark.parametrize("load", [0, np.inf, -30j])
    def test_a_load_that_takes_no_power(self, load):
        """A load that takes no power has no solution, and the reason says so."""
        found = quarter_wave(load, 50)

        assert 0 == len(found)
        assert "takes no power" in found.reason

    def test_arrays(self):
        """Of an array there are always four, nan where there is none; a real load's stubs add nothing."""
        found = quarter_wave([30 + 40j, 0, 10, 50], 50)
        near, _, short, open_ended = found

        assert [False, True, False, False] == np.isnan(near.section_impedance).tolist()
        assert np.isnan(near.input_reflection()).tolist() == np.isnan(near.section_impedance).tolist()
        assert "none" == near.position[1]
        assert [0.0, 0.0] == near.distance[2:].tolist()
        assert short.stub_length is not None
        assert open_ended.stub_length is not None
        assert [0.25, 0.25] == short.stub_length[2:].tolist()
        assert [0.0, 0.0] == open_ended.stub_length[2:].tolist()
        assert "takes no power" in found.reason

    def test_everything_broadcasts(self):
        """Loads down and lines across give all their combinations, each as alone."""
        near = quarter_wave(np.array([[30 + 40j], [20 - 5j]]), [50, 75])[0]

        assert (2, 2) == near.section_impedance.shape == near.input_reflection().shape
        assert quarter_wave(20 - 5j, 75)[0].section_impedance == near.section_impedance[1, 1]

    def test_print(self):
        """A network prints in the trade's words."""
        assert "QuarterWave(load: 10 ohm; line: 0.2500 wavelengths of 22.36 ohm; matched to: 50 ohm)" == repr(
            quarter_wave(10, 50)[0]
        )

    def test_readings_that_do_not_apply(self):
        """A network without a stub has no stub length, one with a stub no distance."""
        after_line, beside_stub = quarter_wave(30 + 40j, 50)[1:3]

        assert after_line.stub_length is None
        assert after_line.stub_susceptance is None
        assert isinstance(after_line, QuarterWave)
        assert 0.0 == beside_stub.distance


class TestOneSection:
    def test_every_network_matches(self):
        """Of 100,000 random loads every returned network is matched, by the evaluator."""
        size = np.abs(
            one_section_transformer(*brute_force.line_loads(100_000, seed=21))[0].input_reflection()
        )

        assert np.nanmax(size) <= 1e-10
        assert 0.2 < np.isnan(size).mean() < 0.8

    def test_search_finds_the_same(self):
        """A search for the impedances on whose own chart load and line have equal mismatch finds the same ones, and
        none where there is none, for 4,000 loads."""
        load, line = brute_force.line_loads(4_000, seed=22)

        def unequal(case, decades):
            impedance = line[case] * 10.0**decades
            return np.abs(own_reflection(load[case], impedance)) - np.abs(
                own_reflection(line[case], impedance)
            )

        rows, decades = brute_force.all_roots(unequal, 4_000, np.linspace(-5.01, 5.02, 600))
        impedance = line[rows] * 10.0**decades
        turn = own_reflection(load[rows], impedance) / own_reflection(line[rows], impedance)
        length = np.mod(np.angle(turn) / (4 * np.pi), 0.5)
        left_over = brute_force.reflection(load[rows], [brute_force.line(length, impedance)], line[rows])
        network = one_section_transformer(load, line)[0]
        solutions = [(network.section_length, network.section_impedance)]
        surplus, apart = brute_force.matches(rows, (length, impedance), 4_000, solutions, (0.5, 0))

        assert np.abs(left_over).max() < 1e-9
        assert not surplus.any()
        assert apart < 1e-9

    def test_agrees_with_fifty_digits(self):
        """Impedance and length agree with the geometry of the impedance plane at fifty digits, to 1e-12."""
        load, line = brute_force.line_loads(600, seed=23)
        network = one_section_transformer(load, line)[0]
        there = np.flatnonzero(~np.isnan(network.section_impedance))
        errors = [
            abs(EXACT.mpf(float(got)) - expected) / expected * well_posed(load[i] / line[i])
            for i in there
            for got, expected in zip(
                (network.section_impedance[i], network.section_length[i]),
                geometric_section(load[i], line[i]),
                strict=True,
            )
        ]

        assert len(errors) > 400
        assert max(errors) < 1e-12

    def test_it_exists_inside_the_unit_circles(self):
        """It exists just where the load is inside the unit-resistance or inside the unit-conductance circle."""
        load, line = brute_force.line_loads(20_000, seed=24)
        inside = ((load / line).real > 1) | ((line / load).real > 1)

        assert np.array_equal(inside, ~np.isnan(one_section_transformer(load, line)[0].section_length))

    @pytest.mark.parametrize("load", [40 + 30j, 50 + 20j, 25 - 25j])
    def test_outside_both(self, load):
        """Outside both circles, or on one, there is none, and the reason tells the rule and this load's r and g."""
        found = one_section_transformer(load, 50)

        assert 0 == len(found)
        assert "only inside the unit-resistance circle" in found.reason
        assert f"r = {load.real / 50:.4g} and g = {(50 / load).real:.4g}" in found.reason

    @pytest.mark.parametrize("load", [0, np.inf, 30j])
    def test_a_load_that_takes_no_power(self, load):
        """A load that takes no power has no solution, and the reason says so."""
        found = one_section_transformer(load, 50)

        assert 0 == len(found)
        assert "takes no power" in found.reason
        assert "inside" not in found.reason

    def test_matched_load(self):
        """A matched load needs a section of no length."""
        found = one_section_transformer(50, 50)

        assert (0.0, 50.0) == (found[0].section_length, found[0].section_impedance)
        assert Section(0.0, 50.0) == found[0].elements[0]
        assert 0.0 == found[0].circle.radius
        assert "matched already" in found.reason

    @pytest.mark.parametrize("load", [10, 250])
    def test_a_real_load_gives_the_quarter_wave(self, load):
        """For a real load it is the quarter wave."""
        found = one_section_transformer(load, 50)[0]

        assert quarter_wave(load, 50)[0].elements == found.elements

    @pytest.mark.parametrize("load", [100 + 50j, 10 - 5j, 20])
    def test_it_draws_its_circle(self, load):
        """On the line's chart the section draws an arc of the circle, from the load to the match point."""
        network = one_section_transformer(load, 50)[0]
        (way,) = network.path(61)
        far_side = 2 * network.circle.center

        assert np.full(61, network.circle.radius) == pytest.approx(
            np.abs(way - network.circle.center), abs=1e-14
        )
        assert reflection_coefficient(load, 50) == pytest.approx(way[0], abs=1e-14)
        assert reflection_coefficient(network.other_resistance, 50) == pytest.approx(far_side, abs=1e-14)

    def test_arrays(self):
        """Of an array there is always one, nan where there is none, and the reason holds for those."""
        found = one_section_transformer([100 + 50j, 40 + 30j, 0, 50], 50)

        assert [False, True, True, False] == np.isnan(found[0].section_impedance).tolist()
        assert [False, True, True, False] == np.isnan(found[0].input_reflection()).tolist()
        assert "only inside" in found.reason
        assert "takes no power" in found.reason
        assert isinstance(found[0], OneSection)

    @pytest.mark.parametrize("designer", [quarter_wave, one_section_transformer])
    @pytest.mark.parametrize(
        ("load", "line", "error", "sentence"),
        [
            (-1, 50, NegativeResistance, "resistance of -1 ohm"),
            (np.nan, 50, NotAnImpedance, "load impedance must be a number"),
            (10, -50, NotAnImpedance, "line impedance must be a positive number"),
        ],
    )
    def test_bad_arguments(self, designer, load, line, error, sentence):
        """A bad argument is refused with a sentence that names it."""
        with pytest.raises(error, match=sentence):
            designer(load, line)

    @pytest.mark.parametrize("designer", [quarter_wave, one_section_transformer])
    @pytest.mark.parametrize("load", [1e-140, 1e140, 1e-12 + 50j, 1e-12 + 1e-12j, 50 + 1e140j])
    def test_extreme_loads_make_no_noise(self, designer, load):
        """Loads next to a short or an open circuit are answered without a warning, alone and in an array."""
        assert len(designer(load, 50)) <= len(designer([load], 50))


def own_reflection(impedance, section_impedance):
    """Reflection on the section's own chart."""
    return (impedance - section_impedance) / (impedance + section_impedance)


def well_posed(z):
    """How far from the edge of the region of existence, where the rounding of the load itself counts for more."""
    return min(abs(z.real - 1), 1.0, abs(abs(z) ** 2 - z.real) / abs(z) ** 2)


def textbook_quarter_waves(load, line):
    """Distance and impedance, near and far, then stub lengths and impedance: Pozar, 4th ed., section 2.5 and eq.
    2.63 (from memory), from the angle of the reflection and the SWR."""
    mp = EXACT
    load, line = mp.mpc(load), mp.mpf(line)
    gamma = (load - line) / (load + line)
    ratio = mp.sqrt((1 + abs(gamma)) / (1 - abs(gamma)))
    maximum = mp.frac(mp.arg(gamma) / (2 * mp.pi)) / 2
    minimum = mp.frac(mp.arg(-gamma) / (2 * mp.pi)) / 2
    placed = sorted([(maximum, line * ratio), (minimum, line / ratio)])
    y = line / load
    short, open_ended = (mp.frac(mp.atan(t) / mp.pi) / 2 for t in (1 / y.imag, -y.imag))
    return [*placed[0], *placed[1], short, open_ended, line / mp.sqrt(y.real)]


def geometric_section(load, line):
    """Impedance and length, from the circle about a point of the real axis through the load and the line's
    impedance: its other crossing times the line's impedance is the square of the section's."""
    mp = EXACT
    load, line = mp.mpc(load), mp.mpf(line)
    center = (abs(load) ** 2 - line**2) / (2 * (load.real - line))
    impedance = mp.sqrt(line * (2 * center - line))
    tangent = (line - load) * impedance / (1j * (impedance**2 - line * load))
    return impedance, mp.frac(mp.atan(tangent.real) / mp.pi) / 2
