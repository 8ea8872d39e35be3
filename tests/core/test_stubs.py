"""The single stub: every solution right, none missed, every unusual load explained, and the laws of the trade.

A law with no source beside it is common practice, no source.
"""

from itertools import pairwise, product
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core import (
    MatchingNetwork,
    NegativeResistance,
    NotAnImpedance,
    Section,
    SingleStub,
    Stub,
    UnknownChoice,
    reflection_coefficient,
    single_stub,
    swr,
    toward_generator,
)
from core.line import half_wave_difference
from core.solutions import TAKES_NO_POWER
from core.stubs import ALREADY_MATCHED, stub_length_for, stub_susceptance
from tests.reference import exact, loads

DIGITS = 1e-12
KINDS = list(product(("shunt", "series"), ("short", "open")))
OTHER_END = {"short": "open", "open": "short"}
OTHER_PLACEMENT = {"shunt": "series", "series": "shunt"}

every_kind = pytest.mark.parametrize(("placement", "end"), KINDS, ids=[" ".join(kind) for kind in KINDS])
ordinary_loads = st.builds(complex, st.floats(1, 1000), st.floats(-1000, 1000)).filter(
    lambda z: abs(z - 50) > 1e-3
)


def lengths(solutions) -> list[tuple[Any, Any]]:
    """Distance and stub length of each solution."""
    return [(s.distance, s.stub_length) for s in solutions]


def apart(first, second) -> float:
    """How far two pairs of distance and length are apart, modulo half a wavelength, relative to half a wavelength."""
    return max(exact.worst_length_error([ours], [theirs]) for ours, theirs in zip(first, second, strict=True))


@every_kind
@pytest.mark.parametrize("stub", [73.1, 50.0], ids=["stub as the line", "stub of 50 ohm"])
@pytest.mark.parametrize("place", loads.PLACES, ids=lambda place: place.__name__)
class TestAgainstFiftyDigits:
    def test_twelve_digits(self, place, stub, placement, end):
        """In every hard place both lengths of both solutions are right to 1e-12 of a half wave, near first.

        A distance of a half wave but for rounding counts as none at all: there the last digit may tell the order."""
        load, worst = 73.1 * place(loads.random(41), 150), 0.0
        near, far = (np.transpose(pair) for pair in lengths(single_stub(load, 73.1, stub, placement, end)))
        line, own = exact.exact(73.1), exact.exact(stub)
        for z, *ours in zip(load.tolist(), near, far, strict=True):
            theirs = exact.single_stub(exact.exact(z), line, own, placement, end)
            if max(distance for distance, _ in theirs) > 0.5 - 1e-14:
                theirs = sorted(theirs, key=lambda pair: apart(ours[0], pair))
            worst = max(worst, *map(apart, ours, theirs))

        assert 0 < worst <= DIGITS

    def test_reference_matches(self, place, stub, placement, end):
        """The fifty-digit lengths leave no reflection in forty digits, by impedances in parallel or in series."""
        line, own = exact.exact(73.1), exact.exact(stub)
        for z in map(exact.exact, (73.1 * place(loads.random(42), 5)).tolist()):
            for distance, length in exact.single_stub(z, line, own, placement, end):
                assert abs(exact.stub_match(z, line, own, placement, end, distance, length)) < 1e-40


@every_kind
class TestEvaluator:
    """Loads out to an SWR of 500: a length is a float, and a unit in its last digit moves the reflection by about
    5e-16 times the SWR, so that 1e-12 cannot be kept much beyond, by any solver."""

    @pytest.mark.parametrize(
        "stub",
        [None, 25.0, 50 * loads.decades(loads.random(43), -0.5, 0.5, 100_000)],
        ids=["same", "25 ohm", "any"],
    )
    def test_no_reflection(self, stub, placement, end):
        """100,000 random loads: both networks of each leave no more than 1e-12, says the evaluator of networks."""
        rng = loads.random(44)
        ratio = loads.decades(rng, 0, np.log10(500), 100_000)
        load = 50 * loads.of_reflection((ratio - 1) / (ratio + 1) * loads.directions(rng, 100_000))
        near, far = single_stub(load, 50, stub, placement, end)

        assert DIGITS >= np.abs(near.input_reflection()).max()
        assert DIGITS >= np.abs(far.input_reflection()).max()
        assert (near.distance < far.distance).all()
        assert all(((length >= 0) & (length < 0.5)).all() for pair in lengths((near, far)) for length in pair)

    def test_lines_of_their_own(self, placement, end):
        """So does every load on a line of its own, from a tenth of an ohm to ten kilohms."""
        rng = loads.random(45)
        line = loads.decades(rng, -1, 4, 20_000)
        solutions = single_stub(line * loads.anywhere(rng, 20_000), line, placement=placement, end=end)

        assert DIGITS >= max(np.abs(s.input_reflection()).max() for s in solutions)


