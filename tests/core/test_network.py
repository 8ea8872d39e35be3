"""The one evaluator of networks: against chain matrices, and the laws of what each element does on the chart.

A law with no source beside it is common practice, no source.
"""

from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import (
    MatchingNetwork,
    NegativeResistance,
    NotALength,
    NotAnImpedance,
    OutOfRange,
    Reactance,
    Section,
    Stub,
    UnknownChoice,
    admittance_from_reflection,
    impedance_from_reflection,
    reflection_coefficient,
    single_stub,
    toward_generator,
)
from tests.reference import loads

RATIOS = np.linspace(0.2, 2.3, 22)
LOAD, LINE = 60 - 80j, 50


def random_element(rng: np.random.Generator, count: int) -> Any:
    """Any element with `count` values of everything that it has; half of the lines are lossy."""
    length, impedance = rng.uniform(0, 0.7, count), rng.uniform(20, 150, count)
    attenuation = rng.uniform(0, 0.5, count) * rng.integers(2)
    placement, end = str(rng.choice(["shunt", "series"])), str(rng.choice(["short", "open"]))
    return [
        Section(length, impedance, attenuation),
        Stub(length, impedance, placement, end, attenuation),
        Reactance(rng.choice([-1, 1], count) * rng.uniform(5, 500, count), placement),
    ][rng.integers(3)]


def chain_matrix(element: Any, ratio: float) -> Any:
    """Of each of an element's values at one frequency. Source: Pozar, 4th ed., table 4.1 (from memory)."""
    if isinstance(element, Reactance):
        inductive = element.reactance > 0
        branch = 1j * element.reactance * np.where(inductive, ratio, 1 / ratio)
        return branch_matrix(branch, element.placement)
    exponent = element.length * (element.attenuation + 2j * np.pi * ratio)
    if isinstance(element, Stub):
        tanh = np.tanh(exponent)
        branch = element.impedance * (tanh if element.end == "short" else 1 / tanh)
        return branch_matrix(branch, element.placement)
    sine = np.sinh(exponent)
    return matrix(np.cosh(exponent), element.impedance * sine, sine / element.impedance, np.cosh(exponent))


def branch_matrix(impedance: Any, placement: str) -> Any:
    """Of an impedance in the line or across it."""
    nothing = 0 * impedance
    in_line, across = (impedance, nothing) if placement == "series" else (nothing, 1 / impedance)
    return matrix(1 + nothing, in_line, across, 1 + nothing)


def matrix(*abcd: Any) -> Any:
    """One two-by-two matrix for each value."""
    return np.moveaxis(np.array(abcd).reshape(2, 2, -1), -1, 0)


def by_chain_matrices(network: MatchingNetwork, ratio: float) -> Any:
    """Input reflection of each of a network's values: all matrices multiplied, then (A Z + B) / (C Z + D)."""
    whole = np.eye(2)
    for element in network.elements:  # the first is at the load, on the right of the product
        whole = chain_matrix(element, ratio) @ whole
    (a, b), (c, d) = np.moveaxis(whole, 0, -1)
    return reflection(
        (a * network.load_impedance + b) / (c * network.load_impedance + d), network.line_impedance
    )


def reflection(impedance: Any, line: Any) -> Any:
    """By admittances."""
    return (1 / line - 1 / impedance) / (1 / line + 1 / impedance)


