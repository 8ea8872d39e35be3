"""Errors of making: the worst case against every combination, chance against the worst case, and the ranking.

A law with no source beside it is common practice, no source.
"""

import dataclasses
from collections.abc import Callable
from itertools import product
from typing import Any

import numpy as np
import pytest

from core import (
    Errors,
    MatchingNetwork,
    OutOfRange,
    Reactance,
    Section,
    SeriesLoad,
    ShapesDiffer,
    Stub,
    UnknownChoice,
    bandwidth,
    double_stub,
    l_network,
    monte_carlo,
    power_flow,
    quarter_wave,
    rank_solutions,
    single_stub,
    worst_case,
)

NEAR, FAR = single_stub(60 - 80j, 50)
EVERYTHING = Errors(length=0.004, impedance=0.03, velocity=0.02, load=0.05)


def built(network, d=0.0, z=0.0, v=0.0, r=0.0, x=0.0) -> float:
    """|Reflection| of a single stub with these errors, written out part by part."""
    (section, stub), load = network.elements, network.load_impedance
    dd, dl = d if np.ndim(d) else (d, d)
    zd, zl = z if np.ndim(z) else (z, z)
    parts = (
        Section((section.length + dd) / (1 + v), section.impedance * (1 + zd)),
        Stub((stub.length + dl) / (1 + v), stub.impedance * (1 + zl)),
    )
    wrong = load.real * (1 + r) + 1j * (load.imag + abs(load) * x)
    return abs(MatchingNetwork(wrong, network.line_impedance, parts).input_reflection())


