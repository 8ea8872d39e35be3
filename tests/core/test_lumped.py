"""L networks: every match found, none invented, and what parts off the shelf do to it."""

import numpy as np
import pytest
from mpmath.ctx_mp import MPContext

from core import (
    LNetwork,
    LumpedPart,
    MatchingNetwork,
    NegativeResistance,
    NotAnImpedance,
    OutOfRange,
    UnknownChoice,
    l_network,
    nearest_preferred,
    reflection_coefficient,
)
from core.lumped import engineering
from tests.core import brute_force

EXACT = MPContext()
EXACT.dps = 50
TOPOLOGIES = ["shunt nearer load", "series nearer load"]
HERTZ = 434e6


@pytest.fixture(params=[0, 1], ids=TOPOLOGIES)
def pair(request):
    """Which two of the four solutions."""
    return slice(2 * request.param, 2 * request.param + 2)


class TestLNetwork:
    def test_every_network_matches(self, pair):
        """Of 100,000 random loads every returned network is matched, by the evaluator."""
        found = l_network(*brute_force.line_loads(100_000, seed=31), HERTZ)[pair]
        size = np.abs([network.input_reflection() for network in found])

        assert np.nanmax(size) <= 1e-10
        assert 0.1 < np.isnan(size).mean() < 0.6

    def test_search_finds_the_same(self, pair):
        """A search along the part nearer the load finds these matches and no others, and none where there is none,
        for 4,000 loads."""
        load, line = brute_force.line_loads(4_000, seed=32)
        found = l_network(load, line)[pair]
        rows, values, left_over = searched(load, line, found[0].topology)
        designed = [normalised_values(network) for network in found]
        surplus, apart = brute_force.matches(rows, values, 4_000, designed, (0, 0))

        assert left_over < 1e-9
        assert not surplus.any()
        assert apart < 1e-9

    def test_agrees_with_fifty_digits(self, pair):
        """Reactances agree with the textbook's formulas at fifty digits, to 1e-12."""
        load, line = brute_force.line_loads(600, seed=33)
        found = l_network(load, line)[pair]
        there = np.flatnonzero(~np.isnan(found[0].series.reactance) & clear_of_the_circles(load / line))
        errors = [
            abs(EXACT.mpf(float(got)) - expected) / (abs(expected) + line[i])
            for i in there
            for network, textbook in zip(
                found, textbook_parts(load[i], line[i], found[0].topology), strict=True
            )
            for got, expected in zip(
                (network.shunt.reactance[i], network.series.reactance[i]), textbook, strict=True
            )
        ]

        assert len(errors) > 800
        assert max(errors) < 1e-12

    def test_order(self):
        """The order is as stated: shunt nearer load with a series inductor, with a series capacitor, then series
        nearer load with a shunt capacitor, with a shunt inductor."""
        found = l_network(15 + 30j, 50, HERTZ)

        assert [*2 * TOPOLOGIES[:1], *2 * TOPOLOGIES[1:]] == [network.topology for network in found]
        assert ["inductor", "capacitor"] == [network.series.kind for network in found[:2]]
        assert ["capacitor", "inductor"] == [network.shunt.kind for network in found[2:]]
        assert "" == found.reason

    @pytest.mark.parametrize(
        ("load", "topology", "circle"),
        [(200 - 100j, 0, "unit-resistance circle"), (10 + 5j, 1, "unit-conductance circle")],
    )
    def test_inside_a_circle(self, load, topology, circle):
        """Inside a unit circle only one topology matches, and the reason tells which circle."""
        found = l_network(load, 50)

        assert 2 * [TOPOLOGIES[topology]] == [network.topology for network in found]
        assert f"inside the {circle}" in found.reason

    @pytest.mark.parametrize(
        "load", [50 + 30j, 50 - 70j, 25 + 25j, 25 - 25j, 50 / (1 + 0.3j), 50 / (1 - 2.7j)]
    )
    def test_on_a_circle(self, load):
        """On a unit circle one of two networks needs a single part, and the reason says so."""
        found = l_network(load, 50, HERTZ)
        kinds = [[str(part.kind) for part in network.elements].count("none") for network in found]

        assert [0, 1] == sorted(kinds)
        assert "a single part does" in found.reason
        assert max(abs(network.input_reflection()) for network in found) < 1e-14

    def test_near_a_circle(self):
        """Next to a unit circle, from a part in a million to the rounding, every network still matches."""
        off = np.concatenate([[0.0], 10.0 ** np.arange(-16, -5), -(10.0 ** np.arange(-16, -5))])
        loads = np.concatenate([50 * (1 + off) + 30j, 50 / (1 + off + 0.7j), 50 * (1 + off) - 1e-5j])
        size = np.abs([network.input_reflection() for network in l_network(loads, 50)])

        assert np.nanmax(size) < 1e-13
        assert not np.isnan(size).all(axis=0).any()

    def test_matched_load(self):
        """A matched load needs no part: one solution, of no parts."""
        found = l_network(50, 50, HERTZ)

        assert [("none", "none")] == [(network.shunt.kind, network.series.kind) for network in found]
        assert 0j == found[0].input_reflection()
        assert "matched already" in found.reason

    @pytest.mark.parametrize("load", [0, np.inf, 30j])
    def test_a_load_that_takes_no_power(self, load):
        """A load that takes no power has no solution, and the reason says so."""
        found = l_network(load, 50)

        assert 0 == len(found)
        assert "takes no power" in found.reason

    def test_arrays(self):
        """Of an array there are always four, nan where there is none and repeated where two are the same."""
        found = l_network([15 + 30j, 0, 200, 50 + 30j, 50], 50, HERTZ)

        assert [False, True, True, False, False] == np.isnan(found[2].input_reflection()).tolist()
        assert "none" == found[2].shunt.kind[1]
        assert 2 == len({network.series.reactance[3] for network in found})
        assert {"none"} == {part.kind[4] for network in found for part in network.elements}
        assert "takes no power" in found.reason

    def test_everything_broadcasts(self):
        """Loads down and frequencies across give all their combinations, each as alone."""
        first = l_network(np.array([[15 + 30j], [200]]), 50, [169e6, 434e6, 868e6])[0]

        assert first.series.inductance is not None
        assert (2, 3) == first.series.inductance.shape == first.input_reflection().shape
        assert l_network(200, 50, 868e6)[0].series.inductance == first.series.inductance[1, 2]

    def test_values_do_not_change_the_match(self):
        """The frequency sets the parts' values, not their reactances."""
        without, with_one = l_network(15 + 30j, 50), l_network(15 + 30j, 50, HERTZ)

        assert [n.series.reactance for n in without] == [n.series.reactance for n in with_one]
        assert without[0].series.inductance is None
        assert without[0].shunt.capacitance is None

    @pytest.mark.parametrize(
        ("arguments", "error", "sentence"),
        [
            ((-1, 50), NegativeResistance, "resistance of -1 ohm"),
            ((10, 0), NotAnImpedance, "line impedance must be a positive number"),
            ((10, 50, 0), OutOfRange, "frequency must be a number above 0"),
            ((10, 50, np.nan), OutOfRange, "frequency must be a number above 0"),
        ],
    )
    def test_bad_arguments(self, arguments, error, sentence):
        """A bad argument is refused with a sentence that names it."""
        with pytest.raises(error, match=sentence):
            l_network(*arguments)

    @pytest.mark.parametrize("load", [1e-140, 1e140, 1e-12 + 50j, 1e-12 + 1e-12j, 50 + 1e140j])
    def test_extreme_loads_make_no_noise(self, load):
        """Loads next to a short or an open circuit are answered without a warning, alone and in an array."""
        assert len(l_network(load, 50)) <= len(l_network([load], 50, HERTZ)) == 4


