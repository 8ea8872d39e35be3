"""Where on a line a fault is: steps, echoes and impedance profiles of lines that are known."""

import numpy as np
import pytest

from core import (
    MatchingNetwork,
    OutOfRange,
    Reactance,
    Section,
    echoes,
    find_faults,
    impedance_profile,
    reflection_coefficient,
    step_response,
    usual_cable,
)
from core.board import SPEED_OF_LIGHT
from core.faults import KINDS, Fault

DESIGN = 434e6
FACTOR = 0.66
WAVE = SPEED_OF_LIGHT * FACTOR / DESIGN
SWEEP = 5e6 * np.arange(1, 401)
BAND = np.linspace(400e6, 470e6, 201)


def section(metres, ohms=50.0):
    """A piece of lossless line of this length."""
    return Section(metres / WAVE, ohms)


def back(load, *elements, sweep=SWEEP):
    """What comes back from elements, load first."""
    return MatchingNetwork(load, 50, elements).input_reflection(sweep / DESIGN)


def stepped(load, *elements, **options):
    """The step response of the same."""
    return step_response(SWEEP, back(load, *elements), 50, FACTOR, **options)


class TestStepResponse:
    @pytest.mark.parametrize("load", [0, 10, 50, 120, 1e6])
    def test_settles_at_the_load(self, load):
        """Nothing is back from before the far end; from there half, and then all of the load's reflection."""
        response = stepped(load, section(3.0))
        expected = reflection_coefficient(load, 50).real
        found = np.interp([1.0, 2.8, 3.0, 3.2, 8.0], response.distance_m, response.reflection)

        assert pytest.approx([0, 0, expected / 2, expected, expected], abs=2e-3) == found

    def test_impedance(self):
        """It shows the line's impedance and then the load's."""
        response = stepped(75, section(3.0))

        assert pytest.approx([50, 75], rel=5e-3) == np.interp([1, 6], response.distance_m, response.impedance)

    def test_time(self):
        """Time is there and back: twice the distance over the velocity of the line."""
        response = stepped(75, section(3.0))

        assert pytest.approx(response.time * SPEED_OF_LIGHT * FACTOR / 2) == response.distance_m
        assert pytest.approx(0.75 / 5e6, rel=1e-3) == response.time[-1]

    def test_charging(self):
        """A capacitance at the end first looks like a short, then like an open circuit, with the time constant Z0 C."""
        time_constant = 2e-9
        at_end = 1 / (2j * np.pi * SWEEP * time_constant / 50)
        response = step_response(SWEEP, (at_end - 50) / (at_end + 50), kaiser=6)
        later = 3 * time_constant

        assert pytest.approx(1 - 2 * np.exp(-3), abs=0.01) == np.interp(
            later, response.time, response.reflection
        )

    def test_zero_frequency_known(self):
        """A sweep that begins at zero says the same as one that leaves it to silence."""
        known = step_response(
            np.append(0, SWEEP),
            np.append(reflection_coefficient(120, 50), back(120, section(3.0))),
            50,
            FACTOR,
        )

        assert pytest.approx(stepped(120, section(3.0)).reflection, abs=1e-3) == known.reflection

    @pytest.mark.parametrize("kaiser", [0, 2, 6, 13])
    def test_resolution(self, kaiser):
        """Between a quarter and three quarters of a step lies about half the resolution."""
        response = stepped(100, section(3.0), kaiser=kaiser)
        share = response.reflection * 3
        near = (response.distance_m > 2.5) & (response.distance_m < 3.01)
        quarter = np.interp(0.25, share[near], response.distance_m[near]) if kaiser else None

        assert quarter is None or pytest.approx(3 - quarter, rel=0.25) == response.resolution_m / 4


