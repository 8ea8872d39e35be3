"""Published single-stub matches, and two facts from an independent solver of networks."""

import pytest

from core import (
    MatchingNetwork,
    Section,
    Stub,
    admittance_from_reflection,
    reflection_coefficient,
    single_stub,
    toward_generator,
)
from core.chart import SHORT_POINT, rim_reflection
from core.stubs import stub_susceptance
from tests.reference.single_stubs import LAST_DIGIT, every_printed


@every_printed
def test_published_example(example):
    """Both solutions are those printed, near first."""
    solutions = single_stub(example.load, example.line, placement=example.placement, end=example.end)

    for found, length in zip(solutions, (example.near, example.far), strict=True):
        assert pytest.approx(length, abs=LAST_DIGIT) == (found.distance, found.stub_length)
    assert pytest.approx([0, 0], abs=1e-14) == [abs(solution.input_reflection()) for solution in solutions]


class TestDirection:
    """A stub's length is read from its end toward the generator. Values by an independent network solver, which set up
    the circuit of 60-j80 ohm, line and stub with no chart at all (not published)."""

    NEAR = single_stub(60 - 80j, 50)[0]

    def test_junction(self):
        """At the near distance of 0.1104 wavelengths the line shows y = 1 + j1.472."""
        seen = admittance_from_reflection(toward_generator(reflection_coefficient(60 - 80j, 50), 0.1104))

        assert pytest.approx(0.1104, abs=0.00005) == self.NEAR.distance
        assert pytest.approx(1, abs=0.002) == seen.real
        assert pytest.approx(1.472, abs=0.002) == seen.imag

    def test_clockwise_from_the_short(self):
        """Clockwise from the short point, the shorted stub of 0.0950 wavelengths shows -1.472: nothing returns."""
        on_the_rim = toward_generator(SHORT_POINT, self.NEAR.stub_length)

        assert pytest.approx(0.0950, abs=0.00005) == self.NEAR.stub_length
        assert pytest.approx(-1.472, abs=0.0005) == stub_susceptance(self.NEAR.stub_length)
        assert pytest.approx(-1.472, abs=0.0005) == admittance_from_reflection(on_the_rim).imag
        assert pytest.approx(rim_reflection(self.NEAR.stub_length)) == on_the_rim
        assert abs(self.NEAR.input_reflection()) < 1e-15

    def test_the_other_way_round(self):
        """Read anticlockwise the stub would be 0.4050 wavelengths, and a reflection of 0.827 would remain."""
        wrong = Stub(0.5 - self.NEAR.stub_length, 50)
        network = MatchingNetwork(60 - 80j, 50, (Section(self.NEAR.distance, 50), wrong))

        assert pytest.approx(0.4050, abs=0.00005) == wrong.length
        assert pytest.approx(0.827, abs=0.0005) == abs(network.input_reflection())


def test_both_solutions_are_equally_sensitive():
    """Lengths wrong by 0.005 wavelengths leave 0.100 with either stub of 60-j80 ohm, by that same solver."""
    for solution in single_stub(60 - 80j, 50):
        assert pytest.approx(0.100, abs=0.0005) == solution.worst_reflection(0.005)