class TestWhatAStudentReads:
    def test_between_the_parts(self):
        """Between the parts the point is on the other unit circle, reached by what the near part adds."""
        for network in l_network(15 + 30j, 50):
            z, y = network.impedance_between, network.admittance_between
            if network.topology == "shunt nearer load":
                assert 1.0 == pytest.approx(z.real, abs=1e-14)
                assert network.load_admittance + 1j * network.shunt_susceptance == pytest.approx(y, abs=1e-14)
                assert -network.series_reactance == pytest.approx(z.imag, abs=1e-14)
            else:
                assert 1.0 == pytest.approx(y.real, abs=1e-14)
                assert (15 + 30j) / 50 + 1j * network.series_reactance == pytest.approx(z, abs=1e-14)
                assert -network.shunt_susceptance == pytest.approx(y.imag, abs=1e-14)

    def test_values(self):
        """An inductor has X / (2 pi f), a capacitor 1 / (2 pi f |X|), and neither has the other's value."""
        coil, capacitor = LumpedPart(100.0, "series", HERTZ), LumpedPart(-100.0, "shunt", HERTZ)

        assert 100 / (2 * np.pi * HERTZ) == pytest.approx(coil.inductance, rel=1e-15)
        assert 0.01 / (2 * np.pi * HERTZ) == pytest.approx(capacitor.capacitance, rel=1e-15)
        assert coil.capacitance is not None
        assert capacitor.inductance is not None
        assert np.isnan([coil.capacitance, capacitor.inductance]).all()

    @pytest.mark.parametrize("hertz", [[], [HERTZ, 2 * HERTZ]])
    def test_many_frequencies(self, hertz):
        """A part at several frequencies is shown by its reactance."""
        assert "LumpedPart(series reactance: 100 ohm)" == repr(LumpedPart(100.0, "series", hertz))

    @pytest.mark.parametrize("ratio", [0.0, 1.0, 3.0])
    def test_no_parts_at_any_frequency(self, ratio):
        """Two parts that are not there leave a matched load matched, at zero frequency too."""
        for network in l_network([50, 60 - 80j], 50):
            assert ["none", "none"] == [part.kind[0] for part in network.elements]
            assert 0 == network.input_reflection(ratio)[0]

    @pytest.mark.parametrize("part", [LumpedPart(0.0, "series", HERTZ), LumpedPart(np.inf, "shunt", HERTZ)])
    def test_no_part_does_nothing(self, part):
        """No part changes no reflection, at any frequency, and stays no part in any variation of the network."""
        network = MatchingNetwork(20 + 30j, 50, (part,))
        plain, ratios = reflection_coefficient(20 + 30j, 50), np.array([0.5, 1.0, 2.0])

        assert "none" == part.kind == part.detuned(2.0).kind == part.preferred().kind
        assert np.isnan([part.inductance, part.capacitance]).all()
        assert np.full(3, plain) == pytest.approx(network.input_reflection(ratios), abs=1e-15)
        assert abs(plain) == pytest.approx(network.worst_reflection(0.01), abs=1e-15)
        assert np.full(3, plain) == pytest.approx(next(network.path(3)), abs=1e-15)

    def test_a_part_keeps_its_value_at_another_frequency(self):
        """Detuned, a part keeps its henry or farad; built with an error, it changes by that error."""
        coil, capacitor = LumpedPart(100.0, "series", HERTZ), LumpedPart(-100.0, "shunt", HERTZ)
        built = coil.as_built(np.zeros(3), np.array([-0.1, 0.0, 0.1]), np.zeros(3))

        assert coil.inductance == pytest.approx(coil.detuned(1.3).inductance, rel=1e-15)
        assert capacitor.capacitance == pytest.approx(capacitor.detuned(1.3).capacitance, rel=1e-15)
        assert [0.9, 1.0, 1.1] == pytest.approx(built.inductance / coil.inductance, rel=1e-14)
        assert LumpedPart(100.0).detuned(2.0).frequency is None

    def test_an_array_of_parts_with_errors(self):
        """Parts of several frequencies take errors of several trials."""
        coils = LumpedPart(np.array([100.0, 50.0]), "series", np.array([1e8, 2e8]))
        built = coils.as_built(np.zeros(3), np.array([-0.1, 0.0, 0.1]), np.zeros(3))

        assert built.inductance is not None
        assert (2, 3) == built.inductance.shape
        assert coils.inductance == pytest.approx(built.inductance[:, 1], rel=1e-15)

    def test_print(self):
        """A network prints its parts by kind and value, or by reactance without a frequency."""
        assert "shunt capacitor: 0.9228 pF; series inductor: 38.98 nH" in repr(
            l_network(200 - 100j, 100, 500e6)[0]
        )
        assert "shunt reactance: -344.9 ohm" in repr(l_network(200 - 100j, 100)[0])
        assert "shunt part: none" in repr(l_network(50 + 30j, 50, HERTZ)[1])
        assert "series reactance: 2 values" in repr(l_network([10, 20], 50, HERTZ)[2])

    @pytest.mark.parametrize(
        ("value", "text"),
        [(4.7e-12, "4.7 pF"), (9.99996e-10, "1 nF"), (1.5e-6, "1.5 µF"), (2.2e-14, "0.022 pF"), (3.0, "3 F")],
    )
    def test_engineering(self, value, text):
        """A value is printed with the prefix that leaves 1 to 1000."""
        assert text == engineering(value, "F")


