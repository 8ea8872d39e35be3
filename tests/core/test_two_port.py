"""Two-ports: cascade, what is taken away again, loads, references, kinds of parameters."""

import numpy as np
import pytest

from core import (
    MatchingNetwork,
    NegativeResistance,
    NotAnImpedance,
    OutOfRange,
    Reactance,
    Section,
    Stub,
    TwoPort,
    UnknownChoice,
    cut_from_line,
    l_network,
    line_two_port,
    network_two_port,
    single_stub,
    two_port_from,
    two_port_parameters,
    usual_cable,
)
from tests.core.two_ports import SWEEP, cable, random_scattering, random_two_port, series

AGREED = 1e-12
KINDS = ["S", "Z", "Y", "H", "G", "ABCD"]
DESIGN = 434e6


def same(expected: TwoPort, found: TwoPort, agreed: float = AGREED) -> bool:
    """Whether two two-ports are the same at all frequencies."""
    return bool(
        np.array_equal(expected.reference, found.reference)
        and np.abs(expected.scattering - found.scattering).max() < agreed
    )


class TestCascade:
    def test_nothing_between(self):
        """A piece of no length changes nothing, on either side."""
        one, none = random_two_port(1), cable(0.0)

        assert same(one, one @ none)
        assert same(one, none @ one)

    def test_order_of_joining(self):
        """It does not matter which joint is made first, whatever the references."""
        a, b, c = (random_two_port(n, reference) for n, reference in enumerate([50, (30, 75), (100, 20)]))

        assert same((a @ b) @ c, a @ (b @ c))

    def test_lengths_add(self):
        """Two lengths of one cable are one of their sum."""
        assert same(cable(20.0), cable(12.0) @ cable(8.0))

    def test_chain_matrices_multiply(self):
        """The chain matrix of a cascade is the product."""
        a, b = random_two_port(3), random_two_port(4, (30, 75))
        product = two_port_parameters(a, "ABCD") @ two_port_parameters(b, "ABCD")

        assert pytest.approx(product, rel=1e-10) == two_port_parameters(a @ b, "ABCD")

    def test_one_that_lets_nothing_through(self):
        """Behind one that lets nothing through nothing is seen, and nothing comes out."""
        wall = TwoPort(SWEEP, np.broadcast_to([[0.5, 0], [0, 0.2]], (15, 2, 2)))
        joined = wall @ random_two_port(5)

        assert pytest.approx(np.full(15, 0.5)) == joined.scattering[:, 0, 0]
        assert np.all(joined.insertion_loss_db == np.inf)

    def test_arrays_of_them(self):
        """An array of two-ports joins with one, element by element."""
        many = TwoPort(SWEEP, np.stack([random_scattering(n) for n in range(3)]))
        joined = many @ random_two_port(9)

        assert (3, 15, 2, 2) == joined.scattering.shape
        assert pytest.approx((random_two_port(2) @ random_two_port(9)).scattering) == joined.scattering[2]

    def test_trapped_wave(self):
        """A wave that goes to and fro between two walls for ever has no steady state."""
        wall = TwoPort([1e9], [[[1, 0], [0, 1]]])
        with pytest.raises(
            OutOfRange, match=r"At 1e\+09 Hz a wave between the two-ports returns undiminished"
        ):
            wall @ wall

    def test_other_frequencies(self):
        """Two-ports join at the same frequencies only."""
        with pytest.raises(OutOfRange, match="not known at the same frequencies"):
            random_two_port(1) @ TwoPort(SWEEP + 1e6, random_scattering(2))

    def test_with_something_else(self):
        """Only a two-port joins a two-port."""
        with pytest.raises(TypeError, match="unsupported operand"):
            random_two_port(1) @ 3  # type: ignore[operator]


