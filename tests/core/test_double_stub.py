"""Two stubs: every match found, none invented, and the forbidden region as the chart shows it."""

from typing import Any

import numpy as np
import pytest
from mpmath.ctx_mp import MPContext

from core import (
    DoubleStub,
    NegativeResistance,
    NotALength,
    NotAnImpedance,
    UnknownChoice,
    admittance_from_reflection,
    double_stub,
    least_extra_line,
    reflection_coefficient,
)
from core.chart import UNIT_CONDUCTANCE_CIRCLE, Circle, NotACircle, conductance_circle, crossings
from core.forbidden import conductance_limit, forbidden_circle, rotated_unit_circle
from tests.core import brute_force

EXACT = MPContext()
EXACT.dps = 50


def problems(count: int, seed: int) -> dict[str, Any]:
    """Arguments of random double-stub problems, stubs of their own impedances."""
    load, line = brute_force.line_loads(count, seed)
    rng = np.random.default_rng([seed, 2])
    return {
        "load_impedance": load,
        "line_impedance": line,
        "spacing": rng.uniform(0.02, 0.48, count),
        "first_distance": rng.uniform(0.0, 0.5, count),
        "stub_impedances": rng.uniform(20.0, 150.0, (2, count)),
    }


def designed(given: dict[str, Any], ends: tuple[str, str]):
    """Both solutions of such problems."""
    return double_stub(**given, ends=ends)


@pytest.fixture(params=brute_force.ENDINGS, ids="-".join)
def ends(request):
    return request.param