class TestWithPreferred:
    @pytest.mark.parametrize("series", ["E12", "E24"])
    def test_values_are_the_nearest(self, series):
        """Every part has the nearest preferred value, of the same kind, and the match is computed with those."""
        for network in l_network(15 + 30j, 50, HERTZ):
            built = network.with_preferred(series)
            parts = []
            for old, new in zip(network.elements, built.elements, strict=True):
                name = "inductance" if old.kind == "inductor" else "capacitance"
                value = nearest_preferred(getattr(old, name), series)
                assert old.kind == new.kind
                assert value == pytest.approx(getattr(new, name), rel=1e-15)
                speed = 2j * np.pi * HERTZ
                impedance = speed * value if old.kind == "inductor" else 1 / (speed * value)
                wires = brute_force.shunt(1 / impedance), brute_force.series(impedance)
                parts.append(wires[old.placement == "series"])
            size = abs(brute_force.reflection(15 + 30j, parts, 50))

            assert size == pytest.approx(abs(built.input_reflection()), abs=1e-13)
            assert (1 + size) / (1 - size) == pytest.approx(built.input_swr, abs=1e-12)
            assert isinstance(built, LNetwork)

    def test_finer_series_matches_better(self):
        """On the whole the finer series leaves less reflection: over random loads its median is under 0.7 of the
        coarser one's, and nothing is spoilt beyond an SWR of 1.5 of loads with an SWR up to 3."""
        loads = brute_force.disc_loads(4_000, seed=34, rim=0.5) * 50
        networks = l_network(loads, 50, HERTZ)
        coarse, fine = (
            np.abs([network.with_preferred(series).input_reflection() for network in networks])
            for series in ("E12", "E24")
        )

        assert np.nanmedian(fine) < 0.7 * np.nanmedian(coarse)
        assert np.nanmax(fine) < 0.2
        assert np.isnan(fine).sum() == np.isnan(coarse).sum() > 0

    def test_no_part_stays_no_part(self):
        """A single part is replaced, no part stays none."""
        single = l_network(50 + 30j, 50, HERTZ)[1].with_preferred("E12")

        assert ("none", "capacitor") == (single.shunt.kind, single.series.kind)

    def test_without_a_frequency(self):
        """Without a frequency a part has no value, and the sentence says what to give."""
        with pytest.raises(OutOfRange, match="give l_network one, in hertz"):
            l_network(15 + 30j, 50)[0].with_preferred()

    def test_unknown_series(self):
        """Only the series on offer are taken."""
        with pytest.raises(UnknownChoice, match="The series must be E12 or E24, not 'E13'"):
            l_network(15 + 30j, 50, HERTZ)[0].with_preferred("E13")