class TestTakenAway:
    @pytest.mark.parametrize("reference", [50, (30, 75)])
    def test_from_the_left_and_the_right(self, reference):
        """What stands behind or before a piece is found from the whole and the piece."""
        left, inner, right = random_two_port(1), random_two_port(2), random_two_port(3, reference)
        whole = left @ inner @ right

        assert same(inner, whole.after(left).before(right).renormalised(50), 1e-10)

    def test_a_line(self):
        """A filter measured through 12 m of cable on each side is the filter."""
        inner = random_two_port(4)

        assert same(inner, (cable() @ inner @ cable()).after(cable()).before(cable()), 1e-10)

    def test_through_nothing(self):
        """What is behind a piece that lets nothing through cannot be known."""
        wall = TwoPort(SWEEP, np.broadcast_to([[0.5, 0], [0, 0.2]], (15, 2, 2)))
        with pytest.raises(OutOfRange, match=r"At 4e\+08 Hz the piece lets nothing through"):
            random_two_port(1).after(wall)


class TestLoaded:
    @pytest.mark.parametrize("load", [0, 50, 60 - 80j, 1e200, np.inf])
    def test_as_a_line_shows_it(self, load):
        """A cable with a load at its end reflects as its input impedance does."""
        line = usual_cable("RG-58")
        shown = line.input_impedance(load, 12.0, SWEEP)

        assert pytest.approx((shown - 50) / (shown + 50), abs=AGREED) == cable().input_reflection(load)

    def test_load_behind_a_cable(self):
        """An antenna measured through its cable is found at the cable's end."""
        loads = 50 + 30 * np.sin(SWEEP / 1e7) - 1j * SWEEP / 1e7
        seen = cable().input_reflection(loads)

        assert pytest.approx(loads) == cable().load_impedance(seen)

    def test_refused(self):
        """A load that would give power is refused, as is one behind a wall."""
        with pytest.raises(NegativeResistance, match="passive load"):
            cable().input_reflection(-10)
        wall = TwoPort(SWEEP, np.broadcast_to([[0.5, 0], [0, 0.2]], (15, 2, 2)))
        with pytest.raises(OutOfRange, match="lets nothing through, and its load cannot be known"):
            wall.load_reflection(0.1)


class TestReferences:
    def test_there_and_back(self):
        """Other references and the first ones again change nothing."""
        assert same(random_two_port(1), random_two_port(1).renormalised((20, 300)).renormalised(50))

    def test_kinds_of_parameters_do_not_care(self):
        """Impedances, hybrid and chain parameters are those of the two-port, whatever the references."""
        one = random_two_port(2)

        for kind in KINDS[1:]:
            assert pytest.approx(two_port_parameters(one, kind), rel=1e-9) == two_port_parameters(
                one.renormalised((20, 300)), kind
            )

    def test_quarter_wave_transformer(self):
        """A quarter wave of 70.7 ohm between 50 and 100 ohm reflects nothing and loses nothing."""
        line = MatchingNetwork(100, 50, (Section(0.25, 5000**0.5),))
        transformer = network_two_port(line, [DESIGN], DESIGN, (50, 100))

        assert pytest.approx(np.array([[0, 1], [1, 0]]), abs=AGREED) == abs(transformer.scattering[0])


