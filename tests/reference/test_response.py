"""Response and bandwidth against scikit-rf, against fifty digits, and against print.

Printed values are from memory, with book, edition and number beside each.
"""

import mpmath
import numpy as np
import pytest
from scipy.optimize import brentq

from core import (
    MatchingNetwork,
    ParallelLoad,
    Reactance,
    SampledLoad,
    Section,
    SeriesLoad,
    Stub,
    bandwidth,
    frequency_response,
    quarter_wave,
    single_stub,
)
from tests.reference.lossy_cascade import DESIGN_FREQUENCY, cascade

RATIOS = np.geomspace(0.503, 1.987, 31)
NEAR, FAR = single_stub(60 - 80j, 50)


def some_networks(count: int, seed: int) -> list[MatchingNetwork]:
    """Random networks of all kinds of element, lossless and lossy."""
    rng = np.random.default_rng(seed)

    def line(kind, *more):
        return kind(
            rng.uniform(0.02, 0.6), rng.uniform(20, 120), *more, attenuation=rng.choice([0, 0.1, 0.4])
        )

    return [
        MatchingNetwork(
            complex(rng.uniform(5, 200), rng.uniform(-150, 150)),
            50.0,
            (
                line(Section),
                line(Stub, "shunt", "short"),
                Reactance(rng.uniform(-90, -10), "series"),
                line(Stub, "series", "open"),
                line(Section),
                Reactance(rng.uniform(20, 90), "shunt"),
                line(Stub, "series", "short"),
                line(Stub, "shunt", "open"),
            ),
        )
        for _ in range(count)
    ]


class TestAgainstScikitRf:
    @pytest.mark.parametrize("network", some_networks(8, seed=21), ids=lambda _: "random network")
    def test_cascade(self, network):
        """The response of random networks with every kind of element, some lossy, is that of the library's
        cascade.

        The library moves a value of zero by 1e-12 or so to keep its matrices regular."""
        theirs = cascade(network, RATIOS)

        assert pytest.approx(theirs, abs=1e-9) == frequency_response(network, RATIOS).reflection

    @pytest.mark.parametrize("network", [NEAR, FAR], ids=["near", "far"])
    @pytest.mark.parametrize(
        "parts",
        [
            {"series": (60, 0, 1 / (2 * np.pi * DESIGN_FREQUENCY * 80))},
            {"series": (60, 15e-9, 2e-12)},
            {"parallel": (120, 15e-9, 2e-12)},
        ],
        ids=["R and C in series", "R, L and C in series", "R, L and C in parallel"],
    )
    def test_load_over_frequency(self, network, parts):
        """With a load of real components the response is that of the library's cascade with the same
        components."""
        ((kind, (resistance, inductance, capacitance)),) = parts.items()
        speed = 2 * np.pi * DESIGN_FREQUENCY * RATIOS
        coil, capacitor = 1j * speed * inductance, 1 / (1j * speed * capacitance)
        in_series = kind == "series"
        model = SeriesLoad if in_series else ParallelLoad
        load = model.from_components(DESIGN_FREQUENCY, resistance, inductance, capacitance)
        circuit = (
            resistance + coil + capacitor if in_series else 1 / (1 / resistance + 1 / coil + 1 / capacitor)
        )
        theirs = cascade(network, RATIOS, circuit)

        assert pytest.approx(theirs, abs=1e-9) == frequency_response(network, RATIOS, load).reflection

    def test_sampled_load(self):
        """A table finely sampled from the library's own transformed load gives the library's response."""
        fine = np.linspace(0.5, 2, 3001)
        beyond = MatchingNetwork(30 + 20j, 50, (Section(0.3, 80),))
        gamma = cascade(beyond, fine)
        table = SampledLoad(fine, 50 * (1 + gamma) / (1 - gamma))
        whole = MatchingNetwork(30 + 20j, 50, (*beyond.elements, *NEAR.elements))

        assert (
            pytest.approx(cascade(whole, RATIOS), abs=1e-5)
            == frequency_response(NEAR, RATIOS, table).reflection
        )

    @pytest.mark.parametrize("network", [NEAR, FAR], ids=["near", "far"])
    @pytest.mark.parametrize("series", [False, True], ids=["constant load", "series load"])
    def test_bandwidth(self, network, series):
        """The edges of the band are where scipy's root-finder on the library's cascade has them."""
        load = SeriesLoad.of(60 - 80j) if series else None

        def excess(ratio):
            impedance = 60 - 80j / ratio if series else 60 - 80j
            return abs(cascade(network, [ratio], impedance)[0]) - 1 / 3

        band = bandwidth(network, 2.0, load)
        edges = [brentq(excess, band.lower - 0.02, 1), brentq(excess, 1, band.upper + 0.02)]

        assert pytest.approx(edges, abs=1e-8) == [band.lower, band.upper]


