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
    single_stub,
    with_attenuation,
)
from core.lossy import LOST
from core.lossy_designs import ONE_SHORT
from core.stubs import ALREADY_MATCHED, NO_SOLUTION
from tests.core import brute_force

KINDS = list(product(("shunt", "series"), ("short", "open")))
every_kind = pytest.mark.parametrize(("placement", "end"), KINDS, ids=[" ".join(kind) for kind in KINDS])


def scanned(load, loss, stub_loss, ratio, placement, end, steps=4001):
    """All matches with distance and length below half a wave, by walking along the line in small steps.

    load : normalised.  ratio : stub's over line's immittance.  From the tanh of the line equations: at each
    distance the stub that would be needed has a complex length; a match is where that length is real.
    Returns, for each load, the distances found."""
    distance = np.linspace(0, 0.5, steps)
    own = load if placement == "series" else 1 / load
    tangent = np.tanh((loss + 2j * np.pi) * distance)
    seen = (own[:, None] + tangent) / (1 + own[:, None] * tangent)
    needed = (1 - seen) / ratio
    hyperbolic = (placement == "series") == (end == "short")  # the stub shows tanh, and coth otherwise
    angle = np.arctanh(needed if hyperbolic else 1 / needed)
    length = np.mod(angle.imag / (2 * np.pi), 0.5)
    excess = angle.real - stub_loss * length
    crossing = (excess[:, 1:] * excess[:, :-1] <= 0) & (np.abs(np.diff(length)) < 0.2)
    return [distance[:-1][row] for row in crossing]


class TestSolutions:
    @every_kind
    def test_every_one_is_a_match(self, placement, end):
        """All that is found for 25,000 loads on lines of 0.1 to 2 dB a wavelength is a match to 1e-10."""
        load = 50 * brute_force.disc_loads(25_000, seed=11)
        loss = attenuation_from_db(np.random.default_rng(12).uniform(0.1, 2, load.size))
        for network in lossy_single_stub(load, 50, loss, placement=placement, end=end):
            found = ~np.isnan(network.distance)
            assert np.mean(found) > 0.99
            assert np.max(np.abs(network.input_reflection()[found])) <= 1e-10
            assert np.all((network.distance[found] >= 0) & (network.stub_length[found] >= 0))

    @every_kind
    @pytest.mark.parametrize("loss", [0.01, 0.1, 0.5])
    def test_none_missed(self, loss, placement, end):
        """A walk along the line in 4,000 steps finds no match for 200 loads but those given and the same a
        half wave on, and none at all where none is given."""
        load = brute_force.disc_loads(200, seed=13)
        own, stub_loss = 75.0, 1.5 * loss
        networks = lossy_single_stub(50 * load, 50, loss, stub_loss, own, placement, end)
        given = np.array([network.distance for network in networks])
        ratio = 50 / own if placement == "shunt" else own / 50
        for distances, known in zip(
            scanned(load, loss, stub_loss, ratio, placement, end), given.T, strict=True
        ):
            for distance in distances:
                away = np.abs(distance - known), np.abs(distance - known - 0.5)
                assert np.nanmin(away[0]) < 3e-4 or np.nanmin(away[1]) < 0.15

    @pytest.mark.parametrize(("placement", "end"), [("shunt", "short"), ("series", "open")])
    def test_none_given_where_none_is(self, placement, end):
        """Where both solutions are missing with heavy loss, the walk finds no match either, for 400 loads.

        The other two kinds of stub can be made short until they are not there, and one solution is left."""
        load = brute_force.disc_loads(2000, seed=14)
        networks = lossy_single_stub(50 * load, 50, 1.0, placement=placement, end=end)
        none = np.isnan([network.distance for network in networks]).all(axis=0)
        found = scanned(load[none][:400], 1.0, 1.0, 1.0, placement, end)

        assert np.sum(none) > 20
        assert 0 == sum(map(len, found))

    @every_kind
    def test_without_loss(self, placement, end):
        """Without loss they are the lossless solutions."""
        lossless = single_stub(60 - 80j, 50, placement=placement, end=end)
        lossy = lossy_single_stub(60 - 80j, 50, 0.0, placement=placement, end=end)

        for ours, theirs in zip(lossy, lossless, strict=True):
            assert pytest.approx((theirs.distance, theirs.stub_length), abs=1e-14) == (
                ours.distance,
                ours.stub_length,
            )

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
        assert np.isnan(near.distance[:, 2]).all()
        assert pytest.approx(lossy_single_stub(20, 50, 0.1)[1].distance) == far.distance[1, 1]

    def test_near_first(self):
        """The smaller distance comes first, and what exists before what does not."""
        load = 50 * brute_force.disc_loads(2000, seed=15)
        near, far = lossy_single_stub(load, 50, 0.3)

        assert np.all(np.isnan(far.distance) | (near.distance <= far.distance))
        assert not np.any(np.isnan(near.distance) & ~np.isnan(far.distance))


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
        """A load that takes no power is not matched by wasting all of it in the line."""
        solutions = lossy_single_stub(load, 50, 0.1)

        assert (0, NO_SOLUTION) == (len(solutions), solutions.reason)

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