@every_kind
class TestNothingMissed:
    """A scan of the full equations. Going once round a pair of lengths that matches, the reflection goes once round
    zero: so the turns along the edges of a fine grid's cells show every match, and need no solver."""

    STEPS = 64
    CHUNK = 100

    def scan(self, load, line, stub, placement, end):
        """Reflection at the corners of a grid of distances and stub lengths, each over half a wavelength."""
        distance = np.pi * (np.arange(self.STEPS)[:, None] + 0.5) / self.STEPS
        length = np.pi * (np.arange(self.STEPS) + 0.5) / self.STEPS
        voltage = load * np.cos(distance) + 1j * line * np.sin(distance)
        current = np.cos(distance) + 1j * load / line * np.sin(distance)
        over, under = np.cos(length), 1j * np.sin(length)
        top, bottom = (stub * under, over) if end == "short" else (stub * over, under)
        if placement == "shunt":
            voltage, current = voltage * top, current * top + voltage * bottom
        else:
            voltage, current = voltage * bottom + current * top, current * bottom
        return (voltage - line * current) / (voltage + line * current)

    def cells_with_a_match(self, corner):
        """Load, distance and stub length, in cells, of every cell round which the reflection goes round zero."""
        corners = [np.roll(corner, shift, (1, 2)) for shift in ((0, 0), (-1, 0), (-1, -1), (0, -1), (0, 0))]
        turns = sum(np.angle(b * np.conj(a)) for a, b in pairwise(corners))
        return np.nonzero(np.rint(turns / (2 * np.pi)))

    def test_as_many_as_there_are(self, placement, end):
        """2,000 random loads, stubs of any impedance: the scan finds as many matches as the solver, at its lengths."""
        rng = loads.random(46)
        ratio = loads.decades(rng, 0.02, 1.3, 2000)
        load = 50 * loads.of_reflection((ratio - 1) / (ratio + 1) * loads.directions(rng, 2000))
        stub = 50 * loads.decades(rng, -0.3, 0.3, 2000)
        ours = np.array(lengths(single_stub(load, 50, stub, placement, end)))
        for start in range(0, 2000, self.CHUNK):
            some = slice(start, start + self.CHUNK)
            one_each = (some, None, None)
            grid = self.scan(load[one_each], 50, stub[one_each], placement, end)
            which, *cell = self.cells_with_a_match(grid)
            seen = (np.array(cell) + 1) / self.STEPS / 2
            off = np.abs(half_wave_difference(seen, ours[:, :, start + which])).max(axis=1)
            found = off.argmin(axis=0)

            assert off.min(axis=0).max() < 1 / self.STEPS  # two cells
            assert sorted(zip(which, found, strict=True)) == list(product(range(self.CHUNK), (0, 1)))

    @pytest.mark.parametrize("load", [0, 30j, -400j, 1e-9j], ids=str)
    def test_none_where_there_is_none(self, load, placement, end):
        """For a load that takes no power everything comes back at all lengths: there is no match to find."""
        assert not single_stub(load, 50, placement=placement, end=end)
        assert pytest.approx(1) == np.abs(self.scan(np.array([[[load]]]), 50, 50, placement, end))