class TestDoubleStub:
    def test_every_network_matches(self, ends):
        """Of 100,000 random problems every returned network is matched, by the evaluator."""
        given = problems(100_000, seed=1)
        solutions = designed(given, ends)
        size = np.abs([network.input_reflection() for network in solutions])

        assert np.nanmax(size) <= 1e-10
        assert 0.05 < np.isnan(size).mean() < 0.5

    def test_stub_impedances_are_the_lines_unless_given(self, ends):
        """Left out, both stubs have the impedance of the line, and 100,000 random problems are matched."""
        given = problems(100_000, seed=2)
        del given["stub_impedances"]
        first, second = double_stub(**given, ends=ends)

        assert np.nanmax(np.abs([first.input_reflection(), second.input_reflection()])) <= 1e-10
        assert np.array_equal(given["line_impedance"], first.elements[1].impedance)

    def test_search_finds_the_same(self, ends):
        """A search along the first stub's length finds these matches and no others, and none where there is none."""
        given = problems(2_000, seed=3)
        rows, lengths, left_over = searched(given, ends)
        solutions = designed(given, ends)
        surplus, apart = brute_force.matches(
            rows, lengths, 2_000, [network.stub_lengths for network in solutions], [0.5, 0.5]
        )

        assert not surplus.any()
        assert apart < 1e-9
        assert left_over < 1e-9
        assert 100 < np.isnan(solutions[0].stub_lengths[0]).sum() < 1_000

    def test_agrees_with_fifty_digits(self, ends):
        """Lengths agree with the textbook's formula at fifty digits, to 1e-12 of half a wavelength."""
        given = problems(300, seed=4)
        got = [network.stub_lengths for network in designed(given, ends)]
        errors = [
            abs(EXACT.frac(2 * (EXACT.mpf(got[which][stub][i]) - expected[stub]) + 0.5) - 0.5)
            for i in range(300)
            for which, expected in enumerate(textbook(given, ends, i))
            for stub in (0, 1)
        ]

        assert len(errors) > 800
        assert max(errors) < 1e-12

    def test_shorter_first_stub_comes_first(self, ends):
        """The solutions come in the order of the first stub's length."""
        first, second = designed(problems(10_000, seed=5), ends)
        there = ~np.isnan(first.stub_lengths[0])

        assert np.all(first.stub_lengths[0][there] <= second.stub_lengths[0][there])

    def test_a_scalar_is_one_of_an_array(self):
        """A problem has the same solutions alone as among others, as plain numbers."""
        alone = double_stub(60 - 80j, 50, 0.125)
        among = double_stub([60 - 80j, 10], 50, 0.125)

        assert [network.stub_lengths for network in alone] == [
            tuple(length[0] for length in network.stub_lengths) for network in among
        ]
        assert {float} == {type(length) for network in alone for length in network.stub_lengths}

    def test_everything_broadcasts(self):
        """Loads down, spacings across and a line impedance in depth give all their combinations."""
        loads, spacings = np.array([[60 - 80j], [20 + 5j]]), np.array([0.1, 0.2, 0.3])
        first, _ = double_stub(loads, np.array([50.0, 75.0]).reshape(2, 1, 1), spacings)

        assert (2, 2, 3) == np.shape(first.stub_lengths[0]) == np.shape(first.input_reflection())
        assert double_stub(60 - 80j, 75, 0.3)[0].stub_lengths[0] == first.stub_lengths[0][1, 0, 2]

    def test_stub_impedances_of_any_pair(self):
        """The two stub impedances may come as a tuple, a list or an array."""
        as_tuple, as_list, as_array = (
            double_stub(60 - 80j, 50, 0.125, stub_impedances=pair)[0].stub_lengths
            for pair in ((75, 40), [75, 40], np.array([75, 40]))
        )

        assert as_tuple == as_list == as_array

    def test_a_spacing_over_half_a_wave_is_kept(self):
        """A spacing longer by half a wave gives the same stubs on a longer line."""
        short, long = double_stub(60 - 80j, 50, 0.125)[0], double_stub(60 - 80j, 50, 0.625)[0]

        assert short.stub_lengths == pytest.approx(long.stub_lengths, abs=1e-15)
        assert 0.625 == long.spacing

    @pytest.mark.parametrize("load", [0, np.inf, 30j, complex(np.inf, np.inf)])
    def test_a_load_that_takes_no_power(self, load):
        """A load that takes no power has no solution, and the reason says so."""
        found = double_stub(load, 50, 0.125)

        assert 0 == len(found)
        assert "takes no power" in found.reason

    def test_the_load_is_blamed_before_the_spacing(self):
        """Where neither load nor spacing allows a match, the reason is the load's alone."""
        assert double_stub(0, 50, 0.125).reason == double_stub(0, 50, 0.5).reason

    @pytest.mark.parametrize("spacing", [0, 0.5, 1.0, 0.5 - 1e-9])
    @pytest.mark.parametrize("load", [60 - 80j, 50 + 30j, 50])
    def test_no_spacing(self, spacing, load):
        """Without spacing, or half a wave apart, the stubs are one, and the reason says so."""
        found = double_stub(load, 50, spacing)

        assert 0 == len(found)
        assert "as one stub" in found.reason

    def test_forbidden_load(self):
        """A forbidden load has no solution; the reason gives its conductance, the limit and the way out."""
        found = double_stub(20, 50, 1 / 8)

        assert 0 == len(found)
        assert "conductance of 2.5, above the limit of 2 " in found.reason
        assert "0.0350 wavelength more line" in found.reason

    def test_on_the_boundary(self):
        """On the boundary of the forbidden region the two solutions are one."""
        found = double_stub(25, 50, 1 / 8)

        assert 1 == len(found)
        assert "boundary" in found.reason
        assert abs(found[0].input_reflection()) < 1e-12

    def test_matched_load(self):
        """For a matched load one of the solutions adds nothing, and the reason says so."""
        found = double_stub(50, 50, 1 / 8, ends=("open", "open"))

        assert (0.0, 0.0) == found[0].stub_lengths
        assert 2 == len(found)
        assert "matched already" in found.reason

    def test_reasons_of_an_array(self):
        """An array with loads of every kind has nan for those without a match, and all the reasons."""
        found = double_stub([60 - 80j, 0, 20, 60 - 80j], 50, [0.125, 0.125, 0.125, 0.5])

        assert [False, True, True, True] == np.isnan(found[1].stub_lengths[1]).tolist()
        assert np.isnan(found[0].input_reflection()).tolist() == [False, True, True, True]
        assert "takes no power" in found.reason
        assert "as one stub" in found.reason
        assert "forbidden region" in found.reason

    def test_nothing_to_explain(self):
        """Ordinary loads have two solutions and no reason, alone or in an array."""
        assert "" == double_stub(60 - 80j, 50, 1 / 8).reason == double_stub([60 - 80j], 50, 1 / 8).reason

    @pytest.mark.parametrize(
        ("wrong", "error", "sentence"),
        [
            ({"load_impedance": -1}, NegativeResistance, "resistance of -1 ohm"),
            ({"line_impedance": 0}, NotAnImpedance, "The line impedance must be a positive number"),
            ({"spacing": -0.1}, NotALength, "The spacing must be zero or more"),
            ({"first_distance": np.nan}, NotALength, "The first distance must be zero or more"),
            ({"ends": "short"}, UnknownChoice, "The ends must be two"),
            ({"ends": None}, UnknownChoice, "The ends must be two"),
            ({"ends": ("short",)}, UnknownChoice, "The ends must be two"),
            ({"ends": ("short", "closed")}, UnknownChoice, "end of the second stub must be short or open"),
            ({"ends": ("ajar", "open")}, UnknownChoice, "end of the first stub must be short or open"),
            ({"stub_impedances": 50}, NotAnImpedance, "The stub impedances must be two"),
            ({"stub_impedances": (50, 50, 50)}, NotAnImpedance, "The stub impedances must be two"),
            ({"stub_impedances": (50, -75)}, NotAnImpedance, "impedance of the second stub must be"),
        ],
    )
    def test_bad_arguments(self, wrong, error, sentence):
        """A bad argument is refused with a sentence that names it."""
        good = {"load_impedance": 60 - 80j, "line_impedance": 50, "spacing": 0.125}
        with pytest.raises(error, match=sentence):
            double_stub(**{**good, **wrong})

    @pytest.mark.filterwarnings("error")
    @pytest.mark.parametrize("load", [1e-140, 1e140, 1e-12 + 50j, 1e-12 + 1e-12j, 50 + 1e140j])
    def test_extreme_loads_make_no_noise(self, load):
        """Loads next to a short or an open circuit are answered without a warning."""
        found = double_stub([load], 50, 0.125, 0.1)

        assert 2 == len(found)
        assert 0 <= least_extra_line(load, 50, 0.125, 0.1) < 0.25


