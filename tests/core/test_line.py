"""The uniform line: twelve digits against fifty-digit arithmetic, and the laws that every text on lines states.

A law with no source beside it is common practice, no source.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import (
    NegativeResistance,
    NotALength,
    NotAnImpedance,
    OutOfRange,
    admittance_from_reflection,
    impedance_from_reflection,
    input_impedance,
    reflection_coefficient,
    reflection_from_return_loss,
    reflection_from_swr,
    return_loss_db,
    swr,
    toward_generator,
    toward_load,
)
from core.line import distance_to_maximum, distance_to_minimum, half_wave_difference, wrap_half_wave
from tests.reference import exact, loads

DIGITS = 1e-12
HALF_WAVE = 0.5

resistances = st.floats(0, 1e6)
reactances = st.floats(-1e6, 1e6)
impedances = st.builds(complex, resistances, reactances)
reflections = st.complex_numbers(max_magnitude=0.999, allow_nan=False)
lengths = st.floats(0, 100)


@dataclass
class Sample:
    """Loads at one hard place of the chart, with line, distances and losses to go with them."""

    load: Any
    gamma: Any
    distance: Any
    attenuation: Any
    line: Any
    line_admittance: Any

    def exactly(self, *names: str) -> list[tuple[Any, ...]]:
        """The same numbers in fifty digits, one tuple for each load."""
        columns = [np.broadcast_to(getattr(self, name), self.load.shape).tolist() for name in names]
        return [tuple(map(exact.exact, row)) for row in zip(*columns, strict=True)]

    def __getitem__(self, names: tuple[str, ...]) -> list[Any]:
        return [getattr(self, name) for name in names]


@pytest.fixture(params=loads.PLACES, ids=lambda place: place.__name__)
def sample(request) -> Sample:
    """200 loads on a line of 73.1 ohm, which no binary fraction is."""
    rng, count, line = loads.random(20), 200, 73.1
    load = line * request.param(rng, count)
    return Sample(
        load=load,
        gamma=reflection_coefficient(load, line),
        distance=rng.uniform(0, 3, count),
        attenuation=rng.choice([0, 1], count) * rng.uniform(0, 0.3, count),
        line=line,
        line_admittance=1 / line,
    )


@pytest.mark.parametrize(
    ("function", "reference", "arguments"),
    [
        (reflection_coefficient, exact.reflection, ("load", "line")),
        (impedance_from_reflection, exact.impedance, ("gamma", "line")),
        (admittance_from_reflection, exact.admittance, ("gamma", "line_admittance")),
        (toward_generator, exact.toward_generator, ("gamma", "distance", "attenuation")),
        (toward_load, exact.toward_load, ("gamma", "distance", "attenuation")),
        (input_impedance, exact.through_line, ("load", "line", "distance", "attenuation")),
    ],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_twelve_digits(sample: Sample, function, reference, arguments):
    """In every hard place the function agrees with fifty-digit arithmetic to twelve digits."""
    expected = [reference(*row) for row in sample.exactly(*arguments)]

    assert DIGITS >= exact.worst_error(function(*sample[arguments]), expected)


@pytest.mark.parametrize(
    ("function", "reference"), [(swr, exact.swr), (return_loss_db, exact.return_loss_db)]
)
def test_twelve_digits_of_mismatch(sample: Sample, function, reference):
    """SWR and return loss have twelve digits out to an SWR of 1000, beyond it as many as their argument allows."""
    ratios = [exact.swr(*row) for row in sample.exactly("gamma")]
    expected = [reference(*row) for row in sample.exactly("gamma")]
    scales = [value * max(1, ratio / 1000) for value, ratio in zip(expected, ratios, strict=True)]

    assert DIGITS >= exact.worst_error(function(sample.gamma), expected, scales)


def test_twelve_digits_of_standing_wave(sample: Sample):
    """Maximum and minimum lie where the tangent formula turns real, to 1e-12 of a half wave."""
    one = exact.MP.mpf(1)
    maxima, minima = zip(
        *(exact.standing_wave(exact.impedance(gamma, one), one) for (gamma,) in sample.exactly("gamma")),
        strict=True,
    )

    assert DIGITS >= exact.worst_length_error(distance_to_maximum(sample.gamma), maxima)
    assert DIGITS >= exact.worst_length_error(distance_to_minimum(sample.gamma), minima)


class TestReflectionCoefficient:
    @pytest.mark.parametrize(
        ("load", "expected"),
        [
            pytest.param(50, 0, id="matched"),
            pytest.param(0, -1, id="short"),
            pytest.param(np.inf, 1, id="open"),
            pytest.param(complex(0, np.inf), 1, id="open, reached along the rim"),
            pytest.param(1e300, 1, id="as good as open"),
            pytest.param(50j, 1j, id="inductor at the top"),
            pytest.param(-50j, -1j, id="capacitor at the bottom"),
            pytest.param(150, 0.5, id="three times the line"),
        ],
    )
    def test_by_definition(self, load, expected):
        """The loads that everyone knows by heart reflect exactly what everyone knows."""
        assert expected == reflection_coefficient(load, 50)

    @given(load=impedances)
    def test_passive(self, load):
        """A passive load never reflects more than it gets."""
        assert 1 + 1e-15 >= abs(reflection_coefficient(load, 50))

    @given(reactance=reactances)
    def test_lossless(self, reactance):
        """A reactance reflects everything."""
        assert pytest.approx(1, abs=1e-15) == abs(reflection_coefficient(1j * reactance, 50))

    def test_mixed_array(self):
        """An array may mix opens, shorts and ordinary loads."""
        mixed = reflection_coefficient([np.inf, 0, 50, 150], 50)

        assert [1, -1, 0, 0.5] == mixed.tolist()

    def test_shapes(self):
        """Loads and lines broadcast; one load on one line gives a plain number."""
        assert (3, 2) == reflection_coefficient(np.ones((3, 1)), [50, 75]).shape
        assert isinstance(reflection_coefficient(np.array(25.0), 50), complex)


class TestImpedanceFromReflection:
    @given(gamma=reflections)
    def test_undoes_reflection(self, gamma):
        """Reading the impedance and reflecting again leads back."""
        again = reflection_coefficient(impedance_from_reflection(gamma, 50), 50)

        assert pytest.approx(gamma, abs=1e-13) == again

    def test_open(self):
        """At the open point the impedance is infinite, and nothing warns."""
        assert np.inf == impedance_from_reflection(1, 50)
        assert [np.inf, 0] == impedance_from_reflection([1, -1], 50).tolist()

    def test_without_line(self):
        """Without a line impedance it is the normalised impedance."""
        assert pytest.approx(1j) == impedance_from_reflection(1j)


class TestAdmittanceFromReflection:
    @given(gamma=reflections.filter(lambda gamma: abs(1 + gamma) > 1e-3))
    def test_reciprocal(self, gamma):
        """Admittance is one over impedance: the half turn."""
        assert pytest.approx(1) == admittance_from_reflection(gamma) * impedance_from_reflection(gamma)

    def test_short(self):
        """At the short point the admittance is infinite."""
        assert np.inf == admittance_from_reflection(-1, 0.02)

    @pytest.mark.parametrize("line", [0, -0.02, np.nan])
    def test_bad_line(self, line):
        """A line admittance has siemens in its sentence, not ohms."""
        with pytest.raises(NotAnImpedance, match=r"line admittance must be a positive number of siemens"):
            admittance_from_reflection(0.5, line)


class TestSwr:
    @given(resistance=st.floats(1e-3, 1e3))
    def test_real_load(self, resistance):
        """For a real load it is the ratio of load and line, whichever is larger above."""
        ratio = swr(reflection_coefficient(50 * resistance, 50))

        assert pytest.approx(max(resistance, 1 / resistance), rel=1e-12) == ratio

    def test_limits(self):
        """One for a match; infinite on the rim, and where rounding has pushed a reactance over it."""
        assert [1, np.inf, np.inf] == swr([0, -1j, 1 + 1e-15]).tolist()


class TestReturnLoss:
    def test_limits(self):
        """Infinite for a match, zero (and not minus zero) on the rim."""
        loss = return_loss_db([0, 1])

        assert [np.inf, 0] == loss.tolist()
        assert not np.signbit(loss[1])

    def test_half_the_voltage(self):
        """Half the voltage is a quarter of the power: 6.02 dB."""
        assert pytest.approx(6.0206, abs=5e-5) == return_loss_db(-0.5j)


class TestTowardGenerator:
    def test_clockwise(self):
        """Toward the generator is clockwise: an eighth of a wavelength takes the right to the bottom."""
        assert -0.5j == toward_generator(0.5, 0.125)
        assert 0.5j == toward_load(0.5, 0.125)

    @given(gamma=reflections, whole=st.integers(0, 10**6))
    def test_half_a_wavelength(self, gamma, whole):
        """Half a wavelength brings every point back to just where it was, however often."""
        assert gamma == toward_generator(gamma, 0.5 * whole)

    @given(gamma=reflections, distance=lengths)
    def test_keeps_the_mismatch(self, gamma, distance):
        """A lossless line stays on one circle about the centre."""
        assert pytest.approx(abs(gamma), rel=1e-14) == abs(toward_generator(gamma, distance))

    @given(gamma=reflections, distance=lengths, attenuation=st.floats(0, 0.1))
    def test_undone_by_toward_load(self, gamma, distance, attenuation):
        """Walking back to the load undoes the walk, loss included."""
        there = toward_generator(gamma, distance, attenuation)

        assert pytest.approx(gamma, rel=1e-13) == toward_load(there, distance, attenuation)

    def test_loss_counts_twice(self):
        """A neper of line takes two nepers off the reflection: there and back."""
        assert pytest.approx(np.exp(-2), rel=1e-15) == toward_generator(1, 0.5, attenuation=2)

    def test_long_line(self):
        """A million wavelengths of line lose no digits."""
        assert pytest.approx(toward_generator(0.5, 0.375), abs=1e-15) == toward_generator(0.5, 1e6 + 0.375)

    @pytest.mark.parametrize("walk", [toward_generator, toward_load])
    @pytest.mark.parametrize("distance", [-0.1, np.inf, np.nan, [0.1, -0.1], 0.1j, "far"])
    def test_bad_distance(self, walk, distance):
        """A distance below zero, or none at all, is refused."""
        with pytest.raises(NotALength, match=r"^The distance must be .*\.$"):
            walk(0.5, distance)

    @pytest.mark.parametrize("attenuation", [-0.1, np.inf, np.nan])
    def test_bad_attenuation(self, attenuation):
        """A line that amplifies is refused."""
        with pytest.raises(OutOfRange, match=r"^The attenuation must be a number at least 0"):
            toward_generator(0.5, 0.1, attenuation)


class TestInputImpedance:
    @given(resistance=st.floats(0.1, 1e4), reactance=st.floats(-1e4, 1e4))
    def test_quarter_wave_inverts(self, resistance, reactance):
        """A quarter wave shows Z0 squared over the load. Source: Pozar, 4th ed., eq. 2.61 (from memory)."""
        load = complex(resistance, reactance)

        assert pytest.approx(50**2 / load, rel=1e-13) == input_impedance(load, 50, 0.25)

    @given(load=impedances, whole=st.integers(0, 1000))
    def test_half_wave_repeats(self, load, whole):
        """Half wavelengths of line, any number of them, show the load itself."""
        assert pytest.approx(load, rel=1e-14) == input_impedance(load, 50, 0.5 * whole)

    @pytest.mark.parametrize(("load", "expected"), [(0, np.inf), (np.inf, 0)], ids=["short", "open"])
    def test_quarter_wave_of_nothing(self, load, expected):
        """A quarter wave turns a short into an open circuit and an open into a short, exactly."""
        assert expected == input_impedance(load, 50, 0.25)

    def test_matched(self):
        """A matched line shows its own impedance at every length."""
        assert np.all(input_impedance(50, 50, np.linspace(0, 3, 1001)) == 50)

    def test_lossy_line_hides_its_load(self):
        """Twenty nepers of line show the line's impedance, whatever ends it."""
        assert pytest.approx([50] * 3, rel=1e-14) == input_impedance([0, np.inf, 7 - 300j], 50, 1, 20)

    def test_shapes(self):
        """Loads, lines and lengths broadcast; single numbers give a plain number."""
        assert (4, 3, 2) == input_impedance(np.ones((4, 1, 1)), np.ones((3, 1)), np.zeros(2)).shape
        assert isinstance(input_impedance(25, 50, 0.1), complex)