class TestInputReflection:
    @pytest.mark.parametrize("seed", range(40))
    def test_chain_matrices(self, seed):
        """Random chains of one to six elements, lossy ones too, reflect over frequency as their chain matrices do."""
        rng = loads.random(seed)
        elements = tuple(random_element(rng, 30) for _ in range(rng.integers(1, 7)))
        network = MatchingNetwork(50 * loads.anywhere(rng, 30), rng.uniform(25, 100, 30), elements)
        expected = np.stack([by_chain_matrices(network, ratio) for ratio in RATIOS], axis=-1)

        assert np.abs(network.input_reflection(RATIOS) - expected).max() <= 1e-12

    def test_nothing(self):
        """With no elements the load itself reflects, at every frequency, open circuits among the loads too."""
        mixed = [LOAD, np.inf, 0]
        expected = np.repeat(np.array(reflection_coefficient(mixed, LINE))[:, None], 3, axis=1)

        assert (expected == MatchingNetwork(mixed, LINE, ()).input_reflection([1, 2, 3])).all()

    def test_next_to_nothing(self):
        """Lengths of which a square would leave nothing are none; a frequency next to nothing is refused."""
        shorted = MatchingNetwork(LOAD, LINE, (Stub(5e-324, 50), Section(5e-324, 50), Stub(1e-160, 50)))
        blocked = MatchingNetwork(LOAD, LINE, (Reactance(-30), Reactance(-40, "shunt")))

        assert -1 == shorted.input_reflection()
        assert 1 == blocked.input_reflection(0.0)
        with pytest.raises(OutOfRange, match="must be 0, or at least 1e-09"):
            blocked.input_reflection(5e-324)

    def test_shapes(self):
        """Elements of shape S over frequencies of shape F reflect in the shape S + F; numbers in a number."""
        near, _ = single_stub(np.full((2, 3), LOAD), LINE)

        assert (2, 3) == near.input_reflection().shape
        assert (2, 3, 5, 4) == near.input_reflection(np.ones((5, 4))).shape
        assert isinstance(single_stub(LOAD, LINE)[0].input_reflection(), complex)

    def test_load_over_frequency(self):
        """A load that changes with frequency is given beside the frequencies, one for all or one for each."""
        near, _ = single_stub([LOAD, 25 - 50j], LINE)
        ratios, sweep = [0.9, 1, 1.1], [60 - 100j, LOAD, 60 - 70j]
        one, other = (single_stub(load, LINE)[0].elements for load in (LOAD, 25 - 50j))
        expected = [
            [
                MatchingNetwork(z, LINE, elements).input_reflection(f)
                for f, z in zip(ratios, sweep, strict=True)
            ]
            for elements in (one, other)
        ]

        assert pytest.approx(np.array(expected)) == near.input_reflection(ratios, sweep)
        assert pytest.approx(0, abs=1e-14) == near.input_reflection(ratios, sweep)[0, 1]

    def test_bad_load_over_frequency(self):
        """A load below zero ohms at any frequency is refused."""
        with pytest.raises(NegativeResistance, match=r"resistance of -1 ohm"):
            single_stub(LOAD, LINE)[0].input_reflection([0.9, 1.1], [50, -1])

    @pytest.mark.parametrize(
        ("load", "element", "expected"),
        [
            pytest.param(0, Stub(0, 50), -1, id="short across short"),
            pytest.param(0, Reactance(0, "shunt"), -1, id="nothing across short"),
            pytest.param(np.inf, Stub(0, 50, "series", "open"), 1, id="open in line with open"),
            pytest.param(np.inf, Stub(0, 50), -1, id="short across open"),
            pytest.param(0, Stub(0, 50, "series", "open"), 1, id="open in line with short"),
            pytest.param(50, Stub(0, 50), -1, id="short across the line"),
            pytest.param(50, Stub(0, 50, "series", "open"), 1, id="open in the line"),
            pytest.param(50, Stub(0, 50, "shunt", "open"), 0, id="stub of no length, open, across"),
            pytest.param(50, Stub(0, 50, "series"), 0, id="stub of no length, shorted, in the line"),
        ],
    )
    def test_shorts_and_opens(self, load, element, expected):
        """Shorts and opens, of the load and of stubs, do what everyone expects of them, and nothing warns."""
        assert expected == MatchingNetwork(load, LINE, (element,)).input_reflection()
        mixed = MatchingNetwork([load, load], LINE, (element,)).input_reflection([1.0, 2.0])
        assert (expected == mixed).all()

    def test_lumped_over_frequency(self):
        """At twice the frequency an inductor has twice its reactance and a capacitor half of it."""
        for reactance, doubled in ((30, 60), (-30, -15)):
            network = MatchingNetwork(LOAD, LINE, (Reactance(reactance),))

            assert pytest.approx(reflection(LOAD + 1j * doubled, LINE)) == network.input_reflection(2)