class TestWhatAStudentReads:
    def test_admittances_along_the_way(self):
        """The admittances at the cuts are those of a walk on the chart."""
        network = double_stub(60 - 80j, 50, 0.125, 0.07)[1]
        at_stub = admittance_from_reflection(
            reflection_coefficient(60 - 80j, 50) * np.exp(-4j * np.pi * 0.07)
        )
        b1, b2 = network.stub_susceptances

        assert 50 / (60 - 80j) == pytest.approx(network.load_admittance, abs=1e-14)
        assert at_stub == pytest.approx(network.admittance_at_first_stub, abs=1e-14)
        assert at_stub + 1j * b1 == pytest.approx(network.admittance_after_first_stub, abs=1e-14)
        assert 1 - 1j * b2 == pytest.approx(network.admittance_at_second_stub, abs=1e-13)

    def test_first_stub_leads_to_the_rotated_circle(self):
        """After the first stub every solution stands on the rotated unit circle, on the load's conductance circle."""
        for network in double_stub(60 - 80j, 50, 0.2):
            y = network.admittance_after_first_stub
            gamma = (1 - y) / (1 + y)
            circle = network.rotated_unit_circle

            assert circle.radius == pytest.approx(abs(gamma - circle.center), abs=1e-14)
            assert network.admittance_at_first_stub.real == pytest.approx(y.real, abs=1e-14)

    def test_solutions_are_the_crossings_of_two_circles(self):
        """The solutions are where the load's conductance circle crosses the rotated unit circle."""
        solutions = double_stub(60 - 80j, 50, 0.125)
        crossed = crossings(conductance_circle(0.3), rotated_unit_circle(0.125))
        reached = [(1 - y) / (1 + y) for y in (n.admittance_after_first_stub for n in solutions)]

        assert 2 == len(crossed)
        assert max(min(abs(c - r) for r in reached) for c in crossed) < 1e-13

    def test_susceptance_counts_in_the_lines_admittance(self):
        """A stub of twice the line's impedance has half its own susceptance on that line."""
        network = double_stub(60 - 80j, 50, 0.125, stub_impedances=(100, 50))[0]
        own = -1 / np.tan(2 * np.pi * network.stub_lengths[0])

        assert own / 2 == pytest.approx(network.stub_susceptances[0], rel=1e-13)

    def test_arrays_are_read_as_arrays(self):
        """An array of problems has its readings as arrays, nan where there is no match."""
        network = double_stub([60 - 80j, 20], 50, 0.125)[0]

        assert [False, True] == np.isnan(network.admittance_at_second_stub).tolist()
        assert [False, True] == np.isnan(network.stub_susceptances[0]).tolist()
        assert [2.0, 2.0] == pytest.approx(network.conductance_limit, abs=1e-14)

    def test_print(self):
        """A network prints in the trade's words."""
        network = double_stub(60 - 80j, 50, 1 / 8, ends=("open", "short"))[0]

        assert isinstance(network, DoubleStub)
        assert "shunt stub, open end: 0.1465 wavelengths of 50 ohm; line: 0.1250 wavelengths" in repr(network)