class TestDistances:
    @given(load=st.builds(complex, resistances, st.floats(1e-3, 1e6)))
    def test_inductive_load_peaks_first(self, load):
        """From an inductive load the voltage rises to its maximum first, from a capacitive one it falls."""
        gamma = reflection_coefficient(load, 50)

        assert distance_to_maximum(gamma) <= 0.25 <= distance_to_minimum(gamma)
        assert distance_to_minimum(gamma.conjugate()) <= 0.25 <= distance_to_maximum(gamma.conjugate())

    @given(gamma=reflections.filter(lambda gamma: abs(gamma) > 1e-9))
    def test_what_is_there(self, gamma):
        """At the maximum the reflection is real and positive, at the minimum real and negative."""
        size = abs(gamma)

        assert pytest.approx(size, abs=1e-14) == toward_generator(gamma, distance_to_maximum(gamma))
        assert pytest.approx(-size, abs=1e-14) == toward_generator(gamma, distance_to_minimum(gamma))

    def test_matched(self):
        """A matched line has no standing wave; its places are those of a small real load."""
        assert [0, 0.25] == [distance_to_maximum(0), distance_to_minimum(0)]


class TestWrapHalfWave:
    @given(length=st.floats(-1e6, 1e6))
    def test_range(self, length):
        """Every length has its like from zero up to, and without, half a wavelength."""
        wrapped = wrap_half_wave(length)

        assert 0 <= wrapped < HALF_WAVE
        assert pytest.approx(0, abs=1e-15) == half_wave_difference(length, wrapped)

    @pytest.mark.parametrize("length", [-1e-17, -1e-300, 0.5, 0.5 - 2e-16, -0.0])
    def test_a_half_wave_but_for_rounding(self, length):
        """A length that is short of a half wave by rounding only is no line at all."""
        assert 0 == wrap_half_wave(length)
        assert not np.signbit(wrap_half_wave(length))

    def test_exact_remainder(self):
        """No digits are lost to the whole half waves."""
        assert (np.fmod(got := loads.random(3).uniform(0, 50, 1000), 0.5) == wrap_half_wave(got)).all()


