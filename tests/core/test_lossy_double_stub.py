"""The double stub with loss: every solution a match, none missed, and said where none is left.

A law with no source beside it is common practice, no source.
"""

import numpy as np
import pytest

from core import UnknownChoice, double_stub, lossy_double_stub, power_flow
from core.double_stubs import MATCHED_ALREADY, ON_THE_BOUNDARY
from core.errors import NotALength, OutOfRange
from core.forbidden import HALF_WAVE_APART
from core.lossy_designs import LONG, ONE_SHORT, WASTED
from core.lossy_stub_pairs import ACROSS_A_SHORT, ADD_NOTHING, LOST
from tests.core import brute_force, lossy_counts
from tests.core.lossy_search import DOUBLE, back_through, planted_doubles, stub_admittance, wave_number

every_pair = pytest.mark.parametrize("ends", DOUBLE, ids=["-".join(ends) for ends in DOUBLE])


class TestSolutions:
    @every_pair
    def test_every_one_is_a_match(self, ends):
        """All that is found for 2,000 loads on lines of 0.05 nepers a wavelength is a match to 1e-10."""
        load = 50 * brute_force.disc_loads(2_000, seed=41)
        networks = lossy_double_stub(load, 50, 1 / 8, 0.05, 0.03, 0.1, ends)

        assert np.mean(~np.isnan(networks[0].stub_lengths[0])) > 0.9
        for network in networks:
            found = ~np.isnan(network.stub_lengths[0])
            assert np.max(np.abs(network.input_reflection()[found])) <= 1e-10

    @every_pair
    def test_none_missed(self, ends):
        """Lengths from which loads were made are found, and all that a search finds; nothing else is given."""
        counts = lossy_counts.double_stubs(24, 42, ends)

        assert (0, 0, 0) == (counts["missed"], counts["false"], counts["wrong reasons"])
        assert counts["cases"] > 20

    @every_pair
    def test_planted_lengths_are_found(self, ends):
        """Of 1,500 loads made backwards from two stub lengths each has these among its solutions."""
        problems, first, second = planted_doubles(1_500, 43, ends)
        networks = lossy_double_stub(*problems.arguments())
        off = [abs(n.stub_lengths[0] - first) + abs(n.stub_lengths[1] - second) for n in networks]

        assert np.nanmin(off, axis=0).max() < 1e-6

    @pytest.mark.parametrize("stub_loss", [0.0, 1e-3, 0.2])
    def test_second_stub_of_no_length(self, stub_loss):
        """A load that one stub and the spacing match has that solution, with a second open stub of no length."""
        rng, gamma = np.random.default_rng(45), wave_number(0.05)
        first, spacing = rng.uniform(0.01, 0.49, 300), rng.uniform(0.02, 0.48, 300)
        voltage, current = back_through(np.ones(300, complex), np.ones(300, complex), gamma, spacing)
        load = voltage / (current - voltage * stub_admittance(wave_number(stub_loss), first, "short"))
        real = load.real > 0
        networks = lossy_double_stub(
            50 * load[real], 50, spacing[real], 0.05, stub_loss, ends=("short", "open")
        )
        off = [abs(n.stub_lengths[0] - first[real]) + n.stub_lengths[1] for n in networks]

        assert np.nanmin(off, axis=0).max() < 1e-9

    @every_pair
    def test_without_loss(self, ends):
        """Without loss they are the lossless solutions, the shorter first."""
        lossless = double_stub(60 - 80j, 50, 1 / 8, 0.05, ends, (75, 50))
        lossy = lossy_double_stub(60 - 80j, 50, 1 / 8, 0.0, 0.0, 0.05, ends, (75, 50))

        assert sorted((n.stub_lengths for n in lossless), key=sum) == [n.stub_lengths for n in lossy]

    def test_a_little_loss_changes_little(self):
        """The change of both stubs is in proportion to a small loss."""
        lossless = double_stub(60 - 80j, 50, 1 / 8, ends=("open", "open"))[0]
        small, twice = (
            lossy_double_stub(60 - 80j, 50, 1 / 8, loss, ends=("open", "open"))[0] for loss in (1e-5, 2e-5)
        )

        for stub in (0, 1):
            first, second = (n.stub_lengths[stub] - lossless.stub_lengths[stub] for n in (small, twice))
            assert first != 0
            assert pytest.approx(2, rel=1e-3) == second / first

    def test_carries_its_loss(self):
        """Lines have the one attenuation and stubs the other."""
        network = lossy_double_stub(60 - 80j, 50, 1 / 8, 0.05, 0.08, 0.1)[0]

        assert (0.05, 0.08, 0.05, 0.08) == tuple(element.attenuation for element in network.elements)

    def test_arrays(self):
        """Loads, spacings and losses of any shapes broadcast; each is what the load alone has."""
        networks = lossy_double_stub([60 - 80j, 20], 50, np.array([[1 / 8], [3 / 8]]), 0.1)
        alone = lossy_double_stub(20, 50, 3 / 8, 0.1)

        assert (2, 2) == networks[0].stub_lengths[0].shape
        assert pytest.approx(alone[0].stub_lengths) == tuple(
            length[1, 1] for length in networks[0].stub_lengths
        )


