"""Pieces of a network cut from lines as they are, asked by the one evaluator."""

import numpy as np
import pytest

from core import (
    Cable,
    DistributedLine,
    Errors,
    LossyLine,
    MatchingNetwork,
    Microstrip,
    OutOfRange,
    RealSection,
    RealStub,
    Section,
    Stub,
    UnknownChoice,
    bandwidth,
    cut_from_line,
    frequency_response,
    lay_out,
    monte_carlo,
    peak_voltage,
    power_flow,
    quarter_wave,
    single_stub,
    standing_waves,
    strip_line,
    usual_cable,
    with_attenuation,
    worst_case,
)

DESIGN = 434e6
NEAR, FAR = single_stub(60 - 80j, 50)
LOSSLESS = LossyLine(50, 0.66)
RATIOS = np.linspace(0.5, 2, 31)
ENDS = [("shunt", "short"), ("shunt", "open"), ("series", "short"), ("series", "open")]


class TestWithoutLoss:
    @pytest.mark.parametrize(("placement", "end"), ENDS)
    def test_same_as_the_ideal(self, placement, end):
        """Cut from a line without loss a design responds as designed, at every frequency."""
        for design in single_stub(60 - 80j, 50, placement=placement, end=end):
            cut = cut_from_line(design, LOSSLESS, DESIGN)

            assert pytest.approx(design.input_reflection(RATIOS), abs=1e-12) == cut.input_reflection(RATIOS)
            assert pytest.approx(design.total_line) == cut.total_line

    def test_detuned(self):
        """Detuned it is what it was at that frequency."""
        cut = cut_from_line(NEAR, LOSSLESS, DESIGN)

        assert pytest.approx(cut.input_reflection(1.1)) == cut.detuned(1.1).input_reflection()

    def test_errors(self):
        """Errors of length, impedance and velocity do to it what they do to the ideal pieces."""
        cut = cut_from_line(NEAR, LOSSLESS, DESIGN)
        errors = np.array([[0.004, -0.003], [0.002, 0.001]]), np.array([[0.01, -0.02], [0.0, 0.03]]), 0.02

        assert pytest.approx(NEAR.as_built(*errors).input_reflection(RATIOS)) == cut.as_built(
            *errors
        ).input_reflection(RATIOS)

    def test_path(self):
        """Its way over the chart is that of the ideal pieces."""
        ways = zip(NEAR.path(), cut_from_line(NEAR, LOSSLESS, DESIGN).path(), strict=True)

        assert all(np.allclose(ideal, cut, atol=1e-12) for ideal, cut in ways)


class TestWithLoss:
    CABLE = usual_cable("RG-174")

    def test_terminated_section(self):
        """A section shows what the line's own input impedance says, over frequency."""
        network = MatchingNetwork(20 + 5j, 50, (RealSection(0.37, self.CABLE, DESIGN),))
        shown = self.CABLE.input_impedance(20 + 5j, 0.37, DESIGN * RATIOS)

        assert pytest.approx((shown - 50) / (shown + 50)) == network.input_reflection(RATIOS)

    @pytest.mark.parametrize("end", ["short", "open"])
    def test_stub(self, end):
        """A shunt stub is its own input impedance across the line."""
        network = MatchingNetwork(50, 50, (RealStub(0.1, self.CABLE, DESIGN, "shunt", end),))
        stub = self.CABLE.input_impedance(0 if end == "short" else np.inf, 0.1, DESIGN * RATIOS)
        beside = 50 * stub / (50 + stub)

        assert pytest.approx((beside - 50) / (beside + 50)) == network.input_reflection(RATIOS)

    def test_near_the_simple_model(self):
        """At the design frequency, constant loss and a real impedance are near the truth for a usual cable."""
        simple = with_attenuation(NEAR, self.CABLE.attenuation(DESIGN))

        assert (
            pytest.approx(simple.input_reflection(), abs=5e-3)
            == cut_from_line(NEAR, self.CABLE, DESIGN).input_reflection()
        )

    def test_error_of_velocity_leaves_the_loss(self):
        """An error of velocity changes the phase of a piece, and not its loss."""
        network = MatchingNetwork(0, 50, (RealSection(3.0, self.CABLE, DESIGN),))
        sizes = abs(network.as_built(velocity_errors=np.array([-0.3, 0.0, 0.3])).input_reflection())

        assert pytest.approx(sizes[1], rel=0.02) == sizes[0]
        assert pytest.approx(sizes[1], rel=0.02) == sizes[2]

    def test_length_stops_at_nothing(self):
        """A piece with an error larger than itself is no piece, not one of the length folded back."""
        short = RealSection(0.001, self.CABLE, DESIGN)

        assert 0 == short.as_built(np.array(-0.1), np.array(0.0), np.array(0.0)).length_m

    def test_tolerance(self):
        """Tolerances of a network cut from cable are found as for any other."""
        cut = cut_from_line(NEAR, self.CABLE, DESIGN)

        assert abs(cut.input_reflection()) < worst_case(cut, Errors(length=0.005)).reflection
        assert (100,) == np.shape(monte_carlo(cut, Errors(length=0.005), trials=100).reflection)

    def test_standing_waves(self):
        """Along a section voltage and current are those of the line, its peaks included; a stub's end is its end."""
        network = MatchingNetwork(
            20 + 5j, 50, (RealSection(0.7, self.CABLE, DESIGN), RealStub(0.2, self.CABLE, DESIGN))
        )
        line, stub = standing_waves(network, power=10, points=2001)
        own, constant = self.CABLE.characteristic_impedance(DESIGN), self.CABLE.propagation_constant(DESIGN)
        there = np.linspace(0, 0.7, 2001)
        voltage = line.voltage[0] * np.cosh(constant * there) + line.current[0] * own * np.sinh(
            constant * there
        )

        assert pytest.approx(20 + 5j) == line.voltage[0] / line.current[0]
        assert pytest.approx(voltage) == line.voltage
        assert pytest.approx(abs(line.current).max(), rel=1e-5) == line.peak_current
        assert pytest.approx(abs(voltage).max(), rel=1e-5) == line.peak_voltage
        assert pytest.approx(0, abs=1e-9) == stub.voltage[0]
        assert pytest.approx(line.voltage[-1]) == stub.voltage[-1]
        assert pytest.approx(max(line.peak_voltage, stub.peak_voltage)) == peak_voltage(network, 10)

    def test_power(self):
        """What goes in is delivered or lost, and a matched cable delivers what its decibels leave."""
        network = MatchingNetwork(
            20 + 5j, 50, (RealSection(3.0, self.CABLE, DESIGN), RealStub(0.2, self.CABLE, DESIGN))
        )
        flow = power_flow(network)
        matched = MatchingNetwork(50, 50, (RealSection(3.0, self.CABLE, DESIGN),))

        assert pytest.approx(1) == flow.efficiency + sum(flow.lost)
        assert (
            pytest.approx(10 ** (-3 * self.CABLE.attenuation_db_per_m(DESIGN) / 10), rel=2e-3)
            == power_flow(matched).efficiency
        )

    def test_layout(self):
        """A piece of real line is not laid out again."""
        with pytest.raises(OutOfRange, match="has its metres already"):
            lay_out(cut_from_line(NEAR, self.CABLE, DESIGN), DESIGN, Cable(0.66))

    def test_too_long(self):
        """A piece that leaves nothing of a wave is refused."""
        with pytest.raises(OutOfRange, match="loss of a piece of line"):
            MatchingNetwork(50, 50, (RealSection(1e5, self.CABLE, DESIGN),)).input_reflection()

    def test_array_of_lengths(self):
        """Arrays of lengths are as many networks."""
        lengths = np.array([[0.1], [0.2], [0.3]])
        many = MatchingNetwork(np.full((3, 1), 20), 50, (RealSection(lengths, self.CABLE, DESIGN),))
        one = MatchingNetwork(20, 50, (RealSection(0.2, self.CABLE, DESIGN),))

        assert pytest.approx(one.input_reflection(RATIOS)) == many.input_reflection(RATIOS)[1, 0]