class TestWorstCase:
    @pytest.mark.parametrize("network", [NEAR, FAR], ids=["near", "far"])
    def test_every_corner(self, network):
        """The worst case is the largest of all 256 combinations of signs, written out one by one."""
        signs = list(product((1, -1), repeat=7))
        e = EVERYTHING
        length, impedance = float(np.asarray(e.length)), float(np.asarray(e.impedance))
        corners = [
            built(
                network,
                (length * a, length * b),
                (impedance * c, impedance * f),
                e.velocity * g,
                e.load * h,
                e.load * i,
            )
            for a, b, c, f, g, h, i in signs
        ]

        assert pytest.approx(max(corners), rel=1e-12) == worst_case(network, e).reflection

    def test_names_the_corner(self):
        """The errors that it names make the reflection that it names."""
        worst = worst_case(NEAR, EVERYTHING)
        made = NEAR.as_built(worst.lengths, worst.impedances, worst.velocity, worst.load)

        assert pytest.approx(worst.reflection) == abs(made.input_reflection())
        assert pytest.approx((1 + worst.reflection) / (1 - worst.reflection)) == worst.swr

    def test_lengths_only(self):
        """With lengths alone in error it is what the network itself says."""
        assert (
            pytest.approx(NEAR.worst_reflection(0.005)) == worst_case(NEAR, Errors(length=0.005)).reflection
        )

    def test_no_errors(self):
        """Without errors the worst case is the design."""
        assert worst_case(NEAR, Errors()).reflection < 1e-14

    def test_arrays(self):
        """An array of networks has the worst cases of its members, nan where there is no solution."""
        loads = np.array([[60 - 80j, 50j, 20], [10, 35 + 5j, 1000]])
        together = worst_case(single_stub(loads, 50)[0], EVERYTHING).reflection

        assert (2, 3) == together.shape
        assert np.isnan(together[0, 1])
        for place, load in np.ndenumerate(loads):
            if load.real:
                alone = worst_case(single_stub(load, 50)[0], EVERYTHING).reflection
                assert pytest.approx(alone) == together[place]

    def test_bit_by_bit(self, monkeypatch):
        """Taken a few corners at a time, to save memory, the worst case and its corner are the same."""
        networks = single_stub(np.array([60 - 80j, 20, 100 + 5j]), 50)[0]
        at_once = worst_case(networks, EVERYTHING)
        monkeypatch.setattr("core.tolerance.CHUNK", 21)
        bit_by_bit = worst_case(networks, EVERYTHING)

        assert at_once.reflection.tolist() == bit_by_bit.reflection.tolist()
        assert at_once.lengths.tolist() == bit_by_bit.lengths.tolist()

    def test_loss_stays_in_the_metres(self):
        """A wrong velocity changes a lossy line's wavelengths, not the power that its metres lose."""
        network = MatchingNetwork(50, 50, (Section(3.0, 50, attenuation=0.1),))

        assert (
            pytest.approx(power_flow(network).loss_db)
            == power_flow(network.as_built(velocity_errors=0.1)).loss_db
        )

    def test_stops_at_no_length(self):
        """A line shorter than its error ends at no length: over the whole box of both lengths nothing is worse."""
        network, error = single_stub(4.81 - 15.8j, 50)[0], 0.005
        distance, length = network.elements[0].length, network.elements[1].length
        off = np.linspace(-error, error, 201)
        lengths = np.maximum(distance + off, 0.0)[:, None] + 0 * off, length + off + 0 * off[:, None]
        box = MatchingNetwork(4.81 - 15.8j, 50, (Section(lengths[0], 50), Stub(lengths[1], 50)))

        assert distance < error
        assert pytest.approx(0.2903, abs=1e-4) == worst_case(network, Errors(length=error)).reflection
        assert (
            np.abs(box.input_reflection()).max()
            <= worst_case(network, Errors(length=error)).reflection + 1e-15
        )

    def test_a_line_of_no_length(self):
        """A line that is not there cannot be too short, only too long."""
        network = single_stub(25 + 25j, 50)[0]

        assert network.distance == 0
        assert 0 < worst_case(network, Errors(length=0.005)).reflection < 0.2

    def test_lumped_parts(self):
        """An error of impedance is an error of a lumped part's reactance."""
        network = MatchingNetwork(200 - 100j, 100, (Reactance(-345, "shunt"), Reactance(122, "series")))
        found = [
            abs(
                MatchingNetwork(
                    200 - 100j, 100, (Reactance(-345 * a, "shunt"), Reactance(122 * b))
                ).input_reflection()
            )
            for a, b in product((0.95, 1.05), repeat=2)
        ]

        assert pytest.approx(max(found)) == worst_case(network, Errors(impedance=0.05)).reflection

    def test_too_many(self):
        """A worst case over more values than can be tried is refused, and the other way named."""
        network = MatchingNetwork(50, 50, (Section(0.1, 50),) * 9)

        with pytest.raises(OutOfRange, match="18 values has too many corners; 16 are allowed"):
            worst_case(network, Errors(length=0.01, impedance=0.01))

    @pytest.mark.parametrize(
        ("errors", "said"),
        [
            ({"length": -0.1}, "error of length must be a number at least 0"),
            ({"impedance": 2}, "error of the impedance must be a number at least 0 and at most 0.9"),
            ({"velocity": np.nan}, "error of the velocity must be"),
            ({"load": 1}, "error of the load must be"),
        ],
    )
    def test_impossible_errors(self, errors, said):
        """An error is a size, not a sign, and leaves something of the value."""
        with pytest.raises(OutOfRange, match=said):
            Errors(**errors)


