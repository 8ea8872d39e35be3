"""The single stub with loss: every solution a match, none missed, and said where none is left.

A law with no source beside it is common practice, no source.
"""

from itertools import product

import numpy as np
import pytest

from core import (
    OutOfRange,
    Section,
    Stub,
    UnknownChoice,
    attenuation_from_db,
    attenuation_from_db_per_m,
    attenuation_in_db,
    attenuation_in_db_per_m,
    double_stub,
    lossy_single_stub,
    power_flow,
    single_stub,
    with_attenuation,
)
from core.lossy import LOST
from core.lossy_designs import LONG, ONE_SHORT, WASTED
from core.solutions import TAKES_NO_POWER
from core.stubs import ALREADY_MATCHED
from tests.core import brute_force, lossy_counts
from tests.core.lossy_search import planted_singles

KINDS = list(product(("shunt", "series"), ("short", "open")))
every_kind = pytest.mark.parametrize(("placement", "end"), KINDS, ids=[" ".join(kind) for kind in KINDS])


class TestSolutions:
    @every_kind
    def test_every_one_is_a_match(self, placement, end):
        """All that is found for 25,000 loads on lines of 0.1 to 2 dB a wavelength is a match to 1e-10."""
        load = 50 * brute_force.disc_loads(25_000, seed=11)
        loss = attenuation_from_db(np.random.default_rng(12).uniform(0.1, 2, load.size))
        networks = lossy_single_stub(load, 50, loss, placement=placement, end=end)
        assert np.mean(~np.isnan([network.distance for network in networks[:2]])) > 0.99
        for network in networks:
            found = ~np.isnan(network.distance)
            assert np.max(np.abs(network.input_reflection()[found])) <= 1e-10
            assert np.all((network.distance[found] >= 0) & (network.stub_length[found] >= 0))

    @every_kind
    def test_none_missed(self, placement, end):
        """Lengths from which loads were made are found, and all that a search finds; nothing else is given."""
        counts = lossy_counts.single_stubs(40, 13, placement, end)

        assert (0, 0, 0) == (counts["missed"], counts["false"], counts["wrong reasons"])
        assert counts["cases"] > 60

    @every_kind
    def test_planted_lengths_are_found(self, placement, end):
        """Of 5,000 loads made backwards from a distance and a stub length each has these among its solutions."""
        problems, distance, length = planted_singles(5_000, 14, placement, end)
        networks = lossy_single_stub(*problems.arguments())
        off = [abs(n.distance - distance) + abs(n.stub_length - length) for n in networks]
        matched = np.abs(problems.load - 1) < 1e-9  # matched anywhere on the line

        assert np.nanmin(off, axis=0)[~matched].max() < 1e-6

    @pytest.mark.parametrize(
        ("problem", "expected"),
        [
            ((75j, 50, 0.3), [(0.2935, 0.0538), (0.4249, 0.4185)]),
            ((0, 50, 0.3), [(0.4403, 0.0666), (0.0666, 0.4403)]),
            ((1e-12, 50, 0.3), [(0.0666, 0.4403), (0.4403, 0.0666)]),
            ((48.667 + 9.122j, 50, 0.016), [(0.2600, 0.2209), (0.4989, 0.2789)]),
            (
                (63.62 + 48.23j, 75, 0.0272, 0.487, None, "shunt", "open"),
                [(0.4731, 0.0942), (0.2304, 0.4167)],
            ),
        ],
    )
    def test_known_matches(self, problem, expected):
        """Loads with a solution near an end of the half wave, or that take no power, have all their solutions."""
        networks = lossy_single_stub(*problem)

        found = sorted((network.distance, network.stub_length) for network in networks)

        assert len(expected) == len(networks)
        for pair, lengths in zip(sorted(expected), found, strict=True):
            assert pytest.approx(pair, abs=1e-4) == lengths

    def test_the_efficient_one_is_among_them(self):
        """Where one stub is short and the other long, both are given: 90 % efficiency and 73 %."""
        networks = lossy_single_stub(63.62 + 48.23j, 75, 0.0272, 0.487, end="open")

        assert pytest.approx([0.904, 0.725], abs=1e-3) == [power_flow(n).efficiency for n in networks]

    @every_kind
    def test_three_or_four(self, placement, end):
        """With unlike losses a load may have three solutions: all are given."""
        problems, _, _ = planted_singles(5_000, 14, placement, end)
        networks = lossy_single_stub(*problems.arguments())

        assert len(networks) > 2
        assert np.any(~np.isnan(networks[2].distance))
        assert np.nanmax(np.abs(networks[2].input_reflection())) <= 1e-9

    def test_double_solution(self):
        """On the limit, where a quarter-wave stub just takes what is too much, the two solutions are one."""
        stub = np.tanh(0.2 / 4)  # admittance of a quarter-wave shorted stub of 0.2 nepers per wavelength
        y = 1 - stub
        wave = (1 - y) / (1 + y) * np.exp(2 * (0.2 + 2j * np.pi) * 0.1)  # of impedance, 0.1 wavelengths away
        networks = lossy_single_stub(50 * (1 + wave) / (1 - wave), 50, 0.2)

        assert len(networks) == 1
        assert pytest.approx((0.1, 0.25), abs=1e-6) == (networks[0].distance, networks[0].stub_length)

    @every_kind
    @pytest.mark.parametrize("loss", [0.0, 1e-9, 1e-3, 0.3, 10.0])
    def test_the_largest_and_smallest_loads(self, loss, placement, end):
        """Loads from 1e-9 to 1e9 ohm, their reactances too, are answered without a warning, by matches only."""
        parts = [0.0, 1e-9, 1.0, 50.0, 1e9]
        load = np.array([complex(r, x) for r in parts for x in (*parts, -50.0, -1e9)])
        for network in lossy_single_stub(load, 50, loss, 1e-3, placement=placement, end=end):
            found = ~np.isnan(network.distance)
            assert np.all(np.abs(network.input_reflection()[found]) < 1e-7)

    @every_kind
    def test_without_loss(self, placement, end):
        """Without loss they are the lossless solutions, the shorter first."""
        lossless = single_stub(60 - 80j, 50, placement=placement, end=end)
        lossy = lossy_single_stub(60 - 80j, 50, 0.0, placement=placement, end=end)

        assert sorted(((n.distance, n.stub_length) for n in lossless), key=sum) == [
            (n.distance, n.stub_length) for n in lossy
        ]

    def test_a_little_loss_changes_little(self):
        """The change of both lengths is in proportion to a small loss."""
        lossless = single_stub(60 - 80j, 50)[0]
        small, twice = (lossy_single_stub(60 - 80j, 50, loss)[0] for loss in (1e-5, 2e-5))

        for name in ("distance", "stub_length"):
            first, second = (getattr(n, name) - getattr(lossless, name) for n in (small, twice))
            assert first != 0
            assert pytest.approx(2, rel=1e-3) == second / first

    def test_carries_its_loss(self):
        """Its elements have the attenuation, so that response and efficiency know of it."""
        near = lossy_single_stub(60 - 80j, 50, 0.05, stub_attenuation=0.08)[0]

        assert (0.05, 0.08) == tuple(element.attenuation for element in near.elements)

    def test_arrays(self):
        """Loads, lines and losses of any shapes broadcast."""
        near, far = lossy_single_stub([60 - 80j, 20, 50j], 50, np.array([[0.0], [0.1]]))

        assert (2, 3) == near.distance.shape == far.stub_length.shape
        assert [True, False] == list(np.isnan(near.distance[:, 2]))
        assert pytest.approx(lossy_single_stub(20, 50, 0.1)[1].distance) == far.distance[1, 1]

    def test_shortest_first(self):
        """The smallest sum of both lengths comes first, and what exists before what does not."""
        load = 50 * brute_force.disc_loads(2000, seed=15)
        lines = np.array([n.distance + n.stub_length for n in lossy_single_stub(load, 50, 0.3, 0.1)])

        assert np.all(np.isnan(lines[1:]) | (lines[:-1] <= lines[1:]))