class TestFindFaults:
    def test_each_change_by_itself(self):
        """Three changes stand where they are, with the impedances after them: no echo is told as a fault."""
        faults = find_faults(stepped(100, section(2.0, 75), section(1.0, 30), section(3.0)))

        assert ["fall", "rise", "rise"] == [fault.kind for fault in faults]
        assert pytest.approx([3, 4, 6], abs=0.01) == [fault.distance_m for fault in faults]
        assert pytest.approx([30, 75, 100], rel=3e-3) == [fault.impedance_after for fault in faults]
        assert pytest.approx([-1 / 4, 3 / 7, 1 / 7], abs=2e-3) == [fault.reflection for fault in faults]

    @pytest.mark.parametrize(("load", "kind"), [(0, "short circuit"), (1e9, "open end")])
    @pytest.mark.parametrize("metres", [0.5, 2.0, 7.3])
    def test_ends(self, load, kind, metres):
        """A broken or a shorted line ends where it does."""
        (end,) = find_faults(stepped(load, section(metres)))

        assert kind == end.kind
        assert pytest.approx(metres, abs=2e-3) == end.distance_m
        assert end.impedance_after in (0, np.inf)

    @pytest.mark.parametrize(
        ("part", "kind"), [(Reactance(-200, "shunt"), "dip"), (Reactance(20, "series"), "bump")]
    )
    def test_brief_ones(self, part, kind):
        """A capacitance across the line is a dip, an inductance in it a bump, and the line goes on as before."""
        (fault,) = find_faults(stepped(50, section(3.0), part, section(2.0)))

        assert kind == fault.kind
        assert pytest.approx(2, abs=0.02) == fault.distance_m
        assert pytest.approx(50, rel=5e-3) == fault.impedance_after
        assert (fault.reflection > 0) == (kind == "bump")

    def test_sound_line(self):
        """A line without fault has none."""
        assert [] == find_faults(stepped(50, section(3.0)))

    def test_smallest(self):
        """Changes smaller than asked for are left out."""
        response = stepped(53, section(3.0, 40), section(1.0))

        assert 2 == len(find_faults(response, 0.01))
        assert 0 == len(find_faults(response, 0.5))

    def test_real_cable(self):
        """The far end of 4 m of usual cable is found within a hand's breadth, its loss notwithstanding."""
        cable, sweep = usual_cable("RG-58"), 10e6 * np.arange(1, 100)
        shown = cable.input_impedance(np.inf, 4.0, sweep)
        (end,) = find_faults(
            step_response(sweep, (shown - 50) / (shown + 50), 50, cable.velocity_factor(500e6))
        )

        assert "open end" == end.kind
        assert pytest.approx(4.0, abs=0.05) == end.distance_m

    def test_noise(self):
        """Noise 40 dB below what was sent adds no fault."""
        rng = np.random.default_rng(3)
        noise = 0.01 * (rng.normal(size=400) + 1j * rng.normal(size=400)) / 2**0.5
        faults = find_faults(step_response(SWEEP, back(120, section(3.0)) + noise, 50, FACTOR), 0.1)

        assert ["rise"] == [fault.kind for fault in faults]
        assert pytest.approx(3, abs=0.01) == faults[0].distance_m

    def test_what_kinds_mean(self):
        """Every kind says what it usually is; an unknown one is refused."""
        assert all(Fault(1.0, kind, 0.1, 60.0).meaning for kind in KINDS)
        with pytest.raises(ValueError, match="kind of fault must be"):
            Fault(1.0, "gremlin", 0.1, 60.0)

    def test_amplified(self):
        """More back than was sent is from no line."""
        with pytest.raises(OutOfRange, match="more comes back than any passive line returns"):
            find_faults(step_response(SWEEP, 1.5 * back(0, section(3.0)), 50, FACTOR))