class TestKinds:
    @pytest.mark.parametrize("reference", [50.0, (30.0, 75.0)])
    @pytest.mark.parametrize("kind", KINDS)
    def test_there_and_back(self, kind, reference):
        """A two-port turned into parameters of any kind and back is the same."""
        one = random_two_port(6, reference)
        there = two_port_parameters(one, kind)

        assert same(one, two_port_from(kind, SWEEP, there, reference))

    def test_elements(self):
        """An impedance in the line has the textbook's parameters, and no Z (Pozar, 4th ed., table 4.1, from memory)."""
        part = series(30 - 40j)
        admittance = 1 / (30 - 40j)

        assert pytest.approx(np.array([[1, -1], [-1, 1]]) * admittance) == two_port_parameters(part, "Y")[0]
        assert pytest.approx(np.array([[30 - 40j, 1], [-1, 0]])) == two_port_parameters(part, "H")[0]
        with pytest.raises(OutOfRange, match=r"At 4e\+08 Hz the two-port has no Z parameters"):
            two_port_parameters(TwoPort(SWEEP, np.broadcast_to(np.array([[0, 1], [1, 0]]), (15, 2, 2))), "Z")

    def test_no_chain_matrix(self):
        """What lets nothing through has no chain matrix."""
        wall = TwoPort([1e9], [[[0.5, 0], [0, 0.2]]])
        with pytest.raises(OutOfRange, match="has no chain matrix"):
            two_port_parameters(wall, "ABCD")

    @pytest.mark.parametrize(
        ("arguments", "fault"),
        [
            (("Q", [1e9], [np.eye(2)]), "kind of parameters must be S or Z"),
            (("Z", [1e9], [-50 * np.eye(2)]), "reflects without bound"),
            (("ABCD", [1e9], [[[-1, 0], [0, 1]]]), "reflects without bound"),
            (("Z", [1e9], [1, 2]), "2 by 2"),
            (("Z", [1e9], [[["a", "b"], ["c", "d"]]]), "must be an array of numbers"),
            (("S", [1e9], [np.eye(2)], (1, 2, 3)), "one reference resistance, or two"),
        ],
    )
    def test_refused(self, arguments, fault):
        """What is no two-port is refused in words."""
        with pytest.raises((OutOfRange, UnknownChoice), match=fault):
            two_port_from(*arguments)


class TestProperties:
    def test_passive_and_reciprocal(self):
        """A cable is passive and reciprocal; an amplifier is neither."""
        amplifier = TwoPort([1e9], [[[0.1, 0.01], [3, 0.2]]])

        assert cable().passive
        assert cable().reciprocal
        assert not amplifier.passive
        assert not amplifier.reciprocal
        assert pytest.approx([-20 * np.log10(3)]) == amplifier.insertion_loss_db

    def test_power_gain_bounds_every_pair_of_waves(self):
        """No pair of waves brings out more power than the bound, and it is met."""
        one = random_two_port(7)
        rng = np.random.default_rng(7)
        waves = rng.normal(size=(5000, 2)) + 1j * rng.normal(size=(5000, 2))
        out = np.einsum("ij,nj->ni", one.scattering[0], waves)
        gains = (abs(out) ** 2).sum(axis=1) / (abs(waves) ** 2).sum(axis=1)

        assert gains.max() <= one.power_gain[0] <= gains.max() * 1.02

    def test_flipped(self):
        """Seen from the other side the ports change places, references too."""
        one = random_two_port(8, (30, 75))

        assert [75, 30] == one.flipped.reference.tolist()
        assert same(one, one.flipped.flipped)
        assert same((one @ cable()).flipped, cable().flipped @ one.flipped)

    def test_at(self):
        """Between samples each parameter is on the straight line; at a sample it is the sample."""
        one = random_two_port(8)
        between = one.at([400e6, 402.5e6, 470e6])

        assert pytest.approx(one.scattering[[0, -1]]) == between.scattering[[0, 2]]
        assert pytest.approx((one.scattering[0] + one.scattering[1]) / 2) == between.scattering[1]
        assert same(TwoPort([1e9], [np.eye(2) / 2]), TwoPort([1e9], [np.eye(2) / 2]).at([1e9]))
        with pytest.raises(OutOfRange, match="within the known"):
            one.at([300e6])

    def test_shown_in_words(self):
        """A two-port says over what it is known and with respect to what."""
        assert "TwoPort(frequencies: 15; range: 4e+08 to 4.7e+08 Hz; reference: 30 ohm and 75 ohm)" == repr(
            random_two_port(1, (30, 75))
        )