class TestMonteCarlo:
    @pytest.mark.parametrize(
        "network", [NEAR, FAR, quarter_wave(60 - 80j, 50)[0], double_stub(60 - 80j, 50, 1 / 8)[1]]
    )
    def test_never_worse_than_the_worst(self, network):
        """Of 20,000 networks with small errors none is worse than the worst corner, and some come near it."""
        small = Errors(length=0.0005, impedance=0.003, velocity=0.002, load=0.005)
        chance = monte_carlo(network, small, trials=20_000).reflection
        worst = worst_case(network, small).reflection

        assert 0.4 * worst < chance.max() <= worst

    def test_same_seed(self):
        """The same seed makes the same networks, another one others."""
        one, two, other = (monte_carlo(NEAR, EVERYTHING, 100, seed) for seed in (7, 7, 8))

        assert one.reflection.tolist() == two.reflection.tolist() != other.reflection.tolist()

    def test_recorded_values(self):
        """Seed 0 gives these reflections, today as on the day they were noted."""
        found = monte_carlo(NEAR, Errors(length=0.005), trials=4, seed=0).reflection

        assert pytest.approx([0.0411, 0.0322, 0.0467, 0.0450], abs=1e-4) == found

    @pytest.mark.parametrize(("distribution", "deviation"), [("uniform", 1 / np.sqrt(3)), ("normal", 1 / 3)])
    def test_spread(self, distribution, deviation):
        """A single error spreads the reflection as its distribution says: near a match they are
        proportional."""
        network = MatchingNetwork(50, 50, (Section(0.25, 50),))
        found = monte_carlo(network, Errors(impedance=1e-4), 100_000, distribution=distribution).reflection

        # A quarter wave of Z (1 + e) between two Z reflects e.
        assert pytest.approx(1e-4 * deviation, rel=0.01) == np.sqrt(np.mean(found**2))

    def test_yield(self):
        """The share within a limit counts the networks, and grows with the limit from none to all."""
        spread = monte_carlo(NEAR, EVERYTHING, 2000)
        shares = [spread.share_within(limit) for limit in (1.0001, 1.1, 1.2, 1.5, 3)]

        assert shares == sorted(shares)
        assert (0, 1) == (shares[0], shares[-1])
        assert np.mean(spread.reflection <= 0.1 / 2.1) == shares[1]
        assert pytest.approx(np.percentile(spread.reflection, 95)) == spread.percentile(95)

    def test_arrays_meet_the_same_errors(self):
        """Two networks of an array get the same errors, so that they can be compared."""
        together = monte_carlo(single_stub(np.array([60 - 80j, 60 - 80j]), 50)[0], EVERYTHING, 50).reflection

        assert (2, 50) == together.shape
        assert together[0].tolist() == together[1].tolist()
        assert pytest.approx(monte_carlo(NEAR, EVERYTHING, 50).reflection) == together[0]

    def test_other_distribution(self):
        """Only the two distributions on offer are known."""
        with pytest.raises(UnknownChoice, match="uniform or normal, not 'triangle'"):
            monte_carlo(NEAR, EVERYTHING, distribution="triangle")

    def test_no_trials(self):
        """At least one network must be made."""
        with pytest.raises(OutOfRange, match="number of trials must be a whole number from 1"):
            monte_carlo(NEAR, EVERYTHING, trials=0)