class TestForbiddenRegion:
    def test_limit(self):
        """The limit is 1/sin², inf without spacing."""
        assert [np.inf, 2.0, 1.0, 2.0] == pytest.approx(
            conductance_limit([0, 1 / 8, 1 / 4, 3 / 8]), abs=1e-12
        )

    @pytest.mark.parametrize("spacing", [0.02, 0.125, 0.2, 0.25, 0.375, 0.49])
    def test_circle_is_that_of_the_limit(self, spacing):
        """The boundary is the circle of the largest conductance, and touches the rotated unit circle."""
        expected = conductance_circle(conductance_limit(spacing))
        circle = forbidden_circle(spacing)

        assert expected.center == pytest.approx(circle.center, abs=1e-14)
        assert expected.radius == pytest.approx(circle.radius, abs=1e-14)
        assert 1 == len(crossings(circle, rotated_unit_circle(spacing)))

    @pytest.mark.parametrize("distance", [0.0, 0.07, 0.31])
    def test_its_inside_is_what_has_no_match(self, distance):
        """A load has no match just where its reflection is inside the circle drawn at the load."""
        loads = brute_force.disc_loads(20_000, seed=6) * 50
        circle = forbidden_circle(0.1, distance)
        inside = np.abs(reflection_coefficient(loads, 50) - circle.center) < circle.radius

        assert np.array_equal(inside, np.isnan(double_stub(loads, 50, 0.1, distance)[0].stub_lengths[0]))
        assert 1_000 < inside.sum() < 19_000

    def test_rotated_circle(self):
        """An eighth of a wavelength turns the unit circle a quarter turn toward the load: up becomes left."""
        circle = rotated_unit_circle(1 / 8)

        assert Circle(-0.5j, 0.5).center == pytest.approx(circle.center, abs=1e-15)
        assert UNIT_CONDUCTANCE_CIRCLE.radius == circle.radius

    @pytest.mark.parametrize("spacing", [0, 0.5])
    def test_no_circle_without_spacing(self, spacing):
        """Without spacing there is no boundary to draw."""
        with pytest.raises(NotACircle, match="no forbidden circle"):
            forbidden_circle(spacing)

    def test_drawn_from_a_network(self):
        """A network gives the region of its own spacing."""
        assert forbidden_circle(0.125) == double_stub(60 - 80j, 50, 0.125)[0].forbidden_circle