class TestHalfWaveDifference:
    @given(first=st.floats(0, 10), second=st.floats(0, 10))
    def test_range(self, first, second):
        """Two lengths are never more than a quarter wave apart, one way or the other."""
        difference = half_wave_difference(first, second)

        assert -0.25 <= difference < 0.25
        assert pytest.approx(0, abs=1e-14) == half_wave_difference(second + difference, first)

    @pytest.mark.parametrize(
        ("first", "second", "expected"), [(0.01, 0.49, 0.02), (0.49, 0.01, -0.02), (0.3, 0.8, 0)]
    )
    def test_across_the_seam(self, first, second, expected):
        """Across the half wave the short way counts."""
        assert pytest.approx(expected, abs=1e-16) == half_wave_difference(first, second)


def a_tenth_of_line(load: Any, line: Any) -> Any:
    """What a short line shows of the load."""
    return input_impedance(load, line, 0.1)


@pytest.mark.parametrize("of_load", [reflection_coefficient, a_tenth_of_line])
class TestRefusals:
    @pytest.mark.parametrize("load", [-1, -1 + 50j, [50, -0.001]])
    def test_negative_resistance(self, of_load, load):
        """A load that would give power back is refused with its resistance."""
        with pytest.raises(NegativeResistance, match=r"resistance of -(1|0\.001) ohm"):
            of_load(load, 50)

    @pytest.mark.parametrize("load", [np.nan, complex(50, np.nan), [50, np.nan], "fifty", None])
    def test_not_a_number(self, of_load, load):
        """A load that is no number is refused, alone or in an array."""
        with pytest.raises(NotAnImpedance, match=r"^The load impedance must be a number"):
            of_load(load, 50)

    @pytest.mark.parametrize("line", [0, -50, np.inf, np.nan, [50, 0], "fifty", 50 + 1j])
    def test_bad_line(self, of_load, line):
        """A line impedance that no lossless line has is refused."""
        with pytest.raises(NotAnImpedance, match=r"^The line impedance must be "):
            of_load(25, line)


