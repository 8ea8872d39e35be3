"""Rows of quarter-wave sections: their bands, their symmetry, and where they start."""

from typing import Any

import numpy as np
import pytest

from core import (
    MultiSection,
    OutOfRange,
    Section,
    Stub,
    UnknownChoice,
    bandwidth,
    binomial_transformer,
    chebyshev_transformer,
    quarter_wave,
    swr,
)

THEORIES = ["exact", "small reflections"]


class TestBinomial:
    @pytest.mark.parametrize("theory", THEORIES)
    def test_one_section_is_the_quarter_wave(self, theory):
        """A row of one is the quarter wave, in each of its four places."""
        for load in (60 - 80j, 100, 50):
            rows, quarters = binomial_transformer(load, 50, 1, theory), quarter_wave(load, 50)

            assert [n.section_impedance for n in quarters] == pytest.approx(
                [n.section_impedances[0] for n in rows], rel=1e-13
            )
            assert [n.distance for n in quarters] == [n.distance for n in rows]
            assert [n.stub_length for n in quarters] == [n.stub_length for n in rows]

    @pytest.mark.parametrize("theory", THEORIES)
    @pytest.mark.parametrize("sections", [2, 3, 7, 20])
    def test_symmetry(self, sections, theory):
        """Sections as far from the line as from the load have the product of both resistances."""
        ohms = np.array(binomial_transformer(300, 50, sections, theory)[0].section_impedances)

        assert np.full(sections, 15_000) == pytest.approx(ohms * ohms[::-1], rel=1e-12)
        assert np.all(np.diff(ohms) < 0)

    @pytest.mark.parametrize("sections", [1, 2, 3, 5, 12, 100])
    def test_law(self, sections):
        """The reflection follows the law of the maximally flat row at every frequency."""
        angle = np.linspace(0.01, np.pi - 0.01, 201)
        power = (4 - 1) ** 2 / (4 * 4) * np.cos(angle) ** (2 * sections)
        network = binomial_transformer(200, 50, sections)[0]

        assert np.sqrt(power / (1 + power)) == pytest.approx(
            np.abs(network.input_reflection(2 * angle / np.pi)), abs=1e-13
        )

    def test_flat(self):
        """Near the middle the reflection falls as the power of the number of sections."""
        network = binomial_transformer(200, 50, 3)[0]
        near, far = np.abs(network.input_reflection([1.01, 1.02]))

        assert 8 == pytest.approx(far / near, rel=0.01)

    def test_more_sections_are_wider(self):
        """Each section more makes the band wider."""
        widths = [bandwidth(binomial_transformer(200, 50, n)[0], 1.2).fraction for n in range(1, 8)]

        assert sorted(widths) == widths
        assert widths[0] < 0.4
        assert 1 < widths[-1] < 1.2


class TestChebyshev:
    @pytest.mark.parametrize("sections", [1, 2, 3, 4, 9])
    def test_the_ripple_is_the_limit(self, sections):
        """In the band the SWR is at most the limit and reaches it; just outside it passes it."""
        network = chebyshev_transformer(300, 50, sections, swr=1.2)[0]
        band = bandwidth(network, 1.2 * (1 + 1e-9))
        ratio = np.linspace(band.lower, band.upper, 4_001)

        assert 1.2 == pytest.approx(swr(network.input_reflection(ratio)).max(), rel=1e-6)
        assert 2 == pytest.approx(band.lower + band.upper, abs=1e-9)
        assert swr(network.input_reflection(band.upper * 1.001)) > 1.2

    @pytest.mark.parametrize("width", [0.1, 0.7, 1.5])
    def test_bandwidth_is_as_asked(self, width):
        """A row for a bandwidth has that bandwidth at the SWR of its ripples."""
        network = chebyshev_transformer(300, 50, 4, bandwidth=width)[0]
        ripple = swr(network.input_reflection(1.0)) * (
            1 + 1e-12
        )  # of an even number the middle is at the limit

        assert width == pytest.approx(bandwidth(network, ripple).fraction, abs=1e-4)

    def test_wider_than_binomial(self):
        """For the same SWR equal ripples have the wider band."""
        flat, rippled = binomial_transformer(300, 50, 4)[0], chebyshev_transformer(300, 50, 4, swr=1.2)[0]

        assert bandwidth(rippled, 1.2 + 1e-9).fraction > 1.2 * bandwidth(flat, 1.2).fraction

    def test_narrow_is_binomial(self):
        """For a vanishing band equal ripples become maximally flat."""
        flat, rippled = (
            binomial_transformer(300, 50, 3)[0],
            chebyshev_transformer(300, 50, 3, bandwidth=1e-5)[0],
        )

        assert flat.section_impedances == pytest.approx(rippled.section_impedances, rel=1e-9)

    def test_both_theories_agree_for_small_ratios(self):
        """For a ratio near one both theories give the same sections."""
        rows = [chebyshev_transformer(51, 50, 5, bandwidth=1.0, theory=t)[0] for t in THEORIES]

        assert rows[0].section_impedances == pytest.approx(rows[1].section_impedances, rel=1e-6)

    def test_within_already(self):
        """A resistance that is within the SWR already has no row of equal ripples, and the reason says so."""
        for load in (55, [55, 53]):
            found = chebyshev_transformer(load, 50, 3, swr=1.2)

            assert "within this standing-wave ratio already" in found.reason
        assert 0 == len(chebyshev_transformer(55, 50, 3, swr=1.2))
        assert np.isnan(found[0].section_impedances[0]).all()