class TestReasons:
    def test_both(self):
        """Two solutions need no explanation."""
        solutions = lossy_single_stub(60 - 80j, 50, 0.05)

        assert (2, "") == (len(solutions), solutions.reason)

    def test_one_left(self):
        """Near a match an open stub may leave one solution, and it is said why."""
        solutions = lossy_single_stub(51, 50, 0.1, end="open")

        assert (1, ONE_SHORT) == (len(solutions), solutions.reason)

    def test_none_left(self):
        """A shorted stub of lossy line cannot be out of the way, and spoils what is nearly matched."""
        solutions = lossy_single_stub(51, 50, 0.1)

        assert (0, LOST) == (len(solutions), solutions.reason)

    def test_matched_already(self):
        """For a matched load an open stub of no length adds nothing; no shorted one does so little."""
        solutions = lossy_single_stub(50, 50, 0.1, end="open")

        assert [(0, 0)] == [(s.distance, s.stub_length) for s in solutions]
        assert ALREADY_MATCHED == solutions.reason
        assert (0, LOST) == (len(lossy_single_stub(50, 50, 0.1)), lossy_single_stub(50, 50, 0.1).reason)

    @pytest.mark.parametrize("load", [0, np.inf, 30j])
    def test_load_that_takes_nothing(self, load):
        """A load that takes no power is matched only by wasting it, which is said; without loss by nothing."""
        lossless, lossy = lossy_single_stub(load, 50, 0.0), lossy_single_stub(load, 50, 0.1)

        assert (0, TAKES_NO_POWER) == (len(lossless), lossless.reason)
        assert lossy.reason.endswith(WASTED)
        assert all(power_flow(network).efficiency == 0 for network in lossy)

    def test_only_a_long_one(self):
        """Where no solution has both lengths below half a wavelength, the shortest longer one is given, and said."""
        solutions = lossy_single_stub(45.686 + 22.805j, 50, 1.0, end="open")

        assert (1, LONG) == (len(solutions), solutions.reason)
        assert pytest.approx((0.5023, 0.0266), abs=1e-4) == (solutions[0].distance, solutions[0].stub_length)

    def test_arrays_say_what_applies(self):
        """The reason of an array has a sentence for each kind of load in it that is unusual."""
        solutions = lossy_single_stub([60 - 80j, 51, 30j], 50, 0.1)

        assert f"{LOST} {WASTED}" == solutions.reason

    @pytest.mark.parametrize(("placement", "end"), KINDS)
    @pytest.mark.parametrize("load", [0, np.inf, 60 - 80j])
    def test_more_loss_than_can_be_reckoned_with(self, load, placement, end):
        """Where a longer line would leave nothing of a wave, it is not tried: there is an answer, or a reason."""
        solutions = lossy_single_stub(load, 50, 300.0, None, None, placement, end)

        assert solutions or LOST in solutions.reason

    @pytest.mark.parametrize("loss", [-0.1, np.nan, np.inf])
    def test_impossible_loss(self, loss):
        """Attenuation is zero or more."""
        with pytest.raises(OutOfRange, match="attenuation must be a number at least 0"):
            lossy_single_stub(60 - 80j, 50, loss)

    def test_impossible_stub_loss(self):
        """The stub's own attenuation is checked too."""
        with pytest.raises(OutOfRange, match="stub attenuation must be a number at least 0"):
            lossy_single_stub(60 - 80j, 50, 0.1, stub_attenuation=-1)

    def test_other_end(self):
        """The choices are those of the lossless stub."""
        with pytest.raises(UnknownChoice, match="short or open, not 'left'"):
            lossy_single_stub(60 - 80j, 50, 0.1, end="left")