class TestAgainstFiftyDigits:
    @pytest.mark.parametrize("network", [NEAR, FAR], ids=["near", "far"])
    @pytest.mark.parametrize("limit", [1.1, 1.5, 2.0, 3.0])
    def test_edges(self, network, limit):
        """Both edges are right to 1e-11, by root-finding on the tangent formulas at fifty digits."""
        band = bandwidth(network, limit)
        with mpmath.workdps(50):
            distance, length = mpmath.mpf(network.distance), mpmath.mpf(network.stub_length)

            def excess(ratio):
                tangent = mpmath.tan(2 * mpmath.pi * distance * ratio)
                load = mpmath.mpc(60, -80) / 50
                line = (1 + 1j * load * tangent) / (load + 1j * tangent)
                total = line - 1j * mpmath.cot(2 * mpmath.pi * length * ratio)
                return abs((1 - total) / (1 + total)) - mpmath.mpf(limit - 1) / mpmath.mpf(limit + 1)

            exact = [float(mpmath.findroot(excess, mpmath.mpf(edge))) for edge in (band.lower, band.upper)]

        assert pytest.approx(exact, abs=1e-11) == [band.lower, band.upper]

    @pytest.mark.parametrize("load", [10, 25, 100, 400])
    @pytest.mark.parametrize("limit", [1.2, 1.5, 1.9])
    def test_quarter_wave_formula(self, load, limit):
        """The band of a quarter-wave section is 2 - (4 / pi) arccos(...) of the design frequency.

        Source: Pozar, Microwave Engineering, 4th ed., eq. 5.33 (from memory)."""
        network = quarter_wave(load, 50)[0]
        most = (limit - 1) / (limit + 1)
        inside = most / np.sqrt(1 - most**2) * 2 * np.sqrt(50 * load) / abs(load - 50)
        expected = 2 - 4 / np.pi * np.arccos(inside)

        assert pytest.approx(expected, abs=1e-12) == bandwidth(network, limit).fraction


class TestPublished:
    def test_quarter_wave_band(self):
        """10 ohm to 50 ohm by a quarter wave: 29 % at a standing-wave ratio of 1.5.

        Source: Pozar, Microwave Engineering, 4th ed., example 5.5 (from memory)."""
        assert pytest.approx(0.29, abs=0.005) == bandwidth(quarter_wave(10, 50)[0], 1.5).fraction

    def test_two_stubs_of_one_load(self):
        """Both shorted solutions of 60-j80 ohm are equally sensitive, and their bands are 37.2 % and 10.5 %.

        By an independent solver (not published), with the load a resistance in series with a capacitor, as in
        Pozar, Microwave Engineering, 4th ed., example 5.2 (from memory)."""
        load = SeriesLoad.of(60 - 80j)

        assert pytest.approx([0.100, 0.100], abs=0.0005) == [n.worst_reflection(0.005) for n in (NEAR, FAR)]
        assert pytest.approx([0.372, 0.105], abs=0.0005) == [
            bandwidth(n, 2.0, load).fraction for n in (NEAR, FAR)
        ]

    def test_the_first_has_the_wider_band(self):
        """The solution with the shorter line and stub has by far the wider band.

        Source: Pozar, Microwave Engineering, 4th ed., example 5.2, text (from memory), load R in series with
        C."""
        near, far = (bandwidth(n, 2.0, SeriesLoad.of(60 - 80j)).fraction for n in (NEAR, FAR))

        assert near > 2 * far

    def test_matched_load_components(self):
        """60-j80 ohm at 2 GHz is 60 ohm in series with 0.995 pF.

        Source: Pozar, Microwave Engineering, 4th ed., example 5.2 (from memory)."""
        load = SeriesLoad.from_components(2e9, 60, capacitance=0.995e-12)

        assert pytest.approx(60 - 80j, abs=0.05) == load.at(1.0)