class TestImpedanceProfile:
    def test_plateaus(self):
        """Between the changes the profile is the line's own impedance, and nan beyond the end."""
        finer = 2.5e6 * np.arange(1, 801)
        seen = back(1e9, section(2.0, 75), section(1.0, 30), section(3.0), sweep=finer)
        distance, ohms = impedance_profile(step_response(finer, seen, 50, FACTOR))
        between = [np.interp(metres, distance, ohms) for metres in (1.5, 3.5, 5.0)]

        assert pytest.approx([50, 30, 75], rel=3e-3) == between
        assert np.all(np.isnan(ohms[distance > 6.2]))

    def test_echoes_that_last(self):
        """Echoes that last longer than the sweep knows would be taken for faults, and are refused."""
        response = stepped(1e9, section(2.0, 75), section(1.0, 30), section(3.0))

        assert 0.03 < response.unrest < 0.06
        with pytest.raises(OutOfRange, match="Take frequencies half as far apart"):
            impedance_profile(response)


class TestEchoes:
    @pytest.mark.parametrize("metres", [5.0, 20.0, 61.7])
    def test_one_echo(self, metres):
        """The far end of a cable stands at its distance with its reflection, in a band far from zero."""
        ((distance, size),) = echoes(BAND, back(100, section(metres), sweep=BAND), FACTOR).peaks()

        assert pytest.approx(metres, abs=0.02) == distance
        assert pytest.approx(1 / 3, abs=2e-3) == size

    def test_loss_given_back(self):
        """An open end behind 20 m of usual cable is a whole echo, when the loss is given back."""
        cable = usual_cable("RG-58")
        shown = cable.input_impedance(np.inf, 20.0, BAND)
        gamma = (shown - 50) / (shown + 50)
        middle = 435e6
        ((distance, size),) = echoes(
            BAND, gamma, cable.velocity_factor(middle), cable.attenuation_db_per_m(middle)
        ).peaks(0.1)

        assert pytest.approx(20, abs=0.2) == distance
        assert pytest.approx(1, abs=0.03) == size

    def test_two(self):
        """A bad joint and the antenna are two echoes, nearest first."""
        found = echoes(BAND, back(80, section(12.0), Reactance(15), section(18.0), sweep=BAND), FACTOR).peaks(
            0.05
        )

        assert pytest.approx([18, 30], abs=0.2) == [distance for distance, _ in found]

    def test_reach(self):
        """Distances reach up to half a velocity over the step."""
        seen = echoes(BAND, np.zeros(201), FACTOR)

        assert pytest.approx(FACTOR * SPEED_OF_LIGHT / 2 / 0.35e6, rel=1e-3) == seen.distance_m[-1]
        assert [] == seen.peaks()
        assert "Echoes(reaches: 282.5 m" in repr(seen)


class TestRefused:
    @pytest.mark.parametrize(
        ("make", "fault"),
        [
            (lambda: step_response(BAND, np.zeros(201)), "whole multiples of its first frequency"),
            (lambda: step_response(SWEEP[::-1], np.zeros(400)), "rise in equal steps"),
            (lambda: echoes(np.geomspace(1e8, 2e8, 99), np.zeros(99)), "rise in equal steps"),
            (lambda: step_response(SWEEP, np.zeros(399)), "a reflection at each"),
            (lambda: echoes(SWEEP[:4], np.zeros(4)), "needs 8 frequencies"),
            (lambda: echoes(SWEEP, np.full(400, np.nan)), "finite numbers"),
            (lambda: echoes(SWEEP, ["a"] * 400), "complex numbers"),
            (lambda: echoes(SWEEP, np.zeros(400), 1.5), "velocity factor"),
            (lambda: echoes(SWEEP, np.zeros(400), kaiser=-1), "Kaiser"),
            (lambda: echoes(SWEEP, np.zeros(400), db_per_m=-1), "loss"),
            (lambda: echoes(SWEEP, np.zeros(400), SWEEP / 2e9), "velocity factor must be a single number"),  # type: ignore
            (lambda: echoes(SWEEP, np.zeros(400)).peaks(0), "smallest echo"),
            (lambda: find_faults(stepped(50), 0), "smallest reflection"),
        ],
    )
    def test_in_words(self, make, fault):
        """A sweep or a setting that says nothing about a line is refused in words."""
        with pytest.raises(OutOfRange, match=fault):
            make()
