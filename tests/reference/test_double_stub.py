"""Double stubs against published worked examples and against scikit-rf.

Printed values were recalled from memory, not read from the books; each was recomputed and agrees.
"""

import pytest

from core import double_stub
from core.forbidden import conductance_limit
from tests.reference.library_cascade import RATIOS, cascaded_reflection

READ_FROM_CHART = 0.0015  # wavelengths
POZAR = "Pozar, Microwave Engineering, 4th ed., Ex 5.4 (from memory)"
CHENG = "Cheng, Field and Wave Electromagnetics, 2nd ed., Ex 9-20 (from memory, the number uncertain)"


@pytest.mark.parametrize(
    ("load", "ends", "printed"),
    [
        pytest.param(60 - 80j, ("open", "open"), [(0.146, 0.204), (0.482, 0.350)], id=POZAR),
        pytest.param(60 + 80j, ("short", "short"), [(0.346, 0.100), (0.430, 0.455)], id=CHENG),
    ],
)
def test_stub_lengths(load, ends, printed):
    """Both solutions agree with the printed lengths, read from a chart."""
    found = double_stub(load, 50, 1 / 8, ends=ends)

    assert 2 == len(found)
    for lengths, network in zip(printed, found, strict=True):
        assert lengths == pytest.approx(network.stub_lengths, abs=READ_FROM_CHART)


@pytest.mark.parametrize(
    ("load", "ends", "first", "second"),
    [
        pytest.param(60 - 80j, ("open", "open"), [1.314, -0.114], [3.38, -1.38], id=POZAR),
        pytest.param(60 + 80j, ("short", "short"), [0.69, 2.15], [-1.38, 3.4], id=CHENG),
    ],
)
def test_susceptances(load, ends, first, second):
    """Both stubs' susceptances agree with the printed ones, the first read from a chart for the second source."""
    found = double_stub(load, 50, 1 / 8, ends=ends)

    assert first == pytest.approx([network.stub_susceptances[0] for network in found], abs=0.04)
    assert second == pytest.approx([network.stub_susceptances[1] for network in found], abs=0.04)


def test_admittances_of_the_worked_example():
    """The load admittance is 0.3+j0.4, and that at the second stub 1-j3.38 or 1+j1.38.

    Source: Pozar, Microwave Engineering, 4th ed., Ex 5.4 (from memory)."""
    found = double_stub(60 - 80j, 50, 1 / 8, ends=("open", "open"))

    assert 0.3 + 0.4j == pytest.approx(found[0].load_admittance, abs=1e-12)
    assert [1 - 3.38j, 1 + 1.38j] == pytest.approx([n.admittance_at_second_stub for n in found], abs=0.005)


@pytest.mark.parametrize(
    ("spacing", "limit"),
    [
        pytest.param(1 / 8, 2.0, id="an eighth: g above 2 cannot be matched"),
        pytest.param(1 / 4, 1.0, id="a quarter: g above 1"),
        pytest.param(3 / 8, 2.0, id="three eighths: as an eighth"),
    ],
)
def test_forbidden_conductances(spacing, limit):
    """The usual spacings have the usual limits, and just beside them a load is matched or not.

    Source: Pozar, Microwave Engineering, 4th ed., section 5.3, eq. 5.21 (from memory)."""
    assert limit == pytest.approx(conductance_limit(spacing), rel=1e-12)
    assert 2 == len(double_stub(50 / (limit * 0.999 + 0.3j), 50, spacing))
    assert 0 == len(double_stub(50 / (limit * 1.001 + 0.3j), 50, spacing))


@pytest.mark.parametrize("ends", [("short", "short"), ("open", "short"), ("short", "open"), ("open", "open")])
def test_response_agrees_with_scikit_rf(ends):
    """Over two octaves the networks reflect as the same cascade in scikit-rf, to 1e-12.

    Source: scikit-rf, general-purpose library."""
    for load in (60 - 80j, 15 + 10j, 120 + 35j):
        found = double_stub(load, 50, 0.11, 0.1, ends, (75, 40))
        assert 2 == len(found)
        for network in found:
            got = network.input_reflection(RATIOS)
            assert cascaded_reflection(network, RATIOS) == pytest.approx(got, abs=1e-12)
            assert abs(cascaded_reflection(network, [1.0])[0]) < 1e-12