class TestPath:
    NETWORK = MatchingNetwork(
        LOAD,
        LINE,
        (
            Section(0.11, 50),
            Stub(0.2, 75),
            Section(0.3, 50),
            Stub(0.1, 60, "series", "open"),
            Reactance(20),
            Reactance(-70, "shunt"),
        ),
    )

    def test_ends(self):
        """The way starts at the load, goes on where it left off, and ends at the input reflection."""
        ways = list(self.NETWORK.path(7))

        assert [(7,)] * 6 == [way.shape for way in ways]
        assert pytest.approx(reflection_coefficient(LOAD, LINE)) == ways[0][0]
        assert pytest.approx([way[-1] for way in ways[:-1]]) == [way[0] for way in ways[1:]]
        assert pytest.approx(self.NETWORK.input_reflection()) == ways[-1][-1]

    def test_each_on_its_circle(self):
        """The line's own sections turn clockwise, what is across keeps conductance, what is in line resistance."""
        first, stub, second, in_line, inductor, capacitor = self.NETWORK.path(61)

        for section, length in ((first, 0.11), (second, 0.3)):
            walked = toward_generator(section[0], length * np.linspace(0, 1, 61))
            assert pytest.approx(walked, abs=1e-13) == section
        for across in (stub, capacitor):
            conductance = admittance_from_reflection(across).real
            assert pytest.approx(np.repeat(conductance[0], 61)) == conductance
        for series in (in_line, inductor):
            resistance = impedance_from_reflection(series).real
            assert pytest.approx(np.repeat(resistance[0], 61)) == resistance

    @pytest.mark.parametrize("placement", ["shunt", "series"])
    @pytest.mark.parametrize("end", ["short", "open"])
    def test_match_ends_in_the_middle(self, placement, end):
        """The way of a match ends in the middle of the chart."""
        for solution in single_stub(LOAD, LINE, 75, placement, end):
            assert pytest.approx(0, abs=1e-14) == list(solution.path())[-1][-1]


class TestWorstReflection:
    @given(error=st.floats(0, 0.02))
    def test_worst_of_four_corners(self, error):
        """Both lengths long or short, together or one each way: the worst of four networks."""
        for placement, end in product(("shunt", "series"), ("short", "open")):
            for solution in single_stub(LOAD, LINE, 75, placement, end):
                d, length = solution.distance, solution.stub_length
                corners = [
                    (Section(max(d + one, 0.0), 50), Stub(max(length + two, 0.0), 75, placement, end))
                    for one, two in product((error, -error), repeat=2)
                ]
                reflections = [MatchingNetwork(LOAD, LINE, corner).input_reflection() for corner in corners]

                assert pytest.approx(max(map(abs, reflections)), abs=1e-14) == solution.worst_reflection(
                    error
                )

    def test_worst_of_all_corners(self):
        """In a longer chain one line long and another short may be worst; lumped parts have no length to be wrong."""
        parts = Section(0.3, 80), Stub(0.1, 60, "series", "open"), Section(0.15, 30), Reactance(20)
        corners = [
            (
                Section(0.3 + a, 80),
                Stub(0.1 + b, 60, "series", "open"),
                Section(0.15 + c, 30),
                Reactance(20),
            )
            for a, b, c in product((0.02, -0.02), repeat=3)
        ]
        sizes = [abs(MatchingNetwork(LOAD, LINE, corner).input_reflection()) for corner in corners]

        assert pytest.approx(max(sizes)) == MatchingNetwork(LOAD, LINE, parts).worst_reflection(0.02)
        assert max(sizes) > max(sizes[0], sizes[-1]) + 0.01  # neither all long nor all short

    def test_shape(self):
        """In arrays, of each network for itself; with no error it is the match."""
        near, _ = single_stub(np.full((2, 3), LOAD), LINE)

        assert pytest.approx(np.full((2, 3), single_stub(LOAD, LINE)[0].worst_reflection(0.01))) == (
            near.worst_reflection(0.01)
        )
        assert near.worst_reflection(0).max() < 1e-14


def test_total_line():
    """All line counts, stubs included; lumped parts are none."""
    assert pytest.approx(0.11 + 0.2 + 0.3 + 0.1) == TestPath.NETWORK.total_line


@pytest.mark.parametrize(
    ("make", "error", "sentence"),
    [
        (lambda: Section(-0.1, 50), NotALength, r"length must be zero or more wavelengths, not -0\.1"),
        (lambda: Section([0.1, np.inf], 50), NotALength, r"length must be .* not inf"),
        (lambda: Section(0.1, 0), NotAnImpedance, r"impedance must be a positive number of ohms"),
        (lambda: Section(0.1, 50, -1), OutOfRange, r"attenuation must be .* not -1"),
        (lambda: Stub(-0.1, 50), NotALength, r"length must be zero or more wavelengths"),
        (lambda: Stub(0.1, 50 + 1j), NotAnImpedance, r"impedance must be real"),
        (lambda: Stub(0.1, 50, "across"), UnknownChoice, r"placement must be shunt or series, not 'across'"),
        (lambda: Stub(0.1, 50, end="closed"), UnknownChoice, r"end must be short or open, not 'closed'"),
        (lambda: Reactance(10, "across"), UnknownChoice, r"placement must be shunt or series"),
    ],
)
def test_no_such_element(make, error, sentence):
    """An element that cannot be built is refused with a sentence."""
    with pytest.raises(error, match=rf"^The (line )?{sentence}.*\.$"):
        make()
