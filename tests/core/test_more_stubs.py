"""Three stubs, stubs in series, equal stubs, and a stub at the load: what each promises beside the match."""

import re
from typing import Any

import numpy as np
import pytest

import core
from core import NotALength, NotAnImpedance, UnknownChoice, series_double_stub, stub_and_section, triple_stub
from core.forbidden import conductance_limit
from tests.core import brute_force

FORBIDDEN_BY_TWO: dict[str, Any] = {
    "load_impedance": 18 + 4j,
    "line_impedance": 50,
    "spacings": (0.49, 1 / 8),
}


class TestTripleStub:
    def test_the_first_stub_adds_nothing_where_two_do(self):
        """Where two stubs match the load alone the first adds nothing, and the others are the double stub."""
        found = triple_stub(60 - 80j, 50, (0.07, 1 / 8), 0.2, ends=("short", "open", "open"))
        double = core.double_stub(60 - 80j, 50, 1 / 8, 0.27, ends=("open", "open"))

        assert 0 == pytest.approx(found[0].stub_susceptances[0], abs=1e-15)
        assert "adds nothing" in found.reason
        assert np.allclose([n.stub_lengths for n in double], [n.stub_lengths[1:] for n in found], atol=1e-14)

    def test_the_first_stub_leads_out(self):
        """In the forbidden region of the other two the first stub brings the conductance to half the limit, by two
        settings, the one of less susceptance first."""
        found = triple_stub(**FORBIDDEN_BY_TWO)
        at_second = [core.MatchingNetwork(18 + 4j, 50, n.elements[:3]).input_reflection() for n in found]
        conductances = [core.admittance_from_reflection(gamma).real for gamma in at_second]

        assert 0 == len(core.double_stub(18 + 4j, 50, 1 / 8, 0.49))
        assert [conductance_limit(1 / 8) / 2] * 4 == pytest.approx(conductances, rel=1e-11)
        added = np.abs([n.stub_susceptances[0] for n in found])
        assert sorted(added) == added.tolist()
        assert "" == found.reason

    def test_order(self):
        """Of each setting the shorter second stub comes first."""
        lengths = [network.stub_lengths for network in triple_stub(**FORBIDDEN_BY_TWO)]

        assert 4 == len(set(lengths))
        assert lengths[0][0] == lengths[1][0] != lengths[2][0] == lengths[3][0]
        assert lengths[0][1] < lengths[1][1]
        assert lengths[2][1] < lengths[3][1]

    def test_the_reason_names_a_way_out(self):
        """A given first length in the forbidden region has no solution; the length the reason names has two."""
        found = triple_stub(**FORBIDDEN_BY_TWO, first_length=0.25)
        named = float(re.findall(r"a first stub of ([\d.]+)", found.reason)[0])

        assert 0 == len(found)
        assert "above the limit of 2;" in found.reason
        assert 2 == len(triple_stub(**FORBIDDEN_BY_TWO, first_length=named))

    def test_reasons_of_an_array(self):
        """An array of given lengths says what some of them do."""
        found = triple_stub(**FORBIDDEN_BY_TWO, first_length=[0.25, 0.0, 0.485])

        assert [True, True, False] == np.isnan(found[0].input_reflection()).tolist()
        assert "some of the loads show too large a conductance" in found.reason
        assert "shorts the line" in found.reason

    def test_stubs_at_one_point(self):
        """Half a wave between the last two, or between the first two where the first is needed: none, and why."""
        assert "second and the third stub" in triple_stub(60 - 80j, 50, (1 / 8, 0.5)).reason
        assert "first and the second stub" in triple_stub(20, 50, (0.5, 1 / 8)).reason
        assert 2 == len(triple_stub(60 - 80j, 50, (0.5, 1 / 8)))

    @pytest.mark.parametrize(
        ("wrong", "error", "sentence"),
        [
            ({"spacings": 0.1}, NotALength, "spacings must be 2"),
            ({"spacings": (0.1, 0.2, 0.3)}, NotALength, "spacings must be 2"),
            ({"spacings": (0.1, -0.2)}, NotALength, "second spacing must be zero or more"),
            ({"ends": "short"}, UnknownChoice, "ends must be 3"),
            ({"ends": ("short", "open", "shut")}, UnknownChoice, "end of the third stub"),
            ({"stub_impedances": (50, 50)}, NotAnImpedance, "stub impedances must be 3"),
            ({"stub_impedances": (50, 0, 50)}, NotAnImpedance, "impedance of the second stub"),
            ({"first_length": -1}, NotALength, "first length must be zero or more"),
        ],
    )
    def test_bad_arguments(self, wrong, error, sentence):
        """A bad argument is refused with a sentence that names it."""
        good: dict[str, Any] = {"load_impedance": 60 - 80j, "line_impedance": 50, "spacings": (0.1, 0.1)}
        with pytest.raises(error, match=sentence):
            triple_stub(**{**good, **wrong})