@every_kind
class TestUnusualLoads:
    """On a 50 ohm line; what a student may enter on the first day."""

    @pytest.mark.parametrize(
        "load",
        [0, np.inf, 25j, -75j, 1e-300j, complex(0, np.inf), complex(np.inf, np.inf), 1e200, -0.0],
        ids=str,
    )
    def test_takes_no_power(self, load, placement, end):
        """A short, an open circuit or a reactance has no match, and a sentence says why; nothing is raised."""
        solutions = single_stub(load, 50, placement=placement, end=end)

        assert not solutions
        assert TAKES_NO_POWER == solutions.reason
        assert "takes no power" in solutions.reason

    def test_matched(self, placement, end):
        """A matched load has one solution, a stub at the load that adds nothing, and a sentence that says so."""
        solutions = single_stub(50, 50, placement=placement, end=end)
        nothing = 0.25 if (placement == "shunt") == (end == "short") else 0

        assert [(0, nothing)] == lengths(solutions)
        assert ALREADY_MATCHED == solutions.reason
        assert pytest.approx(0, abs=1e-15) == solutions[0].input_reflection()

    @pytest.mark.parametrize("load", [10, 49.999999, 50.000001, 200, 1e6])
    def test_real(self, load, placement, end):
        """A real load has its two solutions at equal distances on both sides of a quarter wave, or of the load."""
        near, far = single_stub(load, 50, placement=placement, end=end)

        assert pytest.approx(0, abs=1e-15) == half_wave_difference(near.distance + far.distance, 0)
        assert pytest.approx(0, abs=1e-15) == half_wave_difference(near.stub_length + far.stub_length, 0)

    @pytest.mark.parametrize("excess", [0.01, -0.01, 1, -1, 30, -30, 1e-9, -1e-9, 1e4])
    def test_on_the_unit_circle(self, excess, placement, end):
        """A load on the unit circle already has its near solution at the load itself, with a stub that cancels it."""
        load = complex(50, 50 * excess) if placement == "series" else 50 / complex(1, excess)
        near, far = single_stub(load, 50, placement=placement, end=end)

        assert 0 == near.distance
        assert pytest.approx(-excess, rel=1e-9) == stub_susceptance(near.stub_length, placement, end)
        assert 0 < far.distance < 0.5
        ratio = swr(reflection_coefficient(load, 50))
        assert max(abs(s.input_reflection()) for s in (near, far)) < 1e-15 * ratio

    @pytest.mark.parametrize("resistance", [1e-12, 1e-6, 1e8, 1e14])
    def test_hardly_takes_power(self, resistance, placement, end):
        """A load that takes almost nothing still has its two solutions, as close together as they are."""
        solutions = single_stub(resistance, 50, placement=placement, end=end)
        line = exact.exact(50)
        theirs = exact.single_stub(exact.exact(resistance), line, line, placement, end)

        assert DIGITS >= max(map(apart, lengths(solutions), theirs))

    def test_mixed_array(self, placement, end):
        """In an array each load is answered for itself: two each, nan where there is none, equal for a match."""
        mixed = np.array([[60 - 80j, np.inf, 0], [25j, 50, 100 + 80j]])
        near, far = solutions = single_stub(mixed, 50, placement=placement, end=end)
        alone = [single_stub(load, 50, placement=placement, end=end) for load in mixed.flat]

        assert TAKES_NO_POWER == solutions.reason
        assert [2, 0, 0, 0, 1, 2] == [len(one) for one in alone]
        for index, one in zip(np.ndindex(mixed.shape), alone, strict=True):
            expected = [(np.nan, np.nan)] * 2 if not one else lengths((one[0], one[-1]))
            got = [(s.distance[index], s.stub_length[index]) for s in (near, far)]
            assert pytest.approx(np.array(expected), nan_ok=True, abs=1e-15) == np.array(got)
        assert np.isnan(near.input_reflection()).tolist() == [[False, True, True], [True, False, False]]