class TestLeastExtraLine:
    def test_it_leads_out_and_no_less_does(self):
        """With it 20,000 random loads can be matched; with a little less the forbidden ones still cannot."""
        given = problems(20_000, seed=7)
        del given["stub_impedances"]
        extra = least_extra_line(**given)
        forbidden, start = extra > 0, given.pop("first_distance")
        out = double_stub(**given, first_distance=start + extra)
        less = double_stub(**given, first_distance=start + np.maximum(extra * (1 - 1e-6) - 1e-9, 0.0))
        more = double_stub(**given, first_distance=start + extra + forbidden * 1e-6)

        assert np.abs([network.input_reflection() for network in out]).max() < 1e-10
        assert np.isnan(less[0].stub_lengths[0][extra > 1e-6]).all()
        assert not np.isnan(more[0].stub_lengths[0]).any()
        assert 2_000 < forbidden.sum() < 10_000

    def test_search_finds_no_smaller_one(self):
        """Stepping along the line, the conductance falls to the limit where it says, and not before."""
        load, limit = 12 - 3j, 1 / np.sin(2 * np.pi * 0.1) ** 2
        steps = np.arange(0, 250_000) * 1e-6
        conductance = (50 / brute_force.seen(load, [brute_force.line(0.02 + steps, 50)])).real

        assert steps[np.argmax(conductance <= limit)] == pytest.approx(
            least_extra_line(load, 50, 0.1, 0.02), abs=1e-6
        )

    @pytest.mark.parametrize(("load", "spacing"), [(0, 0.1), (np.inf, 0.1), (20, 0.5), (20, 0)])
    def test_nothing_helps(self, load, spacing):
        """It is nan where no line helps: no power taken, or no spacing."""
        assert np.isnan(least_extra_line(load, 50, spacing))

    def test_outside_the_region(self):
        """It is zero for a load that can be matched as it is."""
        assert 0.0 == least_extra_line(60 - 80j, 50, 0.125)

    def test_broadcasts(self):
        """Loads and spacings broadcast, each answered as alone."""
        extra = least_extra_line(np.array([[20], [60 - 80j]]), 50, [1 / 8, 1 / 4])

        assert (2, 2) == extra.shape
        assert least_extra_line(20, 50, 1 / 4) == extra[0, 1]


def searched(given, ends):
    """Stub lengths by a scan for a conductance of 1 at the second stub: case and lengths of each, what is left over."""
    load, line, spacing = given["load_impedance"], given["line_impedance"], given["spacing"]
    before, stubs = brute_force.line(given["first_distance"], line), given["stub_impedances"]
    at_stub = 1 / brute_force.seen(load, [before])

    def one(values, case):
        return [v if np.ndim(v) == 0 else v[case] for v in values]

    def parts(case, length):
        to_second = brute_force.line(spacing[case], line[case])
        return [one(before, case), brute_force.stub(length, stubs[0, case], ends[0]), to_second]

    def first_length(case, turn):
        total = (at_stub.real[case] + 1 / line[case]) * np.tan(turn)
        return length_of((total - at_stub.imag[case]) * stubs[0, case], ends[0])

    def beside_one(case, turn):
        return (line[case] / brute_force.seen(load[case], parts(case, first_length(case, turn)))).real - 1

    grid = np.linspace(-np.pi / 2, np.pi / 2, 258)[1:-1]
    rows, turns = brute_force.all_roots(beside_one, len(load), grid)
    first = first_length(rows, turns)
    wanted = -(1 / brute_force.seen(load[rows], parts(rows, first))).imag
    second = length_of(wanted * stubs[1, rows], ends[1])
    whole = [*parts(rows, first), brute_force.stub(second, stubs[1, rows], ends[1])]
    return rows, (first, second), np.abs(brute_force.reflection(load[rows], whole, line[rows])).max()


def length_of(susceptance, end):
    """Stub length for a susceptance of its own: tan for an open end, minus cot for a short one."""
    angle = np.arctan(susceptance) if end == "open" else np.arctan2(-1.0, susceptance)
    return np.mod(angle / (2 * np.pi), 0.5)


def textbook(given, ends, i):
    """Stub lengths of problem i by Pozar, 4th ed., eq. 5.19 to 5.22 (from memory), shorter first stub first."""
    mp = EXACT
    load, line = mp.mpc(given["load_impedance"][i]), mp.mpf(given["line_impedance"][i])
    distance = mp.tan(2 * mp.pi * mp.mpf(given["first_distance"][i]))
    y = line / load
    y = (y + 1j * distance) / (1 + 1j * y * distance)
    g, b, t = y.real, y.imag, mp.tan(2 * mp.pi * mp.mpf(given["spacing"][i]))
    under = (1 + t**2) * g - (g * t) ** 2
    found = []
    for root in (mp.sqrt(under), -mp.sqrt(under)) if under >= 0 else ():
        wanted = -b + (1 + root) / t, (root + g) / (g * t)
        own = [w * mp.mpf(z) / line for w, z in zip(wanted, given["stub_impedances"][:, i], strict=True)]
        angles = [mp.atan(o) if end == "open" else -mp.atan(1 / o) for o, end in zip(own, ends, strict=True)]
        found.append([mp.frac(angle / mp.pi) / 2 for angle in angles])
    return sorted(found)