class TestAttenuation:
    def test_neper(self):
        """A neper is 20 / ln 10 decibels, 8.686 (by definition)."""
        assert pytest.approx(8.685889638065037) == attenuation_in_db(1.0)
        assert pytest.approx(1.0) == attenuation_from_db(8.685889638065037)

    def test_there_and_back(self):
        """Decibels a metre become nepers a wavelength and back, for any shapes."""
        loss, wave = np.array([0.0, 0.1, 2.0]), np.array([[0.4], [0.1]])

        assert pytest.approx(loss + 0 * wave) == attenuation_in_db_per_m(
            attenuation_from_db_per_m(loss, wave), wave
        )

    def test_what_a_section_loses(self):
        """A matched section of line loses its decibels per metre times its metres."""
        attenuation = attenuation_from_db_per_m(0.2, 0.456)
        section = Section(10 / 0.456, 50, attenuation)
        voltage, _ = section.act((np.asarray(50.0), np.asarray(1.0)), np.asarray(1.0))

        assert pytest.approx(2.0) == 20 * np.log10(abs(voltage) / 50)

    @pytest.mark.parametrize(
        "convert", [attenuation_from_db, attenuation_in_db, lambda loss: attenuation_from_db_per_m(loss, 1.0)]
    )
    def test_no_gain(self, convert):
        """No line gains."""
        with pytest.raises(OutOfRange, match="attenuation must be a number at least 0"):
            convert(-1)

    def test_no_wavelength(self):
        """A wavelength is longer than nothing."""
        with pytest.raises(OutOfRange, match="wavelength must be a number above 0"):
            attenuation_from_db_per_m(0.1, 0)

    def test_any_network(self):
        """Any network can be cut from lossy line, stubs from another if wished."""
        network = with_attenuation(double_stub(60 - 80j, 50, 1 / 8)[0], 0.02, 0.03)

        pieces = [e for e in network.elements if isinstance(e, Section | Stub)]
        assert {Section: 0.02, Stub: 0.03} == {type(piece): piece.attenuation for piece in pieces}

    @pytest.mark.parametrize("piece", [Section, Stub])
    def test_elements_refuse_gain(self, piece):
        """An element of negative attenuation is refused where it is made."""
        with pytest.raises(OutOfRange, match="attenuation must be a number at least 0"):
            piece(0.1, 50, attenuation=-0.1)