@every_kind
class TestLaws:
    @given(load=ordinary_loads)
    def test_half_wave(self, load, placement, end):
        """Half a wavelength more, of line or of stub, matches just as well."""
        for solution in single_stub(load, 50, 75, placement, end):
            section, stub = solution.elements
            for more in ((0.5, 0), (0, 0.5), (1.5, 1)):
                longer = (
                    Section(section.length + more[0], 50),
                    Stub(stub.length + more[1], 75, placement, end),
                )
                reflection = MatchingNetwork(load, 50, longer).input_reflection()
                assert abs(reflection) < 1e-10

    @given(load=ordinary_loads, stub=st.floats(10, 200))
    def test_duality(self, load, stub, placement, end):
        """The dual load 2500/Z has the dual stub's lengths: series for shunt, open for short, 2500/Zs for Zs."""
        these = single_stub(load, 50, stub, placement, end)
        dual = single_stub(2500 / load, 50, 2500 / stub, OTHER_PLACEMENT[placement], OTHER_END[end])

        for ours, theirs in zip(lengths(these), lengths(dual), strict=True):
            assert pytest.approx(0, abs=1e-12) == half_wave_difference(ours, theirs)

    @given(load=ordinary_loads)
    def test_other_end(self, load, placement, end):
        """An open stub in place of a shorted one is a quarter wave longer or shorter, at the same distance."""
        these = single_stub(load, 50, 75, placement, end)
        others = single_stub(load, 50, 75, placement, OTHER_END[end])
        for this, other in zip(these, others, strict=True):
            assert this.distance == other.distance
            assert pytest.approx(0.25, abs=1e-15) == abs(this.stub_length - other.stub_length)

    @given(load=ordinary_loads)
    def test_conjugate(self, load, placement, end):
        """The conjugate load is matched by what is left of a half wave, of line and of stub."""
        these = lengths(single_stub(load, 50, 75, placement, end))
        conjugates = lengths(single_stub(load.conjugate(), 50, 75, placement, end))
        assume(all(1e-9 < distance < 0.5 - 1e-9 for distance, _ in these + conjugates))

        for ours, theirs in zip(these, reversed(conjugates), strict=True):
            assert pytest.approx(0, abs=1e-14) == half_wave_difference(np.add(ours, theirs), 0)

    @given(load=ordinary_loads, scale=st.integers(-8, 8).map(lambda power: 2.0**power))
    def test_scale(self, load, scale, placement, end):
        """Only ratios of impedances count: all of them twice as large leave all lengths as they are."""
        scaled = single_stub(scale * load, scale * 50, scale * 75, placement, end)

        assert pytest.approx(np.array(lengths(scaled)), abs=1e-16) == lengths(
            single_stub(load, 50, 75, placement, end)
        )

    @given(load=ordinary_loads)
    def test_on_the_chart(self, load, placement, end):
        """At the junction the line shows g = 1, or r = 1, and the stub the opposite of what is left."""
        sign = -1 if placement == "shunt" else 1
        for solution in single_stub(load, 50, 75, placement, end):
            gamma = sign * toward_generator(reflection_coefficient(load, 50), solution.distance)
            seen = (1 + gamma) / (1 - gamma)
            stub = stub_susceptance(solution.stub_length, placement, end)
            assert pytest.approx(1, abs=1e-9) == seen.real
            assert pytest.approx(-seen.imag, abs=1e-9) == stub * (
                50 / 75 if placement == "shunt" else 75 / 50
            )


@every_kind
class TestStubLength:
    SIZES = loads.decades(loads.random(47), -9, 9, 200)

    def test_twelve_digits(self, placement, end):
        """The length is that of a line that cancels the opposite, to 1e-12 of a half wave."""
        wanted = np.concatenate([[0.0], self.SIZES, -self.SIZES])
        opposite = [1 - exact.J * exact.exact(b) for b in wanted.tolist()]  # what is seen at the junction
        seen = opposite if placement == "series" else [1 / y for y in opposite]
        angles = [exact.stub_angle(z, exact.MP.mpf(1), placement, end) for z in seen]
        expected = [angle / (2 * exact.MP.pi) for angle in angles]

        assert DIGITS >= exact.worst_length_error(stub_length_for(wanted, placement, end), expected)

    def test_twelve_digits_back(self, placement, end):
        """What a stub shows has twelve digits at every length, near its zeros and poles too."""
        near = loads.decades(loads.random(48), -12, -1, 100)
        length = np.concatenate([near, 0.25 - near, 0.25 + near, 0.5 - near, 7.5 + near])
        impedances = [exact.stub_impedance(exact.exact(value), 1, end) for value in length.tolist()]
        expected = [z.imag if placement == "series" else (1 / z).imag for z in impedances]

        assert DIGITS >= exact.worst_error(stub_susceptance(length, placement, end), expected)

    def test_quarter_waves(self, placement, end):
        """A stub of nothing is its end; a quarter wave makes an open of a short and a short of an open, exactly."""
        pole_first = (placement == "shunt") == (end == "short")
        zero, pole = (0.25, 0) if pole_first else (0, 0.25)

        assert [0, -np.inf] * 2 == stub_susceptance(
            [zero, pole, zero + 0.5, pole + 0.5], placement, end
        ).tolist()
        assert [zero, pole, pole] == stub_length_for([0, np.inf, -np.inf], placement, end).tolist()

    @given(length=st.floats(1e-6, 0.5, exclude_max=True))
    def test_inverse(self, length, placement, end):
        """The length for what a stub shows is its length."""
        again = stub_length_for(stub_susceptance(length, placement, end), placement, end)

        assert pytest.approx(0, abs=1e-15) == half_wave_difference(length, again)