def normalised_values(network):
    """Susceptance of the shunt part and reactance of the series part, as plain arrays."""
    return network.shunt_susceptance, network.series_reactance


def clear_of_the_circles(z):
    """Not so near a unit circle that the rounding of the load itself is what counts."""
    return (np.abs(z.real - 1) > 0.01) & (np.abs((1 / z).real - 1) > 0.01)


def searched(load, line, topology):
    """Susceptance and reactance by a scan of the near part for a unit real part behind it; what is left over."""
    shunt_first = topology == "shunt nearer load"
    near = (line / load) if shunt_first else (load / line)

    def part(case, value):
        return (
            brute_force.shunt(1j * value / line[case])
            if shunt_first
            else brute_force.series(1j * value * line[case])
        )

    def value(case, turn):
        return np.sqrt(near.real[case]) * np.tan(turn) - near.imag[case]

    def behind(case, turn):
        z = brute_force.seen(load[case], [part(case, value(case, turn))]) / line[case]
        return z if shunt_first else 1 / z

    grid = np.linspace(-np.pi / 2, np.pi / 2, 258)[1:-1]
    rows, turns = brute_force.all_roots(lambda case, turn: behind(case, turn).real - 1, len(load), grid)
    first, second = value(rows, turns), -behind(rows, turns).imag
    last = (
        brute_force.series(1j * second * line[rows])
        if shunt_first
        else brute_force.shunt(1j * second / line[rows])
    )
    left_over = np.abs(brute_force.reflection(load[rows], (part(rows, first), last), line[rows]))
    return rows, (first, second) if shunt_first else (second, first), left_over.max()


def textbook_parts(load, line, topology):
    """Shunt and series reactance of both solutions, Pozar, 4th ed., eq. 5.3 and 5.6 (from memory)."""
    mp = EXACT
    load, line = mp.mpc(load), mp.mpf(line)
    r, x = load.real, load.imag
    found = []
    for sign in (1, -1):
        if topology == "shunt nearer load":
            root = mp.sqrt(r / line) * mp.sqrt(abs(load) ** 2 - line * r)
            susceptance = (x + sign * root) / abs(load) ** 2
            found.append((-1 / susceptance, 1 / susceptance + x * line / r - line / (susceptance * r)))
        else:
            reactance = sign * mp.sqrt(r * (line - r)) - x
            found.append((-sign * line / mp.sqrt((line - r) / r), reactance))
    return found