class TestWhereItStarts:
    def test_the_four_places(self):
        """For a load with reactance: nearer place, farther place, shorted stub, open stub; matched from each."""
        found = binomial_transformer(60 - 80j, 50, 3)

        assert [Section, Section, Stub, Stub] == [type(network.before) for network in found]
        assert found[0].distance < found[1].distance < 0.5
        assert ["short", "open"] == [
            network.before.end for network in found[2:] if isinstance(network.before, Stub)
        ]
        assert max(abs(network.input_reflection()) for network in found) < 1e-14

    def test_a_real_load(self):
        """A resistance is matched by the row alone, or by one a quarter wave further on."""
        alone, further = binomial_transformer(100, 50, 3)

        assert isinstance(alone, MultiSection)
        assert alone.before is None
        assert 3 == len(alone.sections) == len(alone.elements)
        assert 0.25 == further.distance
        assert "start" in binomial_transformer(100, 50, 3).reason

    def test_a_matched_load(self):
        """A matched load gets a row that adds nothing."""
        found = binomial_transformer(50, 50, 3)

        assert 1 == len(found)
        assert (50.0, 50.0, 50.0) == found[0].section_impedances
        assert "adds nothing" not in found.reason
        assert "add nothing" in found.reason


@pytest.mark.parametrize(
    ("arguments", "error", "sentence"),
    [
        ({"sections": 0}, OutOfRange, "number of sections must be a whole number from 1 to 500"),
        ({"sections": 2.5}, OutOfRange, "number of sections must be a whole number"),
        ({"sections": 501}, OutOfRange, "from 1 to 500"),
        ({"sections": "three"}, OutOfRange, "number of sections"),
        ({"theory": "guess"}, UnknownChoice, "theory must be exact or small reflections"),
        ({"swr": 1.0}, OutOfRange, "standing-wave ratio in the band must be a number above 1"),
        ({"swr": 1.2, "bandwidth": 0.5}, OutOfRange, "not both"),
        ({"swr": None}, OutOfRange, "Give either"),
        ({"swr": None, "bandwidth": 2.0}, OutOfRange, "bandwidth must be a number at most 2"),
        ({"swr": None, "bandwidth": 0}, OutOfRange, "bandwidth must be a number above 0"),
    ],
)
def test_bad_arguments(arguments, error, sentence):
    """A bad argument is refused with a sentence that names it."""
    good: dict[str, Any] = {"load_impedance": 100, "line_impedance": 50, "sections": 3, "swr": 1.2}
    with pytest.raises(error, match=sentence):
        chebyshev_transformer(**{**good, **arguments})


def test_too_many_corners():
    """The worst case of a row of many sections has too many corners, and the sentence says what to use."""
    with pytest.raises(OutOfRange, match="17 elements has too many corners"):
        binomial_transformer(100, 50, 17)[0].worst_reflection(0.001)