class TestBandwidth:
    def test_search_stays_where_the_line_is_known(self):
        """The band is looked for where the cable is known, which is told."""
        cable = usual_cable("RG-58")
        band = bandwidth(cut_from_line(NEAR, cable, DESIGN))

        assert pytest.approx((10e6 / DESIGN, 1e9 / DESIGN)) == band.searched

    def test_edges(self):
        """At the edges of its band a network cut from cable has the standing-wave ratio that was asked for."""
        cut = cut_from_line(FAR, usual_cable("RG-58"), DESIGN)
        band = bandwidth(cut, 1.5)

        assert pytest.approx([1.5, 1.5]) == frequency_response(cut, [band.lower, band.upper]).swr


class TestOnABoard:
    def test_each_impedance_its_own_strip(self):
        """A quarter-wave section on a board gets the strip of its own impedance, and nearly matches."""
        board = Microstrip(4.4, 1.6, 0.035)
        design = quarter_wave(100, 50)[0]
        cut = cut_from_line(design, lambda ohms: strip_line(board, ohms, loss_tangent=0.02), DESIGN)

        section = cut.elements[-1]

        assert isinstance(section, RealSection)
        assert pytest.approx(50 * 2**0.5, rel=5e-3) == section.line.characteristic_impedance(DESIGN).real
        assert 0.02 > abs(cut.input_reflection())


def test_no_pieces():
    """An array of no pieces is known nowhere and refused nowhere."""
    assert (0.0, np.inf) == RealSection(0.1, usual_cable("RG-58"), []).limits


class TestRefused:
    def test_no_line(self):
        """A piece is cut from a line, not from a number of ohms."""
        with pytest.raises(OutOfRange, match="must be a model of one"):
            RealSection(0.1, 50, DESIGN)  # type: ignore[arg-type]

    def test_many_lines(self):
        """A piece is cut from one line."""
        with pytest.raises(OutOfRange, match="cut from one line"):
            RealSection(0.1, DistributedLine(0, np.array([250e-9, 500e-9]), 0, 100e-12), DESIGN)

    @pytest.mark.parametrize("length", [-0.1, np.inf, "long"])
    def test_length(self, length):
        """A piece has a length of zero metres or more."""
        with pytest.raises(OutOfRange, match="length of the line must be"):
            RealSection(length, LOSSLESS, DESIGN)

    @pytest.mark.parametrize(("placement", "end"), [("beside", "short"), ("shunt", "shut")])
    def test_words(self, placement, end):
        """Placement and end are words that the trade knows."""
        with pytest.raises(UnknownChoice, match="must be"):
            RealStub(0.1, LOSSLESS, DESIGN, placement, end)

    def test_frequency_where_the_line_is_not_known(self):
        """A piece cannot be cut for a frequency at which its line is not known."""
        with pytest.raises(OutOfRange, match="where this line's model holds"):
            RealSection(0.1, usual_cable("RG-58"), 2.4e9)


def test_other_elements_stay():
    """Ideal pieces and pieces cut from a line stand in one network."""
    mixed = MatchingNetwork(
        60 - 80j, 50, (RealSection(0.05, LOSSLESS, DESIGN), Stub(0.1, 50), Section(0.2, 75))
    )

    assert 1 > abs(mixed.input_reflection())
    assert "0.05 m" in repr(mixed)