class TestRanking:
    RANKING = rank_solutions((NEAR, FAR))

    def test_values(self):
        """It ranks by the network's line, by its bandwidth and by its worst case."""
        assert pytest.approx([NEAR.total_line, FAR.total_line]) == self.RANKING.total_line
        assert pytest.approx([bandwidth(n).fraction for n in (NEAR, FAR)]) == self.RANKING.bandwidth
        assert pytest.approx([n.worst_reflection(0.005) for n in (NEAR, FAR)]) == self.RANKING.sensitivity

    @pytest.mark.parametrize("measure", ["total line", "bandwidth", "sensitivity"])
    def test_order(self, measure):
        """The best comes first: least line, widest band, least reflection."""
        ranking = rank_solutions(quarter_wave(60 - 80j, 50))
        ordered = ranking.values(measure)[ranking.order(measure)]

        assert sorted(ordered.tolist(), reverse=measure == "bandwidth") == ordered.tolist()

    def test_sentences(self):
        """Each measure has its sentence with figures, and the last says what to build."""
        assert (
            "In total line solution 1 leads: 0.205 wavelengths in all, against 0.664 wavelengths for solution 2.",
            "In bandwidth solution 1 leads: SWR <= 2 over 37.0 % of the design frequency, "
            "against 11.9 % for solution 2. Less line turns less as the frequency changes.",
            "In sensitivity all solutions are level: errors of making leave |reflection| at 0.100 at worst.",
            "Build solution 1: no other is better in any of these.",
        ) == self.RANKING.sentences

    def test_no_clear_best(self):
        """Where no solution leads in everything, the advice names what each is best for."""
        advice = rank_solutions(double_stub(60 - 80j, 50, 1 / 8, ends=("open", "open"))).sentences[-1]

        assert "No solution is best in all of these" in advice
        assert "solution 1 for total line, solution 2 for bandwidth" in advice

    def test_level(self):
        """The two orders of the same two sections of one network are level in everything."""
        assert (
            "Build any of solutions 1 and 2: they are level in all of these."
            == rank_solutions((NEAR, NEAR)).sentences[-1]
        )

    def test_matched(self):
        """For a matched load nothing is built."""
        said = ("This load is matched already: there is nothing to build.",)

        assert said == rank_solutions(single_stub(50, 50)).sentences
        assert said == rank_solutions(quarter_wave(75, 75)).sentences

    def test_one_and_none(self):
        """A single solution is built; without one nothing is said."""
        only = rank_solutions(single_stub(60 - 80j, 50)[:1])

        assert ("There is only one solution: build it.",) == only.sentences
        assert () == rank_solutions(single_stub(50j, 50)).sentences

    def test_lumped(self):
        """Networks without line are ranked by their band and by errors of their parts."""
        ranking = rank_solutions(l_network(200 - 100j, 100, 500e6), errors=Errors(impedance=0.05))

        assert [0, 0] == ranking.total_line.tolist()
        assert np.all(ranking.sensitivity > 0.01)
        assert "turns less" not in " ".join(ranking.sentences)

    def test_load_model(self):
        """A load that changes with frequency changes the band, and the ranking follows."""
        model = rank_solutions((NEAR, FAR), load=SeriesLoad.of(60 - 80j))

        assert (
            pytest.approx([bandwidth(n, load=SeriesLoad.of(60 - 80j)).fraction for n in (NEAR, FAR)])
            == model.bandwidth
        )

    def test_arrays(self):
        """Arrays of loads are ranked load by load, without sentences; no solution comes last."""
        loads = np.array([60 - 80j, 15 + 10j, 30j])
        ranking = rank_solutions(single_stub(loads, 50, end="open"))

        assert (2, 3) == ranking.order("total line").shape
        assert [1, 0] == ranking.order("total line")[0, :2].tolist()
        assert () == ranking.sentences

    def test_other_measure(self):
        """Only the three measures are known."""
        with pytest.raises(UnknownChoice, match="total line or bandwidth or sensitivity, not 'beauty'"):
            self.RANKING.order("beauty")


def alone(kind: str, which: int, error: float) -> float:
    """|reflection| of the near solution with one value of one element changed by hand."""
    elements: list[Any] = list(NEAR.elements)
    value = getattr(elements[which], kind)
    changed = value + error if kind == "length" else value * (1 + error)
    elements[which] = dataclasses.replace(elements[which], **{kind: changed})
    return float(abs(MatchingNetwork(60 - 80j, 50, tuple(elements)).input_reflection()))


ONE_OFF: dict[str, Callable[[tuple[float, ...]], Errors]] = {
    "length": lambda sizes: Errors(length=sizes),
    "impedance": lambda sizes: Errors(impedance=sizes),
}


class TestOneAlone:
    """The length or the impedance of a single element off, all others right."""

    @pytest.mark.parametrize("kind", ONE_OFF)
    @pytest.mark.parametrize("which", [0, 1])
    def test_worst(self, kind, which):
        """The worst of one value alone is the worse of its two ends, with no other value touched."""
        size = {"length": 0.01, "impedance": 0.05}[kind]
        sizes = tuple(size * (number == which) for number in range(2))
        ends = [alone(kind, which, size * sign) for sign in (1, -1)]

        assert pytest.approx(max(ends)) == worst_case(NEAR, ONE_OFF[kind](sizes)).reflection

    def test_sum(self):
        """One number for all is the same as that number for each."""
        assert worst_case(NEAR, Errors(length=0.005, impedance=0.02)) == worst_case(
            NEAR, Errors(length=(0.005, 0.005), impedance=[0.02, 0.02])
        )

    def test_wrong_count(self):
        """Errors for three elements are refused by a network of two."""
        with pytest.raises(ShapesDiffer, match="The network has 2 elements and 3 errors are given"):
            worst_case(NEAR, Errors(length=(0.1, 0.1, 0.1)))