class TestReasons:
    def test_both(self):
        """Two solutions need no explanation."""
        solutions = lossy_double_stub(60 - 80j, 50, 1 / 8, 0.05)

        assert (2, "") == (len(solutions), solutions.reason)

    def test_forbidden_without_loss(self):
        """Without loss the reasons are the lossless designer's."""
        assert "above the limit of 2" in lossy_double_stub(10, 50, 1 / 8, 0.0).reason
        assert HALF_WAVE_APART == lossy_double_stub(10, 50, 1 / 2, 0.0).reason
        assert ON_THE_BOUNDARY == lossy_double_stub(25, 50, 1 / 8, 0.0).reason

    def test_none(self):
        """A load of large conductance stays out of reach with a little loss."""
        solutions = lossy_double_stub(10, 50, 1 / 8, 1e-3)

        assert (0, LOST) == (len(solutions), solutions.reason)

    def test_across_a_short(self):
        """A first stub across a short circuit does nothing; a length of line before it helps, with loss."""
        shorted, moved = lossy_double_stub(0, 50, 1 / 8, 0.1), lossy_double_stub(0, 50, 1 / 8, 0.1, None, 0.1)

        assert (0, ACROSS_A_SHORT) == (len(shorted), shorted.reason)
        assert WASTED == moved.reason
        assert [0, 0] == [power_flow(network).efficiency for network in moved]

    def test_matched_already(self):
        """Two open stubs of no length leave a matched load matched."""
        solutions = lossy_double_stub(50, 50, 1 / 8, 0.1, ends=("open", "open"))

        assert [0, 0] == list(solutions[0].stub_lengths)
        assert (2, MATCHED_ALREADY) == (len(solutions), solutions.reason)

    def test_only_nothing(self):
        """Where stubs of no length are all that is left for a matched load, that alone is said."""
        solutions = lossy_double_stub(50, 50, 0.0435, 1.0, ends=("open", "open"), stub_impedances=(100, 100))

        assert [(0, 0)] == [network.stub_lengths for network in solutions]
        assert ADD_NOTHING == solutions.reason

    def test_only_a_long_one(self):
        """Where no solution has both stubs below half a wavelength, the shortest longer one is given, and said."""
        load = 50 * brute_force.disc_loads(400, seed=44)
        longest = np.maximum(*lossy_double_stub(load, 50, 1 / 8, 0.1)[0].stub_lengths)
        solutions = lossy_double_stub(load[longest >= 0.5][0], 50, 1 / 8, 0.1)

        assert (1, LONG) == (len(solutions), solutions.reason)

    def test_one_short(self):
        """Where only one solution has both stubs below half a wavelength, that is said."""
        problems, _, _ = planted_doubles(1_500, 43, ("short", "short"))
        first, second = (n.stub_lengths[0] for n in lossy_double_stub(*problems.arguments())[:2])
        case = np.flatnonzero(~np.isnan(first) & np.isnan(second))[0]

        assert ONE_SHORT == lossy_double_stub(*problems.arguments(case)).reason

    def test_bad_values(self):
        """Loss, spacing and ends are checked as elsewhere."""
        with pytest.raises(OutOfRange, match="attenuation must be a number at least 0"):
            lossy_double_stub(60 - 80j, 50, 1 / 8, -0.1)
        with pytest.raises(NotALength, match="spacing"):
            lossy_double_stub(60 - 80j, 50, -1 / 8, 0.1)
        with pytest.raises(UnknownChoice, match="short or open, not 'left'"):
            lossy_double_stub(60 - 80j, 50, 1 / 8, 0.1, ends=("left", "open"))