class TestSeriesDoubleStub:
    def test_is_the_dual(self):
        """Its lengths are those of shunt stubs of the other ends for the load's dual, and it matches itself."""
        load, line = brute_force.line_loads(2_000, seed=31)
        series = series_double_stub(load, line, 0.11, 0.07, ("short", "open"))
        shunt = core.double_stub(line**2 / load, line, 0.11, 0.07, ("open", "short"))

        for ours, theirs in zip(series, shunt, strict=True):
            assert np.array(theirs.stub_lengths) == pytest.approx(
                np.array(ours.stub_lengths), abs=1e-11, nan_ok=True
            )

    def test_what_a_student_reads(self):
        """The impedances along the way are those of the walk, the second stub takes the last reactance."""
        network = series_double_stub(60 - 80j, 50, 1 / 8, 0.05)[0]
        first, second = network.stub_reactances

        assert core.input_impedance(60 - 80j, 50, 0.05) / 50 == pytest.approx(network.impedance_at_first_stub)
        assert network.impedance_at_first_stub + 1j * first == pytest.approx(
            network.impedance_after_first_stub
        )
        assert 1 - 1j * second == pytest.approx(network.impedance_at_second_stub)
        assert 2 == pytest.approx(network.resistance_limit)

    def test_forbidden(self):
        """A load of too large a resistance has no solution; the reason speaks of resistance."""
        found = series_double_stub(130, 50, 1 / 8)

        assert 0 == len(found)
        assert "a resistance of 2.6, above the limit of 2" in found.reason
        assert "conductance" not in found.reason

    def test_bad_ends(self):
        """Ends that are not two are refused."""
        with pytest.raises(UnknownChoice, match="ends must be two"):
            series_double_stub(60 - 80j, 50, 1 / 8, ends=("short",))


class TestStubAndSection:
    def test_quarter_wave_is_the_known_one(self):
        """With a shunt stub of the line and no impedance given it is the quarter wave with a stub at the load."""
        for end, known in zip(("short", "open"), core.quarter_wave(60 - 80j, 50)[2:], strict=True):
            (found,) = stub_and_section(60 - 80j, 50, end=end)

            assert known.section_impedance == pytest.approx(found.section_impedance, rel=1e-14)
            assert known.stub_length == pytest.approx(found.stub_length, abs=1e-15)

    def test_out_of_reach(self):
        """A section that does not reach the load's conductance has no solution, and the reason gives its reach."""
        found = stub_and_section(60 - 80j, 50, 75)

        assert 0 == len(found)
        assert "conductance from 0.4444 to 1 of" in found.reason
        assert "that of this load is 0.3" in found.reason
        assert 2 == len(stub_and_section(60 - 80j, 50, 100))

    def test_the_lines_own_impedance(self):
        """A section of the line itself is no transformer, and the reason says so."""
        assert "own impedance matches nothing" in stub_and_section(60 - 80j, 50, 50).reason

    def test_needless_parts(self):
        """Where the stub, or the section, or both do nothing, the reason says so."""
        assert "needs no stub" in stub_and_section(100, 50).reason
        assert "matched already" in stub_and_section(50, 50).reason
        assert "stub alone matches" in stub_and_section(50 + 30j, 50, 75, placement="series").reason

    def test_shorter_section_first(self):
        """The solution with the shorter section comes first."""
        load, line = brute_force.line_loads(5_000, seed=32)
        shorter, longer = stub_and_section(load, line, 120)
        there = ~np.isnan(shorter.section_length)

        assert there.sum() > 500
        assert np.all(shorter.section_length[there] <= longer.section_length[there])


class TestTwoEqualStubs:
    def test_they_are_equal(self):
        """Both stubs are the same and together do what the one stub of the known design does."""
        for ours, known in zip(
            core.two_equal_stubs(60 - 80j, 50, 100), core.single_stub(60 - 80j, 50), strict=True
        ):
            assert ours.elements[1] == ours.elements[2]
            assert (known.distance, known.stub_length) == pytest.approx(
                (ours.distance, ours.stub_length), abs=1e-15
            )

    def test_bad_stub(self):
        """A stub impedance that is none is refused by its name."""
        with pytest.raises(NotAnImpedance, match="stub impedance must be a positive number"):
            core.two_equal_stubs(60 - 80j, 50, -50)