@pytest.mark.parametrize(
    ("placement", "end", "expected"),
    [("shunt", "short", -1), ("shunt", "open", 1), ("series", "short", 1), ("series", "open", -1)],
)
def test_eighth_of_a_wavelength(placement, end, expected):
    """An eighth of a wavelength shows the line's own impedance: inductive when shorted, capacitive when open."""
    assert pytest.approx(expected, rel=1e-15) == stub_susceptance(0.125, placement, end)
    assert pytest.approx(0.125, rel=1e-15) == stub_length_for(expected, placement, end)


@pytest.mark.parametrize("function", [stub_length_for, stub_susceptance])
@pytest.mark.parametrize(
    ("words", "sentence"), [(("across", "short"), r"placement must be"), (("shunt", "shut"), r"end must be")]
)
def test_unknown_stub(function, words, sentence):
    """A stub of no known kind has neither length nor susceptance."""
    with pytest.raises(UnknownChoice, match=sentence):
        function(0.2, *words)


class TestAnswer:
    def test_parts(self):
        """Each solution is the network itself: load, line, section and stub, with its two lengths by name."""
        for solution in single_stub(60 - 80j, 50, 75, "series", "open"):
            section = Section(solution.distance, 50)
            stub = Stub(solution.stub_length, 75, "series", "open")

            assert {float} == {type(solution.distance), type(solution.stub_length)}
            assert SingleStub(60 - 80j, 50, (section, stub)) == solution
            assert isinstance(solution, MatchingNetwork)

    def test_usual_stub(self):
        """Unless told otherwise the stub is a shorted one, across the line, of the line's own impedance."""
        usual = single_stub(60 - 80j, 50)

        assert single_stub(60 - 80j, 50, 50, "shunt", "short") == usual
        assert "" == usual.reason

    def test_shapes(self):
        """Loads, lines and stubs broadcast to one shape, which distance, length and reflection have."""
        near, _ = single_stub(np.full((4, 1, 1), 60 - 80j), np.full((3, 1), 50), [40, 75])

        assert (4, 3, 2) == near.distance.shape == near.stub_length.shape == near.input_reflection().shape

    def test_arrays_as_numbers(self):
        """An array gives, load by load, just what each load gives by itself."""
        load = 50 * loads.anywhere(loads.random(49), 50)
        together = np.array(lengths(single_stub(load, 50)))
        alone = np.array([lengths(single_stub(z, 50)) for z in load])

        assert pytest.approx(alone, abs=1e-16) == np.moveaxis(together, -1, 0)


class TestRefusals:
    @pytest.mark.parametrize(
        ("bad", "error", "sentence"),
        [
            ({"load_impedance": -5 + 50j}, NegativeResistance, r"load impedance has a resistance of -5 ohm"),
            (
                {"load_impedance": [60, np.nan]},
                NotAnImpedance,
                r"load impedance must be a number, such as 25",
            ),
            ({"load_impedance": "sixty"}, NotAnImpedance, r"load impedance must be a number .* not 'sixty'"),
            ({"line_impedance": 0}, NotAnImpedance, r"line impedance must be a positive number of ohms"),
            ({"line_impedance": 50 + 5j}, NotAnImpedance, r"line impedance must be real, not 50\+5j"),
            ({"stub_impedance": -75}, NotAnImpedance, r"stub impedance must be a positive number of ohms"),
            ({"stub_impedance": np.inf}, NotAnImpedance, r"stub impedance must be .* not inf"),
            ({"placement": "parallel"}, UnknownChoice, r"placement must be shunt or series, not 'parallel'"),
            ({"end": "shorted"}, UnknownChoice, r"end must be short or open, not 'shorted'"),
            ({"end": None}, UnknownChoice, r"end must be short or open, not None"),
        ],
        ids=str,
    )
    def test_sentence(self, bad, error, sentence):
        """A bad value is refused with a sentence that names it, and the value itself for the view."""
        (value,) = bad.values()
        with pytest.raises(error, match=rf"^The {sentence}.*\.$") as refusal:
            single_stub(**{"load_impedance": 60 - 80j, "line_impedance": 50} | bad)

        assert refusal.value.value is value