class TestReflectionFromWhatIsSpokenOf:
    @pytest.mark.parametrize(("ratio", "size", "half_digit"), [
        pytest.param(3.87, 0.59, 0.005, id="Pozar, Microwave Engineering, 4th ed., Example 2.2"),
        pytest.param(4.26, 0.62, 0.005, id="Ulaby, Fundamentals of Applied Electromagnetics: 25+j50 on 50 ohm"),
        pytest.param(1.0, 0.0, 1e-15, id="by definition: matched"),
        pytest.param(np.inf, 1.0, 1e-15, id="by definition: all returned"),
    ])  # fmt: skip
    def test_standing_wave_ratio_of_print(self, ratio: float, size: float, half_digit: float):
        """The size of the reflection of a printed standing-wave ratio is the printed one, to its last digit."""
        assert pytest.approx(size, abs=half_digit) == reflection_from_swr(ratio)

    def test_return_loss_of_print(self):
        """A return loss of 4.6 dB is a reflection of 0.59: Pozar, Microwave Engineering, 4th ed., Example 2.2."""
        assert pytest.approx(0.59, abs=0.005) == reflection_from_return_loss(4.6)

    def test_they_undo_the_line(self):
        """The ratio and the loss of the size found are those asked for, from a match to nearly all returned."""
        ratios, losses = np.geomspace(1, 1e4, 97), np.linspace(0, 80, 97)

        assert swr(reflection_from_swr(ratios)) == pytest.approx(ratios, rel=1e-11)
        assert return_loss_db(reflection_from_return_loss(losses)) == pytest.approx(losses, abs=1e-12)

    @pytest.mark.parametrize("ratio", [0.99, -3, 2 + 1j, "two"])
    def test_refused_ratio(self, ratio):
        """No standing-wave ratio is below 1."""
        with pytest.raises(OutOfRange, match="standing-wave ratio must be a number at least 1"):
            reflection_from_swr(ratio)

    def test_refused_loss(self):
        """A return loss below zero would be a load that gives power back."""
        with pytest.raises(OutOfRange, match="return loss must be a number at least 0"):
            reflection_from_return_loss(-0.1)
