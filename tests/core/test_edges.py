"""The later designers at the edges of the chart: each answers, says why where there is nothing, and keeps its word."""

import numpy as np
import pytest

import core

DESIGNERS = {
    "conjugate single stub": lambda load: core.conjugate_single_stub(load, 40 + 15j, 50),
    "conjugate quarter wave": lambda load: core.conjugate_quarter_wave(load, 40 + 15j, 50),
    "conjugate section": lambda load: core.conjugate_section(load, 40 + 15j),
    "conjugate L": lambda load: core.conjugate_l_network(load, 40 + 15j, 434e6),
    "Pi": lambda load: core.pi_network(load, 40 + 15j, 6.0, 434e6),
    "T": lambda load: core.t_network(load, 40 + 15j, 6.0, 434e6),
    "binomial": lambda load: core.binomial_transformer(load, 50, 3),
    "equal ripples": lambda load: core.chebyshev_transformer(load, 50, 3, bandwidth=0.5),
    "triple stub": lambda load: core.triple_stub(load, 50, (0.11, 0.13)),
    "triple stub, first given": lambda load: core.triple_stub(load, 50, (0.11, 0.13), 0.02, 0.21),
    "series double stub": lambda load: core.series_double_stub(load, 50, 0.125),
    "two equal stubs": lambda load: core.two_equal_stubs(load, 50),
    "stub and quarter wave": lambda load: core.stub_and_section(load, 50, placement="series"),
    "stub and section": lambda load: core.stub_and_section(load, 50, 75),
}
POWERLESS = [0, np.inf, 30j, -1e9j, complex(np.inf, np.inf)]
POWERFUL = [
    50,
    50 + 30j,
    1 / (0.02 + 0.01j),
    40 - 15j,
    40 + 15j,
    25,
    100,
    60 - 80j,
    50 * (1 + 1e-12),
    5e-4j + 0.3,
]
EXTREME = [1e-9, 1e9, 1e-6 + 50j, 2e4 + 1e6j]

each = pytest.mark.parametrize("designer", DESIGNERS.values(), ids=DESIGNERS)


@each
@pytest.mark.parametrize("load", POWERLESS)
def test_a_load_that_takes_no_power(designer, load):
    """A load that takes no power has no solution, and the reason says so, alone and in an array."""
    found, among = designer(load), designer([load, 60 - 80j])

    assert 0 == len(found)
    assert "takes no power" in found.reason
    assert "takes no power" in among.reason
    assert all(np.isnan(network.input_reflection()[0]) for network in among)


@each
@pytest.mark.parametrize("load", POWERFUL)
def test_a_load_that_takes_power(designer, load):
    """Of any other load every network matches, or there is none and a reason that is not the load's power."""
    found = designer(load)

    assert [] == [network for network in found if not abs(network.input_reflection()) < 1e-12]
    assert found or found.reason
    assert "takes no power" not in found.reason


@each
@pytest.mark.parametrize("load", EXTREME)
def test_nearly_no_power(designer, load):
    """At SWRs of ten million networks match as well as lengths and values of sixteen digits can."""
    found = designer(load)

    assert [] == [network for network in found if not abs(network.input_reflection()) < 1e-4]
    assert found or found.reason


@each
def test_a_scalar_is_one_of_an_array(designer):
    """A load has the same solutions alone as among others, as plain numbers."""
    alone, among = designer(60 - 80j), designer([60 - 80j, 10])
    there = [network for network in among if not np.isnan(network.input_reflection()[0])]
    values = [[_values(network, 0) for network in networks] for networks in (alone, there)]

    assert len(alone) == len(there)
    assert np.allclose(values[0], values[1], rtol=1e-13, atol=1e-13) if alone else found_none(among)
    assert {float} >= {type(_values(network)[0]) for network in alone}


@each
def test_everything_broadcasts(designer):
    """A table of loads gives networks of the table's shape."""
    found = designer(np.array([[60 - 80j, 20], [10 + 5j, 50]]))

    assert len(found)
    assert {(2, 2)} == {np.shape(network.input_reflection()) for network in found}


def found_none(among):
    """Whether the first of an array has no solution."""
    return all(np.isnan(network.input_reflection()[0]) for network in among)


def _values(network, which=()):
    """Length, or reactance, of each element."""
    raw = [e.length if hasattr(e, "length") else e.reactance for e in network.elements]
    return [value[which] if np.ndim(value) else value for value in raw]