class TestNetworks:
    @pytest.mark.parametrize("load", [60 - 80j, 15 + 10j, 200.0])
    def test_input_reflection_is_the_evaluators(self, load):
        """With its load a network's two-port reflects as the network does, at every frequency: stubs of either
        placement and end, lumped parts, pieces of real line."""
        designs = [
            *single_stub(load, 50),
            *single_stub(load, 50, placement="series", end="open"),
            *l_network(load, 50),
        ]
        for design in [
            *designs,
            *(cut_from_line(design, usual_cable("RG-174"), DESIGN) for design in designs),
        ]:
            expected = design.input_reflection(SWEEP / DESIGN)

            assert pytest.approx(expected, abs=AGREED) == network_two_port(
                design, SWEEP, DESIGN
            ).input_reflection(load)

    @pytest.mark.parametrize(
        ("element", "reflected"),
        [(Stub(0, 50), -1), (Stub(0, 50, "series", "open"), 1), (Reactance(0, "shunt"), -1)],
        ids=["short across", "open in line", "no ohms across"],
    )
    def test_what_lets_nothing_through(self, element, reflected):
        """A short across the line and an open circuit in it are two-ports like others: all comes back."""
        wall = network_two_port(MatchingNetwork(50, 50, (Section(0.1, 75), element)), SWEEP, DESIGN)

        assert pytest.approx(np.full(15, reflected)) == wall.scattering[:, 0, 0]
        assert np.all(wall.scattering[:, [0, 1], [1, 0]] == 0)

    def test_lossless_keep_all_power(self):
        """A lossless network's scattering parameters are unitary and symmetric."""
        s = network_two_port(single_stub(60 - 80j, 50)[0], SWEEP, DESIGN).scattering

        assert pytest.approx(np.broadcast_to(np.eye(2), (15, 2, 2)), abs=AGREED) == s @ np.conj(
            np.swapaxes(s, -2, -1)
        )
        assert pytest.approx(s) == np.swapaxes(s, -2, -1)

    def test_array_of_networks(self):
        """An array of networks is as many two-ports."""
        lengths = np.array([0.1, 0.2, 0.3])
        many = network_two_port(MatchingNetwork(np.full(3, 20), 50, (Section(lengths, 75),)), SWEEP, DESIGN)
        one = network_two_port(MatchingNetwork(20, 50, (Section(0.2, 75),)), SWEEP, DESIGN)

        assert (3, 15, 2, 2) == many.scattering.shape
        assert pytest.approx(one.scattering) == many.scattering[1]

    def test_deep_loss(self):
        """A kilometre of thin cable lets nothing through that a number can hold, and shows its own impedance."""
        line = usual_cable("RG-174")
        whole = line_two_port(line, 1e6, SWEEP)
        own = line.characteristic_impedance(SWEEP)

        assert pytest.approx((own - 50) / (own + 50)) == whole.scattering[:, 0, 0]
        assert pytest.approx(0) == whole.scattering[:, 1, 0]


class TestRefused:
    @pytest.mark.parametrize(
        ("arguments", "fault"),
        [
            (([2e9, 1e9], np.zeros((2, 2, 2))), "frequencies must rise"),
            (([], np.zeros((0, 2, 2))), "be one at least"),
            (([1e9], np.zeros((2, 2, 2))), "one 2 by 2 matrix for each of 1 frequencies"),
            (([1e9], [[[np.nan, 0], [0, 0]]]), "finite"),
            (([-1e9], np.zeros((1, 2, 2))), "frequency must be"),
            (([1e9], np.zeros((1, 2, 2)), (1, 2, 3)), "one reference resistance, or two"),
            (([1e9], np.zeros((1, 2, 2)), 50, np.zeros((3, 4))), "five numbers"),
        ],
    )
    def test_what_is_no_two_port(self, arguments, fault):
        """Arrays that are no two-port are refused in words."""
        with pytest.raises(OutOfRange, match=fault):
            TwoPort(*arguments)

    def test_reference(self):
        """A reference is a resistance."""
        with pytest.raises(NotAnImpedance, match="reference resistance"):
            TwoPort([1e9], np.zeros((1, 2, 2)), 50 + 1j)
